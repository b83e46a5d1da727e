#include <algorithm>
#include <cmath>
#include <set>

#include <BRep_Tool.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "drawing/views.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// The way from the bench's wall to its front, and from its far end to its open end, in the alcove.
gp_Dir front_of(const job::Job& job) {
  switch (job.bench->place) {
    case job::BenchPlace::left_end:
      return gp::DX();
    case job::BenchPlace::right_end:
      return gp_Dir{-1, 0, 0};
    case job::BenchPlace::back:
      break;
  }
  return gp_Dir{0, -1, 0};
}
gp_Dir end_of(const job::Job& job) {
  return job.bench->place == job::BenchPlace::back ? gp::DX() : gp_Dir{0, -1, 0};
}

View view_from(const gp_Dir& toward) {
  return {toward, gp::DZ().Crossed(toward)};
}

/// A solid's extent in a view.
Frame extent(const TopoDS_Shape& shape, const View& view) {
  Sheet corners;
  for (TopExp_Explorer it{shape, TopAbs_VERTEX}; it.More(); it.Next()) {
    const gp_Pnt p = BRep_Tool::Pnt(TopoDS::Vertex(it.Current()));
    const Point at{p.XYZ().Dot(view.right.XYZ()), p.Z()};
    corners.lines.push_back({at, at, LineKind::outline});
  }
  return frame_of(corners);
}

Frame extent_of_frame(const parts::Model& model, const View& view) {
  Sheet all;
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != Role::bench_frame) continue;
    const Frame f = extent(solid.shape, view);
    all.lines.push_back({{f.x0, f.y0}, {f.x1, f.y1}, LineKind::outline});
  }
  return frame_of(all);
}

bool is_stud(const parts::Solid& solid) {
  return solid.id.rfind("bench-frame/stud", 0) == 0;
}

/// The members whose edges make the chain of heights: plates, tracks, rail and deck of the front.
bool is_course(const parts::Solid& solid) {
  const auto named = [&](const char* word) { return solid.id.find(word) != std::string::npos; };
  return solid.role == Role::bench_frame && !is_stud(solid) && !named("cleat") && !named("wall") && !named("joist");
}

/// Running upright chain: floor, plate tops, rail, deck, at the view's right.
void add_heights(Pen& pen, const parts::Model& model, const View& view, double x_thing, double x_line) {
  std::set<long> marks;  // hundredths of a millimetre, so that equal heights are one
  for (const parts::Solid& solid : model.solids) {
    if (!is_course(solid)) continue;
    const Frame f = extent(solid.shape, view);
    marks.insert(std::lround(f.y0 * 100));
    marks.insert(std::lround(f.y1 * 100));
  }
  double last = 0;
  bool first = true;
  for (const long mark : marks) {
    const double y = static_cast<double>(mark) / 100;
    // Sheet steel makes steps too small to measure on site; they would only blur the chain.
    if (!first && y - last < 6) continue;
    if (!first) pen.upright({x_thing, last}, {x_thing, y}, x_line);
    last = y;
    first = false;
  }
}

}  // namespace

Sheet draw_bench_front(const parts::Model& model, const facts::Facts&) {
  Sheet sheet{"bench-front", "Bench frame from the front", model.job.unit == job::UnitSystem::metric, {}, {}, {}, {}};
  const View view = view_from(front_of(model.job));
  const Frame frame = extent_of_frame(model, view);
  Pen pen{sheet, std::max(frame.width(), frame.height()) / 55};
  pen.add(project(shapes_of(model, [](const parts::Solid& s) { return s.role == Role::bench_frame; }), view, true));

  const double t = pen.text_mm();
  std::vector<double> marks{frame.x0};
  for (const parts::Solid& solid : model.solids)
    if (is_stud(solid)) {
      const Frame f = extent(solid.shape, view);
      marks.push_back((f.x0 + f.x1) / 2);
    }
  marks.push_back(frame.x1);
  std::sort(marks.begin(), marks.end());
  for (std::size_t i = 0; i + 1 < marks.size(); ++i)
    pen.across({marks[i], frame.y0}, {marks[i + 1], frame.y0}, frame.y0 - 3 * t,
               i == 0 ? Pen::Overflow::left : Pen::Overflow::right);
  pen.across({frame.x0, frame.y0}, {frame.x1, frame.y0}, frame.y0 - 6.5 * t);
  add_heights(pen, model, view, frame.x1, frame.x1 + 4 * t);
  pen.upright({frame.x1, frame.y0}, {frame.x1, frame.y1}, frame.x1 + 13 * t);
  add_title(sheet, pen, model.job,
            {"The lower chain runs from the frame's end over stud centres. Dashed: behind the front face."});
  return sheet;
}

Sheet draw_bench_end(const parts::Model& model, const facts::Facts& facts) {
  Sheet sheet{"bench-side",
              "Bench frame and seat from its open end",
              model.job.unit == job::UnitSystem::metric,
              {},
              {},
              {},
              {}};
  const View view = view_from(end_of(model.job));
  const Frame frame = extent_of_frame(model, view), seat = extent(model.first(Role::seat_block)->shape, view);
  Pen pen{sheet, std::max(seat.width(), seat.y1 - frame.y0) / 32};
  pen.add(project(
      shapes_of(model, [](const parts::Solid& s) { return s.role == Role::bench_frame || s.role == Role::seat_block; }),
      view, true));

  const double t = pen.text_mm();
  // The framed front looks left or right, as the bench's hand is; heights stand on that side, the chain on the other.
  const bool front_right = front_of(model.job).XYZ().Dot(view.right.XYZ()) > 0;
  const double front_x = front_right ? seat.x1 : seat.x0, back_x = front_right ? seat.x0 : seat.x1;
  const double out = front_right ? 1 : -1;
  pen.across({frame.x0, frame.y0}, {frame.x1, frame.y0}, frame.y0 - 3 * t);
  pen.across({seat.x0, frame.y0}, {seat.x1, frame.y0}, frame.y0 - 6 * t);
  pen.upright({front_x, 0}, {front_x, *facts.heights.seat_front_mm}, front_x + out * 3 * t);
  pen.upright({back_x, 0}, {back_x, frame.y1}, back_x - out * 3 * t);
  pen.upright({back_x, 0}, {back_x, seat.y1}, back_x - out * 11 * t);
  add_title(sheet, pen, model.job, {"Heights from the datum, the highest subfloor spot under the base."});
  return sheet;
}

}  // namespace fallwright::drawing
