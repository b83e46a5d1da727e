#include <algorithm>
#include <optional>

#include "rules/book.hpp"
#include "rules/flood.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

using units::inch_mm;

Finding reach(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.bench) return not_applicable("no bench");
  const auto& from_entry = facts.clear.seat_reach_mm;
  if (!from_entry) return cannot_tell("the job has a bench, and its seat was not found");
  return found(
      *from_entry, "from the entry back to the seat's nearer end",
      job.bench->place == job::Side::back
          ? "a transfer seat stands at an end and reaches from the back wall to the entry (bench.place)"
          : "let the seat reach " + text_at_least(*from_entry - *limit.greatest, job) + " nearer to the entry");
}

std::vector<const job::Fixture*> all_of(const job::Job& job, job::FixtureKind kind) {
  std::vector<const job::Fixture*> found;
  for (const job::Fixture& fixture : job.fixtures)
    if (fixture.kind == kind) found.push_back(&fixture);
  return found;
}

const char* const no_bars =
    "name the grab bars' flanges as fixtures (fixture.kind = \"grab-bar\"), with their height and place";
const char* const no_controls = "name the shower's controls as a fixture (fixture.kind = \"controls\")";

/// Both bounds of a check as they hold: one that nobody sets is never broken, by the worst of several things least of
/// all.
struct Bounds {
  double least, greatest;
};
Bounds bounds_of(const Ground& ground, const char* id) {
  constexpr double far = 1e9;
  const Limit limit = ground.limits.at(id);
  return {limit.least.value_or(-far), limit.greatest.value_or(far)};
}

/// Whether what is screwed on there lies over the seat: on a wall that the seat meets, as far as it reaches along that.
bool over_seat(const job::Fixture& fixture, const job::Job& job, const facts::Facts& facts) {
  if (!job.bench) return false;
  const job::Side place = job.bench->place;
  if (fixture.wall != job::Side::back && place != job::Side::back && fixture.wall != place) return false;
  const bool back = fixture.wall == job::Side::back;
  const double at = back ? fixture.along.in_mm() : job.alcove.depth.in_mm() - fixture.along.in_mm();
  return std::any_of(facts.parts.begin(), facts.parts.end(), [&](const facts::Part& part) {
    return part.which.is(facts::Role::seat_block) && at > part.bbox_mm[back ? 0 : 1] && at < part.bbox_mm[back ? 3 : 4];
  });
}

constexpr double thin_bar = 1.25 * inch_mm / 2, thick_bar = 2 * inch_mm / 2;  ///< from its flange's middle to its top

/// A bar is 1-1/4 to 2 in thick round the middle of its flange, and the shower's floor falls: its top is told at the
/// least it may be, or where that is inside at the most.
Finding bar_height(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  const Bounds limit = bounds_of(ground, "bar.height");
  const auto bars = all_of(job, job::FixtureKind::grab_bar);
  if (bars.empty()) return missing(no_bars);
  const job::Fixture* worst = nullptr;
  double value = 0, off = 0;
  for (const job::Fixture* bar : bars) {
    const double low = bar->height.in_mm() + thin_bar - facts.heights.rim_greatest_mm,
                 high = bar->height.in_mm() + thick_bar - facts.heights.rim_least_mm;
    const double under = limit.least - low, over = high - limit.greatest;
    if (worst && std::max(under, over) <= off) continue;
    worst = bar, off = std::max(under, over), value = under >= over ? low : high;
  }
  const auto over =
      std::find_if(bars.begin(), bars.end(), [&](const job::Fixture* bar) { return over_seat(*bar, job, facts); });
  if (over != bars.end()) {
    Finding finding = found(value, "'" + (*over)->name + "' is over the seat, where none may be (ADA 608.3)",
                            "set '" + (*over)->name +
                                "' clear of the seat, on the wall across from it or on the back wall beside it "
                                "(fixture.wall, fixture.along)");
    finding.broken = true;
    return finding;
  }
  const bool low = value < limit.least;
  return found(value,
               "top of the bar at '" + worst->name +
                   "' above the shower's rim, its flange in its middle and it 1-1/4 "
                   "to 2 in thick; how far bars run along their walls is not judged",
               "set it " + text_at_least(off, job) + (low ? " higher" : " lower") + " (fixture.height)");
}

/// The weakest of all that a person holds on to, as the share of it that 250 lbf take.
Finding bar_strength(const job::Job& job, const facts::Facts&, const Limit&) {
  constexpr double person_kg = 1112 / units::n_per_kg;  // the lesser of the code's two figures
  const auto bars = all_of(job, job::FixtureKind::grab_bar);
  if (bars.empty()) return missing(no_bars);
  const job::Fixture* weakest = nullptr;
  for (const job::Fixture* bar : bars) {
    if (!bar->carries_kg) return missing("ask what '" + bar->name + "' carries with its fastening (fixture.carries)");
    if (!weakest || *bar->carries_kg < *weakest->carries_kg) weakest = bar;
  }
  return found(person_kg / *weakest->carries_kg, "250 lbf (1112 N) on '" + weakest->name + "', as its maker says",
               "take a bar and a fastening that carry 250 lbf (1112 N) in any direction");
}

/// Where a book asks for controls above the bar (ADA 608.5.2): the highest that a bar's top may be, of those on the
/// same wall, or where that has none of all.
std::optional<double> above_bars(const job::Fixture& control, const job::Job& job) {
  std::optional<double> same, any;
  for (const job::Fixture* bar : all_of(job, job::FixtureKind::grab_bar)) {
    const double top = bar->height.in_mm() + thick_bar;
    any = std::max(any.value_or(top), top);
    if (bar->wall == control.wall) same = std::max(same.value_or(top), top);
  }
  return same ? same : any;
}

Finding controls_height(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  const Bounds limit = bounds_of(ground, "controls.height");
  const auto controls = all_of(job, job::FixtureKind::controls);
  if (controls.empty()) return missing(no_controls);
  const bool above = job.book == "accessible-roll-in";
  if (above && all_of(job, job::FixtureKind::grab_bar).empty()) return missing(no_bars);
  const job::Fixture* worst = nullptr;
  double value = 0, off = 0, least = 0;
  for (const job::Fixture* each : controls) {
    const double rim = facts.heights.rim_greatest_mm, low = each->height.in_mm() - rim,
                 high = each->height.in_mm() - facts.heights.rim_least_mm;
    const double from = above ? std::max(limit.least, *above_bars(*each, job) - rim) : limit.least;
    const double under = from - low, over = high - limit.greatest;
    if (worst && std::max(under, over) <= off) continue;
    worst = each, off = std::max(under, over), value = under >= over ? low : high, least = from;
  }
  Finding finding =
      found(value,
            "middle of '" + worst->name + "' above the shower's rim" +
                (above ? ", and above the top of the bar there, 2 in thick" : ""),
            "set it " + text_at_least(off, job) + (value < least ? " higher" : " lower") + " (fixture.height)");
  if (above) finding.least = least;
  return finding;
}

/// Along the wall across from the seat, from the seat's own middle toward the entry.
Finding controls_reach(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  const Bounds limit = bounds_of(ground, "controls.reach");
  if (!job.bench) return not_applicable("no bench");
  if (job.bench->place == job::Side::back) return not_applicable("a seat along the back has no wall across from it");
  const auto controls = all_of(job, job::FixtureKind::controls);
  if (controls.empty()) return missing(no_controls);
  const job::Side across = job.bench->place == job::Side::left ? job::Side::right : job::Side::left;
  std::optional<double> middle;
  for (const facts::Part& part : facts.parts)
    if (part.which.is(facts::Role::seat_block)) middle = (part.bbox_mm[1] + part.bbox_mm[4]) / 2;
  if (!middle) return cannot_tell("the job has a bench, and its seat was not found");
  double value = 0, off = 0;
  const job::Fixture* worst = nullptr;
  for (const job::Fixture* each : controls) {
    if (each->wall != across)
      return Finding{true,
                     0,
                     "'" + each->name + "' is on the " + job::name_of(each->wall) + " wall",
                     "set it on the wall across from the seat, the " + std::string{job::name_of(across)} + " wall",
                     true,
                     {},
                     {}};
    const double toward = *middle - (job.alcove.depth.in_mm() - each->along.in_mm());
    const double by = std::max(limit.least - toward, toward - limit.greatest);
    if (!worst || by > off) worst = each, off = by, value = toward;
  }
  return found(value, "'" + worst->name + "' from the seat's middle toward the entry",
               "move it " + text_at_least(off, job) + (value < limit.least ? " toward the entry" : " toward the back") +
                   " (fixture.along)");
}

Finding clearance_along(const job::Job& job, const facts::Facts&, const Limit& limit) {
  if (!job.floor.clear_along) return unread();
  const double free = job.floor.clear_along->in_mm();
  return found(free, "in front of the entry, along it, as the job file says; no solid",
               "keep " + text_at_least(*limit.least - free, job) + " more free along the entry");
}

Finding clearance_before(const job::Job& job, const facts::Facts&, const Limit& limit) {
  if (!job.floor.clear_before) return unread();
  const double free = job.floor.clear_before->in_mm();
  return found(free, "out from the entry, as the job file says; no solid",
               "keep " + text_at_least(*limit.least - free, job) + " more free in front of the entry");
}

/// The solids' threshold has upright edges: what is finished on it may be bevelled, as the job file says.
Finding bevel(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const facts::Heights& h = facts.heights;
  if (!h.threshold_greatest_mm) return not_applicable("the base has no threshold");
  if (job.base.threshold.bevelled.value_or(false))
    return found(0, "its edges are bevelled 1:2 or flatter, as the job file says (base.threshold.bevelled)", "");
  const double inside = *h.threshold_greatest_mm - h.floor_at_threshold_mm.value_or(h.drain_top_mm);
  if (!h.outside && inside <= *limit.greatest)
    return missing("measure the bath's finished floor in front of the entry (floor.finish_outside)");
  const double up = h.outside ? std::max(inside, *h.threshold_greatest_mm - h.outside->least_mm) : inside;
  return found(up, "upright edge of the threshold, the higher of both",
               "bevel its edges 1:2 or flatter (base.threshold.bevelled = \"yes\"), or lower it by " +
                   text_at_least(up - *limit.greatest, job));
}

/// What a seat leaves open toward a wall. A wall that is built up takes some of it.
Finding seat_gap(const job::Job& job, const std::optional<double>& framed, const std::optional<double>& finished,
                 bool known, const Limit& limit, const std::string& where) {
  const auto& measured = known ? finished : framed;
  if (!measured) return cannot_tell("the seat's edge toward its wall was not found on the solids");
  const bool wide = *measured > *limit.greatest;
  Finding finding = found(*measured, where + (known ? "" : ", to its framing; board and tile take some off"),
                          "bring the seat " + text_at_least(*measured - *limit.greatest, job) +
                              " nearer to that wall: thinner upstands (bench.upstand_thickness), or the wall built up");
  finding.holds_anyway = !wide, finding.may_hold = wide;
  return finding;
}

Finding rear_gap(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.bench) return not_applicable("no bench");
  const auto& finished = facts.clear.finished;
  return seat_gap(job, facts.clear.seat_rear_gap_mm, finished ? finished->seat_rear_gap_mm : std::nullopt,
                  finished.has_value(), limit, "seat's rear edge from the wall behind it");
}

Finding side_gap(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.bench) return not_applicable("no bench");
  const bool at_end = job.bench->place != job::Side::back;
  const bool walled = at_end ? job.alcove.has_wall(job::Side::back)
                             : job.alcove.has_wall(job::Side::left) || job.alcove.has_wall(job::Side::right);
  if (!walled) return not_applicable("no wall stands at the seat's end");
  const auto& finished = facts.clear.finished;
  return seat_gap(job, facts.clear.seat_side_gap_mm, finished ? finished->seat_side_gap_mm : std::nullopt,
                  finished.has_value(), limit, "seat's side edge from the wall at its end");
}

const char* const no_door = "no door is in the job file ([door])";

/// No door leaves more than the entry it hangs in.
Finding door_opening(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.door) return not_applicable(no_door);
  if (job.door->kind == job::DoorKind::curtain) return not_applicable("a curtain leaves all of the entry free");
  if (!job.door->clear) return unread();
  const auto& entry = facts.clear.finished ? facts.clear.finished->entry_mm : facts.clear.entry_mm;
  const double clear = job.door->clear->in_mm(), free = std::min(clear, entry.value_or(clear));
  if (free < clear && !facts.clear.finished)
    return missing("say how far the finished walls stand before the studs: board, bond coat and tile (survey.finish)");
  return found(free,
               free < clear ? "the entry itself, narrower than the door's clear opening in the job file"
                            : "clear opening of the door, as the job file says; no solid",
               "take a door that leaves " + text_at_least(*limit.least - free, job) +
                   " more free when it stands open (door.clear), or a wider entry");
}

/// Whoever falls inside lies against a door that opens inward.
Finding door_swing(const job::Job& job, const facts::Facts&, const Limit&) {
  if (!job.door) return not_applicable(no_door);
  if (!job.door->kind) return unread();
  const job::DoorKind kind = *job.door->kind;
  if (kind == job::DoorKind::slides || kind == job::DoorKind::curtain) return not_applicable("no leaf swings");
  const bool inward = kind == job::DoorKind::swings_in;
  return mended_by(
      found(inward ? 1 : 0,
            inward ? "it swings inward alone, as the job file says" : "it swings outward, as the job file says",
            "hang it so that it swings outward (door.kind)"),
      {{"door.kind", "\"swings-out\"", 0}});
}

Finding safety_glass(const job::Job& job, const facts::Facts&, const Limit&) {
  if (!job.glass) return not_applicable("no glass is in the job file ([glass])");
  if (!job.glass->marked)
    return missing("look for the mark of safety glazing in a corner of each pane, before it is hung (glass.marked)");
  return found(*job.glass->marked ? 0 : 1, "panes without a mark, as the job file says",
               "send panes back that bear no mark of safety glazing");
}

/// All sides that water runs over first and whose edges are like the lowest.
std::vector<std::string> sides_of_brim(const FloodBrim& brim, const facts::Facts& facts) {
  std::vector<std::string> sides;
  for (const facts::Edge& edge : facts.edges)
    if (edge.open() == brim.lowest->open() && edge.turned != facts::Turned::threshold &&
        std::find(brim.over.begin(), brim.over.end(), edge.side) != brim.over.end())
      sides.push_back(job::name_of(edge.side));
  return sides;
}

/// "right edge", "left and right edges".
std::string edges_text(const std::vector<std::string>& sides) {
  return units::listed(sides) + (sides.size() > 1 ? " edges" : " edge");
}

/// "the rough threshold", "the right edge, which is open".
std::string words_of_brim(const FloodBrim& brim, const facts::Facts& facts) {
  const facts::Edge& edge = *brim.lowest;
  if (edge.turned == facts::Turned::threshold) return brim.rough ? "the rough threshold" : "the threshold";
  const std::vector<std::string> sides = sides_of_brim(brim, facts);
  return "the " + edges_text(sides) +
         (!edge.open()       ? ", over which nothing laps"
          : sides.size() > 1 ? ", which are open"
                             : ", which is open");
}

/// What water stands against the threshold on the day of the test, on what is there then, when it begins to run over.
Finding flood_depth(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!facts.heights.threshold_least_mm)
    return not_applicable("the base has no threshold: build a dam for the flood test");
  const FloodBrim brim = flood_brim(job, facts);
  if (!brim.lowest) return cannot_tell("no edge of the base was found that holds water");
  const double depth = std::max(0.0, brim.top_mm - brim.floor_mm);
  const bool holds = depth > *limit.least - units::tolerance::length_mm;
  if (!brim.unknown.empty() && holds)
    return missing(
        "say how much of the threshold's height is laid on after the flood test, tile and its bond, mortar on a rough "
        "threshold (base.threshold.finish)");
  const std::string where = "water at the threshold when it begins to run over " + words_of_brim(brim, facts) +
                            (brim.on_flange ? ", on the waterproofing before it is covered" : "");
  const std::string more = text_at_least(brim.floor_mm + *limit.least - brim.top_mm, job);
  const facts::Edge& edge = *brim.lowest;
  if (edge.turned == facts::Turned::threshold)
    return found(depth, where,
                 "build a temporary dam at the entry for the flood test, " + more + " above " +
                     (brim.unknown.empty() ? words_of_brim(brim, facts) : "what will be the finished threshold") +
                     " at least");
  const std::vector<std::string> sides = sides_of_brim(brim, facts);
  const std::string edges = edges_text(sides);
  return found(depth, where,
               edge.open()
                   ? "build a temporary dam for the flood test at the entry and along the open " + edges + ", " + more +
                         (sides.size() > 1 ? " above those edges" : " above that edge") + " at least"
                   : "see to the " + edges + " before the flood test: water leaves there, " + more +
                         " too low, and no dam holds it at a wall (base.upstands.lapped)");
}

}  // namespace

std::vector<Rule> access_rules() {
  return {
      {"seat.reach",
       "seat reaches near the entry",
       "nearer end of the seat from the base's front edge",
       "seat block, base: extents",
       Unit::mm,
       "",
       "",
       reach,
       {Input::seat_block, Input::base}},
      {"seat.rear-gap",
       "seat reaches back to its wall",
       "rear edge of the seat from the finished wall behind it, where it is farthest",
       "seat block: corners of the seat; walls: studs, and their build-up",
       Unit::mm,
       "",
       "",
       rear_gap,
       {Input::upright, Input::wall_build_up, Input::walls, Input::seat_block}},
      {"seat.side-gap",
       "seat reaches to the wall at its end",
       "side edge of the seat from the finished wall at its end, where it is farthest",
       "seat block: corners of the seat; walls: studs, and their build-up",
       Unit::mm,
       "",
       "",
       side_gap,
       {Input::upright, Input::wall_build_up, Input::walls, Input::seat_block}},
      {"door.opening",
       "door leaves the entry wide enough",
       "what stays free between frame and leaf when it stands open, and no more than the entry",
       "no solid: a reading; walls, bench frame, seat block: the entry",
       Unit::mm,
       "",
       "",
       door_opening,
       {Input::door}},
      {"door.swing",
       "door does not swing inward alone",
       "doors that open inward alone",
       "no solid: a reading",
       {"door that opens inward alone", "doors that open inward alone"},
       "",
       "",
       door_swing,
       {Input::door_kind}},
      {"bar.height",
       "grab bars are at their height",
       "flange's middle and half the bar, above the shower's rim",
       "job file: fixtures; base: corners of its floor",
       Unit::mm,
       "",
       "",
       bar_height,
       {Input::fixtures, Input::base}},
      {"bar.strength",
       "grab bars carry a person",
       "250 lbf over what bar and fastening carry",
       "no solid: a reading",
       Unit::share,
       "",
       "",
       bar_strength,
       {Input::fixtures}},
      {"controls.height",
       "controls are at their height",
       "middle above the shower's rim",
       "job file: fixtures; base: corners of its floor",
       Unit::mm,
       "",
       "",
       controls_height,
       {Input::fixtures, Input::base}},
      {"controls.reach",
       "controls are within reach of the seat",
       "from the seat's middle toward the entry",
       "job file: fixtures; seat block: extents",
       Unit::mm,
       "",
       "",
       controls_reach,
       {Input::fixtures, Input::seat_block}},
      {"access.clearance-along",
       "floor before the entry is long enough",
       "free floor along the entry",
       "no solid: a reading",
       Unit::mm,
       "",
       "",
       clearance_along,
       {Input::floor_before}},
      {"access.clearance-before",
       "floor before the entry is deep enough",
       "free floor out from the entry",
       "no solid: a reading",
       Unit::mm,
       "",
       "",
       clearance_before,
       {Input::floor_before}},
      {"threshold.bevel",
       "threshold has no upright edge",
       "highest top of the threshold above the floor beside it, on either side, where no bevel is told",
       "base: corners of the threshold's top and of the floor",
       Unit::mm,
       "",
       "",
       bevel,
       {Input::base}},
      {"glass.safety",
       "glass is safety glass",
       "panes without a mark",
       "no solid: a reading",
       {"pane without a mark", "panes without a mark"},
       "",
       "",
       safety_glass,
       {Input::glass}},
      {"flood.depth",
       "threshold holds the flood test",
       "lowest edge that holds the test's water, as it is on the day, minus the floor at the threshold, or what is "
       "waterproof below it",
       "base: corners of its edges and of the floor",
       Unit::mm,
       "",
       "",
       flood_depth,
       {Input::base}},
  };
}

}  // namespace fallwright::rules
