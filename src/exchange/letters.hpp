/// Letters as cairo sets them, in one way for every writer. Inside `exchange` only.
#pragma once

#include <string>

#include <cairo.h>

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

/// Gives back what cairo made.
struct Destroy {
  void operator()(cairo_t* c) const { cairo_destroy(c); }
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
  void operator()(cairo_font_options_t* o) const { cairo_font_options_destroy(o); }
};

/// The font that has every letter of some words: the sheets' own, or one with more scripts; and how large it is set for
/// capitals of height 1.
struct Font {
  const char* family;
  double size;
};
Font font_for(const std::string& words);

/// How far words run in capitals of height 1, as set in their font and narrowed.
double advance_of(const std::string& words);

/// Chooses it for words whose capitals are so high.
void choose_font(cairo_t* cr, const std::string& words, double height);

}  // namespace fallwright::exchange
