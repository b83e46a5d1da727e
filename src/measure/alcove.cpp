#include "measure/alcove.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "brep/properties.hpp"
#include "job/studs.hpp"
#include "measure/detail.hpp"
#include "measure/furring.hpp"
#include "measure/rim.hpp"
#include "measure/room_face.hpp"
#include "measure/shapes.hpp"
#include "measure/wall_faces.hpp"
#include "survey/room.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using job::Side;
using survey::Rect;

class Walls {
 public:
  explicit Walls(const parts::Model& model)
      : model_{model},
        read_{survey::make_room(model.job.survey, model.job.alcove.width.in_mm(), model.job.alcove.depth.in_mm(),
                                model.job.alcove.walls)},
        base_{*plan_of(model, parts::Role::base)},
        outline_{Rim{*model.first(parts::Role::base)}.corners()},
        bench_{plan_of(model, parts::Role::bench_frame)} {
    if (model.job.bench) bench_side_ = model.job.bench->place;
  }

  /// Looked at up to the studs' heads; where one stands farther back than furring reaches above all tile alone, up to
  /// that: nothing is to lie flat there. @param tile_top nothing where nobody said how high it goes
  std::vector<facts::StudGap> studs(double floor, double upstand, std::optional<double> tile_top) const {
    std::vector<facts::StudGap> found;
    const double head = model_.job.alcove.height.in_mm();
    for (const parts::Solid& solid : model_.solids) {
      const auto side = stud_of(solid);
      if (!side) continue;
      const auto face = room_face(solid, *side);
      if (!face) continue;
      const auto before = before_at(*side, *face);
      // One that reaches past the bench's end stands beside the base as well: neither may find a strip in its way.
      const bool beside_base = side != bench_side_ && in_front(base_, *side, face->from, face->to);
      const auto edge = [&](double at) {
        if (before != facts::Before::bench) return edge_at(outline_, *side, at);
        const double of_bench = edge_of(*bench_, *side);
        return beside_base ? std::min(of_bench, edge_at(outline_, *side, at)) : of_bench;
      };
      // A corner of the base that stands before it, of one that is out of square, may come nearer than at its edges.
      const auto gap = [&](double z) {
        if (before == facts::Before::nothing) return 0.0;
        double least = face->least_to(*side, z, edge);
        for (const survey::Point& p : outline_) {
          const gp_Pnt corner{p.x, p.y, z};
          const double at = along_wall(*side, corner);
          if ((before == facts::Before::base || beside_base) && at > face->from && at < face->to)
            least = std::min(least, into_room(*side, corner) - face->into_at(*side, at, z));
        }
        return least;
      };
      const double bound = bound_to(before, upstand);
      const auto is_beyond = [&](double z) { return gap(z) > facts::most_furring_mm + units::tolerance::length_mm; };
      const double tiled = std::max(bound, tile_top.value_or(head)),
                   top = is_beyond(head) && !is_beyond(tiled) ? tiled : head;
      found.push_back({solid.id,
                       *side,
                       before,
                       as_read(*side, running(*side, face->middle_at(*side, 0))),
                       gap(floor),
                       gap(upstand),
                       gap(top),
                       job::are_studs_assumed(model_.job, *side),
                       bound,
                       gap(bound),
                       {},
                       floor,
                       top,
                       is_beyond(head) && !is_beyond(bound) && !is_beyond(upstand) && !is_beyond(floor) &&
                           model_.job.is_default("tile.height")});
    }
    return found;
  }

  /// Of the two side walls' ends, as they were read.
  std::optional<double> ends_apart() const {
    const survey::Wall *left = read_.wall(Side::left), *right = read_.wall(Side::right);
    if (!left || !right || !read_.square_known) return std::nullopt;
    return right->end().y - left->end().y;
  }

  /// At the base's own corners, for one that fills a room out of square is no rectangle: the sole plate tells the line
  /// at the floor, the nearest stud how it leans. On the bench's side of the base stands the bench, and no wall.
  void base_corners(double floor, double upstand, facts::Room& room) const {
    for (const Side side : {Side::left, Side::right, Side::back}) {
      if (side == bench_side_) continue;
      for (const bool second : {false, true}) {
        const bool back = side == Side::back;
        const Side end = !back && second ? Side::front : Side::back;
        const Side hand = !back ? side : second ? Side::right : Side::left;
        const survey::Point corner = farthest(hand, end);
        const double at = back ? corner.x : corner.y;
        const auto line = wall_line(model_, side, at);
        const facts::StudGap* near = nearest(room, side, at);
        if (!line || !near) continue;
        const double gap =
            edge_of({corner.x, corner.y, corner.x, corner.y}, side) - (side == Side::left ? *line : -*line);
        const double lean = (near->at_upstand_mm - near->at_floor_mm) / (upstand - floor);
        room.corners.push_back({end, hand, side, gap + lean * floor, gap + lean * upstand});
      }
    }
  }

 private:
  survey::Point farthest(Side hand, Side end) const {
    const double x = hand == Side::left ? -1 : 1, y = end == Side::front ? -1 : 1;
    return *std::max_element(outline_.begin(), outline_.end(), [&](const survey::Point& a, const survey::Point& b) {
      return a.x * x + a.y * y < b.x * x + b.y * y;
    });
  }

  /// Higher up nothing comes down beside a stud, and nothing stands before it.
  double bound_to(facts::Before before, double upstand) const {
    const double top = model_.job.alcove.height.in_mm();
    if (before == facts::Before::base) return std::min(top, std::max(upstand, model_.job.base.lowered_from.in_mm()));
    double bound = 0;
    for (const parts::Solid& solid : model_.solids)
      if (solid.role == parts::Role::bench_frame || solid.role == parts::Role::seat_block)
        bound = std::max(bound, parts::box_of(solid)[5]);
    return std::min(top, bound);
  }

  static std::optional<Side> stud_of(const parts::Solid& solid) {
    return solid.part.is(parts::Role::wall, parts::Kind::stud) ? solid.part.family.wall : std::nullopt;
  }

  double running(Side side, double middle) const {
    return side == Side::back ? middle : model_.job.alcove.depth.in_mm() - middle;
  }

  /// A stud that was read is told where the tape had it: the model's stands a hair off where another wall's framing is
  /// in its way, in a corner out of square or out of plumb.
  double as_read(Side side, double at) const {
    const survey::Wall* wall = read_.wall(side);
    double told = at, nearest = model_.job.walls.stock.thickness.in_mm();
    for (const survey::Studs& studs : read_.studs)
      for (const double centre : studs.centres_mm) {
        if (studs.wall != side || !wall) continue;
        const bool from_start = studs.from == Side::left || studs.from == Side::back;
        const double read = from_start ? centre : wall->length() - centre;
        if (std::abs(read - at) < nearest) nearest = std::abs(read - at), told = read;
      }
    return told;
  }

  static bool in_front(const Rect& r, Side side, double from, double to) {
    constexpr double slack = units::tolerance::length_mm;
    return side == Side::back ? to >= r.x0 - slack && from <= r.x1 + slack : to >= r.y0 - slack && from <= r.y1 + slack;
  }

  /// Before the bench's own wall stands the bench and nothing else. Elsewhere what stands before a stud's middle, and
  /// where nothing does, what stands before any of it.
  facts::Before before_at(Side side, const RoomFace& face) const {
    // One at an end of the alcove stands before its own wall and the back one, and not before that of the other end.
    const bool faces_bench = bench_ && (side == Side::back || bench_side_ == Side::back || bench_side_ == side);
    const bool bench_first =
        faces_bench && edge_of(*bench_, side) < edge_at(outline_, side, face.middle()) - units::tolerance::length_mm;
    for (const auto& [from, to] : {std::pair{face.middle(), face.middle()}, std::pair{face.from, face.to}}) {
      if (bench_first && in_front(*bench_, side, from, to)) return facts::Before::bench;
      if (side != bench_side_ && in_front(base_, side, from, to)) return facts::Before::base;
      if (faces_bench && in_front(*bench_, side, from, to)) return facts::Before::bench;
    }
    return facts::Before::nothing;
  }

  const facts::StudGap* nearest(const facts::Room& room, Side side, double along) const {
    const facts::StudGap* best = nullptr;
    const double at = running(side, along);
    for (const facts::StudGap& stud : room.studs)
      if (stud.wall == side && !stud.stands_alone() &&
          (!best || std::abs(stud.running_mm - at) < std::abs(best->running_mm - at)))
        best = &stud;
    return best;
  }

  const parts::Model& model_;
  survey::Room read_;
  Rect base_;
  survey::Polygon outline_;
  std::optional<Rect> bench_;
  std::optional<Side> bench_side_;  ///< of the base
};

}  // namespace

Framing::Framing(const parts::Model& model) {
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != parts::Role::wall && solid.role != parts::Role::bench_frame) continue;
    auto& family = outlines_[solid.part.family];
    for (auto& outline : outlines_of(*parts::skin_of(solid))) family.push_back(std::move(outline));
  }
}

Framing Framing::with(const Boards& boards, bool before_seat) const {
  Framing furred = *this;
  for (const Side wall : {Side::left, Side::right, Side::back})
    if (const auto into = boards.furred_to(wall)) {
      furred.furred_to_.emplace(wall, *into);
      auto& family = furred.outlines_[{parts::Role::wall, wall}];
      for (auto& strip : boards.strips(wall, before_seat)) family.push_back(std::move(strip));
    }
  return furred;
}

std::optional<gp_Dir> Framing::furred_to(Side wall) const {
  const auto it = furred_to_.find(wall);
  return it == furred_to_.end() ? std::nullopt : std::optional{it->second};
}

std::optional<double> Framing::reach(const facts::Family& family, const gp_Dir& way, const Box3& within) const {
  const auto it = outlines_.find(family);
  return it == outlines_.end() ? std::nullopt : measure::reach(it->second, way, within);
}

std::vector<std::vector<gp_Pnt>> Framing::of(const facts::Family& family) const {
  const auto it = outlines_.find(family);
  return it == outlines_.end() ? std::vector<std::vector<gp_Pnt>>{} : it->second;
}

std::optional<double> stands_behind(const parts::Solid& stick, Side wall, const Rect& plan, double z) {
  const auto face = room_face(stick, wall);
  if (!face) return std::nullopt;
  return edge_of(plan, wall) - face->innermost(wall, z);
}

std::optional<double> wall_line(const parts::Model& model, Side side, double place) {
  const parts::Solid* plate = model.find(facts::wall_part(side, parts::Kind::sole_plate));
  const auto face = plate ? room_face(*plate, side) : std::nullopt;
  if (!face) return std::nullopt;
  const gp_Pnt& on = face->outline.front();
  const gp_Dir& n = face->normal;
  return side == Side::back ? on.Y() - n.X() * (place - on.X()) / n.Y() : on.X() - n.Y() * (place - on.Y()) / n.X();
}

survey::StudFaces stud_faces(const parts::Model& model) {
  const job::Alcove& alcove = model.job.alcove;
  const auto line = [&](Side side, double designed) {
    const auto at_zero = wall_line(model, side, 0), further = wall_line(model, side, 1);
    return at_zero && further ? survey::FootLine{*at_zero, *further - *at_zero} : survey::FootLine{designed, 0};
  };
  return {line(Side::left, 0), line(Side::right, alcove.width.in_mm()), line(Side::back, alcove.depth.in_mm())};
}

std::optional<survey::Rect> plan_of(const parts::Model& model, parts::Role role) {
  std::optional<Rect> plan;
  for (const parts::Solid& solid : model.solids) {
    if (solid.role != role) continue;
    const auto b = parts::box_of(solid);
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
  /// Sides from which nothing came in.
  std::vector<Side> open() const {
    std::vector<Side> sides;
    if (left < -1e6) sides.push_back(Side::left);
    if (right > 1e6) sides.push_back(Side::right);
    return sides;
  }
  std::optional<double> width() const { return right - left < 1e6 ? std::optional{right - left} : std::nullopt; }
};

}  // namespace

namespace {

/// How far a side of the seat's top stands off a wall, at either end of that side, where it is farthest.
std::optional<double> seat_off(const parts::Model& model, const WallFace& wall) {
  constexpr double along_mm = 0.1;  // corners nearer to a side than this are its own
  std::vector<double> off;
  for (const parts::Facet& facet : model.first(parts::Role::seat_block)->facets)
    if (facet.surface == facts::Surface::seat)
      for (const gp_Pnt& p : corners(facet.face)) off.push_back(wall.nx * p.X() + wall.ny * p.Y() - wall.reach_mm);
  if (off.size() < 2) return std::nullopt;
  // In a room out of square the side runs askew to the wall: of four corners the nearer two are that side's.
  std::sort(off.begin(), off.end());
  std::size_t own = 2;
  while (own < off.size() && off[own] - off[1] < along_mm) ++own;
  return std::max(0.0, off[own - 1]);
}

/// Behind the seat, and at its ends where walls stand.
void measure_seat_gaps(const parts::Model& model, const Framing& framing, facts::Facts& facts) {
  if (!facts.heights.seat_front_mm || !facts.heights.seat_back_mm) return;
  const auto gaps = [&](double build_up, std::optional<double>& rear, std::optional<double>& side) {
    for (const WallFace& wall :
         wall_faces(model, framing, *facts.heights.seat_front_mm, *facts.heights.seat_back_mm, build_up)) {
      const auto off = seat_off(model, wall);
      const bool ends = model.job.bench->place == Side::back || wall.side == Side::back;
      if (wall.side == model.job.bench->place) rear = off;
      if (wall.side != model.job.bench->place && ends && off) side = std::max(side.value_or(0), *off);
    }
  };
  gaps(0, facts.clear.seat_rear_gap_mm, facts.clear.seat_side_gap_mm);
  if (facts.clear.finished)
    gaps(*model.job.survey.finish_mm, facts.clear.finished->seat_rear_gap_mm, facts.clear.finished->seat_side_gap_mm);
}

}  // namespace

void measure_access(const parts::Model& model, const Framing& framing, const Framing& furred, facts::Facts& facts) {
  const Rect base = *plan_of(model, parts::Role::base);
  Box3 box;
  box.low[1] = base.y0 - 1, box.high[1] = base.y0 + std::max(25.0, model.job.base.threshold.width.in_mm());
  box.low[2] = facts.heights.threshold_greatest_mm.value_or(facts.heights.rim_greatest_mm);
  box.high[2] = box.low[2] + entry_reach_mm;
  Entry framed{std::numeric_limits<double>::lowest(), std::numeric_limits<double>::max(), (base.x0 + base.x1) / 2};
  if (!model.job.alcove.has_wall(Side::left)) framed.left = base.x0;
  if (!model.job.alcove.has_wall(Side::right)) framed.right = base.x1;
  Entry finished = framed, face = framed;  // of the compartment's face a seat inside it takes nothing
  const double build_up = model.job.survey.finish_mm.value_or(0);
  using parts::Role;
  for (const facts::Family& family :
       {facts::Family{Role::wall, Side::left}, {Role::wall, Side::right}, {Role::bench_frame}}) {
    const auto from_left = framing.reach(family, gp::DX(), box), from_right = framing.reach(family, {-1, 0, 0}, box);
    const bool bench = family.role == Role::bench_frame;
    framed.take(from_left, from_right);
    const auto left = furred.reach(family, gp::DX(), box), right = furred.reach(family, {-1, 0, 0}, box);
    finished.take(left, right, bench ? 0 : build_up);
    if (!bench) face.take(left, right, build_up);
  }
  if (const parts::Solid* seat = model.first(parts::Role::seat_block)) {
    const auto outlines = outlines_of(*parts::skin_of(*seat));
    for (Entry* entry : {&framed, &finished})
      entry->take(reach(outlines, gp::DX(), box), reach(outlines, gp_Dir{-1, 0, 0}, box));
    const auto b = parts::box_of(*seat);
    const bool back = model.job.bench->place == job::Side::back;
    facts.clear.seat_depth_mm = back ? b[4] - b[1] : b[3] - b[0];
    facts.clear.seat_reach_mm = b[1] - base.y0;
    if (facts.clear.finished) facts.clear.finished->seat_depth_mm = *facts.clear.seat_depth_mm - build_up;
    measure_seat_gaps(model, furred, facts);
  }
  facts.clear.entry_mm = framed.width(), facts.clear.nothing_at_entry = framed.open();
  facts.clear.compartment.face_mm = face.width(), facts.clear.compartment.no_stud_at_entry = face.open();
  if (facts.clear.finished) facts.clear.finished->entry_mm = finished.width();
}

namespace {

/// Widths that were read, each with that between the solids at its place.
std::vector<facts::WidthRead> widths_read(const parts::Model& model, const Framing& framing) {
  std::vector<facts::WidthRead> found;
  for (const survey::Width& w : model.job.survey.widths) {
    const double y = model.job.alcove.depth.in_mm() - w.from_back_mm;
    // Walls are studs: the face next to the place, a stud's spacing away at most.
    const auto face = [&](Side side, const gp_Dir& way) {
      std::optional<double> reach;
      for (double near = 25; near < 1000 && !reach; near *= 2) {
        Box3 box;
        box.low[1] = y - near, box.high[1] = y + near;
        box.low[2] = box.high[2] = w.height_mm;
        reach = framing.reach({parts::Role::wall, side}, way, box);
      }
      return reach;
    };
    const auto left = face(Side::left, gp::DX()), right = face(Side::right, gp_Dir{-1, 0, 0});
    if (left && right)
      found.push_back({w.height_mm, w.width.mm + 2 * model.job.survey.face_mm(w.width.face), -*right - *left,
                       w.width.tolerance_mm, w.from_back_mm});
  }
  return found;
}

}  // namespace

std::vector<facts::StudGap> measure_studs(const parts::Model& model, const facts::Heights& heights) {
  const job::Job& job = model.job;
  const double tiled = heights.drain_top_mm + job.buy.tile.height.in_mm();
  const bool is_said = !job.is_default("tile.height") && !job.buy.tile.height.is_zero();
  std::vector<facts::StudGap> studs =
      Walls{model}.studs(heights.rib_plane_mm, heights.upstand_top_mm.value_or(heights.rim_greatest_mm),
                         is_said ? std::optional{std::min(tiled, job.alcove.height.in_mm())} : std::nullopt);
  if (model.job.base.is_site_built())  // mortar follows the studs as they stand: nothing is to be brought out to it
    for (facts::StudGap& stud : studs)
      if (stud.before == facts::Before::base) {
        stud.before = facts::Before::nothing;
        stud.at_floor_mm = stud.at_upstand_mm = stud.at_top_mm = stud.at_bound_mm = 0;
      }
  add_strips(model, heights, studs);
  return studs;
}

void measure_walls(const parts::Model& model, const Framing& framing, const facts::Heights& heights,
                   facts::Room& room) {
  const Walls walls{model};
  const double upstand = heights.upstand_top_mm.value_or(heights.rim_greatest_mm);
  room.ends_apart_mm = walls.ends_apart();
  walls.base_corners(heights.rib_plane_mm, upstand, room);
  room.widths = widths_read(model, framing);
  room.drop_in = measure_drop_in(model, framing, heights, room.widths);
  for (const Side side : model.job.alcove.walls) {
    const auto& plumbs = model.job.survey.plumbs;
    if (std::none_of(plumbs.begin(), plumbs.end(), [&](const survey::Plumb& p) { return p.wall == side; }))
      room.not_plumbed.push_back(side);
  }
}

}  // namespace fallwright::measure
