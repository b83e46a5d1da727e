#include "measure/foremost.hpp"

#include <cmath>

#include "measure/alcove.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
Foremost::Foremost(const parts::Model& model) {
  const parts::Solid* solid = model.first(parts::Role::drain);  // the framing alone has none
  const auto drain = parts::box_of(solid ? *solid : *model.first(parts::Role::base));
  drain_ = {(drain[0] + drain[3]) / 2, (drain[1] + drain[4]) / 2, 0};
  const survey::Rect base = *plan_of(model, parts::Role::base);
  const auto& bench = model.job.bench;
  if (bench && bench->place != job::Side::back)
    hand_ = bench->place == job::Side::right ? 1 : -1;
  else
    hand_ = drain_.X() > (base.x0 + base.x1) / 2 + units::tolerance::length_mm ? 1 : -1;
}

bool Foremost::before(const gp_Pnt& p, const gp_Pnt& q) const {
  constexpr double same_mm = units::tolerance::length_mm;
  const auto away = [&](const gp_Pnt& at) { return std::hypot(at.X() - drain_.X(), at.Y() - drain_.Y()); };
  if (const double more = away(q) - away(p); std::abs(more) > same_mm) return more > 0;
  if (std::abs(p.Y() - q.Y()) > same_mm) return p.Y() < q.Y();
  return hand_ * (p.X() - q.X()) > same_mm;
}

}  // namespace fallwright::measure
