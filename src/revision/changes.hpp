/// What became of a job between two times, in words that text, page and sheet show alike.
#pragma once

#include <string>
#include <vector>

#include "revision/pieces.hpp"
#include "revision/state.hpp"

namespace fallwright::revision {

/// One thing that reads otherwise; `nothing` stands for what is not there.
struct Changed {
  std::string what, was, now;
};
inline constexpr const char* nothing = "left out";

/// What somebody does who has bought and cut all that the older state orders: rows with the amount that is bought over
/// that, or that is left of it. What either state has on HOLD counts as neither bought nor needed.
struct Purchases {
  std::vector<takeoff::Row> more, over;
  std::vector<std::string> waits;  ///< items on HOLD now: nothing of them is bought or given back yet
};

/// A check that comes out otherwise, or fails or asks for caution by another number.
struct Verdict {
  rules::Outcome outcome;
  std::string title;
  std::string found;   ///< "0.891 in/ft, limit at most 1/2 in/ft"; empty where nothing was measured
  std::string was;     ///< "pass, 0.477 in/ft"
  std::string advice;  ///< where it is to be mended, or comes out otherwise
};

struct Changes {
  std::string since;                         ///< the name of the older job's file
  std::string datum;                         ///< where that moved, with what was told from it; empty: it did not
  std::vector<Changed> keys, sizes, to_buy;  ///< `to_buy`: the whole order, planned anew
  Purchases purchases;
  std::vector<Verdict> verdicts;  ///< worst first
  Pieces pieces;
};

Changes changes(const State& was, const State& now);

/// Whether both are of one room: by its name, or else by the sizes of its alcove, of which more are the same than not.
bool of_one_room(const State& was, const State& now);

/// The verdicts alone, for who waits for them.
std::vector<Verdict> verdicts(const State& was, const State& now);

/// "pass", "FAIL", "CAUTION", "not checked", "n/a".
const char* told(rules::Outcome outcome);

/// "1 fail, 2 ask for caution, 3 are not checked, 40 pass"; and how many rows of the record fail.
std::string counts(const State& state);

}  // namespace fallwright::revision
