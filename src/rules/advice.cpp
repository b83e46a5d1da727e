#include "rules/advice.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "job/layout.hpp"
#include "rules/book.hpp"

namespace fallwright::rules {
namespace {

/// Runs from the opening's edge (or a round one's centre) to the four sides of the floor.
struct Runs {
  double left, right, back, front;
  double longest() const { return std::max({left, right, back, front}); }
  double shortest() const { return std::min({left, right, back, front}); }
};

Runs runs_of(const job::Job& job, const job::Layout& at) {
  const bool round = job.drain.opening == job::Opening::round;
  const job::Rect from = round ? job::Rect{at.drain_x, at.drain_y, at.drain_x, at.drain_y} : at.opening;
  return {from.x0 - at.floor.x0, at.floor.x1 - from.x1, at.floor.y1 - from.y1, from.y0 - at.floor.y0};
}

struct Span {
  double least, greatest;
  bool any() const { return least <= greatest; }
  double nearest(double v) const { return std::clamp(v, least, greatest); }
};

/// Allowed lengths of the first of two opposite runs that add up to `total`, when the runs across lie between `low` and
/// `high` and no run may be more than `k` times another.
Span allowed(double total, double low, double high, double k) {
  const double most = std::min(k * low, total - high / k), share = total / (1 + k);
  return {std::max({high / k, total - k * low, share}), std::min(most, total - share)};
}

/// A distance brought to the tape without leaving its span.
double on_tape(double mm, const Span& span, bool metric) {
  const double mark = metric ? 1 : 25.4 / 16, down = std::floor(mm / mark + 1e-6) * mark, up = std::ceil(mm / mark - 1e-6) * mark;
  return down >= span.least - 1e-6 ? down : up;
}

/// "drain.from_right = 27-1/2" (now 14")": a new distance that makes the first run what it should be.
std::string move(const job::Job& job, const job::From& from, double first_run, double wanted, const Span& span, bool first_is_side) {
  // The first run grows as the drain goes away from the first side: so does a distance from that side.
  const double sign = first_is_side ? 1 : -1, now = from.distance.in_mm();
  const Span distances = sign > 0 ? Span{now + span.least - first_run, now + span.greatest - first_run}
                                  : Span{now - (span.greatest - first_run), now - (span.least - first_run)};
  const double target = on_tape(now + sign * (wanted - first_run), distances, job.unit == job::UnitSystem::metric);
  const std::string side = job::name_of(from.side);
  return "the drain's centre " + text_of(target, Unit::mm, job) + " from the " + side + " edge of the base (drain.from_" + side +
         ", now " + text_of(now, Unit::mm, job) + ")";
}

std::string move_across(const job::Job& job, const Runs& r, double k) {
  const Span span = allowed(r.left + r.right, std::min(r.back, r.front), std::max(r.back, r.front), k);
  if (std::max(r.back, r.front) > k * std::min(r.back, r.front) || !span.any()) return "";
  return move(job, job.drain.across, r.left, span.nearest(r.left), span, job.drain.across.side == job::Side::left);
}

std::string move_along(const job::Job& job, const Runs& r, double k) {
  const Span span = allowed(r.back + r.front, std::min(r.left, r.right), std::max(r.left, r.right), k);
  if (std::max(r.left, r.right) > k * std::min(r.left, r.right) || !span.any()) return "";
  return move(job, job.drain.along, r.back, span.nearest(r.back), span, job.drain.along.side == job::Side::back);
}

std::string move_both(const job::Job& job, Runs r, double k) {
  const double x = (r.left + r.right) / 2, y = (r.back + r.front) / 2;
  if (std::max(x, y) > k * std::min(x, y)) return "";
  return move(job, job.drain.across, r.left, x, {x, x}, job.drain.across.side == job::Side::left) + " and " +
         move(job, job.drain.along, r.back, y, {y, y}, job.drain.along.side == job::Side::back);
}

std::string level_rim(const job::Job& job, double least, double greatest) {
  const Runs runs = runs_of(job, job::lay_out(job));
  const auto len = [&](double mm) { return text_of(mm, Unit::mm, job); };
  const double low = least * runs.longest(), high = greatest * runs.shortest();
  if (low <= high) {
    const std::string in_place = job.base.rise ? "" : " (base.rise, in place of base.fall)";
    return "set the rim " + len(low) + " to " + len(high) + " above the drain" + in_place;
  }
  const double k = greatest / (job.base.rise ? least : std::max(least, job.base.fall.as_ratio()));
  const std::string why = "no rim height passes: the longest run, " + len(runs.longest()) + ", is more than " +
                          text_of(std::round(greatest / least * 10) / 10, Unit::count, job) + " times the shortest, " + len(runs.shortest());
  for (const std::string& place : {move_across(job, runs, k), move_along(job, runs, k), move_both(job, runs, k)})
    if (!place.empty()) return why + "; bring " + place + ", or take pattern = \"equal-fall\" (the rim is then not level)";
  return why + ", and no place of the drain mends that on this floor; take pattern = \"equal-fall\" (the rim is then not level) or a line drain";
}

}  // namespace

std::string floor_advice(const job::Job& job, double least_fall, double greatest_fall) {
  if (job.base.pattern == job::FallPattern::level_rim && job.drain.kind == job::DrainKind::point)
    return level_rim(job, least_fall, greatest_fall);
  return "set base.fall between " + text_of(least_fall, Unit::ratio, job) + " and " + text_of(greatest_fall, Unit::ratio, job);
}

}  // namespace fallwright::rules
