/// The checks: what each measures on which solid. Their limits stand in rule books, see rule_book.hpp.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "job/pipe.hpp"
#include "rules/floor_load.hpp"
#include "rules/inputs.hpp"
#include "rules/limits.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// By which document a strength was worked out: that of the material, in whichever book. Empty: nothing was.
struct Calculation {
  std::string source;
  Verified verified = Verified::quoted;
};

/// What a rule found on the solids; made by one of the functions below.
struct Finding {
  bool applies = true;
  std::optional<double> measured;
  std::string where;
  std::string advice;   ///< what to do when it fails; where nothing was measured, what to measure
  bool broken = false;  ///< it fails whatever the number, or without one: water without a way out, even if the pool
                        ///< is a film; fasteners that hold nothing
  std::optional<double> least;            ///< the least limit that holds for this job, in place of the book's
  std::optional<double> greatest = {};    ///< the same for the greatest
  std::vector<std::string> details = {};  ///< what the number is made of, a line each
  bool holds_anyway = false;              ///< what it found stands whatever an assumed input really is
  bool may_hold = false;                  ///< it fails as assumed, and may pass as the assumed input really is
  std::string read = {};        ///< what to read where an assumed input decides; empty: as the input's own row says
  bool beyond_reading = false;  ///< nothing was measured, and no reading will help
  std::vector<Remedy> remedies = {};       ///< what `advice` names that the job file can hold
  Calculation by = {};                     ///< how what may be carried was worked out
  std::optional<double> fails_below = {};  ///< below this it fails, where its row asks for care alone
  std::optional<double> fails_above = {};  ///< the same, above this
  bool by_solids = false;     ///< solids share room there: no tape readings that differ put it at its limit
  double reads_to_mm = 0;     ///< readings that close tell it no better than that, however well they agree
  std::string unjudged = {};  ///< what no number here speaks of: a pass is then a caution, with this as advice
  bool other_drain = false;   ///< its advice offers another kind of drain, whose bore is elsewhere
};

Finding found(double measured, std::string where, std::string advice);
/// A share of what is carried; one that is infinite, as nothing is carried there, fails in words, without a number.
Finding found_share(double share, std::string where, std::string advice);
Finding not_applicable(std::string why);       ///< the job has no such thing
Finding missing(std::string what_to_measure);  ///< the job has it, and nobody measured it: never a pass
Finding unread();                              ///< the same; what to measure is told by its inputs' own rows
Finding cannot_tell(std::string why);          ///< nothing was measured, for another reason than a reading not taken

/// What to do where pipes of one name, made by different makers, would be judged differently.
std::string measure_outside(const job::Pipe& pipe, const job::Job& job);

/// Why the trap arm, whose way is known, takes nothing from any joist; empty: it does, or its way is not known.
std::string meets_no_joist(const facts::PipeRun& pipe);
/// A check of what joists lose does not apply to an arm that meets none, as far as they were read: at another spacing
/// others lie in its way. Nothing where it meets some.
std::optional<Finding> clear_of_joists(const job::Job& job, const facts::PipeRun& pipe);

/// What a check may look at.
struct Ground {
  const job::Job& job;
  const facts::Facts& facts;
  const Limits& limits;  ///< all that hold, for advice that must keep other limits too
  std::optional<FloorLoad> joists = floor_load(job, facts);  ///< worked out once for all that ask
};

/// A bound that the job itself gives, or the user's own where that is stricter: what is advised keeps both.
double least_in_force(double own, const Ground& ground, const char* id);
double greatest_in_force(double own, const Ground& ground, const char* id);

/// How a check looks: most need their own limit alone, some the whole ground.
class Look {
 public:
  using Own = Finding (*)(const job::Job& job, const facts::Facts& facts, const Limit& limit);
  using Whole = Finding (*)(const Ground& ground, const Limit& limit);
  Look(Own own) : way_{own} {}
  Look(Whole whole) : way_{whole} {}
  Finding operator()(const Ground& ground, const Limit& limit) const {
    if (const Own* own = std::get_if<Own>(&way_)) return (*own)(ground.job, ground.facts, limit);
    return std::get<Whole>(way_)(ground, limit);
  }

 private:
  std::variant<Own, Whole> way_;
};

/// What a check counts, by one and by several: "side", "sides".
struct Noun {
  const char *one, *many;
};

/// What a check measures in. A count says of what, or the row does not compile: a bare number tells nobody anything.
class Measured {
 public:
  consteval Measured(Unit unit) : unit_{unit} {
    if (unit == Unit::count) throw "a count is of something: give its noun";
  }
  consteval Measured(const char* one, const char* many) : unit_{Unit::count}, noun_{one, many} {}
  constexpr operator Unit() const { return unit_; }
  constexpr const Noun& noun() const { return noun_; }

 private:
  Unit unit_;
  Noun noun_{"", ""};
};

struct Rule {
  std::string id, title;
  std::string formula;  ///< in words
  std::string reads;    ///< which solids and what of them
  Measured unit = Unit::mm;
  std::string least_key, greatest_key;  ///< keys of [limits] that replace the limit; empty: none does
  Look look;
  /// Readings and solids. One that is missing makes the check not checked; a pass that rests on one that is assumed is
  /// none.
  std::vector<Input> rests_on;
  std::string limit_of = {};  ///< the check whose limit holds here as well; empty: it has its own
  const std::string& limit_id() const { return limit_of.empty() ? id : limit_of; }
};

/// Every check, in the order of the work on site.
const std::vector<Rule>& all_rules();

/// What the check of that id counts; empty words where it counts nothing.
Noun noun_of(const std::string& id);

/// The check of that id or title; else all that have it in their id or title, letters' case aside. May be none.
std::vector<const Rule*> rules_like(const std::string& asked);

// The rows by subject; `all_rules` puts them together.
std::vector<Rule> fall_rules();
std::vector<Rule> height_rules();
std::vector<Rule> edge_rules();  ///< what turns up along walls, and round the seat
std::vector<Rule> room_rules();
std::vector<Rule> fit_rules();
std::vector<Rule> bed_rules();
std::vector<Rule> base_kind_rules();  ///< of a bought base alone, or of one built on site
std::vector<Rule> mix_rules();
std::vector<Rule> survey_rules();
std::vector<Rule> plumbing_rules();
std::vector<Rule> access_rules();         ///< seat's end, bars, controls, floor before the entry, glass
std::vector<Rule> trap_rules();           ///< the drain's pipe below the floor
std::vector<Rule> arm_rules();            ///< the trap's vent, and how far it hangs below the drain
std::vector<Rule> riser_rules();          ///< the pipe from the drain down to it
std::vector<Rule> through_joist_rules();  ///< what that pipe takes from joists
std::vector<Rule> finish_rules();         ///< how high the walls are waterproof, and what they leave clear
std::vector<Rule> load_rules();
std::vector<Rule> bench_rules();   ///< what holds the bench's frame and seat beside its members
std::vector<Rule> wall_rules();    ///< what is screwed to the walls, and what the upstands are screwed to
std::vector<Rule> panel_rules();   ///< boards: the wall's against the upstands, the floor's deck between joists
std::vector<Rule> as_set_rules();  ///< the base as it lies in the wet bed

/// Where a limit has no published source. docs/sources.md tells of each.
inline constexpr const char* no_source = "common practice, no source";

/// Numbers as a person reads them on site, in the job's unit.
std::string text_of(double value, Unit unit, const job::Job& job);
/// A length rounded up to the next mark of the tape, for advice that must still pass once it is rounded.
std::string text_at_least(double mm, const job::Job& job);
/// "12\" from the left stud face, 20\" from the entry", as a tape reads it that is hooked on that wall beside the
/// place.
std::string place_of(const facts::Point& p, const survey::StudFaces& faces, const job::Job& job);
/// What lengths from the left are read from: "left stud face"; where no left wall stands, what does at that edge.
std::string left_face(const job::Job& job);

}  // namespace fallwright::rules
