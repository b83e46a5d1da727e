#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "job/pipe.hpp"
#include "rules/book.hpp"
#include "rules/joists.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

const char* const no_joists = "a slab has no joists";

bool slab(const job::Job& job) {
  return job.floor.kind == job::FloorKind::slab;
}

/// Joists past the modelled floor: nobody saw them, and no number may rest on them.
std::string past_the_floor(const job::Job& job, const facts::Facts& facts) {
  const facts::JoistCrossing* first = nullptr;
  for (const facts::JoistCrossing& c : facts.pipe.crossings)
    if (!c.modelled && !first) first = &c;
  if (!first) return "";
  return "the arm goes on past the floor that was described and meets its next joist some " +
         text_of(first->from_weir_mm, Unit::mm, job) +
         " from the weir: look there; the table of the arm takes those joists to lie as the last one before them";
}

/// The arm's way is not known: by a reading, or for good.
std::optional<Finding> no_way(const job::Job& job, const facts::Facts& facts) {
  if (facts.pipe.routed) return std::nullopt;
  const std::string why = facts.pipe.unplaced_bend ? beyond_a_bend(*job.trap) : "";
  return why.empty() ? unread() : cannot_tell(why);
}

Finding vented(const job::Job& job, const facts::Facts&, const Limit&) {
  if (!job.trap) return unread();
  if (!job.trap->vented) return missing("find the vent at the trap arm's end (trap.vent)");
  Finding finding = found(*job.trap->vented ? 1 : 0, "as the job file says",
                          "connect a vent at the arm's end: without one the trap is drawn dry");
  finding.holds_anyway = true;
  return finding;
}

/// The keys of the trap's heights, as far as they were read: it moves in one piece, its hub with its weir.
std::string height_keys(const job::Trap& trap) {
  return trap.hub ? "trap.weir, trap.hub" : "trap.weir";
}

/// @pre its weir was read
std::vector<job::Change> raised_by(double mm, const job::Job& job) {
  const double weir = job.trap->weir->in_mm(), to = moved_to_mark(weir, mm, job);
  std::vector<job::Change> changes{set_length("trap.weir", to, job)};
  if (job.trap->hub) changes.push_back(set_length("trap.hub", job.trap->hub->in_mm() + to - weir, job));
  return changes;
}

Finding below(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!job.trap) return unread();
  const auto& down = facts.pipe.down_to_weir_mm;
  if (!down) return unread();
  const double by = up_to_mark(*down - *limit.greatest, job);
  Finding finding =
      found(*down, "from the lowest point of the drain's body down to the weir",
            "raise the trap by " + text_at_least(*down - *limit.greatest, job) + " (" + height_keys(*job.trap) + ")");
  finding.unjudged = weir_over_hub(job);
  if (by <= 0 || !job.trap->weir) return finding;
  return mended_by(std::move(finding), raised_by(by, job));
}

/// An arm that runs along its joists and into one of them would take all of its span.
Finding in_a_joist(const job::Job& job, const facts::PipeRun& pipe) {
  Finding finding = found(*pipe.beside_mm, "from the arm to the nearer joist of its bay, " + pipe.bay,
                          "the arm lies in a joist all along: move it into the bay by " +
                              text_at_least(-*pipe.beside_mm, job) + " at least (the trap's place in [trap])");
  finding.least = 0;
  return finding;
}

/// A trap hangs between joists: its hub and the riser on it would go down through one.
Finding trap_in_a_joist(const job::Job& job, const facts::Facts& facts) {
  const facts::HubInJoist& in = *facts.pipe.hub_in;
  const auto to = [&](double mm, const char* where) { return text_at_least(mm, job) + " " + where; };
  const std::string less = to(in.less_mm, in.sideways ? "to the left" : "toward the entry"),
                    more = to(in.more_mm, in.sideways ? "to the right" : "toward the back");
  Finding finding =
      found(-std::min(in.less_mm, in.more_mm),
            "from the trap's hub to the joist that it stands in, " + said_joist(in.joist, facts, job),
            "the trap stands in a joist: set it " +
                (in.less_mm <= in.more_mm ? less + ", or " + more : more + ", or " + less) +
                " at least, its drain with it (" + (in.sideways ? "trap.from_left" : "trap.from_back") + ")");
  finding.least = 0;
  return finding;
}

/// How much wood stays above and below the holes of all joists that were described, least.
struct Wood {
  double above = 0, below = 0;
};

std::string names_of(const std::vector<std::string>& joists, const facts::Facts& facts, const job::Job& job) {
  std::vector<std::string> names;
  for (const std::string& joist : joists) names.push_back(said_joist(joist, facts, job));
  return units::listed(names);
}

/// Higher or lower by the least that leaves enough of it above and below. Where no height does, none.
Finding at_another_height(Finding finding, const job::Job& job, const facts::Facts& facts, const Wood& wood,
                          double wanted) {
  const facts::PipeRun& pipe = facts.pipe;
  const bool low = wood.below < wood.above;
  const double lacks = wanted - std::min(wood.above, wood.below), spare = std::max(wood.above, wood.below) - wanted;
  const double by = up_to_mark(lacks, job);
  if (by > spare + units::tolerance::length_mm) {
    finding.advice =
        "no height leaves enough above and below it: take a smaller hole, if the pipe goes through it, or "
        "route the arm along the bay";
    return finding;
  }
  // Joists that nobody described, or that the arm passes under until it is raised into them, may want another height
  // yet: then it is no line of the job file.
  const bool met = low && !pipe.passed_under.empty(), all = finding.unjudged.empty();
  finding.advice = std::string{low ? "raise" : "lower"} + " trap and arm by " + text_at_least(lacks, job) +
                   (met ? " at least: it then meets what it passes under now (" +
                              names_of(pipe.passed_under, facts, job) + "), which may want more"
                    : all ? " (" + height_keys(*job.trap) + ")"
                          : " at least, once the joists past the floor are looked at") +
                   ", or route the arm along the bay";
  if (!all || met) return finding;
  return mended_by(std::move(finding), raised_by(low ? by : -by, job));
}

/// Which of the holes that the joists have already, by its number in the job file and its place there.
std::string which_hole(std::size_t number, const job::Job& job) {
  const std::string name = "hole " + std::to_string(number) + " of the job file";
  if (number > job.floor.joist_holes.size()) return name;
  const job::JoistHole& hole = job.floor.joist_holes[number - 1];
  return name + ", " + units::from_left(text_of(hole.from_left.in_mm(), Unit::mm, job), "the " + left_face(job)) +
         ", " + units::off_edge(text_of(hole.from_back.in_mm(), Unit::mm, job), "the back one", " behind ");
}

/// The arm's hole and another one through the same joist.
std::string beside_another(const HoleGap& gap, const job::Job& job, const facts::Facts& facts) {
  const bool sideways = job.floor.joist_direction == job::Direction::along_width;
  const char* const toward = gap.along_mm < job.mark_mm() / 2 ? ""
                             : gap.ahead_mm > 0               ? (sideways ? " to the right" : " toward the back")
                                                              : (sideways ? " to the left" : " toward the entry");
  const bool notch = takes_notches(*job.trap);
  return "the " + std::string{notch ? "notch" : "hole"} + " in " + said_joist(gap.crossing->joist, facts, job) +
         level_of_hook(facts) + ", " + text_of(gap.crossing->from_weir_mm, Unit::mm, job) + " from the weir, and " +
         (gap.of_the_arm ? "the arm's other one"
                         : std::string{notch ? "the hole of " : "the one of "} +
                               text_of(gap.diameter_mm, Unit::mm, job) + " that is there already") +
         ", " + text_of(gap.along_mm, Unit::mm, job) + " along the joist" + toward + ", middle to middle" +
         (gap.of_the_arm ? "" : " (" + which_hole(gap.number, job) + ")");
}

/// One way along the joists that leaves every hole that is there far enough, in words and as a line of the job file.
struct AlongJoists {
  double by_mm = 0;
  std::string toward;
  job::Change change;
};

/// Both ways, the shorter first; of two that are alike the one away from the hole that is nearest.
std::array<AlongJoists, 2> clear_ways(const HoleGap& nearest, const Clear& clear, const job::Job& job,
                                      const facts::Facts& facts) {
  const job::Trap& trap = *job.trap;
  const survey::StudFaces& faces = facts.room.faces;
  const auto& drain = facts.room.drain.now_mm;
  const double y = trap.from_back ? faces.at(job::Side::back, trap.from_back->in_mm(), drain[0]) : drain[1];
  const bool sideways = job.floor.joist_direction == job::Direction::along_width;
  const double from_left = trap.from_left ? trap.from_left->in_mm() : faces.off(job::Side::left, {drain[0], y}),
               from_back = trap.from_back ? trap.from_back->in_mm() : faces.off(job::Side::back, {drain[0], y});
  const auto to = [&](double shift) {
    return sideways ? set_length("trap.from_left", moved_to_mark(from_left, shift, job), job)
                    : set_length("trap.from_back", moved_to_mark(from_back, -shift, job), job);
  };
  AlongJoists more{clear.more_mm, sideways ? "to the right" : "toward the back", to(clear.more_mm)},
      less{clear.less_mm, sideways ? "to the left" : "toward the entry", to(-clear.less_mm)};
  const double longer = more.by_mm - less.by_mm;
  const bool alike = std::abs(longer) < units::tolerance::length_mm;
  if (alike ? nearest.ahead_mm > 0 : longer > 0) std::swap(more, less);
  return {more, less};
}

/// What the arm is to do about its joists' edges and about every hole that is too near, and as lines of the job file
/// where one thing alone is in the way. `gaps`: those that are too near, the nearest first.
Finding mend_arm(Finding finding, const std::vector<HoleGap>& gaps, const Wood& wood, double wanted,
                 const job::Job& job, const facts::Facts& facts) {
  const bool edge = std::min(wood.above, wood.below) < wanted - units::tolerance::length_mm;
  if (gaps.empty()) return at_another_height(std::move(finding), job, facts, wood, wanted);
  std::vector<std::string> all;
  if (edge) all.push_back(at_another_height(finding, job, facts, wood, wanted).advice);
  double further = 0;
  for (const HoleGap& gap : gaps)
    if (gap.of_the_arm) further = std::max(further, gap.further_mm(wanted));
  if (further > 0)
    all.push_back("put the arm's bends " + text_at_least(further, job) + " farther apart (its bends in [trap])");
  const auto there = std::find_if(gaps.begin(), gaps.end(), [](const HoleGap& gap) { return !gap.of_the_arm; });
  if (there != gaps.end()) {
    const Clear clear = clear_of_holes(hole_gaps(facts.pipe, *job.trap), wanted, edge || further > 0, job.mark_mm());
    const auto ways = clear_ways(*there, clear, job, facts);
    const auto holes = std::count_if(gaps.begin(), gaps.end(), [](const HoleGap& gap) { return !gap.of_the_arm; });
    const bool all_known = finding.unjudged.empty();
    all.push_back("set trap and arm " + text_of(ways[0].by_mm, Unit::mm, job) + " " + ways[0].toward + ", or " +
                  text_of(ways[1].by_mm, Unit::mm, job) + " " + ways[1].toward +
                  (holes > 1 ? ", clear of all holes in the way" : "") +
                  (all_known ? "" : ", once the joists past the floor are looked at") + " (" + ways[0].change.key +
                  ")");
    if (all.size() == 1 && all_known)
      for (const AlongJoists& way : ways) finding = mended_by(std::move(finding), {way.change});
  }
  finding.advice = units::listed(all, "; and ") + ", or ask an engineer";
  return finding;
}

/// Holes and notches that joists have already are looked for before any is bored.
std::optional<Finding> holes_to_look_for(const job::Job& job, const facts::PipeRun& pipe) {
  if (!job.floor.knows_holes())
    return missing(
        job.floor.joists_bored
            ? "give the holes that the joists have already where the trap arm crosses them (floor.joists.hole)"
            : "look for holes and notches that the joists have already where the trap arm crosses them, and give them "
              "(floor.joists.hole), or say that there are none (floor.joists.bored)");
  for (std::size_t i = 0; i < pipe.holes.size(); ++i)
    if (pipe.holes[i].joist.empty())
      return missing("read again where it lies, " + which_hole(i + 1, job) +
                     ": no joist of the floor as described is there (floor.joists.hole)");
  return std::nullopt;
}

/// What of the arm's height at a joist nobody told.
std::string what_is_open(const job::Trap& trap) {
  std::vector<std::string> words, keys;
  const auto ask = [&](bool known, const char* what, const char* key) {
    if (!known) words.emplace_back(what), keys.emplace_back(key);
  };
  ask(trap.weir.has_value(), "how high its weir lies", "trap.weir");
  ask(trap.fall.has_value(), "how the arm falls", "trap.fall");
  ask(trap.pipe.has_value(), "which pipe it is", "trap.pipe");
  return "say of the trap arm " + units::listed(words) + " (" + units::listed(keys, ", ") + ")";
}

/// A notch runs out at its edge; what it keeps clear of are the holes that its joists have already.
Finding holes_beside_notches(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const auto& pipe = facts.pipe;
  if (const auto open = holes_to_look_for(job, pipe)) return *open;
  const auto crossed = [&](const facts::JoistHole& hole) {
    return std::any_of(pipe.crossings.begin(), pipe.crossings.end(),
                       [&](const facts::JoistCrossing& c) { return c.joist == hole.joist; });
  };
  if (std::none_of(pipe.holes.begin(), pipe.holes.end(), crossed))
    return not_applicable("the pipe takes a notch from its joists, no hole, and they have none");
  std::vector<HoleGap> gaps = hole_gaps(pipe, *job.trap);
  if (gaps.empty()) return missing(what_is_open(*job.trap));
  std::stable_sort(gaps.begin(), gaps.end(), [](const HoleGap& a, const HoleGap& b) { return a.wood_mm < b.wood_mm; });
  Finding finding = found(gaps.front().wood_mm, "wood between " + beside_another(gaps.front(), job, facts), "");
  finding.unjudged = past_the_floor(job, facts);
  std::erase_if(gaps, [&](const HoleGap& g) { return g.wood_mm >= *limit.least - units::tolerance::length_mm; });
  for (std::size_t i = 1; i < gaps.size(); ++i)
    finding.where += "; too near as well, " + text_of(std::max(0.0, gaps[i].wood_mm), Unit::mm, job) +
                     " of wood: " + beside_another(gaps[i], job, facts);
  if (gaps.empty()) return finding;
  return mend_arm(std::move(finding), gaps, {*limit.least, *limit.least}, *limit.least, job, facts);
}

/// Two inches of wood above and below every hole of the arm, whatever its diameter, and to any other.
Finding arm_edges(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (slab(job)) return not_applicable(no_joists);
  if (!job.trap) return unread();
  if (const auto none = no_way(job, facts)) return *none;
  if (facts.pipe.hub_in) return trap_in_a_joist(job, facts);
  if (facts.pipe.beside_mm.value_or(0) < 0) return in_a_joist(job, facts.pipe);
  if (const auto clear = clear_of_joists(job, facts.pipe)) return *clear;
  if (takes_notches(*job.trap)) return holes_beside_notches(job, facts, limit);
  const facts::JoistCrossing* worst = nullptr;
  Wood wood;
  std::vector<std::string> lines;
  for (const facts::JoistCrossing& c : facts.pipe.crossings) {
    if (!c.modelled) continue;
    if (!c.centre_mm || c.hole_mm <= 0) return missing(what_is_open(*job.trap));
    const double over = *c.above_mm(), under = *c.below_mm();
    lines.push_back(said_joist(c.joist, facts, job) + ": " + text_of(c.from_weir_mm, Unit::mm, job) +
                    " from the weir, centre " + text_of(*c.centre_mm, Unit::mm, job) + " from the datum, " +
                    text_of(over, Unit::mm, job) + " of wood above a hole of " + text_of(c.hole_mm, Unit::mm, job) +
                    ", " + text_of(under, Unit::mm, job) + " below");
    if (!worst || std::min(over, under) < std::min(wood.above, wood.below)) worst = &c;
    wood = lines.size() == 1 ? Wood{over, under} : Wood{std::min(wood.above, over), std::min(wood.below, under)};
  }
  if (!worst) return missing(past_the_floor(job, facts));
  const bool low = *worst->below_mm() < *worst->above_mm();
  Finding finding =
      found(std::min(wood.above, wood.below),
            std::string{"wood "} + (low ? "below" : "above") + " the hole in " + said_joist(worst->joist, facts, job) +
                level_of_hook(facts) + ", " + text_of(worst->from_weir_mm, Unit::mm, job) + " from the weir",
            "");
  finding.details = std::move(lines);
  finding.unjudged = past_the_floor(job, facts);
  std::vector<HoleGap> gaps = hole_gaps(facts.pipe, *job.trap);
  std::stable_sort(gaps.begin(), gaps.end(), [](const HoleGap& a, const HoleGap& b) { return a.wood_mm < b.wood_mm; });
  if (!gaps.empty() && gaps.front().wood_mm < *finding.measured) {
    finding.measured = gaps.front().wood_mm;
    finding.where = "wood between " + beside_another(gaps.front(), job, facts);
  }
  const bool told = finding.measured != std::min(wood.above, wood.below);
  std::erase_if(gaps, [&](const HoleGap& g) { return g.wood_mm >= *limit.least - units::tolerance::length_mm; });
  for (std::size_t i = told ? 1 : 0; i < gaps.size(); ++i)
    finding.where += "; too near as well, " + text_of(std::max(0.0, gaps[i].wood_mm), Unit::mm, job) +
                     " of wood: " + beside_another(gaps[i], job, facts);
  finding = mend_arm(std::move(finding), gaps, wood, *limit.least, job, facts);
  if (*finding.measured < *limit.least - units::tolerance::length_mm) return finding;
  return holes_to_look_for(job, facts.pipe).value_or(std::move(finding));
}

/// The same of all that goes through joists: nobody tells the hole of a pipe between the drain and a hub aside of it.
Finding edges(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  Finding finding = arm_edges(job, facts, limit);
  const bool fails = finding.measured &&
                     *finding.measured < finding.least.value_or(*limit.least) - units::tolerance::length_mm,
             open = finding.applies && !finding.measured;
  if (facts.pipe.offset_through.empty() || fails || open) return finding;
  return cannot_tell("look where the pipe from the drain to the hub goes through " + offset_joists(job, facts) +
                     " and hold its hole there to the limit, or set the trap under the drain (trap.from_left, "
                     "trap.from_back)");
}

/// No book is needed to see that a hole past a joist's edge is none. Where the book has no limit for what stays of a
/// joist, what does is an engineer's to judge.
Finding inside(const Ground& ground, const Limit& limit) {
  if (ground.limits.find("joist.hole-edges"))
    return not_applicable("the wood round a hole is held to more than none at all (joist.hole-edges)");
  Finding finding = edges(ground.job, ground.facts, limit);
  if (finding.measured)
    finding.unjudged += std::string{finding.unjudged.empty() ? "" : "; "} +
                        "this rule book says nothing of holes in joists: how much wood has to stay an engineer tells";
  return finding;
}

Finding notch_place(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  if (slab(job)) return not_applicable(no_joists);
  if (!job.trap) return unread();
  if (!job.trap->notch) return not_applicable("the pipe takes no notch from a joist (trap.notch)");
  if (const auto none = no_way(job, facts)) return *none;
  std::optional<double> deepest;
  for (const facts::JoistCrossing& c : facts.pipe.crossings)
    if (c.along_span) deepest = std::max(deepest.value_or(-1), *c.along_span);
  const auto off = std::count_if(facts.pipe.crossings.begin(), facts.pipe.crossings.end(),
                                 [](const facts::JoistCrossing& c) { return !c.along_span; });
  if (off > 0 && job.floor.joist_span && job.floor.joist_bearing)
    return missing("the pipe crosses joists beside the span that begins at floor.joists.bearing: read both again");
  if (off > 0) return unread();
  if (!deepest) return clear_of_joists(job, facts.pipe).value_or(not_applicable(meets_no_joist(facts.pipe)));
  const double most = greatest_in_force(1. / 3, ground, "joist.notch-place");
  const bool third = most >= 1. / 3;
  Finding finding = found(*deepest, "notches from the nearer bearing, as a share of the joists' span",
                          third ? "bore there instead, or move the arm out of the middle third of the span"
                                : "bore there instead, or move the arm to within " + text_of(most, Unit::share, job) +
                                      " of the span from a bearing");
  finding.greatest = most;
  return finding;
}

/// A notch is as long as the pipe is thick, at least.
Finding notch_length(const Ground& ground, const Limit&) {
  const auto& [job, facts, limits, joists] = ground;
  if (slab(job)) return not_applicable(no_joists);
  if (!job.trap) return unread();
  if (!job.trap->notch) return not_applicable("the pipe takes no notch from a joist (trap.notch)");
  if (!facts.room.drain.joists_known) return unread();
  if (const auto clear = clear_of_joists(job, facts.pipe)) return *clear;
  const job::Pipe* pipe = job::arm_pipe(job);
  if (!pipe && !job.trap->outside) return missing("say which pipe the trap arm is (trap.pipe)");
  const double third = greatest_in_force(facts.room.drain.joist_depth_mm / 3, ground, "joist.notch-length");
  if (!job.trap->outside && pipe->outside_mm <= third && pipe->outside_most_mm > third)
    return missing(measure_outside(*pipe, job));
  const double outside = job.trap->outside ? job.trap->outside->in_mm() : pipe->outside_mm;
  Finding finding =
      found(outside,
            "a notch as long as the pipe is thick; this joist is " +
                text_of(facts.room.drain.joist_depth_mm, Unit::mm, job) + " deep",
            "a notch may be " + text_or_less(third, Unit::mm, job) + " long: bore instead, or ask an engineer");
  finding.greatest = third;
  finding.holds_anyway = job.trap->outside.has_value();  // whatever its name, it was measured
  return finding;
}

}  // namespace

std::vector<Rule> arm_rules() {
  return {
      {"trap.vented",
       "trap has a vent",
       "vents at the arm's end",
       "no solid: a reading",
       {"vent", "vents"},
       "",
       "",
       vented,
       {Input::trap}},
      {"trap.below",
       "trap is not too far below the drain",
       "lowest point of the drain's body minus the trap's weir",
       "drain: its lowest point",
       Unit::mm,
       "",
       "",
       below,
       {Input::trap, Input::weir, Input::drain_depth, Input::drain}},
  };
}

std::vector<Rule> through_joist_rules() {
  const std::vector<Input> at_joists{Input::trap,      Input::pipe,        Input::weir,        Input::route,
                                     Input::joist_run, Input::joist_stock, Input::joist_solids};
  // The joists' heights hang from the datum by floor and deck.
  std::vector<Input> at_their_edges = at_joists;
  at_their_edges.insert(at_their_edges.end(), {Input::joist_spacing, Input::deck, Input::floor_shape});
  return {
      {"joist.hole-edges", "holes through joists keep clear of edges and each other",
       "least wood above and below the arm's hole, and between it and others, over all joists it crosses",
       "joists: heights where the arm crosses; readings: holes they have", Unit::mm, "", "", edges, at_their_edges},
      {"joist.hole-inside", "holes through joists stay in their wood",
       "the same wood, under a book that has no limit for it: none is missing",
       "joists: heights where the arm crosses; readings: holes they have", Unit::mm, "", "", inside, at_their_edges},
      {"joist.notch-place",
       "notches stay out of the middle of the span",
       "distance of the crossing from the nearer bearing over the span, against a third",
       "joists: where the arm crosses",
       Unit::share,
       "",
       "",
       notch_place,
       {Input::trap, Input::route, Input::joist_run, Input::bearing, Input::joist_solids}},
      {"joist.notch-length",
       "notches in joists are short enough",
       "outside of the pipe against a third of the joist's depth",
       "joists: their depth",
       Unit::mm,
       "",
       "",
       notch_length,
       {Input::trap, Input::pipe, Input::joists, Input::joist_solids}},
  };
}

}  // namespace fallwright::rules
