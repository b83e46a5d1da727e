/// Text in columns. Inside `report` only.
#pragma once

#include <string>

#include "units/letters.hpp"

namespace fallwright::report {

/// With blanks to the right up to `width` letters; longer text stays whole, and one blank parts it from what follows.
inline std::string padded(std::string text, std::size_t width) {
  const std::size_t have = units::letter_count(text);
  return text.append(have < width ? width - have : 1, ' ');
}

/// Words on lines of at most 110 letters, the first line begun at column `first`, the others at `indent`; each line
/// ends with a line end. A word longer than a line stays whole.
std::string wrapped(const std::string& words, std::size_t first, std::size_t indent);
inline std::string wrapped(const std::string& words, std::size_t indent) {
  return wrapped(words, indent, indent);
}

}  // namespace fallwright::report
