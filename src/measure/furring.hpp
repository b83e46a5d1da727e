/// What brings a wall's framing out to what stands before it, and the boards that lie on it. Inside `measure` only.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "facts/facts.hpp"
#include "measure/room_face.hpp"

namespace fallwright::measure {

/// Every stud, with what stands before it and the strips that bring it out.
std::vector<facts::StudGap> measure_studs(const parts::Model& model, const facts::Heights& heights);

/// The strips of each of them. None stands where the bench's frame or seat block does, and none that stands beside the
/// base goes in before it, nor is any of it that is longer than the base is high slipped down behind that.
void add_strips(const parts::Model& model, const facts::Heights& heights, std::vector<facts::StudGap>& studs);

/// Up to there the base stands before studs: its upstands' top, or where nothing turns up its rim's.
inline double base_stands_to_mm(const facts::Heights& heights) {
  return heights.upstand_top_mm.value_or(heights.rim_greatest_mm);
}

/// The backs of the walls' boards: on the studs, or on the strips before them.
class Boards {
 public:
  Boards(const parts::Model& model, const facts::Heights& heights, const std::vector<facts::StudGap>& studs);

  /// How far into the room it lies at a place along the wall and a height: straight from stud to stud, and past the
  /// last as there. Nothing where no stud stands.
  std::optional<double> at(survey::Side wall, double place, double z) const;
  /// Whether one of the two studs beside a place has a strip at that height.
  bool is_furred(survey::Side wall, double place, double z) const;
  /// Along a wall.
  struct Width {
    double from = 0, to = 0;
  };
  /// How wide the strip is that brings a stud or block out at a height, and as far above and below it as told; of none
  /// where one is wanted that is not there. Nothing where the member needs no strip.
  std::optional<Width> in_front_of(const parts::Solid& member, double z, double beyond_mm) const;
  /// Into the room, square to the line that a wall's strips bring its studs to; nothing where it has none.
  std::optional<gp_Dir> furred_to(survey::Side wall) const;
  /// The faces of a wall's strips; of those alone that stand when the seat block comes in.
  std::vector<std::vector<gp_Pnt>> strips(survey::Side wall, bool before_seat = false) const;

  /// Blocks between studs with strips are brought out like them.
  std::vector<facts::BlockStrip> block_strips() const;
  /// So high strips stand beside the base by the time the seat block comes in over them; nothing where there are none.
  std::optional<double> top_before_seat_mm() const;
  /// Strips in the place of which something stands once all is set, each told by its stud.
  std::vector<facts::Fit> strips_that_clash() const;
  /// @param tile_top_mm so high walls are tiled
  std::vector<facts::Kink> kinks(const facts::Heights& heights, double tile_top_mm) const;
  std::vector<facts::Fold> folds(double tile_top_mm) const;

 private:
  struct Stud {
    const facts::StudGap* gap = nullptr;
    RoomFace face;
    double low = 0, high = 0;
    double thick_at(double z) const;
    double board_at(survey::Side wall, double z) const { return face.innermost(wall, z) + thick_at(z); }
    /// The line that its strip is cut to.
    double line_at(survey::Side wall, double z) const;
  };
  /// Where the bench stands before the studs beside a place there is no board.
  bool is_behind_bench(survey::Side wall, double place, double z) const;
  /// The two beside a place; twice the same past the last.
  std::pair<const Stud*, const Stud*> beside(survey::Side wall, double place) const;
  std::optional<facts::Kink> kink_at(survey::Side wall, double z, bool behind_bench) const;

  const parts::Model& model_;
  double base_top_mm_;
  std::map<survey::Side, std::vector<Stud>> walls_;  ///< of each along it
};

}  // namespace fallwright::measure
