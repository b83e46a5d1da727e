#include <algorithm>
#include <cmath>

#include "drawing/views.hpp"
#include "job/layout.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

bool is_low_wall(const parts::Solid& solid) {
  const bool high = solid.id.find("top-plate") != std::string::npos || solid.id.find("blocking") != std::string::npos;
  return solid.role == Role::wall && !high;
}

bool is_level_or_upright(const Line& line) {
  return std::abs(line.from.x - line.to.x) < 0.01 || std::abs(line.from.y - line.to.y) < 0.01;
}

/// Hips say nothing about where things stand, and diagonals run along them. A round drain's edge stays: it comes in
/// chords, all short.
Projection without_hips(Projection seen, const std::array<double, 6>& base) {
  constexpr double longest_chord = 30;
  const auto in_base = [&](Point p) {
    return p.x > base[0] - 0.01 && p.x < base[3] + 0.01 && p.y > base[1] - 0.01 && p.y < base[4] + 0.01;
  };
  std::erase_if(seen.lines, [&](const Line& l) {
    const bool chord = std::hypot(l.to.x - l.from.x, l.to.y - l.from.y) < longest_chord;
    return !chord && !is_level_or_upright(l) && in_base(l.from) && in_base(l.to);
  });
  return seen;
}

/// What a plan shows: where base, bench and bore stand, what is framed about and below them, or both.
struct Shows {
  bool places = true, framing = true;
};

/// Draws the set-out: everything is measured from stud faces, running dimensions from one named corner.
class Plan {
 public:
  Plan(const Subject& subject, Sheet& sheet, Pen& pen, Shows shows)
      : s_{subject},
        sheet_{sheet},
        pen_{pen},
        shows_{shows},
        t_{pen.text_mm()},
        width_{s_.job().alcove.width.in_mm()},
        depth_{s_.job().alcove.depth.in_mm()},
        base_{part(s_.facts, "base").bbox_mm} {
    bore_ = {s_.facts.room.drain.now_mm[0], s_.facts.room.drain.now_mm[1]};
    outside_ = {0, std::min(0.0, base_[1]), width_, depth_};
    for (const facts::Part& p : s_.facts.parts)
      if (p.role == "wall")
        outside_ = {std::min(outside_.x0, p.bbox_mm[0]), std::min(outside_.y0, p.bbox_mm[1]),
                    std::max(outside_.x1, p.bbox_mm[3]), std::max(outside_.y1, p.bbox_mm[4])};
    find_bench();
  }

  void draw() {
    below_ = outside_.y0 - 3 * t_;
    if (shows_.framing) joists();
    if (shows_.places) diagonals();
    if (shows_.framing) studs();
    if (shows_.places) places();
    if (shows_.framing) joist_centres();
    if (shows_.framing) furring();
    origin();
    if (shows_.places) section_marks();
    side_names();
    if (shows_.places) part_names();
    bore();
  }

 private:
  void places() {
    hidden_edges();
    across();
    deep();
    depth_chain();
  }

  void section_marks() {
    section_mark(drain_cut(s_));
    if (s_.job().bench) section_mark(bench_cut(s_));
    section_mark(bed_cut(s_));
  }

  void bore() {
    const double bore = s_.job().drain.bore.in_mm() / 2;
    sheet_.arcs.push_back({bore_, bore, 0, 360, LineKind::hidden});
    if (bore_is_void(s_))
      pen_.strike({bore_.x - bore, bore_.y - bore}, {bore_.x + bore, bore_.y + bore},
                  {bore_.x, bore_.y + bore + 0.5 * t_});
    else
      pen_.cross(bore_, 4 * t_);
  }

  /// Beside a side wall, past the running dimensions of its studs where these stand there.
  double past_studs(double paper) const { return (shows_.framing ? paper : paper - 6) * t_; }

  /// Their sides below the floor of the alcove; the bore must pass between them.
  void joists() {
    for (const facts::Part& p : s_.facts.parts) {
      if (p.role != "joist") continue;
      const auto& b = p.bbox_mm;
      if (b[3] - b[0] < b[4] - b[1]) {
        for (const double x : {b[0], b[3]})
          if (x > 0 && x < width_) pen_.line({x, outside_.y0}, {x, depth_}, LineKind::hidden);
      } else {
        for (const double y : {b[1], b[4]})
          if (y > 0 && y < depth_) pen_.line({0, y}, {width_, y}, LineKind::hidden);
      }
    }
  }

  /// Corner to corner at the floor, as a tape finds them.
  void diagonals() {
    const job::Layout at = job::lay_out(s_.job());
    const survey::Wall *left = at.room.wall(job::Side::left), *right = at.room.wall(job::Side::right);
    if (!left || !right) return;
    const auto diagonal = [&](survey::Point a, survey::Point b, double share) {
      const Point from{a.x, a.y}, to{b.x, b.y};
      pen_.line(from, to, LineKind::centre);
      const double length = std::hypot(to.x - from.x, to.y - from.y);
      pen_.label({from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)}, pen_.words(length),
                 Anchor::middle, 0.8);
    };
    diagonal(left->start(), right->end(), 0.16);
    diagonal(right->start(), left->end(), 0.16);
  }

  void studs() {
    const struct {
      const char* wall;
      Point start, step, outward;
    } runs[] = {{"back", {0, outside_.y1}, {1, 0}, {0, 1}},
                {"left", {outside_.x0, depth_}, {0, -1}, {-1, 0}},
                {"right", {outside_.x1, depth_}, {0, -1}, {1, 0}}};
    for (const auto& run : runs) {
      std::vector<double> places;
      for (const facts::StudGap& stud : s_.facts.room.studs)
        if (stud.wall == run.wall && stud.running_mm >= 0) places.push_back(stud.running_mm);
      std::sort(places.begin(), places.end());
      pen_.running(places, 0, run.start, run.step, run.outward);
    }
  }

  std::optional<double> face(const char* side) const {
    return mark_mm(s_.facts, std::string{"bore centre from the "} + side + " stud face");
  }
  std::optional<double> finished(const char* side) const {
    return mark_mm(s_.facts, std::string{"bore centre from the finished "} + side + " wall");
  }

  /// The bench's edges toward the base: of its frame, and of the seat that stands out over it.
  void find_bench() {
    if (!s_.job().bench) return;
    const job::Side place = s_.job().bench->place;
    deep_bench_ = place == job::Side::back;
    const bool greatest = place == job::Side::left;
    const std::size_t at = deep_bench_ ? 1 : greatest ? 3 : 0;
    for (const auto& [role, edge] : {std::pair{"bench-frame", &frame_edge_}, {"seat-block", &seat_edge_}})
      for (const facts::Part& p : s_.facts.parts)
        if (p.role == role)
          *edge = !*edge ? p.bbox_mm[at] : greatest ? std::max(**edge, p.bbox_mm[at]) : std::min(**edge, p.bbox_mm[at]);
    base_edge_ = deep_bench_ ? base_[4] : greatest ? base_[0] : base_[3];
  }

  /// Under the seat: where the base ends, and where the frame does if that is elsewhere.
  void hidden_edges() {
    if (!frame_edge_) return;
    const auto edge = [&](double at, const std::string& words) {
      if (deep_bench_) {
        pen_.line({base_[0], at}, {base_[3], at}, LineKind::hidden);
        pen_.label({base_[0] + 0.3 * (base_[3] - base_[0]), at + 0.6 * t_}, words, Anchor::middle, 0.8);
      } else {
        const bool left = at < bore_.x;
        pen_.line({at, base_[1]}, {at, base_[4]}, LineKind::hidden);
        pen_.label({at + (left ? -0.6 : 0.6) * t_, base_[1] + 0.25 * (base_[4] - base_[1])}, words,
                   left ? Anchor::right : Anchor::left, 0.8);
      }
    };
    if (std::abs(base_edge_ - *frame_edge_) > 1) edge(*frame_edge_, "frame's front");
    edge(base_edge_, "base's edge");
  }

  /// Below: the bore between finished walls, between stud faces, then bench and base.
  void across() {
    const double front = outside_.y0;
    double row = front - 4 * t_;
    const auto chain = [&](const std::string& name, std::vector<double> xs, bool with_whole, const Stretches& spare) {
      xs = apart(std::move(xs));
      if (xs.size() < 3 && !with_whole) return;
      pen_.note({outside_.x0 - t_, row}, name, Anchor::right, 0.8);
      pen_.chain(xs, front, row, spare, with_whole);
      row -= (with_whole && xs.size() > 2 ? 6.6 : 3.4) * t_;
    };
    if (!void_ && finished("left") && finished("right"))
      chain("bore, finished", {bore_.x - *finished("left"), bore_.x, bore_.x + *finished("right")}, true, {});
    const double left = face("left") ? bore_.x - *face("left") : 0,
                 right = face("right") ? bore_.x + *face("right") : width_;
    const bool bench_at_end = frame_edge_ && !deep_bench_;
    if (!void_) chain("bore, studs", {left, bore_.x, right}, false, {});
    // Built on site it fills the room, whose walls are told along their feet.
    if (s_.facts.site_built && !frame_edge_)
      chain("stud faces", {left, right}, true, {});
    else
      chain("base", {left, base_[0], base_[3], right}, !bench_at_end, {{base_[3], right}, {left, base_[0]}});
    if (bench_at_end) {
      const bool frame_apart = std::abs(*frame_edge_ - base_edge_) > 1;
      const bool at_left = *seat_edge_ < bore_.x;
      chain("bench", {left, frame_apart ? *frame_edge_ : left, *seat_edge_, right}, true,
            {at_left ? std::pair{*seat_edge_, right} : std::pair{left, *seat_edge_}});
    }
    below_ = row + 1.2 * t_;
  }

  /// In order, each place once.
  static std::vector<double> apart(std::vector<double> places) {
    std::sort(places.begin(), places.end());
    const auto same = [](double a, double b) { return std::abs(a - b) < 1; };
    places.erase(std::unique(places.begin(), places.end(), same), places.end());
    return places;
  }

  /// At the right, outside the running studs: what stands one behind the other.
  void depth_chain() {
    std::vector<double> ys{face("back") ? bore_.y + *face("back") : depth_, base_[4], base_[1]};
    const double threshold = s_.job().base.threshold.width.in_mm();
    if (threshold > 0) ys.push_back(base_[1] + threshold);
    const double x = outside_.x1 + past_studs(8), back = ys.front();
    // What is left behind the base is worked to by nobody, nor is the floor between its upstand and its threshold.
    pen_.upright_chain(apart(std::move(ys)), x, x + 3 * t_, {{base_[4], back}, {base_[1] + threshold, base_[4]}});
    if (!frame_edge_ || !deep_bench_) return;
    pen_.note({x + 17 * t_, back + 0.8 * t_}, "bench", Anchor::middle, 0.8);
    pen_.upright({x + 10 * t_, *seat_edge_}, {x + 10 * t_, back}, x + 17 * t_);
    if (std::abs(*frame_edge_ - base_edge_) > 1)
      pen_.upright({x + 17 * t_, *frame_edge_}, {x + 17 * t_, back}, x + 24 * t_);
  }

  /// Running from where the drain sheet hooks its tape: the left stud face at the bore's depth, or the entry.
  void joist_centres() {
    const facts::DrainWindow& window = s_.facts.room.drain;
    const double hook = window.along_width ? window.left_face_mm : 0, end = window.along_width ? width_ : depth_;
    std::vector<double> places;
    for (const facts::Part& p : s_.facts.parts) {
      if (p.role != "joist") continue;
      const std::size_t axis = window.along_width ? 0 : 1;
      const double centre = (p.bbox_mm[axis] + p.bbox_mm[axis + 3]) / 2;
      if (centre > hook && centre < end) places.push_back(centre - hook);
    }
    if (places.empty()) return;
    std::sort(places.begin(), places.end());
    const double x = outside_.x1 + (!shows_.places ? 9 : deep_bench_ ? 36 : 25) * t_;
    if (window.along_width) {
      pen_.note({outside_.x0 - t_, below_ - 1.6 * t_}, "joists", Anchor::right, 0.8);
      pen_.running(places, 0, {hook, below_}, {1, 0}, {0, -1});
    } else {
      pen_.note({x + 1.2 * t_, -1.6 * t_}, "joists", Anchor::middle, 0.8);
      pen_.running(places, 0, {x, 0}, {0, 1}, {1, 0});
    }
  }

  /// At the left, outside the running studs: the bore from the back and from the base's front, finished and studs.
  void deep() {
    if (void_) return;
    const double side = outside_.x0 - past_studs(12), near = side + 3 * t_,
                 back = face("back") ? bore_.y + *face("back") : depth_;
    pen_.upright({near, bore_.y}, {near, back}, side);
    pen_.upright({near, base_[1]}, {near, bore_.y}, side);
    pen_.line({outside_.x0, bore_.y}, {bore_.x, bore_.y}, LineKind::centre);
    if (finished("back")) {
      pen_.upright({side, bore_.y}, {side, bore_.y + *finished("back")}, side - 7 * t_);
      pen_.note({side - 7 * t_, bore_.y + *finished("back") + 0.8 * t_}, "finished", Anchor::middle, 0.8);
    }
  }

  /// What brings a stud's face out to the base or the bench, where it is worth a shim.
  void furring() {
    const double mark = units::tape_mark_mm(sheet_.metric);
    for (const facts::StudGap& stud : s_.facts.room.studs) {
      if (stud.before.empty() || std::abs(stud.at_upstand_mm) < mark) continue;
      const auto& b = part(s_.facts, stud.part_id).bbox_mm;
      const std::string words = (stud.at_upstand_mm > 0 ? "fur " : "in ") + pen_.words(std::abs(stud.at_upstand_mm));
      const double y = (b[1] + b[4]) / 2, x = (b[0] + b[3]) / 2;
      if (stud.wall == "back") {
        pen_.line({b[0], b[1]}, {b[3], b[1]}, LineKind::correction);
        pen_.label({x, b[1] - 1.6 * t_}, words, Anchor::middle, 0.75);
      } else {
        const bool left = stud.wall == "left";
        pen_.line({left ? b[3] : b[0], b[1]}, {left ? b[3] : b[0], b[4]}, LineKind::correction);
        pen_.label({left ? b[3] + 0.8 * t_ : b[0] - 0.8 * t_, y - 0.4 * t_}, words, left ? Anchor::left : Anchor::right,
                   0.75);
      }
    }
  }

  /// Where along an axis a section's mark stands on the walls that run along it.
  std::vector<double> marks_along(std::size_t axis) const {
    std::vector<double> places;
    if (!shows_.places) return places;
    std::vector<Cut> cuts{drain_cut(s_), bed_cut(s_)};
    if (s_.job().bench) cuts.push_back(bench_cut(s_));
    for (const Cut& cut : cuts) {
      const Sight sight = cut.sight();
      if (std::abs(axis == 0 ? sight.way.x : sight.way.y) > 0.5) places.push_back(axis == 0 ? sight.at.x : sight.at.y);
    }
    return places;
  }

  /// The middle of the longest stretch of a wall with no stud and no section's mark in it, for words along it.
  std::optional<Point> clear_stretch(const std::string& wall) const {
    const std::size_t axis = wall == "back" ? 0 : 1;
    std::vector<std::pair<double, double>> taken;
    double across = 0;
    for (const facts::StudGap& stud : s_.facts.room.studs)
      if (stud.wall == wall) {
        const auto& b = part(s_.facts, stud.part_id).bbox_mm;
        taken.emplace_back(b[axis], b[axis + 3]);
        across = (b[1 - axis] + b[4 - axis]) / 2;
      }
    if (taken.empty()) return std::nullopt;
    for (const double mark : marks_along(axis)) taken.emplace_back(mark - 2.5 * t_, mark + 2.5 * t_);
    std::sort(taken.begin(), taken.end());
    double middle = taken.front().second, longest = 0, reached = taken.front().second;
    for (const auto& [from, to] : taken) {
      if (from - reached > longest + 1) longest = from - reached, middle = (from + reached) / 2;
      reached = std::max(reached, to);
    }
    return axis == 0 ? Point{middle, across} : Point{across, middle};
  }

  /// Beside a wall, where nothing of its framing is written.
  std::optional<Point> outside(job::Side side) const {
    if (side == job::Side::back) return Point{width_ / 2, outside_.y1 + 1.4 * t_};
    return Point{side == job::Side::left ? outside_.x0 - 1.2 * t_ : outside_.x1 + 1.2 * t_, depth_ / 2};
  }

  /// Where all running dimensions begin: the walls' stud faces meet there.
  void origin() {
    const Point at{0, depth_};
    sheet_.arcs.push_back({at, t_, 0, 360, LineKind::outline});
    pen_.line({at.x - 1.6 * t_, at.y}, {at.x + 1.6 * t_, at.y}, LineKind::dimension);
    pen_.line({at.x, at.y - 1.6 * t_}, {at.x, at.y + 1.6 * t_}, LineKind::dimension);
    pen_.label({at.x - 1.4 * t_, at.y + 1.2 * t_}, "O", Anchor::right);
  }

  /// Heavy ends of the cutting plane at the alcove's sides, each with an arrow the way it looks and the letter.
  void section_mark(const Cut& cut) {
    const Sight sight = cut.sight();
    const bool level = std::abs(sight.way.y) > std::abs(sight.way.x);
    const double end = 2 * t_, arrow = 2.2 * t_;
    const double low = level ? 0 : outside_.y0, high = level ? width_ : depth_;
    for (const auto& [at, inward] : {std::pair{low, 1.0}, {high, -1.0}}) {
      const Point outer = level ? Point{at - inward * end, sight.at.y} : Point{sight.at.x, at - inward * end};
      const Point inner = level ? Point{at, sight.at.y} : Point{sight.at.x, at};
      pen_.line(outer, inner, LineKind::section);
      pen_.arrow(outer, {outer.x + arrow * sight.way.x, outer.y + arrow * sight.way.y});
      pen_.label({inner.x + (level ? inward * 0.8 * t_ : 0.8 * t_), inner.y + (level ? 0.5 * t_ : inward * t_)},
                 sight.letter, level && inward < 0 ? Anchor::right : Anchor::left, 5.0 / 3);
    }
  }

  /// What each side is, and in a surveyed room its length at the floor as solved.
  void side_names() {
    const job::Layout at = job::lay_out(s_.job());
    const auto name = [&](const std::string& words, survey::Point a, survey::Point b) {
      if (!at.room.closure.solved) return words;
      const double length = std::hypot(b.x - a.x, b.y - a.y);
      sheet_.dimensions.push_back({{a.x, a.y}, {b.x, b.y}, pen_.words(length), length, 0});
      return words + "  " + pen_.words(length);
    };
    for (const auto& [side, words] :
         {std::pair{job::Side::back, "BACK WALL"}, {job::Side::left, "LEFT WALL"}, {job::Side::right, "RIGHT WALL"}}) {
      const survey::Wall* wall = at.room.wall(side);
      const auto bay = shows_.framing ? clear_stretch(job::name_of(side)) : outside(side);
      if (!wall || !bay) continue;
      const bool back = side == job::Side::back;
      const Point place = back ? Point{bay->x, bay->y - 0.4 * t_} : Point{bay->x + 0.4 * t_, bay->y};
      pen_.note(place, name(words, wall->start(), wall->end()), Anchor::middle, 0.8, back ? 0 : 90);
    }
    const survey::Wall *left = at.room.wall(job::Side::left), *right = at.room.wall(job::Side::right);
    const std::string entry = left && right ? name("ENTRY", left->end(), right->end()) : "ENTRY";
    // Beside the bore's witness line: between that and the mark of a section where there is room, else on its other
    // side.
    const double mark = bed_cut(s_).sight().at.x, other = mark > bore_.x ? base_[0] : base_[3];
    const bool fits = width_of(entry, t_) + 4 * t_ < std::abs(mark - bore_.x);
    pen_.note({(bore_.x + (fits ? mark : other)) / 2, outside_.y0 - 1.8 * t_}, entry, Anchor::middle);
  }

  /// A place along the base, near its middle, with no joist's side, no bore and no section's letter within `half` of
  /// it.
  double clear_of_joists(double half) const {
    std::vector<double> taken{bore_.x};
    for (const double mark : marks_along(0)) taken.push_back(mark + 1.5 * t_);
    for (const facts::Part& p : s_.facts.parts)
      if (p.role == "joist" && s_.facts.room.drain.along_width) taken.insert(taken.end(), {p.bbox_mm[0], p.bbox_mm[3]});
    for (const double share : {0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7}) {
      const double x = base_[0] + share * (base_[3] - base_[0]);
      if (std::none_of(taken.begin(), taken.end(), [&](double at) { return std::abs(at - x) < half; })) return x;
    }
    return (base_[0] + base_[3]) / 2;
  }

  void part_names() {
    const double threshold = s_.job().base.threshold.width.in_mm(), half = s_.job().drain.bore.in_mm() / 2;
    const auto middle = [](double a, double b) { return (a + b) / 2; };
    // On the side away from the room's middle, where the diagonals cross.
    const double side = bore_.x < width_ / 2 - 1 ? -1 : 1, beside = bore_.x + side * (half + t_);
    const Anchor anchor = side > 0 ? Anchor::left : Anchor::right;
    pen_.label({beside, bore_.y + 0.8 * t_}, "drain", anchor);
    pen_.label({beside, bore_.y - 1.8 * t_}, "bore " + pen_.words(2 * half), anchor, 0.8);
    if (threshold > 0) {
      const Point at{clear_of_joists(4 * t_), base_[1] + threshold / 2 - 0.5 * t_};
      if (s_.facts.room.drain.along_width)
        pen_.note(at, "threshold", Anchor::middle);
      else  // joists run along it: the word gives way to them
        pen_.label(at, "threshold", Anchor::middle);
    }
    const bool room_at_right = bore_.x - base_[0] < base_[3] - bore_.x;
    pen_.label({middle(bore_.x, room_at_right ? base_[3] : base_[0]), middle(base_[1], base_[4])}, "base",
               Anchor::middle);
    if (!s_.job().bench) return;
    const auto& seat = part(s_.facts, "seat-block").bbox_mm;
    pen_.label({middle(seat[0], seat[3]), middle(seat[1], seat[4]) - 3 * t_}, "bench", Anchor::middle);
  }

  const Subject& s_;
  Sheet& sheet_;
  Pen& pen_;
  Shows shows_;
  double t_, width_, depth_, below_ = 0;
  bool deep_bench_ = false;  ///< along the back wall: its depth lies along the room's
  std::optional<double> frame_edge_, seat_edge_;
  double base_edge_ = 0;
  std::array<double, 6> base_;
  Point bore_;
  bool void_ = bore_is_void(s_);  ///< the bore's place is rejected: nothing is measured to it
  Frame outside_;
};

}  // namespace

namespace {

std::vector<std::string> plan_notes(const Shows& shows) {
  std::vector<std::string> notes;
  if (shows.framing)
    notes.emplace_back(
        "Seen from above. Running dimensions: stud centres from the back left corner (back wall) and from the back "
        "corners (side walls); joist centres from the left stud face at the bore, or from the entry.");
  if (shows.framing && shows.places)
    notes.emplace_back(
        "Dashed: joists and bore below the floor, edges under the bench. Heavy dashes: stud faces to fur out, with the "
        "thickness at the upstand. Long dashes: diagonals at the floor, to check.");
  else if (shows.framing)
    notes.emplace_back(
        "Dashed: joists and bore below the floor. Heavy dashes: stud faces to fur out, with the thickness at the "
        "upstand. Base and bench are set out on {plan}.");
  else
    notes.emplace_back(
        "Seen from above, from stud faces. Dashed: bore below the floor, edges under the bench. Long dashes: diagonals "
        "at the floor, to check. Studs, joists and furring: {plan-framing}.");
  return notes;
}

}  // namespace

/// On small paper the framing has a sheet of its own, lest the numbers of one lie in the other's.
std::vector<Sheet> draw_plan(const Subject& subject) {
  // Walls and what stands between them do not hide each other from above.
  Projection walls = project(shapes_of(subject.model, is_low_wall), from_above(), false);
  if (subject.job().walls.existing) walls = as_kind(walls, LineKind::existing);
  std::vector<TopoDS_Shape> shapes = shapes_of(
      subject.model, [](const parts::Solid& s) { return s.role == Role::seat_block || s.role == Role::drain; });
  shapes.push_back(faces_looking_up(subject.model.first(Role::base)->shape));
  const Projection seen = without_hips(project(shapes, from_above(), false), part(subject.facts, "base").bbox_mm);
  const auto plan = [&](const char* name, const char* title, const Shows& shows) {
    return on_page(name, title, subject.job(), [&](Sheet& sheet, Pen& pen) {
      pen.add(walls);
      pen.add(shows.places ? seen : as_kind(seen, LineKind::phantom));
      Plan{subject, sheet, pen, shows}.draw();
      sheet.notes = bore_warning(subject);
      for (const std::string& note : plan_notes(shows)) sheet.notes.push_back(note);
    });
  };
  if (!is_small(paper_of(subject.job()))) return {plan("plan", "Set-out plan", {})};
  return {plan("plan", "Set-out plan", {true, false}),
          plan("plan-framing", "Studs, joists and furring in plan", {false, true})};
}

}  // namespace fallwright::drawing
