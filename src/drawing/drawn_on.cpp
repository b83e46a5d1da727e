#include <algorithm>

#include "drawing/inspection.hpp"

namespace fallwright::drawing {

const std::map<std::string, std::vector<std::string>>& views_of_checks() {
  using Names = std::vector<std::string>;
  static const Names plan{"plan"}, drain{"drain"}, bore{"drain-plan", "drain"}, arm{"drain-arm", "drain"},
      facets{"falls"}, depths{"bed", "screed"}, sections{"screed-sections"}, apron{"bench-apron", "bench-section"},
      edges{"plan-edges", "plan"}, studs{"plan-framing", "plan"}, end{"bench-side"}, seat{"bench-section"},
      deck{"bench-plan"}, board{"wall-upstand", "wall-back"}, heights{"story-stick"};
  static const std::map<std::string, Names> views{{"survey.closes", plan},
                                                  {"room.stud-gap", studs},
                                                  {"wall.furred-flat", studs},
                                                  {"levelling.window", facets},
                                                  {"base.cover", depths},
                                                  {"base.over-waste", drain},
                                                  {"opening.width", edges},
                                                  {"opening.depth", edges},
                                                  {"drain.in-bore", drain},
                                                  {"drain.bore-clear-of-joists", bore},
                                                  {"drain.outlet", drain},
                                                  {"joist.hole", arm},
                                                  {"joist.notch", arm},
                                                  {"joist.hole-for-pipe", arm},
                                                  {"joist.hole-edges", arm},
                                                  {"joist.hole-inside", arm},
                                                  {"joist.notch-place", arm},
                                                  {"joist.notch-length", arm},
                                                  {"trap.size", drain},
                                                  {"trap.arm", drain},
                                                  {"trap.arm-least", drain},
                                                  {"trap.fall", drain},
                                                  {"trap.riser", drain},
                                                  {"bed.thickness", depths},
                                                  {"bed.least", depths},
                                                  {"bed.greatest", depths},
                                                  {"bed.bearing", depths},
                                                  {"seat.height", seat},
                                                  {"seat.depth", end},
                                                  {"liner.above-threshold", sections},
                                                  {"upstand.board", board},
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
                                                  {"apron.gap", apron},
                                                  {"seat.keeps-frame-dry", seat},
                                                  {"load.seat-strength", deck},
                                                  {"load.seat-deflection", deck},
                                                  {"load.seat-cleat", deck},
                                                  {"load.seat-push", deck},
                                                  {"load.seat-rail", deck}};
  return views;
}

std::string drawn_on(const std::string& check, const std::vector<Sheet>& sheets) {
  const auto known = views_of_checks().find(check);
  if (known == views_of_checks().end()) return "";
  for (const std::string& name : known->second)
    if (std::any_of(sheets.begin(), sheets.end(), [&](const Sheet& sheet) { return sheet.name == name; }))
      return "{" + name + "}";
  return "";
}

}  // namespace fallwright::drawing
