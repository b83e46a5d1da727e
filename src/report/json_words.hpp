/// What the writers of JSON share. Inside `report` only.
#pragma once

#include <optional>

#include <nlohmann/json.hpp>

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

/// A text of JSON. A file name need not be UTF-8; a report must be written all the same.
inline std::string dumped(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace fallwright::report
