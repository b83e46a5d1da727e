/// Files read whole: those that a person wrote, job files and rule books, or refused before a parser sees them; and
/// those that the program wrote.
#pragma once

#include <cstddef>
#include <string>

namespace fallwright::diag {

/// What a job file or a rule book may hold: a thousand rooms' worth of readings is far less.
inline constexpr std::size_t greatest_text_bytes = 4'000'000;

/// Standard input, where a file's name is wanted.
inline constexpr const char* standard_input = "-";

/// The whole of a file of at most so many bytes, or of standard input. Nothing but a regular file is read, so that a
/// device or a pipe under that name cannot keep the program waiting.
/// @throws JobFaults for what is no regular file or too large; MachineError when it is not there or cannot be read.
std::string read_text(const std::string& path, std::size_t most_bytes = greatest_text_bytes);

/// The whole of a file that a build wrote, however large.
/// @throws MachineError when it is no regular file or cannot be read.
std::string read_bytes(const std::string& path);

}  // namespace fallwright::diag
