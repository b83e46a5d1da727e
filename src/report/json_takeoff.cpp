#include "report/json_takeoff.hpp"

namespace fallwright::report {

Json row_json(const takeoff::Row& r) {
  return {{"item", r.item},          {"quantity", r.quantity},
          {"unit", r.unit},          {"buy", r.buy},
          {"buy_unit", r.buy_unit},  {"basis", r.basis},
          {"waste", r.waste},        {"pack", r.pack},
          {"doubt", r.doubt},        {"for_sale", r.for_sale},
          {"instead", r.instead},    {"price", maybe(r.price)},
          {"cost", maybe(r.cost())}, {"supplier", r.supplier.empty() ? Json{} : Json(r.supplier)}};
}

Json cost_json(const takeoff::Cost& c, const std::string& currency) {
  return {{"currency", currency.empty() ? Json{} : Json(currency)},
          {"sum", maybe(c.sum)},
          {"instead", maybe(c.instead)},
          {"missing", c.missing}};
}

Json cut_json(const takeoff::CutRow& c) {
  return {{"mark", c.mark},         {"part_ids", c.part_ids},         {"stock", c.stock}, {"length_mm", c.length_mm},
          {"width_mm", c.width_mm}, {"thickness_mm", c.thickness_mm}, {"count", c.count}, {"ends", c.ends},
          {"short_mm", c.short_mm}, {"fitted_mm", c.fitted_mm},       {"sheet", c.sheet}};
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
                                       return Json{{"mark", p.mark}, {"length_mm", p.length_mm}};
                                     })},
                     {"offcut_mm", group.stick.offcut_mm}});
  return all;
}

Json stock_json(const takeoff::StockPlan& p) {
  return {{"stock", p.stock},         {"pieces", p.pieces},       {"kerf_mm", p.kerf_mm},   {"trim_mm", p.trim_mm},
          {"preferred", p.preferred}, {"bought_mm", p.bought_mm}, {"least_mm", p.least_mm}, {"offcut_mm", p.offcut_mm},
          {"proven", p.proven()},     {"fewest", p.fewest}};
}

}  // namespace fallwright::report
