/// A job file's keys as they are written, to compare one file with another.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"

namespace fallwright::job {

struct WrittenKey {
  std::string key;    ///< "base.length", "survey.plumb[1].lean"; "survey.floor.spots[3]" for one of a list of lists
  std::string value;  ///< as TOML
};

/// Every key that the file has, in the order of the table of keys. Empty for a job that was made in memory.
std::vector<WrittenKey> written_keys(const Job& job);

/// Whether two values of one key come to the same: "30 in" and "2 ft 6 in".
bool say_the_same(const WrittenKey& a, UnitSystem unit_of_a, const WrittenKey& b, UnitSystem unit_of_b);

}  // namespace fallwright::job
