#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

#include "brep/properties.hpp"
#include "job/validate.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/joists.hpp"
#include "study/doubts.hpp"
#include "study/study.hpp"

namespace fallwright::study {
namespace {

using Stretch = std::pair<double, double>;

/// What is left of a stretch between joists once each of them is `away` from it. A stretch that no joist touches stays.
std::optional<Stretch> away_from_joists(const parts::Model& model, int axis, double radius, double away,
                                        const Stretch& free) {
  Stretch left = free;
  for (const parts::Solid& joist : model.solids) {
    if (joist.role != parts::Role::joist) continue;
    const auto box = parts::box_of(joist);
    if (box[axis + 3] + radius <= free.first) left.first = std::max(left.first, box[axis + 3] + radius + away);
    if (box[axis] - radius >= free.second) left.second = std::min(left.second, box[axis] - radius - away);
  }
  const bool any = left == free || left.first < left.second;
  return any ? std::optional{left} : std::nullopt;
}

/// Falls of the floor with the drain at the nearest place, from a base built there.
void falls_there(const parts::Model& model, facts::DrainWindow& window) {
  if (model.job.base.body) {
    window.falls_unknown = "its drain stays where it is made";
    return;
  }
  job::Job job = model.job;
  const double dx = window.nearest_mm[0] - window.now_mm[0], dy = window.nearest_mm[1] - window.now_mm[1];
  const auto shift = [](job::From& from, double by, job::Side low) {
    from.distance = from.distance + job::Length::mm(from.side == low ? by : -by);
  };
  shift(job.drain.across, dx, job::Side::left);
  shift(job.drain.along, dy, job::Side::front);
  if (!job::contradictions(job).empty()) return;  // the floor would allow it, and something else does not
  std::optional<parts::Model> moved;
  window.falls_unknown = refusal_of("base", [&] { moved = parts::Model{job, {parts::build_base(job)}}; });
  if (!moved) return;
  window.least_fall = 1;
  for (const facts::Facet& f : measure::tilted_falls(*moved, 0, 0)) {
    if (f.surface != facts::Surface::base_floor) continue;
    window.least_fall = std::min(window.least_fall, f.fall);
    window.greatest_fall = std::max(window.greatest_fall, f.fall);
  }
}

/// By the code, and where the job's own limits are stricter by those.
void joist_may_lose(facts::DrainWindow& window, const rules::Limits& limits) {
  const double depth = window.joist_depth_mm;
  const rules::JoistCuts cuts = rules::joist_cuts(depth);
  window.hole_mm = rules::hole_most(depth, limits).value_or(cuts.hole_mm);
  window.notch_mm = rules::notch_most(depth, limits).value_or(cuts.notch_mm);
  const bool stricter = limits.by_user("joist.notch") && window.notch_mm < cuts.notch_mm;
  window.end_notch_mm = stricter ? std::min(cuts.end_notch_mm, window.notch_mm) : cuts.end_notch_mm;
}

}  // namespace

facts::DrainWindow drain_window(const parts::Model& model, const facts::DrainWindow& seen,
                                const rules::Limits& limits) {
  const double clearance_mm = limits.at("drain.bore-clear-of-joists").least.value_or(0);
  facts::DrainWindow window = seen;
  if (window.joists_known) joist_may_lose(window, limits);
  const auto radius = measure::bore_radius_mm(model);
  if (!radius) return window;
  const int axis = window.along_width ? 0 : 1;
  double nearest = 0, least = std::numeric_limits<double>::max();
  for (const Stretch& free : window.free_mm) {
    const auto asked = away_from_joists(model, axis, *radius, clearance_mm, free);
    if (!asked) continue;
    const double at = std::clamp(window.now_mm[axis], asked->first, asked->second);
    const double moved = std::abs(at - window.now_mm[axis]);
    if (moved < least) least = moved, nearest = at;
    window.any = true;
  }
  if (!window.any || !window.joists_known) return window;
  window.nearest_mm[axis] = nearest;
  window.moved_mm = least;
  falls_there(model, window);
  return window;
}

}  // namespace fallwright::study
