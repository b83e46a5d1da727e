#include "job/keys.hpp"

namespace fallwright::job {
namespace {

Liner& liner(Job& j) {
  return j.liner ? *j.liner : j.liner.emplace();
}
Trap& trap(Job& j) {
  return j.trap ? *j.trap : j.trap.emplace();
}

}  // namespace

std::vector<Key> trade_keys() {
  return {
      {"liner.above_threshold", Kind::length, optional, "\"3 in\"", "75", 0, 1000,
       "its top above the finished threshold", no_choices, STORE(liner(j).above_threshold = v.length())},
      {"liner.above_seat", Kind::length, optional, "\"3 in\"", "75", 0, 1000, "its top above a built-in seat",
       no_choices, STORE(liner(j).above_seat = v.length())},
      {"liner.fall", Kind::fall, optional, "\"1/4 in/ft\"", "\"2.1 %\"", 0, 0.2, "of what it lies on, to the drain",
       no_choices, STORE(liner(j).fall = v.fall())},
      {"trap.arm", Kind::length, optional, "\"3 ft\"", "900", 0, 10000, "from the trap's weir to the vent", no_choices,
       STORE(trap(j).arm = v.length())},
      {"trap.fall", Kind::fall, optional, "\"1/4 in/ft\"", "\"2.1 %\"", 0, 0.2, "of the trap arm", no_choices,
       STORE(trap(j).fall = v.fall())},
      {"trap.pipe", Kind::length, optional, "\"2 in\"", "50", 30, 112,
       "nominal size of its pipe: 1-1/4, 1-1/2, 2, 3 or 4 in, or DN 32, 40, 50, 75, 90 or 110; left out: as "
       "drain.outlet, where that is given",
       no_choices, STORE(trap(j).pipe = v.length())},
      {"trap.hole", Kind::length, optional, "\"2-3/8 in\"", "60", 1, 300, "diameter of a hole it takes through a joist",
       no_choices, STORE(trap(j).hole = v.length())},
      {"trap.notch", Kind::length, optional, "\"1 in\"", "25", 1, 300, "depth of a notch it takes from a joist",
       no_choices, STORE(trap(j).notch = v.length())},
      {"fixture.name", Kind::text, required, "\"grab bar, left flange\"", "\"grab bar, left flange\"", 0, 0,
       "what it is called", no_choices, STORE(j.fixtures.back().name = v.text)},
      {"fixture.wall",
       Kind::choice,
       required,
       "\"back\"",
       "\"back\"",
       0,
       0,
       "which wall",
       {"back", "left", "right"},
       STORE(j.fixtures.back().wall = side_of(v.text))},
      {"fixture.along", Kind::length, required, "\"24 in\"", "600", 0, 8000,
       "its middle, from the left corner (back wall) or the back corner (side walls)", no_choices,
       STORE(j.fixtures.back().along = v.length())},
      {"fixture.height", Kind::length, required, "\"34 in\"", "860", 0, 4000, "its middle above the datum", no_choices,
       STORE(j.fixtures.back().height = v.length())},
      {"fixture.width", Kind::length, usual, "\"3 in\"", "75", 5, 3000, "of the plate that is screwed on", no_choices,
       STORE(j.fixtures.back().width = v.length())},
      {"fixture.tall", Kind::length, usual, "\"3 in\"", "75", 5, 3000, "height of that plate", no_choices,
       STORE(j.fixtures.back().tall = v.length())},
  };
}

}  // namespace fallwright::job
