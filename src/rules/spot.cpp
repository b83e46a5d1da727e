#include "rules/spot.hpp"

#include <cmath>
#include <optional>

#include "rules/book.hpp"
#include "rules/words.hpp"

namespace fallwright::rules {

std::string place_of(const facts::Point& p, const job::Job& job) {
  return text_of(p[0], Unit::mm, job) + " from the left stud face, " + text_of(p[1], Unit::mm, job) + " from the entry";
}

std::string spot_of(const facts::Point& p, const job::Job& job) {
  constexpr double near = 20;  // a bed's holdback and a half
  const double width = job.alcove.width.in_mm(), depth = job.alcove.depth.in_mm();
  const auto edge = [&](job::Side side) {
    if (side == job::Side::front) return std::string{"the entry"};
    return std::string{"the "} + job::name_of(side) + (job.alcove.has_wall(side) ? " wall" : " side");
  };
  std::optional<job::Side> aside, behind;
  if (std::abs(p[0]) <= near) aside = job::Side::left;
  if (std::abs(p[0] - width) <= near) aside = job::Side::right;
  if (std::abs(p[1]) <= near) behind = job::Side::front;
  if (std::abs(p[1] - depth) <= near) behind = job::Side::back;
  if (aside && behind) return std::string{"the "} + job::name_of(*behind) + " " + job::name_of(*aside) + " corner";
  if (aside) return edge(*aside) + ", " + text_of(p[1], Unit::mm, job) + " from the entry";
  if (behind) return edge(*behind) + ", " + text_of(p[0], Unit::mm, job) + " from the left stud face";
  return place_of(p, job);
}

}  // namespace fallwright::rules
