/// The tolerances that files share, each with its reason; one file's own stands there with its.
#pragma once

namespace fallwright::units::tolerance {

/// Two points nearer than this are one. Ten times the kernel's own confusion (1e-7 mm), far under any tape.
inline constexpr double weld_mm = 1e-6;

/// Lengths and gaps compare equal within this: rounding of coordinates up to 10 m in double, after a few operations.
inline constexpr double length_mm = 1e-5;

/// A length so near to a mark of the tape is told as that mark, whichever way it is rounded: nobody reads a hundredth of
/// a millimetre, and intersections of faces are good to a thousandth.
inline constexpr double on_mark_mm = 0.01;

/// Falls compare equal within this: a 1 um error of height over the shortest run (50 mm) would be 2e-5; the kernel's
/// planes are exact to 1e-12, and 1/4 in/ft differs from 2 % by 8e-4.
inline constexpr double ratio = 1e-9;

/// A pair of solids overlaps only above this volume (a grain of sand); below it, surfaces merely touch.
inline constexpr double overlap_mm3 = 1.0;

/// Two volumes of one solid, found in two ways, are one within this share: sums over its faces keep so many digits.
inline constexpr double volume_share = 1e-9;

/// Chord height of curved faces in meshes: finer than a plotted line.
inline constexpr double mesh_mm = 0.05;
inline constexpr double mesh_angle_rad = 0.065;  ///< a full turn in a hundred: its area to a thousandth

}  // namespace fallwright::units::tolerance
