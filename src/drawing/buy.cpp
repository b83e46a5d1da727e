#include <algorithm>
#include <array>
#include <cmath>

#include "drawing/rejected.hpp"
#include "drawing/schedules.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/views.hpp"
#include "takeoff/backing.hpp"
#include "takeoff/hold.hpp"
#include "takeoff/item.hpp"
#include "takeoff/packs.hpp"
#include "takeoff/ripping.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

/// What a row rests on. Sticks of one stock share a plan: it is told once.
std::string basis_of(const takeoff::Row& row, const takeoff::Row* above) {
  const std::size_t own = row.basis.find(';');
  const bool shared = above && above->item == row.item && row.basis.find("; of " + row.item) != std::string::npos;
  return shared ? row.basis.substr(0, own) + "; the plan as above" : row.basis;
}

/// Of furring that waits its size is not told: "furring" of "furring 1/2 x 3-1/2\"".
std::string item_of(const takeoff::Row& row) {
  const bool sized = row.hold && (row.blanks == takeoff::Blanks::strips || row.blanks == takeoff::Blanks::shims);
  return sized ? row.item.substr(0, row.item.find(' ')) : row.item;
}

/// Of several that then read alike, and for the same reason, one is told.
bool is_told_above(const takeoff::Row& row, const std::vector<takeoff::Row>& rows) {
  return item_of(row) != row.item && std::any_of(rows.data(), &row, [&](const takeoff::Row& above) {
           return above.hold && item_of(above) == item_of(row) &&
                  takeoff::waits_text(*above.hold) == takeoff::waits_text(*row.hold);
         });
}

/// What is only told is no order.
std::string to_buy(const takeoff::Row& row) {
  return row.for_sale ? takeoff::bought(row) : "(" + takeoff::bought(row) + ")";
}

std::string cost_of(const takeoff::Row& row) {
  if (!row.for_sale) return "";
  return row.cost() ? units::decimals(*row.cost(), 2) : "no price";
}

bool is_drain(const takeoff::Row& row) {
  return is(row, takeoff::Item::drain) || is(row, takeoff::Item::channel_drain);
}

/// What waits for what is to be read or said: " 2x4, fasteners, upstands: first find the studs ...", each reason once.
std::vector<std::string> to_know_first(const std::vector<takeoff::Row>& rows) {
  std::vector<std::pair<std::string, std::string>> reasons;  // why, and which rows
  for (const takeoff::Row& row : rows) {
    if (!row.hold || row.hold->first.empty() || !row.for_sale) continue;
    const std::string why = without_keys(takeoff::waits_text(*row.hold));
    const auto known = std::find_if(reasons.begin(), reasons.end(), [&](const auto& r) { return r.first == why; });
    if (known == reasons.end())
      reasons.emplace_back(why, " " + item_of(row));
    else if ((known->second + ";").find(" " + item_of(row) + ";") == std::string::npos)
      known->second += "; " + item_of(row);
  }
  std::vector<std::string> notes;
  for (const auto& [why, items] : reasons) notes.push_back(items + ": " + why);
  return notes;
}

std::vector<std::string> advice(const Subject& subject) {
  const job::Job& job = subject.job();
  std::vector<std::string> first;
  const rules::Result* in_doubt = rejected_base(subject);
  if (job.base.kind == job::BaseKind::designed && !in_doubt) first.emplace_back("base");
  if (!in_doubt && std::any_of(subject.rows.begin(), subject.rows.end(),
                               [&](const takeoff::Row& row) { return is_drain(row) && row.to_order(); }))
    first.emplace_back("drain");
  if (job.bench && !(in_doubt && has_apron(job)) && !rejected_seat(subject)) first.emplace_back("seat block");
  std::vector<std::string> notes;
  if (in_doubt)
    notes.push_back(std::string{subject.facts.site_built ? "HOLD the drain" : "HOLD the base, its drain"} +
                    std::string{has_apron(job) ? ", the seat block whose apron stands on it" : ""} +
                    ", the mortar of the bed and what is measured by it: '" + in_doubt->title +
                    "' fails, see the inspection sheets.");
  if (const rules::Result* fails = rejected_drain(subject); fails && !in_doubt)
    notes.push_back("HOLD the drain: '" + fails->title + "' fails, see the inspection sheets.");
  if (const rules::Result* fails = rejected_liner(subject); fails && !in_doubt)
    notes.push_back("HOLD the liner, one piece of floor and what turns up: '" + fails->title +
                    "' fails, see the inspection sheets.");
  const rules::Result *seat = rejected_seat(subject), *frame = rejected_frame(subject);
  if (seat && seat != frame)  // another block on the same frame
    notes.push_back("HOLD the seat block and its adhesive: '" + seat->title + "' fails, see the inspection sheets.");
  if (frame)
    notes.push_back("HOLD " +
                    std::string{seat == frame              ? "the seat block, what the bench's frame is cut from and "
                                : rejected_pieces(subject) ? "what the bench's frame is cut from and "
                                                           : ""} +
                    "the fasteners that hold " + (rejected_pieces(subject) ? "it" : "the bench's frame") + ": '" +
                    frame->title + "' fails, see the inspection sheets.");
  for (const std::string& first : to_know_first(subject.rows)) notes.push_back("HOLD" + first + ".");
  for (const takeoff::Row& row : subject.rows)
    if (is_drain(row) && !row.for_sale) notes.push_back("Drain, " + row.basis + ".");
  if (!first.empty()) notes.push_back("Order what has a lead time first: " + units::joined(first) + ".");
  notes.push_back(
      "Wet mortar and cement are caustic and their dust holds silica: gloves, goggles, a respirator that fits.");
  return notes;
}

/// With a word where the job knows no pack of it, so that nobody asks for so many litres at the counter: up to what a
/// shop counts in, whole feet, square feet and litres, tenths of what is larger.
std::string to_carry(const takeoff::Row& row) {
  const bool measured = row.pack <= 0 && row.buy_unit == row.unit && row.unit != "pieces";
  if (!measured) return takeoff::bought(row);
  const bool large = row.unit == "ft3" || row.unit == "m" || row.unit == "m2";
  const double step = large ? 0.1 : 1, least = std::ceil(row.buy / step - units::tolerance::ratio) * step;
  return units::decimals(least, large ? 1 : 0) + " " + row.unit + ", packs not said";
}

/// "mortar" of "mortar, bags" that are counted in bags.
std::string what_of(const takeoff::Row& row) {
  const std::string tail = ", " + row.buy_unit;
  const std::size_t at = row.item.size() < tail.size() ? std::string::npos : row.item.size() - tail.size();
  return at != std::string::npos && row.item.compare(at, tail.size(), tail) == 0 ? row.item.substr(0, at)
                                                                                 : item_of(row);
}

std::string text_of(double mm, bool metric) {
  return units::to_text(units::Length::mm(mm), metric);
}

/// Which of what goes by the row's name: "16d, 3-1/2\" long"; of fasteners without a name who says it.
std::string which_of(const takeoff::Row& row, const job::Job& job) {
  using takeoff::Item;
  if (is(row, Item::sole_fasteners) && job.floor.kind == job::FloorKind::slab)
    return "anchors, which the job does not say";
  // A nail's penny is its length, a screw's gauge is none.
  const bool gauge_alone = row.product.starts_with('#') && row.product.find(" long") == std::string::npos;
  if (gauge_alone) return row.product + ", how long the job does not say";
  if (!row.product.empty()) return row.product;
  if (is(row, Item::framing_fasteners)) return "size by the local table of framing fasteners";
  constexpr std::array unnamed{Item::bench_fasteners, Item::deck_screws, Item::upstand_fasteners, Item::furring_screws,
                               Item::shim_staples};
  return std::any_of(unnamed.begin(), unnamed.end(), [&](Item item) { return is(row, item); })
             ? "which and how long the job does not say"
             : "";
}

/// "each yields 0.45 ft3, 60 lb", "each 10.1 fl oz"; nothing of what is named by its size.
std::string pack_of(const takeoff::Row& row, const job::Job& job) {
  if (row.pack <= 0 || row.buy_unit == row.unit || row.blanks == takeoff::Blanks::sheets) return "";
  const bool mixed = is(row, takeoff::Item::mortar_bags) || is(row, takeoff::Item::bond);
  std::string words = (mixed ? "each yields " : "each ") + takeoff::pack_text(row);
  if (is(row, takeoff::Item::mortar_bags) && job.bed.bag_kg)
    words += ", " + (job.is_metric() ? units::decimals(*job.bed.bag_kg, 0) + " kg"
                                     : units::decimals(*job.bed.bag_kg / units::kg_per_lb, 0) + " lb");
  return words;
}

constexpr const char* unsaid = "job does not say";

/// What the counter asks for beside the name, as the model and the job have it; nothing where they do not.
std::string size_to_carry(const takeoff::Row& row, const Subject& subject) {
  const job::Job& job = subject.job();
  const bool metric = job.is_metric();
  if (is(row, takeoff::Item::base)) return takeoff::size_over_all(part(subject.facts, facts::Role::base), metric);
  if (is(row, takeoff::Item::seat_block))
    return takeoff::size_over_all(part(subject.facts, facts::Role::seat_block), metric) +
           (apron_is_notched(subject) ? "; its apron notched, see " + sheet_of_notches(job) : "");
  if (is_drain(row)) return takeoff::opening_of(job, subject.facts) + "; " + takeoff::body_of(job);
  if (const auto strip = takeoff::lapped_strip(job, subject.facts); strip && is(row, takeoff::Item::edge_strip))
    return text_of(strip->width_mm(), metric) + " wide";
  if (const auto backing = takeoff::backing_at_bench(job, subject.facts); backing && is(row, takeoff::Item::backing))
    return takeoff::backing_size(job, *backing) + "; offcuts of board or plywood";
  if (!row.sold_as.empty()) return row.basis.substr(0, row.basis.find(';'));
  if (row.blanks == takeoff::Blanks::strips) {
    const std::string board = takeoff::board_as_sold(row.item);
    return board.empty() ? takeoff::ripped_from(job) : board;
  }
  if (row.blanks == takeoff::Blanks::shims)
    return takeoff::furring_named(row.item) == takeoff::Furring::shims ? "tapered pairs, or strips of card in layers"
                                                                       : "offcuts of plywood as thick";
  const std::string which = which_of(row, job);  // of what nobody can ask for no pack is known either
  std::vector<std::string> words{which, which.find(unsaid) == std::string::npos ? pack_of(row, job) : ""};
  if (const auto others = takeoff::sharers_of(row, subject.rows); !others.empty())
    words.push_back("for " + units::listed(others) + " as well");
  std::erase(words, "");
  return units::joined(words, "; ");
}

/// Of a kind that the job does not say: nobody can ask for it at the counter.
bool is_unnamed(const takeoff::Row& row, const Subject& subject) {
  return size_to_carry(row, subject).find(unsaid) != std::string::npos;
}

/// What to carry: how much of what, and where it is had if the prices say so.
std::vector<Sheet> draw_carried(const Subject& subject) {
  std::vector<Cells> rows;
  bool named = false;
  for (const takeoff::Row& row : subject.rows) named = named || !row.supplier.empty();
  for (const takeoff::Row& row : subject.rows) {
    if (!row.for_sale || is_told_above(row, subject.rows)) continue;
    const bool hold = row.hold.has_value();
    const std::string liner = is(row, takeoff::Item::liner) || is(row, takeoff::Item::liner_up)
                                  ? takeoff::liner_size(subject.job(), subject.facts)
                                  : "";
    if (!liner.empty()) {  // floor and what turns up are one piece
      if (is(row, takeoff::Item::liner_up)) continue;
      rows.push_back({"", hold ? "HOLD, see note" : "1 piece", "liner, floor and what turns up",
                      hold ? "" : liner + " at least; corners folded, not cut"});
      if (named) rows.back().push_back(row.supplier);
      continue;
    }
    rows.push_back({"",
                    hold                       ? "HOLD, see note"
                    : is_unnamed(row, subject) ? takeoff::needed(row) + kind_on_hold
                                               : to_carry(row),
                    what_of(row), hold ? "" : size_to_carry(row, subject)});
    if (named) rows.back().push_back(row.supplier);
  }
  std::vector<Column> columns{{"got", 0.5, true}, {"how much", 2.5}, {"of what", 2.9}, {"size", 4.2}};
  if (named) columns.push_back({"from", 2.5});
  std::vector<std::string> notes = advice(subject);
  if (std::any_of(subject.rows.begin(), subject.rows.end(), [&](const takeoff::Row& row) {
        return row.for_sale && !row.hold && !is_told_above(row, subject.rows) && is_unnamed(row, subject);
      }))
    notes.emplace_back("Kind on HOLD: how many is known, which kind nobody said; its pack is known with that.");
  return on_pages("buy", "Buy list: what to carry", subject.job(), columns, rows, notes);
}

/// How that was reckoned, for whoever prices or doubts it.
std::vector<Sheet> draw_reckoned(const Subject& subject) {
  const std::string& currency = subject.job().buy.currency;
  const bool priced = !subject.job().buy.prices.file.empty();
  std::vector<Column> columns{{"item", 2.4}, {"net, from the solids", 1.6}, {"buy", 1.7}, {"from, waste, pack", 7.4}};
  if (priced) columns.insert(columns.begin() + 3, {currency.empty() ? "cost" : "cost, " + currency, 1.3});
  std::vector<Cells> rows;
  const takeoff::Row* above = nullptr;
  for (const takeoff::Row& row : subject.rows) {
    const bool hold = row.hold.has_value();
    if (is_told_above(row, subject.rows)) continue;
    rows.push_back({item_of(row), hold ? "HOLD" : takeoff::needed(row),
                    hold                       ? "HOLD"
                    : is_unnamed(row, subject) ? takeoff::needed(row) + kind_on_hold
                                               : to_buy(row),
                    without_keys(hold ? takeoff::waits_text(*row.hold) : basis_of(row, above))});
    if (priced) rows.back().insert(rows.back().begin() + 3, cost_of(row));
    above = &row;
  }
  if (priced)
    rows.push_back({"Cost by your own prices: " + takeoff::cost_text(takeoff::cost_of(subject.rows), currency) + "."});
  return on_pages(
      "buy-reckoned", "Buy list: how it was reckoned", subject.job(), columns, rows,
      {"Nothing is rounded before it is summed; packs are whole; in brackets: for information, not bought."});
}

}  // namespace

std::vector<Sheet> draw_buy(const Subject& subject) {
  std::vector<Sheet> sheets = draw_carried(subject);
  for (Sheet& sheet : draw_reckoned(subject)) sheets.push_back(std::move(sheet));
  return sheets;
}

}  // namespace fallwright::drawing
