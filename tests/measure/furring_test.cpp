// Strips of furring: where they stand, when they go in, and what is finished on them.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/read.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/furred_rooms.hpp"
#include "measure/furring.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/check.hpp"
#include "support/crooked_room.hpp"
#include "support/imperial.hpp"

namespace fallwright::measure {
namespace {

using facts::Turn;
using job::Side;

double mark_of(const facts::Facts& facts, facts::BoreFrom from) {
  for (const facts::Mark& mark : facts.room.set_out)
    if (mark.bore_from == from) return mark.mm / in;
  return 0;
}

TEST(Furring, FinishedFacesLieOnIt) {
  // Source: by hand: 7/8 in, less what the tape closes by, is left at either end of the base: strips of 13/16 and 1 in
  // of finish on them leave 33 - 2 x 1-13/16 = 29-3/8 between finished faces, 14-11/16 from the bore to each: less than
  // the 30 in that codes ask for. On the bare studs, as in a room that the base fills, 31 would be left.
  const job::Job job = job::read(narrow, "x.toml");
  const facts::Facts facts = measure(*parts::build(job));
  constexpr double closes = 0.03;
  ASSERT_TRUE(facts.clear.finished);
  EXPECT_NEAR(facts.clear.finished->least_width_mm / in, 29.375, closes);
  EXPECT_NEAR(facts.clear.finished->circle_mm / in, 29.375, closes);
  EXPECT_NEAR(*facts.clear.finished->entry_mm / in, 29.375, closes);
  EXPECT_NEAR(facts.clear.compartment.width_mm / in, 29.375, closes);
  EXPECT_NEAR(mark_of(facts, facts::BoreFrom::left_finish), 14.6875, closes);
  EXPECT_NEAR(mark_of(facts, facts::BoreFrom::right_finish), 14.6875, closes);
  EXPECT_NEAR(mark_of(facts, facts::BoreFrom::left_studs), 16.5, closes) << "a tape is hooked on the stud";
  EXPECT_NEAR(*facts.clear.entry_mm / in, 33, closes) << "between studs, before anything is furred";
  for (const char* id : {"clear.width", "clear.circle"}) {
    const auto results = rules::check(job, facts);
    const rules::Result* result = rules::find(results, id);
    ASSERT_TRUE(result) << id;
    EXPECT_NE(result->outcome, rules::Outcome::pass) << id << " " << result->where;
  }
}

TEST(Furring, WhereAStripEndsOnAWallThatLeansInItsBoardFolds) {
  // Source: by hand: a wall that leans in by 1 in over 48 is plumb as far as its strips go, 13/16 x 48 = 39 in up, and
  // there folds by 1/2 in over 24; one that leans out has strips to its head.
  for (const auto& [lean, folds] : {std::pair{"\"1 in\"", true}, {"\"-1/4 in\"", false}}) {
    std::string text = narrow;
    const std::size_t wall = text.find("wall = \"right\"", text.find("[[survey.plumb]]"));
    text.replace(text.find("lean = 0", wall), 8, std::string{"lean = "} + lean);
    const job::Job job = job::read(text, "x.toml");
    const auto results = rules::check(job, measure(*parts::build(job)));
    const rules::Result* flat = rules::find(results, "wall.furred-flat");
    ASSERT_TRUE(flat);
    EXPECT_EQ(flat->outcome, folds ? rules::Outcome::caution : rules::Outcome::pass) << lean << " " << flat->where;
    if (!folds) continue;
    EXPECT_NEAR(flat->measured.value_or(0) / in, 0.5, 0.02);
    EXPECT_THAT(flat->where, testing::HasSubstr("right wall's board folds"));
  }
}

TEST(Furring, AWallThatIsToBeFramedOutIsNotKnownToBeFlat) {
  // Source: by hand: 33 in less a base of 29 leaves 2 at either end, where furring reaches 1-1/2: a wall is framed
  // there, and where its board will lie nobody has read. Told of both walls, left and right alike.
  job::Job job = job::read(narrow, "x.toml");
  job.base.length = job::Length::inches(29);
  const auto results = rules::check(job, measure(*parts::build(job)));
  const rules::Result* flat = rules::find(results, "wall.furred-flat");
  ASSERT_TRUE(flat);
  EXPECT_EQ(flat->outcome, rules::Outcome::not_checked) << flat->where;
  EXPECT_THAT(flat->advice, testing::HasSubstr("frame the left, right walls out first"));
}

TEST(Furring, ABaseIsSetElsewhereOnlyWhereBothItsGapsThenKeepTheirLimit) {
  // Source: by hand: 32-63/64 in between the walls. A base of 31-1/4 leaves 1-47/64 at both ends together, 55/64 at
  // each in the middle: over 1/2 wherever it is set. One of 32-1/4 leaves 47/64: over at one wall, 23/64 at each in the
  // middle. What is advised is followed, and the gap keeps its limit.
  for (const double base_in : {31.25, 32.25})
    for (const auto against : {job::Against::left, job::Against::right, job::Against::middle}) {
      job::Job job = job::read(narrow, "x.toml");
      job.base.length = job::Length::inches(base_in), job.base.against = against;
      const auto results = rules::check(job, measure(*parts::build(job)));
      const rules::Result* gap = rules::find(results, "room.stud-gap");
      ASSERT_TRUE(gap);
      const bool over = against != job::Against::middle && base_in > 32;
      EXPECT_EQ(gap->advice.find("in the middle (base.against = \"middle\")") != std::string::npos, over)
          << gap->advice;
      EXPECT_EQ(gap->advice.find("set the base") != std::string::npos, over) << gap->advice;
      if (!over) continue;
      job.base.against = job::Against::middle;
      const auto then = rules::check(job, measure(*parts::build(job)));
      EXPECT_EQ(rules::find(then, "room.stud-gap")->outcome, rules::Outcome::pass);
    }
}

TEST(Furring, AWallThatIsToBeFramedOutSaysNothingOfHowFlatItIs) {
  // Source: by hand: 2 in are left before the right wall, which is framed out, and nothing before the left. Were its
  // board to turn by an inch it would be another board that lies there.
  for (const auto against : {job::Against::left, job::Against::right}) {
    job::Job job = job::read(narrow, "x.toml");
    job.base.length = job::Length::inches(31), job.base.against = against;
    facts::Facts facts = measure(*parts::build(job));
    const Side out = against == job::Against::left ? Side::right : Side::left;
    ASSERT_TRUE(facts::wall_waits(facts.room.studs, out));
    facts.room.kinks = {{out, 1 * in, 12 * in, 16 * in, 40 * in, true}};
    facts.room.folds = {{out, 0.05, 40 * in}};
    const auto results = rules::check(job, facts);
    EXPECT_EQ(rules::find(results, "wall.furred-flat")->outcome, rules::Outcome::not_checked);
    const Side stays = out == Side::left ? Side::right : Side::left;
    job.survey.studs = {{stays, Side::back, {}}};  // somebody read them
    facts.room.kinks.push_back({stays, 0.5 * in, 12 * in, 16 * in, 40 * in, true});
    const auto other = rules::check(job, facts);
    EXPECT_EQ(rules::find(other, "wall.furred-flat")->outcome, rules::Outcome::caution) << "of a wall that stays";
  }
}

TEST(Furring, ABaseAsLongAsIsAdvisedIsLongEnough) {
  // Source: by hand: 11/16 in is wanting of 30, and a strip at either end is cut down to a mark: 13/16 longer.
  const job::Job job = job::read(narrow, "x.toml");
  const auto advised = rules::check(job, measure(*parts::build(job)));
  const rules::Result* width = rules::find(advised, "clear.width");
  ASSERT_TRUE(width);
  EXPECT_THAT(width->advice, testing::HasSubstr("a base 13/16\" longer"));
  job::Job followed = job;
  followed.base.length = job::Length::inches(31.25 + 0.8125);
  const auto results = rules::check(followed, measure(*parts::build(followed)));
  EXPECT_EQ(rules::find(results, "clear.width")->outcome, rules::Outcome::pass)
      << rules::find(results, "clear.width")->where;
}

const facts::StudGap& stud_at(const facts::Facts& facts, Side wall, double running_in) {
  const auto it = std::find_if(facts.room.studs.begin(), facts.room.studs.end(), [&](const facts::StudGap& s) {
    return s.wall == wall && std::abs(s.running_mm - running_in * in) < 1;
  });
  if (it == facts.room.studs.end()) throw std::runtime_error{"no stud there"};
  return *it;
}

class Crooked : public testing::TestWithParam<bool> {
 protected:
  Side of(Side side) const {
    return !GetParam() || side == Side::back ? side : side == Side::left ? Side::right : Side::left;
  }
  std::shared_ptr<const parts::Model> model = parts::build(job::read(sample::crooked_room(GetParam()), "x.toml"));
  facts::Facts facts = measure(*model);
};

TEST_P(Crooked, NoStripThatStandsBesideTheBaseGoesInBeforeIt) {
  // Source: by hand: the base ends 14-1/8 + 39 = 53-1/8 in from the back; studs at 53-1/4 and 53-7/16, 1-1/2 in wide,
  // begin at 52-1/2 and 52-11/16, beside it. Their middles lie past its edge.
  for (const auto& [wall, at] : {std::pair{Side::left, 53.25}, {Side::right, 53.4375}, {Side::left, 32.}}) {
    const facts::StudGap& stud = stud_at(facts, of(wall), at);
    ASSERT_EQ(stud.strips.size(), 2u) << at;
    EXPECT_EQ(stud.strips[0].turn, Turn::base) << at;
    EXPECT_EQ(stud.strips[1].turn, Turn::after) << at;
  }
}

TEST_P(Crooked, NoStripIsLongerThanFitsBetweenTheBaseAndTheCeiling) {
  // Source: by hand: what is slipped down behind an upstand comes from above it, under a ceiling 96 in up; a strip as
  // long as its stud, 93 in and more, does not. The piece from the sole plate ends 2 in over the upstand's top, or up
  // to a quarter more, so that screws find it there; the rest begins on it, and both are as thick there as the whole
  // was.
  const double top = *facts.heights.upstand_top_mm, ceiling = 96 * in;
  int late = 0;
  for (const facts::StudGap& gap : facts.room.studs)
    for (const facts::Strip& strip : gap.strips) {
      if (strip.turn != Turn::base) continue;
      const auto stud = parts::box_of(*model->find(gap.part_id));
      const double length = (strip.to - strip.from) * (stud[5] - stud[2]), ends = stud[2] + length;
      ++late;
      EXPECT_LE(length, ceiling - top);
      EXPECT_GE(ends, top + 2 * in - 0.01);
      EXPECT_LT(ends, top + 2.25 * in + 0.01);
      EXPECT_NEAR(std::remainder(length, in / 4), 0, 1e-6);
      ASSERT_GE(gap.strips.size(), 2u);
      const facts::Strip& rest = gap.strips[1];
      EXPECT_EQ(rest.turn, Turn::after);
      EXPECT_NEAR(stud[2] + rest.from * (stud[5] - stud[2]), ends, 1e-6);
      EXPECT_NEAR(rest.foot_mm, strip.head_mm, 1e-6);
    }
  EXPECT_GE(late, 6);
}

TEST_P(Crooked, TheSeatBlockComesInBeforeTheStripsThatWouldStopIt) {
  // Source: by hand: the block is 61-3/16 in long and comes over a base of 60; studs stand as far apart as the block is
  // long or more, strips out to the base's edges 60 apart: were they there, it would lack 1-3/16, and to pass them
  // it would be tipped until 61-3/16 cos a + h sin a is 60.
  ASSERT_TRUE(facts.room.seat_in);
  const facts::DropIn& way = *facts.room.seat_in;
  EXPECT_NEAR(way.length_mm / in, 61.1875, 0.07);
  EXPECT_GT(way.least_mm / in, -1. / 16);
  const auto results = rules::check(model->job, facts);
  ASSERT_TRUE(rules::find(results, "seat.goes-in"));
  EXPECT_NE(rules::find(results, "seat.goes-in")->outcome, rules::Outcome::fail);
  std::vector<facts::StudGap> studs = facts.room.studs;
  for (facts::StudGap& gap : studs)
    for (facts::Strip& strip : gap.strips) strip.turn = Turn::framing;
  const Boards early{*model, facts.heights, studs};
  const auto shut = measure_seat_in(*model, Framing{*model}.with(early, true), std::nullopt);
  ASSERT_TRUE(shut && shut->between_walls);
  EXPECT_NEAR(shut->least_mm / in, 60 - 61.1875, 0.2);
  const double a = shut->tip_deg * M_PI / 180, narrow = shut->length_mm * std::cos(a) + shut->height_mm * std::sin(a);
  EXPECT_NEAR(narrow / in, 60, 0.2);
  EXPECT_LT(shut->tip_clear_mm, 0) << "as it levels out it is longer than the frame's studs stand apart";
  facts::Facts other = facts;
  other.room.seat_in = shut;
  const auto held = rules::check(model->job, other);
  EXPECT_EQ(rules::find(held, "seat.goes-in")->outcome, rules::Outcome::fail);
}

TEST(SeatBlock, HasSomethingToSpareOnItsWayAndIsMadeShorterForIt) {
  // Source: by hand: a block drawn as long as the room is wide has nothing to spare between plumb walls, where a tape
  // reads to 1/16 at either end: 1/8 is asked, and what is advised leaves it. Walls that lean in a hair ask for one
  // mark more. Made 1/8 shorter it is so by its solid, half at either end.
  for (const bool metric : {false, true})
    for (const double lean_in : {0., 0.03125})
      for (const bool mirror : {false, true}) {
        job::Job job = job::read(between_leaning(mirror ? 0 : lean_in, mirror ? lean_in : 0, metric), "x.toml");
        const auto model = parts::build(job);
        const auto results = rules::check(job, measure(*model));
        const rules::Result* way = rules::find(results, "seat.goes-in");
        ASSERT_TRUE(way && way->measured);
        EXPECT_EQ(way->outcome, rules::Outcome::caution);
        EXPECT_NEAR(*way->measured, 0, 0.15);
        ASSERT_EQ(way->remedies.size(), 1u) << way->advice;
        EXPECT_THAT(way->advice, testing::HasSubstr("(bench.end_play)"));
        job.bench->end_play = metric ? job::Length::mm(4) : job::Length::inches(lean_in > 0 ? 0.1875 : 0.125);
        EXPECT_THAT(way->remedies[0].changes[0].value,
                    testing::AnyOf("\"1/8 in\"", "\"3/16 in\"", "3", "\"3 mm\"", "4", "\"4 mm\""));
        const auto shorter = parts::build(job);
        const auto box = parts::box_of(*model->first(parts::Role::seat_block)),
                   made = parts::box_of(*shorter->first(parts::Role::seat_block));
        EXPECT_NEAR(made[0] - box[0], job.bench->end_play.in_mm() / 2, 1e-6);
        EXPECT_NEAR(box[3] - made[3], job.bench->end_play.in_mm() / 2, 1e-6);
        const auto then = rules::check(job, measure(*shorter));
        EXPECT_EQ(rules::find(then, "seat.goes-in")->outcome, rules::Outcome::pass)
            << rules::find(then, "seat.goes-in")->where;
      }
}

TEST(SeatBlock, IsCarriedHigherWhereWallsLeanOut) {
  // Source: by hand: walls 61-1/2 in apart at the back and 61 at the entry, 54 before it, lean out by 1/2 in 48 each. A
  // block as long as the room is at its nose, 61-3/8, is wider than the entry at the height of the base, and 36 in up
  // it has 61 + 3/4: it is carried in so high, and nothing but its place decides. Of plumb walls it lacks all the way.
  for (const bool metric : {false, true}) {
    const auto way = [&](double lean_in) {
      return *measure(*parts::build(job::read(between_leaning(lean_in, lean_in, metric, 61), "x.toml"))).room.seat_in;
    };
    const facts::DropIn out = way(-0.5), plumb = way(0);
    EXPECT_GT(out.least_mm, -0.2);
    EXPECT_EQ(out.tip_deg, 0);
    EXPECT_GT(out.carried_mm, 10 * in);
    EXPECT_LT(out.carried_mm, 48 * in);
    EXPECT_LT(plumb.least_mm, -0.2 * in);
  }
}

TEST_P(Crooked, AStripMakesRoomForTheSeatBlock) {
  // Source: by hand: the stud at 15-3/4 in reaches from 15 to 16-1/2 from the back, the seat block's nose to 15-3/8,
  // and that is 61-3/16 long before a base of 60: its end stands 19/32 in farther out than the strips of the base, and
  // laps this one by 3/8 or less of its 1-1/2. So that is notched there, and goes in once the block is set: the board
  // has backing on 1-1/8 at every height.
  const parts::Solid& seat = *model->first(parts::Role::seat_block);
  const auto block = parts::box_of(seat);
  const facts::StudGap& gap = stud_at(facts, of(Side::right), 15.75);
  const auto stud = parts::box_of(*model->find(gap.part_id));
  ASSERT_EQ(gap.before, facts::Before::base);
  ASSERT_EQ(gap.strips.size(), 2u);
  const facts::Strip &foot = gap.strips[0], &rest = gap.strips[1];
  const double length = stud[5] - stud[2];
  EXPECT_EQ(foot.turn, Turn::base);
  EXPECT_EQ(rest.turn, Turn::after);
  EXPECT_EQ(rest.from, foot.to);
  EXPECT_NEAR(stud[2] + foot.to * length, *facts.heights.upstand_top_mm + 2.125 * in, 0.125 * in + 0.01);
  EXPECT_EQ(rest.to, 1);
  ASSERT_TRUE(rest.notch);
  EXPECT_FALSE(rest.notch->at_low_edge) << "the bench is at the back";
  EXPECT_NEAR(rest.notch->wide_mm / in, (stud[4] - block[1]) / in, 0.07) << "by the solids, up to a mark";
  EXPECT_GT(stud[2] + rest.notch->from * length, 12 * in);
  EXPECT_LT(stud[2] + rest.notch->from * length, block[5]);
  EXPECT_NEAR(stud[2] + rest.notch->to * length, block[5], 0.1 * in);
  // One that stands behind the block's end is as thick as that lets it be, and whole.
  EXPECT_LE(stud_at(facts, of(Side::right), 0.75).strips.size(), 1u);  // behind the bench nothing is cut in two
}

TEST_P(Crooked, AStudThatAnApronLapsByAHairKeepsItsBacking) {
  // Source: by hand: of any stud before the base no height up to its strip's head is without a strip, where what stands
  // in its place laps it by less than half: a notch leaves 3/4 in or more.
  for (const facts::StudGap& gap : facts.room.studs) {
    double reached = 0;
    for (const facts::Strip& strip : gap.strips) {
      if (gap.before != facts::Before::base) continue;
      EXPECT_LT((strip.from - reached) * 93, 0.3) << gap.part_id;
      reached = strip.to;
      EXPECT_LE(strip.notch ? strip.notch->wide_mm : 0, 0.75 * in + 0.03) << gap.part_id;
    }
  }
}

TEST_P(Crooked, TheClashCheckSeesStrips) {
  // Source: by hand: left whole, that strip stands 19/32 in by 3/8 in in the seat block's end.
  for (const facts::Fit& fit : facts.fits)
    EXPECT_NE(fit.state, facts::Touch::clash) << text_of(fit.a) << " " << text_of(fit.b);
  std::vector<facts::StudGap> studs = facts.room.studs;
  EXPECT_TRUE(Boards(*model, facts.heights, studs).strips_that_clash().empty());
  for (facts::StudGap& gap : studs)
    for (facts::Strip& strip : gap.strips) strip.notch.reset();
  const std::vector<facts::Fit> clashes = Boards(*model, facts.heights, studs).strips_that_clash();
  ASSERT_EQ(clashes.size(), 1u);
  EXPECT_TRUE(clashes[0].b.is(facts::Role::seat_block));
  EXPECT_EQ(text_of(clashes[0].a), stud_at(facts, of(Side::right), 15.75).part_id);
  EXPECT_NEAR(clashes[0].at_mm[2] / in, 19, 1.5);
}

TEST_P(Crooked, BlocksAreBroughtOutWithTheirStuds) {
  // Source: by hand: the board runs from one strip to the other, and lies before the block's face by as much as they
  // are thick at its height: a strip as long and as high as the block, down to a mark, set when they are; the bar's
  // plate then has timber behind all of it.
  std::vector<facts::BlockStrip> behind_bar;
  for (const facts::BlockStrip& strip : facts.room.block_strips) {
    const auto box = parts::box_of(*model->find(strip.part_id));
    const double from_back = model->job.alcove.depth.in_mm() - box[4];
    if (strip.wall == of(Side::right) && from_back > 15 * in && from_back < 20 * in) behind_bar.push_back(strip);
  }
  ASSERT_EQ(behind_bar.size(), 1u);
  const facts::BlockStrip& strip = behind_bar.front();
  const auto expect_as_thick_as_beside = [&](double mm, double running_in) {
    const facts::StudGap& stud = stud_at(facts, of(Side::right), running_in);
    const facts::Strip& beside = stud.strips.back();
    const auto box = parts::box_of(*model->find(stud.part_id));
    const double share = (strip.above_datum_mm - box[2]) / (box[5] - box[2]),
                 thick = beside.foot_mm + (beside.head_mm - beside.foot_mm) * (share - beside.from) / (1 - beside.from);
    EXPECT_GT(thick / in, 0.5);
    EXPECT_LE(mm, thick + 0.3) << running_in;
    EXPECT_GT(mm, thick - in / 16 - 0.3) << running_in << ": cut down to a mark";
  };
  expect_as_thick_as_beside(strip.first_mm, 15.75);
  expect_as_thick_as_beside(strip.other_mm, 32.25);
  EXPECT_NEAR(strip.length_mm / in, 32.25 - 15.75 - 1.5, 0.1);
  EXPECT_EQ(strip.turn, Turn::after) << "over the base's edge";
  ASSERT_EQ(facts.backings.size(), 1u);
  EXPECT_NEAR(facts.backings[0].share, 1, 1e-6);
}

TEST_P(Crooked, WhereTheBoardTurnsIsTold) {
  // Source: by hand: at the back corner the bench's end wants no strip, and at 15-3/4 the base's is furred by 11/16 or
  // more: over 15 in the board swings off the line before the base by about that, where 1/16 in 24 in is flat.
  const auto kink = std::find_if(facts.room.kinks.begin(), facts.room.kinks.end(),
                                 [&](const facts::Kink& k) { return k.wall == of(Side::right); });
  ASSERT_NE(kink, facts.room.kinks.end());
  EXPECT_TRUE(kink->toward_room);
  EXPECT_NEAR(kink->at_mm / in, 15.75, 0.05);
  EXPECT_NEAR(kink->within_mm / in, 15, 0.1);
  EXPECT_NEAR(kink->by_mm / in, 0.6, 0.15);
  const auto results = rules::check(model->job, facts);
  const rules::Result* flat = rules::find(results, "wall.furred-flat");
  ASSERT_TRUE(flat);
  EXPECT_EQ(flat->outcome, rules::Outcome::caution);
  EXPECT_THAT(flat->where, testing::HasSubstr(std::string{name_of(of(Side::left))} + " wall's board turns in"));
  EXPECT_THAT(flat->advice, testing::HasSubstr("above the seat where the bench stands before it"));
}

TEST_P(Crooked, AStudIsInTheWayOnlyAsHighAsAnythingComesThere) {
  // Source: by hand: the left wall leans in by 1/8 in over 48 at its back end: its stud behind the bench, flush at the
  // floor, stands in by 1/4 at 8 ft, where nothing comes, and by 0.06 at the seat's 21-5/16.
  const facts::StudGap& stud = stud_at(facts, of(Side::left), 0.75);
  ASSERT_EQ(stud.before, facts::Before::bench);
  const double seat = parts::box_of(*model->first(parts::Role::seat_block))[5];
  EXPECT_NEAR(stud.bound_to_mm, seat, 1e-6);
  EXPECT_NEAR(stud.at_bound_mm, stud.at_floor_mm + (stud.at_top_mm - stud.at_floor_mm) * seat / (96 * in), 0.1);
  EXPECT_EQ(stud_at(facts, of(Side::left), 32).bound_to_mm, model->job.base.lowered_from.in_mm());
}

TEST(Folds, NoneIsToldWhereTheSeatBlockHidesIt) {
  // Source: by hand: the left wall leans in by 1/2 in over 48 before the bench, whose strips, 3/16 in at the plate, run
  // out below the top of what turns up from the seat, 21-5/16 in up: no board lies there. On the right the base's run
  // out higher, before the board.
  const std::string hidden = with_bench_wall_leaning(0.5);
  const auto model = parts::build(job::read(hidden, "hidden.toml"));
  const facts::Facts facts = measure(*model);
  const double seat = parts::box_of(*model->first(parts::Role::seat_block))[5];
  const bool any = std::any_of(facts.room.studs.begin(), facts.room.studs.end(), [&](const facts::StudGap& gap) {
    return gap.before == facts::Before::bench && !gap.strips.empty() && gap.strips[0].to < 1;
  });
  EXPECT_TRUE(any) << "strips behind the bench run out";
  for (const facts::Fold& fold : facts.room.folds)
    EXPECT_TRUE(fold.wall != Side::left || fold.above_datum_mm > seat) << fold.above_datum_mm;
}

INSTANTIATE_TEST_SUITE_P(BothHands, Crooked, testing::Bool(),
                         [](const auto& tested) { return tested.param ? "mirrored" : "asRead"; });

}  // namespace
}  // namespace fallwright::measure
