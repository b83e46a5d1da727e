#include "revision/stock.hpp"

#include <algorithm>

#include "takeoff/ripping.hpp"

namespace fallwright::revision {
namespace {

using takeoff::Blanks, takeoff::CutRow, takeoff::Row;

/// A deck is cut from one kind of sheet.
const Row* sheets_of(const State& state) {
  const auto it =
      std::find_if(state.rows.begin(), state.rows.end(), [](const Row& row) { return row.blanks == Blanks::sheets; });
  return it == state.rows.end() ? nullptr : &*it;
}

/// What is left of each sheet's width. A piece takes a strip of it as long as the sheet: more than it needs, so that
/// what is left over is there however it was cut.
class Sheets {
 public:
  Sheets(double there, bool metric, double kerf_mm)
      : width_mm_{takeoff::sheet_mm(metric).width},
        kerf_mm_{kerf_mm},
        left_mm_(static_cast<std::size_t>(there), width_mm_) {}
  void take(const CutRow& piece, int count) {
    for (int n = 0; n < count; ++n) {
      auto sheet = std::find_if(left_mm_.begin(), left_mm_.end(), [&](double left) { return left >= piece.width_mm; });
      if (sheet == left_mm_.end()) sheet = left_mm_.insert(left_mm_.end(), width_mm_);
      *sheet -= piece.width_mm + kerf_mm_;
    }
  }
  double count() const { return static_cast<double>(left_mm_.size()); }

 private:
  double width_mm_, kerf_mm_;
  std::vector<double> left_mm_;
};

/// Pieces of the newer list that nothing is there for, and what they take.
class Fresh {
 public:
  Fresh(const State& now, const Pieces& pieces) : now_{now} {
    for (const PieceUse& use : pieces.uses) {
      const auto cut =
          std::find_if(now.cuts.begin(), now.cuts.end(), [&](const CutRow& c) { return c.mark == use.mark; });
      if (use.use != Use::fresh || cut == now.cuts.end() || cut->lies_on_no_stick()) continue;
      fresh_.push_back(*cut);
      fresh_.back().count = use.count;
    }
  }

  /// Items of which some wait, each once.
  std::vector<std::string> waiting() const {
    std::vector<std::string> items;
    for (const CutRow& cut : fresh_)
      if (is_held(cut) && std::find(items.begin(), items.end(), item_of(cut)) == items.end())
        items.push_back(item_of(cut));
    return items;
  }

  std::vector<Row> sticks() const {
    std::vector<CutRow> cuts;
    for (const CutRow& cut : fresh_)
      if (!cut.sheet && is_ordered(cut) && !is_held(cut)) cuts.push_back(cut);
    const bool metric = now_.job.is_metric();
    if (now_.job.cuts.sticks.empty()) return unplanned(cuts, metric);
    std::vector<Row> rows = takeoff::stick_rows(takeoff::plan_cuts(cuts, now_.job.cuts, metric), metric);
    for (Row& row : rows)
      for (const Row& whole : now_.rows)
        if (whole.item == row.item) row.product = whole.product;
    return rows;
  }

  /// How many sheets beyond those that `was` ordered, whose pieces are cut from them.
  double sheets(const State& was) const {
    const Row *before = sheets_of(was), *row = sheets_of(now_);
    if (!row || row->hold) return 0;
    const bool there = before && !before->hold && before->item == row->item && before->buy_unit == row->buy_unit;
    Sheets all{there ? before->buy : 0, now_.job.is_metric(), now_.job.cuts.kerf.in_mm()};
    if (there)
      for (const CutRow& cut : was.cuts)
        if (cut.sheet) all.take(cut, cut.count);
    const double cut_before = all.count();
    for (const CutRow& cut : fresh_)
      if (cut.sheet) all.take(cut, cut.count);
    return std::min(all.count() - cut_before, row->buy);
  }

 private:
  /// Where nobody knows in which lengths stock is sold: as long as its pieces are.
  std::vector<Row> unplanned(const std::vector<CutRow>& cuts, bool metric) const {
    std::vector<Row> rows;
    for (const CutRow& cut : cuts) {
      auto row = std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.item == item_of(cut); });
      if (row == rows.end()) {
        row = rows.insert(rows.end(), Row{});
        row->item = item_of(cut), row->buy_unit = metric ? "m" : "ft";
      }
      row->buy += cut.count * cut.length_mm / (metric ? 1000 : 304.8);
    }
    return rows;
  }
  /// As the list of orders has it.
  std::string item_of(const CutRow& cut) const {
    const Row* sheets = cut.sheet ? sheets_of(now_) : nullptr;
    return sheets ? sheets->item : cut.board ? takeoff::boards_named(cut.board->stock) : cut.stock;
  }
  template <typename Is>
  bool any_row(const CutRow& cut, Is is) const {
    const std::string item = item_of(cut);
    return std::any_of(now_.rows.begin(), now_.rows.end(), [&](const Row& row) { return row.item == item && is(row); });
  }
  /// Sticks of one stock are one order; furring that waits is ordered apart.
  bool is_held(const CutRow& cut) const {
    return cut.hold || (!cut.furring && any_row(cut, [](const Row& row) { return row.hold.has_value(); }));
  }
  bool is_ordered(const CutRow& cut) const {
    return any_row(cut, [](const Row&) { return true; });
  }

  const State& now_;
  std::vector<CutRow> fresh_;
};

}  // namespace

std::vector<CutRow> pieces_held_with_stock(const State& state) {
  std::vector<CutRow> pieces = state.cuts;
  for (CutRow& piece : pieces)
    for (const Row& row : state.rows) {
      const bool of_it = piece.sheet ? row.blanks == Blanks::sheets : !piece.furring && row.item == piece.stock;
      if (of_it && row.hold && !piece.hold) piece.hold = row.hold;
    }
  return pieces;
}

void add_stock(const State& was, const State& now, const Pieces& pieces, Purchases& found) {
  const Fresh fresh{now, pieces};
  for (std::string& item : fresh.waiting())
    if (std::find(found.waits.begin(), found.waits.end(), item) == found.waits.end())
      found.waits.push_back(std::move(item));
  for (Row& row : fresh.sticks()) found.more.push_back(std::move(row));
  if (const double more = fresh.sheets(was); more > 0) {
    found.more.push_back(*sheets_of(now));
    found.more.back().buy = more;
  }
}

}  // namespace fallwright::revision
