/// What a check says: plain values that every report prints in its own way.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "facts/part_id.hpp"
#include "job/change.hpp"

namespace fallwright::rules {

enum class Outcome { pass, fail, caution, not_checked, not_applicable };
const char* name_of(Outcome outcome);  ///< "pass", "fail", "caution", "not-checked", "not-applicable"

/// How far the limit was verified; printed beside every result.
enum class Verified { quoted, secondary, from_memory, common_practice, user };
const char* name_of(Verified verified);

enum class Unit { ratio, span, mm, mm2, mm3, count, share };  ///< ratio: a fall; span: deflection over span
const char* name_of(Unit unit);

/// Bounds that go by the size of a pipe.
struct ByPipe {
  double nominal_mm = 0;
  std::optional<double> least, greatest;
};

/// A receptor of such a size overall, whichever way it lies, answers for none of a limit.
struct Exempt {
  double short_mm = 0, long_mm = 0;
  std::string source;  ///< code, section and exception
};

/// A smaller bound that will do where so much floor is free.
struct SecondWay {
  double least_mm = 0, area_mm2 = 0;
};

/// A limit and where it comes from. `least` and `greatest` may both be set (a band).
struct Limit {
  std::optional<double> least, greatest;
  Unit unit = Unit::mm;
  std::string source;  ///< code and section, with the edition
  Verified verified = Verified::quoted;
  Outcome when_broken = Outcome::fail;  ///< a caution becomes a failure once the user sets the limit
  bool by_calculation = false;          ///< its source is that of the calculation, which goes by the material
  std::vector<ByPipe> by_pipe = {};     ///< in place of the bounds above; smallest pipe first
  bool each_verified = false;           ///< its source says of each document it names how far that was verified
  std::optional<Exempt> exempt = {};
  std::optional<SecondWay> second_way = {};
  bool to_centreline = false;  ///< the floor is measured up to the middle of the threshold
  bool has_least() const;      ///< for some pipe, if not for all
  bool has_greatest() const;
};

/// How far something that a check rests on is known. `assumed`: by a default or by common practice, and nobody looked.
enum class Standing { read, as_designed, assumed, missing };
const char* name_of(Standing standing);  ///< "read", "as designed", "assumed", "missing"

/// A reading or a solid that a check rests on, by its name; `read`: what to read where it is not known; `turn`: a
/// reading's place among all readings, in the order one walks the room.
struct Support {
  std::string name;
  bool solid = false;
  Standing state = Standing::read;
  std::string read;
  std::size_t turn = 0;
  std::optional<facts::Role> role = {};  ///< of a solid
};

/// The turn of what is no reading at all; the one before it is that of readings no table of inputs knows.
constexpr std::size_t no_turn = static_cast<std::size_t>(-1);

/// What is still to be read, in words with its key, and its place among all readings; `no_turn`: it is no reading.
struct Reading {
  std::size_t turn = 0;
  std::string what;
};

/// One way to mend what fails, as lines of the job file, and what came of following it (see study/advice.hpp).
struct Remedy {
  std::vector<job::Change> changes;
  std::vector<std::string> costs;  ///< ids of checks that are out of their limits with it and not now
  std::string refused;             ///< why no job with it can stand
  bool settles = true;             ///< the check it mends then holds
  std::string instead = {};        ///< what to advise where it does not: the advice is then this, and it is no remedy
};

/// One result. Values are exact, in the limit's unit; `where` and `advice` are sentences for a person.
struct Result {
  std::string id, title;
  Outcome outcome = Outcome::not_checked;
  std::optional<double> measured;
  Limit limit;
  std::string where;   ///< part, facet and place
  std::string advice;  ///< what to do about it; for not-checked: what to measure
  /// Room to the limit as a share of it; negative when it fails. Absent when nothing was measured.
  std::optional<double> margin;
  std::vector<std::string> details =
      {};  ///< what the number is made of, a line each; for whoever asks to have it explained
  std::vector<Support> rests_on = {};  ///< readings and solids, each with how far it is known
  std::vector<Reading> to_read = {};   ///< for not-checked: what `advice` asks for, one by one
  std::vector<Remedy> remedies = {};   ///< what `advice` names that the job file can hold, each a way of its own
  std::string reserve = {};            ///< the end of `advice` that says what following it breaks: never left out of it
  bool other_drain = false;            ///< `advice` offers another kind of drain, whose bore is elsewhere
};

}  // namespace fallwright::rules
