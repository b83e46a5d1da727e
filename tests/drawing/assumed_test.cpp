// Studs of standing walls that nobody read: sheets say that they are assumed, and give no number that hangs on them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/views.hpp"
#include "job/read.hpp"
#include "outside/drawn.hpp"
#include "support/crooked_room.hpp"

namespace fallwright::drawing {
namespace {

using testing::Contains, testing::HasSubstr, testing::Not;

/// An old room with blocking and furring whose left and right walls' studs nobody read; or only the left one's.
const Drawn& without_studs(bool right_read = false) {
  const auto build = [](bool read) {
    job::Job job = demo("ferry-steps-3");
    std::erase_if(job.survey.studs, [](const survey::Studs& studs) { return studs.wall != survey::Side::back; });
    if (read) job.survey.studs.push_back({survey::Side::right, survey::Side::back, {20.6, 406.4, 812.8, 901.7}});
    return drawn(job, false);
  };
  static const Drawn none = build(false), right = build(true);
  return right_read ? right : none;
}

std::string notes_of(const Sheet& sheet) {
  std::string all;
  for (const std::string& note : sheet.notes) all += note + "\n";
  return all;
}

TEST(AssumedStuds, AreToldAsSuchOnEverySheetThatDrawsThemTheirCentresInBrackets) {
  // Source: by hand: nobody read them, and a number that nobody read is no number to work to.
  const Drawn& d = without_studs();
  for (const char* name : {"plan", "wall-left", "wall-right", "cuts"})
    EXPECT_THAT(notes_of(d.sheet(name)), HasSubstr("ASSUMED at 16\", not read")) << name;
  EXPECT_THAT(notes_of(d.sheet("plan")), HasSubstr("left and right walls"));
  EXPECT_THAT(notes_of(d.sheet("wall-back")), Not(HasSubstr("ASSUMED"))) << "these were read";
  for (const char* name : {"plan", "wall-left", "wall-right"})
    for (const Dimension& length : d.sheet(name).dimensions)
      if (length.running && std::abs(length.length_mm - 32 * 25.4) < 0.5) {
        EXPECT_EQ(length.words, "(32)") << name;
      }
  EXPECT_THAT(read_through(d.sheet("wall-left")), HasSubstr("(32)"));
  EXPECT_THAT(read_through(d.sheet("wall-back")), Not(HasSubstr("(15-1/2)")));
}

TEST(AssumedStuds, HoldWhatIsCutOrCountedByThem) {
  // Source: by hand: blocking and furring of the walls that nobody read, and nothing of the back wall, whose studs
  // were.
  const Drawn& d = without_studs();
  int held = 0;
  for (const takeoff::CutRow& cut : d.cuts) {
    const bool of_back = cut.part_ids.front().starts_with("wall-back"),
               of_wall = cut.part_ids.front().starts_with("wall");
    EXPECT_EQ(cut.hold && cut.hold->on == takeoff::HangsOn::studs,
              of_wall && !of_back && cut.hold && cut.hold->check.empty());
    if (of_wall && !of_back) {
      EXPECT_TRUE(cut.hold) << cut.mark;
    }
    if (cut.hold && cut.hold->on == takeoff::HangsOn::studs) ++held;
  }
  EXPECT_GT(held, 3);
  for (const char* name : {"wall-left", "wall-right"}) {
    const std::string words = read_through(d.sheet(name));
    EXPECT_THAT(words, HasSubstr("HOLD: the studs were not read")) << name;
    for (const takeoff::CutRow& cut : d.cuts)
      if (cut.hold && cut.hold->on == takeoff::HangsOn::studs && !cut.furring &&
          cut.part_ids.front().starts_with(name)) {
        EXPECT_THAT(words, Not(HasSubstr(cut.mark + "  1"))) << "a length beside a mark that waits";
      }
  }
  EXPECT_THAT(notes_of(d.sheet("buy")), HasSubstr("first find the studs and give their centres: of the left"));
}

TEST(AssumedStuds, OfOneWallLeaveTheOthersAlone) {
  // Source: by hand.
  const Drawn& d = without_studs(true);
  EXPECT_THAT(notes_of(d.sheet("wall-right")), Not(HasSubstr("ASSUMED")));
  EXPECT_THAT(notes_of(d.sheet("plan")), HasSubstr("Studs of the left wall ASSUMED"));
  for (const takeoff::CutRow& cut : d.cuts)
    if (cut.hold && cut.hold->on == takeoff::HangsOn::studs) {
      EXPECT_TRUE(cut.part_ids.front().starts_with("wall-left")) << cut.mark;
    }
}

TEST(AssumedStuds, AreToldOfARoomWhoseBaseIsBuiltOnSiteToo) {
  // Source: by hand: the job has no stud of any wall; mortar follows them as they stand, so nothing is cut to them.
  const Drawn& d = drawn_demo("coopers-yard-4");
  for (const char* name : {"plan", "wall-back", "wall-left", "wall-right"})
    EXPECT_THAT(notes_of(d.sheet(name)), HasSubstr("ASSUMED at 16\", not read")) << name;
  EXPECT_THAT(notes_of(d.sheet("plan")), HasSubstr("back, left and right walls"));
}

TEST(AssumedStuds, BehindAnUpstandLeaveItsFastenersUncounted) {
  // Source: by hand: no blocking stands behind these upstands, and no stud of the three walls was read.
  const Drawn& d = drawn_demo("chandlers-row-9");
  EXPECT_EQ(d.judgement.holds.loose.size(), 3u);
  for (const char* name : {"wall-back", "wall-left", "wall-right"})
    EXPECT_THAT(read_through(d.sheet(name)), HasSubstr("HOLD: the studs were not read")) << name;
  for (const takeoff::Row& row : d.rows)
    if (row.item == "fasteners, upstands") {
      EXPECT_TRUE(row.hold);
    }
}

TEST(LateFurring, IsToldWhereItIsCutAndSet) {
  // Source: by hand: strips beside a base would take the room that it comes down in; the order of work told it alone.
  const Drawn& d = drawn_demo("chandlers-row-9");
  EXPECT_THAT(notes_of(d.sheet("wall-left")), HasSubstr("Beside the base once that is down"));
  EXPECT_THAT(notes_of(d.sheet("wall-right")), HasSubstr("Beside the base once that is down"));
  EXPECT_THAT(notes_of(d.sheet("wall-back")), Not(HasSubstr("Beside the base once")));
  EXPECT_THAT(notes_of(d.sheet("plan")), HasSubstr("Beside the base once that is down"));
  EXPECT_THAT(read_through(d.sheet("cuts")), HasSubstr("once the base is down"));
  EXPECT_THAT(read_through(d.sheet("wall-left")), HasSubstr("once the base is"));
}

TEST(LateFurring, HasMarksByWhenItIsSetAndGoesOnOverTheSeat) {
  // Source: by hand: before a base of 60 in a bench of 61-3/16 stands at the back: of each side wall's five studs the
  // first stands beside the bench alone, and the last, whose middle lies past the base's edge, beside the base as well.
  // On one wall the second strip is notched round the seat block's end, and what stands over the base goes in at last.
  for (const bool mirrored : {false, true}) {
    const Drawn d = drawn(job::read(sample::crooked_room(mirrored), "x.toml"), false);
    const auto pages = [&](const std::string& name) {
      std::string words;
      for (const Sheet& sheet : d.sheets)
        if (sheet.name.starts_with(name)) words += read_through(sheet) + " ";
      return words;
    };
    const std::string work = pages("order-of-work"), right = mirrored ? "left" : "right";
    EXPECT_THAT(work, HasSubstr("Fur the rest of the studs, before the board: strip"));
    EXPECT_LT(work.find("Let the base down"), work.find("as high as it stands, before its mortar sets"));
    EXPECT_LT(work.find("Adhesive on every face"), work.find("Fur the rest of the studs")) << "it comes in past them";
    EXPECT_THAT(pages("cuts"), HasSubstr("at last, before the board"));
    EXPECT_THAT(notes_of(d.sheet("wall-" + right)), HasSubstr("over it at last"));
    EXPECT_THAT(read_through(d.sheet("wall-" + right)), HasSubstr("fur "));
    EXPECT_THAT(pages("cuts"), HasSubstr("on block "));
    for (const takeoff::CutRow& cut : d.cuts)
      for (const std::string& id : cut.part_ids) {
        if (!cut.furring || cut.turn != facts::Turn::framing) continue;
        const auto& box = part(d.facts, id).bbox_mm;
        const auto wall = part(d.facts, id).which.family.wall;
        EXPECT_TRUE(wall == job::Side::back || box[1] > part(d.facts, facts::Role::base).bbox_mm[4] - 0.1) << id;
      }
  }
}

TEST(AssumedBody, HasNoHeight) {
  // Source: by hand: 4 in below the drain's top is the usual depth, which the job leaves out.
  const Sheet& s = drawn_demo("chandlers-row-9").sheet("drain");
  const std::string words = read_through(s);
  EXPECT_THAT(words, HasSubstr("not read: measure  drain body, lowest"));
  EXPECT_THAT(words, Not(HasSubstr("-2-7/8")));
  EXPECT_THAT(s.notes, Contains(HasSubstr("as wide and as deep as drawn")));
}

TEST(NotSaid, WhatHoldsTheBenchIsOnHoldWhereverItIsCounted) {
  // Source: by hand: the job names no fastener of cleat, rail or joists.
  const Drawn& d = without_studs();
  for (const takeoff::Row& row : d.rows)
    if (row.item == "fasteners, bench at the wall" || row.item == "fasteners, bench rail" ||
        row.item == "fasteners, bench joists") {
      EXPECT_TRUE(row.hold) << row.item;
    }
  const std::string words = read_through(d.sheet("bench-plan"));
  EXPECT_THAT(words, HasSubstr("how many at a joist; HOLD"));
  EXPECT_THAT(words, HasSubstr("how many in an end; HOLD"));
  EXPECT_THAT(words, Not(HasSubstr("HOLD 8 "))) << "no count beside it";
}

}  // namespace
}  // namespace fallwright::drawing
