/// What is screwed to the walls, as it is named. Inside `rules` only.
#pragma once

#include <algorithm>
#include <string>

#include "facts/facts.hpp"
#include "job/job.hpp"
#include "rules/book.hpp"

namespace fallwright::rules {

inline constexpr const char* no_fixtures =
    "no fixture is in the job file: name what will be screwed to the walls, bar, glass hinge, valve or rail "
    "([[fixture]])";

/// By its name; where several are called alike by their heights as well.
inline std::string plate_name(const facts::Backing& b, const job::Job& job) {
  const auto alike = std::count_if(job.fixtures.begin(), job.fixtures.end(),
                                   [&](const job::Fixture& fixture) { return fixture.name == b.name; });
  return "'" + b.name + "'" + (alike > 1 ? " at " + text_of(b.height_mm, Unit::mm, job) : "");
}

inline std::string plate_on_wall(const facts::Backing& b, const job::Job& job) {
  return plate_name(b, job) + " on the " + job::name_of(b.wall) + " wall";
}

inline const job::Fixture* fixture_of(const job::Job& job, const facts::Backing& backing) {
  return backing.number < job.fixtures.size() ? &job.fixtures[backing.number] : nullptr;
}

}  // namespace fallwright::rules
