#include "takeoff/least_stock.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <numeric>
#include <optional>

#include "takeoff/program.hpp"
#include "takeoff/relaxed.hpp"

namespace fallwright::takeoff {
namespace {

constexpr std::size_t most_patterns = 1500;
constexpr int most_nodes = 100;

/// Patterns, one for each stick, that hold every piece once.
struct StickChoice {
  std::vector<Pattern> sticks;
  std::int64_t cost = 0;
  std::int64_t bound = 0;  ///< no choice costs less
  bool least() const { return cost == bound; }
};

std::int64_t cost_of(const CutProblem& problem, const std::vector<Pattern>& sticks) {
  return std::accumulate(sticks.begin(), sticks.end(), std::int64_t{0},
                         [&](std::int64_t sum, const Pattern& p) { return sum + problem.cost[p.stick]; });
}

/// The longest piece first, each into the first stick with room, all sticks of one length; then each on the shortest
/// stick that holds it. The cheapest over all lengths.
std::vector<Pattern> first_fit(const CutProblem& problem) {
  std::vector<Pattern> best;
  const auto longest = static_cast<std::size_t>(
      std::find_if(problem.count.begin(), problem.count.end(), [](int n) { return n > 0; }) - problem.count.begin());
  for (std::size_t s = 0; s < problem.room.size() && longest < problem.kinds(); ++s) {
    if (problem.size[longest] > problem.room[s]) continue;
    std::vector<Pattern> sticks;
    std::vector<std::int64_t> room;
    for (std::size_t i = longest; i < problem.kinds(); ++i)
      for (int n = 0; n < problem.count[i]; ++n) {
        const auto fits = [&](std::int64_t left) { return left >= problem.size[i]; };
        const auto at = static_cast<std::size_t>(std::find_if(room.begin(), room.end(), fits) - room.begin());
        if (at == room.size()) {
          room.push_back(problem.room[s]);
          sticks.push_back({s, std::vector<int>(problem.kinds())});
        }
        ++sticks[at].of[i];
        room[at] -= problem.size[i];
      }
    for (Pattern& stick : sticks) stick = shrunk(problem, std::move(stick));
    if (best.empty() || cost_of(problem, sticks) < cost_of(problem, best)) best = std::move(sticks);
  }
  return best;
}

/// Takes away what is there more than once too often; each stick then becomes as short as may be.
/// @return nothing when a piece is missing.
std::optional<std::vector<Pattern>> trimmed(const CutProblem& problem, const std::vector<Pattern>& patterns,
                                            const std::vector<int>& times) {
  std::vector<int> left = problem.count;
  std::vector<Pattern> sticks;
  for (std::size_t j = 0; j < times.size(); ++j)
    for (int n = 0; n < times[j]; ++n) {
      Pattern stick = patterns[j];
      for (std::size_t i = 0; i < problem.kinds(); ++i) left[i] -= stick.of[i] = std::min(stick.of[i], left[i]);
      if (!is_empty(stick)) sticks.push_back(shrunk(problem, std::move(stick)));
    }
  if (std::any_of(left.begin(), left.end(), [](int n) { return n != 0; })) return std::nullopt;
  return sticks;
}

/// The patterns of a choice among `patterns`, those that are missing added, and how often each is cut.
std::vector<int> counted(const std::vector<Pattern>& sticks, std::vector<Pattern>& patterns) {
  std::vector<int> times(patterns.size());
  for (const Pattern& stick : sticks) {
    auto at = std::find(patterns.begin(), patterns.end(), stick);
    if (at == patterns.end()) at = patterns.insert(at, stick), times.push_back(0);
    ++times[static_cast<std::size_t>(at - patterns.begin())];
  }
  return times;
}

void keep_cheaper(const CutProblem& problem, StickChoice& best, std::vector<Pattern> sticks) {
  const std::int64_t cost = cost_of(problem, sticks);
  if (!best.sticks.empty() && cost >= best.cost) return;
  best.sticks = std::move(sticks);
  best.cost = cost;
}

/// All patterns that a choice cheaper than `cost` could hold, with at least one piece of size `with` where that is
/// given. Nothing when they are too many.
std::optional<std::vector<Pattern>> worthwhile(const CutProblem& problem, const Relaxed& relaxed, std::int64_t cost,
                                               std::optional<std::size_t> with = {}) {
  const Sums sums{problem};
  const Knapsack sack{problem, sums, relaxed.worth};
  // Such a choice can afford this much more than its pieces are worth, and as much as other sticks fall short of it.
  std::int64_t short_of = 0;
  for (std::size_t s = 0; s < problem.room.size(); ++s)
    short_of = std::max(short_of, sack.most(s) - problem.cost[s] * worth_scale);
  const std::int64_t slack = (cost - 1) * worth_scale - relaxed.all_worth + short_of * problem.pieces();
  return sack.within(slack, worth_scale, most_patterns, with);
}

/// Searches whole numbers over `patterns` and what is known. @return whether none over these cost less.
bool search(const CutProblem& problem, std::vector<Pattern> patterns, StickChoice& best) {
  const std::vector<int> known = counted(best.sticks, patterns);
  const Counts counts = whole_numbers(problem, patterns, known, best.bound);
  auto sticks = trimmed(problem, patterns, counts.times);
  if (!sticks) return false;
  keep_cheaper(problem, best, std::move(*sticks));
  return counts.proven;
}

/// Goes through sticks one by one: the longest piece that is left lies on one of them, with some of the others. The
/// most worthwhile pattern first; a branch ends where even the linear program's share of what is left costs too much.
/// Ends after a set number of nodes.
class Branches {
 public:
  Branches(const CutProblem& problem, StickChoice& best, int nodes) : whole_{problem}, best_{best}, nodes_{nodes} {}

  /// @return whether nothing was left out: what is best then is the best there is.
  bool search(const Relaxed& relaxed) {
    step(whole_, relaxed);
    return complete_;
  }

 private:
  void step(const CutProblem& left, const Relaxed& relaxed) {
    if (spent_ + relaxed.bound >= best_.cost || best_.least()) return;
    for (const Pattern& pattern : next_patterns(left, relaxed)) {
      if (best_.least()) return;
      if (nodes_-- <= 0) {
        complete_ = false;
        return;
      }
      take(left, relaxed, pattern);
    }
  }

  void take(CutProblem left, const Relaxed& relaxed, const Pattern& pattern) {
    for (std::size_t i = 0; i < left.kinds(); ++i) left.count[i] -= pattern.of[i];
    sticks_.push_back(pattern);
    spent_ += left.cost[pattern.stick];
    if (left.pieces() == 0) {
      keep_cheaper(whole_, best_, sticks_);
    } else if (spent_ < best_.cost) {
      const Relaxed next = relax(left, relaxed.patterns);
      std::vector<Pattern> rest = first_fit(left);
      rest.insert(rest.end(), sticks_.begin(), sticks_.end());
      keep_cheaper(whole_, best_, std::move(rest));
      step(left, next);
    }
    spent_ -= left.cost[pattern.stick];
    sticks_.pop_back();
  }

  /// Patterns with the longest piece that is left, those first that cost least beyond what they are worth.
  std::vector<Pattern> next_patterns(const CutProblem& left, const Relaxed& relaxed) {
    const auto longest = static_cast<std::size_t>(
        std::find_if(left.count.begin(), left.count.end(), [](int n) { return n > 0; }) - left.count.begin());
    auto all = worthwhile(left, relaxed, best_.cost - spent_, longest);
    if (!all) complete_ = false, all = relaxed.patterns;
    std::vector<std::pair<std::int64_t, Pattern>> ranked;
    for (Pattern& pattern : *all) {
      if (pattern.of[longest] == 0) continue;
      std::int64_t loss = left.cost[pattern.stick] * worth_scale;
      for (std::size_t i = 0; i < left.kinds(); ++i) loss -= pattern.of[i] * relaxed.worth[i];
      ranked.emplace_back(loss, std::move(pattern));
    }
    std::sort(ranked.begin(), ranked.end(), [](const auto& a, const auto& b) {
      return a.first != b.first ? a.first < b.first : a.second.of > b.second.of;
    });
    std::vector<Pattern> patterns;
    for (auto& [loss, pattern] : ranked) patterns.push_back(std::move(pattern));
    return patterns;
  }

  const CutProblem& whole_;
  StickChoice& best_;
  int nodes_;
  std::int64_t spent_ = 0;
  std::vector<Pattern> sticks_;
  bool complete_ = true;
};

/// First over the patterns of the linear program, then over all that a cheaper choice could hold.
StickChoice search_all(const CutProblem& problem, const Relaxed& relaxed) {
  StickChoice best;
  best.bound = relaxed.bound;
  keep_cheaper(problem, best, first_fit(problem));
  if (!best.least()) search(problem, relaxed.patterns, best);
  if (best.least()) return best;
  if (Branches{problem, best, most_nodes}.search(relaxed)) best.bound = best.cost;
  if (best.least()) return best;
  const auto all = worthwhile(problem, relaxed, best.cost);
  if (all && search(problem, *all, best)) best.bound = best.cost;
  return best;
}

/// Settles sticks until few pieces are left, and searches for those.
class Dive {
 public:
  Dive(const CutProblem& problem, Relaxed relaxed) : left_{problem}, relaxed_{std::move(relaxed)} {}

  std::vector<Pattern> down_to(int few_pieces) {
    while (left_.pieces() > few_pieces) {
      const std::size_t before = sticks_.size();
      settle_whole_sticks();
      if (sticks_.size() == before) settle_likely_sticks();
      if (sticks_.size() == before) break;
      relaxed_ = relax(left_, relaxed_.patterns);
    }
    if (left_.pieces() > 0)
      for (Pattern& pattern : search_all(left_, relaxed_).sticks) sticks_.push_back(std::move(pattern));
    return std::move(sticks_);
  }

 private:
  bool settle(const Pattern& pattern) {
    for (std::size_t i = 0; i < left_.kinds(); ++i)
      if (pattern.of[i] > left_.count[i]) return false;
    for (std::size_t i = 0; i < left_.kinds(); ++i) left_.count[i] -= pattern.of[i];
    sticks_.push_back(pattern);
    return true;
  }

  /// What the linear program cuts in whole sticks.
  void settle_whole_sticks() {
    for (std::size_t j = 0; j < relaxed_.patterns.size(); ++j)
      for (int n = 0; n < static_cast<int>(std::floor(relaxed_.times[j])); ++n) settle(relaxed_.patterns[j]);
  }

  /// The eighth of the sticks that it is surest of.
  void settle_likely_sticks() {
    std::vector<std::size_t> order(relaxed_.patterns.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return relaxed_.times[a] > relaxed_.times[b]; });
    double sticks = 0;
    for (const double times : relaxed_.times) sticks += times;
    int wanted = 1 + static_cast<int>(sticks / 8);
    for (const std::size_t j : order)
      if (wanted > 0 && relaxed_.times[j] > 0) wanted -= settle(relaxed_.patterns[j]) ? 1 : 0;
  }

  CutProblem left_;
  Relaxed relaxed_;
  std::vector<Pattern> sticks_;
};

void set_costs(CutProblem& problem) {
  problem.cost.clear();
  for (const std::int64_t length : problem.length) problem.cost.push_back(length * problem.weight + 1);
}

/// Weighs a step of length as heavy as need be for it to count first, and no heavier: no plan worth looking at has more
/// sticks than the shortest ones on offer in the length that first-fit buys. A heavier weight would have the linear
/// program buy many short sticks to save the saw cuts between them.
CutProblem weighed(CutProblem problem) {
  problem.weight = problem.pieces() + 1;
  set_costs(problem);
  const std::int64_t bought = cost_of(problem, first_fit(problem)) / problem.weight;
  problem.weight = std::min(problem.weight, bought / problem.length.front() + 1);
  set_costs(problem);
  return problem;
}

StickChoice choose(const CutProblem& problem) {
  Relaxed relaxed = relax(problem);
  StickChoice best;
  best.bound = relaxed.bound;
  keep_cheaper(problem, best, first_fit(problem));
  if (best.least()) return best;
  relaxed = sharpened(problem, std::move(relaxed));
  constexpr int few = 60, more = 100;
  if (problem.pieces() <= few) return search_all(problem, relaxed);
  best.bound = relaxed.bound;
  for (const int left_over : {few, more})
    if (!best.least()) keep_cheaper(problem, best, Dive{problem, relaxed}.down_to(left_over));
  return best;
}

LeastStock chosen(const CutProblem& problem) {
  StickChoice choice = choose(problem);
  return {std::move(choice.sticks), choice.bound / problem.weight, choice.least()};
}

std::int64_t length_of(const CutProblem& problem, const std::vector<Pattern>& sticks) {
  std::int64_t length = 0;
  for (const Pattern& stick : sticks) length += problem.length[stick.stick];
  return length;
}

}  // namespace

LeastStock solved(const CutProblem& problem) {
  const SolverSession session;
  CutProblem posed = weighed(problem);
  LeastStock found = chosen(posed);
  if (length_of(problem, found.sticks) == found.least_length) return found;
  // Where length is scarce, the saw cuts that more sticks save may be what is wanted after all.
  constexpr std::int64_t heavier = 64;
  posed.weight *= heavier;
  set_costs(posed);
  LeastStock other = chosen(posed);
  const std::int64_t least = std::max(found.least_length, other.least_length);
  if (length_of(problem, other.sticks) < length_of(problem, found.sticks)) found = std::move(other);
  found.least_length = least;
  return found;
}

namespace {

/// What was solved before: rooms that are framed alike, and variants of one that move nothing in its framing, ask the
/// same, and the answer hangs on nothing else.
class Solved {
 public:
  LeastStock of(const CutProblem& problem) {
    if (const auto known = find(problem)) return *known;
    LeastStock found = solved(problem);
    const std::lock_guard<std::mutex> lock{mutex_};
    constexpr std::size_t most = 500;  // problems that are kept, some kilobytes each
    if (known_.size() >= most) known_.clear();
    known_.emplace(problem, found);
    return found;
  }

 private:
  std::optional<LeastStock> find(const CutProblem& problem) {
    const std::lock_guard<std::mutex> lock{mutex_};
    const auto known = known_.find(problem);
    return known == known_.end() ? std::nullopt : std::optional{known->second};
  }

  std::mutex mutex_;
  std::map<CutProblem, LeastStock> known_;
};

}  // namespace

LeastStock least_stock(const CutProblem& problem) {
  static Solved all;
  return all.of(problem);
}

std::int64_t least_length(const CutProblem& problem) {
  const SolverSession session;
  const CutProblem heavy = weighed(problem);
  return sharpened(heavy, relax(heavy)).bound / heavy.weight;
}

}  // namespace fallwright::takeoff
