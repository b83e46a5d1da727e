#include "drawing/pen.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::drawing {
namespace {

constexpr double level = 0, upended = 90;  ///< the way a dimension's line runs, in degrees

}  // namespace

void Pen::add(const Projection& projection, Point shift) {
  for (Line line : projection.lines) {
    line.from = {line.from.x + shift.x, line.from.y + shift.y};
    line.to = {line.to.x + shift.x, line.to.y + shift.y};
    sheet_.lines.push_back(line);
  }
  for (Arc arc : projection.arcs) {
    arc.centre = {arc.centre.x + shift.x, arc.centre.y + shift.y};
    sheet_.arcs.push_back(arc);
  }
}

void Pen::line(Point from, Point to, LineKind kind) {
  sheet_.lines.push_back({from, to, kind});
}

void Pen::rectangle(Point low, Point high, LineKind kind) {
  line(low, {high.x, low.y}, kind);
  line({high.x, low.y}, high, kind);
  line(high, {low.x, high.y}, kind);
  line({low.x, high.y}, low, kind);
}

void Pen::note(Point at, const std::string& words, Anchor anchor, double size, double rotation_deg) {
  constexpr double least = 2.5 / 3;  // of capitals on paper, against those of dimensions
  sheet_.texts.push_back({at, text_ * std::max(size, least), words, rotation_deg, anchor});
}

void Pen::label(Point at, const std::string& words, Anchor anchor, double size) {
  movable_.push_back({sheet_.texts.size()});
  note(at, words, anchor, size);
}

void Pen::name(Point thing, Point at, const std::string& words, Anchor anchor, double size) {
  movable_.push_back({sheet_.texts.size(), thing});
  note(at, words, anchor, size);
}

void Pen::name_outside(Point thing, Point at, const std::string& words, Anchor anchor, double size) {
  movable_.push_back({sheet_.texts.size(), thing, {}, false, true});
  note(at, words, anchor, size);
}

void Pen::name_led(Point thing, Point at, const std::string& words, Anchor anchor, double size) {
  name_outside(thing, at, words, anchor, size);
  movable_.back().led = true;
}

void Pen::note_at_one_of(std::vector<Point> places, const std::string& words, Anchor anchor, double size,
                         double rotation_deg) {
  const Point first = places.front();
  movable_.push_back({sheet_.texts.size(), std::nullopt, std::move(places)});
  note(first, words, anchor, size, rotation_deg);
}

void Pen::label_at_one_of(std::vector<Point> places, const std::string& words, Anchor anchor, double size,
                          double rotation_deg) {
  note_at_one_of(std::move(places), words, anchor, size, rotation_deg);
  movable_.back().in_turn = true;
}

void Pen::or_about_it() {
  movable_.back().past_places = true;
}

void Pen::nowhere_else() {
  movable_.back().past_places = false;
}

void Pen::otherwise(const std::string& brief, Point thing) {
  movable_.back().brief = brief;
  movable_.back().thing_of_brief = thing;
}

void Pen::name_at_one_of(Point thing, std::vector<Point> places, const std::string& words, Anchor anchor, double size,
                         double rotation_deg) {
  const Point first = places.front();
  movable_.push_back({sheet_.texts.size(), thing, std::move(places), true});
  note(first, words, anchor, size, rotation_deg);
}

void Pen::note_along(Point from, Point to, const std::vector<double>& shares, const std::string& words, double size) {
  if (from.x > to.x) std::swap(from, to);  // to be read from below
  const double angle = std::atan2(to.y - from.y, to.x - from.x), off = 0.4 * text_;
  std::vector<Point> places;
  for (const double share : shares)
    for (const double side : {off, -off - text_ * size})
      places.push_back({from.x + share * (to.x - from.x) - side * std::sin(angle),
                        from.y + share * (to.y - from.y) + side * std::cos(angle)});
  note_at_one_of(std::move(places), words, Anchor::middle, size, angle * 180 / M_PI);
}

void Pen::tag(const std::string& mark, const std::string& stock, const std::string& length) {
  sheet_.members.push_back({sheet_.texts.size() - 1, mark, stock, length});
}

void Pen::arrow(Point from, Point to, LineKind kind) {
  line(from, to, kind);
  const double angle = std::atan2(to.y - from.y, to.x - from.x), barb = text_ * 0.7;
  for (const double side : {0.85, -0.85})
    line(to, {to.x - barb * std::cos(angle + side / 2), to.y - barb * std::sin(angle + side / 2)}, kind);
}

void Pen::cross(Point at, double half) {
  line({at.x - half, at.y}, {at.x + half, at.y}, LineKind::centre);
  line({at.x, at.y - half}, {at.x, at.y + half}, LineKind::centre);
}

void Pen::cross_in_sight(Point at, double half) {
  constexpr double quarter = M_PI / 2, eighth = M_PI / 4;
  std::vector<double> ways;  // of the lines there, within a quarter turn: each arm stands for all four
  for (const Line& other : sheet_.lines) {
    const double dx = other.to.x - other.from.x, dy = other.to.y - other.from.y, length = std::hypot(dx, dy);
    if (length == 0) continue;
    const double along = ((at.x - other.from.x) * dx + (at.y - other.from.y) * dy) / length,
                 off = std::abs((at.x - other.from.x) * dy - (at.y - other.from.y) * dx) / length;
    if (off < half / 2 && along > -half / 2 && along < length + half / 2)
      ways.push_back(std::fmod(std::atan2(dy, dx) + 2 * M_PI, quarter));
  }
  double best = eighth, widest = -1;
  for (const double turn : {eighth, eighth / 2, 3 * eighth / 2}) {
    double between = eighth;
    for (const double way : ways) {
      const double apart = std::abs(way - turn);
      between = std::min({between, apart, quarter - apart});
    }
    if (between > widest + 0.2) best = turn, widest = between;  // another turn for more than a hair
  }
  const double c = half * std::cos(best), s = half * std::sin(best);
  line({at.x - c, at.y - s}, {at.x + c, at.y + s}, LineKind::centre);
  line({at.x + s, at.y - c}, {at.x - s, at.y + c}, LineKind::centre);
}

void Pen::cross_out(Point low, Point high) {
  // One cross, or several side by side in a field so flat that one would be read as edges.
  const double wide = high.x - low.x, aspect = wide / std::max(high.y - low.y, 1e-9);
  const int crosses = aspect < 5 ? 1 : std::min(5, static_cast<int>(std::lround(aspect / 3)));
  for (int i = 0; i < crosses; ++i) {
    const double from = low.x + wide * i / crosses, to = low.x + wide * (i + 1) / crosses;
    line({from, low.y}, {to, high.y}, LineKind::rejected);
    line({from, high.y}, {to, low.y}, LineKind::rejected);
  }
}

void Pen::strike(Point low, Point high, Point words_at, double size) {
  cross_out(low, high);
  label(words_at, "VOID", Anchor::middle, size);
}

std::string number_of(double length_mm, bool metric) {
  std::string text = units::to_text(units::Length::mm(length_mm), metric);
  const std::string_view unit = metric ? " mm" : "\"";
  if (text.ends_with(unit)) text.erase(text.size() - unit.size());
  return text;
}

std::string Pen::words(double length_mm) const {
  return number_of(length_mm, sheet_.metric);
}

std::string Pen::height(double above_datum_mm) const {
  const std::string number = words(above_datum_mm);
  return number.starts_with("-") ? number.substr(1) + " below the datum" : number;
}

std::string Pen::said(double length_mm) const {
  return units::to_text(units::Length::mm(length_mm), sheet_.metric);
}

void Pen::tick(Point at) {
  const double half = text_ * 0.35;
  line({at.x - half, at.y - half}, {at.x + half, at.y + half}, LineKind::dimension);
}

/// From near the thing to just past the dimension line.
void Pen::witness(Point from, Point to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (length < text_) return;
  const double ux = (to.x - from.x) / length, uy = (to.y - from.y) / length, gap = text_ * 0.4;
  line({from.x + ux * gap, from.y + uy * gap}, {to.x + ux * gap, to.y + uy * gap}, LineKind::dimension);
}

void Pen::dimension_line(double x0, double x1, double y) {
  line({x0, y}, {x1, y}, LineKind::dimension);
  tick({x0, y});
  tick({x1, y});
}

void Pen::words_over(double x0, double x1, double y, const std::string& words, bool first, bool last) {
  const double width = width_of(words, text_), room = x1 - x0 - width - 0.8 * text_, middle = (x0 + x1) / 2,
               foot = y + 0.35 * text_, past = width / 2 + 0.8 * text_;
  std::vector<Point> places;
  if (room >= 0)
    for (const double share : {0.0, -0.2, 0.2, -0.35, 0.35, -0.5, 0.5}) places.push_back({middle + share * room, foot});
  const bool wide = room > 2 * width;  // outside of a stretch with so much room it would be read as its neighbour's
  if (last && !wide) places.insert(places.end(), {{x1 + past, foot}, {x1 + past, y - 0.5 * text_}});
  if (first && !wide) places.insert(places.end(), {{x0 - past, foot}, {x0 - past, y - 0.5 * text_}});
  for (const double up : {0.0, 0.5, 1.3, 2.6, -2.0}) places.push_back({middle, foot + up * text_});
  note_at_one_of(std::move(places), words, Anchor::middle);
}

void Pen::upright_line(double y0, double y1, double x) {
  line({x, y0}, {x, y1}, LineKind::dimension);
  tick({x, y0});
  tick({x, y1});
}

void Pen::state(Dimension dimension, Point line_at, double turn_deg, const std::function<void()>& draw) {
  const std::size_t first = sheet_.lines.size();
  draw();
  dimension.picture = {first, sheet_.lines.size(), sheet_.texts.size() - 1, line_at, turn_deg};
  sheet_.dimensions.push_back(std::move(dimension));
}

void Pen::across(Point from, Point to, double y, bool assumed) {
  const bool leftward = from.x > to.x;
  if (leftward) std::swap(from, to);
  const std::string length = words(to.x - from.x), text = assumed ? "(" + length + ")" : length;
  Dimension dimension{from, to, text, to.x - from.x, 0};
  dimension.assumed = assumed;
  state(std::move(dimension), {to.x, y}, level, [&] {
    witness(from, {from.x, y});
    witness(to, {to.x, y});
    dimension_line(from.x, to.x, y);
    words_over(from.x, to.x, y, text, true, !leftward);
  });
}

void Pen::upright(Point from, Point to, double x) {
  if (from.y > to.y) std::swap(from, to);
  const Point a{x, from.y}, b{x, to.y};
  const bool to_the_right = x > from.x;
  const std::string text = words(to.y - from.y);
  state({from, to, text, to.y - from.y, 0}, b, upended, [&] {
    witness(from, a);
    witness(to, b);
    upright_line(a.y, b.y, x);
    label({x + (to_the_right ? 0.6 : -0.6) * text_, (a.y + b.y - text_) / 2}, text,
          to_the_right ? Anchor::left : Anchor::right);
  });
}

void Pen::chain(std::vector<double> xs, double y_thing, double y_row, const Stretches& spare, bool with_whole,
                std::optional<double> whole_told) {
  std::sort(xs.begin(), xs.end());
  const bool several = xs.size() > 2, adds_up = with_whole && several;  // what stands alone need not
  const Rounded printed = rounded_to_add_up(xs, several ? spare : Stretches{}, sheet_.metric, whole_told);
  const int number = ++chains_;
  for (std::size_t i = 0; i < printed.parts.size(); ++i) {
    const double from = xs[i], to = xs[i + 1];
    const std::string text = words(printed.parts[i]);
    state({{from, y_thing}, {to, y_thing}, text, to - from, number}, {to, y_row}, level, [&] {
      if (i == 0) witness({from, y_thing}, {from, y_row});
      witness({to, y_thing}, {to, y_row});
      dimension_line(from, to, y_row);
      words_over(from, to, y_row, text, i == 0, i + 1 == printed.parts.size());
    });
  }
  if (!adds_up) return;
  const double below = y_row - 3.2 * text_, from = xs.front(), to = xs.back();
  const std::string whole = words(printed.whole);
  state({{from, y_thing}, {to, y_thing}, whole, to - from, -number}, {to, below}, level, [&] {
    for (const double x : {from, to}) witness({x, y_row}, {x, below});
    dimension_line(from, to, below);
    words_over(from, to, below, whole, true, true);
  });
}

void Pen::upright_chain(std::vector<double> ys, double x_thing, double x_column, const Stretches& spare, double side,
                        std::optional<double> whole) {
  std::sort(ys.begin(), ys.end());
  const Rounded printed = rounded_to_add_up(ys, spare, sheet_.metric, whole);
  const int number = ++chains_;
  const auto say = [&](double y0, double y1, double x, const std::string& text, int chain) {
    // What is too short for its number has it beyond the chain's end: over or under another, "4" and "1/4" are 4-1/4.
    const bool is_short = y1 - y0 < 2.5 * text_ && chain > 0 && printed.parts.size() > 1;
    const double y = is_short && y0 == ys.front()  ? y0 - 1.6 * text_
                     : is_short && y1 == ys.back() ? y1 + 0.6 * text_
                                                   : (y0 + y1 - text_) / 2;
    state({{x_thing, y0}, {x_thing, y1}, text, y1 - y0, chain}, {x, y1}, upended, [&] {
      upright_line(y0, y1, x);
      label({x + side * 0.6 * text_, y}, text, side > 0 ? Anchor::left : Anchor::right);
    });
  };
  for (const double y : ys) witness({x_thing, y}, {x_column, y});
  for (std::size_t i = 0; i < printed.parts.size(); ++i)
    say(ys[i], ys[i + 1], x_column, words(printed.parts[i]), number);
  if (printed.parts.size() < 2) return;
  const double further = x_column + side * 7 * text_;
  for (const double y : {ys.front(), ys.back()}) witness({x_column, y}, {further, y});
  say(ys.front(), ys.back(), further, words(printed.whole), -number);
}

namespace {

/// Places in order, moved as little as keeps each at least a step from the next: those that crowd stand evenly about
/// their middle.
std::vector<double> spread_out(const std::vector<double>& places, double step) {
  struct Crowd {
    double middle;
    std::size_t count;
    double half(double by) const { return by * static_cast<double>(count - 1) / 2; }
  };
  std::vector<Crowd> crowds;
  for (const double place : places) {
    crowds.push_back({place, 1});
    while (crowds.size() > 1) {
      const Crowd &last = crowds.back(), &before = crowds[crowds.size() - 2];
      if (last.middle - last.half(step) - before.middle - before.half(step) >= step) break;
      const double both = static_cast<double>(last.count + before.count);
      const Crowd joined{
          (last.middle * static_cast<double>(last.count) + before.middle * static_cast<double>(before.count)) / both,
          last.count + before.count};
      crowds.pop_back();
      crowds.back() = joined;
    }
  }
  std::vector<double> spread;
  for (const Crowd& crowd : crowds)
    for (std::size_t i = 0; i < crowd.count; ++i)
      spread.push_back(crowd.middle - crowd.half(step) + step * static_cast<double>(i));
  return spread;
}

}  // namespace

void Pen::running(const std::vector<double>& places, Point start, Point step, Point outward, Hook hook, bool assumed) {
  const auto at = [&](double place, double out) {
    return Point{start.x + place * step.x + out * outward.x, start.y + place * step.y + out * outward.y};
  };
  if (places.empty()) return;
  const double row = 1.2 * text_, sign = 0.45 * text_;
  line(at(0, row), at(*std::max_element(places.begin(), places.end()), row), LineKind::dimension);
  sheet_.arcs.push_back({at(0, row), sign, 0, 360, LineKind::dimension});
  if (hook == Hook::at_o) {
    const Point beside = at(-1.3 * text_, row);
    label({beside.x, beside.y - 0.4 * text_}, "O", Anchor::middle, 0.85);
  }
  const bool upright_run = std::abs(step.y) > std::abs(step.x);
  const std::vector<double> apart = spread_out(places, 1.5 * text_);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double place = places[i], stands = apart[i];
    const std::string told = assumed ? "(" + words(place) + ")" : words(place);
    // Numbers stand across the run, all in one row; from a tick whose number had to make room a line leads there.
    const bool aside = std::abs(stands - place) > 0.1 * text_;
    const Point p = at(stands, row + (aside ? 1.6 : 0.8) * text_);
    Dimension dimension{at(0, 0), at(place, 0), told, place, 0};
    dimension.running = true, dimension.assumed = assumed;
    state(std::move(dimension), at(place, row), upright_run ? upended : level, [&] {
      tick(at(place, row));
      line(at(place, 0.2 * text_), at(place, row + 0.4 * text_), LineKind::dimension);
      if (aside) line(at(place, row + 0.4 * text_), at(stands, row + 1.4 * text_), LineKind::dimension);
      if (upright_run)
        note({p.x, p.y - text_ * 0.4}, told, outward.x < 0 ? Anchor::right : Anchor::left, 0.85);
      else
        note({p.x + text_ * 0.4, p.y}, told, outward.y < 0 ? Anchor::right : Anchor::left, 0.85, 90);
    });
  }
}

void Pen::ladder(double x, std::vector<Level> levels) {
  std::sort(levels.begin(), levels.end(), [](const Level& a, const Level& b) { return a.z < b.z; });
  const double step = 1.5 * text_;
  std::vector<double> ys;
  for (const Level& level : levels) ys.push_back(ys.empty() ? level.z : std::max(level.z, ys.back() + step));
  if (levels.empty()) return;
  // Shared out: what was pushed up at the top is let down as far as the order allows.
  const double pushed = ys.back() - levels.back().z;
  for (double& y : ys) y -= pushed / 2;
  const double half = 0.35 * text_, high = 0.7 * text_;  // of the datum's sign, a triangle that stands on its level
  const auto is_datum = [](const Level& level) {
    return level.words.find("datum") != std::string::npos && std::abs(level.z) <= 1e-9;
  };
  // It stands left of the ladder where another's line is near above: that then begins so far off what is drawn.
  const auto datum = std::find_if(levels.begin(), levels.end(), is_datum);
  const bool close = datum != levels.end() && datum + 1 != levels.end() && (datum + 1)->z - datum->z < 1.2 * high;
  if (close) x += 1.2 * text_;
  // Lines that have far to climb take more room to do so: where they stand steep they run into one.
  double climb = 0;
  for (std::size_t i = 0; i < levels.size(); ++i)
    if (levels[i].drawn) climb = std::max(climb, std::abs(ys[i] - levels[i].z));
  const double bend = x + std::clamp(0.8 * text_ + 0.7 * climb, 2 * text_, 4 * text_);
  for (std::size_t i = 0; i < levels.size(); ++i) {
    if (levels[i].drawn) {
      line({x, levels[i].z}, {x + text_ * 0.8, levels[i].z}, LineKind::dimension);
      line({x + text_ * 0.8, levels[i].z}, {bend, ys[i]}, LineKind::dimension);
    }
    note({bend + text_ * 0.4, ys[i] - text_ * 0.4}, levels[i].words + (levels[i].drawn ? "" : ", past the picture"),
         Anchor::left, 0.9);
    if (!is_datum(levels[i])) continue;
    const double z = levels[i].z, foot = close ? x - 0.5 * text_ : x + 0.4 * text_;
    if (close) line({x - 1.2 * text_, z}, {x, z}, LineKind::dimension);
    line({foot, z}, {foot - half, z + high}, LineKind::dimension);
    line({foot, z}, {foot + half, z + high}, LineKind::dimension);
    line({foot - half, z + high}, {foot + half, z + high}, LineKind::dimension);
  }
}

Rounded rounded_to_add_up(const std::vector<double>& places_mm, const Stretches& spare, bool metric,
                          std::optional<double> whole) {
  const auto round = [&](double mm) { return units::round_to_tape(units::Length::mm(mm), metric).in_mm(); };
  Rounded printed;
  if (places_mm.size() < 2) return printed;
  for (std::size_t i = 0; i + 1 < places_mm.size(); ++i)
    printed.parts.push_back(round(places_mm[i + 1] - places_mm[i]));
  const double sum = std::accumulate(printed.parts.begin(), printed.parts.end(), 0.0);
  printed.whole = whole.value_or(round(places_mm.back() - places_mm.front()));
  if (whole && printed.parts.size() == 1) printed.parts = {*whole};
  std::vector<std::size_t> takers;
  for (const auto& [from, to] : spare)
    for (std::size_t i = 0; i < printed.parts.size(); ++i) {
      const double middle = (places_mm[i] + places_mm[i + 1]) / 2;
      if (middle < std::min(from, to) || middle > std::max(from, to)) continue;
      takers.push_back(i);
      break;
    }
  if (takers.empty()) {
    printed.whole = sum;
    return printed;
  }
  const double mark = units::tape_mark_mm(metric), left = printed.whole - sum;
  const auto marks = static_cast<std::size_t>(std::lround(std::abs(left) / mark));
  for (std::size_t k = 0; k < marks; ++k) printed.parts[takers[k % takers.size()]] += left < 0 ? -mark : mark;
  return printed;
}

}  // namespace fallwright::drawing
