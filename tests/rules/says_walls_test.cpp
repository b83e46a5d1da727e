// What each check of pipes, walls and the base as set says when it is broken: number, place, remedy, each worked out by
// hand.
#include "rules/says.hpp"

namespace fallwright::rules {
namespace {

TEST(Says, OfPipesAndLiner) {
  // Source: by hand: 3 in less 2.4 is 0.6, so 5/8; 2x8: a third of its depth is 2-3/8 on the tape, a sixth
  // 1-3/16, both down to its mark.
  expect_said(
      {{"liner.above-threshold",
        [](Job& j, Facts&) { j.liner->above_threshold = Length::inches(2.4); },
        2.4,
        in,
        {},
        {"up by 5/8\" more"}},
       {"liner.above-seat",
        [](Job& j, Facts&) { j.liner->above_seat = Length::inches(2.4); },
        2.4,
        in,
        {},
        {"up by 5/8\" more"},
        "plumbing"},
       {"liner.fall",
        [](Job& j, Facts&) { j.liner->fall = job::Fall::inches_per_foot(0.2); },
        0.2,
        1. / 12,
        {},
        {"pitch it to 1/4 in/ft"}},
       {"joist.hole",
        [](Job& j, Facts&) { j.trap->hole = Length::inches(3); },
        3,
        in,
        {"this joist is 7-1/4\" deep"},
        {"at most 2-3/8\""}},
       {"joist.notch", [](Job& j, Facts&) { j.trap->notch = Length::inches(2); }, 2, in, {}, {"at most 1-3/16\""}},
       {"drain.outlet",
        [](Job&, Facts& f) { f.drain.outlet_mm = 1.25 * in; },
        1.25,
        in,
        {},
        {"an outlet of 1-1/2\""}}});
}

TEST(Says, OfWhatIsFastened) {
  // Source: by hand: an edge 0.4 above the water where 1 is asked lacks 5/8; screws over 8 in: 0.25 in kicks a board by
  // atan(0.25 / 8) = 1.8 degrees; the middle of a band from 4-1/2 to 5-1/2 is 5.
  const auto fixture = [](auto&& put) {
    return [=](Job& j, Facts& f) {
      f.backings = {{"rail", job::Side::left, 900, 1, 0, false, 700, 0, 3},
                    {"grab bar", job::Side::back, 34 * in, 1, 0, false, 700, 0, 0}};
      put(j, f);
    };
  };
  expect_said(
      {{"blocking.behind",
        fixture([](Job&, Facts& f) { f.backings[1].share = 0.7; }),
        0.7,
        1,
        {"least backed: 'grab bar' on the back wall"},
        {"behind 'grab bar' (walls.blocking at 34\")"}},
       {"fixture.above-water",
        fixture([](Job&, Facts& f) { f.backings[1].above_water_mm = 0.4 * in; }),
        0.4,
        in,
        {"'grab bar' on the back wall, above the threshold's"},
        {"by 5/8\""}},
       {"fixture.clear-of-bench",
        fixture([](Job&, Facts& f) { f.backings[1].behind_bench = 0.3, f.backings[1].clear_by_mm = 2.2 * in; }),
        0.3,
        1,
        {"'grab bar' on the back wall lies behind"},
        {"by 2-1/4\" to clear"}},
       {"upstand.held",
        [](Job&, Facts& f) {
          f.holds[2].sure_apart_mm = 20 * in, f.holds[2].from_mm = 3 * in, f.holds[2].to_mm = 23 * in;
        },
        20,
        in,
        {"right upstand, between 3\" and 23\" from its back end, where screws go in over its edge, 5-5/8\" above"},
        {"walls.blocking at 5-5/8\""}},
       {"upstand.held",
        [](Job&, Facts& f) { f.holds[0].sure_apart_mm = 20 * in; },
        20,
        in,
        {"back upstand", "from its left end"},
        {}},
       {"upstand.held",
        [](Job&, Facts& f) { f.holds[1].sure_apart_mm = 20 * in; },
        20,
        in,
        {"left upstand"},
        {"set blocking between the bench's studs behind the left upstand, before"}},
       {"upstand.held",
        [](Job& j, Facts& f) {
          j.bench->frame.spacing = job::Length::inches(24);
          f.holds[1].sure_apart_mm = f.holds[2].sure_apart_mm = 20 * in;
        },
        20,
        in,
        {},
        {"closer, 16\" at most (bench.frame.spacing), and set a row of blocking behind it (walls.blocking at "
         "5-5/8\")"}},
       {"upstand.held",
        [](Job& j, Facts& f) {
          j.bench->frame.spacing = job::Length::inches(24);
          f.holds[1].sure_apart_mm = f.holds[1].length_mm;
        },
        36,
        in,
        {"left upstand"},
        {"set blocking between the bench's studs behind the left upstand, before"}},
       {"upstand.held",
        [](Job&, Facts& f) {
          f.holds[2].sure_apart_mm = 36 * in;
          f.room.corners = {{job::Side::back, job::Side::right, job::Side::right, 60, 60},
                            {job::Side::front, job::Side::right, job::Side::right, 70, 66}};
        },
        36,
        in,
        {"right upstand"},
        {"bring framing out to the right upstand: the wall's studs stand 2-3/8\" behind it, before"}},
       {"upstand.end-held",
        [](Job&, Facts& f) { f.holds[0].ends[0].sure_mm = 9 * in, f.holds[2].ends[1].sure_mm = 10 * in; },
        10,
        in,
        {"from the front end of the right upstand on, where screws go in over its edge, 5-5/8\" above"},
        {"set a stud behind the left end of the back upstand and the front end of the right upstand, or blocking from "
         "the "
         "next stud on to one past that end (walls.blocking at 5-5/8\"), before the board goes on"},
        "residential",
        Outcome::caution},
       {"upstand.end-held",
        [](Job&, Facts& f) { f.holds[1].ends[0].sure_mm = 9 * in; },
        9,
        in,
        {"from the back end of the left upstand on"},
        {"add a stud of 2x4 to the bench's frame within 6\" of the back end of the left upstand, before"},
        "residential",
        Outcome::caution},
       {"upstand.board",
        [](Job&, Facts& f) { f.holds[2].thickness_mm = 0.75 * in, f.holds[1].thickness_mm = 3 * in; },
        0.25,
        in,
        {"3/4\" upstand against a board of 1/2\", along the right wall"},
        {"by 1/4\" from the upstands up (right)", "over the 8\"", "1.8 degrees"},
        "residential",
        Outcome::caution},
       {"wall.furred-flat",  // over a bay longer than the straightedge half of it counts
        [](Job&, Facts& f) {
          f.room.kinks = {{job::Side::left, 0.5 * in, 12 * in, 16 * in, 40 * in, true},
                          {job::Side::right, 1.25 * in, 48 * in, 16 * in, 74 * in, true}};
        },
        0.625,
        in,
        {"right wall's board turns in 1-1/4\" within 48\" at the stud at 16\" from the back corner, 74\" above the "
         "datum"},
        {"fur more what stands back beside the stud at 16\" from the back corner, by 1-1/4\" at the next stud"},
        "residential",
        Outcome::caution},
       {"wall.furred-flat",
        [](Job&, Facts& f) {
          f.room.kinks = {{job::Side::back, 0.25 * in, 16 * in, 31 * in, 40 * in, false}};
        },
        0.25,
        in,
        {"back wall's board turns in 1/4\" within 16\" at the stud at 31\" from its left end"},
        {"fur the stud at 31\" from its left end by 1/4\" more"},
        "residential",
        Outcome::caution},
       {"floor.deck-span",
        [](Job&, Facts& f) {
          f.deck = {true, 0.6 * in, 21 * in, {10 * in, 20 * in, 0}};
        },
        21,
        in,
        {"rated 40/20", "10\" from the left stud face, 20\""},
        {"lay a second deck over it,"}},
       {"floor.deck-span",
        [](Job&, Facts& f) {
          f.deck = {true, 0.375 * in, 16 * in, {}};
        },
        16,
        in,
        {"too thin to be rated"},
        {"of 3/4\" (18 mm)"}},
       {"wall.above-floor",
        [](Job&, Facts& f) { f.finish.top_mm = 72 * in; },
        70,
        in,
        {"floor where that is highest"},
        {"2\" higher"}},
       {"wall.above-drain",
        [](Job&, Facts& f) { f.finish.top_mm = 71 * in; },
        69.5,
        in,
        {"the drain's top"},
        {"1/2\" higher"},
        "plumbing"},
       {"wall.above-room",
        [](Job&, Facts& f) { f.finish.top_mm = 71 * in; },
        70.75,
        in,
        {"bath's finished floor"},
        {"1-1/4\" higher"},
        "accessible"},
       {"upstand.every-wall",
        [](Job&, Facts& f) { f.edges[0].turned = f.edges[2].turned = facts::Turned::rim; },
        2,
        1,
        {"back side and left side, against the bench"},
        {"base.upstands.sides"}},
       {"seat.keeps-frame-dry",
        [](Job&, Facts& f) {
          f.skirt = facts::SeatSkirt{0, {job::Side::back, job::Side::left}};
        },
        3,
        1,
        {"no apron", "along the back and left walls"},
        {"bench.apron_thickness"}}});
}

TEST(Says, OfTheBaseAsSet) {
  // Source: by hand: places 0.3 and 0.1 in above the plane's lowest go down by 5/16 and 1/8; marks are sixteenths.
  const auto set = [](auto&& put) {
    return [=](Job& j, Facts& f) {
      f.room.as_set.points[1].plane_mm = 0.3 * in, f.room.as_set.points[2].plane_mm = 0.1 * in;
      put(j, f);
    };
  };
  expect_said({{"rim.fall-least",
                set([](Job&, Facts& f) { f.room.as_set.falls[1].fall = 0.2 / 12; }),
                0.2,
                1. / 12,
                {"facet 'back'"},
                {"press down: back right 5/16\", front right 1/8\";"}},
               {"rim.fall-greatest",
                set([](Job&, Facts& f) { f.room.as_set.falls[0].fall = 0.6 / 12; }),
                0.6,
                1. / 12,
                {"facet 'left'"},
                {"press down: back right 5/16\""}},
               {"rim.twist",
                [](Job&, Facts& f) { f.room.as_set.twist_mm = 0.25 * in; },
                0.25,
                in,
                {},
                {"if 1/4\" remains"},
                "residential",
                Outcome::caution},
               {"rim.threshold-least",
                set([](Job&, Facts& f) { f.room.as_set.threshold_least_mm = 1.7 * in; }),
                1.7,
                in,
                {"lowest top edge"},
                {"press down"}},
               {"rim.threshold-greatest",
                set([](Job&, Facts& f) { f.room.as_set.threshold_greatest_mm = 9.2 * in; }),
                9.2,
                in,
                {"highest top edge"},
                {"press down"}},
               {"rim.below-upstand",
                set([](Job&, Facts& f) { f.room.as_set.upstand_least_mm = 3.4 * in; }),
                0.8,
                in,
                {"lowest top of the upstands"},
                {"press down"}},
               {"rim.threshold-inward",
                set([](Job&, Facts& f) { f.room.as_set.falls[2].inward = 0.1 / 12; }),
                0.1,
                1. / 12,
                {"inward"},
                {"press down"}}});
}

TEST(Says, MetricJobsInWholeMillimetres) {
  // Source: by hand: 12 mm may be left over of 20; a bore of 127 mm that lacks 3.4 all round is 133.8, so 134; boards
  // of 12.5 mm, screws at 200.
  const auto metric = [](auto&& put) { return [=](Job& j, Facts& f) { j.unit = job::UnitSystem::metric, put(j, f); }; };
  expect_said({{"opening.width",
                metric([](Job&, Facts& f) { f.openings[0].left_over_mm = 20.4; }),
                20.4,
                1,
                {},
                {"fur the studs out by 9 mm"},
                "metric"},
               {"drain.in-bore",
                metric([](Job&, Facts& f) { f.drain.body_to_bore_mm = 2.6; }),
                2.6,
                1,
                {},
                {"bore 134 mm at least"},
                "metric"},
               {"floor.hump",
                metric([](Job&, Facts& f) { f.room.floor.hump_mm = 7.2; }),
                7.2,
                1,
                {},
                {"down by 5 mm"},
                "metric",
                Outcome::caution},
               {"upstand.board",
                metric([](Job& j, Facts& f) {
                  j.survey.board_mm.reset();
                  for (auto& h : f.holds) h.thickness_mm = 20.5;
                }),
                8,
                1,
                {"21 mm upstand against a board of 13 mm"},
                {"by 8 mm", "over the 200 mm", "2.3 degrees"},
                "metric",
                Outcome::caution}});
}

}  // namespace
}  // namespace fallwright::rules
