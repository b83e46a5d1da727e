#include "rules/told.hpp"

#include <algorithm>
#include <cmath>

#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

const facts::Part* part(const facts::Facts& facts, facts::Role role) {
  const auto at =
      std::find_if(facts.parts.begin(), facts.parts.end(), [&](const facts::Part& p) { return p.which.is(role); });
  return at == facts.parts.end() ? nullptr : &*at;
}

/// How far the drain's mass lies to the right of the base's middle: of a channel to one side with its outlet.
double drain_aside(const facts::Facts& facts) {
  const facts::Part *base = part(facts, facts::Role::base), *drain = part(facts, facts::Role::drain);
  return base && drain ? drain->centroid_mm[0] - (base->bbox_mm[0] + base->bbox_mm[3]) / 2 : 0;
}

}  // namespace

std::string told_hand(const facts::Facts& facts) {
  for (const facts::Facet& f : facts.facets)
    if (f.surface == facts::Surface::base_floor && (f.facet == "left" || f.facet == "right")) return f.facet;
  return drain_aside(facts) > units::tolerance::length_mm ? "right" : "left";
}

int turn_of(const std::string& wall, const std::string& hand) {
  return wall == "back" ? 0 : wall == hand ? 1 : 2;
}

}  // namespace fallwright::rules
