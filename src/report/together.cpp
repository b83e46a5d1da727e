#include "report/together.hpp"

#include <algorithm>
#include <limits>

#include "units/length.hpp"
#include "units/tolerance.hpp"

namespace fallwright::report {
namespace {

/// By what the sticks of one stock wait in a room, where they are one order, whatever else is cut from them.
const std::optional<takeoff::Hold>& hold_of(const std::string& stock, const Room& room) {
  static const std::optional<takeoff::Hold> nothing;
  const auto waits = std::find_if(room.cuts.begin(), room.cuts.end(), [&](const takeoff::CutRow& cut) {
    return !cut.sheet && cut.stock == stock && cut.hold;
  });
  return waits == room.cuts.end() ? nothing : waits->hold;
}

/// Furring waits by its own strips, other pieces with all that their sticks are cut into.
const std::optional<takeoff::Hold>& hold_of(const takeoff::CutRow& cut, const Room& room) {
  return cut.furring ? cut.hold : hold_of(cut.stock, room);
}

/// The saw list as the cutting plan takes it: what comes from sticks that wait in their rooms, or what does not.
std::vector<takeoff::CutRow> cuts_of(const Together& all, bool waiting) {
  std::vector<takeoff::CutRow> cuts;
  for (const takeoff::SawRow& piece : all.pieces) {
    takeoff::CutRow cut = piece.cut;
    cut.count = 0, cut.hold.reset();
    for (const takeoff::Owner& owner : piece.owners) {
      const auto& hold = hold_of(piece.cut, all.rooms[owner.room]);
      if (hold.has_value() != waiting) continue;
      cut.count += owner.count;
      if (!cut.hold) cut.hold = hold;
    }
    if (cut.count > 0) cuts.push_back(std::move(cut));
  }
  return cuts;
}

/// Only what one room owns of it.
std::vector<takeoff::CutRow> cuts_of_room(const Together& all, std::size_t room, const std::string& stock,
                                          bool waiting) {
  std::vector<takeoff::CutRow> cuts;
  if (hold_of(stock, all.rooms[room]).has_value() != waiting) return cuts;
  for (const takeoff::SawRow& piece : all.pieces)
    for (const takeoff::Owner& owner : piece.owners)
      if (owner.room == room && piece.cut.stock == stock) cuts.push_back(piece.cut), cuts.back().count = owner.count;
  return cuts;
}

/// The order's plan as the rooms' own plans one after the other, where that buys less: a search over all rooms at once
/// need not come to an end.
void fall_back(takeoff::StockPlan& plan, const Together& all) {
  if (plan.proven()) return;
  std::vector<takeoff::Stick> sticks;
  double bought = 0, offcut = 0;
  for (std::size_t room = 0; room < all.rooms.size(); ++room) {
    const auto cuts = cuts_of_room(all, room, plan.stock, plan.hold.has_value());
    for (const takeoff::StockPlan& own : takeoff::plan_cuts(cuts, all.cuts, all.metric)) {
      if (own.preferred != plan.preferred) return;
      sticks.insert(sticks.end(), own.sticks.begin(), own.sticks.end());
      bought += own.bought_mm, offcut += own.offcut_mm;
    }
  }
  if (bought > plan.bought_mm - units::tolerance::length_mm) return;
  const auto order = [](const takeoff::Stick& a, const takeoff::Stick& b) {
    if (a.length_mm != b.length_mm) return a.length_mm > b.length_mm;
    return std::lexicographical_compare(a.pieces.begin(), a.pieces.end(), b.pieces.begin(), b.pieces.end(),
                                        [](const takeoff::StickPiece& p, const takeoff::StickPiece& q) {
                                          return p.length_mm != q.length_mm ? p.length_mm > q.length_mm
                                                                            : p.mark < q.mark;
                                        });
  };
  std::stable_sort(sticks.begin(), sticks.end(), order);
  plan.sticks = std::move(sticks);
  plan.bought_mm = bought, plan.offcut_mm = offcut, plan.fewest = false;
}

/// Sticks that wait are another order than those that are bought: each is planned by itself.
std::vector<takeoff::StockPlan> plan_of(const Together& all) {
  std::vector<takeoff::StockPlan> plans = takeoff::plan_cuts(cuts_of(all, false), all.cuts, all.metric);
  for (takeoff::StockPlan& plan : takeoff::plan_cuts(cuts_of(all, true), all.cuts, all.metric))
    plans.push_back(std::move(plan));
  std::stable_sort(plans.begin(), plans.end(), [](const auto& a, const auto& b) { return a.stock < b.stock; });
  double bought = 0;
  for (const takeoff::StockPlan& plan : plans) bought += plan.bought_mm;
  if (bought > all.bought_apart_mm + units::tolerance::length_mm)
    for (takeoff::StockPlan& plan : plans) fall_back(plan, all);
  return plans;
}

/// Benches of several rooms from few lengths; one bench alone needs no kit.
std::vector<takeoff::Kit> kits_of(const std::vector<Room>& all, bool metric) {
  std::vector<double> openings;
  std::vector<std::size_t> rooms;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (const auto opening = all[i].opening_mm) {
      openings.push_back(units::round_to_tape(units::Length::mm(*opening), metric).in_mm());
      rooms.push_back(i + 1);
    }
  if (openings.size() < 2) return {};
  std::vector<takeoff::Kit> kits = takeoff::group_openings(openings, takeoff::usual_gap(metric));
  for (takeoff::Kit& kit : kits)
    for (std::size_t& room : kit.rooms) room = rooms[room];
  return kits;
}

/// Every length on offer that a room of the order's unit names, the widest saw cut and trim: no room is worse off than
/// alone. Lengths are preferred where every room prefers some.
job::Cuts offered_to(const std::vector<Room>& rooms, bool metric) {
  job::Cuts all;
  bool no_preference = false;
  for (const Room& room : rooms) {
    if (!room.failure.empty() || room.metric != metric) continue;
    const job::Cuts& own = room.offered;
    all.sticks.insert(all.sticks.end(), own.sticks.begin(), own.sticks.end());
    all.kerf = std::max(all.kerf, own.kerf);
    all.trim = std::max(all.trim, own.trim);
    all.preferred.insert(all.preferred.end(), own.preferred.begin(), own.preferred.end());
    no_preference = no_preference || own.preferred.empty();
  }
  if (no_preference) {  // what one room prefers is still on offer
    all.sticks.insert(all.sticks.end(), all.preferred.begin(), all.preferred.end());
    all.preferred.clear();
  }
  std::sort(all.sticks.begin(), all.sticks.end());
  all.sticks.erase(std::unique(all.sticks.begin(), all.sticks.end()), all.sticks.end());
  return all;
}

/// Less is tighter.
double tightness(const Judged& result) {
  return result.margin.value_or(-std::numeric_limits<double>::infinity());
}

/// In the order of the checks; those that no room breaks or has a margin for are left out. Rooms may answer to
/// different rule books, so results are found by their check and not by their place.
std::vector<Tightest> tightest_of(const std::vector<Room>& rooms) {
  std::vector<Tightest> all;
  for (std::size_t i = 0; i < rooms.size(); ++i)
    for (const Judged& result : rooms[i].checks) {
      const bool broken = result.outcome == rules::Outcome::fail || result.outcome == rules::Outcome::caution;
      if (!result.margin && !broken) continue;
      const auto at = std::find_if(all.begin(), all.end(), [&](const Tightest& t) { return t.result.id == result.id; });
      if (at == all.end())
        all.push_back({i + 1, result});
      else if (tightness(result) < tightness(at->result))
        *at = {i + 1, result};
    }
  return all;
}

/// What some room wants of a stock: "SPF No.2 for the bench".
std::string product_of(const std::string& stock, const std::vector<Room>& rooms) {
  for (const Room& room : rooms)
    for (const takeoff::Row& row : room.rows)
      if (row.item == stock && !row.product.empty()) return row.product;
  return "";
}

/// The order's sticks as rows of the buy list, beside what each room would buy of them; a length that rooms alone
/// would buy is a row of none.
std::vector<takeoff::Pooled> sticks_of(const Together& all) {
  std::vector<takeoff::Pooled> rows;
  for (takeoff::Row& row : takeoff::stick_rows(all.plan, all.metric)) {
    row.basis = "by the saw list";
    row.product = product_of(row.item, all.rooms);
    if (!row.product.empty()) row.basis += "; " + row.product;
    rows.push_back({row, 0, 0});
  }
  for (const Room& room : all.rooms)
    for (const takeoff::Row& own : room.sticks) {
      const std::string unit = job::one_of(own.buy_unit);
      const std::optional<takeoff::Hold>& hold = own.hold ? own.hold : hold_of(own.item, room);
      auto at = std::find_if(rows.begin(), rows.end(), [&](const takeoff::Pooled& p) {
        return p.row.item == own.item && job::one_of(p.row.buy_unit) == unit &&
               p.row.hold.has_value() == hold.has_value();
      });
      if (at == rows.end()) {
        at = rows.insert(rows.end(), {own, 0, 0});
        at->row.quantity = at->row.buy = 0;
        at->row.hold = hold;
        at->row.basis = "none: longer or shorter ones serve all rooms";
      }
      at->apart += own.buy;
      ++at->rooms;
    }
  return rows;
}

/// Every price that a room has: they do not contradict each other.
std::vector<job::Price> prices_of(const std::vector<Room>& rooms) {
  std::vector<job::Price> all;
  for (const Room& room : rooms) all.insert(all.end(), room.prices.begin(), room.prices.end());
  return all;
}

/// What the order costs, and what it would if every room bought its own.
void add_cost(Together& all) {
  std::vector<takeoff::Row> order;
  for (const takeoff::Pooled& p : all.packs) order.push_back(p.row);
  takeoff::set_prices(order, prices_of(all.rooms));
  for (std::size_t i = 0; i < order.size(); ++i)
    all.packs[i].row.price = order[i].price, all.packs[i].row.supplier = order[i].supplier;
  all.cost = takeoff::cost_of(order);
  for (const Room& room : all.rooms) {
    if (room.cost) all.cost_apart = all.cost_apart.value_or(0) + *room.cost;
    if (!room.priced) continue;
    all.priced = true;
    if (all.currency.empty()) all.currency = room.currency;
  }
}

}  // namespace

Together together(std::vector<Room> rooms) {
  Together all;
  all.rooms = std::move(rooms);
  const auto first =
      std::find_if(all.rooms.begin(), all.rooms.end(), [](const Room& room) { return room.failure.empty(); });
  all.metric = first->metric;
  all.cuts = offered_to(all.rooms, all.metric);
  std::vector<const std::vector<takeoff::Row>*> rows;
  std::vector<const std::vector<takeoff::CutRow>*> cuts;
  for (const Room& room : all.rooms) {
    rows.push_back(&room.rows);
    cuts.push_back(&room.cuts);
    all.bought_apart_mm += room.sticks_mm;
  }
  all.packs = takeoff::pool(rows);
  all.pieces = takeoff::saw_list(cuts);
  all.plan = plan_of(all);
  for (takeoff::Pooled& row : sticks_of(all)) all.packs.push_back(std::move(row));
  add_cost(all);
  all.kits = kits_of(all.rooms, all.metric);
  all.tightest = tightest_of(all.rooms);
  return all;
}

std::string owners_text(const std::vector<takeoff::Owner>& owners) {
  std::vector<std::pair<std::string, std::vector<std::size_t>>> by_mark;
  for (const takeoff::Owner& owner : owners) {
    auto at = std::find_if(by_mark.begin(), by_mark.end(), [&](const auto& m) { return m.first == owner.mark; });
    if (at == by_mark.end()) at = by_mark.insert(by_mark.end(), {owner.mark, {}});
    at->second.push_back(owner.room + 1);
  }
  std::string text;
  for (const auto& [mark, rooms] : by_mark) text += (text.empty() ? "" : "; ") + mark + " of " + numbers_text(rooms);
  return text;
}

std::string numbers_text(const std::vector<std::size_t>& numbers) {
  std::string text;
  for (std::size_t first = 0, last = 0; first < numbers.size(); first = last + 1) {
    for (last = first; last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1;) ++last;
    text += (first == 0 ? "" : ", ") + std::to_string(numbers[first]);
    if (last > first) text += (last == first + 1 ? ", " : "-") + std::to_string(numbers[last]);
  }
  return text;
}

}  // namespace fallwright::report
