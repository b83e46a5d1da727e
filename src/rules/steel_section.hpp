/// How much of a C of cold-formed steel bends, by AISI S100-16: what of its flange and lip counts, and whether flange
/// and lip turn away from the web together. Newtons and millimetres.
#pragma once

#include <array>

namespace fallwright::rules {

/// A C on edge, lipped or not; its web upright, load on one flange. Sizes are outside ones.
struct SteelC {
  double depth_mm = 0, flange_mm = 0, lip_mm = 0;  ///< lip zero: a track
  double sheet_mm = 0, radius_mm = 0;              ///< inside, of its bends
  double yield_mpa = 0;
  double area_mm2 = 0, inertia_mm4 = 0, weak_mm4 = 0;  ///< of its full section, as measured
};

/// What a flange counts for at a stress, and its lip.
struct EffectiveFlange {
  double flange_share = 1;  ///< of its flat
  double lip_share = 1;     ///< of the lip's flat
};
/// Appendix 1.1 to 1.3 (from memory): a flange with a simple lip, or one whose edge is free.
EffectiveFlange effective_flange(const SteelC& c, double stress_mpa);

/// Section modulus to the pressed edge with what of flange, lip and web counts at that stress.
double effective_modulus_mm3(const SteelC& c, double stress_mpa);

/// Flange and lip alone about their own middle: area, Ix, Iy, Ixy, J, x of the shear centre, x and y of the web's
/// corner. Appendix 2, Table 2.3.1.3-1, in a public code library. @param flange,lip along the middle of the sheet
std::array<double, 8> flange_alone(double flange, double lip, double sheet);

/// The stress at which flange and lip turn over together, nothing holding them but the web, over the length at which it
/// is least. Appendix 2.3.3.3 (the same library).
double distortional_mpa(const SteelC& c);

/// What it may be bent by: the least of what counts at the stress at which it would turn over whole between supports
/// `span_mm` apart (F2.1.1, from memory), and of flange and lip turning over (F4.1, the same library), over 1.67.
double steel_moment_nmm(const SteelC& c, double span_mm);

}  // namespace fallwright::rules
