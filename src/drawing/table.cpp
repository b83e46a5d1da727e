#include "drawing/table.hpp"

#include <algorithm>
#include <array>

namespace fallwright::drawing {
namespace {

constexpr double line_step = 1.55;  ///< from base line to base line, in letter heights
constexpr double pad = 0.5;         ///< between a cell's edge and its words, likewise

}  // namespace

Table::Table(Pen& pen, Point top_left, double width, std::vector<Column> columns, double air)
    : pen_{pen}, x_{top_left.x}, y_{top_left.y}, width_{width}, air_{air}, columns_{std::move(columns)} {
  for (const Column& column : columns_) shares_ += column.share;
}

double Table::left_of(std::size_t column) const {
  double x = x_;
  for (std::size_t i = 0; i < column; ++i) x += width_of_column(i);
  return x;
}

double Table::width_of_column(std::size_t column) const {
  return width_ * columns_[column].share / shares_;
}

std::vector<Table::Lines> Table::lines_of(const Cells& cells) const {
  const double t = pen_.text_mm();
  std::vector<Lines> lines;
  for (std::size_t i = 0; i < cells.size(); ++i)
    lines.push_back(wrapped(cells[i], (cells.size() == 1 ? width_ : width_of_column(i)) - 2 * pad * t, t));
  return lines;
}

bool Table::takes(const Cells& cells) const {
  const double t = pen_.text_mm();
  const auto lines = lines_of(cells);
  for (std::size_t i = 0; i < lines.size(); ++i)
    for (const std::string& line : lines[i])
      if (width_of(line, t) > (cells.size() == 1 ? width_ : width_of_column(i)) - 2 * pad * t) return false;
  return true;
}

double Table::bottom_after(const Cells& cells) const {
  return bottom_after(lines_of(cells));
}

double Table::bottom_after(const std::vector<Lines>& cells) const {
  std::size_t most = 1;
  for (const Lines& cell : cells) most = std::max(most, cell.size());
  return y_ - (static_cast<double>(most) * line_step + 0.5 + 2 * air_) * pen_.text_mm();
}

void Table::head() {
  Cells heads;
  for (const Column& column : columns_) heads.push_back(column.head);
  pen_.line({x_, y_}, {x_ + width_, y_}, LineKind::outline);
  row(heads);
  pen_.line({x_, y_}, {x_ + width_, y_}, LineKind::outline);
}

void Table::row(const Cells& cells) {
  const double t = pen_.text_mm(), top = y_;
  const std::vector<Lines> lines = lines_of(cells);
  y_ = bottom_after(lines);
  for (std::size_t i = 0; i < lines.size(); ++i)
    for (std::size_t k = 0; k < lines[i].size(); ++k)
      pen_.note({left_of(i) + pad * t, top - (1.4 + air_ + static_cast<double>(k) * line_step) * t}, lines[i][k]);
  for (std::size_t i = 0; i < std::min(columns_.size(), cells.size()) && cells.size() > 1; ++i)
    if (columns_[i].boxed)
      for (const double x : {left_of(i), left_of(i) + width_of_column(i)})
        pen_.line({x, top}, {x, y_}, LineKind::dimension);
  pen_.line({x_, y_}, {x_ + width_, y_}, LineKind::dimension);
}

void Table::framed(const Cells& cells) {
  const double top = y_;
  row(cells);
  pen_.rectangle({x_, y_}, {x_ + width_, top}, LineKind::section);
}

void Table::across(const std::string& words) {
  row({words});
}

static Sheet in_letters(double height, const std::string& name, const std::string& title, const job::Job& job,
                        const Words& words) {
  const Paper& paper = paper_of(job);
  Sheet sheet{name, title, job.is_metric()};
  sheet.to_scale = false;
  Pen pen{sheet, height};
  // The strip is as high as the notes take, which the words bring along: their room is known once they are written.
  Sheet draft = sheet;
  Pen drafting{draft, height};
  words(draft, drafting, room_on(draft, paper));
  words(sheet, pen, room_on(draft, paper));
  sheet.page = page_from_top(sheet, paper);
  return sheet;
}

Sheet on_one_page(const std::string& name, const std::string& title, const job::Job& job, const Words& words) {
  return in_letters(least_letter, name, title, job, words);
}

/// Whether a page's words stand in its room: a row of much too many lines is on a page whatever its height.
static bool fits(const Sheet& sheet, const job::Job& job) {
  return frame_of(sheet).height() <= room_on(sheet, paper_of(job)).height();
}

/// The row after the last that a page takes: at least one, however high; no headline at its foot, the table's last row
/// is not left alone for the next one, nor are few rows under its last headline parted.
static std::size_t end_of_page(const Table& table, const std::vector<Cells>& rows, std::size_t from, double foot) {
  std::size_t end = from;
  for (double y = table.bottom(); end < rows.size(); ++end) {
    y -= table.bottom() - table.bottom_after(rows[end]);
    if (end > from && y < foot) break;
  }
  if (end == rows.size()) return end;
  constexpr std::size_t few = 6;
  const auto headline = [](const Cells& cells) { return cells.size() == 1; };
  const auto last = static_cast<std::size_t>(std::find_if(rows.rbegin(), rows.rend(), headline).base() - rows.begin());
  if (last > from + 1 && last <= end && rows.size() - last <= few) return last - 1;
  if (end + 1 == rows.size() && end > from + 1) --end;
  while (end > from + 1 && rows[end - 1].size() == 1) --end;
  return end;
}

/// How a table is set on its pages.
struct Setting {
  double height = least_letter;  ///< of its letters
  double share = 1;              ///< of each page's room that rows take before the next page begins
  double air = 0;                ///< of its rows
};

static std::vector<Sheet> on_pages_in(const Setting& set, const std::string& name, const std::string& title,
                                      const job::Job& job, const std::vector<Column>& columns,
                                      const std::vector<Cells>& rows, const std::vector<std::string>& notes,
                                      const Beside& beside, const std::vector<std::string>& holds) {
  std::vector<Sheet> sheets;
  std::string under;  // the headline of the rows that a page ended with
  for (std::size_t next = 0; next < rows.size() || sheets.empty();) {
    const bool first = sheets.empty();
    const std::size_t from = next;
    const std::string begun = under;  // a page is drawn more than once
    sheets.push_back(in_letters(set.height, page_name(name, sheets.size() + 1), title, job,
                                [&](Sheet& sheet, Pen& pen, const Frame& room) {
                                  sheet.notes = first || beside.later_notes.empty() ? notes : beside.later_notes;
                                  sheet.holds = holds;
                                  const double share = first ? beside.share : 1, width = room.width();
                                  Table table{pen, {0, 0}, width * share, columns, set.air};
                                  if (!rows.empty()) table.head();
                                  under = begun;
                                  if (!under.empty() && rows[from].size() > 1) table.row({under + ", continued"});
                                  const std::size_t end = end_of_page(table, rows, from, -room.height() * set.share);
                                  for (next = from; next < end; ++next) {
                                    table.row(rows[next]);
                                    if (rows[next].size() == 1) under = rows[next].front();
                                  }
                                  constexpr double between = 5;
                                  if (first && beside.draw)
                                    beside.draw(pen, {width * share + between, 0}, width * (1 - share) - between);
                                }));
  }
  return sheets;
}

std::vector<Sheet> on_pages(const std::string& name, const std::string& title, const job::Job& job,
                            const std::vector<Column>& columns, const std::vector<Cells>& rows,
                            const std::vector<std::string>& notes, const Beside& beside,
                            const std::vector<std::string>& holds) {
  const auto as = [&](const Setting& set) {
    return on_pages_in(set, name, title, job, columns, rows, notes, beside, holds);
  };
  // On several pages none is nearly empty after full ones.
  const auto evened = [&](std::vector<Sheet> sheets, double height) {
    for (const double share : {0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95})
      if (sheets.size() > 1)
        if (std::vector<Sheet> even = as({height, share}); even.size() == sheets.size()) return even;
    return sheets;
  };
  if (beside.draw) return evened(as({}), least_letter);
  const auto on_one = [&](const std::vector<Sheet>& sheets) { return sheets.size() == 1 && fits(sheets.front(), job); };
  const auto takes_all = [&](const Sheet& sheet, double height) {
    Sheet trial = sheet;
    Pen pen{trial, height};
    const Table table{pen, {0, 0}, room_on(sheet, paper_of(job)).width(), columns};
    Cells heads;
    for (const Column& column : columns) heads.push_back(column.head);
    return table.takes(heads) &&
           std::all_of(rows.begin(), rows.end(), [&](const Cells& cells) { return table.takes(cells); });
  };
  // Few rows: in larger letters, as long as a page takes them all, and a column its longest word. A list to tick that
  // still leaves a page half empty has higher rows.
  const bool ticked = std::any_of(columns.begin(), columns.end(), [](const Column& column) { return column.boxed; });
  const bool small = is_small(paper_of(job));
  for (const double height : small ? std::array{3.5, 3.0} : std::array{5.0, 3.5}) {
    const std::vector<Sheet> sheets = as({height});
    if (!on_one(sheets) || !takes_all(sheets.front(), height)) continue;
    for (const double air : {0.6, 0.4, 0.2})
      if (ticked)
        if (std::vector<Sheet> airy = as({height, 1, air}); on_one(airy)) return airy;
    return sheets;
  }
  // No more pages for larger letters.
  std::vector<Sheet> sheets = as({});
  double height = least_letter;
  for (const double larger : {3.0, 3.5})
    if (sheets.size() > 1 && !small)
      if (std::vector<Sheet> in = as({larger}); in.size() == sheets.size() && takes_all(in.front(), larger))
        sheets = std::move(in), height = larger;
  return evened(std::move(sheets), height);
}

}  // namespace fallwright::drawing
