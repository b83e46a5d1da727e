/// What floor joists and the deck on them carry, by simple beam formulas. It informs; a licensed engineer judges
/// structure.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "facts/facts.hpp"
#include "job/job.hpp"

namespace fallwright::rules {

/// What stands on the floor: its mass over its own plan.
struct Burden {
  std::string what;  ///< "base and bed", "bench", "glass", "back wall", "floor outside"
  double kg = 0;
  std::array<double, 4> plan_mm{};  ///< xmin ymin xmax ymax
  bool in_place_of_bath_floor = false;
  double kpa() const;
};

/// A joist under all that stands on its strip, on the part of its span where it stands; people, or the flood test in
/// their place where the base is; shares of design values. Of all joists the one with the greatest share.
struct FloorLoad {
  double floor_kpa = 0;  ///< of joists and deck alone
  double live_kpa = 0, flood_kpa = 0;
  std::vector<Burden> burdens;
  std::string joist;         ///< "joists/joist-03"
  bool place_known = false;  ///< where its span begins; else the worst place on it is taken
  bool off_span = false;     ///< as that is given, base or bench do not stand on it whole
  double bending_share = 0, shear_share = 0, deflection_mm = 0, span_mm = 0;
  double best_share = 0,
         best_deflection_mm = 0;  ///< the same at the best place on the span; as above where it is known
};
/// Nothing where stock, span or a known species and grade of the joists are missing, or the floor is a slab.
std::optional<FloorLoad> floor_load(const job::Job& job, const facts::Facts& facts);

/// The greater of people and flood test on the floor's deck with all that lies there under base and bed, over what its
/// rating lets it carry (a footnote of IRC Table R503.2.1.1(1), from memory). Zero: base or bed were not found.
double deck_share(const job::Job& job, const facts::Facts& facts);

/// Loads and shares, a line each.
std::vector<std::string> floor_lines(const FloorLoad& load, const job::Job& job);

/// What to find out where there is no floor load: the first thing that is missing or not known.
std::string unknown_joists(const job::Job& job);

}  // namespace fallwright::rules
