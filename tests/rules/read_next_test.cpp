// What is to be read next, in the order of a walk, and what each reading settles.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "rules/inputs.hpp"
#include "rules/read_next.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using rules::Reading;
using rules::Result;
using testing::ElementsAre;
using testing::HasSubstr;

Result open(const std::string& id, std::vector<Reading> readings) {
  Result result;
  result.id = id;
  result.to_read = std::move(readings);
  return result;
}

std::vector<std::string> settled_by(const rules::ReadNext& next) {
  std::vector<std::string> ids;
  for (const Result* result : next.settles) ids.push_back(result->id);
  return ids;
}

TEST(ReadNext, FollowsTheWalkAndSettlesAtTheLastReading) {
  // Source: none; one goes round the walls with the tape before one kneels on the floor with the level.
  const std::vector<Result> results{open("level", {{6, "spot levels"}}), open("closes", {{1, "tape"}}),
                                    open("goes-in", {{1, "tape"}, {2, "plumb"}})};
  const auto list = rules::read_next(results);
  ASSERT_EQ(list.size(), 3U);
  EXPECT_EQ(list[0].what, "tape");
  EXPECT_THAT(settled_by(list[0]), ElementsAre("closes"));
  EXPECT_EQ(list[1].what, "plumb");
  EXPECT_THAT(settled_by(list[1]), ElementsAre("goes-in"));
  EXPECT_EQ(list[2].what, "spot levels");
}

TEST(ReadNext, LeavesOutWhatIsJudgedAndWhatNoReadingSettles) {
  // Source: none.
  std::vector<Result> results{open("passes", {{1, "tape"}}), open("no-facet", {{rules::no_turn, "look at the solid"}})};
  results[0].outcome = rules::Outcome::pass;
  EXPECT_TRUE(rules::read_next(results).empty());
  EXPECT_FALSE(rules::waits_for_no_reading(results[0]));
  EXPECT_TRUE(rules::waits_for_no_reading(results[1]));
}

TEST(ReadNext, NamesEveryOpenCheckOnce) {
  // Source: none; of a room of which nothing was read.
  job::Job job = sample::alcove();
  job.walls.existing = true;
  facts::Facts facts = sample::good_facts();
  facts.room = {};
  const std::vector<Result> results = rules::check(job, facts);
  std::vector<std::string> settled, open;
  for (const rules::ReadNext& next : rules::read_next(results))
    for (const Result* result : next.settles) settled.push_back(result->id);
  for (const Result& result : results) {
    if (result.outcome != rules::Outcome::not_checked) continue;
    EXPECT_FALSE(result.to_read.empty()) << result.id;
    if (!rules::waits_for_no_reading(result)) open.push_back(result.id);
  }
  ASSERT_GT(open.size(), 5U);
  EXPECT_THAT(settled, testing::UnorderedElementsAreArray(open));
}

TEST(ReadNext, JoinsWhatIsReadAtOnePlaceAndLosesNoCheck) {
  // Source: none; nobody goes to the trap five times. Of a room of which neither trap, drain nor walls' finish was
  // read.
  job::Job job = sample::alcove();
  job.walls.existing = true;
  job.trap = job::Trap{};
  facts::Facts facts = sample::good_facts();
  facts.room = {};
  const std::vector<Result> results = rules::check(job, facts);
  const auto list = rules::read_next(results), stops = rules::by_stops(list);
  ASSERT_LT(stops.size(), list.size());
  const auto settled = [](const std::vector<rules::ReadNext>& of) {
    std::vector<std::string> ids;
    for (const rules::ReadNext& next : of)
      for (const std::string& id : settled_by(next)) ids.push_back(id);
    return ids;
  };
  EXPECT_THAT(settled(stops), testing::UnorderedElementsAreArray(settled(list)));
  std::string words;
  for (const rules::ReadNext& stop : stops) words += stop.what + "\n";
  for (const rules::ReadNext& next : list) EXPECT_THAT(words, HasSubstr(next.what));
}

TEST(ReadNext, AsksForTheAssumedBesideTheMissing) {
  // Source: property: one who takes what is asked for is not asked again.
  job::Job job = sample::alcove();
  job.floor.joist_first.reset();
  job.floor.joist_span.reset();
  for (const Result& result : rules::check(job, sample::good_facts())) {
    if (result.outcome != rules::Outcome::not_checked || rules::waits_for_no_reading(result)) continue;
    if (std::none_of(result.rests_on.begin(), result.rests_on.end(),
                     [](const rules::Support& s) { return s.state == rules::Standing::missing; }))
      continue;
    for (const rules::Support& s : result.rests_on)
      if (s.state == rules::Standing::missing || s.state == rules::Standing::assumed) {
        EXPECT_TRUE(std::any_of(result.to_read.begin(), result.to_read.end(),
                                [&](const Reading& r) { return r.what == s.read; }))
            << result.id << " does not ask to " << s.read;
      }
  }
}

TEST(ReadNext, ACornerRoomIsNotAskedForAFigureItCannotMake) {
  // Source: plane geometry: two walls make no quadrilateral, and nothing faces one of them.
  job::Job job = sample::alcove();
  job.alcove.walls = {job::Side::back, job::Side::right};
  facts::Facts facts = sample::good_facts();
  facts.room.closure = {};
  for (const Result& result : rules::check(job, facts))
    if (result.id == "survey.closes" || result.id == "survey.widths-agree") {
      EXPECT_EQ(result.outcome, rules::Outcome::not_applicable) << result.id;
    } else if (result.id == "room.stud-gap") {
      EXPECT_THAT(result.advice, HasSubstr("hold a framing square to the corner"));
    }
}

TEST(ReadNext, TwoWallsThatFaceEachOtherHaveNoCornerToHoldASquareTo) {
  // Source: plane geometry: two lines are parallel where they are as far apart at two places.
  job::Job job = sample::alcove();
  job.alcove.walls = {job::Side::left, job::Side::right};
  facts::Facts facts = sample::good_facts();
  facts.room.closure = {};
  const auto asked = [&] {
    for (const Result& r : rules::check(job, facts))
      if (r.id == "room.stud-gap") return r.advice;
    return std::string{};
  };
  EXPECT_THAT(asked(), HasSubstr("at the back and at the front, and say whether both widths are one (survey.square)"));
  EXPECT_THAT(asked(), testing::Not(HasSubstr("corner")));
  job.survey.square = false;
  EXPECT_THAT(asked(), HasSubstr("the walls are not parallel"));
  EXPECT_THAT(asked(), testing::Not(HasSubstr("corner")));
}

TEST(ReadNext, TwoWallsThatFaceEachOtherAndAreNotParallelAreMeasuredByTheirFigure) {
  // Source: plane geometry: the ends of both make a quadrilateral, which four sides and a diagonal fix.
  job::Job job = sample::alcove();
  job.alcove.walls = {job::Side::left, job::Side::right};
  job.survey.square = false;
  facts::Facts facts = sample::good_facts();
  facts.room.closure = {};
  const auto at = [&](const char* id) {
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == id) return r;
    return rules::Result{};
  };
  EXPECT_EQ(at("room.stud-gap").outcome, rules::Outcome::not_checked);
  EXPECT_THAT(at("room.stud-gap").advice, HasSubstr("measure four sides and both diagonals"));
  EXPECT_THAT(at("room.stud-gap").advice, HasSubstr("(survey.plan)"));
  EXPECT_EQ(at("survey.closes").outcome, rules::Outcome::not_applicable);
  job.survey.square.reset();
  job.survey.plan.back = survey::Reading{1800, 2, survey::Face::stud, 0};
  facts.room.closure = sample::good_facts().room.closure;
  ASSERT_TRUE(facts.room.closure.solved);
  EXPECT_EQ(at("room.stud-gap").outcome, rules::Outcome::pass);
  EXPECT_EQ(at("survey.closes").outcome, rules::Outcome::pass);
}

TEST(ReadNext, TwoWidthsThatAreOneTellThatTwoWallsAreParallel) {
  // Source: plane geometry: two lines are parallel where they are as far apart at two places; no figure is asked for.
  job::Job job = sample::alcove();
  job.alcove.walls = {job::Side::left, job::Side::right};
  job.survey.plan = {};
  job.survey.plan.back = job.survey.plan.front = survey::Reading{1800, 2, survey::Face::stud, 0};
  facts::Facts facts = sample::good_facts();
  facts.room.closure = {};
  const auto at = [&] {
    for (const Result& r : rules::check(job, facts))
      if (r.id == "room.stud-gap") return r;
    return Result{};
  };
  job.survey.square = true;
  EXPECT_EQ(at().outcome, rules::Outcome::pass);
  job.survey.square = false;
  EXPECT_THAT(at().advice, HasSubstr("measure four sides and both diagonals"));
  EXPECT_THAT(at().advice, HasSubstr("in place of survey.square"));
}

TEST(ReadNext, WhatHoldsTheBenchIsAskedForInOneSentence) {
  // Source: none; what begins alike is said once where what is read at one place is one line.
  job::Job job = sample::alcove();
  job::BenchFrame& frame = job.bench->frame;
  frame.fastener.reset(), frame.fastener_length.reset(), frame.fasteners_at_stud.reset();
  frame.joist_fastener.reset(), frame.joist_fastener_length.reset(), frame.fasteners_at_joist.reset();
  frame.rail_fastener.reset(), frame.rail_fastener_length.reset(), frame.fasteners_at_rail.reset();
  frame.deck_fastener.reset(), frame.deck_fastener_length.reset();
  std::vector<std::string> asked;
  for (const rules::ReadNext& stop : rules::by_stops(rules::read_next(rules::check(job, sample::good_facts()))))
    if (rules::stop_of(stop.turn) == rules::Stop::bench_frame) asked.push_back(stop.what);
  EXPECT_EQ(asked,
            (std::vector<std::string>{
                "say what fasteners hold the bench: wall cleat to studs (bench.frame.fastener, fastener_length, "
                "fasteners_at_stud); joists to cleat (bench.frame.joist_fastener, joist_fastener_length, "
                "fasteners_at_joist); front rail to joists (bench.frame.rail_fastener, rail_fastener_length, "
                "fasteners_at_rail); deck to rail and joists (bench.frame.deck_fastener, deck_fastener_length)"}));
}

TEST(ReadNext, AsksForNoKeyThatIsGiven) {
  // Source: none; who is told to read again what stands in the job file looks for a fault there.
  job::Job job = sample::alcove();
  job.trap = sample::trap();
  job.trap->notch = job::Length::inches(1);
  job.floor.joist_span = job::Length::feet(10), job.floor.joist_bearing.reset();
  job.floor.clear_along = job::Length::inches(60), job.floor.clear_before.reset();
  job::BenchFrame& frame = job.bench->frame;
  frame.fastener_length.reset(), frame.fasteners_at_joist.reset(), frame.rail_fastener.reset();
  const facts::Facts facts = sample::good_facts();
  const auto read = [&](rules::Input input) { return rules::supports_of({input}, job, facts).at(0).read; };
  using rules::Input;
  EXPECT_EQ(read(Input::bearing), "find where the floor joists bear (floor.joists.bearing)");
  EXPECT_EQ(read(Input::floor_before),
            "measure the free floor in front of the entry: out from it (floor.clear_before)");
  EXPECT_EQ(read(Input::cleat_held),
            "say what fasteners hold the bench: wall cleat to studs, how long they are (bench.frame.fastener_length)");
  EXPECT_EQ(read(Input::joists_held),
            "say what fasteners hold the bench: joists to cleat, how many there are (bench.frame.fasteners_at_joist)");
  EXPECT_EQ(read(Input::rail_held),
            "say what fasteners hold the bench: front rail to joists, which they are (bench.frame.rail_fastener)");
  frame.fastener.reset(), frame.fasteners_at_stud.reset();
  EXPECT_EQ(read(Input::cleat_held),
            "say what fasteners hold the bench: wall cleat to studs (bench.frame.fastener, fastener_length, "
            "fasteners_at_stud)");
  job.floor.joist_span.reset();
  EXPECT_EQ(read(Input::bearing),
            "find where the floor joists bear and how far they span (floor.joists.bearing, floor.joists.span)");
}

TEST(ReadNext, AChecksNameMayBeGivenInPart) {
  // Source: none.
  const auto ids = [](const std::string& asked) {
    std::vector<std::string> ids;
    for (const rules::Rule* rule : rules::rules_like(asked)) ids.push_back(rule->id);
    return ids;
  };
  EXPECT_THAT(ids("floor.rock"), ElementsAre("floor.rock"));
  EXPECT_THAT(ids("base does not rock dry"), ElementsAre("floor.rock"));
  EXPECT_THAT(ids("ROCK"), ElementsAre("floor.rock"));
  EXPECT_THAT(ids("floor.fall"), ElementsAre("floor.fall-least", "floor.fall-greatest"));
  EXPECT_TRUE(ids("").empty());
  EXPECT_TRUE(ids("no such thing").empty());
}

}  // namespace
}  // namespace fallwright
