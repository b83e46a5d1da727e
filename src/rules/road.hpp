/// Remedies that get in each other's way, brought together.
#pragma once

#include <string>
#include <vector>

#include "job/change.hpp"

namespace fallwright::rules {

/// Remedies walked one after another, each found anew where those before it were followed.
struct Road {
  std::vector<job::Change> changes;  ///< none: the remedies told one by one do not get in each other's way
  std::vector<std::string> mends;    ///< ids of checks that fail now and hold at its end
  std::vector<std::string> left;  ///< ids of checks that fail at its end, though a remedy was told or they held before
  std::vector<std::string>
      stay;  ///< ids of those that fail now and there, and for which no lines were told; worst first
};

}  // namespace fallwright::rules
