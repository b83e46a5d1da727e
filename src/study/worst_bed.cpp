#include <algorithm>
#include <cmath>
#include <utility>

#include "brep/properties.hpp"
#include "job/bed_pieces.hpp"
#include "job/layout.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "study/doubts.hpp"
#include "study/worst.hpp"
#include "survey/floor_net.hpp"
#include "units/tolerance.hpp"

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

/// Area and middle of the triangles of what lies in a polygon.
template <class Take>
void each_triangle(const survey::Polygon& plan, const survey::Polygon& over, const Take& take) {
  const survey::Polygon p = survey::common(plan, over);
  for (std::size_t i = 1; i + 1 < p.size(); ++i)
    take(((p[i].x - p[0].x) * (p[i + 1].y - p[0].y) - (p[i + 1].x - p[0].x) * (p[i].y - p[0].y)) / 2,
         survey::Point{(p[0].x + p[i].x + p[i + 1].x) / 3, (p[0].y + p[i].y + p[i + 1].y) / 3});
}

/// The volume under a floor over the bed as far as it is spread.
double under_mm3(const survey::Floor& floor, const job::Job& job, const job::Layout& layout) {
  const survey::Polygon bed = layout.bed_outline.polygon(), hole = job::hole_in_bed(job, layout);
  double sum = 0;
  for (const survey::Cell& cell : floor.cells()) {
    each_triangle(cell.plan, bed, [&](double area, survey::Point p) { sum += area * cell.plane.at(p.x, p.y); });
    each_triangle(cell.plan, hole, [&](double area, survey::Point p) { sum -= area * cell.plane.at(p.x, p.y); });
  }
  return sum;
}

/// How much that volume grows with each spot.
std::vector<double> under_by_spot_mm2(const survey::FloorShares& floor, const job::Job& job,
                                      const job::Layout& layout) {
  const survey::Polygon bed = layout.bed_outline.polygon(), hole = job::hole_in_bed(job, layout);
  survey::HeightShare sum;
  for (const survey::SharedCell& cell : floor.cells()) {
    each_triangle(cell.plan, bed, [&](double area, survey::Point p) { sum.add(cell.at(p), area); });
    each_triangle(cell.plan, hole, [&](double area, survey::Point p) { sum.add(cell.at(p), -area); });
  }
  return floor.spread(sum);
}

/// Every place where the floor may be highest under the base, each place once, with what its height hangs on.
std::vector<std::vector<double>> corners_by_spot(const survey::FloorShares& floor, const job::Job& job,
                                                 const job::Layout& layout) {
  const survey::Polygon base = layout.base_outline.polygon();
  constexpr double same_mm = 1e-3;
  std::vector<survey::Point> corners;
  std::vector<std::vector<double>> shares;
  for (const survey::SharedCell& cell : floor.cells())
    for (const survey::Point& p : job::places_outside_bore(survey::common(cell.plan, base), job, layout)) {
      const bool known = std::any_of(corners.begin(), corners.end(), [&](const survey::Point& c) {
        return std::abs(c.x - p.x) < same_mm && std::abs(c.y - p.y) < same_mm;
      });
      if (known) continue;
      corners.push_back(p);
      shares.push_back(floor.spread(cell.at(p)));
    }
  return shares;
}

/// Corners of a bed that is built on site: places where it may be thinnest, each with the bed's own top there. Its top
/// rises as a whole, until it is nowhere too thin.
struct OnSite {
  std::vector<std::vector<double>> shares;
  std::vector<double> tops_mm;
};
OnSite corners_on_site(const survey::FloorShares& floor, const job::Job& job, const job::Layout& layout) {
  std::vector<survey::Polygon> cells;
  for (const survey::SharedCell& cell : floor.cells()) cells.push_back(cell.plan);
  OnSite corners;
  for (const job::BedPiece& piece : job::bed_pieces(job, layout, cells))
    for (const survey::Point& p : job::places_outside_hole(piece.plan, job, layout)) {
      corners.shares.push_back(floor.spread(floor.cells()[piece.cell].at(p)));
      corners.tops_mm.push_back(piece.top.at(p.x, p.y));
    }
  return corners;
}

Bed look_at(const job::Job& job, const facts::Facts& facts) {
  const job::Layout layout = job::lay_out(job);
  const survey::FloorShares floor{layout.spots, layout.extent};
  OnSite on_site;
  if (job.base.is_site_built()) on_site = corners_on_site(floor, job, layout);
  Bed bed{facts.bed.set_mm3,
          0,
          under_by_spot_mm2(floor, job, layout),
          {},
          job.base.is_site_built() ? std::move(on_site.shares) : corners_by_spot(floor, job, layout)};
  for (const double by_spot : bed.floor_mm2)
    bed.plan_mm2 += by_spot;  // all spots together lift the floor by their rise
  double datum = -1e300;
  for (const std::vector<double>& share : bed.share) {
    double z = 0;
    for (std::size_t i = 0; i < share.size(); ++i) z += share[i] * job.survey.spots[i].z;
    if (!on_site.tops_mm.empty()) z -= on_site.tops_mm[bed.below_mm.size()];
    bed.below_mm.push_back(z), datum = std::max(datum, z);
  }
  for (double& z : bed.below_mm) z = datum - z;
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

/// The datum at the mean of some corners: how far that lies below the highest one, and how it rises with each spot.
struct Datum {
  double below_mm = 0;
  std::vector<double> share;
};

Sum with_datum_at(const Bed& bed, const Datum& datum, double corners, const std::vector<Doubt>& doubts) {
  Sum sum{bed.set_mm3 - bed.plan_mm2 * datum.below_mm / corners, {}};
  for (std::size_t i = 0; i < doubts.size(); ++i)
    sum.by.push_back((bed.plan_mm2 * datum.share[i] / corners - bed.floor_mm2[i]) * doubts[i].tolerance_mm);
  return sum;
}

/// The job with every spot moved the way that makes most of a sum (`way` 1) or least of it (-1).
job::Job all_moved(job::Job job, const Sum& sum, const std::vector<Doubt>& doubts, int way) {
  for (std::size_t i = 0; i < doubts.size(); ++i)
    if (std::abs(sum.by[i]) > units::tolerance::overlap_mm3)  // else rounding alone would say which way
      doubts[i].move(job, way * std::copysign(doubts[i].tolerance_mm, sum.by[i]));
  return job;
}

/// All mortar that a base built on site wants between floor and waterproofing, with the top coat on a liner.
double on_site_mm3(const job::Job& job) {
  const job::Layout layout = job::lay_out(job);
  std::vector<survey::Polygon> cells;
  for (const survey::Cell& cell : layout.subfloor.cells()) cells.push_back(cell.plan);
  const bool liner = job.base.site.waterproofing == job::Waterproofing::liner;
  const double coat = liner ? job.base.shell.in_mm() : 0;
  const survey::Polygon hole = job::hole_in_bed(job, layout);
  double sum = 0;
  for (const job::BedPiece& piece : job::bed_pieces(job, layout, cells)) {
    const job::HeightPlane& floor = layout.subfloor.cells()[piece.cell].plane;
    const auto thick = [&](survey::Point p) { return piece.top.at(p.x, p.y) - floor.at(p.x, p.y) + coat; };
    each_triangle(piece.plan, piece.plan, [&](double area, survey::Point p) { sum += area * thick(p); });
    each_triangle(piece.plan, hole, [&](double area, survey::Point p) { sum -= area * thick(p); });
  }
  return sum;
}

/// What hangs on where the walls stand: of a base built on site, whose outline is theirs, all its mortar; else the
/// floor under bed and base.
double by_outline_mm3(const job::Job& job) {
  if (job.base.is_site_built()) return on_site_mm3(job);
  const job::Layout layout = job::lay_out(job);  // its subfloor lies below the datum of its own base
  return under_mm3(layout.subfloor, job, layout);
}

/// What the walls' readings can change besides, each moved by itself: they shift what is built over a floor that is not
/// level. The spots then keep their distance from the left wall or from the right one, whichever changes more: which of
/// them a tape was hooked on is the other in a mirror.
double by_walls_mm3(const job::Job& job) {
  const auto faces_of = [](const job::Job& j) {
    return survey::make_room(j.survey, j.alcove.width.in_mm(), j.alcove.depth.in_mm(), j.alcove.walls).faces();
  };
  const survey::StudFaces faces = faces_of(job);
  const double own = by_outline_mm3(job);
  double sum = 0;
  for (const Doubt& doubt : doubts_of_plan_and_plumb(job)) {
    double most = 0;
    for (const int way : {1, -1}) {
      job::Job other = job;
      doubt.move(other, way * doubt.tolerance_mm);
      most = std::max(most, std::abs(by_outline_mm3(other) - own));
      const survey::StudFaces moved = faces_of(other);
      bool wider = false;
      for (survey::Spot& spot : other.survey.spots) {
        const auto width = [&](const survey::StudFaces& f) { return f.right.at(spot.y) - f.left.at(spot.y); };
        const double by = width(moved) - width(faces);
        spot.x += by, wider = wider || by != 0;
      }
      if (!wider) continue;
      most = std::max(most, std::abs(by_outline_mm3(other) - own));
    }
    sum += most;
  }
  return sum;
}

}  // namespace

facts::Worst worst_bed(const parts::Model& model, const facts::Facts& facts) {
  const auto doubts = doubts_of_floor(model.job);
  const double set = facts.bed.set_mm3;
  facts::Worst worst{facts::worst_mortar, set, set, set, "", 0, facts::Bounded::volume};
  const Bed bed = look_at(model.job, facts);
  std::vector<std::size_t> by_height(bed.below_mm.size());
  for (std::size_t c = 0; c < by_height.size(); ++c) by_height[c] = c;
  std::stable_sort(by_height.begin(), by_height.end(),
                   [&](std::size_t a, std::size_t b) { return bed.below_mm[a] < bed.below_mm[b]; });
  // The datum is at the highest corner, so the volume is that of the one which makes most of it. It is never less than
  // with the datum at a mean of corners, of which the best is taken: a bound.
  std::optional<Sum> most, least;
  Datum together{0, std::vector<double>(doubts.size(), 0)};
  double count = 0;
  for (std::size_t i = 0; i < by_height.size(); ++i) {
    const std::size_t c = by_height[i];
    together.below_mm += bed.below_mm[c], ++count;
    for (std::size_t k = 0; k < doubts.size(); ++k) together.share[k] += bed.share[c][k];
    const Sum alone = with_datum_at(bed, {bed.below_mm[c], bed.share[c]}, 1, doubts);
    if (!least || alone.least() > least->least()) least = alone;
    // Of corners that are as high none comes before the others.
    const bool last =
        i + 1 == by_height.size() || bed.below_mm[by_height[i + 1]] - bed.below_mm[c] > units::tolerance::length_mm;
    if (const Sum mean = with_datum_at(bed, together, count, doubts); last && mean.least() > least->least())
      least = mean;
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
