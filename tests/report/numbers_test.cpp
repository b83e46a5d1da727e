// Numbers a person reads on the terminal, each beside its words: blanks are counted as one.
#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/sample_report.hpp"
#include "report/together.hpp"
#include "report/valued.hpp"
#include "rules/check.hpp"
#include "support/part_id.hpp"
#include "takeoff/item.hpp"

namespace fallwright {
namespace {

using testing::HasSubstr;
using testing::Not;
using Sample = sample::Valued;

std::string squeezed(const std::string& text) {
  return std::regex_replace(text, std::regex{"[ \n]+"}, " ");
}

void expect_words(const std::string& text, const std::vector<const char*>& all) {
  for (const char* words : all) EXPECT_THAT(text, HasSubstr(words));
}

Sample metric() {
  Sample sample;
  sample.job.unit = job::UnitSystem::metric;
  return sample;
}

TEST(RoomNumbers, EveryWidthThatWasReadIsTold) {
  // Source: by hand.
  Sample sample = metric();
  sample.facts.room.widths.push_back({1900, 1804, 1806, 1.75, 405});
  expect_words(squeezed(report::room_table(sample.report(), true)),
               {"width at a height of 1200 mm: read 1798 mm, between the walls as plumbed 1799 mm",
                "width at a height of 1900 mm: read 1804 mm, between the walls as plumbed 1806 mm"});
}

TEST(RoomNumbers, StandWhereTheyBelong) {
  // Source: by hand: the sample's millimetres to the nearest, each of them another; humps and hollows, as their checks,
  // up; of a joist's losses whole ones
  // below.
  const std::string text = squeezed(report::room_table(metric().report(), true));
  expect_words(text, {"back 1801 mm 1802 mm 1803 mm",
                      "width at a height of 1200 mm: read 1798 mm, between the walls as plumbed 1799 mm",
                      "right wall: not plumbed",
                      "out of level 4.3 mm along the width, 3.3 mm along the depth",
                      "twist -6 mm; highest hump 1.2 mm at",
                      "deepest hollow 2.3 mm at",
                      "rocks by 0.8 mm at its front left corner",
                      "stud centre at before it at the floor at the upstand at the top",
                      "LEVELLING the base: how low a side",
                      "wall-back/stud-02 (407 mm) base 4 mm 5 mm 9 mm",  // strips: down to a mark, of 4.5, 5.5 and 9.5
                      "wall-left/stud-01 19 mm - ",
                      "base's back left corner to the left wall: 4 mm at the floor, 4 mm at the upstand",
                      "12 mm 1466 mm",
                      "1201 mm 1465 mm",
                      "with 5.2 mm to spare",
                      "from the left stud face 494 mm to 695 mm; 793 mm to 893 mm",
                      "from the entry 111 mm to 808 mm",
                      "the floor then falls 2.25 % (1:44.5) to 4.25 % (1:23.5)",
                      "a joist 184 mm deep may lose a hole of 61 mm, a notch of 31 mm, 46 mm at its ends",
                      "rib plane 12 mm (11 mm) datum 0 mm (0 mm)",
                      "letters to the right, numbers to the front",
                      "A1 14 mm 901 mm 3 mm below 15 mm 33 mm",
                      "B1 300 mm 902 mm 2 mm below none: keep the bore clear",
                      "bore centre from the left stud face 1066 mm",
                      "back left 0.5 mm above the lowest on the plane 0.7 mm",
                      "over all of its length, 1461 mm, the right is high by 1.5 mm",
                      "over all of its depth, 914 mm, the front is high by just over 1.8 mm",
                      "readings off the plane by up to 0.4 mm",
                      "threshold, top 2.05 % (1:48.8)",
                      "mortar in the bed as set: 40.0 L, from 38.0 L to 42.0 L; most hangs on: spot level",
                      "fall: 2.00 % (1:50); from what to what is not known: why"});
}

TEST(RoomNumbers, OfJoistsThatRunAcrossAreTheOtherWayRound) {
  // Source: by hand: from the entry nothing is taken off, from the left stud face 7 mm.
  Sample sample = metric();
  sample.facts.room.drain.along_width = false;
  expect_words(squeezed(report::room_table(sample.report(), true)),
               {"from the entry 501 mm to 702 mm; 800 mm to 900 mm", "from the left stud face 104 mm to 801 mm"});
}

TEST(RoomNumbers, AreReadOffTheWallBesideEveryPlace) {
  // Source: by hand: a left wall that stands at -40 at the entry and comes in by 1 in 20: 901 and 902 from the entry at
  // 5.05 and 5.1, so a gauge at x = 14 is 8.95 off it and one at 300 294.9.
  Sample sample = metric();
  sample.facts.room.faces = {{-40, 0.05}, {1800, 0}, {900, 0}};
  expect_words(squeezed(report::room_table(sample.report(), true)), {"A1 9 mm 901 mm", "B1 295 mm 902 mm"});
}

TEST(RoomNumbers, AreToldFromWhatStandsAtTheLeft) {
  // Source: from memory: without a left wall there is no stud face to hook a tape on.
  Sample sample = metric();
  std::erase(sample.job.alcove.walls, job::Side::left);
  expect_words(squeezed(report::room_table(sample.report(), true)), {"from the back wall's left end 494 mm to 695 mm"});
}

TEST(RoomNumbers, OfFacingWallsAWidthIsAllThereIsToRead) {
  // Source: none: two walls close no figure; plumbed, with a width between them read, the way down is as measured.
  Sample sample = metric();
  sample.facts.room.drop_in.between_walls = true, sample.facts.room.drop_in.least_mm = 0.5;
  sample.facts.room.closure.solved = false, sample.facts.room.not_plumbed.clear();
  sample.facts.room.widths = {{1200, 1500, 1501, 1, 400}};
  const auto says = [&](const char* words) {
    return squeezed(report::room_table(sample.report(), true)).find(words) != std::string::npos;
  };
  const char* const designed = "with 0.5 mm to spare, as designed: not all of the walls were measured";
  EXPECT_TRUE(says(designed)) << "with a back wall the figure is to close";
  std::erase(sample.job.alcove.walls, job::Side::back);
  EXPECT_TRUE(says("with 0.5 mm to spare") && !says(designed));
  sample.facts.room.widths.clear();
  EXPECT_TRUE(says(designed)) << "no width was read";
}

TEST(RoomNumbers, TellWhatDoesNotGoIn) {
  // Source: by hand; 6.5 degrees, up to whole ones as the check tells them; the nearest place is told from the left
  // stud face, 7 mm in.
  Sample sample = metric();
  sample.facts.room.faces.left = {7, 0};
  sample.facts.room.drop_in.least_mm = 0.5;
  expect_words(squeezed(report::room_table(sample.report(), true)), {"it goes down level, with 0.5 mm to spare"});
  sample.facts.room.drop_in.least_mm = -5.25;
  sample.facts.room.as_set.over_length_mm = -3, sample.facts.room.as_set.over_width_mm = 4;
  std::string text = squeezed(report::room_table(sample.report(), true));
  expect_words(text, {"it does not go down level (short by 6 mm); tipped in by 7 degrees, 2.5 mm is left",
                      "the left is high by 3 mm", "the back is high by 4 mm", "706 mm"});
  sample.facts.room.drop_in.tip_clear_mm = -1;
  expect_words(squeezed(report::room_table(sample.report(), true)),
               {"tipped in by 7 degrees, it still does not go in"});
  sample.facts.room.drain.moved_mm = 0;
  expect_words(squeezed(report::room_table(sample.report(), true)),
               {"the bore then clears every joist, barely at the ends",
                "nearest place where it keeps clear of them: where it is"});
}

TEST(RoomNumbers, FamiliesThatMeetAreCountedAndStandsAsideIsNot) {
  // Source: by hand: two pairs of base and wall 2 and 5 mm apart, a wall that meets a wall, one clash of 4321 mm3 and
  // one touch.
  Sample sample = metric();
  sample.facts.fits = {
      {sample::part_id("base"), sample::part_id("wall-left/stud-01"), facts::Touch::gap, 2, 0, {}},
      {sample::part_id("wall-left/stud-02"), sample::part_id("base"), facts::Touch::gap, 5, 0, {}},
      {sample::part_id("base"), sample::part_id("wall-left/stud-03"), facts::Touch::gap, 5, 0, {}},
      {sample::part_id("wall-back/stud-02"), sample::part_id("wall-left/stud-01"), facts::Touch::gap, 11, 0, {}},
      {sample::part_id("drain"), sample::part_id("joists/joist-03"), facts::Touch::clash, 0, 4321, {604, 605, 606}},
      {sample::part_id("base"), sample::part_id("bed"), facts::Touch::touch, 0, 0, {}}};
  const std::string text = squeezed(report::room_table(sample.report(), true));
  expect_words(text, {"base and wall-left: 2 mm to 5 mm apart, 2 pairs", "wall-left and base: 5 mm apart ",
                      "drain and joists/joist-03 RUN INTO EACH OTHER: 4.4 cm3 shared, at", "base and bed touch"});
  EXPECT_THAT(text, Not(HasSubstr("wall-back and wall-left")));
  EXPECT_THAT(squeezed(report::room_table(sample.report(), false)), Not(HasSubstr("base and bed touch")));
}

TEST(RoomNumbers, OfABaseOfMortarAreItsScreedHeights) {
  // Source: by hand: from a line 200 above the datum the bed's top at 45 is read 155 down, its cover's at 66 134; over
  // a floor 3 below the datum it is 48 thick. What is built in place is not let in, does not rock and has no gauges.
  Sample sample = metric();
  facts::SiteBuilt& site = sample.facts.site_built.emplace();
  site.at_flange_mm = 31, site.marks = {{"back wall", 305, {305, 900}, -3, 45, 66, false}};
  sample.job.base.site.line = job::Length::mm(200);
  sample.job.base.site.waterproofing = job::Waterproofing::liner;
  const std::string text = squeezed(report::room_table(sample.report(), true));
  expect_words(text, {"SCREED HEIGHTS, read down from a level line 200 mm above the datum; bed 31 mm thick at the "
                      "drain's flange along at pre-slope top coat bed is thick back wall 305 mm 155 mm 134 mm 48 mm",
                      "WHAT MEETS WHAT"});
  site.at_flange_mm = 31.92;
  expect_words(squeezed(report::room_table(sample.report(), true)), {"bed 32 mm thick at the drain's flange"});
  site.at_flange_mm = 31;
  for (const char* words : {"LETTING IT IN", "rocks by", "GAUGE DEPTHS", "DRY FIT"})
    EXPECT_THAT(text, Not(HasSubstr(words)));
  sample.job.base.site.waterproofing = job::Waterproofing::bonded;
  expect_words(squeezed(report::room_table(sample.report(), true)), {"along at sloped bed tile bed is thick"});
  // On the form nothing lies: its top is the bed's, 142 down.
  site.marks.push_back({"form at the entry", 0, {0, 0}, 0, 58, 58, false, facts::Runs::form});
  expect_words(squeezed(report::room_table(sample.report(), true)), {"form at the entry 0 mm 142 mm - 58 mm"});
}

TEST(RoomNumbers, StandUnderTheirHeads) {
  // Source: by hand: a column's head names what stands below it.
  expect_words(
      squeezed(report::room_table(metric().report(), true)),
      {"TAPE: do the readings close? reading read fits best if the others hold back", "FLOOR: how it lies out of level",
       "STUDS: running from the back corner (side walls) or the left corner (back wall), and furring to bring "
       "each out to the edge of what stands before it (less than nothing: it stands in; plane or move it as high as "
       "that edge comes) stud",
       "LETTING IT IN: free width by height above the datum 12 mm",
       "DRAIN: where its centre may stand from the left stud face", "DRY FIT: what meets what drain",
       "HEIGHTS over the drain's centre, above the datum (and above the one below) rib plane",
       "GAUGE DEPTHS of the bed (A1 back left; letters to the right, numbers to the front) point from the left "
       "from the entry floor at up to the ribs up to the level line A1",
       "SET-OUT bore centre", "AS SET: the base as it lies now back left",
       "HOW SURE: bounds that hold with every reading off by its tolerance, all the worst way mortar",
       "Lengths to the nearest mm, small ones finer; what a check judges, humps and bounds up or down to the next "
       "mark, never better than they are."});
}

TEST(RoomNumbers, OfAStudThatIsLookedAtAsHighAsTileGoesSaySo) {
  // Source: none; the column is called "at the top", and its strip ends short of the stud's head.
  Sample sample = metric();
  const std::string words = "* not at the stud's top but as high as tile goes, 1935 mm above the datum";
  EXPECT_THAT(squeezed(report::room_table(sample.report(), true)), Not(HasSubstr("as high as tile goes")));
  for (facts::StudGap& stud : sample.facts.room.studs)
    if (!stud.stands_alone()) stud.floor_mm = 0, stud.top_mm = 1935;
  const std::string text = squeezed(report::room_table(sample.report(), true));
  EXPECT_THAT(text, HasSubstr("4 mm 5 mm 9 mm * "));
  EXPECT_THAT(text, HasSubstr(words));
}

TEST(RoomNumbers, OfGaugesLessThanNothingAreSaidInWords) {
  // Source: by hand: a floor 3 mm below the datum, ribs 9 mm below that floor, a point 40 mm before the entry.
  Sample sample = metric();
  sample.facts.room.gauges = {{"A1", 20, -40, -3, -9, 30, false}};
  const std::string text = squeezed(report::room_table(sample.report(), true));
  EXPECT_THAT(text, HasSubstr("A1 20 mm 40 mm before it 3 mm below 9 mm below 30 mm"));
}

TEST(RoomNumbers, OfAFloorThatDropsToldAreNone) {
  // Source: none; two drops make a plane, on which nothing is twisted, stands up or rocks because nobody looked.
  Sample sample = metric();
  sample.job.survey.spots.clear(), sample.job.floor.drops_typed = true;
  const std::string text = squeezed(report::room_table(sample.report(), true));
  expect_words(text, {"out of level 4.3 mm along the width, 3.3 mm along the depth",
                      "twist, humps, rocking and hollows are not known from drops alone"});
  for (const char* words : {"twist -6 mm", "highest hump", "rocks by"}) EXPECT_THAT(text, Not(HasSubstr(words)));
  EXPECT_TRUE(nlohmann::json::parse(report::to_json(sample.report()))["room"]["floor"]["by_drops"]);
}

TEST(RoomNumbers, AreToldAsTheirChecksTellThem) {
  // Source: by hand: 0.3789 in is 9.62 mm, over a limit of 3/8 by what nobody reads: a 16th more, 7/16, would be told
  // beside a check that says "just over 3/8". A hump of 1/64 in is none to a rule. Furring reaches 1-1/2 in: a
  // stud 1.56 farther back stands 1-9/16 off, and no strip of 1-1/2 is told for it; one 1.44 off takes 1-7/16.
  sample::Reported sample;
  sample.facts.room.floor.known = true;
  sample.facts.room.floor.along_width_mm = 0.3789 * 25.4, sample.facts.room.floor.along_depth_mm = 5;
  sample.facts.room.floor.hump_mm = 25.4 / 64;
  sample.job.survey.spots = {{0, 0, 0}, {1000, 0, 0}, {0, 1000, 0}};
  sample.facts.room.studs = {
      {"wall-left/stud-01", survey::Side::left, facts::Before::bench, 400, 1.56 * 25.4, 1.44 * 25.4, 25.4}};
  const std::string text = squeezed(report::room_table(sample.report(), true));
  expect_words(text,
               {"out of level just over 3/8\" along the width", "highest hump none", "bench 1-9/16\" 1-7/16\" 1\""});
}

TEST(RoomNumbers, TellTheNearestOfANumberBesideItsBounds) {
  // Source: by hand: 1.368 in are nearest to 1-3/8, which its check tells; its bounds are told no narrower than they
  // are, 1.19 as 1-3/16 and 1.52 as 1-17/32 or more.
  sample::Reported sample;
  sample.facts.room.worst = {{"left over", 1.368 * 25.4, 1.19 * 25.4, 1.52 * 25.4, "width"}};
  const std::string text = squeezed(report::room_table(sample.report(), true));
  EXPECT_THAT(text, HasSubstr("left over: 1-3/8\", from 1-3/16\" to 1-"));
}

TEST(RoomNumbers, ListWhereAFurredWallIsNotFlat) {
  // Source: none; what is to be planed or packed beside the cut list's strips stands on a list.
  sample::Reported sample;
  EXPECT_THAT(report::room_table(sample.report(), true), Not(HasSubstr("not flat once furred")));
  sample.facts.room.kinks[0].by_mm = 25.4 / 8;
  EXPECT_THAT(squeezed(report::room_table(sample.report(), true)),
              HasSubstr("not flat once furred: left wall's board turns in 1/8\" within 16\""));
}

TEST(RoomNumbers, TellAFallAsItsCheckTellsIt) {
  // Source: by hand: 0.48443 in/ft are 0.485 of a fall that must not be greater, and 0.484 of any other.
  sample::Reported sample;
  facts::AsSet& set = sample.facts.room.as_set;
  set.read = true, set.falls = {{facts::Surface::base_floor, "back", 0.48443 / 12}};
  std::vector<rules::Result> results;
  const auto told = [&] { return squeezed(report::as_set_text(sample.job, set, results)); };
  EXPECT_THAT(told(), HasSubstr("back 0.484 in/ft"));
  rules::Result steep;
  steep.id = "rim.fall-greatest", steep.outcome = rules::Outcome::pass;
  steep.measured = 0.48443 / 12, steep.limit.unit = rules::Unit::ratio, steep.limit.greatest = 0.5 / 12;
  results.push_back(steep);
  EXPECT_THAT(told(), HasSubstr("back 0.485 in/ft"));
}

TEST(RoomNumbers, PartFromWhatFillsItsColumn) {
  // Source: by hand: a name of 62 letters fills its column of 62.
  Sample sample = metric();
  const std::string name = "bench frame's front from the right stud face, at its front end";
  ASSERT_EQ(name.size(), 62u);
  sample.facts.room.set_out.push_back({name, 800});
  EXPECT_THAT(report::room_table(sample.report(), true), HasSubstr(name + " 800 mm\n"));
}

TEST(FloodNumbers, AreWaterWeightPressureAndWhatALossIs) {
  // Source: by hand: 45 L on 1.19 m2 weigh 45 kg, press 45 x 9.80665 / 1.19 = 370.8 Pa, and a litre is 1 / 1.2 mm. In
  // the trade's units 11.89 gal, 99.2 lb, 7.75 psf; 1.2 m2 at 1/32 in are 952,500 mm3, 32 fl oz of 29,573.53 mm3.
  expect_words(squeezed(report::flood_table(metric().report())),
               {"50 mm 45.0 L 45.0 kg 0.371 kPa 0.83 mm", "base 85.5 kg"});
  expect_words(squeezed(report::flood_table(Sample{}.report())),
               {"1-15/16\" 11.89 gal 99.2 lb 7.75 psf 32 fl oz", "base 188.5 lb"});
}

TEST(FloodNumbers, TellWhatTheJoistsCarry) {
  // Source: by hand, as in the rules' tests for 10 ft, summed in steps: with base, bed and bench on 36 in about the
  // middle of 8 ft 35 % of bending and span / 1702, at the end 28 % of shear. 1.9152 kPa are 40.0 psf, 1.2851 26.8,
  // 0.3677 7.7.
  expect_words(
      squeezed(report::flood_table(sample::Reported{}.report())),
      {"people 1.92 kPa (40.0 psf) on all of the span, or where the base is the flood test, 0.37 kPa (7.7 psf)",
       "base and bed 175 kg, 1.29 kPa (26.8 psf), bench 40 kg, 0.29 kPa (6.1 psf), each over its own plan",
       "bending 35 %, shear 28 %; deflection span / 1702"});
}

TEST(FloodNumbers, TellWhereWaterLeaves) {
  // Source: by the edges: the threshold alone; or an open rim on the right as well.
  Sample sample;
  EXPECT_THAT(report::flood_table(sample.report()), HasSubstr("up to the threshold's lowest edge\n"));
  sample.facts.edges.push_back({job::Side::right, facts::Behind::nothing, facts::Turned::rim, 101, 101, false});
  sample.facts.edges.push_back({job::Side::left, facts::Behind::bench, facts::Turned::upstand, 101, 101, false});
  sample.facts.flood.over = {job::Side::front, job::Side::right, job::Side::left};
  EXPECT_THAT(
      report::flood_table(sample.report()),
      HasSubstr(
          "up to the threshold's lowest edge and the rim at the open right edge and the upstand at the left edge"));
}

TEST(Numbers, AFallThatIsTheLeastAndTheGreatestIsToldOnce) {
  // Source: by hand: 1/60 is 1.667 %, which two checks round two ways, and 0.2 in/ft; 1.66 to 1.67 % would be two
  // falls.
  for (const auto unit : {job::UnitSystem::metric, job::UnitSystem::inch}) {
    sample::Reported sample;
    sample.job.unit = unit;
    sample.facts.facets = {{facts::Surface::base_floor, "back", 1, 1. / 60, 0, 1, {}, {}, {}}};
    const auto told = [&] {
      const std::string text = report::summary(sample.report(), "");
      const std::size_t from = text.find("floor falls  ") + 13;
      return text.substr(from, text.find('\n', from) - from);
    };
    const std::string one = told();
    EXPECT_THAT(one, testing::EndsWith("(1:60) (back)"));
    EXPECT_THAT(one, testing::Not(HasSubstr("greatest")));
    sample.facts.facets.push_back({facts::Surface::base_floor, "left", 1, 1. / 60, 0, 1, {}, {}, {}});
    EXPECT_THAT(told(), testing::EndsWith("(1:60) on every facet"));
    sample.facts.facets.back().fall = 1. / 48;
    EXPECT_THAT(told(), testing::AllOf(HasSubstr("(back) least"), HasSubstr("(left) greatest")));
  }
}

TEST(SummaryNumbers, OfBaseBedAndFalls) {
  // Source: by hand: 1460 x 914 mm between the base's ends, 40 L, 15.5 to 38.5 mm to even ones, a level line at 31.75.
  Sample sample = metric();
  sample.facts.facets.push_back({facts::Surface::base_floor, "back", 1, 0.041, 0, 1, {}, {}, {}});
  sample.facts.facets.push_back({facts::Surface::seat, "top", 1, 0.001, 0, 1, {}, {}, {}});
  report::Report report = sample.report();
  report.rows.back().item = takeoff::name_of(takeoff::Item::sand_damp);
  const std::string text = squeezed(report::summary(report, "out/x"));
  expect_words(text, {"base 1455 mm to 1460 mm x 914 mm, bench, 2 solids",
                      "40.0 L set, 15 mm to 39 mm thick; spread to a level line 32 mm above",
                      "floor falls 2.50 % (1:40) (left) least, 4.10 % (1:24.3) (back) greatest",
                      "0 pass, 1 FAIL, 1 not checked", "and 4.84 ft3 of sand"});
}

TEST(TakeoffNumbers, OfCutsAndSticks) {
  // Source: by hand.
  expect_words(
      squeezed(report::takeoff_table(Sample{}.report())),
      {"tile, walls 45.25 ft2 buy 5 boxes 207.50 back 30.0 ft2",
       "A 2 x 2x4 10-3/8\" 0.0 and 2.3 deg from square; lies straight on the floor's high spots, up to 1/8\" out of "
       "level: do not pack it level, studs are cut to it",
       "2x4: 2 pieces from 1 stick, 8.0 ft in all, 6.3 ft of it offcuts; at most 1-1/2\" above the least possible",
       "1 x 8 ft 2 x A 10-3/8\"; offcut 75\"; longer than any stick on offer: order to length"});
}

TEST(ChainNumbers, AreHighestFirst) {
  // Source: by hand.
  const Sample sample = metric();
  expect_words(squeezed(report::chain_table(sample.job, {}, sample.facts.room.chain, 701, 402)),
               {"701 mm", "402 mm", "rib plane 12 mm (11 mm) datum 0 mm (0 mm)"});
  const std::string json = squeezed(report::chain_json(sample.job, sample.facts.room.chain, 701, 402));
  expect_words(json, {"\"x_mm\": 701.0, \"y_mm\": 402.0",
                      "\"name\": \"rib plane\", \"above_datum_mm\": 12.0, \"above_last_mm\": 11.0"});
}

TEST(ChainNumbers, AreOfAPlaceAsATapeReadsIt) {
  // Source: by hand: a left wall that stands at -40 at the entry and comes in by 1 in 20: 400 from the entry at -20.
  const Sample sample = metric();
  const survey::StudFaces faces{{-40, 0.05}, {1800, 0}, {900, 0}};
  expect_words(squeezed(report::chain_table(sample.job, faces, sample.facts.room.chain, 701, 400)),
               {"over 721 mm from the left stud face, 400 mm from the entry"});
}

TEST(CheckNumbers, OfOneThatIsExplained) {
  // Source: by hand: 0.2 in/ft of a limit of 1/4 is 20 % short.
  expect_words(
      squeezed(report::explained(Sample{}.report(), "floor.fall-least")),
      {"FAIL floor falls enough: 0.200 in/ft (1:60), limit 1/4 in/ft (1:48) to 1/2 in/ft (1:24) raise the rim",
       "check floor.fall-least", "found left facet", "rests on the base: as designed spot levels: missing a line",
       "exactly 0.016667 ratio", "limit 1/4 in/ft (1:48) to", "margin -20.00 % of the limit",
       "source IRC P2709.1, secondary", "book residential"});
}

TEST(CheckNumbers, LeaveNoLineEmpty) {
  // Source: common practice, no source: what has no advice has no line for it.
  Sample sample;
  report::Report report = sample.report();
  for (rules::Result& r : report.judgement.results) r.advice.clear();
  for (const std::string& text : {report::check_table(report), report::check_list(report)})
    EXPECT_FALSE(std::regex_search(text, std::regex{"\n *\n"})) << text;
}

TEST(TogetherNumbers, OfRoomsPacksAndSticks) {
  // Source: by hand: 40 L are 1.41 ft3; two rooms with five boxes each share 9.955 boxes.
  const Sample sample;
  const report::Report one = sample.report();
  const std::string text = squeezed(report::together_text(report::together({&one, &one})));
  expect_words(text,
               {"1 sample alcove left 57-1/2\" x 36\" 1.41 ft3 0 EUR 207.50 fail: floor.fall-least",
                "2 x base 57-1/2\" x 36\", bench left", "tile, walls 90.50 ft2 buy 10 boxes 415.00 2 rooms, 9.96 boxes",
                "no. room hand base set mortar batches alone costs worst check 1 sample",
                "piece count stock length rooms' own marks, by room number; ends S1",
                "the room with the least to spare, check by check floor",
                "1 sticks, 8.0 ft together (16.0 ft if every room bought its own)", "saw cut 1/8\"",
                "S1 4 x 2x4 10-3/8\" A of 1, 2; ends 0.0 and 2.3 deg from square",
                "floor.fall-least fail -20.0 % 1 sample alcove"});
}

}  // namespace
}  // namespace fallwright
