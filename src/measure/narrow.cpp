#include <algorithm>
#include <cmath>

#include "measure/alcove.hpp"
#include "measure/detail.hpp"

namespace fallwright::measure {
namespace {

/// What a width that was read takes off the way between the walls: nothing at the floor, where the plan was read, and
/// in proportion up to its height, as walls stand straight; above it as much.
struct Shortfall {
  facts::WidthRead width;
  double by_mm() const { return width.solids_mm - width.reading_mm; }
  double at(double z) const { return by_mm() * (width.height_mm > 0 ? std::clamp(z / width.height_mm, 0.0, 1.0) : 1); }
};

/// The widths that were taken where the base passes, and are less than between the solids.
std::vector<Shortfall> shortfalls_of(const parts::Model& model, const facts::Room& room) {
  const survey::Rect base = *plan_of(model, parts::Role::base);
  const double depth = model.job.alcove.depth.in_mm();
  std::vector<Shortfall> found;
  for (const survey::Width& w : model.job.survey.widths) {
    const double y = depth - w.from_back_mm;
    if (y < base.y0 || y > base.y1) continue;
    const auto measured = std::find_if(room.widths.begin(), room.widths.end(), [&](const facts::WidthRead& r) {
      return r.height_mm == w.height_mm && r.from_back_mm == w.from_back_mm;
    });
    if (measured != room.widths.end() && measured->reading_mm < measured->solids_mm) found.push_back({*measured});
  }
  return found;
}

const Shortfall& most_at(const std::vector<Shortfall>& all, double z) {
  return *std::max_element(all.begin(), all.end(),
                           [=](const Shortfall& a, const Shortfall& b) { return a.at(z) < b.at(z); });
}

/// The heights at which a width was read stand among those that are looked at.
void add_heights(const std::vector<Shortfall>& shortfalls, std::vector<std::pair<double, double>>& free) {
  const std::vector<std::pair<double, double>> solids = free;
  for (const Shortfall& s : shortfalls) {
    const double z = s.width.height_mm;
    const auto above = std::find_if(solids.begin(), solids.end(), [&](const auto& w) { return w.first >= z; });
    if (above == solids.begin() || above == solids.end() || above->first == z) continue;
    const auto below = above - 1;
    const double share = (z - below->first) / (above->first - below->first);
    free.emplace_back(z, below->second + (above->second - below->second) * share);
  }
  std::sort(free.begin(), free.end());
}

/// Tipped in it levels at the upstands' height, where it needs its diagonal.
void tip_again(const std::vector<Shortfall>& shortfalls, double upstand, facts::DropIn& drop) {
  drop.tip_clear_mm -= most_at(shortfalls, upstand).at(upstand);
  const double narrowest = drop.length_mm + drop.least_mm, widest = std::hypot(drop.length_mm, drop.height_mm);
  if (drop.least_mm < 0 && narrowest > 0)
    drop.tip_deg = (std::atan2(drop.height_mm, drop.length_mm) + std::acos(narrowest / widest)) * 180 / M_PI;
}

}  // namespace

void narrow_by_widths(const parts::Model& model, const facts::Heights& heights, facts::Room& room) {
  facts::DropIn& drop = room.drop_in;
  if (!drop.between_walls || drop.widths_mm.empty()) return;
  const std::vector<Shortfall> shortfalls = shortfalls_of(model, room);
  if (shortfalls.empty()) return;
  add_heights(shortfalls, drop.widths_mm);
  drop.least_mm = std::numeric_limits<double>::max();
  for (auto& [z, width] : drop.widths_mm) {
    const Shortfall& most = most_at(shortfalls, z);
    width -= most.at(z);
    if (width - drop.length_mm >= drop.least_mm) continue;
    drop.least_mm = width - drop.length_mm;
    drop.least_at_mm = z;
    drop.narrower = most.at(z) > 0 ? std::optional{most.width} : std::nullopt;
  }
  tip_again(shortfalls, heights.upstand_top_mm.value_or(heights.rim_greatest_mm), drop);
}

}  // namespace fallwright::measure
