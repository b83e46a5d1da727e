/// DXF, ASCII, true scale in the sheet's unit, with entities every reader knows: LINE, ARC, CIRCLE, TEXT.
#pragma once

#include <string>

#include "drawing/sheet.hpp"

namespace fallwright::exchange {

/// Writes a sheet; layers are named after what lines mean, and all is drawn in black (or white, on a dark screen).
/// @throws diag::MachineError when the file cannot be written.
void write_dxf(const drawing::Sheet& sheet, const std::string& path);

}  // namespace fallwright::exchange
