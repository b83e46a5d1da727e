#include "measure/foremost.hpp"

#include <cmath>

#include "measure/alcove.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

/// The side that the trap's arm first turns to: -1 left, 1 right; left where it turns to neither.
double arm_hand(const job::Job& job) {
  std::vector<std::optional<job::Side>> ways{job.trap ? job.trap->to : std::nullopt};
  if (job.trap)
    for (const job::Bend& bend : job.trap->bends) ways.push_back(bend.to);
  for (const auto& way : ways)
    if (way == job::Side::left || way == job::Side::right) return way == job::Side::right ? 1 : -1;
  return -1;
}

/// The hand of a channel's outlet, which need not stand in its middle; zero where it does.
double outlet_hand(const job::Job& job, double width_mm) {
  const job::From& across = job.drain.across;
  if (job.drain.kind != job::DrainKind::line || across.distance.is_zero()) return 0;
  const double past_middle = across.distance.in_mm() - width_mm / 2;
  if (std::abs(past_middle) <= units::tolerance::length_mm) return 0;
  return (past_middle > 0) == (across.side == job::Side::right) ? -1 : 1;
}

/// The hand on which something stands that has no like on the other: -1 left, 1 right.
double hand_of(const parts::Model& model, double drain_x) {
  using job::Side;
  const auto& bench = model.job.bench;
  if (bench && bench->place != Side::back) return bench->place == Side::right ? 1 : -1;
  const survey::Rect base = *plan_of(model, parts::Role::base);
  const double x = (base.x0 + base.x1) / 2, y = (base.y0 + base.y1) / 2;
  const auto off = [](double mm) { return std::abs(mm) > units::tolerance::length_mm; };
  if (off(drain_x - x)) return drain_x > x ? 1 : -1;
  if (const double outlet = outlet_hand(model.job, base.x1 - base.x0); outlet != 0) return outlet;
  const auto left = wall_line(model, Side::left, y), right = wall_line(model, Side::right, y);
  if (left && right && off(x - (*left + *right) / 2)) return x > (*left + *right) / 2 ? 1 : -1;
  if (!left != !right) return right ? 1 : -1;
  return arm_hand(model.job);
}

}  // namespace

Foremost::Foremost(const parts::Model& model) {
  const parts::Solid* solid = model.first(parts::Role::drain);  // the framing alone has none
  const auto drain = parts::box_of(solid ? *solid : *model.first(parts::Role::base));
  drain_ = {(drain[0] + drain[3]) / 2, (drain[1] + drain[4]) / 2, 0};
  hand_ = hand_of(model, drain_.X());
}

bool Foremost::before(const gp_Pnt& p, const gp_Pnt& q) const {
  constexpr double same_mm = units::tolerance::length_mm;
  const auto away = [&](const gp_Pnt& at) { return std::hypot(at.X() - drain_.X(), at.Y() - drain_.Y()); };
  if (const double more = away(q) - away(p); std::abs(more) > same_mm) return more > 0;
  if (std::abs(p.Y() - q.Y()) > same_mm) return p.Y() < q.Y();
  return hand_ * (p.X() - q.X()) > same_mm;
}

}  // namespace fallwright::measure
