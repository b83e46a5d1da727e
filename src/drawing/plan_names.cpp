#include <algorithm>
#include <cmath>

#include "drawing/plan.hpp"
#include "drawing/steps.hpp"
#include "drawing/wall.hpp"
#include "job/layout.hpp"
#include "takeoff/cuts.hpp"

namespace fallwright::drawing {

void Plan::section_marks() {
  for (const Cut& cut : shown_cuts()) section_mark(cut);
}

bool has_diagonals(const job::Job& job) {
  const job::Layout at = job::lay_out(job);
  return at.room.wall(job::Side::left) && at.room.wall(job::Side::right);
}

void Plan::diagonals() {
  const job::Layout at = job::lay_out(s_.job());
  const survey::Wall *left = at.room.wall(job::Side::left), *right = at.room.wall(job::Side::right);
  if (!has_diagonals(s_.job())) return;
  const auto diagonal = [&](survey::Point a, survey::Point b, double share) {
    const Point from{a.x, a.y}, to{b.x, b.y};
    pen_.line(from, to, LineKind::centre);
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    pen_.note_along(from, to,
                    {share, 0.24, 0.76, 0.32, 0.68, 0.1, 0.9, 0.2, 0.8, 0.28, 0.72, 0.36, 0.64, 0.4, 0.6, 0.45, 0.55},
                    pen_.words(length), 2.5 / 3);
  };
  diagonal(left->start(), right->end(), 0.16);
  diagonal(right->start(), left->end(), 0.16);
}

void Plan::hidden_edges() {
  if (!frame_edge_) return;
  const auto edge = [&](double at, const std::string& words) {
    if (deep_bench_) {
      pen_.line({base_[0], at}, {base_[3], at}, LineKind::hidden);
      const double x = base_[0] + 0.3 * (base_[3] - base_[0]);
      pen_.name({x, at}, {x, at + 0.6 * t_}, words, Anchor::middle, 0.8);
    } else {
      const bool left = at < bore_.x;
      pen_.line({at, base_[1]}, {at, base_[4]}, LineKind::hidden);
      const double y = base_[1] + 0.25 * (base_[4] - base_[1]);
      pen_.name({at, y + 0.4 * t_}, {at + (left ? -0.6 : 0.6) * t_, y}, words, left ? Anchor::right : Anchor::left,
                0.8);
    }
  };
  const BenchEdges edges = bench_edges(s_);
  if (edges.frame_is_hidden()) edge(*frame_edge_, "frame's front");
  if (edges.base_is_hidden()) edge(base_edge_, edges.laps ? "base's edge, LAPPED" : "base's edge");
}

std::optional<FurringTold> furring_told(const Subject& subject, const facts::StudGap& stud) {
  if (stud.stands_alone()) return std::nullopt;
  const double mark = units::tape_mark_mm(subject.job().is_metric());
  FurringTold told;
  bool listed = false;
  for (const takeoff::CutRow& cut : subject.cuts) {
    if (!cut.furring || std::find(cut.part_ids.begin(), cut.part_ids.end(), stud.part_id) == cut.part_ids.end())
      continue;
    listed = true, told.held = told.held || cut.hold;
    if (takeoff::strip_of(stud, cut).from <= 0)
      told.foot_mm = std::max(told.foot_mm, thick_at(takeoff::StripEnd::foot, cut));
  }
  told.in_mm = std::max(0.0, -stud.at_upstand_mm);
  if (told.in_mm < mark) told.in_mm = 0;
  if (!listed && stud.is_beyond_furring()) told.held = true, told.framed_out = takeoff::beyond_furring(stud);
  return listed || told.in_mm > 0 || told.held ? std::optional{told} : std::nullopt;
}

void Plan::furring() {
  for (const facts::StudGap& stud : s_.facts.room.studs) {
    const std::optional<FurringTold> told = furring_told(s_, stud);
    if (!told) continue;
    furring_at(stud.wall, part(s_.facts, stud.part_id).bbox_mm,
               told->in_mm > 0     ? "in " + pen_.words(told->in_mm)
               : told->framed_out  ? "HOLD: bring out"
               : told->held        ? "fur HOLD"
               : told->foot_mm > 0 ? "fur " + pen_.words(told->foot_mm)
                                   : "fur above",
               told->is_above());
  }
  // Before blocks between them the same, of those one above the other once; how thick, their lists say.
  std::vector<std::pair<long, long>> seen;
  for (const takeoff::CutRow& cut : s_.cuts)
    for (const std::string& id : cut.part_ids) {
      const facts::Part& block = part(s_.facts, id);
      if (!cut.furring || !cut.on_block || !block.which.family.wall) continue;
      const std::pair at{std::lround(block.bbox_mm[0]), std::lround(block.bbox_mm[1])};
      if (std::find(seen.begin(), seen.end(), at) != seen.end()) continue;
      seen.push_back(at);
      furring_at(*block.which.family.wall, block.bbox_mm, cut.hold ? "fur HOLD" : "", true);
    }
}

/// A heavy dash along the face of a stud or a block, and what is to be done there: it may stand elsewhere `aside_too`,
/// where nobody has to find it at the floor.
void Plan::furring_at(job::Side wall, const std::array<double, 6>& b, const std::string& words, bool aside_too) {
  const double y = (b[1] + b[4]) / 2, x = (b[0] + b[3]) / 2;
  if (wall == job::Side::back) {
    pen_.line({b[0], b[1]}, {b[3], b[1]}, LineKind::correction);
    if (words.empty()) return;
    // In the room, where it is screwed on, past the base's edge if that is near: in the wall it would be a stud's.
    const double aside = 0.5 * width_of(words, t_) + 0.8 * t_;
    std::vector<Point> places;
    for (const double down : {1.6, 2.2, 2.8, 3.6, 4.6, 6.0, 7.5, 9.0})
      for (const double along : {0.0, 0.5, -0.5, 1.0, -1.0, 1.6, -1.6})
        places.push_back({x + along * aside, b[1] - down * t_});
    pen_.name_at_one_of({x, b[1]}, std::move(places), words, Anchor::middle, 0.75);
    if (!aside_too) pen_.nowhere_else();
    pen_.in_turn();
  } else {
    const bool left = wall == job::Side::left;
    pen_.line({left ? b[3] : b[0], b[1]}, {left ? b[3] : b[0], b[4]}, LineKind::correction);
    if (words.empty()) return;
    const double face = left ? b[3] : b[0];
    // In the room: past the entry's line it would be of something else.
    const double entry = std::min(base_[1], b[1]) + 0.3 * t_;
    std::vector<Point> places;
    for (const double off : {1.6, 2.4, 3.2, 4.8, 6.4, 8.4})
      for (const double up : {0.0, 0.4, -0.4, 0.9, -0.9, 1.3, -1.3, 2.2, -2.2, 3.4, -3.4, 4.6, -4.6})
        if (y + (up + 0.8) * t_ < depth_ && y + (up - 0.4) * t_ > entry)
          places.push_back({face + (left ? off : -off) * t_, y + (up - 0.4) * t_});
    pen_.name_at_one_of({face, y}, std::move(places), words, left ? Anchor::left : Anchor::right, 0.75);
    if (!aside_too) pen_.nowhere_else();
    pen_.always_led();
    pen_.in_turn();
  }
}

std::vector<Cut> Plan::shown_cuts() const {
  if (!shows_.places || !shows_.bore) return {};
  std::vector<Cut> cuts{drain_cut(s_)};
  if (has_bed_cut(s_)) cuts.push_back(bed_cut(s_));
  if (s_.job().bench) cuts.push_back(bench_cut(s_));
  return cuts;
}

std::vector<double> Plan::marks_along(std::size_t axis) const {
  std::vector<double> places;
  for (const Cut& cut : shown_cuts()) {
    const Sight sight = cut.sight();
    if (std::abs(axis == 0 ? sight.way.x : sight.way.y) > 0.5) places.push_back(axis == 0 ? sight.at.x : sight.at.y);
  }
  return places;
}

std::vector<std::pair<double, double>> Plan::taken_by_marks(std::size_t axis) const {
  std::vector<std::pair<double, double>> taken;
  for (const Cut& cut : shown_cuts()) {
    const Sight sight = cut.sight();
    const double at = axis == 0 ? sight.at.x : sight.at.y, way = axis == 0 ? sight.way.x : sight.way.y;
    if (std::abs(way) > 0.5) taken.emplace_back(at - (way > 0 ? 1 : 5) * t_, at + (way > 0 ? 5 : 1) * t_);
  }
  return taken;
}

std::optional<Point> Plan::clear_stretch(job::Side wall) const {
  const std::size_t axis = wall == job::Side::back ? 0 : 1;
  std::vector<std::pair<double, double>> taken;
  double across = 0;
  for (const facts::StudGap& stud : s_.facts.room.studs)
    if (stud.wall == wall) {
      const auto& b = part(s_.facts, stud.part_id).bbox_mm;
      taken.emplace_back(b[axis], b[axis + 3]);
      across = (b[1 - axis] + b[4 - axis]) / 2;
    }
  if (taken.empty()) return std::nullopt;
  const auto marks = taken_by_marks(axis);
  taken.insert(taken.end(), marks.begin(), marks.end());
  std::sort(taken.begin(), taken.end());
  double middle = taken.front().second, longest = 0, reached = taken.front().second;
  for (const auto& [from, to] : taken) {
    if (from - reached > longest + 1) longest = from - reached, middle = (from + reached) / 2;
    reached = std::max(reached, to);
  }
  return axis == 0 ? Point{middle, across} : Point{across, middle};
}

Point Plan::outside(job::Side side) const {
  const std::size_t axis = side == job::Side::back ? 0 : 1;
  auto taken = taken_by_marks(axis);
  taken.emplace_back(axis == 0 ? width_ : depth_, 0);
  std::sort(taken.begin(), taken.end());
  double reached = 0, longest = 0, middle = 0;
  for (const auto& [from, to] : taken) {
    if (from - reached > longest) longest = from - reached, middle = (from + reached) / 2;
    reached = std::max(reached, to);
  }
  if (side == job::Side::back) return Point{middle, outside_.y1 + 1.4 * t_};
  return Point{side == job::Side::left ? outside_.x0 - 1.2 * t_ : outside_.x1 + 1.2 * t_, middle};
}

void Plan::origin() {
  const Point at{0, depth_};
  sheet_.arcs.push_back({at, t_, 0, 360, LineKind::outline});
  pen_.line({at.x - 1.6 * t_, at.y}, {at.x + 1.6 * t_, at.y}, LineKind::dimension);
  pen_.line({at.x, at.y - 1.6 * t_}, {at.x, at.y + 1.6 * t_}, LineKind::dimension);
  pen_.label({at.x - 1.4 * t_, at.y + 1.2 * t_}, "O", Anchor::right);
}

namespace {

/// Where the letter of a section may stand at one end of its mark.
struct LetterPlaces {
  static constexpr double size = 5.0 / 3, arrow = 2.2;  ///< in letters
  Point outer, inner, tip, way;
  double inward;
  bool level;
  double t;

  /// Past its arrow, off the room, where the sheet is no larger for that; beside the cutting plane's end where the room
  /// there is taken: a letter further off would stand alone.
  std::vector<Point> places(const Frame& all) const {
    std::vector<Point> found;
    past_arrow(all, true, found);
    beside_arrow(found);
    for (const double along : {1.5, 2.5, 3.5})
      for (const double aside : {level ? 0.5 : 1.5, level ? -0.5 : -1.5})
        found.push_back(on_mark(along * t, aside * t));
    past_arrow(all, false, found);
    for (const double past : {1.5, 2.5}) found.push_back(on_mark(-(past + 2) * t, level ? 0.2 * t : 1.5 * t));
    return found;
  }

 private:
  double tall() const { return size * t; }

  /// Of the mark's line, from where it meets the room, inward.
  Point on_mark(double along, double aside) const {
    return level ? Point{inner.x + inward * along, inner.y + aside - (aside < 0 ? tall() : 0)}
                 : Point{inner.x + aside, inner.y + inward * along - (inward < 0 ? tall() : 0)};
  }

  void past_arrow(const Frame& all, bool within, std::vector<Point>& found) const {
    // The mark itself stands past the room: half a letter more than that is no larger a sheet.
    const Frame with_mark{std::min(all.x0, outer.x - tall()), std::min(all.y0, outer.y - tall()),
                          std::max(all.x1, outer.x + tall()), std::max(all.y1, outer.y + tall())};
    for (const double past : {1.3, 2.2, 3.1}) {
      const Point p{tip.x + past * t * way.x,
                    tip.y + past * t * way.y - (level ? (way.y > 0 ? 0.5 * t : 0.5 * tall()) : tall() / 2)};
      const bool is_within = p.x - tall() > with_mark.x0 && p.x + tall() < with_mark.x1 && p.y > with_mark.y0 &&
                             p.y + tall() < with_mark.y1;
      if (is_within == within) found.push_back(p);
    }
  }

  void beside_arrow(std::vector<Point>& found) const {
    const double arrow_mm = arrow * t;
    for (const double side : {-inward, inward})  // outward first
      found.push_back({tip.x + (level ? 1.5 * side * t : -0.5 * arrow_mm * way.x),
                       tip.y + (level ? -0.5 * arrow_mm * way.y - 0.5 * tall() : 1.1 * side * t - 0.5 * tall())});
    for (const double behind : {1.3, 2.2})  // at the plane's own end, away from where it looks
      found.push_back({outer.x - behind * t * way.x,
                       outer.y - behind * t * way.y - (level ? (way.y > 0 ? 0.5 * tall() : 0.5 * t) : tall() / 2)});
  }
};

}  // namespace

void Plan::section_mark(const Cut& cut) {
  const Frame all = frame_of(sheet_);
  const Sight sight = cut.sight();
  const bool level = std::abs(sight.way.y) > std::abs(sight.way.x);
  const double arrow = LetterPlaces::arrow * t_;
  // Within the wall, whose studs are set out along its outer face; else outside it, where nothing is written.
  const bool within = shows_.framing;
  const double low = !level   ? outside_.y0
                     : within ? 0
                              : outside_.x0,
               high = !level   ? (within ? depth_ : outside_.y1)
                      : within ? width_
                               : outside_.x1;
  for (const auto& [at, inward] : {std::pair{low, 1.0}, {high, -1.0}}) {
    // In the middle of a wall that is thick enough for a letter there.
    const double wall = level        ? (inward > 0 ? -outside_.x0 : outside_.x1 - width_)
                        : inward > 0 ? 0
                                     : outside_.y1 - depth_,
                 end = within && wall > 1.8 * t_ ? wall / 2 : 2 * t_;
    const Point outer = level ? Point{at - inward * end, sight.at.y} : Point{sight.at.x, at - inward * end};
    const Point inner = level ? Point{at, sight.at.y} : Point{sight.at.x, at};
    const Point tip{outer.x + arrow * sight.way.x, outer.y + arrow * sight.way.y};
    pen_.line(outer, inner, LineKind::section);
    pen_.arrow(outer, tip);
    const LetterPlaces letter{outer, inner, tip, sight.way, inward, level, t_};
    pen_.label_at_one_of(letter.places(all), sight.letter, Anchor::middle, letter.size);
    pen_.or_about_it();
    pen_.in_what_is_clear();
    // A number straight under the arrow would be read as the section's; where its letter belongs nothing else stands.
    if (!level && inward > 0) {
      const double past = tip.x + 2.2 * t_ * sight.way.x, half = 0.55 * (letter.size * t_);
      pen_.keep_clear({std::min(tip.x, outer.x), outer.y - 2 * t_, std::max(tip.x, outer.x), outer.y});
      pen_.keep_clear({std::min(past, outer.x), outer.y - half, std::max(past, outer.x), outer.y + half});
    }
  }
}

void Plan::side_names() {
  const job::Layout at = job::lay_out(s_.job());
  const auto name = [&](const std::string& words, survey::Point a, survey::Point b) {
    if (!at.room.closure.solved) return words;
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    sheet_.dimensions.push_back({{a.x, a.y}, {b.x, b.y}, pen_.words(length), length, 0});
    // Upright on small paper it would be longer than its bay, and beside a row be read as one of that.
    return is_small(paper_of(s_.job())) ? words : words + "  " + pen_.words(length);
  };
  for (const auto& [side, words] :
       {std::pair{job::Side::back, "BACK WALL"}, {job::Side::left, "LEFT WALL"}, {job::Side::right, "RIGHT WALL"}}) {
    const survey::Wall* wall = at.room.wall(side);
    const auto bay = clear_stretch(side);
    if (!wall || !bay) continue;
    const bool back = side == job::Side::back;
    std::vector<Point> places;
    const auto about = [&](Point middle) {
      for (const double along : {0.0, 0.4, -0.4, 0.8, -0.8, 1.2, -1.2})
        places.push_back(back ? Point{middle.x + along * t_, middle.y - 0.4 * t_}
                              : Point{middle.x + 0.4 * t_, middle.y + along * t_});
    };
    if (!shows_.framing) about(outside(side));
    about(*bay);
    // Where no bay is as long as the words: in the room, along the wall.
    for (const double share : {0.5, 0.3, 0.7, 0.2, 0.8, 0.4, 0.6})
      places.push_back(back                      ? Point{share * width_, depth_ - 2.4 * t_}
                       : side == job::Side::left ? Point{2.6 * t_, share * depth_}
                                                 : Point{width_ - 1.6 * t_, share * depth_});
    // Else past all rows of dimensions: between two of them it would be read as a row's name.
    const Frame all = frame_of(sheet_);
    places.push_back(back ? Point{bay->x, all.y1 + t_}
                          : Point{side == job::Side::left ? all.x0 - 2.4 * t_ : all.x1 + 3.4 * t_, bay->y});
    pen_.label_at_one_of(places, name(words, wall->start(), wall->end()), Anchor::middle, 0.8, back ? 0 : 90);
    pen_.last_at_need();
  }
  const survey::Wall *left = at.room.wall(job::Side::left), *right = at.room.wall(job::Side::right);
  const std::string entry = left && right ? name("ENTRY", left->end(), right->end()) : "ENTRY";
  // Beside the bore's witness line: between that and the mark of a section where there is room, else on its other
  // side.
  const double mark = bed_cut(s_).sight().at.x, other = mark > bore_.x ? base_[0] : base_[3];
  const bool fits = width_of(entry, t_) + 4 * t_ < std::abs(mark - bore_.x);
  // In no row of dimensions: its length would be read as one of those.
  const double y = outside_.y0 - 1.8 * t_;
  std::vector<Point> places{{(bore_.x + (fits ? mark : other)) / 2, y}, {(bore_.x + other) / 2, y}};
  for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.15, 0.85})
    places.push_back({base_[0] + share * (base_[3] - base_[0]), y});
  // Over a number of the first row it would be read as that number's name.
  std::stable_partition(places.begin(), places.end(), [&](const Point& place) {
    const double apart = (width_of(entry, t_) + 5 * t_) / 2;
    return std::abs(place.x - bore_.x / 2) > apart && std::abs(place.x - (bore_.x + width_) / 2) > apart;
  });
  const Frame all = frame_of(sheet_);
  places.push_back({(all.x0 + all.x1) / 2, all.y0 - 2 * t_});  // below all rows
  pen_.label_at_one_of(std::move(places), entry, Anchor::middle);
}

double Plan::clear_of_joists(double half) const {
  std::vector<double> taken{bore_.x};
  for (const double mark : marks_along(0)) taken.push_back(mark + 1.5 * t_);
  for (const facts::Part& p : s_.facts.parts)
    if (p.which.is(facts::Role::joist) && s_.facts.room.drain.along_width)
      taken.insert(taken.end(), {p.bbox_mm[0], p.bbox_mm[3]});
  for (const double share : {0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7}) {
    const double x = base_[0] + share * (base_[3] - base_[0]);
    if (std::none_of(taken.begin(), taken.end(), [&](double at) { return std::abs(at - x) < half; })) return x;
  }
  return (base_[0] + base_[3]) / 2;
}

bool Plan::channel_name(double half, double past_words) {
  const job::Rect strip = job::lay_out(s_.job()).opening;
  if (strip.width() < strip.depth() || depth_ - bore_.y > 4 * t_) return false;
  // On the longer side of the bore; past its words where these stand there, or on the other side: a dot close behind
  // their number would be read as a degree's.
  const double right = strip.x1 - bore_.x, left = bore_.x - strip.x0, longer = std::max(right, left),
               past = std::abs(past_words) + 2 * t_;
  const auto off = [&](double reach) { return std::min(half + 6 * t_, (half + reach) / 2); };
  const bool words_there = (past_words < 0) == (right < left), fits = past < longer - t_;
  const double way = (right < left) == (fits || !words_there) ? -1 : 1,
               along = bore_.x + way * (!words_there ? off(longer)
                                        : fits       ? std::max(off(longer), past)
                                                     : off(std::min(right, left)));
  pen_.name_outside({along, strip.y0 + 0.3 * strip.depth()}, {along, strip.y0 - 3 * t_}, "channel", Anchor::middle);
  return true;
}

/// Where a line to its name ends, above the bore's centre and to that `side`: on its own edge, not on the bore's, which
/// has a line as well. A channel's lies past the bore.
Point Plan::on_drains_edge(double side, double bore_radius) const {
  const auto& box = part(s_.facts, facts::Role::drain).bbox_mm;
  const double hx = (box[3] - box[0]) / 2, hy = (box[4] - box[1]) / 2, x = (box[0] + box[3]) / 2,
               y = (box[1] + box[4]) / 2, past = bore_radius + t_;
  if (s_.job().drain.kind == job::DrainKind::line)
    return hx > hy ? Point{std::clamp(bore_.x + side * past, box[0], box[3]), box[4]}
                   : Point{side > 0 ? box[3] : box[0], std::clamp(bore_.y + past, box[1], box[4])};
  if (s_.job().drain.opening == job::Opening::round) return {x + side * hx * M_SQRT1_2, y + hx * M_SQRT1_2};
  return {x + side * hx, y + hy / 2};
}

void Plan::part_names() {
  const double threshold = s_.job().base.threshold.width.in_mm(), half = s_.job().drain.bore.in_mm() / 2;
  const auto middle = [](double a, double b) { return (a + b) / 2; };
  // On the side away from the room's middle, where the diagonals cross; toward it where a wall is too near for words.
  const double room = half + 14 * t_;
  const bool left = bore_.x < width_ / 2 - 1 ? bore_.x > room : width_ - bore_.x < room;
  const double side = left ? -1 : 1, beside = bore_.x + side * (half + t_);
  const Anchor anchor = side > 0 ? Anchor::left : Anchor::right;
  const Point edge{bore_.x + side * half * M_SQRT1_2, bore_.y - half * M_SQRT1_2};
  const bool channel = s_.job().drain.kind == job::DrainKind::line;
  const std::string hole = (waste_stands(s_.job()) ? "hole " : "bore ") + pen_.words(2 * half);  // where nobody bores
  if (!channel || !channel_name(half, side * (half + t_ + width_of(hole, 0.8 * t_))))
    pen_.name_led(on_drains_edge(side, half), {beside, bore_.y + 0.8 * t_}, channel ? "channel" : "drain", anchor);
  pen_.name_led(edge, {beside, bore_.y - 1.8 * t_}, hole, anchor, 0.8);
  if (threshold > 0) {
    const Point at{clear_of_joists(4 * t_), base_[1] + threshold / 2 - 0.5 * t_};
    if (threshold < 1.1 * t_) {  // lower than its word: near its end, where the least of others lies
      const double end = base_[0] + 0.08 * (base_[3] - base_[0]);
      pen_.name_outside({end, base_[1] + threshold / 2}, {end, base_[1] - 2 * t_}, "threshold", Anchor::middle);
    } else if (s_.facts.room.drain.along_width)
      pen_.note(at, "threshold", Anchor::middle);
    else  // joists run along it: the word gives way to them
      pen_.label(at, "threshold", Anchor::middle);
  }
  const bool room_at_right = bore_.x - base_[0] < base_[3] - bore_.x;
  pen_.label({middle(bore_.x, room_at_right ? base_[3] : base_[0]), middle(base_[1], base_[4])}, "base",
             Anchor::middle);
  for (const job::Side lapped : lapped_sides(s_.job())) {  // at the bench the edge is named already
    if (s_.job().bench && s_.job().bench->place == lapped) continue;
    if (lapped == job::Side::back)
      pen_.label({(2 * base_[0] + base_[3]) / 3, base_[4] - 1.8 * t_}, "LAPPED", Anchor::middle, 0.8);
    else
      pen_.note_at_one_of(
          {{lapped == job::Side::left ? base_[0] + 1.8 * t_ : base_[3] - t_, (base_[1] + 2 * base_[4]) / 3},
           {lapped == job::Side::left ? base_[0] + 1.8 * t_ : base_[3] - t_, (2 * base_[1] + base_[4]) / 3}},
          "LAPPED", Anchor::middle, 0.8, 90);
  }
  if (!s_.job().bench) return;
  const auto& seat = part(s_.facts, facts::Role::seat_block).bbox_mm;
  // The base's edge under it is named in its front half.
  const bool edge_named = !deep_bench_ && (bench_edges(s_).frame_is_hidden() || bench_edges(s_).base_is_hidden());
  pen_.label({middle(seat[0], seat[3]), middle(seat[1], seat[4]) + (edge_named ? 3 : -3) * t_}, "bench",
             Anchor::middle);
}

}  // namespace fallwright::drawing
