/// DXF (AC1021, UTF-8), true scale in the sheet's unit: lines, arcs, circles and texts, closed lines for machines, and
/// dimensions that are dimensions, each with its picture. The whole page stands in the model; the layout "Sheet" is a
/// window on it, at the paper's size. No library packaged for Debian 12 writes all of these without repairs being
/// asked.
#pragma once

#include <string>

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

/// Writes a sheet; its layers are named after what lines mean (docs/drawings.md). Equal sheets make equal bytes.
/// @throws diag::MachineError when the file cannot be written.
void write_dxf(const drawing::Sheet& sheet, const std::string& path);

}  // namespace fallwright::exchange
