#include "revision/pieces.hpp"

#include <algorithm>
#include <cmath>

#include "units/length.hpp"

namespace fallwright::revision {
namespace {

using takeoff::CutRow;

constexpr double same_mm = 0.05;   ///< half a tenth: lengths stand on marks of the tape
constexpr double strip_mm = 6.35;  ///< 1/4 in: how much shorter or longer furring may end; common practice, no source

bool same(double a, double b, double within = same_mm) {
  return std::abs(a - b) < within;
}

/// A plate that lies as an unlevel floor does is taller than its stock; what is cut is the stock it is named by.
/// Furring is named by its thickness, in the words of its list's tape.
bool same_stock(const CutRow& a, const CutRow& b, double rounded_mm) {
  if (a.furring && b.furring) return same(a.thickness_mm, b.thickness_mm, rounded_mm);
  const bool fitted = a.fitted_mm > 0 || b.fitted_mm > 0;
  return a.stock == b.stock && a.sheet == b.sheet && (fitted || same(a.thickness_mm, b.thickness_mm));
}

bool same_ends(const CutRow& a, const CutRow& b, double rounded_mm) {
  if (a.ends == b.ends) return true;
  return a.taper && b.taper && a.taper->thin_at == b.taper->thin_at && a.taper->cut_short == b.taper->cut_short &&
         same(a.taper->thin_mm, b.taper->thin_mm, rounded_mm);
}

std::string size_of(const CutRow& row, bool metric) {
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  return row.stock + ", " + text(row.length_mm) + (row.sheet ? " x " + text(row.width_mm) : "") +
         (row.is_square() ? "" : ", " + row.ends);
}

/// A piece that is there and serves nowhere as it is: what of its length is square and not yet given away.
struct Spare {
  const CutRow* row;
  double left_mm;
  bool touched = false;
};

bool holds(const Spare& spare, const CutRow& wanted, double rounded_mm) {
  if (!same_stock(*spare.row, wanted, rounded_mm) || spare.row->taper || wanted.taper) return false;
  if (wanted.sheet)
    return !spare.touched && spare.left_mm > wanted.length_mm - same_mm &&
           spare.row->width_mm > wanted.width_mm - same_mm;
  return same(spare.row->width_mm, wanted.width_mm) && spare.left_mm > wanted.length_mm - same_mm;
}

class Matching {
 public:
  Matching(const std::vector<CutRow>& was, const std::vector<CutRow>& now, double kerf_mm, Tapes tapes)
      : was_{was},
        now_{now},
        kerf_mm_{kerf_mm},
        metric_{tapes.now_metric},
        rounded_mm_{tapes.differ() ? one_length_mm() : same_mm} {}

  Pieces done() {
    for (const CutRow& row : was_) free_.push_back(row.count);
    for (const CutRow& row : now_) wanted_.push_back(row.count);
    as_they_are();
    recut();
    for (std::size_t i = 0; i < now_.size(); ++i) add(Use::fresh, wanted_[i], now_[i], "");
    std::stable_sort(found_.uses.begin(), found_.uses.end(),
                     [&](const PieceUse& a, const PieceUse& b) { return place(a.mark) < place(b.mark); });
    return std::move(found_);
  }

 private:
  void add(Use use, int count, const CutRow& row, const std::string& from) {
    if (count == 0) return;
    for (PieceUse& known : found_.uses)
      if (known.use == use && known.mark == row.mark && known.from == from) {
        known.count += count;
        return;
      }
    found_.uses.push_back({use, count, row.mark, from, size_of(row, metric_), row.hold});
  }

  bool serves(const CutRow& was, const CutRow& now) const {
    const double length = now.furring ? strip_mm : rounded_mm_, width = is_sawn(now) ? rounded_mm_ : same_mm;
    return same_stock(was, now, rounded_mm_) && same_ends(was, now, rounded_mm_) &&
           same(was.length_mm, now.length_mm, length) && same(was.short_mm, now.short_mm, length) &&
           same(was.width_mm, now.width_mm, width);
  }
  /// To its width too.
  static bool is_sawn(const CutRow& row) { return row.sheet || row.furring; }

  std::ptrdiff_t place(const std::string& mark) const {
    return std::find_if(now_.begin(), now_.end(), [&](const CutRow& row) { return row.mark == mark; }) - now_.begin();
  }

  /// What waits in both lists first, so that no piece that is there goes to one that waits while another wants it.
  void as_they_are() {
    as_they_are([](const CutRow& was, const CutRow& now) { return was.hold.has_value() == now.hold.has_value(); });
    as_they_are([](const CutRow& was, const CutRow&) { return !was.hold; });
  }
  template <typename May>
  void as_they_are(May may) {
    for (std::size_t i = 0; i < now_.size(); ++i)
      for (std::size_t k = 0; k < was_.size(); ++k) {
        if (!may(was_[k], now_[i]) || !serves(was_[k], now_[i])) continue;
        const int count = std::min(free_[k], wanted_[i]);
        const bool as_fitted = takeoff::fitted_text(was_[k], metric_) == takeoff::fitted_text(now_[i], metric_);
        add(as_fitted ? Use::serves : Use::fit, count, now_[i], was_[k].mark);
        free_[k] -= count;
        wanted_[i] -= count;
      }
  }

  void recut() {
    std::vector<Spare> spares;
    for (std::size_t k = 0; k < was_.size(); ++k)
      for (int n = 0; n < free_[k] && !was_[k].hold; ++n) spares.push_back({&was_[k], was_[k].short_mm});
    std::vector<std::size_t> order(now_.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return now_[a].length_mm > now_[b].length_mm; });
    for (const std::size_t i : order)
      for (; wanted_[i] > 0; --wanted_[i]) {
        Spare* best = nullptr;
        for (Spare& spare : spares)
          if (holds(spare, now_[i], rounded_mm_) && (!best || spare.left_mm < best->left_mm - same_mm)) best = &spare;
        if (!best) break;
        best->touched = true;
        best->left_mm -= now_[i].length_mm + kerf_mm_;
        add(Use::recut, 1, now_[i], best->row->mark);
      }
    for (const Spare& spare : spares) {
      if (spare.touched) continue;
      if (!found_.left.empty() && found_.left.back().mark == spare.row->mark)
        ++found_.left.back().count;
      else
        found_.left.push_back({1, spare.row->mark, size_of(*spare.row, metric_)});
    }
  }

  const std::vector<CutRow>&was_, &now_;
  double kerf_mm_;
  bool metric_;
  double rounded_mm_;  ///< lengths nearer than this are one
  std::vector<int> free_, wanted_;
  Pieces found_;
};

}  // namespace

const char* name_of(Use use) {
  switch (use) {
    case Use::serves:
      return "serves";
    case Use::fit:
      return "fit anew";
    case Use::recut:
      return "recut";
    case Use::fresh:
      break;
  }
  return "new";
}

double one_length_mm() {
  return std::max(units::tape_mark_mm(false), units::tape_mark_mm(true));
}

int Pieces::count(Use use) const {
  int all = 0;
  for (const PieceUse& piece : uses) all += piece.use == use ? piece.count : 0;
  return all;
}

Pieces pieces_of(const std::vector<CutRow>& was, const std::vector<CutRow>& now, double kerf_mm, Tapes tapes) {
  return Matching{was, now, kerf_mm, tapes}.done();
}

}  // namespace fallwright::revision
