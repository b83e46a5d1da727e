#include "report/distinct.hpp"
#include "support/part_id.hpp"

namespace fallwright::sample {
namespace {

using survey::Side;

facts::Room room() {
  facts::Room r;
  r.closure = {true, true, {{"back", 1801, 1802, 1.25, 1803}}, 0.5, 1.5, "left", {"front"}};
  r.widths = {{1200, 1798, 1799, 1.75, 305}};
  r.not_plumbed = {Side::right};
  r.floor = {true,          4.25,           3.25, {},   1.125,        2.25,
             {101, 102, 3}, {103, 104, -4}, -5.5, 0.75, "front left", {{"back right", {}}}};
  r.studs = {{"wall-back/stud-02", Side::back, facts::Before::base, 407, 4.5, 5.5, 9.5, true},
             {"wall-left/stud-01", Side::left, facts::Before::nothing, 19, 1, 2, 3}};
  r.corners = {{Side::back, Side::left, Side::left, 3.5, 3.75}};
  r.drop_in = {true, 1460, 101, {{12, 1466}, {1201, 1465}},        5.25, 1202,
               0,    6.5,  2.5, facts::WidthRead{1203, 1, 2, 3, 4}};
  r.drain = {true,
             true,
             {{501, 702}, {800, 900}},
             {111, 808},
             {712, 412, 0},
             {713, 413, 0},
             7,
             true,
             3.5,
             0.0225,
             0.0425,
             "",
             184,
             61,
             31,
             46};
  r.chain = {{"datum", 0, 0}, {"rib plane", 12, 11}};
  r.gauges = {{"A1", 14, 901, -3, 15, 33, false}, {"B1", 300, 902, -2, 16, 34, true}};
  r.set_out = {{"bore centre from the left stud face", 1066}};
  r.as_set.read = true;
  r.as_set.points = {{"back left", 13, 899, 0.5, 0.625}};
  r.as_set.gx = 0.001, r.as_set.gy = -0.002;
  r.as_set.twist_mm = 0.375, r.as_set.over_length_mm = 1.46, r.as_set.over_width_mm = -1.83;
  r.as_set.falls = {{facts::Surface::threshold, "top", 0.021, 0.0205}};
  r.as_set.threshold_least_mm = 63, r.as_set.threshold_greatest_mm = 66, r.as_set.upstand_least_mm = 101.5;
  r.as_set.raised_mm = 2.75, r.as_set.drain_body_mm = 36.5;
  r.as_set.apron_least_mm = 4.25, r.as_set.apron_greatest_mm = 5.75;
  r.worst = {{"mortar in the bed as set", 4e7, 3.8e7, 4.2e7, "spot level", 1e5, facts::Bounded::volume},
             {"fall", 0.02, 0, 0, "", 0, facts::Bounded::fall, "why"}};
  return r;
}

}  // namespace

facts::Facts distinct_facts() {
  facts::Facts f;
  f.parts = {
      {part_id("base"), "base", "resin", 7.1e6, 2.2e6, 85.5, {1, 2, 3, 1461, 916, 104}, {731, 459, 47}, true, false},
      {part_id("bed-spread"), "bed-spread", "mortar", 4.1e7, 2.9e6, 87, {4, 5, 6, 7, 8, 9}, {10, 11, 12}, false, true}};
  f.facets = {{facts::Surface::base_floor, "left", 3.5e5, 0.025, 91, 667, {368, 459, 38}, {13, 899, 55}, {1, 0, 0}}};
  f.creases = {{facts::Surface::base_floor, "back", "left", true, 0.018, 702, {730, 460, 39}, {14, 898, 54}},
               {facts::Surface::seat, "top", "low", false, 0.0125, 371, {21, 22, 23}, {24, 25, 26}}};
  f.drainage = {{facts::Surface::seat, false, 1.25, {77, 78, 79}, {"top"}}};
  f.fits = {{part_id("base"), part_id("drain"), facts::Touch::gap, 2.5, 0, {601, 602, 603}},
            {part_id("base"), part_id("bed"), facts::Touch::touch, 0, 0, {}},
            {part_id("drain"), part_id("joists/joist-03"), facts::Touch::clash, 0, 4321, {604, 605, 606}}};
  f.members = {{part_id("bench-frame/joist-01"),
                "bench-frame/joist-01",
                "2x4",
                false,
                false,
                330.2,
                328.6,
                88.9,
                38.1,
                {1.5, 2.5},
                0.875}};
  f.sections = {{"2x4", true, 3387, 1.09, {44, 19}, {88.9, 2.23e6, 5.02e4, 3386}, {38.1, 4.1e5, 2.15e4, 3385}}};
  f.bearers = {{facts::Bears::plate,
                "bench-frame/top-plate",
                false,
                254,
                292,
                89,
                3380,
                1.1,
                1.9,
                false,
                3371,
                12.5,
                {38, 4.2e5, 2.2e4, 3372},
                83.5}};
  f.openings = {{facts::Axis::width, 1835, 1461.5, 368.3, 5.2, 1.3}};
  f.bed = {15.5,  38.5,  {31, 32, 33}, {34, 35, 36},
           16.5,  31.75, 4e7,          4.15e7,
           1.5e6, 1.2e6, 1.25e6,       {735, 410},
           1.3e6, 42,    43.5,         {5e4, {1, 2, 1400, 900}, {Side::back, Side::left}, true}};
  f.clear = {8e5,
             801,
             {701, 401, 41},
             802,
             1448,
             381,
             61,
             12.5,
             13.5,
             {},
             {},
             facts::Finished{7.5e5, 775, {702, 402, 42}, 776, 1423, 356},
             {},
             {1778, 787, 1779}};
  f.heights = {38.1, 12.7, 51, 52, 101, 104, 139, 457, 465, facts::Levels{6.35, 6.85}, 50.5};
  f.edges = {
      {Side::back, facts::Behind::wall, facts::Turned::upstand, 140, 141, true, 1455},
      {Side::front, facts::Behind::nothing, facts::Turned::threshold, 101, 104, false, 1460, facts::Levels{6.4, 6.9}}};
  f.skirt = facts::SeatSkirt{303, {Side::back}, -0.25, 4.75};
  f.drain = {22.2, 101.6, "joists/joist-04", 50.8, 34.9};
  f.pipe = {true,
            127,
            141.5,
            230.5,
            217.5,
            false,
            true,
            {{40, 90, Side::back, 703, 302}},
            {{"joists/joist-03", 209, -254, -19, -131, 60, 0.33, 702}},
            {{"joists/joist-05", 703, -121, 26}},
            {"joists/joist-02"},
            "joists/joist-01",
            147.5,
            facts::HubInJoist{"joists/joist-03", true, 149.5, 148.5},
            {"joists/joist-06"}};
  f.backings = {{"grab bar", Side::back, 860, 0.9, 0.2, true, 701, 0.1, 55}};
  f.holds = {{Side::left,
              facts::Behind::wall,
              914,
              381,
              25,
              406,
              {1, 2, 3},
              {4, 5, 6},
              true,
              882,
              139,
              12.7,
              {},
              {{{Side::back, 22.5, 23.5}, {Side::front, 24.5, 25.5}}}}};
  f.deck = {true, 19, 406, {700, 450, 0}};
  f.clear.finished->seat_rear_gap_mm = 1.25, f.clear.finished->seat_side_gap_mm = 2.25;
  f.flood = {1.19e6,
             {Side::front},
             {{50, 4.5e7, 1.2e6}},
             facts::Dip{46, 4.1e7, 1.195e6},
             {{50, 4.5e7, 1.2e6}, {90, 9.3e7, 1.21e6}}};
  f.finish = {2001,
              {{survey::Tiled::walls, survey::Side::back, 3e6}},
              {{facts::Joint::floor_to_walls, 2002}},
              {{facts::Role::base, Side::back, 1462}},
              3,
              3e5,
              1e6,
              {{"deck", 2.5e5}, {"front rail", 5e4}}};
  f.room = room();
  return f;
}

}  // namespace fallwright::sample
