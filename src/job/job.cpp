#include "job/job.hpp"

#include <algorithm>
#include <cmath>

#include "job/body.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::job {

bool Alcove::has_wall(Side side) const {
  return std::find(walls.begin(), walls.end(), side) != walls.end();
}

int Base::pockets() const {
  if (underside == Underside::flat) return 0;
  return body ? body->pockets : ribs.columns * ribs.rows;
}

double Base::pocket_mm() const {
  if (pockets() == 0) return 0;
  if (body) return body->pocket_mm;
  const double across = (length - ribs.width).in_mm() / ribs.columns, along = (width - ribs.width).in_mm() / ribs.rows;
  return std::min(across, along) - ribs.width.in_mm();
}

const Limit* Job::limit(const std::string& key) const {
  const auto it = std::find_if(limits.begin(), limits.end(), [&](const Limit& l) { return l.key == key; });
  return it == limits.end() ? nullptr : &*it;
}

bool Job::is_default(const std::string& key) const {
  return std::find(defaulted.begin(), defaulted.end(), key) != defaulted.end();
}

double Job::cut_mm(double length_mm) const {
  if (!cuts.to_tape) return length_mm;
  return units::down_to_mark(length_mm, mark_mm());
}

bool Buy::wants(const std::string& kind) const {
  return std::find(leave_out.begin(), leave_out.end(), kind) == leave_out.end();
}

const char* name_of(RimPoint point) {
  switch (point) {
    case RimPoint::back_left:
      return "back left";
    case RimPoint::back:
      return "back";
    case RimPoint::back_right:
      return "back right";
    case RimPoint::right:
      return "right";
    case RimPoint::front_right:
      return "front right";
    case RimPoint::front:
      return "front";
    case RimPoint::front_left:
      return "front left";
    case RimPoint::left:
      return "left";
  }
  return "";
}

std::string place_on(const RimReading& reading) {
  if (reading.on != ReadOn::threshold) return name_of(reading.point);
  return reading.point == RimPoint::front_left ? "left" : reading.point == RimPoint::front_right ? "right" : "middle";
}

std::string name_of(const RimReading& reading) {
  const char* const on = reading.on == ReadOn::upstands    ? "upstand "
                         : reading.on == ReadOn::threshold ? "threshold "
                                                           : "";
  return on + place_on(reading);
}

}  // namespace fallwright::job
