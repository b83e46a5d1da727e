/// What is to be done about a base that lies wrong in its wet bed: pressed level to its lowest place, then down as a
/// whole, and never deeper than leaves the mortar that is asked for. Inside `rules` only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/as_set.hpp"

namespace fallwright::rules {

struct Plan {
  Next next = Next::press;
  std::string words;  ///< what to do, in the order of doing it; no full stop
};

/// How thick the bed is at a gauge, as the base lies now. @pre how high it lies was read
double thick_now(const facts::Facts& facts, const facts::Gauge& g);

/// Where the bed may be thinnest under a base that is raised and tilted: at its gauges, and wherever else both touch.
std::vector<facts::BedDepth> beds_of(const facts::Facts& facts);

/// By how much the space under the base, as it lies now, is higher on average than the mortar that was spread would
/// fill it; less than nothing: mortar is to spare. Nothing where the bed has no plan. @pre how high it lies was read
std::optional<double> hollow_now(const facts::Facts& facts);

/// Whether no place stands higher than the rule tells from the lowest: there is nothing to press.
bool reads_level(const job::Job& job, const facts::AsSet& set);

/// Where that is so, and the base keeps its limits when it lies level, a tilt that breaks one lies within the mark that
/// was read to: it asks for care, and no reading would pass that is not level to the last hair.
void care_within_a_mark(const job::Job& job, const facts::Facts& facts, std::vector<Result>& results);

/// What is looked at where readings put the base where none can lie.
inline constexpr const char* look_at_line =
    "look whether they are heights above the level line or distances below it, and how high that line hangs above the "
    "datum";

/// Why no base lies where these readings put it; nothing where one can.
std::optional<std::string> cannot_lie_so(const job::Job& job, const facts::Facts& facts,
                                         const std::vector<Result>& results);

/// @pre the rim was read, and something of it fails
Plan plan_of(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results);

/// How a base that lies level, and too high for what stands in front of it, comes down to it while its mortar is wet;
/// nothing where the bed that must stay, its riser or another check does not allow that.
std::optional<std::string> pressed_to_meet(const job::Job& job, const facts::Facts& facts,
                                           const std::vector<Result>& results, const Result& r);

/// Every check of the base as set that fails advises the same plan; what stands in front of it, to press it to that.
void advise_by_plan(const job::Job& job, const facts::Facts& facts, std::vector<Result>& results);

}  // namespace fallwright::rules
