/// What the rows of the table of keys are written with. Inside `job` only.
#pragma once

#include <string>
#include <vector>

#include "job/schema.hpp"

namespace fallwright::job {

inline constexpr auto required = Presence::required;
inline constexpr auto usual = Presence::defaulted;
inline constexpr auto optional = Presence::optional;
inline const std::vector<std::string> no_choices;
inline const std::vector<std::string> directions{"along-width", "along-depth"};

inline Side side_of(const std::string& word) {
  for (const Side side : survey::all_sides)
    if (word == name_of(side)) return side;
  return Side::front;
}

inline Direction direction_of(const Value& v) {
  return v.text == "along-width" ? Direction::along_width : Direction::along_depth;
}

inline BaseKind base_kind_of(const std::string& word) {
  return word == "bought" ? BaseKind::bought : word == "site-built" ? BaseKind::site_built : BaseKind::designed;
}

inline std::vector<Side> sides_of(const Value& v) {
  std::vector<Side> sides;
  for (const std::string& word : v.words) sides.push_back(side_of(word));
  return sides;
}

/// What a row does with its value, as a function of the job `j` and the value `v`.
#define STORE(statement) [](Job& j, const Value& v) { statement; }

// The rows by subject; `keys` puts them together.
std::vector<Key> room_keys();
std::vector<Key> survey_keys();
std::vector<Key> as_built_keys();
std::vector<Key> base_kind_keys();
std::vector<Key> bench_keys();
std::vector<Key> trade_keys();
std::vector<Key> cut_keys();
std::vector<Key> buy_keys();
std::vector<Key> drawing_keys();
std::vector<Key> limit_keys();

}  // namespace fallwright::job
