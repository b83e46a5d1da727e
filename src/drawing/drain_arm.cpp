#include "drawing/drain.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <numeric>

#include "drawing/table.hpp"
#include "drawing/warning.hpp"

namespace fallwright::drawing {

std::vector<std::string> pipe_notes(const Subject& s) {
  std::vector<std::string> notes;
  for (std::string line : s.judgement.pipe.lines) {
    line.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(line.front())));
    notes.push_back(line + ".");
  }
  return notes;
}

void add_pipe(Pen& pen, const Subject& s, Point at) {
  const rules::PipeTable& pipe = s.judgement.pipe;
  if (pipe.rows.empty()) return;
  constexpr double size = 2.5 / 3;
  const double t = pen.text_mm();
  std::array<double, std::tuple_size_v<rules::PipeCells>> widths{};
  const auto measure = [&](const auto& cells) {
    for (std::size_t i = 0; i < widths.size(); ++i)
      widths[i] = std::max(widths[i], width_of(cells[i], size * t) + 1.4 * t);
  };
  measure(pipe.head);
  for (const auto& cells : pipe.rows) measure(cells);
  const auto row = [&](const auto& cells) {
    double x = at.x;
    for (std::size_t i = 0; i < widths.size(); ++i) pen.note({x, at.y}, cells[i], Anchor::left, size), x += widths[i];
    at.y -= 1.5 * t;
  };
  row(pipe.head);
  pen.line({at.x, at.y + 1.1 * t}, {at.x + std::accumulate(widths.begin(), widths.end(), 0.0), at.y + 1.1 * t},
           LineKind::dimension);
  for (const auto& cells : pipe.rows) row(cells);
}

std::vector<Sheet> draw_pipe(const Subject& s, bool heeded) {
  const rules::PipeTable& pipe = s.judgement.pipe;
  std::vector<Column> columns;
  for (const std::string& head : pipe.head) columns.push_back({head, 1});
  std::vector<Cells> rows;
  for (const auto& cells : pipe.rows) rows.emplace_back(cells.begin(), cells.end());
  if (rows.empty() || bore_is_void(s)) return {};
  const std::string counted =
      pipe.notched ? "Depths from the joist's edge" : "Heights from the datum, to the arm's middle";
  std::vector<std::string> notes{counted + (heeded ? "." : "; what is to be heeded stands on {drain}.")};
  if (heeded)
    for (std::string& note : pipe_notes(s)) notes.push_back(std::move(note));
  const auto warning = arm_warning(s);
  if (warning) notes.insert(notes.begin(), warning->why);
  return on_pages("drain-arm", std::string{"Trap arm: "} + (pipe.notched ? "notches" : "holes") + " in the joists",
                  s.job(), columns, rows, notes, {}, warning ? std::vector{warning->line} : std::vector<std::string>{});
}

}  // namespace fallwright::drawing
