/// The record of what was measured when all was built, beside what was designed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "survey/readings.hpp"
#include "survey/surface.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"

namespace fallwright::job {

/// A fall as a level showed it on what was built.
struct BuiltFall {
  survey::Surface surface = survey::Surface::base_floor;
  std::optional<survey::Side> facet;  ///< of the base's floor: the side its plane rises to
  units::Fall fall;
};

/// The water of the flood test, read once.
struct FloodReading {
  std::string at;       ///< "2026-12-01 08:30"
  units::Length level;  ///< above the drain's top
};

struct Photo {
  std::string file, shows;
};

struct AsBuilt {
  std::string date, by;
  std::vector<BuiltFall> falls;
  std::vector<FloodReading> flood;   ///< in the order they were read
  std::optional<units::Length> dam;  ///< its top above the drain's; absent: nobody says that one was built
  std::vector<Photo> photos;
  bool any() const { return !(date.empty() && by.empty() && falls.empty() && flood.empty() && !dam && photos.empty()); }
};

/// Whether this is a day of the calendar, written "2026-12-02".
bool is_day(const std::string& text);

/// Minutes since 1970, of "2026-12-01 08:30" on one and the same clock; nothing for what is no such time.
std::optional<long> minutes_of(const std::string& time);

}  // namespace fallwright::job
