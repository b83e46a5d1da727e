#include <algorithm>

#include "rules/advice.hpp"
#include "rules/book.hpp"

namespace fallwright::rules {
namespace {

constexpr double quarter = 0.25 / 12, half = 0.5 / 12, eighth = 0.125 / 12;  // in/ft as ratios

std::vector<facts::Facet> of(const facts::Facts& facts, const std::string& surface) {
  std::vector<facts::Facet> found;
  for (const facts::Facet& facet : facts.facets)
    if (facet.surface == surface) found.push_back(facet);
  return found;
}

std::string where_of(const facts::Facet& facet, const job::Job& job) {
  return "facet '" + facet.facet + "', run " + text_of(facet.run_mm, Unit::mm, job) + ", from its plane; lowest at " +
         place_of(facet.low_mm, job);
}

const facts::Facet& gentlest(const std::vector<facts::Facet>& facets) {
  return *std::min_element(facets.begin(), facets.end(), [](const auto& a, const auto& b) { return a.fall < b.fall; });
}
const facts::Facet& steepest(const std::vector<facts::Facet>& facets) {
  return *std::max_element(facets.begin(), facets.end(), [](const auto& a, const auto& b) { return a.fall < b.fall; });
}

/// Both limits of the floor's fall, for advice that keeps both.
std::string advice_for_floor(const job::Job& job) {
  const auto value = [&](const char* key, double own) { return job.limit(key) ? job.limit(key)->value : own; };
  return floor_advice(job, value("floor_fall_least", quarter), value("floor_fall_greatest", half));
}

Finding floor_least(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const auto facets = of(facts, "base-floor");
  if (facets.empty()) return {true, {}, "", "", "the floor has no facet to measure"};
  const facts::Facet& facet = gentlest(facets);
  return {true, facet.fall, where_of(facet, job), advice_for_floor(job), ""};
}

Finding floor_greatest(const job::Job& job, const facts::Facts& facts, const Limit&) {
  const auto facets = of(facts, "base-floor");
  if (facets.empty()) return {true, {}, "", "", "the floor has no facet to measure"};
  const facts::Facet& facet = steepest(facets);
  return {true, facet.fall, where_of(facet, job), advice_for_floor(job), ""};
}

/// The part of a facet's fall that leads the way it should; negative when it leads back.
double toward(const facts::Facet& facet, double x, double y) { return facet.fall * (facet.flow[0] * x + facet.flow[1] * y); }

Finding seat(const job::Job& job, const facts::Facts& facts, const std::string& wish) {
  const auto facets = of(facts, "seat");
  if (!job.bench) return {false, {}, "", "", ""};
  if (facets.empty()) return {true, {}, "", "", "the seat has no facet to measure"};
  const facts::Facet& facet = gentlest(facets);
  double fall = 0;
  switch (job.bench->place) {
    case job::BenchPlace::left_end: fall = toward(facet, 1, 0); break;
    case job::BenchPlace::right_end: fall = toward(facet, -1, 0); break;
    case job::BenchPlace::back: fall = toward(facet, 0, -1); break;
  }
  return {true, fall, "seat, toward the base, from its plane", wish, ""};
}

Finding seat_least(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return seat(job, facts, "let the seat fall at least " + text_of(*limit.least, Unit::ratio, job) + " toward the base (bench.seat_fall)");
}

Finding seat_greatest(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  return seat(job, facts, "let the seat fall at most " + text_of(*limit.greatest, Unit::ratio, job) +
                              " (bench.seat_fall): steeper, a person slides");
}

Finding threshold_inward(const job::Job& job, const facts::Facts& facts, const Limit& limit) {
  const auto facets = of(facts, "threshold");
  if (facets.empty()) return {false, {}, "", "", ""};
  const facts::Facet& facet = gentlest(facets);
  return {true, toward(facet, 0, 1), "threshold top, inward, from its plane",
          "let its top fall inward at least " + text_of(*limit.least, Unit::ratio, job) + " (base.threshold.fall)", ""};
}

Finding drains(const job::Job& job, const facts::Facts& facts, const char* surface) {
  const auto it = std::find_if(facts.drainage.begin(), facts.drainage.end(), [&](const auto& d) { return d.surface == surface; });
  if (it == facts.drainage.end()) return {false, {}, "", "", ""};
  std::string stuck;
  for (const std::string& facet : it->stuck) stuck += (stuck.empty() ? "from facet '" : ", '") + facet + "'";
  const std::string place = it->drains ? "traced over every facet" : "water stays " + stuck + ", deepest at " + place_of(it->pond_at_mm, job);
  return {true, it->pond_mm, place, "change the fall so that every corner has a way down", ""};
}

Finding floor_drains(const job::Job& job, const facts::Facts& facts, const Limit&) { return drains(job, facts, "base-floor"); }
Finding seat_drains(const job::Job& job, const facts::Facts& facts, const Limit&) { return drains(job, facts, "seat"); }
Finding threshold_drains(const job::Job& job, const facts::Facts& facts, const Limit&) { return drains(job, facts, "threshold"); }

Limit dry() { return {{}, 0.0, Unit::mm, "no standing water", Verified::common_practice}; }

}  // namespace

std::vector<Rule> fall_rules() {
  const char* irc = "IRC P2709.1 (2009, 2021)";
  return {
      {"floor.fall-least", "floor falls enough", "least fall of all facets of the floor", "base: planes of the floor's facets",
       {quarter, {}, Unit::ratio, irc, Verified::quoted}, "floor_fall_least", "", Outcome::fail, floor_least},
      {"floor.fall-greatest", "floor is not too steep", "greatest fall of all facets of the floor", "base: planes of the floor's facets",
       {{}, half, Unit::ratio, irc, Verified::quoted}, "", "floor_fall_greatest", Outcome::fail, floor_greatest},
      {"floor.drains", "all water reaches the drain", "depth of water that stays, traced from corner to corner over the facets",
       "base: corners and edges of the floor's facets; drain: its place", dry(), "", "", Outcome::fail, floor_drains},
      {"seat.fall-least", "seat falls toward the base", "fall of the seat's plane, taken toward the base", "seat block: plane of the seat",
       {eighth, {}, Unit::ratio, "1/8 to 1/4 in/ft", Verified::common_practice}, "seat_fall_least", "", Outcome::fail, seat_least},
      {"seat.fall-greatest", "seat is not too steep", "fall of the seat's plane, taken toward the base", "seat block: plane of the seat",
       {{}, half, Unit::ratio, "1/2 in/ft", Verified::common_practice}, "", "seat_fall_greatest", Outcome::fail, seat_greatest},
      {"seat.drains", "no water stays on the seat", "depth of water that stays, traced to the front edge", "seat block: corners and edges of the seat",
       dry(), "", "", Outcome::fail, seat_drains},
      {"threshold.falls-inward", "threshold's top falls inward", "fall of the threshold's top plane, taken inward", "base: plane of the threshold's top",
       {eighth, {}, Unit::ratio, "1/8 to 1/4 in/ft", Verified::common_practice}, "threshold_fall_least", "", Outcome::fail, threshold_inward},
      {"threshold.drains", "no water stays on the threshold", "depth of water that stays, traced to the inner edge",
       "base: corners and edges of the threshold's top", dry(), "", "", Outcome::fail, threshold_drains},
  };
}

}  // namespace fallwright::rules
