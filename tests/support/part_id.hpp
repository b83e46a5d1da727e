/// A part by the text that files have for it.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <unordered_map>

#include "facts/part_id.hpp"

namespace fallwright::sample {

/// All parts that there may be, by their texts.
inline std::unordered_map<std::string, facts::PartId> all_parts() {
  using facts::Kind, facts::Role;
  constexpr int rows = 3, numbers = 20;
  std::unordered_map<std::string, facts::PartId> all;
  for (int role = 0; role <= static_cast<int>(Role::bed_spread); ++role)
    for (const std::optional<survey::Side> wall :
         {std::optional<survey::Side>{}, {survey::Side::back}, {survey::Side::left}, {survey::Side::right}})
      for (int kind = 0; kind <= static_cast<int>(Kind::front_track); ++kind)
        for (int row = 0; row <= rows; ++row)
          for (int number = 0; number <= numbers; ++number) {
            const facts::PartId part{{static_cast<Role>(role), wall}, static_cast<Kind>(kind), row, number};
            if (wall.has_value() == part.is(Role::wall)) all.emplace(text_of(part), part);
          }
  return all;
}

/// The part that has this text, "wall-back/blocking-1-04".
inline facts::PartId part_id(const std::string& text) {
  static const auto all = all_parts();
  const auto it = all.find(text);
  if (it == all.end()) throw std::invalid_argument{"no part is called " + text};
  return it->second;
}

}  // namespace fallwright::sample
