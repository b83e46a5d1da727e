/// Where in the model a check looks, so that a tap on it can lead there. Inside `page` only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "rules/result.hpp"

namespace fallwright::page {

/// Solids that light up, a facet of theirs where the check names one, and the point it was measured at. Nothing of
/// these: the check looks at no place in particular.
struct Place {
  std::vector<std::string> parts;
  std::optional<facts::Surface> surface;
  std::string facet;
  std::optional<facts::Point> at;
  bool any() const { return !parts.empty() || at; }
};

Place place_of(const rules::Result& result, const facts::Facts& facts);

}  // namespace fallwright::page
