#include "exchange/dxf.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>

#include "diag/fault.hpp"
#include "exchange/dxf_drawing.hpp"
#include "exchange/line_styles.hpp"
#include "units/length.hpp"

namespace fallwright::exchange {
namespace {

using drawing::LineKind;
using drawing::Point;

/// Colours are seen on black and on white; weights are those of the paper, to the nearest the format knows. Line types
/// are named as readers with types of their own know them.
struct Look {
  const char* layer;
  int colour;
  const char* line_type = "Continuous";
};

Look look_of(LineKind kind) {
  switch (kind) {
    case LineKind::section:
      return {"FW-SECTION", 7};
    case LineKind::outline:
      return {"FW-OUTLINE", 7};
    case LineKind::hidden:
      return {"FW-HIDDEN", 140, "DASHEDTINY"};
    case LineKind::centre:
      return {"FW-CENTRE", 1, "CENTERTINY"};
    case LineKind::phantom:
      return {"FW-PHANTOM", 210, "DIVIDETINY"};
    case LineKind::dimension:
      return {"FW-DIMENSION", 6};
    case LineKind::hatch:
      return {"FW-HATCH", 8};
    case LineKind::text:
      return {"FW-TEXT", 7};
    case LineKind::existing:
      return {"FW-EXISTING", 8, "DOTTINY"};
    case LineKind::faint:
      return {"FW-FAINT", 8};
    case LineKind::correction:
      return {"FW-CORRECTION", 30, "DASHEDTINY"};
    case LineKind::limit:
      return {"FW-LIMIT", 30, "DASHED2"};
    case LineKind::rejected:
      return {"FW-REJECTED", 1};
    case LineKind::frame:
      return {"FW-FRAME", 7};
    case LineKind::sheet:
      break;
  }
  return {"FW-SHEET", 7};
}

const char* layer_of(LineKind kind) {
  return look_of(kind).layer;
}

std::vector<DxfLayer> layers() {
  std::vector<DxfLayer> all{{"0", 7, "Continuous", 18},
                            {"Defpoints", 7, "Continuous", 0},
                            {"FW-CUT", 1, "Continuous", 35},
                            {"FW-WINDOW", 8, "Continuous", 0}};
  for (const LineKind kind : drawing::all_line_kinds) {
    const Look look = look_of(kind);
    all.push_back(
        {look.layer, look.colour, look.line_type, static_cast<int>(std::lround(style_of(kind).weight * 100))});
  }
  return all;
}

/// A sheet in the drawing's own unit: inches where the job is in inches.
class Writer {
 public:
  explicit Writer(const drawing::Sheet& sheet)
      : sheet_{sheet}, unit_{sheet.metric ? 1 : 1 / units::inch_mm}, drawing_{page(), layers()} {}

  std::string file() {
    std::set<std::size_t> lines, texts;  // those that are part of a dimension's picture, or of a hatch
    for (const drawing::Dimension& dimension : sheet_.dimensions)
      if (dimension.picture) {
        for (std::size_t i = dimension.picture->first_line; i < dimension.picture->last_line; ++i) lines.insert(i);
        texts.insert(dimension.picture->text);
      }
    for (const drawing::Hatch& hatch : sheet_.hatches) {
      if (!*hatch.name) continue;  // its lines are lines
      for (std::size_t i = hatch.first_line; i < hatch.last_line; ++i) lines.insert(i);
      write(hatch);
    }
    for (std::size_t i = 0; i < sheet_.lines.size(); ++i)
      if (!lines.contains(i)) write(sheet_.lines[i]);
    for (const drawing::Arc& arc : sheet_.arcs) write(arc);
    for (const drawing::Outline& cut : sheet_.cuts) write(cut);
    for (std::size_t i = 0; i < sheet_.texts.size(); ++i)
      if (!texts.contains(i)) write(sheet_.texts[i]);
    for (const drawing::Dimension& dimension : sheet_.dimensions)
      if (dimension.picture) write(dimension);
    for (const drawing::MemberMark& mark : sheet_.members)
      drawing_.member(scaled(sheet_.texts[mark.text].at), mark, layer_of(LineKind::text));
    return drawing_.file();
  }

 private:
  Point scaled(Point p) const { return {p.x * unit_, p.y * unit_}; }

  DxfPage page() const {
    constexpr double letter_mm = 3;  // of ordinary capitals on paper
    const drawing::Paper& paper = sheet_.page.paper;
    DxfPage page{sheet_.metric,  sheet_.page.scale * unit_, paper.width_mm * unit_,    paper.height_mm * unit_,
                 paper.width_mm, paper.height_mm,           scaled(sheet_.page.corner)};
    page.letter = letter_mm * page.scale;
    return page;
  }

  void write(const drawing::Line& line) { drawing_.line(scaled(line.from), scaled(line.to), layer_of(line.kind)); }

  void write(const drawing::Arc& arc) {
    const double radius = arc.radius * unit_;
    const bool whole = arc.to_deg - arc.from_deg >= 360,
               dashed = look_of(arc.kind).line_type != std::string_view{"Continuous"};
    if (whole && dashed)  // LibreCAD dashes arcs, and no circles
      for (const double from : {0.0, 180.0})
        drawing_.arc(scaled(arc.centre), radius, from, from + 180, layer_of(arc.kind));
    else if (whole)
      drawing_.circle(scaled(arc.centre), radius, layer_of(arc.kind));
    else
      drawing_.arc(scaled(arc.centre), radius, arc.from_deg, arc.to_deg, layer_of(arc.kind));
  }

  void write(const drawing::Outline& cut) {
    std::vector<Point> corners;
    for (const Point& p : cut) corners.push_back(scaled(p));
    drawing_.closed(corners, "FW-CUT");
  }

  void write(const drawing::Hatch& hatch) {
    std::vector<std::vector<Point>> rings;
    for (const drawing::Outline& ring : hatch.rings) {
      rings.emplace_back();
      for (const Point& p : ring) rings.back().push_back(scaled(p));
    }
    if (!rings.empty()) drawing_.hatch(hatch, rings, sheet_.page.scale * unit_, layer_of(LineKind::hatch));
  }

  void write(const drawing::Text& text) {
    drawing_.text(scaled(text.at), text.height * unit_, text.words, text.rotation_deg, text.anchor, "FW-TEXT");
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
