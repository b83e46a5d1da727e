// Every key of the job file is stored where it belongs, no two values alike; readings of several people are their mean.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "job/describe.hpp"
#include "job/read.hpp"

namespace fallwright::job {
namespace {

/// Metric, valid, every number another.
const char* const whole = R"(
[job]
name = "own"
unit = "mm"
[alcove]
width = 1901
depth = 951
height = 2402
walls = ["back", "right"]
[walls]
stock = "45x95 mm"
spacing = 401
top_plates = 2
state = "new"
blocking = [152, 863]
[survey]
tolerance = 1.5
level_tolerance = 0.9
face = "board"
board = 12.5
finish = 27
heights = "down"
[survey.floor]
spots = [[10, 20, 3], [900, 30, -4], [40, 940, 5]]
[[survey.width]]
from_back = 301
height = 1201
width = { length = 1860, tolerance = 2.5, face = "finish" }
[[survey.plumb]]
wall = "right"
along = 302
lean = -4.5
over = 1203
[[survey.studs]]
wall = "back"
from = "right"
centres = [19, 406]
[floor]
kind = "joists"
deck = 18.5
finish_outside = 11.5
beyond_entry = 311
[floor.joists]
stock = "48x220 mm"
spacing = 451
first = 77
direction = "along-width"
span = 3303
species = "DF-L No.2"
[base]
length = 1461
width = 915
made = "bought"
against = "right"
lowered_from = 1204
pattern = "level-rim"
rise = 17.5
underside = "shell"
shell = 13.5
rib_depth = 14.5
material = "resin"
density = "1234 kg/m3"
[base.ribs]
columns = 7
rows = 5
width = 15.5
[base.upstands]
thickness = 16.5
height = 103
sides = ["back"]
lapped = ["right"]
[base.threshold]
width = 101
height = 64
fall = "3 %"
[drain]
kind = "point"
opening = "round"
size = 111
from_right = 731
from_front = 507
recess = 9.5
body = 83
body_depth = 104
outlet = 51
bore = 128
[bench]
place = "right-end"
depth = 381
height = 452
seat_thickness = 33
seat_fall = "2.5 %"
apron_thickness = 18
upstand_thickness = 19
upstand_height = 76
overhang = 21
material = "granite"
density = "2601 kg/m3"
[bench.frame]
kind = "steel"
stock = "362S162-43"
track = "362T125-43"
spacing = 402
deck = 22
species = "DF-L No.2"
waterproofed = "yes"
[bed]
least = 15
gauge_depth = 34
holdback = 16
overrun = 17
collar = 12
density = "2081 kg/m3"
bag_yield = "12.5 L"
waste = "11 %"
[cuts]
sticks = [2401, 3602]
kerf = 3.5
rounding = "exact"
[as_set]
heights = "down"
back_left = 1
back = 2
back_right = 3
right = 4
front_right = 5
front = 6
front_left = 7
left = 8
[liner]
above_threshold = 78
above_seat = 79
fall = "2.1 %"
[trap]
arm = 905
fall = "2.2 %"
pipe = 50
hole = 61
notch = 23
[[fixture]]
name = "rail"
wall = "back"
along = 611
height = 872
width = 81
tall = 82
[mix]
cement_bag = "26 kg"
lime_bag = "24 kg"
[tile]
surfaces = ["walls", "seat"]
height = 1903
waste = "12 %"
box = "0.93 m2"
[bond]
notch = "v"
width = 6.5
depth = 9.1
tooth = 6.7
bag_yield = "13 L"
waste = "13 %"
[membrane]
lap = 52
roll = "4.7 m2"
waste = "14 %"
[felt]
roll = "36 m2"
waste = "15 %"
[sealant]
shape = "fillet"
width = 6.1
depth = 6.3
cartridge = "301 mL"
waste = "16 %"
[adhesive]
bead = 9.7
spacing = 102
cartridge = "302 mL"
waste = "17 %"
[flashing]
piece = 3001
lap = 53
[fasteners]
per_end = 3
deck_edge = 151
deck_field = 303
upstand = 399
box = 201
[buy]
batch = "14 L"
water_least = "2.1 L"
water_greatest = "2.6 L"
leave_out = ["felt", "bond"]
[rules]
book = "metric"
[limits]
source = "town"
clear_width = 761
floor_fall_least = "1.3 %"
)";

std::string refusals(const std::string& text) {
  try {
    read(text, "own.toml");
  } catch (const diag::JobFaults& e) {
    std::string all;
    for (const diag::Fault& f : e.faults()) all += diag::to_text(f) + "\n";
    return all;
  }
  return "";
}

const Job& own() {
  static const Job job = read(whole, "own.toml");
  return job;
}

TEST(Values, OfRoomAndSurvey) {
  // Source: the file above; heights read downward change their sign; faces and tolerances that a reading does not name
  // are the survey's.
  ASSERT_EQ(refusals(whole), "");
  const Job& j = own();
  EXPECT_EQ(j.name, "own");
  EXPECT_EQ(j.unit, UnitSystem::metric);
  EXPECT_EQ(j.file, "own.toml");
  EXPECT_EQ(j.alcove.width.in_mm(), 1901);
  EXPECT_EQ(j.alcove.depth.in_mm(), 951);
  EXPECT_EQ(j.alcove.height.in_mm(), 2402);
  EXPECT_EQ(j.alcove.walls, (std::vector<Side>{Side::back, Side::right}));
  EXPECT_EQ(j.walls.stock.depth.in_mm(), 95);
  EXPECT_EQ(j.walls.spacing.in_mm(), 401);
  EXPECT_EQ(j.walls.top_plates, 2);
  EXPECT_FALSE(j.walls.existing);
  EXPECT_EQ(j.walls.blocking, (std::vector<Length>{Length::mm(152), Length::mm(863)}));
  const survey::Survey& s = j.survey;
  EXPECT_EQ(s.tolerance_mm, 1.5);
  EXPECT_EQ(s.level_tolerance_mm, 0.9);
  EXPECT_EQ(*s.board_mm, 12.5);
  EXPECT_EQ(*s.finish_mm, 27);
  ASSERT_EQ(s.spots.size(), 3u);
  EXPECT_EQ(s.spots[1].x, 900);
  EXPECT_EQ(s.spots[1].y, 30);
  EXPECT_EQ(s.spots[1].z, 4);
  EXPECT_EQ(s.spots[2].z, -5);
  ASSERT_EQ(s.widths.size(), 1u);
  EXPECT_EQ(s.widths[0].from_back_mm, 301);
  EXPECT_EQ(s.widths[0].height_mm, 1201);
  EXPECT_EQ(s.widths[0].width.mm, 1860);
  EXPECT_EQ(s.widths[0].width.tolerance_mm, 2.5);
  EXPECT_EQ(s.widths[0].width.face, survey::Face::finish);
  ASSERT_EQ(s.plumbs.size(), 1u);
  EXPECT_EQ(s.plumbs[0].wall, Side::right);
  EXPECT_EQ(s.plumbs[0].along_mm, 302);
  EXPECT_EQ(s.plumbs[0].lean.mm, -4.5);
  EXPECT_EQ(s.plumbs[0].lean.tolerance_mm, 1.5);
  EXPECT_EQ(s.plumbs[0].over_mm, 1203);
  ASSERT_EQ(s.studs.size(), 1u);
  EXPECT_EQ(s.studs[0].wall, Side::back);
  EXPECT_EQ(s.studs[0].from, Side::right);
  EXPECT_EQ(s.studs[0].centres_mm, (std::vector<double>{19, 406}));
}

TEST(Values, OfFloorBaseAndDrain) {
  // Source: the file above.
  const Floor& f = own().floor;
  EXPECT_EQ(f.kind, FloorKind::joists);
  EXPECT_EQ(f.deck.in_mm(), 18.5);
  EXPECT_EQ(f.finish_outside->in_mm(), 11.5);
  EXPECT_EQ(f.beyond_entry.in_mm(), 311);
  EXPECT_EQ(f.joist_stock.depth.in_mm(), 220);
  EXPECT_EQ(f.joist_spacing.in_mm(), 451);
  EXPECT_EQ(f.joist_first->in_mm(), 77);
  EXPECT_EQ(f.joist_direction, Direction::along_width);
  EXPECT_EQ(f.joist_span->in_mm(), 3303);
  EXPECT_EQ(f.joist_species, "DF-L No.2");
  const Base& b = own().base;
  EXPECT_EQ(b.length.in_mm(), 1461);
  EXPECT_EQ(b.width.in_mm(), 915);
  EXPECT_EQ(b.made, Made::bought);
  EXPECT_EQ(b.against, Against::right);
  EXPECT_EQ(b.lowered_from.in_mm(), 1204);
  EXPECT_EQ(b.rise->in_mm(), 17.5);
  EXPECT_EQ(b.shell.in_mm(), 13.5);
  EXPECT_EQ(b.rib_depth.in_mm(), 14.5);
  EXPECT_EQ(b.material, "resin");
  EXPECT_EQ(b.density_kg_m3, 1234);
  EXPECT_EQ(b.ribs.columns, 7);
  EXPECT_EQ(b.ribs.rows, 5);
  EXPECT_EQ(b.ribs.width.in_mm(), 15.5);
  EXPECT_EQ(b.upstand_thickness.in_mm(), 16.5);
  EXPECT_EQ(b.upstand_height.in_mm(), 103);
  EXPECT_EQ(b.upstands, std::vector<Side>{Side::back});
  EXPECT_EQ(b.lapped, std::vector<Side>{Side::right});
  EXPECT_EQ(b.threshold.width.in_mm(), 101);
  EXPECT_EQ(b.threshold.height.in_mm(), 64);
  EXPECT_NEAR(b.threshold.fall.as_ratio(), 0.03, 1e-12);
  const Drain& d = own().drain;
  EXPECT_EQ(d.opening, Opening::round);
  EXPECT_EQ(d.size.in_mm(), 111);
  EXPECT_EQ(d.across.side, Side::right);
  EXPECT_EQ(d.across.distance.in_mm(), 731);
  EXPECT_EQ(d.along.side, Side::front);
  EXPECT_EQ(d.along.distance.in_mm(), 507);
  EXPECT_EQ(d.recess.in_mm(), 9.5);
  EXPECT_EQ(d.body.in_mm(), 83);
  EXPECT_EQ(d.body_depth.in_mm(), 104);
  EXPECT_EQ(d.outlet.in_mm(), 51);
  EXPECT_EQ(d.bore.in_mm(), 128);
}

TEST(Values, OfBenchBedAndCuts) {
  // Source: the file above.
  const Bench& b = *own().bench;
  EXPECT_EQ(b.place, Side::right);
  EXPECT_EQ(b.depth.in_mm(), 381);
  EXPECT_EQ(b.height.in_mm(), 452);
  EXPECT_EQ(b.seat_thickness.in_mm(), 33);
  EXPECT_NEAR(b.seat_fall.as_ratio(), 0.025, 1e-12);
  EXPECT_EQ(b.apron_thickness.in_mm(), 18);
  EXPECT_EQ(b.upstand_thickness.in_mm(), 19);
  EXPECT_EQ(b.upstand_height.in_mm(), 76);
  EXPECT_EQ(b.overhang.in_mm(), 21);
  EXPECT_EQ(b.material, "granite");
  EXPECT_EQ(b.density_kg_m3, 2601);
  EXPECT_EQ(b.frame.kind, FrameKind::steel);
  EXPECT_EQ(b.frame.stock.name, "362S162-43");
  EXPECT_EQ(b.frame.track.name, "362T125-43");
  EXPECT_EQ(b.frame.spacing.in_mm(), 402);
  EXPECT_EQ(b.frame.deck.in_mm(), 22);
  EXPECT_EQ(b.frame.species, "DF-L No.2");
  EXPECT_TRUE(b.frame.waterproofed);
  const Bed& bed = own().bed;
  EXPECT_EQ(bed.least.in_mm(), 15);
  EXPECT_EQ(bed.gauge_depth->in_mm(), 34);
  EXPECT_EQ(bed.holdback.in_mm(), 16);
  EXPECT_EQ(bed.overrun.in_mm(), 17);
  EXPECT_EQ(bed.collar.in_mm(), 12);
  EXPECT_EQ(bed.density_kg_m3, 2081);
  EXPECT_NEAR(*bed.bag_yield_m3, 0.0125, 1e-12);
  EXPECT_NEAR(bed.waste, 0.11, 1e-12);
  EXPECT_EQ(own().cuts.sticks, (std::vector<Length>{Length::mm(2401), Length::mm(3602)}));
  EXPECT_EQ(own().cuts.kerf.in_mm(), 3.5);
  EXPECT_FALSE(own().cuts.to_tape);
}

TEST(Values, OfOtherTrades) {
  // Source: the file above.
  const Job& j = own();
  EXPECT_TRUE(j.as_set.down);
  ASSERT_EQ(j.as_set.readings.size(), 8u);
  for (std::size_t i = 0; i < 8; ++i) {
    EXPECT_EQ(j.as_set.readings[i].point, all_rim_points[i]);
    EXPECT_EQ(j.as_set.readings[i].value.in_mm(), 1. + i);
  }
  EXPECT_EQ(j.liner->above_threshold->in_mm(), 78);
  EXPECT_EQ(j.liner->above_seat->in_mm(), 79);
  EXPECT_NEAR(j.liner->fall->as_ratio(), 0.021, 1e-12);
  EXPECT_EQ(j.trap->arm->in_mm(), 905);
  EXPECT_NEAR(j.trap->fall->as_ratio(), 0.022, 1e-12);
  EXPECT_EQ(j.trap->pipe->in_mm(), 50);
  EXPECT_EQ(j.trap->hole->in_mm(), 61);
  EXPECT_EQ(j.trap->notch->in_mm(), 23);
  ASSERT_EQ(j.fixtures.size(), 1u);
  EXPECT_EQ(j.fixtures[0].name, "rail");
  EXPECT_EQ(j.fixtures[0].wall, Side::back);
  EXPECT_EQ(j.fixtures[0].along.in_mm(), 611);
  EXPECT_EQ(j.fixtures[0].height.in_mm(), 872);
  EXPECT_EQ(j.fixtures[0].width.in_mm(), 81);
  EXPECT_EQ(j.fixtures[0].tall.in_mm(), 82);
  EXPECT_EQ(j.book, "metric");
  EXPECT_EQ(j.limits_source, "town");
  EXPECT_EQ(j.limit("clear_width")->value, 761);
  EXPECT_NEAR(j.limit("floor_fall_least")->value, 0.013, 1e-12);
  EXPECT_EQ(j.limit("clear_area"), nullptr);
}

TEST(Values, OfWhatIsBought) {
  // Source: the file above.
  const Buy& b = own().buy;
  EXPECT_EQ(b.mix.cement_bag_kg, 26);
  EXPECT_EQ(b.mix.lime_bag_kg, 24);
  EXPECT_EQ(b.tile.surfaces, (std::vector<Tiled>{Tiled::walls, Tiled::seat}));
  EXPECT_EQ(b.tile.height.in_mm(), 1903);
  EXPECT_NEAR(b.tile.waste, 0.12, 1e-12);
  EXPECT_NEAR(*b.tile.box_mm2, 0.93e6, 1e-6);
  EXPECT_TRUE(b.bond.vee);
  EXPECT_EQ(b.bond.width.in_mm(), 6.5);
  EXPECT_EQ(b.bond.depth.in_mm(), 9.1);
  EXPECT_EQ(b.bond.tooth.in_mm(), 6.7);
  EXPECT_NEAR(*b.bond.bag_yield_mm3, 13e6, 1e-6);
  EXPECT_NEAR(b.bond.waste, 0.13, 1e-12);
  EXPECT_EQ(b.membrane.lap.in_mm(), 52);
  EXPECT_NEAR(*b.membrane.roll_mm2, 4.7e6, 1e-6);
  EXPECT_NEAR(b.membrane.waste, 0.14, 1e-12);
  EXPECT_NEAR(*b.felt.roll_mm2, 36e6, 1e-6);
  EXPECT_NEAR(b.felt.waste, 0.15, 1e-12);
  EXPECT_EQ(b.sealant.shape, Bead::fillet);
  EXPECT_EQ(b.sealant.width.in_mm(), 6.1);
  EXPECT_EQ(b.sealant.depth.in_mm(), 6.3);
  EXPECT_NEAR(b.sealant.cartridge_mm3, 301e3, 1e-6);
  EXPECT_NEAR(b.sealant.waste, 0.16, 1e-12);
  EXPECT_EQ(b.adhesive.bead.in_mm(), 9.7);
  EXPECT_EQ(b.adhesive.spacing.in_mm(), 102);
  EXPECT_NEAR(b.adhesive.cartridge_mm3, 302e3, 1e-6);
  EXPECT_NEAR(b.adhesive.waste, 0.17, 1e-12);
  EXPECT_EQ(b.flashing.length->in_mm(), 3001);
  EXPECT_EQ(b.flashing.lap.in_mm(), 53);
  EXPECT_EQ(b.fasteners.per_end, 3);
  EXPECT_EQ(b.fasteners.deck_edge.in_mm(), 151);
  EXPECT_EQ(b.fasteners.deck_field.in_mm(), 303);
  EXPECT_EQ(b.fasteners.upstand.in_mm(), 399);
  EXPECT_EQ(b.fasteners.box, 201);
  EXPECT_NEAR(b.batch_mm3, 14e6, 1e-6);
  EXPECT_NEAR(*b.water_least_mm3, 2.1e6, 1e-6);
  EXPECT_NEAR(*b.water_greatest_mm3, 2.6e6, 1e-6);
  EXPECT_FALSE(b.wants("felt"));
  EXPECT_TRUE(b.wants("tile"));
}

std::string with(const std::string& old, const std::string& now) {
  std::string text = whole;
  const std::size_t at = text.find(old);
  EXPECT_NE(at, std::string::npos) << old;
  return text.replace(at, old.size(), now);
}

TEST(Readings, OfSeveralPeopleAreTheirMean) {
  // Source: by hand: 1860, 1861 and 1862.5 are 1861.17 on the mean, 2.5 apart; the widest tolerance holds; twice it may
  // lie between them, and no more.
  const Job j = read(
      with("width = { length = 1860, tolerance = 2.5, face = \"finish\" }",
           "width = [{ length = 1860, tolerance = 1.3, by = \"a\" }, 1861, { length = 1862.5, tolerance = 1.25 }]"),
      "x");
  EXPECT_NEAR(j.survey.widths[0].width.mm, 1861.166667, 1e-6);
  EXPECT_EQ(j.survey.widths[0].width.tolerance_mm, 1.3);
  EXPECT_EQ(j.survey.widths[0].width.spread_mm, 2.5);
  EXPECT_EQ(j.survey.widths[0].width.face, survey::Face::board);
  const auto refused = [](const char* width) {
    return refusals(with("width = { length = 1860, tolerance = 2.5, face = \"finish\" }", width));
  };
  EXPECT_THAT(refused("width = [1860, 1863.1]"), testing::HasSubstr("differs by"));
  EXPECT_EQ(refused("width = [1860, 1863]"), "");
  EXPECT_THAT(refused("width = [1860, { length = 1860, face = \"stud\" }]"), testing::HasSubstr("different faces"));
  EXPECT_THAT(refused("width = { length = 1860, tolerance = 50.9 }"), testing::HasSubstr("at most"));
  EXPECT_EQ(refused("width = { length = 1860, tolerance = 50.8 }"), "");
  EXPECT_THAT(refused("width = { length = 1860, tolerance = 0 }"), testing::HasSubstr("above zero"));
}

TEST(Readings, OfOneSpotAreOne) {
  // Source: by hand: two heights 11 mm apart are of one place, and their mean counts; 12 and more are two. They may
  // differ by twice their tolerance, 1.8.
  const auto spots = [](const char* list) { return with("spots = [[10, 20, 3], [900, 30, -4], [40, 940, 5]]", list); };
  const Job j = read(spots("spots = [[10, 20, 3], [21, 20, 4.8], [900, 30, -4], [40, 940, 5], [52, 940, 5]]"), "x");
  ASSERT_EQ(j.survey.spots.size(), 4u);
  EXPECT_NEAR(j.survey.spots[0].z, -3.9, 1e-12);
  EXPECT_THAT(refusals(spots("spots = [[10, 20, 3], [21, 20, 4.9], [900, 30, -4], [40, 940, 5]]")),
              testing::HasSubstr("differ by 2 mm"));
}

TEST(Values, OfAFloorThatIsAPlane) {
  // Source: the file above, without spot levels.
  std::string text = with("spots = [[10, 20, 3], [900, 30, -4], [40, 940, 5]]", "");
  text.replace(text.find("finish_outside"), 0, "drop_along_width = 3.5\ndrop_along_depth = -2.5\n");
  const Job j = read(text, "x");
  EXPECT_EQ(j.floor.drop_along_width.in_mm(), 3.5);
  EXPECT_EQ(j.floor.drop_along_depth.in_mm(), -2.5);
  EXPECT_TRUE(j.floor.drops_typed);
  text.replace(text.find("3.5"), 3, "0"), text.replace(text.find("-2.5"), 4, "0");
  EXPECT_TRUE(read(text, "x").floor.drops_typed) << "a floor that reads level was read";
  EXPECT_FALSE(read(starter(UnitSystem::metric), "x").floor.drops_typed) << "and no starter reads one";
}

TEST(Readings, OfAGridStandRowByRow) {
  // Source: by hand: one row of heights for each place from the entry.
  const Job j = read(with("spots = [[10, 20, 3], [900, 30, -4], [40, 940, 5]]",
                          "grid_x = [0, 600, 1200]\ngrid_y = [100, 800]\ngrid = [[1, 2, 3], [4, 5, 6]]"),
                     "x");
  ASSERT_EQ(j.survey.spots.size(), 6u);
  EXPECT_EQ(j.survey.spots[4].x, 600);
  EXPECT_EQ(j.survey.spots[4].y, 800);
  EXPECT_EQ(j.survey.spots[4].z, -5);
  EXPECT_THAT(refusals(with("spots = [[10, 20, 3], [900, 30, -4], [40, 940, 5]]",
                            "grid_x = [0, 600]\ngrid_y = [100, 800]\ngrid = [[1, 2, 3], [4, 5, 6]]")),
              testing::HasSubstr("2 rows of 2 heights"));
}

}  // namespace
}  // namespace fallwright::job
