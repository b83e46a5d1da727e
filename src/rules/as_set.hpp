/// The base as it lies in the wet bed, judged whole: one word on whether it may stay.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// What a crew does next.
enum class Next { leave, press, read_again, lift, mend_the_design };

struct AsSetVerdict {
  Next next = Next::leave;
  std::string words;  ///< the one last line, with what to press, lift or read
  bool passes() const { return next == Next::leave; }
};

/// Judges readings, the tilted solids and the design in that order of doubt: a reading that disagrees with the rest is
/// named before anyone presses; a design that fails when it lies level is helped by no pressing; nothing is pressed
/// deeper than the bed under it.
AsSetVerdict judge_as_set(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results);

/// How far a place of the base came to lie above where it was designed. @pre how high it lies was read
double raised_at(const facts::Facts& facts, double x_mm, double y_mm);

/// Whether a base lies no farther above or below its design than a good rule tells.
bool reads_as_designed(double raised_mm, const job::Job& job);

/// How far above or below its design a base came to lie at the drain: "1/8" higher than designed", "as high as
/// designed".
std::string raised_text(double raised_mm, const job::Job& job);

/// Titles of what fails as the base would lie level, each in quotes; empty: nothing does.
std::string failing_level(const std::vector<Result>& results);

/// Titles of what else fails of the room, each in quotes: no reading on the base tells of it.
std::string failing_elsewhere(const std::vector<Result>& results);

/// Whether a check is of the base as it was read in its wet bed. All others are of what is designed and of the room.
inline bool is_as_set(const std::string& id) {
  return id.starts_with("rim.");
}
/// Whether it is of what lies in front of the base, which is met as that lies once its height was read.
bool meets_outside(const std::string& id);

/// Where the design fails as it would lie level, no check of the base as set asks for pressing.
void ask_for_the_design_first(std::vector<Result>& results);

/// How far apart readings of one corner may lie: on rim, upstand and threshold they lie a few inches apart, and what
/// bends the base lifts them as one.
double one_corner_mm(const job::Job& job);

/// How far into the floor readings may put the ribs of a base that lies on it: a mark of the rule that is held to the
/// base, and what the floor's own readings may be off.
double sunk_by_readings_mm(const job::Job& job);

}  // namespace fallwright::rules
