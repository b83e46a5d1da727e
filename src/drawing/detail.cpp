#include "drawing/detail_sizes.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>

namespace fallwright::drawing {
namespace {

using parts::Role;

Point turned(Point p) {
  return {p.y, p.x};
}

std::vector<Line> turned(std::vector<Line> lines) {
  for (Line& line : lines) line.from = turned(line.from), line.to = turned(line.to);
  return lines;
}

/// What lies in the window, as if nothing else were there.
std::vector<Line> clipped(const std::vector<Line>& lines, const Frame& window) {
  std::vector<Line> across, kept;
  for (const Line& line : lines)
    if (const auto part = within(line, {window.x0, window.x1})) across.push_back(*part);
  for (const Line& line : turned(std::move(across)))
    if (const auto part = within(line, {window.y0, window.y1})) kept.push_back(*part);
  return turned(std::move(kept));
}

std::vector<Outline> clipped(std::vector<Outline> rings, const Frame& window) {
  const auto turn = [&] {
    for (Outline& ring : rings)
      for (Point& p : ring) p = turned(p);
  };
  rings = within(rings, {window.x0, window.x1});
  turn();
  rings = within(rings, {window.y0, window.y1});
  turn();
  return rings;
}

/// A part that is named, and a point within it; of what is as thin as a line, on it.
struct Named {
  std::string name;
  Point at;
  bool thin = false, level = false;
  bool bare = false;  ///< a dimension's line: nothing but a line leads to it
};

/// How far a point lies from the nearest side of rings.
double off_edges(const Point& p, const std::vector<Outline>& rings) {
  double least = std::numeric_limits<double>::max();
  for (const Outline& ring : rings)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
      const double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
      const double t = length2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0.0, 1.0) : 0;
      least = std::min(least, std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy));
    }
  return least;
}

/// In the middle of what is over and under it as well, lest the dot stand on the line where that ends.
Point upright_middle(Point at, std::vector<Outline> rings) {
  for (Outline& ring : rings)
    for (Point& p : ring) std::swap(p.x, p.y);
  for (const auto& [from, to] : stretches_within(rings, at.x))
    if (at.y >= from && at.y <= to) return {at.x, (from + to) / 2};
  return at;
}

/// The middle of the widest stretch of a few level lines through the rings, if that is wider than `least`; where an
/// edge runs nearer to it than `clear`, the place on these lines that is farthest from all of them.
std::optional<Point> point_within(const std::vector<Outline>& rings, double least, double clear) {
  double low = std::numeric_limits<double>::max(), high = -low;
  for (const Outline& ring : rings)
    for (const Point& p : ring) low = std::min(low, p.y), high = std::max(high, p.y);
  std::optional<Point> best;
  std::vector<Point> others;
  double widest = least;
  for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8}) {
    const double y = low + share * (high - low);
    for (const auto& [from, to] : stretches_within(rings, y)) {
      if (to - from > widest + 0.1) widest = to - from, best = Point{(from + to) / 2, y};
      for (const double u : {0.25, 0.5, 0.75})
        if (to - from > least) others.push_back({from + u * (to - from), y});
    }
  }
  if (!best) return best;
  best = upright_middle(*best, rings);
  double off = off_edges(*best, rings);
  if (off >= clear) return best;
  for (const Point& other : others) {
    const Point at = upright_middle(other, rings);
    if (const double far = off_edges(at, rings); far > off + 0.1) off = far, best = at;
  }
  return best;
}

/// Of what has no field, such as sheet steel, where its name leads.
Line longest_of(const std::vector<Line>& edges) {
  const auto length = [](const Line& l) { return std::hypot(l.to.x - l.from.x, l.to.y - l.from.y); };
  return *std::max_element(edges.begin(), edges.end(), [&](const Line& a, const Line& b) {
    return length(a) < length(b) - 0.1;  // of equal ones the first
  });
}

Point middle_of(const Line& line) {
  return {(line.from.x + line.to.x) / 2, (line.from.y + line.to.y) / 2};
}

/// Names in a column beside the window, each with a line to a dot in its part, or to an arrow's head on what is too
/// thin for one, in the order of their heights, so that no line crosses another's. @return how low that reaches
double add_names(Sheet& sheet, Pen& pen, std::vector<Named> named, double x, double side, double top) {
  const double t = pen.text_mm(), step = 1.9 * t;
  if (named.empty()) return top;
  std::sort(named.begin(), named.end(), [](const Named& a, const Named& b) { return a.at.y > b.at.y; });
  double y = top - t;
  for (const Named& n : named) {
    y = std::min(y, n.at.y - (n.thin && n.level ? step : 0));  // from below: along it an arrow would lie in it
    if (n.thin) {
      pen.arrow({x, y}, n.at);
    } else {
      pen.line(n.at, {x, y}, LineKind::dimension);
      if (!n.bare) sheet.arcs.push_back({n.at, 0.25 * t, 0, 360, LineKind::outline});
    }
    pen.note({x + side * 0.5 * t, y - 0.4 * t}, n.name, side > 0 ? Anchor::left : Anchor::right);
    y -= step;
  }
  return y + step - 0.4 * t;
}

/// What the window shows of a solid, its upper left corner at the origin.
struct Enlarged {
  CutSolid cut;
  std::vector<Outline> rings;

  void move(Point by) {
    const auto moved = [&](Point& p) { p = {p.x + by.x, p.y + by.y}; };
    for (Line& line : cut.seen.lines) moved(line.from), moved(line.to);
    for (Outline& ring : rings)
      for (Point& p : ring) moved(p);
  }
};

std::vector<Enlarged> enlarged(const std::vector<CutSolid>& cut, const Frame& window, double times) {
  const auto grow = [&](Point& p) { p = {(p.x - window.x0) * times, (p.y - window.y1) * times}; };
  std::vector<Enlarged> parts;
  for (const CutSolid& solid : cut) {
    Enlarged part{solid, clipped(rings_of(solid.seen.lines), window)};
    part.cut.seen.lines = clipped(solid.seen.lines, window);
    if (part.cut.seen.lines.empty()) continue;
    part.cut.source.window = {window.x0, window.y0, window.x1, window.y1}, part.cut.source.times = times;
    for (Line& line : part.cut.seen.lines) grow(line.from), grow(line.to);
    for (Outline& ring : part.rings)
      for (Point& p : ring) grow(p);
    parts.push_back(std::move(part));
  }
  return parts;
}

/// A ring of what is cut about something that stands in it, so that it is not filled there.
void leave_blank(std::vector<Enlarged>& parts, const Ribbon& ribbon, const Frame& w, double times) {
  Outline ring;
  for (const Point& p : ribbon.points) ring.push_back({(p.x - w.x0) * times, (p.y - w.y1) * times});
  constexpr double hair_mm = 0.05;  // off what it stands on: sides of two rings on one line have no inside
  ring.front().y += hair_mm * times, ring.back().y += hair_mm * times;
  Point middle;
  for (const Point& p : ring)
    middle.x += p.x / static_cast<double>(ring.size()), middle.y += p.y / static_cast<double>(ring.size());
  for (Enlarged& part : parts) {
    const auto cut = stretches_within(part.rings, middle.y);
    if (std::none_of(cut.begin(), cut.end(), [&](const auto& s) { return middle.x > s.first && middle.x < s.second; }))
      continue;
    part.cut.source.blank_mm2 = area_within({ring}) / (times * times);
    part.rings.push_back(ring);
    return;
  }
}

/// Where the line to its name ends: where it first runs, clear of what it lies on; of what stands, in its middle, off
/// the level of what is about it.
Point place_of_name(const Ribbon& ribbon, const Line& first, const Frame& w, double times) {
  if (!ribbon.stands) return {(first.from.x + first.to.x) / 2, (first.from.y + first.to.y) / 2};
  double x0 = ribbon.points.front().x, x1 = x0, y0 = ribbon.points.front().y, y1 = y0;
  for (const Point& p : ribbon.points)
    x0 = std::min(x0, p.x), x1 = std::max(x1, p.x), y0 = std::min(y0, p.y), y1 = std::max(y1, p.y);
  constexpr double share = 0.4;
  return {((x0 + x1) / 2 - w.x0) * times, (y0 + share * (y1 - y0) - w.y1) * times};
}

/// Edges of what is only seen, as far as they lie in the window, and a point of it that nothing that is cut covers.
struct Placed {
  std::vector<Line> edges;
  std::optional<Point> at;
};

Placed placed(const Seen& seen, const Frame& w, double times, const std::vector<Enlarged>& parts) {
  const Frame& f = seen.frame;
  const Point a{f.x0, f.y0}, b{f.x1, f.y0}, c{f.x1, f.y1}, d{f.x0, f.y1};
  Placed out;
  const auto grown = [&](Point p) { return Point{(p.x - w.x0) * times, (p.y - w.y1) * times}; };
  for (const Line& edge : clipped({{a, b, seen.kind}, {b, c, seen.kind}, {c, d, seen.kind}, {d, a, seen.kind}}, w))
    out.edges.push_back({grown(edge.from), grown(edge.to), seen.kind});
  const Frame in{std::max(f.x0, w.x0), std::max(f.y0, w.y0), std::min(f.x1, w.x1), std::min(f.y1, w.y1)};
  if (in.x0 >= in.x1 || in.y0 >= in.y1) return out;
  for (const double v : {0.5, 0.7, 0.3, 0.85, 0.15})
    for (const double u : {0.5, 0.3, 0.7, 0.15, 0.85}) {
      const Point at = grown({in.x0 + u * in.width(), in.y0 + v * in.height()});
      const bool covered = std::any_of(parts.begin(), parts.end(), [&](const Enlarged& part) {
        const auto cut = stretches_within(part.rings, at.y);
        return std::any_of(cut.begin(), cut.end(), [&](const auto& s) { return at.x > s.first && at.x < s.second; });
      });
      if (!covered && !out.at) out.at = at;
    }
  return out;
}

}  // namespace

void circle_detail(Sheet& sheet, Pen& pen, const Frame& window, int number) {
  const Point middle{(window.x0 + window.x1) / 2, (window.y0 + window.y1) / 2};
  const double radius = std::hypot(window.width(), window.height()) / 2;
  sheet.arcs.push_back({middle, radius, 0, 360, LineKind::phantom});
  pen.label({middle.x + 0.75 * radius + 0.4 * pen.text_mm(), middle.y + 0.75 * radius}, std::to_string(number));
}

namespace {

/// One detail as it is drawn larger: first all of it about its window's own corner, by which side its names stand on,
/// then at its place on the sheet.
class Enlargement {
 public:
  Enlargement(Sheet& sheet, Pen& pen, const Detail& detail, double own)
      : sheet_{sheet},
        pen_{pen},
        detail_{detail},
        w_{detail.window},
        own_{own},
        t_{pen.text_mm()},
        times_{t_ / letter / own} {}

  Point draw(const std::vector<CutSolid>& cut, Point place) {
    parts_ = enlarged(cut, w_, times_);
    for (const Ribbon& ribbon : detail_.ribbons)
      if (ribbon.stands) leave_blank(parts_, ribbon, w_, times_);
    name_parts();
    name_behind();
    name_ribbons();
    name_sizes();
    place_ = {place.x + room_, place.y};
    low_ = {place_.x, place_.y - w_.height() * times_}, high_ = {place_.x + w_.width() * times_, place_.y};
    put_lines();
    pen_.rectangle(low_, high_, LineKind::dimension);
    double sizes_foot = low_.y;
    if (detail_.rejected)
      pen_.strike(low_, high_, {(low_.x + high_.x) / 2, (low_.y + 3 * high_.y) / 4});
    else
      sizes_foot = add_sizes(pen_, detail_, {w_, low_, high_, times_});
    add_heights();
    const double foot = std::min({low_.y, ladder_foot_, sizes_foot,
                                  add_names(sheet_, pen_, std::move(left_), low_.x - 1.5 * t_, -1, high_.y),
                                  add_names(sheet_, pen_, std::move(right_), high_.x + 1.5 * t_, 1, high_.y)});
    const double title_end = add_title(foot);
    return {std::max({high_.x + beside_, ladder_end_, title_end}) + 3 * t_, foot - 3 * t_};
  }

 private:
  bool is_laddered() const { return !detail_.heights.empty(); }

  /// Names stand on the side that is nearer, so that lines run over little else; those at the left take room there.
  Named& name(const std::string& name, Point at, double off) {
    const bool nearer_left = is_laddered() || (!detail_.names_at_right && at.x < w_.width() * times_ - at.x - off);
    (nearer_left ? left_ : right_).push_back({name, at});
    double& side = nearer_left ? room_ : beside_;
    side = std::max(side, width_of(name, t_) + 2 * t_);
    return (nearer_left ? left_ : right_).back();
  }

  void name_parts() {
    for (const Enlarged& part : parts_) {
      // Mortar that bore and holdback leave a few millimetres of is no place: nobody spreads it by a name.
      const double least = part.cut.solid->role == Role::bed ? least_bed_mm * times_ : 0;
      const auto within = point_within(part.rings, least, 0.6 * t_);
      if (part.cut.name.empty()) continue;  // a line to it would run through something else
      if (part.cut.solid->cut && part.cut.solid->cut->steel) {
        const Line edge = longest_of(part.cut.seen.lines);
        Named& named = name(part.cut.name, middle_of(edge), t_);
        named.thin = true, named.level = std::abs(edge.to.y - edge.from.y) < std::abs(edge.to.x - edge.from.x);
      } else if (const auto at =
                     part.rings.empty() ? std::optional{middle_of(longest_of(part.cut.seen.lines))} : within)
        name(with_depth(part, *at), *at, t_);
    }
  }

  /// "bed, 1-1/4 here": of a bed, at the dot that its name leads to.
  std::string with_depth(const Enlarged& part, const Point& at) const {
    const std::string& name = part.cut.name;
    if (!detail_.bed_here || detail_.rejected || part.cut.solid->role != Role::bed) return name;
    const std::vector<double> heights = heights_at(part.cut.seen.lines, at.x);
    for (std::size_t i = 0; i + 1 < heights.size(); ++i)
      if (heights[i] >= at.y && heights[i + 1] <= at.y)
        return (name == "mortar bed" ? "bed" : name) + ", " + pen_.words((heights[i] - heights[i + 1]) / times_) +
               " here";
    return name;
  }

  void name_behind() {
    for (const Seen& seen : detail_.seen) {
      behind_.push_back(placed(seen, w_, times_, parts_));
      if (const auto& at = behind_.back().at; at && !seen.name.empty()) name(seen.name, *at, t_);
    }
  }

  void name_ribbons() {
    for (const Ribbon& ribbon : detail_.ribbons) {
      std::vector<Line> lines;
      for (std::size_t i = 0; i + 1 < ribbon.points.size(); ++i)
        lines.push_back({ribbon.points[i], ribbon.points[i + 1], ribbon.kind});
      lines = clipped(lines, w_);
      if (lines.empty()) continue;
      for (Line& line : lines)
        for (Point* p : {&line.from, &line.to}) *p = {(p->x - w_.x0) * times_, (p->y - w_.y1) * times_};
      name(ribbon.name, place_of_name(ribbon, lines.front(), w_, times_), 0);
      bands_.insert(bands_.end(), lines.begin(), lines.end());
    }
  }

  void name_sizes() {
    if (detail_.rejected) return;
    const auto grown = [&](double x, double y) { return Point{(x - w_.x0) * times_, (y - w_.y1) * times_}; };
    for (const Spot& spot : detail_.spots) name(spot.words, grown(spot.at.x, spot.at.y), t_).thin = true;
    for (const Rise& rise : detail_.rises)
      name(rise.words, grown(rise.line, (rise.from + rise.to) / 2), t_).bare = true;
  }

  Point put(Point p) const { return {p.x + place_.x, p.y + place_.y}; }

  void put_lines() {
    for (const Placed& part : behind_)
      for (const Line& edge : part.edges) pen_.line(put(edge.from), put(edge.to), edge.kind);
    for (Enlarged& part : parts_) {
      part.move(place_);
      add_cut(sheet_, pen_, part.cut, part.rings);
    }
    for (const Line& band : bands_) pen_.line(put(band.from), put(band.to), band.kind);
    for (auto* names : {&left_, &right_})
      for (Named& n : *names) n.at = put(n.at);
  }

  void add_heights() {
    ladder_foot_ = low_.y, ladder_end_ = high_.x;
    if (!is_laddered()) return;
    std::vector<Level> levels = detail_.heights;
    for (Level& level : levels) level.z = place_.y + (level.z - w_.y1) * times_;
    const std::size_t first = sheet_.texts.size();
    pen_.ladder(high_.x + t_, std::move(levels));
    for (std::size_t i = first; i < sheet_.texts.size(); ++i) {
      const Box box = box_of(sheet_.texts[i]);
      ladder_foot_ = std::min(ladder_foot_, box.y0), ladder_end_ = std::max(ladder_end_, box.x1);
    }
  }

  /// Below all of it, and its number where it is taken from. @return where the title ends.
  double add_title(double foot) {
    std::string title = detail_.title;
    title.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(title.front())));
    const std::string words = std::to_string(detail_.number) + "  " + title + ", " + scale_text(own_, sheet_.metric);
    pen_.note({low_.x, foot - 2.2 * t_}, words);
    if (detail_.marked) circle_detail(sheet_, pen_, w_, detail_.number);
    return low_.x + width_of(words, t_);
  }

  Sheet& sheet_;
  Pen& pen_;
  const Detail& detail_;
  const Frame& w_;
  double own_, t_, times_, room_ = 0, beside_ = 0, ladder_foot_ = 0, ladder_end_ = 0;
  std::vector<Enlarged> parts_;
  std::vector<Placed> behind_;
  std::vector<Line> bands_;  ///< of the ribbons
  std::vector<Named> left_, right_;
  Point place_, low_, high_;
};

}  // namespace

Point add_detail(Sheet& sheet, Pen& pen, const std::vector<CutSolid>& cut, const Detail& detail, double own,
                 Point place) {
  return Enlargement{sheet, pen, detail, own}.draw(cut, place);
}

}  // namespace fallwright::drawing
