/// What floor panels carry by their span rating. Inside `rules` only.
#pragma once

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

struct SpanRating {
  double thickness_mm;  ///< least
  double span_mm;       ///< greatest, strength axis across the joists, two spans or more
  double load_kpa;      ///< in all, over that span
  const char* name;     ///< as stamped
};

/// What a metric board of a thickness spans under 1.5 kN/m2, as a warranty standard tabulates it; it carries no load of
/// its own there.
struct BoardSpan {
  double chipboard_mm = 0, plywood_mm = 0;  ///< between joists' middles; zero: too thin
};
BoardSpan board_span_of(double thickness_mm);

/// The highest rating that a panel of this thickness usually has; nothing where it is too thin for a floor.
const SpanRating* span_rating_of(double thickness_mm);

/// What a panel carries in all, its own weight in it: the load of any rating that its thickness reaches, over closer
/// joists as much more as they are closer. Zero where it has none.
double deck_load_kpa(double thickness_mm, double apart_mm);

/// How far apart joists stand: the widest bay that carries base or bench where they are modelled, else as typed.
double bay_mm(const job::Job& job, const facts::Facts& facts);

}  // namespace fallwright::rules
