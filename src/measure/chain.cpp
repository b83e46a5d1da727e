#include <algorithm>
#include <array>
#include <cmath>

#include "brep/guard.hpp"
#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/shapes.hpp"
#include "units/length.hpp"

namespace fallwright::measure {
namespace {

using facts::Course, facts::Reach;

class Chain {
 public:
  void add(Course of, const std::string& name, std::optional<double> z, Reach reach = Reach::level) {
    if (z) rungs_.push_back({name, *z, 0, of, reach});
  }
  void here(Course of, const std::string& name, const Surface& surface, double x, double y) {
    add(of, name + " here", surface.at(x, y), Reach::here);
  }
  /// Two heights of one thing: one rung where they are the same.
  void add(Course of, const std::string& name, const char* which, double low, double high) {
    if (std::abs(high - low) < 0.01) return add(of, name, low);
    add(of, name + ", lowest" + which, low, Reach::lowest);
    add(of, name + ", highest" + which, high, Reach::highest);
  }
  std::vector<facts::Rung> sorted() {
    std::stable_sort(rungs_.begin(), rungs_.end(),
                     [](const facts::Rung& a, const facts::Rung& b) { return a.above_datum_mm < b.above_datum_mm; });
    for (std::size_t i = 1; i < rungs_.size(); ++i)
      rungs_[i].above_last_mm = rungs_[i].above_datum_mm - rungs_[i - 1].above_datum_mm;
    return std::move(rungs_);
  }

 private:
  std::vector<facts::Rung> rungs_;
};

std::vector<facts::Rung> chain_over(const parts::Model& model, const facts::Facts& facts, double x, double y) {
  const auto solid = [&](parts::Role role) -> const parts::Solid& { return *model.first(role); };
  Chain chain;
  chain.here(Course::subfloor, "deck, underside", Surface{solid(parts::Role::subfloor), false}, x, y);
  chain.here(Course::subfloor, "subfloor", Surface{solid(parts::Role::subfloor), true}, x, y);
  chain.here(Course::bed, "bed, top", Surface{solid(parts::Role::bed), true}, x, y);
  chain.here(Course::base, "base, top", Surface{solid(parts::Role::base), true}, x, y);
  if (const parts::Solid* seat = model.first(parts::Role::seat_block))
    chain.here(Course::seat, "seat, top", Surface{*seat, true}, x, y);

  const facts::Heights& h = facts.heights;
  chain.add(Course::datum, "datum, highest subfloor spot under the base", 0.0);
  if (facts.site_built) {
    chain.add(Course::bed, "bed, top at the drain's flange", facts.site_built->flange_top_mm);
  } else {
    chain.add(Course::rib_plane, "rib plane", h.rib_plane_mm);
    chain.add(Course::level_line, "level line the bed is spread to", facts.bed.gauge_mm);
  }
  chain.add(Course::drain, "drain, top", h.drain_top_mm);
  chain.add(Course::rim, "rim", "", h.rim_least_mm, h.rim_greatest_mm);
  if (h.threshold_least_mm)
    chain.add(Course::threshold, "threshold", " edge", *h.threshold_least_mm, *h.threshold_greatest_mm);
  chain.add(Course::upstands, "upstands, top", h.upstand_top_mm);
  if (h.seat_front_mm) chain.add(Course::seat, "seat", " edge", *h.seat_front_mm, *h.seat_back_mm);
  if (h.outside) chain.add(Course::outside, "bath floor outside", "", h.outside->least_mm, h.outside->greatest_mm);
  return chain.sorted();
}

}  // namespace

std::vector<facts::Rung> measure_chain(const parts::Model& model, const facts::Facts& facts, double x, double y) {
  return brep::guarded(model.job.name, [&] { return chain_over(model, facts, x, y); });
}

namespace {

/// Gauges stand so far inside bed and base, where a stick reaches mortar; less where those are narrower than that.
constexpr double inside_mm = 3 * units::inch_mm;

/// The least, the middle and the greatest of a stretch that gauges stand on.
std::array<double, 3> places(double from, double to) {
  const double in = std::min(inside_mm, (to - from) / 4);
  return {from + in, (from + to) / 2, to - in};
}

/// A gauge that the bore takes moves to the front or to the back, whichever is wider, where there is mortar: a mirror
/// knows those as well.
void move_off(facts::Gauge& gauge, const gp_Cylinder& bore, const survey::Rect& over) {
  const double off = bore.Radius() + std::min(inside_mm, over.depth() / 8);
  const gp_Pnt at = bore.Location();
  if (std::hypot(gauge.x_mm - at.X(), gauge.y_mm - at.Y()) >= off) return;
  const double aside = std::sqrt(off * off - std::pow(gauge.x_mm - at.X(), 2));
  const double to = over.y1 - at.Y() > at.Y() - over.y0 ? at.Y() + aside : at.Y() - aside;
  if (to > over.y0 && to < over.y1) gauge.y_mm = to;
}

}  // namespace

std::vector<facts::Gauge> measure_gauges(const parts::Model& model, const facts::Facts& facts) {
  const auto base = *plan_of(model, parts::Role::base), bed = *plan_of(model, parts::Role::bed);
  const survey::Rect over{std::max(base.x0, bed.x0), std::max(base.y0, bed.y0), std::min(base.x1, bed.x1),
                          std::min(base.y1, bed.y1)};
  const std::array<double, 3> xs = places(over.x0, over.x1), ys = places(over.y0, over.y1);
  const Surface floor{*model.first(parts::Role::subfloor), true};
  const auto bore = widest_cylinder(*model.first(parts::Role::bed));
  std::vector<facts::Gauge> gauges;
  for (std::size_t row = 0; row < ys.size(); ++row)
    for (std::size_t column = 0; column < xs.size(); ++column) {
      facts::Gauge g;
      g.name = std::string(1, static_cast<char>('A' + column)) + std::to_string(row + 1);
      g.x_mm = xs[column];
      g.y_mm = ys[ys.size() - 1 - row];
      if (bore) move_off(g, *bore, over);
      g.floor_mm = floor.carried_on(g.x_mm, g.y_mm);
      g.set_mm = facts.heights.rib_plane_mm - g.floor_mm;
      g.spread_mm = facts.bed.gauge_mm - g.floor_mm;
      g.clear = bore && std::hypot(g.x_mm - bore->Location().X(), g.y_mm - bore->Location().Y()) < bore->Radius();
      gauges.push_back(std::move(g));
    }
  return gauges;
}

}  // namespace fallwright::measure
