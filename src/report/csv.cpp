#include <cmath>

#include "report/report.hpp"
#include "report/stick_text.hpp"
#include "report/together.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::report {
namespace {

/// RFC 4180: a field with a comma, a quote or a line end stands in quotes, and its quotes are doubled.
std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out{"\""};
  for (const char c : text) out += c == '"' ? "\"\"" : std::string{c};
  return out + "\"";
}

std::string line(const std::vector<std::string>& fields) {
  std::string out;
  for (std::size_t i = 0; i < fields.size(); ++i) out += (i == 0 ? "" : ",") + field(fields[i]);
  return out + "\r\n";
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : " ") + word;
  return out;
}

std::string number(const std::optional<double>& value) {
  return value ? units::decimals(*value, 6) : "";
}

/// Whole packs without decimals.
std::string amount(double value) {
  return units::decimals(value, value == std::floor(value) ? 0 : 3);
}

}  // namespace

std::string takeoff_csv(const Report& report) {
  std::string out = line({"item", "quantity", "unit", "buy", "buy unit", "basis", "waste", "pack", "unit of pack"});
  for (const takeoff::Row& r : report.rows)
    out += line({r.item, units::decimals(r.quantity, 3), r.unit, amount(r.buy), r.buy_unit, r.basis,
                 units::decimals(r.waste, 4), r.pack > 0 ? units::decimals(r.pack, 4) : "", r.pack > 0 ? r.unit : ""});
  return out;
}

std::string cuts_csv(const Report& report) {
  const bool metric = report.job.unit == job::UnitSystem::metric;
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  std::string out =
      line({"mark", "count", "stock", "length", "length mm", "width mm", "thickness mm", "ends", "parts", "fitted mm"});
  for (const takeoff::CutRow& c : report.cuts)
    out += line({c.mark, std::to_string(c.count), c.stock, text(c.length_mm), units::decimals(c.length_mm, 3),
                 units::decimals(c.width_mm, 3), units::decimals(c.thickness_mm, 3), c.ends, joined(c.part_ids),
                 units::decimals(c.fitted_mm, 3)});
  return out;
}

std::string checks_csv(const Report& report) {
  std::string out = line({"id", "title", "result", "measured", "limit", "measured SI", "least SI", "greatest SI",
                          "unit SI", "source", "verified", "where", "advice"});
  for (const rules::Result& r : report.results)
    out += line({r.id, r.title, rules::name_of(r.outcome), measured_text(r, report.job), limit_text(r, report.job),
                 number(r.measured), number(r.limit.least), number(r.limit.greatest), rules::name_of(r.limit.unit),
                 r.limit.source, r.limit.source.empty() ? "" : rules::name_of(r.limit.verified), r.where, r.advice});
  return out;
}

std::string rooms_csv(const Together& all) {
  std::string out = line({"number", "room", "hand", "base", "set mortar mm3", "worst check", "result",
                          "source of its limit", "not in this order"});
  for (std::size_t i = 0; i < all.rooms.size(); ++i) {
    const RoomLine& room = all.rooms[i];
    out +=
        line({std::to_string(i + 1), room.name, room.hand, room.base, units::decimals(room.set_mm3, 0), room.worst.id,
              room.failure.empty() ? rules::name_of(room.worst.outcome) : "", room.worst.limit.source, room.failure});
  }
  return out;
}

std::string packs_csv(const Together& all) {
  std::string out = line({"item", "quantity", "unit", "buy", "buy unit", "buy apart", "rooms", "basis"});
  for (const takeoff::Pooled& p : all.packs)
    out += line({p.row.item, units::decimals(p.row.quantity, 3), p.row.unit, amount(p.row.buy), p.row.buy_unit,
                 amount(p.apart), std::to_string(p.rooms), p.row.basis});
  return out;
}

std::string pieces_csv(const Together& all) {
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), all.metric); };
  std::string out = line({"piece", "count", "stock", "length", "length mm", "width mm", "thickness mm", "ends",
                          "rooms' own marks, by room number", "fitted mm"});
  for (const auto& [cut, owners] : all.pieces)
    out +=
        line({cut.mark, std::to_string(cut.count), cut.stock, text(cut.length_mm), units::decimals(cut.length_mm, 3),
              units::decimals(cut.width_mm, 3), units::decimals(cut.thickness_mm, 3), cut.ends, owners_text(owners)});
  return out;
}

std::string sticks_csv(const Together& all) {
  std::string out = line({"count", "stock", "stick", "stick mm", "pieces from left to right", "offcut mm", "to order"});
  for (const takeoff::StockPlan& plan : all.plan)
    for (const auto& [stick, count] : takeoff::alike(plan.sticks))
      out += line({std::to_string(count), plan.stock, takeoff::stick_text(stick.length_mm, all.metric),
                   units::decimals(stick.length_mm, 3), pieces_text(stick.pieces, all.metric),
                   units::decimals(stick.offcut_mm, 3), stick.to_order ? "yes" : ""});
  return out;
}

std::string tightest_csv(const Together& all) {
  std::string out = line({"check", "result", "margin", "number", "room", "where"});
  for (const Tightest& t : all.tightest)
    out += line({t.result.id, rules::name_of(t.result.outcome), number(t.result.margin), std::to_string(t.room),
                 all.rooms[t.room - 1].name, t.result.where});
  return out;
}

}  // namespace fallwright::report
