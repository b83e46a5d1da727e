/// How high the flood test's water is to stand, and what it then comes to.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// A height that is asked for, with the water up to there.
struct FloodLevel {
  std::string what;  ///< "rough threshold", "behind a dam"
  facts::Dip dip;
};

/// What holds the test's water on the day, as it stands then: heights above the datum. What is built on site is tested
/// before anything lies on its waterproofing: water stands on that, over the drain's flange. What is laid on a
/// threshold after the test does not hold it.
struct FloodBrim {
  bool on_flange = false;               ///< it is built on site
  double from_mm = 0;                   ///< heights on the day count from here: the drain's flange, or its top
  double floor_mm = 0;                  ///< floor or waterproofing where water stands against the threshold
  double top_mm = 0;                    ///< where water leaves first
  const facts::Edge* lowest = nullptr;  ///< the edge over which it does; of the facts it was made of
  std::vector<facts::Side> over = {};   ///< all sides over which it does
  bool rough = false;                   ///< that is the rough threshold
  std::string unknown = {};             ///< why `top_mm` is a finished edge, and not where it spills; empty: it is not
};
FloodBrim flood_brim(const job::Job& job, const facts::Facts& facts);

/// The water of the test as it is filled on the day, from heights that can be read then.
struct FloodTable {
  bool on_flange = false;          ///< heights count from the drain's flange; else from its finished top
  std::vector<facts::Dip> dips;    ///< in steps, the last where it spills; `above_drain_mm` counts from there
  std::vector<FloodLevel> levels;  ///< "behind a dam" where more is asked for than the brim holds, counted alike
  bool rough = false;              ///< the last of `dips` is the rough threshold's top
  std::string unknown = {};        ///< as of the brim
  std::vector<facts::Side> over = {};
  std::optional<double> fill_mm = {};     ///< what is asked for, counted alike, as far as it is known how high that is
  std::optional<facts::Dip> filled = {};  ///< the water then, up to the mark of the tape that is told
  bool to_brim =
      false;  ///< a mark of the tape at or above `fill_mm` stands over the brim: it is filled until it spills
  bool holds_none = false;  ///< less than a rule can read stands before it spills, and no book says how deep: no test
};
FloodTable flood_table(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results);

/// The floor where water stands against the threshold, or against the dam at an open edge, above the drain's top.
double floor_at_entry_mm(const facts::Facts& facts);

/// What the test asks for, in words with its source: the book's, or a depth of one's own.
std::string flood_words(const job::Job& job, const std::vector<Result>& results);

/// The brim's height, counted alike: to the nearest mark of the tape, "just over 2-9/16\"" where that would read no
/// higher than what is to be filled below it.
std::string brim_text(const FloodTable& table, const job::Job& job);

/// How high to fill on the day, as a rule reads it there: "fill to 2-1/2\" above the drain's top"; where no book asks
/// for a depth, as high as it holds. Empty where nobody can say.
std::string fill_words(const job::Job& job, const facts::Facts& facts, const std::vector<Result>& results);

/// How high the water must stand on the day, from where heights count then; nothing where the book does not say.
std::optional<double> flood_asked_mm(const job::Job& job, const facts::Facts& facts,
                                     const std::vector<Result>& results);

/// The levels that matter on the day, with the water up to there: the rough threshold where it spills there, and what
/// is asked for behind a dam. Counted from the drain's top, from which `facts.flood` counts too.
std::vector<FloodLevel> flood_levels(const job::Job& job, const facts::Facts& facts,
                                     const std::vector<Result>& results);

}  // namespace fallwright::rules
