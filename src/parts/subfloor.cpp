#include <cmath>

#include "brep/plan.hpp"
#include "parts/pieces.hpp"

namespace fallwright::parts {
namespace {

/// The floor runs under the walls and on past the entry, and past a side without a wall as well.
job::Rect extent(const job::Job& job) {
  const double wall = job.walls.stock.depth.in_mm(), beyond = job.floor.beyond_entry.in_mm();
  const auto reach = [&](job::Side side) { return job.alcove.has_wall(side) ? wall : beyond; };
  return {-reach(job::Side::left), -beyond, job.alcove.width.in_mm() + reach(job::Side::right),
          job.alcove.depth.in_mm() + reach(job::Side::back)};
}

/// One joist under the deck, and its equals along the floor: a step along the plane carries the shape into itself.
std::vector<Solid> make_joists(const job::Job& job, const job::Layout& layout) {
  const job::Floor& floor = job.floor;
  const job::Rect all = extent(job);
  const bool along_depth = floor.joist_direction == job::Direction::along_depth;
  const double half = floor.joist_stock.thickness.in_mm() / 2, spacing = floor.joist_spacing.in_mm();
  const double begin = along_depth ? all.x0 : all.y0, end = along_depth ? all.x1 : all.y1;
  const job::HeightPlane top = layout.subfloor.raised(-floor.deck.in_mm());
  const job::HeightPlane bottom = top.raised(-floor.joist_stock.depth.in_mm());

  std::vector<Solid> joists;
  const double first =
      floor.joist_first.in_mm() + std::ceil((begin + half - floor.joist_first.in_mm()) / spacing) * spacing;
  for (double centre = first; centre + half <= end; centre += spacing) {
    const std::string id = numbered("joists/joist", static_cast<int>(joists.size()) + 1);
    if (joists.empty()) {
      const job::Rect plan = along_depth ? job::Rect{centre - half, all.y0, centre + half, all.y1}
                                         : job::Rect{all.x0, centre - half, all.x1, centre + half};
      joists.push_back(make_board(id, Role::joist, floor.joist_stock, to_loop(plan), to_plane(bottom), to_plane(top),
                                  along_depth ? gp::DY() : gp::DX()));
      continue;
    }
    const double step = centre - first, rise = step * (along_depth ? top.gx : top.gy);
    gp_Trsf shift;
    shift.SetTranslation(along_depth ? gp_Vec{step, 0, rise} : gp_Vec{0, step, rise});
    Solid joist = joists.front();
    joist.id = id;
    move(joist, shift);
    joists.push_back(std::move(joist));
  }
  return joists;
}

}  // namespace

std::vector<Solid> make_subfloor(const job::Job& job, const job::Layout& layout) {
  const bool slab = job.floor.kind == job::FloorKind::slab;
  const brep::Loop bore = brep::circle({layout.drain_x, layout.drain_y}, job.drain.bore.in_mm() / 2);
  const std::vector<brep::Loop> plan{to_loop(extent(job)), brep::reversed(bore)};
  const brep::Relief top{{plan, to_plane(layout.subfloor)}};
  const brep::Relief bottom{{plan, to_plane(layout.subfloor.raised(-job.floor.deck.in_mm()))}};
  // Densities: plywood 600, concrete 2400 kg/m3: from memory.
  std::vector<Solid> solids{to_solid("subfloor", Role::subfloor, slab ? "concrete" : "plywood", slab ? 2400 : 600,
                                     brep::between(top, bottom, "subfloor"))};
  if (!slab)
    for (Solid& joist : make_joists(job, layout)) solids.push_back(std::move(joist));
  return solids;
}

}  // namespace fallwright::parts
