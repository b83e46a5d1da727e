// The trap arm through its joists: edges, holes that are there already, and heights and places that leave enough wood.
#include <utility>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "job/change.hpp"
#include "job/pipe.hpp"
#include "rules/boundary_cases.hpp"
#include "rules/check.hpp"
#include "rules/read_next.hpp"
#include "rules/result_of.hpp"
#include "rules/rule_book.hpp"
#include "rules/trap_of.hpp"
#include "rules/words.hpp"
#include "support/imperial.hpp"

namespace fallwright {
namespace {

using job::Length;
using rules::Outcome;
using sample::trap;
using testing::HasSubstr;

/// A trap whose arm of 2 in goes through holes of 2-3/8, its weir 6 in down.
job::Job bored_trap() {
  job::Job job = trap(36, 0.25);
  job.trap->pipe = Length::inches(2), job.trap->hole = Length::inches(2.375), job.trap->weir = Length::inches(-6);
  job.trap->from_left = Length::inches(43.25), job.trap->from_back = Length::inches(16.25);
  return job;
}

TEST(Trap, WhatJoistsLoseToAnArmThatMeetsNoneRestsOnTheirSpacing) {
  // Source: none: at another spacing than the usual one others lie in its way.
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true, facts.pipe.crossings.clear();
  job::Job job = bored_trap();
  for (const char* id : {"joist.hole", "joist.hole-for-pipe", "joist.hole-edges"}) {
    job.defaulted.clear();
    EXPECT_EQ(sample::result_of(job, facts, id).outcome, Outcome::not_applicable) << id;
    job.defaulted = {"floor.joists.spacing"};
    const rules::Result r = sample::result_of(job, facts, id);
    EXPECT_EQ(r.outcome, Outcome::not_checked) << id;
    EXPECT_THAT(r.advice, HasSubstr("measure the spacing of the floor joists (floor.joists.spacing)")) << id;
  }
}

TEST(Trap, AHoleWithEnoughWoodRestsOnDeckFloorAndSpacing) {
  // Source: by hand: joists hang from the datum by floor and deck, and lie at their spacing: 3 in of wood above and
  // below a hole are so much where those were read. What fails by them as they are taken fails.
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const auto edges = [&](const job::Job& job) { return sample::result_of(job, facts, "joist.hole-edges"); };
  const auto hole = [](double below) {
    return facts::JoistCrossing{"joists/joist-01", 10 * in, -300, -300 + 9.25 * in, -300 + (below + 2.375 / 2) * in,
                                2.375 * in};
  };
  job::Job job = bored_trap();
  job.floor.joists_bored = false;
  facts.pipe.crossings = {hole(3)};
  ASSERT_EQ(edges(job).outcome, Outcome::pass);
  for (const char* key : {"floor.deck", "floor.joists.spacing"}) {
    job.defaulted = {key};
    facts.pipe.crossings = {hole(3)};
    EXPECT_EQ(edges(job).outcome, Outcome::not_checked) << key;
    EXPECT_THAT(edges(job).advice, HasSubstr(key));
    facts.pipe.crossings = {hole(1)};
    EXPECT_EQ(edges(job).outcome, Outcome::fail) << key;
  }
  facts.pipe.crossings = {};
  EXPECT_EQ(edges(job).outcome, Outcome::not_checked) << "at another spacing it may meet one";
  EXPECT_THAT(edges(job).advice, HasSubstr("(floor.joists.spacing)"));
  job.defaulted = {};
  EXPECT_EQ(edges(job).outcome, Outcome::not_applicable);
  facts.pipe.crossings = {hole(3)};
  facts.room.floor.known = false;
  EXPECT_EQ(edges(job).outcome, Outcome::not_checked);
  EXPECT_THAT(edges(job).advice, HasSubstr("spot levels"));
}

TEST(Trap, AnArmIsMovedToTheHeightThatLeavesEnoughWood) {
  // Source: IRC R502.8.1 (2018): 2 in above and below. By hand: 9.25 in of joist and a hole of 2-3/8 leave 6-7/8; with
  // 1/2 in below the arm goes up 1-1/2; with two joists, one short below and one short above by as much as the other
  // has to spare, no height does.
  job::Job job = bored_trap();
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const auto joist = [](double from, double below) {
    const double bottom = -300;
    return facts::JoistCrossing{
        "joists/joist-01", from * in, bottom, bottom + 9.25 * in, bottom + (below + 2.375 / 2) * in, 2.375 * in};
  };
  const auto edges = [&] { return sample::result_of(job, facts, "joist.hole-edges"); };
  facts.pipe.crossings = {joist(10, 0.5)};
  rules::Result r = edges();
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_THAT(r.advice, HasSubstr("raise trap and arm by 1-1/2\""));
  ASSERT_EQ(r.remedies.size(), 1U);
  EXPECT_EQ(r.remedies[0].changes[0], (job::Change{"trap.weir", "\"-4-1/2 in\"", 0}));
  job.trap->hub = Length::inches(-5);  // a trap is one piece
  r = edges();
  EXPECT_THAT(r.advice, HasSubstr("raise trap and arm by 1-1/2\" (trap.weir, trap.hub)"));
  EXPECT_EQ(r.remedies[0].changes,
            (std::vector{job::Change{"trap.weir", "\"-4-1/2 in\"", 0}, job::Change{"trap.hub", "\"-3-1/2 in\"", 0}}));
  job.trap->hub.reset();
  facts.pipe.passed_under = {"joists/joist-02"};  // raised so far the arm may cut that one's edge in its turn
  EXPECT_THAT(edges().advice, HasSubstr("1-1/2\" at least: it then meets what it passes under now (joist-02)"));
  EXPECT_TRUE(edges().remedies.empty());
  facts.pipe.passed_under = {};
  facts.pipe.crossings.push_back(joist(40, 0));
  facts.pipe.crossings.back().modelled = false;
  EXPECT_THAT(edges().advice, HasSubstr("once the joists past the floor are looked at"));
  EXPECT_TRUE(edges().remedies.empty());
  facts.pipe.crossings = {joist(10, 5.875)};
  EXPECT_THAT(edges().advice, HasSubstr("lower trap and arm by 1\""));
  facts.pipe.crossings = {joist(10, 0.5), joist(26, 4.5)};
  r = edges();
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_THAT(r.advice, HasSubstr("no height leaves enough"));
  EXPECT_TRUE(r.remedies.empty());
}

TEST(Trap, HolesThatAJoistHasAlreadyStayTwoInchesFromTheArms) {
  // Source: IRC R502.8.1 (2018): 2 in to any other hole. By hand: 2-3/8 and 1 in, 4 in apart along the joist and level:
  // 4 - 1.6875 = 2.3125; 3-1/2 apart 1.8125, which wants 3.6875 - 3.5 = 3/16 more; 3 apart and 2-1/4 higher
  // 3.75 - 1.6875 = 2.0625.
  job::Job job = bored_trap();
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const double centre = -300 + 4.625 * in;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, centre, 2.375 * in, {}, 500}};
  const auto edges = [&] { return sample::result_of(job, facts, "joist.hole-edges"); };
  const auto hole = [&](double along_in, double up_in, const char* joist = "joists/joist-01") {
    return facts::JoistHole{joist, 500 + along_in * in, centre + up_in * in, in};
  };
  job.floor.joist_holes = {{}};
  facts.pipe.holes = {hole(4, 0)};
  EXPECT_EQ(edges().outcome, Outcome::pass);
  EXPECT_NEAR(*edges().measured, 2.3125 * in, 1e-9);
  facts.pipe.holes = {hole(-4, 0)};
  EXPECT_NEAR(*edges().measured, 2.3125 * in, 1e-9) << "on the other side of it";
  facts.pipe.holes = {hole(4, 0), hole(3.5, 0)};
  const rules::Result near = edges();
  EXPECT_EQ(near.outcome, Outcome::fail);
  EXPECT_NEAR(*near.measured, 1.8125 * in, 1e-9);
  EXPECT_THAT(near.where, HasSubstr("the hole in the joist at 28-5/16\" from the left stud face, level with the bore, "
                                    "11-13/16\" from the weir, and the one of 1\" that is there already, 3-1/2\""));
  EXPECT_THAT(near.advice,
              HasSubstr("set trap and arm 3/16\" toward the entry, or 7-11/16\" toward the back (trap.from_back)"))
      << "one hole is in the way";
  facts.pipe.holes = {hole(3, 2.25)};
  EXPECT_NEAR(*edges().measured, 2.0625 * in, 1e-9);
  facts.pipe.holes = {hole(1, 0, "joists/joist-02")};
  EXPECT_NEAR(*edges().measured, 3.4375 * in, 1e-9) << "through another joist: what is left is above and below";
  facts.pipe.holes = {hole(4, 0), hole(1, 0, "")};
  EXPECT_EQ(edges().outcome, Outcome::not_checked);
  EXPECT_THAT(edges().advice, HasSubstr("read again where it lies, hole 2 of the job file"));
}

TEST(Trap, ANotchKeepsTwoInchesFromHolesThatItsJoistHas) {
  // Source: IRC R502.8.1 (2018): holes not closer than 2 in to any other hole or notch. By hand: a pipe of 2-3/8 whose
  // middle lies 1/4 above the joist's foot, its notch given as 1-1/2 deep: it takes what lies 1-3/16 to either side, up
  // to 1-1/2. A hole of 1 in over it leaves up - 1-1/2 - 1/2; one beside it along - 1-3/16 - 1/2; one across its
  // corner, 1-1/2 on and 2 up, 2-1/2 - 1/2; one in it, 3/4 up, lies 3/4 in.
  job::Job job = bored_trap();
  job.trap->hole.reset(), job.trap->notch = Length::inches(1.5);
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const auto edges = [&] { return sample::result_of(job, facts, "joist.hole-edges"); };
  const double bottom = -300, top = bottom + 9.25 * in;
  for (const bool below : {true, false}) {
    const double edge = below ? bottom : top, way = below ? in : -in;
    facts.pipe.crossings = {{"joists/joist-01", 300, bottom, top, edge + 0.25 * way, 2.375 * in, {}, 500}};
    const auto hole = [&](double along_in, double up_in) {
      return facts::JoistHole{"joists/joist-01", 500 + along_in * in, edge + up_in * way, in};
    };
    job.floor.joist_holes = {{}};
    struct Place {
      double along_in, up_in, wood_in;
    };
    for (const auto& [along, up, wood] : {Place{0, 4, 2},
                                          {0, 3.9, 1.9},
                                          {4, 1, 2.3125},
                                          {-3.6, 0.5, 1.9125},
                                          {1.1875 + 1.5, 3.5, 2},
                                          {-1.1875 - 1.5, 3.45, 1.96018},
                                          {0, 0.75, -1.25}}) {
      facts.pipe.holes = {hole(along, up)};
      const rules::Result r = edges();
      ASSERT_TRUE(r.measured) << r.advice;
      EXPECT_NEAR(*r.measured / in, wood, 1e-4);
      EXPECT_EQ(r.outcome, wood < 2 ? Outcome::fail : Outcome::pass) << along << ' ' << up;
    }
    facts.pipe.holes = {hole(3, 1)};
    EXPECT_THAT(edges().where, HasSubstr("wood between the notch in the joist at 28-5/16\""));
    EXPECT_THAT(edges().where, HasSubstr("and the hole of 1\" that is there already"));
    EXPECT_THAT(edges().advice, HasSubstr("set trap and arm 11/16\" toward the entry, or 6-11/16\" toward the back"));
    facts.pipe.holes[0].joist = "joists/joist-02";
    EXPECT_EQ(edges().outcome, Outcome::not_applicable) << "a joist that the arm does not meet";
  }
  facts.pipe.holes.clear(), job.floor.joist_holes.clear(), job.floor.joists_bored = false;
  EXPECT_EQ(edges().outcome, Outcome::not_applicable) << "somebody looked, and there is none";
  job.floor.joists_bored.reset();
  EXPECT_EQ(edges().outcome, Outcome::not_checked);
  EXPECT_THAT(edges().advice, HasSubstr("look for holes"));
}

TEST(Trap, WhosePlaceNobodyReadLeavesWhatHangsOnItOpen) {
  // Source: none; where the hub's middle lies decides how high the arm is at each joist, and along it where. As a rule
  // book has it what would pass by an assumption stays open.
  job::Job job = bored_trap();
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, -300 + 4.625 * in, 2.375 * in, {}, 500}};
  job.floor.joists_bored = false;
  job.trap->from_left = Length::inches(43), job.trap->from_back = Length::inches(16);
  const auto edges = [&] { return sample::result_of(job, facts, "joist.hole-edges"); };
  EXPECT_EQ(edges().outcome, Outcome::pass);
  for (auto* place : {&job.trap->from_left, &job.trap->from_back}) {
    const auto read = std::exchange(*place, std::nullopt);
    EXPECT_EQ(edges().outcome, Outcome::not_checked);
    EXPECT_THAT(edges().advice, HasSubstr("measure where the middle of the trap's hub lies"));
    *place = read;
  }
}

TEST(Trap, OfSeveralHolesAllThatAreInTheWayAreNamedAndTheWayPastThemHolds) {
  // Source: IRC R502.8.1 (2018). By hand: two holes of 1 in, 3-1/2 in on and 3-1/4 in back, each wanting 3-11/16 in
  // from middle to middle. Away from either the other one is met: past the second it is 3-1/4 + 3-11/16 = 6-15/16 in
  // back, or 3-1/2 + 3-11/16 = 7-3/16 in on. Each leaves just 2 in of wood, a sixteenth less does not.
  job::Job job = bored_trap();
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const double centre = -300 + 4.625 * in;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, centre, 2.375 * in, {}, 500}};
  facts.pipe.holes = {{"joists/joist-01", 500 + 3.5 * in, centre, in},
                      {"joists/joist-01", 500 - 3.25 * in, centre, in}};
  job.floor.joist_holes = {{Length::inches(30), Length::inches(12.5), {}, {}},
                           {Length::inches(30), Length::inches(19.25), {}, {}}};
  const auto edges = [&] { return sample::result_of(job, facts, "joist.hole-edges"); };
  for (const bool sideways : {false, true}) {
    job.floor.joist_direction = sideways ? job::Direction::along_width : job::Direction::along_depth;
    job.trap->from_left = Length::inches(43.25), job.trap->from_back = Length::inches(16.25);
    const rules::Result r = edges();
    EXPECT_EQ(r.outcome, Outcome::fail);
    EXPECT_NEAR(*r.measured, (3.25 - 1.6875) * in, 1e-9);
    EXPECT_THAT(r.where, HasSubstr(sideways ? "3-1/4\" along the joist to the left"
                                            : "3-1/4\" along the joist toward the entry"));
    EXPECT_THAT(r.where,
                HasSubstr("(hole 2 of the job file, 30\" from the left stud face, 19-1/4\" from the back one)"));
    EXPECT_THAT(r.where,
                HasSubstr("(hole 1 of the job file, 30\" from the left stud face, 12-1/2\" from the back one)"));
    EXPECT_THAT(r.where, HasSubstr("too near as well, 1-13/16\" of wood"));
    EXPECT_THAT(r.where, HasSubstr("3-1/2\" along the joist"));
    EXPECT_THAT(r.advice,
                HasSubstr(sideways ? "6-15/16\" to the left, or 7-3/16\" to the right, clear of all holes"
                                   : "6-15/16\" toward the entry, or 7-3/16\" toward the back, clear of all"));
    ASSERT_EQ(r.remedies.size(), 2U);
    const char* const key = sideways ? "trap.from_left" : "trap.from_back";
    const double less = sideways ? 43.25 - 6.9375 : 16.25 + 6.9375, more = sideways ? 43.25 + 7.1875 : 16.25 - 7.1875;
    EXPECT_EQ(r.remedies[0].changes[0], (job::Change{key, job::written(Length::inches(less), job.unit), 0}));
    EXPECT_EQ(r.remedies[1].changes[0], (job::Change{key, job::written(Length::inches(more), job.unit), 0}));
  }
  for (const double by : {-6.9375, 7.1875}) {
    facts.pipe.crossings[0].along_mm = 500 + by * in;
    EXPECT_EQ(edges().outcome, Outcome::pass) << by;
    EXPECT_NEAR(*edges().measured, 2 * in, 1e-9) << by;
    facts.pipe.crossings[0].along_mm = 500 + (by < 0 ? by + 0.0625 : by - 0.0625) * in;
    EXPECT_EQ(edges().outcome, Outcome::fail) << "a mark of the tape short of it";
  }
}

TEST(Trap, IsReadOffTheWallBesideItWhereItsPlaceFromTheLeftIsNew) {
  // Source: by hand: joists along the width; a hole as high as the arm 1 in to its left wants 3-11/16 in from middle to
  // middle, so 2-11/16 to the right do. The drain lies at x = 700 mm, 450 from the entry; the hub 250 from the back,
  // where y = 650 and the left stud face at -40 + 650 / 20 = -7.5: below the drain it reads 707.5 from the left,
  // and 2-11/16 in farther is 30.54 in: 30-9/16 on the tape.
  job::Job job = bored_trap();
  facts::Facts facts = sample::facts_for_boundary();
  facts.room.faces = {{-40, 0.05}, {1800, 0}, {900, 0}};
  facts.room.drain.now_mm = {700, 450, 0};
  facts.pipe.routed = true;
  job.floor.joist_direction = job::Direction::along_width;
  const double centre = -300 + 4.625 * in;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, centre, 2.375 * in, {}, 500}};
  facts.pipe.holes = {{"joists/joist-01", 500 - in, centre, in}};
  job.floor.joist_holes = {{Length::inches(30), Length::inches(12.5), {}, {}}};
  job.trap->from_left.reset(), job.trap->from_back = Length::mm(250);
  const rules::Result r = sample::result_of(job, facts, "joist.hole-edges");
  ASSERT_FALSE(r.remedies.empty());
  EXPECT_EQ(r.remedies[0].changes[0].key, "trap.from_left");
  EXPECT_EQ(r.remedies[0].changes[0], (job::Change{"trap.from_left", "\"30-9/16 in\"", 0}));
}

TEST(Trap, AHoleAndAnEdgeAreMendedTogether) {
  // Source: by hand: the arm's hole 1 in above the joist's middle leaves 6-7/8 / 2 - 1 = 2-7/16 above; at 1-1/2 in more
  // 1-15/16, 1/16 in too little. At whatever height 3-11/16 in are kept from a hole 3 in on: 11/16 in more.
  job::Job job = bored_trap();
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const double centre = -300 + 4.625 * in;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, centre + 1.5 * in, 2.375 * in, {}, 500}};
  facts.pipe.holes = {{"joists/joist-01", 500 + 3 * in, centre + 1.5 * in, in}};
  job.floor.joist_holes = {{}};
  for (const rules::Result& r : rules::check(job, facts)) {
    if (r.id != "joist.hole-edges") continue;
    EXPECT_EQ(r.outcome, Outcome::fail);
    EXPECT_THAT(r.advice, HasSubstr("lower trap and arm by 1/16\""));
    EXPECT_THAT(r.advice, HasSubstr("and set trap and arm 11/16\" toward the entry"));
    EXPECT_TRUE(r.remedies.empty()) << "neither mends it alone";
  }
}

TEST(Trap, PastABendThatLeadsSquareToNoSideNothingIsAskedThatNobodyCanGive) {
  // Source: none; trap.bend.to takes a bend by 90 degrees alone, so no reading settles the way past another.
  job::Job job = trap(36, 0.25);
  job.trap->to = job::Side::left;
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = false, facts.pipe.unplaced_bend = true;
  const auto edges = [&] { return sample::result_of(job, facts, "joist.hole-edges"); };
  job.trap->bends = {{90, {}, {}}};
  EXPECT_THAT(edges().advice, HasSubstr("trap.bend.after"));
  EXPECT_FALSE(rules::waits_for_no_reading(edges()));
  job.trap->bends = {{90, {}, {}}, {45, {}, {}}};
  const rules::Result r = edges();
  EXPECT_EQ(r.outcome, Outcome::not_checked);
  EXPECT_THAT(r.advice, HasSubstr("bends by 45 degrees, and past such a bend its way is not followed"));
  EXPECT_THAT(r.advice, testing::Not(HasSubstr("trap.bend")));
  EXPECT_TRUE(rules::waits_for_no_reading(r));
}

TEST(Trap, HolesThatNobodyLookedForAreLookedForBeforeABoreIsAllowed) {
  // Source: none; what fails already fails without them.
  job::Job job = bored_trap();
  job.floor.joists_bored.reset();
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, -300 + 4.625 * in, 2.375 * in}};
  const auto edges = [&] { return sample::result_of(job, facts, "joist.hole-edges"); };
  EXPECT_EQ(edges().outcome, Outcome::not_checked);
  EXPECT_THAT(edges().advice, HasSubstr("look for holes and notches"));
  EXPECT_THAT(edges().advice, HasSubstr("floor.joists.bored"));
  job.floor.joists_bored = true;
  EXPECT_EQ(edges().outcome, Outcome::not_checked);
  EXPECT_THAT(edges().advice, HasSubstr("give the holes"));
  job.floor.joists_bored = false;
  EXPECT_EQ(edges().outcome, Outcome::pass);
  job.floor.joists_bored.reset();
  facts.pipe.crossings[0].centre_mm = -300 + 2 * in;
  EXPECT_EQ(edges().outcome, Outcome::fail);
}

TEST(Trap, AnArmThatMeetsAJoistTwiceKeepsItsOwnHolesApart) {
  // Source: IRC R502.8.1 (2018). By hand: 2-3/8 in twice, 4-1/4 apart along the joist, one 1/4 lower: 4.2573 - 2.375.
  job::Job job = trap(60, 0.25);
  job.trap->pipe = Length::inches(2), job.trap->hole = Length::inches(2.375), job.trap->weir = Length::inches(-6);
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const facts::JoistCrossing first{"joists/joist-01", 300,        -300, -300 + 9.25 * in,
                                   -300 + 4.7 * in,   2.375 * in, {},   500};
  facts::JoistCrossing second = first;
  second.along_mm += 4.25 * in, *second.centre_mm -= 0.25 * in;
  facts.pipe.crossings = {first, second};
  for (const rules::Result& r : rules::check(job, facts))
    if (r.id == "joist.hole-edges") {
      EXPECT_EQ(r.outcome, Outcome::fail);
      EXPECT_NEAR(*r.measured, (std::hypot(4.25, 0.25) - 2.375) * in, 1e-9);
      EXPECT_THAT(r.where, HasSubstr("the arm's other one"));
    }
}

TEST(Trap, JoistsThatNobodySawGiveNoPass) {
  // Source: none; past the wall the joists' spacing and height are taken on trust.
  job::Job job = bored_trap();
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, -300 + 4.6 * in, 2.375 * in}};
  const auto edges = [&] { return sample::result_of(job, facts, "joist.hole-edges"); };
  EXPECT_EQ(edges().outcome, Outcome::pass);
  facts.pipe.crossings.push_back(facts.pipe.crossings[0]);
  facts.pipe.crossings[1].modelled = false, facts.pipe.crossings[1].from_weir_mm = 32 * in;
  EXPECT_EQ(edges().outcome, Outcome::caution);
  EXPECT_THAT(edges().advice, HasSubstr("meets its next joist some 32\" from the weir: look there"));
  facts.pipe.crossings.erase(facts.pipe.crossings.begin());
  EXPECT_EQ(edges().outcome, Outcome::not_checked);
}

TEST(Trap, AHoleThatBreaksOutOfItsJoistFailsUnderAnyBook) {
  // Source: none: by hand, 1/4 in of wood is missing below, or above, the hole: a notch, and no hole. What stays inside
  // is no pass where the book says nothing of it; where it has its own limit that holds.
  job::Job job = bored_trap();
  job.floor.joists_bored = false;
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const auto hole = [](double below) {
    return facts::JoistCrossing{"joists/joist-01", 10 * in, -300, -300 + 9.25 * in, -300 + (below + 2.375 / 2) * in,
                                2.375 * in};
  };
  for (const char* book : {"european", "metric"}) {
    job.book = book;
    const auto inside = [&] { return sample::result_of(job, facts, "joist.hole-inside"); };
    for (const double below : {-0.25, 9.25 - 2.375 + 0.25}) {
      facts.pipe.crossings = {hole(below)};
      EXPECT_EQ(inside().outcome, Outcome::fail) << book << below;
      EXPECT_NEAR(*inside().measured, -0.25 * in, 1e-9);
      EXPECT_THAT(inside().advice,
                  HasSubstr(below < 0 ? "raise trap and arm by 1/4\"" : "lower trap and arm by 1/4\""));
    }
    facts.pipe.crossings = {hole(3)};
    EXPECT_EQ(inside().outcome, Outcome::caution);
    EXPECT_THAT(inside().advice, HasSubstr("an engineer tells"));
  }
  job.book = "residential";
  EXPECT_EQ(sample::result_of(job, facts, "joist.hole-inside").outcome, Outcome::not_applicable);
}

TEST(Trap, APipeToAHubBeyondAJoistLeavesItsHoleUnjudged) {
  // Source: none: the hole of the arm keeps its 3 in, and nobody told of the one between the drain and the hub.
  job::Job job = bored_trap();
  job.floor.joists_bored = false;
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const auto edges = [&] { return sample::result_of(job, facts, "joist.hole-edges"); };
  const facts::JoistCrossing sound{"joists/joist-01",           10 * in,   -300, -300 + 9.25 * in,
                                   -300 + (3 + 2.375 / 2) * in, 2.375 * in};
  for (const char* joist : {"joists/joist-02", "joists/joist-03"}) {
    facts.pipe.offset_through = {joist};
    for (const auto& crossings : {std::vector{sound}, std::vector<facts::JoistCrossing>{}}) {
      facts.pipe.crossings = crossings;
      EXPECT_EQ(edges().outcome, Outcome::not_checked) << crossings.size();
      EXPECT_THAT(edges().advice, HasSubstr(std::string{"goes through "} + (joist + 7)));
    }
    job.trap->hole = {};
    EXPECT_EQ(sample::result_of(job, facts, "joist.hole").outcome, Outcome::not_checked) << "which hole it takes";
    job.trap->hole = Length::inches(2.375);
    facts.pipe.crossings = {sound};
    *facts.pipe.crossings[0].centre_mm -= 2 * in;
    EXPECT_EQ(edges().outcome, Outcome::fail) << "what fails anyway fails";
  }
  facts.pipe.offset_through.clear(), facts.pipe.crossings = {sound};
  EXPECT_EQ(edges().outcome, Outcome::pass);
}

}  // namespace
}  // namespace fallwright
