// What each check of heights, falls and free floor says when it is broken: number, place, remedy, each worked out by
// hand.
#include "rules/good_facts.hpp"
#include "rules/says.hpp"

namespace fallwright::rules {
namespace {

TEST(Says, OfHeightsAtTheEntry) {
  // Source: by hand, from a threshold of 2-1/2 and upstands of 4 in the job file, the drain at 1-1/2. What is raised
  // goes up to a sixteenth, what is lowered down to one: a threshold at 3.2 is 1.7 above the drain and lacks
  // 0.3: 2.8 is 2-13/16, an upstand there 4.3 is 4-5/16; at 10.7 it is 9.2, 0.2 too much: 2.3 is 2-1/4. Upstands 0.6
  // above a threshold of 4.1 lack 0.4: 4.4 is 4-7/16, 2.1 is 2-1/16. A bath floor at 4.2 lies 0.2 above the threshold's
  // lowest: 2.7 is 2-3/4; a step of 0.7 is 0.2 too high: 2.3 again.
  expect_said({{"threshold.height-least",
                [](Job&, Facts& f) { f.heights.threshold_least_mm = 3.2 * in; },
                1.7,
                in,
                {"threshold's lowest top edge"},
                {"raise the threshold to 2-13/16\" above the drain (base.threshold.height)"}},
               {"threshold.height-least",
                [](Job&, Facts& f) { raise_edge(f, 3, facts::Turned::upstand, 3.2); },
                1.7,
                in,
                {"lowest top of the right edge", "(an upstand)"},
                {"raise the upstands to 4-5/16\" above the drain (base.upstands.height)"}},
               {"threshold.height-least",
                [](Job&, Facts& f) { raise_edge(f, 3, facts::Turned::rim, 2); },
                0.5,
                in,
                {"nothing turns up"},
                {"turn the right edge up"}},
               {"threshold.height-least",
                [](Job& j, Facts& f) {
                  raise_edge(f, 3, facts::Turned::rim, 2);
                  j.base.kind = job::BaseKind::site_built, j.alcove.walls = {job::Side::back, job::Side::left};
                },
                0.5,
                in,
                {"nothing turns up"},
                {"close the right side with a wall", "alcove.walls"}},
               {"threshold.height-least",
                [](Job& j, Facts& f) {
                  j.base.made = job::Made::bought;
                  f.heights.threshold_least_mm = 3.2 * in;
                },
                1.7,
                in,
                {},
                {"2\" above its drain at least"}},
               {"threshold.height-greatest",
                [](Job&, Facts& f) { f.heights.threshold_greatest_mm = 10.7 * in; },
                9.2,
                in,
                {},
                {"lower the threshold to 2-1/4\" above the drain at its inner edge (base.threshold.height)"}},
               {"threshold.height-greatest",
                [](Job& j, Facts& f) {
                  j.base.made = job::Made::bought;
                  f.heights.threshold_greatest_mm = 10.7 * in;
                },
                9.2,
                in,
                {},
                {"9\" above its drain at most"}},
               {"threshold.below-upstand",
                [](Job&, Facts& f) { f.heights.upstand_top_mm = 4.7 * in; },
                0.6,
                in,
                {},
                {"raise the upstands to 4-7/16\" above the drain (base.upstands.height)",
                 "or lower the threshold to 2-1/16\" above the drain at its inner edge"}},
               {"threshold.below-upstand",
                [](Job& j, Facts& f) {
                  j.base.made = job::Made::bought;
                  f.heights.upstand_top_mm = 4.7 * in;
                },
                0.6,
                in,
                {},
                {"carry the waterproofing", "7/16\" more"}},
               {"threshold.above-outside",
                [](Job&, Facts& f) { f.heights.outside = sample::level_at(4.2 * in); },
                -0.2,
                in,
                {"threshold's lowest top edge"},
                {"raise the threshold to 2-3/4\" above the drain (base.threshold.height)",
                 "or lower the bath's floor in front of the entry by 1/4\""}},
               {"threshold.step-inside",
                [](Job&, Facts& f) { f.heights.floor_at_threshold_mm = 3.4 * in; },
                0.7,
                in,
                {},
                {"lower the threshold to 2-1/4\" above the drain at its inner edge (base.threshold.height)"},
                "accessible"},
               {"threshold.step-outside",
                [](Job&, Facts& f) { f.heights.outside = sample::level_at(3.4 * in); },
                0.7,
                in,
                {"threshold's highest top edge above"},
                {"raise the bath's floor in front of the entry by 1/4\""},
                "accessible"},
               {"threshold.step-outside",
                [](Job&, Facts& f) { f.heights.outside = sample::level_at(4.8 * in); },
                0.8,
                in,
                {"above the threshold's lowest top edge"},
                {"by 5/16\""},
                "accessible"},
               // A bath floor that falls along the entry is met at the end where it lies worse.
               {"threshold.above-outside",
                [](Job&, Facts& f) {
                  f.heights.outside = facts::Levels{3.9 * in, 4.2 * in};
                },
                -0.2,
                in,
                {"threshold's lowest top edge"},
                {"or lower the bath's floor in front of the entry by 1/4\""}},
               {"threshold.step-outside",
                [](Job&, Facts& f) {
                  f.heights.outside = facts::Levels{3.4 * in, 3.8 * in};
                },
                0.7,
                in,
                {"threshold's highest top edge above"},
                {"raise the bath's floor in front of the entry by 1/4\""},
                "accessible"},
               {"threshold.step-outside",
                [](Job&, Facts& f) {
                  f.heights.outside = facts::Levels{4 * in, 4.8 * in};
                },
                0.8,
                in,
                {"above the threshold's lowest top edge"},
                {"by 5/16\""},
                "accessible"},
               {"entry.step",
                [](Job& j, Facts& f) {
                  j.base.threshold = {};
                  raise_edge(f, 1, facts::Turned::rim, 1);
                  f.heights.outside = facts::Levels{0, 0.25 * in};
                },
                1,
                in,
                {"front edge of the base above the bath's"},
                {"raise the bath's floor in front of the entry by 1/2\""},
                "accessible"},
               {"entry.step",
                [](Job& j, Facts& f) {
                  j.base.threshold = {};
                  raise_edge(f, 1, facts::Turned::rim, 1);
                  f.heights.outside = facts::Levels{0, 1.25 * in};
                },
                1,
                in,
                {"front edge of the base above the bath's"},
                {"its open edges differ by 1-1/4\" in height against the bath's floor before them"},
                "accessible"},
               {"entry.step",
                [](Job& j, Facts& f) {
                  j.base.threshold = {};
                  raise_edge(f, 1, facts::Turned::rim, 1);
                },
                0.75,
                in,
                {"front edge of the base above the bath's"},
                {"raise the bath's floor in front of the entry by 1/4\""},
                "accessible"},
               {"entry.step",
                [](Job& j, Facts& f) {
                  j.base.threshold = {};
                  raise_edge(f, 1, facts::Turned::rim, -0.6);
                },
                0.85,
                in,
                {"front edge of the base below the bath's"},
                {"raise the base by 3/8\""},
                "accessible"}});
}

TEST(Says, OfAnUpstandAcrossTheEntry) {
  // Source: by hand: upstands of 4 in on all sides in place of a threshold, the drain at 1-1/2. One at 3.2 across the
  // entry stands 1.7 above the drain and lacks 0.3: 4.3 is 4-5/16. None stands above it by the inch that it is to be
  // lower: where all turn up alike no height mends that.
  const auto across = [](Job& j, Facts& f, double inches) {
    j.base.threshold = {};
    j.base.upstands = {job::Side::back, job::Side::front, job::Side::left, job::Side::right};
    f.heights.threshold_least_mm = f.heights.threshold_greatest_mm = std::nullopt;
    for (facts::Edge& edge : f.edges)
      if (edge.side == job::Side::front)
        edge.turned = facts::Turned::upstand, edge.top_mm = edge.top_greatest_mm = inches * in;
    f.heights.upstand_top_mm = 5.5 * in;
  };
  expect_said({{"threshold.height-least",
                [&](Job& j, Facts& f) { across(j, f, 3.2); },
                1.7,
                in,
                {"above the drain's top"},
                {"raise the upstands to 4-5/16\" above the drain (base.upstands.height)"}},
               {"threshold.below-upstand",
                [&](Job& j, Facts& f) { across(j, f, 5.5); },
                0,
                in,
                {"upstands' top above the threshold's highest edge"},
                {"give the base a threshold in place of the upstand across its entry"}}});
}

TEST(Says, OfFalls) {
  // Source: by hand: the facet of least, of greatest fall, its run, its lowest place.
  expect_said({{"floor.fall-least",
                [](Job&, Facts& f) {
                  f.facets[2].fall = 0.2 / 12, f.facets[2].low_mm = {10 * in, 20 * in, 0};
                },
                0.2,
                1. / 12,
                {"facet 'left', run 26-1/4\"", "10\" from the left stud face, 20\" from the entry"},
                {}},
               {"floor.fall-greatest",
                [](Job&, Facts& f) { f.facets[0].fall = 0.6 / 12; },
                0.6,
                1. / 12,
                {"facet 'back', run 13-3/4\""},
                {}},
               {"seat.fall-least",
                [](Job&, Facts& f) { f.facets[5].fall = 0.1 / 12; },
                0.1,
                1. / 12,
                {"toward the base"},
                {"at least 1/8 in/ft"}},
               {"seat.fall-least",
                [](Job&, Facts& f) {
                  f.facets[5].fall = 0.3 / 12, f.facets[5].flow = {0.28, 0.96, 0};
                },
                0.084,
                1. / 12,
                {},
                {}},
               {"seat.fall-greatest",
                [](Job&, Facts& f) {
                  f.facets[5].fall = 0.6 / 12, f.facets[5].flow = {0, 1, 0};
                },
                0.6,
                1. / 12,
                {"along its fall"},
                {"at most 1/2 in/ft"}},
               {"threshold.falls-inward",
                [](Job&, Facts& f) { f.facets[4].fall = 0.1 / 12; },
                0.1,
                1. / 12,
                {"inward"},
                {"at least 1/8 in/ft"}},
               {"floor.drains",
                [](Job&, Facts& f) {
                  f.drainage[0] = {facts::Surface::base_floor, false, 3, {10 * in, 20 * in, 0}, {"left", "back"}};
                },
                3,
                1,
                {"on facet 'left', 'back', deepest at 10\" from the left stud face, 20\""},
                {"every corner has a way down"}}});
}

TEST(Says, OfTheRoomInside) {
  // Source: by hand: 29.4 of 30 lacks 5/8, 21.9 of 22 1/8; a compartment of 37 in where 36-1/2 may be has 1/2 too much,
  // of 35.1 lacks 7/16 of 35-1/2.
  expect_said({{"clear.area",
                [](Job&, Facts& f) { f.clear.finished->area_mm2 = 800 * in * in; },
                800,
                in * in,
                {"between finished walls and threshold"},
                {"900 in2"}},
               {"clear.width",
                [](Job&, Facts& f) { f.clear.finished->least_width_mm = 29.4 * in; },
                29.4,
                in,
                {"smaller side of the free floor"},
                {"must be 5/8\" wider"}},
               {"clear.width",
                [](Job&, Facts& f) {
                  f.clear.finished->least_width_mm = 24.4 * in, f.clear.finished->area_mm2 = 1300 * in * in;
                },
                24.4,
                in,
                {"25\" will do where 1300 in2 are free, and 1300 in2 are"},
                {"must be 5/8\" wider"}},
               {"clear.circle",
                [](Job&, Facts& f) {
                  f.clear.finished->circle_mm = 29.4 * in, f.clear.finished->circle_at_mm = {10 * in, 20 * in, 0};
                },
                29.4,
                in,
                {"centre at 10\" from the left stud face, 20\""},
                {"a circle of 30\", it lacks 5/8\""},
                "residential",
                Outcome::caution},
               {"access.opening",
                [](Job&, Facts& f) { f.clear.finished->entry_mm = 21.9 * in; },
                21.9,
                in,
                {"finished"},
                {"must be 1/8\" wider"}},
               {"access.inside-width",
                [](Job&, Facts& f) { f.clear.compartment.width_mm = 37 * in; },
                37,
                in,
                {"side to side"},
                {"bring it in by 1/2\""},
                "accessible"},
               {"access.inside-depth",
                [](Job&, Facts& f) { f.clear.compartment.depth_mm = 35.1 * in; },
                35.1,
                in,
                {"to the back"},
                {"must be 7/16\" larger inside"},
                "accessible"},
               {"access.face",
                [](Job&, Facts& f) { f.clear.compartment.face_mm = 35.1 * in; },
                35.1,
                in,
                {"across the entry"},
                {"must be 15/16\" wider"},
                "accessible"},
               {"seat.height",
                [](Job&, Facts& f) { f.heights.seat_front_mm = 16.9 * in; },
                16.65,
                in,
                {"above the bath floor outside"},
                {"raise the seat to 18-3/8\" above the datum (bench.height)"},
                "accessible"},
               {"seat.height",
                [](Job&, Facts& f) {
                  f.heights.seat_front_mm = 16.9 * in;
                  f.heights.outside = facts::Levels{0.25 * in, 0.5 * in};
                },
                16.4,
                in,
                {"above the bath floor outside"},
                {"raise the seat to 18-5/8\" above the datum (bench.height)"},
                "accessible"},
               {"seat.height",
                [](Job&, Facts& f) { f.heights.seat_front_mm = 19.6 * in; },
                19.35,
                in,
                {},
                {"lower the seat to 17-5/8\" above the datum (bench.height)"},
                "accessible"},
               {"seat.depth",
                [](Job&, Facts& f) { f.clear.finished->seat_depth_mm = 14.8 * in; },
                14.8,
                in,
                {},
                {"bench.depth"},
                "accessible"}});
}

}  // namespace
}  // namespace fallwright::rules
