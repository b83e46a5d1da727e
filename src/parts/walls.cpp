#include <algorithm>
#include <cmath>
#include <limits>

#include "brep/plan.hpp"
#include "parts/pieces.hpp"
#include "survey/rest.hpp"
#include "units/tolerance.hpp"

namespace fallwright::parts {
namespace {

/// One wall's line: `s` runs along it with the framing to its left, so that the alcove's corners lie at zero and at the
/// wall's length; the back wall runs on past both, the side walls end at the back wall.
struct Line {
  const survey::Wall& wall;
  bool from_front = false;  ///< s runs from the front: the left wall; its spacing counts from the back all the same
  double begin = 0, end = 0;
  std::vector<double> backing;  ///< near edges of studs that take the board in the inside corners

  double along(double s) const { return from_front ? wall.length() - s : s; }
  gp_Dir run() const {
    const survey::Point d = wall.direction();
    return from_front ? gp_Dir{-d.x, -d.y, 0} : gp_Dir{d.x, d.y, 0};
  }
  gp_Dir outward() const {
    const survey::Point n = wall.inward();
    return {-n.x, -n.y, 0};
  }
};

/// How far a side wall must keep from the back wall's line, so that its outer edge does not run into it where the
/// corner is wide; and how fast that corner moves with height.
struct Corner {
  double inset = 0, rate = 0;
};

/// How far a back wall comes in at a side wall, for each unit of height. Where it is twisted its plates run straight
/// from end to end all the same: beside an end that stands plumb they come in by what the other end leans.
double comes_in(const survey::Room& room, const survey::Wall& back, const survey::Wall& side, double depth) {
  const double first = room.wall(job::Side::left) ? -depth : 0,
               last = back.length() + (room.wall(job::Side::right) ? depth : 0);
  const double low = back.lean(first), high = back.lean(last);
  const auto plate = [&](double s) { return low + (high - low) * (s - first) / (last - first); };
  const bool left = side.side() == job::Side::left;
  const double face = left ? 0 : back.length(), outer = left ? -depth : back.length() + depth;
  return std::max({back.lean(face), plate(face), plate(outer)});
}

Corner corner_of(const survey::Room& room, const survey::Wall& side, double depth) {
  const survey::Wall* back = room.wall(job::Side::back);
  if (!back) return {};
  const survey::Point d = side.direction(), n = back->inward(), in = side.inward();
  const double away = d.x * n.x + d.y * n.y, outward = -(in.x * n.x + in.y * n.y);
  Corner corner{std::max(0.0, -depth * outward / away), comes_in(room, *back, side, depth) / away};
  // Out of square or out of plumb, framing is not cut closer than this.
  constexpr double loose_mm = 1;
  const bool exact = outward == 0 && corner.rate == 0 && side.lean(0) == 0;
  if (!exact) corner.inset += loose_mm;
  return corner;
}

/// A stud's near edge on its line, and how it leans along the line for each unit of height.
struct Place {
  double s = 0, rate = 0;
};

class Framing {
 public:
  Framing(const job::Job& job, const job::Layout& layout, Sticks& sticks, const survey::Wall& wall)
      : job_{job},
        layout_{layout},
        stock_{job.walls.stock},
        sticks_{sticks},
        line_{wall, wall.side() == job::Side::left, 0, wall.length(), {}},
        plate_{stock_.thickness.in_mm()},
        depth_{stock_.depth.in_mm()} {
    if (wall.side() == job::Side::back)
      meet_side_walls();
    else
      corner_ = corner_of(layout.room, wall, depth_);
  }

  std::vector<Solid> build() {
    const brep::Plane foot = lay_sole_plate();
    const std::vector<Place> places = stud_places();
    const double asked = job_.alcove.height.in_mm() - job_.walls.top_plates * plate_;
    const double top = settled(asked, raised(foot, plate_), places);
    for (std::size_t i = 0; i < places.size(); ++i)
      add_stud(static_cast<int>(i) + 1, places[i], raised(foot, plate_), top);
    for (int k = 0; k < job_.walls.top_plates; ++k)
      add_top_plate(job_.walls.top_plates == 1 ? 0 : k + 1, top + k * plate_);
    for (std::size_t row = 0; row < job_.walls.blocking.size(); ++row)
      add_blocking(static_cast<int>(row) + 1, job_.walls.blocking[row].in_mm(), places);
    // What stands already is not cut; blocking is new whatever the walls are.
    for (Solid& solid : solids_)
      if (job_.walls.existing && solid.part.kind != Kind::blocking) solid.cut.reset();
    return std::move(solids_);
  }

 private:
  PartId part(Kind kind, int number = 0, int row = 0) const {
    return facts::wall_part(line_.wall.side(), kind, number, row);
  }
  static brep::Plane raised(const brep::Plane& p, double by) { return {p.z0 + by, p.gx, p.gy}; }

  /// What stands already is as it is; what is framed is cut to the tape.
  double cut(double mm) const { return job_.walls.existing ? mm : job_.cut_mm(mm); }

  /// Where a stud reaches down farthest: at a corner of its foot.
  double lowest_under(const Place& place, const brep::Plane& foot) const {
    double low = std::numeric_limits<double>::max();
    for (const double s : {place.s, place.s + plate_})
      for (const double out : {0.0, depth_}) low = std::min(low, foot.at(at(s, 0, out)));
    return low;
  }

  /// The top plate comes to lie on the tallest of the studs as they are cut.
  double settled(double asked, const brep::Plane& foot, const std::vector<Place>& places) const {
    double top = std::numeric_limits<double>::lowest();
    for (const Place& place : places) {
      const double low = lowest_under(place, foot);
      top = std::max(top, low + cut(asked - low));
    }
    return places.empty() ? asked : top;
  }

  void meet_side_walls() {
    const double left = layout_.room.wall(job::Side::left) ? depth_ : 0;
    const double right = layout_.room.wall(job::Side::right) ? depth_ : 0;
    line_.begin = -left;
    line_.end += right;
    if (left > 0) line_.backing.push_back(0);
    if (right > 0) line_.backing.push_back(line_.wall.length() - plate_);
  }

  /// Where the line begins and ends at a height, as framed: a side wall at the back wall, which may lean. What the tape
  /// leaves of it is missing at the entry; of the back wall half of it at either end.
  struct Stretch {
    double begin = 0, end = 0;
  };
  Stretch whole_at(double z) const {
    const double keep = corner_.inset + corner_.rate * z;
    const job::Side side = line_.wall.side();
    return {side == job::Side::right ? line_.begin + keep : line_.begin,
            side == job::Side::left ? line_.end - keep : line_.end};
  }
  Stretch as_cut(const Stretch& whole) const {
    const double left = whole.end - whole.begin - cut(whole.end - whole.begin);
    const double at_begin = is_back() ? left / 2 : line_.from_front ? left : 0;
    return {whole.begin + at_begin, whole.end - (left - at_begin)};
  }
  double begin_at(double z) const { return as_cut(whole_at(z)).begin; }
  double end_at(double z) const { return as_cut(whole_at(z)).end; }
  bool is_back() const { return line_.wall.side() == job::Side::back; }

  /// The stud face at `s` and a height, as the wall leans there.
  brep::PlanPoint at(double s, double z, double outward = 0) const {
    const survey::Point p = line_.wall.at(line_.along(s), z);
    const gp_Dir o = line_.outward();
    return {p.x + outward * o.X(), p.y + outward * o.Y()};
  }

  brep::Loop board_plan(double z0, double z1) const {
    const Stretch low = whole_at(z0), high = whole_at(z1);
    const auto [from, to] = as_cut({std::max(low.begin, high.begin), std::min(low.end, high.end)});
    return {{at(from, z0)}, {at(to, z0)}, {at(to, z0, depth_)}, {at(from, z0, depth_)}};
  }

  /// Straight from end to end, on the high spots under it. @return the plane it lies on.
  brep::Plane lay_sole_plate() {
    const brep::Loop plan = board_plan(0, plate_);
    survey::Polygon polygon;
    for (const brep::Corner& c : plan) polygon.push_back({c.at.x, c.at.y});
    const brep::Plane foot = to_plane(survey::rest_on(layout_.subfloor, polygon));
    add_board(part(Kind::sole_plate), plan, foot, raised(foot, plate_));
    return foot;
  }

  void add_top_plate(int number, double z) {
    add_board(part(Kind::top_plate, number), board_plan(z, z + plate_), {z}, {z + plate_});
  }

  void add_board(const PartId& board, const brep::Loop& plan, const brep::Plane& bottom, const brep::Plane& top) {
    const gp_Vec run{plan[1].at.x - plan[0].at.x, plan[1].at.y - plan[0].at.y, 0};
    solids_.push_back(make_board(board, stock_, {{{plan}, bottom}}, {{{plan}, top}}, gp_Dir{run}));
  }

  /// Both ends, the inside corners, and every spacing between, centred on it. A stud that would overlap one already
  /// there is left out, or stands tight beside it where without it a bay would be wider than the spacing. Where the
  /// survey names the studs that stand, those and no others.
  std::vector<Place> stud_places() const {
    const double first = begin_at(0), last = end_at(0) - plate_;
    std::vector<double> places;
    if (const survey::Studs* existing = find_existing()) {
      for (const double centre : existing->centres_mm) places.push_back(place_of(*existing, centre) - plate_ / 2);
      stand_beside(places, first, last);
    } else {
      places = {first, last};
      places.insert(places.end(), line_.backing.begin(), line_.backing.end());
      const double spacing = job_.walls.spacing.in_mm(), whole = line_.wall.length();
      for (double centre = spacing; centre < (is_back() ? line_.end : whole); centre += spacing) {
        const double place = (line_.from_front ? whole - centre : centre) - plate_ / 2;
        const bool free =
            std::all_of(places.begin(), places.end(), [&](double p) { return std::abs(p - place) >= plate_; });
        if (free && place >= first && place <= last) places.push_back(place);
      }
      close_wide_bays(places, spacing);
    }
    std::sort(places.begin(), places.end());
    std::vector<Place> found;
    for (const double s : places) found.push_back({s, 0});
    // The stud in the back corner moves with it.
    if (line_.wall.side() == job::Side::right && !found.empty() && found.front().s < first + plate_)
      found.front().rate = corner_.rate;
    if (line_.wall.side() == job::Side::left && !found.empty() && found.back().s > last - plate_)
      found.back().rate = -corner_.rate;
    return found;
  }

  /// Studs that stand, brought within their wall; two that were read nearer than timber lets them stand touch.
  void stand_beside(std::vector<double>& places, double first, double last) const {
    std::sort(places.begin(), places.end());
    for (std::size_t i = 0; i + 1 < places.size(); ++i)
      if (const double more = plate_ - (places[i + 1] - places[i]); more > 0)
        places[i] -= more / 2, places[i + 1] += more / 2;
    for (double least = first; double& place : places) place = std::max(place, least), least = place + plate_;
    for (auto it = places.rbegin(); it != places.rend(); ++it) *it = std::min(*it, last), last = *it - plate_;
  }

  /// The stud that was left out overlapped the one that stands farther from where the spacing counts.
  void close_wide_bays(std::vector<double>& places, double spacing) const {
    std::sort(places.begin(), places.end());
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
      if (places[i + 1] - places[i] <= spacing + units::tolerance::length_mm) continue;
      const double tight = line_.from_front ? places[i] + plate_ : places[i + 1] - plate_;
      places.insert(places.begin() + static_cast<std::ptrdiff_t>(i) + 1, tight);
    }
  }

  const survey::Studs* find_existing() const {
    for (const survey::Studs& studs : layout_.room.studs)
      if (studs.wall == line_.wall.side()) return &studs;
    return nullptr;
  }

  /// From the named corner to the line's own coordinate.
  double place_of(const survey::Studs& studs, double centre) const {
    const bool from_start = studs.from == job::Side::left || studs.from == job::Side::back;
    const double along = from_start ? centre : line_.wall.length() - centre;
    return line_.from_front ? line_.wall.length() - along : along;
  }

  /// A leaning stud is cut where it meets the plate: its ends are bevelled, and no mark of the tape fits both points.
  void add_stud(int number, const Place& place, const brep::Plane& foot, double asked) {
    const gp_Dir run = line_.run(), outward = line_.outward();
    const double lean = line_.wall.lean(line_.along(place.s + plate_ / 2));
    if (lean != 0 || place.rate != 0) {
      const gp_Dir length{run.XYZ() * place.rate - outward.XYZ() * lean + gp_XYZ{0, 0, 1}};
      const gp_Dir a{run.XYZ() - length.XYZ() * run.Dot(length)};
      // About its middle, so that it stands alike on a left and on a right wall.
      const brep::PlanPoint middle = at(place.s + plate_ / 2, 0);
      const gp_XYZ corner = gp_XYZ{middle.x, middle.y, 0} - a.XYZ() * (plate_ / 2);
      solids_.push_back(make_leaning_post(part(Kind::stud, number), stock_, {corner, length, a}, foot, {asked}));
      return;
    }
    const brep::PlanPoint p = at(place.s, 0);
    const double low = lowest_under(place, foot), top = low + cut(asked - low);
    if (foot.gx == 0 && foot.gy == 0) {
      solids_.push_back(
          sticks_.make(part(Kind::stud, number), stock_, top - foot.z0, {{p.x, p.y, foot.z0}, gp::DZ(), run}));
    } else {
      solids_.push_back(make_post(part(Kind::stud, number), stock_, p, run, foot, {top}));
    }
  }

  /// A board set plumb between leaning studs stands nowhere in front of their faces.
  double least_inward(double s0, double s1, double z0, double z1) const {
    double least = std::numeric_limits<double>::max();
    for (const double s : {s0, s1})
      for (const double z : {z0, z1}) least = std::min(least, line_.wall.lean(line_.along(s)) * z);
    return least;
  }

  /// Between neighbouring studs, broad face to the room and flush with it: what a flange or a rail is fastened to.
  void add_blocking(int row, double height, const std::vector<Place>& places) {
    int number = 0;
    const double z0 = height - depth_ / 2, z1 = height + depth_ / 2;
    const auto at_height = [](const Place& p, double z) { return p.s + p.rate * z; };
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
      const double from = std::max(at_height(places[i], z0), at_height(places[i], z1)) + plate_;
      const double gap = std::min(at_height(places[i + 1], z0), at_height(places[i + 1], z1)) - from;
      if (gap < 2 * plate_ - units::tolerance::length_mm) continue;  // nothing shorter can be nailed
      const double length = job_.cut_mm(gap);
      const brep::PlanPoint foot = at(from + (gap - length) / 2, 0);
      const gp_Dir run = line_.run(), outward = line_.outward();
      const double in = least_inward(from, from + gap, z0, z1);
      const gp_Pnt p{foot.x - in * outward.X(), foot.y - in * outward.Y(), z0};
      solids_.push_back(sticks_.make(part(Kind::blocking, ++number, row), stock_, length, {p, run, outward}));
    }
  }

  const job::Job& job_;
  const job::Layout& layout_;
  const job::Stock& stock_;
  Sticks& sticks_;
  Line line_;
  double plate_, depth_;
  Corner corner_;
  std::vector<Solid> solids_;
};

}  // namespace

std::vector<Solid> make_walls(const job::Job& job, const job::Layout& layout, Sticks& sticks) {
  std::vector<Solid> solids;
  for (const job::Side side : job::all_sides)
    if (const survey::Wall* wall = layout.room.wall(side))
      for (Solid& solid : Framing{job, layout, sticks, *wall}.build()) solids.push_back(std::move(solid));
  return solids;
}

}  // namespace fallwright::parts
