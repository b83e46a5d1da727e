#include "job/keys.hpp"

namespace fallwright::job {
namespace {

std::vector<Key> base_keys() {
  return {
      {"base.length", Kind::length, required, "\"57-1/2 in\"", "1480", 400, 4000, "along the alcove's width",
       no_choices, STORE(j.base.length = v.length())},
      {"base.width", Kind::length, required, "\"36 in\"", "900", 400, 3000, "along the alcove's depth", no_choices,
       STORE(j.base.width = v.length())},
      {"base.made",
       Kind::choice,
       optional,
       "\"bought\"",
       "\"bought\"",
       0,
       0,
       "bought: its sizes and its drain's place are facts, and no advice changes them; to-order: they can be changed "
       "still. Left out: advice says what holds for either",
       {"bought", "to-order"},
       STORE(j.base.made = v.text == "bought" ? Made::bought : Made::to_order)},
      {"base.against",
       Kind::choice,
       optional,
       "\"left\"",
       "\"left\"",
       0,
       0,
       "the side it is set tight to; left out: the middle, or tight to a bench at an end, whose end alone may be named",
       {"left", "middle", "right"},
       STORE(j.base.against = v.text == "left"    ? Against::left
                              : v.text == "right" ? Against::right
                                                  : Against::middle)},
      {"base.lowered_from", Kind::length, usual, "\"48 in\"", "1200", 50, 4000,
       "height above the datum from which it is let down between the walls", no_choices,
       STORE(j.base.lowered_from = v.length())},
      {"base.pattern",
       Kind::choice,
       usual,
       "\"level-rim\"",
       "\"level-rim\"",
       0,
       0,
       "level-rim: rim at one height, facets of different fall; equal-fall: one fall, rim height varies; to-line: to a "
       "channel from rim to rim",
       {"level-rim", "equal-fall", "to-line"},
       STORE(j.base.pattern = v.text == "level-rim" ? FallPattern::level_rim
                              : v.text == "to-line" ? FallPattern::to_line
                                                    : FallPattern::equal_fall)},
      {"base.fall", Kind::fall, usual, "\"1/4 in/ft\"", "\"2.1 %\"", 0.001, 0.2,
       "on the longest run (level-rim), else on every facet", no_choices, STORE(j.base.fall = v.fall())},
      {"base.rise", Kind::length, optional, "\"1/2 in\"", "12", 1, 200,
       "level-rim only, in place of fall: rim above the drain's edge; of a round opening its edge's lowest point, as "
       "that "
       "of the grate",
       no_choices, STORE(j.base.rise = v.length())},
      {"base.underside",
       Kind::choice,
       usual,
       "\"shell\"",
       "\"shell\"",
       0,
       0,
       "shell: of one thickness, on ribs; flat: solid body",
       {"shell", "flat"},
       STORE(j.base.underside = v.text == "flat" ? Underside::flat : Underside::shell)},
      {"base.shell", Kind::length, usual, "\"1/2 in\"", "12", 2, 100, "thickness under the fall, measured plumb",
       no_choices, STORE(j.base.shell = v.length())},
      {"base.rib_depth", Kind::length, usual, "\"1/2 in\"", "12", 0, 100,
       "of the ribs at the drain, where they are shallowest", no_choices, STORE(j.base.rib_depth = v.length())},
      {"base.material", Kind::text, usual, "\"base\"", "\"base\"", 0, 0, "its name in the reports", no_choices,
       STORE(j.base.material = v.text)},
      {"base.density", Kind::density, usual, "\"75 lb/ft3\"", "\"1200 kg/m3\"", 20, 4000,
       "of its material; common practice, no source", no_choices, STORE(j.base.density_kg_m3 = v.number)},
      {"base.ribs.columns", Kind::integer, usual, "8", "8", 0, 80,
       "pockets side by side along the length; 0: no ribs. Files of more would take minutes to write", no_choices,
       STORE(j.base.ribs.columns = static_cast<int>(v.number))},
      {"base.ribs.rows", Kind::integer, usual, "6", "6", 0, 40, "pockets one behind the other; 0: no ribs", no_choices,
       STORE(j.base.ribs.rows = static_cast<int>(v.number))},
      {"base.ribs.width", Kind::length, usual, "\"1/2 in\"", "12", 1, 100, "of every rib", no_choices,
       STORE(j.base.ribs.width = v.length())},
      {"base.upstands.thickness", Kind::length, usual, "\"1/2 in\"", "12", 0, 60, "0: no upstands", no_choices,
       STORE(j.base.upstand_thickness = v.length())},
      {"base.upstands.height", Kind::length, usual, "\"4 in\"", "110", 0, 400, "of their top above the drain's top",
       no_choices, STORE(j.base.upstand_height = v.length())},
      {"base.upstands.sides",
       Kind::words,
       usual,
       "[\"back\", \"left\", \"right\"]",
       "[\"back\", \"left\", \"right\"]",
       0,
       0,
       "sides of the base that turn up",
       {"back", "front", "left", "right"},
       STORE(j.base.upstands = sides_of(v))},
      {"base.upstands.lapped",
       Kind::words,
       usual,
       "[]",
       "[]",
       0,
       0,
       "walled sides that do not turn up, where the wall's waterproofing is lapped over the base's edge and bonded to "
       "it",
       {"back", "left", "right"},
       STORE(j.base.lapped = sides_of(v))},
      {"base.threshold.width", Kind::length, usual, "\"4 in\"", "100", 0, 400, "front to back; 0: no threshold",
       no_choices, STORE(j.base.threshold.width = v.length())},
      {"base.threshold.height", Kind::length, usual, "\"2-1/2 in\"", "65", 0, 400,
       "of its inner top edge above the drain's top", no_choices, STORE(j.base.threshold.height = v.length())},
      {"base.threshold.fall", Kind::fall, usual, "\"1/4 in/ft\"", "\"2 %\"", -0.2, 0.2,
       "of its top, inward; negative: outward", no_choices, STORE(j.base.threshold.fall = v.fall())},
      {"base.threshold.finish", Kind::length, optional, "\"5/8 in\"", "15", 0, 150,
       "how much of that height is laid on after the flood test: tile and its bond, mortar on a rough threshold; 0: "
       "none",
       no_choices, STORE(j.base.threshold.finish = v.length())},
      {"base.threshold.bevelled",
       Kind::choice,
       optional,
       "\"yes\"",
       "\"yes\"",
       0,
       0,
       "whether its edges are finished with a bevel of 1:2 or flatter where they rise more than 1/4 in (6 mm)",
       {"yes", "no"},
       STORE(j.base.threshold.bevelled = v.text == "yes")},
  };
}

std::vector<Key> drain_keys() {
  return {
      {"drain.kind",
       Kind::choice,
       usual,
       "\"point\"",
       "\"point\"",
       0,
       0,
       "a point drain or a channel",
       {"point", "line"},
       STORE(j.drain.kind = v.text == "line" ? DrainKind::line : DrainKind::point)},
      {"drain.opening",
       Kind::choice,
       usual,
       "\"square\"",
       "\"square\"",
       0,
       0,
       "square: facets start from its level edge; round: they run to its centre. A channel is always square",
       {"round", "square"},
       STORE(j.drain.opening = v.text == "round" ? Opening::round : Opening::square)},
      {"drain.size", Kind::length, usual, "\"4 in\"", "100", 30, 400,
       "diameter, side of the square, or the channel's clear width", no_choices, STORE(j.drain.size = v.length())},
      {"drain.length", Kind::length, optional, "\"30 in\"", "800", 100, 4000,
       "of a channel; left out, it runs from rim to rim", no_choices, STORE(j.drain.channel_length = v.length())},
      {"drain.direction", Kind::choice, usual, "\"along-width\"", "\"along-width\"", 0, 0, "the way a channel runs",
       directions, STORE(j.drain.channel_direction = direction_of(v))},
      {"drain.from_left", Kind::length, optional, "\"28-3/4 in\"", "740", 0, 4000,
       "centre from the base's left edge; along a channel from rim to rim its outlet's, and left out: the middle",
       no_choices, STORE(j.drain.across = (From{Side::left, v.length()}))},
      {"drain.from_right", Kind::length, optional, "\"28-3/4 in\"", "740", 0, 4000, "or from its right edge",
       no_choices, STORE(j.drain.across = (From{Side::right, v.length()}))},
      {"drain.from_back", Kind::length, optional, "\"16-1/4 in\"", "406", 0, 3000, "centre from the base's back edge",
       no_choices, STORE(j.drain.along = (From{Side::back, v.length()}))},
      {"drain.from_front", Kind::length, optional, "\"19-3/4 in\"", "494", 0, 3000, "or from its front edge",
       no_choices, STORE(j.drain.along = (From{Side::front, v.length()}))},
      {"drain.recess", Kind::length, usual, "\"3/8 in\"", "10", 1, 60,
       "depth of the ledge that carries the grate, below the drain's top; left out, on a base built on site at most "
       "half "
       "of base.cover",
       no_choices, STORE(j.drain.recess = v.length())},
      {"drain.body", Kind::length, usual, "\"3-1/4 in\"", "80", 25, 300, "outside diameter of the body below the base",
       no_choices, STORE(j.drain.body = v.length())},
      {"drain.body_depth", Kind::length, usual, "\"4 in\"", "100", 10, 400, "of its lowest point below the drain's top",
       no_choices, STORE(j.drain.body_depth = v.length())},
      {"drain.outlet", Kind::length, usual, "\"2 in\"", "50", 20, 200, "inside diameter", no_choices,
       STORE(j.drain.outlet = v.length())},
      {"drain.bore", Kind::length, usual, "\"5 in\"", "125", 30, 500, "diameter of the hole in the subfloor",
       no_choices, STORE(j.drain.bore = v.length())},
      {"drain.flow", Kind::volume, optional, "\"2.5 gal\"", "\"9 L\"", 1e5, 1e9,
       "water that may come to it in a minute, from all heads together", no_choices,
       STORE(j.drain.flow_mm3 = v.number)},
      {"drain.riser", Kind::length, optional, "\"-1 in\"", "-25", -1000, 400,
       "top of the riser pipe above the datum, below it negative, as it waits for the drain's body", no_choices,
       STORE(j.drain.riser = v.length())},
  };
}

std::vector<Key> bed_keys() {
  return {
      {"bed.least", Kind::length, usual, "\"1/2 in\"", "12", 3, 150,
       "least thickness: under a base's ribs at the floor's highest spot, by common practice 1/2 to 3/4 in, no source; "
       "of "
       "one built on site nowhere less, nor at its drain's flange",
       no_choices, STORE(j.bed.least = v.length())},
      {"bed.gauge_depth", Kind::length, optional, "\"1-1/8 in\"", "28", 3, 300,
       "height of the level line it is spread to, above the datum. Left out: the least that leaves no void", no_choices,
       STORE(j.bed.gauge_depth = v.length())},
      {"bed.holdback", Kind::length, usual, "\"1/2 in\"", "12", 0, 150, "kept clear along the framing", no_choices,
       STORE(j.bed.holdback = v.length())},
      {"bed.overrun", Kind::length, usual, "\"1/2 in\"", "12", 0, 150, "past the base on open sides", no_choices,
       STORE(j.bed.overrun = v.length())},
      {"bed.collar", Kind::length, usual, "\"1/2 in\"", "12", 0, 150, "kept clear round the bore", no_choices,
       STORE(j.bed.collar = v.length())},
      {"bed.density", Kind::density, usual, "\"130 lb/ft3\"", "\"2080 kg/m3\"", 500, 3000,
       "of the mortar as it lies, wet; common practice, no source. Left out: what [mix], or bag_mass over bag_yield, "
       "comes to, where these are given",
       no_choices, STORE(j.bed.density_kg_m3 = v.number)},
      {"bed.wetness",
       Kind::choice,
       optional,
       "\"soft\"",
       "\"soft\"",
       0,
       0,
       "stiff: dry pack, a clump holds and does not drip; soft: wetter and looser, ribs sink into it. Left out: soft "
       "under ribs, stiff under a flat base; common practice, no source",
       {"stiff", "soft"},
       STORE(j.bed.wetness = v.text == "soft" ? Wetness::soft : Wetness::stiff)},
      {"bed.bag_yield", Kind::volume, optional, "\"0.45 ft3\"", "\"12 L\"", 1e5, 1e9, "of one bag, as printed on it",
       no_choices, STORE(j.bed.bag_yield_m3 = v.number * 1e-9)},
      {"bed.bag_mass", Kind::mass, optional, "\"60 lb\"", "\"25 kg\"", 1, 100,
       "of one bag, as printed on it: with its yield it tells what the bed weighs", no_choices,
       STORE(j.bed.bag_kg = v.number)},
      {"bed.working_minutes", Kind::integer, optional, "60", "60", 1, 600,
       "from mixing until the base must lie in it, as printed on the bag. Left out: 150 for mortar of [mix], ASTM C270 "
       "(secondary)",
       no_choices, STORE(j.bed.working_minutes = static_cast<int>(v.number))},
      {"bed.waste", Kind::share, usual, "\"10 %\"", "\"10 %\"", 0, 1,
       "added to the net volume when buying; common practice, no source", no_choices, STORE(j.bed.waste = v.number)},
  };
}

}  // namespace

const std::vector<Key>& keys() {
  static const std::vector<Key> all = [] {
    std::vector<Key> table;
    for (const auto& part :
         {room_keys(), survey_keys(), as_built_keys(), base_kind_keys(), base_keys(), drain_keys(), bench_keys(),
          bed_keys(), cut_keys(), buy_keys(), trade_keys(), drawing_keys(), limit_keys()})
      table.insert(table.end(), part.begin(), part.end());
    return table;
  }();
  return all;
}

const std::vector<Section>& sections() {
  static const std::vector<Section> all{
      {"job", "What this job is called and the unit it is written in."},
      {"alcove", "The framed opening as designed, between stud faces."},
      {"walls", "Framing round the alcove."},
      {"survey", "The room as it was measured. Nothing here is assumed: what was not read is not known.", true},
      {"survey.plan", "Sides and diagonals at the floor; five fix the figure, the sixth checks it.", true},
      {"survey.floor", "Spot levels of the subfloor, up to 1,000, humps and hollows as well.", true},
      {"survey.width", "A width at some height, as a check on lean and drop-in.", true,
       [](Job& j) { j.survey.widths.emplace_back(); }},
      {"survey.plumb", "A wall's lean at one place.", true, [](Job& j) { j.survey.plumbs.emplace_back(); }},
      {"survey.studs", "Studs that stand already.", true, [](Job& j) { j.survey.studs.emplace_back(); }},
      {"floor", "The subfloor the bed lies on: through the survey's spot levels, or else a plane."},
      {"floor.joists", "Joists under the deck; nothing here counts for a slab."},
      {"floor.joists.hole",
       "A hole that a joist has already, for another pipe or a cable, where the trap arm crosses it; of a notch, the "
       "circle that it fills.",
       true, [](Job& j) { j.floor.joist_holes.emplace_back(); }},
      {"base", "The sloped shower base."},
      {"base.outside",
       "A bought base measured all round, in place of base.length and base.width: all four sides and a diagonal, or "
       "both.",
       true},
      {"base.rim", "What a tape says of a bought base's rim, in place of base.fall and base.rise."},
      {"base.screed", "How a base built on site is marked out."},
      {"base.ribs", "Ribs under a shell."},
      {"base.upstands", "The base's turned-up edges along the walls."},
      {"base.threshold", "The raised edge at the entry."},
      {"drain", "Give one distance from left or right and one from back or front, to the drain's centre."},
      {"bench", "Leave this section and the next out for a room without a bench.", true},
      {"bench.frame", "The level frame under the seat block.", true},
      {"bed", "The mortar between subfloor and base."},
      {"cuts", "How pieces are cut from sticks."},
      {"as_set",
       "The base as it lies in the wet bed, read at three places or more, on its rim, its upstands' tops and its "
       "threshold as suits, against any one level line.",
       true},
      {"as_set.upstands", "The same on the tops of the upstands.", true},
      {"as_set.threshold", "The same on the threshold's outer top edge.", true},
      {"as_built", "The record of what was measured when all was built, kept beside the design.", true},
      {"as_built.fall", "A fall as a level showed it.", true, [](Job& j) { j.as_built.falls.emplace_back(); }},
      {"as_built.flood", "The water of the flood test, read once; the first reading as it was filled.", true,
       [](Job& j) { j.as_built.flood.emplace_back(); }},
      {"as_built.photo", "A photograph that was taken.", true, [](Job& j) { j.as_built.photos.emplace_back(); }},
      {"revision",
       "A change of sheets that are out already, the newest last: its mark stands in every title block, all on the "
       "cover.",
       true, [](Job& j) { j.revisions.emplace_back(); }},
      {"liner", "A waterproof liner under the floor, as read; leave out for a preformed base.", true},
      {"trap", "The drain's pipe below the floor, as far as it is known.", true},
      {"trap.bend",
       "A level bend of the trap arm, in the order that the water meets them; leave out where it is straight.", true,
       [](Job& j) { (j.trap ? *j.trap : j.trap.emplace()).bends.emplace_back(); }},
      {"glass", "Panes at the entry; leave out where there are none.", true},
      {"door", "What closes the entry; leave out where it stays open.", true},
      {"fixture", "What is screwed to a wall and needs timber behind it: grab bar, glass hinge, valve, rail.", true,
       [](Job& j) { j.fixtures.emplace_back(); }},
      {"mix", "Mortar mixed on site; leave out where it comes in bags.", true},
      {"tile", "What is tiled."},
      {"bond", "The trowel that spreads the bonding mortar under tile."},
      {"membrane", "Waterproofing behind and under the tile."},
      {"felt", "What keeps mortar off a timber deck."},
      {"sealant", "Joints where two planes meet."},
      {"adhesive", "Beads under the seat block."},
      {"flashing", "Strips over the top edges of upstands."},
      {"fasteners", "Screws and nails by schedule; common practice, no source, where local code says nothing."},
      {"buy", "What is bought."},
      {"drawings", "The sheets on paper."},
      {"rules", "The rule book the checks take their limits from."},
      {"limits", "Limits of your own; each replaces that of the checks that 'fallwright rules' lists with it."}};
  return all;
}

const char* name_of(Kind kind) {
  switch (kind) {
    case Kind::text:
      return "text";
    case Kind::day:
      return "year-month-day";
    case Kind::moment:
      return "year-month-day hour:minute";
    case Kind::choice:
      return "choice";
    case Kind::words:
      return "list of words";
    case Kind::integer:
      return "whole number";
    case Kind::length:
      return "length";
    case Kind::lengths:
      return "list of lengths";
    case Kind::reading:
      return "reading";
    case Kind::points:
      return "list of [x, y, height]";
    case Kind::stress:
      return "stress";
    case Kind::rows:
      return "list of rows of lengths";
    case Kind::fall:
      return "fall";
    case Kind::volume:
      return "volume";
    case Kind::area:
      return "area";
    case Kind::density:
      return "density";
    case Kind::mass:
      return "mass";
    case Kind::mix:
      return "mix";
    case Kind::share:
      return "share";
    case Kind::stock:
      return "stock";
  }
  return "";
}

}  // namespace fallwright::job
