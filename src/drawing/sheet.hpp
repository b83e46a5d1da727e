/// A sheet as lines, arcs and text, in millimetres of the real thing; knows no file format.
#pragma once

#include <string>
#include <vector>

namespace fallwright::drawing {

/// What a line means. Writers choose weight and dash from it; no colour carries meaning alone.
enum class LineKind { outline, hidden, centre, dimension, text };
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
};

struct Sheet {
  std::string name;  ///< file name without ending: "plan", "bench-front", "cut-A"
  std::string title;
  bool metric = false;  ///< the job's unit: whole millimetres, else inches
  std::vector<Line> lines;
  std::vector<Arc> arcs;
  std::vector<Text> texts;
  std::vector<Dimension> dimensions;
};

}  // namespace fallwright::drawing
