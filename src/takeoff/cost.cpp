#include <algorithm>
#include <cmath>
#include <string_view>

#include "job/prices.hpp"
#include "takeoff/item.hpp"
#include "takeoff/takeoff.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::takeoff {
namespace {

double to_hundredths(double amount) {
  return std::round(amount * 100) / 100;
}

/// "bag"; and "bag of 94 lb" for what comes in packs of a size.
std::string pack_of(const Row& row) {
  return job::one_of(row.buy_unit);
}
std::string sized_pack_of(const Row& row) {
  return row.pack > 0 ? pack_of(row) + " of " + units::short_decimals(row.pack, 3) + " " + row.unit : pack_of(row);
}

bool is_bought(const Row& row) {
  return row.for_sale && row.buy > 0;
}

/// What the table would have to say. Items hold commas: quotes tell where they end.
std::string missing_text(const Row& row) {
  return "'" + (row.sold_as.empty() ? row.item : row.sold_as) + "' by the " + sized_pack_of(row) +
         (row.other_packs.empty() ? "" : " (the table has it by the " + row.other_packs + ")");
}

/// "deck sheet 3/4\"" of "deck sheet 3/4\", plywood": a table that names no panel has plywood.
std::string without_panel(const std::string& item) {
  constexpr std::string_view usual = ", plywood";
  return item.ends_with(usual) ? item.substr(0, item.size() - usual.size()) : item;
}

/// The packs that a table sells a thing in, each once, as rooms of one order read it each: "bag of 47 lb, pallet".
std::string packs_of(const std::string& item, const std::vector<job::Price>& prices) {
  std::vector<std::string> packs;
  for (const job::Price& price : prices)
    if (price.item == item && std::find(packs.begin(), packs.end(), price.pack) == packs.end())
      packs.push_back(price.pack);
  return units::listed(packs, ", ");
}

/// Whether some list has such a row, if not this one: stocks are named by their sizes, the others by what they are.
bool is_on_some_list(const std::string& item, const std::vector<Row>& rows) {
  for (int each = 0; each <= static_cast<int>(Item::bench_fasteners); ++each)
    if (item == name_of(static_cast<Item>(each))) return true;
  const auto here = [&](const Row& row) { return item == row.item || item == row.sold_as; };
  return item.starts_with(tile_of("")) || item.starts_with("deck sheet ") || item.starts_with("shims ") ||
         (item.front() >= '0' && item.front() <= '9') || std::any_of(rows.begin(), rows.end(), here);
}

}  // namespace

std::optional<double> Row::cost() const {
  if (!price) return std::nullopt;
  return to_hundredths(buy * *price);
}

Cost cost_of(const std::vector<Row>& rows) {
  Cost cost;
  for (const Row& row : rows) {
    if (!is_bought(row)) continue;
    if (!row.price) {
      std::string missing = missing_text(row);  // one stock may be bought for two things
      if (std::find(cost.missing.begin(), cost.missing.end(), missing) == cost.missing.end())
        cost.missing.push_back(std::move(missing));
      continue;
    }
    cost.sum = to_hundredths(cost.sum.value_or(0) + *row.cost());
    if (row.hold) cost.held = to_hundredths(cost.held.value_or(0) + *row.cost());
  }
  return cost;
}

void set_prices(std::vector<Row>& rows, const std::vector<job::Price>& prices) {
  const auto find = [&](const std::string& item, const std::string& pack) {
    return std::find_if(prices.begin(), prices.end(),
                        [&](const job::Price& p) { return p.item == item && p.pack == pack; });
  };
  for (Row& row : rows) {
    if (!row.for_sale) continue;
    const std::string& item = row.sold_as.empty() ? row.item : row.sold_as;
    auto at = find(item, job::one_of(sized_pack_of(row)));
    if (at == prices.end()) at = find(item, pack_of(row));
    if (const std::string plain = without_panel(item); at == prices.end() && plain != item) {
      at = find(plain, job::one_of(sized_pack_of(row)));
      if (at == prices.end()) at = find(plain, pack_of(row));
    }
    if (at == prices.end()) {
      row.other_packs = row.price ? "" : packs_of(item, prices);
      continue;
    }
    row.price = at->each;
    row.supplier = at->supplier;
  }
}

std::string money_text(double amount, const std::string& currency) {
  return (currency.empty() ? "" : currency + " ") + units::decimals(amount, 2);
}

std::string cost_text(const Cost& cost, const std::string& currency) {
  std::string text = cost.sum ? money_text(*cost.sum, currency) : "not known";
  if (cost.held) text += ", of which " + money_text(*cost.held, currency) + " is on HOLD";
  if (cost.missing.empty()) return text;
  text += "; without " + std::to_string(cost.missing.size()) + " that " + (cost.missing.size() == 1 ? "has" : "have") +
          " no price: ";
  for (std::size_t i = 0; i < cost.missing.size(); ++i) text += (i == 0 ? "" : "; ") + cost.missing[i];
  return text;
}

std::string cost_text(const std::vector<Row>& rows, const job::Buy& buy) {
  std::vector<std::string> strange;
  for (const job::Price& price : buy.prices.prices) {
    const std::string name = "'" + price.item + "' (line " + std::to_string(price.line) + ")";
    if (!is_on_some_list(price.item, rows)) strange.push_back(name);
  }
  return cost_text(cost_of(rows), buy.currency) +
         (strange.empty() ? "" : "; the table prices what no list has: " + units::listed(strange, ", "));
}

}  // namespace fallwright::takeoff
