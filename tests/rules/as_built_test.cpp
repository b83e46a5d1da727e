// The record of what was built, held to what the design was held to.
#include "rules/as_built.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace fallwright {
namespace {

using rules::BuiltRow, rules::Outcome;
using testing::HasSubstr;

/// A floor whose edge at the threshold lies 15 mm above the drain, and a threshold 60 mm above it.
facts::Facts basin() {
  facts::Facts facts;
  facts.heights.drain_top_mm = 20;
  facts.heights.floor_at_threshold_mm = 35;
  facts.heights.threshold_least_mm = 80;
  return facts;
}

rules::Result two_inches() {
  rules::Result result;
  result.id = "flood.depth";
  result.limit.least = 50.8;
  return result;
}

/// Rows of a flood test that was read at these minutes past eight, at these heights above the drain.
std::vector<BuiltRow> flooded(const std::vector<std::pair<int, double>>& read, const std::string& book = "residential",
                              const std::vector<rules::Result>& results = {two_inches()},
                              const facts::Facts& facts = basin(), std::optional<units::Length> dam = {}) {
  job::Job job;
  job.unit = job::UnitSystem::metric;
  job.book = book, job.as_built.dam = dam;
  for (const auto& [minute, mm] : read)
    job.as_built.flood.push_back(
        {std::string{"2026-12-01 08:"} + (minute < 10 ? "0" : "") + std::to_string(minute), units::Length::mm(mm)});
  return rules::as_built_rows(job, facts, results, {});
}

TEST(AsBuiltLevel, IsHeldToWhatIsAllowedBetweenThePlacesThatWereRead) {
  // Source: by hand: 5 mm over 1000 are 4 mm over 800, between readings that lie so far apart: 3.9 pass and 4.1 fail,
  // though the base is longer than either.
  job::Job job;
  job.unit = job::UnitSystem::metric;
  rules::Levelling window;
  window.of = facts::Surface::base_floor;
  for (const job::Side low : job::all_sides) window.ways.push_back({low, 1000, 5, ""});
  const auto built = [&](double mm) {
    facts::Facts facts;
    facts::AsSet& set = facts.room.as_set;
    set.read = true, set.gx = mm / 800, set.over_length_mm = set.gx * 1500;
    const double left = std::max(-mm, 0.), right = std::max(mm, 0.);  // above the lower of them
    set.points = {{"left", 100, 300, left, left}, {"right", 900, 300, right, right}, {"front", 500, 0}};
    return rules::as_built_rows(job, facts, {}, window).at(0);
  };
  EXPECT_EQ(built(3.9).outcome, Outcome::pass);
  EXPECT_EQ(built(4.1).outcome, Outcome::fail);
  EXPECT_EQ(built(-4.1).outcome, Outcome::fail);
  EXPECT_THAT(built(3.9).limit, HasSubstr("left low by 4 mm at most, right by 4 mm over 800 mm"));
  EXPECT_THAT(built(3.9).built, HasSubstr("left low by 3.9 mm"));
  for (rules::Way& way : window.ways) way.allowed_mm = 0;  // a floor as steep as it may be and must be
  EXPECT_EQ(built(0.5).outcome, Outcome::caution) << "half a mark of the rule: nothing is there to press";
  EXPECT_EQ(built(0.6).outcome, Outcome::fail);
}

TEST(AsBuiltLevel, OutOfLevelBothWaysIsHeldToBothTogether) {
  // Source: by hand: 3 mm over 800 each way keep 4 over 800, and the corner that both lower lies 6 mm low: the check of
  // the base as it lies says whether that is too much; level one way, each stands for itself.
  job::Job job;
  job.unit = job::UnitSystem::metric;
  rules::Levelling window;
  window.of = facts::Surface::base_floor;
  for (const job::Side low : job::all_sides) window.ways.push_back({low, 1000, 5, ""});
  rules::Result threshold;
  threshold.id = "rim.threshold-least", threshold.title = "as set, threshold stands above the drain";
  threshold.measured = 49, threshold.limit.least = 50.8;
  const auto built = [&](double across, double along, Outcome found) {
    facts::Facts facts;
    facts::AsSet& set = facts.room.as_set;
    set.read = true, set.gx = across / 800, set.gy = along / 800;
    set.points = {
        {"back left", 100, 900}, {"back right", 900, 900}, {"front right", 900, 100}, {"front left", 100, 100}};
    for (facts::AsSetPoint& p : set.points) p.plane_mm = set.gx * (p.x_mm - 100) + set.gy * (p.y_mm - 100);
    threshold.outcome = found;
    return rules::as_built_rows(job, facts, {threshold}, window);
  };
  const auto fails = built(3, 3, Outcome::fail);
  EXPECT_EQ(fails[0].outcome, Outcome::not_applicable) << "alone it would pass";
  EXPECT_EQ(fails[1].outcome, Outcome::not_applicable);
  EXPECT_EQ(fails[2].what, "base, both ways together");
  EXPECT_EQ(fails[2].outcome, Outcome::fail);
  EXPECT_THAT(fails[2].built, HasSubstr("as set, threshold stands above the drain: 49 mm"));
  const auto holds = built(3, 3, Outcome::pass);
  EXPECT_EQ(holds[0].outcome, Outcome::pass);
  EXPECT_EQ(holds[2].outcome, Outcome::pass);
  EXPECT_EQ(built(4.1, 3, Outcome::fail)[0].outcome, Outcome::fail) << "alone it is too much";
  EXPECT_EQ(built(4.1, 3, Outcome::fail)[2].what, "level at the back left");
  EXPECT_EQ(built(3, 0, Outcome::pass)[2].what, "level at the back left");
}

TEST(AsBuiltFalls, AreHeldToWhatTheirPlaneWasHeldTo) {
  // Source: by hand, in per cent: floors from 2 to 4, a caution from where it may be steeper, a seat from 1, a
  // threshold from 2; what no check asked is told and judged by nobody.
  job::Job job;
  job.unit = job::UnitSystem::metric;
  facts::Facts facts;
  const auto plane = [&](facts::Surface surface, const char* facet, double fall) {
    facts.facets.emplace_back();
    facts.facets.back().surface = surface, facts.facets.back().facet = facet, facts.facets.back().fall = fall;
  };
  plane(facts::Surface::base_floor, "left", 0.025), plane(facts::Surface::base_floor, "back", 0.03);
  plane(facts::Surface::seat, "top", 0.015), plane(facts::Surface::threshold, "top", 0.021);
  const auto held = [](const char* id, std::optional<double> least, std::optional<double> greatest, Outcome broken) {
    rules::Result r;
    r.id = id, r.outcome = Outcome::pass;
    r.limit.least = least, r.limit.greatest = greatest, r.limit.unit = rules::Unit::ratio, r.limit.when_broken = broken;
    return r;
  };
  std::vector<rules::Result> results{
      held("floor.fall-least", 0.02, {}, Outcome::fail), held("floor.fall-greatest", {}, 0.04, Outcome::caution),
      held("seat.fall-least", 0.01, {}, Outcome::fail), held("seat.fall-greatest", {}, 0.04, Outcome::fail),
      held("threshold.falls-inward", 0.02, {}, Outcome::fail)};
  results[3].outcome = Outcome::not_applicable;
  const auto built = [&](facts::Surface surface, std::optional<job::Side> side, double fall) {
    job.as_built.falls = {{surface, side, units::Fall::ratio(fall)}};
    const auto rows = rules::as_built_rows(job, facts, results, {});
    EXPECT_EQ(rows.size(), 1u);
    return rows.at(0);
  };
  using facts::Surface;
  const BuiltRow left = built(Surface::base_floor, job::Side::left, 0.022);
  EXPECT_EQ(left.what, "fall of the base-floor, left");
  EXPECT_EQ(left.designed, "2.50 % (1:40)");
  EXPECT_EQ(left.limit, "at least 2.00 % (1:50), at most 4.00 % (1:25)");
  EXPECT_EQ(left.built, "2.20 % (1:45.5)");
  EXPECT_EQ(left.outcome, Outcome::pass);
  EXPECT_EQ(built(Surface::base_floor, job::Side::back, 0.022).designed, "3.00 % (1:33.3)");
  EXPECT_EQ(built(Surface::base_floor, job::Side::left, 0.019).outcome, Outcome::fail);
  EXPECT_EQ(built(Surface::base_floor, job::Side::left, 0.041).outcome, Outcome::caution);
  const BuiltRow seat = built(Surface::seat, {}, 0.009);
  EXPECT_EQ(seat.what, "fall of the seat");
  EXPECT_EQ(seat.designed, "1.50 % (1:66.7)");
  EXPECT_EQ(seat.limit, "at least 1.00 % (1:100)");
  EXPECT_EQ(seat.outcome, Outcome::fail);
  EXPECT_EQ(built(Surface::seat, {}, 0.05).outcome, Outcome::pass) << "that its greatest does not apply to";
  EXPECT_EQ(built(Surface::threshold, {}, 0.019).outcome, Outcome::fail);
  EXPECT_EQ(built(Surface::threshold, {}, 0.02).outcome, Outcome::pass);
  const BuiltRow none = built(Surface::base_floor, job::Side::right, 0.022);
  EXPECT_EQ(none.designed, "none of its planes");
  EXPECT_EQ(none.outcome, Outcome::not_applicable);
  results.clear();
  EXPECT_EQ(built(Surface::base_floor, job::Side::left, 0.001).outcome, Outcome::not_applicable);
  EXPECT_EQ(built(Surface::base_floor, job::Side::left, 0.001).limit, "");
}

TEST(AsBuiltFlood, PassesWhereItStoodAsHighAndAsLongAsTheBookAsks) {
  // Source: IRC P2503.6 (number from memory): 2 in at the threshold for 15 minutes; by hand: 15 + 50.8 = 65.8 mm.
  const auto rows = flooded({{0, 65.8}, {5, 65.8}, {15, 65.8}});
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_THAT(rows[0].built, HasSubstr("50.8 mm at the threshold"));
  EXPECT_EQ(rows[0].outcome, Outcome::not_applicable);
  EXPECT_EQ(rows[1].outcome, Outcome::not_applicable) << "too soon to say";
  EXPECT_EQ(rows[2].outcome, Outcome::pass);
  EXPECT_THAT(rows[2].built, HasSubstr("stands"));
}

TEST(AsBuiltFlood, FilledTooLowPassesNothing) {
  // Source: the same; 65 mm is 50 mm at the threshold, and what would do is 65.8, up to the next mark.
  const auto rows = flooded({{0, 65}, {30, 65}});
  EXPECT_EQ(rows[0].outcome, Outcome::caution);
  EXPECT_THAT(rows[0].built, HasSubstr("too low, fill to 66 mm above the drain"));
  EXPECT_EQ(rows[1].outcome, Outcome::not_checked);
  EXPECT_THAT(rows[1].built, HasSubstr("filled too low"));
}

TEST(AsBuiltFlood, ReadTooSoonOrOnceIsNoTest) {
  // Source: the same, 15 minutes.
  const auto soon = flooded({{0, 70}, {14, 70}});
  EXPECT_EQ(soon[1].outcome, Outcome::not_checked);
  EXPECT_THAT(soon[1].built, HasSubstr("let it stand 15 min at least"));
  const auto once = flooded({{0, 70}});
  EXPECT_EQ(once[0].outcome, Outcome::not_checked);
  EXPECT_THAT(once[0].built, HasSubstr("read it again after 15 min at least"));
}

TEST(AsBuiltFlood, ThatFallsOrRisesAsksForCareHoweverItWasFilled) {
  // Source: common practice, no source: what no rule shows is no change, a tenth of a millimetre is one, and over the
  // square metre of a base it is a glass of water.
  EXPECT_EQ(flooded({{0, 70}, {20, 69.96}})[1].outcome, Outcome::pass);
  EXPECT_EQ(flooded({{0, 70}, {20, 69.9}})[1].outcome, Outcome::caution);
  EXPECT_EQ(flooded({{0, 70}, {20, 69.6}})[1].built, "69.6 mm, fell 0.4 mm: read it again");
  EXPECT_EQ(flooded({{0, 40}, {5, 38}})[1].outcome, Outcome::caution);
  EXPECT_THAT(flooded({{0, 70}, {20, 72}})[1].built, HasSubstr("rose 2 mm"));
}

TEST(AsBuiltFlood, IsToldToWhatItWasReadIn) {
  // Source: by hand: 2-9/16 in less 2-35/64 is 1/64; to the tape's sixteenths both would read 2-9/16.
  job::Job job;
  job.book = "residential";
  job.as_built.flood = {{"2026-12-01 08:30", units::Length::inches(2.5625)},
                        {"2026-12-02 08:30", units::Length::inches(2.546875)}};
  const auto rows = rules::as_built_rows(job, basin(), {two_inches()}, {});
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[1].built, "2-35/64\", fell 1/64\": read it again");
  EXPECT_EQ(rows[1].outcome, Outcome::caution);
}

TEST(AsBuiltFlood, ReadAfterTheRecordsDateAsksForTheDate) {
  // Source: by hand: a record of the second of December holds no reading of the third, nor of a year later; the day of
  // the last reading itself, and any after it, is right.
  job::Job job;
  job.book = "residential";
  job.as_built.flood = {{"2026-12-01 08:30", units::Length::mm(70)}, {"2026-12-03 08:30", units::Length::mm(70)}};
  const auto last = [&](const char* date) {
    job.as_built.date = date;
    return rules::as_built_rows(job, basin(), {}, {}).back();
  };
  EXPECT_EQ(last("2026-12-02").outcome, Outcome::caution);
  EXPECT_EQ(last("2026-12-02").what, "date of the record");
  EXPECT_THAT(last("2026-12-02").built, HasSubstr("2026-12-02, and the flood test was read at 2026-12-03 08:30: give"));
  EXPECT_EQ(last("2025-12-03").outcome, Outcome::caution);
  for (const char* right : {"2026-12-03", "2027-01-01"}) EXPECT_NE(last(right).what, "date of the record") << right;
}

TEST(AsBuiltFlood, ThatWasFilledUpAgainIsNoTestThatStood) {
  // Source: by hand: 70 mm, 3 mm lost, and filled up to 70 again: water does not rise by itself. 2 of 3 mm are the
  // same; 0.1 mm is a rise, 0.04 none; and a rise is one from the lowest, not from the last.
  const auto up = flooded({{0, 70}, {20, 67}, {40, 70}});
  EXPECT_THAT(up[1].built, HasSubstr("67 mm, fell 3 mm"));
  EXPECT_EQ(up[2].outcome, Outcome::caution);
  EXPECT_THAT(up[2].built, HasSubstr("70 mm, rose 3 mm: read it again; where it was filled up, the test begins anew"));
  const auto half_way = flooded({{0, 70}, {20, 67}, {40, 69}});
  EXPECT_EQ(half_way[2].outcome, Outcome::caution);
  EXPECT_THAT(half_way[2].built, HasSubstr("69 mm, fell 1 mm, rose 2 mm: read it again"));
  EXPECT_EQ(flooded({{0, 70}, {20, 69.96}, {40, 70}})[2].outcome, Outcome::pass);
  EXPECT_EQ(flooded({{0, 70}, {20, 69.96}, {40, 70.05}})[2].outcome, Outcome::caution);
  const auto twice = flooded({{0, 70}, {10, 67}, {20, 70}, {40, 70}});
  EXPECT_EQ(twice[3].outcome, Outcome::caution) << "it stood only since it was filled up";
}

TEST(AsBuiltFlood, IsFilledToWhatEachBookSays) {
  // Source: UPC 408.7.5 (number from memory): to the threshold, here 60 mm above the drain; practice in millimetres
  // asks for no depth.
  EXPECT_EQ(flooded({{0, 60}, {15, 60}}, "plumbing", {})[1].outcome, Outcome::pass);
  EXPECT_EQ(flooded({{0, 59}, {15, 59}}, "plumbing", {})[0].outcome, Outcome::caution);
  EXPECT_EQ(flooded({{0, 10}, {15, 10}}, "metric", {})[1].outcome, Outcome::pass);
}

TEST(AsBuiltFlood, AtAnOpenEdgeStandsOverThatEdge) {
  // Source: by hand: without a threshold the dam stands on the entry's edge, 10 mm above the drain: 10 + 50.8, behind a
  // dam that reaches over that.
  facts::Facts facts;
  facts.heights.drain_top_mm = 20, facts.heights.rim_greatest_mm = 45;
  facts.edges = {{job::Side::back, facts::Behind::wall, facts::Turned::upstand, 150},
                 {job::Side::front, facts::Behind::nothing, facts::Turned::rim, 30}};
  const auto dam = units::Length::mm(80);
  EXPECT_EQ(flooded({{0, 60.8}, {15, 60.8}}, "residential", {two_inches()}, facts, dam)[1].outcome, Outcome::pass);
  EXPECT_EQ(flooded({{0, 60}, {15, 60}}, "residential", {two_inches()}, facts, dam)[0].outcome, Outcome::caution);
}

/// A basin whose lowest edge is its threshold, `holds_mm` above the drain.
facts::Facts holding(double holds_mm) {
  facts::Facts facts = basin();
  facts.heights.threshold_least_mm = facts.heights.rim_least_mm = 20 + holds_mm;
  facts.edges = {{job::Side::back, facts::Behind::wall, facts::Turned::upstand, 150},
                 {job::Side::front, facts::Behind::nothing, facts::Turned::threshold, 20 + holds_mm}};
  facts.edges[0].lapped = true;
  return facts;
}

TEST(AsBuiltFlood, WithoutWaterIsNoTest) {
  // Source: common practice, no source: nothing leaks where nothing stands. A book that asks for no depth asks for
  // water: less than half a millimetre is none that a rule shows.
  for (const double none : {0., 0.4}) {
    const auto rows = flooded({{0, none}, {30, none}}, "metric", {});
    EXPECT_EQ(rows[0].outcome, Outcome::caution);
    EXPECT_THAT(rows[0].built, HasSubstr("no water stood there"));
    EXPECT_EQ(rows[1].outcome, Outcome::not_checked);
  }
  EXPECT_EQ(flooded({{0, 1}, {30, 1}}, "metric", {})[1].outcome, Outcome::pass);
}

TEST(AsBuiltFlood, OverWhatTheBaseHoldsAsksForItsDam) {
  // Source: by hand: a threshold 60 mm above the drain holds 60, as a rule reads it, and a dam 90 mm above it 90.
  const auto at = [](double mm, std::optional<double> dam = {}) {
    job::Job job;
    job.unit = job::UnitSystem::metric;
    job.book = "metric";
    job.as_built.flood = {{"2026-12-01 08:00", units::Length::mm(mm)}, {"2026-12-01 09:00", units::Length::mm(mm)}};
    if (dam) job.as_built.dam = units::Length::mm(*dam);
    return rules::as_built_rows(job, holding(60), {}, {});
  };
  EXPECT_EQ(at(60)[1].outcome, Outcome::pass);
  EXPECT_EQ(at(61)[0].outcome, Outcome::caution);
  EXPECT_THAT(at(61)[0].built, HasSubstr("higher than the base holds, 60 mm: read it again, or say what dam held it"));
  EXPECT_EQ(at(61)[1].outcome, Outcome::not_checked);
  EXPECT_EQ(at(90, 90)[1].outcome, Outcome::pass);
  EXPECT_EQ(at(91, 90)[1].outcome, Outcome::not_checked);
}

TEST(AsBuiltFlood, ADamAtTheEntryHoldsNoWaterOverTheUpstands) {
  // Source: by hand: upstands 130 mm above the drain hold 130 whatever dam stands before the entry.
  job::Job job;
  job.unit = job::UnitSystem::metric;
  job.book = "metric";
  job.as_built.dam = units::Length::mm(300);
  facts::Facts facts = holding(60);
  facts.edges[0].lapped = false;  // its top is at 150, the drain at 20
  const auto at = [&](double mm) {
    job.as_built.flood = {{"2026-12-01 08:00", units::Length::mm(mm)}, {"2026-12-01 09:00", units::Length::mm(mm)}};
    return rules::as_built_rows(job, facts, {}, {});
  };
  EXPECT_EQ(at(130)[1].outcome, Outcome::pass);
  EXPECT_EQ(at(131)[1].outcome, Outcome::not_checked);
  EXPECT_THAT(at(131)[0].built, HasSubstr("higher than the upstands, 130 mm, whatever dam stood at the entry"));
}

TEST(AsBuiltFlood, OverABaseBuiltOnSiteCountsFromTheFlange) {
  // Source: by hand: the flange 5 mm below the datum, the finished threshold 80 above it and 15 of tile on the rough
  // one, which is what stands on the day: 70 above the flange is what it holds and what a test up to it asks for,
  // wherever the drain's finished top will be.
  job::Job job;
  job.unit = job::UnitSystem::metric;
  job.book = "plumbing";
  job.base.kind = job::BaseKind::site_built, job.base.site.waterproofing = job::Waterproofing::bonded;
  facts::Facts facts = holding(60);
  facts.site_built.emplace();
  facts.site_built->flange_top_mm = -5, facts.site_built->cover_least_mm = 15;
  const auto at = [&](double mm) {
    job.as_built.flood = {{"2026-12-01 08:00", units::Length::mm(mm)}, {"2026-12-01 09:00", units::Length::mm(mm)}};
    return rules::as_built_rows(job, facts, {}, {});
  };
  EXPECT_EQ(at(70)[1].outcome, Outcome::pass) << at(70)[0].built;
  EXPECT_THAT(at(70)[0].built, HasSubstr("70 mm above the drain's flange, 45 mm at the threshold"));
  EXPECT_THAT(at(69)[0].built, HasSubstr("too low, fill to 70 mm above the drain's flange"));
  EXPECT_THAT(at(71)[0].built, HasSubstr("higher than the base holds, 70 mm"));
}

TEST(AsBuiltFlood, IsToldWithTheDepthOfOnesOwn) {
  // Source: none; where a county asks for 3 in, no sheet tells of the book's 2.
  rules::Result own = two_inches();
  own.limit.least = 3 * 25.4, own.limit.source = "county 9", own.limit.verified = rules::Verified::user;
  EXPECT_THAT(flooded({{0, 100}}, "residential", {own})[0].limit, HasSubstr("at least 77 mm of water"));
  EXPECT_THAT(flooded({{0, 100}}, "residential", {own})[0].limit, HasSubstr("county 9"));
  EXPECT_THAT(flooded({{0, 100}})[0].limit, HasSubstr("at least 51 mm of water")) << "2 in are 50.8";
}

}  // namespace
}  // namespace fallwright
