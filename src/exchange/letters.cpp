#include "exchange/letters.hpp"

#include <memory>

namespace fallwright::exchange {
namespace {

/// Measures without a page. One for each thread: rooms are written side by side, and its font changes with every text.
cairo_t* ruler() {
  thread_local const std::unique_ptr<cairo_surface_t, Destroy> surface{
      cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1)};
  thread_local const std::unique_ptr<cairo_t, Destroy> cr{cairo_create(surface.get())};
  return cr.get();
}

bool has_all(cairo_t* cr, const std::string& words) {
  cairo_glyph_t* glyphs = nullptr;
  int count = 0;
  const cairo_status_t status =
      cairo_scaled_font_text_to_glyphs(cairo_get_scaled_font(cr), 0, 0, words.data(), static_cast<int>(words.size()),
                                       &glyphs, &count, nullptr, nullptr, nullptr);
  bool all = status == CAIRO_STATUS_SUCCESS;
  for (int i = 0; i < count; ++i) all = all && glyphs[i].index != 0;
  cairo_glyph_free(glyphs);
  return all;
}

void set(cairo_t* cr, const Font& font, double height) {
  const std::unique_ptr<cairo_font_options_t, Destroy> options{cairo_font_options_create()};
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);  // else widths go by the surface
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_set_font_options(cr, options.get());
  cairo_select_font_face(cr, font.family, CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
  cairo_matrix_t matrix;
  cairo_matrix_init_scale(&matrix, drawing::letters_narrowed * font.size * height, font.size * height);
  cairo_set_font_matrix(cr, &matrix);
}

// One over the share of the size that capitals take, by each font's own table.
constexpr Font own{drawing::letters_font, 1 / 0.7373}, of_more_scripts{"DejaVu Sans Condensed", 1 / 0.729};

}  // namespace

Font font_for(const std::string& words) {
  bool ascii = true;
  for (const char c : words) ascii = ascii && static_cast<unsigned char>(c) < 0x80;
  if (ascii) return own;
  set(ruler(), own, 1);
  return has_all(ruler(), words) ? own : of_more_scripts;
}

double advance_of(const std::string& words) {
  constexpr double large = 100;
  set(ruler(), font_for(words), large);
  cairo_text_extents_t extents;
  cairo_text_extents(ruler(), words.c_str(), &extents);
  return extents.x_advance / large;
}

void choose_font(cairo_t* cr, const std::string& words, double height) {
  set(cr, font_for(words), height);
}

}  // namespace fallwright::exchange
