/// Text in columns. Inside `report` only.
#pragma once

#include <string>

namespace fallwright::report {

/// With blanks to the right up to `width`; longer text stays as it is.
inline std::string padded(std::string text, std::size_t width) {
  if (text.size() < width) text.append(width - text.size(), ' ');
  return text;
}

}  // namespace fallwright::report
