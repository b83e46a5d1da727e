#include "page/places.hpp"
#include "rules/as_set.hpp"

#include <algorithm>
#include <utility>

namespace fallwright::page {
namespace {

bool names(const std::string& words, const std::string& quoted) {
  return words.find("'" + quoted + "'") != std::string::npos;
}

/// The solids named one by one in what was found; else all of the roles it rests on.
std::vector<std::string> parts_of(const rules::Result& result, const facts::Facts& facts) {
  std::vector<std::string> parts;
  for (const facts::Part& part : facts.parts)
    if (names(result.where, part.id)) parts.push_back(part.id);
  if (!parts.empty()) return parts;
  for (const rules::Support& support : result.rests_on)
    for (const facts::Part& part : facts.parts)
      if (support.role && !part.before && part.which.is(*support.role)) parts.push_back(part.id);
  return parts;
}

/// Which surface a check of falls looks at, by its family.
std::optional<facts::Surface> surface_of(const std::string& id) {
  if (id.starts_with("floor.") || rules::is_as_set(id)) return facts::Surface::base_floor;
  if (id.starts_with("seat.")) return facts::Surface::seat;
  return id.starts_with("threshold.") ? std::optional{facts::Surface::threshold} : std::nullopt;
}

void name_facet(const rules::Result& result, const facts::Facts& facts, Place& place) {
  for (const facts::Facet& facet : facts.facets) {
    if (facet.surface != surface_of(result.id) || !names(result.where, facet.facet)) continue;
    place.surface = facet.surface, place.facet = facet.facet;
    facts::Point middle;
    for (std::size_t i = 0; i < 3; ++i) middle[i] = (facet.low_mm[i] + facet.high_mm[i]) / 2;
    place.at = middle;
  }
}

std::optional<facts::Point> clash_of(const facts::Facts& facts) {
  for (const facts::Fit& fit : facts.fits)
    if (fit.state == facts::Touch::clash) return fit.at_mm;
  return std::nullopt;
}

/// Points that were measured together with the number.
std::optional<facts::Point> point_of(const std::string& id, const facts::Facts& facts) {
  if (id == "clear.circle" || id == "clear.area" || id == "clear.width") return facts.clear.circle_at_mm;
  if (id == "bed.least" || id == "bed.thickness") return facts.bed.least_at_mm;
  if (id == "bed.greatest") return facts.bed.greatest_at_mm;
  if (id == "floor.hump" && facts.room.floor.known) return facts.room.floor.hump_at_mm;
  if (id == "fit.no-clash") return clash_of(facts);
  return std::nullopt;
}

}  // namespace

Place place_of(const rules::Result& result, const facts::Facts& facts) {
  Place place;
  place.parts = parts_of(result, facts);
  place.at = point_of(result.id, facts);
  if (!place.at) name_facet(result, facts, place);
  return place;
}

}  // namespace fallwright::page
