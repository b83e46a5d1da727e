#include <algorithm>

#include "drawing/assumed.hpp"
#include "drawing/order_words.hpp"
#include "drawing/piece.hpp"
#include "drawing/schedules.hpp"
#include "drawing/sheets.hpp"
#include "drawing/steps.hpp"
#include "drawing/table.hpp"
#include "drawing/wall.hpp"
#include "drawing/warning.hpp"
#include "takeoff/backing.hpp"
#include "takeoff/item.hpp"

namespace fallwright::drawing {
namespace {

const char* dust() {
  return "Cutting board and old framing makes dust: cut outside or with extraction, and wear a respirator that fits.";
}

std::string shims_note() {
  return "SHIMS are too thin to rip: set tapered pairs, or strips of card in layers, that thick, and staple "
         "them; the board's own screws go through them.";
}

/// Where one of them waits for studs that nobody read.
std::string by_assumed_studs_note(const Subject& subject) {
  const bool any = std::any_of(subject.cuts.begin(), subject.cuts.end(),
                               [](const takeoff::CutRow& cut) { return cut.by_assumed_studs; });
  return any ? assumed_studs_note(subject.job(), subject, subject.job().alcove.walls, true) : "";
}

/// Where a piece goes, and when if that is not at once.
std::string place_in(const Subject& subject, const takeoff::CutRow& cut) {
  return use_of(cut, subject, subject.job().is_metric()) + (cut.furring ? when_set(cut) : "");
}

/// What nobody cuts from sticks or sheets: boards between the bench's front studs, out of what is left over. A row for
/// each width; how high they are waits where the base does.
void add_backing(std::vector<Cells>& rows, const Subject& subject) {
  const job::Job& job = subject.job();
  const auto backing = takeoff::backing_at_bench(job, subject.facts);
  if (!backing) return;
  const auto bought = std::find_if(subject.rows.begin(), subject.rows.end(),
                                   [](const takeoff::Row& row) { return is(row, takeoff::Item::backing); });
  const bool held = bought != subject.rows.end() && bought->hold;
  const std::string high = !backing->top_mm ? " wide, as high as the " + std::string{backing->carries} + " goes"
                           : held           ? " x HOLD"
                                            : " x " + number_of(*backing->top_mm - backing->foot_mm, job.is_metric());
  for (const takeoff::BackingBoards& boards : takeoff::boards_of(job, *backing, subject.cuts))
    rows.push_back({boards.mark, std::to_string(boards.count), "offcuts of the wall board, or plywood as thick",
                    number_of(boards.width_mm, job.is_metric()) + high, "square",
                    "backing between the bench's front studs, flush with their front", "", held ? "HOLD" : ""});
}

/// All pieces, by stock and length.
std::vector<Sheet> draw_list(const Subject& subject) {
  const bool metric = subject.job().is_metric();
  const auto hold = pieces_warning(subject);
  std::vector<Cells> rows;
  for (const takeoff::CutRow& cut : subject.cuts) {
    const std::string fitted = takeoff::fitted_text(cut, metric);
    rows.push_back({cut.mark, std::to_string(cut.count), stock_of(cut), size_of(cut, metric), ends_of(cut, metric),
                    place_in(subject, cut) + (fitted.empty() ? "" : "; " + fitted), is_plain(cut) ? "" : "picture",
                    cut.hold ? "HOLD" : ""});
  }
  add_backing(rows, subject);
  const std::vector<Column> columns{{"mark", 0.7}, {"count", 0.8}, {"stock", 2.2}, {"length", 2.6},
                                    {"ends", 4},   {"where", 5},   {"", 1},        {"cut", 0.7, true}};
  const bool pictures =
      std::any_of(subject.cuts.begin(), subject.cuts.end(), [](const takeoff::CutRow& cut) { return !is_plain(cut); });
  std::vector<std::string> notes{
      std::string{"Lengths from long point to long point, as they are once a stick's ends are trimmed."} +
          (pictures ? " 'Picture': its shape is on the next sheets, and a DXF file of its own has it for machines."
                    : ""),
      dust()};
  if (std::any_of(subject.cuts.begin(), subject.cuts.end(), [](const takeoff::CutRow& cut) { return cut.is_shim(); }))
    notes.push_back(shims_note());
  if (const std::string flat = not_to_cut(subject); !flat.empty()) notes.push_back(flat);
  if (const std::string assumed = by_assumed_studs_note(subject); !assumed.empty()) notes.push_back(assumed);
  if (const std::string late = late_furring_note(subject); !late.empty()) notes.push_back(late);
  for (std::string& why : hold_notes(subject)) notes.push_back(std::move(why));
  if (apron_is_notched(subject))
    notes.push_back("The seat block's apron is notched on site: " + sheet_of_notches(subject.job()) + ".");
  if (!hold) return on_pages("cuts", "Pieces to cut", subject.job(), columns, rows, notes);
  notes.push_back(hold->why);
  return on_pages("cuts", "Pieces to cut", subject.job(), columns, rows, notes, {}, {hold->line});
}

void add_piece(Pen& pen, const takeoff::CutRow& cut, const Piece& piece, double y, const Subject& subject) {
  const job::Job& job = subject.job();
  const Frame& b = piece.broad_frame;
  const double t = pen.text_mm();
  pen.add(piece.broad, {-b.x0, y - b.y0});
  pen.add(piece.end, {cut.length_mm + 6 * t - piece.end_frame.x0, y - piece.end_frame.y0});
  if (!cut.hold) pen.across({0, y}, {cut.length_mm, y}, y - 3 * t);
  if (!cut.hold && cut.sheet) pen.upright({0, y}, {0, y + cut.width_mm}, -3 * t);
  pen.note({0, y + b.height() + 1.2 * t}, title_of(cut, subject, job.is_metric()));
  if (cut.hold)  // VOID past its section, where it hides none of the piece
    pen.strike({0, y}, {b.width(), y + b.height()},
               {cut.length_mm + 12 * t + piece.end_frame.width(), y + (b.height() - 2 * t) / 2});
  add_grain(pen, subject, cut, {cut.length_mm / 2, y + b.height() / 2});
}

/// What its numbers alone do not tell.
std::vector<Sheet> draw_shapes(const Subject& subject) {
  std::vector<std::pair<const takeoff::CutRow*, Piece>> pieces;
  for (const takeoff::CutRow& cut : subject.cuts)
    if (!is_plain(cut)) pieces.emplace_back(&cut, look_at(subject, cut));
  std::vector<Sheet> sheets;
  constexpr std::size_t on_a_page = 5;
  for (std::size_t from = 0; from < pieces.size(); from += on_a_page) {
    const std::size_t to = std::min(pieces.size(), from + on_a_page);
    const bool held = std::any_of(pieces.begin() + static_cast<std::ptrdiff_t>(from),
                                  pieces.begin() + static_cast<std::ptrdiff_t>(to),
                                  [](const auto& p) { return p.first->hold.has_value(); });
    const bool panels =
        std::all_of(pieces.begin() + static_cast<std::ptrdiff_t>(from),
                    pieces.begin() + static_cast<std::ptrdiff_t>(to), [](const auto& p) { return p.first->sheet; });
    const std::string title = panels ? "Panels, with the way of their grain" : "Pieces that are not plain";
    const std::string number = from == 0 ? "" : "-" + std::to_string(from / on_a_page + 1);
    sheets.push_back(on_page("cuts-shapes" + number, title, subject.job(), [&](Sheet& sheet, Pen& pen) {
      double y = 0;
      for (std::size_t i = from; i < to; ++i) {
        y -= pieces[i].second.broad_frame.height() + 8 * pen.text_mm();
        add_piece(pen, *pieces[i].first, pieces[i].second, y, subject);
      }
      sheet.notes = {"Section at the right of each piece, seen from its first end."};
      if (held) warn(sheet, pieces_warning(subject));
    }));
  }
  return sheets;
}

/// A strip from its side, far thicker than it is long by, with the letters of the table's columns.
void add_wedge(Pen& pen, Point top_left, double width, bool on_blocks) {
  const double t = pen.text_mm(), long_mm = width - 4 * t, thick = 8 * t, thin = 3 * t;
  const Point a{top_left.x + 2 * t, top_left.y - 6 * t - thick};
  const Point corner[] = {a, {a.x + long_mm, a.y}, {a.x + long_mm, a.y + thin}, {a.x, a.y + thick}};
  for (int i = 0; i < 4; ++i) pen.line(corner[i], corner[(i + 1) % 4], LineKind::outline);
  pen.note({a.x, top_left.y - 2 * t}, "A strip's side, NOT TO SCALE");
  pen.note({a.x + 0.6 * t, a.y + thick / 2 - t / 2}, "thick end");
  pen.note({a.x + long_mm - 0.6 * t, a.y + 0.4 * t}, "thin end", Anchor::right);
  pen.note({a.x + long_mm / 2, a.y + 0.4 * t}, "length", Anchor::middle);
  double y = a.y - 0.4 * t;
  for (const std::string& line :
       wrapped(std::string{"This face against the stud"} + (on_blocks ? " or the block" : "") +
                   "; the sloped one is planed straight from end to end.",
               long_mm, t))
    pen.note({a.x, y -= 1.6 * t}, line);
}

std::string thick_end(takeoff::StripEnd thin_at) {
  using takeoff::StripEnd;
  switch (thin_at) {
    case StripEnd::foot:
      return "top";
    case StripEnd::head:
      return "foot";
    case StripEnd::left:
      return "right end";
    case StripEnd::right:
      return "left end";
    case StripEnd::back:
      return "front end";
    case StripEnd::front:
      return "back end";
  }
  return "";
}

/// Of a strip that is shorter than its stud, over the datum; of several that differ, from the lowest to the highest.
std::string where_it_ends(const Subject& subject, const takeoff::CutRow& cut) {
  if (cut.on_block) return "";
  std::vector<double> feet, heads;
  for (const std::string& id : cut.part_ids) {
    const Line line = line_of_strip(subject, cut, *subject.model.find(id), view_from(gp_Dir{0, -1, 0}));
    feet.push_back(line.from.y), heads.push_back(line.to.y);
  }
  const auto at = [&](const std::vector<double>& heights) {
    const auto [low, high] = std::minmax_element(heights.begin(), heights.end());
    const bool metric = subject.job().is_metric();
    const std::string lowest = number_of(*low, metric), highest = number_of(*high, metric);
    return cut.hold ? "HOLD" : lowest == highest ? lowest : lowest + " to " + highest;
  };
  const facts::Strip& on = strip_before(subject, cut, *subject.model.find(cut.part_ids.front()));
  using facts::Turn;
  return (on.from <= 0 ? ""
                       : ", begins at " + at(feet) +
                             (on.turn == Turn::seat ? ", on the seat block"
                              : on.parted           ? ", over the base's edge"
                                                    : ", above the stud's foot")) +
         (on.to >= 1 ? ""
                     : ", ends at " + at(heads) +
                           (on.below_seat                        ? ", below the seat block"
                            : on.parted && on.turn == Turn::base ? ", as high as the base stands"
                                                                 : ", below the stud's top"));
}

/// Strips whose two ends are not as thick: a list alone does not show which end is which.
std::vector<Sheet> draw_tapers(const Subject& subject) {
  const bool metric = subject.job().is_metric();
  bool held = false, shims = false, ripped = false, on_blocks = false, short_of = false, ends_early = false;
  std::vector<Cells> rows;
  for (const takeoff::CutRow& cut : subject.cuts) {
    if (!cut.furring) continue;
    if (!cut.taper) continue;
    const auto told = [&](double mm) {
      return cut.hold ? "HOLD" : mm > 0 ? number_of(mm, metric) : std::string{"nothing"};
    };
    const std::string ends = where_it_ends(subject, cut);
    rows.push_back({cut.mark, std::to_string(cut.count), cut.is_shim() ? "shims" : "furring", told(cut.length_mm),
                    told(cut.thickness_mm), told(cut.taper->thin_mm), thick_end(cut.taper->thin_at) + ends,
                    place_in(subject, cut)});
    held = held || cut.hold, shims = shims || cut.is_shim(), ripped = ripped || !cut.is_shim();
    on_blocks = on_blocks || cut.on_block, short_of = short_of || !ends.empty();
    ends_early = ends_early || ends.find("the stud's") != std::string::npos;
    rows.back().push_back(cut.hold ? "HOLD" : "");
  }
  if (rows.empty()) return {};
  std::vector<Column> columns{{"mark", 0.8},
                              {"count", 0.9},
                              {"stock", 1.2},
                              {"length", 1.2},
                              {"thick end", 1.3},
                              {"thin end", 1.3},
                              {"thick end at the", 2.6},
                              {"where", 4}};
  if (held) columns.push_back({"cut", 0.9, true});
  for (Cells& row : rows) row.resize(columns.size());
  std::vector<std::string> notes{
      (ripped ? "No strip is sold so thin: " + takeoff::ripped_from(subject.job()) + ", then plane. " : std::string{}) +
      (shims ? shims_note() + " " : "") + (short_of ? "'At': above the datum. " : "") +
      (ends_early ? "Where the thin end is nothing before the stud ends, the stud itself stands before the line from "
                    "there on" +
                        std::string{any_stud_in_the_way(subject)
                                        ? ": 'in' on the sheets of the walls as high as that is in a way, and left so "
                                          "above."
                                        : ", higher than that is in a way, and is left so."}
                  : "")};
  if (const std::string assumed = by_assumed_studs_note(subject); !assumed.empty()) notes.push_back(assumed);
  return on_pages("cuts-tapers", "Strips of furring that taper", subject.job(), columns, rows, notes,
                  {0.7, [&](Pen& pen, Point top_left, double width) { add_wedge(pen, top_left, width, on_blocks); }});
}

}  // namespace

std::vector<Sheet> draw_cuts(const Subject& subject) {
  std::vector<Sheet> sheets = draw_list(subject);
  for (Sheet& sheet : draw_shapes(subject)) sheets.push_back(std::move(sheet));
  for (Sheet& sheet : draw_tapers(subject)) sheets.push_back(std::move(sheet));
  return sheets;
}

}  // namespace fallwright::drawing
