// How the seat block of a bench at the back comes in: over the base, between what stands then.
#include <algorithm>
#include <cmath>
#include <limits>

#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/flanks.hpp"
#include "measure/surface.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

/// The block in plan: its ends as straight lines from its front to its back.
class BlockEnds {
 public:
  explicit BlockEnds(const parts::Solid& seat) : box_{parts::box_of(seat)} {
    constexpr double slab_mm = 1;
    const auto outlines = outlines_of(*parts::skin_of(seat));
    for (const bool back : {false, true}) {
      Box3 slab;
      slab.low[1] = back ? box_[4] - slab_mm : box_[1], slab.high[1] = back ? box_[4] : box_[1] + slab_mm;
      left_[back] = -reach(outlines, gp_Dir{-1, 0, 0}, slab).value_or(-box_[0]);
      right_[back] = reach(outlines, gp::DX(), slab).value_or(box_[3]);
    }
  }
  double front() const { return box_[1]; }
  double back() const { return box_[4]; }
  double low() const { return box_[2]; }
  double high() const { return box_[5]; }
  double length_mm() const { return box_[3] - box_[0]; }
  double height_mm() const { return box_[5] - box_[2]; }

  /// What is left at both ends together, held so far before its place; nothing where a side is open there.
  std::optional<double> left_over(const Faces& faces, double before_mm) const {
    constexpr double hair_mm = units::tolerance::length_mm;
    constexpr double none = std::numeric_limits<double>::max();
    double left = none, right = none;
    for (const bool to_left : {true, false})
      for (const FacePoint& p : to_left ? faces.left : faces.right) {
        const double y = p.y_mm + before_mm;
        if (y < front() - hair_mm || y > back() + hair_mm) continue;
        if (to_left)
          left = std::min(left, at(left_, y) - p.x_mm);
        else
          right = std::min(right, p.x_mm - at(right_, y));
      }
    return left == none || right == none ? std::nullopt : std::optional{left + right};
  }

 private:
  double at(const std::array<double, 2>& end, double y) const {
    return end[0] + (end[1] - end[0]) * std::clamp((y - front()) / (back() - front()), 0.0, 1.0);
  }

  std::array<double, 6> box_;
  std::array<double, 2> left_{}, right_{};  ///< at its front and its back
};

/// Where on its way a corner of the block passes a corner of what stands beside it, as far before its place.
std::vector<double> places_on_the_way(const BlockEnds& block, const Faces& faces, double farthest_mm) {
  std::vector<double> places{0};
  for (const auto* side : {&faces.left, &faces.right})
    for (const FacePoint& p : *side)
      for (const double corner : {block.front(), block.back()})
        if (const double before = corner - p.y_mm; before > 0 && before < farthest_mm) places.push_back(before);
  return places;
}

/// What is left on the way with the block's foot held so high, and where that is least.
struct Carried {
  double foot_mm = 0, least_mm = 0, at_mm = 0, at_place_mm = 0;
};

/// The block on its way, level, and let down at its place.
class Carrying {
 public:
  /// @param lowest_mm so high its foot is held at least @param farthest_mm so far before its place it sets out
  Carrying(const BlockEnds& block, const Flanks& flanks, double lowest_mm, double farthest_mm)
      : block_{block}, flanks_{flanks}, lowest_{lowest_mm}, farthest_{farthest_mm} {}

  /// @param high_mm so high its top stands
  Carried at(double foot_mm, double high_mm) const {
    constexpr double none = std::numeric_limits<double>::max();
    Carried way{foot_mm, none, foot_mm, none};
    const auto look = [&](double z, const Faces& faces, double before) {
      const auto left = block_.left_over(faces, before);
      if (!left) return;
      if (before == 0) way.at_place_mm = std::min(way.at_place_mm, *left);
      if (*left < way.least_mm - units::tolerance::length_mm) way.least_mm = *left, way.at_mm = z;
    };
    for (const double z : flanks_.heights(foot_mm, high_mm)) {
      const Faces faces = flanks_.at(z);
      for (const double before : places_on_the_way(block_, faces, farthest_)) look(z, faces, before);
    }
    if (foot_mm > lowest_)  // from there it is let down
      for (const double z : flanks_.heights(lowest_, foot_mm)) look(z, flanks_.at(z), 0);
    return way;
  }

  /// Held higher, where walls that lean out leave more over the base: the least height that leaves the most.
  Carried higher(Carried best, double ceiling_mm) const {
    constexpr double reach_mm = 1200;  // two men carry it so high at most; common practice, no source
    constexpr double gains_mm = 0.1;   // less is nothing
    constexpr int steps = 24;
    if (best.least_mm > best.at_place_mm - gains_mm) return best;  // at its place it has no more
    const double most = std::min(lowest_ + reach_mm, ceiling_mm) - block_.height_mm();
    for (int i = 1; i <= steps && lowest_ < most; ++i) {
      const double foot = lowest_ + (most - lowest_) * i / steps;
      if (const Carried way = at(foot, foot + block_.height_mm()); way.least_mm > best.least_mm + gains_mm) best = way;
    }
    return best;
  }

 private:
  const BlockEnds& block_;
  const Flanks& flanks_;
  double lowest_, farthest_;
};

}  // namespace

std::optional<facts::DropIn> measure_seat_in(const parts::Model& model, const Framing& framing,
                                             std::optional<double> strips_mm) {
  const parts::Solid* seat = model.first(parts::Role::seat_block);
  if (!seat || model.job.bench->place != job::Side::back) return std::nullopt;
  const BlockEnds block{*seat};
  const auto base = parts::box_of(*model.first(parts::Role::base));
  facts::DropIn way;
  way.length_mm = block.length_mm(), way.height_mm = block.height_mm();
  way.between_walls = model.job.alcove.has_wall(job::Side::left) && model.job.alcove.has_wall(job::Side::right);
  if (!way.between_walls) return way;
  const Flanks flanks{framing, base[1], block.back(), (base[0] + base[3]) / 2, false};
  // It is carried in over the base's edges and what stands as high beside them, and let down on the frame.
  constexpr double over_mm = 0.01;
  const double lowest = std::max({block.low(), base[5], strips_mm.value_or(base[5])}) + over_mm,
               ceiling = model.job.alcove.height.in_mm();
  const Carrying carrying{block, flanks, lowest, block.back() - base[1]};
  Carried level = carrying.at(lowest, lowest + way.height_mm);
  way.between_walls = level.least_mm < std::numeric_limits<double>::max();
  if (!way.between_walls) return way;
  level = carrying.higher(level, ceiling);
  way.carried_mm = level.foot_mm, way.least_mm = level.least_mm, way.least_at_mm = level.at_mm;
  constexpr double nobody_cuts_mm = 0.1;  // a block as long as the room is wide is not tipped, however walls lean
  if (way.least_mm >= -nobody_cuts_mm) return way;
  // Tipped, one end stands higher: between walls that lean, and under the ceiling.
  facts::DropIn tipped = way;
  tip(tipped, way.length_mm + level.at_place_mm);
  const auto stands = [&] {
    const double angle = tipped.tip_deg * M_PI / 180;
    return lowest + way.length_mm * std::sin(angle) + way.height_mm * std::cos(angle);
  };
  const Carried turned = carrying.at(lowest, std::min(stands(), ceiling));
  way.least_mm = turned.least_mm;
  tip(way, way.length_mm + turned.at_place_mm);
  way.tip_clear_mm = std::min(way.tip_clear_mm, ceiling - stands());
  way.least_mm = level.least_mm;
  return way;
}

}  // namespace fallwright::measure
