#include "study/road.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <string>

#include "measure/memory.hpp"
#include "rules/check.hpp"
#include "study/followed.hpp"

namespace fallwright::study {
namespace {

using rules::Remedy;
using rules::Result;
using Lines = std::vector<job::Change>;

/// Lines after others: what is written last holds, and a line that was left out before stays where it was.
Lines followed_by(Lines lines, const Lines& more) {
  for (const job::Change& line : more) {
    std::erase_if(lines, [&](const job::Change& l) { return l.key == line.key && l.entry == line.entry; });
    lines.push_back(line);
  }
  return lines;
}

/// Two sets of lines that write different things into one place.
bool differ(const Lines& a, const Lines& b) {
  return std::any_of(a.begin(), a.end(), [&](const job::Change& one) {
    return std::any_of(b.begin(), b.end(), [&](const job::Change& other) {
      return one.key == other.key && one.entry == other.entry && one.value != other.value;
    });
  });
}

/// What the first remedy of each check that it settles would write; nothing where there is none to follow.
std::vector<const Remedy*> told(const std::vector<Result>& results) {
  std::vector<const Remedy*> all;
  for (const Result& result : results)
    if (broken(result))
      for (const Remedy& remedy : result.remedies)
        if (remedy.settles) {
          all.push_back(&remedy);
          break;
        }
  return all;
}

/// How much fails: a failure counts for more than any cautions.
std::size_t weight(const std::vector<Result>& results) {
  return rules::count(results, rules::Outcome::fail) * 1000 + rules::count(results, rules::Outcome::caution);
}

/// A place on the road: what is written so far, and what is judged there.
struct Stop {
  Lines lines;
  std::vector<Result> results;
};

class Walk {
 public:
  Walk(const job::Job& job, const std::vector<Result>& start, measure::Memory& memory)
      : job_{job}, start_{start}, memory_{memory}, here_{{}, start}, best_{here_} {}

  /// Worst first; each check is turned to twice at most, since what mends another may break it again.
  Stop to_its_end() {
    while (step())
      if (weight(here_.results) < weight(best_.results)) best_ = here_;
    take_what_costs_nothing();
    return best_;
  }

 private:
  /// What was not come to on the way, and breaks nothing by itself, is tried at once.
  void take_what_costs_nothing() {
    Lines lines = best_.lines;
    for (const Remedy* remedy : told(start_))
      if (remedy->costs.empty() && !differ(lines, remedy->changes))
        lines = followed_by(std::move(lines), remedy->changes);
    if (lines.size() == best_.lines.size()) return;
    Followed there = follow(job_, lines, memory_);
    if (there.refused.empty() && weight(there.results) < weight(best_.results))
      best_ = {std::move(lines), std::move(there.results)};
  }

  bool step() {
    for (const Result& result : rules::worst_first(here_.results)) {
      if (!broken(result) || result.remedies.empty() || turns_[result.id] >= 2) continue;
      ++turns_[result.id];
      if (auto next = mended(result)) {
        here_ = std::move(*next);
        return true;
      }
    }
    return false;
  }

  /// The remedy after which least fails, if any settles the check.
  std::optional<Stop> mended(const Result& result) {
    std::optional<Stop> best;
    for (const Remedy& remedy : result.remedies) {
      if (built_ >= most_built) return best;
      ++built_;
      Stop next{followed_by(here_.lines, remedy.changes), {}};
      Followed there = follow(job_, next.lines, memory_);
      const Result* now = rules::find(there.results, result.id);
      if (!there.refused.empty() || !now || broken(*now)) continue;
      next.results = std::move(there.results);
      if (!best || weight(next.results) < weight(best->results)) best = std::move(next);
    }
    return best;
  }

  static constexpr int most_built = 10;  ///< rooms that are built on the way
  const job::Job& job_;
  const std::vector<Result>& start_;
  measure::Memory& memory_;
  Stop here_, best_;
  std::map<std::string, int> turns_;
  int built_ = 0;
};

bool holds(const std::vector<std::string>& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// One of the ways told beside the check that alone can be mended writes these lines, and breaks nothing.
bool told_alone(const Lines& lines, const std::vector<Result>& results) {
  const auto writes = [&](const Remedy& r) {
    return r.settles && r.costs.empty() && r.changes.size() == lines.size() &&
           std::is_permutation(lines.begin(), lines.end(), r.changes.begin());
  };
  return std::any_of(results.begin(), results.end(), [&](const Result& result) {
    return broken(result) && std::any_of(result.remedies.begin(), result.remedies.end(), writes);
  });
}

/// What the remedies cost one by one.
std::vector<std::string> costs_of(const std::vector<const Remedy*>& remedies) {
  std::vector<std::string> costs;
  for (const Remedy* remedy : remedies) costs.insert(costs.end(), remedy->costs.begin(), remedy->costs.end());
  return costs;
}

/// All of them can be written at once, each does what it does alone, and nothing else is broken by them.
bool go_together(const job::Job& job, const std::vector<const Remedy*>& remedies, const std::vector<Result>& before,
                 measure::Memory& memory) {
  Lines lines;
  for (const Remedy* remedy : remedies) {
    if (differ(lines, remedy->changes)) return false;
    lines = followed_by(std::move(lines), remedy->changes);
  }
  if (remedies.size() < 2) return true;
  const Followed there = follow(job, lines, memory);
  if (!there.refused.empty()) return false;
  const std::vector<std::string> costs = costs_of(remedies);
  return std::all_of(before.begin(), before.end(), [&](const Result& result) {
    const Result* now = rules::find(there.results, result.id);
    if (!now || !broken(*now) || holds(costs, result.id)) return true;
    return broken(result) &&
           std::none_of(result.remedies.begin(), result.remedies.end(), [](const Remedy& r) { return r.settles; });
  });
}

}  // namespace

rules::Road road_of(const job::Job& job, const std::vector<Result>& results, const measure::Memory& known) {
  measure::Memory memory{known};  // a stop on the way shares most with the one before it
  if (!can_be_followed(job)) return {};
  const std::vector<const Remedy*> remedies = told(results);
  if (remedies.empty()) return {};
  const std::vector<std::string> costs = costs_of(remedies);
  const bool together = go_together(job, remedies, results, memory);
  if (together && costs.empty()) return {};
  const Stop end = Walk{job, results, memory}.to_its_end();
  if (end.lines.empty()) return {};
  if (remedies.size() == 1 && (end.lines == remedies.front()->changes || told_alone(end.lines, results))) return {};
  rules::Road road{end.lines, {}, {}, {}};
  for (const Result& before : results) {
    const Result* now = rules::find(end.results, before.id);
    if (!now) continue;
    if (broken(before) && !broken(*now)) road.mends.push_back(before.id);
    if (broken(*now) && (!broken(before) || !before.remedies.empty())) road.left.push_back(before.id);
  }
  for (const Result& now : rules::worst_first(end.results)) {
    const Result* before = rules::find(results, now.id);
    if (now.outcome == rules::Outcome::fail && before && broken(*before) && before->remedies.empty())
      road.stay.push_back(now.id);
  }
  // It says no more than they do where what they cost is not mended on it either.
  const bool same = std::all_of(costs.begin(), costs.end(), [&](const auto& id) { return holds(road.left, id); });
  if (together && same) return {};
  return road;
}

}  // namespace fallwright::study
