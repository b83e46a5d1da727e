// No pass rests on a usual value that nobody read.
#include <gtest/gtest.h>

#include "rules/good_facts.hpp"
#include "rules/result_of.hpp"
#include "rules/trap_of.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using rules::Outcome;

TEST(Unread, NothingIsSaidToRunIntoWallsThatNobodyPlumbed) {
  // Source: by hand: a wall that stands may lean into what is set before it by more than the tape left, whichever side
  // it is on; a clash that the solids have is one all the same, new walls are framed to the design, and a base that is
  // laid against its walls meets them as they stand.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  for (const job::Side side : {job::Side::left, job::Side::right}) {
    job.walls.existing = true, facts.room.not_plumbed = {side};
    const rules::Result r = sample::result_of(job, facts, "fit.no-clash");
    EXPECT_EQ(r.outcome, Outcome::not_checked);
    EXPECT_NE(r.advice.find("survey.plumb"), std::string::npos) << r.advice;
    job.walls.existing = false;
    EXPECT_EQ(sample::result_of(job, facts, "fit.no-clash").outcome, Outcome::pass);
    job.walls.existing = true, facts.room.not_plumbed.clear();
    EXPECT_EQ(sample::result_of(job, facts, "fit.no-clash").outcome, Outcome::pass);
  }
  facts.room.not_plumbed = {job::Side::left};
  facts.fits.push_back(
      {sample::part_id("seat-block"), sample::part_id("bench-frame/joist-01"), facts::Touch::clash, 0, 10, {}});
  EXPECT_EQ(sample::result_of(job, facts, "fit.no-clash").outcome, Outcome::fail);
}

TEST(Unread, NoPassRestsOnADefaultThatNobodySaid) {
  // Source: none; keys that the file leaves out. What fails by the default fails still.
  const std::pair<const char*, const char*> cases[] = {{"drain.body", "drain.in-bore"},
                                                       {"drain.outlet", "drain.outlet"},
                                                       {"tile.height", "wall.above-floor"},
                                                       {"floor.deck", "floor.deck-span"},
                                                       {"floor.joists.spacing", "floor.deck-span"},
                                                       {"floor.joists.stock", "drain.bore-clear-of-joists"},
                                                       {"floor.joists.direction", "drain.bore-clear-of-joists"},
                                                       {"floor.joists.stock", "load.joists-strength"},
                                                       {"floor.joists.direction", "load.joists-deflection"}};
  for (const auto& [key, id] : cases) {
    job::Job job = sample::alcove();
    job.floor.joist_span = job::Length::inches(120), job.floor.joist_species = "SPF No.2";
    facts::Facts facts = sample::good_facts();
    EXPECT_EQ(sample::result_of(job, facts, id).outcome, Outcome::pass) << id;
    job.defaulted = {key};
    const rules::Result r = sample::result_of(job, facts, id);
    EXPECT_EQ(r.outcome, Outcome::not_checked) << id;
    EXPECT_FALSE(r.measured) << id;
    EXPECT_NE(r.advice.find(key), std::string::npos) << r.advice;
  }
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  job.defaulted = {"drain.body"};
  facts.drain.body_to_bore_mm = -5;
  EXPECT_EQ(sample::result_of(job, facts, "drain.in-bore").outcome, Outcome::fail);
}

TEST(Unread, ABaseBuiltOnSiteIsNoSquarerThanItsWallsWereRead) {
  // Source: none: its outline, falls, bed and free floor are the walls'. Sides without diagonals are of many figures,
  // and "not square" of none; as designed a room has the corners that were drawn, and a base that is brought its own.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::site_built;
  facts::Facts facts = sample::good_facts();
  facts.site_built.emplace().cover_least_mm = 40;
  const auto ids = {"floor.fall-least", "floor.fall-greatest", "floor.drains", "bed.least",
                    "bed.greatest",     "clear.area",          "clear.width",  "clear.circle"};
  const auto expect = [&](Outcome outcome, const char* when) {
    for (const char* id : ids) {
      const rules::Result r = sample::result_of(job, facts, id);
      EXPECT_EQ(r.outcome, outcome) << id << ", " << when;
      if (outcome == Outcome::not_checked) {
        EXPECT_NE(r.advice.find("diagonal"), std::string::npos) << r.advice;
      }
    }
  };
  facts.room.closure.solved = true;
  expect(Outcome::pass, "all read");
  facts.room.closure.solved = false, facts.room.closure.missing = {"diagonal from the back left"};
  expect(Outcome::pass, "as designed");
  job.survey.plan.back = {1500, 2, survey::Face::stud, 0};
  expect(Outcome::not_checked, "sides alone");
  facts::Facts steep = facts;
  for (facts::Facet& f : steep.facets) f.fall = 0.2;
  EXPECT_EQ(sample::result_of(job, steep, "floor.fall-greatest").outcome, Outcome::fail) << "fails as it is drawn";
  job.survey.plan.back.reset(), job.survey.square = false;
  expect(Outcome::not_checked, "said to be askew");
  job.survey.square.reset(), job.walls.existing = true;
  expect(Outcome::not_checked, "walls that stand");
  job.base.kind = job::BaseKind::designed, facts.site_built.reset();
  expect(Outcome::pass, "a base that is brought");
  job.base.kind = job::BaseKind::site_built, facts.site_built.emplace().cover_least_mm = 40;
  job.alcove.walls = {job::Side::back, job::Side::left};
  for (const auto& [square, outcome] : {std::pair{std::optional<bool>{}, Outcome::not_checked},
                                        {std::optional{false}, Outcome::not_checked},
                                        {std::optional{true}, Outcome::pass}}) {
    job.survey.square = square;
    EXPECT_EQ(sample::result_of(job, facts, "floor.fall-greatest").outcome, outcome) << "a corner";
  }
}

TEST(Unread, WallsThatNobodyPlumbedLeaveNoFreeFloorKnown) {
  // Source: none: finished walls come in as far as they lean, and a base is let down between them. Walls that are still
  // to be built stand plumb as designed.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  const auto expect = [&](const std::vector<const char*>& ids, Outcome outcome, const char* when) {
    for (const char* id : ids) {
      const rules::Result r = sample::result_of(job, facts, id);
      EXPECT_EQ(r.outcome, outcome) << id << ", " << when;
      if (outcome == Outcome::not_checked) {
        EXPECT_NE(r.advice.find("plumb the back wall (survey.plumb)"), std::string::npos) << r.advice;
      }
    }
  };
  const std::vector<const char*> any{"clear.area", "clear.width", "clear.circle", "opening.width", "opening.depth"},
      of_site{"floor.fall-least", "floor.fall-greatest", "bed.greatest"};
  facts.room.not_plumbed = {job::Side::back};
  job.walls.existing = false;
  expect(any, Outcome::pass, "to be built");
  job.walls.existing = true;
  expect(any, Outcome::not_checked, "not plumbed");
  expect(of_site, Outcome::pass, "a base of its own shape");
  job.base.kind = job::BaseKind::site_built, facts.site_built.emplace().cover_least_mm = 40;
  facts.room.closure.solved = true;
  expect(of_site, Outcome::not_checked, "a base of the walls' shape");
  facts.room.not_plumbed.clear();
  expect(of_site, Outcome::pass, "plumbed");
}

TEST(Unread, ABenchIsOfTheUsualTimberWhereThatIsSold) {
  // Source: none: SPF No.2 is a North American grade; where books are metric a yard has C16 or C24, and who sells
  // another is told to look at its stamp. Said in the job it is known.
  for (const auto& [book, usual] : {std::pair{"residential", true}, {"european", false}, {"metric", false}}) {
    job::Job job = sample::in_book(book);
    job.bench->frame.fasteners_at_stud = 12;
    const facts::Facts facts = sample::good_facts();
    for (const char* id : {"load.seat-cleat", "load.seat-strength"}) {
      job.defaulted = {"bench.frame.species"};
      const rules::Result open = sample::result_of(job, facts, id);
      EXPECT_EQ(open.outcome == Outcome::not_checked, !usual) << book << " " << id;
      if (!usual) {
        EXPECT_NE(open.advice.find("bench.frame.species"), std::string::npos) << open.advice;
      }
      job.defaulted.clear();
      EXPECT_NE(sample::result_of(job, facts, id).outcome, Outcome::not_checked) << book << " " << id;
    }
  }
}

TEST(Unread, AWidthThatWasReadIsHeldAgainstPlumbWhateverTheBase) {
  // Source: none: walls that were read twice differ, or do not; who screeds a base between them asks for no width, and
  // who read one hears of it.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  job.base.kind = job::BaseKind::site_built, facts.site_built.emplace();
  ASSERT_FALSE(facts.room.widths.empty());
  const auto agree = [&] { return sample::result_of(job, facts, "survey.widths-agree"); };
  facts.room.widths[0].reading_mm = facts.room.widths[0].solids_mm - 1000;
  EXPECT_EQ(agree().outcome, Outcome::caution);
  facts.room.widths[0].reading_mm = facts.room.widths[0].solids_mm;
  EXPECT_EQ(agree().outcome, Outcome::pass);
  facts.clear.narrower_at_entry = facts.room.widths[0];
  EXPECT_NE(sample::result_of(job, facts, "access.opening").where.find("was read at a height of"), std::string::npos);
  facts.room.widths.clear();
  EXPECT_EQ(agree().outcome, Outcome::not_applicable);
}

TEST(Unread, AFloorThatIsOutOfLevelPastTheSpotsAloneIsReadThereFirst) {
  // Source: common practice, no source, for 3/8 in; none for the rest: what nobody read fails nobody, and passes
  // nobody.
  const job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  facts::FloorShape& floor = facts.room.floor;
  const auto level = [&](double in_room, double read) {
    floor.along_width_mm = in_room * 25.4, floor.read_mm = read * 25.4;
    return sample::result_of(job, facts, "floor.level");
  };
  EXPECT_EQ(level(0.375, 0.3).outcome, Outcome::pass);
  const rules::Result open = level(0.41, 0.375);
  EXPECT_EQ(open.outcome, Outcome::not_checked);
  EXPECT_NE(open.advice.find("between the spots it keeps 3/8\", and 7/16\" along the width"), std::string::npos)
      << open.advice;
  EXPECT_EQ(level(0.41, 0.376).outcome, Outcome::fail);
  floor.read_mm.reset();
  EXPECT_EQ(sample::result_of(job, facts, "floor.level").outcome, Outcome::fail) << "drops tell of the whole room";
}

TEST(Unread, NoPassRestsOnWhatNobodyReadOnABoughtBase) {
  // Source: none; a base that is there has an opening, upstands and a threshold of its own. Of one that is drawn the
  // same keys are its design, and of one from a file the file tells them.
  const std::pair<const char*, const char*> cases[] = {{"drain.size", "floor.fall-greatest"},
                                                       {"drain.opening", "floor.fall-least"},
                                                       {"drain.size", "floor.drains"},
                                                       {"base.upstands.sides", "upstand.every-wall"},
                                                       {"base.threshold.fall", "threshold.falls-inward"},
                                                       {"base.threshold.fall", "threshold.drains"}};
  for (const auto& [key, id] : cases) {
    job::Job job = sample::alcove();
    facts::Facts facts = sample::good_facts();
    job.defaulted = {key};
    EXPECT_EQ(sample::result_of(job, facts, id).outcome, Outcome::pass) << id << ", drawn";
    facts.bought.emplace();
    const rules::Result r = sample::result_of(job, facts, id);
    EXPECT_EQ(r.outcome, Outcome::not_checked) << id;
    EXPECT_NE(r.advice.find(key), std::string::npos) << r.advice;
    job.defaulted.clear();
    EXPECT_EQ(sample::result_of(job, facts, id).outcome, Outcome::pass) << id << ", read";
  }
}

TEST(Unread, NoPassRestsOnADrainWhoseDepthNobodyRead) {
  // Source: none; the usual drain hangs as low as it does, and the one that is there as low as a tape says.
  job::Job job = sample::trap(36, 0.25);
  job.trap->weir = job::Length::inches(-9);
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.down_to_weir_mm = 150;
  EXPECT_EQ(sample::result_of(job, facts, "trap.below").outcome, Outcome::pass);
  job.defaulted = {"drain.body_depth"};
  const rules::Result r = sample::result_of(job, facts, "trap.below");
  EXPECT_EQ(r.outcome, Outcome::not_checked);
  EXPECT_NE(r.advice.find("drain.body_depth"), std::string::npos) << r.advice;
}

TEST(Unread, NoDeckCarriesOverJoistsWhoseSpacingNobodyRead) {
  // Source: none; what a deck carries goes by the bay: 150 psf over 16 in, 100 over 24 (load.deck's source).
  job::Job job = sample::alcove();
  const facts::Facts facts = sample::facts_for_boundary();
  EXPECT_EQ(sample::result_of(job, facts, "load.deck").outcome, Outcome::pass);
  job.defaulted = {"floor.joists.spacing"};
  const rules::Result r = sample::result_of(job, facts, "load.deck");
  EXPECT_EQ(r.outcome, Outcome::not_checked);
  EXPECT_NE(r.advice.find("measure the spacing of the floor joists"), std::string::npos) << r.advice;
}

}  // namespace
}  // namespace fallwright
