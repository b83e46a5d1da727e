#include <algorithm>
#include <array>
#include <optional>

#include "job/least.hpp"
#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

/// Between finished faces; where nobody said how the walls are built up, inside upstands and framing.
struct Free {
  double area_mm2, circle_mm, least_width_mm;
  facts::Point circle_at_mm;
  const char* between;
};

Free free_of(const facts::Facts& facts) {
  const facts::Clear& c = facts.clear;
  if (!c.finished) return {c.area_mm2, c.circle_mm, c.least_width_mm, c.circle_at_mm, "inside upstands and threshold"};
  const facts::Finished& f = *c.finished;
  return {f.area_mm2, f.circle_mm, f.least_width_mm, f.circle_at_mm, "between finished walls and threshold"};
}

/// What area and circle are held to: between the edges of the floor, or as the book's row has it.
Free held_free(const facts::Facts& facts, const Limit& limit) {
  const auto& wider = facts.clear.to_centreline;
  if (!wider || !limit.to_centreline) return free_of(facts);
  return {wider->area_mm2, wider->circle_mm, wider->least_width_mm, wider->circle_at_mm,
          facts.clear.finished ? "between finished walls, up to the threshold's centreline"
                               : "inside upstands, up to the threshold's centreline"};
}

/// The second way to the least room, where the book's row has one. Same rounding as `keeps`.
bool larger_room(const Free& free, const SecondWay& way) {
  return free.area_mm2 >= way.area_mm2 - units::tolerance::length_mm * 1e3;
}

/// Where the row of a book has an exception for large receptors; a limit that a job sets has none.
std::optional<Finding> exempt(const Ground& ground, const Limit& limit) {
  constexpr double slack = units::tolerance::length_mm;
  if (!limit.exempt) return std::nullopt;
  const auto& [short_side, long_side, source] = *limit.exempt;
  for (const facts::Part& part : ground.facts.parts) {
    if (!part.which.is(facts::Role::base)) continue;
    const auto [x, y] = ground.facts.clear.receptor_mm.value_or(
        std::array{part.bbox_mm[3] - part.bbox_mm[0], part.bbox_mm[4] - part.bbox_mm[1]});
    if (std::min(x, y) < short_side - slack || std::max(x, y) < long_side - slack) continue;
    const auto len = [&](double mm) { return text_of(mm, Unit::mm, ground.job); };
    return not_applicable("a receptor of " + len(short_side) + " by " + len(long_side) + " or more is exempt (" +
                          source + "), and this one is " + len(x) + " by " + len(y) + " overall");
  }
  return std::nullopt;
}

/// Extents of the base in plan.
std::optional<std::array<double, 2>> base_of(const facts::Facts& facts) {
  for (const facts::Part& part : facts.parts)
    if (part.which.is(facts::Role::base))
      return std::array{part.bbox_mm[3] - part.bbox_mm[0], part.bbox_mm[4] - part.bbox_mm[1]};
  return std::nullopt;
}

/// How the free floor grows by so much along one axis of the plan (0: the width).
struct Growth {
  std::string words;
  std::vector<job::Change> lines;
};

/// Whether anybody could sit on a bench whose frame is `depth_mm` deep: not below what the reader takes, nor with a
/// seat shallower than the book asks for.
bool still_a_seat(const Ground& ground, double depth_mm) {
  constexpr double slack = units::tolerance::length_mm;
  const job::Bench& bench = *ground.job.bench;
  if (depth_mm < job::least_bench_mm_of(bench.frame) - slack) return false;
  const auto asked = ground.limits.at("seat.depth").least;
  const auto& seat = ground.facts.clear.seat_depth_mm;
  return !asked || !seat || *seat - (bench.depth.in_mm() - depth_mm) >= *asked - slack;
}

/// What strips of furring may take of a room that grows: each is cut to a mark of the tape.
double furring_takes_mm(const Ground& ground, std::size_t axis) {
  double takes = 0;
  for (const job::Side side : {job::Side::left, job::Side::back, job::Side::right}) {
    if ((side == job::Side::back) != (axis == 1)) continue;
    const auto& studs = ground.facts.room.studs;
    if (std::any_of(studs.begin(), studs.end(),
                    [&](const facts::StudGap& stud) { return stud.wall == side && !stud.strips.empty(); }))
      takes += ground.job.mark_mm();
  }
  return takes;
}

/// Along its own axis a bench gives way as long as it stays a seat, and the base takes its place; across it only a
/// larger room helps. The base's size is on a mark of the tape, so that it is told in the job's unit and nothing is
/// lost.
Growth grown(const Ground& ground, std::size_t axis, double short_mm) {
  const job::Job& job = ground.job;
  const double by_mm = short_mm + furring_takes_mm(ground, axis);
  // What a base from a file measures is no line of the job file.
  const bool by_file = job.base.body != nullptr;
  const std::string by = text_at_least(by_mm, job), size_key = axis == 0 ? "base.length" : "base.width";
  const std::string longer = std::string{axis == 0 ? "longer" : "wider"} + (by_file ? "" : " (" + size_key + ")");
  const bool at_back = job.bench && job.bench->place == job::Side::back;
  const bool gives = job.bench && (at_back ? 1U : 0U) == axis;
  const std::string other = "a base " + by + " " + longer + ", and an alcove that takes it";
  const bool site = job.base.is_site_built();
  if (!gives && site) return {"the room must be " + by + (axis == 0 ? " wider" : " deeper"), {}};
  if (!gives) return {by_make(job, "take " + other, "buy " + other), {}};
  const double now = (axis == 0 ? job.base.length : job.base.width).in_mm(), size = -down_to_mark(-now - by_mm, job);
  const double depth = down_to_mark(job.bench->depth.in_mm() - (size - now), job);
  if (site && still_a_seat(ground, depth))
    return {"take a bench of " + text_of(depth, Unit::mm, job) + " (bench.depth)",
            {set_length("bench.depth", depth, job)}};
  if (!still_a_seat(ground, depth) && site)
    return {"the room must be " + by + (axis == 0 ? " wider" : " deeper") + ", or take no bench", {}};
  if (!still_a_seat(ground, depth))
    return {by_make(job, "take " + other + ", or no bench", "buy " + other + ", or take no bench"), {}};
  const std::string bench = "a bench of " + text_of(depth, Unit::mm, job);
  const std::string base = "a base of " + text_of(size, Unit::mm, job) + (by_file ? "" : " (" + size_key + ")");
  if (is_bought(job)) return {"buy " + base + " with " + bench + " beside it", {}};
  return {by_make(job, "take " + bench + " (bench.depth) and " + base, "buy " + base + " with " + bench + " beside it"),
          {set_length("bench.depth", depth, job), set_length(size_key, size, job)}};
}

/// The axis along which the free floor is the narrower.
std::size_t narrow_axis(const job::Job& job, const facts::Facts& facts) {
  const auto base = base_of(facts);
  if (!base) return 0;
  std::array<double, 2> free = *base;
  if (job.bench) free[job.bench->place == job::Side::back ? 1 : 0] -= job.bench->overhang.in_mm();
  free[1] -= job.base.threshold.width.in_mm();
  return free[0] <= free[1] ? 0 : 1;
}

/// How wide the free floor is across an axis; where it is not a rectangle, at most so wide.
double axis_across(const job::Job& job, const facts::Facts& facts, const Free& free, std::size_t axis) {
  const double narrow = free.least_width_mm, wide = free.area_mm2 / narrow;
  return narrow_axis(job, facts) == axis ? wide : narrow;
}

/// Where the floor lacks width the other way as well.
std::string other_way(const Ground& ground, double lacks_mm) {
  if (!(lacks_mm > units::tolerance::length_mm)) return "";
  return "; and " + text_at_least(lacks_mm, ground.job) +
         " the other way too: a room that has not both is too small for it";
}

Finding area(const Ground& ground, const Limit& limit) {
  if (const auto none = exempt(ground, limit)) return *none;
  const Free free = held_free(ground.facts, limit);
  const job::Job& job = ground.job;
  const std::size_t axis = job.bench && job.bench->place == job::Side::back ? 1 : 0;
  const double across = free.area_mm2 > 0 ? axis_across(job, ground.facts, free, axis) : 1;
  const std::string asked = "at least " + text_or_more(*limit.least, Unit::mm2, job) + " must stay free: ";
  // A floor that is too narrow as well is not made longer and longer.
  const auto& wide = ground.limits.at("clear.width").least;
  if (wide && free.area_mm2 > 0 && across < *wide - units::tolerance::length_mm) {
    const double lacks = *limit.least / *wide - free.area_mm2 / across;
    const std::string once = "once it is " + text_or_more(*wide, Unit::mm, job) + " wide the other way";
    return found(free.area_mm2, std::string{"free floor "} + free.between + ", under nothing that overhangs it",
                 asked + (lacks > 0 ? grown(ground, axis, lacks).words + ", " : "it is large enough ") + once);
  }
  const Growth growth = grown(ground, axis, (*limit.least - free.area_mm2) / across);
  return mended_by(found(free.area_mm2, std::string{"free floor "} + free.between + ", under nothing that overhangs it",
                         asked + growth.words),
                   growth.lines);
}

Finding width(const Ground& ground, const Limit& limit) {
  const job::Job& job = ground.job;
  const Free free = free_of(ground.facts);
  const double own = free.least_width_mm;
  const auto& way = limit.second_way;
  const bool second_way = way && larger_room(free, *way) && own < *limit.least;
  const double needed = second_way ? way->least_mm : *limit.least;
  Finding finding = found(own, std::string{"smaller side of the free floor "} + free.between, "");
  if (own < needed) {
    const std::size_t axis = narrow_axis(job, ground.facts);
    const Growth growth = grown(ground, axis, needed - own);
    finding.advice = "the free floor must be " + text_at_least(needed - own, job) + " wider: " + growth.words +
                     other_way(ground, needed - axis_across(job, ground.facts, free, axis));
    finding = mended_by(std::move(finding), growth.lines);
  }
  if (second_way) {
    finding.where += "; " + text_of(way->least_mm, Unit::mm, job) + " will do where " +
                     text_or_more(way->area_mm2, Unit::mm2, job) + " are free, and " +
                     text_or_less(free.area_mm2, Unit::mm2, job) + " are";
    finding.least = way->least_mm;
  }
  return finding;
}

Finding circle(const Ground& ground, const Limit& limit) {
  if (const auto none = exempt(ground, limit)) return *none;
  const job::Job& job = ground.job;
  const Free free = held_free(ground.facts, limit);
  const double lacks = *limit.least - free.circle_mm;
  const Growth growth = grown(ground, narrow_axis(job, ground.facts), lacks);
  return mended_by(found(free.circle_mm,
                         std::string{"largest circle "} + free.between + ", centre at " +
                             place_of(free.circle_at_mm, ground.facts.room.faces, job),
                         "where the local code asks for a circle of " + text_of(*limit.least, Unit::mm, job) +
                             ", it lacks " + text_at_least(lacks, job) + ": " + growth.words +
                             other_way(ground, *limit.least - free.area_mm2 / free.least_width_mm)),
                   growth.lines);
}

/// A compartment of one size: too small a person does not turn, too large and what should be in reach is not.
Finding inside(const Ground& ground, const Limit& limit, double size, const char* what) {
  const job::Job& job = ground.job;
  const bool finished = ground.facts.clear.finished.has_value(), wide = size > *limit.greatest;
  Finding finding = found(
      size, std::string{what} + (finished ? ", between finished faces" : ", between framing") + ", a seat inside it",
      wide ? "bring it in by " + text_at_least(size - *limit.greatest, job) +
                 ": a transfer compartment is of this size; a larger one is another type (ADA 608.2.2, 608.2.3)"
           : "it must be " + text_at_least(*limit.least - size, job) + " larger inside");
  finding.may_hold = wide;  // walls that are built up take some off
  return finding;
}
Finding inside_width(const Ground& ground, const Limit& limit) {
  return inside(ground, limit, ground.facts.clear.compartment.width_mm, "side to side at the middle of the depth");
}
Finding inside_depth(const Ground& ground, const Limit& limit) {
  return inside(ground, limit, ground.facts.clear.compartment.depth_mm,
                "from the threshold's inner edge to the back at the middle of the width");
}

Finding face(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const auto& width = facts.clear.compartment.face_mm;
  if (!width) return missing(studs_at_entry(facts.clear.compartment.no_stud_at_entry));
  return found(*width,
               std::string{"across the entry between "} + (facts.clear.finished ? "finished walls" : "framing") +
                   ", a seat inside it",
               "the face must be " + text_at_least(*limit.least - *width, job) + " wider");
}

}  // namespace

/// The circle is the other model code's wording (see docs/sources.md): a caution here, a failure once a job sets it.
std::vector<Rule> room_rules() {
  return {
      {"clear.area",
       "floor is large enough",
       "plan area of the floor less what hangs over it",
       "base: outline of the floor; seat block: undersides",
       Unit::mm2,
       "clear_area",
       "",
       area,
       {Input::outline, Input::leans, Input::wall_build_up, Input::base, Input::seat_block}},
      {"clear.width",
       "floor is wide enough",
       "smaller side of the free floor",
       "base: outline of the floor; seat block: undersides",
       Unit::mm,
       "clear_width",
       "",
       width,
       {Input::outline, Input::leans, Input::wall_build_up, Input::base, Input::seat_block}},
      {"clear.circle",
       "a person can turn",
       "diameter of the largest circle inscribed in the free floor",
       "base: outline of the floor; seat block: undersides",
       Unit::mm,
       "clear_circle",
       "",
       circle,
       {Input::outline, Input::leans, Input::wall_build_up, Input::base, Input::seat_block}},
      {"access.inside-width",
       "compartment is as wide as it must be",
       "from side to side at the middle of its depth, between finished faces",
       "walls: studs, with their build-up; base: outline of the floor where no wall stands",
       Unit::mm,
       "",
       "",
       inside_width,
       {Input::wall_build_up, Input::upright, Input::base, Input::walls}},
      {"access.inside-depth",
       "compartment is as deep as it must be",
       "from the threshold's inner edge to the back at the middle of its width, between finished faces",
       "walls: studs, with their build-up; base: outline of the floor",
       Unit::mm,
       "",
       "",
       inside_depth,
       {Input::wall_build_up, Input::upright, Input::base, Input::walls}},
      {"access.face",
       "compartment's face is open wide enough",
       "least width between finished walls at the entry, from the threshold up to 70 in",
       "walls: how far they reach in, with their build-up",
       Unit::mm,
       "",
       "",
       face,
       {Input::wall_build_up, Input::upright, Input::walls}},
  };
}

}  // namespace fallwright::rules
