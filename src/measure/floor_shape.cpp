#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <set>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/foremost.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "measure/surface.hpp"
#include "points/points.hpp"
#include "survey/rest.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

const char* const corner_names[] = {"back left", "back right", "front right", "front left"};

/// The room's plan at the floor, between the walls' feet; where no wall stands, to the side of the alcove as designed.
/// From back left counter-clockwise.
survey::Polygon feet_of(const parts::Model& model) {
  const double width = model.job.alcove.width.in_mm(), depth = model.job.alcove.depth.in_mm();
  const auto side = [&](job::Side at, double y) {
    return wall_line(model, at, y).value_or(at == job::Side::left ? 0 : width);
  };
  const auto back = [&](double x) { return wall_line(model, job::Side::back, x).value_or(depth); };
  const double left = back(side(job::Side::left, depth)), right = back(side(job::Side::right, depth));
  return {{side(job::Side::left, left), left},
          {side(job::Side::left, 0), 0},
          {side(job::Side::right, 0), 0},
          {side(job::Side::right, right), right}};
}

/// Where a line across a convex plan enters and leaves it.
std::optional<std::pair<double, double>> stretch_of(const survey::Polygon& plan, bool along_x, double line) {
  double from = std::numeric_limits<double>::max(), to = std::numeric_limits<double>::lowest();
  const auto off = [&](const survey::Point& p) { return (along_x ? p.y : p.x) - line; };
  const auto take = [&](const survey::Point& p) {
    from = std::min(from, along_x ? p.x : p.y), to = std::max(to, along_x ? p.x : p.y);
  };
  for (std::size_t i = 0; i < plan.size(); ++i) {
    const survey::Point &a = plan[i], &b = plan[(i + 1) % plan.size()];
    if (std::abs(off(a)) <= units::tolerance::weld_mm) take(a);
    if ((off(a) < 0) == (off(b) < 0)) continue;
    const double t = off(a) / (off(a) - off(b));
    take({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
  }
  return from < to ? std::optional{std::pair{from, to}} : std::nullopt;
}

/// Where spots were read, round them; nothing where their heights make no floor.
survey::Polygon read_of(std::vector<survey::Spot> spots, const survey::StudFaces& faces) {
  std::vector<points::Point2> places;
  for (survey::Spot& s : spots) {
    const survey::Point at = faces.placed({s.x, s.y});
    s.x = at.x, s.y = at.y;
    places.push_back({at.x, at.y});
  }
  if (!survey::span_a_plane(spots)) return {};
  survey::Polygon read;
  const auto net = points::triangulate(places, {});
  for (const std::size_t i : net->outline) read.push_back({places[i].x, places[i].y});
  return read;
}

/// Heights along lines that run across the room one way. Past the outermost spots the floor's solid leans as all spots
/// do, and a step that was read half-way along would go on to its ends: there a line is taken to change by no more
/// than it does over as much of what was read next to it. Of a plane that is what the solid has.
class AlongLines {
 public:
  AlongLines(const Surface& floor, const survey::Polygon& read, bool along_x)
      : floor_{floor}, read_{read}, along_x_{along_x} {
    for (const survey::Point& p : read)
      least_ = std::min(least_, along_x ? p.y : p.x), most_ = std::max(most_, along_x ? p.y : p.x);
    inset_ = std::min(most_inset_mm, (most_ - least_) / 4);
  }

  const survey::Polygon& read() const { return read_; }

  /// Highest less lowest.
  double difference(double line, double from, double to) const {
    const auto [low, high] = range(line, from, to);
    return high - low;
  }

  /// The same where it was read, and no farther; nothing along a line that runs beside all spots.
  double difference_read(double line, double from, double to) const {
    const auto read = stretch_of(read_, along_x_, line);
    if (!read || std::min(to, read->second) <= std::max(from, read->first)) return 0;
    const auto [low, high] = along(line, std::max(from, read->first), std::min(to, read->second));
    return high - low;
  }

 private:
  using Range = std::pair<double, double>;

  Range range(double line, double from, double to) const {
    const Range all = floor_.range_along(along_x_, line, from, to);
    if (read_.empty()) return all;
    // A line beside the spots goes by what was read next to it; an outermost spot alone tells of no stretch.
    const double next = std::clamp(line, least_ + inset_, most_ - inset_);
    const auto read = stretch_of(read_, along_x_, next);
    if (!read) return all;
    const double start = std::max(from, read->first), end = std::min(to, read->second);
    if (end - start < inset_) return all;
    Range found = floor_.range_along(along_x_, line, start, end);
    const auto carry_on = [&](double stop, double past) {
      const double length = std::abs(past - stop);
      if (length <= units::tolerance::weld_mm) return;
      const double inside = std::min(length, end - start), way = past < stop ? 1 : -1;
      const Range next_to = along(next, stop, stop + way * inside), beyond = along(line, stop, past);
      const double z = along(line, stop, stop).first, may = (next_to.second - next_to.first) * length / inside;
      found.first = std::min(found.first, std::max(beyond.first, z - may));
      found.second = std::max(found.second, std::min(beyond.second, z + may));
    };
    carry_on(start, from);
    carry_on(end, to);
    return found;
  }

  Range along(double line, double a, double b) const {
    return floor_.range_along(along_x_, line, std::min(a, b), std::max(a, b));
  }

  static constexpr double most_inset_mm = 150;  // as far off a corner as spots may be; an own choice

  const Surface& floor_;
  const survey::Polygon& read_;
  bool along_x_;
  double least_ = std::numeric_limits<double>::max(), most_ = std::numeric_limits<double>::lowest(), inset_ = 0;
};

struct Greatest {
  double all_mm = 0, read_mm = 0;  ///< from wall to wall, and where spots tell of it
};

/// Greatest difference along any line that runs across the room one way: on a surface of planes it lies on a line
/// through a corner.
Greatest greatest_along(const AlongLines& floor, const survey::Polygon& room, const std::vector<survey::Spot>& corners,
                        bool along_x) {
  std::set<double> lines;
  for (const survey::Point& p : room) lines.insert(along_x ? p.y : p.x);
  for (const survey::Spot& s : corners) lines.insert(along_x ? s.y : s.x);
  Greatest greatest;
  for (const double line : lines)
    if (const auto stretch = stretch_of(room, along_x, line))
      greatest.all_mm = std::max(greatest.all_mm, floor.difference(line, stretch->first, stretch->second));
  for (const survey::Point& p : floor.read()) lines.insert(along_x ? p.y : p.x);
  for (const double line : lines)
    if (const auto stretch = stretch_of(room, along_x, line))
      greatest.read_mm = std::max(greatest.read_mm, floor.difference_read(line, stretch->first, stretch->second));
  return greatest;
}

/// Each place once, at the height that carries: a surface of many cells repeats its corners.
std::vector<survey::Spot> distinct(const std::vector<survey::Spot>& spots) {
  std::vector<survey::Spot> kept;
  for (const survey::Spot& s : spots) {
    const auto same = std::find_if(kept.begin(), kept.end(), [&](const survey::Spot& k) {
      const double dx = k.x - s.x, dy = k.y - s.y;
      return dx * dx + dy * dy <= units::tolerance::length_mm * units::tolerance::length_mm;
    });
    if (same == kept.end())
      kept.push_back(s);
    else if (s.z > same->z)
      *same = s;
  }
  return kept;
}

/// The spot farthest above (or below) a plane; what is no more than rounding is nothing. A floor with a twist in it has
/// two that are alike.
void find_farthest(const std::vector<survey::Spot>& spots, const survey::HeightPlane& plane, double sign,
                   const Foremost& foremost, double& mm, facts::Point& at_mm) {
  constexpr double same_mm = units::tolerance::length_mm;
  const auto off = [&](const survey::Spot& s) { return sign * (s.z - plane.at(s.x, s.y)); };
  double most = 0;
  for (const survey::Spot& s : spots) most = std::max(most, off(s));
  if (most <= same_mm) return;
  std::optional<gp_Pnt> told;
  for (const survey::Spot& s : spots)
    if (const gp_Pnt at{s.x, s.y, s.z}; off(s) >= most - same_mm && (!told || foremost.before(at, *told))) told = at;
  mm = most, at_mm = to_point(*told);
}

/// The corner that stands clear by most; of those that stand clear alike, to what anybody reads, the one that is told
/// first: a room's walls and those of its image differ by more than rounding.
void add_rock(const std::vector<survey::Spot>& spots, const std::array<survey::Point, 4>& corners, survey::Point middle,
              const Surface& floor, const Foremost& foremost, facts::FloorShape& shape) {
  const auto place = [&](std::size_t i) { return gp_Pnt{corners[i].x, corners[i].y, 0}; };
  std::array<double, 4> gaps{};
  constexpr double about_mm =
      1;  // nobody knows better where its weight is: beside an edge of two spots it goes either way
  for (const auto& [x, y] : {std::pair{0., 0.}, {about_mm, 0.}, {-about_mm, 0.}, {0., about_mm}, {0., -about_mm}})
    for (const survey::HeightPlane& stand : survey::stands_on(spots, {middle.x + x, middle.y + y}))
      for (std::size_t i = 0; i < gaps.size(); ++i)
        gaps[i] =
            std::max(gaps[i], stand.at(corners[i].x, corners[i].y) - floor.carried_on(corners[i].x, corners[i].y));
  shape.rock_mm = *std::max_element(gaps.begin(), gaps.end());
  if (shape.rock_mm <= units::tolerance::weld_mm) {
    shape.rock_mm = 0;
    return;
  }
  std::optional<std::size_t> told;
  for (std::size_t i = 0; i < gaps.size(); ++i)
    if (gaps[i] >= shape.rock_mm - units::tolerance::on_mark_mm && (!told || foremost.before(place(i), place(*told))))
      told = i;
  shape.rock_at = corner_names[*told];
}

/// The highest of what is left of the floor under the base, as it was read; nothing where it is as high all over.
std::optional<facts::Point> datum_of(const parts::Model& model, const Surface& floor, const survey::Polygon& plan,
                                     const Foremost& foremost) {
  if (model.job.survey.spots.empty()) return std::nullopt;
  double high = std::numeric_limits<double>::lowest(), low = -high;
  const std::vector<survey::Spot> left = floor.corners(plan);  // faces end at the bore
  for (const survey::Spot& s : left) high = std::max(high, s.z), low = std::min(low, s.z);
  if (high - low <= units::tolerance::length_mm) return std::nullopt;
  std::optional<gp_Pnt> told;
  for (const survey::Spot& s : left)
    if (const gp_Pnt at{s.x, s.y, s.z};
        s.z >= high - units::tolerance::length_mm && (!told || foremost.before(at, *told)))
      told = at;
  return to_point(*told);
}

}  // namespace

facts::FloorShape measure_floor(const parts::Model& model, const survey::StudFaces& faces) {
  const job::Job& job = model.job;
  facts::FloorShape shape;
  shape.known = !job.survey.spots.empty() || job.floor.drops_typed;
  const Surface floor{*model.first(parts::Role::subfloor), true};
  const parts::Solid& base = *model.first(parts::Role::base);
  const auto box = parts::box_of(base);
  const survey::Polygon plan = Rim{base}.corners();
  const std::array<survey::Point, 4> base_corners = four_corners(plan);
  const survey::Polygon room = feet_of(model);
  const std::vector<survey::Spot> in_room = distinct(floor.corners(room));
  const std::vector<survey::Spot> under = distinct(floor.corners(plan));
  const survey::Polygon read = read_of(job.survey.spots, faces);
  const Greatest width = greatest_along({floor, read, true}, room, in_room, true);
  const Greatest depth = greatest_along({floor, read, false}, room, in_room, false);
  shape.along_width_mm = width.all_mm, shape.along_depth_mm = depth.all_mm;
  if (!read.empty()) shape.read_mm = std::max(width.read_mm, depth.read_mm);

  std::vector<survey::Spot> corners;
  for (const survey::Point& c : base_corners) corners.push_back({c.x, c.y, floor.carried_on(c.x, c.y)});
  shape.twist_mm = corners[0].z - corners[1].z + corners[2].z - corners[3].z;
  const survey::HeightPlane plane = survey::best_plane(corners);
  const Foremost foremost{model};
  find_farthest(under, plane, 1, foremost, shape.hump_mm, shape.hump_at_mm);
  find_farthest(under, plane, -1, foremost, shape.hollow_mm, shape.hollow_at_mm);
  for (const survey::Spot& spot : job.survey.spots) {
    const survey::Point at = faces.placed({spot.x, spot.y});
    if (const auto z = floor.at(at.x, at.y)) shape.spots.push_back({spot.x, spot.y, *z});  // none over the bore
  }
  shape.datum_at_mm = datum_of(model, floor, plan, foremost);
  add_rock(under, base_corners, {(box[0] + box[3]) / 2, (box[1] + box[4]) / 2}, floor, foremost, shape);
  return shape;
}

}  // namespace fallwright::measure
