#include <algorithm>
#include <cmath>

#include "job/pipe.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/joists.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/rule_book.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

const char* const which_pipe = "say which pipe the trap arm is (trap.pipe)";

/// What holds for one size of pipe.
struct Bounds {
  std::optional<double> least, greatest;
};

/// The trap arm's pipe, or where nobody said which, every pipe it may be: those that the book's country sells.
std::vector<const job::Pipe*> may_be(const job::Job& job) {
  if (const job::Pipe* pipe = job::arm_pipe(job)) return {pipe};
  std::vector<const job::Pipe*> all;
  for (const job::Pipe& pipe : job::pipes(is_metric_book(job.book) ? job::PipeSeries::metric : job::PipeSeries::inch))
    all.push_back(&pipe);
  return all;
}

/// The stricter of two bounds each way, or the milder.
Bounds of_both(const Bounds& a, const Bounds& b, bool stricter) {
  const auto pick = [](auto x, auto y, bool larger) { return x && y ? (larger ? std::max(x, y) : std::min(x, y)) : x; };
  return {pick(a.least, b.least, stricter), pick(a.greatest, b.greatest, !stricter)};
}

/// A value against bounds that go by the pipe's size. Where nobody said which pipe it is they hold if they hold for
/// every one, are broken if they are for every one, and else the pipe decides.
template <class BoundsOf, class Advice>
Finding by_pipe(const job::Job& job, double value, Unit unit, const std::string& what, BoundsOf bounds_of,
                Advice advice, const std::string& source = {}) {
  std::vector<Bounds> bounds;
  std::string name;
  for (const job::Pipe* pipe : may_be(job)) {
    name = pipe->name;
    if (const std::optional<Bounds> one = bounds_of(*pipe)) bounds.push_back(*one);
  }
  if (bounds.empty()) return not_applicable(source + " has no limit for a pipe of " + name);
  const auto kept = std::count_if(bounds.begin(), bounds.end(), [&](const Bounds& b) {
    Limit limit;
    limit.unit = unit, limit.least = b.least, limit.greatest = b.greatest;
    return keeps(value, limit);
  });
  if (kept != 0 && kept != static_cast<long>(bounds.size())) return missing(which_pipe);
  Bounds held = bounds.front();
  for (const Bounds& b : bounds) held = of_both(held, b, kept != 0);
  const job::Pipe* known = job::arm_pipe(job);
  const std::string pipe = !known           ? "whichever pipe it is"
                           : job.trap->pipe ? std::string{known->name} + " pipe"
                                            : std::string{known->name} + " pipe, as the drain's outlet";
  const std::string mildest = known ? "" : "; that is for the pipe with the most room: say which it is (trap.pipe)";
  Finding finding = found(value, what + "; " + pipe, advice(held) + mildest);
  finding.least = held.least;
  finding.greatest = held.greatest;
  finding.holds_anyway = true;
  return finding;
}

/// What a rule book has for one pipe; a row without a table by pipe holds for all. A pipe made in millimetres counts as
/// the inches it is sold for, and the other way round: DN 50 as 2 in.
std::optional<Bounds> in_book(const Limit& limit, const job::Pipe& pipe) {
  if (limit.by_pipe.empty()) return Bounds{limit.least, limit.greatest};
  constexpr double sold_alike_mm = 2;  // DN 40 and 1-1/2 in, DN 50 and 2 in, DN 75 and 3 in
  const ByPipe* nearest = nullptr;
  const auto off = [&](const ByPipe& row) { return std::abs(row.nominal_mm - pipe.nominal_mm); };
  for (const ByPipe& row : limit.by_pipe)
    if (off(row) <= sold_alike_mm && (!nearest || off(row) < off(*nearest))) nearest = &row;
  return nearest ? std::optional{Bounds{nearest->least, nearest->greatest}} : std::nullopt;
}

/// A value against a row of a rule book.
template <class Advice>
Finding by_book(const job::Job& job, const Limit& limit, double value, const std::string& what, Advice advice) {
  if (limit.by_pipe.empty()) return found(value, what, advice(Bounds{limit.least, limit.greatest}));
  return by_pipe(
      job, value, limit.unit, what, [&](const job::Pipe& pipe) { return in_book(limit, pipe); }, advice, limit.source);
}

/// A pipe whose way is not known is taken at its word; one that crosses joists goes through them somehow.
Finding no_hole(const job::Job& job, const facts::Facts& facts) {
  const std::size_t crossed = facts.pipe.crossings.size() + facts.pipe.offset_through.size();
  if (crossed == 0 || job.trap->notch) return not_applicable("the pipe takes no hole from a joist (trap.hole)");
  return missing("say which hole the pipe takes through the " + std::to_string(crossed) +
                 (crossed == 1 ? " joist" : " joists") + " it crosses (trap.hole), or how deep a notch (trap.notch)");
}

/// The limits are the joist's own: a third of its depth and two inches from either edge; a sixth of its depth.
Finding joist_hole(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  if (job.floor.kind == job::FloorKind::slab) return not_applicable("a slab has no joists");
  if (!job.trap) return unread();
  if (const auto clear = clear_of_joists(job, facts.pipe); clear && facts.pipe.offset_through.empty()) return *clear;
  if (!job.trap->hole) return no_hole(job, facts);
  if (!facts.room.drain.joists_known) return unread();
  const double most = greatest_in_force(joist_cuts(facts.room.drain.joist_depth_mm).hole_mm, ground, "joist.hole");
  const double edge = limits.at("joist.hole-edges").least.value_or(0);
  Finding finding = found(
      job.trap->hole->in_mm(),
      "hole for the trap arm; this joist is " + text_of(facts.room.drain.joist_depth_mm, Unit::mm, job) + " deep",
      "at most " + text_or_less(most, Unit::mm, job) + (edge > 0 ? ", at least " + text_at_least(edge, job) : "") +
          (edge > 0 ? " from either edge" : "") + ": route the arm along the bay, or ask an engineer");
  finding.greatest = most;
  if (most <= 0) return finding;
  return mended_by(std::move(finding), {set_length("trap.hole", units::down_to_mark(most, job.mark_mm()), job)});
}

/// Of the joists that were described the one in which the arm lies deepest, where it takes notches alone.
std::optional<NotchAt> deepest_notch(const job::Job& job, const facts::PipeRun& pipe) {
  std::optional<NotchAt> deepest;
  if (!takes_notches(*job.trap)) return deepest;
  for (const facts::JoistCrossing& crossing : pipe.crossings) {
    const auto at = crossing.modelled ? notch_at(crossing) : std::nullopt;
    if (at && (!deepest || at->deep_mm > deepest->deep_mm)) deepest = at;
  }
  return deepest;
}

/// A notch is as deep as the arm lies in its joist: a shallower one, whatever the job file says, does not take it.
Finding too_shallow(const NotchAt& at, double most, const job::Job& job, const facts::Facts& facts) {
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  const std::string joist = said_joist(at.crossing->joist, facts, job) + level_of_hook(facts);
  Finding finding =
      found(at.deep_mm,
            "notch from " + std::string{at.from_below ? "below" : "above"} + " that takes the arm in " + joist + ", " +
                len(at.crossing->from_weir_mm) + " from the weir; the one that the job file tells of, " +
                len(job.trap->notch->in_mm()) + " deep, does not reach it (trap.notch)",
            "the arm lies too deep in its joists for a notch of at most " + text_or_less(most, Unit::mm, job) +
                ": bore instead (trap.hole), route the arm along the bay, or ask an engineer; or read "
                "again how high it lies (trap.weir)");
  finding.greatest = most;
  finding.unjudged = "cut the notch " + text_at_least(at.deep_mm, job) + " deep at least, or read again how high the " +
                     "arm lies: one of " + len(job.trap->notch->in_mm()) + " does not take it (trap.notch, trap.weir)";
  return finding;
}

/// Of a thick joist: a notch from below is none that it may have, however shallow.
std::optional<Finding> on_tension_side(const job::Job& job, const facts::Facts& facts) {
  if (!takes_notches(*job.trap) || !is_thick(job)) return std::nullopt;
  std::optional<Finding> open;
  for (const facts::JoistCrossing& c : facts.pipe.crossings) {
    if (!c.modelled) continue;
    const auto tension = in_tension(job, c);
    if (!tension)
      open = missing(
          "a joist 4\" thick takes no notch from below but at its ends: read how high the trap's weir lies, "
          "how its arm falls and which pipe it is (trap.weir, trap.fall, trap.pipe), and where the joists "
          "bear (floor.joists.bearing, floor.joists.span)");
    if (!tension.value_or(false)) continue;
    Finding finding = found(std::max(notch_at(c)->deep_mm, job.trap->notch->in_mm()),
                            "notch from below in " + said_joist(c.joist, facts, job) + level_of_hook(facts) + ", " +
                                text_of(c.from_weir_mm, Unit::mm, job) +
                                " from the weir; a joist 4\" thick by its name "
                                "takes none on its tension side but at its ends",
                            "bore there instead (trap.hole), route the arm along the bay, or ask an engineer");
    finding.greatest = 0;
    return finding;
  }
  return open;
}

Finding joist_notch(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  if (job.floor.kind == job::FloorKind::slab) return not_applicable("a slab has no joists");
  if (!job.trap) return unread();
  if (!job.trap->notch) return not_applicable("the pipe takes no notch from a joist (trap.notch)");
  if (const auto clear = clear_of_joists(job, facts.pipe)) return *clear;
  if (!facts.room.drain.joists_known) return unread();
  if (auto tension = on_tension_side(job, facts)) return std::move(*tension);
  const double most = greatest_in_force(joist_cuts(facts.room.drain.joist_depth_mm).notch_mm, ground, "joist.notch");
  const auto deepest = deepest_notch(job, facts.pipe);
  if (deepest && deepest->deep_mm > job.trap->notch->in_mm() + job.mark_mm() / 2)
    return too_shallow(*deepest, most, job, facts);
  Finding finding = found(job.trap->notch->in_mm(), "notch, outside the middle third of the span",
                          "at most " + text_or_less(most, Unit::mm, job) + ": bore instead, or ask an engineer");
  finding.greatest = most;
  return mended_by(std::move(finding), {set_length("trap.notch", units::down_to_mark(most, job.mark_mm()), job)});
}

/// A pipe is thicker outside than its name says; its hubs are thicker still and lie beside the joist.
Finding hole_for_pipe(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  if (job.floor.kind == job::FloorKind::slab) return not_applicable("a slab has no joists");
  if (!job.trap) return unread();
  if (const auto clear = clear_of_joists(job, facts.pipe); clear && facts.pipe.offset_through.empty()) return *clear;
  if (!job.trap->hole) return no_hole(job, facts);
  const auto& joist = facts.room.drain;
  const double most = greatest_in_force(joist_cuts(joist.joist_depth_mm).hole_mm, ground, "joist.hole");
  const auto past_the_joist = [&](double mm) { return joist.joists_known && joist.joist_depth_mm > 0 && mm > most; };
  // A pipe of one name may be thicker in another make: where that decides it is to be measured.
  const double hole = job.trap->hole->in_mm();
  const job::Pipe* pipe = job::arm_pipe(job);
  if (pipe && !job.trap->outside && hole >= pipe->outside_mm && hole < pipe->outside_most_mm)
    return missing(measure_outside(*pipe, job));
  Finding finding = by_pipe(
      job, hole, Unit::mm, "hole for the trap arm, against the pipe's outside",
      [&](const job::Pipe& each) {
        const double outside = ground.job.trap->outside ? ground.job.trap->outside->in_mm() : each.outside_mm;
        return std::optional{Bounds{least_in_force(outside, ground, "joist.hole-for-pipe"), {}}};
      },
      [&](const Bounds& held) {
        const std::string wanted = text_at_least(*held.least, job);
        if (past_the_joist(*held.least))
          return "no hole that this joist allows, " + text_or_less(most, Unit::mm, job) + " at most, takes a pipe " +
                 wanted + " thick: route the arm along the bay, or ask an engineer";
        return "bore it " + wanted + " at least (trap.hole)";
      });
  if (!finding.least || past_the_joist(*finding.least)) return finding;
  return mended_by(std::move(finding), {set_length("trap.hole", up_to_mark(*finding.least, job), job)});
}

constexpr double as_sold = 25 / units::inch_mm;  ///< 50 mm serves for 2 in

/// The smallest pipe with which an arm of that length would do, and that is no narrower than what runs into it.
const job::Pipe* other_pipe(const job::Job& job, const facts::Facts& facts, double arm_mm, const Limit& limit) {
  const job::Pipe* now = job::arm_pipe(job);
  const double least = facts.drain.outlet_mm ? *facts.drain.outlet_mm * as_sold : now ? now->nominal_mm : 0;
  for (const ByPipe& row : limit.by_pipe)
    if (now && row.greatest && *row.greatest >= arm_mm && row.nominal_mm >= least - units::tolerance::length_mm)
      return job::pipe_of(job::Length::mm(row.nominal_mm));
  return nullptr;
}

Finding arm(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.trap) return unread();
  if (!job.trap->arm) return missing("measure the trap arm from weir to vent (trap.arm)");
  const double length = job.trap->arm->in_mm();
  const job::Pipe* other = other_pipe(job, facts, length, limit);
  Finding finding = by_book(
      job, limit, length, "trap arm, weir to vent along its middle, as the job file says", [&](const Bounds& held) {
        return "bring a vent within " + text_at_most_on_tape(*held.greatest, job) + " of the trap's weir (trap.arm)" +
               (other ? ", or run the arm in " + std::string{other->name} + " pipe (trap.pipe)" : "");
      });
  const auto greatest = finding.greatest ? finding.greatest : limit.greatest;
  if (!finding.measured || !greatest) return finding;
  finding = mended_by(std::move(finding), {set_length("trap.arm", down_to_mark(*greatest, job), job)});
  return other ? mended_by(std::move(finding), {set_length("trap.pipe", other->nominal_mm, job)}) : finding;
}

Finding arm_least(const Ground& ground, const Limit&) {
  const job::Job& job = ground.job;
  if (!job.trap) return unread();
  if (!job.trap->arm) return missing("measure the trap arm from weir to vent (trap.arm)");
  Finding finding = by_pipe(
      job, job.trap->arm->in_mm(), Unit::mm,
      "trap arm, weir to vent, as the job file says; two pipe diameters at least",
      [&](const job::Pipe& pipe) {
        return std::optional{Bounds{least_in_force(2 * pipe.nominal_mm, ground, "trap.arm-least"), {}}};
      },
      [&](const Bounds& held) {
        return "take the vent off " + text_at_least(*held.least, job) +
               " from the trap's weir at least (trap.arm): nearer it fouls, or draws the trap dry";
      });
  if (!finding.least) return finding;
  return mended_by(std::move(finding), {set_length("trap.arm", up_to_mark(*finding.least, job), job)});
}

Finding fall(const job::Job& job, const facts::Facts&, const Limit& limit) {
  if (!job.trap) return unread();
  if (!job.trap->fall) return missing("measure the trap arm's fall (trap.fall)");
  const double ratio = job.trap->fall->as_ratio();
  Finding finding = by_book(job, limit, ratio, "trap arm, as the job file says", [&](const Bounds& held) {
    const bool flat = held.least && ratio < *held.least;
    return "pitch it to " + text_of(flat || !held.greatest ? *held.least : *held.greatest, Unit::ratio, job) +
           (flat ? " at least" : " at most") + " (trap.fall)";
  });
  const auto least = finding.least ? finding.least : limit.least,
             greatest = finding.greatest ? finding.greatest : limit.greatest;
  if (!finding.measured || (!least && !greatest)) return finding;
  const bool flat = least && ratio < *least;
  return mended_by(std::move(finding), {set_fall("trap.fall", flat || !greatest ? *least : *greatest, job)});
}

/// An arm that falls by more than its own diameter has its vent below the weir and can draw its trap dry.
Finding drop(const Ground& ground, const Limit&) {
  const job::Job& job = ground.job;
  if (!job.trap) return unread();
  if (!job.trap->arm) return missing("measure the trap arm from weir to vent (trap.arm)");
  if (!job.trap->fall) return missing("measure the trap arm's fall (trap.fall)");
  const double length = job.trap->arm->in_mm(), ratio = job.trap->fall->as_ratio();
  const Limit least_fall = ground.limits.at("trap.fall");
  Finding finding = by_pipe(
      job, length * ratio, Unit::mm,
      "over " + text_of(length, Unit::mm, job) + " of arm, bends and all, at " + text_of(ratio, Unit::ratio, job) +
          ", against one pipe diameter",
      [&](const job::Pipe& pipe) {
        return std::optional{Bounds{{}, greatest_in_force(pipe.nominal_mm, ground, "trap.drop")}};
      },
      [&](const Bounds& held) {
        std::string text = "bring the vent within " + text_at_most_on_tape(*held.greatest / ratio, job) +
                           " of the weir at this fall (trap.arm)";
        const job::Pipe* pipe = job::arm_pipe(job);
        const auto flattest = pipe ? in_book(least_fall, *pipe) : std::nullopt;
        if (flattest && flattest->least && length * *flattest->least <= *held.greatest)
          text += ", or pitch the arm to " + text_of(*flattest->least, Unit::ratio, job) + " (trap.fall)";
        return text;
      });
  if (!finding.greatest) return finding;
  return mended_by(std::move(finding), {set_length("trap.arm", down_to_mark(*finding.greatest / ratio, job), job)});
}

/// "2 bends by 45 and 90 degrees".
std::string bends_text(const std::vector<job::Bend>& bends) {
  if (bends.empty()) return "no bend, as the job file says";
  std::vector<std::string> angles;
  for (const job::Bend& bend : bends) angles.push_back(units::decimals(bend.degrees, 0));
  return std::to_string(bends.size()) + (bends.size() == 1 ? " bend by " : " bends by ") + units::listed(angles) +
         " degrees, as the job file says";
}

bool knows_bends(const job::Trap& trap) {
  return trap.to || !trap.bends.empty();
}

/// Level bends, added up; where a cleanout serves them they may be what they are.
Finding turns(const job::Job& job, const facts::Facts&, const Limit& limit) {
  if (!job.trap || !knows_bends(*job.trap)) return unread();
  if (job.trap->cleanout.value_or(false) && !job.trap->bends.empty())
    return not_applicable("a cleanout serves the arm's bends");
  double degrees = 0;
  for (const job::Bend& bend : job.trap->bends) degrees += bend.degrees;
  Finding finding = by_book(job, limit, degrees, bends_text(job.trap->bends) + ", added up", [&](const Bounds& held) {
    return "put a cleanout where it reaches the arm's bends (trap.cleanout), or lay the arm with " +
           text_of(*held.greatest, Unit::count, job) +
           " degrees of bends at most (trap.bend); whether a trap that comes apart serves for one is the inspector's "
           "to "
           "say";
  });
  if (!finding.measured) return finding;
  if (degrees == 0 || limit.by_pipe.empty()) finding.holds_anyway = true;  // whichever pipe it is
  return mended_by(std::move(finding), {{"trap.cleanout", "\"yes\"", 0}});
}

Finding bends(const job::Job& job, const facts::Facts&, const Limit& limit) {
  if (!job.trap || !knows_bends(*job.trap)) return unread();
  const auto& all = job.trap->bends;
  return found(static_cast<double>(all.size()), bends_text(all),
               "lay the arm with " + text_of(*limit.greatest, Unit::count, job) +
                   " bends at most (trap.bend), or vent it nearer to the trap");
}

/// What a drain's outlet lets through its trap and arm take: no pipe narrows in the direction of flow.
Finding size(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  if (!job.trap) return unread();
  if (!job.trap->pipe) return missing(which_pipe);
  if (!facts.drain.outlet_mm) return cannot_tell("the drain's outlet was not found on its solid");
  const double outlet = *facts.drain.outlet_mm, nominal = job::arm_pipe(job)->nominal_mm;
  const job::Pipe* enough = nullptr;
  for (const job::PipeSeries series : {job::PipeSeries::inch, job::PipeSeries::metric})
    for (const job::Pipe& pipe : job::pipes(series))
      if ((series == job::PipeSeries::metric) == is_metric_book(job.book) && !enough &&
          pipe.nominal_mm >= least_in_force(outlet * as_sold, ground, "trap.size") - units::tolerance::length_mm)
        enough = &pipe;
  Finding finding =
      found(nominal, "trap arm's pipe, against the drain's outlet of " + text_of(outlet, Unit::mm, job),
            "lay trap and arm " + (enough ? "in " + std::string{enough->name} + " pipe" : std::string{"as wide"}) +
                " (trap.pipe): none narrows on its way down");
  finding.least = nominal < outlet - units::tolerance::length_mm ? outlet * as_sold : outlet;
  if (!enough) return finding;
  return mended_by(std::move(finding), {set_length("trap.pipe", enough->nominal_mm, job)});
}

}  // namespace

std::string meets_no_joist(const facts::PipeRun& pipe) {
  if (!pipe.routed || !pipe.crossings.empty()) return "";
  if (pipe.beside_mm.value_or(0) < 0) return "";  // it lies in a joist, all along
  if (pipe.hub_in) return "";                     // it starts in one
  if (!pipe.bay.empty()) return "the trap arm runs along its bay and crosses no joist";
  return pipe.passed_under.empty() ? "the trap arm reaches no joist" : "the trap arm passes below its joists";
}

std::optional<Finding> clear_of_joists(const job::Job& job, const facts::PipeRun& pipe) {
  const std::string none = meets_no_joist(pipe);
  if (none.empty()) return std::nullopt;
  if (!job.is_default("floor.joists.spacing")) return not_applicable(none);
  return missing("measure the spacing of the floor joists (floor.joists.spacing)");
}

std::string measure_outside(const job::Pipe& pipe, const job::Job& job) {
  return "measure the pipe's outside: sold as " + std::string{pipe.name} + " it may be " +
         text_of(pipe.outside_mm, Unit::mm, job) + " to " + text_of(pipe.outside_most_mm, Unit::mm, job) +
         " (trap.outside)";
}

std::vector<Rule> trap_rules() {
  return {
      {"joist.hole",
       "holes through joists are small enough",
       "diameter against a third of the depth and the depth less 4 in",
       "joists: their depth",
       Unit::mm,
       "",
       "",
       joist_hole,
       {Input::trap, Input::joists, Input::joist_stock, Input::joist_solids}},
      {"joist.notch",
       "notches in joists are shallow enough",
       "depth of the notch, as deep as the arm lies in the joist at least, against a sixth of the joist's",
       "joists: their depth, and their heights where the arm crosses",
       Unit::mm,
       "",
       "",
       joist_notch,
       {Input::trap, Input::joists, Input::joist_stock, Input::joist_solids}},
      {"joist.hole-for-pipe",
       "holes through joists take the pipe",
       "diameter of the hole against the outside of the trap arm's pipe",
       "no solid: a reading",
       Unit::mm,
       "",
       "",
       hole_for_pipe,
       {Input::trap, Input::pipe}},
      {"trap.size",
       "trap and arm are as wide as the drain",
       "nominal size of the trap arm's pipe against the inside of the drain's outlet",
       "drain: wall of its outlet",
       Unit::mm,
       "",
       "",
       size,
       {Input::trap, Input::pipe, Input::drain_outlet, Input::drain}},
      {"trap.arm",
       "trap arm is short enough",
       "length from weir to vent, by the size of its pipe",
       "no solid: a reading",
       Unit::mm,
       "",
       "",
       arm,
       {Input::trap, Input::pipe}},
      {"trap.arm-least",
       "vent is not too near the trap",
       "length from weir to vent against two diameters of its pipe",
       "no solid: a reading",
       Unit::mm,
       "",
       "",
       arm_least,
       {Input::trap, Input::pipe}},
      {"trap.fall",
       "trap arm falls enough",
       "fall of the trap arm, by the size of its pipe",
       "no solid: a reading",
       Unit::ratio,
       "",
       "",
       fall,
       {Input::trap, Input::pipe}},
      {"trap.drop",
       "trap arm does not fall too far",
       "length from weir to vent times its fall, against one diameter of its pipe",
       "no solid: a reading",
       Unit::mm,
       "",
       "",
       drop,
       {Input::trap, Input::pipe}},
      {"trap.turns",
       "trap arm turns few degrees without a cleanout",
       "degrees of its level bends added up, where no cleanout serves them, by the size of its pipe",
       "no solid: a reading",
       {"degree", "degrees"},
       "",
       "",
       turns,
       {Input::trap, Input::bends, Input::pipe}},
      {"trap.bends",
       "trap arm has few bends",
       "number of its bends from weir to vent",
       "no solid: a reading",
       {"bend", "bends"},
       "",
       "",
       bends,
       {Input::trap, Input::bends}},
  };
}

}  // namespace fallwright::rules
