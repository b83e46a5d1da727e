/// Lists and counts of words in a sentence.
#pragma once

#include <concepts>
#include <cstddef>
#include <string>
#include <string_view>
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

/// Without blanks at either end.
inline std::string_view trimmed(std::string_view text, std::string_view blanks = " \t") {
  const std::size_t from = text.find_first_not_of(blanks);
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(blanks) - from + 1);
}

/// "12,345".
inline std::string grouped(std::size_t number) {
  std::string text = std::to_string(number);
  for (std::size_t at = text.size(); at > 3; at -= 3) text.insert(at - 3, ",");
  return text;
}

/// "1 check", "3 checks".
template <std::integral Count>
std::string counted(Count n, const std::string& one, const std::string& many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

/// A length that was read off one edge, as printed: "20\" from the entry", and of what lies on that edge's other side,
/// "1-1/2\" before the entry": no tape reads less than nothing.
inline std::string off_edge(const std::string& length, const std::string& edge, const char* beyond) {
  const bool less = length.starts_with('-');
  return (less ? length.substr(1) + beyond : length + " from ") + edge;
}
inline std::string from_entry(const std::string& length) {
  return off_edge(length, "the entry", " before ");
}
inline std::string from_left(const std::string& length, const std::string& edge) {
  return off_edge(length, edge, " to the left of ");
}

}  // namespace fallwright::units
