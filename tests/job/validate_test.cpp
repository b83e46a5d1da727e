#include <functional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/faults.hpp"
#include "job/layout.hpp"
#include "job/validate.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::job {
namespace {

std::string told(const std::function<void(Job&)>& change) {
  Job job = sample::alcove();
  change(job);
  std::string text;
  for (const Contradiction& c : contradictions(job)) text += c.key + ": " + c.message + "\n";
  return text;
}

TEST(Contradictions, TheSampleHasNone) {
  // Source: the sample is built and measured in other tests.
  EXPECT_EQ(told([](Job&) {}), "");
}

TEST(Contradictions, AReadingFromABoardOrAFinishWantsItsDistanceFromTheStuds) {
  // Source: a tape hooked on a board says nothing of the studs behind it.
  using Place = std::optional<survey::Reading> survey::Plan::*;
  const std::pair<const char*, Place> plan[] = {{"back", &survey::Plan::back},
                                                {"front", &survey::Plan::front},
                                                {"left", &survey::Plan::left},
                                                {"right", &survey::Plan::right},
                                                {"diagonal_from_back_left", &survey::Plan::from_back_left},
                                                {"diagonal_from_back_right", &survey::Plan::from_back_right}};
  const auto told_of = [](const std::function<void(Job&)>& change) {
    Job job = sample::alcove();
    change(job);
    std::string text;
    for (const Contradiction& c : survey_contradictions(job)) text += c.key + ": " + c.message + "\n";
    return text;
  };
  for (const auto& [key, place] : plan)
    for (const auto face : {survey::Face::board, survey::Face::finish}) {
      const bool board = face == survey::Face::board;
      const auto read = [&, place = place](Job& j) { j.survey.plan.*place = survey::Reading{1800, 1, face}; };
      const std::string asked = std::string{"survey.plan."} + key + ": was taken from the " +
                                (board ? "board, and survey.board" : "finished wall, and survey.finish");
      EXPECT_THAT(told_of(read), testing::HasSubstr(asked));
      EXPECT_THAT(told_of([&](Job& j) {
                    read(j);
                    (board ? j.survey.board_mm : j.survey.finish_mm) = 12;
                  }),
                  testing::Not(testing::HasSubstr(asked)));
    }
  EXPECT_THAT(told_of([](Job& j) {
                j.survey.widths.push_back({});
                j.survey.widths.back().width = {1800, 1, survey::Face::board};
              }),
              testing::HasSubstr("survey.width: was taken from the board"));
}

TEST(Contradictions, RevisionsAreToldApartAndComeInTheirOrder) {
  // Source: none; one that is looked for by its mark must be one.
  using testing::HasSubstr;
  const auto revised = [](std::vector<Revision> all) { return told([&](Job& j) { j.revisions = std::move(all); }); };
  EXPECT_EQ(revised({{"A", "2026-03-14", "first set"}, {"B", "", "drain"}, {"C", "2026-03-14", "bench"}}), "");
  EXPECT_THAT(revised({{"A", "", "first set"}, {"A", "", "drain"}}), HasSubstr("'A' marks entry 1 already"));
  EXPECT_THAT(revised({{"A", "2026-04-01", "first set"}, {"B", "2026-03-01", "drain"}}),
              HasSubstr("2026-03-01 is before 2026-04-01"));
  EXPECT_EQ(revised({{"ABCDEFGH", "", "first set"}}), "");
  EXPECT_THAT(revised({{"ABCDEFGHI", "", "first set"}}), HasSubstr("8 letters at most"));
}

TEST(Contradictions, BendsOfAnArmFollowEachOther) {
  // Source: arithmetic; one by 90 degrees turns off square.
  using testing::HasSubstr;
  const auto bent = [](std::vector<Bend> bends) {
    return told(
        [&](Job& j) { j.trap.emplace().arm = inches(36), j.trap->to = Side::back, j.trap->bends = std::move(bends); });
  };
  EXPECT_EQ(bent({{90, inches(10), Side::left}, {90, inches(20), Side::front}}), "");
  EXPECT_EQ(bent({{45, {}, {}}, {45, {}, {}}}), "");
  EXPECT_THAT(bent({{90, inches(20), Side::left}, {90, inches(10), Side::front}}),
              HasSubstr("trap.bend.after: bend 2 of the trap arm comes after 10\", before the bend ahead of it"));
  EXPECT_THAT(bent({{90, inches(40), Side::left}}), HasSubstr("past the end of the arm (trap.arm) of 36\""));
  EXPECT_THAT(bent({{90, inches(10), Side::front}}), HasSubstr("turns to the front from an arm that runs to the back"));
  EXPECT_THAT(bent({{45, inches(10), Side::left}}), HasSubstr("turns by 45 degrees: only one by 90"));
}

TEST(Contradictions, JoistsThatAreNotBoredHaveNoHole) {
  // Source: none.
  const auto with_hole = [](std::optional<bool> bored) {
    return told([&](Job& j) { j.floor.joists_bored = bored, j.floor.joist_holes = {{}}; });
  };
  EXPECT_THAT(with_hole(false), testing::HasSubstr("floor.joists.bored: no joist is bored, and 1 hole is given"));
  EXPECT_EQ(with_hole(true), "");
  EXPECT_EQ(with_hole({}), "");
}

TEST(Contradictions, EachIsNamedWithItsNumbers) {
  // Source: arithmetic on the sample: 72 x 36 alcove, 57-1/2 base, 14-1/2 bench, 4 in drain.
  using testing::HasSubstr;
  EXPECT_THAT(told([](Job& j) { j.base.length = inches(60); }),
              HasSubstr("base 60\" + bench 14-1/2\" = 74-1/2\", alcove width is 72\""));
  EXPECT_THAT(told([](Job& j) { j.base.length = inches(57.51); }),
              HasSubstr("= 72\", alcove width is 72\", 0.010\" less"));
  EXPECT_THAT(told([](Job& j) {
                j.bed.bag_yield_m3 = 0.0127;
                j.buy.mix.parts = {1, 0, 5};
              }),
              HasSubstr("mix.parts: the bed comes from bags (bed.bag_yield) or is mixed on site (mix.parts)"));
  EXPECT_THAT(told([](Job& j) {
                j.buy.water_least_mm3 = 3e6;
                j.buy.water_greatest_mm3 = 2e6;
              }),
              HasSubstr("buy.water_least: is more than buy.water_greatest"));
  EXPECT_THAT(told([](Job& j) {
                j.limits = {{"floor_fall_least", 1. / 24, ""}, {"floor_fall_greatest", 1. / 48, ""}};
              }),
              HasSubstr("limits.floor_fall_least: is more than limits.floor_fall_greatest"));
  EXPECT_THAT(told([](Job& j) { j.base.width = inches(37); }),
              HasSubstr("base.width: base 37\", alcove depth is 36\""));
  EXPECT_THAT(told([](Job& j) { j.bench->place = Side::back; }),
              HasSubstr("base 36\" + bench 14-1/2\" = 50-1/2\", alcove depth is 36\""));
  EXPECT_THAT(told([](Job& j) { j.alcove.walls = {Side::back}; }),
              HasSubstr("bench.place: the bench leans on the left wall"));
  EXPECT_THAT(told([](Job& j) { j.drain.across.distance = inches(1); }),
              HasSubstr("the centre may be 2-1/2\" to 55\" from the left edge of the base, found 1\""));
  EXPECT_THAT(told([](Job& j) {
                j.drain.along = {Side::front, inches(4)};
              }),
              HasSubstr("the centre may be 6\" to 33-1/2\" from the front edge"));
  EXPECT_THAT(told([](Job& j) { j.drain.body = inches(4); }),
              HasSubstr("a body of 4\" does not pass an opening of 4\""));
  EXPECT_THAT(
      told([](Job& j) { j.trap.emplace().pipe = inches(2.25); }),
      HasSubstr("trap.pipe: no drain pipe is sold as 2-1/4\"; sizes are 1-1/4 in, 1-1/2 in, 2 in, 3 in, 4 in, DN 32"));
  EXPECT_EQ(told([](Job& j) { j.trap.emplace().pipe = Length::mm(50); }), "");
  EXPECT_THAT(told([](Job& j) { j.drain.outlet = inches(4); }),
              HasSubstr("an outlet of 4\" leaves no wall in a body of 3-1/4\""));
  EXPECT_THAT(told([](Job& j) { j.drain.recess = inches(1); }), HasSubstr("leaves 0\" of base under it"));
  EXPECT_THAT(told([](Job& j) { j.drain.body_depth = inches(0.25); }), HasSubstr("above its ledge at 3/8\""));
  EXPECT_THAT(told([](Job& j) { j.drain.bore = inches(40); }), HasSubstr("reaches past the bed's edge"));
  EXPECT_THAT(told([](Job& j) { j.base.threshold.height = inches(0.5); }),
              HasSubstr("the threshold must stand above the rim"));
  // By hand: over a rim of 1/2 a tape's sixteenths tell 17/32 as 9/16; it is 1/32 above, and a millimetre is 0.0394.
  const auto low = [](Job& j) { j.base.rise = inches(0.5), j.base.threshold.height = inches(17. / 32); };
  EXPECT_THAT(told(low), HasSubstr("by 0.031\" now; at least 0.040\" is needed"));
  EXPECT_EQ(told([](Job& j) { j.base.rise = inches(0.5), j.base.threshold.height = Length::mm(13.7); }), "")
      << "at the limit is inside";
  EXPECT_THAT(told([](Job& j) { j.base.threshold.finish = inches(2.5); }),
              HasSubstr("base.threshold.finish: 2-1/2\" is laid on a threshold that is 2-1/2\" above the drain"));
  EXPECT_EQ(told([](Job& j) { j.base.threshold.finish = inches(2.4375); }), "");
  EXPECT_THAT(told([](Job& j) { j.base.upstand_height = inches(0.25); }), HasSubstr("they must stand above the rim"));
  EXPECT_THAT(told([](Job& j) { j.base.upstands.push_back(Side::front); }),
              HasSubstr("the front has a threshold already"));
  EXPECT_THAT(told([](Job& j) { j.base.ribs.columns = 200; }),
              HasSubstr("200 pockets between 1/2\" ribs over a length of 57-1/2\" leave 0\" each"));
  EXPECT_THAT(told([](Job& j) { j.base.pattern = FallPattern::to_line; }),
              HasSubstr("to-line needs a channel from rim to rim"));
  EXPECT_THAT(told([](Job& j) { j.floor.joist_spacing = inches(1.25); }),
              HasSubstr("joists 1-1/2\" thick cannot stand 1-1/4\" apart"));
  EXPECT_THAT(told([](Job& j) { j.walls.spacing = inches(1); }),
              HasSubstr("studs 1-1/2\" wide cannot stand 1\" apart"));
  EXPECT_THAT(told([](Job& j) { j.walls.blocking = {inches(95)}; }), HasSubstr("does not fit below the top plate"));
  EXPECT_THAT(told([](Job& j) {
                j.walls.blocking = {inches(34), inches(6), inches(9)};
              }),
              HasSubstr("walls.blocking: rows at 6\" and 9\" lie over one another: a row is 3-1/2\" high"));
  EXPECT_THAT(told([](Job& j) {
                for (int i = 0; i < 13; ++i) j.walls.blocking.push_back(inches(6 + 4 * i));
              }),
              HasSubstr("rows; at most 12 are modelled"));
  EXPECT_THAT(told([](Job& j) { j.survey.spots.resize(1001); }), HasSubstr("1001 spot levels; at most 1000"));
  EXPECT_THAT(told([](Job& j) { j.survey.plumbs.resize(101); }), HasSubstr("101 places were plumbed; at most 100"));
  EXPECT_THAT(told([](Job& j) { j.floor.drop_along_depth = inches(3); }), HasSubstr("steeper than 1:20"));
  EXPECT_THAT(told([](Job& j) { j.bench->height = inches(10); }),
              HasSubstr("leave studs of 1-1/2\" under a seat at 10\""));
  EXPECT_THAT(told([](Job& j) { j.base.upstand_height = inches(20); }), HasSubstr("above the underside of the seat"));
  EXPECT_THAT(told([](Job& j) { j.bed.gauge_depth = inches(0.25); }), HasSubstr("below the rib plane at 1/2\""));
  EXPECT_THAT(told([](Job& j) { j.bench->frame.kind = FrameKind::steel; }), HasSubstr("2x4 is no steel stud"));
}

TEST(Contradictions, AShellStaysTwoMillimetresBelowTheTopsOfItsEdges) {
  // Source: our own: 2 mm of material stay between a shell's underside and an edge's top. By hand: what the top is
  // lowered by is what its shell comes nearer to it.
  const auto lowered_to = [](double left_mm) {
    return [left_mm](Job& j) {
      j.base.underside = Underside::shell, j.base.shell = inches(1.0 / 8), j.base.threshold.width = inches(10);
      const Layout at = lay_out(j);
      const survey::Point front = at.base_outline.corners().front();
      const double under = at.floor_at(front.x, front.y) - j.base.shell.in_mm();
      const double top = std::min(at.threshold_inner, at.threshold_outer);
      j.base.threshold.height = units::Length::mm(j.base.threshold.height.in_mm() + under + left_mm - top);
    };
  };
  const auto refused = [](const std::string& inches) {
    return testing::HasSubstr("rises too near to the top of the threshold; " + inches + " more is needed between them");
  };
  EXPECT_THAT(told(lowered_to(2.1)), testing::Not(testing::HasSubstr("of the threshold;")));
  EXPECT_THAT(told(lowered_to(1.9)), refused("1/16\""));
  EXPECT_THAT(told(lowered_to(0.2)), refused("1/8\""));  // 1.8 mm, up to the next mark
}

/// A bonded base on site, 52 by 40 in beside a bench, with a drain 9-1/2 in from the entry.
std::string site_built_beside_bench(const std::string& unit, bool mirrored, const std::string& width,
                                    const std::string& cover) {
  return "[job]\nname = \"a\"\nunit = \"" + unit +
         "\"\n[alcove]\nwidth = \"66 in\"\ndepth = \"40 in\"\n[base]\nkind = \"site-built\"\n"
         "waterproofing = \"bonded\"\nfall = \"1/4 in/ft\"\ncover = \"" +
         cover + "\"\n[base.threshold]\nwidth = \"" + width +
         "\"\nheight = \"2 in\"\n[drain]\nopening = \"round\"\nsize = \"3 in\"\nbody = \"2-1/2 in\"\n" +
         (mirrored ? "from_right" : "from_left") +
         " = \"26 in\"\nfrom_front = \"9-1/2 in\"\nrecess = \"1/16 in\"\n[bed]\nleast = \"1 in\"\n[bench]\nplace = \"" +
         (mirrored ? "left-end" : "right-end") + "\"\ndepth = \"14 in\"\nheight = \"18 in\"\n";
}

TEST(Contradictions, UnderAnApronBesideAThresholdTheWaterproofingStaysBelowTheRim) {
  // Source: by hand: the longest run, 30-1/2 in, rises 0.635 in; so does the front one, 3-1/2 in, and 1.089 in more
  // over the 6 in of the threshold. A cover of 1/2 in lacks 0.589 and the 2 mm that stay: 0.668 in. Under a threshold
  // of w it is 0.635 w / (9.5 - w) <= 0.421 in: w is 3.787 in at most.
  using testing::HasSubstr;
  for (const bool mirrored : {false, true}) {
    const auto told_of = [&](const char* unit, const char* width, const char* cover) {
      std::string text;
      for (const diag::Fault& f : faults_of(site_built_beside_bench(unit, mirrored, width, cover)))
        text += f.message + "\n";
      return text;
    };
    EXPECT_THAT(told_of("in", "6 in", "1/2 in"),
                HasSubstr("past that; 11/16\" more is needed between them: make the threshold narrower "
                          "(base.threshold.width), 3-3/4\" at most, move the drain farther from the entry "
                          "(drain.from_front), or"));
    EXPECT_THAT(told_of("mm", "6 in", "1/2 in"), HasSubstr("17 mm more is needed"));
    EXPECT_THAT(told_of("mm", "6 in", "1/2 in"), HasSubstr("96 mm at most"));
    EXPECT_THAT(told_of("in", "3-13/16 in", "1/2 in"), HasSubstr("1/16\" more is needed"));
    EXPECT_EQ(told_of("in", "3-3/4 in", "1/2 in"), "");
    EXPECT_EQ(told_of("mm", "96 mm", "1/2 in"), "");
    EXPECT_EQ(told_of("in", "6 in", "1-3/16 in"), "") << "thicker by what lacks";
  }
}

TEST(Contradictions, UpstandsLowerThanTheThresholdStayAboveTheShellBesideIt) {
  // Source: by hand, as for the threshold: the same 2 mm, at whichever corner an upstand runs to.
  for (const Side side : {Side::left, Side::right}) {
    const auto lowered_to = [side](double left_mm) {
      return [left_mm, side](Job& j) {
        j.bench.reset(), j.base.upstands = {side};
        j.base.underside = Underside::shell, j.base.shell = inches(1.0 / 8), j.base.threshold.width = inches(10);
        j.base.threshold.height = inches(6);
        const Layout at = lay_out(j);
        const survey::Point front = at.base_outline.corners()[side == Side::left ? 0 : 1];
        const double under = at.floor_at(front.x, front.y) - j.base.shell.in_mm();
        j.base.upstand_height = Length::mm(under + left_mm - at.drain_top);
      };
    };
    const auto refused = testing::HasSubstr("base.upstands.height: the shell's underside rises too near to the top of");
    EXPECT_THAT(told(lowered_to(2.1)), testing::Not(refused)) << name_of(side);
    EXPECT_THAT(told(lowered_to(1.9)), refused) << name_of(side);
  }
}

TEST(Contradictions, AFixtureHangsOnItsWall) {
  // Source: by hand: a plate 3 by 3 on a side wall 36 long and 96 high has its middle 1-1/2 to 34-1/2 along and 1-1/2
  // to 94-1/2 up; the same on the back wall, 72 long.
  using testing::HasSubstr;
  const auto at = [](Side side, double along, double height, double wide = 3) {
    return told([&](Job& j) {
      j.alcove.height = inches(96);
      j.fixtures = {{"shelf", side, inches(along), inches(height), inches(wide), inches(3)}};
    });
  };
  for (const Side side : {Side::left, Side::right, Side::back}) {
    const double end = side == Side::back ? 72 : 36;
    for (const double along : {1.5, end - 1.5}) EXPECT_EQ(at(side, along, 34), "");
    for (const double height : {1.5, 94.5}) EXPECT_EQ(at(side, 20, height), "");
    for (const double along : {1.375, end - 1.375, 80.})
      EXPECT_THAT(at(side, along, 34), HasSubstr("fixture[0].along: the plate of 'shelf', 3\" wide")) << along;
    for (const double height : {1.375, 94.625, 110.})
      EXPECT_THAT(at(side, 20, height), HasSubstr("fixture[0].height: the plate of 'shelf', 3\" tall")) << height;
  }
  EXPECT_THAT(at(Side::right, 80, 34),
              HasSubstr("its middle may be 1-1/2\" to 34-1/2\" from the back wall's stud face, less what strips take "
                        "that bring a wall out there, found 80\""));
  EXPECT_THAT(at(Side::back, 80, 34),
              HasSubstr("its middle may be 1-1/2\" to 70-1/2\" from the left wall's stud face"));
  EXPECT_THAT(told([](Job& j) {
                j.survey.finish_mm = 25.4;
                j.fixtures = {{"shelf", Side::back, inches(80), inches(34), inches(3), inches(3)}};
              }),
              HasSubstr("its middle may be 2-1/2\" to 69-1/2\" from the left wall's stud face"))
      << "clear of tile in the corners";
  EXPECT_THAT(at(Side::right, 18, 34, 40), HasSubstr("none so large is on that wall"));
  EXPECT_THAT(told([](Job& j) {
                j.bench.reset(), j.alcove.walls = {Side::back};
                j.fixtures = {{"shelf", Side::right, inches(18), inches(34), inches(3), inches(3)}};
              }),
              HasSubstr("fixture[0].wall: there is no right wall"));
}

TEST(Contradictions, AFinishedWallStandsBeforeItsBoard) {
  // Source: docs/job-file.md: survey.finish is board, bond coat and tile.
  const auto told_of = [](double finish_mm) {
    return told([&](Job& j) { j.survey.board_mm = 12.7, j.survey.finish_mm = finish_mm; });
  };
  EXPECT_THAT(told_of(9.5),
              testing::HasSubstr("survey.finish: the finished wall stands 3/8\" before the studs, and the "
                                 "board alone is 1/2\" thick (survey.board)"));
  EXPECT_EQ(told_of(12.7), "");
}

TEST(Contradictions, AWidthIsReadBetweenItsWalls) {
  // Source: by hand: side walls 36 in long and 96 high.
  const auto told_of = [](double from_back, double height) {
    return told([&](Job& j) {
      j.alcove.height = inches(96);
      survey::Width width;
      width.from_back_mm = from_back * 25.4, width.height_mm = height * 25.4, width.width = {1828.8, 1.6};
      j.survey.widths = {width};
    });
  };
  EXPECT_EQ(told_of(36, 96), "");
  EXPECT_THAT(told_of(80, 48), testing::HasSubstr("survey.width[0].from_back: lies past the entry: found 80\", and the "
                                                  "room is 36\" deep"));
  EXPECT_THAT(told_of(18, 120),
              testing::HasSubstr("survey.width[0].height: lies above the walls: found 120\", and they "
                                 "are 96\" high"));
}

TEST(Contradictions, AHubsStopLiesNoDeeperThanATrapHoldsWater) {
  // Source: IRC P3201.2, from memory: a seal of 4 in at most, from the weir down.
  const auto told_of = [](double hub) {
    return told([&](Job& j) { j.trap.emplace().hub = inches(hub), j.trap->weir = inches(-7.25); });
  };
  EXPECT_EQ(told_of(-6), "");
  EXPECT_EQ(told_of(-11.25), "");
  EXPECT_THAT(told_of(-12), testing::HasSubstr("trap.hub: a stop in the hub at -12\" is 4-3/4\" below the trap's weir "
                                               "at -7-1/4\" (trap.weir); at most 4\""));
}

TEST(Contradictions, AnEdgeBelowTheRimIsToldByHowMuchItRises) {
  // Source: by hand: a rim of 1/2 in, a threshold of 1/4: 1/4 and a millimetre more, 0.289, on the tape 5/16.
  EXPECT_THAT(told([](Job& j) { j.base.rise = inches(0.5), j.base.threshold.height = inches(0.25); }),
              testing::HasSubstr("the threshold must stand above the rim: 5/16\" higher at least"));
  EXPECT_EQ(told([](Job& j) { j.base.rise = inches(0.5), j.base.threshold.height = inches(0.5625); }), "");
}

TEST(Contradictions, ASeatThatFallsAwayKeepsItsThicknessAtTheWall) {
  // Source: by hand: a seat of 1-1/4 in over 14-1/2 in keeps 0.04 in at the wall falling 1:12, and 0.52 falling 1:20.
  const auto falling = [](double in) { return [in](Job& j) { j.bench->seat_fall = Fall::one_in(-in); }; };
  EXPECT_THAT(told(falling(11.6)),
              testing::HasSubstr("falling away from the base the seat runs out of thickness at the wall"));
  EXPECT_EQ(told(falling(20)), "");
}

TEST(Contradictions, ReadingsOfABaseStandRoundIt) {
  // Source: by hand: three places in a line leave open which way the base tips, whichever side they stand on.
  using P = RimPoint;
  const auto read_at = [](std::array<P, 3> points) {
    Job job = sample::alcove();
    for (const P point : points) job.as_set.readings.push_back({point, inches(1)});
    std::string text;
    for (const Contradiction& c : survey_contradictions(job)) text += c.message + "\n";
    return text;
  };
  const auto refused = testing::HasSubstr("all three readings lie on one side; read another corner as well");
  for (const std::array<P, 3>& side : {std::array{P::back_left, P::back, P::back_right},
                                       {P::front_left, P::front, P::front_right},
                                       {P::back_left, P::left, P::front_left},
                                       {P::back_right, P::right, P::front_right}})
    EXPECT_THAT(read_at(side), refused);
  for (const std::array<P, 3>& round : {std::array{P::back_left, P::left, P::front_right},
                                        {P::back_right, P::left, P::front_left},
                                        {P::back, P::right, P::front_right}})
    EXPECT_THAT(read_at(round), testing::Not(refused));
}

TEST(Contradictions, ReadingsOfABaseThatLieInOneLineNameACornerToRead) {
  // Source: by hand: a line from side to side, or from corner to corner, is one whether rim, upstand or threshold is
  // read on it. A threshold of 8 in on a base of 57-1/2 by 36: its right end, the rim's front and its left lie within
  // 2-3/4 in of one line; one of 4 in, within 4-1/2.
  using P = RimPoint;
  const auto read_at = [](std::vector<RimReading> readings, double threshold_in = 4) {
    Job job = sample::alcove();
    job.base.threshold.width = inches(threshold_in);
    job.as_set.readings = std::move(readings);
    std::string text;
    for (const Contradiction& c : survey_contradictions(job)) text += c.key + ": " + c.message + "\n";
    return text;
  };
  const auto on = [](P point, ReadOn what = ReadOn::rim) { return RimReading{point, inches(1), what}; };
  const auto threshold = ReadOn::threshold, upstands = ReadOn::upstands;
  EXPECT_EQ(read_at({on(P::front), on(P::back), on(P::front, threshold)}),
            "as_set: all three readings lie in one line; read a corner as well, the front left\n");
  EXPECT_EQ(read_at({on(P::front), on(P::back), on(P::front, threshold), on(P::back, upstands)}),
            "as_set: all 4 readings lie in one line; read a corner as well, the front left\n");
  const auto in_line = testing::HasSubstr("readings lie in one line; read a corner as well, the ");
  EXPECT_THAT(read_at({on(P::left), on(P::right), on(P::left, upstands)}), in_line);
  EXPECT_THAT(read_at({on(P::left), on(P::right), on(P::right, upstands)}), in_line);
  EXPECT_THAT(read_at({on(P::back_left), on(P::front_right), on(P::back_left, upstands)}),
              testing::HasSubstr("the front left"));
  EXPECT_THAT(read_at({on(P::back_right), on(P::front_left), on(P::back_right, upstands)}),
              testing::HasSubstr("the front right"));
  for (const bool left : {true, false}) {
    const std::vector<RimReading> thin{on(left ? P::left : P::right), on(P::front),
                                       on(left ? P::front_right : P::front_left, threshold)};
    EXPECT_THAT(read_at(thin, 8), in_line) << left;
    EXPECT_EQ(read_at(thin), "") << left;
  }
  EXPECT_EQ(read_at({on(P::back_left, upstands), on(P::back_right, upstands), on(P::front, threshold)}), "");
}

TEST(Contradictions, ATrapLiesBelowItsDrain) {
  // Source: common practice, no source: water falls from a drain into its trap. By the sample: the drain's top and
  // body.
  const Job sample = sample::alcove();
  const double lowest = lay_out(sample).drain_top - sample.drain.body_depth.in_mm();
  for (const bool hub : {true, false})
    for (const double off : {0.1, 0.0, -0.1}) {
      const std::string text = told([&](Job& j) {
        j.trap.emplace();
        (hub ? j.trap->hub : j.trap->weir) = Length::mm(lowest + off);
      });
      EXPECT_EQ(text.find(hub ? "trap.hub: a stop in the hub at" : "trap.weir: a weir at") == 0, off >= 0) << text;
    }
}

TEST(Contradictions, ABoreThatTouchesTheBedsEdgeReachesPastItOnEverySide) {
  // Source: property: a circle that touches an edge leaves a cusp, whichever edge it is.
  for (const Side side : {Side::left, Side::right}) {
    const std::string text = told([&](Job& j) {
      j.drain.across = {side, j.bed.holdback + Length::mm(80)};
      j.drain.bore = Length::mm(160), j.bed.collar = {};
    });
    EXPECT_THAT(text, testing::HasSubstr("reaches past the bed's edge")) << name_of(side);
  }
}

}  // namespace
}  // namespace fallwright::job
