/// Flat 2A where the base's edge at the bench does not turn up and waterproofing laps over it.
#pragma once

#include <stdexcept>
#include <string>

#include "job/read.hpp"
#include "support/run.hpp"

namespace fallwright::drawing {

/// Mirrored: with the bench at the right.
inline job::Job lapped(bool mirrored) {
  std::string job = sample::slurped(std::string{PROJECT_DIR} + "/params/tannery-lane-2a.toml");
  const auto turn = [&](const std::string& from, const std::string& to) {
    const std::size_t at = job.find(from);
    if (at == std::string::npos) throw std::logic_error{"not in flat 2A: " + from};
    job.replace(at, from.size(), to);
  };
  turn("sides = [\"back\", \"left\", \"right\"]", mirrored ? "sides = [\"back\", \"left\"]\nlapped = [\"right\"]"
                                                           : "sides = [\"back\", \"right\"]\nlapped = [\"left\"]");
  if (mirrored) {
    turn("place = \"left-end\"", "place = \"right-end\"");
    turn("from_left = \"28-3/4 in\"", "from_right = \"28-3/4 in\"");
  }
  return job::read(job, "lapped.toml");
}

}  // namespace fallwright::drawing
