#include "measure/flanks.hpp"

#include <algorithm>
#include <cmath>

#include "measure/alcove.hpp"
#include "measure/surface.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

constexpr double level_mm = units::tolerance::length_mm;
constexpr int along_y = 2;

}  // namespace

Flanks::Flanks(const Framing& framing, double from_y, double to_y, double middle_x, bool bench) : middle_{middle_x} {
  // What merely touches the stretch's ends stands beside it.
  const double from = from_y + level_mm, to = to_y - level_mm;
  for (const job::Side side : {job::Side::left, job::Side::right})
    take(framing.of({parts::Role::wall, side}), false, from, to);
  if (bench) take(framing.of({parts::Role::bench_frame}), true, from, to);
}

void Flanks::take(const std::vector<std::vector<gp_Pnt>>& outlines, bool of_bench, double from_y, double to_y) {
  for (const auto& outline : outlines) {
    const auto polygon = between(outline, along_y, from_y, to_y);
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const gp_Pnt &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
      (a.X() + b.X() < 2 * middle_ ? left_ : right_).push_back({a, b, of_bench});
    }
  }
}

Faces Flanks::at(double z) const {
  Faces faces{z, {}, {}};
  const auto look = [&](const std::vector<Edge>& edges, std::vector<FacePoint>& found) {
    for (const Edge& e : edges) {
      const double low = std::min(e.a.Z(), e.b.Z()), high = std::max(e.a.Z(), e.b.Z());
      // An edge that ends at the height counts, on whichever side of it rounding has put its end.
      if (z < low - level_mm || z > high + level_mm) continue;
      const auto add = [&](const gp_Pnt& p) { found.push_back({p.X(), p.Y(), z, e.of_bench}); };
      if (high - low <= 2 * level_mm) {
        add(e.a), add(e.b);
        continue;
      }
      const double share = std::clamp((z - e.a.Z()) / (e.b.Z() - e.a.Z()), 0.0, 1.0);
      add(gp_Pnt{e.a.XYZ() + share * (e.b.XYZ() - e.a.XYZ())});
    }
  };
  look(left_, faces.left), look(right_, faces.right);
  return faces;
}

std::vector<double> Flanks::heights(double low, double high) const {
  std::vector<double> found{low, high};
  for (const auto* edges : {&left_, &right_})
    for (const Edge& e : *edges)
      for (const double z : {e.a.Z(), e.b.Z()})
        if (z > low && z < high) found.push_back(z);
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end(), [](double a, double b) { return b - a <= level_mm; }),
              found.end());
  return found;
}

double to_spare(double width, double length) {
  const double spare = width - length;
  return std::abs(spare) <= level_mm ? 0 : spare;
}

void tip(facts::DropIn& drop, double where_it_levels) {
  const double widest = std::hypot(drop.length_mm, drop.height_mm), a = std::atan2(drop.height_mm, drop.length_mm);
  const double narrowest = drop.length_mm + drop.least_mm;
  drop.tip_clear_mm = where_it_levels - widest;
  if (drop.least_mm < 0 && narrowest > 0) drop.tip_deg = (a + std::acos(narrowest / widest)) * 180 / M_PI;
}

}  // namespace fallwright::measure
