#include "support/sample.hpp"
#include "support/imperial.hpp"

#include <algorithm>
#include <cmath>

namespace fallwright::sample {
namespace {

using job::Fall;
using job::Length;
using job::Side;

job::Bench bench() {
  job::Bench b;
  b.place = job::Side::left;
  b.depth = inches(14.5);
  b.height = inches(18);
  b.seat_thickness = inches(1.25);
  b.seat_fall = Fall::inches_per_foot(0.25);
  b.apron_thickness = b.upstand_thickness = inches(0.5);
  b.upstand_height = inches(3);
  b.material = "stone";
  b.density_kg_m3 = 2600;
  b.frame = {job::FrameKind::timber, two_by(3.5), two_by(3.5), inches(16), inches(0.75)};
  b.frame.fastener = "16d";
  b.frame.fastener_length = inches(3.5);
  b.frame.fasteners_at_stud = 3;
  b.frame.joist_fastener = "8d";
  b.frame.joist_fastener_length = inches(2.5);
  b.frame.fasteners_at_joist = 3;
  b.frame.rail_fastener = "16d";
  b.frame.rail_fastener_length = inches(3.5);
  b.frame.fasteners_at_rail = 3;
  b.frame.deck_fastener = "#10";
  b.frame.deck_fastener_length = inches(3);
  b.strength_mpa = 8;
  return b;
}

job::Buy buy() {
  job::Buy b;
  b.batch_mm3 = 0.45 * 304.8 * 304.8 * 304.8;
  b.tile = {{job::Tiled::floor, job::Tiled::threshold, job::Tiled::seat, job::Tiled::apron, job::Tiled::walls},
            {},
            inches(72),
            0.1,
            {}};
  b.bond = {false, inches(0.25), inches(0.375), inches(0.25), {}, 0.1};
  b.membrane = {inches(2), {}, 0.1};
  b.felt.waste = 0.1;
  b.sealant = {job::Bead::square, inches(0.25), inches(0.25), 10.1 * 231 / 128 * 25.4 * 25.4 * 25.4, 0.15};
  b.adhesive = {inches(0.375), inches(4), b.sealant.cartridge_mm3, 0.1};
  b.flashing.lap = inches(2);
  b.batch_minutes = 15;
  b.fasteners = {2, inches(3), inches(12), inches(16), 100};
  return b;
}

}  // namespace

job::Stock two_by(double width_in) {
  job::Stock stock;
  stock.name = width_in == 3.5 ? "2x4" : "2x10";
  stock.thickness = inches(1.5);
  stock.depth = inches(width_in);
  return stock;
}

job::Trap trap() {
  job::Trap t{Length::feet(3), Fall::inches_per_foot(0.25), {}, {}};
  t.hub = inches(-8), t.weir = inches(-11);
  t.from_left = inches(43.25), t.from_back = inches(16.25);
  t.to = Side::back;
  t.vented = true;
  return t;
}

job::Job alcove() {
  job::Job j;
  j.name = "sample alcove";
  j.alcove = {inches(72), inches(36), inches(96), {Side::back, Side::left, Side::right}};
  j.walls = {two_by(3.5), inches(16), 1, false, {inches(6), inches(34)}};
  j.floor.deck = inches(0.75);
  j.floor.beyond_entry = inches(12);
  j.floor.joist_stock = two_by(9.25);
  j.floor.joists_bored = false;
  j.floor.joist_spacing = inches(16);
  j.floor.joist_first = inches(3);
  j.base.length = inches(57.5);
  j.base.width = inches(36);
  j.base.fall = Fall::inches_per_foot(0.25);
  j.base.shell = j.base.rib_depth = inches(0.5);
  j.base.ribs = {8, 6, inches(0.5)};
  j.base.upstand_thickness = inches(0.5);
  j.base.upstand_height = inches(4);
  j.base.upstands = {Side::back, Side::left, Side::right};
  j.base.threshold = {inches(4), inches(2.5), Fall::inches_per_foot(0.25)};
  j.base.material = "base";
  j.base.density_kg_m3 = 1200;
  j.drain.size = inches(4);
  j.drain.across = {Side::left, inches(28.75)};
  j.drain.along = {Side::back, inches(16.25)};
  j.drain.recess = inches(0.375);
  j.drain.body = inches(3.25);
  j.drain.body_depth = inches(4);
  j.drain.outlet = inches(2);
  j.drain.flow_mm3 = 2.5 * 231 * 25.4 * 25.4 * 25.4;
  j.drain.bore = inches(5);
  j.drain.riser = inches(-1);
  j.bench = bench();
  j.bed.least = j.bed.holdback = j.bed.overrun = j.bed.collar = inches(0.5);
  j.bed.density_kg_m3 = 2080;
  j.bed.waste = 0.1;
  j.buy = buy();
  j.cuts = {{inches(96), inches(120), inches(144), inches(192)}, inches(0.125)};
  return j;
}

job::Job bare(Length length, Length width, Length x, Length y) {
  job::Job j = alcove();
  j.alcove.width = length;
  j.alcove.depth = width;
  j.bench.reset();
  j.base.length = length;
  j.base.width = width;
  j.base.ribs = {};
  j.base.rib_depth = Length{};
  j.base.shell = inches(1);
  j.base.upstands.clear();
  j.base.lapped = j.alcove.walls;
  j.base.threshold = {};
  j.bed.holdback = j.bed.overrun = Length{};
  j.drain.opening = job::Opening::round;
  j.drain.across = {Side::left, x};
  j.drain.along = {Side::front, y};
  return j;
}

job::Length above_edge(const job::Job& job, job::Length above_centre) {
  const double x = job.drain.across.distance.in_mm(), y = job.drain.along.distance.in_mm();
  const double across = std::max(x, job.base.length.in_mm() - x), along = std::max(y, job.base.width.in_mm() - y);
  return above_centre * (1 - job.drain.size.in_mm() / 2 / std::hypot(across, along));
}

void read_plan(job::Job& job, survey::Point bl, survey::Point br, survey::Point fl, survey::Point fr) {
  const auto reading = [](survey::Point a, survey::Point b) {
    return survey::Reading{std::hypot(a.x - b.x, a.y - b.y), 25.4 / 16, survey::Face::stud, 0};
  };
  job.survey.plan = {reading(bl, br), reading(fl, fr), reading(bl, fl),
                     reading(br, fr), reading(bl, fr), reading(br, fl)};
}

job::Job surveyed(job::Job job) {
  const double w = job.alcove.width.in_mm(), d = job.alcove.depth.in_mm();
  job.survey.tolerance_mm = 25.4 / 16;
  job.survey.level_tolerance_mm = 25.4 / 32;
  read_plan(job, {0, d}, {w + 2, d}, {-4, -1}, {w + 3, 0});
  const auto lean = [&](Side wall, double along, double mm) {
    job.survey.plumbs.push_back({wall, along, {mm, 25.4 / 16, survey::Face::stud, 0}, 1200});
  };
  lean(Side::left, 400, -2);
  lean(Side::right, 100, -1);
  lean(Side::right, 800, 1);
  lean(Side::back, 900, 2);
  int i = 0;
  for (const double x : {0.02, 0.33, 0.66, 0.98})
    for (const double y : {0.03, 0.5, 0.96}) job.survey.spots.push_back({x * w, y * d, (i++ * 7 % 5) * 0.8});
  job.survey.spots.push_back({0.7 * w, 0.62 * d, 6});
  return job;
}

}  // namespace fallwright::sample
