/// TOML from a text that a person wrote, for the readers of job files and of rule books.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <toml++/toml.h>

#include "diag/fault.hpp"

namespace fallwright::job {

/// Parses `text`. What is no TOML, or goes deeper than diag/toml_shape.hpp allows, becomes a fault with its place and,
/// where a value lacks its quotes, with the line as it should be; the table is then empty.
toml::table parse_toml(std::string_view text, const std::string& file, std::vector<diag::Fault>& faults);

/// A name as TOML writes it without quotes: letters, digits, '_' and '-'. No other is a name of ours.
bool is_bare(std::string_view name);

/// A piece of a file for a message: its first letters, on one line.
std::string quoted_start(std::string_view text);

/// What is wrong with a text that will stand in files and on a terminal; empty for a good one. Controls and line ends
/// are wrong anywhere.
std::string fault_of_text(std::string_view text);

/// A message shows this many faults; the rest are counted.
inline constexpr std::size_t most_faults = 50;

/// In the order of the file, the first ones and how many more there are. @throws diag::JobFaults unless `faults` is
/// empty.
void stop_if_faulty(std::vector<diag::Fault>& faults);

}  // namespace fallwright::job
