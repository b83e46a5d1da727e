#include "takeoff/cutting.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <numeric>

#include "takeoff/least_stock.hpp"
#include "takeoff/ripping.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

/// A 1/64 in and a 1/10 mm are both whole numbers of 1/320 mm: 127 and 32.
constexpr double ticks_in_a_mm = 320;
constexpr double least_tick = ticks_in_a_mm * units::tolerance::length_mm;
/// Tables grow with the ticks in a stick. Pieces off one tape share a coarse tick; of mixed ones the tick is made so.
constexpr std::int64_t most_ticks = 50'000;

std::int64_t ticks_up(double mm) {
  return std::int64_t{std::llround(std::ceil(mm * ticks_in_a_mm - least_tick))};
}
std::int64_t ticks_down(double mm) {
  return std::int64_t{std::llround(std::floor(mm * ticks_in_a_mm + least_tick))};
}

/// Pieces of one length, by their marks.
struct Kind {
  double length_mm = 0;
  int count = 0;
  std::deque<std::pair<std::string, int>> marks;
};

/// Longest first.
std::vector<Kind> kinds_of(const std::vector<CutRow>& rows) {
  std::map<std::int64_t, Kind, std::greater<>> by_length;
  for (const CutRow& row : rows) {
    Kind& kind = by_length[ticks_up(row.length_mm)];
    kind.length_mm = row.length_mm;
    kind.count += row.count;
    kind.marks.emplace_back(row.mark, row.count);
  }
  std::vector<Kind> kinds;
  for (auto& [length, kind] : by_length) kinds.push_back(std::move(kind));
  return kinds;
}

/// The problem in whole numbers, and what one step of its costs is.
struct Posed {
  CutProblem problem, shorter;   ///< pieces taken up to the next tick, and down to it: a plan, and a bound
  std::vector<double> stick_mm;  ///< by the problem's sticks
  double step_mm = 0;
  bool exact() const { return problem.size == shorter.size; }
};

/// A stick between its ends, which are cut off before it is used.
double usable_mm(double stick_mm, double trim_mm) {
  return stick_mm - 2 * trim_mm;
}

void add_sticks(Posed& posed, const std::vector<double>& offers, double trim_mm, std::int64_t kerf, std::int64_t tick) {
  std::int64_t step = 0;
  for (const double mm : offers) step = std::gcd(step, ticks_down(mm));
  posed.step_mm = static_cast<double>(step) / ticks_in_a_mm;
  CutProblem& problem = posed.problem;
  for (const double mm : offers) {
    const std::int64_t length = ticks_down(mm), room = (ticks_down(usable_mm(mm, trim_mm)) + kerf) / tick;
    if (room < problem.size.back() || (!problem.room.empty() && room <= problem.room.back())) continue;
    problem.room.push_back(room);
    problem.length.push_back(length / step);
    posed.stick_mm.push_back(mm);
  }
}

/// @pre `offers` rise, and the last holds the longest piece.
Posed pose(const std::vector<Kind>& kinds, const std::vector<double>& offers, double kerf_mm, double trim_mm) {
  const std::int64_t kerf = ticks_up(kerf_mm);
  std::int64_t tick = 0;
  for (const Kind& kind : kinds) tick = std::gcd(tick, ticks_up(kind.length_mm) + kerf);
  const std::int64_t longest = ticks_down(usable_mm(offers.back(), trim_mm)) + kerf;
  if (longest / tick > most_ticks) tick = longest / most_ticks + 1;
  Posed posed;
  for (const Kind& kind : kinds) {
    const std::int64_t size = ticks_up(kind.length_mm) + kerf;
    // A piece that is as long as the longest stick must go on fitting it.
    posed.problem.size.push_back(std::min((size + tick - 1) / tick, longest / tick));
    posed.shorter.size.push_back(size / tick);
    posed.problem.count.push_back(kind.count);
  }
  add_sticks(posed, offers, trim_mm, kerf, tick);
  const std::vector<std::int64_t> sizes = posed.shorter.size;
  posed.shorter = posed.problem;
  posed.shorter.size = sizes;
  return posed;
}

Stick stick_of(const StockPlan& plan, double length_mm, std::vector<StickPiece> pieces) {
  double left = usable_mm(length_mm, plan.trim_mm);
  for (const StickPiece& piece : pieces) left -= piece.length_mm + plan.kerf_mm;
  return {plan.stock, length_mm, std::move(pieces), left > units::tolerance::length_mm ? left : 0};
}

/// Gives the patterns their marks: long sticks first, on equal sticks long pieces first.
std::vector<Stick> marked(const StockPlan& plan, const Posed& posed, std::vector<Pattern> patterns,
                          std::vector<Kind> kinds) {
  std::sort(patterns.begin(), patterns.end(),
            [](const Pattern& a, const Pattern& b) { return a.stick != b.stick ? a.stick > b.stick : a.of > b.of; });
  std::vector<Stick> sticks;
  for (const Pattern& pattern : patterns) {
    std::vector<StickPiece> pieces;
    for (std::size_t i = 0; i < kinds.size(); ++i)
      for (int n = 0; n < pattern.of[i]; ++n) {
        auto& [mark, count] = kinds[i].marks.front();
        pieces.push_back({mark, kinds[i].length_mm});
        if (--count == 0) kinds[i].marks.pop_front();
      }
    sticks.push_back(stick_of(plan, posed.stick_mm[pattern.stick], std::move(pieces)));
  }
  return sticks;
}

void plan_offered(StockPlan& plan, const std::vector<Kind>& kinds, const std::vector<double>& offers) {
  if (kinds.empty()) return;
  const Posed posed = pose(kinds, offers, plan.kerf_mm, plan.trim_mm);
  const LeastStock least = least_stock(posed.problem);
  const std::int64_t bound = posed.exact() ? least.least_length : least_length(posed.shorter);
  for (Stick& stick : marked(plan, posed, least.sticks, kinds)) plan.sticks.push_back(std::move(stick));
  plan.least_mm += static_cast<double>(bound) * posed.step_mm;
  plan.fewest = least.fewest && posed.exact();
}

/// Each piece longer than any stick on offer gets a stick of its own.
void plan_to_order(StockPlan& plan, std::vector<Kind>& kinds, double longest_mm, bool metric) {
  while (!kinds.empty() && kinds.front().length_mm > longest_mm + units::tolerance::length_mm) {
    const double length = kinds.front().length_mm, stick = length_to_order(length, plan.trim_mm, metric);
    for (const auto& [mark, count] : kinds.front().marks)
      for (int n = 0; n < count; ++n) {
        plan.sticks.push_back(stick_of(plan, stick, {{mark, length}}));
        plan.sticks.back().to_order = true;
        plan.least_mm += stick;
      }
    kinds.erase(kinds.begin());
  }
}

/// What ordered sticks leave over takes other pieces, the longest first. Whether any went in: then no plan is shown to
/// be the least but by the bound that pieces are not longer than what is bought.
bool fill_ordered(StockPlan& plan, std::vector<Kind>& kinds) {
  bool filled = false;
  for (Stick& stick : plan.sticks) {
    double left = usable_mm(stick.length_mm, plan.trim_mm) - stick.pieces.front().length_mm;
    for (Kind& kind : kinds)
      while (kind.count > 0 && kind.length_mm + plan.kerf_mm <= left + units::tolerance::length_mm) {
        auto& [mark, count] = kind.marks.front();
        stick.pieces.push_back({mark, kind.length_mm});
        if (--count == 0) kind.marks.pop_front();
        --kind.count;
        left -= kind.length_mm + plan.kerf_mm;
        filled = true;
      }
    stick = stick_of(plan, stick.length_mm, stick.pieces);
    stick.to_order = true;
  }
  std::erase_if(kinds, [](const Kind& kind) { return kind.count == 0; });
  return filled;
}

/// Rising lengths between their trimmed ends hold the longest of the pieces.
bool hold(const std::vector<double>& offers, const std::vector<Kind>& kinds, double trim_mm) {
  return !offers.empty() && !kinds.empty() &&
         kinds.front().length_mm <= usable_mm(offers.back(), trim_mm) + units::tolerance::length_mm;
}

StockPlan plan_stock(const std::string& stock, const std::vector<CutRow>& rows, const job::Cuts& how, bool metric) {
  StockPlan plan;
  plan.stock = stock;
  plan.of_strips = rows.front().furring.has_value();
  plan.kerf_mm = how.kerf.in_mm();
  plan.trim_mm = how.trim.in_mm();
  plan.fewest = true;
  const auto rising = [](const std::vector<units::Length>& sticks) {
    std::vector<double> lengths;
    for (const units::Length stick : sticks) lengths.push_back(stick.in_mm());
    std::sort(lengths.begin(), lengths.end());
    return lengths;
  };
  std::vector<Kind> kinds = kinds_of(rows);
  std::vector<double> offers = rising(how.preferred);
  plan.preferred = hold(offers, kinds, plan.trim_mm);
  if (!plan.preferred) {
    std::vector<units::Length> all = how.sticks;
    all.insert(all.end(), how.preferred.begin(), how.preferred.end());
    offers = rising(all);
  }
  for (const Kind& kind : kinds) plan.pieces += kind.count;
  plan_to_order(plan, kinds, offers.empty() ? 0 : usable_mm(offers.back(), plan.trim_mm), metric);
  double pieces = 0, ordered = plan.least_mm;
  for (const CutRow& row : rows) pieces += row.length_mm * row.count;
  const bool filled = fill_ordered(plan, kinds);
  plan_offered(plan, kinds, offers);
  if (filled) {
    plan.least_mm = std::max(ordered, pieces);
    plan.fewest = false;
  }
  for (const Stick& stick : plan.sticks) plan.bought_mm += stick.length_mm, plan.offcut_mm += stick.offcut_mm;
  plan.least_mm = std::min(plan.least_mm, plan.bought_mm);  // sums of one length may differ in their last digit
  return plan;
}

/// What waits comes last on its stick: the saw stops before it.
void put_held_last(StockPlan& plan, const std::vector<CutRow>& rows) {
  const auto is_cut = [&](const StickPiece& piece) {
    return std::none_of(rows.begin(), rows.end(),
                        [&](const CutRow& row) { return row.mark == piece.mark && row.hold; });
  };
  for (Stick& stick : plan.sticks) std::stable_partition(stick.pieces.begin(), stick.pieces.end(), is_cut);
}

/// Neighbours that are alike.
template <class Alike>
std::vector<StickGroup> grouped(const std::vector<Stick>& sticks, const Alike& are_alike) {
  std::vector<StickGroup> groups;
  for (const Stick& stick : sticks) {
    if (groups.empty() || !are_alike(groups.back().stick, stick)) groups.push_back({stick, 0});
    ++groups.back().count;
  }
  return groups;
}

}  // namespace

bool StockPlan::proven() const {
  return bought_mm - least_mm < units::tolerance::length_mm;
}

std::vector<StockPlan> plan_cuts(const std::vector<CutRow>& cuts, const job::Cuts& how, bool metric) {
  std::map<std::pair<std::string, bool>, std::vector<CutRow>> by_stock;  // furring that waits for itself
  for (const CutRow& cut : cuts)
    if (!cut.sheet && !cut.lies_on_no_stick())
      by_stock[{cut.board ? boards_named(cut.board->stock) : cut.stock, cut.furring && cut.hold}].push_back(cut);
  std::vector<StockPlan> plans;
  for (const auto& [of, rows] : by_stock) {
    plans.push_back(rows.front().board ? plan_boards(rows, how, metric) : plan_stock(of.first, rows, how, metric));
    for (const CutRow& row : rows) take_hold(plans.back().hold, row.hold);
    if (!plans.back().is_ripped()) put_held_last(plans.back(), rows);
    for (const units::Length length : how.sticks) plans.back().sticks_mm.push_back(length.in_mm());
    for (const units::Length length : how.preferred) plans.back().preferred_mm.push_back(length.in_mm());
  }
  return plans;
}

double length_to_order(double piece_mm, double trim_mm, bool metric) {
  const double step = metric ? 300 : 2 * 304.8;
  return std::ceil((piece_mm + 2 * trim_mm) / step - units::tolerance::ratio) * step;
}

std::vector<StickGroup> alike(const std::vector<Stick>& sticks) {
  return grouped(sticks, [](const Stick& a, const Stick& b) { return a == b; });
}

std::vector<StickGroup> by_length(const std::vector<Stick>& sticks) {
  return grouped(sticks, same_length);
}

bool same_length(const Stick& a, const Stick& b) {
  return a.length_mm == b.length_mm && a.to_order == b.to_order;
}

std::string total_text(double length_mm, bool metric) {
  return metric ? units::decimals(length_mm / 1000, 2) + " m" : units::decimals(length_mm / 304.8, 1) + " ft";
}

std::string kerf_text(double kerf_mm, bool metric) {
  const auto tape = units::round_to_tape(units::Length::mm(kerf_mm), metric);
  if (std::abs(tape.in_mm() - kerf_mm) < units::tolerance::length_mm) return units::to_text(tape, metric);
  return metric ? units::decimals(kerf_mm, 1) + " mm" : units::decimals(kerf_mm / units::inch_mm, 3) + "\"";
}

std::string proof_text(const StockPlan& plan, bool metric) {
  const std::string of_which = plan.preferred ? " of the preferred lengths" : "";
  if (plan.proven()) return "the least possible" + of_which;
  return "at most " + stick_text(plan.bought_mm - plan.least_mm, metric) + " above the least possible" + of_which;
}

std::string stick_text(double length_mm, bool metric) {
  const double unit = metric ? 100 : 304.8, units = std::round(length_mm / unit);
  if (std::abs(length_mm - units * unit) > 0.1) return units::to_text(units::Length::mm(length_mm), metric);
  return metric ? units::decimals(units / 10, 1) + " m" : units::decimals(units, 0) + " ft";
}

}  // namespace fallwright::takeoff
