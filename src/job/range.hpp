/// The ranges of the table of keys, as they are printed and as they are held. Inside `job` only.
#pragma once

#include <optional>
#include <string>

#include "job/schema.hpp"

namespace fallwright::job {

/// A value of a key's kind as a person writes it.
std::string value_text(Kind kind, double value, UnitSystem unit);

/// The number that a text of a key's kind stands for, in SI; nothing for kinds that are no numbers. `why` then says
/// what is wrong with it. Bare lengths are in `unit`.
std::optional<double> number_of(Kind kind, const std::string& text, UnitSystem unit, std::string& why);

struct Range {
  double least, greatest;
};

/// What a key allows: its bounds of the table, let out to where they are printed in this unit, so that a bound typed as
/// it was printed is inside. Nothing for keys without a range.
std::optional<Range> range_of(const Key& key, UnitSystem unit);

/// "1/4\" to 3\"" in the job's unit; empty for keys without a range. Each bound reads back as it is printed.
std::string range_text(const Key& key, UnitSystem unit);

/// Whether a number keeps its key's range; otherwise `why` says what was found and what is allowed.
bool in_range(const Key& key, double number, UnitSystem unit, std::string& why);

}  // namespace fallwright::job
