#include <algorithm>
#include <cmath>
#include <vector>

#include "facts/furring.hpp"
#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/fixture_words.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/told.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

/// Codes do not agree from where a wall's height is measured: each check has one datum.
Finding top_above(const job::Job& job, const facts::Facts& facts, const Limit& limit, double datum_mm,
                  const char* datum) {
  if (job.alcove.walls.empty()) return not_applicable("no wall stands round the base");
  const double height = facts.finish.top_mm - datum_mm;
  const double now = job.buy.tile.height.in_mm(), to = up_to_mark(now + *limit.least - height, job);
  Finding finding = found(height, std::string{"top of tile and waterproofing above "} + datum,
                          "carry tile and waterproofing " + text_at_least(*limit.least - height, job) +
                              " higher up the walls, to " + text_of(to, Unit::mm, job) +
                              " above the drain's top (tile.height, now " + text_or_less(now, Unit::mm, job) + ")");
  finding.may_hold = job.is_default("tile.height");
  return mended_by(std::move(finding), {set_length("tile.height", to, job)});
}

Finding above_floor(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return top_above(job, facts, limit, facts.heights.rim_greatest_mm, "the shower's floor where that is highest");
}

Finding above_drain(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return top_above(job, facts, limit, facts.heights.drain_top_mm, "the drain's top");
}

Finding above_room(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (!facts.heights.outside) return unread();
  return top_above(job, facts, limit, facts.heights.outside->greatest_mm,
                   "the bath's finished floor in front of the entry");
}

/// No wall is built up by more: survey.finish takes no more.
constexpr double most_build_up_mm = 150;

const char* opposite_name(job::Side side) {
  return side == job::Side::back ? "front" : side == job::Side::left ? "right" : "left";
}

/// The drain, off every wall that is too near; what the job file holds of that.
struct OffWalls {
  std::string made, bought;
  std::vector<job::Change> lines;
  double lacks_mm = 0;
  bool possible = true;
};

OffWalls off_walls(const job::Job& job, const facts::Facts& facts, double least_mm) {
  OffWalls off;
  std::vector<std::string> made, bought;
  for (const facts::BeforeFinish& wall : facts.drain.before_finish) {
    if (wall.channel_end || wall.gap_mm >= least_mm - units::tolerance::length_mm) continue;
    const double lacks = least_mm - wall.gap_mm;
    off.lacks_mm = std::max(off.lacks_mm, lacks);
    const job::From& from = wall.wall == job::Side::back ? job.drain.along : job.drain.across;
    const double now = within_edge(job, from), to = moved_to_mark(now, from.side == wall.wall ? lacks : -lacks, job);
    const std::string key = std::string{"drain.from_"} + job::name_of(from.side),
                      there = text_of(to, Unit::mm, job) + " from the base's " + job::name_of(from.side) + " edge";
    made.push_back(text_at_least(lacks, job) + " to the " + opposite_name(wall.wall) + ", its centre " + there + " (" +
                   key + ", now " + length_in_full(now, job) + ")");
    bought.push_back(there);
    off.lines.push_back(set_length(key, to, job));
    for (const facts::BeforeFinish& other : facts.drain.before_finish)
      if (!other.channel_end && opposite_name(other.wall) == std::string{job::name_of(wall.wall)} &&
          other.gap_mm < least_mm + lacks)
        off.possible = false;
  }
  off.made = "move the drain " + units::listed(made);
  off.bought = "take a base whose drain stands with its centre " + units::listed(bought);
  return off;
}

/// What of the drain lies under the seat, from which its grate has to come out; empty where nothing does. Common
/// practice, no source.
std::string under_the_seat(const job::Job& job, const facts::Facts& facts) {
  const auto first = [&](facts::Role role) {
    return std::find_if(facts.parts.begin(), facts.parts.end(),
                        [&](const facts::Part& part) { return part.which.is(role); });
  };
  const auto seat = first(facts::Role::seat_block), drain = first(facts::Role::drain);
  if (!job.bench || seat == facts.parts.end() || drain == facts.parts.end()) return "";
  const auto &s = seat->bbox_mm, &d = drain->bbox_mm;
  const double x = std::min(s[3], d[3]) - std::max(s[0], d[0]), y = std::min(s[4], d[4]) - std::max(s[1], d[1]);
  if (std::min(x, y) <= units::tolerance::length_mm) return "";
  return "the seat hangs over the drain by " +
         text_or_more(job.bench->place == job::Side::back ? y : x, Unit::mm, job) +
         ": lift the grate out from under it in a dry trial, or let the seat reach over less (bench.overhang)";
}

/// Tile over the grate can be seen by nobody before it is set: the drain is where it is by then.
Finding clear_of_finish(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (job.alcove.walls.empty()) return not_applicable("no wall stands round the base");
  const auto is_nearer = [hand = told_hand(facts)](const facts::BeforeFinish& a, const facts::BeforeFinish& b) {
    const bool alike = std::abs(a.gap_mm - b.gap_mm) <= units::tolerance::length_mm;
    return alike ? turn_of(a.wall, hand) < turn_of(b.wall, hand) : a.gap_mm < b.gap_mm;
  };
  const facts::BeforeFinish* nearest = nullptr;
  std::vector<std::string> ends;
  for (const facts::BeforeFinish& wall : facts.drain.before_finish) {
    if (wall.channel_end && wall.gap_mm < 0) ends.emplace_back(job::name_of(wall.wall));
    if (!wall.channel_end && (!nearest || is_nearer(wall, *nearest))) nearest = &wall;
  }
  if (facts.drain.before_finish.empty()) return cannot_tell("no wall's face was found beside the drain");
  // No length of a channel from rim to rim keeps its ends clear: told, and for care.
  const std::string under = ends.empty() ? ""
                                         : "the channel runs from rim to rim, its ends under the finish of the " +
                                               units::listed(ends) + (ends.size() > 1 ? " walls" : " wall") +
                                               ": cut its grate to what is free between them, and tile up to it, so "
                                               "that it lifts out";
  if (!nearest) return under.empty() ? not_applicable("no wall stands along the channel") : cannot_tell(under);
  const double least = limit.least.value_or(0), gap = nearest->gap_mm;
  const auto& finish = job.survey.finish_mm;
  const OffWalls off = off_walls(job, facts, least);
  const double thinner = finish.value_or(0) - off.lacks_mm,
               board = job.survey.board_mm.value_or(job.is_metric() ? 12.5 : units::inch_mm / 2);
  const std::string build = finish && thinner >= board
                                ? ", or build the walls up by no more than " + text_at_most_on_tape(thinner, job) +
                                      " before their studs (survey.finish)"
                                : "";
  const std::string narrower = "take a narrower drain (drain.size): between these walls no place leaves it clear";
  Finding finding = found(gap,
                          std::string{"drain's opening to the "} + job::name_of(nearest->wall) + " wall's " +
                              (finish ? "finished face" : "framing"),
                          (off.possible ? by_make(job, off.made, off.bought) : narrower) + build +
                              ": else board and tile reach over it, and its grate cannot be lifted");
  finding.holds_anyway = gap >= least + most_build_up_mm;
  const std::string seat = under_the_seat(job, facts);
  finding.unjudged = under + (under.empty() || seat.empty() ? "" : "; ") + seat;
  if (!off.possible || is_bought(job)) return finding;
  return mended_by(std::move(finding), off.lines);
}

/// What stands clear of what is beside it, as words and as a line of the job file.
struct Aside {
  std::string words;
  job::Change line;
};

Aside aside(const job::Job& job, const facts::Backing& plate, const facts::PlateBeside& beside, double least_mm) {
  const job::Fixture& fixture = job.fixtures[plate.number];
  const double along = beside.along_mm + std::copysign(least_mm, beside.along_mm), up = beside.up_mm + least_mm;
  const bool raise = !beside.wall && (beside.along_mm == 0 || up < std::abs(along) - units::tolerance::length_mm);
  if (raise) {
    const double to = moved_to_mark(fixture.height.in_mm(), up, job);
    return {"raise " + plate_on_wall(plate, job) + " to " + text_of(to, Unit::mm, job) +
                " above the datum (fixture.height)",
            set_length("fixture.height", to, job, plate.number)};
  }
  const double to = moved_to_mark(fixture.along.in_mm(), along, job);
  return {"move " + plate_on_wall(plate, job) + " to " + text_of(to, Unit::mm, job) + " from the " +
              (plate.wall == job::Side::back ? "left" : "back") + " wall's stud face (fixture.along)",
          set_length("fixture.along", to, job, plate.number)};
}

/// Of every plate what is nearest to it; of those the nearest, and of such as are alike the first.
Finding clear_beside(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  if (job.fixtures.empty()) return not_applicable(no_fixtures);
  if (facts.backings.empty()) return cannot_tell("no wall was found behind the fixtures");
  const double least = limit.least.value_or(0);
  const facts::Backing* worst = nullptr;
  const facts::PlateBeside* near = nullptr;
  std::vector<std::string> words;
  std::vector<job::Change> lines;
  bool holds = true;
  for (const facts::Backing& plate : facts.backings) {
    const facts::PlateBeside* own = nullptr;
    for (const facts::PlateBeside& b : plate.beside) {
      if (b.wall && b.gap_mm < least + most_build_up_mm) holds = false;
      if (!own || b.gap_mm < own->gap_mm - units::tolerance::length_mm) own = &b;
    }
    if (!own) continue;
    if (!near || own->gap_mm < near->gap_mm - units::tolerance::length_mm) near = own, worst = &plate;
    if (own->gap_mm >= least - units::tolerance::length_mm || plate.number >= job.fixtures.size()) continue;
    Aside to = aside(job, plate, *own, least);
    words.push_back(std::move(to.words)), lines.push_back(std::move(to.line));
  }
  if (!near) return not_applicable("no wall meets the one a fixture is on, and no other fixture is on it");
  if (near->wall && near->gap_mm >= least && facts::wall_waits(facts.room.studs, *near->wall))
    return missing(to_frame_out(facts));
  const std::string beside = near->wall ? std::string{"the "} + job::name_of(*near->wall) + " wall's " +
                                              (job.survey.finish_mm ? "finished face" : "framing")
                                        : plate_name(facts.backings[near->other], job);
  Finding finding =
      found(near->gap_mm, "plate of " + plate_on_wall(*worst, job) + " to " + beside, units::listed(words));
  finding.holds_anyway = holds;
  return mended_by(std::move(finding), lines);
}

}  // namespace

std::vector<Rule> finish_rules() {
  return {
      {"drain.clear-of-finish",
       "no tile comes to lie over the drain",
       "least distance of the drain's opening from the finished face of a wall over it, along the alcove",
       "drain: edge of its top; walls: faces of studs and strips up to 12 in over it; their build-up",
       Unit::mm,
       "",
       "",
       clear_of_finish,
       {Input::sizes, Input::upright, Input::wall_build_up, Input::walls, Input::base, Input::drain}},
      {"fixture.clear",
       "fixtures stand clear of corners and of each other",
       "least distance of each fixture's plate from the finished wall beside it, and from other plates on its wall",
       "job file: [[fixture]]; walls: faces of studs and strips, and their build-up",
       Unit::mm,
       "",
       "",
       clear_beside,
       {Input::sizes, Input::upright, Input::wall_build_up, Input::fixtures, Input::walls}},
      {"wall.above-floor",
       "walls are waterproof high enough above the shower's floor",
       "top of tile and waterproofing minus the highest edge of the shower's floor",
       "job file: tile.height; base: corners of the floor",
       Unit::mm,
       "",
       "",
       above_floor,
       {Input::waterproof_top, Input::base}},
      {"wall.above-drain",
       "walls are waterproof high enough above the drain",
       "top of tile and waterproofing minus top of the drain",
       "job file: tile.height; drain: its highest point",
       Unit::mm,
       "",
       "",
       above_drain,
       {Input::waterproof_top, Input::drain}},
      {"wall.above-room",
       "walls are waterproof high enough above the bath floor",
       "top of tile and waterproofing minus the bath's finished floor in front of the entry",
       "job file: tile.height; subfloor in front of the entry, with what is laid on it",
       Unit::mm,
       "",
       "",
       above_room,
       {Input::waterproof_top, Input::finish_outside, Input::floor_shape, Input::subfloor}},
  };
}

}  // namespace fallwright::rules
