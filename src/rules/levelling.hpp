/// How far out of level a base or a bench may be set before the first of its falls leaves its limits.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/limits.hpp"

namespace fallwright::rules {

/// One way to be out of level.
struct Way {
  survey::Side low = survey::Side::left;  ///< the side that is low
  double over_mm = 0;                     ///< across which extent
  double allowed_mm = 0;                  ///< how much lower than the other side, at most
  std::string gives_way;                  ///< the facet that leaves its limits first: "least fall of the left facet"
  std::string helps = {};                 ///< what would leave it more room: "a little more fall"
  bool by_fall = false;                   ///< it is a fall of the floor that helps
};

struct Levelling {
  facts::Surface of = facts::Surface::base_floor;  ///< or the seat
  bool broken = false;  ///< some fall is out of its limits even when all is level: there is no window
  /// The slope that would be left at most, were all facets steeper or flatter alike; nothing where nothing bounds them
  /// on one side.
  std::optional<double> most_slope = {};
  std::vector<Way> ways;  ///< left, right, back, front; empty when it has no such facets
  /// Slopes (along x, along y) of the edge of all that is allowed, every 5 degrees round; exact on each ray. The window
  /// is where no ray from level crosses it.
  std::vector<std::array<double, 2>> edge;
  double least_mm() const;
  const Way* first() const;  ///< the way with the least to spare, as a slope
};

/// The base's floor and threshold, its falls and its height above the drain; both come from the solids, the limits are
/// those of its checks. The edge of all that is allowed is for those who draw it: finding it is most of the work.
enum class Ask { ways, ways_and_edge };
Levelling base_levelling(const facts::Facts& facts, const Limits& limits, Ask ask = Ask::ways_and_edge);
/// The seat, as its frame is set out of level.
Levelling seat_levelling(const job::Job& job, const facts::Facts& facts, const Limits& limits);

/// So near to a mark of such a rule a length is on it, whichever way it is rounded: intersections of faces are no
/// better.
inline constexpr double on_rule_mark_mm = 1e-3;
/// A length rounded down to what a good rule shows: 1/64 in or 0.1 mm. For allowances, which must not be rounded up.
std::string text_at_most(double mm, const job::Job& job);
/// How low a side may be set: to 1/32 in or 0.1 mm, which is the finest that a tape, or a shim beside a level, shows.
std::string allowance_text(double mm, const job::Job& job);

}  // namespace fallwright::rules
