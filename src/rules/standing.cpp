#include "rules/standing.hpp"

#include <algorithm>
#include <cmath>

#include "rules/check.hpp"
#include "rules/words.hpp"
#include "units/fall.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

/// What of a plane's fall its surface's check looks at; of the threshold what leads inward, toward the back.
double checked_fall(const facts::Facet& facet) {
  return facet.surface == facts::Surface::threshold ? facet.fall_toward(0, 1) : facet.fall;
}

bool breaks(const facts::Facet& facet, const Result& result) {
  if (!result.limit.least && !result.limit.greatest) return false;
  const bool whole = facet.surface != facts::Surface::base_floor && result.outcome == Outcome::fail;
  return whole || !keeps(checked_fall(facet), result.limit);
}

bool is_at(const facts::Facet& facet, const Limit& limit) {
  constexpr double near = 1e-3;
  const double at = limit.least.value_or(limit.greatest.value_or(0));
  return at > 0 && std::abs(facet.fall - at) < near * at;
}

}  // namespace

bool is_of_fall(const std::string& id, facts::Surface surface) {
  switch (surface) {
    case facts::Surface::base_floor:
      return id == "floor.fall-least" || id == "floor.fall-greatest";
    case facts::Surface::seat:
      return id == "seat.fall-least" || id == "seat.fall-greatest";
    case facts::Surface::threshold:
      return id == "threshold.falls-inward";
  }
  return false;
}

FallJudged judged_fall(const facts::Facet& facet, const std::vector<Result>& results) {
  FallJudged judged;
  for (const Result& result : results) {
    if (!is_of_fall(result.id, facet.surface)) continue;
    if (breaks(facet, result)) return {result.limit.least ? FallStanding::gentle : FallStanding::steep, &result};
    const bool here = result.measured && std::abs(*result.measured - checked_fall(facet)) < units::tolerance::ratio;
    if (here && (!judged.told || result.margin.value_or(1) < judged.told->margin.value_or(1))) judged.told = &result;
    if (facet.surface != facts::Surface::threshold && is_at(facet, result.limit))
      judged.standing = FallStanding::at_limit;
  }
  return judged;
}

std::optional<std::string> as_checked(double value, Unit unit, const std::vector<Result>& results,
                                      const job::Job& job) {
  const double same = unit == Unit::ratio ? units::tolerance::ratio : units::tolerance::length_mm;
  const Result* told = nullptr;
  for (const Result& r : results) {
    if (r.limit.unit != unit || !r.measured || std::abs(*r.measured - value) > same) continue;
    if (!told || r.margin.value_or(1) < told->margin.value_or(1)) told = &r;
  }
  return told ? std::optional{measured_text(*told, job)} : std::nullopt;
}

std::string text_of_fall(const facts::Facet& facet, const FallJudged& judged, const job::Job& job) {
  switch (judged.standing) {
    case FallStanding::gentle:
      return text_or_less(facet.fall, Unit::ratio, job);
    case FallStanding::steep:
      return text_or_more(facet.fall, Unit::ratio, job);
    default:
      if (judged.told) return measured_text(*judged.told, job);
      return units::to_text(units::Fall::ratio(facet.fall), job.is_metric());
  }
}

}  // namespace fallwright::rules
