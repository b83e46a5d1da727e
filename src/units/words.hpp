/// Lists of words in a sentence.
#pragma once

#include <string>
#include <vector>

namespace fallwright::units {

/// "left", "left and right", "back, left and right"; with another word before the last one where it is given.
inline std::string listed(const std::vector<std::string>& words, const char* last = " and ") {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) text += (i == 0 ? "" : i + 1 == words.size() ? last : ", ") + words[i];
  return text;
}

/// "left, right": all of a list, where none is the last.
inline std::string joined(const std::vector<std::string>& words, const char* between = ", ") {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : between) + word;
  return text;
}

}  // namespace fallwright::units
