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

}  // namespace fallwright::report
