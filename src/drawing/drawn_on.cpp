#include <algorithm>
#include <set>

#include "drawing/inspection.hpp"
#include "rules/rejected.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {

namespace {

using Names = std::vector<std::string>;
const Names plan{"plan"}, drain{"drain"}, bore{"drain-plan", "drain"}, arm{"drain-arm", "drain"}, facets{"falls"},
    depths{"bed", "screed"}, sections{"screed-sections"}, apron{"bench-apron", "bench-section"},
    edges{"plan-edges", "plan"}, studs{"plan-framing", "plan"}, end{"bench-side"}, seat{"bench-section"},
    deck{"bench-plan"}, board{"wall-upstand", "wall-back"}, heights{"story-stick", "story-stick-1"},
    seat_front{"bench-front"};

}  // namespace

const std::map<std::string, std::vector<std::string>>& views_of_checks() {
  static const std::map<std::string, Names> views{{"survey.closes", plan},
                                                  {"room.stud-gap", studs},
                                                  {"levelling.window", facets},
                                                  {"base.over-waste", drain},
                                                  {"base.cover", depths},
                                                  {"opening.width", edges},
                                                  {"opening.depth", edges},
                                                  {"drain.in-bore", drain},
                                                  {"drain.bore-clear-of-joists", bore},
                                                  {"bed.bearing", depths},
                                                  {"bed.thickness", depths},
                                                  {"bed.least", depths},
                                                  {"bed.greatest", depths},
                                                  {"seat.height", seat},
                                                  {"seat.depth", end},
                                                  {"liner.above-threshold", sections},
                                                  {"drain.outlet", drain},
                                                  {"joist.hole", arm},
                                                  {"joist.notch", arm},
                                                  {"joist.hole-for-pipe", arm},
                                                  {"trap.size", drain},
                                                  {"trap.arm", drain},
                                                  {"trap.arm-least", drain},
                                                  {"trap.fall", drain},
                                                  {"trap.riser", drain},
                                                  {"joist.hole-edges", arm},
                                                  {"joist.hole-inside", arm},
                                                  {"joist.notch-place", arm},
                                                  {"joist.notch-length", arm},
                                                  {"upstand.board", board},
                                                  {"wall.furred-flat", studs},
                                                  {"load.seat-strength", deck},
                                                  {"load.seat-deflection", deck},
                                                  {"load.seat-cleat", deck},
                                                  {"load.seat-push", deck},
                                                  {"load.seat-rail", deck},
                                                  {"floor.fall-least", facets},
                                                  {"floor.fall-greatest", facets},
                                                  {"floor.drains", facets},
                                                  {"seat.fall-least", facets},
                                                  {"seat.fall-greatest", facets},
                                                  {"seat.drains", facets},
                                                  {"threshold.falls-inward", facets},
                                                  {"threshold.drains", facets},
                                                  {"threshold.height-least", heights},
                                                  {"threshold.height-greatest", heights},
                                                  {"threshold.below-upstand", heights},
                                                  {"seat.keeps-frame-dry", seat},
                                                  {"apron.gap", apron}};
  return views;
}

const std::map<std::string, std::vector<std::string>>& places_of_checks() {
  static const std::map<std::string, Names> places{{"survey.widths-agree", plan},
                                                   {"room.drop-in", plan},
                                                   {"room.goes-in", plan},
                                                   {"seat.goes-in", seat},
                                                   {"rim.fall-least", facets},
                                                   {"rim.fall-greatest", facets},
                                                   {"rim.threshold-least", heights},
                                                   {"rim.threshold-greatest", heights},
                                                   {"rim.threshold-inward", facets},
                                                   {"rim.below-upstand", heights},
                                                   {"rim.riser", drain},
                                                   {"rim.apron", apron},
                                                   {"rim.bed", depths},
                                                   {"rim.twist", facets},
                                                   {"bed.round-drain", drain},
                                                   {"access.opening", edges},
                                                   {"liner.above-seat", sections},
                                                   {"liner.fall", sections},
                                                   {"trap.drop", drain},
                                                   {"trap.turns", drain},
                                                   {"trap.bends", drain},
                                                   {"trap.vented", drain},
                                                   {"trap.below", drain},
                                                   {"trap.aside", drain},
                                                   {"trap.under-drain", drain},
                                                   {"drain.clear-of-finish", drain},
                                                   {"floor.deck-span", studs},
                                                   {"load.joists-strength", studs},
                                                   {"load.joists-deflection", studs},
                                                   {"load.deck", studs},
                                                   {"load.seat-nose", seat},
                                                   {"threshold.step-inside", heights},
                                                   {"threshold.step-outside", heights},
                                                   {"threshold.above-outside", heights},
                                                   {"entry.step", heights},
                                                   {"upstand.every-wall", plan},
                                                   {"clear.area", edges},
                                                   {"clear.width", edges},
                                                   {"clear.circle", edges},
                                                   {"access.inside-width", edges},
                                                   {"access.inside-depth", edges},
                                                   {"access.face", edges},
                                                   {"seat.reach", end},
                                                   {"seat.rear-gap", seat},
                                                   {"seat.side-gap", seat_front},
                                                   {"flood.depth", heights}};
  return places;
}

const std::vector<std::string>& checks_without_view() {
  static const std::vector<std::string> none{
      // Of the model, of the subfloor, of what is bought or mixed, and of what others bring: no sheet has a line of it.
      "solids.valid", "fit.no-clash", "floor.level", "floor.hump", "floor.rock", "base.hand", "base.weight",
      "bed.fills-shell", "bed.squeeze-out", "mix.sand", "mix.lime-m", "mix.lime-s", "mix.lime-n", "mix.lime-o",
      "door.opening", "door.swing", "glass.safety", "bar.height", "bar.strength", "controls.height", "controls.reach",
      "access.clearance-along", "access.clearance-before", "threshold.bevel",
      // How high tile goes is told in the order of work.
      "wall.above-floor", "wall.above-drain", "wall.above-room"};
  return none;
}

bool is_of_fixtures(const std::string& check) {
  return check == "blocking.behind" || check.starts_with("fixture.");
}

bool is_of_upstands(const std::string& check) {
  return check == "upstand.held" || check == "upstand.end-held";
}

namespace {

/// Where fixtures hang or upstands stand: of those that break the check, where any does.
std::set<job::Side> walls_of(const rules::Result& r, const Findings& s) {
  std::set<job::Side> all, breaking;
  const std::vector<rules::Result>& results = s.judgement.results;
  if (is_of_fixtures(r.id))
    for (const facts::Backing& plate : s.facts.backings) {
      all.insert(plate.wall);
      const rules::Result* fails = rules::rejected_plate(results, plate);
      if (fails && fails->id == r.id) breaking.insert(plate.wall);
    }
  if (is_of_upstands(r.id))
    for (const facts::Hold& hold : s.facts.holds) {
      if (hold.behind != facts::Behind::wall) continue;
      all.insert(hold.side);
      const rules::Result* fails = rules::rejected_hold(results, hold);
      if (fails && fails->id == r.id) breaking.insert(hold.side);
    }
  return breaking.empty() ? all : breaking;
}

}  // namespace

std::string drawn_on(const rules::Result& r, const Findings& s, const std::vector<Sheet>& sheets) {
  const auto has = [&](const std::string& name) {
    return std::any_of(sheets.begin(), sheets.end(), [&](const Sheet& sheet) { return sheet.name == name; });
  };
  std::vector<std::string> codes;
  for (const job::Side wall : walls_of(r, s))
    if (const std::string name = std::string{"wall-"} + job::name_of(wall); has(name))
      codes.push_back("{" + name + "}");
  if (!codes.empty()) return units::joined(codes);
  for (const auto* known : {&views_of_checks(), &places_of_checks()})
    if (const auto at = known->find(r.id); at != known->end())
      for (const std::string& name : at->second)
        if (has(name)) return "{" + name + "}";
  return "";
}

}  // namespace fallwright::drawing
