#include <algorithm>

#include "diag/fault.hpp"
#include "drawing/boundary.hpp"
#include "drawing/clear.hpp"
#include "drawing/piece.hpp"
#include "drawing/sheets.hpp"
#include "drawing/warning.hpp"

namespace fallwright::drawing {
namespace {

/// A piece that waits has no line that a machine would follow: its outline and both diagonals are rejected ones, which
/// stop before the words, and VOID stands over these.
void condemn(Sheet& sheet, Pen& pen, double wide, double high) {
  const double letters = pen.text_mm(), size = std::min(4 * letters, high / 2 - 3.4 * letters);
  pen.note({letters, high / 2 + 2.7 * letters}, "VOID", Anchor::left, size / letters);
  const Outline ring = sheet.cuts.front();
  sheet.cuts.clear();
  std::vector<Line> strokes{{{0, 0}, {wide, high}, LineKind::rejected}, {{0, high}, {wide, 0}, LineKind::rejected}};
  for (const Text& text : sheet.texts) {
    std::vector<Line> left;
    for (const Line& stroke : strokes)
      for (const Line& rest : without_text(stroke, text, 0.2 * text.height)) left.push_back(rest);
    strokes = std::move(left);
  }
  for (std::size_t i = 0; i < ring.size(); ++i)
    strokes.push_back({ring[i], ring[(i + 1) % ring.size()], LineKind::rejected});
  for (const Line& stroke : strokes) pen.line(stroke.from, stroke.to, LineKind::rejected);
}

/// One closed line for the machine, its lower left corner at the origin; on it, apart from it, the mark and what a saw
/// must know that it does not tell: bevels. Thin lines are edges within the outline.
Sheet cut_file(const takeoff::CutRow& cut, const Piece& piece, const Subject& subject) {
  Sheet sheet{"piece-" + cut.mark, "Piece " + cut.mark, subject.job().is_metric()};
  Sheet seen;
  Pen{seen, 1}.add(piece.broad, {-piece.broad_frame.x0, -piece.broad_frame.y0});
  std::vector<Line> visible = seen.lines;
  std::erase_if(visible, [](const Line& line) { return line.kind != LineKind::outline; });
  sheet.cuts = {boundary_of(visible)};
  if (sheet.cuts.front().empty()) throw diag::ModelError{cut.part_ids.front(), "its outline does not close"};
  const std::string words = title_of(cut, subject, sheet.metric);
  const double wide = piece.broad_frame.width(), high = piece.broad_frame.height();
  if (cut.hold)
    if (const auto warning = pieces_warning(subject)) sheet.holds.push_back(warning->line);
  const double lines = sheet.holds.empty() ? 4 : 9;
  const double letters = std::min({10.0, high / lines, wide / (width_of(words, 1) + 2)});
  Pen pen{sheet, letters};
  for (const Line& line : visible)
    if (!runs_along(line, sheet.cuts.front())) pen.line(line.from, line.to, LineKind::dimension);
  pen.note({letters, (high - letters) / 2}, words);
  if (!cut.hold) add_grain(pen, subject, cut, {wide / 2, 0.2 * high});
  for (const std::string& hold : sheet.holds)  // it has no notes over which that would stand
    pen.note({letters, (high - letters) / 2 + 1.7 * letters}, hold, Anchor::left,
             std::min(1.0, (wide - 2 * letters) / width_of(hold, letters)));
  if (!sheet.holds.empty()) condemn(sheet, pen, wide, high);
  sheet.dimensions.push_back({{0, 0}, {cut.length_mm, 0}, pen.words(cut.length_mm), cut.length_mm, 0});
  return sheet;
}

}  // namespace

std::vector<Sheet> draw_pieces(const Subject& subject) {
  std::vector<Sheet> sheets;
  for (const takeoff::CutRow& cut : subject.cuts)
    if (!is_plain(cut)) sheets.push_back(cut_file(cut, look_at(subject, cut), subject));
  return sheets;
}

}  // namespace fallwright::drawing
