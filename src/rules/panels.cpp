#include <algorithm>
#include <cmath>

#include "facts/furring.hpp"
#include "job/studs.hpp"
#include "rules/book.hpp"
#include "rules/rule_book.hpp"
#include "rules/span_rating.hpp"
#include "rules/told.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

using units::inch_mm;

/// Where nobody says how thick the wall board is: 1/2 in, 12.5 mm. Common practice, no source.
double board_mm(const job::Job& job) {
  return job.survey.board_mm.value_or(job.is_metric() ? 12.5 : inch_mm / 2);
}

/// Where the board's lowest screws are: one spacing of screws above the upstand. Common practice, no source.
double first_screw_mm(const job::Job& job) {
  return job.is_metric() ? 200 : 8 * inch_mm;
}

Finding kick(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (job.base.upstand_thickness.is_zero() || job.base.upstands.empty())
    return not_applicable("the base has no upstands");
  const facts::Hold* worst = nullptr;
  for (const facts::Hold& hold : facts.holds)
    if (hold.behind == facts::Behind::wall && (!worst || hold.thickness_mm > worst->thickness_mm)) worst = &hold;
  if (!worst) return not_applicable("no upstand stands against a wall's studs");
  const double proud = worst->thickness_mm - board_mm(job), screw = first_screw_mm(job);
  std::string sides;
  for (const facts::Hold& hold : facts.holds)
    if (hold.behind == facts::Behind::wall &&
        hold.thickness_mm - board_mm(job) > *limit.greatest + units::tolerance::length_mm)
      sides += (sides.empty() ? "" : ", ") + std::string{job::name_of(hold.side)};
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  const std::string at = len(worst->thickness_mm) + " upstand against a board of " + len(board_mm(job));
  Finding finding =
      found(proud, at + (sides.empty() ? "" : ", along the " + sides + " wall"),
            "fur the studs out by " + text_at_least(proud, job) + " from the upstands up (" + sides +
                "), or take a thicker board: else it is kicked out by " + len(proud) + " over the " + len(screw) +
                " up to its lowest screws, " + units::decimals(std::atan2(proud, screw) * 180 / M_PI, 1) + " degrees");
  finding.holds_anyway = worst->thickness_mm <= inch_mm / 4 + units::tolerance::length_mm;  // no wall board is thinner
  finding.may_hold = worst->thickness_mm <= inch_mm * 5 / 8 + *limit.greatest + units::tolerance::length_mm;
  return finding;
}

/// What flatness is told over: 24 in. Over a longer bay it lets the same straightedge show more.
constexpr double straightedge_mm = 24 * inch_mm;

double off_flat_mm(const facts::Kink& kink) {
  return kink.by_mm * std::min(1.0, straightedge_mm / kink.within_mm);
}

/// Which walls are looked at: those whose studs somebody read, or all. Of no wall that is to be framed out, where other
/// boards will lie.
struct WallsSeen {
  const job::Job& job;
  const facts::Facts& facts;
  bool read = false;
  bool has(job::Side wall) const {
    return !facts::wall_waits(facts.room.studs, wall) && !(read && job::are_studs_assumed(job, wall));
  }
};

/// Of kinks that are alike the walls in turn.
const facts::Kink* worst_kink(const WallsSeen& seen) {
  const facts::Facts& facts = seen.facts;
  const job::Side hand = told_hand(facts);
  const facts::Kink* worst = nullptr;
  for (const facts::Kink& kink : facts.room.kinks) {
    if (!seen.has(kink.wall)) continue;
    const double more = worst ? off_flat_mm(kink) - off_flat_mm(*worst) : 0;
    const bool first =
        worst && std::abs(more) <= units::tolerance::length_mm && turn_of(kink.wall, hand) < turn_of(worst->wall, hand);
    if (!worst || first || more > units::tolerance::length_mm) worst = &kink;
  }
  return worst;
}

double off_flat_mm(const facts::Fold& fold) {
  return fold.turn * straightedge_mm;
}

/// Of folds that are alike the walls in turn; plumb tells them, wherever studs stand. Of no wall that is to be framed
/// out.
const facts::Fold* worst_fold(const facts::Facts& facts) {
  const job::Side hand = told_hand(facts);
  const facts::Fold* worst = nullptr;
  for (const facts::Fold& fold : facts.room.folds) {
    if (facts::wall_waits(facts.room.studs, fold.wall)) continue;
    const double more = worst ? off_flat_mm(fold) - off_flat_mm(*worst) : 0;
    const bool first =
        worst && std::abs(more) <= units::tolerance::length_mm && turn_of(fold.wall, hand) < turn_of(worst->wall, hand);
    if (!worst || first || more > units::tolerance::length_mm) worst = &fold;
  }
  return worst;
}

Finding folded(const job::Job& job, const facts::Fold& fold) {
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  const std::string wall = job::name_of(fold.wall);
  return found(off_flat_mm(fold),
               wall + " wall's board folds by " + len(off_flat_mm(fold)) + " within " + len(straightedge_mm) +
                   " up the wall at " + len(fold.above_datum_mm) +
                   " above the datum, where a strip of furring has tapered to nothing",
               "plane or sister the " + wall +
                   " wall's studs straight, so that strips run on to their heads: else its tile does not lie flat");
}

/// About which the board turns: from where studs of its wall are counted.
std::string stud_of(const facts::Kink& kink, const job::Job& job) {
  return "the stud at " + text_of(kink.at_mm, Unit::mm, job) +
         (kink.wall == job::Side::back ? " from its left end" : " from the back corner");
}

/// A wall's own kink, as it is told.
std::string turns_text(const facts::Kink& kink, const job::Job& job) {
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  return std::string{job::name_of(kink.wall)} + " wall's board turns in " + len(kink.by_mm) + " within " +
         len(kink.within_mm) + " at " + stud_of(kink, job) + ", " + len(kink.above_datum_mm) + " above the datum";
}

/// The walls that are seen, by what is worst of them.
Finding flat(const WallsSeen& seen, double greatest_mm) {
  const auto& [job, facts, read] = seen;
  const facts::Kink* kink = worst_kink(seen);
  const facts::Fold* fold = worst_fold(facts);
  if (fold && (!kink || off_flat_mm(*fold) > off_flat_mm(*kink) + units::tolerance::length_mm))
    return folded(job, *fold);
  if (!kink) return not_applicable("no wall is furred before base or bench");
  const std::string stud = stud_of(*kink, job), more = text_at_least(kink->by_mm, job);
  std::string others, walls = std::string{job::name_of(kink->wall)} + " wall";
  for (const facts::Kink& other : facts.room.kinks)
    if (&other != kink && seen.has(other.wall) && off_flat_mm(other) > greatest_mm)
      others += "; " + turns_text(other, job);
  if (!others.empty()) walls += ", and the others alike";
  return found(off_flat_mm(*kink), turns_text(*kink, job) + others,
               kink->toward_room ? walls + ": fur more what stands back beside " + stud + ", by " + more +
                                       " at the next stud and in line on to "
                                       "the corner" +
                                       (job.bench ? ", above the seat where the bench stands before it" : "") +
                                       ": else its tile does not lie flat"
                                 : walls + ": fur " + stud + " by " + more + " more: else its tile does not lie flat");
}

/// Where a wall's board turns hangs on where its studs stand: what nobody read is flat whatever they are only where it
/// turns nowhere.
Finding furred_flat(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const double greatest = limit.greatest.value_or(0) + units::tolerance::length_mm;
  Finding sure = flat({job, facts, true}, greatest), all = flat({job, facts}, greatest);
  const bool broken = sure.measured && *sure.measured > greatest;
  if (const std::string first = to_frame_out(facts); !first.empty() && (!all.measured || *all.measured <= greatest))
    return missing(first);
  Finding& finding = broken ? sure : all;
  finding.may_hold = !broken;
  finding.holds_anyway =
      broken || std::none_of(facts.room.kinks.begin(), facts.room.kinks.end(), [&](const facts::Kink& kink) {
        return job::are_studs_assumed(job, kink.wall) && off_flat_mm(kink) > units::tolerance::length_mm;
      });
  return finding;
}

/// Where boards are sold by millimetres: what the weakest of them spans. Between that and what plywood spans it is to
/// be found out which board lies there.
Finding board_span(const job::Job& job, const facts::Facts& facts) {
  const facts::FloorDeck& deck = facts.deck;
  const double apart = bay_mm(job, facts);
  const BoardSpan spans = board_span_of(deck.thickness_mm);
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  constexpr double slack = units::tolerance::length_mm;
  if (apart > spans.chipboard_mm + slack && apart <= spans.plywood_mm + slack)
    return missing("find what the floor's deck is of: " + len(deck.thickness_mm) + " thick over joists " + len(apart) +
                   " apart plywood and OSB3 do, chipboard does not");
  const std::string place = deck.measured ? "in the bay at " + place_of(deck.at_mm, facts.room.faces, job)
                                          : "joists as the job file says; none is modelled";
  Finding finding = found(apart,
                          "deck " + len(deck.thickness_mm) + " thick, taken as chipboard" +
                              (spans.chipboard_mm > 0 ? "" : ", too thin for a floor") + "; " + place,
                          "lay a second deck over it, take a thicker one (floor.deck), or set joists between: it bends "
                          "between its joists and the tile cracks; look at the stamp on the board");
  finding.greatest = apart <= spans.chipboard_mm + slack ? spans.chipboard_mm : spans.plywood_mm;
  return finding;
}

Finding deck_span(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (job.floor.kind == job::FloorKind::slab) return not_applicable("a slab has no joists");
  const facts::FloorDeck& deck = facts.deck;
  if (deck.thickness_mm <= 0) return cannot_tell("the floor's deck was not found on its solid (floor.deck)");
  if (is_metric_book(job.book)) return board_span(job, facts);
  const double apart = bay_mm(job, facts);
  const SpanRating* r = span_rating_of(deck.thickness_mm);
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  const std::string place = deck.measured ? "in the bay at " + place_of(deck.at_mm, facts.room.faces, job)
                                          : "joists as the job file says; none is modelled";
  Finding finding = found(
      apart,
      "deck " + len(deck.thickness_mm) + " thick, " +
          (r ? std::string{"usually rated "} + r->name : std::string{"too thin to be rated as a floor"}) + "; " + place,
      std::string{"lay a second deck over it"} + (r ? "" : " of 3/4\" (18 mm)") +
          ", take a thicker one (floor.deck), or set joists between: it bends between its joists "
          "and the tile cracks; look at the stamp on the panel");
  finding.greatest = r ? r->span_mm : 0;
  return finding;
}

}  // namespace

std::vector<Rule> panel_rules() {
  return {
      {"upstand.board",
       "upstands do not kick the board out",
       "thickness of the upstand less that of the wall board, on studs in the plane of the base's edge",
       "base: its upstands; readings: the board",
       Unit::mm,
       "",
       "",
       kick,
       {Input::board, Input::base}},
      {"wall.furred-flat",
       "furred walls are flat enough for tile",
       "how far a wall's board swings off a straight line from one bay between studs to the next, on studs and strips "
       "of the list, over the bay or over 24 in (610 mm) of it; and up the wall, where a strip has tapered to nothing",
       "walls: faces of studs, and strips before them",
       Unit::mm,
       "",
       "",
       furred_flat,
       {Input::plan, Input::plumb, Input::studs, Input::walls, Input::base, Input::bench_frame}},
      {"floor.deck-span",
       "floor's deck spans its joists",
       "distance of joists under base and bench, middle to middle, against the span rating usual for the deck's "
       "thickness; of metric boards against what chipboard of that thickness spans",
       "joists: their middles; subfloor: its thickness",
       Unit::mm,
       "",
       "",
       deck_span,
       {Input::deck, Input::joist_spacing, Input::subfloor, Input::joist_solids}},
  };
}

}  // namespace fallwright::rules
