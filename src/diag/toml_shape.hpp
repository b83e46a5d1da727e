/// What a TOML text may look like before a parser is let at it: parsers go down a step for every bracket and every part
/// of a dotted key, and a text that goes deep enough takes them past the end of their stack; many sections make them
/// slow.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "diag/fault.hpp"

namespace fallwright::diag {

inline constexpr int greatest_nesting = 16;     ///< of brackets and braces
inline constexpr int greatest_key_parts = 16;   ///< of a dotted key, or of a section's name
inline constexpr int greatest_sections = 2000;  ///< a parser may look through all it has for each new one

/// The first place in `text` that goes past one of these, in one pass over it; nothing where none does. Knows TOML's
/// strings and comments and nothing else of its grammar.
std::optional<Fault> too_deep(std::string_view text, const std::string& file);

}  // namespace fallwright::diag
