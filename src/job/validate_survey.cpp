#include <algorithm>
#include <cmath>
#include <limits>

#include "job/layout.hpp"
#include "job/validate.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::job {
namespace {

constexpr double hopeless = 8;  ///< residuals beyond so many tolerances are no survey
constexpr double steepest = 1 / 20.;
constexpr double steepest_floor = 4 * steepest;
constexpr std::size_t most_plumbs = 100;  ///< each is moved by its tolerance and the framing built anew
constexpr double least_across_mm = 100;   ///< readings on a base span a hand's breadth: less is one line for its tilt
constexpr std::size_t most_spots = 1000;  ///< a floor is laid through them for every other reading that may be off

using P = RimPoint;
constexpr RimPoint sides_of_rim[][3] = {{P::back_left, P::back, P::back_right},
                                        {P::front_left, P::front, P::front_right},
                                        {P::back_left, P::left, P::front_left},
                                        {P::back_right, P::right, P::front_right}};

/// The other lines on which places of a rim lie: from side to side, and from corner to corner.
constexpr RimPoint across_rim[][2] = {
    {P::left, P::right}, {P::back, P::front}, {P::back_left, P::front_right}, {P::back_right, P::front_left}};

/// How wide a strip must be that holds all of these places: it has two of them on an edge.
double least_across(const std::vector<survey::Point>& places) {
  double least = std::numeric_limits<double>::max();
  for (const survey::Point& a : places)
    for (const survey::Point& b : places) {
      const double length = std::hypot(b.x - a.x, b.y - a.y);
      if (length < units::tolerance::length_mm) continue;
      double low = 0, high = 0;
      for (const survey::Point& p : places) {
        const double off = ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / length;
        low = std::min(low, off), high = std::max(high, off);
      }
      least = std::min(least, high - low);
    }
  return least;
}

std::string key_of(const std::string& name) {
  if (name.empty()) return "survey.plan";
  std::string key = name;
  std::replace(key.begin(), key.end(), ' ', '_');
  return "survey.plan." + key;
}

/// With one spare reading any of the six that the others can do without may be the one that was misread.
std::string does_not_close(const survey::Closure& c, bool metric) {
  const auto text = [&](double mm) { return units::to_text(Length::mm(mm), metric); };
  std::string first, others;
  for (const survey::Residual& r : c.readings) {
    if (!r.if_others_hold_mm) continue;
    std::string words = r.name + " reads " + text(r.reading_mm) + " and would be " + text(*r.if_others_hold_mm);
    if (r.name == c.suspect)
      first = std::move(words);
    else
      others += (others.empty() ? "" : ", ") + words;
  }
  return "four sides and two diagonals do not close by " + text(c.worst_mm) + ", and tolerances allow " +
         text(c.worst_mm / c.worst_share) + "; " +
         (first.empty() && others.empty() ? "no single reading explains it: measure all six again"
          : first.empty()                 ? "any one may be misread, if the others hold: " + others
          : others.empty()                ? first + " if the others hold: measure it again first, then the others"
                           : first + " if the others hold: measure it again first; else another: " + others);
}

class Surveyor {
 public:
  explicit Surveyor(const Job& job) : job_{job}, s_{job.survey} {}

  std::vector<Contradiction> judge() {
    faces();
    plan();
    if (found_.empty()) along_walls();
    if (found_.empty()) floor();
    as_set();
    return std::move(found_);
  }

 private:
  void add(const std::string& key, const std::string& message) { found_.push_back({key, message}); }
  std::string text(double mm) const { return units::to_text(Length::mm(mm), job_.is_metric()); }

  /// A reading from a board says nothing of the studs before the board's thickness is known.
  void faces() {
    std::vector<std::pair<const char*, const survey::Reading*>> readings;
    const survey::Plan& p = s_.plan;
    const std::pair<const char*, const std::optional<survey::Reading>*> sides[] = {
        {"survey.plan.back", &p.back},
        {"survey.plan.front", &p.front},
        {"survey.plan.left", &p.left},
        {"survey.plan.right", &p.right},
        {"survey.plan.diagonal_from_back_left", &p.from_back_left},
        {"survey.plan.diagonal_from_back_right", &p.from_back_right}};
    for (const auto& [key, reading] : sides)
      if (*reading) readings.emplace_back(key, &**reading);
    for (const survey::Width& w : s_.widths) readings.emplace_back("survey.width", &w.width);
    wall_build_up();
    for (const auto& [key, reading] : readings) {
      if (reading->face == survey::Face::board && !s_.board_mm)
        add(key, "was taken from the board, and survey.board (its thickness) is missing");
      if (reading->face == survey::Face::finish && !s_.finish_mm)
        add(key, "was taken from the finished wall, and survey.finish (its distance from the studs) is missing");
    }
  }

  /// The finished wall has the board behind it, and what is stuck to that.
  void wall_build_up() {
    if (!s_.finish_mm || !s_.board_mm || *s_.finish_mm >= *s_.board_mm - units::tolerance::length_mm) return;
    add("survey.finish", "the finished wall stands " + text(*s_.finish_mm) +
                             " before the studs, and the board alone is " + text(*s_.board_mm) +
                             " thick (survey.board): at least that, with bond coat and tile");
  }

  void plan() {
    const survey::Closure closure = survey::close(s_);
    const bool any = closure.missing.size() < 6;
    if (any && !job_.alcove.is_figure() && !job_.alcove.is_passage())
      return add("survey.plan",
                 "sides and diagonals make a figure between three walls, or between two that face each other; "
                 "alcove.walls has fewer");
    if (any && job_.alcove.is_passage()) between_two(closure);
    if (!closure.impossible.empty())
      return add("survey.plan", closure.impossible + ": no room has that shape; measure these again");
    if (closure.worst_share > hopeless) return add(key_of(closure.suspect), does_not_close(closure, job_.is_metric()));
    if (!closure.solved) return;
    const auto differs = [&](const char* key, double designed, double read) {
      if (std::abs(designed - read) > designed_apart_mm)
        add(key, "is " + text(designed) + ", and the survey says " + text(read) + "; leave it out or correct it");
    };
    const survey::Room room = survey::make_room(s_, {}, {}, job_.alcove.walls);
    differs("alcove.width", job_.alcove.width.in_mm(), room.width);
    differs("alcove.depth", job_.alcove.depth.in_mm(), room.depth);
  }

  /// Where no back wall stands no board or tile lies on one: from the studs' ends alone all six are read alike. Of two
  /// widths that were read instead of a figure it is said whether they are one.
  void between_two(const survey::Closure& closure) {
    const survey::Plan& p = s_.plan;
    for (const auto& reading : {p.back, p.front, p.left, p.right, p.from_back_left, p.from_back_right})
      if (reading && reading->face != survey::Face::stud)
        return add("survey.plan", "between two walls that face each other sides and diagonals are read on their studs");
    if (s_.square && closure.missing.size() < 2)
      return add("survey.square",
                 "sides and diagonals tell whether the walls are parallel (survey.plan); leave out one of them");
    if (!s_.square || !p.back || !p.front) return;
    const double apart = p.back->tolerance_mm + p.front->tolerance_mm + units::tolerance::length_mm;
    const double width = job_.alcove.width.in_mm(), least = std::min(p.back->mm, p.front->mm);
    if (std::abs(width - least) > apart)
      add("alcove.width",
          "is " + text(width) + ", and the survey says " + text(least) + "; leave it out or correct it");
    if (!*s_.square) return;
    if (std::abs(p.back->mm - p.front->mm) > apart)
      add("survey.square", "says that both widths are one, and they read " + text(p.back->mm) + " at the back and " +
                               text(p.front->mm) + " at the front: say \"no\", or measure again");
  }

  void along_walls() {
    const survey::Room room =
        survey::make_room(s_, job_.alcove.width.in_mm(), job_.alcove.depth.in_mm(), job_.alcove.walls);
    if (s_.plumbs.size() > most_plumbs)
      return add("survey.plumb", std::to_string(s_.plumbs.size()) + " places were plumbed; at most " +
                                     std::to_string(most_plumbs) +
                                     " are worked with, since the framing is built anew for each");
    for (std::size_t i = 0; i < s_.plumbs.size(); ++i) {
      const survey::Plumb& p = s_.plumbs[i];
      const std::string key = "survey.plumb[" + std::to_string(i) + "]";
      const survey::Wall* wall = room.wall(p.wall);
      if (!wall)
        add(key + ".wall", std::string{"there is no "} + name_of(p.wall) + " wall in alcove.walls");
      else if (p.along_mm > wall->length() + 1)
        add(key + ".along", "lies past the wall's end: it is " + text(wall->length()) + " long");
      if (std::abs(p.lean.mm) > p.over_mm * steepest)
        add(key + ".lean", "a lean of " + text(p.lean.mm) + " over " + text(p.over_mm) +
                               " is steeper than 1:20; re-frame that wall first");
      for (std::size_t k = 0; k < i; ++k) {
        const survey::Plumb& o = s_.plumbs[k];
        if (o.wall == p.wall && std::abs(o.along_mm - p.along_mm) < 12)
          add(key + ".along",
              std::string{"the "} + name_of(p.wall) + " wall was plumbed here already; give both readings as one list");
      }
    }
    for (std::size_t i = 0; i < s_.studs.size(); ++i) existing(i, room);
    for (std::size_t i = 0; i < s_.widths.size(); ++i) width_between(i, room);
  }

  /// A width is read between two walls, where both stand.
  void width_between(std::size_t i, const survey::Room& room) {
    const survey::Width& width = s_.widths[i];
    const std::string key = "survey.width[" + std::to_string(i) + "]";
    double deep = room.depth;
    for (const Side side : {Side::left, Side::right})
      if (const survey::Wall* wall = room.wall(side)) deep = std::max(deep, wall->length());
    if (width.from_back_mm > deep + 1)
      add(key + ".from_back",
          "lies past the entry: found " + text(width.from_back_mm) + ", and the room is " + text(deep) + " deep");
    if (width.height_mm > job_.alcove.height.in_mm() + 1)
      add(key + ".height", "lies above the walls: found " + text(width.height_mm) + ", and they are " +
                               text(job_.alcove.height.in_mm()) + " high (alcove.height)");
  }

  void existing(std::size_t i, const survey::Room& room) {
    const survey::Studs& studs = s_.studs[i];
    const std::string key = "survey.studs[" + std::to_string(i) + "]";
    const bool across = studs.wall == Side::back;
    const bool from_end = studs.from == Side::left || studs.from == Side::right;
    const survey::Wall* wall = room.wall(studs.wall);
    if (!wall) return add(key + ".wall", std::string{"there is no "} + name_of(studs.wall) + " wall in alcove.walls");
    if (across != from_end)
      return add(key + ".from", across ? "studs of the back wall are measured from left or right"
                                       : "studs of a side wall are measured from back or front");
    for (std::size_t k = 0; k < i; ++k)
      if (s_.studs[k].wall == studs.wall)
        return add(key + ".wall", std::string{"the "} + name_of(studs.wall) + " wall's studs are given already");
    const double thick = job_.walls.stock.thickness.in_mm();
    // Each centre was read to a mark, and so was the wall's length.
    const double off = std::max(s_.tolerance_mm, units::tolerance::length_mm);
    double last = -thick;
    for (const double centre : studs.centres_mm) {
      if (centre > wall->length() + off)
        return add(key + ".centres",
                   text(centre) + " lies past the wall's end: it is " + text(wall->length()) + " long");
      if (centre - last < thick - off)
        return add(key + ".centres", "studs " + text(thick) + " thick cannot stand " + text(centre - last) +
                                         " apart; list them from the corner on");
      last = centre;
    }
  }

  void floor() {
    if (s_.spots.empty()) return;
    const char* key = job_.notation.grid.empty() ? "survey.floor.spots" : "survey.floor.grid";
    if (s_.spots.size() > most_spots)
      return add(key, std::to_string(s_.spots.size()) + " spot levels; at most " + std::to_string(most_spots) +
                          " are worked with: leave out those on even ground");
    const Layout at = lay_out(job_);
    if (s_.spots.size() < 3 || !survey::span_a_plane(at.spots))
      return add(key, "at least three spot levels that do not lie in a line are needed");
    const Rect& extent = at.extent;
    for (std::size_t i = 0; i < s_.spots.size(); ++i)
      if (const survey::Spot& s = at.spots[i]; s.x < extent.x0 || s.x > extent.x1 || s.y < extent.y0 || s.y > extent.y1)
        add(key, "a spot level at " + units::from_left(text(s_.spots[i].x), "the left") + ", " +
                     units::from_entry(text(s.y)) + " lies outside the room, which is " +
                     text(job_.alcove.width.in_mm()) + " wide and " + text(job_.alcove.depth.in_mm()) + " deep");
    if (!found_.empty()) return;
    for (const survey::Cell& cell : at.subfloor.cells())
      if (std::hypot(cell.plane.gx, cell.plane.gy) > steepest_floor + units::tolerance::ratio)
        return add(key, too_steep(cell, at));
    if (!job_.floor.drop_along_width.is_zero() || !job_.floor.drop_along_depth.is_zero())
      add("floor", "drop_along_width and drop_along_depth go with no spot levels; the survey has them");
  }

  /// Of the two spots that the floor rises most steeply between, how far apart they would do: a step that was read on
  /// both its sides is a ramp here. Where no two are too near, the middle of what is steep inside the room.
  std::string too_steep(const survey::Cell& cell, const Layout& at) const {
    const survey::Spot *low = nullptr, *high = nullptr;
    double most = steepest_floor + units::tolerance::ratio;
    for (const survey::Spot& a : at.spots)
      for (const survey::Spot& b : at.spots)
        if (const double rise = b.z - a.z, away = std::hypot(b.x - a.x, b.y - a.y); rise > most * away)
          low = &a, high = &b, most = rise / away;
    const survey::StudFaces faces = at.room.faces();
    const auto place = [&](double x, double y) {
      return units::from_left(text(faces.told({x, y}).x), "the left") + ", " + units::from_entry(text(y));
    };
    if (low)
      return "from " + place(low->x, low->y) + " to " + place(high->x, high->y) + " the floor would rise " +
             text(high->z - low->z) +
             ", steeper than 1:5: measure there again, or correct it first; of a step keep the spots on the high side, "
             "and "
             "read the low ones " +
             text(up_to_mark((high->z - low->z) / steepest_floor)) + " from them at least";
    const survey::Polygon inside = survey::common(cell.plan, survey::to_polygon({0, 0, at.room.width, at.room.depth}));
    const survey::Polygon& of = inside.empty() ? cell.plan : inside;
    survey::Point middle{0, 0};
    for (const survey::Point& p : of)
      middle.x += p.x / static_cast<double>(of.size()), middle.y += p.y / static_cast<double>(of.size());
    return "near " + place(middle.x, middle.y) +
           " the floor would be steeper than 1:5; measure there again, or correct it first";
  }
  double up_to_mark(double mm) const {
    return std::ceil(mm / job_.mark_mm() - units::tolerance::length_mm) * job_.mark_mm();
  }

  void as_set() {
    const std::vector<RimReading>& readings = job_.as_set.readings;
    for (const RimReading& r : readings) on_the_base(r);
    const auto n = readings.size();
    if (n > 0 && n < 3)
      add("as_set", (n == 1 ? "1 reading leaves" : std::to_string(n) + " readings leave") +
                        std::string{" the base's plane open; at least three are needed"});
    if (n < 3) return;
    // All along one side, in a line or in two that lie a few inches apart, or in any other line across the base: which
    // way it tips is then not known.
    const auto all_of = [&](const auto& line) {
      return std::all_of(readings.begin(), readings.end(), [&](const RimReading& r) {
        return std::find(std::begin(line), std::end(line), r.point) != std::end(line);
      });
    };
    const bool side = std::any_of(std::begin(sides_of_rim), std::end(sides_of_rim), all_of),
               line = side || std::any_of(std::begin(across_rim), std::end(across_rim), all_of);
    const auto [floor, base] = boxes_of_base();
    std::vector<survey::Point> places;
    for (const RimReading& r : readings) places.push_back(place_of(r, floor, base));
    if (!line && least_across(places) > least_across_mm) return;
    add("as_set", "all " + (n == 3 ? "three" : std::to_string(n)) + " readings lie " +
                      (side ? "on one side; read another corner as well" : "in one line; read a corner as well") +
                      ", the " + name_of(corner_to_read(places, floor, base)));
  }

  /// Inside upstands and threshold, and overall. Of a base whose size comes out of its own readings or its room nothing
  /// is known yet where those are judged first: then any box tells which places lie in a line.
  std::pair<Rect, Rect> boxes_of_base() const {
    constexpr double any_mm = 1000;
    if (!found_.empty() || job_.base.length.is_zero() || job_.base.width.is_zero())
      return {{0, 0, any_mm, any_mm}, {0, 0, any_mm, any_mm}};
    const Layout at = lay_out(job_);
    return {at.floor, at.base};
  }

  /// The corner of the rim that tells most of a base that was read at these places.
  static RimPoint corner_to_read(const std::vector<survey::Point>& places, const Rect& floor, const Rect& base) {
    RimPoint best = P::back_left;
    double widest = -1;
    for (const RimPoint corner : {P::back_left, P::back_right, P::front_left, P::front_right}) {
      std::vector<survey::Point> with = places;
      with.push_back(place_of({corner, {}, ReadOn::rim}, floor, base));
      const double across = least_across(with);
      if (across > widest + units::tolerance::length_mm) widest = across, best = corner;
    }
    return best;
  }

  /// A rule can only be held to what the base has.
  void on_the_base(const RimReading& r) {
    if (can_be_read(r, job_.base)) return;
    if (r.on == ReadOn::threshold)
      add("as_set.threshold", "the base has no threshold to read; read its rim");
    else
      add("as_set.upstands", "no upstand stands at the " + std::string{name_of(r.point)} + "; read the rim there");
  }

  const Job& job_;
  const survey::Survey& s_;
  std::vector<Contradiction> found_;
};

}  // namespace

bool can_be_read(const RimReading& place, const Base& base) {
  if (place.on == ReadOn::rim) return true;
  if (place.on == ReadOn::threshold) return !base.threshold.width.is_zero();
  const Side of[] = {Side::back, Side::front, Side::left, Side::right};
  const auto turned = [&](std::size_t i) {
    return std::find(std::begin(sides_of_rim[i]), std::end(sides_of_rim[i]), place.point) !=
               std::end(sides_of_rim[i]) &&
           std::find(base.upstands.begin(), base.upstands.end(), of[i]) != base.upstands.end();
  };
  return !base.upstand_thickness.is_zero() && (turned(0) || turned(1) || turned(2) || turned(3));
}

survey::Point place_of(const RimReading& place, const survey::Rect& floor, const survey::Rect& base) {
  const survey::Rect& r = place.on == ReadOn::rim ? floor : base;
  const auto lies_on = [&](std::size_t side) {
    return std::find(std::begin(sides_of_rim[side]), std::end(sides_of_rim[side]), place.point) !=
           std::end(sides_of_rim[side]);
  };
  return {lies_on(2)   ? r.x0
          : lies_on(3) ? r.x1
                       : (r.x0 + r.x1) / 2,
          lies_on(0)   ? r.y1
          : lies_on(1) ? r.y0
                       : (r.y0 + r.y1) / 2};
}

std::optional<Contradiction> unclosed_plan(const Job& job) {
  const survey::Closure closure = survey::close(job.survey);
  if (!closure.solved || closure.worst_share <= 1) return std::nullopt;
  return Contradiction{key_of(closure.suspect), does_not_close(closure, job.is_metric())};
}

std::vector<Contradiction> survey_contradictions(const Job& job) {
  return Surveyor{job}.judge();
}

}  // namespace fallwright::job
