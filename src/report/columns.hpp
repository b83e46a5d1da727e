/// Text in columns. Inside `report` only.
#pragma once

#include <algorithm>
#include <string>

namespace fallwright::report {

/// How many letters a UTF-8 text has: bytes that begin one.
inline std::size_t letters(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

/// Its first letters, none of them cut in two.
inline std::string first_letters(const std::string& text, std::size_t most) {
  std::size_t end = 0, count = 0;
  for (; end < text.size(); ++end)
    if ((text[end] & 0xC0) != 0x80 && count++ == most) break;
  return text.substr(0, end);
}

/// With blanks to the right up to `width` letters; longer text stays as it is.
inline std::string padded(std::string text, std::size_t width) {
  if (const std::size_t have = letters(text); have < width) text.append(width - have, ' ');
  return text;
}

}  // namespace fallwright::report
