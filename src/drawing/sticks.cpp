#include <algorithm>

#include "drawing/views.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

constexpr double thick = 2.2;     ///< of a stick, in letter heights
constexpr double row_step = 1.5;  ///< between rows of saw marks, likewise

/// Where the saw cuts, from the trimmed end, under a stick. Numbers end at their cut; one that would lie over the last
/// cut's line goes a row further down, and where that takes many rows all stand upright.
class SawMarks {
 public:
  SawMarks(Pen& pen, double y) : pen_{pen}, t_{pen.text_mm()}, y_{y} {}

  void add(double x, const std::string& words) { marks_.push_back({x, words, 0}); }

  /// @return how far down that reaches.
  double draw() {
    const int most_level_rows = 2;
    const int rows = share_out([&](const Mark& m) { return width_of(m.words, height()) + 0.6 * t_; });
    const bool upright = rows > most_level_rows;
    const int upright_rows = upright ? share_out([&](const Mark&) { return 1.5 * height(); }) : rows;
    double longest = 0;
    for (const Mark& m : marks_) longest = std::max(longest, width_of(m.words, height()));
    const double step = upright ? longest + 0.6 * t_ : row_step * t_;
    for (const Mark& m : marks_) {
      const double top = y_ - (upright ? 0.7 : 0.4) * t_ - m.row * step;
      pen_.line({m.x, y_}, {m.x, top}, LineKind::dimension);
      if (upright)
        pen_.note({m.x + 0.4 * height(), top - 0.3 * t_}, m.words, Anchor::right, size, 90);
      else
        pen_.note({m.x, top - 1.1 * t_}, m.words, Anchor::right, size);
    }
    const double last = upright ? longest + 1.3 * t_ : 1.5 * t_;
    return y_ - last - std::max(0, upright_rows - 1) * step;
  }

 private:
  static constexpr double size = 2.5 / 3;
  struct Mark {
    double x;
    std::string words;
    int row;
  };
  double height() const { return size * t_; }

  /// Each below all that begin left of its own words' beginning. @return how many rows that takes.
  template <typename Width>
  int share_out(const Width& width) {
    int rows = 0;
    for (std::size_t i = 0; i < marks_.size(); ++i) {
      marks_[i].row = 0;
      for (std::size_t k = 0; k < i; ++k)
        if (marks_[k].x > marks_[i].x - width(marks_[i])) marks_[i].row = std::max(marks_[i].row, marks_[k].row + 1);
      rows = std::max(rows, marks_[i].row + 1);
    }
    return rows;
  }

  Pen& pen_;
  double t_, y_;
  std::vector<Mark> marks_;
};

/// A stick with its pieces from left to right, each with its mark and, where there is room, its length; under it where
/// the saw cuts, read on a tape that is hooked on the trimmed end. @return how far down that reaches.
double add_stick(Pen& pen, const takeoff::StickGroup& group, const takeoff::StockPlan& plan, double y) {
  const takeoff::Stick& stick = group.stick;
  const double t = pen.text_mm(), top = y + thick * t;
  pen.rectangle({0, y}, {stick.length_mm, top}, LineKind::outline);
  double x = plan.trim_mm;
  for (const double end : {x, stick.length_mm - plan.trim_mm})
    if (plan.trim_mm > 0) pen.line({end, y}, {end, top}, LineKind::dimension);
  SawMarks saw{pen, y};
  for (const takeoff::StickPiece& piece : stick.pieces) {
    const std::string words = piece.mark + "  " + pen.words(piece.length_mm);
    const double middle = x + piece.length_mm / 2;
    if (piece.length_mm > width_of(words, t) + t)
      pen.note({middle, y + 0.6 * t}, words, Anchor::middle);
    else if (piece.length_mm > width_of(piece.mark, t) + 0.5 * t)
      pen.note({middle, y + 0.6 * t}, piece.mark, Anchor::middle);
    else
      pen.name({middle, y + 0.6 * thick * t}, {middle, top + 0.5 * t}, piece.mark, Anchor::middle, 2.5 / 3);
    x += piece.length_mm;
    const bool sawn = x < stick.length_mm - plan.trim_mm - 0.01;
    if (sawn) {
      saw.add(x, pen.words(x - plan.trim_mm));
      pen.line({x, y}, {x, top}, LineKind::outline);
    }
    x += plan.kerf_mm;
    if (sawn && x < stick.length_mm) pen.line({x, y}, {x, top}, LineKind::dimension);
  }
  pen.note({stick.length_mm + t, y + 0.6 * t}, std::to_string(group.count) +
                                                   (group.count == 1 ? " stick of " : " sticks of ") +
                                                   pen.words(stick.length_mm) + ", offcut " +
                                                   pen.words(stick.offcut_mm) + (stick.to_order ? ", to order" : ""));
  return saw.draw();
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
