#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/flanks.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

constexpr double same_mm = units::tolerance::length_mm;

/// What a width that was read takes off the way between the walls: nothing at the floor, where the plan was read, and
/// in proportion up to its height, as walls stand straight; above it as much.
struct Shortfall {
  facts::WidthRead width;
  double by_mm() const { return width.solids_mm - width.reading_mm; }
  double at(double z) const { return by_mm() * share_of_width(width, z); }
};

/// The widths that were taken where the base passes, and are less than between the solids.
std::vector<Shortfall> shortfalls_of(const parts::Model& model, const std::vector<facts::WidthRead>& read) {
  const survey::Rect base = *plan_of(model, parts::Role::base);
  const double depth = model.job.alcove.depth.in_mm();
  std::vector<Shortfall> found;
  for (const facts::WidthRead& w : read) {
    const double y = depth - w.from_back_mm;
    if (y >= base.y0 && y <= base.y1 && w.reading_mm < w.solids_mm) found.push_back({w});
  }
  return found;
}

const Shortfall* most_at(const std::vector<Shortfall>& all, double z) {
  const auto most = std::max_element(all.begin(), all.end(),
                                     [=](const Shortfall& a, const Shortfall& b) { return a.at(z) < b.at(z); });
  return most == all.end() || most->at(z) <= 0 ? nullptr : &*most;
}

/// The heights that are told: twelve steps up, and those at which a width was read.
std::vector<double> told_heights(double low, double high, const std::vector<Shortfall>& shortfalls) {
  constexpr int steps = 12;
  std::vector<double> told;
  for (int i = 0; i <= steps; ++i) told.push_back(low + (high - low) * i / steps);
  for (const Shortfall& s : shortfalls)
    if (s.width.height_mm > low && s.width.height_mm < high) told.push_back(s.width.height_mm);
  return told;
}

/// Free width between faces; nothing where there are none on one side.
std::optional<double> width_between(const Faces& faces) {
  if (faces.left.empty() || faces.right.empty()) return std::nullopt;
  const auto by_x = [](const FacePoint& a, const FacePoint& b) { return a.x_mm < b.x_mm; };
  return std::min_element(faces.right.begin(), faces.right.end(), by_x)->x_mm -
         std::max_element(faces.left.begin(), faces.left.end(), by_x)->x_mm;
}

/// @param beyond_mm how far before and behind the base they are looked at as well
Flanks beside_base(const parts::Model& model, const Framing& framing, double beyond_mm) {
  const survey::Rect base = *plan_of(model, parts::Role::base);
  const bool aside = model.job.bench && model.job.bench->place != job::Side::back;
  return {framing, base.y0 - beyond_mm, base.y1 + beyond_mm, (base.x0 + base.x1) / 2, aside};
}

/// The heights over which the base is let down.
std::pair<double, double> way_down(const parts::Model& model, const facts::Heights& heights) {
  const double upstand = heights.upstand_top_mm.value_or(heights.rim_greatest_mm);
  const double from = std::min(model.job.base.lowered_from.in_mm(), model.job.alcove.height.in_mm());
  return {heights.rib_plane_mm, std::max(from, upstand)};
}

}  // namespace

double share_of_width(const facts::WidthRead& width, double z) {
  return width.height_mm > 0 ? std::clamp(z / width.height_mm, 0.0, 1.0) : 1;
}

void narrow_seat_in(const parts::Model& model, const std::vector<facts::WidthRead>& read, facts::DropIn& way) {
  const double entry = plan_of(model, parts::Role::base)->y0, depth = model.job.alcove.depth.in_mm();
  std::vector<Shortfall> passed;
  for (const facts::WidthRead& w : read)
    if (depth - w.from_back_mm >= entry && w.reading_mm < w.solids_mm) passed.push_back({w});
  const double top = way.carried_mm + way.height_mm;
  const Shortfall* most = way.between_walls ? most_at(passed, top) : nullptr;
  if (!most) return;
  way.least_mm -= most->at(top), way.tip_clear_mm -= most->at(top);
  way.narrower = most->width;
}

void narrow_entry(const parts::Model& model, facts::Facts& facts) {
  const double top = facts.heights.threshold_greatest_mm.value_or(facts.heights.rim_greatest_mm) + entry_reach_mm,
               depth = model.job.alcove.depth.in_mm();
  std::vector<Shortfall> at_entry;
  for (const facts::WidthRead& w : facts.room.widths)
    if (2 * w.from_back_mm >= depth) at_entry.push_back({w});
  const Shortfall* most = most_at(at_entry, top);
  if (!most) return;
  const auto narrow = [&](std::optional<double>& width) {
    if (width) *width -= most->at(top);
  };
  narrow(facts.clear.entry_mm), narrow(facts.clear.compartment.face_mm);
  if (facts.clear.finished) narrow(facts.clear.finished->entry_mm);
  facts.clear.narrower_at_entry = most->width;
}

facts::DropIn measure_drop_in(const parts::Model& model, const Framing& framing, const facts::Heights& heights,
                              const std::vector<facts::WidthRead>& read) {
  facts::DropIn drop;
  const auto box = parts::box_of(*model.first(parts::Role::base));
  drop.length_mm = box[3] - box[0];
  drop.height_mm = box[5] - box[2];
  drop.between_walls = model.job.alcove.has_wall(job::Side::left) && model.job.alcove.has_wall(job::Side::right);
  if (!drop.between_walls) return drop;
  const auto [low, high] = way_down(model, heights);
  const auto shortfalls = shortfalls_of(model, read);
  const Flanks flanks = beside_base(model, framing, 0);
  const auto width_at = [&](double z) {
    auto width = width_between(flanks.at(z));
    const Shortfall* most = most_at(shortfalls, z);
    if (width && most) *width -= most->at(z);
    return width;
  };
  std::vector<double> told = told_heights(low, high, shortfalls), all = flanks.heights(low, high);
  all.insert(all.end(), told.begin(), told.end());
  std::sort(all.begin(), all.end());
  drop.least_mm = std::numeric_limits<double>::max();
  for (const double z : all) {
    const auto width = width_at(z);
    if (!width || to_spare(*width, drop.length_mm) > drop.least_mm - same_mm) continue;
    drop.least_mm = to_spare(*width, drop.length_mm), drop.least_at_mm = z;
    const Shortfall* most = most_at(shortfalls, z);
    drop.narrower = most ? std::optional{most->width} : std::nullopt;
  }
  if (drop.least_mm < std::numeric_limits<double>::max()) told.push_back(drop.least_at_mm);
  std::sort(told.begin(), told.end());
  told.erase(std::unique(told.begin(), told.end(), [](double a, double b) { return b - a <= same_mm; }), told.end());
  for (const double z : told)
    if (const auto width = width_at(z)) drop.widths_mm.emplace_back(z, *width);  // else nothing stands on one side
  const auto levels = width_at(heights.upstand_top_mm.value_or(heights.rim_greatest_mm));
  drop.between_walls = levels && !drop.widths_mm.empty();
  if (drop.between_walls)
    tip(drop, *levels);
  else
    drop.least_mm = 0;
  return drop;
}

std::vector<Faces> faces_on_the_way_down(const parts::Model& model, const facts::Heights& heights, double beyond_mm) {
  const auto [low, high] = way_down(model, heights);
  const Flanks flanks = beside_base(model, Framing{model}, beyond_mm);
  std::vector<Faces> found;
  for (const double z : flanks.heights(low, high)) found.push_back(flanks.at(z));
  return found;
}

}  // namespace fallwright::measure
