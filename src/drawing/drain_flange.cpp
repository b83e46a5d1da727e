#include <algorithm>
#include <cmath>

#include <gp_Pln.hxx>
#include <gp_Vec.hxx>

#include "drawing/detail_sizes.hpp"
#include "drawing/warning.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

using parts::Role;

/// Of a base built on site, what lies between the bed and its cover: along the bed's top, where that is in the window.
Ribbon waterproofing_over(const Subject& s, const std::vector<CutSolid>& solids, const Frame& window, double body,
                          double off) {
  const bool liner = s.job().base.site.waterproofing == job::Waterproofing::liner;
  Ribbon ribbon{liner ? "liner" : "membrane", {}};
  for (const CutSolid& cut : solids) {
    if (cut.solid->role != Role::bed) continue;
    std::vector<double> xs{window.x0, window.x1};
    for (const Line& line : cut.seen.lines)
      for (const Point& p : {line.from, line.to})
        if (p.x > window.x0 && p.x < window.x1) xs.push_back(p.x);
    std::sort(xs.begin(), xs.end());
    for (const double x : xs) {
      const std::vector<double> heights = heights_at(cut.seen.lines, x);
      if (!heights.empty() && (ribbon.points.empty() || x > ribbon.points.back().x + 0.01))
        ribbon.points.push_back({x, heights.front()});
    }
  }
  // Onto the flange, up to the drain's body.
  if (!ribbon.points.empty() && ribbon.points.front().x > body)
    ribbon.points.insert(ribbon.points.begin(), {body, s.facts.site_built->flange_top_mm});
  for (Point& p : ribbon.points) p.y += off;  // off the bed, so that it is seen
  return ribbon;
}

/// A point in the uppermost of what is cut at the first place past `from` where anything of it is.
std::optional<Point> point_in_layer(const CutSolid& layer, double from, double to, double step) {
  for (double x = from + step; x < to; x += step) {
    const std::vector<double> heights = heights_at(layer.seen.lines, x);
    if (heights.size() >= 2 && heights[0] - heights[1] > 0.1) return Point{x, (heights[0] + heights[1]) / 2};
  }
  return std::nullopt;
}

}  // namespace

bool leave_out_slivers(std::vector<CutSolid>& cut) {
  bool any = false;
  for (CutSolid& solid : cut) {
    if (solid.solid->role != Role::bed) continue;
    for (const Outline& ring : rings_of(solid.seen.lines)) {
      const auto [left, right] =
          std::minmax_element(ring.begin(), ring.end(), [](const Point& a, const Point& b) { return a.x < b.x; });
      const double low = left->x - 0.01, high = right->x + 0.01;
      if (high - low > least_bed_mm) continue;
      any = true;
      std::erase_if(solid.seen.lines, [&](const Line& line) {
        return std::min(line.from.x, line.to.x) > low && std::max(line.from.x, line.to.x) < high;
      });
    }
  }
  return any;
}

std::string sliver_words(const Subject& s) {
  const auto said = [&](double mm) { return units::to_text(units::Length::mm(mm), s.job().is_metric()); };
  return "Where bore and holdback leave less than " + said(least_bed_mm) +
         " of the bed no mortar is laid, and none is drawn.";
}

void add_layer_names(Sheet& sheet, Pen& pen, const std::vector<CutSolid>& cut, double from, double to) {
  const double t = pen.text_mm(), step = 1.6 * t;
  std::vector<std::pair<Point, std::string>> layers;
  for (const CutSolid& layer : cut) {
    if (layer.solid->role == Role::drain || layer.solid->role == Role::joist) continue;
    if (const auto at = point_in_layer(layer, from, to, t)) layers.emplace_back(*at, layer.name);
  }
  if (layers.empty()) return;
  std::sort(layers.begin(), layers.end(), [](const auto& a, const auto& b) { return a.first.y < b.first.y; });
  std::vector<double> ys;
  for (const auto& [at, name] : layers) ys.push_back(ys.empty() ? at.y : std::max(at.y, ys.back() + step));
  const double pushed = (ys.back() - layers.back().first.y) / 2;  // what the uppermost climbs all share
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const auto& [at, name] = layers[i];
    const double y = ys[i] - pushed;
    pen.line(at, {from - 2 * t, y}, LineKind::dimension);
    sheet.arcs.push_back({at, 0.2 * t, 0, 360, LineKind::outline});
    pen.note({from - 2.5 * t, y - 0.4 * t}, name, Anchor::right, 0.8);
  }
}

Frame flange_window(const Subject& s, double middle) {
  const auto& drain = part(s.facts, facts::Role::drain).bbox_mm;
  const double near = s.job().drain.body.in_mm() / 2;
  return {middle + 0.4 * near, drain[2] + 0.3 * near, middle + near + 75, drain[5] + 18};
}

Point add_flange(Sheet& sheet, Pen& pen, double scale, const Subject& s, const std::vector<CutSolid>& solids,
                 double middle, bool marked, Point place) {
  const double near = s.job().drain.body.in_mm() / 2;
  const Frame window = flange_window(s, middle);
  Detail detail{1, std::string{"drain in its "} + bore_word(s.job()), window, marked, {}, base_is_void(s)};
  if (s.facts.site_built) detail.ribbons = {waterproofing_over(s, solids, window, middle + near, 0.9 * scale)};
  size_flange(detail, pen, s, solids);
  return add_detail(sheet, pen, solids, detail, scale, place);
}

std::string rib_words(const Subject& s, const Cut& cut) {
  const double width = s.job().base.ribs.width.in_mm();
  if (s.job().base.pockets() == 0 || width <= 0) return "";
  const auto area_off = [&](double off) {
    Cut moved = cut;
    moved.plane.Translate(gp_Vec{cut.plane.Axis().Direction()} * off);
    double area = 0;
    for (const CutSolid& base : cut_solids(
             s.model, [](const parts::Solid& p) { return p.role == Role::base; }, moved))
      area += area_within(rings_of(base.seen.lines));
    return area;
  };
  constexpr double past = 1, thicker = 1.15;  // a rib across the cut stands in all of these
  const double here = area_off(0), beside = std::max(area_off(width + past), area_off(-width - past));
  return here < thicker * beside ? ""
                                 : "The cut runs along a rib of the base: beside that its shell alone lies on the "
                                   "bed, " +
                                       units::to_text(s.job().base.shell, s.job().is_metric()) + " thick.";
}

std::string flange_words(const Subject& s) {
  const std::string maker = "Not drawn, as its maker makes them: flange, clamp";
  if (!s.facts.site_built) return maker + " and gasket.";
  const bool liner = s.job().base.site.waterproofing == job::Waterproofing::liner;
  return (base_is_void(s) ? std::string{}
                          : "Drain's flange " + rules::text_of_mark(s.judgement.screed.value().flange_mm, s.job()) +
                                " above the datum, on " + rules::at_flange_text(*s.facts.site_built, s.job()) +
                                " of bed; the " + (liner ? "liner" : "membrane") + " comes onto it. ") +
         maker + (liner ? ", weep holes and what keeps them open." : " and collar.");
}

}  // namespace fallwright::drawing
