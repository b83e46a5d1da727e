/// Text in columns. Inside `report` only.
#pragma once

#include <string>

#include "units/letters.hpp"

namespace fallwright::report {

/// With blanks to the right up to `width` letters; longer text stays as it is.
inline std::string padded(std::string text, std::size_t width) {
  if (const std::size_t have = units::letter_count(text); have < width) text.append(width - have, ' ');
  return text;
}

/// Words on lines of at most 110 letters, the first line begun at column `first`, the others at `indent`; each line ends
/// with a line end. A word longer than a line stays whole.
std::string wrapped(const std::string& words, std::size_t first, std::size_t indent);
inline std::string wrapped(const std::string& words, std::size_t indent) {
  return wrapped(words, indent, indent);
}

}  // namespace fallwright::report
