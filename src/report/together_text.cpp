#include <algorithm>
#include <map>

#include "report/columns.hpp"
#include "report/stick_text.hpp"
#include "report/together.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"
#include "units/quantity.hpp"

namespace fallwright::report {
namespace {

std::string number_of(std::size_t room) {
  return padded(std::to_string(room), 4);
}

std::string rooms(const Together& all) {
  std::string text = "  " + padded("no.", 4) + padded("room", 34) + padded("hand", 10) + padded("base", 20) +
                     padded("set mortar", 12) + padded("batches", 9) + (all.priced ? padded("alone costs", 14) : "") +
                     "worst check\n";
  for (std::size_t i = 0; i < all.rooms.size(); ++i) {
    const Room& room = all.rooms[i];
    text += "  " + number_of(i + 1) + padded(units::first_letters(room.name, 33), 34);
    if (!room.failure.empty()) {
      text += "NOT IN THIS ORDER: " + room.failure + "\n";
      continue;
    }
    text += padded(room.hand, 10) + padded(room.base, 20) + padded(units::volume_text(room.set_mm3, all.metric), 12) +
            padded(units::decimals(room.batches, 0), 9) +
            (all.priced ? padded(room.cost ? takeoff::money_text(*room.cost, all.currency) : "not known", 14) : "") +
            rules::name_of(room.worst.outcome) + ": " + room.worst.id + "\n";
  }
  return text;
}

/// How many rooms there are of each hand and family.
std::string families(const Together& all) {
  std::map<std::string, int> counts;
  for (const Room& room : all.rooms)
    if (room.failure.empty()) ++counts[room.base + ", " + (room.hand == no_bench ? room.hand : "bench " + room.hand)];
  std::string text;
  for (const auto& [family, count] : counts) text += "  " + std::to_string(count) + " x base " + family + "\n";
  return text;
}

std::string cost_of(const takeoff::Row& row) {
  return row.cost() ? units::decimals(*row.cost(), 2) : row.for_sale ? "no price" : "";
}

/// What is bought in packs: what one room leaves of its last pack another begins with.
std::string packs(const Together& all) {
  std::string text = "  buy together\n";
  for (const takeoff::Pooled& p : all.packs) {
    if (p.row.buy == 0) continue;  // sticks that rooms alone would buy
    text += "    " + padded(p.row.item, 26) + padded(p.row.hold ? "" : takeoff::needed(p.row), 18) + buy_cell(p.row) +
            (all.priced ? padded(cost_of(p.row), 12) : "") + p.row.basis +
            (p.row.hold ? ", " + takeoff::waits_text(*p.row.hold) : "");
    if (p.apart != p.row.buy && !p.row.hold && p.row.out_of.empty())
      text += " (" + units::decimals(p.apart, 0) + " if every room bought its own)";
    text += "\n";
  }
  if (!all.priced) return text;
  text += wrapped("cost: " + takeoff::cost_text(all.cost, all.currency), 4, 10);
  if (all.cost_apart)
    text += "    if every room bought its own: " + takeoff::money_text(*all.cost_apart, all.currency) + "\n";
  return text;
}

std::string saw_list(const Together& all) {
  const auto length = [&](double mm) { return units::to_text(units::Length::mm(mm), all.metric); };
  double bought = 0;
  std::size_t sticks = 0;
  for (const takeoff::StockPlan& plan : all.plan) bought += plan.bought_mm, sticks += plan.sticks.size();
  std::string text = "  saw list: " + std::to_string(sticks) + " sticks, " + takeoff::total_text(bought, all.metric) +
                     " together (" + takeoff::total_text(all.bought_apart_mm, all.metric) +
                     " if every room bought its own); all lengths that a room has on offer, saw cut " +
                     takeoff::kerf_text(all.cuts.kerf.in_mm(), all.metric) + "\n    " + padded("piece", 6) +
                     padded("count", 8) + padded("stock", 18) + padded("length", 22) +
                     "rooms' own marks, by room number; ends\n";
  for (const takeoff::SawRow& piece : all.pieces)
    text += "    " + padded(piece.cut.mark, 6) + padded(std::to_string(piece.cut.count) + " x", 8) +
            padded(piece.cut.stock, 18) +
            padded(length(piece.cut.length_mm) + (piece.cut.sheet ? " x " + length(piece.cut.width_mm) : ""), 22) +
            owners_text(piece.owners) + (piece.cut.is_square() ? "" : "; ends " + piece.cut.ends) +
            and_fitted(piece.cut, all.metric) + and_held(piece.cut) + "\n";
  return text + stick_lines(all.plan, all.metric);
}

std::string kits(const Together& all) {
  if (all.kits.empty()) return "";
  const auto length = [&](double mm) { return units::to_text(units::Length::mm(mm), all.metric); };
  const takeoff::KitGap gap = takeoff::usual_gap(all.metric);
  std::size_t frames = 0;
  for (const takeoff::Kit& kit : all.kits) frames += kit.rooms.size();
  std::string text = "  bench kits: " + std::to_string(frames) + " frames in " + std::to_string(all.kits.size()) +
                     (all.kits.size() == 1 ? " length" : " lengths") + ", each " + length(gap.least_mm) + " to " +
                     length(gap.greatest_mm) +
                     " shorter than the place it goes into (the frame's upper plate as measured on its solid), if "
                     "benches are built for stock and shimmed; the cut lists keep each room's own length\n";
  for (const takeoff::Kit& kit : all.kits)
    text += "    " + padded(length(kit.length_mm), 12) + std::to_string(kit.rooms.size()) +
            (kit.rooms.size() == 1 ? " room: " : " rooms: ") + numbers_text(kit.rooms) + "\n";
  return text;
}

std::string margin_of(const Judged& result) {
  if (!result.margin) return "";
  return (*result.margin >= 0 ? "+" : "") + units::decimals(*result.margin * 100, 1) + " %";
}

std::string tightest(const Together& all) {
  std::string text = "  the room with the least to spare, check by check\n";
  for (const Tightest& t : all.tightest)
    text += "    " + padded(t.result.id, 30) + padded(rules::name_of(t.result.outcome), 10) +
            padded(margin_of(t.result), 12) + number_of(t.room) + all.rooms[t.room - 1].name + "\n";
  return text;
}

}  // namespace

std::string together_text(const Together& all) {
  const auto missing =
      std::count_if(all.rooms.begin(), all.rooms.end(), [](const Room& r) { return !r.failure.empty(); });
  const std::string title =
      missing == 0 ? "ALL ROOMS TOGETHER\n"
                   : "ROOMS TOGETHER: " + std::to_string(all.rooms.size() - static_cast<std::size_t>(missing)) +
                         " OF " + std::to_string(all.rooms.size()) + ", THE REST IS MISSING\n";
  return title + rooms(all) + families(all) + packs(all) + saw_list(all) + kits(all) + tightest(all);
}

}  // namespace fallwright::report
