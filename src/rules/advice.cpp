#include "rules/advice.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "job/layout.hpp"
#include "rules/book.hpp"
#include "rules/bought.hpp"
#include "rules/levelling.hpp"
#include "rules/remedy.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

constexpr double slack = units::tolerance::weld_mm;

/// Two opposite runs. A side that the opening already touches has no facet and asks for nothing.
struct Pair {
  double first = 0, second = 0;
  double sum() const { return first + second; }
  double longest() const { return std::max(first, second); }
  double shortest() const { return std::min(first, second) > slack ? std::min(first, second) : longest(); }
};

struct Runs {
  Pair across;        ///< left and right
  Pair along;         ///< back and front
  double radius = 0;  ///< of a round opening
  double longest() const { return std::max(across.longest(), along.longest()); }
  /// A channel from rim to rim leaves no run along itself.
  double shortest() const {
    if (across.longest() <= slack) return along.shortest();
    return along.longest() <= slack ? across.shortest() : std::min(across.shortest(), along.shortest());
  }
  /// What of the rise over a run lies above the opening's edge: all, but for a round one, where the runs begin at the
  /// centre and the edge is lowest on the way to the farthest corner.
  double above_edge() const { return 1 - radius / std::hypot(across.longest(), along.longest()); }
  Window rises(double least, double greatest) const {
    return {least * longest() * above_edge(), greatest * shortest() * above_edge()};
  }
};

/// Runs are measured from a round opening's centre, else from the opening's edge.
bool from_centre(const job::Job& job) {
  return job.drain.opening == job::Opening::round && job.drain.kind == job::DrainKind::point;
}

/// Runs from there to the four sides of the floor.
Runs runs_of(const job::Job& job) {
  const job::Layout at = job::lay_out(job);
  const bool round = from_centre(job);
  const job::Rect from = round ? job::Rect{at.drain_x, at.drain_y, at.drain_x, at.drain_y} : at.opening;
  return {{from.x0 - at.floor.x0, at.floor.x1 - from.x1},
          {at.floor.y1 - from.y1, from.y0 - at.floor.y0},
          round ? job.drain.size.in_mm() / 2 : 0};
}

/// Lengths the first of two opposite runs may have, when the runs across lie between `low` and `high` and no run may be
/// more than `k` times another.
Window first_run(double sum, double low, double high, double k) {
  const double share = sum / (1 + k);
  return {std::max({high / k, sum - k * low, share}), std::min({k * low, sum - high / k, sum - share})};
}

/// The mark of the tape next to `near` that lies in the window, on ever finer marks; nothing where none does.
std::optional<double> on_tape(const Window& window, double near, bool metric) {
  for (const double mark :
       {units::tape_mark_mm(metric), metric ? 0.5 : units::inch_mm / 32, units::rule_mark_mm(metric)}) {
    const double down = units::down_to_mark(near, mark), up = units::up_to_mark(near, mark);
    if (window.holds(down)) return down;
    if (window.holds(up)) return up;
  }
  return std::nullopt;
}

/// Where a drain may stand on one axis: the distance nearest to its own, and the runs that go with it.
struct Place {
  double distance_mm;
  Pair runs;
};

std::optional<Place> nearest(const job::Job& job, const job::From& from, const Pair& now, const Window& first) {
  if (!first.any()) return std::nullopt;
  // The first run grows with a distance from the first side (left, back), and shrinks with one from the other.
  const double sign = from.side == job::Side::left || from.side == job::Side::back ? 1 : -1;
  const double own = from.distance.in_mm();
  const double one = own + sign * (first.least_mm - now.first), other = own + sign * (first.greatest_mm - now.first);
  const Window window{std::min(one, other), std::max(one, other)};
  const double near = std::min(std::max(own, window.least_mm), window.greatest_mm);
  // Half way where no mark lies between: at an end the last digit that is written would break what it keeps.
  const double distance = on_tape(window, near, job.is_metric()).value_or((window.least_mm + window.greatest_mm) / 2);
  const double grown = sign * (distance - own);
  return Place{distance, {now.first + grown, now.second - grown}};
}

bool within(double a, double b, double k) {
  return std::max(a, b) <= k * std::min(a, b) + slack;
}

struct Move {
  std::optional<double> across_mm, along_mm;
  Runs runs;
};

std::optional<Move> move_on_one_axis(const job::Job& job, const Runs& now, double k) {
  const Pair &x = now.across, &y = now.along;
  if (within(y.longest(), y.shortest(), k))
    if (const auto place = nearest(job, job.drain.across, x, first_run(x.sum(), y.shortest(), y.longest(), k)))
      return Move{place->distance_mm, {}, {place->runs, y, now.radius}};
  if (within(x.longest(), x.shortest(), k))
    if (const auto place = nearest(job, job.drain.along, y, first_run(y.sum(), x.shortest(), x.longest(), k)))
      return Move{{}, place->distance_mm, {x, place->runs, now.radius}};
  return std::nullopt;
}

/// The middle of one axis leaves the other the widest choice; once that is made, the first need not go to the middle.
std::optional<Move> move_on_both(const job::Job& job, const Runs& now, double k) {
  const double middle = now.along.sum() / 2;
  const auto across = nearest(job, job.drain.across, now.across, first_run(now.across.sum(), middle, middle, k));
  if (!across) return std::nullopt;
  const auto along = nearest(job, job.drain.along, now.along,
                             first_run(now.along.sum(), across->runs.shortest(), across->runs.longest(), k));
  if (!along) return std::nullopt;
  return Move{across->distance_mm, along->distance_mm, {across->runs, along->runs, now.radius}};
}

/// A channel from rim to rim is moved across itself alone.
std::optional<Move> move_of_channel(const job::Job& job, const Runs& now, double k) {
  const bool spans_width = now.across.longest() <= slack;
  if (!spans_width && now.along.longest() > slack) return std::nullopt;  // a shorter one
  const Pair& runs = spans_width ? now.along : now.across;
  const double least = runs.sum() / (1 + k);
  const auto place = nearest(job, spans_width ? job.drain.along : job.drain.across, runs, {least, runs.sum() - least});
  if (!place) return std::nullopt;
  if (spans_width) return Move{{}, place->distance_mm, {now.across, place->runs, 0}};
  return Move{place->distance_mm, {}, {place->runs, now.along, 0}};
}

/// First with the fall the job asks for on its longest run; where that is too much for any place, with the least.
std::optional<Move> move_of(const job::Job& job, const Runs& runs, double least, double greatest) {
  const double own = job.base.rise ? least : std::max(least, job.base.fall.as_ratio());
  for (const double fall : {own, least}) {
    const double k = greatest / fall;
    if (job.drain.kind == job::DrainKind::line) {
      if (const auto move = move_of_channel(job, runs, k)) return move;
      continue;
    }
    if (const auto move = move_on_one_axis(job, runs, k)) return move;
    if (const auto move = move_on_both(job, runs, k)) return move;
  }
  return std::nullopt;
}

/// The least fall on the longest run; where the rim's window holds it, up to what somebody sets who works in percent.
double fall_for(const job::Job& job, const Window& rise, double least_fall) {
  if (!job.is_metric() || rise.least_mm <= 0) return least_fall;
  for (const double step : {1e-3, 1e-4}) {
    const double fall = std::ceil(least_fall / step - slack) * step;
    if (rise.holds(rise.least_mm * fall / least_fall)) return fall;
  }
  return least_fall;
}

/// The rim's height on the tape. Where no mark lies in the window, the least fall on the longest run is exact.
std::string rim_words(const job::Job& job, const Window& rise, double least_fall) {
  const bool metric = job.is_metric();
  const std::optional<double> low = on_tape(rise, rise.least_mm, metric),
                              high = on_tape(rise, rise.greatest_mm, metric);
  if (!low || !high)
    return "by base.fall = " + fall_in_full(fall_for(job, rise, least_fall), job) +
           (job.base.rise ? ", in place of base.rise" : "");
  const std::string height = *high - *low < slack
                                 ? length_in_full(*low, job)
                                 : "between " + length_in_full(*low, job) + " and " + length_in_full(*high, job);
  return height + " above the drain's edge (base.rise" + (job.base.rise ? "" : ", in place of base.fall") + ")";
}

std::string place_words(const job::Job& job, const job::From& from, double distance_mm) {
  const std::string side = job::name_of(from.side);
  return length_in_full(distance_mm, job) + " from the " + side + " edge of the base (drain.from_" + side + ", now " +
         length_in_full(from.distance.in_mm(), job) + ")";
}

/// "2", "1.6": how many times, without digits that say nothing.
std::string times(double ratio) {
  std::string text = units::decimals(ratio, 2);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

using Lines = std::vector<job::Change>;

job::Change place_of_drain(const job::Job& job, const job::From& from, double mm) {
  return set_length(std::string{"drain.from_"} + job::name_of(from.side), mm, job);
}

/// The mark of a window nearest to what the job has; where the tape shows none, by the fall.
Lines rim_lines(const job::Job& job, const Window& rise, double least_fall) {
  const bool metric = job.is_metric();
  const double now = job.base.rise ? job.base.rise->in_mm() : rise.least_mm;
  const double near = std::min(std::max(now, rise.least_mm), rise.greatest_mm);
  if (const auto mark = on_tape(rise, near, metric)) return {{"base.fall", ""}, set_length("base.rise", *mark, job)};
  return {{"base.rise", ""}, set_fall("base.fall", fall_for(job, rise, least_fall), job)};
}

/// A fall for all facets between both limits: the job's own where it leaves either limit a quarter of what lies between
/// them, else the one half way. At a limit a base would have to lie level to the last hair.
double fall_between(const job::Job& job, double least, double greatest) {
  const double now = job.base.fall.as_ratio();
  // Where nothing bounds it above, or all but nothing, twice the least is as steep as anybody asks for.
  const double most = std::max(least, std::min(greatest, 2 * least)), quarter = (most - least) / 4;
  constexpr double same = units::tolerance::ratio;
  const bool clear_of_both = now >= least + quarter - same && now <= greatest - quarter + same;
  if (clear_of_both) return now;
  // On 1/16 in/ft or a tenth of a percent where one lies near enough to half way; else on 1/64, or a hundredth.
  const double half_way = (least + most) / 2;
  for (const double step : {job.is_metric() ? 1e-3 : 1. / 192, job.is_metric() ? 1e-4 : 1. / 768}) {
    const double round = std::round(half_way / step) * step;
    if (std::abs(round - half_way) <= quarter) return round;
  }
  return half_way;
}

/// One fall for all facets, within both limits; nothing where the job's own is that already.
Lines one_fall(const job::Job& job, double least, double greatest) {
  const double now = job.base.fall.as_ratio(), fall = fall_between(job, least, greatest);
  if (!job.base.rise && std::abs(fall - now) <= units::tolerance::ratio) return {};
  if (!job.base.rise) return {set_fall("base.fall", fall, job)};
  return {{"base.rise", ""}, set_fall("base.fall", fall, job)};
}

std::string by_channel(const job::Job& job) {
  const std::string pattern = "base.pattern = \"to-line\"";
  if (job.drain.kind == job::DrainKind::point) return "a line drain (drain.kind = \"line\", " + pattern + ")";
  return job.drain.channel_length.is_zero() ? pattern
                                            : "a channel from rim to rim (" + pattern + ", without drain.length)";
}

std::string level_rim(const job::Job& job, double least, double greatest) {
  const FloorRemedy remedy = floor_remedy(job, least, greatest);
  if (remedy.rise && !remedy.across_mm && !remedy.along_mm) return "set the rim " + rim_words(job, *remedy.rise, least);
  std::string equal_fall = "base.pattern = \"equal-fall\"";
  for (const job::Change& line : one_fall(job, least, greatest))
    equal_fall += (line.value.empty() ? " " : " and ") + job::text_of(line);
  equal_fall += " (the rim is then not level)";
  // Nobody types these two: they stand on a mark, each to the side that keeps the sentence true.
  std::string text = "no rim height passes: the longest run, " + text_at_least(remedy.longest_mm, job) + ", is " +
                     (greatest / least < 1.005 ? "longer than" : "over " + times(greatest / least) + " times") +
                     " the shortest, " + text_at_most_on_tape(remedy.shortest_mm, job) + ", from the drain's " +
                     (from_centre(job) ? "centre" : "edge") + " to the rim";
  if (!remedy.possible())
    return text + ", and no place of the drain mends that on this floor; take " + equal_fall + " or " + by_channel(job);
  text += "; move the drain's centre to ";
  if (remedy.across_mm) text += place_words(job, job.drain.across, *remedy.across_mm);
  if (remedy.across_mm && remedy.along_mm) text += " and ";
  if (remedy.along_mm) text += place_words(job, job.drain.along, *remedy.along_mm);
  if (remedy.rise) text += ", with the rim " + rim_words(job, *remedy.rise, least);
  return text + ", or take " + equal_fall;
}

}  // namespace

std::vector<Lines> floor_changes(const job::Job& job, double least, double greatest) {
  if (job.base.pattern != job::FallPattern::level_rim) return {one_fall(job, least, greatest)};
  const FloorRemedy remedy = floor_remedy(job, least, greatest);
  std::vector<Lines> ways;
  if (remedy.possible()) {
    Lines lines;
    if (remedy.across_mm) lines.push_back(place_of_drain(job, job.drain.across, *remedy.across_mm));
    if (remedy.along_mm) lines.push_back(place_of_drain(job, job.drain.along, *remedy.along_mm));
    if (remedy.rise)
      for (job::Change& line : rim_lines(job, *remedy.rise, least)) lines.push_back(std::move(line));
    ways.push_back(std::move(lines));
  }
  if (remedy.possible() && !remedy.across_mm && !remedy.along_mm) return ways;  // the sentence ends there
  Lines equal = one_fall(job, least, greatest);
  equal.push_back({"base.pattern", "\"equal-fall\""});
  ways.push_back(std::move(equal));
  return ways;
}

bool Window::any() const {
  return least_mm <= greatest_mm + slack;
}
bool Window::holds(double mm) const {
  return mm >= least_mm - slack && mm <= greatest_mm + slack;
}

FloorRemedy floor_remedy(const job::Job& job, double least_fall, double greatest_fall) {
  const Runs runs = runs_of(job);
  FloorRemedy remedy{runs.longest(), runs.shortest(), {}, {}, {}};
  const Window here = runs.rises(least_fall, greatest_fall);
  if (here.any()) {
    remedy.rise = here;
    return remedy;
  }
  const auto move = move_of(job, runs, least_fall, greatest_fall);
  if (!move) return remedy;
  remedy.across_mm = move->across_mm;
  remedy.along_mm = move->along_mm;
  const Window there = move->runs.rises(least_fall, greatest_fall);
  const double own = job.base.rise ? job.base.rise->in_mm()
                                   : job.base.fall.as_ratio() * move->runs.longest() * move->runs.above_edge();
  if (!there.holds(own)) remedy.rise = there;
  return remedy;
}

std::string floor_advice(const job::Job& job, double least_fall, double greatest_fall) {
  if (is_bought(job))
    return "buy one that falls " + falls_allowed(least_fall, greatest_fall, job) +
           " on every side, its drain nearer the middle: tilting this one gains nothing";
  if (job.base.pattern == job::FallPattern::level_rim) return level_rim(job, least_fall, greatest_fall);
  const std::string falls = falls_allowed(least_fall, greatest_fall, job);
  return (falls.starts_with("between") ? "set base.fall " : "set base.fall to ") + falls;
}

}  // namespace fallwright::rules
