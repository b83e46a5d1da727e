/// By how much a value may pass a limit, or a mark, and still be at it: rounding, nothing that anybody measures. Inside
/// `rules` only.
#pragma once

#include "rules/result.hpp"

namespace fallwright::rules {

double slack(Unit unit);

}  // namespace fallwright::rules
