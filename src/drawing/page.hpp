/// Paper: which page and scale a sheet takes, and the title block that makes it a document. Inside `drawing` only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "drawing/pen.hpp"
#include "drawing/sheet.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::drawing {

/// Left, bottom, right and top of what is drawn so far.
struct Frame {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  double width() const { return x1 - x0; }
  double height() const { return y1 - y0; }
};
Frame frame_of(const Sheet& sheet);

/// Draws a sheet with the pen of a scale; called for one scale after another until the result fits its page.
using Content = std::function<void(Sheet& sheet, Pen& pen)>;

/// The sheet at the largest usual scale at which it fits a page: letter or tabloid for inches, A4 or A3 for
/// millimetres.
Sheet on_page(const std::string& name, const std::string& title, const job::Job& job, const Content& content);

/// Words broken into lines of at most so many letters.
std::vector<std::string> wrapped(const std::string& words, std::size_t letters);

/// A page at a fixed scale whose lower left corner is given: for templates and their tiles.
Page page_at(const job::Job& job, double scale, Point corner);
/// What a page leaves for the drawing, in paper millimetres.
struct Room {
  double width = 0, height = 0;
};
Room room_of(const Paper& paper);
/// The small and the large page of the job's unit.
const std::vector<Paper>& papers_of(bool metric);

/// Cuts a sheet's lines, arcs and texts down to what lies within a frame: arcs to the degree, texts that reach out are
/// left out. For tiles.
void keep_on_page(Sheet& sheet, const Frame& frame);

/// Border, check bars and title block on every sheet that has a page, numbered in their order. A sheet may be taken
/// from the roll alone: each says when checks fail.
void add_title_blocks(std::vector<Sheet>& sheets, const job::Job& job, const std::vector<rules::Result>& results);

/// "1:8 (1-1/2" = 1')": a scale as its unit's trade says it.
std::string scale_text(double scale, bool metric);

}  // namespace fallwright::drawing
