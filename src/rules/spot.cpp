#include "rules/spot.hpp"

#include <cmath>
#include <optional>

#include "rules/book.hpp"
#include "rules/words.hpp"
#include "survey/room.hpp"

namespace fallwright::rules {

std::string place_of(const facts::Point& p, const job::Job& job) {
  return text_of(p[0], Unit::mm, job) + " from the left stud face, " + text_of(p[1], Unit::mm, job) + " from the entry";
}

std::string spot_of(const facts::Point& p, const job::Job& job) {
  constexpr double near = 20;  // a bed's holdback and a half
  // From the walls as they stand: in a room out of square each of them is elsewhere at its other end.
  const survey::Room room =
      survey::make_room(job.survey, job.alcove.width.in_mm(), job.alcove.depth.in_mm(), job.alcove.walls);
  const auto foot = [&](job::Side side, double at) { return room.innermost(side, at, at, 0, 0); };
  const auto edge = [&](job::Side side) {
    if (side == job::Side::front) return std::string{"the entry"};
    return std::string{"the "} + job::name_of(side) + (job.alcove.has_wall(side) ? " wall" : " side");
  };
  std::optional<job::Side> aside, behind;
  for (const job::Side side : {job::Side::left, job::Side::right})
    if (std::abs(p[0] - foot(side, p[1])) <= near) aside = side;
  if (std::abs(p[1]) <= near) behind = job::Side::front;
  if (std::abs(p[1] - foot(job::Side::back, p[0])) <= near) behind = job::Side::back;
  if (aside && behind) return std::string{"the "} + job::name_of(*behind) + " " + job::name_of(*aside) + " corner";
  if (aside) return edge(*aside) + ", " + text_of(p[1], Unit::mm, job) + " from the entry";
  if (behind) return edge(*behind) + ", " + text_of(p[0], Unit::mm, job) + " from the left stud face";
  return place_of(p, job);
}

}  // namespace fallwright::rules
