#include <cmath>

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

/// From the entry, from above and a little from the side on which the bench does not stand.
View corner_view(const job::Job& job) {
  const double side = job.bench && job.bench->place == job::BenchPlace::right_end ? -1 : 1;
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
  std::vector<std::pair<std::string, Point>> names;
  for (const auto& layer : layers) {
    gp_Trsf lift;
    lift.SetTranslation({0, 0, layer.lift});
    Point right{-1e9, 0};
    for (const parts::Solid& solid : subject.model.solids) {
      if (solid.role != layer.role) continue;
      shapes.push_back(seen_from_above(solid, subject.facts.heights.rim_greatest_mm).Moved(TopLoc_Location{lift}));
      const Frame f = extent(shapes.back(), view);
      if (f.x1 > right.x) right = {f.x1, (f.y0 + f.y1) / 2};
    }
    if (right.x > -1e8) names.emplace_back(layer.name, right);
  }
  const Projection all = project(shapes, view, false);
  return on_page("exploded", "In the order it goes together", subject.job(), [&](Sheet& sheet, Pen& pen) {
    pen.add(all);
    const double x = frame_of(sheet).x1 + 2 * pen.text_mm();
    for (const auto& [name, at] : names) {
      pen.line({at.x, at.y}, {x, at.y}, LineKind::dimension);
      pen.label({x + pen.text_mm() * 0.5, at.y - pen.text_mm() * 0.4}, name);
    }
    sheet.to_scale = false;
    sheet.notes = {"Lifted apart, in the order it goes together. Lengths cannot be taken from this picture."};
  });
}

}  // namespace fallwright::drawing
