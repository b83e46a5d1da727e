#include "takeoff/relaxed.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "takeoff/program.hpp"

namespace fallwright::takeoff {
namespace {

constexpr int most_rounds = 2000;  ///< of column generation; a few hundred are usual

/// For every size the stick on which it costs least by itself.
std::vector<Pattern> first_patterns(const CutProblem& problem) {
  std::vector<Pattern> patterns;
  for (std::size_t i = 0; i < problem.kinds(); ++i) {
    if (problem.count[i] == 0) continue;
    std::optional<Pattern> cheapest;
    for (std::size_t s = 0; s < problem.room.size(); ++s) {
      const int n = static_cast<int>(std::min<std::int64_t>(problem.count[i], problem.room[s] / problem.size[i]));
      if (n == 0) continue;
      if (cheapest && problem.cost[s] * cheapest->of[i] >= problem.cost[cheapest->stick] * n) continue;
      cheapest = Pattern{s, std::vector<int>(problem.kinds())};
      cheapest->of[i] = n;
    }
    patterns.push_back(*cheapest);
  }
  return patterns;
}

/// If no pattern is worth more than its stick, all pieces together are worth no more than any choice costs. If one is,
/// worths shrink by as much as it is too dear. Rounded up, since costs are whole numbers.
std::int64_t bound_from(const CutProblem& problem, const Knapsack& sack, std::int64_t all_worth) {
  std::int64_t bound = (all_worth + worth_scale - 1) / worth_scale;
  for (std::size_t s = 0; s < problem.room.size(); ++s) {
    const std::int64_t most = sack.most(s), cost = problem.cost[s];
    if (most <= cost * worth_scale) continue;
    // all_worth * cost / most in long division, so that no product overflows; where one might, its last part is left
    // out.
    const std::int64_t whole = all_worth / most, part = all_worth % most;
    const bool fits = part == 0 || cost <= (std::numeric_limits<std::int64_t>::max() - most) / part;
    bound = std::min(bound, whole * cost + (fits ? (part * cost + most - 1) / most : 0));
  }
  return bound;
}

/// The least that sticks can cost at all when they cost no less than `bound`: lengths bought come in steps, and of one
/// total there are only so many sticks.
std::int64_t reachable(const CutProblem& problem, std::int64_t bound) {
  const auto length = [&](std::size_t s) { return problem.length[s]; };
  constexpr std::int64_t most_steps = 1'000'000;
  const std::int64_t end = bound / problem.weight + length(problem.room.size() - 1) + 1;
  if (end > most_steps) return bound;
  std::vector<std::int64_t> fewest(end + 1, -1), most(end + 1, -1);
  fewest[0] = most[0] = 0;
  for (std::int64_t total = 1; total <= end; ++total)
    for (std::size_t s = 0; s < problem.room.size(); ++s) {
      if (length(s) > total || fewest[total - length(s)] < 0) continue;
      const std::int64_t few = fewest[total - length(s)] + 1;
      if (fewest[total] < 0 || few < fewest[total]) fewest[total] = few;
      most[total] = std::max(most[total], most[total - length(s)] + 1);
    }
  for (std::int64_t total = 0; total <= end; ++total)
    if (fewest[total] >= 0 && total * problem.weight + most[total] >= bound)
      return std::max(bound, total * problem.weight + fewest[total]);
  return bound;
}

/// Adds the pattern for each stick that is worth more than it costs. @return whether there was a new one.
bool add_worthwhile(const CutProblem& problem, const Knapsack& sack, Relaxed& found, Relaxation& program) {
  bool any = false;
  for (std::size_t s = 0; s < problem.room.size(); ++s) {
    if (sack.most(s) <= problem.cost[s] * worth_scale) continue;
    const Pattern pattern = shrunk(problem, sack.best(s));
    if (std::find(found.patterns.begin(), found.patterns.end(), pattern) != found.patterns.end()) continue;
    found.patterns.push_back(pattern);
    program.add(pattern);
    any = true;
  }
  return any;
}

}  // namespace

Pattern limited(const CutProblem& problem, Pattern pattern) {
  for (std::size_t i = 0; i < problem.kinds(); ++i) pattern.of[i] = std::min(pattern.of[i], problem.count[i]);
  return shrunk(problem, std::move(pattern));
}

Relaxed relax(const CutProblem& problem, const std::vector<Pattern>& seeds) {
  Relaxed found;
  found.patterns = first_patterns(problem);
  found.worth.resize(problem.kinds());
  for (const Pattern& seed : seeds)
    if (Pattern pattern = limited(problem, seed); !is_empty(pattern)) found.patterns.push_back(std::move(pattern));
  std::sort(found.patterns.begin(), found.patterns.end());
  found.patterns.erase(std::unique(found.patterns.begin(), found.patterns.end()), found.patterns.end());
  const Sums sums{problem};
  Relaxation program{problem};
  for (const Pattern& pattern : found.patterns) program.add(pattern);
  for (int round = 0; round < most_rounds; ++round) {
    const auto shares = program.solve();
    if (!shares) break;
    std::vector<std::int64_t> worth;
    std::int64_t all_worth = 0;
    for (std::size_t i = 0; i < problem.kinds(); ++i) {
      worth.push_back(std::max(std::int64_t{0}, std::int64_t{std::llround(shares->worth[i] * worth_scale)}));
      all_worth += worth[i] * problem.count[i];
    }
    const Knapsack sack{problem, sums, worth};
    const std::int64_t bound = bound_from(problem, sack, all_worth);
    found.times = shares->times;
    if (bound >= found.bound) found.bound = bound, found.worth = worth, found.all_worth = all_worth;
    if (!add_worthwhile(problem, sack, found, program)) break;
  }
  found.times.resize(found.patterns.size());
  if (problem.weight > 0) found.bound = reachable(problem, found.bound);
  return found;
}

Relaxed sharpened(const CutProblem& problem, Relaxed relaxed) {
  CutProblem lengths = problem;
  lengths.cost = problem.length;
  lengths.weight = 0;
  const std::int64_t least = relax(lengths, relaxed.patterns).bound;
  relaxed.bound = std::max(relaxed.bound, reachable(problem, least * problem.weight));
  return relaxed;
}

}  // namespace fallwright::takeoff
