#include "exchange/dxf.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>

#include "diag/fault.hpp"
#include "exchange/dxf_drawing.hpp"

namespace fallwright::exchange {
namespace {

using drawing::LineKind;
using drawing::Point;

/// Capitals of the paper's font are so much lower than a text's height: a DXF's height is the capitals'.
constexpr double capitals = 0.787;

/// Weights as on paper, to the nearest the format knows; colours that are seen on black and on white.
std::vector<DxfLayer> layers() {
  return {{"0", 7, "Continuous", 18},
          {"Defpoints", 7, "Continuous", 0},
          {"FW-OUTLINE", 7, "Continuous", 35},
          {"FW-HIDDEN", 140, "DASHEDTINY", 18},
          {"FW-CENTRE", 1, "CENTERTINY", 18},
          {"FW-DIMENSION", 6, "Continuous", 13},
          {"FW-TEXT", 7, "Continuous", 13},
          {"FW-EXISTING", 8, "Continuous", 25},
          {"FW-CORRECTION", 30, "DASHEDTINY", 60},
          {"FW-REJECTED", 1, "Continuous", 70},
          {"FW-SHEET", 7, "Continuous", 30},
          {"FW-CUT", 1, "Continuous", 35},
          {"FW-WINDOW", 8, "Continuous", 0}};
}

const char* layer_of(LineKind kind) {
  switch (kind) {
    case LineKind::outline:
      return "FW-OUTLINE";
    case LineKind::hidden:
      return "FW-HIDDEN";
    case LineKind::centre:
      return "FW-CENTRE";
    case LineKind::dimension:
      return "FW-DIMENSION";
    case LineKind::text:
      return "FW-TEXT";
    case LineKind::existing:
      return "FW-EXISTING";
    case LineKind::correction:
      return "FW-CORRECTION";
    case LineKind::rejected:
      return "FW-REJECTED";
    case LineKind::sheet:
      break;
  }
  return "FW-SHEET";
}

/// A sheet in the drawing's own unit: inches where the job is in inches.
class Writer {
 public:
  explicit Writer(const drawing::Sheet& sheet)
      : sheet_{sheet}, unit_{sheet.metric ? 1 : 1 / 25.4}, drawing_{page(), layers()} {}

  std::string file() {
    std::set<std::size_t> lines, texts;  // those that are part of a dimension's picture
    for (const drawing::Dimension& dimension : sheet_.dimensions)
      if (dimension.picture) {
        for (std::size_t i = dimension.picture->first_line; i < dimension.picture->last_line; ++i) lines.insert(i);
        texts.insert(dimension.picture->text);
      }
    for (std::size_t i = 0; i < sheet_.lines.size(); ++i)
      if (!lines.contains(i)) write(sheet_.lines[i]);
    for (const drawing::Arc& arc : sheet_.arcs) write(arc);
    for (const drawing::Outline& cut : sheet_.cuts) write(cut);
    for (std::size_t i = 0; i < sheet_.texts.size(); ++i)
      if (!texts.contains(i)) write(sheet_.texts[i]);
    for (const drawing::Dimension& dimension : sheet_.dimensions)
      if (dimension.picture) write(dimension);
    return drawing_.file();
  }

 private:
  Point scaled(Point p) const { return {p.x * unit_, p.y * unit_}; }

  DxfPage page() const {
    constexpr double letter_mm = 2.5;  // of ordinary text on paper
    const drawing::Paper& paper = sheet_.page.paper;
    DxfPage page{sheet_.metric,  sheet_.page.scale * unit_, paper.width_mm * unit_,    paper.height_mm * unit_,
                 paper.width_mm, paper.height_mm,           scaled(sheet_.page.corner)};
    page.letter = letter_mm * capitals * page.scale;
    return page;
  }

  void write(const drawing::Line& line) { drawing_.line(scaled(line.from), scaled(line.to), layer_of(line.kind)); }

  void write(const drawing::Arc& arc) {
    const double radius = arc.radius * unit_;
    if (arc.to_deg - arc.from_deg >= 360)
      drawing_.circle(scaled(arc.centre), radius, layer_of(arc.kind));
    else
      drawing_.arc(scaled(arc.centre), radius, arc.from_deg, arc.to_deg, layer_of(arc.kind));
  }

  void write(const drawing::Outline& cut) {
    std::vector<Point> corners;
    for (const Point& p : cut) corners.push_back(scaled(p));
    drawing_.closed(corners, "FW-CUT");
  }

  void write(const drawing::Text& text) {
    drawing_.text(scaled(text.at), text.height * capitals * unit_, text.words, text.rotation_deg, text.anchor,
                  "FW-TEXT");
  }

  void write(const drawing::Dimension& dimension) {
    const drawing::Dimension::Picture& picture = *dimension.picture;
    const drawing::Text& text = sheet_.texts[picture.text];
    const drawing::Box box = drawing::box_of(text);
    const DxfDrawing::Length length{scaled(dimension.from),  scaled(dimension.to),
                                    scaled(picture.line_at), scaled({(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}),
                                    picture.turn_deg,        dimension.length_mm * unit_,
                                    dimension.words};
    drawing_.dimension(
        length,
        [&] {
          for (std::size_t i = picture.first_line; i < picture.last_line; ++i) write(sheet_.lines[i]);
          write(text);
        },
        layer_of(LineKind::dimension));
  }

  const drawing::Sheet& sheet_;
  double unit_;
  DxfDrawing drawing_;
};

}  // namespace

void write_dxf(const drawing::Sheet& sheet, const std::string& path) {
  const std::string text = Writer{sheet}.file();
  std::ofstream out{path, std::ios::binary};
  out.write(text.data(), static_cast<std::streamsize>(text.size()));
  out.close();
  if (!out) throw diag::MachineError{path, "cannot be written"};
}

}  // namespace fallwright::exchange
