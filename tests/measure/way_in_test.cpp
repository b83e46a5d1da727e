// Studs and the way in where walls stand askew.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

using job::Length;
using job::Side;

/// The sample alcove with its entry wider than its back, on one side or the other.
job::Job askew(bool left) {
  job::Job j = sample::alcove();
  j.bench.reset();
  j.base.length = Length::inches(60);
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm(), by = 40;
  sample::read_plan(j, {0, d}, {w, d}, {left ? -by : 0, 0}, {left ? w : w + by, 0});
  return j;
}

TEST(StudGap, IsThatOfTheNearestCorner) {
  // Source: a stud that stands plumb reaches as far as its box does.
  for (const bool left : {true, false}) {
    const auto model = parts::build(askew(left));
    const auto base = brep::box_of(model->first(parts::Role::base)->shape);
    int looked = 0;
    for (const facts::StudGap& stud : measure(*model).room.studs) {
      if (stud.wall != (left ? Side::left : Side::right) || stud.stands_alone()) continue;
      const auto box = brep::box_of(model->find(stud.part_id)->shape);
      const double gap = left ? base[0] - box[3] : box[0] - base[3];
      EXPECT_NEAR(stud.at_floor_mm, gap, 1e-6) << stud.part_id;
      EXPECT_NEAR(stud.at_upstand_mm, gap, 1e-6) << stud.part_id;
      ++looked;
    }
    EXPECT_GE(looked, 3);
  }
}

TEST(StudGap, BehindABenchIsThatToTheBench) {
  // Source: by hand: a back wall that leans in brings the bench's end in front of the base's, as the bench is the
  // higher of the two. The base's corner and the stud in the back corner then lie past the bench's end; the wall behind
  // the bench is none of theirs.
  for (const bool left : {true, false}) {
    job::Job j = sample::alcove();
    if (!left) j.bench->place = job::Side::right, j.drain.across.side = Side::right;
    j.base.length = j.base.length - Length::mm(4);
    j.base.width = j.base.width - Length::mm(60);
    j.survey.plumbs.push_back({Side::back, 900, {120, 1.6, survey::Face::stud, 0}, 1200});
    const facts::Room room = measure(*parts::build(j)).room;
    const Side side = left ? Side::left : Side::right;
    for (const facts::CornerGap& c : room.corners) EXPECT_NE(c.wall, side) << c.name() << ": " << c.at_floor_mm;
    int at_bench = 0;
    for (const facts::StudGap& stud : room.studs) {
      if (stud.wall != side) continue;
      EXPECT_NE(stud.before, facts::Before::base) << stud.part_id;
      at_bench += stud.before == facts::Before::bench;
    }
    EXPECT_GE(at_bench, 3);
    EXPECT_GE(room.corners.size(), 3u);
  }
}

TEST(StudGap, OfAStudThatHalfStandsPastTheBaseIsThatToTheBase) {
  // Source: by hand: a base 57-1/2 in long at the left end of 72 in, without a bench. A stud of 1-1/2 in centred at 58
  // in begins 1/4 in before the base's end: the board on it meets the base there. One centred at 61 begins past it.
  // From the other end the same.
  for (const bool left : {true, false}) {
    job::Job j = sample::alcove();
    j.bench.reset();
    j.base.against = left ? job::Against::left : job::Against::right;
    j.drain.across.side = left ? Side::left : Side::right;
    j.walls.existing = true;
    survey::Studs studs{Side::back, left ? Side::left : Side::right, {}};
    for (const double centre : {16., 32., 58., 61.}) studs.centres_mm.push_back(centre * in);
    j.survey.studs = {studs};
    std::map<long, facts::Before> before;
    for (const facts::StudGap& stud : measure(*parts::build(j)).room.studs)
      if (stud.wall == Side::back)
        before[std::lround((left ? stud.running_mm : 72 * in - stud.running_mm) / in)] = stud.before;
    EXPECT_EQ(before.at(32), facts::Before::base);
    EXPECT_EQ(before.at(58), facts::Before::base);
    EXPECT_EQ(before.at(61), facts::Before::nothing);
  }
}

TEST(StudGap, PastTheBaseIsNotThatToABenchAcrossTheRoom) {
  // Source: by hand: the front stud of the wall across from the bench stands in front of a base that ends 80 mm behind
  // the alcove's front, while the bench runs on to it at the other end: nothing stands before that stud.
  for (const bool left : {true, false}) {
    job::Job j = sample::alcove();
    if (!left) j.bench->place = job::Side::right, j.drain.across.side = Side::right;
    j.base.width = j.base.width - Length::mm(80);
    int alone = 0;
    for (const facts::StudGap& stud : measure(*parts::build(j)).room.studs) {
      if (stud.wall != (left ? Side::right : Side::left)) continue;
      EXPECT_NE(stud.before, facts::Before::bench) << stud.part_id << ": " << stud.at_floor_mm;
      alone += stud.stands_alone();
    }
    EXPECT_GE(alone, 1);
  }
}

TEST(WayIn, IsNowhereNarrowerThanItsLeast) {
  // Source: by hand: the walls lean in, so that between bench and wall it is narrowest at the top of the bench's frame,
  // which no even step of height hits.
  for (const bool left : {true, false}) {
    job::Job j = sample::alcove();
    if (!left) j.bench->place = job::Side::right, j.drain.across.side = Side::right;
    j.base.lowered_from = Length::inches(48);
    const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
    sample::read_plan(j, {0, d}, {w + 9, d}, {-5, 0}, {w + 14, 0});
    for (const Side side : {Side::left, Side::right})
      j.survey.plumbs.push_back({side, 400, {7, 1.6, survey::Face::stud, 0}, 1200});
    const auto model = parts::build(j);
    const facts::Facts facts = measure(*model);
    const auto least_at = [&](double z) {
      double narrowest = std::numeric_limits<double>::max();
      for (const Faces& faces : faces_on_the_way_down(*model, facts.heights, 0)) {
        if (std::abs(faces.height_mm - z) > 1e-6) continue;
        double low = -1e9, high = 1e9;
        for (const FacePoint& p : faces.left) low = std::max(low, p.x_mm);
        for (const FacePoint& p : faces.right) high = std::min(high, p.x_mm);
        narrowest = std::min(narrowest, high - low);
      }
      return narrowest;
    };
    const facts::DropIn& drop = facts.room.drop_in;
    EXPECT_NEAR(least_at(drop.least_at_mm), drop.least_mm + drop.length_mm, 1e-6);
    EXPECT_NEAR(drop.least_at_mm, (j.bench->height - j.bench->seat_thickness).in_mm(), 1e-3) << "the deck's top";
    for (const auto& [z, width] : drop.widths_mm) EXPECT_GE(width - drop.length_mm, drop.least_mm - 1e-6) << z;
  }
}

TEST(FloorShape, IsLookedAtBetweenTheFeetOfTheWalls) {
  // Source: by hand: the floor falls 1 in 100 to the right; the entry is 80 mm wider than the back, on either side, and
  // the line along it is the longest across the room.
  for (const bool left : {true, false}) {
    job::Job j = askew(left);
    const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
    for (const double x : {0., w})
      for (const double y : {0., d}) j.survey.spots.push_back({x, y, -0.01 * x});
    EXPECT_NEAR(measure(*parts::build(j)).room.floor.along_width_mm, 0.01 * (w + 40), 1e-3) << left;
  }
}

TEST(Entry, IsNoWiderThanAWidthThatWasReadNearIt) {
  // Source: by hand: walls 72 in apart and plumb, without a bench; 70 in read 48 in up, 2 ft from the back: as walls
  // stand straight it lacks 2 in there and above. The same width read nearer to the back says nothing of the entry, nor
  // does one that is wider than the walls stand.
  job::Job j = sample::alcove();
  j.bench.reset();
  const auto entry = [&](double from_back_in, double width_in) {
    j.survey.widths = {{from_back_in * in, 48 * in, {width_in * in, 1.5, survey::Face::stud, 0}}};
    return measure(*parts::build(j)).clear;
  };
  const double wide = *entry(12, 70).entry_mm;
  EXPECT_NEAR(wide, 72 * in, 1e-6);
  EXPECT_FALSE(entry(12, 70).narrower_at_entry);
  EXPECT_NEAR(*entry(24, 70).entry_mm, 70 * in, 1e-6);
  EXPECT_NEAR(*entry(24, 70).compartment.face_mm, 70 * in, 1e-6);
  EXPECT_NEAR(entry(24, 70).narrower_at_entry.value().reading_mm, 70 * in, 1e-6);
  EXPECT_NEAR(*entry(24, 73).entry_mm, 72 * in, 1e-6);
}

TEST(FloorShape, AHumpOfRoundingIsNone) {
  // Source: closed form: a plane has neither hump nor hollow, however it is divided.
  job::Job j = sample::bare(Length::inches(60), Length::inches(34), Length::inches(30), Length::inches(17));
  const double w = j.alcove.width.in_mm(), d = j.alcove.depth.in_mm();
  for (const double x : {0.1, 0.37, 0.9})
    for (const double y : {0.07, 0.53, 0.9}) j.survey.spots.push_back({x * w, y * d, 1. / 3 + x * w / 71 - y * d / 97});
  const facts::FloorShape shape = measure(*parts::build(j)).room.floor;
  EXPECT_EQ(shape.hump_mm, 0);
  EXPECT_EQ(shape.hollow_mm, 0);
}

}  // namespace
}  // namespace fallwright::measure
