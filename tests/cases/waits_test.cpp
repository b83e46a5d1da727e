// Whole rooms in which a pass would rest on timber that nobody read, or that a wall is to be framed before.
#include <algorithm>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/text_file.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/check.hpp"
#include "rules/judgement.hpp"
#include "rules/limits.hpp"
#include "support/random_room.hpp"
#include "takeoff/cuts.hpp"
#include "takeoff/cutting.hpp"
#include "takeoff/hold.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright {
namespace {

using rules::Outcome;
using testing::HasSubstr, testing::Not;

/// A room as it is judged and bought for.
struct Waiting {
  job::Job job;
  facts::Facts facts;
  rules::Judgement judgement;
  std::vector<takeoff::CutRow> cuts;
  std::vector<takeoff::Row> rows;

  explicit Waiting(job::Job of) : job{std::move(of)}, facts{measure::measure(*parts::build(job))} {
    const rules::Limits limits = rules::limits_for(job);
    judgement = rules::judgement_of(job, facts, limits, rules::check(job, facts));
    cuts = takeoff::cut_list(facts, job.is_metric(), {}, judgement.holds);
    rows = takeoff::take_off(job, facts, cuts, takeoff::plan_cuts(cuts, job.cuts, job.is_metric()));
    takeoff::hold_back(rows, cuts, job, facts, judgement.holds);
  }
  const rules::Result& told(const char* id) const {
    const rules::Result* r = rules::find(judgement.results, id);
    if (!r) throw std::out_of_range{id};
    return *r;
  }
  const takeoff::Row& row(const std::string& item) const {
    const auto it = std::find_if(rows.begin(), rows.end(), [&](const takeoff::Row& r) { return r.item == item; });
    if (it == rows.end()) throw std::out_of_range{item};
    return *it;
  }
};

/// The room, its mirror image, and its twin that is told in millimetres.
std::vector<Waiting> three_of(const std::string& name) {
  const std::string file = std::string{PROJECT_DIR} + "/tests/cases/" + name + ".toml", text = diag::read_text(file);
  std::vector<Waiting> all;
  all.emplace_back(job::read(text, file));
  all.emplace_back(job::read(sample::mirrored(text), file));
  job::Job metric = job::read(text, file);
  metric.unit = job::UnitSystem::metric;
  all.emplace_back(std::move(metric));
  return all;
}

TEST(Waits, NoBlockIsKnownBetweenStudsThatNobodyRead) {
  // Source: none; blocking reaches from the first stud to the last, so that studs read at 3/4 and 16 in of 36 leave no
  // row beyond them: what passed by a row between studs drawn by assumption fails once they are read.
  for (const Waiting& room : three_of("blocks-between-studs-nobody-read")) {
    for (const char* id : {"upstand.held", "upstand.end-held", "blocking.behind"}) {
      EXPECT_EQ(room.told(id).outcome, Outcome::not_checked) << id << ": " << room.told(id).where;
      EXPECT_THAT(room.told(id).advice, HasSubstr("survey.studs")) << id;
      EXPECT_THAT(room.told(id).advice, Not(HasSubstr("walls.blocking"))) << "rows are there";
    }
    EXPECT_THAT(room.told("upstand.held").where, Not(HasSubstr("between"))) << "no place without its number";
    EXPECT_TRUE(room.row("fasteners, upstands").hold);
    EXPECT_EQ(room.judgement.holds.loose.size(), 3u);
  }
  job::Job read = three_of("blocks-between-studs-nobody-read")[0].job;
  read.survey.studs = {{job::Side::back, job::Side::left, {19.05, 406.4, 812.8, 1219.2, 1504.95}},
                       {job::Side::left, job::Side::back, {19.05, 406.4}},
                       {job::Side::right, job::Side::back, {19.05, 406.4}}};
  const Waiting room{read};
  EXPECT_EQ(room.told("upstand.held").outcome, Outcome::fail);
  EXPECT_EQ(room.told("blocking.behind").outcome, Outcome::fail);
}

TEST(Waits, NoBlockOfAWallThatIsToBeFramedOutHoldsAnything) {
  // Source: none; a wall framed before studs that stand 3-1/8 in back hides what is between them.
  for (const Waiting& room : three_of("blocking-in-a-wall-to-be-framed-out")) {
    ASSERT_EQ(room.told("room.stud-gap").outcome, Outcome::fail);
    for (const char* id : {"upstand.held", "upstand.end-held", "blocking.behind"}) {
      EXPECT_EQ(room.told(id).outcome, Outcome::not_checked) << id;
      EXPECT_THAT(room.told(id).advice, HasSubstr(" first, then read plumb and studs again")) << id;
    }
    const auto is_block = [](const takeoff::CutRow& cut, const char* wall) {
      return std::any_of(cut.part_ids.begin(), cut.part_ids.end(), [&](const std::string& id) {
        return id.find(wall) == 0 && id.find("blocking") != std::string::npos;
      });
    };
    int held = 0;
    for (const takeoff::CutRow& cut : room.cuts) {
      EXPECT_FALSE(cut.hold && is_block(cut, "wall-back")) << cut.mark;
      if (cut.furring || !cut.hold) continue;
      ++held;
      EXPECT_THAT(takeoff::waits_text(*cut.hold), HasSubstr("plumb or sister the studs of the "));
    }
    EXPECT_GT(held, 0);
    for (const char* item : {"2x4", "fasteners, framing", "fasteners, upstands"})
      EXPECT_TRUE(room.row(item).hold) << item;
  }
}

TEST(Waits, WhatFailsByAnotherWallFailsWhicheverWallWaits) {
  // Source: none; a wall that waits mends nothing elsewhere: no timber behind a fixture of the back wall.
  job::Job job = three_of("blocking-in-a-wall-to-be-framed-out")[0].job;
  job.fixtures.push_back(job.fixtures.front());
  job.fixtures.back().wall = job::Side::back;
  job.fixtures.back().along = job::Length::inches(24), job.fixtures.back().height = job::Length::inches(60);
  const rules::Result r = Waiting{job}.told("blocking.behind");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_THAT(r.where, HasSubstr("back wall"));
}

TEST(Waits, AnEndThatBlockingAloneHoldsHasAScrewThere) {
  // Source: none; studs at 3/4, 16 and 25 in behind a base 36 in deep, a row of blocking from there past its front
  // edge: the last stud is 10-5/8 in from either front end.
  for (const Waiting& room : three_of("end-held-by-blocking-alone")) {
    ASSERT_EQ(room.told("upstand.end-held").outcome, Outcome::pass);
    const takeoff::UpstandFasteners all = takeoff::upstand_fasteners(room.job, room.facts);
    EXPECT_EQ(all.at_ends.size(), 2u);
    EXPECT_EQ(all.at_studs, 11);
    EXPECT_EQ(all.count(), 13);
    EXPECT_EQ(room.row("fasteners, upstands").quantity, 13);
    EXPECT_THAT(
        room.row("fasteners, upstands").basis,
        HasSubstr("and one into the blocking at the front end of the left upstand and the front end of the right"));
  }
}

TEST(Waits, TileThatMayEndBelowIsAskedForBeforeAWallIsFramedOut) {
  // Source: none; studs that stand 1-5/8 in back at their heads alone fail no room whose tile ends at 75 in.
  for (const Waiting& room : three_of("wall-too-far-back-up-where-no-tile-is-said")) {
    EXPECT_EQ(room.told("room.stud-gap").outcome, Outcome::not_checked);
    EXPECT_THAT(room.told("room.stud-gap").advice, HasSubstr("tile.height"));
    EXPECT_THAT(room.told("access.opening").advice, HasSubstr("tile.height"));
    for (const rules::Result& r : room.judgement.results) EXPECT_THAT(r.advice, Not(HasSubstr("out first"))) << r.id;
    for (const takeoff::CutRow& cut : room.cuts)
      EXPECT_THAT(cut.hold ? takeoff::waits_text(*cut.hold) : "", Not(HasSubstr("wall out"))) << cut.mark;
  }
}

TEST(Waits, AStripThatEndsOverTheTileSaysSo) {
  // Source: none; what is cut shorter than its stud is told why. Others end at their studs' heads.
  const std::string file = std::string{PROJECT_DIR} + "/tests/cases/wall-that-leans-back-above-its-tile.toml";
  const job::Job job = job::read(diag::read_text(file), file);
  bool any = false;
  for (const takeoff::CutRow& cut : Waiting{job}.cuts)
    any = any || cut.ends.find("above all tile") != std::string::npos;
  EXPECT_TRUE(any);
  for (const takeoff::CutRow& cut : three_of("shims-beside-the-base")[0].cuts)
    EXPECT_THAT(cut.ends, Not(HasSubstr("above all tile")));
}

TEST(Waits, AFreeEndBeforeABenchIsToldWhatToSetAndWhere) {
  // Source: none; a stud of the bench's frame misses what a screw keeps from an edge by 1/16 in.
  for (const Waiting& room : three_of("bench-frames-stud-too-near-the-upstands-end")) {
    EXPECT_EQ(room.told("upstand.end-held").outcome, Outcome::caution);
    EXPECT_THAT(room.told("upstand.end-held").advice,
                HasSubstr("add a stud of 2x4 to the bench's frame at each of the left end of the back upstand and"));
  }
}

TEST(Waits, AnEndInAGapThatIsToldOfItsUpstandIsToldAsAPartOfThat) {
  // Source: none; one gap from a stud at 16 in to the front end is told by two checks, with one verdict worse than the
  // other: the second says that it is the first's. Beyond a stud at 25 in the end alone is free.
  for (const Waiting& room : three_of("end-held-by-blocking-alone")) {
    job::Job job = room.job;
    job.walls.blocking.clear();
    const auto free_to = [&](std::vector<double> centres_mm) {
      for (survey::Studs& studs : job.survey.studs)
        if (studs.wall != job::Side::back) studs.centres_mm = centres_mm;
      return Waiting{job};
    };
    const Waiting wide = free_to({19.05, 406.4}), narrow = free_to({19.05, 406.4, 635});
    EXPECT_EQ(wide.told("upstand.held").outcome, Outcome::fail);
    EXPECT_EQ(wide.told("upstand.end-held").outcome, Outcome::caution);
    EXPECT_THAT(wide.told("upstand.end-held").advice,
                testing::ContainsRegex("^first close the gap along the (left|right) upstand, which reaches to its end; "
                                       "then set a stud behind"));
    EXPECT_EQ(narrow.told("upstand.held").outcome, Outcome::pass);
    EXPECT_THAT(narrow.told("upstand.end-held").advice, testing::StartsWith("set a stud behind"));
  }
}

TEST(Waits, ACornerStudThatShowsTooLittleIsSisteredAndAnUnreadWallIsReadFirst) {
  // Source: by hand: a screw keeps 3/8 in from either edge, so that it wants 3/4 in of a stud; studs in both corners
  // show less beside the side upstands. One more stud beside each, and one 2 in from the base's front, hold all ends.
  for (const Waiting& room : three_of("end-held-by-blocking-alone")) {
    job::Job job = room.job;
    job.walls.blocking.clear(), job.base.upstand_thickness = job::Length::inches(1);
    for (survey::Studs& studs : job.survey.studs)
      if (studs.wall != job::Side::back) studs.centres_mm = {19.05, 57.15, 406.4, 812.8};
    const std::string advice = Waiting{job}.told("upstand.end-held").advice;
    EXPECT_THAT(advice, HasSubstr("sister the stud at the left end of the back upstand ("));
    EXPECT_THAT(advice,
                HasSubstr("of it shows there, and a screw wants " + std::string{job.is_metric() ? "20 mm" : "3/4\""}));
    EXPECT_THAT(advice, Not(testing::ContainsRegex("set a stud behind the (left|right) end")));
    job::Job unread = job;
    std::erase_if(unread.survey.studs, [](const survey::Studs& studs) { return studs.wall == job::Side::left; });
    const std::string read = Waiting{unread}.told("upstand.end-held").advice;
    EXPECT_THAT(read, HasSubstr("(survey.studs): of the left wall, which nobody read"));
    EXPECT_THAT(read, Not(HasSubstr("of the left upstand")));
    for (survey::Studs& studs : job.survey.studs)
      if (studs.wall == job::Side::back)
        studs.centres_mm = {19.05, 57.15, 406.4, 812.8, 1219.2, 1466.85, 1504.95};
      else
        studs.centres_mm = {19.05, 57.15, 406.4, 635, 850, 1041.4};
    EXPECT_EQ(Waiting{job}.told("upstand.end-held").outcome, Outcome::pass)
        << Waiting{job}.told("upstand.end-held").where;
  }
}

TEST(Waits, AWallThatLeansBackFromItsFootIsPlumbedAndNotFramedBefore) {
  // Source: none; studs that stand 1/8 in back at the foot and 3-1/8 in at the top leave a framed wall, 1-1/2 in at
  // least, no room. Plumbed, they keep the check.
  for (const Waiting& room : three_of("blocking-in-a-wall-to-be-framed-out")) {
    const rules::Result& told = room.told("room.stud-gap");
    EXPECT_EQ(told.outcome, Outcome::fail);
    EXPECT_THAT(told.advice, testing::StartsWith("plumb those studs, or sister them out"));
    EXPECT_THAT(told.advice, testing::ContainsRegex("no room where they stand (1/8\"|3[.][0-9] mm) back"));
    EXPECT_THAT(told.advice, Not(HasSubstr("frame a wall")));
    EXPECT_THAT(room.told("upstand.held").advice, HasSubstr("plumb or sister the studs of the "));
    job::Job job = room.job;
    for (survey::Plumb& plumb : job.survey.plumbs) plumb.lean = {};
    EXPECT_NE(Waiting{job}.told("room.stud-gap").outcome, Outcome::fail);
  }
}

TEST(Waits, WhatOfAFixtureARowLiesBehindIsToldWhoeverReadsTheStuds) {
  // Source: by hand: a plate 6 in tall before a row 3-1/2 in high at its middle, between studs that nobody read: none
  // of it is known to be backed, and 58 % of it can be by the row alone.
  for (const Waiting& room : three_of("blocks-between-studs-nobody-read")) {
    job::Job job = room.job;
    job.fixtures.resize(1);
    job.fixtures[0].tall = job::Length::inches(6), job.fixtures[0].width = job::Length::inches(3);
    job.walls.blocking = {job.fixtures[0].height};
    const rules::Result r = Waiting{job}.told("blocking.behind");
    EXPECT_EQ(r.outcome, Outcome::fail);
    EXPECT_EQ(r.measured, 0);
    EXPECT_THAT(r.where,
                HasSubstr("whose studs nobody read: its blocking backs 59 % of it at most, if studs stand at"));
    job.walls.blocking.clear();
    EXPECT_THAT(Waiting{job}.told("blocking.behind").where, Not(HasSubstr("its blocking")));
  }
}

}  // namespace
}  // namespace fallwright
