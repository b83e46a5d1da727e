/// What was measured on the solids: plain numbers with places, in millimetres, square and cubic millimetres,
/// kilograms and ratios. No kernel type, so that checks and quantities can be tested without a solid.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "facts/base_kind.hpp"
#include "facts/fall.hpp"
#include "facts/finish.hpp"
#include "facts/framing.hpp"
#include "facts/part_id.hpp"
#include "facts/pipe.hpp"
#include "facts/room.hpp"
#include "facts/section.hpp"
#include "facts/water.hpp"

namespace fallwright::facts {

/// One solid; `before` marks those that are gone once all is set.
struct Part {
  PartId which;
  std::string id, material;  ///< its text
  double volume_mm3 = 0, area_mm2 = 0, mass_kg = 0;
  std::array<double, 6> bbox_mm{};  ///< xmin ymin zmin xmax ymax zmax
  Point centroid_mm{};
  bool valid = false;   ///< closed, valid, outward
  bool before = false;  ///< exists only before the base is set (the bed as spread)
};

/// Whether all water of one surface reaches its outlet (the drain, or the edge toward the base).
struct Drainage {
  Surface surface = Surface::base_floor;
  bool drains = false;
  double pond_mm = 0;  ///< greatest depth that stays
  Point pond_at_mm{};
  std::vector<std::string> stuck;  ///< facets from which water does not reach the outlet
};

/// The largest part of the base's underside in one piece with no mortar against it. Of several alike the sides of all.
struct BarePatch {
  double area_mm2 = 0;             ///< none: all of it bears
  std::array<double, 4> box_mm{};  ///< xmin ymin xmax ymax
  std::vector<Side> along;         ///< sides of the base that it takes most of
  bool round_drain = false;        ///< it runs round the drain's hole
};

/// The bed as set and as spread. Thickness is plumb, between the measured floor and what lies on it.
struct Bed {
  double least_mm = 0, greatest_mm = 0;   ///< over the whole bed
  Point least_at_mm{}, greatest_at_mm{};  ///< at the bed's top
  double least_under_ribs_mm = 0;
  double gauge_mm = 0;  ///< height of the level line it is spread to, above the datum
  double set_mm3 = 0, spread_mm3 = 0;
  double squeeze_out_mm3 = 0;              ///< spread minus set; negative: voids stay
  double contact_mm2 = 0;                  ///< where base and bed touch, seen from above
  double plan_mm2 = 0;                     ///< the bed's plan under the base, less the drain's hole
  std::array<double, 2> plan_centre_mm{};  ///< where that plan has its centre of area
  double underside_mm2 = 0;   ///< the base's whole underside that could bear: its plan less the hole in the floor
  double void_mm3 = 0;        ///< between base and bed over their common footprint
  double deepest_rib_mm = 0;  ///< from the ribs' feet up to the highest of the base's underside between them
  BarePatch bare;
};

/// What a wall's build-up leaves of the free floor: between finished faces, up to 70 in above the drain.
struct Finished {
  double area_mm2 = 0;
  double circle_mm = 0;
  Point circle_at_mm{};
  double least_width_mm = 0;
  std::optional<double> entry_mm;
  std::optional<double> seat_depth_mm = {};     ///< seat's front edge from the finished wall behind it
  std::optional<double> seat_rear_gap_mm = {};  ///< from that wall to the seat's rear edge, where it is farthest
  std::optional<double> seat_side_gap_mm = {};  ///< from the wall at its end to the seat's side edge; absent: no wall
};

/// The compartment from wall to wall, whatever seat stands in it: at the middles of opposing sides, from the inner edge
/// of the threshold. Between finished faces where these are known, else between framing.
struct Compartment {
  double width_mm = 0, depth_mm = 0;
  std::optional<double> face_mm;            ///< across the entry
  std::vector<Side> no_stud_at_entry = {};  ///< sides whose wall has none there, so that the face is not known
};

/// The free floor of the shower, at threshold height, under nothing that overhangs it: inside upstands and framing.
struct Clear {
  double area_mm2 = 0;
  double circle_mm = 0;  ///< diameter of the largest inscribed circle
  Point circle_at_mm{};
  double least_width_mm = 0;                    ///< the least between opposite sides of the free floor
  std::optional<double> entry_mm;               ///< least free width at the entry, from the threshold's top up
  std::optional<double> seat_depth_mm;          ///< seat's front edge from the framing behind it
  std::optional<double> seat_reach_mm = {};     ///< from the base's front edge back to the seat's nearer end
  std::optional<double> seat_rear_gap_mm = {};  ///< as below, from the framing
  std::optional<double> seat_side_gap_mm = {};
  std::optional<WidthRead> narrower_at_entry = {};  ///< a width as read that takes off the entry, and off its face
  std::vector<Side> nothing_at_entry = {};          ///< sides where no stud of their wall stands there, and no bench
  std::optional<Finished> finished = {};            ///< absent: nobody said how thick the walls are built up
  /// The one of these two with half of the threshold beside it: up to its centreline, as some texts measure. Absent: it
  /// has none.
  std::optional<Finished> to_centreline = {};
  Compartment compartment = {};
  /// The least between opposite sides of the base, overall: across the entry, and from it to the back.
  std::optional<std::array<double, 2>> receptor_mm = {};
};

enum class Touch { gap, touch, clash };

/// How two solids that may meet stand to each other.
struct Fit {
  PartId a, b;
  Touch state = Touch::gap;
  double distance_mm = 0;
  double overlap_mm3 = 0;
  Point at_mm{};
};

/// One stick or sheet piece, as cut. Angles are from square: at the end its length runs from, and at the other.
struct Member {
  PartId which;
  std::string part_id, stock;  ///< part_id: its text
  bool steel = false, sheet = false;
  double length_mm = 0;                   ///< long point to long point
  double short_mm = 0;                    ///< short point to short point: its shortest edge along the length
  double width_mm = 0, thickness_mm = 0;  ///< sheets: second and third size; sticks: cross-section
  std::array<double, 2> end_angle_deg{};
  double fitted_mm =
      0;  ///< taller than its stock is thick: how far out of level a plate lies that rests on an unlevel floor
};

/// Heights above the datum that the checks need.
struct Heights {
  double drain_top_mm = 0, rib_plane_mm = 0, rim_least_mm = 0, rim_greatest_mm = 0;
  std::optional<double> threshold_least_mm, threshold_greatest_mm, upstand_top_mm, seat_front_mm, seat_back_mm;
  std::optional<Levels> outside;                ///< the bath's finished floor, along the entry
  std::optional<double> floor_at_threshold_mm;  ///< the floor's lowest point along the threshold's inner edge
};

/// How far the drain stands off a wall's finished face over it, along the alcove: negative where that reaches over the
/// drain's opening. Where nobody said how thick walls are built up, off its studs or what is furred on them.
struct BeforeFinish {
  Side wall = Side::back;
  double gap_mm = 0;
  bool channel_end = false;  ///< of a channel that is made from rim to rim, whatever lies between
};

/// The drain in its hole: least distance between body and bore, and between bore and joists.
struct DrainFit {
  double body_to_bore_mm = 0;
  std::optional<double> bore_to_joist_mm;  ///< absent: no joists in the model
  std::string nearest_joist;
  std::optional<double> outlet_mm;               ///< inside diameter
  std::optional<double> body_to_bed_mm;          ///< greatest distance, level, from the body to the mortar round it
  std::vector<BeforeFinish> before_finish = {};  ///< each wall beside it
};

struct Facts {
  std::vector<Part> parts;
  std::vector<Facet> facets;
  std::vector<Crease> creases;
  std::vector<Drainage> drainage;
  std::vector<Fit> fits;
  std::vector<Member> members;
  std::vector<Section> sections;  ///< one for each stock of the bench frame
  std::vector<Bearer> bearers;    ///< of the seat, from the deck down
  std::optional<Cleat> cleat;     ///< along the wall behind the bench
  std::optional<Rail> rail;       ///< along its front
  std::optional<Stand> stand;     ///< the bench as a whole
  std::optional<SeatEdge> seat_edge;
  std::vector<Opening> openings;
  Bed bed;
  Clear clear;
  Heights heights;
  std::vector<Edge> edges;  ///< of the base: back, front, left, right
  std::optional<SeatSkirt> skirt;
  DrainFit drain;
  std::vector<Backing> backings;
  std::vector<Hold> holds;  ///< of the upstands along walls
  FloorDeck deck;
  Flood flood;
  Finish finish;
  PipeRun pipe;
  std::optional<Bought> bought;         ///< of a bought base alone
  std::optional<SiteBuilt> site_built;  ///< of one built on site alone
  Room room;
};

}  // namespace fallwright::facts
