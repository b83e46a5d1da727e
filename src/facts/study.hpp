/// A study as plain numbers: its variants, one by one, and what all of them together say.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace fallwright::facts {

/// `passes`: no check fails. `refused`: no such job can stand. `broken`: the kernel could not make or measure it.
enum class Verdict { passes, fails, refused, broken };

inline const char* name_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::passes:
      return "pass";
    case Verdict::fails:
      return "fail";
    case Verdict::refused:
      return "cannot stand";
    case Verdict::broken:
      break;
  }
  return "cannot be made";
}

/// One variant with what was judged of it. Margins are shares of their limits; checks go by their place in the rules.
struct Variant {
  std::size_t number = 0;           ///< from 0, in the order of the study
  bool for_map = false;             ///< made to complete the map: it is no sample
  std::vector<std::size_t> values;  ///< of each key, which of its values
  std::vector<double> offsets_mm;   ///< of each reading, how far it is off
  Verdict verdict = Verdict::passes;
  std::string reason = {};                    ///< why it is refused or broken
  std::string outcomes = {};                  ///< a letter for each check: pass, fail, caution, open, none
  std::optional<std::size_t> gives_way = {};  ///< the check broken worst; where none fails, the one with least to spare
  std::optional<double> margin = {};          ///< of that check, where it has one
  std::optional<double> aim = {};
  std::vector<std::string> columns = {};  ///< as JSON: a number, a text in quotes, or nothing
  std::vector<double> margins = {};       ///< of every check, where the map needs them
  std::vector<double> aimed = {};  ///< of those that an aim at margins looks at; past all others' where it does not
  std::size_t left_out = 0;        ///< sets of readings drawn before this one that contradict themselves
};

/// The letters of `outcomes`.
inline constexpr char passed = 'p', failed = 'f', cautioned = 'c', left_open = 'o', not_asked = '-';

struct Check {
  std::string id, title;
};

/// Of a value of a key: how many variants have it, and how many of these pass.
struct Share {
  std::size_t of = 0, passes = 0;
  double share() const { return of == 0 ? 0 : static_cast<double>(passes) / static_cast<double>(of); }
};

/// Of a check: what came of it over all variants, and how often it gave way first.
struct Odds {
  std::size_t holds = 0, fails = 0, cautions = 0, first = 0;
  std::size_t settled() const { return holds + fails + cautions; }
};

/// Of a reading: what share of the doubt would go if it were known, and the check whose doubt it decides most, with how
/// often that holds where the reading is too short and too long.
struct Doubt {
  std::string name;
  double tolerance_mm = 0, decides = 0;
  std::optional<std::size_t> check = {};
  double holds_below = 0, holds_above = 0;
};

/// Of a key: the value most of whose variants pass and the one of which fewest do, how far these shares are apart, and
/// what share of the doubt whether a variant passes would go if the key were known; of samples beyond chance alone.
struct Move {
  std::size_t key = 0, most = 0, least = 0;
  double by = 0, decides = 0;
};

/// Some of the best that are equal by the aim, from the first to the last of them; what tells them apart all the same.
struct Tie {
  std::size_t first = 0, last = 0;
  bool by_aim = false;     ///< its number before it is rounded up to what is bought
  bool by_margin = false;  ///< what has least to spare
};

/// A crossing of two keys' values on the map.
struct Node {
  bool known = false;
  Verdict verdict = Verdict::passes;
  std::optional<double> aim = {};
  std::vector<double> margins = {}, aimed = {};  ///< as a variant has them
};

/// The map over one or two of what varies. Nodes row by row, the lowest first.
struct Map {
  std::size_t across = 0;
  std::optional<std::size_t> up = {};
  std::vector<std::size_t> xs, ys;  ///< which values; of a map over one key `ys` holds one
  std::vector<Node> nodes = {};
};

struct Study {
  std::vector<Check> checks;
  Variant today;
  std::size_t variants = 0, passes = 0, refused = 0, broken = 0;
  std::size_t left_out = 0;                   ///< sets of readings that were drawn and that no room has together
  std::optional<Variant> first_refused = {};  ///< or broken: its reason may be that of all
  std::vector<Variant> best;                  ///< at most five, the best first; none of what fails
  std::vector<Tie> ties;                      ///< among the best
  std::vector<std::vector<Share>> by_value;   ///< for each key, for each of its values
  std::vector<Move> moves;                    ///< of each key, what moves the verdict most first
  std::vector<Odds> odds;                     ///< for each check
  std::vector<Doubt> doubts;                  ///< what decides most first; of readings only
  /// They are of checks that never fail: of the doubt whether the room passes no reading settles anything.
  bool doubts_of_care = false;
  std::optional<Map> map;
};

}  // namespace fallwright::facts
