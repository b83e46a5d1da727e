/// Sheets as drawings inside a page. Inside `page` only.
#pragma once

#include <string>

#include "drawing/sheet.hpp"

namespace fallwright::page {

/// The whole sheet in paper millimetres, its words as text that can be found and copied.
/// @pre it has a page.
std::string svg_of(const drawing::Sheet& sheet);

/// Only what is drawn on it, without frame, title block and words, cut to its own edges: a picture.
std::string picture_of(const drawing::Sheet& sheet, const std::string& description);

}  // namespace fallwright::page
