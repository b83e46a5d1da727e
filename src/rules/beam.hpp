/// Bending, shear, bearing and deflection of a simple beam, in newtons and millimetres.
#pragma once

#include <optional>
#include <string>

#include "units/quantity.hpp"

namespace fallwright::rules {

/// Reference design values of dimension lumber, MPa. NDS Supplement Table 4A (2018), secondary: from tables that quote
/// it.
struct Grade {
  const char* name;
  double bending, shear, bearing, modulus;
  double axial, least_modulus;  ///< along the grain; for columns
  double gravity = 0;           ///< specific, oven dry, as fasteners feel it by NDS; zero: by Eurocode 5
  bool eurocode = false;        ///< its values are characteristic ones, to be factored by Eurocode 5
  double density_kg_m3 = 0;     ///< characteristic, as fasteners feel it by Eurocode 5
};
/// "SPF No.2", "DF-L No.2", "C16", "C24" (EN 338, 2016); nothing for what is not in the table.
std::optional<Grade> grade_of(const std::string& name);
std::string known_grades();  ///< for messages: "\"SPF No.2\" or ..."

/// By which document a grade's strength is worked out, for whoever prints it beside a result.
struct Calculation;
Calculation calculation_of(const Grade& grade);

/// How long a load stays: people on a floor, or one person on a seat.
enum class Duration { medium, brief };

/// A grade as it is held against loads. American lumber: reference values with size factor and, in a row of three or
/// more, the repetitive one; loads as they are. By Eurocode 5 in service class 2: characteristic values with k_mod 0.8
/// or 0.9, k_h below 150 mm, k_sys 1.1, k_cr 0.67, over 1.3; loads times 1.35 and 1.5, and final deflections with k_def
/// 0.8 and psi_2 0.3. k_mod and 1.3 secondary, the rest from memory.
struct Design {
  double bending, shear, bearing, axial, modulus;
  double dead = 1, live = 1;              ///< factors on loads
  double dead_creep = 1, live_creep = 1;  ///< on deflections
};
Design design_of(const Grade& grade, Duration duration, double depth_mm, bool in_a_row);

/// Size factor for bending of 2 to 3 in thick lumber by its depth: 1.5 to 4 in, then 1.4, 1.3, 1.2, 1.1, 1.0, 0.9 for
/// 5, 6, 8, 10, 12, 14 in nominal. NELMA design tables, quoted.
double size_factor(double depth_mm);

/// Cold-formed steel by the thickness of its sheet: yield stress (IRC R603.2, quoted: 33 ksi up to 43 mil, 50 ksi from
/// 54 mil), and what AISI S100 allows of it in bending (1.67), shear (0.6, 1.67) and as a column (1.80); the factors
/// and the modulus are from memory. Webs are judged in steel.hpp, what counts of a pressed flange in steel_section.hpp.
struct Steel {
  double yield, bending, shear, modulus;
};
Steel steel_of(double sheet_mm);

/// A plywood deck's strip one foot wide, its strength axis across what carries it; N mm, N and N mm2. By thickness,
/// the weakest make of the span rating sold in it: from memory.
struct Panel {
  const char* rating;
  double moment, shear, stiffness;
};
Panel panel_of(double thickness_mm);
/// The same of oriented strand board, its shear zero: not judged. A code base that quotes capacity tables of 2008,
/// secondary.
Panel osb_of(double thickness_mm);
inline constexpr double panel_strip_mm = 304.8;

/// What a column may carry, in MPa: wood by its reference stress and least modulus (column stability with c = 0.8),
/// steel by its yield stress over 1.80. `slender` is length over least side (wood) or over radius of gyration (steel).
/// From memory: NDS 3.7.1, EN 1995-1-1 6.3.2, AISI S100 E2.
double column_of(const Grade& grade, double slender);
double column_of(const Steel& steel, double slender);

/// Repetitive members (three or more, at most 24 in apart): 1.15. Same source.
inline constexpr double repetitive = 1.15;

/// A rectangle on edge.
struct Section {
  double width_mm = 0, depth_mm = 0;
  double modulus_mm3() const { return width_mm * depth_mm * depth_mm / 6; }
  double inertia_mm4() const { return width_mm * depth_mm * depth_mm * depth_mm / 12; }
};

/// What a load does to a simple span.
struct Effect {
  double moment_nmm = 0, shear_n = 0, deflection_mm = 0;
};
/// Uniform: M = w L2 / 8, V = w L / 2, d = 5 w L4 / 384 EI. @param load N/mm
Effect uniform(double load, double span_mm, double modulus_mpa, double inertia_mm4);
/// At mid-span for bending and deflection, at a support for shear: M = P L / 4, V = P, d = P L3 / 48 EI.
Effect point(double load_n, double span_mm, double modulus_mpa, double inertia_mm4);

/// The span at which a uniform load uses up bending, and the one at which it uses up a deflection of span / `limit`.
double span_by_bending(double load, const Section& section, double stress_mpa);
double span_by_deflection(double load, const Section& section, double modulus_mpa, double limit);

using units::mpa_per_psi;
inline constexpr double kpa_per_psf = 0.04788025898;
inline constexpr double n_per_lbf = 4.4482216152605;

}  // namespace fallwright::rules
