#include "measure/measure.hpp"
#include "measure/once.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

TEST(Drain, WhoseBodyEndsAboveTheFloorStillHasItsBoreBesideTheJoists) {
  // Source: by hand: the bore is where it is, however thick the bed: a bed 3 in thicker lifts the body, and neither
  // its play in the bore's width nor the bore's distance to the joists changes.
  job::Job low = sample::alcove();
  low.floor.joist_first = job::Length::mm(200);
  job::Job high = low;
  high.bed.least = low.bed.least + job::Length::inches(3);
  const facts::Facts one = measured(low), other = measured(high);
  const auto lowest = [](const facts::Facts& facts, facts::Role role, std::size_t i) {
    const auto it =
        std::find_if(facts.parts.begin(), facts.parts.end(), [&](const auto& p) { return p.which.is(role); });
    return it->bbox_mm[i];
  };
  ASSERT_GT(lowest(other, facts::Role::drain, 2), lowest(other, facts::Role::subfloor, 5));
  ASSERT_LT(lowest(one, facts::Role::drain, 2), lowest(one, facts::Role::subfloor, 5));
  ASSERT_TRUE(one.drain.bore_to_joist_mm && other.drain.bore_to_joist_mm);
  EXPECT_NEAR(*one.drain.bore_to_joist_mm, *other.drain.bore_to_joist_mm, 1e-6);
  EXPECT_NEAR(one.drain.body_to_bore_mm, other.drain.body_to_bore_mm, 1e-6);
}

using job::Length;

const facts::Part& part(const facts::Facts& facts, const std::string& id) {
  return *std::find_if(facts.parts.begin(), facts.parts.end(), [&](const auto& p) { return p.id == id; });
}
int clashes(const facts::Facts& facts) {
  return static_cast<int>(std::count_if(facts.fits.begin(), facts.fits.end(),
                                        [](const auto& f) { return f.state == facts::Touch::clash; }));
}
const facts::Fit* fit(const facts::Facts& facts, const std::string& a, const std::string& b) {
  for (const facts::Fit& f : facts.fits)
    if ((text_of(f.a) == a && text_of(f.b) == b) || (text_of(f.a) == b && text_of(f.b) == a)) return &f;
  return nullptr;
}

TEST(Parts, MassIsVolumeTimesDensity) {
  // Source: closed form: 9-1/2 x 1-1/2 x 3-1/2 in of timber at 450 kg/m3.
  const facts::Part& stud = part(sample::alcove_facts(), "bench-frame/stud-01");
  const double volume = 9.5 * 1.5 * 3.5 * std::pow(25.4, 3);
  EXPECT_NEAR(stud.volume_mm3, volume, 1e-6);
  EXPECT_NEAR(stud.mass_kg, volume * 1e-9 * 450, 1e-12);
  EXPECT_NEAR(stud.area_mm2, 2 * (9.5 * 1.5 + 9.5 * 3.5 + 1.5 * 3.5) * 645.16, 1e-6);
  EXPECT_TRUE(stud.valid);
}

TEST(Facets, AreaIsTheSlopedOne) {
  // Source: closed form: plan area times sqrt(1 + fall2); the threshold's top is 56-1/2 x 4 in plan at 1:48.
  int thresholds = 0;
  for (const facts::Facet& f : sample::alcove_facts().facets)
    if (f.surface == facts::Surface::threshold) {
      EXPECT_NEAR(f.area_mm2, 56.5 * 4 * 645.16 * std::sqrt(1 + 1. / 48 / 48), 1e-6);
      ++thresholds;
    }
  EXPECT_EQ(thresholds, 1);
}

TEST(Facets, AzimuthTurnsClockwiseFromTheBackWall) {
  // Source: the word's definition: water from the left facet runs right: 90; from the front facet to the back: 0.
  int facets = 0;
  for (const facts::Facet& f : sample::alcove_facts().facets) {
    if (f.surface != facts::Surface::base_floor) continue;
    ++facets;
    const double wanted = f.facet == "left" ? 90 : f.facet == "right" ? 270 : f.facet == "back" ? 180 : 0;
    EXPECT_NEAR(f.azimuth_deg, wanted, 1e-6) << f.facet;
  }
  EXPECT_EQ(facets, 4);
}

TEST(Creases, OfABasinAreValleys) {
  // Source: by construction: water of both facets runs to their common line.
  const facts::Facts facts = sample::alcove_facts();
  EXPECT_EQ(facts.creases.size(), 4u);
  for (const facts::Crease& c : facts.creases) EXPECT_TRUE(c.valley);
}

TEST(Bed, ThicknessIsPlumbAndMeasuredOverTheFloor) {
  // Source: closed form over a plane: 60 x 34 flat base, 3/4 least, floor falls 3/8 across and 1/4 to the front:
  // thickest at the far low corner, 3/4 + 3/8 + 1/4 = 1-3/8; the grid between is exact sixteenths.
  job::Job j = sample::bare(inches(60), inches(34), inches(30), inches(17));
  j.base.underside = job::Underside::flat;
  j.bed.least = inches(0.75);
  j.floor.drop_along_width = inches(0.375);
  j.floor.drop_along_depth = inches(-0.25);
  const facts::Bed bed = measured(j).bed;
  EXPECT_NEAR(bed.least_mm / 25.4, 0.75, 1e-9);
  EXPECT_NEAR(bed.greatest_mm / 25.4, 1.375, 1e-9);
  EXPECT_NEAR(bed.least_under_ribs_mm / 25.4, 0.75, 1e-9);
  EXPECT_NEAR(bed.greatest_at_mm[0], 60 * 25.4, 1e-6);
  EXPECT_NEAR(bed.greatest_at_mm[1], 0, 1e-6);
}

TEST(Bed, TouchesAllOfTheBaseAboveItAndLeavesNoVoid) {
  // Source: closed form: contact in plan is the bed's plan within the base, less the bore's hole.
  const facts::Bed bed = sample::alcove_facts().bed;
  const double plan = (57.5 - 1) * (36 - 0.5) - std::numbers::pi * 9;
  EXPECT_NEAR(bed.contact_mm2 / 645.16 / plan, 1, 1e-6);
  EXPECT_LT(bed.void_mm3, 1);
  EXPECT_NEAR(bed.squeeze_out_mm3, bed.spread_mm3 - bed.set_mm3, 1e-9);
}

TEST(Bed, TooLowAGaugeLeavesVoids) {
  // Source: conservation: spread to the rib plane there is less mortar than the ribs' pockets hold.
  job::Job j = sample::alcove();
  j.bed.gauge_depth = inches(0.5);
  EXPECT_LT(measured(j).bed.squeeze_out_mm3, 0);
}

TEST(Clear, IsTheFloorInsideUpstandsAndThreshold) {
  // Source: closed form: (57-1/2 - 1) x (36 - 1/2 - 4) = 56-1/2 x 31-1/2, circle 31-1/2.
  const facts::Clear clear = sample::alcove_facts().clear;
  EXPECT_NEAR(clear.area_mm2 / 645.16, 56.5 * 31.5, 1e-6);
  EXPECT_NEAR(clear.circle_mm / 25.4, 31.5, 1e-9);
  EXPECT_NEAR(clear.least_width_mm / 25.4, 31.5, 1e-9);
  EXPECT_NEAR(clear.to_centreline->area_mm2 / 645.16, 56.5 * 33.5, 1e-6) << "and half of 4 in of threshold";
  EXPECT_NEAR(clear.to_centreline->circle_mm / 25.4, 33.5, 1e-9);
}

TEST(Clear, AChannelAlongTheRimIsPartOfIt) {
  // Source: closed form: the floor is 56-1/2 x 31-1/2 in wherever its drain lies, here flush with the back upstand.
  job::Job j = sample::alcove();
  j.drain.kind = job::DrainKind::line;
  j.base.pattern = job::FallPattern::to_line;
  j.drain.along = {job::Side::back, inches(2.5)};
  j.drain.size = inches(4);
  j.drain.bore = inches(3);
  j.drain.body = inches(2);
  j.bed.collar = inches(0.25);
  const facts::Clear clear = measured(j).clear;
  EXPECT_NEAR(clear.area_mm2 / 645.16, 56.5 * 31.5, 1e-6);
  EXPECT_NEAR(clear.circle_mm / 25.4, 31.5, 1e-9);
}

TEST(Clear, AnOverhangingSeatTakesFromIt) {
  // Source: closed form: apron 1/2 in on the base's 1/2 in upstand, and a nose of 2 in over the floor.
  job::Job j = sample::alcove();
  j.bench->overhang = inches(2);
  const facts::Clear clear = measured(j).clear;
  EXPECT_NEAR(clear.area_mm2 / 645.16, 54.5 * 31.5, 1e-6);
}

TEST(Clear, FinishedWallsTakeTheirBuildUpOff) {
  // Source: closed form: walls 1 in before the studs at 36 and 72 in. Free: 15 to 71 by 4 to 35 in; the compartment
  // from wall to wall 70 by 31 in; the entry 15 to 71 in beside the seat, 70 in without it. Framed sizes stay as they
  // are.
  job::Job j = sample::alcove();
  EXPECT_FALSE(measured(j).clear.finished);
  j.survey.finish_mm = 25.4;
  const facts::Clear clear = measured(j).clear;
  ASSERT_TRUE(clear.finished);
  EXPECT_NEAR(clear.area_mm2 / 645.16, 56.5 * 31.5, 1e-6);
  EXPECT_NEAR(clear.finished->area_mm2 / 645.16, 56 * 31, 1e-6);
  EXPECT_NEAR(clear.finished->circle_mm / 25.4, 31, 1e-9);
  EXPECT_NEAR(clear.to_centreline->area_mm2 / 645.16, 56 * 33, 1e-6) << "and half of 4 in of threshold";
  EXPECT_NEAR(clear.to_centreline->circle_mm / 25.4, 33, 1e-9);
  EXPECT_NEAR(clear.finished->least_width_mm / 25.4, 31, 1e-9);
  EXPECT_NEAR(*clear.finished->entry_mm / 25.4, 56, 1e-9);
  EXPECT_NEAR(clear.compartment.width_mm / 25.4, 70, 1e-9);
  EXPECT_NEAR(clear.compartment.depth_mm / 25.4, 31, 1e-9);
  EXPECT_NEAR(*clear.compartment.face_mm / 25.4, 70, 1e-9);
}

TEST(Clear, AWallOutOfSquareTakesAWedge) {
  // Source: closed form: the right wall comes in from 72 in at the back to 71 in at the entry, so its finished face,
  // 2.36 in off, stands 2.36 / cos(a) to the left of it; the floor left of that line, 4 to 33.64 in from the entry, is
  // a trapezium. The base ends farther off than furring reaches: the wall is finished on its studs.
  job::Job j = sample::alcove();
  constexpr double finish = 2.36, back = 36 - finish;
  j.survey.finish_mm = finish * 25.4;
  j.base.length = inches(54.9);
  sample::read_plan(j, {0, 36 * 25.4}, {72 * 25.4, 36 * 25.4}, {0, 0}, {71 * 25.4, 0});
  const facts::Clear clear = measured(j).clear;
  const double off = finish * std::hypot(1., 36.) / 36, low = 71 + 4. / 36 - off, high = 71 + back / 36 - off;
  const double from = 15, edge = 14.5 + 54.9 - 0.5;  // the base's own upstand where the wall stands farther back
  const double cross = (edge + off - 71) * 36;       // where the finished face passes it
  const double width_at_cross = edge - from;
  const double area = ((low - from) + width_at_cross) / 2 * (cross - 4) + width_at_cross * (back - cross);
  ASSERT_GT(cross, 4);
  ASSERT_LT(cross, back);
  ASSERT_GT(high, edge);
  EXPECT_NEAR(clear.finished->area_mm2 / 645.16, area, 1e-3);
  EXPECT_NEAR(clear.finished->least_width_mm / 25.4, back - 4, 1e-6) << "its depth";
}

TEST(Heights, TheFloorBesideTheThresholdIsItsLowestAlongThere) {
  // Source: closed form: with a level rim the floor meets the threshold at the rim.
  const facts::Heights h = sample::alcove_facts().heights;
  ASSERT_TRUE(h.floor_at_threshold_mm);
  EXPECT_NEAR(*h.floor_at_threshold_mm, h.rim_least_mm, 1e-9);
}

TEST(Openings, WhatLiesBeforeTheBaseIsTold) {
  // Source: arithmetic: a base 4 in shallower than the alcove stands tight to the back, with 4 in before it.
  job::Job j = sample::alcove();
  j.base.width = inches(32);
  j.drain.along = {job::Side::back, inches(14)};
  const facts::Facts facts = measured(j);
  EXPECT_NEAR(facts.openings.at(1).left_over_mm, 4 * 25.4, 1e-9);
  EXPECT_NEAR(facts.openings.at(1).open_mm, 4 * 25.4, 1e-9);
  EXPECT_NEAR(facts.openings.at(0).open_mm, 0, 1e-9);
}

TEST(Openings, AddUp) {
  // Source: arithmetic: 72 - 57-1/2 - 14-1/2 = 0; a base 3/8 shorter leaves 3/8.
  job::Job j = sample::alcove();
  EXPECT_NEAR(measured(j).openings.at(0).left_over_mm, 0, 1e-9);
  j.base.length = inches(57.125);
  EXPECT_NEAR(measured(j).openings.at(0).left_over_mm, 0.375 * 25.4, 1e-9);
}

TEST(Fits, NothingInTheSampleClashes) {
  // Source: by construction; the kernel's general Boolean is the second opinion for all pairs but base on bed.
  EXPECT_EQ(clashes(sample::alcove_facts()), 0);
}

TEST(Fits, ABoredJoistIsAClashOfItsTrueVolume) {
  // Source: closed form: a joist centred under the drain meets its 3-1/4 in body, less the 2 in outlet, over its height
  // in the joist: body ends 4 in below the drain's top at 1-1/2 in, so 2-1/2 - 3/4 in below the deck.
  job::Job j = sample::alcove();
  j.floor.joist_first = inches(14.5 + 28.75 - 32);
  const facts::Facts facts = measured(j);
  const facts::Fit* clash = fit(facts, "drain", "joists/joist-03");
  ASSERT_NE(clash, nullptr);
  EXPECT_EQ(clash->state, facts::Touch::clash);
  const auto strip = [](double r) { return 2 * (0.75 * std::sqrt(r * r - 0.5625) + r * r * std::asin(0.75 / r)); };
  EXPECT_NEAR(clash->overlap_mm3 / std::pow(25.4, 3), (strip(1.625) - strip(1)) * 1.75, 1e-4);
  EXPECT_NEAR(*facts.drain.bore_to_joist_mm / 25.4, -0.75 - 2.5, 1e-9);
}

TEST(Fits, GapsAreDistancesBetweenSolids) {
  // Source: arithmetic: a base 3/8 in short stands clear of the right wall by 3/8.
  job::Job j = sample::alcove();
  j.base.length = inches(57.125);
  const facts::Facts facts = measured(j);
  const facts::Fit* gap = fit(facts, "base", "wall-right/stud-02");
  ASSERT_NE(gap, nullptr);
  EXPECT_EQ(gap->state, facts::Touch::gap);
  EXPECT_NEAR(gap->distance_mm / 25.4, 0.375, 1e-6);
  const facts::Fit* touch = fit(facts, "base", "seat-block");
  ASSERT_NE(touch, nullptr);
  EXPECT_EQ(touch->state, facts::Touch::touch);
}

TEST(Members, LengthsAreReadOffTheSolids) {
  // Source: arithmetic on the sample: sole plate 36, stud 9-1/2, joist 13, deck 36 x 14-1/2 x 3/4.
  const facts::Facts facts = sample::alcove_facts();
  const auto member = [&](const std::string& id) {
    return *std::find_if(facts.members.begin(), facts.members.end(), [&](const auto& m) { return m.part_id == id; });
  };
  EXPECT_NEAR(member("bench-frame/stud-01").length_mm / 25.4, 9.5, 1e-9);
  EXPECT_NEAR(member("bench-frame/joist-01").length_mm / 25.4, 13, 1e-9);
  EXPECT_NEAR(member("bench-frame/joist-01").width_mm / 25.4, 3.5, 1e-9);
  EXPECT_NEAR(member("bench-frame/deck").width_mm / 25.4, 14.5, 1e-9);
  EXPECT_TRUE(member("bench-frame/deck").sheet);
}

TEST(Members, StudsOnAFallingFloorAreCutToIt) {
  // Source: closed form: 1/2 in over the alcove's 36 in depth is atan(1/72) = 0.796 degrees from square at the foot.
  job::Job j = sample::alcove();
  j.floor.drop_along_depth = inches(0.5);
  int studs = 0;
  for (const facts::Member& m : measured(j).members)
    if (m.part_id == "bench-frame/stud-01") {
      EXPECT_NEAR(m.end_angle_deg[0], 0.7957, 1e-3) << "at its foot";
      EXPECT_NEAR(m.end_angle_deg[1], 0, 1e-3) << "its head is level";
      EXPECT_NEAR(m.length_mm - m.short_mm, 1.5 / 72 * 25.4, 1e-3) << "over the 1-1/2 in along the depth";
      ++studs;
    }
  EXPECT_EQ(studs, 1);
}

TEST(Symmetry, TheMirroredJobMeasuresTheSame) {
  // Source: symmetry about the alcove's middle: falls, bed, clear floor and heights keep their values.
  job::Job left = sample::alcove(), right = left;
  right.bench->place = job::Side::right;
  right.drain.across.side = job::Side::right;
  right.floor.joist_first = inches(72 - 3 - 64);
  const facts::Facts a = measured(left), b = measured(right);
  EXPECT_NEAR(a.bed.set_mm3 / b.bed.set_mm3, 1, 1e-9);
  EXPECT_NEAR(a.clear.area_mm2, b.clear.area_mm2, 1e-6);
  EXPECT_NEAR(*a.drain.bore_to_joist_mm, *b.drain.bore_to_joist_mm, 1e-6);
  const auto falls = [](const facts::Facts& f) {
    std::vector<double> all;
    for (const facts::Facet& facet : f.facets) all.push_back(facet.fall);
    std::sort(all.begin(), all.end());
    return all;
  };
  const auto p = falls(a), q = falls(b);
  ASSERT_EQ(p.size(), q.size());
  for (std::size_t i = 0; i < p.size(); ++i) EXPECT_NEAR(p[i], q[i], 1e-12);
}

}  // namespace
}  // namespace fallwright::measure
