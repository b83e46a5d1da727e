#include "takeoff/ripping.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

using units::tolerance::length_mm;

/// The length of stick that a piece wants.
struct Wanted {
  double length_mm = 0;
  bool preferred = false, to_order = false;
};

/// The shortest of some sticks that holds a piece between its trimmed ends; 0: none does.
double shortest_mm(const std::vector<units::Length>& sticks, double piece_mm, double trim_mm) {
  double shortest = 0;
  for (const units::Length& stick : sticks) {
    const double usable = stick.in_mm() - 2 * trim_mm + length_mm;
    if (usable >= piece_mm && (shortest == 0 || stick.in_mm() < shortest)) shortest = stick.in_mm();
  }
  return shortest;
}

Wanted stick_for(double piece_mm, const job::Cuts& how, bool metric) {
  const double trim = how.trim.in_mm();
  if (const double mm = shortest_mm(how.preferred, piece_mm, trim); mm > 0) return {mm, true, false};
  if (const double mm = shortest_mm(how.sticks, piece_mm, trim); mm > 0) return {mm, false, false};
  return {length_to_order(piece_mm, trim, metric), false, true};
}

struct OneStrip {
  std::string mark;
  double length_mm = 0, thick_mm = 0;
  Wanted stick;
};

/// Those that want the longest boards first, of these the thickest, then the longest.
std::vector<OneStrip> one_by_one(const std::vector<CutRow>& rows, const job::Cuts& how, bool metric) {
  std::vector<OneStrip> all;
  for (const CutRow& row : rows)
    all.insert(all.end(), static_cast<std::size_t>(row.count),
               {row.mark, row.length_mm, row.thickness_mm, stick_for(row.length_mm, how, metric)});
  std::stable_sort(all.begin(), all.end(), [](const OneStrip& a, const OneStrip& b) {
    return std::tuple{a.stick.length_mm, a.thick_mm, a.length_mm} >
           std::tuple{b.stick.length_mm, b.thick_mm, b.length_mm};
  });
  return all;
}

/// A board as it fills.
class Filling {
 public:
  Filling(const std::string& name, const Wanted& stick, double width_mm, const job::Cuts& how)
      : width_mm_{width_mm}, usable_mm_{stick.length_mm - 2 * how.trim.in_mm()}, kerf_mm_{how.kerf.in_mm()} {
    board_.stock = name, board_.length_mm = stick.length_mm, board_.to_order = stick.to_order;
  }

  /// Behind strips that are as thick, else beside all.
  bool takes(const OneStrip& strip) {
    for (std::size_t i = 0; i < lanes_.size(); ++i) {
      Lane& lane = lanes_[i];
      if (std::abs(lane.thick_mm - strip.thick_mm) > length_mm ||
          lane.taken_mm + kerf_mm_ + strip.length_mm > usable_mm_ + length_mm)
        continue;
      lane.taken_mm += kerf_mm_ + strip.length_mm;
      put(strip, i);
      return true;
    }
    const double across = strip.thick_mm + kerf_mm_;
    const bool fits = strip.length_mm <= usable_mm_ + length_mm && taken_mm_ + across <= width_mm_ + length_mm;
    if (!fits && !lanes_.empty()) return false;  // one that is as thick as its board is wide wants no cut
    lanes_.push_back({strip.thick_mm, strip.length_mm});
    taken_mm_ += across;
    put(strip, lanes_.size() - 1);
    return true;
  }

  Stick board() const {
    Stick board = board_;
    std::stable_sort(board.pieces.begin(), board.pieces.end(),
                     [](const StickPiece& a, const StickPiece& b) { return a.lane < b.lane; });
    return board;
  }

 private:
  struct Lane {
    double thick_mm, taken_mm;
  };
  void put(const OneStrip& strip, std::size_t lane) {
    board_.pieces.push_back({strip.mark, strip.length_mm, strip.thick_mm, static_cast<int>(lane)});
  }

  Stick board_;
  std::vector<Lane> lanes_;
  double width_mm_, usable_mm_, kerf_mm_, taken_mm_ = 0;
};

/// A board's area less what its strips leave to saw cuts, of which the last may fall beyond its edge.
double least_by_area(const std::vector<OneStrip>& strips, double width_mm, double kerf_mm) {
  double area = 0;
  for (const OneStrip& strip : strips) area += strip.length_mm * (strip.thick_mm + kerf_mm);
  return area / (width_mm + kerf_mm);
}

}  // namespace

std::string boards_named(const std::string& stock) {
  return stock + ", for furring";
}

StockPlan plan_boards(const std::vector<CutRow>& rows, const job::Cuts& how, bool metric) {
  StockPlan plan;
  plan.sold_as = rows.front().board->stock;
  plan.stock = boards_named(plan.sold_as);
  plan.kerf_mm = how.kerf.in_mm(), plan.trim_mm = how.trim.in_mm();
  double width = rows.front().board->width_mm;
  for (const CutRow& row : rows) width = std::min(width, row.board->width_mm);
  const std::vector<OneStrip> strips = one_by_one(rows, how, metric);
  std::vector<Filling> boards;
  plan.preferred = true;
  for (const OneStrip& strip : strips) {
    plan.preferred = plan.preferred && strip.stick.preferred;
    if (std::none_of(boards.begin(), boards.end(), [&](Filling& board) { return board.takes(strip); }))
      boards.emplace_back(plan.stock, strip.stick, width, how).takes(strip);
  }
  for (const Filling& board : boards) plan.sticks.push_back(board.board());
  for (const Stick& stick : plan.sticks) plan.bought_mm += stick.length_mm;
  plan.pieces = static_cast<int>(strips.size());
  plan.fewest = boards.size() == 1;
  plan.least_mm =
      std::min(plan.bought_mm, std::max(strips.front().stick.length_mm, least_by_area(strips, width, plan.kerf_mm)));
  return plan;
}

std::string board_as_sold(std::string_view furring) {
  constexpr std::pair<std::string_view, const char*> boards[] = {
      {"furring 3/4 x 1-1/2\"", "1x2"},  {"furring 3/4 x 2-1/2\"", "1x3"}, {"furring 3/4 x 3-1/2\"", "1x4"},
      {"furring 3/4 x 5-1/2\"", "1x6"},  {"furring 3/4 x 7-1/4\"", "1x8"}, {"furring 3/4 x 9-1/4\"", "1x10"},
      {"furring 3/4 x 11-1/4\"", "1x12"}};
  for (const auto& [strip, board] : boards)
    if (furring == strip) return board;
  return "";
}

std::string side_by_side(std::size_t strips, double kerf_mm, bool metric) {
  return strips == 1 ? "one strip ripped from it"
                     : std::to_string(strips) + " strips ripped side by side, a saw cut of " +
                           kerf_text(kerf_mm, metric) + " beside each";
}

}  // namespace fallwright::takeoff
