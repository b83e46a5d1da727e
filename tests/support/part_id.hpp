/// A part by the text that files have for it.
#pragma once

#include <stdexcept>

#include "facts/part_id.hpp"

namespace fallwright::sample {

/// The part that has this text, "wall-back/blocking-1-04": the only one among all that there may be.
inline facts::PartId part_id(const std::string& text) {
  using facts::Kind, facts::Role;
  constexpr int rows = 3, numbers = 20;
  for (int role = 0; role <= static_cast<int>(Role::bed_spread); ++role)
    for (const std::optional<survey::Side> wall :
         {std::optional<survey::Side>{}, {survey::Side::back}, {survey::Side::left}, {survey::Side::right}})
      for (int kind = 0; kind <= static_cast<int>(Kind::front_track); ++kind)
        for (int row = 0; row <= rows; ++row)
          for (int number = 0; number <= numbers; ++number) {
            const facts::PartId part{{static_cast<Role>(role), wall}, static_cast<Kind>(kind), row, number};
            if (wall.has_value() == part.is(Role::wall) && text_of(part) == text) return part;
          }
  throw std::invalid_argument{"no part is called " + text};
}

}  // namespace fallwright::sample
