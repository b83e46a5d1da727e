#include "rules/push.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "rules/fasteners.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::rules {
namespace {

constexpr double holds_nothing = std::numeric_limits<double>::infinity();

double middle_of(const std::vector<double>& places) {
  return std::accumulate(places.begin(), places.end(), 0.0) / static_cast<double>(places.size());
}

double squares_about(const std::vector<double>& places, double middle) {
  double sum = 0;
  for (const double place : places) sum += (place - middle) * (place - middle);
  return sum;
}

/// What is fastened nearer to each other is at one place: no stud is so thin that two stand nearer.
constexpr double one_place_mm = 1;
bool spread(const std::vector<double>& places_mm) {
  const auto [least, greatest] = std::minmax_element(places_mm.begin(), places_mm.end());
  return places_mm.size() > 1 && *greatest - *least > one_place_mm;
}

/// A push off the wall at whichever end of the bench is worse; the whole of it on a single fastener's place.
double at_worse_end(const std::vector<double>& places_mm, const facts::Stand& stand) {
  return std::max(greatest_part(places_mm, stand.from_mm).value_or(1),
                  greatest_part(places_mm, stand.to_mm).value_or(1));
}

std::string lbf_text(double lbf) {
  return units::decimals(lbf, 0) + " lbf";
}

std::string both_text(double across, double pulled) {
  return lbf_text(pulled) + " pulled out, " + lbf_text(across) + " across";
}

}  // namespace

std::optional<double> greatest_part(const std::vector<double>& places_mm, double at_mm) {
  if (!spread(places_mm)) return std::nullopt;
  const double middle = middle_of(places_mm), squares = squares_about(places_mm, middle);
  double most = 0;
  for (const double place : places_mm)
    most = std::max(most, 1 / static_cast<double>(places_mm.size()) + (at_mm - middle) * (place - middle) / squares);
  return most;
}

std::optional<double> greatest_of_turn(const std::vector<double>& places_mm) {
  if (!spread(places_mm)) return std::nullopt;
  const double middle = middle_of(places_mm), squares = squares_about(places_mm, middle);
  double most = 0;
  for (const double place : places_mm) most = std::max(most, std::abs(place - middle) / squares);
  return most;
}

namespace {

double greatest_at(const std::vector<double>& places, double from, double to) {
  return std::max(greatest_part(places, from).value_or(1), greatest_part(places, to).value_or(1));
}

}  // namespace

DeckHold deck_hold(const facts::Rail& rail, double from_mm, double to_mm, double edge_mm, double field_mm) {
  std::vector<double> in_rail, in_joists;
  const int along = facts::fasteners_on(rail.to_mm - rail.from_mm, edge_mm);
  for (int i = 0; i < along; ++i) in_rail.push_back(rail.from_mm + (rail.to_mm - rail.from_mm) * (i + 0.5) / along);
  for (std::size_t i = 0; i < rail.joists_at_mm.size(); ++i)
    in_joists.insert(in_joists.end(), static_cast<std::size_t>(facts::deck_fasteners(rail, i, edge_mm, field_mm)),
                     rail.joists_at_mm[i]);
  return {greatest_at(in_rail, from_mm, to_mm), greatest_at(in_joists, from_mm, to_mm)};
}

const PushedJoint& Push::worst() const {
  return *std::max_element(joints.begin(), joints.end(),
                           [](const PushedJoint& a, const PushedJoint& b) { return a.share < b.share; });
}

double Push::share_of(const std::string& key) const {
  double share = 0;
  for (const PushedJoint& joint : joints)
    if (joint.key == key) share = std::max(share, joint.share);
  return share;
}

Push push_of(const facts::Cleat& cleat, const facts::Stand& stand, double lbf, const Grip& grip, int at_stud,
             double joist_across, int at_joist, Together together) {
  const std::vector<double>&studs = cleat.studs_at_mm, &joists = cleat.joists_at_mm;
  const double reach = stand.reach_mm, knee = stand.knee_mm;
  const double over_cleat = std::max(0.0, stand.top_mm - cleat.middle_mm);
  Push push{lbf, {}};
  const auto at_studs = [&](const std::string& way, double across, double pulled) {
    const double may_across = grip.across * at_stud, may_pull = grip.pulled * at_stud;
    const double share = may_across <= 0 || may_pull <= 0 ? holds_nothing
                         : together == Together::added    ? across / may_across + pulled / may_pull
                         : together == Together::squared  ? std::hypot(across / may_across, pulled / may_pull)
                                                          : both_ways_share(across, pulled, may_across, may_pull);
    push.joints.push_back({"the bench's hold on the stud that takes most, pushed " + way, "cleat", share,
                           "cleat or wall track, pushed " + way + ": " + both_text(across, pulled) +
                               " at the stud that takes most, of " + lbf_text(may_pull) + " and " +
                               lbf_text(may_across) + " there alone"});
  };
  const auto at_joists = [&](const std::string& way, double across) {
    const double may = joist_across * at_joist;
    push.joints.push_back(
        {"the hold of the joist that takes most, pushed " + way, "joist", may > 0 ? across / may : holds_nothing,
         "joists, pushed " + way + ": " + lbf_text(across) + " at the one that takes most, of " + lbf_text(may)});
  };
  // Off the wall. The cleat lies lower than the push: the knee wall bears down, and the cleat is lifted as much.
  const double off = lbf * at_worse_end(studs, stand), lift = knee > 0 ? over_cleat / knee : 0;
  at_studs("off the wall", off * lift, off);
  at_joists("off the wall", lbf * at_worse_end(joists, stand));
  // Along the wall, at the seat's front edge: the bench turns in plan about the middle of what holds it. Where a wall
  // stands at its end that helps one way, never the other.
  const double weight = stand.mass_kg / units::kg_per_lb;
  const double hangs = knee > 0 ? weight * std::clamp(1 - stand.mass_at_mm / stand.knee_mm, 0.0, 1.0) : weight;
  const auto of_studs = greatest_of_turn(studs), of_joists = greatest_of_turn(joists);
  const double n = std::max<double>(1, static_cast<double>(studs.size())),
               m = std::max<double>(1, static_cast<double>(joists.size()));
  if (of_studs)
    at_studs("along the wall", std::hypot(lbf / n, hangs / n), lbf * reach * *of_studs);
  else
    push.joints.push_back(
        {"the bench's hold on a single stud, about which it turns", "stud", holds_nothing,
         "cleat or wall track: it is held at one place alone, about which a push along the wall turns the bench"});
  if (of_joists) at_joists("along the wall", std::hypot(lbf / m, lbf * reach * *of_joists));
  return push;
}

}  // namespace fallwright::rules
