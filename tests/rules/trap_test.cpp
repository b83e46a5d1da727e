// The drain's pipe: which size it is, what that asks of arm, fall and holes, and the advice followed.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "job/change.hpp"
#include "job/pipe.hpp"
#include "rules/boundary_cases.hpp"
#include "rules/check.hpp"
#include "rules/read_next.hpp"
#include "rules/rule_book.hpp"
#include "rules/words.hpp"
#include "support/imperial.hpp"

namespace fallwright {
namespace {

using job::Fall;
using job::Length;
using rules::Outcome;
using testing::HasSubstr;

/// A room whose trap is known but for its pipe.
job::Job trap(double arm_in, double in_per_ft, const char* book = "residential") {
  sample::Case c;
  c.book = book;
  job::Job job = sample::job_for(c);
  job.trap->arm = Length::inches(arm_in);
  job.trap->fall = Fall::inches_per_foot(in_per_ft);
  job.defaulted = {"drain.outlet"};
  return job;
}

rules::Result result_of(const job::Job& job, const std::string& id) {
  for (const rules::Result& r : rules::check(job, sample::facts_for_boundary()))
    if (r.id == id) return r;
  ADD_FAILURE() << "no rule " << id;
  return {};
}

TEST(Trap, ItsPipeIsTheDrainsOutletUnlessTheJobNamesAnother) {
  // Source: IRC P3105.1 (2021): 6 ft of arm in 1-1/2 in pipe, 8 ft in 2 in.
  job::Job job = trap(95, 0.25);
  EXPECT_EQ(job::arm_pipe(job), nullptr) << "an outlet that nobody gave says nothing";
  job.defaulted = {};
  job.drain.outlet = Length::inches(1.5);
  ASSERT_NE(job::arm_pipe(job), nullptr);
  EXPECT_STREQ(job::arm_pipe(job)->name, "1-1/2 in");
  const rules::Result r = result_of(job, "trap.arm");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_NEAR(*r.limit.greatest, 72 * in, 1e-9);
  EXPECT_THAT(r.where, HasSubstr("1-1/2 in pipe, as the drain's outlet"));
  EXPECT_THAT(r.advice, HasSubstr("bring a vent within 72\""));
  EXPECT_THAT(r.advice, HasSubstr("or run the arm in 2 in pipe"));
  job.trap->pipe = Length::inches(2);
  EXPECT_EQ(result_of(job, "trap.arm").outcome, Outcome::pass) << "the advice followed";
  job.trap->pipe.reset();
  job.trap->arm = Length::inches(72);
  EXPECT_EQ(result_of(job, "trap.arm").outcome, Outcome::pass) << "the other advice followed";
}

TEST(Trap, APipeNobodyNamedDecidesOnlyWhereSizesDiffer) {
  // Source: property of the tables: what holds for each size holds, what is broken for each is broken.
  const struct {
    double arm_in, fall;
    const char* id;
    Outcome outcome;
  } rows[] = {{60, 0.25, "trap.arm", Outcome::pass},
              {61, 0.25, "trap.arm", Outcome::not_checked},
              {192, 0.25, "trap.arm", Outcome::not_checked},
              {193, 0.25, "trap.arm", Outcome::fail},
              {90, 1, "trap.drop", Outcome::fail},
              {90, 0.25, "trap.drop", Outcome::not_checked},
              {36, 0.25, "trap.drop", Outcome::pass},
              {2, 0.25, "trap.arm-least", Outcome::fail},
              {7, 0.25, "trap.arm-least", Outcome::not_checked},
              {8, 0.25, "trap.arm-least", Outcome::pass},
              {36, 0.2, "trap.fall", Outcome::not_checked},
              {36, 0.1, "trap.fall", Outcome::fail}};
  for (const auto& row : rows) {
    const rules::Result r = result_of(trap(row.arm_in, row.fall), row.id);
    EXPECT_EQ(r.outcome, row.outcome) << row.id << " " << row.arm_in << " " << row.fall << ": " << r.where;
    if (row.outcome == Outcome::not_checked) {
      EXPECT_THAT(r.advice, HasSubstr("trap.pipe"));
    }
  }
}

TEST(Trap, AHoleTakesThePipesOutside) {
  // Source: ASTM D1785: 2.375 in outside for 2 in, 1.660 in for the smallest.
  job::Job job = trap(36, 0.25);
  job.trap->hole = Length::inches(1.5);
  EXPECT_EQ(result_of(job, "joist.hole-for-pipe").outcome, Outcome::fail) << "no pipe at all goes through";
  job.trap->hole = Length::inches(2.375);
  EXPECT_EQ(result_of(job, "joist.hole-for-pipe").outcome, Outcome::not_checked);
  job.trap->pipe = Length::inches(2);
  EXPECT_EQ(result_of(job, "joist.hole-for-pipe").outcome, Outcome::pass);
  job.trap->hole = Length::inches(2);
  EXPECT_THAT(result_of(job, "joist.hole-for-pipe").advice, HasSubstr("2-3/8\" at least"));
  job.trap->pipe = Length::inches(3);
  EXPECT_THAT(result_of(job, "joist.hole-for-pipe").advice, HasSubstr("no hole that this joist allows"));
}

TEST(Trap, APipeThatIsSoldInTwoThicknessesIsMeasuredWhereThatDecides) {
  // Source: from memory: DN 50 is 50 mm to EN 1329 and 55.8 to BS 5255.
  job::Job job = trap(36, 0.25, "metric");
  job.trap->pipe = Length::mm(50);
  const std::pair<double, Outcome> holes[] = {
      {49, Outcome::fail}, {50, Outcome::not_checked}, {55, Outcome::not_checked}, {55.8, Outcome::pass}};
  for (const auto& [mm, outcome] : holes) {
    job.trap->hole = Length::mm(mm);
    EXPECT_EQ(result_of(job, "joist.hole-for-pipe").outcome, outcome) << mm;
  }
  job.trap->hole = Length::mm(52);
  EXPECT_THAT(result_of(job, "joist.hole-for-pipe").advice, HasSubstr("trap.outside"));
  job.trap->outside = Length::mm(50);
  EXPECT_EQ(result_of(job, "joist.hole-for-pipe").outcome, Outcome::pass);
  job.trap->outside = Length::mm(55.8);
  EXPECT_EQ(result_of(job, "joist.hole-for-pipe").outcome, Outcome::fail);
}

TEST(Trap, AnArmThatCrossesJoistsGoesThroughThem) {
  // Source: none; that nobody named a hole is no reason to ask for none.
  job::Job job = trap(36, 0.25);
  facts::Facts facts = sample::facts_for_boundary();
  const auto of = [&](const char* id) {
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == id) return r;
    return rules::Result{};
  };
  EXPECT_EQ(of("joist.hole").outcome, Outcome::not_applicable);
  facts.pipe.routed = true;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 7.25 * in, {}, 0}};
  EXPECT_EQ(of("joist.hole").outcome, Outcome::not_checked);
  EXPECT_THAT(of("joist.hole").advice, HasSubstr("the 1 joist it crosses"));
  EXPECT_EQ(of("joist.hole-edges").outcome, Outcome::not_checked);
  job.trap->notch = Length::inches(1);
  EXPECT_EQ(of("joist.hole").outcome, Outcome::not_applicable);
  EXPECT_EQ(of("joist.hole-edges").outcome, Outcome::not_applicable);
  EXPECT_EQ(of("joist.notch-place").outcome, Outcome::not_checked);
}

TEST(Trap, AnArmWhoseWayIsKnownAndMeetsNoJoistTakesNothingFromOne) {
  // Source: none; a hole that the job file names is then through no joist at all.
  job::Job job = trap(36, 0.25);
  job.trap->hole = Length::inches(4);
  facts::Facts facts = sample::facts_for_boundary();
  const auto of = [&](const char* id) {
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == id) return r;
    return rules::Result{};
  };
  EXPECT_EQ(of("joist.hole").outcome, Outcome::fail);
  facts.pipe.routed = true;
  for (const char* id : {"joist.hole", "joist.hole-for-pipe", "joist.hole-edges"}) {
    EXPECT_EQ(of(id).outcome, Outcome::not_applicable) << id;
    EXPECT_THAT(of(id).where, HasSubstr("reaches no joist")) << id;
  }
  facts.pipe.passed_under = {"joists/joist-01"};
  EXPECT_THAT(of("joist.hole").where, HasSubstr("passes below its joists"));
  facts.pipe.bay = "joists/joist-01";
  EXPECT_THAT(of("joist.hole").where, HasSubstr("along its bay"));
}

TEST(Trap, AnArmThatLiesInAJoistFails) {
  // Source: none; along a bay, but half an inch into the joist beside it.
  job::Job job = trap(36, 0.25);
  job.trap->pipe = Length::inches(2), job.trap->weir = Length::inches(-6);
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true, facts.pipe.bay = "joists/joist-03 and joists/joist-04", facts.pipe.beside_mm = -0.5 * in;
  for (const rules::Result& r : rules::check(job, facts))
    if (r.id == "joist.hole-edges") {
      EXPECT_EQ(r.outcome, Outcome::fail);
      EXPECT_THAT(r.advice, HasSubstr("move it into the bay by 1/2\""));
    }
  facts.pipe.beside_mm = 0;
  for (const rules::Result& r : rules::check(job, facts))
    if (r.id == "joist.hole-edges") {
      EXPECT_EQ(r.outcome, Outcome::not_applicable);
    }
}

TEST(Trap, AnArmIsMovedToTheHeightThatLeavesEnoughWood) {
  // Source: IRC R502.8.1 (2018): 2 in above and below. By hand: 9.25 in of joist and a hole of 2-3/8 leave 6-7/8; with
  // 1/2 in below the arm goes up 1-1/2; with two joists, one short below and one short above by as much as the other
  // has to spare, no height does.
  job::Job job = trap(36, 0.25);
  job.trap->pipe = Length::inches(2), job.trap->hole = Length::inches(2.375), job.trap->weir = Length::inches(-6);
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const auto joist = [](double from, double below) {
    const double bottom = -300;
    return facts::JoistCrossing{
        "joists/joist-01", from * in, bottom, bottom + 9.25 * in, bottom + (below + 2.375 / 2) * in, 2.375 * in};
  };
  const auto edges = [&] {
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == "joist.hole-edges") return r;
    return rules::Result{};
  };
  facts.pipe.crossings = {joist(10, 0.5)};
  rules::Result r = edges();
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_THAT(r.advice, HasSubstr("raise trap and arm by 1-1/2\""));
  ASSERT_EQ(r.remedies.size(), 1U);
  EXPECT_EQ(r.remedies[0].changes[0], (job::Change{"trap.weir", "\"-4-1/2 in\"", 0}));
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
  job::Job job = trap(36, 0.25);
  job.trap->pipe = Length::inches(2), job.trap->hole = Length::inches(2.375), job.trap->weir = Length::inches(-6);
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const double centre = -300 + 4.625 * in;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, centre, 2.375 * in, {}, 500}};
  const auto edges = [&] {
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == "joist.hole-edges") return r;
    return rules::Result{};
  };
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
  EXPECT_THAT(
      near.where,
      HasSubstr("the hole in joist-01, 11-13/16\" from the weir, and the one of 1\" that is there already, 3-1/2\""));
  EXPECT_THAT(near.advice, HasSubstr("set trap and arm 3/16\" toward the entry, or 7-11/16\" toward the back"));
  facts.pipe.holes = {hole(3, 2.25)};
  EXPECT_NEAR(*edges().measured, 2.0625 * in, 1e-9);
  facts.pipe.holes = {hole(1, 0, "joists/joist-02")};
  EXPECT_NEAR(*edges().measured, 3.4375 * in, 1e-9) << "through another joist: what is left is above and below";
  facts.pipe.holes = {hole(4, 0), hole(1, 0, "")};
  EXPECT_EQ(edges().outcome, Outcome::not_checked);
  EXPECT_THAT(edges().advice, HasSubstr("where hole 2 of the joists lies"));
}

TEST(Trap, OfSeveralHolesAllThatAreInTheWayAreNamedAndTheWayPastThemHolds) {
  // Source: IRC R502.8.1 (2018). By hand: two holes of 1 in, 3-1/2 in on and 3-1/4 in back, each wanting 3-11/16 in
  // from middle to middle. Away from either the other one is met: past the second it is 3-1/4 + 3-11/16 = 6-15/16 in
  // back, or 3-1/2 + 3-11/16 = 7-3/16 in on. Each leaves just 2 in of wood, a sixteenth less does not.
  job::Job job = trap(36, 0.25);
  job.trap->pipe = Length::inches(2), job.trap->hole = Length::inches(2.375), job.trap->weir = Length::inches(-6);
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  const double centre = -300 + 4.625 * in;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, centre, 2.375 * in, {}, 500}};
  facts.pipe.holes = {{"joists/joist-01", 500 + 3.5 * in, centre, in},
                      {"joists/joist-01", 500 - 3.25 * in, centre, in}};
  job.floor.joist_holes = {{}, {}};
  const auto edges = [&] {
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == "joist.hole-edges") return r;
    return rules::Result{};
  };
  for (const bool sideways : {false, true}) {
    job.floor.joist_direction = sideways ? job::Direction::along_width : job::Direction::along_depth;
    job.trap->from_left = Length::inches(43.25), job.trap->from_back = Length::inches(16.25);
    const rules::Result r = edges();
    EXPECT_EQ(r.outcome, Outcome::fail);
    EXPECT_NEAR(*r.measured, (3.25 - 1.6875) * in, 1e-9);
    EXPECT_THAT(r.where, HasSubstr("3-1/4\" along the joist"));
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

TEST(Trap, AHoleAndAnEdgeAreMendedTogether) {
  // Source: by hand: the arm's hole 1 in above the joist's middle leaves 6-7/8 / 2 - 1 = 2-7/16 above; at 1-1/2 in more
  // 1-15/16, 1/16 in too little. At whatever height 3-11/16 in are kept from a hole 3 in on: 11/16 in more.
  job::Job job = trap(36, 0.25);
  job.trap->pipe = Length::inches(2), job.trap->hole = Length::inches(2.375), job.trap->weir = Length::inches(-6);
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
  const auto edges = [&] {
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == "joist.hole-edges") return r;
    return rules::Result{};
  };
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
  job::Job job = trap(36, 0.25);
  job.trap->pipe = Length::inches(2), job.trap->hole = Length::inches(2.375), job.trap->weir = Length::inches(-6);
  job.floor.joists_bored.reset();
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, -300 + 4.625 * in, 2.375 * in}};
  const auto edges = [&] {
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == "joist.hole-edges") return r;
    return rules::Result{};
  };
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
  job::Job job = trap(36, 0.25);
  job.trap->pipe = Length::inches(2), job.trap->hole = Length::inches(2.375), job.trap->weir = Length::inches(-6);
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.routed = true;
  facts.pipe.crossings = {{"joists/joist-01", 300, -300, -300 + 9.25 * in, -300 + 4.6 * in, 2.375 * in}};
  const auto edges = [&] {
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == "joist.hole-edges") return r;
    return rules::Result{};
  };
  EXPECT_EQ(edges().outcome, Outcome::pass);
  facts.pipe.crossings.push_back(facts.pipe.crossings[0]);
  facts.pipe.crossings[1].modelled = false, facts.pipe.crossings[1].from_weir_mm = 32 * in;
  EXPECT_EQ(edges().outcome, Outcome::caution);
  EXPECT_THAT(edges().advice, HasSubstr("meets its next joist some 32\" from the weir: look there"));
  facts.pipe.crossings.erase(facts.pipe.crossings.begin());
  EXPECT_EQ(edges().outcome, Outcome::not_checked);
}

TEST(Trap, BendsWantACleanoutWhereTheBookSaysSo) {
  // Source: UPC 1002.3 (2018), as plumbers quote it: 90 degrees without a cleanout, 135 from 3 in on.
  job::Job job = trap(36, 0.25, "plumbing");
  job.trap->to = job::Side::back;
  EXPECT_EQ(result_of(job, "trap.turns").outcome, Outcome::pass) << "an arm that is said to run straight";
  EXPECT_EQ(*result_of(job, "trap.turns").measured, 0);
  job.trap->bends = {{90, {}, {}}, {45, {}, {}}};
  EXPECT_EQ(result_of(job, "trap.turns").outcome, Outcome::not_checked) << "the pipe decides";
  job.trap->pipe = Length::inches(2);
  const rules::Result r = result_of(job, "trap.turns");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_THAT(r.where, HasSubstr("2 bends by 90 and 45 degrees"));
  ASSERT_EQ(r.remedies.size(), 1U);
  EXPECT_EQ(r.remedies[0].changes[0].key, "trap.cleanout");
  job.trap->cleanout = true;
  EXPECT_EQ(result_of(job, "trap.turns").outcome, Outcome::not_applicable);
  job.trap->cleanout = false;
  job.trap->pipe = Length::inches(3);
  EXPECT_EQ(result_of(job, "trap.turns").outcome, Outcome::pass);
  job.trap->bends.clear(), job.trap->to.reset();
  EXPECT_EQ(result_of(job, "trap.turns").outcome, Outcome::not_checked) << "nobody said how it runs";
  EXPECT_THAT(result_of(job, "trap.turns").advice, HasSubstr("trap.bend"));
  EXPECT_EQ(result_of(job, "trap.bends").outcome, Outcome::not_applicable) << "that book counts none";
}

TEST(Trap, InADwellingABendIsForTheInspectorToSay) {
  // Source: IRC P3005.2.4 (2006): a cleanout at a change of more than 45 degrees; whether a trap arm is such a line is
  // disputed: a caution, whichever pipe it is.
  job::Job job = trap(36, 0.25);
  job.trap->bends = {{90, {}, {}}};
  const rules::Result r = result_of(job, "trap.turns");
  EXPECT_EQ(r.outcome, Outcome::caution);
  EXPECT_THAT(r.advice, HasSubstr("inspector"));
  job.trap->bends = {{45, {}, {}}};
  EXPECT_EQ(result_of(job, "trap.turns").outcome, Outcome::pass);
}

TEST(Trap, NoPipeNarrowsBelowTheDrain) {
  // Source: common practice, no source; 50 mm is sold for 2 in.
  job::Job job = trap(36, 0.25);
  EXPECT_EQ(result_of(job, "trap.size").outcome, Outcome::not_checked) << "nobody said which pipe it is";
  job.defaulted = {};
  const auto at = [&](double pipe_mm, double outlet_mm) {
    job.trap->pipe = Length::mm(pipe_mm);
    facts::Facts facts = sample::facts_for_boundary();
    facts.drain.outlet_mm = outlet_mm;
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == "trap.size") return r;
    return rules::Result{};
  };
  EXPECT_EQ(at(2 * in, 2 * in).outcome, Outcome::pass);
  EXPECT_EQ(at(50, 2 * in).outcome, Outcome::pass);
  EXPECT_EQ(at(2 * in, 50).outcome, Outcome::pass);
  EXPECT_EQ(at(40, 50).outcome, Outcome::fail);
  const rules::Result narrow = at(1.5 * in, 2 * in);
  EXPECT_EQ(narrow.outcome, Outcome::fail);
  EXPECT_THAT(narrow.advice, HasSubstr("in 2 in pipe (trap.pipe)"));
  ASSERT_EQ(narrow.remedies.size(), 1U);
  EXPECT_EQ(narrow.remedies[0].changes[0].key, "trap.pipe");
}

TEST(Trap, TheOutletGoesByWhatTheHeadsGive) {
  // Source: IRC Table P3201.7 (2021): 1-1/2 in to 5.7 gallons a minute, 2 in to 12.3, 3 in to 25.8, 4 in to 55.6; a
  // drain of 50 mm counts as 2 in.
  constexpr double gallon = 231 * in * in * in;
  job::Job job = trap(36, 0.25);
  job.defaulted = {};
  facts::Facts facts = sample::facts_for_boundary();
  const auto outcome = [&](double outlet_mm, double gallons) {
    facts.drain.outlet_mm = outlet_mm, job.drain.flow_mm3 = gallons * gallon;
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == "drain.outlet") return r.outcome;
    return Outcome::not_applicable;
  };
  EXPECT_EQ(outcome(1.5 * in, 5.7), Outcome::pass);
  EXPECT_EQ(outcome(1.5 * in, 5.8), Outcome::fail);
  EXPECT_EQ(outcome(2 * in, 12.3), Outcome::pass);
  EXPECT_EQ(outcome(50, 12.3), Outcome::pass);
  EXPECT_EQ(outcome(49.9, 12.3), Outcome::fail);
  EXPECT_EQ(outcome(3 * in, 12.4), Outcome::pass);
  EXPECT_EQ(outcome(4 * in, 56), Outcome::not_checked) << "beyond the table";
  job.drain.flow_mm3.reset();
  EXPECT_THAT(result_of(job, "drain.outlet").advice, HasSubstr("drain.flow"));
  EXPECT_EQ(result_of(job, "drain.outlet").outcome, Outcome::not_checked);
}

TEST(Trap, AdviceOnAnArmThatFallsTooFarPassesOnceFollowed) {
  // Source: closed form: 1 in/ft over 30 in falls 2-1/2 in; one diameter of 2 in is kept over 24 in, or by 1/4 in/ft.
  job::Job job = trap(30, 1);
  job.trap->pipe = Length::inches(2);
  rules::Result r = result_of(job, "trap.drop");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_NEAR(*r.measured, 2.5 * in, 1e-9);
  EXPECT_THAT(r.advice, HasSubstr("within 24\""));
  EXPECT_THAT(r.advice, HasSubstr("pitch the arm to 1/4 in/ft"));
  job.trap->arm = Length::inches(24);
  EXPECT_EQ(result_of(job, "trap.drop").outcome, Outcome::pass);
  job = trap(30, 0.25);
  job.trap->pipe = Length::inches(2);
  EXPECT_EQ(result_of(job, "trap.drop").outcome, Outcome::pass);
}

TEST(Trap, APipeMadeInMillimetresCountsAsTheInchesItIsSoldFor) {
  // Source: the tables: IRC P3105.1 goes by inches, 8 ft for 2 in; a DN 50 is sold for it, and an arm is no longer
  // allowed in the one than in the other.
  for (const double arm : {96., 97.}) {
    job::Job job = trap(arm, 0.25);
    job.trap->pipe = Length::inches(2);
    const rules::Result inches = result_of(job, "trap.arm");
    job.trap->pipe = Length::mm(50);
    const rules::Result r = result_of(job, "trap.arm");
    EXPECT_EQ(r.outcome, arm > 96 ? Outcome::fail : Outcome::pass) << arm;
    EXPECT_EQ(r.outcome, inches.outcome) << arm;
    EXPECT_THAT(r.where, HasSubstr("DN 50"));
  }
}

TEST(Trap, ABookOfTheUsersMayGoByPipeOrNot) {
  // Source: none; a row of the county's replaces the table.
  const auto county = [](const std::string& bound) {
    return "title = \"county\"\n[[limit]]\nid = \"trap.arm\"\nunit = \"length\"\n" + bound +
           "\nsource = \"county 9\"\nverified = \"set by the user\"\n";
  };
  job::Job job = trap(50, 0.25);
  job.book_override = {"county.toml", county("greatest = \"4 ft\"")};
  EXPECT_EQ(result_of(job, "trap.arm").outcome, Outcome::fail) << "whatever the pipe";
  job.book_override.text = county("greatest_by_pipe = { \"2 in\" = \"4 ft\", \"3 in\" = \"5 ft\" }");
  EXPECT_EQ(result_of(job, "trap.arm").outcome, Outcome::not_checked);
  job.trap->pipe = Length::inches(3);
  EXPECT_EQ(result_of(job, "trap.arm").outcome, Outcome::pass);
  for (const auto& [bound, words] :
       {std::pair{"greatest_by_pipe = { \"2-1/4 in\" = \"4 ft\" }", "no drain pipe is sold by that size"},
        {"greatest_by_pipe = { \"2 in\" = \"steep\" }", "found 'steep'"},
        {"greatest_by_pipe = \"4 ft\"", "wanted a table"},
        {"greatest = \"4 ft\"\ngreatest_by_pipe = { \"2 in\" = \"4 ft\" }", "give one of them"}})
    try {
      rules::read_book(county(bound), "county.toml");
      ADD_FAILURE() << bound << " was read";
    } catch (const diag::JobFaults& e) {
      EXPECT_THAT(e.what(), HasSubstr(words));
    }
}

TEST(Trap, ALimitByPipeIsToldWhole) {
  // Source: none; `rules` lists it, and a check that is open for want of the pipe shows it.
  const rules::Result r = result_of(trap(100, 0.25), "trap.arm");
  EXPECT_THAT(rules::limit_text(r, trap(100, 0.25)), HasSubstr("2 in at most 96\""));
}

}  // namespace
}  // namespace fallwright
