#include "rules/holding.hpp"

#include <algorithm>
#include <functional>

#include "rules/book.hpp"
#include "rules/remedy.hpp"
#include "rules/steel.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::rules {
namespace {

using units::inch_mm;

/// More at one stud would split it. Common practice, no source.
constexpr int most_at_stud = 6;
/// The longest nail that is driven askew through a joist's end, without coming out of the cleat in front: from memory.
constexpr double most_askew_mm = 110;

/// Across and along itself at once: screws in sheet and smooth nails by Eurocode 5 (8.27) add up, its screws by squares
/// (8.28), and American ones by their own formula.
Together together(const Joint& j, const job::Job& job) {
  if (is_steel(job)) return Together::added;
  if (!j.wood.eurocode()) return Together::by_nds;
  return j.fastener.screw ? Together::squared : Together::added;
}

/// What one fastener at a joist's end takes across: a nail driven askew, or a screw through track and joist.
double tie_across(const job::Job& job, const facts::Facts& facts, const Fastener& fastener, double length_mm) {
  if (!is_steel(job)) {
    const HeldIn wood = wood_of(job);
    if (wood.eurocode()) return toe_nailed_n(fastener, wood.density, length_mm) * eurocode_may_use / n_per_lbf;
    return toe_nailed_lbf(fastener, wood.gravity, length_mm / inch_mm);
  }
  const auto joist = std::find_if(facts.bearers.begin(), facts.bearers.end(),
                                  [](const facts::Bearer& b) { return b.kind == facts::Bears::joist; });
  if (joist == facts.bearers.end()) return 0;
  const double track = facts.cleat->thickness_mm, stud = joist->sheet_mm;
  return screw_across(fastener.diameter * inch_mm, track, stud, tensile_of(track), tensile_of(stud)) / n_per_lbf;
}

using Holds = std::function<bool(const Joint&)>;

/// How long a fastener is to be for so many of them to hold at one stud; nothing where none is long enough that ends in
/// the stud. The longest holds most: where that does not, none does.
std::optional<double> length_that_holds(Joint j, int count, double furred_mm, const job::Job& job, const Holds& holds) {
  const double through = j.side_in * inch_mm + furred_mm, deep = job.walls.stock.depth.in_mm();
  const std::vector<double> lengths = lengths_of(j.fastener, through, through + deep);
  j.at_stud = count;
  const auto held = [&](double length) {
    j.into_in = (length - through) / inch_mm, j.length_in = length / inch_mm;
    return holds(j);
  };
  if (lengths.empty() || !held(lengths.back())) return std::nullopt;
  return *std::find_if(lengths.begin(), lengths.end(), held);
}

/// So many of a stouter kind, of a length as they are sold; the fewest of the first that does.
std::optional<Holding> of_stouter(const Joint& j, int most, double furred_mm, const job::Job& job, const Holds& holds) {
  for (const Fastener& stouter : stouter_than(j.fastener)) {
    Joint thick = j;
    thick.fastener = stouter;
    for (int count = 1; count <= most; ++count)
      if (const auto length = length_that_holds(thick, count, furred_mm, job, holds))
        return Holding{counted(count, stouter) + " at each stud, " + text_of(*length, Unit::mm, job) +
                           " long (bench.frame.fastener, bench.frame.fasteners_at_stud, bench.frame.fastener_length)",
                       {{"bench.frame.fastener", '"' + std::string{stouter.name} + '"', 0},
                        set_count("bench.frame.fasteners_at_stud", count),
                        set_length("bench.frame.fastener_length", *length, job)}};
  }
  return std::nullopt;
}

std::vector<Holding> ways_to_hold(const Joint& j, double furred_mm, const job::Job& job, const Holds& holds) {
  std::vector<Holding> ways;
  const auto fasteners = [&](int count) { return set_count("bench.frame.fasteners_at_stud", count); };
  const int most = std::max(j.at_stud, most_at_stud);
  Joint more = j;
  while (more.at_stud <= most && !holds(more)) ++more.at_stud;
  if (more.at_stud <= most)
    ways.push_back({std::to_string(more.at_stud) + " fasteners at each stud (bench.frame.fasteners_at_stud)",
                    {fasteners(more.at_stud)}});
  for (int count = j.at_stud; count <= most; ++count) {
    const auto length = length_that_holds(j, count, furred_mm, job, holds);
    if (!length) continue;
    const bool others = count > j.at_stud;
    if (others && !ways.empty()) break;  // a way by their count alone is told
    std::vector<job::Change> changes{set_length("bench.frame.fastener_length", *length, job)};
    if (others) changes.push_back(fasteners(count));
    ways.push_back({(others ? std::to_string(count) + " fasteners at each stud, " : "fasteners ") +
                        text_of(*length, Unit::mm, job) + " long (" +
                        (others ? "bench.frame.fasteners_at_stud, " : "") + "bench.frame.fastener_length)",
                    std::move(changes)});
    break;
  }
  if (!ways.empty()) return ways;
  if (auto stouter = of_stouter(j, most, furred_mm, job, holds)) ways.push_back(std::move(*stouter));
  return ways;
}

}  // namespace

double Joint::across() const {
  if (wood.eurocode()) return across_n(fastener, in_mm()) * eurocode_may_use / n_per_lbf;
  return across_lbf(fastener, wood.gravity, side_in, into_in, side_psi);
}

double Joint::pulled() const {
  if (wood.eurocode()) return pulled_n(fastener, in_mm()) * eurocode_may_use / n_per_lbf;
  const double held_in = fastener.screw ? std::min(into_in, length_in * 2 / 3) : into_in;
  const double thread = pulled_lbf_in(fastener, wood.gravity) * std::max(0.0, held_in);
  if (side_psi <= 0) return thread;
  const double side = side_in * inch_mm;
  return std::min(thread, screw_head_through(fastener.head * inch_mm, side, tensile_of(side)) / n_per_lbf);
}

Push pushed(const job::Job& job, const facts::Facts& facts, const Joint& j, const Tie& tie) {
  return push_of(*facts.cleat, *facts.stand, push_lbf(job), {j.across(), j.pulled()}, j.at_stud,
                 tie_across(job, facts, tie.fastener, tie.length_mm), tie.count, together(j, job));
}

std::vector<Holding> ways_to_carry(const Joint& joint, double furred_mm, const job::Job& job) {
  const double lbf = person_lbf(job);
  return ways_to_hold(joint, furred_mm, job, [&](const Joint& j) {
    const double one = j.across();
    return one > 0 && lbf <= one * j.at_stud + units::tolerance::length_mm;
  });
}

std::optional<Holding> way_to_bear(const Joint& joint, double furred_mm, const job::Job& job,
                                   const facts::Facts& facts) {
  const Tie none{joint.fastener, 0, 0};  // what holds the joists is no matter to the cleat
  const auto ways = ways_to_hold(joint, furred_mm, job, [&](const Joint& j) {
    return pushed(job, facts, j, none).share_of("cleat") <= 1 + units::tolerance::ratio;
  });
  return ways.empty() ? std::nullopt : std::optional{ways.front()};
}

std::optional<Holding> way_to_tie(const Tie& tie, const job::Job& job, const facts::Facts& facts) {
  const Joint none{tie.fastener, {soft_gravity, 0}, 1, 1, 2, 0, 1};  // nor the cleat to the joists
  const auto holds = [&](const Tie& t) {
    return pushed(job, facts, none, t).share_of("joist") <= 1 + units::tolerance::ratio;
  };
  for (Tie more = tie; more.count <= most_at_joist; ++more.count)
    if (holds(more))
      return Holding{std::to_string(more.count) + " fasteners at each end of a joist (bench.frame.fasteners_at_joist)",
                     {set_count("bench.frame.fasteners_at_joist", more.count)}};
  std::vector<Fastener> kinds = stouter_than(tie.fastener);
  std::erase_if(kinds, [&](const Fastener& kind) { return kind.screw != is_steel(job); });
  kinds.insert(kinds.begin(), tie.fastener);
  for (const Fastener& kind : kinds) {
    const auto lengths = is_steel(job) ? std::vector{tie.length_mm} : lengths_of(kind, 0, most_askew_mm);
    for (int count = 1; count <= std::max(tie.count, most_at_joist); ++count)
      for (const double length : lengths) {
        if (!holds({kind, length, count})) continue;
        const bool by_length = !is_steel(job);
        Holding way{counted(count, kind) + " at each end of a joist" +
                        (by_length ? ", " + text_of(length, Unit::mm, job) + " long" : "") +
                        " (bench.frame.joist_fastener, bench.frame.fasteners_at_joist" +
                        (by_length ? ", bench.frame.joist_fastener_length)" : ")"),
                    {{"bench.frame.joist_fastener", '"' + std::string{kind.name} + '"', 0},
                     set_count("bench.frame.fasteners_at_joist", count)}};
        if (by_length) way.changes.push_back(set_length("bench.frame.joist_fastener_length", length, job));
        return way;
      }
  }
  return std::nullopt;
}

std::string told_ways(const std::vector<Holding>& ways) {
  std::vector<std::string> words;
  for (const Holding& way : ways) words.push_back(way.words);
  return "take " + units::listed(words, ", or ");
}

}  // namespace fallwright::rules
