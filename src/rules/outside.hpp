/// What stands in front of the base meets it as it lies: checks that are judged so once its height was read, and what
/// they say of a base that is yet to be pressed. Inside `rules` only.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "facts/facts.hpp"
#include "rules/book.hpp"

namespace fallwright::rules {

inline constexpr std::array outside_checks{"threshold.above-outside", "threshold.step-outside", "entry.step"};

/// The facts with the base lying so much above its design at the drain, and leaning so along x and y.
/// @pre how high it lies was read
facts::Facts lying_at(const facts::Facts& facts, double raised_mm, double gx, double gy);

/// What such a check measures of a base as it lies; nothing where it measures nothing, or by the design alone.
std::optional<double> measured_outside(const std::string& id, const job::Job& job, const facts::Facts& facts,
                                       const Limit& limit);

}  // namespace fallwright::rules
