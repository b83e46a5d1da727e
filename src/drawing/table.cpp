#include "drawing/table.hpp"

#include <algorithm>

namespace fallwright::drawing {
namespace {

constexpr double line_step = 1.45;  ///< from base line to base line, in letter heights

std::size_t letters_in(double width, double letter) {
  return std::max<std::size_t>(4, static_cast<std::size_t>(width / (letter_width * letter)));
}

}  // namespace

Table::Table(Pen& pen, Point top_left, double width, std::vector<Column> columns)
    : pen_{pen}, x_{top_left.x}, y_{top_left.y}, width_{width}, columns_{std::move(columns)} {
  for (const Column& column : columns_) shares_ += column.share;
}

double Table::left_of(std::size_t column) const {
  double x = x_;
  for (std::size_t i = 0; i < column; ++i) x += width_of(i);
  return x;
}

double Table::width_of(std::size_t column) const {
  return width_ * columns_[column].share / shares_;
}

void Table::head() {
  std::vector<std::string> heads;
  for (const Column& column : columns_) heads.push_back(column.head);
  pen_.line({x_, y_}, {x_ + width_, y_}, LineKind::outline);
  row(heads);
  pen_.line({x_, y_}, {x_ + width_, y_}, LineKind::outline);
}

void Table::row(const std::vector<std::string>& cells) {
  const double t = pen_.text_mm(), top = y_;
  std::size_t lines = 1;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const auto cell = wrapped(cells[i], letters_in(width_of(i) - t, t));
    for (std::size_t k = 0; k < cell.size(); ++k)
      pen_.note({left_of(i) + 0.4 * t, top - (1.3 + static_cast<double>(k) * line_step) * t}, cell[k]);
    lines = std::max(lines, cell.size());
  }
  y_ -= (static_cast<double>(lines) * line_step + 0.45) * t;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if (columns_[i].boxed)
      for (const double x : {left_of(i), left_of(i) + width_of(i)}) pen_.line({x, top}, {x, y_}, LineKind::dimension);
  pen_.line({x_, y_}, {x_ + width_, y_}, LineKind::dimension);
}

void Table::across(const std::string& words) {
  const double t = pen_.text_mm();
  for (const std::string& line : wrapped(words, letters_in(width_ - t, t))) {
    pen_.note({x_ + 0.4 * t, y_ - 1.5 * t}, line);
    y_ -= line_step * t;
  }
  y_ -= 0.7 * t;
  pen_.line({x_, y_}, {x_ + width_, y_}, LineKind::dimension);
}

Sheet on_one_page(const std::string& name, const std::string& title, const job::Job& job, const Words& words) {
  const bool metric = job.unit == job::UnitSystem::metric;
  Sheet sheet;
  for (const Paper& paper : papers_of(metric))
    for (const double letter : {2.5, 2.2, 1.9}) {
      sheet = {name, title, metric};
      sheet.to_scale = false;
      Pen pen{sheet, letter};
      const Room room = room_of(paper);
      words(sheet, pen, room.width);
      const Frame frame = frame_of(sheet);
      // The drawing's top left corner is the room's.
      const double edge = (paper.width_mm - room.width) / 2;
      sheet.page = {paper, 1, {-edge, edge - paper.height_mm}};
      if (frame.height() <= room.height) return sheet;
    }
  return sheet;
}

}  // namespace fallwright::drawing
