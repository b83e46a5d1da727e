// What rows of the lists are, and that their words alone tell it.
#include <gtest/gtest.h>

#include <algorithm>

#include "support/part_id.hpp"
#include "support/sample.hpp"
#include "support/strips.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright {
namespace {

constexpr double inch = 25.4;

/// What each row is, and what its words alone tell of it.
void expect_kinds_in_words(const std::vector<takeoff::CutRow>& cuts, const std::vector<takeoff::Row>& rows) {
  for (const takeoff::Row& row : rows) EXPECT_EQ(takeoff::blanks_named(row), row.blanks) << row.item;
  for (const takeoff::CutRow& cut : cuts) {
    EXPECT_EQ(takeoff::furring_named(cut.stock), cut.furring) << cut.stock;
    const auto taper = takeoff::taper_named(cut.ends);
    ASSERT_EQ(taper.has_value(), cut.taper.has_value()) << cut.ends;
    EXPECT_EQ(cut.is_square(), !taper) << cut.ends;
    if (!taper) continue;
    EXPECT_NEAR(taper->thin_mm, cut.taper->thin_mm, 1e-9) << cut.ends;
    EXPECT_EQ(taper->thin_at, cut.taper->thin_at) << cut.ends;
    EXPECT_EQ(taper->cut_short, cut.taper->cut_short) << cut.ends;
  }
}

TEST(Kinds, WhatARowIsReadsBackFromItsWords) {
  // Source: by hand: a report.json and a share keep words alone; strips 1/4 in thick, shims, one that tapers to either
  // end, and one whose stud comes to stand out at half its height; sticks of a stock that is ripped and of one that is
  // not.
  facts::Facts facts;
  facts::Member deck;
  deck.which = sample::part_id("bench-frame/deck"), deck.part_id = "bench-frame/deck", deck.stock = "deck sheet";
  deck.sheet = true, deck.length_mm = 900, deck.width_mm = 350, deck.thickness_mm = 19.05;
  facts::Member stick;
  stick.which = sample::part_id("bench-frame/top-plate"), stick.part_id = "bench-frame/top-plate";
  stick.stock = "2x4", stick.length_mm = stick.short_mm = 900, stick.width_mm = 89, stick.thickness_mm = 38;
  facts.members = {deck, stick};
  const auto stud = [&](const char* id, double floor_in, double top_in) {
    facts::Part part;
    part.id = id, part.which = sample::part_id(id),
    part.bbox_mm = {0, 0, 1.5 * inch, 1.5 * inch, 3.5 * inch, 94 * inch};
    facts.parts.push_back(part);
    facts.room.studs.push_back(
        {id, job::Side::left, facts::Before::base, 0, floor_in * inch, top_in * inch, top_in * inch});
  };
  stud("wall-left/stud-01", 0.25, 0.25), stud("wall-left/stud-02", 0.1875, 0.0625);
  stud("wall-left/stud-03", 0.125, 0.5), stud("wall-left/stud-04", 0.5, -0.5), stud("wall-left/stud-05", -0.5, 0.5);
  for (const bool metric : {false, true})
    for (const auto& board : {std::optional<takeoff::Board>{}, takeoff::board_of(sample::alcove())}) {
      job::Job job = sample::alcove();
      if (metric) job.unit = job::UnitSystem::metric;
      const auto cuts = takeoff::cut_list(sample::with_strips(facts, metric), metric, board);
      const auto rows = takeoff::take_off(job, facts, cuts, takeoff::plan_cuts(cuts, job.cuts, metric));
      expect_kinds_in_words(cuts, rows);
      const auto any = [&](takeoff::Blanks blanks) {
        return std::any_of(rows.begin(), rows.end(), [&](const takeoff::Row& row) { return row.blanks == blanks; });
      };
      EXPECT_TRUE(any(board ? takeoff::Blanks::boards : takeoff::Blanks::strips));
      EXPECT_TRUE(any(takeoff::Blanks::shims) && any(takeoff::Blanks::sheets) && any(takeoff::Blanks::sticks));
    }
  using takeoff::HangsOn;
  for (const HangsOn on :
       {HangsOn::base, HangsOn::drain, HangsOn::liner, HangsOn::bench, HangsOn::studs, HangsOn::fasteners})
    EXPECT_EQ(takeoff::hangs_on_named(name_of(on)), on);
}

}  // namespace
}  // namespace fallwright
