/// What the writers of JSON share. Inside `report` only.
#pragma once

#include <cstdio>
#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include "units/letters.hpp"

namespace fallwright::report {

using Json = nlohmann::ordered_json;

template <class Items, class To>
Json list(const Items& items, const To& to) {
  Json all = Json::array();
  for (const auto& item : items) all.push_back(to(item));
  return all;
}

inline Json maybe(const std::optional<double>& value) {
  return value ? Json(*value) : Json(nullptr);
}

/// Escapes what JSON leaves alone and a terminal obeys: such letters stand in strings only, the rest of the text is
/// ours.
inline std::string without_orders(const std::string& json) {
  std::string out;
  const auto escape = [&](char32_t unit) {
    char number[16];
    std::snprintf(number, sizeof number, "\\u%04x", static_cast<unsigned>(unit));
    out += number;
  };
  for (const char32_t letter : units::letters_of(json))
    if (letter == U'\n' || !units::is_control(letter))
      out += units::to_utf8(letter);
    else if (letter > 0xffff)
      escape(0xd800 + ((letter - 0x10000) >> 10)), escape(0xdc00 + ((letter - 0x10000) & 0x3ff));
    else
      escape(letter);
  return out;
}

/// A text of JSON. A file name need not be UTF-8; a report must be written all the same.
inline std::string dumped(const Json& json) {
  return without_orders(json.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

}  // namespace fallwright::report
