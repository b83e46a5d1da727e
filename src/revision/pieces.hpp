/// Which pieces that were cut by an older list serve in a newer one.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "takeoff/cuts.hpp"

namespace fallwright::revision {

enum class Use {
  serves,  ///< as it is
  fit,     ///< as it is, but on a floor that lies otherwise
  recut,   ///< from a piece that serves no more
  fresh    ///< from new stock
};
const char* name_of(Use use);  ///< "serves", "fit anew", "recut", "new"

/// So many pieces of one mark of the newer list, and where they come from.
struct PieceUse {
  Use use = Use::fresh;
  int count = 0;
  std::string mark;                        ///< in the newer list
  std::string from;                        ///< mark in the older list; empty for fresh ones
  std::string size;                        ///< "2x4, 34-1/2\", square"
  std::optional<takeoff::Hold> hold = {};  ///< while that stands it is neither made nor put in
};

/// Pieces of the older list that nothing is made of.
struct PieceLeft {
  int count = 0;
  std::string mark, size;
};

struct Pieces {
  std::vector<PieceUse> uses;  ///< every piece of the newer list, in its order
  std::vector<PieceLeft> left;
  int count(Use use) const;
};

/// The tapes that two lists were rounded to.
struct Tapes {
  bool was_metric = false, now_metric = false;
  bool differ() const { return was_metric != now_metric; }
};
/// Two lengths that are rounded to marks of different tapes may be one when they differ by less than this: a mark of
/// the coarser one.
double one_length_mm();

/// Every piece of `was` is taken as cut but those on HOLD, which are only what they were where they wait still. A
/// piece serves where its size and ends are alike. What is longer gives shorter
/// ones of its own stock, the longest first from the shortest that holds it, each saw cut taking `kerf_mm`; a sheet
/// gives one. Strips of furring serve where they are long enough to a quarter of an inch; those that taper are never
/// cut anew: they are made to their place. Lists of different tapes are compared to a mark of the coarser one.
Pieces pieces_of(const std::vector<takeoff::CutRow>& was, const std::vector<takeoff::CutRow>& now, double kerf_mm,
                 Tapes tapes);

}  // namespace fallwright::revision
