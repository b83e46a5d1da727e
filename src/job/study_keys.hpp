/// The table of a study file's keys, and how the values of one that varies are read. Inside `job` only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <toml++/toml.h>

#include "job/schema.hpp"
#include "job/study_file.hpp"

namespace fallwright::job {

/// Rows as those of the job file; nothing is stored by them.
const std::vector<Key>& study_keys();

/// What numbers of a kind are; `word` for kinds that have none.
Measure measure_of(Kind kind);

/// One value of a key: as it is shown, as a number, and as the job file has it.
struct Worth {
  std::string shown, written;
  std::optional<double> number;
};

/// A value as the job file would have it. @return nothing when the key does not allow it; `why` then tells.
std::optional<Worth> worth_of(const toml::node& node, const Key& key, UnitSystem unit, std::string& why);

/// What is wrong with a range, and with which end of it or its step.
struct RangeFault {
  const toml::node* at = nullptr;
  std::string why;
};

/// Values from one to another by a step, both given as the key's own values and both among them.
/// @return none when they make no range; `fault` then tells.
std::vector<Worth> worths_in_range(const toml::node& from, const toml::node& to, const toml::node& step, const Key& key,
                                   UnitSystem unit, RangeFault& fault);

}  // namespace fallwright::job
