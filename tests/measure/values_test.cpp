/// One room that is alike in no direction, and what is told of it number by number, each worked out by hand: a
/// specification of what the facts' fields mean.
#include <algorithm>
#include <cmath>
#include <set>

#include <gtest/gtest.h>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <gp_Trsf.hxx>

#include "job/read.hpp"
#include "measure/detail.hpp"
#include "measure/measure.hpp"
#include "measure/once.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"

namespace fallwright::measure {
namespace {

/// 1900 x 1000 with a bench of 400 at the right; the floor is 10 lower at the back than at the entry. The base's floor
/// runs from x 12 to 1488 and from y 100 to 988, the drain's opening from 650 to 750 and from 500 to 600.
const std::string room = R"([job]
name = "x"
unit = "mm"
[alcove]
width = 1900
depth = 1000
height = 2400
[walls]
stock = "45x95 mm"
spacing = 400
blocking = [150, 900]
[floor]
deck = 22
drop_along_width = 0
drop_along_depth = 10
[floor.joists]
stock = "45x195 mm"
spacing = 400
first = 70
direction = "along-depth"
[base]
length = 1500
width = 1000
fall = "2 %"
shell = 12
rib_depth = 12
[base.ribs]
columns = 8
rows = 6
width = 12
[base.upstands]
thickness = 12
height = 100
[base.threshold]
width = 100
height = 60
fall = "2 %"
[bed]
least = 15
[bench]
place = "right-end"
depth = 400
height = 450
seat_thickness = 30
seat_fall = "2 %"
apron_thickness = 12
[bench.frame]
stock = "45x95 mm"
spacing = 400
deck = 18
[[fixture]]
name = "grab bar"
wall = "right"
along = 500
height = 420
width = 100
tall = 200
)";

std::string with_drain(double from_left) {
  return room + "[drain]\nsize = 100\nfrom_left = " + std::to_string(from_left) +
         "\nfrom_back = 450\nbody = 80\noutlet = 50\nbore = 125\n";
}

facts::Facts facts_of(double drain_from_left) {
  return measured(job::read(with_drain(drain_from_left), "x.toml"));
}

const facts::Facts& values() {
  static const facts::Facts facts = facts_of(700);
  return facts;
}

constexpr double run_right = 1488 - 750, rise = 0.02 * run_right;

TEST(Values, OfFacetsAndTheirCreases) {
  // Source: by hand: a level rim stands over the opening's edge by the fall on the longest run, to the right.
  const std::pair<const char*, double> runs[] = {
      {"left", 650 - 12}, {"right", run_right}, {"back", 988 - 600}, {"front", 500 - 100}};
  for (const auto& [name, run] : runs) {
    const auto facet = std::find_if(values().facets.begin(), values().facets.end(), [name = name](const auto& f) {
      return f.surface == facts::Surface::base_floor && f.facet == name;
    });
    ASSERT_NE(facet, values().facets.end()) << name;
    EXPECT_NEAR(facet->run_mm, run, 1e-6) << name;
    EXPECT_NEAR(facet->fall, rise / run, 1e-9) << name;
  }
  std::set<std::set<std::string>> meet;
  for (const facts::Crease& crease : values().creases)
    if (crease.surface == facts::Surface::base_floor) {
      meet.insert({crease.facet_a, crease.facet_b});
      const bool back = crease.facet_a == "back" || crease.facet_b == "back",
                 left = crease.facet_a == "left" || crease.facet_b == "left";
      EXPECT_NEAR(crease.low_mm[0], left ? 650 : 750, 1e-6);
      EXPECT_NEAR(crease.high_mm[1], back ? 988 : 100, 1e-6);
      EXPECT_TRUE(crease.valley) << "water runs to a hip that leads down to the drain";
    }
  EXPECT_EQ(meet, (std::set<std::set<std::string>>{
                      {"back", "left"}, {"back", "right"}, {"front", "left"}, {"front", "right"}}));
}

TEST(Values, OfGaugePointsOnASlopingFloor) {
  // Source: by hand: what the floor is lower toward the back, one in a hundred, the bed is thicker; the level line is
  // one height everywhere.
  const facts::Facts& f = values();
  ASSERT_GE(f.room.gauges.size(), 6u);
  const double highest = f.room.gauges.front().floor_mm + f.room.gauges.front().y_mm / 100;
  EXPECT_LT(f.room.gauges.front().x_mm, 750) << "A1 is back left";
  EXPECT_GT(f.room.gauges.front().y_mm, 550);
  for (const facts::Gauge& g : f.room.gauges) {
    EXPECT_NEAR(g.floor_mm, highest - g.y_mm / 100, 1e-6) << g.name;
    EXPECT_NEAR(g.set_mm, f.heights.rib_plane_mm - g.floor_mm, 1e-6) << g.name;
    EXPECT_NEAR(g.spread_mm, f.bed.gauge_mm - g.floor_mm, 1e-6) << g.name;
    EXPECT_EQ(g.clear, std::hypot(g.x_mm - 700, g.y_mm - 550) < 62.5) << g.name;
  }
}

TEST(Values, OfWhatHoldsAnUpstand) {
  // Source: by hand: fasteners go in 1/8 in over the upstand's edge; the stretch is told from the upstand's own left or
  // back end and, the same, in the room.
  for (const facts::Hold& hold : values().holds) {
    const std::string name = job::name_of(hold.side);
    EXPECT_NEAR(hold.thickness_mm, 12, 1e-6) << name;
    EXPECT_NEAR(hold.screws_mm, values().heights.drain_top_mm + 100 + 3.175, 1e-6) << name;
    EXPECT_NEAR(hold.to_mm - hold.from_mm, hold.apart_mm, 1e-6) << name;
    const std::size_t along = hold.side == job::Side::back ? 0 : 1;
    for (const auto& [told, at] : {std::pair{hold.from_mm, hold.from_at_mm}, {hold.to_mm, hold.to_at_mm}}) {
      EXPECT_NEAR(at[along], hold.side == job::Side::back ? told : 1000 - told, 1e-6) << name;
      EXPECT_NEAR(at[1 - along],
                  hold.side == job::Side::back   ? 1000
                  : hold.side == job::Side::left ? 0
                                                 : 1500,
                  1e-6)
          << name;
    }
  }
  EXPECT_EQ(values().holds.size(), 3u);
}

TEST(Values, OfAFixtureBehindABench) {
  // Source: by hand: the plate stands from 320 to 520 above the datum, the seat's own upstand at the wall up to 450 and
  // what the seat rises over its depth and turns up.
  ASSERT_EQ(values().backings.size(), 1u);
  const facts::Backing& bar = values().backings.front();
  EXPECT_NEAR(bar.behind_bench, std::min(200., bar.clear_by_mm) / 200, 1e-9);
  const auto seat = std::find_if(values().parts.begin(), values().parts.end(),
                                 [](const facts::Part& p) { return p.id == "seat-block"; });
  ASSERT_NE(seat, values().parts.end());
  EXPECT_NEAR(bar.clear_by_mm, seat->bbox_mm[5] - 320, 1e-6);
}

TEST(Values, OfABenchsRailAndJoists) {
  // Source: by hand: joists run from the wall's studs, over the cleat, to the rail, 45 thick, whose front is the
  // frame's; the apron hangs before it. The second moment of a 45 x 95 lying on its side is 95 times 45 cubed over
  // twelve.
  ASSERT_TRUE(values().rail);
  EXPECT_NEAR(values().rail->deck_mm, 18, 1e-6);
  EXPECT_NEAR(values().rail->thickness_mm, 45, 1e-6);
  EXPECT_NEAR(values().rail->joist_mm, 400 - 45, 1e-6);
  const auto joist = std::find_if(values().bearers.begin(), values().bearers.end(),
                                  [](const facts::Bearer& b) { return b.kind == facts::Bears::joist; });
  ASSERT_NE(joist, values().bearers.end());
  EXPECT_NEAR(joist->weak_mm4, 95 * std::pow(45, 3) / 12, 1e-3);
  EXPECT_EQ(joist->lip_mm, 0) << "solid wood";
}

TEST(Values, OfTheJoistsThatARailHolds) {
  // Source: by hand: the sample's bench is 36 in long with four joists 11-1/2 in apart from 3/4 in on, whichever end it
  // stands at; across the back 72 in with six, 14.1 in apart. The rail is 1-1/2 in thick and as long as the bench.
  for (const auto place : {job::Side::left, job::Side::right, job::Side::back}) {
    job::Job job = sample::alcove();
    job.bench->place = place;
    if (place == job::Side::back) {
      job.base.length = job.alcove.width;
      job.alcove.depth = job.base.width + job.bench->depth;
    }
    const auto rail = measure_rail(parts::build_framing(job));
    ASSERT_TRUE(rail) << name_of(place);
    const bool back = place == job::Side::back;
    EXPECT_NEAR(rail->thickness_mm, 1.5 * 25.4, 1e-6);
    EXPECT_NEAR(rail->from_mm, 0, 1e-6) << name_of(place);
    EXPECT_NEAR(rail->to_mm, (back ? 72 : 36) * 25.4, 1e-6) << name_of(place);
    std::vector<double> at = rail->joists_at_mm;
    std::sort(at.begin(), at.end());
    ASSERT_EQ(at.size(), back ? 6u : 4u) << name_of(place);
    for (std::size_t i = 0; i < at.size(); ++i)
      EXPECT_NEAR(at[i], (0.75 + static_cast<double>(i) * (back ? 14.1 : 11.5)) * 25.4, 0.5 * 25.4 / 16)
          << name_of(place) << " " << i << ", to the nearest mark of the tape";
    EXPECT_NEAR(rail->joist_mm, 13 * 25.4, 1e-6) << name_of(place);
  }
}

TEST(Values, OfJoistsThatDoNotReachARail) {
  // Source: by hand: one of four joists pushed an inch away from the rail is held by it no more, on either hand.
  for (const auto place : {job::Side::left, job::Side::right}) {
    job::Job job = sample::alcove();
    job.bench->place = place;
    parts::Model model = parts::build_framing(job);
    const auto joist = std::find_if(model.solids.begin(), model.solids.end(), [](const parts::Solid& s) {
      return s.part.is(parts::Role::bench_frame, parts::Kind::joist);
    });
    ASSERT_NE(joist, model.solids.end());
    gp_Trsf away;
    away.SetTranslation({place == job::Side::left ? -25.4 : 25.4, 0, 0});
    joist->shape = TopoDS::Solid(joist->shape.Moved(TopLoc_Location{away})), joist->skin.reset();
    EXPECT_EQ(measure_rail(model)->joists_at_mm.size(), 3u) << name_of(place);
  }
}

TEST(Values, OfTheSeatsReach) {
  // Source: by hand: from the base's front edge a seat at an end begins at once, one at the back where
  // its apron hangs over the base's upstand.
  ASSERT_TRUE(values().clear.seat_reach_mm);
  EXPECT_NEAR(*values().clear.seat_reach_mm, 0, 1e-6);
  std::string back = with_drain(700);
  for (const auto& [from, to] : {std::pair<std::string, std::string>{"right-end", "back"},
                                 {"width = 1900", "width = 1500"},
                                 {"depth = 1000", "depth = 1400"},
                                 {"wall = \"right\"", "wall = \"back\""}})
    back.replace(back.find(from), from.size(), to);
  const facts::Facts facts = measured(job::read(back, "x.toml"));
  ASSERT_TRUE(facts.clear.seat_reach_mm);
  EXPECT_NEAR(*facts.clear.seat_reach_mm, 1000 - 12, 1e-6);
}

TEST(Values, OfABaseThatLies) {
  // Source: by hand: places of the rim and of the edges in plan, and that the rim is level.
  const auto model = parts::build(job::read(with_drain(700), "x.toml"));
  const facts::Lying lying = measure_lying(*model);
  EXPECT_NEAR(lying.length_mm, 1500, 1e-6);
  EXPECT_NEAR(lying.width_mm, 1000, 1e-6);
  const double top = values().heights.drain_top_mm;
  const auto place = [&](const std::string& name) {
    for (const facts::RimPlace& p : lying.places)
      if (p.name == name) return p;
    return facts::RimPlace{"none of " + name};
  };
  const std::tuple<const char*, double, double, double> places[] = {{"back left", 12, 988, rise},
                                                                    {"front right", 1488, 100, rise},
                                                                    {"left", 12, 544, rise},
                                                                    {"front", 750, 100, rise},
                                                                    {"upstand back left", 0, 1000, 100},
                                                                    {"upstand right", 1500, 500, 100},
                                                                    {"threshold left", 0, 0, 60 + 100 * 0.02},
                                                                    {"threshold right", 1500, 0, 60 + 100 * 0.02}};
  for (const auto& [name, x, y, up] : places) {
    const facts::RimPlace found = place(name);
    EXPECT_EQ(found.name, name);
    EXPECT_NEAR(found.x_mm, x, 1e-6) << name;
    EXPECT_NEAR(found.y_mm, y, 1e-6) << name;
    EXPECT_NEAR(found.designed_mm, top + up, 1e-6) << name;
  }
  EXPECT_NEAR(lying.drain_top[0], 700, 1e-6);
  EXPECT_NEAR(lying.drain_top[1], 550, 1e-6);
  const auto drain =
      std::find_if(values().parts.begin(), values().parts.end(), [](const facts::Part& p) { return p.id == "drain"; });
  EXPECT_NEAR(lying.drain_low_mm, drain->bbox_mm[2], 1e-6);
  EXPECT_LT(lying.drain_low_mm, top - 12) << "its body stands in the bore";
  ASSERT_FALSE(lying.open_edges.empty()) << "walls and bench stand on three sides, nothing at the entry";
  for (const facts::Point& p : lying.open_edges)
    EXPECT_NEAR(p[2], top + 60 + (100 - p[1]) * 0.02, 1e-6) << "the threshold's top, at " << p[1];
  // The apron hangs over the right edge of the base and stands on its upstand there.
  ASSERT_FALSE(lying.below_apron.empty());
  for (const facts::Point& p : lying.below_apron) EXPECT_GE(p[0], 1488 - 1e-6);
  ASSERT_TRUE(lying.apron_foot_mm);
  EXPECT_GE(*lying.apron_foot_mm, top + 100 - 1e-6);
}

TEST(Values, OfWhereAFloorIsHollowAndWhereItRocks) {
  // Source: by hand: a hollow of 6 between level corners. With corners of 0, 3, 1 and 2 (back left, back right, front
  // right, front left) a base stands on the high diagonal from back right to front left and on one corner more, and
  // 0 - 3 + 1 - 2 = 4 is open under the fourth; its own middle lies on the diagonal, so that it may rock to either.
  job::Job j = sample::bare(inches(60), inches(34), inches(10), inches(17));
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
  j.survey.level_tolerance_mm = 0.8;
  j.survey.spots = {{0, d, 0}, {w, d, 0}, {w, 0, 0}, {0, 0, 0}, {w * 0.3, d * 0.6, -6}};
  const facts::FloorShape hollow = measured(j).room.floor;
  EXPECT_NEAR(hollow.hollow_mm, 6, 1e-6);
  EXPECT_NEAR(hollow.hollow_at_mm[0], w * 0.3, 1e-6);
  EXPECT_NEAR(hollow.hollow_at_mm[1], d * 0.6, 1e-6);
  j.survey.spots = {{0, d, 0}, {w, d, 3}, {w, 0, 1}, {0, 0, 2}};
  const facts::FloorShape rocks = measured(j).room.floor;
  EXPECT_NEAR(rocks.rock_mm, 4, 1e-6);
  EXPECT_EQ(rocks.rock_at, "back left") << "of two alike that nearer to the drain, 10 in from the left";
  for (const survey::Spot& beside : {survey::Spot{w - 0.1, d, 3}, survey::Spot{w, d - 0.1, 3}}) {
    j.survey.spots[1] = beside;  // either corner has a few thousandths more, which nobody reads
    const facts::FloorShape shape = measured(j).room.floor;
    EXPECT_NEAR(shape.rock_mm, 4, 0.008);
    EXPECT_EQ(shape.rock_at, "back left");
  }
}

TEST(Values, OfAReadingThatDoesNotClose) {
  // Source: by hand: a rectangle's diagonals are alike; the one of six readings that is 20 out is the one that would
  // have been its square root had the others held.
  job::Job j = sample::bare(inches(60), inches(34), inches(10), inches(17));
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
  sample::read_plan(j, {0, d}, {w, d}, {0, 0}, {w, 0});
  j.survey.plan.from_back_left->mm += 20;
  const facts::Closure closure = measured(j).room.closure;
  ASSERT_TRUE(closure.solved && closure.spare);
  const auto tape = std::find_if(closure.readings.begin(), closure.readings.end(),
                                 [&](const facts::Tape& t) { return t.name == closure.suspect; });
  ASSERT_NE(tape, closure.readings.end()) << closure.suspect;
  EXPECT_NE(tape->name.find("diagonal"), std::string::npos) << tape->name;
  EXPECT_NEAR(tape->reading_mm, std::hypot(w, d) + 20, 1e-6);
  ASSERT_TRUE(tape->if_others_hold_mm);
  EXPECT_NEAR(*tape->if_others_hold_mm, std::hypot(w, d), 0.1);
  EXPECT_GT(tape->solved_mm, std::hypot(w, d));
  EXPECT_LT(tape->solved_mm, tape->reading_mm);
  double worst = 0;
  for (const facts::Tape& t : closure.readings) worst = std::max(worst, std::abs(t.reading_mm - t.solved_mm));
  EXPECT_NEAR(closure.worst_mm, worst, 1e-6);
}

TEST(Values, OfWaterThatStays) {
  // Source: by hand: a threshold that falls outward is filled to its inner edge; it is deepest at its outer one, y = 0.
  std::string outward = with_drain(700);
  const std::string fall = "height = 60\nfall = \"2 %\"";
  outward.replace(outward.find(fall), fall.size(), "height = 60\nfall = \"-2 %\"");
  for (const facts::Drainage& d : measured(job::read(outward, "x.toml")).drainage)
    if (d.surface == facts::Surface::threshold) {
      EXPECT_NEAR(d.pond_mm, 2, 1e-6);
      EXPECT_NEAR(d.pond_at_mm[1], 0, 1e-6);
    } else {
      EXPECT_EQ(d.pond_mm, 0) << name_of(d.surface);
    }
}

}  // namespace
}  // namespace fallwright::measure
