#include <cmath>

#include "brep/plan.hpp"
#include "parts/pieces.hpp"
#include "parts/touching.hpp"
#include "units/tolerance.hpp"

namespace fallwright::parts {
namespace {

/// A joist follows the deck it carries. On a plane floor all are one shape: a step along the plane carries it into
/// itself.
class Joists {
 public:
  Joists(const job::Job& job, const job::Layout& layout)
      : floor_{job.floor},
        layout_{layout},
        along_depth_{floor_.joist_direction == job::Direction::along_depth},
        half_{floor_.joist_stock.thickness.in_mm() / 2} {}

  std::vector<Solid> build() {
    const job::Rect& all = layout_.extent;
    // The tape that finds the first one is hooked on the left stud face beside the bore, where joists are looked for,
    // unless it is said to have been elsewhere.
    const double beside = floor_.joist_first_at ? floor_.joist_first_at->in_mm() : layout_.drain_y;
    const double hook = along_depth_ ? layout_.room.innermost(job::Side::left, beside, beside, 0, 0) : 0;
    const double spacing = floor_.joist_spacing.in_mm(), own = hook + floor_.joist_first->in_mm();
    const double begin = along_depth_ ? all.x0 : all.y0, end = along_depth_ ? all.x1 : all.y1;
    // One that ends just where the floor does is there, in a room as in its mirror image.
    constexpr double same = units::tolerance::length_mm;
    const double first = own + std::ceil((begin + half_ - same - own) / spacing) * spacing;
    for (double centre = first; centre + half_ <= end + same; centre += spacing) {
      const PartId id{{Role::joist}, Kind::joist, 0, static_cast<int>(joists_.size()) + 1};
      if (layout_.subfloor.is_plane() && !joists_.empty())
        repeat(id, centre - first);
      else
        add(id, centre);
    }
    for (Solid& joist : joists_) joist.cut.reset();  // they carry the floor already
    return std::move(joists_);
  }

 private:
  void add(const PartId& id, double centre) {
    const job::Rect& all = layout_.extent;
    const job::Rect plan = along_depth_ ? job::Rect{centre - half_, all.y0, centre + half_, all.y1}
                                        : job::Rect{all.x0, centre - half_, all.x1, centre + half_};
    const survey::Polygon window = survey::to_polygon(plan);
    const double deck = floor_.deck.in_mm();
    joists_.push_back(make_board(id, floor_.joist_stock,
                                 floor_relief(layout_, window, -deck - floor_.joist_stock.depth.in_mm()),
                                 floor_relief(layout_, window, -deck), along_depth_ ? gp::DY() : gp::DX()));
  }

  void repeat(const PartId& id, double step) {
    const job::HeightPlane& plane = layout_.subfloor.cells().front().plane;
    const double rise = step * (along_depth_ ? plane.gx : plane.gy);
    gp_Trsf shift;
    shift.SetTranslation(along_depth_ ? gp_Vec{step, 0, rise} : gp_Vec{0, step, rise});
    Solid joist = joists_.front();
    joist.call(id);
    move(joist, shift);
    joists_.push_back(std::move(joist));
  }

  const job::Floor& floor_;
  const job::Layout& layout_;
  bool along_depth_;
  double half_;
  std::vector<Solid> joists_;
};

}  // namespace

brep::Relief floor_relief(const job::Layout& layout, const survey::Polygon& window, double raised_mm,
                          double hole_radius_mm) {
  brep::Relief relief;
  for (const survey::Cell& cell : layout.subfloor.cells()) {
    brep::Loop loop;
    for (const survey::Point& p : survey::common(cell.plan, window)) loop.push_back({{p.x, p.y}});
    if (loop.empty()) continue;
    const brep::Plane plane = to_plane(cell.plane.raised(raised_mm));
    if (hole_radius_mm <= 0) {
      relief.push_back({{loop}, plane});
      continue;
    }
    for (auto& loops : brep::outside_disc({loop}, {layout.drain_x, layout.drain_y}, hole_radius_mm))
      relief.push_back({std::move(loops), plane});
  }
  return relief;
}

std::vector<Solid> make_subfloor(const job::Job& job, const job::Layout& layout) {
  const bool slab = job.floor.kind == job::FloorKind::slab;
  const survey::Polygon plan = survey::to_polygon(layout.extent);
  const double bore = clear_of_floor(job.drain.bore.in_mm() / 2, layout, plan);
  const brep::Relief top = floor_relief(layout, plan, 0, bore);
  const brep::Relief bottom = floor_relief(layout, plan, -job.floor.deck.in_mm(), bore);
  // Densities: plywood 600, concrete 2400 kg/m3: from memory.
  std::vector<Solid> solids{to_solid({{Role::subfloor}}, slab ? "concrete" : "plywood", slab ? 2400 : 600,
                                     brep::between(top, bottom, "subfloor"))};
  if (!slab && job.floor.joist_first)  // where nobody knows of joists, none is drawn
    for (Solid& joist : Joists{job, layout}.build()) solids.push_back(std::move(joist));
  return solids;
}

}  // namespace fallwright::parts
