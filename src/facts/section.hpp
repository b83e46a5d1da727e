/// Cross-sections of sticks, and what carries the seat: measured on end faces and between solids.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "survey/readings.hpp"

namespace fallwright::facts {

/// A section as it resists bending one way.
struct Bending {
  double depth_mm = 0;     ///< outside size along the load
  double inertia_mm4 = 0;  ///< second moment about the axis across the load, through the centroid
  double modulus_mm3 = 0;  ///< to the edge farther from the centroid: the lesser of two
  double upright_mm2 = 0;  ///< bent sheet: of its longest flats along the load, bend to bend; solid wood: all of it
};

/// One stock's cross-section, square to its length.
struct Section {
  std::string stock;
  bool steel = false;
  double area_mm2 = 0;
  double sheet_mm = 0;                  ///< thickness of the sheet it is bent from; zero: solid wood
  std::array<double, 2> centroid_mm{};  ///< from the nearer edge: along the strong way's depth, along the weak way's
  Bending strong, weak;                 ///< about the two principal axes
};

/// What carries the seat, from the top down.
enum class Bears { deck, joist, front_rail, plate, stud };

/// "deck", "joist", "front rail", "plate", "stud"
inline const char* name_of(Bears member) {
  constexpr const char* names[] = {"deck", "joist", "front rail", "plate", "stud"};
  return names[static_cast<std::size_t>(member)];
}

/// One kind of member that carries the seat; of several, the one with the longest span.
struct Bearer {
  Bears kind = Bears::deck;
  std::string part_id;  ///< "bench-frame/joist-02"
  bool steel = false;
  double clear_mm = 0;     ///< free between what carries it; a stud: its length
  double span_mm = 0;      ///< from middle to middle of what carries it; deck and stud: as `clear_mm`
  double width_mm = 0;     ///< level, square to the span
  double area_mm2 = 0;     ///< of its section
  double sheet_mm = 0;     ///< as in Section
  double radius_mm = 0;    ///< inside, of its bends
  bool lipped = false;     ///< its flanges end in lips
  double bearing_mm2 = 0;  ///< least plan in which it meets what carries it (a stud: what it carries)
  double off_stud_mm = 0;  ///< plate: greatest distance of a joist's middle from the nearest stud's
  Bending bending;         ///< under a load straight down; a stud: its weak way
  double flat_mm = 0;      ///< bent sheet: its longest flat along the load, bend to bend
  int webs = 1;            ///< flats of that length side by side
  double lip_mm = 0;       ///< outside, of a lipped flange; zero: none
  double weak_mm4 = 0;     ///< second moment of its section the weak way
};

/// What holds the bench's wall cleat, or a steel frame's wall track: studs of the wall that stand behind it.
struct Cleat {
  std::string part_id;
  double thickness_mm = 0;  ///< that a fastener goes through
  int studs = 0;
  std::vector<double> studs_at_mm = {};   ///< their middles along the wall, where the alcove has them
  std::vector<double> joists_at_mm = {};  ///< the same of the joists that bear on it, those against an end wall as well
  double middle_mm = 0;                   ///< height of the cleat's own middle
  std::string farthest_id = {};  ///< of those studs the one that stands farthest behind it; empty: none stands back
  double farthest_mm = 0;        ///< how far, at the height of its fasteners: furring goes between
};

/// The front rail of a timber frame, and the joists whose ends it is nailed into.
struct Rail {
  std::string part_id;
  double thickness_mm = 0;                ///< that a fastener goes through
  std::vector<double> joists_at_mm = {};  ///< their middles along the wall, where the alcove has them
  double from_mm = 0, to_mm = 0;          ///< its own ends there
  double joist_mm = 0;                    ///< the least length of those joists
  double deck_mm = 0;                     ///< thickness of the deck that lies on rail and joists
};

/// As many as stand at most so far apart on a length, evenly and half so far from its ends; what the saw left of that
/// length, a twentieth of a space, asks for none besides.
inline int fasteners_on(double length_mm, double apart_mm) {
  constexpr double of_a_space = 0.05;
  return apart_mm > 0 ? static_cast<int>(std::ceil(length_mm / apart_mm - of_a_space)) : 0;
}
/// How many hold the deck down on one of the rail's joists: on the outer two, where the deck ends, it has an edge.
inline int deck_fasteners(const Rail& rail, std::size_t joist, double edge_mm, double field_mm) {
  const auto [first, last] = std::minmax_element(rail.joists_at_mm.begin(), rail.joists_at_mm.end());
  const double at = rail.joists_at_mm[joist];
  return fasteners_on(rail.joist_mm, at == *first || at == *last ? std::min(edge_mm, field_mm) : field_mm);
}

/// The bench as one body that is pushed.
struct Stand {
  double from_mm = 0, to_mm = 0;  ///< its ends along the wall it leans on, where the alcove has them
  double reach_mm = 0;            ///< from that wall's studs to the seat's front edge
  double knee_mm = 0;             ///< to the middle of the knee wall that carries its front
  double top_mm = 0;              ///< height of the highest place on which somebody sits
  double mass_kg = 0;             ///< of seat block and frame
  double mass_at_mm = 0;          ///< their centroid, from that wall's studs
};

/// The seat block past the deck that carries it.
struct SeatEdge {
  double past_mm = 0;  ///< farthest that the block's top reaches past the deck where no wall stands
  survey::Side side = survey::Side::front;  ///< where that is, as seen from the entry
  double thick_mm = 0;                      ///< of the block over the deck's edge there, least
};

}  // namespace fallwright::facts
