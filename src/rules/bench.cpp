#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "facts/furring.hpp"
#include "job/studs.hpp"
#include "rules/beam.hpp"
#include "rules/book.hpp"
#include "rules/fasteners.hpp"
#include "rules/fasteners_eurocode.hpp"
#include "rules/held_in.hpp"
#include "rules/holding.hpp"
#include "rules/inputs.hpp"
#include "rules/loads.hpp"
#include "rules/push.hpp"
#include "rules/remedy.hpp"
#include "rules/rule_book.hpp"
#include "rules/spot.hpp"
#include "rules/steel.hpp"
#include "rules/words.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

using units::inch_mm;

const char* hung(const job::Job& job) {
  return is_steel(job) ? "wall track" : "wall cleat";
}

/// Nothing to judge, or the joint.
std::optional<Joint> joint_of(const job::Job& job, const facts::Facts& facts) {
  const job::BenchFrame& frame = job.bench->frame;
  if (!facts.cleat || !frame.fastener || !frame.fastener_length || !frame.fasteners_at_stud) return std::nullopt;
  const auto fastener = fastener_of(*frame.fastener);
  if (!fastener) return std::nullopt;
  const double side = facts.cleat->thickness_mm / inch_mm, furred = facts.cleat->farthest_mm / inch_mm;
  // Furring is passed through and holds nothing, nor does a point that stands out behind the stud. All of them are
  // taken as the stud that stands farthest back has them.
  const double into = std::clamp(frame.fastener_length->in_mm() / inch_mm - side - furred, 0.0,
                                 job.walls.stock.depth.in_mm() / inch_mm);
  return Joint{*fastener,
               behind(wood_of(job)),
               side,
               into,
               frame.fastener_length->in_mm() / inch_mm,
               is_steel(job) ? sheet_bears_psi : 0,
               *frame.fasteners_at_stud};
}

/// Why no joint is judged, where that is so.
std::optional<Finding> no_joint(const job::Job& job, const facts::Facts& facts) {
  if (!job.bench) return not_applicable("no bench");
  if (!facts.cleat) return cannot_tell(std::string{"the bench's "} + hung(job) + " was not found on its solids");
  const job::BenchFrame& frame = job.bench->frame;
  if (!frame.fastener || !frame.fastener_length || !frame.fasteners_at_stud) return unread();
  if (!fastener_of(*frame.fastener)) return cannot_tell("the strength of '" + *frame.fastener + "' is not known here");
  if (is_steel(job) && !fastener_of(*frame.fastener)->screw)
    return cannot_tell(
        "a steel track that is nailed to its studs is not judged: hang it on screws (bench.frame.fastener)");
  return std::nullopt;
}

std::string named(const job::BenchFrame& frame, const job::Job& job) {
  return counted(*frame.fasteners_at_stud, *fastener_of(*frame.fastener)) + " " +
         text_of(frame.fastener_length->in_mm(), Unit::mm, job);
}

/// "stud 'wall-left/stud-01' stands 1-1/4\" behind it"; nothing where none stands back by what a person reads.
std::string stands_back(const job::Job& job, const facts::Facts& facts) {
  const facts::Cleat& cleat = *facts.cleat;
  if (cleat.farthest_mm < job.mark_mm() / 2) return "";
  return "stud '" + cleat.farthest_id + "' stands " + text_or_more(cleat.farthest_mm, Unit::mm, job) + " behind it";
}

/// No strip of furring reaches back to it: what is fastened comes after what is framed.
std::string frame_first(const job::Job& job, const facts::Facts& facts) {
  if (facts.cleat->farthest_mm <= facts::most_furring_mm + units::tolerance::length_mm) return "";
  return bring_out("the studs behind the bench first", job.bench->place, job, facts) + "; then ";
}

/// Across furring a fastener bends before its wood bears: how far it reaches into the stud tells nothing of that, and
/// no table of pieces that lie on each other does. Furring as thin as the fastener is let pass; common practice, no
/// source.
std::string bends_across_furring(const Joint& j, const job::Job& job, const facts::Facts& facts) {
  const std::string back = stands_back(job, facts);
  if (back.empty() || facts.cleat->farthest_mm <= j.fastener.diameter * inch_mm + units::tolerance::length_mm)
    return "";
  return "judged by how far its fasteners reach into the stud, and not by how they bend across what lies between: " +
         back + "; bring the wall's studs out to the " + hung(job) +
         " with sisters beside them, or let an engineer judge fasteners across that furring";
}

/// As lines of the job file too; across furring none of them settles it.
Finding with_ways(Finding finding, const std::vector<Holding>& ways, const Joint& j, const job::Job& job,
                  const facts::Facts& facts) {
  if (!frame_first(job, facts).empty() || !bends_across_furring(j, job, facts).empty()) return finding;
  for (const Holding& way : ways) finding = mended_by(std::move(finding), way.changes);
  return finding;
}

/// Fasteners too short for what they go through.
Finding holds_nothing_at(const Joint& j, const job::Job& job, const facts::Facts& facts) {
  const bool nds = !j.wood.eurocode();
  const std::string back = stands_back(job, facts), first = frame_first(job, facts);
  const double furred = first.empty() ? facts.cleat->farthest_mm : 0;
  const double into = j.into_in * inch_mm;
  const std::string reach = into < job.mark_mm() / 2
                                ? " do not reach the stud"
                                : " reach only " + text_or_less(into, Unit::mm, job) + " into the stud";
  const std::vector<Holding> ways = ways_to_carry(j, furred, job);
  Finding finding = found_share(
      std::numeric_limits<double>::infinity(),
      named(job.bench->frame, job) + reach + ", which counts for nothing" +
          (back.empty() ? "" : "; through a " + std::string{hung(job)} + ", and " + back),
      first + "fasteners count that reach " +
          (nds                ? "six"
           : j.fastener.screw ? "four"
                              : "eight") +
          " times their thickness into the stud at least: " +
          (ways.empty() ? "none that is known here holds enough, have an engineer say what does" : told_ways(ways)));
  return with_ways(std::move(finding), ways, j, job, facts);
}

/// Of all walls the one that the bench hangs on decides.
bool knows_studs_behind(const job::Job& job) {
  return !job::are_studs_assumed(job, job.bench->place);
}

std::string plumb_to_take(const job::Job& job) {
  return "plumb the " + std::string{job::name_of(job.bench->place)} + " wall, behind the bench (survey.plumb)";
}
bool knows_lean_behind(const job::Job& job, const facts::Facts& facts) {
  const auto& unread = facts.room.not_plumbed;
  return !job.walls.existing || std::find(unread.begin(), unread.end(), job.bench->place) == unread.end();
}

const char* const stamp_to_read = "say which timber the bench is framed of, by its stamp (bench.frame.species)";

/// How far its studs stand behind the cleat hangs on that wall's lean, and on no other's.
Finding held_anyway(Finding finding, const job::Job& job, const facts::Facts& facts) {
  const bool lean = knows_lean_behind(job, facts);
  finding.holds_anyway = lean && bench_species_known(job) != Standing::assumed;
  finding.read = lean ? stamp_to_read : plumb_to_take(job);
  return finding;
}

/// A person who sits at the wall: all of it at one stud.
Finding cleat(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (const auto none = no_joint(job, facts)) return *none;
  const Joint j = *joint_of(job, facts);
  const double one = j.across();
  if (one <= 0) return held_anyway(holds_nothing_at(j, job, facts), job, facts);
  const std::string back = stands_back(job, facts);
  const double share = person_lbf(job) / (one * j.at_stud);
  const std::string first = frame_first(job, facts);
  const double furred = first.empty() ? facts.cleat->farthest_mm : 0;
  const std::vector<Holding> ways = share > 1 ? ways_to_carry(j, furred, job) : std::vector<Holding>{};
  Finding finding =
      found(share,
            imposed_of(job.book).person + " at one stud of the wall, on " + named(job.bench->frame, job) + ", " +
                text_or_less(j.into_in * inch_mm, Unit::mm, job) + " into it" +
                (back.empty() ? "" : "; through a " + std::string{hung(job)} + ", and " + back),
            first + (ways.empty() ? "no fastener that is known here holds so much at one stud" : told_ways(ways)) +
                "; an engineer has to judge this");
  finding.by = calculated(job);
  finding.unjudged = bends_across_furring(j, job, facts);
  finding = held_anyway(std::move(finding), job, facts);
  return with_ways(std::move(finding), ways, j, job, facts);
}

/// Why the joists' ends are not judged, where that is so.
std::optional<Finding> no_ties(const job::Job& job) {
  const job::BenchFrame& frame = job.bench->frame;
  if (!frame.joist_fastener || !frame.fasteners_at_joist) return unread();
  if (!is_steel(job) && !frame.joist_fastener_length) return unread();
  const auto fastener = fastener_of(*frame.joist_fastener);
  if (!fastener) return cannot_tell("the strength of '" + *frame.joist_fastener + "' is not known here");
  const bool screw = fastener->screw;
  if (is_steel(job) && !screw)
    return cannot_tell("steel joists are held by tapping screws (bench.frame.joist_fastener): nails are not judged");
  if (!is_steel(job) && screw)
    return cannot_tell(
        "screws driven askew through a joist's end are not in the tables: take nails (bench.frame.joist_fastener), or "
        "have an engineer judge brackets");
  return std::nullopt;
}

/// A fall against the bench, or a pull on its edge, at any point and any way.
Finding push(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (const auto none = no_joint(job, facts)) return *none;
  if (const auto none = no_ties(job)) return *none;
  if (!facts.stand) return cannot_tell("the bench was not found on its solids as one body");
  const Joint j = *joint_of(job, facts);
  const job::BenchFrame& frame = job.bench->frame;
  const double lbf = push_lbf(job);
  const Fastener tie = *fastener_of(*frame.joist_fastener);
  const Tie ties{tie, frame.joist_fastener_length ? frame.joist_fastener_length->in_mm() : 0,
                 *frame.fasteners_at_joist};
  const Push all = pushed(job, facts, j, ties);
  const PushedJoint& worst = all.worst();
  const std::string first = frame_first(job, facts);
  std::string advice;
  std::vector<job::Change> changes;
  bool mends = greatest_of_turn(facts.cleat->studs_at_mm).has_value();
  if (!mends) advice = "set another stud behind the bench: about a single one it turns";
  const auto add = [&](const std::optional<Holding>& way, const char* none) {
    mends = mends && way;
    advice += (advice.empty() ? "" : "; ") + (way ? way->words : none);
    if (way) changes.insert(changes.end(), way->changes.begin(), way->changes.end());
  };
  if (all.share_of("cleat") > 1)
    add(way_to_bear(j, first.empty() ? facts.cleat->farthest_mm : 0, job, facts),
        "no fastener that is known here holds so much at a stud: set another one behind the bench, away from these");
  if (all.share_of("joist") > 1)
    add(way_to_tie(ties, job, facts), "no fastener that is known here holds so much at the end of a joist");
  Finding finding =
      found_share(worst.share,
                  worst.what + (std::isinf(worst.share) ? " holds nothing" : "") + ": " + force_text(lbf) +
                      " at the seat's edge, on " + named(frame, job) + " in each stud and " +
                      counted(*frame.fasteners_at_joist, tie) + " at each end of a joist",
                  first + advice + "; an engineer has to judge this");
  for (const PushedJoint& joint : all.joints) finding.details.push_back(joint.line);
  finding.details.push_back(
      "the knee wall is taken to bear down and to take no push; what the rail's nails hold in end grain, glue, the "
      "floor's fasteners and a wall at the bench's end are not counted; dry timber, side grain");
  finding.by = calculated(job);
  if (const std::string back = stands_back(job, facts); !back.empty())
    finding.details.push_back("through the " + std::string{hung(job)} + " first: " + back +
                              ", and every stud is taken so; furring is counted to hold nothing");
  finding.unjudged = bends_across_furring(j, job, facts);
  const bool studs = knows_studs_behind(job), lean = knows_lean_behind(job, facts);
  finding.holds_anyway = studs && lean;
  finding.read =
      std::string{lean ? "" : plumb_to_take(job)} + (studs || lean ? "" : "; ") +
      (studs ? "" : studs_to_find(std::string{job::name_of(job.bench->place)} + " wall", "behind the bench"));
  if (!mends || changes.empty() || !first.empty() || !finding.unjudged.empty()) return finding;
  return mended_by(std::move(finding), std::move(changes));
}

/// How a person's weight comes on an edge: on a square that ends flush with it, 3 in wide where the book has none.
/// A third of a printed strength is counted. Common practice, no source.
constexpr double of_strength = 1. / 3;

/// Where the deck ends the block goes on alone: what stands past that edge bends it over the edge, as wide as the load
/// and once its thickness to the one side that any corner has.
double edge_stress_mpa(const facts::SeatEdge& edge, const Imposed& people) {
  const double load = people.person_n, patch_mm = people.patch_mm, past = edge.past_mm, thick = edge.thick_mm;
  const double moment = past <= patch_mm ? load * past / patch_mm * past / 2 : load * (past - patch_mm / 2);
  return moment / ((patch_mm + thick) * thick * thick / 6);
}

Finding nose(const job::Job& job, const facts::Facts& facts, const Limit&) {
  if (!job.bench) return not_applicable("no bench");
  if (!facts.seat_edge) return cannot_tell("seat block and deck were not found on the solids");
  const facts::SeatEdge& edge = *facts.seat_edge;
  if (edge.past_mm <= job.mark_mm() + units::tolerance::length_mm)
    return not_applicable("the deck carries the seat block up to its edge");
  const Imposed& people = imposed_of(job.book);
  const auto& carries = job.bench->nose_carries_kg;
  const auto& strength = job.bench->strength_mpa;
  const std::string over =
      text_or_more(edge.past_mm, Unit::mm, job) + " past the deck, on the " + job::name_of(edge.side);
  const std::string advice =
      "let it reach less far (bench.overhang, bench.apron_thickness), take a thicker or stronger "
      "block, or bring the frame's front forward";
  if (carries)
    return found(people.said_kg() / *carries,
                 people.person + " on an edge that reaches " + over + ", as its maker says", advice);
  if (!strength)
    return missing("ask the seat block's maker what may stand on an edge that reaches " + over +
                   " (bench.nose_carries), or how strong the block is in bending (bench.strength)");
  if (edge.thick_mm <= 0) return cannot_tell("the seat block's thickness over the deck's edge was not found");
  const double stress = edge_stress_mpa(edge, people), may = *strength * of_strength;
  const bool metric = job.is_metric();
  Finding finding = found(stress / may,
                          people.person + " at the edge of a block that reaches " + over + " and is " +
                              text_or_less(edge.thick_mm, Unit::mm, job) + " thick there: it bends with " +
                              units::stress_text(stress, metric) + " of " + units::stress_text(may, metric),
                          advice);
  finding.details = {units::decimals(person_lbf(job), 0) + " lbf on " + text_of(people.patch_mm, Unit::mm, job) +
                     " square, flush with the edge; bent over the deck's edge, as wide as that and "
                     "the block's thickness more; a third of the maker's " +
                     units::stress_text(*strength, metric) + " counts; an apron below is not counted"};
  return finding;
}

}  // namespace

std::vector<Rule> bench_rules() {
  return {
      {"load.seat-cleat",
       "bench holds at the wall",
       "250 lbf (2.0 kN in a European book) over what the fasteners in one stud take across, the least of six ways to "
       "give way",
       "bench frame: its cleat's or wall track's thickness; walls: how far their studs stand behind it",
       Unit::share,
       "",
       "",
       cleat,
       {Input::cleat_held, Input::upright, Input::bench_species, Input::bench_frame, Input::walls}},
      {"load.seat-push",
       "bench bears a push sideways",
       "200 lbf (250 where the building code holds) off the wall and along it, at the seat's edge, over what fasteners "
       "of cleat and joists take, across and along themselves",
       "bench frame: its cleat and joists; seat block: its edge; walls: studs behind the cleat",
       Unit::share,
       "",
       "",
       push,
       {Input::cleat_held, Input::joists_held, Input::upright, Input::studs, Input::bench_species, Input::bench_frame,
        Input::seat_block, Input::walls}},
      {"load.seat-rail",
       "bench's front rail is held",
       "200 lbf (250 where the building code holds) along the seat's edge, over what the fasteners in the joists' ends "
       "take across; the same off the wall, all on the rail, over what those of the deck in rail and joists take",
       "bench frame: its front rail, joists that end at it, its deck; seat block: its ends",
       Unit::share,
       "",
       "",
       front_rail,
       {Input::bench_species, Input::rail_held, Input::deck_held, Input::bench_frame}},
      {"load.seat-nose",
       "seat block's edge carries a person",
       "250 lbf (2.0 kN in a European book) over what its maker says, or its stress in bending over a third of its "
       "strength",
       "seat block and deck: how far the one reaches past the other, and how thick it is there",
       Unit::share,
       "",
       "",
       nose,
       {Input::edge_strength, Input::bench_frame, Input::seat_block}},
  };
}

}  // namespace fallwright::rules
