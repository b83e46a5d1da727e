#include "drawing/table.hpp"
#include "drawing/views.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

/// What a row rests on. Sticks of one stock share a plan: it is told once.
std::string basis_of(const takeoff::Row& row, const takeoff::Row* above) {
  const std::size_t own = row.basis.find(';');
  const bool shared = above && above->item == row.item && row.basis.find("; of " + row.item) != std::string::npos;
  return shared ? row.basis.substr(0, own) + "; the plan as above" : row.basis;
}

/// What is only told is no order.
std::string to_buy(const takeoff::Row& row) {
  return row.for_sale ? takeoff::bought(row) : "(" + takeoff::bought(row) + ")";
}

std::string cost_of(const takeoff::Row& row) {
  if (!row.for_sale) return "";
  return row.cost() ? units::decimals(*row.cost(), 2) : "no price";
}

}  // namespace

Sheet draw_buy(const Subject& subject) {
  return on_one_page("buy", "Buy list", subject.job(), [&](Sheet& sheet, Pen& pen, double width) {
    const std::string& currency = subject.job().buy.currency;
    const bool priced = !subject.job().buy.prices.file.empty();
    std::vector<Column> columns{
        {"item", 2.4}, {"net, from the solids", 1.5}, {"buy", 1.7}, {"got", 0.5, true}, {"from, waste, pack", 7}};
    if (priced) columns.insert(columns.begin() + 3, {currency.empty() ? "cost" : "cost, " + currency, 1.3});
    Table table{pen, {0, 0}, width, columns};
    table.head();
    const takeoff::Row* above = nullptr;
    for (const takeoff::Row& row : subject.rows) {
      std::vector<std::string> cells{row.item, takeoff::needed(row), to_buy(row), "", basis_of(row, above)};
      if (priced) cells.insert(cells.begin() + 3, cost_of(row));
      table.row(cells);
      above = &row;
    }
    if (priced)
      table.across("Cost by your own prices: " + takeoff::cost_text(takeoff::cost_of(subject.rows), currency) + ".");
    sheet.notes = {std::string{"Nothing is rounded before it is summed; packs are whole; in brackets: told, not "
                               "bought. Order what has a lead time first: base"} +
                       (subject.job().bench ? ", seat block." : "."),
                   "Wet mortar and cement are caustic and their dust holds silica: gloves, goggles, a respirator that "
                   "fits."};
  });
}

}  // namespace fallwright::drawing
