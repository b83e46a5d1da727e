/// The job file explained, five ways, from the one table of keys in schema.cpp.
#pragma once

#include <string>

#include "job/job.hpp"

namespace fallwright::job {

/// A complete job file with a comment, the range and the default at every key; reads back without a fault.
std::string starter(UnitSystem unit);

/// A short one with the keys that matter for one kind of base, in the order in which one measures; reads back as well.
std::string starter(UnitSystem unit, BaseKind kind);
/// The same for a bought base that came as a STEP file; reads back where there is such a file.
std::string starter_with_file(UnitSystem unit);

/// JSON Schema (draft 2020-12) of the job file.
std::string json_schema();

/// The table itself as JSON, for a form that asks for every key: sections in file order, each with its keys, what they
/// allow, which bases they go with (all, where it names none) and what is usual in either unit (as TOML text). Bounds
/// are in SI.
std::string key_table();

/// The reference page docs/job-file.md.
std::string reference_page();

/// The manual page fallwright-job(5), in the macros of man(7).
std::string manual_page(const std::string& version);

}  // namespace fallwright::job
