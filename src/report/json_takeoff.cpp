#include "report/json_takeoff.hpp"

namespace fallwright::report {

Json hold_json(const takeoff::Hold& hold) {
  return {{"on", name_of(hold.on)}, {"check", hold.check}, {"title", hold.title}, {"first", hold.first}};
}

namespace {

Json maybe_hold(const std::optional<takeoff::Hold>& hold) {
  return hold ? hold_json(*hold) : Json{};
}

}  // namespace

Json row_json(const takeoff::Row& r) {
  Json hold;
  if (r.hold) hold = hold_json(*r.hold), hold["for_sale_then"] = r.for_sale;
  return {{"item", r.item},
          {"quantity", r.quantity},
          {"unit", r.unit},
          {"buy", r.buy},
          {"buy_unit", r.buy_unit},
          {"basis", r.basis},
          {"waste", r.waste},
          {"pack", r.pack},
          {"doubt", r.doubt},
          {"for_sale", r.to_order()},
          {"instead", false},  // of schema 1; nothing is bought twice over
          {"price", maybe(r.price)},
          {"cost", maybe(r.cost())},
          {"supplier", r.supplier.empty() ? Json{} : Json(r.supplier)},
          {"hold", hold},
          {"sold_as", r.sold_as.empty() ? Json{} : Json(r.sold_as)},
          {"product", r.product.empty() ? Json{} : Json(r.product)},
          {"out_of", r.out_of.empty() ? Json{} : Json(r.out_of)}};
}

Json cost_json(const takeoff::Cost& c, const std::string& currency) {
  return {{"currency", currency.empty() ? Json{} : Json(currency)},
          {"sum", maybe(c.sum)},
          {"held", maybe(c.held)},
          {"instead", nullptr},
          {"missing", c.missing}};
}

Json cut_json(const takeoff::CutRow& c) {
  return {{"mark", c.mark},
          {"part_ids", c.part_ids},
          {"stock", c.stock},
          {"length_mm", c.length_mm},
          {"width_mm", c.width_mm},
          {"thickness_mm", c.thickness_mm},
          {"count", c.count},
          {"ends", c.ends},
          {"short_mm", c.short_mm},
          {"fitted_mm", c.fitted_mm},
          {"sheet", c.sheet},
          {"hold", maybe_hold(c.hold)},
          {"rip_from", c.board ? Json(c.board->stock) : Json{}},
          {"rip_from_mm", c.board ? Json{c.board->thickness_mm, c.board->width_mm} : Json{}}};
}

Json sticks_json(const std::vector<takeoff::StockPlan>& plans) {
  Json all = Json::array();
  for (const takeoff::StockPlan& plan : plans)
    for (const takeoff::StickGroup& group : takeoff::alike(plan.sticks))
      all.push_back({{"stock", plan.stock},
                     {"length_mm", group.stick.length_mm},
                     {"count", group.count},
                     {"to_order", group.stick.to_order},
                     {"pieces", list(group.stick.pieces,
                                     [](const takeoff::StickPiece& p) {
                                       return Json{{"mark", p.mark},
                                                   {"length_mm", p.length_mm},
                                                   {"ripped_mm", p.ripped_mm},
                                                   {"lane", p.lane}};
                                     })},
                     {"offcut_mm", group.stick.offcut_mm},
                     {"hold", maybe_hold(plan.hold)}});
  return all;
}

Json stock_json(const takeoff::StockPlan& p) {
  return {{"stock", p.stock},           {"pieces", p.pieces},
          {"kerf_mm", p.kerf_mm},       {"trim_mm", p.trim_mm},
          {"preferred", p.preferred},   {"bought_mm", p.bought_mm},
          {"least_mm", p.least_mm},     {"offcut_mm", p.offcut_mm},
          {"proven", p.proven()},       {"fewest", p.fewest},
          {"hold", maybe_hold(p.hold)}, {"sold_as", p.sold_as.empty() ? Json{} : Json(p.sold_as)},
          {"sticks_mm", p.sticks_mm},   {"preferred_mm", p.preferred_mm}};
}

}  // namespace fallwright::report
