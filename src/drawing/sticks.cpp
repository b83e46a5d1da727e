#include <algorithm>

#include "drawing/views.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

constexpr double thick = 2.2;     ///< of a stick, in letter heights
constexpr double row_step = 1.5;  ///< between rows of saw marks, likewise

/// A stick with its pieces from left to right, each with its mark and, where there is room, its length; under it where
/// the saw cuts, read on a tape that is hooked on the trimmed end. @return how far down that reaches.
double add_stick(Pen& pen, const takeoff::StickGroup& group, const takeoff::StockPlan& plan, double y) {
  const takeoff::Stick& stick = group.stick;
  const double t = pen.text_mm(), top = y + thick * t;
  pen.rectangle({0, y}, {stick.length_mm, top}, LineKind::outline);
  double x = plan.trim_mm;
  bool high = false;
  for (const double end : {x, stick.length_mm - plan.trim_mm})
    if (plan.trim_mm > 0) pen.line({end, y}, {end, top}, LineKind::dimension);
  std::vector<double> reached;  // by the marks of each row
  for (const takeoff::StickPiece& piece : stick.pieces) {
    const std::string words = piece.mark + "  " + pen.words(piece.length_mm);
    const bool wide = piece.length_mm > width_of(words, t) + t;
    const bool narrow = piece.length_mm < width_of(piece.mark, t) + 0.5 * t;
    high = narrow && !high;  // marks of narrow pieces beside each other stand one higher than the next
    pen.note({x + piece.length_mm / 2, y + (!narrow ? 0.6
                                            : high  ? 1.2
                                                    : 0.2) *
                                               t},
             wide ? words : piece.mark, Anchor::middle, narrow ? 2.5 / 3 : 1);
    x += piece.length_mm;
    const bool sawn = x < stick.length_mm - plan.trim_mm - 0.01;
    if (sawn) {
      const std::string at = pen.words(x - plan.trim_mm);
      const double from = x - width_of(at, 2.5 / 3 * t);
      std::size_t row = 0;
      while (row < reached.size() && reached[row] > from - 0.6 * t) ++row;
      if (row == reached.size()) reached.push_back(0);
      reached[row] = x;
      const double foot = y - (1.5 + row_step * static_cast<double>(row)) * t;
      pen.line({x, y}, {x, top}, LineKind::outline);
      pen.line({x, y}, {x, foot + 1.1 * t}, LineKind::dimension);
      pen.note({x, foot}, at, Anchor::right, 2.5 / 3);
    }
    x += plan.kerf_mm;
    if (sawn && x < stick.length_mm) pen.line({x, y}, {x, top}, LineKind::dimension);
  }
  pen.note({stick.length_mm + t, y + 0.6 * t}, std::to_string(group.count) + " x " + pen.words(stick.length_mm) +
                                                   ", offcut " + pen.words(stick.offcut_mm) +
                                                   (stick.to_order ? ", to order" : ""));
  return y - (1.5 + row_step * static_cast<double>(std::max<std::size_t>(1, reached.size()) - 1)) * t;
}

std::string stock_title(const takeoff::StockPlan& plan, bool metric) {
  return plan.stock + "   " + std::to_string(plan.pieces) + (plan.pieces == 1 ? " piece" : " pieces") + "   " +
         takeoff::total_text(plan.bought_mm, metric) + " in all, " + takeoff::proof_text(plan, metric);
}

/// A kind of stick on a page, with its stock's title where that begins.
struct Entry {
  const takeoff::StockPlan* plan;
  takeoff::StickGroup group;
};

Sheet draw_page(const std::string& name, const std::vector<Entry>& entries, const Subject& subject) {
  const job::Job& job = subject.job();
  const bool metric = job.unit == job::UnitSystem::metric;
  return on_page(name, "Sticks and what is cut from them", job, [&](Sheet& sheet, Pen& pen) {
    const double t = pen.text_mm();
    double y = 0;
    const takeoff::StockPlan* last = nullptr;
    for (const Entry& entry : entries) {
      if (entry.plan != last) pen.note({0, y - 2.4 * t}, stock_title(*entry.plan, metric)), y -= 2.6 * t;
      last = entry.plan;
      const double length = entry.group.stick.length_mm, foot = y - (thick + 0.8) * t;
      y = add_stick(pen, entry.group, *entry.plan, foot) - 0.3 * t;
      sheet.dimensions.push_back({{0, foot}, {length, foot}, pen.words(length), length, 0});
    }
    sheet.notes = {
        "Each stick as often as it says, cut from left to right, a saw cut of " +
            takeoff::kerf_text(job.cuts.kerf.in_mm(), metric) + " between pieces, " +
            takeoff::kerf_text(job.cuts.trim.in_mm(), metric) +
            " off each end of a stick first. Numbers under a stick: where the saw cuts, right of the mark, on a "
            "tape hooked on the trimmed left end.",
        "The plan is made for the least length bought of the sticks on offer, then for the fewest sticks; no "
        "allowance for knots and splits."};
  });
}

}  // namespace

std::vector<Sheet> draw_sticks(const Subject& subject) {
  std::vector<Entry> all;
  for (const takeoff::StockPlan& plan : subject.plan)
    for (const takeoff::StickGroup& group : takeoff::alike(plan.sticks)) all.push_back({&plan, group});
  const std::size_t on_a_page = is_small(paper_of(subject.job())) ? 4 : 9;
  std::vector<Sheet> sheets;
  for (std::size_t from = 0; from < all.size() || sheets.empty(); from += on_a_page) {
    const std::string number = sheets.empty() ? "" : "-" + std::to_string(sheets.size() + 1);
    const auto begin = all.begin() + static_cast<std::ptrdiff_t>(from);
    const auto end = all.begin() + static_cast<std::ptrdiff_t>(std::min(all.size(), from + on_a_page));
    sheets.push_back(draw_page("sticks" + number, {begin, end}, subject));
  }
  return sheets;
}

}  // namespace fallwright::drawing
