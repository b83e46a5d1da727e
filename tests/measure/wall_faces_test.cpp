// Where a wall's face goes on past the last stud before an end of the base, and a base that is no rectangle.
#include "measure/wall_faces.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "job/read.hpp"
#include "measure/alcove.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

using job::Side;

/// A bench 10 in deep at one end of the 72 in, the base 62 in beside it, and a back wall that comes in by 1 in 48 at
/// the bench's end and stands plumb at the other.
parts::Model twisted(Side bench) {
  job::Job j = sample::alcove();
  j.bench->place = bench, j.bench->depth = job::Length::inches(10);
  j.base.length = job::Length::inches(61);
  j.base.width = job::Length::inches(34);
  const bool left = bench == Side::left;
  for (const double along : {0., 72.})
    j.survey.plumbs.push_back(
        {Side::back, along * in, {(along == 0) == left ? in : 0., 1.6, survey::Face::stud, 0}, 48 * in});
  return *parts::build(j);
}

TEST(WallFaces, GoOnPastTheLastStudBeforeTheBasesEnd) {
  // Source: closed form: between plumb and 1 in 48 over 72 in the wall leans in by 1/48 x (72 - x) / 72 at x from the
  // bench's end. The base's end there stands between two studs of a spacing: on a board that runs straight from one to
  // the other it leans as the wall does, at its own place: each stud leans as the wall does at its middle, so that it
  // is off by half its thickness of twist at most. Of a room and its mirror alike.
  double reach[2] = {};
  constexpr double half_stud_mm = 0.75 / 48 / 72 * 70 * in;
  for (const Side bench : {Side::left, Side::right}) {
    const parts::Model model = twisted(bench);
    const Framing framing{model};
    const survey::Rect base = *plan_of(model, parts::Role::base);
    const double end = bench == Side::left ? base.x0 : base.x1, off = bench == Side::left ? end : 72 * in - end;
    ASSERT_GT(off, 9 * in);
    const double low = 10 * in, high = 70 * in, lean = 1. / 48 * (72 * in - off) / (72 * in);
    const auto faces = wall_faces(model, framing, low, high, 0);
    const auto back = std::find_if(faces.begin(), faces.end(), [](const WallFace& f) { return f.side == Side::back; });
    ASSERT_NE(back, faces.end());
    EXPECT_NEAR(back->at(end), 36 * in - lean * high, half_stud_mm) << name_of(bench);
    reach[bench == Side::left ? 0 : 1] = back->at(end);
  }
  EXPECT_NEAR(reach[0], reach[1], 2 * half_stud_mm);
}

TEST(BaseCorners, AreThoseOfItsOutlineWhereItFillsARoomOutOfSquare) {
  // Source: by hand: mortar is poured to the walls, so that no corner stands off any; the box round it is 1/2 in wider
  // than its back.
  const job::Job job = job::read(
      "[job]\nname = \"x\"\nunit = \"in\"\n[floor]\nkind = \"slab\"\n[survey]\ntolerance = \"1/16 in\"\n"
      "[survey.plan]\nback = 60.25\nfront = 60.75\nleft = 54\nright = 54.125\ndiagonal_from_back_left = "
      "81.25\n[base]\nkind = \"site-built\"\npattern = \"equal-fall\"\nfall = \"1/4 in/ft\"\ncover = 1.5\n"
      "[base.threshold]\nwidth = 0\n[bed]\nleast = 1\n[bench]\nplace = \"back\"\ndepth = 14\nheight = 18\n"
      "[drain]\nsize = 4.25\nfrom_left = 30\nfrom_back = 19\nbody = 3.25\nbore = 5\n",
      "x.toml");
  const auto model = parts::build(job);
  const facts::Facts facts = measure(*model);
  ASSERT_EQ(facts.room.corners.size(), 4u) << "the bench stands at the back";
  for (const facts::CornerGap& c : facts.room.corners) EXPECT_NEAR(c.at_floor_mm, 0, 0.05) << c.name();
}

TEST(SetOut, BetweenFacingWallsTheBoreIsToldFromTheEntry) {
  // Source: by hand: the bore's middle is 36 - 16-1/4 in behind the entry of an alcove 36 in deep; a room with a back
  // wall is measured from that.
  job::Job job = sample::alcove();
  const auto from_entry = [&]() -> std::optional<double> {
    const auto model = parts::build(job);
    for (const facts::Mark& m : measure(*model).room.set_out)
      if (m.name == "bore centre from the entry") return m.mm / in;
    return std::nullopt;
  };
  EXPECT_FALSE(from_entry());
  job.alcove.walls = {Side::left, Side::right};
  const auto model = parts::build(job);
  const auto drain = parts::box_of(*model->first(parts::Role::drain));
  ASSERT_TRUE(from_entry());
  EXPECT_NEAR(*from_entry(), (drain[1] + drain[4]) / 2 / in, 1e-6);
  EXPECT_NEAR(*from_entry(), 36 - 16.25, 1);
}

}  // namespace
}  // namespace fallwright::measure
