#include "revision/orders.hpp"

#include <algorithm>
#include <cmath>

#include "job/prices.hpp"
#include "revision/articles.hpp"
#include "revision/stock.hpp"
#include "takeoff/item.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::revision {
namespace {

/// What is bought by the foot, the square or the cubic foot, in the metric unit that it is sold by elsewhere.
struct Sold {
  double amount = 0;
  std::string unit;
  double mark = 0;  ///< of the hundredths that it is told to
};
Sold sold_metric(const takeoff::Row& row) {
  constexpr double ft = 0.3048, in_a_ft3 = units::mm3_per_ft3 / 1e6;
  if (row.buy_unit == "ft3") return {row.buy * in_a_ft3, "L", in_a_ft3 / 100};
  const double factor = row.buy_unit == "ft2" ? ft * ft : row.buy_unit == "ft" ? ft : 1;
  return {row.buy * factor, factor < 1 ? "m" + row.buy_unit.substr(2) : job::one_of(row.buy_unit), factor / 100};
}

/// Whether their solids are compared themselves, and not the words of a row.
bool is_article(const State& state, const takeoff::Row& row) {
  return std::any_of(state.articles.begin(), state.articles.end(),
                     [&](const Article& a) { return a.item == row.item; });
}

/// Older reports name none.
bool another_product(const takeoff::Row& was, const takeoff::Row& now) {
  return !was.product.empty() && !now.product.empty() && was.product != now.product;
}

bool same_amount(const takeoff::Row& was, const takeoff::Row& now) {
  if (another_product(was, now)) return false;
  if (was.hold || now.hold) return was.hold.has_value() == now.hold.has_value();
  if (was.buy_unit == now.buy_unit) return takeoff::bought(was) == takeoff::bought(now);
  const Sold a = sold_metric(was), b = sold_metric(now);
  return std::abs(a.amount - b.amount) < a.mark + b.mark;
}

/// As much as is bought: while a check holds it nothing.
std::string order_words(const takeoff::Row& row) {
  return row.hold ? "HOLD" : takeoff::bought(row);
}

/// The same where it is another product.
std::string product_words(const takeoff::Row& row) {
  return order_words(row) + (row.product.empty() ? "" : " of " + row.product);
}

}  // namespace

std::vector<Changed> of_orders(const State& was, const State& now) {
  std::vector<Changed> changed;
  const auto in = [](const State& state, const takeoff::Row& like) {
    const takeoff::Row* found = nullptr;  // of one that is bought in part and held in part the like one
    for (const takeoff::Row& row : state.rows)
      if (row.for_sale && row.item == like.item && sold_metric(row).unit == sold_metric(like).unit &&
          (!found ||
           (found->hold.has_value() != like.hold.has_value() && row.hold.has_value() == like.hold.has_value())))
        found = &row;
    return found;
  };
  for (const takeoff::Row& row : now.rows) {
    if (!row.for_sale) continue;
    const takeoff::Row* before = in(was, row);
    takeoff::Row alike = row;  // as the older one is called, where its solid tells whether it is another piece
    if (before && is_article(was, row) && is_article(now, row)) alike.product = before->product;
    if (!before || !same_amount(*before, alike))
      changed.push_back(before && another_product(*before, alike)
                            ? Changed{row.item, product_words(*before), product_words(row)}
                            : Changed{row.item, before ? order_words(*before) : nothing, order_words(row)});
  }
  for (const takeoff::Row& row : was.rows)
    if (row.for_sale && !in(now, row)) changed.push_back({row.item, order_words(row), nothing});
  return changed;
}

namespace {

using takeoff::Blanks, takeoff::CutRow, takeoff::Item, takeoff::Row;

/// Of what is cut from it the pieces tell how much is bought.
bool is_cut(const Row& row) {
  return row.blanks && *row.blanks != Blanks::shims;
}

/// What a pack holds, in metric units, so that packs of two tapes are compared.
double pack_metric(const Row& row) {
  Row pack;
  pack.buy = row.pack, pack.buy_unit = row.unit;
  constexpr double ml_in_an_in3 = units::inch_mm * units::inch_mm * units::inch_mm / 1000;
  if (row.unit == "in3") return row.pack * ml_in_an_in3;
  if (row.unit == "lb") return row.pack * units::kg_per_lb;
  return sold_metric(pack).amount;
}

/// A cartridge of 10.1 fl oz is one of 300 mL.
bool same_packs(const Row& a, const Row& b) {
  constexpr double same_pack = 0.01;  ///< of itself: labels of two tapes round it
  const double x = pack_metric(a), y = pack_metric(b);
  return sold_metric(a).unit == sold_metric(b).unit &&
         std::abs(x - y) <= (a.unit == b.unit ? units::tolerance::ratio : same_pack) * std::max(x, y);
}

/// All that goes by one name and out of one kind of pack: what of it is free, and whether some of it waits.
struct Line {
  Row row;  ///< with what is free as `buy`
  bool held = false;
};

/// Fasteners of one product come out of one box, whatever they hold; else the item tells.
bool one_line(const Row& a, const Row& b) {
  if (!same_packs(a, b)) return false;
  if (a.item == b.item) return !another_product(a, b);
  return a.pack > 0 && !a.product.empty() && a.product == b.product;
}

std::vector<Line> lines_of(const State& state) {
  std::vector<Line> lines;
  for (const Row& row : state.rows) {
    if (!row.for_sale || is_cut(row)) continue;
    auto line = std::find_if(lines.begin(), lines.end(), [&](const Line& l) { return one_line(l.row, row); });
    if (line == lines.end()) {
      line = lines.insert(lines.end(), {row});
      line->row.buy = 0;
    }
    if (row.hold)
      line->held = true;
    else
      line->row.buy += row.buy;
  }
  return lines;
}

/// So much of a row, in its own unit.
Row of_row(Row row, double amount) {
  row.buy = amount;
  row.hold.reset();
  return row;
}

class Purchasing {
 public:
  Purchasing(const State& was, const State& now)
      : before_{lines_of(was)}, after_{lines_of(now)}, others_{of_articles(was, now)} {
    for (Line& line : after_)  // a solid that is the same is the same piece, however its row names it
      for (const Line& older : before_)
        if (older.row.item == line.row.item && is_article(was, older.row) && is_article(now, line.row) &&
            !is_other(line.row))
          line.row.product = older.row.product;
  }

  Purchases done() {
    for (const Line& line : after_) add(line, before(line));
    for (const Line& older : before_)
      if (older.row.buy > 0 &&
          std::none_of(after_.begin(), after_.end(), [&](const Line& line) { return is_of(line, older); }))
        over(older, older.row.buy);
    return std::move(found_);
  }

 private:
  bool is_other(const Row& row) const {
    return std::any_of(others_.begin(), others_.end(), [&](const Changed& c) { return c.what == row.item; });
  }
  bool is_of(const Line& line, const Line& older) const {
    return one_line(older.row, line.row) && !(is_other(line.row) && older.row.item == line.row.item);
  }
  const Line* before(const Line& line) const {
    const auto it = std::find_if(before_.begin(), before_.end(), [&](const Line& older) { return is_of(line, older); });
    return it == before_.end() ? nullptr : &*it;
  }

  /// While some of it waits, what there is too much of it may be needed yet: of one name at least.
  void over(const Line& older, double amount) {
    const bool waits = std::any_of(after_.begin(), after_.end(),
                                   [&](const Line& line) { return line.held && line.row.item == older.row.item; });
    if (!waits) found_.over.push_back(of_row(older.row, amount));
  }

  void add(const Line& line, const Line* older) {
    if (line.held) found_.waits.push_back(line.row.item);
    const double own = line.row.buy > 0 ? sold_metric(line.row).amount / line.row.buy : 1;
    double have = 0, mark = 0;
    if (older) {
      const Sold sold = sold_metric(older->row), wanted = sold_metric(line.row);
      have = sold.amount / own;
      mark = older->row.buy_unit == line.row.buy_unit ? 0.005 : (sold.mark + wanted.mark) / own;
    }
    if (older && is_one_piece(line.row) && any_piece_grew()) {
      found_.more.push_back(of_row(line.row, line.row.buy));
      if (older->row.buy > 0) over(*older, older->row.buy);
    } else if (line.row.buy > have + mark) {
      found_.more.push_back(of_row(line.row, line.row.buy - have));
    } else if (older && have > line.row.buy + mark && !is_one_piece(line.row)) {
      over(*older, older->row.buy - line.row.buy * (older->row.buy / have));
    }
  }

  /// A liner lies on the floor and turns up in one piece: nothing is added to one that is there, and a larger one is
  /// cut down.
  static bool is_one_piece(const Row& row) { return is(row, Item::liner) || is(row, Item::liner_up); }
  bool any_piece_grew() const {
    return std::any_of(after_.begin(), after_.end(), [&](const Line& line) {
      const Line* older = is_one_piece(line.row) ? before(line) : nullptr;
      if (!older || line.held || older->row.buy == 0) return false;
      const Sold had = sold_metric(older->row), wanted = sold_metric(line.row);
      return wanted.amount > had.amount + (older->row.buy_unit == line.row.buy_unit ? 0 : had.mark + wanted.mark);
    });
  }

  std::vector<Line> before_, after_;
  std::vector<Changed> others_;
  Purchases found_;
};

}  // namespace

Purchases purchases_of(const State& was, const State& now, const Pieces& pieces) {
  Purchases found = Purchasing{was, now}.done();
  add_stock(was, now, pieces, found);
  return found;
}

}  // namespace fallwright::revision
