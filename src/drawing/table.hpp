/// Sheets that are tables of words: pages at full size, as many as the rows take. Inside `drawing` only.
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

/// Cells of a row; a single one runs across all columns.
using Cells = std::vector<std::string>;

/// Rows from the top down; cells wrap.
class Table {
 public:
  /// `air`: what rows are higher than their words take, above and below, in letter heights.
  Table(Pen& pen, Point top_left, double width, std::vector<Column> columns, double air = 0);
  void head();
  void row(const Cells& cells);
  /// In a heavy frame: the one that is worked to.
  void framed(const Cells& cells);
  /// Words across all columns.
  void across(const std::string& words);
  double bottom() const { return y_; }
  /// Where a row's last line of words would stand lowest.
  double bottom_after(const Cells& cells) const;
  /// Whether no word of it is wider than its column: such a one runs out of that.
  bool takes(const Cells& cells) const;

 private:
  using Lines = std::vector<std::string>;  // of one cell
  double left_of(std::size_t column) const;
  double width_of_column(std::size_t column) const;
  std::vector<Lines> lines_of(const Cells& cells) const;
  double bottom_after(const std::vector<Lines>& cells) const;

  Pen& pen_;
  double x_, y_, width_, air_, shares_ = 0;
  std::vector<Column> columns_;
};

/// Draws from (0, 0) down, within `room`, whose top left corner that is.
using Words = std::function<void(Sheet& sheet, Pen& pen, const Frame& room)>;

/// A page of words on the set's paper, whether or not they fit it.
Sheet on_one_page(const std::string& name, const std::string& title, const job::Job& job, const Words& words);

/// A table over as many pages as it takes, its head on each. `beside` draws at the right of the first page's table,
/// which then takes so much of the width. `holds` stands over each page's notes.
struct Beside {
  double share = 1;
  std::function<void(Pen& pen, Point top_left, double width)> draw = {};
  std::vector<std::string> later_notes = {};  ///< of the pages after the first; empty: the same as its
};
std::vector<Sheet> on_pages(const std::string& name, const std::string& title, const job::Job& job,
                            const std::vector<Column>& columns, const std::vector<Cells>& rows,
                            const std::vector<std::string>& notes, const Beside& beside = {},
                            const std::vector<std::string>& holds = {});

}  // namespace fallwright::drawing
