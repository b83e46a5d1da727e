#include <algorithm>
#include <cmath>

#include "drawing/steps.hpp"
#include "drawing/views.hpp"

namespace fallwright::drawing {

std::vector<const facts::Gauge*> order_of_pressing(const facts::Room& room) {
  std::vector<const facts::Gauge*> order;
  for (const facts::Gauge& g : room.gauges) order.push_back(&g);
  const auto& bore = room.drain.now_mm;
  const auto away = [&](const facts::Gauge* g) { return std::hypot(g->x_mm - bore[0], g->y_mm - bore[1]); };
  std::stable_sort(order.begin(), order.end(), [&](const auto* a, const auto* b) { return away(a) < away(b) - 1; });
  return order;
}

namespace {

/// Where a gauge's words start: beside its mark, toward the bed's middle, and clear of what is bored.
Point words_at(const facts::Gauge& g, double t, const Arc& collar) {
  const bool right = g.name[0] == 'C', low = g.name[1] == '3';
  Point at{g.x_mm + (right ? -1 : 1) * 3 * t, g.y_mm + (low ? 5.6 * t : -3 * t)};
  const double width = 12 * t, x0 = right ? at.x - width : at.x;
  const Box box{x0, at.y - 2.7 * t, x0 + width, at.y + t},
      bored{collar.centre.x - collar.radius, collar.centre.y - collar.radius, collar.centre.x + collar.radius,
            collar.centre.y + collar.radius};
  if (meet(box, bored)) at.x = collar.centre.x + (right ? -1 : 1) * (collar.radius + t);
  return at;
}

void add_gauges(Sheet& sheet, Pen& pen, const Subject& s, const Arc& collar) {
  const double t = pen.text_mm();
  const auto order = order_of_pressing(s.facts.room);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const facts::Gauge& g = *order[i];
    sheet.arcs.push_back({{g.x_mm, g.y_mm}, 0.55 * t, 0, 360, LineKind::dimension});
    pen.line({g.x_mm - 0.9 * t, g.y_mm}, {g.x_mm + 0.9 * t, g.y_mm}, LineKind::dimension);
    pen.line({g.x_mm, g.y_mm - 0.9 * t}, {g.x_mm, g.y_mm + 0.9 * t}, LineKind::dimension);
    const auto [x, y] = words_at(g, t, collar);
    const Anchor anchor = g.name[0] == 'C' ? Anchor::right : Anchor::left;
    pen.note({x, y}, g.name + "   press " + std::to_string(i + 1), anchor, 0.9);
    if (g.clear) {
      pen.note({x, y - 1.4 * t}, "bore: keep clear", anchor, 0.8);
      continue;
    }
    pen.note({x, y - 1.4 * t}, "to the ribs " + pen.words(g.set_mm), anchor, 0.8);
    pen.note({x, y - 2.7 * t}, "to the line " + pen.words(g.spread_mm), anchor, 0.8);
  }
}

/// Columns of the gauges from the left stud face and rows from the back one, as a tape reads them that stays hooked.
void set_out_gauges(Pen& pen, const Subject& s, Point low_right) {
  const auto& bore = s.facts.room.drain.now_mm;
  const auto left = mark_mm(s.facts, "bore centre from the left stud face"),
             back = mark_mm(s.facts, "bore centre from the back stud face");
  const auto run = [&](bool across, double hook) {
    std::vector<double> all;
    for (const facts::Gauge& g : s.facts.room.gauges) all.push_back(across ? g.x_mm - hook : hook - g.y_mm);
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end(), [](double a, double b) { return std::abs(a - b) < 1; }), all.end());
    return all;
  };
  const double t = pen.text_mm(), row = low_right.y - 9.6 * t, column = low_right.x + 3 * t;
  if (left) {
    const double hook = bore[0] - *left;
    pen.running(run(true, hook), 0, {hook, row}, {1, 0}, {0, -1});
    pen.note({hook, row + 0.4 * t}, "gauges from the left stud face", Anchor::left, 0.8);
  }
  if (back) {
    const double hook = bore[1] + *back;
    pen.running(run(false, hook), 0, {column, hook}, {0, -1}, {1, 0});
    pen.note({column, hook + 1.2 * t}, "gauges from the back stud face", Anchor::left, 0.8);
  }
}

void add_extremes(Pen& pen, const Subject& s) {
  const facts::Bed& bed = s.facts.bed;
  const auto at = [&](const facts::Point& p, const std::string& words) {
    pen.line({p[0] - pen.text_mm() * 0.5, p[1] - pen.text_mm() * 0.5},
             {p[0] + pen.text_mm() * 0.5, p[1] + pen.text_mm() * 0.5}, LineKind::correction);
    pen.line({p[0] - pen.text_mm() * 0.5, p[1] + pen.text_mm() * 0.5},
             {p[0] + pen.text_mm() * 0.5, p[1] - pen.text_mm() * 0.5}, LineKind::correction);
    pen.label({p[0] + pen.text_mm(), p[1] + pen.text_mm() * 0.3}, words, Anchor::left, 0.8);
  };
  at(bed.least_at_mm, "thinnest " + pen.words(bed.least_mm));
  at(bed.greatest_at_mm, "thickest " + pen.words(bed.greatest_mm));
}

}  // namespace

Sheet draw_bed(const Subject& subject) {
  const auto &base = part(subject.facts, "base").bbox_mm, &bed = part(subject.facts, "bed").bbox_mm;
  return on_page("bed", "Mortar bed: gauge depths", subject.job(), [&](Sheet& sheet, Pen& pen) {
    const double t = pen.text_mm();
    pen.rectangle({bed[0], bed[1]}, {bed[3], bed[4]}, LineKind::outline);
    pen.rectangle({base[0], base[1]}, {base[3], base[4]}, LineKind::hidden);
    const Point bore{subject.facts.room.drain.now_mm[0], subject.facts.room.drain.now_mm[1]};
    const job::Job& job = subject.job();
    sheet.arcs.push_back({bore, job.drain.bore.in_mm() / 2, 0, 360, LineKind::hidden});
    const Arc collar{bore, (job.drain.bore / 2 + job.bed.collar).in_mm(), 0, 360, LineKind::outline};
    sheet.arcs.push_back(collar);
    const bool rejected = bore_is_void(subject);
    if (rejected)
      pen.strike({bore.x - collar.radius, bore.y - collar.radius}, {bore.x + collar.radius, bore.y + collar.radius},
                 {bore.x, bore.y + collar.radius + 0.5 * t});
    else
      pen.cross(bore, collar.radius + 1.5 * t);
    add_gauges(sheet, pen, subject, collar);
    add_extremes(pen, subject);
    const double low = std::min(base[1], bed[1]), left = std::min(base[0], bed[0]);
    if (!rejected) {
      pen.note({left - t, low - 3 * t}, "bore", Anchor::right, 0.8);
      pen.chain({bed[0], bore.x, bed[3]}, low, low - 3 * t);
      pen.upright({left, bed[1]}, {left, bore.y}, left - 3 * t);
      pen.upright({left, bore.y}, {left, bed[4]}, left - 3 * t);
    }
    set_out_gauges(pen, subject, {std::max(base[3], bed[3]), low});
    sheet.notes = {
        "Outline: the bed, held back " + pen.words(job.bed.holdback.in_mm()) +
            " along framing and run past the base by " + pen.words(job.bed.overrun.in_mm()) +
            " on open sides, clear of the bore by " + pen.words(job.bed.collar.in_mm()) + ". Dashed: the base.",
        "Long dashes cross at the bore. Depths at A1 to C3 from the subfloor: up to the ribs, and up to the level line "
        "it is spread to, " +
            pen.words(subject.facts.bed.gauge_mm) + " above the datum (the highest subfloor spot under the base).",
        "Press the base down in the order of the numbers, from the drain outward. Wet mortar is caustic: gloves and "
        "goggles."};
  });
}

}  // namespace fallwright::drawing
