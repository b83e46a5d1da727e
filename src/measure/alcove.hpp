/// The walls as solids: how far they reach in. Inside `measure` only.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "measure/surface.hpp"
#include "parts/model.hpp"
#include "survey/stud_faces.hpp"

namespace fallwright::measure {

class Boards;

/// Walls and bench frame as outlines, by their family: read off once, asked often.
class Framing {
 public:
  explicit Framing(const parts::Model& model);
  /// The same with the strips of furring before its studs; with those alone that stand when the seat block comes in.
  Framing with(const Boards& boards, bool before_seat = false) const;
  /// Into the room, square to the line that a wall's strips bring its studs to; nothing where there are none.
  std::optional<gp_Dir> furred_to(survey::Side wall) const;
  /// How far a family reaches along `way` within a box.
  std::optional<double> reach(const facts::Family& family, const gp_Dir& way, const Box3& within) const;
  /// The outlines of a family's faces.
  std::vector<std::vector<gp_Pnt>> of(const facts::Family& family) const;

 private:
  std::map<facts::Family, std::vector<std::vector<gp_Pnt>>> outlines_;
  std::map<survey::Side, gp_Dir> furred_to_;
};

/// How far a stick of a wall stands behind that edge of a plan which is toward the wall, at a height: by the side of
/// its face that stands in farthest. Negative: it stands in past the edge.
std::optional<double> stands_behind(const parts::Solid& stick, job::Side wall, const survey::Rect& plan, double z);

/// A wall's inside face at the floor, from its sole plate: x of a side wall at some y, y of the back wall at some x.
std::optional<double> wall_line(const parts::Model& model, job::Side side, double place);

/// Those lines of all walls, as far as sole plates reach and on past them.
survey::StudFaces stud_faces(const parts::Model& model);

/// Plan of the solids of a role.
std::optional<survey::Rect> plan_of(const parts::Model& model, parts::Role role);

}  // namespace fallwright::measure
