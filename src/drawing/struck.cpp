#include <algorithm>
#include <cmath>
#include <limits>

#include "drawing/rejected.hpp"
#include "drawing/views.hpp"
#include "units/tolerance.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// Between the base's front and back, where it passes on its way down.
std::optional<Line> beside_base(Line line, const std::array<double, 6>& base) {
  if (line.from.y > line.to.y) std::swap(line.from, line.to);
  const double low = base[1] + units::tolerance::length_mm, high = base[4] - units::tolerance::length_mm;
  if (line.to.y <= low || line.from.y >= high) return std::nullopt;
  const auto at = [&](double y) {
    const double run = line.to.y - line.from.y, share = run > 0 ? (y - line.from.y) / run : 0;
    return Point{line.from.x + share * (line.to.x - line.from.x), y};
  };
  if (line.from.y < low) line.from = at(low);
  if (line.to.y > high) line.to = at(high);
  return line;
}

/// What stands farthest in at a height, at the left and at the right of the base.
struct Jaws {
  std::optional<Catch> left, right;
};

void look(Jaws& jaws, const parts::Solid& solid, const std::array<double, 6>& base, double z) {
  const double middle = (base[0] + base[3]) / 2;
  for (const Line& line : section(solid, gp_Pln{gp_Pnt{0, 0, z}, gp::DZ()}, from_above()).lines) {
    const auto beside = beside_base(line, base);
    if (!beside) continue;
    for (const Point& p : {beside->from, beside->to}) {
      const bool left = p.x < middle;
      const double in = left ? p.x - base[0] : base[3] - p.x;
      std::optional<Catch>& most = left ? jaws.left : jaws.right;
      if (!most || in > most->in_mm) most = Catch{solid.part.family, p, z, in};
    }
  }
}

}  // namespace

std::vector<Catch> catches_of(const Subject& subject) {
  const facts::DropIn& drop = subject.facts.room.drop_in;
  if (!shut_base(subject) || !drop.between_walls || drop.least_mm >= 0) return {};
  const auto& base = part(subject.facts, facts::Role::base).bbox_mm;
  if (drop.narrower) {  // a width as read: between which points of the walls nobody knows
    const double y = subject.job().alcove.depth.in_mm() - drop.narrower->from_back_mm;
    return {{{facts::Role::wall, job::Side::left}, {base[0], y}, drop.least_at_mm, 0},
            {{facts::Role::wall, job::Side::right}, {base[3], y}, drop.least_at_mm, 0}};
  }
  Jaws jaws;
  const bool bench = subject.job().bench && subject.job().bench->place != job::Side::back;
  for (const parts::Solid& solid : subject.model.solids) {
    const facts::Family& family = solid.part.family;
    const bool wall = family == facts::Family{facts::Role::wall, job::Side::left} ||
                      family == facts::Family{facts::Role::wall, job::Side::right};
    if (!wall && !(bench && solid.role == Role::bench_frame)) continue;
    // What ends at that height counts, and a plane along its face cuts nothing.
    for (const double off : {-0.02, 0.02}) look(jaws, solid, base, drop.least_at_mm + off);
  }
  const double mark = units::tape_mark_mm(subject.job().is_metric()) / 2;
  std::vector<Catch> caught;
  for (auto* side : {&jaws.left, &jaws.right})
    if (*side) (*side)->z = drop.least_at_mm;
  for (const auto& side : {jaws.left, jaws.right})
    if (side && side->in_mm > mark) caught.push_back(*side);
  if (caught.empty())  // it lacks what one side alone does not show
    for (const auto& side : {jaws.left, jaws.right})
      if (side) caught.push_back(*side);
  return caught;
}

}  // namespace fallwright::drawing
