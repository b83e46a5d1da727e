#include "rules/joists.hpp"

#include <algorithm>
#include <cmath>

#include "rules/book.hpp"
#include "rules/loads.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {

std::string beyond_a_bend(const job::Trap& trap) {
  for (const job::Bend& bend : trap.bends)
    if (bend.degrees != 90)
      return "the trap arm bends by " + units::decimals(bend.degrees, 0) +
             " degrees, and past such a bend its way is not followed: look at every joist that it meets, measure the "
             "wood "
             "round its hole there, and hold that to the limit";
  return "";
}

namespace {

/// Nothing where no solid of the floor has that id.
std::optional<double> joist_centre_mm(const std::string& id, const facts::Facts& facts) {
  const facts::DrainWindow& window = facts.room.drain;
  const std::size_t axis = window.along_width ? 0 : 1;
  for (const facts::Part& p : facts.parts)
    if (p.which.is(facts::Role::joist) && p.id == id && p.bbox_mm[axis + 3] > p.bbox_mm[axis])
      return (p.bbox_mm[axis] + p.bbox_mm[axis + 3]) / 2 - (window.along_width ? window.left_face_mm : 0);
  return std::nullopt;
}

std::string end_of(const std::string& id) {
  return id.substr(id.rfind('/') + 1);
}

}  // namespace

std::string joist_place(const std::string& id, const facts::Facts& facts, const job::Job& job) {
  const std::string past = " past ";  // "1 past joist-06"
  const std::size_t at = id.find(past);
  if (at != std::string::npos) {
    const auto centre = joist_centre_mm("joists/" + id.substr(at + past.size()), facts);
    return centre ? id.substr(0, at + past.size()) + text_of(*centre, Unit::mm, job) : id;
  }
  const auto centre = joist_centre_mm(id, facts);
  return centre ? text_of(*centre, Unit::mm, job) : end_of(id);
}

std::string joist_hook(const facts::Facts& facts, const job::Job& job) {
  return facts.room.drain.along_width ? "the " + left_face(job) : "the entry";
}

std::string said_joist(const std::string& id, const facts::Facts& facts, const job::Job& job) {
  const auto centre = joist_centre_mm(id, facts);
  if (!centre) return end_of(id);
  const std::string length = text_of(*centre, Unit::mm, job), hook = joist_hook(facts, job);
  return "the joist at " +
         (facts.room.drain.along_width ? units::from_left(length, hook) : units::off_edge(length, hook, " before "));
}

std::string level_of_hook(const facts::Facts& facts) {
  return facts.room.drain.along_width ? ", level with the bore" : "";
}

std::string offset_joists(const job::Job& job, const facts::Facts& facts) {
  std::vector<std::string> names;
  for (const std::string& joist : facts.pipe.offset_through) names.push_back(said_joist(joist, facts, job));
  return units::listed(names);
}

JoistCuts joist_cuts(double depth_mm) {
  constexpr double edges_mm = 2 * 2 * units::inch_mm;
  return {std::max(0.0, std::min(depth_mm / 3, depth_mm - edges_mm)), depth_mm / 6, depth_mm / 4};
}

std::optional<double> hole_most(double depth_mm, const Limits& limits) {
  if (!limits.find("joist.hole")) return std::nullopt;
  const double edge = limits.at("joist.hole-edges").least.value_or(0);
  const double most = std::min(joist_cuts(depth_mm).hole_mm, depth_mm - 2 * edge);
  return std::max(0.0, std::min(most, limits.at("joist.hole").greatest.value_or(most)));
}

std::optional<double> notch_most(double depth_mm, const Limits& limits) {
  if (!limits.find("joist.notch")) return std::nullopt;
  const double most = joist_cuts(depth_mm).notch_mm;
  return std::min(most, limits.at("joist.notch").greatest.value_or(most));
}

std::optional<NotchAt> notch_at(const facts::JoistCrossing& c) {
  if (!c.centre_mm || c.hole_mm <= 0) return std::nullopt;
  const double low = *c.centre_mm + c.hole_mm / 2 - c.bottom_mm, high = c.top_mm - *c.centre_mm + c.hole_mm / 2;
  return NotchAt{&c, std::min({low, high, c.top_mm - c.bottom_mm}), low <= high};
}

Standing route_known(const job::Job& job, const facts::Facts& facts) {
  if (!facts.pipe.routed) return Standing::missing;
  return job.trap->from_left && job.trap->from_back ? Standing::read : Standing::assumed;
}

std::string read_route(const job::Job& job, const facts::Facts& facts) {
  if (facts.pipe.routed) return read_hub;
  if (!job.floor.joist_first) return unknown_joists(job);
  if (facts.pipe.unplaced_bend && !beyond_a_bend(*job.trap).empty()) return beyond_a_bend(*job.trap);
  if (facts.pipe.unplaced_bend)
    return "say after what length the trap arm bends, and to which side (trap.bend.after, trap.bend.to)";
  if (!job.trap || !job.trap->to) return "say to which side of the alcove the trap arm runs (trap.to)";
  return "measure the trap arm from weir to vent (trap.arm)";
}

bool is_thick(const job::Job& job) {
  constexpr double dressed_4_mm = 3.5 * 25.4;
  return job.floor.joist_stock.thickness.in_mm() >= dressed_4_mm - units::tolerance::length_mm;
}

std::optional<bool> in_tension(const job::Job& job, const facts::JoistCrossing& c) {
  const auto at = notch_at(c);
  if (!at) return std::nullopt;
  if (!at->from_below) return false;
  if (!c.along_span || !job.floor.joist_span) return std::nullopt;
  return *c.along_span * job.floor.joist_span->in_mm() > c.hole_mm / 2 + units::tolerance::length_mm;
}

double HoleGap::apart_mm(double wanted_mm, double up) const {
  const double apart = wanted_mm + round_mm + diameter_mm / 2, level = apart * apart - up * up;
  return level <= 0 ? 0 : half_mm + std::sqrt(level);
}

double HoleGap::further_mm(double wanted_mm) const {
  return apart_mm(wanted_mm, up_mm) - along_mm;
}

namespace {

/// What the arm's notch takes, and a hole that is there: how much wood is between, negative where they meet.
HoleGap beside_notch(const NotchAt& notch, double deep_mm, const facts::JoistHole& hole) {
  const facts::JoistCrossing& c = *notch.crossing;
  const double half = c.hole_mm / 2, away = std::abs(hole.along_mm - c.along_mm), out = std::max(0.0, away - half);
  // Above a notch from below counts as up, below one from above as well.
  const double past = notch.from_below ? hole.centre_mm - (c.bottom_mm + deep_mm) : c.top_mm - deep_mm - hole.centre_mm;
  const double wood = out > 0 || past > 0 ? std::hypot(out, std::max(0.0, past)) : -std::min(half - away, -past);
  HoleGap gap;
  gap.crossing = &c, gap.wood_mm = wood - hole.diameter_mm / 2, gap.half_mm = half, gap.along_mm = away;
  gap.ahead_mm = hole.along_mm - c.along_mm, gap.diameter_mm = hole.diameter_mm;
  gap.up_mm = std::max(0.0, past) * (notch.from_below ? 1 : -1);
  return gap;
}

/// No rule speaks of a notch beside a notch, where the arm crosses its joist twice.
std::vector<HoleGap> notch_gaps(const facts::PipeRun& pipe, double given_mm) {
  std::vector<HoleGap> gaps;
  for (const facts::JoistCrossing& c : pipe.crossings) {
    const auto at = c.modelled ? notch_at(c) : std::nullopt;
    if (!at) continue;
    for (std::size_t i = 0; i < pipe.holes.size(); ++i) {
      if (pipe.holes[i].joist != c.joist) continue;
      gaps.push_back(beside_notch(*at, std::max(at->deep_mm, given_mm), pipe.holes[i]));
      gaps.back().number = i + 1;
    }
  }
  return gaps;
}

}  // namespace

std::vector<HoleGap> hole_gaps(const facts::PipeRun& pipe, const job::Trap& trap) {
  if (takes_notches(trap)) return notch_gaps(pipe, trap.notch->in_mm());
  std::vector<HoleGap> gaps;
  const auto add = [&](const facts::JoistCrossing& c, double along, double centre, double diameter,
                       std::size_t number) {
    const double away = std::abs(along - c.along_mm), up = centre - *c.centre_mm;
    gaps.push_back({&c, std::hypot(away, up) - (c.hole_mm + diameter) / 2, 0, c.hole_mm / 2, away, along - c.along_mm,
                    up, diameter, number == 0, number});
  };
  for (const facts::JoistCrossing& c : pipe.crossings) {
    if (!c.modelled || !c.centre_mm || c.hole_mm <= 0) continue;
    for (const facts::JoistHole& hole : pipe.holes)
      if (hole.joist == c.joist)
        add(c, hole.along_mm, hole.centre_mm, hole.diameter_mm,
            static_cast<std::size_t>(&hole - pipe.holes.data()) + 1);
    for (const facts::JoistCrossing& other : pipe.crossings)
      if (&other > &c && other.modelled && other.joist == c.joist && other.centre_mm)
        add(c, other.along_mm, *other.centre_mm, other.hole_mm, 0);
  }
  return gaps;
}

namespace {

/// Places of the arm along its joists, against the one it has, at which a hole is too near.
struct Blocked {
  double from = 0, to = 0;
  bool holds(double at) const {
    return at > from + units::tolerance::length_mm && at < to - units::tolerance::length_mm;
  }
};

/// The first place at or after the present one that nothing blocks, on marks of the tape.
double first_free(const std::vector<Blocked>& all, double mark_mm) {
  double at = 0;
  const auto blocks = [&](const Blocked& b) { return b.holds(at); };
  for (auto it = std::find_if(all.begin(), all.end(), blocks); it != all.end();
       it = std::find_if(all.begin(), all.end(), blocks))
    at = units::up_to_mark(it->to, mark_mm);
  return at;
}

}  // namespace

Clear clear_of_holes(const std::vector<HoleGap>& gaps, double wanted_mm, bool any_height, double mark_mm) {
  std::vector<Blocked> more, less;
  for (const HoleGap& gap : gaps) {
    if (gap.of_the_arm) continue;
    const double reach = gap.apart_mm(wanted_mm, any_height ? 0 : gap.up_mm);
    more.push_back({gap.ahead_mm - reach, gap.ahead_mm + reach});
    less.push_back({-gap.ahead_mm - reach, -gap.ahead_mm + reach});
  }
  return {first_free(more, mark_mm), first_free(less, mark_mm)};
}

std::string weir_over_hub(const job::Job& job) {
  const job::Trap& trap = *job.trap;
  if (!trap.hub || !trap.weir) return "";
  const double over = (*trap.weir - *trap.hub).in_mm();
  if (over <= units::tolerance::length_mm) return "";
  return "the weir was read " + text_of(over, Unit::mm, job) +
         " above the stop in the trap's hub: water would stand as high in the riser's joint. Look whether the two "
         "were exchanged, and read both again (trap.weir, trap.hub); of a trap that is made so, have its maker say "
         "that the joint holds";
}

}  // namespace fallwright::rules
