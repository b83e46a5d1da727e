#include "drawing/detail_sizes.hpp"

#include <algorithm>
#include <cmath>

#include "drawing/steps.hpp"

namespace fallwright::drawing {
namespace {

/// Words of a row over its line, or past one of its ends, where no line to a row further out runs.
void add_width_words(Pen& pen, const std::string& words, double x0, double x1, double foot,
                     const std::vector<double>& lines) {
  constexpr double size = 0.9;
  const double t = pen.text_mm(), width = width_of(words, size * t), air = 0.3 * t;
  const auto is_free = [&](double from) {
    return std::none_of(lines.begin(), lines.end(), [&](double x) { return x > from - air && x < from + width + air; });
  };
  for (const double from : {x1 + 0.6 * t, x0 - 0.6 * t - width})
    if (!is_free((x0 + x1 - width) / 2) && is_free(from)) return pen.note({from, foot}, words, Anchor::left, size);
  pen.note({(x0 + x1) / 2, foot}, words, Anchor::middle, size);
}

/// Widths in rows, each further from the window than the one before it. @return how low they reach
double add_width_rows(Pen& pen, const Detail& detail, const Shown& at, bool below) {
  std::vector<const Width*> widths;
  for (const Width& width : detail.widths)
    if (width.below == below) widths.push_back(&width);
  const double t = pen.text_mm(), edge = below ? at.low.y : at.high.y, out = below ? -1 : 1, half = 0.35 * t;
  const auto x_of = [&](double x) { return at.put({x, 0}).x; };
  double y = edge + out * (below ? 2.6 : 1.5) * t;
  for (std::size_t i = 0; i < widths.size(); ++i) {
    const Width& width = *widths[i];
    const double x0 = x_of(std::min(width.from, width.to)), x1 = x_of(std::max(width.from, width.to)),
                 start = width.z ? at.put({0, *width.z}).y : edge + out * 0.3 * t;
    for (const double x : {x0, x1}) {
      pen.line({x, start}, {x, y + out * 0.5 * t}, LineKind::dimension);
      pen.line({x - half, y - half}, {x + half, y + half}, LineKind::dimension);
    }
    pen.line({x0, y}, {x1, y}, LineKind::dimension);
    std::vector<double> lines;  // that run through the row where its words stand
    for (std::size_t k = below ? i : i + 1; k < widths.size(); ++k)
      lines.push_back(x_of(widths[k]->from)), lines.push_back(x_of(widths[k]->to));
    add_width_words(pen, width.words, x0, x1, y + 0.5 * t, lines);
    y += out * 2.6 * t;
  }
  return below && !widths.empty() ? y + 2 * t : at.low.y;
}

constexpr double beside_edge_mm = 0.5;  ///< beside an edge, to look at what has it

constexpr double off_thing_mm = 14;  ///< a dimension's line in a window, beside what it measures

/// What the tape can read of a length.
bool tape_shows(const Pen& pen, double mm) {
  return pen.words(mm) != "0";
}

}  // namespace

double add_sizes(Pen& pen, const Detail& detail, const Shown& at) {
  const double half = 0.35 * pen.text_mm();
  for (const Rise& rise : detail.rises) {
    const double line = at.put({rise.line, 0}).x, way = rise.line > rise.thing ? 1 : -1;
    for (const double z : {rise.from, rise.to}) {
      const Point thing = at.put({rise.thing, z});
      pen.line({thing.x + way * half, thing.y}, {line + way * half, thing.y}, LineKind::dimension);
      pen.line({line - half, thing.y - half}, {line + half, thing.y + half}, LineKind::dimension);
    }
    pen.line(at.put({rise.line, rise.from}), at.put({rise.line, rise.to}), LineKind::dimension);
  }
  add_width_rows(pen, detail, at, false);
  return add_width_rows(pen, detail, at, true);
}

Measured::Measured(const std::vector<CutSolid>& cut, parts::Role role) {
  for (const CutSolid& solid : cut)
    if (solid.solid->role == role) lines_.insert(lines_.end(), solid.seen.lines.begin(), solid.seen.lines.end());
}

double Measured::end(double way) const {
  double end = -1e9;
  for (const Line& line : lines_) end = std::max({end, way * line.from.x, way * line.to.x});
  return way * end;
}

std::optional<double> Measured::top(double x) const {
  const std::vector<double> all = heights(x);
  return all.empty() ? std::nullopt : std::optional{all.front()};
}

std::optional<double> Measured::foot(double x) const {
  const std::vector<double> all = heights(x);
  return all.empty() ? std::nullopt : std::optional{all.back()};
}

std::optional<Span> Measured::across(double z, double x) const {
  std::optional<Span> nearest;
  double least = 1e9;
  for (const auto& [from, to] : stretches_within(rings_of(lines_), z)) {
    const double off = std::max({from - x, x - to, 0.0});
    if (off < least) least = off, nearest = Span{from, to};
  }
  return nearest;
}

void size_edge(Detail& detail, const Pen& pen, const std::vector<CutSolid>& cut, double face, double out,
               const EdgeGap& gap) {
  const Measured base{cut, parts::Role::base}, bed{cut, parts::Role::bed};
  if (!base.any()) return;
  detail.bed_here = true;
  const double edge = base.end(out);
  const auto top = base.top(edge - out * beside_edge_mm);
  if (!top) return;
  double inner = edge;
  if (const auto upright = base.across(*top - beside_edge_mm, edge - out * beside_edge_mm))
    inner = out > 0 ? upright->from : upright->to;
  constexpr double least_upstand = 3;
  if (const auto rim = base.top(inner - out * beside_edge_mm);
      rim && *top - *rim > least_upstand && std::abs(edge - inner) < detail.window.width()) {
    detail.rises.push_back({*rim, *top, inner, inner - out * off_thing_mm, pen.words(*top - *rim) + " over base"});
  }
  const std::string wide = pen.words(std::abs(face - edge));
  if (tape_shows(pen, std::abs(face - edge)))
    detail.widths.push_back({edge, face, (gap.assumed ? "(" + wide + ")" : wide) + gap.words,
                             base.foot(edge - out * beside_edge_mm), true});
  if (!bed.any()) return;
  const double held = out * (edge - bed.end(out));
  if (held > 0 && tape_shows(pen, held))
    detail.widths.push_back(
        {bed.end(out), edge, pen.words(held) + " holdback", bed.foot(bed.end(out) - out * beside_edge_mm), true});
}

void size_apron(Detail& detail, const Pen& pen, const std::vector<CutSolid>& cut, double face, double out) {
  const Measured seat{cut, parts::Role::seat_block}, base{cut, parts::Role::base};
  const double before = face + out * beside_edge_mm;
  const auto foot = seat.foot(before);
  if (!foot) return;
  const auto thick = seat.across(*foot + beside_edge_mm, before);
  if (!thick) return;
  detail.widths.push_back({thick->from, thick->to, pen.words(thick->to - thick->from) + " apron"});
  const auto top = base.any()
                       ? base.top(std::clamp(before, base.end(-1) + beside_edge_mm, base.end(1) - beside_edge_mm))
                       : std::nullopt;
  if (!top || *foot - *top < -beside_edge_mm) return;
  const double skirt = out > 0 ? thick->to : thick->from, gap = std::max(*foot - *top, 0.0);
  if (tape_shows(pen, gap))
    detail.rises.push_back({*top, *foot, skirt, skirt + out * off_thing_mm, pen.words(gap) + " under apron"});
  else
    detail.spots.push_back({"no gap", {skirt, *top}});
}

void size_nose(Detail& detail, const Pen& pen, const Subject& subject, const std::vector<CutSolid>& cut, double face,
               double out) {
  const Measured seat{cut, parts::Role::seat_block};
  const double nose = seat.end(out),
               apron = has_apron(subject.job()) ? subject.job().bench->apron_thickness.in_mm() : 0;
  double skirt = face;
  if (const auto foot = seat.foot(face + out * beside_edge_mm); apron > 0 && foot)
    if (const auto thick = seat.across(*foot + beside_edge_mm, face + out * beside_edge_mm))
      skirt = out > 0 ? thick->to : thick->from;
  if (tape_shows(pen, std::abs(skirt - face)))
    detail.widths.push_back({face, skirt, pen.words(std::abs(skirt - face)) + " apron"});
  if (tape_shows(pen, std::abs(nose - skirt)))
    detail.widths.push_back({skirt, nose, pen.words(std::abs(nose - skirt)) + " overhang"});
  const double within = face - out * beside_edge_mm;  // behind the apron, whose foot is another
  if (const auto over = seat.top(within), under = seat.foot(within); over && under)
    detail.rises.push_back({*under, *over, face, nose + out * off_thing_mm, pen.words(*over - *under) + " nose"});
}

void size_wall_end(Detail& detail, const Pen& pen, const std::vector<CutSolid>& cut, double wall, double into) {
  const Measured seat{cut, parts::Role::seat_block};
  const double at = wall + into * beside_edge_mm;
  const auto top = seat.top(at);
  if (!top) return;
  double inner = wall;
  if (const auto upright = seat.across(*top - beside_edge_mm, at)) inner = into > 0 ? upright->to : upright->from;
  const auto surface = seat.top(inner + into * beside_edge_mm);
  if (surface && *top - *surface > beside_edge_mm && std::abs(inner - wall) < detail.window.width()) {
    detail.widths.push_back({wall, inner, pen.words(std::abs(inner - wall)) + " upstand"});
    detail.rises.push_back(
        {*surface, *top, inner, inner + into * off_thing_mm, pen.words(*top - *surface) + " upstand"});
  }
  const double seen = inner + into * beside_edge_mm;  // where it is told on the view from the entry
  if (const auto over = seat.top(seen), under = seat.foot(seen); over && under)
    detail.rises.push_back({*under, *over, seen, inner + into * off_thing_mm, pen.words(*over - *under) + " seat"});
}

void size_threshold(Detail& detail, const Pen& pen, const std::vector<CutSolid>& cut) {
  const Measured base{cut, parts::Role::base}, bed{cut, parts::Role::bed}, floor{cut, parts::Role::subfloor};
  if (!base.any()) return;
  detail.bed_here = true;
  const double front = base.end(-1);
  const auto top = base.top(front + beside_edge_mm), foot = base.foot(front + beside_edge_mm);
  if (!top || !foot) return;
  const auto low = std::min(*top, base.top(detail.window.x1 - beside_edge_mm).value_or(*top));
  const auto across = base.across((*top + low) / 2, front + beside_edge_mm);
  if (across && *top - low > beside_edge_mm) {
    const double inner = across->to;
    detail.widths.push_back({front, inner, pen.words(inner - front) + " threshold"});
    const auto inner_top = base.top(inner - beside_edge_mm), beside = base.top(inner + beside_edge_mm);
    if (inner_top && beside && *inner_top > *beside)
      detail.rises.push_back(
          {*beside, *inner_top, inner, inner + off_thing_mm, pen.words(*inner_top - *beside) + " over floor"});
  }
  if (!bed.any()) return;
  if (const double past = front - bed.end(-1); past > 0 && tape_shows(pen, past))
    detail.widths.push_back({bed.end(-1), front, pen.words(past) + " past the base", *foot, true});
  if (const auto ground = floor.top(front + beside_edge_mm); ground && tape_shows(pen, *foot - *ground))
    detail.spots.push_back(
        {pen.words(*foot - *ground) + " under its edge", {front + 2 * beside_edge_mm, (*foot + *ground) / 2}});
}

void size_flange(Detail& detail, const Pen& pen, const Subject& subject, const std::vector<CutSolid>& cut) {
  const Measured drain{cut, parts::Role::drain}, floor{cut, parts::Role::subfloor}, bed{cut, parts::Role::bed};
  detail.bed_here = true;
  const auto ground = floor.any() ? floor.top(detail.window.x1 - beside_edge_mm) : std::nullopt;
  if (!ground) return;
  const double z = *ground - beside_edge_mm, from = detail.window.x0;
  const auto body = drain.any() ? drain.across(z, from) : std::nullopt, deck = floor.across(z, detail.window.x1);
  if (!body || !deck || body->to > deck->from) return;
  const auto& job = subject.job();
  const auto told = [&](double mm, bool assumed) { return assumed ? "(" + pen.words(mm) + ")" : pen.words(mm); };
  // The collar is as wide as the job has it, however wide the bore.
  const bool assumed = job.is_default("drain.body") || job.is_default("drain.bore");
  detail.widths.push_back(
      {body->to, deck->from,
       told(units::down_to_mark(deck->from - body->to, units::tape_mark_mm(job.is_metric())), assumed) + " to the " +
           bore_word(job),
       *ground, true});
  if (!bed.any()) return;
  const auto mortar = bed.across(*ground + beside_edge_mm, detail.window.x1);
  if (mortar && mortar->from > deck->from && mortar->from < detail.window.x1)
    detail.widths.push_back(
        {deck->from, mortar->from, pen.words(mortar->from - deck->from) + " collar", *ground, true});
}

std::string board_thickness(const Pen& pen, const job::Job& job) {
  return job.survey.board_mm ? ", " + pen.words(*job.survey.board_mm) : "";
}

}  // namespace fallwright::drawing
