#include <algorithm>
#include <cmath>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/shapes.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {

/// Joists stand square to the alcove's axes. A bay counts where base or bench lies over some of it.
facts::FloorDeck measure_deck(const parts::Model& model) {
  facts::FloorDeck deck;
  survey::Rect over = *plan_of(model, parts::Role::base);
  if (const auto bench = plan_of(model, parts::Role::bench_frame))
    over = {std::min(over.x0, bench->x0), std::min(over.y0, bench->y0), std::max(over.x1, bench->x1),
            std::max(over.y1, bench->y1)};
  const parts::Solid& subfloor = *model.first(parts::Role::subfloor);
  const Surface top{subfloor, true}, bottom{subfloor, false};
  deck.thickness_mm = top.carried_on(over.x0, over.y0) - bottom.carried_on(over.x0, over.y0);
  const bool along_depth = model.job.floor.joist_direction == job::Direction::along_depth;
  const std::size_t axis = along_depth ? 0 : 1;
  const Foremost foremost{model};
  gp_Pnt told;
  std::vector<double> centres;
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != parts::Role::joist) continue;
    const auto box = parts::box_of(solid);
    centres.push_back((box[axis] + box[axis + 3]) / 2);
  }
  std::sort(centres.begin(), centres.end());
  const double low = along_depth ? over.x0 : over.y0, high = along_depth ? over.x1 : over.y1;
  for (std::size_t i = 0; i + 1 < centres.size(); ++i) {
    const double apart = centres[i + 1] - centres[i];
    if (centres[i + 1] <= low || centres[i] >= high || apart < deck.apart_mm - units::tolerance::length_mm) continue;
    const double middle = centres[i] + apart / 2, across = (over.x0 + over.x1) / 2, along = (over.y0 + over.y1) / 2;
    const gp_Pnt at = along_depth ? gp_Pnt{middle, along, 0} : gp_Pnt{across, middle, 0};
    const bool alike = deck.measured && apart <= deck.apart_mm + units::tolerance::length_mm;
    deck.apart_mm = std::max(deck.apart_mm, apart);
    if (alike && !foremost.before(at, told)) continue;
    deck.measured = true;
    told = at;
    deck.at_mm = to_point(at);
  }
  return deck;
}

}  // namespace fallwright::measure
