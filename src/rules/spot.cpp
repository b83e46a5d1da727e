#include "rules/spot.hpp"

#include <cmath>
#include <optional>

#include "rules/book.hpp"
#include "rules/words.hpp"
#include "units/words.hpp"

namespace fallwright::rules {

std::string left_face(const job::Job& job) {
  if (job.alcove.has_wall(job::Side::left)) return "left stud face";
  return job.alcove.has_wall(job::Side::back) ? "back wall's left end" : "alcove's left side";
}

std::string place_of(const facts::Point& p, const survey::StudFaces& faces, const job::Job& job) {
  const survey::Point told = faces.told({p[0], p[1]});
  return units::from_left(text_of(told.x, Unit::mm, job), "the " + left_face(job)) + ", " +
         units::from_entry(text_of(told.y, Unit::mm, job));
}

std::string spot_of(const facts::Point& p, const survey::StudFaces& faces, const job::Job& job) {
  constexpr double near = 20;  // a bed's holdback and a half
  // From the walls as they stand: in a room out of square each of them is elsewhere at its other end.
  const auto off = [&](job::Side side) { return std::abs(faces.off(side, {p[0], p[1]})); };
  const auto edge = [&](job::Side side) {
    if (side == job::Side::front) return std::string{"the entry"};
    return std::string{"the "} + job::name_of(side) + (job.alcove.has_wall(side) ? " wall" : " side");
  };
  std::optional<job::Side> aside, behind;
  for (const job::Side side : {job::Side::left, job::Side::right})
    if (off(side) <= near) aside = side;
  for (const job::Side side : {job::Side::front, job::Side::back})
    if (off(side) <= near) behind = side;
  if (aside && behind) return std::string{"the "} + job::name_of(*behind) + " " + job::name_of(*aside) + " corner";
  if (aside) return edge(*aside) + ", " + units::from_entry(text_of(p[1], Unit::mm, job));
  if (behind)
    return edge(*behind) + ", " +
           units::from_left(text_of(faces.told({p[0], p[1]}).x, Unit::mm, job), "the " + left_face(job));
  return place_of(p, faces, job);
}

std::string datum_words(const facts::Facts& facts, const job::Job& job) {
  const std::string words = "the highest subfloor spot under the base";
  const auto& at = facts.room.floor.datum_at_mm;
  return at ? words + ", at " + spot_of(*at, facts.room.faces, job) : words;
}

}  // namespace fallwright::rules
