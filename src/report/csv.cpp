#include <cmath>

#include "report/csv_table.hpp"
#include "report/report.hpp"
#include "report/stick_text.hpp"
#include "report/together.hpp"
#include "takeoff/hold.hpp"
#include "units/length.hpp"
#include "units/words.hpp"

namespace fallwright::report {
namespace {

Field number(double value, int decimals) {
  return Field::number(value, decimals);
}
Field number(const std::optional<double>& value, int decimals) {
  return Field::number(value, decimals);
}

Field exact(const std::optional<double>& value) {
  return Field::number(value, 6);
}

/// Whole packs without decimals.
Field amount(double value) {
  return number(value, value == std::floor(value) ? 0 : 3);
}

/// As the user's table has it, to a hundredth or finer.
Field price(const std::optional<double>& each) {
  if (!each) return number(each, 2);
  const bool fine = std::abs(*each * 100 - std::round(*each * 100)) > 1e-6;
  return number(*each, fine ? 4 : 2);
}

/// What waits is neither bought nor cut: why, in place of how many.
std::string hold_of(const std::optional<takeoff::Hold>& hold) {
  return hold ? takeoff::waits_text(*hold) : "";
}

/// A number stands under `buy` where somebody buys it: neither of what waits nor of what is only told.
Field if_bought(const takeoff::Row& row, double count) {
  return row.to_order() ? amount(count) : Field{""};
}

std::string length(double mm, bool metric) {
  return units::to_text(units::Length::mm(mm), metric);
}

}  // namespace

std::string takeoff_csv(const Report& report) {
  Table table{"item",         "quantity",         "unit",  "buy",  "buy unit", "basis", "waste", "pack",
              "unit of pack", "readings may add", "price", "cost", "supplier", "hold"};
  for (const takeoff::Row& r : report.rows) {
    const bool packed = r.pack > 0;
    table.row(r.item, number(r.quantity, 3), r.unit, if_bought(r, r.buy), r.buy_unit, r.basis, number(r.waste, 4),
              packed ? number(r.pack, 4) : Field{""}, packed ? r.unit : "", number(r.doubt, 3), price(r.price),
              number(r.cost(), 2), r.supplier, hold_of(r.hold));
  }
  return table.text();
}

std::string cuts_csv(const Report& report) {
  const bool metric = report.job.is_metric();
  Table table{"mark",         "count", "stock", "length",    "length mm", "width mm",
              "thickness mm", "ends",  "parts", "fitted mm", "hold",      "rip from"};
  for (const takeoff::CutRow& c : report.cuts)
    table.row(c.mark, Field::count(c.count), c.stock, length(c.length_mm, metric), number(c.length_mm, 3),
              number(c.width_mm, 3), number(c.thickness_mm, 3), c.ends, units::joined(c.part_ids, " "),
              number(c.fitted_mm, 3), hold_of(c.hold), c.board ? c.board->stock : "");
  return table.text();
}

std::string checks_csv(const Report& report) {
  Table table{"id",          "title",   "result", "measured", "limit", "measured SI", "least SI",
              "greatest SI", "unit SI", "source", "verified", "where", "advice"};
  for (const rules::Result& r : report.judgement.results)
    table.row(r.id, r.title, rules::name_of(r.outcome), measured_text(r, report.job), limit_text(r, report.job),
              exact(r.measured), exact(r.limit.least), exact(r.limit.greatest), rules::name_of(r.limit.unit),
              r.limit.source, r.limit.source.empty() ? "" : rules::name_of(r.limit.verified), r.where, r.advice);
  return table.text();
}

std::string rooms_csv(const Together& all) {
  Table table{"number",
              "room",
              "hand",
              "base",
              "set mortar mm3",
              "worst check",
              "result",
              "source of its limit",
              "not in this order",
              "batches",
              "cost"};
  for (std::size_t i = 0; i < all.rooms.size(); ++i) {
    const Room& room = all.rooms[i];
    table.row(Field::count(i + 1), room.name, room.hand, room.base, number(room.set_mm3, 0), room.worst.id,
              room.failure.empty() ? rules::name_of(room.worst.outcome) : "", room.worst.source, room.failure,
              number(room.batches, 0), number(room.cost, 2));
  }
  return table.text();
}

std::string packs_csv(const Together& all) {
  Table table{"item",  "quantity", "unit",  "buy",  "buy unit", "buy apart",
              "rooms", "basis",    "price", "cost", "supplier", "hold"};
  for (const takeoff::Pooled& p : all.packs)
    table.row(p.row.item, number(p.row.quantity, 3), p.row.unit, if_bought(p.row, p.row.buy), p.row.buy_unit,
              if_bought(p.row, p.apart), Field::count(p.rooms), p.row.basis, price(p.row.price),
              number(p.row.cost(), 2), p.row.supplier, hold_of(p.row.hold));
  return table.text();
}

std::string pieces_csv(const Together& all) {
  Table table{"piece",        "count",     "stock",
              "length",       "length mm", "width mm",
              "thickness mm", "ends",      "rooms' own marks, by room number",
              "fitted mm",    "hold",      "rip from"};
  for (const auto& [cut, owners] : all.pieces)
    table.row(cut.mark, Field::count(cut.count), cut.stock, length(cut.length_mm, all.metric), number(cut.length_mm, 3),
              number(cut.width_mm, 3), number(cut.thickness_mm, 3), cut.ends, owners_text(owners),
              number(cut.fitted_mm, 3), hold_of(cut.hold), cut.board ? cut.board->stock : "");
  return table.text();
}

std::string sticks_csv(const Together& all) {
  Table table{"count", "stock", "stick", "stick mm", "pieces from left to right", "offcut mm", "to order", "hold"};
  for (const takeoff::StockPlan& plan : all.plan)
    for (const auto& [stick, count] : takeoff::alike(plan.sticks))
      table.row(Field::count(count), plan.stock, takeoff::stick_text(stick.length_mm, all.metric),
                number(stick.length_mm, 3), pieces_text(stick.pieces, all.metric),
                plan.is_ripped() ? Field{""} : number(stick.offcut_mm, 3), stick.to_order ? "yes" : "",
                hold_of(plan.hold));
  return table.text();
}

std::string tightest_csv(const Together& all) {
  Table table{"check", "result", "margin", "number", "room", "where"};
  for (const Tightest& t : all.tightest)
    table.row(t.result.id, rules::name_of(t.result.outcome), exact(t.result.margin), Field::count(t.room),
              all.rooms[t.room - 1].name, t.result.where);
  return table.text();
}

}  // namespace fallwright::report
