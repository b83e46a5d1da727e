/// What furring strips make good.
#pragma once

#include "units/length.hpp"

namespace fallwright::facts {

/// Furring brings framing so far forward, and no farther, as a fastener's hold. Common practice, no source.
inline constexpr double most_furring_mm = 38.1;

/// Nobody rips a strip for a gap smaller than that, 1/4 in, whatever tape it is read by: it breaks or is thrown by the
/// saw. Such gaps are shimmed with tapered pairs or with strips of card in layers. Common practice, no source.
inline constexpr double least_ripped_mm = 6.35;

/// As thick as furring for a gap is cut: down to a mark of the tape, so that it never stands before the edge it brings
/// a stud to, where what goes down would not.
inline double furring_mm(double gap_mm, double mark_mm) {
  return units::down_to_mark(gap_mm, mark_mm);
}

}  // namespace fallwright::facts
