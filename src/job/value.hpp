/// One TOML value read as what its key wants. Inside `job` only.
#pragma once

#include <optional>
#include <string>

#include <toml++/toml.h>

#include "job/schema.hpp"

namespace fallwright::job {

/// @return nothing when the value is not of the key's kind or outside its range; `why` then says what was found and
/// what is allowed. Bare numbers are in `unit`.
std::optional<Value> read_value(const toml::node& node, const Key& key, UnitSystem unit, std::string& why);

}  // namespace fallwright::job
