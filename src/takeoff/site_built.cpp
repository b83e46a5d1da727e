#include <algorithm>
#include <array>
#include <cmath>

#include "job/rough_threshold.hpp"
#include "takeoff/item.hpp"
#include "takeoff/need.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::takeoff {

std::optional<Threshold> threshold_of(const job::Job& job, const facts::Facts& facts) {
  const auto top = std::find_if(facts.facets.begin(), facts.facets.end(),
                                [](const facts::Facet& f) { return f.surface == facts::Surface::threshold; });
  if (!facts.site_built || top == facts.facets.end()) return std::nullopt;
  Threshold found;
  // A level top has no way that it runs along: then it is as wide as it was asked for.
  found.width_mm = top->run_mm > 0 ? top->run_mm : job.base.threshold.width.in_mm();
  found.length_mm = top->area_mm2 / std::hypot(1, top->fall) / found.width_mm;
  found.inner_mm = facts.heights.threshold_least_mm.value_or(top->low_mm[2]);
  found.outer_mm = facts.heights.threshold_greatest_mm.value_or(top->high_mm[2]);
  if (top->flow[1] < 0) std::swap(found.inner_mm, found.outer_mm);
  found.laid_on_mm = job::laid_on_threshold_mm(job.base, facts.site_built->cover_least_mm);
  return found;
}

std::optional<double> liner_top_mm(const job::Job& job, const facts::Facts& facts) {
  const bool liner = facts.site_built && job.base.site.waterproofing == job::Waterproofing::liner;
  if (!liner || !job.liner || !job.liner->above_threshold) return std::nullopt;
  return facts.heights.threshold_greatest_mm.value_or(facts.heights.rim_greatest_mm) +
         job.liner->above_threshold->in_mm();
}

std::optional<double> liner_over_seat_mm(const job::Job& job, const facts::Facts& facts) {
  if (!liner_top_mm(job, facts) || !job.bench || !job.liner->above_seat || !facts.heights.seat_back_mm)
    return std::nullopt;
  return *facts.heights.seat_back_mm + job.liner->above_seat->in_mm();
}

namespace {

/// What of a liner turns up along walls and bench, to its top as read, and goes over the threshold down to the floor:
/// from the bed's lowest at their foot, so that there is enough of it everywhere. Nothing where its top was not read.
struct TurnUps {
  double along_mm = 0, high_mm = 0;  ///< walls and bench in plan, and how high up them
  double over_mm2 = 0;               ///< over the threshold
  std::optional<double> seat_mm2;    ///< carried over a seat: the bench's front, the seat, and up the walls behind it
};

/// Over the seat: up the bench's front as long as it is along the base, over the seat as it slopes, and up the walls
/// behind it and at its ends from the seat's lower edge.
double over_seat_mm2(const job::Job& job, const facts::Facts& facts, double top, double low) {
  double sum = 0;
  for (const facts::Edge& edge : facts.edges)
    if (edge.behind == facts::Behind::bench) sum += edge.length_mm * (facts.heights.seat_front_mm.value_or(low) - low);
  for (const facts::Facet& facet : facts.facets)
    if (facet.surface == facts::Surface::seat) sum += facet.area_mm2;
  for (const facts::Part& part : facts.parts) {
    if (!part.which.is(facts::Role::seat_block)) continue;
    const double across = part.bbox_mm[3] - part.bbox_mm[0], along = part.bbox_mm[4] - part.bbox_mm[1];
    double walls = 0;
    for (const job::Side side : {job::Side::back, job::Side::left, job::Side::right}) {
      const bool behind = side == job.bench->place,
                 opposite = !behind && side != job::Side::back && job.bench->place != job::Side::back;
      if (job.alcove.has_wall(side) && !opposite) walls += side == job::Side::back ? across : along;
    }
    sum += walls * (top - facts.heights.seat_front_mm.value_or(top));
  }
  return sum;
}
std::optional<TurnUps> turn_ups_of(const job::Job& job, const facts::Facts& facts) {
  const auto top = liner_top_mm(job, facts);
  if (!top) return std::nullopt;
  const facts::SiteBuilt& site = *facts.site_built;
  const auto over_seat = liner_over_seat_mm(job, facts);
  TurnUps up;
  // In plan: the joints of what is laid on the base climb with its floor, and up the threshold at its ends.
  for (const facts::Edge& edge : facts.edges)
    if (!edge.open() && !(over_seat && edge.behind == facts::Behind::bench)) up.along_mm += edge.length_mm;
  const double low = site.low_at_walls_mm.value_or(site.flange_top_mm);
  up.high_mm = *top - low;
  if (over_seat) up.seat_mm2 = over_seat_mm2(job, facts, *over_seat, low);
  const double at_threshold = site.low_at_threshold_mm.value_or(site.flange_top_mm);
  if (const auto threshold = threshold_of(job, facts))
    up.over_mm2 = threshold->length_mm *
                  (threshold->inner_mm - at_threshold + threshold->width_mm + std::max(0.0, threshold->outer_mm));
  return up;
}

/// How much longer than the base a liner is for what is done with it at one side; 0 where that is open.
double past_edge_mm(const facts::Edge& edge, const job::Job& job, const facts::Facts& facts, const TurnUps& up) {
  const facts::SiteBuilt& site = *facts.site_built;
  if (edge.side == job::Side::front) {
    const auto threshold = threshold_of(job, facts);
    return threshold ? threshold->inner_mm - site.low_at_threshold_mm.value_or(site.flange_top_mm) +
                           std::max(0.0, threshold->outer_mm)
                     : 0;  // over its width it is no longer than the bed under it
  }
  if (edge.open()) return 0;
  const auto over_seat = liner_over_seat_mm(job, facts);
  if (edge.behind != facts::Behind::bench || !over_seat) return up.high_mm;
  double deep = 0;
  for (const facts::Part& part : facts.parts)
    if (part.which.is(facts::Role::seat_block)) {
      const std::size_t across = edge.side == job::Side::back ? 1 : 0;
      deep = part.bbox_mm[across + 3] - part.bbox_mm[across];
    }
  return *over_seat - site.low_at_walls_mm.value_or(site.flange_top_mm) + deep;
}

Row turn_up_row(const job::Job& job, const TurnUps& up, const std::string& size) {
  const Units u = units_of(job);
  const std::string high = units::to_text(units::Length::mm(up.high_mm), u.metric);
  return to_row({name_of(Item::liner_up), u.area(up.along_mm * up.high_mm + up.over_mm2 + up.seat_mm2.value_or(0)),
                 u.area_unit(), job.buy.membrane.waste, 0, "",
                 units::decimals(u.length(up.along_mm), 1) + " " + u.length_unit() + " of walls" +
                     (job.bench && !up.seat_mm2 ? " and bench" : "") + ", " + high + " up from the bed" +
                     (up.over_mm2 > 0 ? "; over the threshold " + units::decimals(u.area(up.over_mm2), 1) + " " +
                                            u.area_unit() + ", down to the floor"
                                      : "") +
                     (up.seat_mm2 ? "; over the bench's front and seat and up the walls behind it " +
                                        units::decimals(u.area(*up.seat_mm2), 1) + " " + u.area_unit()
                                  : "") +
                     "; one piece with the floor's, at least " + size +
                     "; corners are folded, not cut: their folds are in the waste"});
}

}  // namespace

std::optional<std::array<double, 2>> liner_piece_mm(const job::Job& job, const facts::Facts& facts) {
  const auto up = turn_ups_of(job, facts);
  if (!up) return std::nullopt;
  std::array<double, 2> floor{}, past{};
  for (const facts::Edge& edge : facts.edges) {
    const bool across = edge.side == job::Side::back || edge.side == job::Side::front;
    floor[across ? 0 : 1] = std::max(floor[across ? 0 : 1], edge.length_mm);
    past[across ? 1 : 0] += past_edge_mm(edge, job, facts, *up);
  }
  return std::array{floor[0] + past[0], floor[1] + past[1]};
}

std::string liner_size(const job::Job& job, const facts::Facts& facts) {
  const auto piece = liner_piece_mm(job, facts);
  if (!piece) return "";
  const double whole = job.is_metric() ? 10 : 25.4;  // what is unrolled is cut no finer, and never short
  const auto text = [&](double mm) {
    return units::to_text(units::Length::mm(std::ceil(mm / whole - 1e-6) * whole), job.is_metric());
  };
  return text((*piece)[0]) + " x " + text((*piece)[1]);
}

std::vector<Row> site_built_rows(const job::Job& job, const facts::Facts& facts) {
  std::vector<Row> rows;
  if (!facts.site_built) return rows;
  const facts::SiteBuilt& site = *facts.site_built;
  const Units u = units_of(job);
  const auto threshold = threshold_of(job, facts);
  // A threshold stands on the bed: liner and top coat end at it, and the liner goes on over it.
  const double under_mm2 = threshold ? threshold->width_mm * threshold->length_mm : 0,
               area = u.area(site.bed_top_mm2 - under_mm2), forms = u.length(site.forms_mm);
  if (job.base.site.waterproofing == job::Waterproofing::liner) {
    const auto up = turn_ups_of(job, facts);
    rows.push_back(
        to_row({name_of(Item::liner), area, u.area_unit(), job.buy.membrane.waste, 0, "",
                std::string{"solid of the bed, its sloped top"} + (threshold ? " but for the threshold" : "") +
                    std::string{"; what turns up walls and over the threshold "} +
                    (up ? "has its own row: one piece of both"
                        : "comes on top: how high it turns up is not said (liner.above_threshold)")}));
    if (up) rows.push_back(turn_up_row(job, *up, liner_size(job, facts)));
    rows.push_back(
        to_row({name_of(Item::reinforcement), area, u.area_unit(), job.bed.waste, 0, "",
                "in the middle of the top coat, which does not bond to the liner: welded wire or lath; common "
                "practice, no source"}));
    rows.push_back({name_of(Item::weep_holes), 1, "pieces", 1, "pieces",
                    "a ring, or clean gravel, round the drain's weep holes, so that no mortar closes them; common "
                    "practice, no source"});
  }
  if (job.floor.kind == job::FloorKind::joists)
    rows.push_back(
        to_row({name_of(Item::lath), u.area(facts.finish.bed_bottom_mm2), u.area_unit(), job.buy.felt.waste, 0, "",
                "solid of the bed, its underside: over the felt, nailed to the timber deck, it holds the "
                "bed; common practice, no source"}));
  // Over a liner its mortar is in the top coat.
  if (threshold && job.base.site.waterproofing == job::Waterproofing::bonded) {
    Row row{name_of(Item::rough_threshold),
            u.length(threshold->length_mm),
            u.length_unit(),
            u.length(threshold->length_mm),
            u.length_unit(),
            "on the set bed; of what it is built the job does not say: as local practice builds it; not on this list"};
    row.for_sale = false;
    rows.push_back(row);
  }
  if (forms > 0)
    rows.push_back({name_of(Item::edge_forms), forms, u.length_unit(), forms, u.length_unit(),
                    std::string{"sides of the base that neither wall nor bench bounds: ripped to the screed marks"} +
                        (threshold ? "; one of them before the bed under the threshold" : "")});
  return rows;
}

}  // namespace fallwright::takeoff
