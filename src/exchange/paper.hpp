/// Sheets on paper: one PDF of all pages, and each sheet as an SVG, with the same lines and letters.
#pragma once

#include <string>
#include <vector>

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

/// Writes every sheet that has a page, one page each, at its stated scale; text stays text, fonts are embedded; pages
/// are labelled and listed by the sheets' codes. `timestamp` (seconds since 1970) is the date in the file. @throws
/// diag::MachineError.
void write_pdf(const std::vector<drawing::Sheet>& sheets, const std::string& title, const std::string& path,
               long timestamp);

/// One sheet as an SVG the size of its page; text stays text. @pre the sheet has a page. @throws diag::MachineError.
void write_svg(const drawing::Sheet& sheet, const std::string& path);

}  // namespace fallwright::exchange
