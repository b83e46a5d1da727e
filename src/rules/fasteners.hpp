/// Nails and wood screws thinner than 1/4 in, by NDS 12.2 and 12.3 (2018), in pounds and inches as its tables have
/// them. The formulas were read in public code libraries that name clause and page.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace fallwright::rules {

struct Fastener {
  const char* name;  ///< "16d", "#10"
  double diameter;   ///< of the shank
  double root;       ///< of a screw's thread; a nail's diameter
  double head;       ///< across
  bool screw = false;
  double length = 0;      ///< of a nail that is named by its penny, which tells it; 0: sold in many
  double longest_mm = 0;  ///< that is sold; from memory
};
std::optional<Fastener> fastener_of(const std::string& name);

/// Those of its kind and series that are thicker, the thinnest first; then, in a nail's place, screws.
std::vector<Fastener> stouter_than(const Fastener& fastener);

/// Lengths past one and up to another in which it is sold, mm: the penny's own; else by steps of 1/4 in, of those in
/// millimetres of 10 mm (common practice, no source), and none longer than is sold.
std::vector<double> lengths_of(const Fastener& fastener, double past_mm, double most_mm);

/// "3 16d nails", "1 #8 screw", "2 5 mm screws".
std::string counted(int count, const Fastener& fastener);

/// The six ways in which a joint of two members gives way, lbf each: I main, I side, II, III main, III side, IV.
/// @param gravity of the main member; @param into length in it; @param side thickness of the side member; @param
/// side_psi what that bears under the fastener, zero: it is wood of the same gravity
std::array<double, 6> yield_modes(const Fastener& fastener, double gravity, double side, double into,
                                  double side_psi = 0);

/// What one fastener takes across: the least of the six, less in proportion where it goes in less than ten diameters,
/// nothing below six.
double across_lbf(const Fastener& fastener, double gravity, double side, double into, double side_psi = 0);

/// What sheet steel of 33 ksi bears as a side member (NDS Table 12M; from memory).
inline constexpr double sheet_bears_psi = 61850;

/// What a board bears as a side member, psi: plywood of whatever grade (NDS Table 12.3.3B; from memory).
inline constexpr double board_bears_psi = 3350;

/// A nail driven askew through a member's end, at 30 degrees to it and a third of its length up: 0.83 across (NDS
/// 12.5.4; the third and the angle from memory).
double toe_nailed_lbf(const Fastener& nail, double gravity, double length);

/// What of it is used by a load across and one along itself at once, by NDS 12.4.
double both_ways_share(double across_lbf, double pulled_lbf, double may_across, double may_pull);

/// What one takes along itself, for each inch that its shank (a screw's thread) is in the holding member, side grain.
double pulled_lbf_in(const Fastener& fastener, double gravity);

}  // namespace fallwright::rules
