#include "exchange/paper.hpp"

#include <cmath>
#include <ctime>
#include <fstream>
#include <memory>
#include <regex>

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include "diag/fault.hpp"
#include "units/letters.hpp"

namespace fallwright::exchange {
namespace {

using drawing::LineKind;
using drawing::Sheet;

constexpr double points_per_mm = 72 / 25.4;
constexpr const char* font = "DejaVu Sans Condensed";
/// Letters of this font come to the sheet's own letter width when set so much larger than the text's height.
constexpr double font_size = 1.08;

struct Destroy {
  void operator()(cairo_t* c) const { cairo_destroy(c); }
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
};
using Surface = std::unique_ptr<cairo_surface_t, Destroy>;

/// Weight in paper millimetres and dashes; readable without colour.
struct Style {
  double weight;
  std::vector<double> dashes;
  double grey = 0;
};

Style style_of(LineKind kind) {
  switch (kind) {
    case LineKind::outline:
      return {0.35, {}};
    case LineKind::hidden:
      return {0.18, {1.6, 0.9}};
    case LineKind::centre:
      return {0.18, {4, 0.9, 0.7, 0.9}};
    case LineKind::existing:
      return {0.25, {}, 0.45};
    case LineKind::correction:
      return {0.6, {2.4, 0.8}};
    case LineKind::rejected:
      return {0.7, {}};
    case LineKind::sheet:
      return {0.3, {}};
    case LineKind::dimension:
    case LineKind::text:
      break;
  }
  return {0.13, {}};
}

/// Draws one sheet in paper millimetres, y up from the page's lower left corner.
class Hand {
 public:
  Hand(cairo_t* cr, const Sheet& sheet) : cr_{cr}, sheet_{sheet} {}

  void draw() {
    cairo_save(cr_);
    cairo_scale(cr_, points_per_mm, points_per_mm);
    cairo_set_line_cap(cr_, CAIRO_LINE_CAP_ROUND);
    for (const drawing::Area& area : sheet_.areas) fill(area);
    for (const LineKind kind : drawing::all_line_kinds) strokes(kind);
    cairo_set_source_rgb(cr_, 0, 0, 0);
    for (const drawing::Text& text : sheet_.texts) write(text);
    cairo_restore(cr_);
  }

 private:
  double x(double mm) const { return (mm - sheet_.page.corner.x) / sheet_.page.scale; }
  double y(double mm) const { return sheet_.page.paper.height_mm - (mm - sheet_.page.corner.y) / sheet_.page.scale; }

  /// With its edge, so that no paper shows between neighbours of one tint.
  void fill(const drawing::Area& area) {
    constexpr double edge = 0.06;
    cairo_set_source_rgb(cr_, area.tint.red, area.tint.green, area.tint.blue);
    cairo_set_line_width(cr_, edge);
    for (const drawing::Point& p : area.ring) cairo_line_to(cr_, x(p.x), y(p.y));
    cairo_close_path(cr_);
    cairo_fill_preserve(cr_);
    cairo_stroke(cr_);
  }

  void strokes(LineKind kind) {
    const Style style = style_of(kind);
    cairo_set_source_rgb(cr_, style.grey, style.grey, style.grey);
    cairo_set_line_width(cr_, style.weight);
    cairo_set_dash(cr_, style.dashes.data(), static_cast<int>(style.dashes.size()), 0);
    for (const drawing::Line& line : sheet_.lines) {
      if (line.kind != kind) continue;
      cairo_move_to(cr_, x(line.from.x), y(line.from.y));
      cairo_line_to(cr_, x(line.to.x), y(line.to.y));
      cairo_stroke(cr_);
    }
    for (const drawing::Arc& arc : sheet_.arcs) {
      if (arc.kind != kind) continue;
      constexpr double radians = M_PI / 180;
      cairo_new_sub_path(cr_);
      cairo_arc_negative(cr_, x(arc.centre.x), y(arc.centre.y), arc.radius / sheet_.page.scale, -arc.from_deg * radians,
                         -arc.to_deg * radians);
      cairo_stroke(cr_);
    }
    cairo_set_dash(cr_, nullptr, 0, 0);
  }

  void write(const drawing::Text& text) {
    cairo_select_font_face(cr_, font, CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cr_, font_size * text.height / sheet_.page.scale);
    const std::string words = units::on_one_line(text.words);  // one byte that is no UTF-8 would end the whole drawing
    cairo_text_extents_t extents;
    cairo_text_extents(cr_, words.c_str(), &extents);
    const double share = text.anchor == drawing::Anchor::left ? 0 : text.anchor == drawing::Anchor::middle ? 0.5 : 1;
    cairo_save(cr_);
    cairo_translate(cr_, x(text.at.x), y(text.at.y));
    cairo_rotate(cr_, -text.rotation_deg * M_PI / 180);
    cairo_move_to(cr_, -share * extents.x_advance, 0);
    cairo_show_text(cr_, words.c_str());
    cairo_restore(cr_);
  }

  cairo_t* cr_;
  const Sheet& sheet_;
};

/// Cairo writes into a text, and the text goes into the file here: of a full disk Cairo's own files say nothing.
cairo_status_t append(void* to, const unsigned char* bytes, unsigned count) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

void write_text(const std::string& text, const std::string& path) {
  std::ofstream out{path, std::ios::binary};
  out.write(text.data(), static_cast<std::streamsize>(text.size()));
  out.close();
  if (!out) throw diag::MachineError{path, "cannot be written"};
}

/// Cairo keeps its errors to itself until it is asked.
void finish(const Surface& surface, const std::string& path) {
  cairo_surface_finish(surface.get());
  const cairo_status_t status = cairo_surface_status(surface.get());
  if (status != CAIRO_STATUS_SUCCESS) throw diag::MachineError{path, cairo_status_to_string(status)};
}

void draw(const Surface& surface, const Sheet& sheet) {
  const std::unique_ptr<cairo_t, Destroy> cr{cairo_create(surface.get())};
  Hand{cr.get(), sheet}.draw();
  cairo_show_page(cr.get());
}

std::string date_of(long timestamp) {
  const std::time_t time = timestamp;
  std::tm utc{};
  gmtime_r(&time, &utc);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &utc);
  return text;
}

}  // namespace

void write_pdf(const std::vector<Sheet>& sheets, const std::string& title, const std::string& path, long timestamp) {
  std::string text;
  const Surface surface{cairo_pdf_surface_create_for_stream(append, &text, 100, 100)};
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, units::on_one_line(title).c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "fallwright");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, date_of(timestamp).c_str());
  for (const Sheet& sheet : sheets) {
    const drawing::Paper& paper = sheet.page.paper;
    if (paper.width_mm <= 0) continue;
    cairo_pdf_surface_set_size(surface.get(), paper.width_mm * points_per_mm, paper.height_mm * points_per_mm);
    draw(surface, sheet);
  }
  finish(surface, path);
  write_text(text, path);
}

void write_svg(const Sheet& sheet, const std::string& path) {
  const drawing::Paper& paper = sheet.page.paper;
  std::string text;
  const Surface surface{cairo_svg_surface_create_for_stream(append, &text, paper.width_mm * points_per_mm,
                                                            paper.height_mm * points_per_mm)};
  draw(surface, sheet);
  finish(surface, path);
  // Cairo numbers its surfaces through the program's life; equal sheets must be equal files.
  text = std::regex_replace(text, std::regex{"id=\"surface[0-9]+\""}, "id=\"sheet\"");
  write_text(text, path);
}

}  // namespace fallwright::exchange
