// How flat the boards of furred walls lie: along a wall, where they turn, and up it, where they fold.
#include <algorithm>
#include <cmath>
#include <limits>

#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/furring.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using survey::Side;

constexpr double same_in_plan_mm = units::tolerance::length_mm;
constexpr double straightedge_mm = 24 * units::inch_mm;  ///< over which folds that are alike to rounding are one

/// How far a line square to `into` comes into the room, along the wall.
double slope_of(Side wall, const gp_Dir& into) {
  return wall == Side::back ? into.X() / into.Y() : wall == Side::left ? -into.Y() / into.X() : into.Y() / into.X();
}

}  // namespace

std::optional<facts::Kink> Boards::kink_at(Side wall, double z, bool behind_bench) const {
  struct Place {
    const Stud* stud;
    double at, in;
  };
  std::vector<Place> places;
  for (const Stud& stud : walls_.at(wall)) {
    const bool counts = !stud.gap->stands_alone() && (behind_bench || stud.gap->before != facts::Before::bench);
    if (counts) places.push_back({&stud, stud.face.middle(), stud.line_at(wall, z)});
  }
  const double along_edge = slope_of(wall, *furred_to(wall));
  const Foremost foremost{model_};
  std::optional<facts::Kink> most;
  gp_Pnt told;
  for (std::size_t i = 1; i + 1 < places.size(); ++i) {
    const Place &a = places[i - 1], &b = places[i], &c = places[i + 1];
    const double first = b.at - a.at, other = c.at - b.at;
    if (std::min(first, other) < same_in_plan_mm) continue;
    const double slope = (b.in - a.in) / first - along_edge, next = (c.in - b.in) / other - along_edge,
                 turn = slope - next;
    const double bay = std::abs(slope) > std::abs(next) + units::tolerance::ratio   ? first
                       : std::abs(next) > std::abs(slope) + units::tolerance::ratio ? other
                                                                                    : std::min(first, other);
    // About a stud that stands out the board swings off a straightedge on its other side; a hollow lies under one that
    // bridges it.
    const bool out = turn > 0;
    const double by = std::abs(turn) * (out ? bay : first * other / (first + other));
    const gp_Pnt at = in_room(wall, b.at, b.in, z);
    if (most && by < most->by_mm - same_in_plan_mm) continue;
    if (most && by <= most->by_mm + same_in_plan_mm && !foremost.before(at, told)) continue;
    most = facts::Kink{wall, by, bay, b.stud->gap->running_mm, z, out}, told = at;
  }
  return most;
}

std::vector<facts::Kink> Boards::kinks(const facts::Heights& heights, double tile_top_mm) const {
  std::vector<facts::Kink> found;
  for (const auto& [wall, studs] : walls_) {
    if (!furred_to(wall)) continue;
    std::optional<facts::Kink> most;
    const auto look = [&](double z, bool behind_bench) {
      const auto here = kink_at(wall, z, behind_bench);
      if (here && (!most || here->by_mm > most->by_mm + same_in_plan_mm)) most = here;
    };
    look(heights.upstand_top_mm.value_or(heights.rim_greatest_mm), false);
    if (const parts::Solid* seat = model_.first(parts::Role::seat_block)) look(parts::box_of(*seat)[5] + 1, true);
    look(std::min(tile_top_mm, model_.job.alcove.height.in_mm()), true);
    if (most) found.push_back(*most);
  }
  return found;
}

std::vector<facts::Fold> Boards::folds(double tile_top_mm) const {
  std::vector<facts::Fold> found;
  const parts::Solid* seat = model_.first(parts::Role::seat_block);
  for (const auto& [wall, studs] : walls_) {
    std::optional<facts::Fold> most;
    for (const Stud& stud : studs) {
      const facts::StudGap& gap = *stud.gap;
      const double turn =
          gap.top_mm > gap.floor_mm ? std::abs(gap.at_top_mm - gap.at_floor_mm) / (gap.top_mm - gap.floor_mm) : 0;
      // Behind a bench and what turns up from its seat no board lies.
      const bool behind_bench = seat && gap.before == facts::Before::bench;
      const double hidden_to = behind_bench ? parts::box_of(*seat)[5] : std::numeric_limits<double>::lowest();
      for (const facts::Strip& strip : gap.strips) {
        // Where the stud's own face comes to its line; not where something else ends the strip.
        const double share = strip.to < 1 && !strip.below_seat ? strip.to : strip.from;
        const double z = stud.low + share * (stud.high - stud.low);
        if (share <= 0 || share >= 1 || std::abs(gap.at(z)) > same_in_plan_mm) continue;
        // A line is bound as high as the bench stands, so that a strip may run out just there.
        if (z >= tile_top_mm || z <= hidden_to + 2 * same_in_plan_mm / turn) continue;
        const double more = most ? (turn - most->turn) * straightedge_mm : 0;
        const bool lower = most && std::abs(more) <= same_in_plan_mm && z < most->above_datum_mm;
        if (!most || lower || more > same_in_plan_mm) most = facts::Fold{wall, turn, z};
      }
    }
    if (most) found.push_back(*most);
  }
  return found;
}

}  // namespace fallwright::measure
