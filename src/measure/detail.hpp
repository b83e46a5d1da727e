/// The measurements, one subject each. Inside `measure` only.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include <gp_Pnt.hxx>

#include "brep/skin.hpp"
#include "facts/facts.hpp"
#include "measure/measure.hpp"
#include "parts/model.hpp"

namespace fallwright::measure {

class Boards;
class Framing;
class Memory;
struct Mating;
struct Sides;
class View;

/// The skin of every solid of a model, at the solid's place among them.
using Skins = std::vector<std::shared_ptr<const brep::Skin>>;

/// Of a model that is measured as a whole: the skins of its solids, their numbers in the memory, and the memory; and
/// how much of it is asked for.
struct Remembered {
  const parts::Model& model;
  const Skins& skins;
  const std::vector<std::optional<std::size_t>>& numbers;
  Memory& memory;
  std::vector<std::shared_ptr<const View>>& views;  ///< once they were asked for
  Scope scope;

  const View& view(std::size_t solid) const;
  /// Which of the model's solids it is.
  std::size_t at(const parts::Solid& solid) const { return static_cast<std::size_t>(&solid - model.solids.data()); }
};
/// @param remembered nothing: volumes alone are asked for, and not whether a solid is valid.
std::vector<facts::Part> measure_parts(const parts::Model& model, const Remembered* remembered);
std::vector<facts::Facet> facets_of(const parts::Solid& solid);
void measure_falls(const parts::Model& model, facts::Facts& facts);  ///< facets, creases
std::vector<facts::Drainage> measure_drainage(const parts::Model& model);
facts::Clear measure_clear(const parts::Model& model, const Framing& furred);
std::vector<facts::Member> measure_members(const parts::Model& model);

std::vector<facts::Section> measure_sections(const parts::Model& model);
std::vector<facts::Bearer> measure_bearers(const parts::Model& model);
std::optional<facts::Cleat> measure_cleat(const parts::Model& model);
std::optional<facts::Rail> measure_rail(const parts::Model& model);
std::optional<facts::Stand> measure_stand(const parts::Model& model, const facts::Facts& facts);
std::optional<facts::SeatEdge> measure_seat_edge(const parts::Model& model);
void measure_heights(const parts::Model& model, facts::Facts& facts);
/// The subfloor an inch in front of a side of the base, from one of its ends to the other.
facts::Levels subfloor_before(const parts::Model& model, job::Side side);
/// The bath's finished floor an inch in front of a side of the base, from one of its ends to the other; nothing where
/// nobody said how thick its finish is.
std::optional<facts::Levels> bath_floor_before(const parts::Model& model, job::Side side);
void measure_openings(const parts::Model& model, const Framing& framing, facts::Facts& facts);
/// @pre heights, and the room's studs, were measured. @param furred the framing with its strips
facts::DrainFit measure_drain(const parts::Model& model, const Framing& furred, const facts::Facts& facts);

facts::FloorShape measure_floor(const parts::Model& model, const survey::StudFaces& faces);
/// @pre the room's studs were measured.
void measure_walls(const parts::Model& model, const Framing& framing, const facts::Heights& heights, facts::Room& room);
/// Entry, seat's depth. @param furred the framing with its strips, on which what is finished lies
void measure_access(const parts::Model& model, const Framing& framing, const Framing& furred, facts::Facts& facts);
facts::Flood measure_flood(const parts::Model& model, const facts::Facts& facts);
/// Of what is judged alone: areas, without joints, flashings and what is bonded.
facts::Finish measure_finish(const parts::Model& model, const facts::Facts& facts, Scope scope);
/// @param furred the framing with its strips
std::vector<facts::Backing> measure_backings(const parts::Model& model, const facts::Heights& heights,
                                             const Boards& boards, const Framing& furred);
std::vector<facts::Hold> measure_holds(const parts::Model& model, const facts::Heights& heights, const Boards& boards);
facts::FloorDeck measure_deck(const parts::Model& model);
/// @pre the room was measured: where the drain is, and how it lies.
facts::PipeRun measure_pipe_run(const parts::Model& model, const facts::Facts& facts);
/// Corners of the base that lie too far outside the spots that were read for their heights to be known.
std::vector<facts::NamedPlace> unread_corners(const parts::Model& model, const survey::StudFaces& faces);
/// Takes off the entry what a width that was read nearer to it than to the back is less than between the solids.
void narrow_entry(const parts::Model& model, facts::Facts& facts);
/// So far up from the threshold the entry is looked at: 70 in.
inline constexpr double entry_reach_mm = 1778;

/// How the base goes down between what stands left and right of it; widths that were `read` count where they are less
/// than those between the solids.
facts::DropIn measure_drop_in(const parts::Model& model, const Framing& framing, const facts::Heights& heights,
                              const std::vector<facts::WidthRead>& read);
/// How the seat block of a bench at the back comes over the base to its place, between what stands then; nothing of any
/// other, which comes in from the entry.
/// Takes off what widths that were read lack of those between the solids, where the seat block passes.
void narrow_seat_in(const parts::Model& model, const std::vector<facts::WidthRead>& read, facts::DropIn& way);
std::optional<facts::DropIn> measure_seat_in(const parts::Model& model, const Framing& framing,
                                             std::optional<double> strips_mm);
facts::DrainWindow measure_window(const parts::Model& model, const survey::StudFaces& faces);
std::vector<facts::Gauge> measure_gauges(const parts::Model& model, const facts::Facts& facts);
std::vector<facts::Mark> measure_set_out(const parts::Model& model, const facts::Room& room, const Boards& boards);

/// The side of the base that stands against the bench.
std::optional<job::Side> bench_side(const job::Job& job);
std::vector<facts::Edge> measure_edges(const parts::Model& model);
std::vector<gp_Pnt> tops_of_open_edges(const parts::Model& model);  ///< corners of what turns up there, or of the rim
/// The top of the base's edge along the bench, where the apron stands over it: both ends of every straight stretch of
/// what takes most of that side. The apron's foot is level; the edge is so where it turns up, and elsewhere rises and
/// falls with the floor.
std::vector<gp_Pnt> edge_below_apron(const parts::Model& model);
std::optional<facts::SeatSkirt> measure_skirt(const parts::Model& model);

/// How much of the base's underside could bear.
void measure_underside(const parts::Model& model, facts::Bed& bed);
/// The largest part of it that has no mortar under it.
void measure_bare(const parts::Model& model, const Mating& base_on_bed, Memory& memory, facts::Bed& bed);
/// Where the bed may be thinnest under the base, however that comes to lie in it: places where both touch.
std::vector<facts::BedDepth> thinnest_beds(const parts::Model& model);
void measure_bed(const parts::Model& model, const Remembered& remembered, const Sides& bed, const Mating& base_on_bed,
                 facts::Facts& facts);
/// What is told of a base by how it came about. @pre bed, heights and edges are measured.
void measure_base_kind(const parts::Model& model, const View& base, facts::Facts& facts);
std::vector<facts::Fit> measure_fits(const parts::Model& model, const Remembered& remembered, const Mating& base_on_bed,
                                     const facts::Facts& facts);

}  // namespace fallwright::measure
