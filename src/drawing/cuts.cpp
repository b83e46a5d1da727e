#include <cmath>

#include "drawing/views.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

/// A piece lying along the sheet, seen on its broad side, and its cross-section beside it.
void add_piece(Pen& pen, const parts::Solid& solid, double length, double width, Point corner) {
  const gp_Dir& axis = solid.cut->axis;
  const gp_Dir side = std::abs(axis.Z()) > 0.7 ? gp::DX() : gp_Dir{-axis.Y(), axis.X(), 0};
  for (const gp_Dir& toward : {side, axis.Crossed(side)}) {
    Sheet flat{};
    const Projection seen = project({solid.shape}, {toward, axis}, solid.cut->steel);
    Pen{flat, 1}.add(seen);
    const Frame f = frame_of(flat);
    const bool broad = std::abs(f.height() - width) < 0.01 * width + 0.01;
    if (!broad) continue;
    pen.add(seen, {corner.x - f.x0, corner.y - f.y0});
    break;
  }
  Sheet flat{};
  const Projection end = project({solid.shape}, {axis, side}, false);
  Pen{flat, 1}.add(end);
  const Frame f = frame_of(flat);
  pen.add(end, {corner.x + length + 6 * pen.text_mm() - f.x0, corner.y - f.y0});
}

}  // namespace

Sheet draw_cuts(const parts::Model& model, const facts::Facts& facts, const std::vector<takeoff::CutRow>& cuts) {
  Sheet sheet{"cuts", "Pieces to cut, full size", model.job.unit == job::UnitSystem::metric, {}, {}, {}, {}};
  double longest = 0;
  for (const takeoff::CutRow& cut : cuts) longest = std::max(longest, cut.length_mm);
  Pen pen{sheet, std::max(12.0, longest / 90)};
  const double t = pen.text_mm();
  double y = 0;
  for (const takeoff::CutRow& cut : cuts) {
    const parts::Solid& solid = *model.find(cut.part_ids.front());
    double width = 0;
    for (const facts::Member& member : facts.members)
      if (member.part_id == solid.id) width = member.width_mm;
    y -= width + 7 * t;
    add_piece(pen, solid, cut.length_mm, width, {0, y});
    pen.across({0, y}, {cut.length_mm, y}, y - 2.2 * t);
    const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), sheet.metric); };
    const std::string size =
        cut.sheet ? len(cut.length_mm) + " x " + len(cut.width_mm) + ", " + len(cut.thickness_mm) + " thick"
                  : len(cut.length_mm);
    pen.note({0, y + width + 0.6 * t},
             cut.mark + "   " + std::to_string(cut.count) + " x " + cut.stock + "   " + size + "   " + cut.ends);
  }
  add_title(sheet, pen, model.job, {"Long point to long point. Section at the right of each piece."});
  return sheet;
}

}  // namespace fallwright::drawing
