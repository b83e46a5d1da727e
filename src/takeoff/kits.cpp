#include "takeoff/kits.hpp"

#include <algorithm>
#include <numeric>

#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {

KitGap usual_gap(bool metric) {
  return metric ? KitGap{3, 10} : KitGap{units::inch_mm / 8, 3 * units::inch_mm / 8};
}

std::vector<Kit> group_openings(const std::vector<double>& openings_mm, const KitGap& gap) {
  std::vector<std::size_t> order(openings_mm.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return openings_mm[a] < openings_mm[b]; });
  std::vector<Kit> kits;
  for (const std::size_t room : order) {
    const double opening = openings_mm[room];
    if (kits.empty() || opening > kits.back().length_mm + gap.greatest_mm + units::tolerance::length_mm)
      kits.push_back({opening - gap.least_mm, {}});
    kits.back().rooms.push_back(room);
  }
  for (Kit& kit : kits) std::sort(kit.rooms.begin(), kit.rooms.end());
  return kits;
}

std::optional<double> bench_opening_mm(const facts::Facts& facts) {
  for (const facts::Member& member : facts.members)
    if (member.which.is(facts::Role::bench_frame, facts::Kind::top_plate) ||
        member.which.kind == facts::Kind::top_track)
      return member.length_mm;
  return std::nullopt;
}

}  // namespace fallwright::takeoff
