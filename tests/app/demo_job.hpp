/// The demo jobs, and what is said of them. Inside the tests of `app` only.
#pragma once

#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace fallwright {

inline std::string params(const std::string& name) {
  return std::string{PROJECT_DIR} + "/params/" + name + ".toml";
}

/// One check of report.json.
inline nlohmann::json check(const nlohmann::json& report, const std::string& id) {
  for (const auto& c : report.at("checks"))
    if (c.at("id") == id) return c;
  ADD_FAILURE() << "no check " << id;
  return {};
}

}  // namespace fallwright
