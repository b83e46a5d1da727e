/// The job as plain values: what was measured, what is to be built. Defaults of its keys stand in schema*.cpp, once.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "job/as_built.hpp"
#include "job/as_set.hpp"
#include "job/base.hpp"
#include "job/buy.hpp"
#include "job/cuts.hpp"
#include "job/mortar.hpp"
#include "job/stock.hpp"
#include "job/trade.hpp"
#include "job/unused.hpp"
#include "survey/readings.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"

namespace fallwright::job {

using survey::all_sides, survey::name_of, survey::names_of;
using survey::Surface;

/// The alcove as designed, or the least read, between studs. Origin front left, +X right, +Y to the back wall, +Z up.
struct Alcove {
  Length width, depth, height;
  std::vector<Side> walls;  ///< the sides that are walls; never the front
  bool has_wall(Side side) const;
  /// Whether tape between its walls makes a figure: three walls; two that face each other, where somebody reads it.
  bool is_figure() const { return walls.size() >= 3; }
  bool is_passage() const { return walls.size() == 2 && has_wall(Side::left) && has_wall(Side::right); }
};

/// Framing round the alcove. Blocking rows are heights of their centre lines above the floor plane's datum.
struct Walls {
  Stock stock;
  Length spacing;
  int top_plates = 1;
  bool existing = false;  ///< they stand already: nothing of them is cut or bought
  std::vector<Length> blocking;
};

enum class FloorKind { joists, slab };

/// A hole that a floor joist has already, seen along the joist; of a notch the circle that it fills.
struct JoistHole {
  Length from_left, from_back;  ///< its middle, from the alcove's stud faces
  Length height;                ///< its middle above the datum
  Length diameter;
};

/// The subfloor: through the survey's spot levels, or else a plane given by how far it drops across the alcove.
struct Floor {
  FloorKind kind = FloorKind::joists;
  Length deck;                           ///< thickness of the deck, or of the slab
  Length drop_along_width;               ///< how much lower the right side is than the left (negative: higher)
  Length drop_along_depth;               ///< how much lower the back is than the front (negative: higher)
  bool drops_typed = false;              ///< both stand in the file: a floor that was read, level ones too
  std::optional<Length> finish_outside;  ///< of the bath's finished floor above the subfloor, in front of the entry
  Length beyond_entry;                   ///< how far the floor is modelled in front of the entry
  Stock joist_stock;
  Length joist_spacing;
  std::optional<Length> joist_first;          ///< first joist's centre line from the left (or front); absent: not known
  std::optional<Length> joist_first_at = {};  ///< how far from the entry that was read; absent: level with the bore
  Direction joist_direction = Direction::along_depth;  ///< the way a joist runs
  std::optional<Length> joist_span;
  std::optional<Length> joist_bearing;  ///< where that span begins, from the entry (or the left); absent: not known
  std::string joist_species;
  std::vector<JoistHole> joist_holes = {};  ///< beside those of the trap arm
  std::optional<bool> joists_bored = {};    ///< there are such; absent: nobody looked
  bool knows_holes() const { return !joist_holes.empty() || !joists_bored.value_or(true); }
  std::vector<Side> walls_carried;                  ///< walls whose weight comes on these joists
  std::optional<Length> clear_along, clear_before;  ///< free floor outside: along the entry, and out from it
};

enum class FrameKind { timber, steel };
enum class PanelKind { plywood, osb };
enum class Web { solid, punched };

struct BenchFrame {
  FrameKind kind = FrameKind::timber;
  Stock stock;                       ///< studs, plates, joists, cleats and rails; for steel: the stud section
  Stock track;                       ///< steel only
  Length spacing;                    ///< greatest, of studs and of joists
  Length deck;                       ///< thickness of the deck
  std::string species = "SPF No.2";  ///< of its timber, with the grade
  bool waterproofed = false;         ///< a membrane keeps water out of it, whatever the seat lets through
  PanelKind panel = PanelKind::plywood;
  std::optional<double> panel_carries_kg = {};  ///< on one place between joists, as its maker says
  std::optional<Web> web = {};                  ///< of steel joists; absent: nobody looked
  std::optional<std::string> fastener = {};     ///< of the wall cleat, into a stud: "16d", "#10"
  std::optional<Length> fastener_length = {};
  std::optional<int> fasteners_at_stud = {};
  std::optional<std::string> joist_fastener = {};  ///< of a joist's end to cleat, plate or track: "8d", "#8"
  std::optional<Length> joist_fastener_length = {};
  std::optional<int> fasteners_at_joist = {};     ///< at each end
  std::optional<std::string> rail_fastener = {};  ///< of a timber front rail, into the joists' ends
  std::optional<Length> rail_fastener_length = {};
  std::optional<int> fasteners_at_rail = {};      ///< into each joist
  std::optional<std::string> deck_fastener = {};  ///< of the deck, down into rail and joists
  std::optional<Length> deck_fastener_length = {};
};

struct Bench {
  Side place = Side::left;   ///< the wall it leans on: left, right or back
  Length depth;              ///< from the stud face to the framed front, where the base begins
  Length height;             ///< of the finished front edge above the datum
  Length seat_thickness;     ///< of the seat block at its front edge
  Fall seat_fall;            ///< toward the base
  Length apron_thickness;    ///< zero: no apron
  Length upstand_thickness;  ///< of the seat block's upstands on walled sides; zero: none
  Length upstand_height;     ///< above the seat's highest edge
  Length overhang;           ///< of the seat beyond the apron's face
  Length end_play;           ///< at the back: the seat block is shorter than the room by so much, half at each end
  std::string material;
  double density_kg_m3 = 0;
  std::optional<double> nose_carries_kg = {};  ///< what stands on the overhanging edge, as the maker says
  std::optional<double> strength_mpa = {};     ///< of the seat block in bending, as the maker prints it
  BenchFrame frame;
};

struct Bed {
  Length least;                        ///< thickness under the ribs at the floor's highest spot
  std::optional<Length> gauge_depth;   ///< spread depth above the datum; absent: found so that no void is left
  Length holdback;                     ///< kept clear along the framing
  Length overrun;                      ///< past the threshold line
  Length collar;                       ///< kept clear round the bore
  std::optional<Wetness> wetness;      ///< absent: by the base's underside
  double density_kg_m3 = 0;            ///< of the mortar as placed
  std::optional<double> bag_yield_m3;  ///< of one bag, as printed on it
  std::optional<double> bag_kg;        ///< what one bag weighs, as printed on it
  std::optional<int> working_minutes;  ///< from mixing until it must lie, as printed on the bag
  double waste = 0;                    ///< share added to the net volume when buying
};

/// How the survey stands in the file; the reader makes heights of spots out of it.
struct Notation {
  survey::Face face = survey::Face::stud;  ///< of readings that name none
  bool down = false;                       ///< spot levels were read downward from a level line
  std::vector<double> grid_x, grid_y;
  std::vector<std::vector<double>> grid;
};

enum class UnitSystem { inch, metric };
/// The paper of the whole set of sheets.
enum class PaperSize { tabloid, letter, a3, a4 };
struct Drawings {
  PaperSize paper = PaperSize::tabloid;
};

/// A change of sheets that are out already, as their title blocks and the cover tell it.
struct Revision {
  std::string mark, date, what;  ///< "B", "2026-03-21", "drain moved to the left"
};

struct Job {
  std::string name;
  std::string date;                 ///< of issue, "2026-03-14"; empty: nobody said so
  std::vector<Revision> revisions;  ///< the newest last
  UnitSystem unit = UnitSystem::inch;
  std::string file;                         ///< as given on the command line
  std::string sha256;                       ///< of the file's bytes
  std::shared_ptr<const std::string> text;  ///< what was read, to be read again with a change; none: made in memory
  Alcove alcove;
  survey::Survey survey;
  Notation notation;
  AsSet as_set;
  AsBuilt as_built;
  Walls walls;
  Floor floor;
  Base base;
  Drain drain;
  std::optional<Bench> bench;
  Bed bed;
  Cuts cuts;
  std::optional<Liner> liner;
  std::optional<Trap> trap;
  std::optional<Glass> glass;
  std::optional<Door> door;
  std::vector<Fixture> fixtures;
  Buy buy;
  Drawings drawings;
  std::string book = "residential";  ///< the rule book whose limits hold
  BookOverride book_override;
  std::vector<Limit> limits;
  std::string limits_source;  ///< one source for all overridden limits, in the user's words
  const Limit* limit(const std::string& key) const;
  std::vector<std::string> defaulted;  ///< keys that the file leaves out and that have a default: nobody said so
  bool is_default(const std::string& key) const;
  std::vector<UnusedKey> unused;  ///< of the file, in its order
  bool is_metric() const { return unit == UnitSystem::metric; }
  double mark_mm() const { return units::tape_mark_mm(is_metric()); }  ///< of the tape in the job's unit
  /// What a length is cut to: the tape's mark at or below it, as it must go in; itself unless `cuts.to_tape`.
  double cut_mm(double length_mm) const;
};

}  // namespace fallwright::job
