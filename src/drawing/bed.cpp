#include <algorithm>
#include <cmath>

#include "drawing/views.hpp"

namespace fallwright::drawing {
namespace {

/// From the drain, the lowest part of the floor, outward.
std::vector<const facts::Gauge*> in_order_of_pressing(const Subject& s) {
  std::vector<const facts::Gauge*> order;
  for (const facts::Gauge& g : s.facts.room.gauges) order.push_back(&g);
  const auto& bore = s.facts.room.drain.now_mm;
  const auto away = [&](const facts::Gauge* g) { return std::hypot(g->x_mm - bore[0], g->y_mm - bore[1]); };
  std::stable_sort(order.begin(), order.end(), [&](const auto* a, const auto* b) { return away(a) < away(b) - 1; });
  return order;
}

void add_gauges(Pen& pen, const Subject& s) {
  const double t = pen.text_mm();
  const auto order = in_order_of_pressing(s);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const facts::Gauge& g = *order[i];
    pen.cross({g.x_mm, g.y_mm}, t);
    const bool right = g.name[0] == 'C', low = g.name[1] == '3';
    const double x = g.x_mm + (right ? -1 : 1) * 3 * t, y = g.y_mm + (low ? 5.6 * t : -3 * t);
    const Anchor anchor = right ? Anchor::right : Anchor::left;
    pen.note({x, y}, g.name + "   press " + std::to_string(i + 1), anchor, 0.9);
    if (g.clear) {
      pen.note({x, y - 1.4 * t}, "bore: keep clear", anchor, 0.8);
      continue;
    }
    pen.note({x, y - 1.4 * t}, "to the ribs " + pen.words(g.set_mm), anchor, 0.8);
    pen.note({x, y - 2.7 * t}, "to the line " + pen.words(g.spread_mm), anchor, 0.8);
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
    sheet.arcs.push_back({bore, (job.drain.bore / 2 + job.bed.collar).in_mm(), 0, 360, LineKind::outline});
    add_gauges(pen, subject);
    add_extremes(pen, subject);
    const double low = std::min(base[1], bed[1]), left = std::min(base[0], bed[0]);
    pen.chain({bed[0], bore.x, bed[3]}, low, low - 3 * t);
    pen.upright({left, bed[1]}, {left, bore.y}, left - 3 * t);
    pen.upright({left, bore.y}, {left, bed[4]}, left - 3 * t);
    sheet.notes = {
        "Outline: the bed, held back " + pen.words(job.bed.holdback.in_mm()) +
            " along framing and run past the base by " + pen.words(job.bed.overrun.in_mm()) +
            " on open sides, clear of the bore by " + pen.words(job.bed.collar.in_mm()) + ". Dashed: the base.",
        "Depths at A1 to C3 from the subfloor: up to the ribs, and up to the level line it is spread to, " +
            pen.words(subject.facts.bed.gauge_mm) + " above the datum (the highest subfloor spot under the base).",
        "Press the base down in the order of the numbers, from the drain outward. Wet mortar is caustic: gloves and "
        "goggles."};
  });
}

}  // namespace fallwright::drawing
