#include "job/keys.hpp"

namespace fallwright::job {
namespace {

Liner& liner(Job& j) {
  return j.liner ? *j.liner : j.liner.emplace();
}
Trap& trap(Job& j) {
  return j.trap ? *j.trap : j.trap.emplace();
}
Glass& glass(Job& j) {
  return j.glass ? *j.glass : j.glass.emplace();
}

Door& door(Job& j) {
  return j.door ? *j.door : j.door.emplace();
}
DoorKind door_kind_of(const std::string& word) {
  return word == "swings-out"    ? DoorKind::swings_out
         : word == "swings-in"   ? DoorKind::swings_in
         : word == "swings-both" ? DoorKind::swings_both
         : word == "slides"      ? DoorKind::slides
                                 : DoorKind::curtain;
}

}  // namespace

std::vector<Key> trade_keys() {
  return {
      {"liner.above_threshold", Kind::length, optional, "\"3 in\"", "75", 0, 1000,
       "its top above the finished threshold; without one, above the finished floor's highest edge", no_choices,
       STORE(liner(j).above_threshold = v.length())},
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
      {"trap.outside", Kind::length, optional, "\"2-3/8 in\"", "50", 20, 200,
       "outside diameter of its pipe as measured; left out: as its standard has it", no_choices,
       STORE(trap(j).outside = v.length())},
      {"trap.hub", Kind::length, optional, "\"-8 in\"", "-200", -3000, 200,
       "height above the datum, below it negative, of the stop in the trap's hub: where the riser from the drain ends",
       no_choices, STORE(trap(j).hub = v.length())},
      {"trap.weir", Kind::length, optional, "\"-11 in\"", "-280", -3000, 200,
       "height above the datum, below it negative, of the arm's lowest inside where it leaves the trap", no_choices,
       STORE(trap(j).weir = v.length())},
      {"trap.from_left", Kind::length, optional, "\"43-1/4 in\"", "1100", -1000, 8000,
       "middle of the trap's hub from the left stud face; left out: below the drain", no_choices,
       STORE(trap(j).from_left = v.length())},
      {"trap.from_back", Kind::length, optional, "\"16-1/4 in\"", "410", -1000, 8000,
       "middle of the trap's hub from the back stud face; left out: below the drain", no_choices,
       STORE(trap(j).from_back = v.length())},
      {"trap.to",
       Kind::choice,
       optional,
       "\"left\"",
       "\"left\"",
       0,
       0,
       "the side of the alcove that the arm runs to, square to it, and straight but for its bends",
       {"back", "front", "left", "right"},
       STORE(trap(j).to = side_of(v.text))},
      {"trap.vent",
       Kind::choice,
       optional,
       "\"yes\"",
       "\"yes\"",
       0,
       0,
       "whether a vent is connected at the arm's end",
       {"yes", "no"},
       STORE(trap(j).vented = v.text == "yes")},
      {"trap.cleanout",
       Kind::choice,
       optional,
       "\"no\"",
       "\"no\"",
       0,
       0,
       "whether a cleanout serves the bends of the trap arm",
       {"yes", "no"},
       STORE(trap(j).cleanout = v.text == "yes")},
      {"trap.bend.angle", Kind::integer, usual, "90", "90", 1, 180, "by how many degrees it turns, level", no_choices,
       STORE(trap(j).bends.back().degrees = v.number)},
      {"trap.bend.after", Kind::length, optional, "\"18 in\"", "450", 0, 10000, "along the arm, from the trap's weir",
       no_choices, STORE(trap(j).bends.back().after = v.length())},
      {"trap.bend.to",
       Kind::choice,
       optional,
       "\"back\"",
       "\"back\"",
       0,
       0,
       "the side of the alcove that the arm runs to from there, square to it: of bends by 90 degrees alone",
       {"back", "front", "left", "right"},
       STORE(trap(j).bends.back().to = side_of(v.text))},
      {"glass.thickness", Kind::length, optional, "\"3/8 in\"", "10", 3, 30, "of its panes", no_choices,
       STORE(glass(j).thickness = v.length())},
      {"glass.height", Kind::length, optional, "\"76 in\"", "1950", 100, 4000, "of its panes", no_choices,
       STORE(glass(j).height = v.length())},
      {"glass.width", Kind::length, optional, "\"57 in\"", "1450", 100, 8000, "of all panes along the entry",
       no_choices, STORE(glass(j).width = v.length())},
      {"glass.marked",
       Kind::choice,
       optional,
       "\"yes\"",
       "\"yes\"",
       0,
       0,
       "whether each pane bears the mark of safety glazing, in a corner",
       {"yes", "no"},
       STORE(glass(j).marked = v.text == "yes")},
      {"door.kind",
       Kind::choice,
       optional,
       "\"swings-out\"",
       "\"swings-out\"",
       0,
       0,
       "how it opens, from the shower: outward, inward alone, both ways, or along the entry",
       {"swings-out", "swings-in", "swings-both", "slides", "curtain"},
       STORE(door(j).kind = door_kind_of(v.text))},
      {"door.clear", Kind::length, optional, "\"24 in\"", "610", 0, 8000,
       "free between its frame, leaf and handle when it stands open as far as it goes", no_choices,
       STORE(door(j).clear = v.length())},
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
      {"fixture.kind",
       Kind::choice,
       usual,
       "\"other\"",
       "\"other\"",
       0,
       0,
       "what it is, where a book says how high it sits",
       {"other", "grab-bar", "controls"},
       STORE(j.fixtures.back().kind = v.text == "grab-bar"   ? FixtureKind::grab_bar
                                      : v.text == "controls" ? FixtureKind::controls
                                                             : FixtureKind::other)},
      {"fixture.carries", Kind::mass, optional, "\"250 lb\"", "\"115 kg\"", 1, 2000,
       "what it carries with its fastening, as its maker says", no_choices,
       STORE(j.fixtures.back().carries_kg = v.number)},
  };
}

}  // namespace fallwright::job
