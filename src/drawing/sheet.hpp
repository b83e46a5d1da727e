/// A sheet as lines, arcs and text, in millimetres of the real thing; knows no file format.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "survey/readings.hpp"

namespace fallwright::drawing {

/// What a line means. Writers choose weight and dash from it; no colour carries meaning alone. Where lines lie over
/// each other the earlier of this row is the one that is drawn.
enum class LineKind {
  section,    ///< edge of what a cutting plane cuts
  outline,    ///< edge that is seen
  hidden,     ///< edge behind
  centre,     ///< axis
  phantom,    ///< what comes later or stands beside: a fixture's plate, a board
  dimension,  ///< dimension, extension line, leader
  hatch,      ///< material in a section
  text,
  existing,    ///< stands already, before any work
  faint,       ///< of less account: what stood before a step of the work, lines of a map
  correction,  ///< to be furred out
  limit,       ///< nothing is fastened below
  rejected,    ///< may not be built from
  sheet,       ///< title block, tables
  frame        ///< of the page
};
inline constexpr LineKind all_line_kinds[] = {
    LineKind::section,    LineKind::outline, LineKind::hidden,   LineKind::centre,   LineKind::phantom,
    LineKind::dimension,  LineKind::hatch,   LineKind::text,     LineKind::existing, LineKind::faint,
    LineKind::correction, LineKind::limit,   LineKind::rejected, LineKind::sheet,    LineKind::frame};
const char* name_of(LineKind kind);  ///< "outline", "hidden" ...: also the layer's name in a DXF

struct Point {
  double x = 0, y = 0;
};
struct Line {
  Point from, to;
  LineKind kind = LineKind::outline;
};
/// Counter-clockwise from `from_deg` to `to_deg`; a full circle when they are 360 apart.
struct Arc {
  Point centre;
  double radius = 0, from_deg = 0, to_deg = 360;
  LineKind kind = LineKind::outline;
};
enum class Anchor { left, middle, right };
double share_before(Anchor anchor);  ///< how much of a text stands before its anchor: 0, half, all
/// One line of text; `at` is the anchor point on its base line. `height` is that of its capitals; it and the place are
/// in model millimetres.
struct Text {
  Point at;
  double height = 0;
  std::string words;
  double rotation_deg = 0;
  Anchor anchor = Anchor::left;
  std::string leads_to = {};  ///< code of the sheet that it names, for a reader to follow
};

/// A length between two points that the text states: kept so that a test can hold one against the other.
struct Dimension {
  Point from, to;
  std::string words;
  double length_mm = 0;
  int chain = 0;  ///< dimensions of one chain share a number above zero; their overall dimension carries its negative
  bool running = false;  ///< one of a row that all run from `from`, where the sign of an origin stands
  bool assumed = false;  ///< hangs on what nobody measured: its words are in brackets
  /// Which lines and which text of the sheet draw it, and where its line lies; nothing where other things show it.
  struct Picture {
    std::size_t first_line = 0, last_line = 0;  ///< from the first up to but without the last
    std::size_t text = 0;
    Point line_at;        ///< a point of the dimension line, at its end
    double turn_deg = 0;  ///< 0 level, 90 upright
  };
  std::optional<Picture> picture = {};
};

/// Corners of a closed line, counter-clockwise.
using Outline = std::vector<Point>;

struct Box {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};
inline constexpr Box everywhere{-1e9, -1e9, 1e9, 1e9};

/// A tint of paper, from black (0) to white (1). It only eases the eye: what it says is said by a hatch and a letter
/// too.
struct Tint {
  double red = 1, green = 1, blue = 1;
};
/// A plane figure of one tint, under all lines.
struct Area {
  std::vector<Point> ring;
  Tint tint;
};

/// A field of one material that a section cuts, with the lines that fill it. Lengths of the pattern are paper
/// millimetres.
struct Hatch {
  /// Parallel lines: their angle, the step from one to the next along and across, and dashes (0: a dot; negative: a
  /// gap).
  struct Family {
    double angle_deg = 0, along = 0, across = 3;
    std::vector<double> dashes = {};
  };
  /// Which solid is cut there, so that a test can hold the field against that: the section's letter, how far the plane
  /// was moved off it, the window of the view that is shown and how many times larger than the view.
  struct Source {
    std::string part_id, section;
    double moved_mm = 0, times = 1;
    Box window = everywhere;
    double blank_mm2 = 0;  ///< of the section, as something else stands there that is no solid
  };
  std::vector<Outline> rings;  ///< outer ones and holes
  const char* name = "";       ///< as readers with patterns of their own know it; none: they are to be lines
  std::vector<Family> families;
  std::size_t first_line = 0,
              last_line = 0;  ///< lines of the sheet that show it; from the first up to but without the last
  Source source = {};
  const char* material = "";  ///< what is filled so, for the legend
};

/// A text that is the mark of a member, and what the cut list says of that.
struct MemberMark {
  std::size_t text = 0;  ///< of the sheet's texts
  std::string mark, stock, length;
};

/// A page of paper, lying.
struct Paper {
  const char* name = "";
  double width_mm = 0, height_mm = 0;
  double block_mm = 45;  ///< height of title block and key plan: more where a job's words take more lines
};

/// The paper a sheet is printed on. One paper millimetre is `scale` millimetres of the real thing; `corner` is the
/// page's lower left corner in the sheet's own coordinates.
struct Page {
  Paper paper;
  double scale = 1;
  Point corner;
};

/// From where a sheet's main view looks at the room, for the key plan: the eye's place and the way it looks, in plan;
/// `letter`: of the section plane that is cut there.
struct Sight {
  Point at, way;
  std::string letter = {};
  std::optional<survey::Side> wall = {};  ///< that alone is cut: marked on its view, not on the plan
};

struct Sheet {
  std::string name;  ///< file name without ending: "plan", "bench-front", "cuts"
  std::string title;
  bool metric = false;  ///< the job's unit: whole millimetres, else inches
  std::vector<Line> lines = {};
  std::vector<Arc> arcs = {};
  std::vector<Text> texts = {};
  std::vector<Dimension> dimensions = {};
  std::vector<std::string> holds = {};  ///< what nobody does by it yet: each a large line over the notes
  std::vector<std::string> notes = {};  ///< sentences for the title block
  Page page = {};                       ///< no paper: a sheet for machines only
  bool to_scale = true;                 ///< false: a table or a picture, on which nothing can be measured
  std::vector<Outline> cuts = {};       ///< for machines: what a saw or a router follows, and nothing else
  std::vector<Area> areas = {};         ///< on paper only
  std::vector<Hatch> hatches = {};
  std::vector<MemberMark> members = {};
  std::string code = {};            ///< "F-03": for the framer, the third of his
  std::optional<Sight> sight = {};  ///< nothing: tables and pictures
  bool own_bars = false;            ///< it brings bars by which a print is checked, and needs no others
};

/// The sheets' letters: those of drawing offices, this much narrower than they come.
inline constexpr const char* letters_font = "osifont";
inline constexpr double letters_narrowed = 0.88;
/// Of an ordinary letter, in heights of its capitals: to guess how many fit. `width_of` is exact for plain letters.
inline constexpr double letter_width = 0.66;
double width_of(std::string_view words, double height);

/// Of a text's capitals.
Box box_of(const Text& text);
bool meet(const Box& a, const Box& b);

}  // namespace fallwright::drawing
