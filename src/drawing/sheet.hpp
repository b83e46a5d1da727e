/// A sheet as lines, arcs and text, in millimetres of the real thing; knows no file format.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace fallwright::drawing {

/// What a line means. Writers choose weight and dash from it; no colour carries meaning alone.
enum class LineKind { outline, hidden, centre, dimension, text, existing, correction, rejected, sheet };
inline constexpr LineKind all_line_kinds[] = {LineKind::outline,    LineKind::hidden,   LineKind::centre,
                                              LineKind::dimension,  LineKind::text,     LineKind::existing,
                                              LineKind::correction, LineKind::rejected, LineKind::sheet};
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
/// One line of text; `at` is the anchor point on its base line. Height and place in model millimetres.
struct Text {
  Point at;
  double height = 0;
  std::string words;
  double rotation_deg = 0;
  Anchor anchor = Anchor::left;
};

/// A length between two points that the text states: kept so that a test can hold one against the other.
struct Dimension {
  Point from, to;
  std::string words;
  double length_mm = 0;
  int chain = 0;  ///< dimensions of one chain share a number above zero; their overall dimension carries its negative
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

/// A page of paper, lying.
struct Paper {
  const char* name = "";
  double width_mm = 0, height_mm = 0;
};

/// The paper a sheet is printed on. One paper millimetre is `scale` millimetres of the real thing; `corner` is the
/// page's lower left corner in the sheet's own coordinates.
struct Page {
  Paper paper;
  double scale = 1;
  Point corner;
};

struct Sheet {
  std::string name;  ///< file name without ending: "plan", "bench-front", "cuts"
  std::string title;
  bool metric = false;  ///< the job's unit: whole millimetres, else inches
  std::vector<Line> lines = {};
  std::vector<Arc> arcs = {};
  std::vector<Text> texts = {};
  std::vector<Dimension> dimensions = {};
  std::vector<std::string> notes = {};  ///< sentences for the title block
  Page page = {};                       ///< no paper: a sheet for machines only
  bool to_scale = true;                 ///< false: a table or a picture, on which nothing can be measured
  std::vector<Outline> cuts = {};       ///< for machines: what a saw or a router follows, and nothing else
  std::vector<Area> areas = {};         ///< on paper only
};

/// A text's box along its own base line, generously: its letters are narrower than this share of their height.
inline constexpr double letter_width = 0.62;
struct Box {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};
Box box_of(const Text& text);
bool meet(const Box& a, const Box& b);

}  // namespace fallwright::drawing
