/// Heights over the drain, lengths to the bore, by what they are of, and the bed under places. Lengths in millimetres.
#pragma once

#include <optional>
#include <string>

namespace fallwright::facts {

/// What a height is of.
enum class Course { subfloor, bed, base, seat, datum, rib_plane, level_line, drain, rim, threshold, upstands, outside };
/// A height that holds over one point of the plan alone, the one of a level thing, and those of one that is not level.
enum class Reach { here, level, lowest, highest };

/// A surface over one point of the plan, or one that the whole job shares.
struct Rung {
  std::string name;
  double above_datum_mm = 0, above_last_mm = 0;
  Course of = Course::datum;
  Reach reach = Reach::level;
};

/// From what the bore's centre is set out.
enum class BoreFrom { left_studs, right_studs, back_studs, left_finish, right_finish, back_finish, entry, base_front };

/// A length to mark in the room.
struct Mark {
  std::string name;
  double mm = 0;
  std::optional<BoreFrom> bore_from = {};  ///< nothing: it is no length to the bore
};

/// The bed under a place of the base where both touch.
struct BedDepth {
  double x_mm = 0, y_mm = 0;
  double mm = 0;  ///< plumb, as designed
};

}  // namespace fallwright::facts
