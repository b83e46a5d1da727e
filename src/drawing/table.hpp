/// Sheets that are tables of words: a page at full size, letters as large as its rows allow. Inside `drawing` only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "drawing/page.hpp"
#include "drawing/pen.hpp"

namespace fallwright::drawing {

struct Column {
  std::string head;
  double share = 1;    ///< of the table's width, beside the other columns' shares
  bool boxed = false;  ///< an empty cell to write in: its borders are drawn
};

/// Rows from the top down; cells wrap.
class Table {
 public:
  Table(Pen& pen, Point top_left, double width, std::vector<Column> columns);
  void head();
  void row(const std::vector<std::string>& cells);
  /// A line across all columns.
  void across(const std::string& words);
  double bottom() const { return y_; }

 private:
  double left_of(std::size_t column) const;
  double width_of(std::size_t column) const;

  Pen& pen_;
  double x_, y_, width_, shares_ = 0;
  std::vector<Column> columns_;
};

/// Draws from (0, 0) down, within `width` paper millimetres.
using Words = std::function<void(Sheet& sheet, Pen& pen, double width)>;

/// One page, the smallest paper and the largest letters that hold it.
Sheet on_one_page(const std::string& name, const std::string& title, const job::Job& job, const Words& words);

}  // namespace fallwright::drawing
