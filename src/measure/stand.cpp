#include <algorithm>
#include <cmath>
#include <limits>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"

namespace fallwright::measure {
namespace {

using facts::frame_part;
using job::Side;
using parts::Kind;

/// The bench's own way through the alcove: across it from the wall it leans on, and along that wall.
struct Lie {
  int across = 0;      ///< 0: its depth runs along x
  double away = 1;     ///< which way along that axis it reaches from the wall
  double wall_mm = 0;  ///< where its frame begins there
  int along() const { return 1 - across; }
  double from_wall(double at) const { return (at - wall_mm) * away; }
};

Lie lie_of(const parts::Model& model, const std::array<double, 6>& deck) {
  switch (model.job.bench->place) {
    case Side::left:
      return {0, 1, deck[0]};
    case Side::right:
      return {0, -1, deck[3]};
    default:
      return {1, -1, deck[4]};
  }
}

/// How far along a side of the alcove a box reaches, outward.
double reach_to(Side side, const std::array<double, 6>& box) {
  switch (side) {
    case Side::left:
      return -box[0];
    case Side::right:
      return box[3];
    case Side::front:
      return -box[1];
    default:
      return box[4];
  }
}

/// Sides of the bench that no wall closes: its front, toward the base, and open ends.
std::vector<Side> open_sides(const job::Job& job) {
  const Side place = job.bench->place;
  const Side front = place == Side::left ? Side::right : place == Side::right ? Side::left : Side::front;
  std::vector<Side> open{front};
  for (const Side end : {Side::left, Side::right, Side::back, Side::front})
    if (end != front && end != place && !job.alcove.has_wall(end)) open.push_back(end);
  return open;
}

/// The least that the block is thick over the deck, along the deck's edge on one side.
double thick_at(Side side, const Surface& top, const std::array<double, 6>& deck) {
  constexpr double inside_mm = 1;  // off the very edge, where faces meet
  const double x0 = deck[0] + inside_mm, y0 = deck[1] + inside_mm, x1 = deck[3] - inside_mm, y1 = deck[4] - inside_mm;
  const bool level = side == Side::front || side == Side::back;
  double least = std::numeric_limits<double>::max();
  for (const double share : {0., 0.5, 1.}) {
    const double x = level ? x0 + share * (x1 - x0) : side == Side::left ? x0 : x1;
    const double y = level ? (side == Side::front ? y0 : y1) : y0 + share * (y1 - y0);
    if (const auto z = top.at(x, y)) least = std::min(least, *z - deck[5]);
  }
  return least < std::numeric_limits<double>::max() ? std::max(0.0, least) : 0;
}

}  // namespace

std::optional<facts::Stand> measure_stand(const parts::Model& model, const facts::Facts& facts) {
  const parts::Solid *deck = model.find(frame_part(Kind::deck)), *seat = model.first(parts::Role::seat_block);
  const parts::Solid* knee = model.find(frame_part(Kind::top_plate));
  if (!knee) knee = model.find(frame_part(Kind::top_track));
  if (!deck || !seat || !knee || !facts.heights.seat_back_mm) return std::nullopt;
  const auto box = parts::box_of(*seat), under = parts::box_of(*knee);
  const Lie lie = lie_of(model, parts::box_of(*deck));
  facts::Stand stand;
  stand.from_mm = box[lie.along()], stand.to_mm = box[lie.along() + 3];
  stand.reach_mm = std::max(lie.from_wall(box[lie.across]), lie.from_wall(box[lie.across + 3]));
  stand.knee_mm = lie.from_wall((under[lie.across] + under[lie.across + 3]) / 2);
  stand.top_mm = *facts.heights.seat_back_mm;
  for (const facts::Part& part : facts.parts) {
    if (!part.which.is(parts::Role::seat_block) && !part.which.is(parts::Role::bench_frame)) continue;
    stand.mass_kg += part.mass_kg;
    stand.mass_at_mm += part.mass_kg * lie.from_wall(part.centroid_mm[lie.across]);
  }
  if (stand.mass_kg > 0) stand.mass_at_mm /= stand.mass_kg;
  return stand;
}

std::optional<facts::SeatEdge> measure_seat_edge(const parts::Model& model) {
  const parts::Solid *deck = model.find(frame_part(Kind::deck)), *seat = model.first(parts::Role::seat_block);
  if (!deck || !seat) return std::nullopt;
  const auto block = parts::box_of(*seat), under = parts::box_of(*deck);
  const Surface top{*seat, true};
  std::optional<facts::SeatEdge> edge;
  for (const Side side : open_sides(model.job)) {
    const double past = reach_to(side, block) - reach_to(side, under);
    if (!edge || past > edge->past_mm) edge = {past, side, thick_at(side, top, under)};
  }
  if (edge) edge->past_mm = std::max(0.0, edge->past_mm);
  return edge;
}

}  // namespace fallwright::measure
