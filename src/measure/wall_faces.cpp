#include "measure/wall_faces.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "measure/alcove.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {

using job::Side;

namespace {

/// A wall's studs where its face goes on past an end of the base: a board runs straight from the last stud before that
/// end to the next one past it, and no stud stands at the end itself.
class PastItsEnd {
 public:
  /// @param thick_mm of a stud: what is twice as long is a plate or blocking
  PastItsEnd(const Framing& framing, const facts::Family& wall, const gp_Dir& way, const Box3& box, std::size_t axis,
             double thick_mm)
      : framing_{framing}, wall_{wall}, way_{way}, box_{box}, axis_{axis} {
    for (const auto& outline : framing.of(wall)) {
      Span along, up;
      for (const gp_Pnt& p : outline) along.take(p.Coord(static_cast<int>(axis) + 1)), up.take(p.Z());
      const bool stud = along.high - along.low < 2 * thick_mm - units::tolerance::length_mm;
      if (stud && up.high >= box.low[2] && up.low <= box.high[2]) studs_.push_back(along);
    }
  }

  /// How far in the face stands at that end; nothing where a stud stands across it, or none stands on either side.
  std::optional<double> at(double end, bool upper) const {
    const double sign = upper ? 1 : -1;
    std::optional<double> last, next;  // as they come along the way out
    for (const Span& s : studs_) {
      const double near = sign * (upper ? s.low : s.high), far = sign * (upper ? s.high : s.low);
      if (far <= sign * end) last = std::max(last.value_or(far), far);
      if (near >= sign * end) next = std::min(next.value_or(near), near);
      if (near < sign * end && far > sign * end) return std::nullopt;
    }
    if (!last || !next || *next - *last <= units::tolerance::length_mm) return std::nullopt;
    const auto before = reach(sign * *last), after = reach(sign * *next);
    if (!before || !after) return std::nullopt;
    return *before + (*after - *before) * (sign * end - *last) / (*next - *last);
  }

 private:
  struct Span {
    double low = std::numeric_limits<double>::max(), high = std::numeric_limits<double>::lowest();
    void take(double v) { low = std::min(low, v), high = std::max(high, v); }
  };

  /// Of the edge of a stud that stands there.
  std::optional<double> reach(double along) const {
    Box3 box = box_;
    box.low[axis_] = along - units::tolerance::length_mm, box.high[axis_] = along + units::tolerance::length_mm;
    return framing_.reach(wall_, way_, box);
  }

  const Framing& framing_;
  facts::Family wall_;
  gp_Dir way_;
  Box3 box_;
  std::size_t axis_;
  std::vector<Span> studs_;
};

}  // namespace

std::vector<WallFace> wall_faces(const parts::Model& model, const Framing& framing, double low_mm, double high_mm,
                                 double build_up_mm) {
  return wall_faces_along(*plan_of(model, parts::Role::base), model, framing, low_mm, high_mm, build_up_mm);
}

std::vector<WallFace> wall_faces_along(const survey::Rect& plan, const parts::Model& model, const Framing& framing,
                                       double low_mm, double high_mm, double build_up_mm) {
  std::vector<WallFace> faces;
  for (const Side side : {Side::left, Side::right, Side::back}) {
    const bool back = side == Side::back;
    const double from = back ? plan.x0 : plan.y0, to = back ? plan.x1 : plan.y1;
    const auto first = wall_line(model, side, from), second = wall_line(model, side, to);
    if (!first || !second) continue;
    // Along the line from `from` to `to`, turned into the room: to the right of the left wall, and so on.
    const double dx = back ? to - from : *second - *first, dy = back ? *second - *first : to - from;
    const double turn = (side == Side::right ? -1 : 1) / std::hypot(dx, dy);
    WallFace face{side, dy * turn, -dx * turn, 0};
    if (const auto into = framing.furred_to(side)) face.nx = into->X(), face.ny = into->Y();
    Box3 box;
    box.low[back ? 0 : 1] = from, box.high[back ? 0 : 1] = to;
    box.low[2] = low_mm, box.high[2] = high_mm;
    const facts::Family wall{parts::Role::wall, side};
    const gp_Dir way{face.nx, face.ny, 0};
    const auto reach = framing.reach(wall, way, box);
    if (!reach) continue;
    const PastItsEnd past{framing, wall, way, box, back ? 0U : 1U, model.job.walls.stock.thickness.in_mm()};
    face.reach_mm =
        std::max({*reach, past.at(from, false).value_or(*reach), past.at(to, true).value_or(*reach)}) + build_up_mm;
    faces.push_back(face);
  }
  return faces;
}

}  // namespace fallwright::measure
