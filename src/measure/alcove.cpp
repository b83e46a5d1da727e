#include "measure/alcove.hpp"

#include <algorithm>
#include <cmath>

#include "brep/properties.hpp"
#include "measure/detail.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using job::Side;
using survey::Rect;

gp_Dir outward_of(Side side) {
  return side == Side::left ? gp_Dir{-1, 0, 0} : side == Side::right ? gp::DX() : gp::DY();
}

/// A stud's face toward the room.
struct RoomFace {
  gp_Pnt on;
  gp_Dir normal;
  double middle = 0;  ///< along the wall: y for a side wall, x for the back wall

  /// Place of the face across the wall at its middle and a height.
  double at(Side side, double z) const {
    const bool across_y = side == Side::back;
    const double along = across_y ? normal.X() * (middle - on.X()) : normal.Y() * (middle - on.Y());
    const double rise = normal.Z() * (z - on.Z());
    return across_y ? on.Y() - (along + rise) / normal.Y() : on.X() - (along + rise) / normal.X();
  }
};

std::optional<RoomFace> room_face(const TopoDS_Shape& stud, Side side) {
  const gp_Dir inward = outward_of(side).Reversed();
  for (const TopoDS_Face& face : faces_of(stud)) {
    const auto n = outward(face);
    if (!n || n->Dot(inward) < 0.7) continue;
    RoomFace found{corners(face).front(), *n, 0};
    const auto points = corners(face);
    for (const gp_Pnt& p : points)
      found.middle += (side == Side::back ? p.X() : p.Y()) / static_cast<double>(points.size());
    return found;
  }
  return std::nullopt;
}

/// What stands in front of a wall at a place along it, as the plane its face is brought to.
struct Before {
  const char* name;
  double plane;
};

class Walls {
 public:
  explicit Walls(const parts::Model& model)
      : model_{model},
        framing_{model},
        base_{*plan_of(model, parts::Role::base)},
        bench_{plan_of(model, parts::Role::bench_frame)} {}

  void studs(double floor, double upstand, facts::Room& room) const {
    const double top = model_.job.alcove.height.in_mm();
    for (const parts::Solid& solid : model_.solids) {
      const auto side = stud_of(solid);
      if (!side) continue;
      const auto face = room_face(solid.shape, *side);
      const auto before = face ? before_at(*side, face->middle) : std::nullopt;
      if (!face) continue;
      const auto gap = [&](double z) {
        if (!before) return 0.0;
        const double behind = face->at(*side, z) - before->plane;
        return *side == Side::left ? -behind : behind;
      };
      room.studs.push_back({solid.id, name_of(*side), before ? before->name : "", running(*side, face->middle),
                            gap(floor), gap(upstand), gap(top)});
    }
  }

  /// At the base's corners: the sole plate tells the line at the floor, the nearest stud how it leans.
  void base_corners(double floor, double upstand, facts::Room& room) const {
    for (const Side side : {Side::left, Side::right, Side::back})
      for (const bool second : {false, true}) {
        const bool back = side == Side::back;
        const double at = back ? (second ? base_.x1 : base_.x0) : (second ? base_.y0 : base_.y1);
        const auto before = before_at(side, at);
        if (!before || std::string{before->name} != "base") continue;
        const auto line = wall_line(model_, side, at);
        const facts::StudGap* near = nearest(room, side, at);
        if (!line || !near) continue;
        const double behind = *line - before->plane, gap = side == Side::left ? -behind : behind;
        const std::string corner =
            back ? (second ? "back right" : "back left") : std::string{second ? "front " : "back "} + name_of(side);
        const double lean = (near->at_upstand_mm - near->at_floor_mm) / (upstand - floor);
        room.corners.push_back({corner, name_of(side), gap + lean * floor, gap + lean * upstand});
      }
  }

  facts::DropIn drop_in(double floor, double upstand) const {
    facts::DropIn drop;
    const auto box = brep::box_of(model_.first(parts::Role::base)->shape);
    drop.length_mm = base_.width();
    drop.height_mm = box[5] - box[2];
    drop.between_walls = model_.job.alcove.has_wall(Side::left) && model_.job.alcove.has_wall(Side::right);
    if (!drop.between_walls) return drop;
    const double from = std::min(model_.job.base.lowered_from.in_mm(), model_.job.alcove.height.in_mm());
    constexpr int steps = 12;
    drop.least_mm = std::numeric_limits<double>::max();
    for (int i = 0; i <= steps; ++i) {
      const double z = floor + (std::max(from, upstand) - floor) * i / steps;
      const auto width = width_at(z);
      if (!width) continue;  // nothing stands on one side at this height
      drop.widths_mm.emplace_back(z, *width);
      const double spare = to_spare(*width, drop.length_mm);
      if (spare < drop.least_mm) drop.least_mm = spare, drop.least_at_mm = z;
    }
    const auto levels = width_at(upstand);
    drop.between_walls = levels && !drop.widths_mm.empty();
    if (drop.between_walls)
      tip(drop, *levels);
    else
      drop.least_mm = 0;
    return drop;
  }

 private:
  static std::optional<Side> stud_of(const parts::Solid& solid) {
    if (solid.role != parts::Role::wall || solid.id.find("/stud-") == std::string::npos) return std::nullopt;
    for (const Side side : job::all_sides)
      if (solid.id.rfind(std::string{"wall-"} + name_of(side) + "/", 0) == 0) return side;
    return std::nullopt;
  }

  double running(Side side, double middle) const {
    return side == Side::back ? middle : model_.job.alcove.depth.in_mm() - middle;
  }

  std::optional<Before> before_at(Side side, double along) const {
    const auto in_front = [&](const Rect& r) {
      constexpr double slack = units::tolerance::length_mm;
      return side == Side::back ? along >= r.x0 - slack && along <= r.x1 + slack
                                : along >= r.y0 - slack && along <= r.y1 + slack;
    };
    const auto plane = [&](const Rect& r) { return side == Side::left ? r.x0 : side == Side::right ? r.x1 : r.y1; };
    const bool bench_first =
        bench_ && ((side == Side::left && bench_->x0 < base_.x0) || (side == Side::right && bench_->x1 > base_.x1) ||
                   (side == Side::back && bench_->y1 > base_.y1 + units::tolerance::length_mm));
    if (bench_first && in_front(*bench_)) return Before{"bench", plane(*bench_)};
    if (in_front(base_)) return Before{"base", plane(base_)};
    if (bench_ && in_front(*bench_)) return Before{"bench", plane(*bench_)};
    return std::nullopt;
  }

  const facts::StudGap* nearest(const facts::Room& room, Side side, double along) const {
    const facts::StudGap* best = nullptr;
    const double at = running(side, along);
    for (const facts::StudGap& stud : room.studs)
      if (stud.wall == name_of(side) && !stud.before.empty() &&
          (!best || std::abs(stud.running_mm - at) < std::abs(best->running_mm - at)))
        best = &stud;
    return best;
  }

  /// Between the walls, or between a wall and the bench's frame, over the base's depth, at one height.
  /// Nothing where nothing stands on one side.
  std::optional<double> width_at(double z) const {
    Box3 box;
    box.low[1] = base_.y0, box.high[1] = base_.y1, box.low[2] = box.high[2] = z;
    double left = std::numeric_limits<double>::lowest(), right = std::numeric_limits<double>::max();
    const auto take = [&](const std::string& family) {
      if (const auto x = framing_.reach(family, gp::DX(), box); x && *x < (base_.x0 + base_.x1) / 2)
        left = std::max(left, *x);
      if (const auto x = framing_.reach(family, gp_Dir{-1, 0, 0}, box); x && -*x > (base_.x0 + base_.x1) / 2)
        right = std::min(right, -*x);
    };
    for (const char* family : {"wall-left", "wall-right"}) take(family);
    if (model_.job.bench && model_.job.bench->place != job::BenchPlace::back) take("bench-frame");
    const bool both = left > std::numeric_limits<double>::lowest() && right < std::numeric_limits<double>::max();
    return both ? std::optional{right - left} : std::nullopt;
  }

  /// What a width leaves over; an exact fit, to rounding, is a fit with nothing to spare.
  static double to_spare(double width, double length) {
    const double spare = width - length;
    return std::abs(spare) <= units::tolerance::length_mm ? 0 : spare;
  }

  /// Tipped about its short axis the base, as a box, is R cos(angle - a) wide; as it levels it is at its widest, R.
  static void tip(facts::DropIn& drop, double where_it_levels) {
    const double widest = std::hypot(drop.length_mm, drop.height_mm), a = std::atan2(drop.height_mm, drop.length_mm);
    double narrowest = std::numeric_limits<double>::max();
    for (const auto& [z, width] : drop.widths_mm) narrowest = std::min(narrowest, width);
    drop.tip_clear_mm = where_it_levels - widest;
    if (to_spare(narrowest, drop.length_mm) < 0 && narrowest > 0)
      drop.tip_deg = (a + std::acos(narrowest / widest)) * 180 / M_PI;
  }

  const parts::Model& model_;
  Framing framing_;
  Rect base_;
  std::optional<Rect> bench_;
};

}  // namespace

Framing::Framing(const parts::Model& model) {
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != parts::Role::wall && solid.role != parts::Role::bench_frame) continue;
    auto& family = outlines_[solid.id.substr(0, solid.id.find('/'))];
    for (auto& outline : outlines_of(solid.shape)) family.push_back(std::move(outline));
  }
}

std::optional<double> Framing::reach(const std::string& family, const gp_Dir& way, const Box3& within) const {
  const auto it = outlines_.find(family);
  return it == outlines_.end() ? std::nullopt : measure::reach(it->second, way, within);
}

std::optional<double> wall_line(const parts::Model& model, Side side, double along) {
  const parts::Solid* plate = model.find(std::string{"wall-"} + name_of(side) + "/sole-plate");
  auto face = plate ? room_face(plate->shape, side) : std::nullopt;
  if (!face) return std::nullopt;
  face->middle = along;
  return face->at(side, face->on.Z());
}

std::optional<survey::Rect> plan_of(const parts::Model& model, parts::Role role) {
  std::optional<Rect> plan;
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != role) continue;
    const auto b = brep::box_of(solid.shape);
    if (!plan) plan = Rect{b[0], b[1], b[3], b[4]};
    plan->x0 = std::min(plan->x0, b[0]), plan->y0 = std::min(plan->y0, b[1]);
    plan->x1 = std::max(plan->x1, b[3]), plan->y1 = std::max(plan->y1, b[4]);
  }
  return plan;
}

namespace {

/// The free width at the entry, as one thing after the other comes in from the left or the right.
struct Entry {
  double left, right, middle;
  void take(std::optional<double> from_left, std::optional<double> from_right, double build_up = 0) {
    if (from_left && *from_left < middle) left = std::max(left, *from_left + build_up);
    if (from_right && -*from_right > middle) right = std::min(right, -*from_right - build_up);
  }
  std::optional<double> width() const { return right - left < 1e6 ? std::optional{right - left} : std::nullopt; }
};

}  // namespace

void measure_access(const parts::Model& model, facts::Facts& facts) {
  constexpr double reach_mm = 1778;  // 70 in
  const Rect base = *plan_of(model, parts::Role::base);
  const Framing framing{model};
  Box3 box;
  box.low[1] = base.y0 - 1, box.high[1] = base.y0 + std::max(25.0, model.job.base.threshold.width.in_mm());
  box.low[2] = facts.heights.threshold_greatest_mm.value_or(facts.heights.rim_greatest_mm);
  box.high[2] = box.low[2] + reach_mm;
  Entry framed{std::numeric_limits<double>::lowest(), std::numeric_limits<double>::max(), (base.x0 + base.x1) / 2};
  if (!model.job.alcove.has_wall(Side::left)) framed.left = base.x0;
  if (!model.job.alcove.has_wall(Side::right)) framed.right = base.x1;
  Entry finished = framed, face = framed;  // of the compartment's face a seat inside it takes nothing
  const double build_up = model.job.survey.finish_mm.value_or(0);
  for (const char* family : {"wall-left", "wall-right", "bench-frame"}) {
    const auto from_left = framing.reach(family, gp::DX(), box), from_right = framing.reach(family, {-1, 0, 0}, box);
    const bool bench = std::string{family} == "bench-frame";
    framed.take(from_left, from_right);
    finished.take(from_left, from_right, bench ? 0 : build_up);
    if (!bench) face.take(from_left, from_right, build_up);
  }
  if (const parts::Solid* seat = model.first(parts::Role::seat_block)) {
    const auto outlines = outlines_of(seat->shape);
    for (Entry* entry : {&framed, &finished})
      entry->take(reach(outlines, gp::DX(), box), reach(outlines, gp_Dir{-1, 0, 0}, box));
    const auto b = brep::box_of(seat->shape);
    const bool back = model.job.bench->place == job::BenchPlace::back;
    facts.clear.seat_depth_mm = back ? b[4] - b[1] : b[3] - b[0];
  }
  facts.clear.entry_mm = framed.width();
  facts.clear.compartment.face_mm = face.width();
  if (facts.clear.finished) facts.clear.finished->entry_mm = finished.width();
}

void measure_walls(const parts::Model& model, const facts::Heights& heights, facts::Room& room) {
  const Walls walls{model};
  const double upstand = heights.upstand_top_mm.value_or(heights.rim_greatest_mm);
  walls.studs(heights.rib_plane_mm, upstand, room);
  walls.base_corners(heights.rib_plane_mm, upstand, room);
  room.drop_in = walls.drop_in(heights.rib_plane_mm, upstand);
  const Framing framing{model};
  for (const survey::Width& w : model.job.survey.widths) {
    Box3 box;
    const double y = model.job.alcove.depth.in_mm() - w.from_back_mm;
    box.low[2] = box.high[2] = w.height_mm;
    const auto between = [&](double near) {
      box.low[1] = y - near, box.high[1] = y + near;
      const auto left = framing.reach("wall-left", gp::DX(), box),
                 right = framing.reach("wall-right", gp_Dir{-1, 0, 0}, box);
      return left && right ? std::optional{-*right - *left} : std::nullopt;
    };
    // Walls are studs: the face next to the place, a stud's spacing away at most.
    for (double near = 25; near < 1000; near *= 2)
      if (const auto width = between(near)) {
        room.widths.push_back({w.height_mm, w.width.mm + 2 * model.job.survey.face_mm(w.width.face), *width,
                               w.width.tolerance_mm, w.from_back_mm});
        break;
      }
  }
  narrow_by_widths(model, heights, room);
  for (const Side side : model.job.alcove.walls) {
    const auto& plumbs = model.job.survey.plumbs;
    if (std::none_of(plumbs.begin(), plumbs.end(), [&](const survey::Plumb& p) { return p.wall == side; }))
      room.not_plumbed.push_back(name_of(side));
  }
}

}  // namespace fallwright::measure
