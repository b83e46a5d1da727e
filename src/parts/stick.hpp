/// Sticks: one prototype for each stock and length, placed as often as it occurs, so that equal members share a shape.
#pragma once

#include <map>
#include <string>
#include <tuple>

#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>

#include "brep/relief.hpp"
#include "parts/model.hpp"

namespace fallwright::parts {

/// Cross-section in a stick's own plane (a, b): timber is thickness x depth from the corner at the origin; a stud's web
/// lies along b at a = 0 with its flanges toward +a; a track likewise, `depth` clear between its flanges.
brep::Loop section(const job::Stock& stock);

/// Outside size of the section along b: the depth, and for a track its two flanges as well.
double outside_depth_mm(const job::Stock& stock);

/// Where a stick lies: its first end's corner, the way its length runs and the way a runs. b = length x a.
struct Lie {
  gp_Pnt corner;
  gp_Dir length, a;
};

class Sticks {
 public:
  /// A square-ended stick. Material and density follow from the stock.
  Solid make(const PartId& part, const job::Stock& stock, double length_mm, const Lie& lie);

 private:
  /// By role as well: a product has one colour, and equal sticks of wall and bench have two.
  std::map<std::tuple<Role, std::string, double>, TopoDS_Solid> prototypes_;
};

/// An upright timber or steel stick whose ends are cut to planes (for a floor that is out of level); a, b as in `Lie`.
Solid make_post(const PartId& part, const job::Stock& stock, const brep::PlanPoint& corner, const gp_Dir& a,
                const brep::Plane& bottom, const brep::Plane& top);

/// The same leaning: its length along `lie.length`, its ends cut to planes of the alcove.
Solid make_leaning_post(const PartId& part, const job::Stock& stock, const Lie& lie, const brep::Plane& bottom,
                        const brep::Plane& top);

/// A board lying in plan between two reliefs; its length runs along `axis`.
Solid make_board(const PartId& part, const job::Stock& stock, const brep::Relief& bottom, const brep::Relief& top,
                 const gp_Dir& axis);

const char* material_of(const job::Stock& stock);
double density_of(const job::Stock& stock);

}  // namespace fallwright::parts
