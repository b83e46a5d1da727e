/// Letters as cairo sets them, in one way for every writer. Inside `exchange` only.
#pragma once

#include <string>

#include <cairo.h>

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

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
