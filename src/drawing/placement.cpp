#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "drawing/clear.hpp"
#include "drawing/pen.hpp"

namespace fallwright::drawing {
namespace {

/// Dashed lines, fillings and strokes over what is void may stop before a text and go on behind it; edges and
/// dimensions may not.
bool may_stop(LineKind kind) {
  return kind == LineKind::hidden || kind == LineKind::centre || kind == LineKind::phantom || kind == LineKind::limit ||
         kind == LineKind::hatch || kind == LineKind::rejected;
}

/// Air about a text, in heights of its capitals: the mask of the paper is as wide.
constexpr double air = 0.2;

/// Where a label may stand, nearest to its own place first: above, below, beside, then further out.
std::vector<Point> places_about(const Text& text) {
  const double w = width_of(text.words, text.height), h = text.height;
  std::vector<Point> shifts{{0, 0}, {0, 0.3 * h}, {0, -0.3 * h}, {0, 0.6 * h}, {0, -0.6 * h}};
  for (const double far : {0.3, 0.6, 1.0, 1.6, 2.4, 3.4, 5.0, 7.0})
    for (const Point& way : {Point{0, 1.3},
                             {0, -1.9},
                             {0.55, 0},
                             {-0.55, 0},
                             {0.55, 1.3},
                             {-0.55, 1.3},
                             {0.55, -1.9},
                             {-0.55, -1.9},
                             {0.25, 1.3},
                             {-0.25, 1.3},
                             {0.25, -1.9},
                             {-0.25, -1.9}})
      shifts.push_back({way.x * (w + h) * far, way.y * h * far});
  for (Point& shift : shifts) shift = {text.at.x + shift.x, text.at.y + shift.y};
  return shifts;
}

double distance(Point a, Point b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// From a text's edge to what it names, past the air about it; nothing where that is near enough to need no line, which
/// what stands `outside` of it needs from nearer.
std::optional<Line> lead(const Text& text, Point thing, bool outside) {
  const Box b = box_of(text);
  const double gap = 0.3 * text.height, near = (outside ? 0.6 : 1.8) * text.height;
  const Point edge{std::clamp(thing.x, b.x0 - gap, b.x1 + gap), (b.y0 + b.y1) / 2};
  const Point foot{std::clamp(thing.x, b.x0, b.x1), std::clamp(thing.y, b.y0 - gap, b.y1 + gap)};
  // One that stands upright is left by its end, or straight across: aslant the line would run along it.
  const Point end{(b.x0 + b.x1) / 2, foot.y}, across{edge.x, std::clamp(thing.y, b.y0, b.y1)};
  const bool beside = thing.x < b.x0 - gap || thing.x > b.x1 + gap, past = thing.y < b.y0 || thing.y > b.y1;
  const Point from = text.rotation_deg == 90 ? (past ? end : across) : beside ? edge : foot;
  if (distance(foot, thing) < near) return std::nullopt;
  return Line{from, thing, LineKind::dimension};
}

/// Whether two texts stand behind each other so near on one line that they are read as one; a letter alone is a mark,
/// which is read as the end of words that it touches, as words aslant are. One that stands upright, with few words for
/// want of room, is read as the end of any words near it.
bool reads_on(const Text& a, const Text& b) {
  const auto alone = [](const Text& text) { return text.rotation_deg == 90 && text.words.size() < 3; };
  const auto aslant = [](const Text& text) { return std::fmod(text.rotation_deg, 90) != 0; };
  if (alone(a) != alone(b)) return meet(a, b, 1.2 * a.height);
  if (aslant(a) != aslant(b) || (a.words.size() < 3) != (b.words.size() < 3))
    return meet(a, b, 0.6 * std::min(a.height, b.height));
  if (a.rotation_deg != 0 || b.rotation_deg != 0 || a.words.size() < 3 || b.words.size() < 3) return false;
  const Box p = box_of(a), q = box_of(b);
  const double apart = std::max(q.x0 - p.x1, p.x0 - q.x1);
  return std::abs(a.at.y - b.at.y) < 1.3 * a.height && apart > 0 && apart < 1.2 * a.height;
}

}  // namespace

/// What stands on the sheet, for labels to give way to.
class Pen::Ground {
 public:
  Ground(const Sheet& sheet, const std::vector<Box>& kept_clear) : strokes_{sheet.lines}, kept_clear_{kept_clear} {
    for (const Arc& arc : sheet.arcs)
      for (const Line& chord : chords_of(arc)) strokes_.push_back(chord);
  }
  void add(const Text& text) { texts_.push_back(Standing{text}); }
  void add(const Line& line) { strokes_.push_back(line); }
  /// A movable text where it was settled, with the line that leads from it.
  void add(const Text& text, const std::optional<Line>& lead) { settled_.push_back({Standing{text}, lead}); }
  /// The same of the one settled in that turn, anew.
  void replace(std::size_t turn, const Text& text, const std::optional<Line>& lead) {
    settled_[turn] = {Standing{text}, lead};
  }

  /// What comes near a text wherever it may be moved to; but not what was settled in the turn that is its own.
  Ground about(const Text& text, double reach, std::size_t own_turn) const {
    Ground near;
    near.kept_clear_ = kept_clear_;
    const Standing own{text};
    const auto add_near = [&](const Standing& other) {
      if (meet(grown(other.box, reach), own.box)) near.texts_.push_back(other);
    };
    const auto add_line = [&](const Line& line) {
      if (crosses(line, own.lying, reach)) near.strokes_.push_back(line);
    };
    for (const Standing& other : texts_) add_near(other);
    for (const Line& line : strokes_) add_line(line);
    for (std::size_t i = 0; i < settled_.size(); ++i) {
      if (i == own_turn) continue;
      add_near(settled_[i].first);
      if (settled_[i].second) add_line(*settled_[i].second);
    }
    return near;
  }

  static constexpr double little_air = 8;      ///< what an edge costs that stands so near on either side
  static constexpr double over_an_edge = 100;  ///< what that costs; over another text it costs more

  /// What standing there costs, no further than `enough`: over a text more than over any lines. `in_clear`: it may
  /// where others do not.
  double cost(const Text& text, double enough, bool in_clear) const {
    const double near = air * text.height;
    const Standing own{text};
    double sum = 0;
    for (const Box& box : kept_clear_) sum += !in_clear && drawing::meet(own.box, box) ? 10 : 0;
    for (const Standing& other : texts_)
      sum += drawing::meet(own.lying, other.lying)         ? 1000
             : drawing::meet(own.lying, other.lying, near) ? 30
             : reads_on(text, other.text)                  ? 5
                                                           : 0;
    for (const Line& line : strokes_) {
      if (sum >= enough) break;
      if (!crosses(line, own.lying, near)) continue;
      if (crosses(line, own.lying))
        sum += !may_stop(line.kind) ? over_an_edge : line.kind == LineKind::hatch ? 2 : 12;
      else if (line.kind != LineKind::hatch)
        sum += may_stop(line.kind) ? 1.5 : 4;
    }
    return sum;
  }

  double cost_of_line(const Line& line) const {
    double sum = 0;
    // In the white about a text it would be broken off as well.
    for (const Standing& other : texts_) sum += crosses(line, other.lying, air * other.text.height) ? 200 : 0;
    // Across an arrow, a dimension or another's line it would be taken for one of theirs.
    for (const Line& other : strokes_)
      if (drawing::cross(line, other))
        sum += other.kind == LineKind::dimension ? 6 : other.kind == LineKind::outline ? 1 : 0;
    return sum;
  }

 private:
  Ground() = default;
  static Box grown(const Box& b, double by) { return {b.x0 - by, b.y0 - by, b.x1 + by, b.y1 + by}; }

  /// A text, and where it stands.
  struct Standing {
    Text text;
    Lying lying;
    Box box;
    explicit Standing(const Text& t) : text{t}, lying{t}, box{box_of(t)} {}
  };

  std::vector<Standing> texts_;
  std::vector<Line> strokes_;
  std::vector<std::pair<Standing, std::optional<Line>>> settled_;
  std::vector<Box> kept_clear_;
};

namespace {

/// Lines that may stop do so before every text they would run under; what counts lines by their place goes along.
void interrupt_lines(Sheet& sheet) {
  const std::vector<Lying> texts(sheet.texts.begin(), sheet.texts.end());
  const auto pieces_of = [&](const Line& line) {
    std::vector<Line> pieces{line};
    if (!may_stop(line.kind)) return pieces;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const double margin = air * sheet.texts[i].height;
      if (!crosses(line, texts[i], margin)) continue;  // most do not
      std::vector<Line> left;
      for (const Line& piece : pieces)
        for (const Line& rest : without_text(piece, texts[i], margin)) left.push_back(rest);
      pieces = std::move(left);
    }
    return pieces;
  };
  std::vector<Line> lines;
  std::vector<std::size_t> now;  // where each line's pieces begin
  for (const Line& line : sheet.lines) {
    now.push_back(lines.size());
    for (const Line& piece : pieces_of(line)) lines.push_back(piece);
  }
  now.push_back(lines.size());
  sheet.lines = std::move(lines);
  for (Hatch& hatch : sheet.hatches) hatch.first_line = now[hatch.first_line], hatch.last_line = now[hatch.last_line];
  for (Dimension& dimension : sheet.dimensions)
    if (dimension.picture)
      dimension.picture->first_line = now[dimension.picture->first_line],
      dimension.picture->last_line = now[dimension.picture->last_line];
}

/// The same for arcs, to the degree.
void interrupt_arcs(Sheet& sheet) {
  std::vector<Arc> arcs;
  for (const Arc& arc : sheet.arcs) {
    const auto under_text = [&](double from, double to) {
      const Arc part{arc.centre, arc.radius, from, to, arc.kind};
      return std::any_of(sheet.texts.begin(), sheet.texts.end(),
                         [&](const Text& text) { return crosses(part, text, air * text.height); });
    };
    if (!may_stop(arc.kind) || !under_text(arc.from_deg, arc.to_deg)) {
      arcs.push_back(arc);
      continue;
    }
    bool open = false;
    for (double from = arc.from_deg; from < arc.to_deg; from += 1) {
      const double to = std::min(from + 1, arc.to_deg);
      const bool stops = under_text(from, to);
      if (!stops && open)
        arcs.back().to_deg = to;
      else if (!stops)
        arcs.push_back({arc.centre, arc.radius, from, to, arc.kind});
      open = !stops;
    }
  }
  sheet.arcs = std::move(arcs);
}

}  // namespace

std::optional<Line> Pen::lead_of(const Movable& m, const Text& text) {
  return m.thing ? lead(text, *m.thing, m.outside) : std::nullopt;
}

/// What it costs where it stands, beside what it costs to be away from its own place.
double Pen::cost_where_it_is(const Movable& m, const Ground& ground, const Text& text, std::size_t turn) {
  const auto line = lead_of(m, text);
  const double reach = line ? distance(text.at, line->to) : 0;
  const Ground near = ground.about(text, reach + text.height, turn);
  const double cost = near.cost(text, std::numeric_limits<double>::max(), m.in_clear);
  return line ? cost + near.cost_of_line(*line) : cost;
}

/// Moves a text to its cheapest place, and says what that costs.
double Pen::settle(const Movable& m, const Ground& ground, Text& text, std::size_t turn) {
  const Point own = text.at;
  std::vector<Point> places = m.places.empty() ? places_about(text) : m.places;
  const std::size_t given = m.places.size();
  if (m.past_places) {
    const std::vector<Point> more = places_about(text);
    places.insert(places.end(), more.begin(), more.end());
  }
  double reach = 0;
  for (const Point& place : places) reach = std::max(reach, distance(place, own));
  const Ground near = ground.about(text, reach + text.height, turn);
  Point best = own;
  double least = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < places.size(); ++i) {
    text.at = places[i];
    double cost = i < given ? 0.1 * static_cast<double>(i) : distance(text.at, own) / text.height;
    if (m.last_at_need && i + 1 == given) cost += Ground::little_air;
    if (cost >= least) continue;
    cost += near.cost(text, least, m.in_clear);
    if (const auto line = lead_of(m, text))
      cost += 3 + near.cost_of_line(*line);
    else if (m.led)
      cost += 40;
    if (cost < least) least = cost, best = text.at;
  }
  text.at = best;
  return least;
}

/// Words that stood upright stood so for want of room: fewer of them do as well.
void Pen::fall_back_to_brief(Movable& m, Text& text) const {
  const Point thing = m.thing_of_brief;
  if (text.rotation_deg == 90)
    text = {{thing.x + 0.4 * text_ + text.height, thing.y}, text.height, m.brief, 90, Anchor::middle};
  else
    text = {{thing.x + text_, thing.y}, text.height, m.brief};
  m.thing = thing;
  m.places.clear();
}

/// A movable text takes its place; one that has fewer words to fall back on never stands over a text or an edge.
double Pen::settle_or_fall_back(Movable& m, const Ground& ground, std::size_t turn) {
  Text& text = sheet_.texts[m.text];
  const double cost = settle(m, ground, text, turn);
  if (cost < Ground::over_an_edge || m.brief.empty()) return cost;
  fall_back_to_brief(m, text);
  m.brief.clear();
  return settle(m, ground, text, turn);
}

/// Who chose early did not know what would be drawn to later ones: whose words now stand on an edge or a leader, or
/// whose line runs through words, chooses once more.
void Pen::settle_anew(Ground& ground) {
  constexpr int rounds = 3;  // who moves may stand in another's way, which then has its turn
  for (int round = 0; round < rounds; ++round) {
    bool moved = false;
    for (std::size_t turn = 0; turn < movable_.size(); ++turn) {
      Movable& m = movable_[turn];
      Text& text = sheet_.texts[m.text];
      const double now = cost_where_it_is(m, ground, text, turn);
      if (now < Ground::over_an_edge) continue;
      const Text before = text;
      const Movable as_it_was = m;
      if (settle_or_fall_back(m, ground, turn) >= now) {
        text = before, m = as_it_was;
        continue;
      }
      ground.replace(turn, text, lead_of(m, text));
      moved = true;
    }
    if (!moved) return;
  }
}

/// Each label takes the cheapest place about its own: never over a text if any place is free, over a line only where it
/// must be, and no further away than that takes.
void Pen::part_texts() {
  std::vector<bool> free(sheet_.texts.size(), false);
  for (const Movable& m : movable_) free[m.text] = true;
  Ground ground{sheet_, kept_clear_};
  for (std::size_t i = 0; i < sheet_.texts.size(); ++i)
    if (!free[i]) ground.add(sheet_.texts[i]);
  // Those with few places to choose from choose first.
  std::stable_partition(movable_.begin(), movable_.end(),
                        [](const Movable& m) { return !m.places.empty() && !m.in_turn; });
  for (std::size_t turn = 0; turn < movable_.size(); ++turn) {
    Movable& m = movable_[turn];
    settle_or_fall_back(m, ground, turn);
    ground.add(sheet_.texts[m.text], lead_of(m, sheet_.texts[m.text]));
  }
  settle_anew(ground);
  for (const Movable& m : movable_)
    if (const auto line = lead_of(m, sheet_.texts[m.text])) {
      sheet_.lines.push_back(*line);
      sheet_.arcs.push_back({line->to, 0.2 * text_, 0, 360, LineKind::dimension});
    }
  movable_.clear();
  interrupt_lines(sheet_);
  interrupt_arcs(sheet_);
}

}  // namespace fallwright::drawing
