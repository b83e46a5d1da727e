// How results are made, ordered and overridden.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "rules/result_of.hpp"
#include "rules/words.hpp"
#include "support/imperial.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using rules::Outcome;
using sample::result_of;
using testing::HasSubstr;

TEST(Check, ThePlumbingCodeMeasuresUpToTheThresholdsCentreline) {
  // Source: UPC 408.7 (2024), as a public page quotes it: area and circle at the threshold's height, tangent to its
  // centreline; IRC P2708.1 has no such words: its area ends at the threshold.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  for (facts::Part& part : facts.parts) part.bbox_mm[3] = part.bbox_mm[0] + 59 * in;
  facts.clear.finished->area_mm2 = 1000 * in * in, facts.clear.finished->circle_mm = 29 * in;
  facts.clear.to_centreline = facts.clear.finished;
  facts.clear.to_centreline->area_mm2 = 1030 * in * in, facts.clear.to_centreline->circle_mm = 31 * in;
  job.book = "plumbing";
  for (const char* id : {"clear.area", "clear.circle"}) {
    EXPECT_EQ(result_of(job, facts, id).outcome, Outcome::pass) << id;
    EXPECT_THAT(result_of(job, facts, id).where, HasSubstr("up to the threshold's centreline"));
  }
  facts.clear.to_centreline.reset();
  for (const char* id : {"clear.area", "clear.circle"}) EXPECT_EQ(result_of(job, facts, id).outcome, Outcome::fail);
  job.book = "residential";
  EXPECT_NEAR(*result_of(job, facts, "clear.area").measured, 1000 * in * in, 1e-6);
}

TEST(Check, ALimitOfTheJobFileReplacesTheBooksAndNamesItsSource) {
  // Source: none; a local amendment of 1 % to 3 % lets pass what the book fails.
  job::Job job = sample::alcove();
  job.limits = {{"floor_fall_least", 0.01, ""}, {"clear_area", 1.0, "letter of the building office"}};
  facts::Facts facts = sample::good_facts();
  for (facts::Facet& f : facts.facets)
    if (f.surface == facts::Surface::base_floor) f.fall = 0.011;
  rules::Result r = result_of(job, facts, "floor.fall-least");
  EXPECT_EQ(r.outcome, Outcome::pass);
  EXPECT_EQ(r.limit.source, "set in the job file");
  EXPECT_EQ(r.limit.verified, rules::Verified::user);
  job.limits_source = "town amendment 12";
  EXPECT_EQ(result_of(job, facts, "floor.fall-least").limit.source, "town amendment 12");
  EXPECT_EQ(result_of(job, facts, "clear.area").limit.source, "letter of the building office");
}

TEST(Check, ALimitOfOnesOwnIsNeverWidenedByTheJob) {
  // Source: none; whoever sets a stricter limit, or a wider one, means it.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  job.bed.least = job::Length::mm(12.7);
  facts.bed.least_under_ribs_mm = 15;
  job.limits = {{"bed_thickness_least", 14.0, ""}};
  EXPECT_DOUBLE_EQ(*result_of(job, facts, "bed.thickness").limit.least, 14);
  job.limits = {{"clear_width", 20 * in, ""}};
  facts.clear.finished->least_width_mm = 19 * in;
  EXPECT_EQ(result_of(job, facts, "clear.width").outcome, Outcome::fail);
}

TEST(Check, AReceptorOfThirtyBySixtyIsExempt) {
  // Source: UPC 408.7 (2024), exception 1: 30 by 60 in overall, whichever way it lies; not a hair less, and not where
  // the job sets a limit of its own.
  job::Job job = sample::alcove();
  job.book = "plumbing";
  facts::Facts facts = sample::good_facts();
  facts.clear.finished->area_mm2 = 900 * in * in, facts.clear.finished->circle_mm = 25 * in;
  const auto outcome = [&](double x, double y, const char* id) {
    facts.parts[0].bbox_mm = {0, 0, 0, x * in, y * in, 100};
    return result_of(job, facts, id).outcome;
  };
  for (const char* id : {"clear.area", "clear.circle"}) {
    EXPECT_EQ(outcome(60, 30, id), Outcome::not_applicable) << id;
    EXPECT_EQ(outcome(30, 60, id), Outcome::not_applicable) << id;
    EXPECT_EQ(outcome(59.9, 30, id), Outcome::fail) << id;
    EXPECT_EQ(outcome(60, 29.9, id), Outcome::fail) << id;
  }
  job.limits = {{"clear_area", 1000 * in * in, ""}};
  EXPECT_EQ(outcome(60, 30, "clear.area"), Outcome::fail);
  job.limits.clear(), job.book = "residential";
  facts.clear.finished->area_mm2 = 800 * in * in;
  EXPECT_EQ(outcome(60, 30, "clear.area"), Outcome::fail) << "the other code knows no such exception";
}

TEST(Check, OfFacetsAlikeTheFirstIsNamed) {
  // Source: none; the same room must not be told two ways.
  facts::Facts facts = sample::good_facts();
  facts.facets[0].fall = facts.facets[1].fall = 0.6 / 12;
  facts.facets[2].fall = facts.facets[3].fall = 0.2 / 12;
  EXPECT_THAT(result_of(sample::alcove(), facts, "floor.fall-greatest").where, HasSubstr("facet 'back'"));
  EXPECT_THAT(result_of(sample::alcove(), facts, "floor.fall-least").where, HasSubstr("facet 'left'"));
}

TEST(Check, AnUpstandAtItsLimitIsToldOfNoWall) {
  // Source: closed form: a board of 1/2 in and 1/16 in more, as far from it as rounding puts an edge in a large room.
  job::Job job = sample::alcove();
  job.survey.board_mm = in / 2;
  facts::Facts facts = sample::good_facts();
  for (const double off : {-1e-10, 0., 1e-10}) {
    for (facts::Hold& hold : facts.holds) hold.thickness_mm = in * 9 / 16 + off;
    EXPECT_EQ(result_of(job, facts, "upstand.board").where.find("along the"), std::string::npos) << off;
  }
  job = sample::alcove();  // whose boards nobody read: none is thinner than 1/4
  for (const double off : {-1e-10, 0., 1e-10}) {
    for (facts::Hold& hold : facts.holds) hold.thickness_mm = in / 4 + off;
    EXPECT_EQ(result_of(job, facts, "upstand.board").outcome, Outcome::pass) << off;
  }
}

TEST(Check, ACautionBecomesAFailureOnceTheJobSetsTheLimit) {
  // Source: IRC and UPC differ on the circle: it binds where the job says that it does.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  facts.clear.finished->circle_mm = 29 * in;
  EXPECT_EQ(result_of(job, facts, "clear.circle").outcome, Outcome::caution);
  EXPECT_FALSE(rules::any_failed(rules::check(job, facts)));
  job.limits = {{"clear_circle", 30 * in, ""}};
  EXPECT_EQ(result_of(job, facts, "clear.circle").outcome, Outcome::fail);
  EXPECT_TRUE(rules::any_failed(rules::check(job, facts)));
}

TEST(Check, AWidthSetInTheJobFileHasNoSecondWay) {
  // Source: none; whoever sets a width means that width.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  facts.clear.finished->area_mm2 = 1400 * in * in;
  facts.clear.finished->least_width_mm = 26 * in;
  EXPECT_EQ(result_of(job, facts, "clear.width").outcome, Outcome::pass);
  job.limits = {{"clear_width", 30 * in, ""}};
  EXPECT_EQ(result_of(job, facts, "clear.width").outcome, Outcome::fail);
}

TEST(Check, MarginIsTheRoomAsAShareOfTheLimit) {
  // Source: closed form: 0.3 over 0.25 in/ft leaves a fifth, 0.2 lacks a fifth.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  EXPECT_NEAR(*result_of(job, facts, "floor.fall-least").margin, 0.2, 1e-12);
  facts.facets[2].fall = 0.2 / 12;
  EXPECT_NEAR(*result_of(job, facts, "floor.fall-least").margin, -0.2, 1e-12);
  EXPECT_NEAR(*result_of(job, facts, "opening.width").margin, 0.5, 1e-12) << "1/4 of 1/2 in left over";
}

TEST(Check, WhatIsWorstComesFirst) {
  // Source: none; failures, cautions, what is not checked, then passes by their room, then what does not apply.
  job::Job job = sample::alcove();
  job.floor.kind = job::FloorKind::slab;
  job.survey.board_mm = in / 2;
  job.trap = sample::trap();
  facts::Facts facts = sample::good_facts();
  facts.clear.finished->circle_mm = 29 * in;
  facts.heights.upstand_top_mm.reset();
  facts.facets[2].fall = 0.2 / 12;
  facts.facets[0].fall = 2.0 / 12;
  facts.fits.push_back(
      {sample::part_id("base"), sample::part_id("bench-frame/joist-01"), facts::Touch::clash, 0, 500, {}});
  const auto sorted = rules::worst_first(rules::check(job, facts));
  ASSERT_GT(sorted.size(), 7U);
  EXPECT_EQ(sorted[0].id, "fit.no-clash") << "no degree to it: it cannot be built";
  EXPECT_EQ(sorted[1].id, "floor.fall-greatest");
  EXPECT_EQ(sorted[2].id, "floor.fall-least");
  EXPECT_EQ(sorted[3].id, "clear.circle");
  EXPECT_EQ(sorted[4].id, "levelling.window") << "no window where a fall is broken already";
  EXPECT_EQ(sorted[5].id, "trap.size") << "which pipe it is nobody said";
  EXPECT_EQ(sorted[6].id, "threshold.below-upstand");
  EXPECT_EQ(sorted[5].outcome, Outcome::not_checked);
  EXPECT_EQ(sorted.back().outcome, Outcome::not_applicable);
  for (std::size_t i = 8; i + 1 < sorted.size(); ++i)
    if (sorted[i + 1].outcome == Outcome::pass && sorted[i].margin && sorted[i + 1].margin) {
      EXPECT_LE(*sorted[i].margin, *sorted[i + 1].margin) << sorted[i].id;
    }
}

TEST(Check, TheWorstClashIsNamedWithItsOverlapAndPlace) {
  // Source: none.
  facts::Facts facts = sample::good_facts();
  facts.fits.push_back(
      {sample::part_id("seat-block"), sample::part_id("bench-frame/joist-01"), facts::Touch::clash, 0, 10, {}});
  facts.fits.push_back({sample::part_id("base"),
                        sample::part_id("bench-frame/stud-01"),
                        facts::Touch::clash,
                        0,
                        28.316846592e6,
                        {254, 508, 0}});
  const rules::Result r = result_of(sample::alcove(), facts, "fit.no-clash");
  EXPECT_EQ(*r.measured, 2);
  EXPECT_THAT(r.where,
              HasSubstr("'base' and 'bench-frame/stud-01' share 1.00 ft3 at 10\" from the left stud face, 20\" from"));
}

TEST(Check, WhatRunsIntoAWallDoesNotFillItsOpening) {
  // Source: by hand: a base 1/64 in wider than the room as solved, by readings that are off by 1/16: at its limit, as
  // far as they tell, and out of it where the solids of base and wall share room.
  facts::Facts facts = sample::good_facts();
  facts.openings[0].left_over_mm = -in / 64;
  facts.room.closure.solved = true, facts.room.closure.spare = 1;
  facts.room.closure.worst_mm = in / 16, facts.room.closure.allowed_mm = in / 8;
  facts.room.closure.readings = {{"back", 72 * in, 72.0625 * in, 0, {}}};
  EXPECT_EQ(result_of(sample::alcove(), facts, "opening.width").outcome, Outcome::pass);
  facts.fits.push_back(
      {sample::part_id("wall-back/sole-plate"), sample::part_id("base"), facts::Touch::clash, 0, 10, {}});
  EXPECT_EQ(result_of(sample::alcove(), facts, "opening.width").outcome, Outcome::pass) << "another wall";
  facts.fits.push_back(
      {sample::part_id("base"), sample::part_id("wall-right/sole-plate"), facts::Touch::clash, 0, 10, {}});
  EXPECT_EQ(result_of(sample::alcove(), facts, "fit.no-clash").outcome, Outcome::fail);
  const rules::Result r = result_of(sample::alcove(), facts, "opening.width");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_THAT(r.advice, HasSubstr("it does not go in by 1/16\""));
}

TEST(Check, WithinHalfAMarkOfTheCoarserTapeABaseGoesInWhereNothingCloses) {
  // Source: closed form: half of 1/16 in is 0.79 mm, the coarser of the two tapes' marks. A room that lacks a wall and
  // one that closes are judged alike, in either unit; more than that does not go in, nor what shares room with a wall.
  for (const auto unit : {job::UnitSystem::inch, job::UnitSystem::metric})
    for (const bool spare : {false, true})
      for (const std::size_t axis : {0U, 1U}) {
        const char* id = axis == 0 ? "opening.width" : "opening.depth";
        job::Job job = sample::alcove();
        job.unit = unit;
        facts::Facts facts = sample::good_facts();
        facts.room.closure = {};
        facts.room.closure.solved = facts.room.closure.spare = spare;
        facts.room.closure.allowed_mm = 1;
        const auto outcome = [&](double over_mm) {
          facts.openings[axis].left_over_mm = facts.openings[axis].open_mm + over_mm;
          return result_of(job, facts, id).outcome;
        };
        EXPECT_EQ(outcome(-0.36), Outcome::pass) << id;
        EXPECT_EQ(outcome(-0.55), Outcome::pass) << id;
        EXPECT_EQ(outcome(-0.79), Outcome::pass) << id;
        EXPECT_EQ(outcome(-0.81), Outcome::fail) << id;
        facts.fits.push_back(
            {sample::part_id("wall-back/sole-plate"), sample::part_id("base"), facts::Touch::clash, 0, 10, {}});
        facts.fits.push_back(
            {sample::part_id("base"), sample::part_id("wall-right/sole-plate"), facts::Touch::clash, 0, 10, {}});
        EXPECT_EQ(outcome(-0.36), Outcome::fail) << id;
      }
}

TEST(Check, ADrainInTheWallOfItsOwnBoreWantsAWiderOne) {
  // Source: by hand: a body 1/8 in past the wall of a bore of 5 in wants 2 x (1/8 + 1/4) more: 5-3/4. Moved, it takes
  // the bore along; and nobody shortens a floor.
  facts::Facts facts = sample::good_facts();
  facts.drain.body_to_bore_mm = -in / 8;
  facts.fits.push_back(
      {sample::part_id("subfloor"), sample::part_id("drain"), facts::Touch::clash, 0, 15000, {0, 0, 0}});
  job::Job job = sample::alcove();
  job.drain.bore = job::Length::inches(5);
  const rules::Result r = result_of(job, facts, "fit.no-clash");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_EQ(r.advice, "bore 5-3/4\" at least (drain.bore)");
  ASSERT_EQ(r.remedies.size(), 1U);
  EXPECT_EQ(r.remedies[0].changes[0].key, "drain.bore");
}

TEST(Check, AdviceNamesTheValueThatWouldPass) {
  // Source: by hand, each beside its case.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  facts.heights.threshold_least_mm = facts.heights.drain_top_mm + 1.70 * in;  // 0.30 in lack to 2-1/2: 5/16
  facts.drain.body_to_bore_mm = 0.10 * in;                                    // 2 x 0.15 in more than 5 in: 5-5/16
  facts.drain.bore_to_joist_mm = -2.25 * in;                                  // out of the joist, and 1/4 beyond: 2-1/2
  facts.openings[0].left_over_mm = -0.24 * in;                                // 1/4
  EXPECT_THAT(result_of(job, facts, "threshold.height-least").advice,
              HasSubstr("raise the threshold to 2-13/16\" above the drain (base.threshold.height)"));
  EXPECT_THAT(result_of(job, facts, "drain.in-bore").advice, HasSubstr("bore 5-5/16\" at least (drain.bore)"));
  EXPECT_THAT(result_of(job, facts, "drain.bore-clear-of-joists").advice, HasSubstr("move the drain 2-1/2\" away"));
  EXPECT_THAT(result_of(job, facts, "opening.width").advice, HasSubstr("does not go in by 1/4\""));
}

TEST(Check, TheBedIsHeldAgainstWhatTheJobAsks) {
  // Source: none; the limit is the job's own, and is shown as such.
  const rules::Result r = result_of(sample::alcove(), sample::good_facts(), "bed.least");
  EXPECT_DOUBLE_EQ(*r.limit.least, 0.5 * in);
  EXPECT_DOUBLE_EQ(*r.measured, 0.625 * in);
  EXPECT_EQ(r.limit.source, "bed.least in the job file");
}

TEST(Check, OpenSpaceUnderTheBaseFailsThoughMortarIsLeftOver) {
  // Source: none; mortar in the wrong place fills nothing.
  facts::Facts facts = sample::good_facts();
  facts.bed.void_mm3 = 5000;
  EXPECT_EQ(result_of(sample::alcove(), facts, "bed.fills-shell").outcome, Outcome::fail);
}

TEST(Check, MortarThatIsEnoughReadsAsEnough) {
  // Source: arithmetic: 35.14 L spread over the 35.11 needed pass; rounded each to its own side they would read 35.1 of
  // 35.2. Short by as little they fail, and read short.
  facts::Facts facts = sample::good_facts();
  job::Job job = sample::alcove();
  job.unit = job::UnitSystem::metric;
  facts.bed.void_mm3 = 0, facts.bed.set_mm3 = 35.11e6, facts.bed.spread_mm3 = 35.14e6;
  facts.bed.squeeze_out_mm3 = facts.bed.spread_mm3 - facts.bed.set_mm3;
  const rules::Result enough = result_of(job, facts, "bed.fills-shell");
  EXPECT_EQ(enough.outcome, rules::Outcome::pass);
  EXPECT_THAT(enough.where, testing::HasSubstr("spread 35.2 L, needed under the base 35.2 L"));
  std::swap(facts.bed.set_mm3, facts.bed.spread_mm3);
  facts.bed.squeeze_out_mm3 = -facts.bed.squeeze_out_mm3;
  const rules::Result little = result_of(job, facts, "bed.fills-shell");
  EXPECT_EQ(little.outcome, rules::Outcome::fail);
  EXPECT_THAT(little.where, testing::HasSubstr("spread 35.1 L, needed under the base 35.2 L"));
}

TEST(Check, ALengthBetweenWallsIsAtItsLimitAsFarAsTheReadingsAgree) {
  // Source: closed form: readings that differ by 1/64 in cannot tell 35-31/64 in from the 35-1/2 in of ADA 608.2.1
  // less its tolerance; they can tell 35-7/16.
  facts::Facts facts = sample::good_facts();
  facts.room.closure.readings = {{"back", 72 * in, (72 - 1. / 64) * in, in / 16, {}}};
  facts.room.closure.worst_mm = in / 64, facts.room.closure.allowed_mm = in / 16;
  facts.clear.compartment.width_mm = (35.5 - 1. / 64) * in;
  job::Job job = sample::alcove();
  job.book = "accessible";
  EXPECT_EQ(result_of(job, facts, "access.inside-width").outcome, Outcome::pass);
  EXPECT_THAT(result_of(job, facts, "access.inside-width").where, HasSubstr("at its limit"));
  facts.clear.compartment.width_mm = (35.5 - 1. / 16) * in;
  EXPECT_EQ(result_of(job, facts, "access.inside-width").outcome, Outcome::fail);
  facts.clear.compartment.width_mm = (35.5 - 1. / 64) * in;
  facts.room.closure.spare = false;
  EXPECT_EQ(result_of(job, facts, "access.inside-width").outcome, Outcome::fail) << "nothing says how far they agree";
}

TEST(Check, ABaseAsLongAsItsOpeningIsReadIsWithinHalfAMarkOfTheTape) {
  // Source: by hand: readings that agree to the last digit are read to 1/16 in all the same: 1/64 in is at the limit,
  // 3/64 is not; and where solids share room nothing is.
  facts::Facts facts = sample::good_facts();
  facts.room.closure.readings = {{"back", 72 * in, 72 * in, in / 16, {}}};
  facts.room.closure.worst_mm = 0, facts.room.closure.allowed_mm = in / 16;
  const auto deep = [&](double over_mm) {
    for (facts::Opening& o : facts.openings)
      if (o.axis == facts::Axis::depth) o.left_over_mm = over_mm, o.open_mm = 0;
    return result_of(sample::alcove(), facts, "opening.depth");
  };
  EXPECT_EQ(deep(-in / 64).outcome, Outcome::pass);
  EXPECT_THAT(deep(-in / 64).where, HasSubstr("at its limit"));
  EXPECT_EQ(deep(-3 * in / 64).outcome, Outcome::fail);
  facts::Fit fit;
  fit.a = sample::part_id("base"), fit.b = sample::part_id("wall-back/stud-01"), fit.state = facts::Touch::clash;
  facts.fits.push_back(fit);
  EXPECT_EQ(deep(-in / 64).outcome, Outcome::fail) << "it runs into a stud";
  facts.fits.pop_back(), facts.room.closure.spare = false;
  EXPECT_EQ(deep(-in / 64).outcome, Outcome::pass) << "a tape is read no better where no reading is to spare";
}

TEST(Check, WhatGoesInNeitherWayIsToldByTheWayThatLacksLess) {
  // Source: none; figure, way and advice are of one way.
  facts::Facts facts = sample::good_facts();
  for (const auto& [level, tipped, way] :
       {std::tuple{-0.5, -0.25, "tipped in"}, std::tuple{-0.25, -0.5, "let down level"}}) {
    facts.room.drop_in.least_mm = level * in, facts.room.drop_in.tip_clear_mm = tipped * in;
    const rules::Result r = result_of(sample::alcove(), facts, "room.goes-in");
    EXPECT_NEAR(*r.measured, -0.25 * in, 1e-9);
    EXPECT_THAT(r.where, HasSubstr(way));
    EXPECT_THAT(r.advice, HasSubstr(std::string{"does not go in, "} + way + ", by 1/4\""));
  }
}

TEST(Check, ACornerOfTwoWallsIsHeldAgainstASquare) {
  // Source: none; two walls make no figure that tape could close.
  job::Job job = sample::alcove();
  job.alcove.walls = {job::Side::back, job::Side::left};
  facts::Facts facts = sample::good_facts();
  facts.room.closure = {};
  const rules::Result open = result_of(job, facts, "room.stud-gap");
  EXPECT_EQ(open.outcome, Outcome::not_checked);
  EXPECT_THAT(open.advice, HasSubstr("(survey.square)"));
  job.survey.square = true;
  EXPECT_EQ(result_of(job, facts, "room.stud-gap").outcome, Outcome::pass);
  job.survey.square = false;
  EXPECT_EQ(result_of(job, facts, "room.stud-gap").outcome, Outcome::not_checked);
  job.survey.square.reset();
  job.alcove.walls = {job::Side::back};
  EXPECT_EQ(result_of(job, facts, "room.stud-gap").outcome, Outcome::pass) << "one wall has no corner";
}

TEST(Check, EdgesThatNoOneFloorMeetsAreNotMendedByAFloor) {
  // Source: closed form: edges 1-1/4 in apart in height are met within 1/2 in by none, those 3/4 in apart by several.
  job::Job job = sample::alcove();
  job.base.threshold = {};
  facts::Facts facts = sample::good_facts();
  facts.heights.outside = sample::level_at(0);
  facts.room.as_set.raised_mm.reset();
  for (const double apart : {0.75, 1.25}) {
    facts.edges = {{job::Side::front, facts::Behind::nothing, facts::Turned::rim, 1 * in, (1 + apart) * in, false}};
    const rules::Result r = result_of(job, facts, "entry.step");
    EXPECT_EQ(r.outcome, Outcome::caution);
    EXPECT_EQ(r.remedies.size(), apart < 1 ? 1U : 0U) << r.advice;
  }
}

TEST(Check, NothingIsPrintedWithoutDecimals) {
  // Source: none; "at least 0.00 ft3" reads as a little.
  rules::Result result;
  result.limit = {0, {}, rules::Unit::mm3, "", {}};
  job::Job job = sample::alcove();
  EXPECT_EQ(rules::limit_text(result, job), "at least 0 ft3");
  job.unit = job::UnitSystem::metric;
  EXPECT_EQ(rules::limit_text(result, job), "at least 0 L");
}

TEST(Check, RoundingOfDoublesIsForgivenAndNoMore) {
  // Source: units/tolerance.hpp.
  const rules::Limit fall{1.0 / 48, {}, rules::Unit::ratio, "", {}}, length{50.8, {}, rules::Unit::mm, "", {}};
  EXPECT_TRUE(rules::keeps(1.0 / 48 - 1e-12, fall));
  EXPECT_FALSE(rules::keeps(1.0 / 48 - 1e-7, fall));
  EXPECT_TRUE(rules::keeps(50.8 - 1e-9, length));
  EXPECT_FALSE(rules::keeps(50.799, length));
}

}  // namespace
}  // namespace fallwright
