#include <algorithm>
#include <cmath>

#include "brep/properties.hpp"
#include "job/layout.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "study/doubts.hpp"
#include "study/worst.hpp"

namespace fallwright::study {
namespace {

/// The mortar set is the bed's plan times the datum's height, less what lies under the floor, but for a constant: the
/// datum is the highest of the floor's corners under the base, and heights of the floor hang on the spots in
/// proportion. `share[c][i]`: how much corner c rises with spot i.
struct Bed {
  double set_mm3 = 0;
  double plan_mm2 = 0;            ///< of all of it
  std::vector<double> floor_mm2;  ///< by spot: the volume under the floor for each unit of its height
  std::vector<double> below_mm;   ///< by corner: how far below the datum it lies
  std::vector<std::vector<double>> share;
};

double highest(const survey::Floor& floor, const std::vector<survey::Point>& corners) {
  double z = floor.at(corners.front().x, corners.front().y);
  for (const survey::Point& p : corners) z = std::max(z, floor.at(p.x, p.y));
  return z;
}

/// Places of every corner that the floor may have under the base: those of one through spots no four of which are even.
std::vector<survey::Point> corners_of(const job::Job& job, const job::Layout& layout) {
  std::vector<survey::Spot> uneven = job.survey.spots;
  for (std::size_t i = 0; i < uneven.size(); ++i) uneven[i].z = std::sqrt(2.0 + static_cast<double>(i * i));
  std::vector<survey::Point> corners;
  for (const survey::Spot& s : survey::floor_through(uneven, layout.extent).corners(survey::to_polygon(layout.base))) {
    const auto same = [&](const survey::Point& p) { return std::hypot(p.x - s.x, p.y - s.y) < 1e-3; };
    if (std::none_of(corners.begin(), corners.end(), same)) corners.push_back({s.x, s.y});
  }
  return corners;
}

/// The volume under a floor over the bed as far as it is spread, the hole round the drain as a polygon.
double under_mm3(const survey::Floor& floor, const job::Job& job, const job::Layout& layout) {
  const auto volume = [](const survey::Cell& cell, const survey::Polygon& over) {
    const survey::Polygon p = survey::common(cell.plan, over);
    double sum = 0;
    for (std::size_t i = 1; i + 1 < p.size(); ++i) {
      const double area = ((p[i].x - p[0].x) * (p[i + 1].y - p[0].y) - (p[i + 1].x - p[0].x) * (p[i].y - p[0].y)) / 2;
      sum += area * cell.plane.at((p[0].x + p[i].x + p[i + 1].x) / 3, (p[0].y + p[i].y + p[i + 1].y) / 3);
    }
    return sum;
  };
  constexpr int chords = 96;
  const double radius = (job.drain.bore / 2 + job.bed.collar).in_mm();
  survey::Polygon hole;
  for (int i = 0; i < chords; ++i)
    hole.push_back({layout.drain_x + radius * std::cos(2 * M_PI * i / chords),
                    layout.drain_y + radius * std::sin(2 * M_PI * i / chords)});
  double sum = 0;
  for (const survey::Cell& cell : floor.cells())
    sum += volume(cell, survey::to_polygon(layout.bed)) - volume(cell, hole);
  return sum;
}

Bed look_at(const job::Job& job, const std::vector<Doubt>& doubts, const facts::Facts& facts) {
  const job::Layout layout = job::lay_out(job);
  const auto corners = corners_of(job, layout);
  const survey::Floor own = survey::floor_through(job.survey.spots, layout.extent);
  const double datum = highest(own, corners), under = under_mm3(own, job, layout);
  Bed bed{facts.bed.set_mm3, 0, {}, {}, std::vector<std::vector<double>>(corners.size())};
  for (const survey::Point& p : corners) bed.below_mm.push_back(datum - own.at(p.x, p.y));
  for (const Doubt& doubt : doubts) {
    constexpr double by_mm = 10;
    job::Job other = job;
    doubt.move(other, by_mm);
    const survey::Floor moved = survey::floor_through(other.survey.spots, layout.extent);
    bed.floor_mm2.push_back((under_mm3(moved, job, layout) - under) / by_mm);
    bed.plan_mm2 += bed.floor_mm2.back();  // all spots together lift the floor by their own rise
    for (std::size_t c = 0; c < corners.size(); ++c)
      bed.share[c].push_back((moved.at(corners[c].x, corners[c].y) - own.at(corners[c].x, corners[c].y)) / by_mm);
  }
  return bed;
}

/// With the datum taken at the mean of some corners, which it never lies below, the volume is a straight sum over
/// spots.
struct Sum {
  double now = 0;
  std::vector<double> by;  ///< for each spot, by its tolerance
  double least() const {
    double v = now;
    for (const double b : by) v -= std::abs(b);
    return v;
  }
  double greatest() const {
    double v = now;
    for (const double b : by) v += std::abs(b);
    return v;
  }
};

Sum with_datum_at(const Bed& bed, const std::vector<std::size_t>& corners, const std::vector<Doubt>& doubts) {
  const double n = static_cast<double>(corners.size());
  Sum sum{bed.set_mm3, {}};
  for (const std::size_t c : corners) sum.now -= bed.plan_mm2 * bed.below_mm[c] / n;
  for (std::size_t i = 0; i < doubts.size(); ++i) {
    double rise = 0;
    for (const std::size_t c : corners) rise += bed.share[c][i] / n;
    sum.by.push_back((bed.plan_mm2 * rise - bed.floor_mm2[i]) * doubts[i].tolerance_mm);
  }
  return sum;
}

/// The job with every spot moved the way that makes most of a sum (`way` 1) or least of it (-1).
job::Job all_moved(job::Job job, const Sum& sum, const std::vector<Doubt>& doubts, int way) {
  for (std::size_t i = 0; i < doubts.size(); ++i)
    doubts[i].move(job, way * std::copysign(doubts[i].tolerance_mm, sum.by[i]));
  return job;
}

/// What the walls' readings can change besides: they shift base and bed over a floor that is not level. The spots then
/// keep their distance from the left corner or from the right one, whichever changes more.
double by_walls_mm3(const job::Job& job) {
  const auto back_mm = [](const job::Job& j) { return survey::close(j.survey).figure.back_right.x; };
  const auto under = [](const job::Job& j) {
    const job::Layout layout = job::lay_out(j);  // its subfloor lies below the datum of its own base
    return under_mm3(layout.subfloor, j, layout);
  };
  const double own = under(job), own_back = back_mm(job);
  double sum = 0;
  for (const Doubt& doubt : doubts_of_plan_and_plumb(job)) {
    double most = 0;
    for (const int way : {1, -1}) {
      job::Job other = job;
      doubt.move(other, way * doubt.tolerance_mm);
      most = std::max(most, std::abs(under(other) - own));
      const double longer = back_mm(other) - own_back;
      for (survey::Spot& spot : other.survey.spots) spot.x += longer;
      most = std::max(most, std::abs(under(other) - own));
    }
    sum += most;
  }
  return sum;
}

}  // namespace

facts::Worst worst_bed(const parts::Model& model, const facts::Facts& facts) {
  const auto doubts = doubts_of_floor(model.job);
  const double set = facts.bed.set_mm3;
  facts::Worst worst{"mortar in the bed as set", set, set, set, "", 0, "mm3"};
  const Bed bed = look_at(model.job, doubts, facts);
  std::vector<std::size_t> by_height(bed.below_mm.size());
  for (std::size_t c = 0; c < by_height.size(); ++c) by_height[c] = c;
  std::stable_sort(by_height.begin(), by_height.end(),
                   [&](std::size_t a, std::size_t b) { return bed.below_mm[a] < bed.below_mm[b]; });
  // The datum is at the highest corner, so the volume is that of the one which makes most of it. It is never less than
  // with the datum at a mean of corners, of which the best is taken: a bound.
  std::optional<Sum> most, least;
  std::vector<std::size_t> together;
  for (const std::size_t c : by_height) {
    together.push_back(c);
    const Sum alone = with_datum_at(bed, {c}, doubts), mean = with_datum_at(bed, together, doubts);
    for (const Sum& sum : {alone, mean})
      if (!least || sum.least() > least->least()) least = sum;
    if (!most || alone.greatest() > most->greatest()) most = alone;
  }
  for (std::size_t i = 0; i < doubts.size(); ++i)
    if (std::abs(most->by[i]) > worst.by_reading)
      worst.by_reading = std::abs(most->by[i]), worst.reading = doubts[i].name;
  const job::Job fullest = all_moved(model.job, *most, doubts, 1);
  worst.greatest = most->greatest();
  worst.unknown = refusal_of(
      "bed", [&] { worst.greatest = std::max(worst.greatest, brep::volume_mm3(parts::build_bed(fullest).shape)); });
  worst.greatest += by_walls_mm3(fullest);
  worst.least = std::min(least->least(), set) - by_walls_mm3(all_moved(model.job, *least, doubts, -1));
  return worst;
}

}  // namespace fallwright::study
