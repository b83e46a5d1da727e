/// A sheet as SVG text: lines, arcs and words that stay words.
#pragma once

#include <string>

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

/// The whole file; user units are paper millimetres. Equal sheets make equal texts. @pre the sheet has a page.
std::string svg_of(const drawing::Sheet& sheet);

}  // namespace fallwright::exchange
