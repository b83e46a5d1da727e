#include <algorithm>
#include <cmath>

#include "brep/properties.hpp"
#include "facts/furring.hpp"
#include "job/studs.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/furring.hpp"
#include "measure/wall_faces.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using job::Side;

/// A rectangle on a wall: along it (x of the back wall, y of a side wall) and up.
struct OnWall {
  double from = 0, to = 0, low = 0, high = 0;
  double area() const { return std::max(0.0, to - from) * std::max(0.0, high - low); }
};

OnWall common(const OnWall& a, const OnWall& b) {
  return {std::max(a.from, b.from), std::min(a.to, b.to), std::max(a.low, b.low), std::min(a.high, b.high)};
}

OnWall patch_of(const TopoDS_Shape& shape, bool back) {
  const auto b = brep::box_of(shape);
  const std::size_t axis = back ? 0 : 1;
  return {b[axis], b[axis + 3], b[2], b[5]};
}

OnWall plate_of(const job::Fixture& fixture, const job::Job& job) {
  const bool back = fixture.wall == Side::back;
  const double middle = back ? fixture.along.in_mm() : job.alcove.depth.in_mm() - fixture.along.in_mm();
  const double w = fixture.width.in_mm() / 2, h = fixture.tall.in_mm() / 2, z = fixture.height.in_mm();
  return {middle - w, middle + w, z - h, z + h};
}

/// The part of an upright stretch that rows of blocking take where studs stand at either side of it.
double in_rows(const OnWall& stretch, const job::Job& job) {
  const double half = job.walls.stock.depth.in_mm() / 2, wide = stretch.to - stretch.from;
  double area = 0;
  for (const job::Length& row : job.walls.blocking)
    area += common(stretch, {stretch.from, stretch.to, row.in_mm() - half, row.in_mm() + half}).area();
  return std::min(area, wide * (stretch.high - stretch.low));
}

/// Blocking is cut to a mark: what that leaves open between its ends and the studs no screw can miss by.
OnWall to_its_studs(OnWall block, const std::vector<OnWall>& studs, double slit_mm) {
  const auto closes = [&](double gap) { return gap >= 0 && gap <= slit_mm + units::tolerance::length_mm; };
  const OnWall cut = block;
  for (const OnWall& stud : studs) {
    if (closes(cut.from - stud.to)) block.from = stud.to;
    if (closes(stud.from - cut.to)) block.to = stud.from;
  }
  return block;
}

/// A row that lies on the sole plate, or hangs below the top plates, is set to a mark: what that leaves open is no more
/// than a screw is thick either.
OnWall to_its_plates(OnWall block, const std::vector<OnWall>& plates, double mark_mm) {
  const auto closes = [&](double gap) { return gap >= 0 && gap <= mark_mm + units::tolerance::length_mm; };
  const OnWall cut = block;
  for (const OnWall& plate : plates) {
    if (closes(cut.low - plate.high)) block.low = plate.high;
    if (closes(plate.low - cut.high)) block.high = plate.low;
  }
  return block;
}

/// How much of air is left between the board's back and timber where a plate is screwed on, once all strips are set: a
/// strip is cut down to a mark.
double air_mm(const parts::Solid& solid, Side wall, const OnWall& backed, const Boards& boards,
              const std::vector<facts::BlockStrip>& strips) {
  if (solid.part.kind == parts::Kind::stud) return 0;  // the board lies on it, or on its strip
  const auto face = room_face(solid, wall);
  const double place = (backed.from + backed.to) / 2, z = (backed.low + backed.high) / 2;
  if (!face || !boards.is_furred(wall, place, z)) return 0;
  const auto strip =
      std::find_if(strips.begin(), strips.end(), [&](const facts::BlockStrip& s) { return s.part_id == solid.id; });
  double thick = 0;
  if (strip != strips.end()) {
    const double share = (place - face->from) / (face->to - face->from),
                 low = wall == Side::back ? strip->first_mm : strip->other_mm,
                 high = wall == Side::back ? strip->other_mm : strip->first_mm;
    thick = low + (high - low) * share;
  }
  return *boards.at(wall, place, z) - face->innermost(wall, z) - thick;
}

/// Studs and blocking of a wall lie side by side: their faces' shares of the plate add up. What the board does not lie
/// on, for air between, holds nothing.
void add_timber(const parts::Model& model, const job::Fixture& fixture, const OnWall& plate, const Boards& boards,
                const std::vector<facts::BlockStrip>& strips, facts::Backing& backing) {
  const bool back = fixture.wall == Side::back, known = !job::are_studs_assumed(model.job, fixture.wall);
  const facts::Family family{parts::Role::wall, fixture.wall};
  const double slit_mm = units::tape_mark_mm(model.job.is_metric()) / 2;
  double on_plates = 0;
  std::vector<OnWall> studs, plates;
  for (const parts::Solid& solid : model.solids) {
    if (solid.part.family != family) continue;
    const bool lies = solid.part.kind == parts::Kind::sole_plate || solid.part.kind == parts::Kind::top_plate;
    if (solid.part.kind == parts::Kind::stud) studs.push_back(patch_of(solid.shape, back));
    if (lies) plates.push_back(patch_of(solid.shape, back));
  }
  for (const parts::Solid& solid : model.solids) {
    if (solid.part.family != family) continue;
    OnWall patch = patch_of(solid.shape, back);
    if (solid.part.kind == parts::Kind::blocking)
      patch = to_its_plates(to_its_studs(patch, studs, slit_mm), plates, 2 * slit_mm);
    const OnWall backed = common(plate, patch);
    if (backed.area() <= 0) continue;
    // As little as no stud is furred for lies before no block either, and a strip's last mark is less.
    if (air_mm(solid, fixture.wall, backed, boards, strips) > facts::least_furred_mm) continue;
    backing.share += backed.area() / plate.area();
    // Blocking reaches from stud to stud: where nobody read them it is as little known.
    const bool stands = solid.part.kind == parts::Kind::stud || solid.part.kind == parts::Kind::blocking;
    if (!known && stands) backing.assumed += backed.area() / plate.area();
    if (!stands) on_plates += backed.area();
  }
  backing.share = std::min(1.0, backing.share);
  if (known) return;
  backing.in_rows = std::min(1.0, (in_rows(plate, model.job) + on_plates) / plate.area());
  const double free = 1 - backing.in_rows;
  backing.stud_can = (free <= units::tolerance::ratio ||
                      plate.to - plate.from <= model.job.walls.stock.thickness.in_mm() + units::tolerance::length_mm);
}

/// The bench hides a wall that it stands against from the floor up to the seat's own upstands.
void add_bench(const parts::Model& model, const job::Fixture& fixture, const OnWall& plate, facts::Backing& backing) {
  const parts::Solid* seat = model.first(parts::Role::seat_block);
  const auto frame = plan_of(model, parts::Role::bench_frame);
  if (!seat || !frame) return;
  constexpr double against_mm = 50;  // framing that close leaves no hand between
  const survey::Rect& f = *frame;
  const bool back = fixture.wall == Side::back;
  const double away = back                         ? model.job.alcove.depth.in_mm() - f.y1
                      : fixture.wall == Side::left ? f.x0
                                                   : model.job.alcove.width.in_mm() - f.x1;
  if (away > against_mm) return;
  OnWall bench = patch_of(seat->shape, back);
  bench.low = 0;
  bench.from = std::min(bench.from, back ? f.x0 : f.y0);
  bench.to = std::max(bench.to, back ? f.x1 : f.y1);
  const OnWall hidden = common(plate, bench);
  if (hidden.area() <= 0) return;
  backing.behind_bench = hidden.area() / plate.area();
  backing.clear_by_mm = bench.high - plate.low;
}

/// A plate may reach past its wall's end by less than anybody reads: only what is on the wall is held by it. The back
/// wall's own timber runs on behind the others.
OnWall on_its_wall(const OnWall& plate, const parts::Model& model, Side wall) {
  const parts::Solid* sole = model.find(facts::wall_part(wall, parts::Kind::sole_plate));
  if (!sole) return plate;
  const OnWall timber = patch_of(sole->shape, wall == Side::back);
  double from = timber.from, to = timber.to;
  if (wall == Side::back) {
    const double depth = model.job.alcove.depth.in_mm();
    from = std::max(from, wall_line(model, Side::left, depth).value_or(from));
    to = std::min(to, wall_line(model, Side::right, depth).value_or(to));
  }
  return {std::max(plate.from, from), std::min(plate.to, to), plate.low, plate.high};
}

/// The finished faces of walls that meet a fixture's own, where they come in farthest near its corners at its heights.
void add_corners(const parts::Model& model, const job::Fixture& fixture, const OnWall& plate, const Framing& furred,
                 std::vector<facts::PlateBeside>& beside) {
  const job::Job& job = model.job;
  const bool back = fixture.wall == Side::back;
  const double build_up = job.survey.finish_mm.value_or(0), width = job.alcove.width.in_mm(),
               depth = job.alcove.depth.in_mm();
  // Where its own finished face stands in the corner; walls are nearly square.
  const double face = back ? depth - build_up : fixture.wall == Side::left ? build_up : width - build_up;
  for (const Side corner : {Side::left, Side::right, Side::back}) {
    if (back == (corner == Side::back) || !job.alcove.has_wall(corner)) continue;
    for (double near = 50; near < 2000; near *= 2) {  // walls are studs: those next to the corner
      const survey::Rect there = back                         ? survey::Rect{0, depth - near, width, depth}
                                 : fixture.wall == Side::left ? survey::Rect{0, 0, near, depth}
                                                              : survey::Rect{width - near, 0, width, depth};
      const auto walls = wall_faces_along(there, model, furred, plate.low, plate.high, build_up);
      const auto at = std::find_if(walls.begin(), walls.end(), [&](const WallFace& w) { return w.side == corner; });
      if (at == walls.end()) continue;
      const double gap = corner == Side::left ? plate.from - at->at(face) : at->at(face) - plate.to;
      // Of a side wall what is told runs from the back corner.
      beside.push_back({corner, 0, gap, corner == Side::right ? gap : -gap});
      break;
    }
  }
}

/// Plates on one wall that are told before it.
void add_plates(const job::Job& job, std::size_t number, const OnWall& plate, std::vector<facts::PlateBeside>& beside) {
  const job::Fixture& own = job.fixtures[number];
  for (std::size_t i = 0; i < number; ++i) {
    const job::Fixture& other = job.fixtures[i];
    if (other.wall != own.wall) continue;
    const OnWall there = plate_of(other, job);
    const double off = own.along.in_mm() - other.along.in_mm(),
                 along = std::max(plate.from - there.to, there.from - plate.to),
                 up = std::max(plate.low - there.high, there.low - plate.high);
    const double gap = along > 0 && up > 0 ? std::hypot(along, up) : std::max(along, up);
    // Of two in one place no room and its mirror tell which way it is: one goes up.
    const double away = std::abs(off) <= units::tolerance::length_mm ? 0 : off > 0 ? -along : along;
    beside.push_back({{}, i, gap, away, there.high - plate.low});
  }
}

}  // namespace

std::vector<facts::Backing> measure_backings(const parts::Model& model, const facts::Heights& heights,
                                             const Boards& boards, const Framing& furred) {
  const double water = heights.threshold_greatest_mm.value_or(heights.rim_greatest_mm);
  std::vector<facts::Backing> found;
  if (model.job.fixtures.empty()) return found;
  const std::vector<facts::BlockStrip> strips = boards.block_strips();
  for (const job::Fixture& fixture : model.job.fixtures) {
    const OnWall whole = plate_of(fixture, model.job), plate = on_its_wall(whole, model, fixture.wall);
    facts::Backing backing;
    backing.number = found.size();
    backing.name = fixture.name;
    backing.wall = fixture.wall;
    backing.height_mm = fixture.height.in_mm();
    backing.above_water_mm = plate.low - water;
    add_timber(model, fixture, plate, boards, strips, backing);
    add_bench(model, fixture, plate, backing);
    add_corners(model, fixture, whole, furred, backing.beside);
    add_plates(model.job, backing.number, whole, backing.beside);
    found.push_back(backing);
  }
  return found;
}

}  // namespace fallwright::measure
