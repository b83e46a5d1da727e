#include <algorithm>

#include "drawing/sheets.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"
#include "units/length.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

constexpr double thick = 2.2;     ///< of a stick, in letter heights
constexpr double row_step = 1.5;  ///< between rows of saw marks, likewise

/// Where the saw cuts, from the trimmed end, under a stick. Numbers end at their cut, in rows so that none lies over
/// another or over a cut's line; where that takes many rows all stand upright.
class SawMarks {
 public:
  SawMarks(Pen& pen, double y) : pen_{pen}, t_{pen.text_mm()}, y_{y} {}

  void add(double x, const std::string& words) { marks_.push_back({x, words, 0}); }

  /// @return how far down that reaches.
  double draw() {
    constexpr int most_level_rows = 2;
    int rows = share_out([&](const Mark& m) { return width_of(m.words, height()) + 0.6 * t_; }, 0);
    const bool upright = rows > most_level_rows;
    if (upright) rows = share_out([&](const Mark&) { return 0.7 * height(); }, 0.5 * height());
    double longest = 0;
    for (const Mark& m : marks_) longest = std::max(longest, width_of(m.words, height()));
    const double step = upright ? longest + 0.6 * t_ : row_step * t_;
    for (const Mark& m : marks_) {
      const double foot = y_ - 0.4 * t_ - m.row * step;
      pen_.line({m.x, y_}, {m.x, foot}, LineKind::dimension);
      if (upright)
        pen_.note({m.x + 0.4 * height(), foot - 0.3 * t_}, m.words, Anchor::right, size, 90);
      else
        pen_.note({m.x, foot - 1.1 * t_}, m.words, Anchor::right, size);
    }
    return y_ - (upright ? longest + 0.7 * t_ : 1.5 * t_) - std::max(0, rows - 1) * step;
  }

 private:
  static constexpr double size = 2.5 / 3;
  struct Mark {
    double x;
    std::string words;
    int row;
  };
  double height() const { return size * t_; }

  /// A row for each, whose words reach so far before and behind its cut. @return how many rows that takes.
  template <typename Before>
  int share_out(const Before& before, double behind) {
    constexpr int most = 8;
    int rows = 0;
    for (std::size_t j = 0; j < marks_.size(); ++j) {
      const auto in_the_way = [&](const Mark& k) {
        const Mark& m = marks_[j];
        const bool words_meet =
            k.row == m.row && m.x - before(m)<k.x + behind, its_line_under_ours = k.row> m.row && k.x > m.x - before(m),
                   our_line_under_its = k.row < m.row && m.x < k.x + behind;
        return words_meet || its_line_under_ours || our_line_under_its;
      };
      const auto last = marks_.begin() + static_cast<std::ptrdiff_t>(j);
      marks_[j].row = 0;
      while (marks_[j].row < most && std::any_of(marks_.begin(), last, in_the_way)) ++marks_[j].row;
      rows = std::max(rows, marks_[j].row + 1);
    }
    return rows;
  }

  Pen& pen_;
  double t_, y_;
  std::vector<Mark> marks_;
};

/// A stick that is used up forgives no bad end, split or saw's error: a note says so, and a bare nought would read like
/// a slip. Few words, as they stand past the longest stick.
constexpr const char* used_up = "nothing left over";
std::string offcut_words(const Pen& pen, double offcut_mm) {
  const std::string words = pen.words(offcut_mm);
  return words == pen.words(0) ? used_up : "offcut " + words;
}

bool is_held(const takeoff::StickPiece& piece, const Subject& subject) {
  return std::any_of(subject.cuts.begin(), subject.cuts.end(),
                     [&](const takeoff::CutRow& cut) { return cut.mark == piece.mark && cut.hold; });
}

/// What is read on a piece at the saw: that it waits, too.
std::string mark_on(const takeoff::StickPiece& piece, const Subject& subject) {
  return piece.mark + (is_held(piece, subject) ? " HOLD" : "");
}

/// Too short for its mark, which then stands over it.
bool is_named_above(const Pen& pen, const takeoff::StickPiece& piece, const Subject& subject) {
  return piece.length_mm <= width_of(mark_on(piece, subject), pen.text_mm()) + 0.5 * pen.text_mm();
}

/// On small paper what is told of a stick stands over it: past its end it would cost the longest a step of scale.
bool stands_over(const Subject& subject) {
  return is_small(paper_of(subject.job()));
}

/// A stick with its pieces from left to right, each with its mark and, where there is room, its length; under it where
/// the saw cuts, read on a tape that is hooked on the trimmed end. What waits is not cut, and has no length.
/// @return how far down that reaches.
double add_stick(Pen& pen, const takeoff::StickGroup& group, const takeoff::StockPlan& plan, double y,
                 const Subject& subject) {
  const takeoff::Stick& stick = group.stick;
  const double t = pen.text_mm(), top = y + thick * t;
  const bool over = stands_over(subject);
  pen.rectangle({0, y}, {stick.length_mm, top}, LineKind::outline);
  double x = plan.trim_mm;
  for (const double end : {x, stick.length_mm - plan.trim_mm})
    if (plan.trim_mm > 0) pen.line({end, y}, {end, top}, LineKind::dimension);
  SawMarks saw{pen, y};
  for (const takeoff::StickPiece& piece : stick.pieces) {
    const std::string mark = mark_on(piece, subject), words = mark + "  " + pen.words(piece.length_mm);
    const double middle = x + piece.length_mm / 2;
    const bool with_length = !is_held(piece, subject) && piece.length_mm > width_of(words, t) + t;
    if (is_named_above(pen, piece, subject))
      pen.name({middle, y + 0.6 * thick * t}, {middle, top + 0.5 * t}, mark, Anchor::middle, 2.5 / 3);
    else
      pen.note({middle, y + 0.6 * t}, with_length ? words : mark, Anchor::middle);
    x += piece.length_mm;
    const bool sawn = x < stick.length_mm - plan.trim_mm - 0.01;
    if (sawn) {
      if (!is_held(piece, subject)) saw.add(x, pen.words(x - plan.trim_mm));
      pen.line({x, y}, {x, top}, LineKind::outline);
    }
    x += plan.kerf_mm;
    if (sawn && x < stick.length_mm) pen.line({x, y}, {x, top}, LineKind::dimension);
  }
  // What is left tells how long they are.
  const bool waits = std::any_of(stick.pieces.begin(), stick.pieces.end(),
                                 [&](const takeoff::StickPiece& piece) { return is_held(piece, subject); });
  pen.note(over ? Point{0, top + 0.5 * t} : Point{stick.length_mm + t, y + 0.6 * t},
           std::to_string(group.count) + (group.count == 1 ? " stick of " : " sticks of ") +
               pen.words(stick.length_mm) + (waits ? "" : ", " + offcut_words(pen, stick.offcut_mm)) +
               (stick.to_order ? ", to order" : ""));
  return saw.draw();
}

constexpr double lane_step = 1.7;  ///< of a board that strips are ripped from, in letter heights for each of its lanes

int lanes_of(const takeoff::Stick& stick) {
  return stick.pieces.empty() ? 1 : stick.pieces.back().lane + 1;
}

double height_of(const takeoff::StockPlan& plan, const takeoff::Stick& stick, double t) {
  return (plan.is_ripped() ? std::max(thick, lane_step * lanes_of(stick)) : thick) * t;
}

/// A board with its strips, lane over lane as they are ripped, none to scale across; each with its mark, its length and
/// how thick it is, and past the first of a lane where the saw cuts; of those too short for that, under it.
/// @return how far down that reaches.
double add_board(Pen& pen, const takeoff::StickGroup& group, const takeoff::StockPlan& plan, double y,
                 const Subject& subject) {
  const takeoff::Stick& board = group.stick;
  const double t = pen.text_mm(), top = y + height_of(plan, board, t), step = (top - y) / lanes_of(board);
  const bool over = stands_over(subject);
  pen.rectangle({0, y}, {board.length_mm, top}, LineKind::outline);
  double x = 0;
  int lane = -1;
  std::vector<std::string> under;
  for (const takeoff::StickPiece& strip : board.pieces) {
    const bool first = strip.lane != lane;
    if (first) x = plan.trim_mm;
    lane = strip.lane;
    const double head = top - step * lane, foot = head - step, end = x + strip.length_mm;
    if (foot > y) pen.line({0, foot}, {board.length_mm, foot}, LineKind::outline);
    const std::string mark = mark_on(strip, subject), words = mark + "  " + pen.words(strip.length_mm) + " x " +
                                                              pen.words(strip.ripped_mm) +
                                                              (first ? "" : " to " + pen.words(end - plan.trim_mm));
    const bool in_full = !is_held(strip, subject) && strip.length_mm > width_of(words, t) + t;
    pen.note({x + strip.length_mm / 2, foot + 0.5 * (step - t)}, in_full ? words : mark, Anchor::middle);
    if (!in_full && !is_held(strip, subject) && std::find(under.begin(), under.end(), words) == under.end())
      under.push_back(words);
    if (end < board.length_mm) pen.line({end, foot}, {end, head}, LineKind::outline);
    x = end + plan.kerf_mm;
  }
  pen.note(over ? Point{0, top + 0.5 * t} : Point{board.length_mm + t, y + 0.5 * (top - y - t)},
           std::to_string(group.count) + (group.count == 1 ? " board of " : " boards of ") +
               pen.words(board.length_mm) + (board.to_order ? ", to order" : "") + ", to rip");
  if (under.empty()) return y;
  pen.note({0, y - 1.4 * t}, units::joined(under), Anchor::left, 2.5 / 3);
  return y - 1.6 * t;
}

std::string stock_title(const takeoff::StockPlan& plan, bool metric) {
  return plan.stock + "   " + std::to_string(plan.pieces) + (plan.pieces == 1 ? " piece" : " pieces") + "   " +
         takeoff::total_text(plan.bought_mm, metric) + " in all, " + takeoff::proof_text(plan, metric) +
         (plan.is_ripped() && plan.hold ? "   HOLD" : "");
}

/// A kind of stick on a page, with its stock's title where that begins.
struct Entry {
  const takeoff::StockPlan* plan;
  takeoff::StickGroup group;
};

bool has_held_piece(const std::vector<Entry>& entries, const Subject& subject) {
  const auto waits = [&](const takeoff::StickPiece& piece) { return is_held(piece, subject); };
  return std::any_of(entries.begin(), entries.end(), [&](const Entry& entry) {
    const auto& pieces = entry.group.stick.pieces;
    return std::any_of(pieces.begin(), pieces.end(), waits);
  });
}

/// Furring on HOLD: how thick it is, and how long, is not told, and no board is chosen by it.
bool is_unplanned(const takeoff::StockPlan& plan) {
  return plan.hold && (plan.is_ripped() || plan.of_strips);
}

/// "N, P, Q": in the cut list's order, what no board is chosen for in any case as well.
std::string unplanned_marks(const Subject& subject) {
  std::vector<std::string> marks;
  for (const takeoff::CutRow& cut : subject.cuts)
    if (cut.hold && cut.furring) marks.push_back(cut.mark);
  return units::joined(marks);
}

/// Whether a strip is cut from its lane after another one: it has its saw mark beside its length.
bool has_strip_cut_after(const Entry& entry, const Subject& subject) {
  const auto& strips = entry.group.stick.pieces;
  const auto after = [&](const takeoff::StickPiece& a, const takeoff::StickPiece& b) {
    return a.lane == b.lane && !is_held(b, subject);
  };
  return entry.plan->is_ripped() && std::adjacent_find(strips.begin(), strips.end(), after) != strips.end();
}

/// `before`: the stock that the page before ended with, which this one may go on with.
Sheet draw_page(const std::string& name, const std::vector<Entry>& entries, const takeoff::StockPlan* before,
                const Subject& subject) {
  const job::Job& job = subject.job();
  const bool metric = job.is_metric();
  return on_page(name, "Sticks and what is cut from them", job, [&](Sheet& sheet, Pen& pen) {
    const double t = pen.text_mm();
    double y = 0;
    const takeoff::StockPlan* last = nullptr;
    for (const Entry& entry : entries) {
      if (entry.plan != last) {
        pen.note({0, y - 2.4 * t},
                 entry.plan == before ? entry.plan->stock + ", continued" : stock_title(*entry.plan, metric));
        y -= 2.6 * t;
      }
      last = entry.plan;
      const auto& pieces = entry.group.stick.pieces;
      const bool named_above = !entry.plan->is_ripped() &&
                               std::any_of(pieces.begin(), pieces.end(),
                                           [&](const auto& piece) { return is_named_above(pen, piece, subject); });
      const double length = entry.group.stick.length_mm,
                   air = (named_above ? 2.2 : 0.8) + (stands_over(subject) ? 1.2 : 0),
                   foot = y - height_of(*entry.plan, entry.group.stick, t) - air * t;
      if (entry.plan->is_ripped())
        y = add_board(pen, entry.group, *entry.plan, foot, subject) - 0.7 * t;
      else
        y = add_stick(pen, entry.group, *entry.plan, foot, subject) - 0.3 * t;
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
    if (std::any_of(entries.begin(), entries.end(), [&](const Entry& entry) {
          return !entry.plan->is_ripped() && offcut_words(pen, entry.group.stick.offcut_mm) == used_up;
        }))
      sheet.notes.emplace_back("Nothing left over: see that such a stick is full length, without splits.");
    if (std::any_of(entries.begin(), entries.end(), [](const Entry& entry) { return entry.plan->is_ripped(); }))
      sheet.notes.push_back("Furring is not sold so thin: its boards are ripped side by side, a saw cut of " +
                            takeoff::kerf_text(job.cuts.kerf.in_mm(), metric) +
                            " beside each strip, then cut to length; each strip with its length and thickness" +
                            (std::any_of(entries.begin(), entries.end(),
                                         [&](const Entry& entry) { return has_strip_cut_after(entry, subject); })
                                 ? ", 'to' where the saw cuts on the same tape."
                                 : "."));
    if (const std::string marks = unplanned_marks(subject); !marks.empty())
      sheet.notes.push_back("Furring on HOLD, on no board yet: " + marks + ".");
    if (!has_held_piece(entries, subject)) return;
    sheet.notes.emplace_back("HOLD, last on its stick and without a saw mark: cut when settled.");
    warn(sheet, pieces_warning(subject));
  });
}

}  // namespace

std::vector<Sheet> draw_sticks(const Subject& subject) {
  std::vector<Entry> all;
  for (const takeoff::StockPlan& plan : subject.plan) {
    if (is_unplanned(plan)) continue;
    for (const takeoff::StickGroup& group : takeoff::alike(plan.sticks)) all.push_back({&plan, group});
  }
  if (all.empty()) return {};  // the cut list says what waits
  const auto page_of = [&](const std::string& name, std::size_t from, std::size_t count) {
    const auto begin = all.begin() + static_cast<std::ptrdiff_t>(from);
    return draw_page(name, {begin, begin + static_cast<std::ptrdiff_t>(count)}, from > 0 ? all[from - 1].plan : nullptr,
                     subject);
  };
  // All at the scale at which the longest is drawn alone, so many as fit.
  double scale = 0;
  for (std::size_t i = 0; i < all.size(); ++i) scale = std::max(scale, page_of("sticks", i, 1).page.scale);
  const auto filled = [&](std::size_t most) {
    std::vector<Sheet> sheets;
    for (std::size_t from = 0; from < all.size() || sheets.empty();) {
      const std::string name = sheets.empty() ? "sticks" : "sticks-" + std::to_string(sheets.size() + 1);
      std::size_t count = std::min(all.size() - from, most);
      Sheet page = page_of(name, from, count);
      while (count > 1 && page.page.scale > scale) page = page_of(name, from, --count);
      sheets.push_back(std::move(page));
      from += std::max<std::size_t>(1, count);
    }
    return sheets;
  };
  constexpr std::size_t most = 20;
  std::vector<Sheet> sheets = filled(most);
  if (sheets.size() < 2) return sheets;
  // As many on each page as on the others, where that takes no page more: two alone would be overlooked.
  std::vector<Sheet> even = filled((all.size() + sheets.size() - 1) / sheets.size());
  return even.size() > sheets.size() ? sheets : even;
}

}  // namespace fallwright::drawing
