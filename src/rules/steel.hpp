/// Webs of cold-formed steel, by AISI S100: crippling over a support, and shear with buckling. Newtons and millimetres.
#pragma once

#include <optional>

#include "units/length.hpp"

namespace fallwright::rules {

/// A single web as it stands under load.
struct SteelWeb {
  double flat_mm = 0, sheet_mm = 0, radius_mm = 0;  ///< bend to bend; of the sheet; inside, of its bends
  double yield_mpa = 0;
  bool lipped = true;
};

/// What a member's end may put on a support `bearing_mm` long, the load on one flange: AISI S100-16 Table G5-2,
/// secondary. Fastened to it or not; a track's web without lips is taken as not fastened.
/// @return nothing where the web is outside the table's own bounds (R/t, h/t, N/t, N/h).
std::optional<double> crippling_at_end(const SteelWeb& web, double bearing_mm, bool fastened);

/// The part of it that a web keeps with holes of `hole_mm` in it, the nearest `away_mm` from the bearing: from memory.
double punched_crippling(double hole_mm, double away_mm, double flat_mm);
/// The same for shear: from memory.
double punched_shear(double hole_mm, double flat_mm, double sheet_mm);

/// What a web without stiffeners may take in shear: S100-16 (factor 1.60), and the same with supplement S3-22 (1.67 and
/// a curve of its own). Secondary.
enum class SteelEdition { s100_16, s3_22 };
double web_shear(const SteelWeb& web, SteelEdition edition);

/// What one tapping screw may take, over 3.0 (AISI S100-16 J4, from memory): across, by tilting and by bearing of the
/// sheet under its head and the one behind; pulled out of the sheet behind; its head through the one before.
double screw_across(double diameter_mm, double head_sheet_mm, double behind_sheet_mm, double head_tensile_mpa,
                    double behind_tensile_mpa);
double screw_out(double diameter_mm, double behind_sheet_mm, double behind_tensile_mpa);
double screw_head_through(double head_mm, double head_sheet_mm, double head_tensile_mpa);
/// Tensile strength of the sheet: 45 ksi up to 43 mil, 65 from 54 (from memory).
double tensile_of(double sheet_mm);

/// Sheets that may carry load: 33 mil and more, with lips (AISI S240; from memory).
inline constexpr double least_bearing_sheet_mm = 0.0346 * units::inch_mm;

}  // namespace fallwright::rules
