// What is tiled, sealed, flashed and bonded, measured on the solids against closed formulas over the job's sizes.
#include <cmath>

#include <gtest/gtest.h>

#include "diag/text_file.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "measure/once.hpp"
#include "parts/build.hpp"
#include "support/imperial.hpp"
#include "support/random_room.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

facts::Finish finish_of(const job::Job& job) {
  return measure::measure(*parts::build(job)).finish;
}

double area(const facts::Finish& finish, job::Tiled surface, std::optional<job::Side> wall = {}) {
  for (const facts::Covered& c : finish.covered)
    if (c.surface == surface && c.wall == wall) return c.area_mm2 / in2;
  ADD_FAILURE() << name_of(surface) << " " << (wall ? name_of(*wall) : "");
  return 0;
}

double joint(const facts::Finish& finish, facts::Joint what) {
  for (const facts::Seam& seam : finish.joints)
    if (seam.joint == what) return seam.length_mm / in;
  ADD_FAILURE() << name_of(what);
  return 0;
}

/// The sample alcove in inches: rim and seat heights, and the tile's top 72 in above the drain.
constexpr double top = 1.5 + 72, rim = 1.5 + 26.25 / 48, nose = 18, seat_back = 18 + 14.5 / 48;

TEST(Finish, WallsAreTiledFromWhatStandsBelowThem) {
  // Source: closed form; strips over the rim (56.5 x 31.5 in), the threshold's ends and the seat's edges.
  const facts::Finish finish = sample::alcove_facts().finish;
  EXPECT_NEAR(finish.top_mm, top * in, 1e-6);
  EXPECT_NEAR(area(finish, job::Tiled::walls, job::Side::back),
              56.5 * (top - rim) + 14.5 * (top - (nose + seat_back) / 2), 1e-6);
  EXPECT_NEAR(area(finish, job::Tiled::walls, job::Side::left), 35.5 * (top - seat_back), 1e-6);
  const double sill = 1.5 + 2.5 + 4. / 48 / 2;
  EXPECT_NEAR(area(finish, job::Tiled::walls, job::Side::right), 31.5 * (top - rim) + 4 * (top - sill), 1e-6);
  EXPECT_NEAR(area(finish, job::Tiled::apron), 31.5 * (nose - rim) + 4 * (nose - sill), 1e-6);
}

TEST(Finish, WallsOverTheSeatsNoseAreTiledOnceWhateverTheUpstands) {
  // Source: closed form; the nose stands 1 in over the floor. The seat's upstand is thicker than the base's, so that
  // their edges at the wall do not lie in one line.
  job::Job left = sample::alcove();
  left.bench->overhang = job::Length::inches(1);
  left.bench->upstand_thickness = job::Length::inches(0.75);
  job::Job right = left;
  right.bench->place = job::Side::right, right.drain.across.side = job::Side::right;
  const double seat = 15.25 * (top - (nose + nose + 15.25 / 48) / 2);
  for (const job::Job& j : {left, right})
    EXPECT_NEAR(area(finish_of(j), job::Tiled::walls, job::Side::back), 55.5 * (top - rim) + seat, 1e-6);
}

TEST(Finish, FloorAndSeatCountTheirTrueSlopedArea) {
  // Source: closed form; plan over the cosine of each facet's fall.
  const facts::Finish finish = sample::alcove_facts().finish;
  const double rise = 26.25 / 48, ends = (31.5 + 4) / 2 * 26.25, sides = (56.5 + 4) / 2 * 13.75;
  EXPECT_NEAR(area(finish, job::Tiled::floor),
              2 * ends * std::hypot(1, rise / 26.25) + 2 * sides * std::hypot(1, rise / 13.75), 1e-6);
  EXPECT_NEAR(area(finish, job::Tiled::seat), 14.5 * 35.5 * std::hypot(1, 1. / 48), 1e-6);
}

TEST(Finish, JointsFollowTheRimTheSeatAndTheCorners) {
  // Source: closed form.
  const facts::Finish finish = sample::alcove_facts().finish;
  EXPECT_NEAR(joint(finish, facts::Joint::floor_to_walls), 56.5 + 31.5, 1e-6);
  EXPECT_NEAR(joint(finish, facts::Joint::floor_to_apron), 31.5, 1e-6);
  EXPECT_NEAR(joint(finish, facts::Joint::floor_to_threshold), 56.5, 1e-6);
  EXPECT_NEAR(joint(finish, facts::Joint::apron_to_walls), nose - rim, 1e-6);
  // Along its top and up its inner face, at the wall and at the bench.
  EXPECT_NEAR(joint(finish, facts::Joint::threshold_to_walls), 8 * std::hypot(1, 1. / 48) + 2 * (1.5 + 2.5 - rim),
              1e-6);
  EXPECT_NEAR(joint(finish, facts::Joint::seat_to_walls), 35.5 + 14.5 * std::hypot(1, 1. / 48), 1e-6);
  EXPECT_NEAR(joint(finish, facts::Joint::wall_corners), top - rim + top - seat_back, 1e-6);
  EXPECT_NEAR(joint(finish, facts::Joint::floor_to_drain), 16, 1e-6);
}

TEST(Finish, SealantRunsAlongTheThresholdAndUpTheAprons) {
  // Source: by hand from the sizes of params/tannery-lane-2a.toml. Floor to threshold: a base of 57-1/2 in less two
  // upstands of 1/2 in, 56-1/2 in, 4.708 ft. Apron to back corner: the seat's front edge 18 in up, less the rim: 1/2 in
  // of bed, 1/2 in of rib and 1/2 in of shell, and 1/4 in/ft over the longest run, from the drain's edge 28-3/4 - 2 in
  // from the base's, less its upstand: 26-1/4 in, 0.547 in; 18 - 2.047 = 15.953 in, 1.329 ft. It ends at the threshold
  // in front, which its upstand meets.
  const std::string file = std::string{PROJECT_DIR} + "/params/tannery-lane-2a.toml", text = diag::read_text(file);
  for (const std::string& room : {text, sample::mirrored(text)}) {
    const facts::Finish finish = finish_of(job::read(room, file));
    EXPECT_NEAR(joint(finish, facts::Joint::floor_to_threshold) / 12, 4.708, 0.001);
    EXPECT_NEAR(joint(finish, facts::Joint::apron_to_walls) / 12, 1.329, 0.001);
  }
}

TEST(Finish, FlashingAndFelt) {
  // Source: closed form; the bed's plan is 56.5 x 36 in less a circle of 3 in about the bore.
  const facts::Finish finish = sample::alcove_facts().finish;
  double flashing = 0;
  for (const facts::Flashing& seam : finish.flashings) flashing += seam.length_mm / in;
  EXPECT_NEAR(flashing, 57.5 + 36 + 36 + 36 + 15, 1e-6);
  EXPECT_EQ(finish.flashing_corners, 3);
  EXPECT_NEAR(finish.bed_bottom_mm2 / in2, 56.5 * 36 - M_PI * 9, 1e-3);
}

double bond(const facts::Finish& finish, const std::string& what) {
  for (const facts::Bonded& b : finish.seat_bonds)
    if (b.what == what) return b.area_mm2 / in2;
  return 0;
}

TEST(Finish, AdhesiveGoesOnEveryFaceThatSeatBlockAndFrameShare) {
  // Source: closed form; the seat lies on the whole deck, and its apron, on the base's upstand 5-1/2 in up, stands
  // against the deck's edge, the rail, the top plate and four studs.
  const job::Job job = sample::alcove();
  const facts::Finish finish = sample::alcove_facts().finish;
  const double deck_top = 18 - job.bench->seat_thickness.in_mm() / in, deck = job.bench->frame.deck.in_mm() / in,
               plate_foot = deck_top - deck - 3.5 - 1.5, upstand = 5.5;
  EXPECT_NEAR(bond(finish, "deck"), 36 * (14.5 + deck), 1e-6);
  EXPECT_NEAR(bond(finish, "front rail"), 36 * 3.5, 1e-6);
  EXPECT_NEAR(bond(finish, "top plate"), 36 * 1.5, 1e-6);
  EXPECT_NEAR(bond(finish, "stud"), 4 * 1.5 * (plate_foot - upstand), 1e-6);
  double all = 0;
  for (const facts::Bonded& b : finish.seat_bonds) all += b.area_mm2;
  EXPECT_NEAR(finish.seat_bond_mm2, all, 1e-6);
}

TEST(Finish, AdhesiveIsTheSameOnTheOtherHandAndAtTheBack) {
  // Source: property; the frame is the same, turned.
  job::Job right = sample::alcove();
  right.bench->place = job::Side::right;
  right.drain.across.side = job::Side::right;
  EXPECT_NEAR(finish_of(right).seat_bond_mm2, sample::alcove_facts().finish.seat_bond_mm2, 1e-3);
  job::Job back = sample::alcove();
  back.bench->place = job::Side::back;
  back.base.width = job::Length::inches(21.5);
  back.drain.along = {job::Side::back, job::Length::inches(9)};
  const facts::Finish finish = finish_of(back);
  EXPECT_NEAR(bond(finish, "front rail"), 72 * 3.5, 1e-6);
  EXPECT_GT(bond(finish, "stud"), 0);
  EXPECT_NEAR(joint(finish, facts::Joint::apron_to_walls), 2 * (nose - rim), 1e-6) << "two walls";
}

TEST(Finish, ABaseThatComesFinishedHasNoJointToItsThreshold) {
  // Source: common practice, no source: one piece; tile on either makes an edge to seal.
  job::Job job = sample::alcove();
  job.buy.tile.surfaces = {job::Tiled::walls};
  for (const facts::Seam& seam : finish_of(job).joints) EXPECT_NE(seam.joint, facts::Joint::floor_to_threshold);
  job.buy.tile.surfaces = {job::Tiled::walls, job::Tiled::threshold};
  EXPECT_NEAR(joint(finish_of(job), facts::Joint::floor_to_threshold), 56.5, 1e-6);
}

TEST(Finish, TheThresholdsFaceIsTiledDownToTheBathsFloor) {
  // Source: closed form; a top 4 in wide that falls in at 1:48, from the rim up to it inside; outside from its edge, 4 in
  // and 1/12 over the subfloor, down past the bed to the subfloor, or to the finish that is told.
  const double within = 56.5 * (4 * std::hypot(1, 1. / 48) + 4 - rim), edge = 4 + 4. / 48;
  EXPECT_NEAR(area(sample::alcove_facts().finish, job::Tiled::threshold), within + 56.5 * edge, 1e-6);
  job::Job job = sample::alcove();
  job.floor.finish_outside = job::Length::inches(0.75);
  EXPECT_NEAR(area(finish_of(job), job::Tiled::threshold), within + 56.5 * (edge - 0.75), 1e-6);
}

TEST(Finish, ANoseThatHangsOverIsNotTiledTwice) {
  // Source: closed form; 1 in of overhang takes 1 in of the strip over the base's rim and adds it to the seat's.
  job::Job job = sample::alcove();
  const double before = area(finish_of(job), job::Tiled::walls, job::Side::back);
  job.bench->overhang = job::Length::inches(1);
  const double after = area(finish_of(job), job::Tiled::walls, job::Side::back);
  const double strip = top - rim,
               seat = 15.5 * (top - (nose + 18 + 15.5 / 48) / 2) - 14.5 * (top - (nose + seat_back) / 2);
  EXPECT_NEAR(after - before, seat - strip, 1e-6);
}

TEST(Finish, TheOtherHandTakesAsMuch) {
  // Source: property; mirrored left and right.
  job::Job right = sample::alcove();
  right.bench->place = job::Side::right;
  right.drain.across.side = job::Side::right;
  const facts::Finish a = sample::alcove_facts().finish, b = finish_of(right);
  EXPECT_NEAR(area(a, job::Tiled::walls, job::Side::left), area(b, job::Tiled::walls, job::Side::right), 1e-9);
  EXPECT_NEAR(area(a, job::Tiled::walls, job::Side::back), area(b, job::Tiled::walls, job::Side::back), 1e-9);
  EXPECT_NEAR(area(a, job::Tiled::apron), area(b, job::Tiled::apron), 1e-9);
  ASSERT_EQ(a.joints.size(), b.joints.size());
  for (std::size_t i = 0; i < a.joints.size(); ++i)
    EXPECT_NEAR(a.joints[i].length_mm, b.joints[i].length_mm, 1e-9) << name_of(a.joints[i].joint);
}

TEST(Finish, ABenchAlongTheBackLeavesItsEnds) {
  // Source: closed form; the base's walls are left and right, the back wall is above the seat alone.
  job::Job job = sample::alcove();
  job.bench->place = job::Side::back;
  job.base.width = job::Length::inches(21.5);
  job.drain.along = {job::Side::back, job::Length::inches(9)};
  const facts::Finish finish = finish_of(job);
  EXPECT_NEAR(area(finish, job::Tiled::walls, job::Side::back), 71 * (top - seat_back), 1e-6);
  EXPECT_GT(area(finish, job::Tiled::walls, job::Side::left), 14.5 * (top - seat_back));
  EXPECT_NEAR(area(finish, job::Tiled::walls, job::Side::left), area(finish, job::Tiled::walls, job::Side::right),
              1e-6);
}

}  // namespace
}  // namespace fallwright
