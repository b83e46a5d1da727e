/// Paper: which page and scale a sheet takes, and where on it the drawing stands. Inside `drawing` only.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "drawing/pen.hpp"
#include "drawing/sheet.hpp"
#include "job/job.hpp"
#include "rules/result.hpp"

namespace fallwright::drawing {

/// Heights of capitals on paper: of dimensions and ordinary notes, and the least that is printed.
inline constexpr double letter = 3, least_letter = 2.5;

/// Left, bottom, right and top of what is drawn so far.
struct Frame {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  double width() const { return x1 - x0; }
  double height() const { return y1 - y0; }
};
Frame frame_of(const Sheet& sheet);

/// Draws a sheet with the pen of a scale; called for one scale after another until the result fits its page.
using Content = std::function<void(Sheet& sheet, Pen& pen)>;

/// The sheet at the largest scale of its trade's row at which it fits the set's paper; a picture that is not to scale,
/// as large as fits.
Sheet on_page(const std::string& name, const std::string& title, const job::Job& job, const Content& content);
/// The same where it gets larger than another, if there is one; of two ways to lay out a picture the second costs
/// little where it is the worse.
std::optional<Sheet> larger_on_page(const std::string& name, const std::string& title, const job::Job& job,
                                    const Sheet* than, const Content& content);
/// Scales by which things are drawn, the largest first: those on the rules that are sold.
const std::vector<double>& scales_of(bool metric);

/// What a sheet is called whose list runs over pages, on one of them: "cuts", "cuts-2".
std::string page_name(const std::string& name, std::size_t page);
/// Words broken into lines no wider than that, in letters of a height; at least a word on each, and no number apart
/// from its unit. "{cuts}" takes the room of the codes of so many pages as that may run to.
std::vector<std::string> wrapped(const std::string& words, double width, double height);

/// The paper of the job's set, and the small page of its family, which every office prints on.
Paper paper_of(const job::Job& job);
Paper office_paper(const job::Job& job);
bool is_small(const Paper& paper);  ///< letter or A4: little stands beside anything
/// The page's border, and how high the strip of notes and title block along its foot is, in paper millimetres from the
/// page's lower left corner.
Frame border_of(const Paper& paper);
double strip_of(const Sheet& sheet, const Paper& paper);
/// A sheet's notes from one of them on, each with its number, in lines no wider than that in the least letters.
std::vector<std::string> note_lines(const std::vector<std::string>& notes, std::size_t from, double width);
/// What is left for the drawing.
Frame room_on(const Sheet& sheet, const Paper& paper);
/// A page at full size on which the drawing's (0, 0) is the upper left corner of its room.
Page page_from_top(const Sheet& sheet, const Paper& paper);

/// Cuts a sheet's lines, arcs and texts down to what lies within a frame: arcs to the degree, texts that reach out are
/// left out. For tiles.
void keep_on_page(Sheet& sheet, const Frame& frame);

/// "1:8 (1-1/2" = 1')": a scale as its unit's trade says it.
std::string scale_text(double scale, bool metric);

}  // namespace fallwright::drawing
