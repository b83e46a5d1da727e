#include "takeoff/pattern.hpp"

#include <algorithm>
#include <numeric>

namespace fallwright::takeoff {

int CutProblem::pieces() const {
  return std::accumulate(count.begin(), count.end(), 0);
}

std::int64_t used(const CutProblem& problem, const Pattern& pattern) {
  std::int64_t sum = 0;
  for (std::size_t i = 0; i < pattern.of.size(); ++i) sum += pattern.of[i] * problem.size[i];
  return sum;
}

bool is_empty(const Pattern& pattern) {
  return std::all_of(pattern.of.begin(), pattern.of.end(), [](int n) { return n == 0; });
}

Pattern shrunk(const CutProblem& problem, Pattern pattern) {
  const std::int64_t need = used(problem, pattern);
  const auto stick = std::lower_bound(problem.room.begin(), problem.room.end(), need);
  pattern.stick = static_cast<std::size_t>(stick - problem.room.begin());
  return pattern;
}

/// Adds to a set of sums, a bit for each, what they are with `size` more.
static void add_one_more(std::vector<std::uint64_t>& set, std::int64_t size) {
  const auto words = static_cast<std::size_t>(size / 64);
  const int bits = static_cast<int>(size % 64);
  for (std::size_t to = set.size(); to-- > words;) {
    const std::size_t from = to - words;
    set[to] |= set[from] << bits;
    if (bits > 0 && from > 0) set[to] |= set[from - 1] >> (64 - bits);
  }
}

Sums::Sums(const CutProblem& problem) {
  const auto width = static_cast<std::size_t>(problem.room.back() + 1);
  std::vector<std::uint64_t> set(width / 64 + 1);
  set[0] = 1;
  for (std::size_t i = 0; i < problem.kinds(); ++i) {
    const std::int64_t most = std::min<std::int64_t>(problem.count[i], problem.room.back() / problem.size[i]);
    for (std::int64_t n = 0; n < most; ++n) add_one_more(set, problem.size[i]);
  }
  for (std::size_t room = 0; room < width; ++room)
    if (set[room / 64] >> (room % 64) & 1) sums_.push_back(static_cast<std::int64_t>(room));
  below_.resize(width);
  constexpr std::size_t few = 4;  // of so many amounts of room one at most is a sum
  if (sums_.size() * few > width) {
    sums_.resize(width);
    std::iota(sums_.begin(), sums_.end(), std::int64_t{0});
  }
  for (std::size_t room = 0, i = 0; room < width; ++room) {
    if (i + 1 < sums_.size() && sums_[i + 1] == static_cast<std::int64_t>(room)) ++i;
    below_[room] = static_cast<std::uint32_t>(i);
  }
}

std::size_t Sums::from(std::int64_t size) const {
  return static_cast<std::size_t>(std::lower_bound(sums_.begin(), sums_.end(), size) - sums_.begin());
}

Knapsack::Knapsack(const CutProblem& problem, const Sums& sums, std::vector<std::int64_t> value)
    : problem_{problem}, sums_{sums}, value_{std::move(value)}, row_(problem.kinds() + 1) {
  const std::size_t kinds = problem.kinds();
  std::size_t rows = 1;  // sizes of which there is nothing left need none
  for (std::size_t i = kinds; i-- > 0;) row_[i] = problem.count[i] > 0 ? rows++ : row_[i + 1];
  cells_ = std::make_unique_for_overwrite<std::int64_t[]>(rows * sums_.count());
  std::fill_n(cells_.get(), sums_.count(), 0);
  for (std::size_t i = kinds; i-- > 0;)
    if (problem.count[i] > 0) fill(i);
}

void Knapsack::fill(std::size_t kind) {
  const std::int64_t size = problem_.size[kind], worth = value_[kind];
  const std::int64_t* const others = row(kind + 1);
  std::int64_t* const own = cells_.get() + row_[kind] * sums_.count();
  const std::size_t cells = sums_.count();
  const auto rest_of = [&](std::size_t at, std::int64_t n) { return sums_.within(sums_[at] - n * size); };
  if (problem_.count[kind] * size >= problem_.room.back()) {  // more than a stick holds: any number may be taken
    const std::size_t first = sums_.from(size);
    std::copy(others, others + first, own);
    for (std::size_t at = first; at < cells; ++at) own[at] = std::max(others[at], own[rest_of(at, 1)] + worth);
    return;
  }
  // Bundles of 1, 2, 4 ... and what is left, each taken or not, come to any number of it and no more. From above: what
  // stands below has not taken the bundle yet.
  const std::int64_t* before = others;
  for (std::int64_t left = problem_.count[kind], n = 1; left > 0; left -= n, n = std::min(2 * n, left)) {
    const std::size_t first = sums_.from(n * size);
    const auto with = [&](std::size_t at, std::size_t rest) {
      own[at] = std::max(before[at], before[rest] + n * worth);
    };
    if (sums_.are_all())
      for (std::size_t at = cells; at-- > first;) with(at, at - static_cast<std::size_t>(n * size));
    else
      for (std::size_t at = cells; at-- > first;) with(at, rest_of(at, n));
    if (before == others) std::copy(others, others + first, own);
    before = own;
  }
}

Pattern Knapsack::best(std::size_t stick) const {
  Pattern pattern{stick, std::vector<int>(problem_.kinds())};
  std::int64_t left = problem_.room[stick];
  for (std::size_t i = 0; i < problem_.kinds(); ++i) {
    // As many as can be without loss, so that pieces worth nothing at the moment fill up what is left.
    int n = static_cast<int>(std::min<std::int64_t>(problem_.count[i], left / problem_.size[i]));
    while (n > 0 && most(i + 1, left - n * problem_.size[i]) + n * value_[i] != most(i, left)) --n;
    pattern.of[i] = n;
    left -= n * problem_.size[i];
  }
  return pattern;
}

/// Goes through the patterns of one stick. A branch is left where what is still open cannot be worth enough, which the
/// table knows exactly.
class Knapsack::Walk {
 public:
  Walk(const Knapsack& sack, std::size_t at_most) : sack_{sack}, problem_{sack.problem_}, at_most_{at_most} {}

  /// @return false when there are too many.
  bool through(std::size_t stick, std::int64_t needed, std::optional<std::size_t> with) {
    with_ = with.value_or(problem_.kinds());
    pattern_ = {stick, std::vector<int>(problem_.kinds())};
    return step(0, problem_.room[stick], needed);
  }
  std::vector<Pattern> found() { return std::move(found_); }

 private:
  bool step(std::size_t kind, std::int64_t left, std::int64_t needed) {
    if (sack_.most(kind, left) < needed) return true;
    constexpr std::size_t steps_for_one = 1000;
    if (++steps_ > at_most_ * steps_for_one) return false;
    if (kind == problem_.kinds()) {
      if (needs_this_stick(left) && is_full(left)) found_.push_back(pattern_);
      return found_.size() <= at_most_;
    }
    const std::int64_t size = problem_.size[kind];
    int& n = pattern_.of[kind];
    const int least = kind == with_ ? 1 : 0;
    for (n = static_cast<int>(std::min<std::int64_t>(problem_.count[kind], left / size)); n >= least; --n)
      if (!step(kind + 1, left - n * size, needed - n * sack_.value_[kind])) return false;
    return true;
  }

  bool needs_this_stick(std::int64_t left) const {
    const std::size_t s = pattern_.stick;
    return s == 0 || problem_.room[s] - left > problem_.room[s - 1];
  }
  bool is_full(std::int64_t left) const {
    for (std::size_t i = 0; i < problem_.kinds(); ++i)
      if (pattern_.of[i] < problem_.count[i] && problem_.size[i] <= left) return false;
    return true;
  }

  const Knapsack& sack_;
  const CutProblem& problem_;
  std::size_t at_most_, with_ = 0, steps_ = 0;
  Pattern pattern_;
  std::vector<Pattern> found_;
};

std::optional<std::vector<Pattern>> Knapsack::within(std::int64_t slack, std::int64_t scale, std::size_t at_most,
                                                     std::optional<std::size_t> with) const {
  Walk walk{*this, at_most};
  for (std::size_t s = 0; s < problem_.room.size(); ++s)
    if (!walk.through(s, problem_.cost[s] * scale - slack, with)) return std::nullopt;
  return walk.found();
}

}  // namespace fallwright::takeoff
