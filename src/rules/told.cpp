#include "rules/told.hpp"

namespace fallwright::rules {

std::string told_hand(const facts::Facts& facts) {
  for (const facts::Facet& f : facts.facets)
    if (f.surface == facts::Surface::base_floor && (f.facet == "left" || f.facet == "right")) return f.facet;
  return "left";
}

int turn_of(const std::string& wall, const std::string& hand) {
  return wall == "back" ? 0 : wall == hand ? 1 : 2;
}

}  // namespace fallwright::rules
