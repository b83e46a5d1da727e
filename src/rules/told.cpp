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

job::Side told_hand(const facts::Facts& facts) {
  for (const facts::Facet& f : facts.facets)
    if (f.surface == facts::Surface::base_floor)
      for (const job::Side side : {job::Side::left, job::Side::right})
        if (f.facet == job::name_of(side)) return side;
  return drain_aside(facts) > units::tolerance::length_mm ? job::Side::right : job::Side::left;
}

int turn_of(job::Side wall, job::Side hand) {
  return wall == job::Side::back ? 0 : wall == hand ? 1 : 2;
}

}  // namespace fallwright::rules
