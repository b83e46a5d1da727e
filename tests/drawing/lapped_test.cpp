// Where the base does not turn up beside the bench: the strip of membrane over its edge, the notches' fit, the screws.
#include <algorithm>
#include <cmath>
#include <tuple>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"
#include "support/lapped.hpp"
#include "takeoff/backing.hpp"
#include "takeoff/item.hpp"

namespace fallwright::drawing {
namespace {

constexpr double inch = 25.4;

bool writes(const Sheet& sheet, const std::string& words) {
  return std::any_of(sheet.texts.begin(), sheet.texts.end(),
                     [&](const Text& text) { return text.words.find(words) != std::string::npos; });
}

/// All of a sheet's words, as a table breaks them into lines.
const takeoff::Row* strip_row(const std::vector<takeoff::Row>& rows) {
  const auto found = std::find_if(rows.begin(), rows.end(),
                                  [](const takeoff::Row& row) { return is(row, takeoff::Item::edge_strip); });
  return found == rows.end() ? nullptr : &*found;
}

TEST(LappedStrip, IsBoughtByTheEdgesLengthAndItsLaps) {
  // Source: by hand: an edge of 36 that climbs from a rim (28-3/4 - 2) / 48 above the drain onto a threshold 2-1/2
  // above it, with 2 past either end; 2 on the base and 2 up the frame. Where the floor comes finished it ends below
  // the apron, 1/2 thick. Laps: common practice, no source.
  const double along = 36 + 2.5 - (28.75 - 2) / 48;
  for (const bool mirrored : {false, true}) {
    const Drawn d = drawn(lapped(mirrored), false);
    const auto strip = takeoff::lapped_strip(d.model->job, d.facts);
    ASSERT_TRUE(strip);
    EXPECT_NEAR(strip->edge_mm, along * inch, 0.01);
    EXPECT_NEAR(strip->length_mm, (along + 4) * inch, 0.01);
    EXPECT_NEAR(strip->width_mm(), 4 * inch, 0.01);
    const auto rows = takeoff::take_off(d.model->job, d.facts, {}, {});
    ASSERT_TRUE(strip_row(rows));
    EXPECT_NEAR(strip_row(rows)->buy, (along + 4) / 12., 1e-4);
    EXPECT_THAT(strip_row(rows)->basis, testing::HasSubstr("2\" on the base, 2\" up the frame"));
    EXPECT_TRUE(writes(d.sheet("buy"), "4\" wide"));
    EXPECT_THAT(read_through(d.sheet("order-of-work")) + read_through(d.sheet("order-of-work-2")),
                testing::HasSubstr("strip of membrane 41-15/16\" long, 4\" wide"));
  }
  job::Job finished = lapped(false);
  std::erase(finished.buy.tile.surfaces, job::Tiled::floor);
  const auto facts = measure::measure(*parts::build(finished));
  EXPECT_NEAR(takeoff::lapped_strip(finished, facts)->on_base_mm, 0.5 * inch, 0.01);
  const Drawn turned_up = drawn_demo("tannery-lane-2a"), on_site = drawn_demo("coopers-yard-9");
  for (const Drawn* d : {&turned_up, &on_site}) {
    EXPECT_FALSE(takeoff::lapped_strip(d->model->job, d->facts)) << d->name;
    EXPECT_FALSE(strip_row(takeoff::take_off(d->model->job, d->facts, {}, {}))) << d->name;
  }
}

TEST(LappedStrip, IsDrawnUpTheFrameAndOverTheEdge) {
  // Source: by hand: a heavy line up and one over, as long as its laps, at the detail's scale; on small paper likewise.
  job::Job on_letter = lapped(false);
  on_letter.drawings.paper = job::PaperSize::letter;
  for (const job::Job& job : {lapped(false), lapped(true), on_letter}) {
    const Drawn d = drawn(job, false);
    const bool small = job.drawings.paper == job::PaperSize::letter;
    const Sheet& sheet = d.sheet(small ? "bench-joints" : "bench-section");
    ASSERT_TRUE(writes(sheet, "membrane strip")) << small;
    int found = 0;
    for (const Line& up : sheet.lines)
      for (const Line& over : sheet.lines) {
        if (up.kind != LineKind::section || over.kind != LineKind::section) continue;
        const auto meets = [&](Point p) {
          return std::min(std::hypot(p.x - over.from.x, p.y - over.from.y),
                          std::hypot(p.x - over.to.x, p.y - over.to.y)) < 1e-6;
        };
        if (!meets(up.from.y < up.to.y ? up.from : up.to)) continue;
        if (std::abs(up.from.x - up.to.x) > 1e-6 || std::abs(over.from.y - over.to.y) > 1e-6) continue;
        // Off what it lies on by as much as the pen needs: shorter up by that, and longer over.
        const double high = std::abs(up.from.y - up.to.y), wide = std::abs(over.to.x - over.from.x),
                     times = (high + wide) / (4 * inch);
        found += times > 0.99 && std::abs(times - std::round(times)) < 1e-6 && high < 2 * inch * times &&
                 high > 1.8 * inch * times;
      }
    EXPECT_GE(found, 1) << small;
  }
}

TEST(LappedStrip, AtTheBackWallItsBoardAndWaterproofingAreDrawn) {
  // Source: by hand: the base does not turn up there; the wall's waterproofing comes down the board and laps 2 over the
  // edge. Along a wall no strip is bought: it is of what covers the wall.
  job::Job job = demo("tannery-lane-2a");
  job.base.upstands = {job::Side::left, job::Side::right}, job.base.lapped = {job::Side::back};
  job.survey.board_mm = 0.5 * inch;
  const Drawn d = drawn(job, false);
  const Sheet& wall = d.sheet("wall-back");
  for (const char* words : {"lapped edge at the back wall", "waterproofing", "board, comes later"})
    EXPECT_TRUE(writes(wall, words)) << words;
  EXPECT_FALSE(writes(wall, "base's upstand"));
  EXPECT_FALSE(takeoff::lapped_strip(d.model->job, d.facts));
  EXPECT_TRUE(writes(drawn_demo("tannery-lane-2a").sheet("wall-back"), "upstand at the back wall"));
}

TEST(LappedStrip, NotchesAreSaidToBeNet) {
  // Source: the solid: they are as wide and as high as what they go over; in the trade's words.
  EXPECT_THAT(drawn(lapped(false), false).sheet("bench-side").notes,
              testing::Contains(testing::HasSubstr("scribed tight")));
}

TEST(LappedStrip, TheNotchOverAThresholdSaysWhichEdgeItIsScribedTo) {
  // Source: by hand: 4 wide and falling 1/4 in 12, its edges are 4 and 4-1/16 above the datum: a level notch at the
  // higher is 1/16 clear of the lower. What does not fall needs no word.
  job::Job level = lapped(false);
  level.base.threshold.fall = units::Fall::ratio(0);
  const std::string clear = "the lower is 1/16\" clear";
  const Drawn falls = drawn(lapped(false), false), flat = drawn(level, false);
  EXPECT_THAT(falls.sheet("bench-side").notes, testing::Contains(testing::HasSubstr(clear)));
  EXPECT_TRUE(writes(falls.sheet("bench-side"), "4-1/16  apron's foot over the threshold, its higher edge"));
  EXPECT_THAT(flat.sheet("bench-side").notes, testing::Not(testing::Contains(testing::HasSubstr(clear))));
}

TEST(Backing, StandsInTheFramesOpenBaysAsHighAsWhatIsBondedToIt) {
  // Source: by hand: a frame of 36 on four studs of 1-1/2 leaves three bays of (36 - 4 * 1-1/2) / 3; flashing laps 2
  // over an upstand that ends 5-1/2 above the datum, a strip 2 over a threshold of 4-1/16; the
  // boards stand on a plate of 1-1/2. Laps: common practice, no
  // source.
  for (const auto& [job, top, over_plate, carries] :
       {std::tuple{demo("tannery-lane-2a"), "7-1/2\"", std::string{"6\""}, "flashing"},
        {lapped(false), "6-1/16\"", std::string{"4-9/16\""}, "strip of membrane"},
        {lapped(true), "6-1/16\"", std::string{"4-9/16\""}, "strip of membrane"}}) {
    const Drawn d = drawn(job, false);
    const auto backing = takeoff::backing_at_bench(job, d.facts);
    ASSERT_TRUE(backing);
    ASSERT_EQ(backing->bays_mm.size(), 3U);
    for (const double bay : backing->bays_mm) EXPECT_NEAR(bay, 10 * inch, 0.01);
    const std::string told = std::string{"3 boards, 10\" wide"}, high = std::string{"up to "} + top;
    EXPECT_THAT(d.sheet("bench-front").notes,
                testing::Contains(testing::AllOf(testing::HasSubstr(told), testing::HasSubstr(high),
                                                 testing::HasSubstr(std::string{"for the "} + carries))));
    EXPECT_TRUE(writes(d.sheet("bench-section"), "backing "));
    const std::string steps = read_through(d.sheet("order-of-work"));
    EXPECT_THAT(steps, testing::HasSubstr(told));
    EXPECT_THAT(steps, testing::HasSubstr(std::string{"the "} + carries + " is bonded to it"));
    // Behind the last of the cuts its own mark, by which list and front name it.
    ASSERT_LT(d.cuts.size(), 24U);
    const std::string mark{"ABCDEFGHJKLMNPQRSTUVWXYZ"[d.cuts.size()]};
    EXPECT_TRUE(writes(d.sheet("bench-front"), mark + " backing")) << mark;
    const std::string cut = read_through(d.sheet("cuts")), size = "10 x " + over_plate.substr(0, over_plate.size() - 1);
    EXPECT_THAT(cut, testing::HasSubstr(mark + " 3 offcuts of the wall board,")) << mark;
    EXPECT_THAT(cut, testing::HasSubstr(size + " square"));
    const auto rows = takeoff::take_off(d.model->job, d.facts, {}, {});
    const auto row =
        std::find_if(rows.begin(), rows.end(), [](const takeoff::Row& r) { return is(r, takeoff::Item::backing); });
    ASSERT_NE(row, rows.end());
    EXPECT_EQ(row->buy, 3);
    EXPECT_TRUE(writes(d.sheet("buy"), "backing boards, bench front"));
    EXPECT_TRUE(writes(d.sheet("buy"), "10\" wide, " + over_plate + " high"));
  }
}

TEST(Backing, IsNotAskedForWithoutABenchAndHasNoHeightUntilTheBaseIsSettled) {
  // Source: common practice, no source: another base may turn up elsewhere.
  job::Job none = sample::alcove();
  none.bench.reset(), none.base.length = job::Length::inches(72);
  EXPECT_FALSE(takeoff::backing_at_bench(none, measure::measure(*parts::build(none))));
  EXPECT_FALSE(writes(drawn(none, false).sheet("buy"), "backing boards, bench front"));
  const std::string cuts = read_through(drawn_demo("tannery-lane-2b").sheet("cuts"));
  EXPECT_THAT(cuts, testing::HasSubstr("10 x HOLD square"));
  EXPECT_THAT(cuts, testing::Not(testing::HasSubstr("10 x 6")));
  const std::string held = read_through(drawn_demo("tannery-lane-2b").sheet("order-of-work"));
  EXPECT_THAT(held, testing::HasSubstr("how high waits until the base is settled"));
}

TEST(LappedStrip, NoScrewIsCountedUnderTheApron) {
  // Source: by hand: of the upstand at the back the apron comes down over 1/2; what is left takes a fastener at either
  // end and at most every 16. One of 48-1/2 less 1/2 is three stretches, not four.
  for (const bool mirrored : {false, true}) {
    const Drawn d = drawn(lapped(mirrored), false);
    const job::Job& job = d.model->job;
    EXPECT_NEAR(takeoff::under_apron_mm(job, d.facts, job::Side::back), 0.5 * inch, 0.01);
    EXPECT_EQ(takeoff::under_apron_mm(job, d.facts, mirrored ? job::Side::left : job::Side::right), 0);
    facts::Hold back;  // along blocking alone
    back.length_mm = 48.5 * inch;
    EXPECT_EQ(takeoff::upstand_fasteners(job, d.facts, back).count(), 4);
    // A stud under the apron takes none: it stands at the bench's end, whichever that is.
    back.studs_mm = {{0, 10}, {200, 219}, {600, 619}, {1000, 1019}, {back.length_mm - 10, back.length_mm}};
    EXPECT_EQ(takeoff::upstand_fasteners(job, d.facts, back).at_studs, 4);
    EXPECT_THAT(read_through(d.sheet("wall-back")), testing::HasSubstr("none in 1/2\" under the apron"));
    EXPECT_THAT(clear_of_apron(job, d.facts), testing::HasSubstr("1/2\" from its end"));
  }
  const Drawn turned_up = drawn_demo("tannery-lane-2a");
  EXPECT_EQ(takeoff::under_apron_mm(turned_up.model->job, turned_up.facts, job::Side::back), 0);
  EXPECT_EQ(clear_of_apron(turned_up.model->job, turned_up.facts), "");
}

TEST(Held, FastenersOfABenchThatAreTooWeakAreNotTold) {
  // Source: the checks: one screw of no strength where four nails were asked for.
  job::Job job = demo("tannery-lane-2a");
  EXPECT_THAT(read_through(drawn(job, false).sheet("bench-plan")), testing::Not(testing::HasSubstr("HOLD:")));
  job.bench->frame.fasteners_at_stud = 1;
  const Drawn d = drawn(job, false);
  ASSERT_TRUE(std::any_of(d.judgement.results.begin(), d.judgement.results.end(), [](const rules::Result& r) {
    return r.id == "load.seat-cleat" && r.outcome == rules::Outcome::fail;
  }));
  const std::string told = read_through(d.sheet("bench-plan"));
  EXPECT_THAT(told, testing::HasSubstr("HOLD: 'bench holds at the wall' fails"));
  EXPECT_THAT(told, testing::Not(testing::HasSubstr("1 of 16d")));
}

TEST(Held, ADeckIsNotScrewedToARailThatIsTooWeak) {
  // Source: the checks: one nail of the rail in each joist's end, which goes a quarter of an inch into it.
  job::Job job = demo("tannery-lane-2a");
  job.bench->frame.fasteners_at_rail = 1, job.bench->frame.rail_fastener_length = job::Length::inches(1.75);
  const Drawn d = drawn(job, false);
  ASSERT_TRUE(std::any_of(d.judgement.results.begin(), d.judgement.results.end(), [](const rules::Result& r) {
    return r.id == "load.seat-rail" && r.outcome == rules::Outcome::fail;
  }));
  EXPECT_THAT(read_through(d.sheet("bench-plan")), testing::Not(testing::HasSubstr("apart along edges")));
}

TEST(Held, FastenersOfAnUpstandWaitWithTheBase) {
  // Source: common practice, no source: another base may turn up elsewhere.
  const Drawn held = drawn(demo_on("tannery-lane-2b", job::PaperSize::letter), false);
  int sheets = 0;
  for (const Sheet& sheet : held.sheets) {
    if (sheet.name.rfind("schedules", 0) != 0) continue;
    sheets += read_through(sheet).find("HOLD: the base is not settled") != std::string::npos;
    EXPECT_THAT(read_through(sheet), testing::Not(testing::HasSubstr("over the edge"))) << sheet.name;
  }
  EXPECT_GT(sheets, 0);
}

TEST(Walls, ABlocksMarkThatStandsOffItHasALineToIt) {
  // Source: ISO 6433 (from memory): a mark stands on its part or is led to it.
  const Drawn d = drawn(lapped(false), false);
  int led = 0;
  for (const auto& [name, toward] :
       {std::pair{std::string{"wall-back"}, gp_Dir{0, -1, 0}}, {"wall-right", gp_Dir{-1, 0, 0}}}) {
    const Sheet& sheet = d.sheet(name);
    for (const parts::Solid& solid : d.model->solids) {
      if (solid.part.kind != parts::Kind::blocking || text_of(solid.part.family) != name) continue;
      const Frame f = extent(solid, view_from(toward));
      const auto in_block = [&](Point p) { return p.x > f.x0 && p.x < f.x1 && p.y > f.y0 && p.y < f.y1; };
      const bool on = std::any_of(sheet.texts.begin(), sheet.texts.end(), [&](const Text& text) {
        const Box b = box_of(text);
        return in_block({b.x0, b.y0}) && in_block({b.x1, b.y1});
      });
      const bool line = std::any_of(sheet.lines.begin(), sheet.lines.end(), [&](const Line& l) {
        return l.kind == LineKind::dimension && in_block(l.to) && !in_block(l.from);
      });
      EXPECT_TRUE(on || line) << solid.id;
      led += !on;
    }
  }
  EXPECT_GT(led, 0);
}

}  // namespace
}  // namespace fallwright::drawing
