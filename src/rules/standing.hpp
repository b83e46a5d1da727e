/// How a plane that carries water stands to the limits of its fall: judged once, for pages and sheets.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "rules/result.hpp"

namespace fallwright::rules {

/// `at_limit`: within, by less than a thousandth of a limit.
enum class FallStanding { within, at_limit, gentle, steep };

struct FallJudged {
  FallStanding standing = FallStanding::within;
  const Result* unkept = nullptr;  ///< of the results that were given: the check of its fall that the plane breaks
  const Result* told =
      nullptr;  ///< of the checks of its fall the one that found its number on this plane, if it is kept
  bool fails() const { return unkept && unkept->outcome == Outcome::fail; }
};

/// Whether a check is one of how that surface falls.
bool is_of_fall(const std::string& id, facts::Surface surface);

/// A plane of the floor by what it falls itself; seat and threshold whole, by the way they fall too.
FallJudged judged_fall(const facts::Facet& facet, const std::vector<Result>& results);

/// Its fall in the job's notation; where a check tells of it, or where it breaks a limit, as that check rounds it.
std::string text_of_fall(const facts::Facet& facet, const FallJudged& judged, const job::Job& job);

/// A value that a check found, as that check tells it; of two checks the one that keeps its limit by less. Nothing
/// where none found it.
std::optional<std::string> as_checked(double value, Unit unit, const std::vector<Result>& results, const job::Job& job);

}  // namespace fallwright::rules
