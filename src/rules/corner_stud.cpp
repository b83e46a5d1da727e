#include "rules/corner_stud.hpp"

#include <algorithm>

#include "facts/framing.hpp"
#include "rules/words.hpp"

namespace fallwright::rules {

std::optional<double> shown_at(const facts::Facts& facts, const facts::Hold& hold, job::Side end) {
  const std::size_t axis = hold.side == job::Side::back ? 0 : 1;
  const bool low = end == job::Side::left || end == job::Side::front;
  double from = 0, meets = 0;
  for (const facts::Part& part : facts.parts)
    if (part.which.is(facts::Role::base)) from = part.bbox_mm[axis + (low ? 0 : 3)];
  for (const facts::Hold& other : facts.holds)
    if (other.side == end) meets = other.thickness_mm;
  std::optional<double> most;
  for (const facts::Part& part : facts.parts) {
    if (part.which.family != facts::Family{facts::Role::wall, hold.side} || part.which.kind != facts::Kind::stud)
      continue;
    const double wide = part.bbox_mm[axis + 3] - part.bbox_mm[axis];
    const double shown = (low ? part.bbox_mm[axis + 3] - from : from - part.bbox_mm[axis]) - meets;
    if (shown > -wide && shown < 2 * facts::screw_to_edge_mm) most = std::max(most.value_or(shown), shown);
  }
  return most;
}

std::string shown_text(double shown_mm, const job::Job& job) {
  return " (" + (shown_mm > 0 ? text_or_less(shown_mm, Unit::mm, job) : "none") +
         " of it shows there, and a screw wants " + text_or_more(2 * facts::screw_to_edge_mm, Unit::mm, job) + ")";
}

}  // namespace fallwright::rules
