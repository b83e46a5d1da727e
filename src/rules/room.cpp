#include "rules/book.hpp"

namespace fallwright::rules {
namespace {

constexpr double in = 25.4, in2 = in * in;

/// The residential code's second way to the least room: 25 in wide where 1300 in2 are free.
bool larger_room(const facts::Facts& facts) { return facts.clear.area_mm2 >= 1300 * in2; }

Finding area(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return {true, facts.clear.area_mm2, "free floor inside upstands and threshold, under nothing that overhangs it",
          "at least " + text_of(*limit.least, Unit::mm2, job) + " must stay free beside the bench: take a shallower bench or a larger base", ""};
}

/// Below 30 in the second way decides: then the width is counted up by what 25 in would leave over.
Finding width(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const double own = facts.clear.least_width_mm;
  const bool second_way = !job.limit("clear_width") && larger_room(facts) && own < *limit.least && own >= 25 * in;
  const std::string place = second_way ? "smaller side of the free floor is " + text_of(own, Unit::mm, job) +
                                             "; 25\" will do as more than 1300 in2 are free"
                                       : "smaller side of the free floor";
  return {true, second_way ? *limit.least : own, place,
          "the free floor must be " + text_of(*limit.least, Unit::mm, job) + " at its narrowest", ""};
}

Finding circle(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return {true, facts.clear.circle_mm, "largest circle on the free floor, centre at " + place_of(facts.clear.circle_at_mm, job),
          "where the local code asks for a circle of " + text_of(*limit.least, Unit::mm, job) + ", take a shallower bench or a deeper base", ""};
}

}  // namespace

std::vector<Rule> room_rules() {
  return {
      {"clear.area", "floor is large enough", "plan area of the floor less what hangs over it", "base: outline of the floor; seat block: undersides",
       {900 * in2, {}, Unit::mm2, "IRC P2708.1 (2018)", Verified::secondary}, "clear_area", "", Outcome::fail, area},
      {"clear.width", "floor is wide enough", "smaller side of the free floor; 25 in will do where 1300 in2 are free",
       "base: outline of the floor; seat block: undersides", {30 * in, {}, Unit::mm, "IRC P2708.1 (2018)", Verified::secondary}, "clear_width", "",
       Outcome::fail, width},
      {"clear.circle", "a person can turn", "diameter of the largest circle inscribed in the free floor",
       "base: outline of the floor; seat block: undersides",
       {30 * in, {}, Unit::mm, "UPC 408.7 (2024); a caution where that code does not rule", Verified::quoted}, "clear_circle", "",
       Outcome::caution, circle},
  };
}

}  // namespace fallwright::rules
