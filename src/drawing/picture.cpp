#include <algorithm>
#include <cmath>
#include <optional>

#include <BRep_Builder.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS_Compound.hxx>
#include <gp_Trsf.hxx>

#include "brep/properties.hpp"
#include "drawing/views.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

bool bench_is_right(const job::Job& job) {
  return job.bench && job.bench->place == job::Side::right;
}

/// From the entry, from above and a little from the side on which the bench does not stand.
View corner_view(const job::Job& job) {
  const double side = bench_is_right(job) ? -1 : 1;
  const gp_Dir toward{0.55 * side, -1, 0.75};
  return {toward, gp_Dir{1, 0.55 * side, 0}};
}

/// Of a base what can be seen from above: its top, its upstands and its outer sides; of other solids all.
TopoDS_Shape seen_from_above(const parts::Solid& solid, double rim) {
  if (solid.role != Role::base) return solid.shape;
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (TopExp_Explorer it{faces_looking_up(solid.shape), TopAbs_FACE}; it.More(); it.Next())
    builder.Add(compound, it.Current());
  for (TopExp_Explorer it{solid.shape, TopAbs_FACE}; it.More(); it.Next()) {
    const auto box = brep::box_of(it.Current());
    const bool upright = box[5] - box[2] > 1 && (box[3] - box[0] < 0.01 || box[4] - box[1] < 0.01);
    if (upright && box[5] > rim + 1) builder.Add(compound, it.Current());
  }
  return compound;
}

/// The corner farthest to the side of the names (1 right, -1 left), and of those the highest, at which a line that can
/// be seen ends.
std::optional<Point> to_point_at(std::vector<Point> corners, const Projection& seen, double side) {
  std::sort(corners.begin(), corners.end(), [&](Point a, Point b) {
    const double further = side * (a.x - b.x);
    return std::abs(further) > 1 ? further > 0 : a.y > b.y;
  });
  for (const Point& corner : corners) {
    const auto here = [&](Point p) { return std::hypot(p.x - corner.x, p.y - corner.y) < 0.5; };
    for (const Line& line : seen.lines)
      if (here(line.from) || here(line.to)) return corner;
  }
  return std::nullopt;
}

/// Names in a column at `x`, each with a line from what it names; those too near each other part.
void add_names(Pen& pen, double x, double side, std::vector<std::pair<std::string, Point>> names) {
  const double t = pen.text_mm();
  std::sort(names.begin(), names.end(), [](const auto& a, const auto& b) { return a.second.y < b.second.y; });
  double last = -1e300;
  for (const auto& [name, at] : names) {
    last = std::max(at.y, last + 1.8 * t);
    pen.line(at, {x, last}, LineKind::dimension);
    pen.note({x + side * 0.5 * t, last - 0.4 * t}, name, side > 0 ? Anchor::left : Anchor::right);
  }
}

bool in_picture(const parts::Solid& s) {
  return s.role != Role::bed_spread && s.role != Role::joist;
}

}  // namespace

Sheet draw_assembly(const Subject& subject) {
  const View view = corner_view(subject.job());
  std::vector<TopoDS_Shape> shapes;
  for (const parts::Solid& solid : subject.model.solids) {
    // Nothing of the ribs and of the bed under the base can be seen.
    if (!in_picture(solid) || solid.role == Role::bed) continue;
    shapes.push_back(seen_from_above(solid, subject.facts.heights.rim_greatest_mm));
  }
  const Projection seen = project(shapes, view, false);
  return on_page("assembly", "The assembly", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(seen);
    sheet.to_scale = false;
    sheet.notes = {"Seen from the entry and above. Lengths cannot be taken from this picture."};
  });
}

/// What goes on last is lifted highest.
Sheet draw_exploded(const Subject& subject) {
  const View view = corner_view(subject.job());
  const double side = bench_is_right(subject.job()) ? -1 : 1;  // names stand where the bench does not
  const struct {
    Role role;
    const char* name;
    double lift;
  } layers[] = {{Role::subfloor, "subfloor with the bore", -700},
                {Role::bed, "mortar bed", -260},
                {Role::base, "base", 330},
                {Role::drain, "drain", 640},
                {Role::bench_frame, "bench frame", 330},
                {Role::seat_block, "seat block", 900}};
  std::vector<TopoDS_Shape> shapes;
  std::vector<std::pair<std::string, std::vector<Point>>> corners;
  for (const auto& layer : layers) {
    gp_Trsf lift;
    lift.SetTranslation({0, 0, layer.lift});
    std::vector<Point> of_layer;
    for (const parts::Solid& solid : subject.model.solids) {
      if (solid.role != layer.role) continue;
      shapes.push_back(seen_from_above(solid, subject.facts.heights.rim_greatest_mm).Moved(TopLoc_Location{lift}));
      for (const Point& corner : corners_of(shapes.back(), view)) of_layer.push_back(corner);
    }
    corners.emplace_back(layer.name, std::move(of_layer));
  }
  const Projection all = project(shapes, view, false);
  std::vector<std::pair<std::string, Point>> names;
  for (const auto& [name, of_layer] : corners)
    if (const auto at = to_point_at(of_layer, all, side)) names.emplace_back(name, *at);
  return on_page("exploded", "In the order it goes together", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(all);
    const Frame frame = frame_of(sheet);
    add_names(pen, (side > 0 ? frame.x1 : frame.x0) + side * 2 * pen.text_mm(), side, names);
    sheet.to_scale = false;
    sheet.notes = {"Lifted apart, in the order it goes together. Lengths cannot be taken from this picture."};
  });
}

}  // namespace fallwright::drawing
