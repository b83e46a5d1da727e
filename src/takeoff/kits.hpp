/// One length for many rooms: benches of a whole building cut to few lengths.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "facts/facts.hpp"

namespace fallwright::takeoff {

/// What may be left between a frame and the place it goes into, both ends together. Common practice, no source: less
/// binds where a wall bulges, more is not closed by a shim.
struct KitGap {
  double least_mm = 0, greatest_mm = 0;
};
KitGap usual_gap(bool metric);  ///< 1/8 to 3/8 in, or 3 to 10 mm

/// A length, and the openings it goes into, by their place in the list they were given in.
struct Kit {
  double length_mm = 0;
  std::vector<std::size_t> rooms;
};

/// The fewest lengths so that every opening gets one with a gap within the limits; short lengths first. Each length is
/// as long as the smallest opening not yet served allows, and serves all it reaches. No plan has fewer: that opening
/// needs a length no longer than this, and a shorter one reaches less far up.
std::vector<Kit> group_openings(const std::vector<double>& openings_mm, const KitGap& gap);

/// The place a room's bench frame goes into, along the bench: the frame's upper plate or track as measured on its
/// solid, which the model makes as long as that place. Nothing without a bench.
std::optional<double> bench_opening_mm(const facts::Facts& facts);

}  // namespace fallwright::takeoff
