#include "exchange/paper.hpp"

#include <algorithm>
#include <cmath>
#include <ctime>
#include <fstream>
#include <memory>

#include <cairo-pdf.h>

#include "diag/fault.hpp"
#include "exchange/letters.hpp"
#include "exchange/line_styles.hpp"
#include "exchange/svg.hpp"
#include "exchange/white.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"

namespace fallwright::exchange {
namespace {

using drawing::LineKind;
using drawing::Sheet;

constexpr double points_per_mm = 72 / units::inch_mm;

using Surface = std::unique_ptr<cairo_surface_t, Destroy>;

/// Draws one sheet in paper millimetres, y up from the page's lower left corner.
class Hand {
 public:
  Hand(cairo_t* cr, const Sheet& sheet) : cr_{cr}, sheet_{sheet}, white_{sheet} {}

  void draw() {
    cairo_save(cr_);
    cairo_scale(cr_, points_per_mm, points_per_mm);
    cairo_set_line_cap(cr_, CAIRO_LINE_CAP_ROUND);
    for (const drawing::Area& area : sheet_.areas) fill(area);
    for (const LineKind kind : drawing::all_line_kinds) strokes(kind);
    // On tints letters are kept clear as it is, and white would hide what the tint says.
    if (sheet_.areas.empty())
      for (const drawing::Text& text : sheet_.texts) mask(text);
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
    const LineStyle style = style_of(kind);
    cairo_set_source_rgb(cr_, 0, 0, 0);
    cairo_set_line_width(cr_, style.weight);
    cairo_set_dash(cr_, style.dashes.data(), static_cast<int>(style.dashes.size()), 0);
    for (const drawing::Line& line : sheet_.lines) {
      if (line.kind != kind) continue;
      cairo_move_to(cr_, x(line.from.x), y(line.from.y));
      cairo_line_to(cr_, x(line.to.x), y(line.to.y));
    }
    for (const drawing::Arc& arc : sheet_.arcs) {
      if (arc.kind != kind) continue;
      constexpr double radians = M_PI / 180;
      cairo_new_sub_path(cr_);
      cairo_arc_negative(cr_, x(arc.centre.x), y(arc.centre.y), arc.radius / sheet_.page.scale, -arc.from_deg * radians,
                         -arc.to_deg * radians);
    }
    cairo_stroke(cr_);  // all in one: every part of a path begins its dashes anew
    cairo_set_dash(cr_, nullptr, 0, 0);
  }

  void mask(const drawing::Text& text) {
    const double height = text.height / sheet_.page.scale, width = drawing::width_of(text.words, height);
    const double from = drawing::share_before(text.anchor) * width, about = white_.about(text);
    cairo_save(cr_);
    cairo_set_source_rgb(cr_, 1, 1, 1);
    cairo_translate(cr_, x(text.at.x), y(text.at.y));
    cairo_rotate(cr_, -text.rotation_deg * M_PI / 180);
    cairo_rectangle(cr_, -from - about, -height - about, width + 2 * about, height + 2 * about);
    cairo_fill(cr_);
    cairo_restore(cr_);
  }

  void write(const drawing::Text& text) {
    const std::string words = units::on_one_line(text.words);  // one byte that is no UTF-8 would end the whole drawing
    choose_font(cr_, words, text.height / sheet_.page.scale);
    cairo_text_extents_t extents;
    cairo_text_extents(cr_, words.c_str(), &extents);
    cairo_save(cr_);
    cairo_translate(cr_, x(text.at.x), y(text.at.y));
    cairo_rotate(cr_, -text.rotation_deg * M_PI / 180);
    cairo_move_to(cr_, -drawing::share_before(text.anchor) * extents.x_advance, 0);
    if (!text.leads_to.empty()) cairo_tag_begin(cr_, CAIRO_TAG_LINK, ("dest='" + text.leads_to + "'").c_str());
    cairo_show_text(cr_, words.c_str());
    if (!text.leads_to.empty()) cairo_tag_end(cr_, CAIRO_TAG_LINK);
    cairo_restore(cr_);
  }

  cairo_t* cr_;
  const Sheet& sheet_;
  White white_;
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

bool on_paper(const Sheet& sheet) {
  return sheet.page.paper.width_mm > 0;
}

/// The page's label and its line in the reader's list of bookmarks. Before anything is drawn on it.
void mark_page(cairo_surface_t* surface, const Sheet& sheet, int number) {
  const std::string title = units::on_one_line((sheet.code.empty() ? "" : sheet.code + "  ") + sheet.title);
  if (!sheet.code.empty()) cairo_pdf_surface_set_page_label(surface, sheet.code.c_str());
  cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, title.c_str(),
                                ("page=" + std::to_string(number) + " pos=[0 0]").c_str(),
                                static_cast<cairo_pdf_outline_flags_t>(0));
}

/// Cairo joins the places of all strokes to one region, stroke by stroke: once the whole page is in it, nothing is left
/// to join. Before all else, for it forgets what lies under that.
void lay_paper(cairo_t* cr) {
  cairo_set_source_rgb(cr, 1, 1, 1);
  cairo_paint(cr);
}

void draw(const Surface& surface, const Sheet& sheet) {
  const std::unique_ptr<cairo_t, Destroy> cr{cairo_create(surface.get())};
  lay_paper(cr.get());
  if (!sheet.code.empty()) {  // where the index's links lead
    cairo_tag_begin(cr.get(), CAIRO_TAG_DEST, ("name='" + sheet.code + "'").c_str());
    cairo_tag_end(cr.get(), CAIRO_TAG_DEST);
  }
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
  const auto tell = [&](cairo_pdf_metadata_t what, const std::string& words) {
    cairo_pdf_surface_set_metadata(surface.get(), what, units::on_one_line(words).c_str());
  };
  const auto pages = std::count_if(sheets.begin(), sheets.end(), on_paper);
  tell(CAIRO_PDF_METADATA_TITLE, title);
  tell(CAIRO_PDF_METADATA_SUBJECT, "Shop drawings, " + std::to_string(pages) + (pages == 1 ? " sheet" : " sheets"));
  tell(CAIRO_PDF_METADATA_CREATOR, "fallwright");
  tell(CAIRO_PDF_METADATA_CREATE_DATE, date_of(timestamp));
  int number = 0;
  for (const Sheet& sheet : sheets) {
    if (!on_paper(sheet)) continue;
    const drawing::Paper& paper = sheet.page.paper;
    cairo_pdf_surface_set_size(surface.get(), paper.width_mm * points_per_mm, paper.height_mm * points_per_mm);
    mark_page(surface.get(), sheet, ++number);
    draw(surface, sheet);
  }
  finish(surface, path);
  write_text(text, path);
}

void write_svg(const Sheet& sheet, const std::string& path) {
  write_text(svg_of(sheet), path);
}

}  // namespace fallwright::exchange
