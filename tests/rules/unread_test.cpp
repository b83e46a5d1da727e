// No pass rests on a usual value that nobody read.
#include <gtest/gtest.h>

#include "rules/good_facts.hpp"
#include "rules/result_of.hpp"
#include "rules/trap_of.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using rules::Outcome;

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
