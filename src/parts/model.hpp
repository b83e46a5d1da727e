/// The solids of one job, each with its id, role, material and density, where it stands in the alcove.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <TopoDS_Face.hxx>
#include <TopoDS_Solid.hxx>
#include <gp_Dir.hxx>

#include "brep/properties.hpp"
#include "brep/skin.hpp"
#include "facts/part_id.hpp"
#include "job/job.hpp"

namespace fallwright::parts {

using facts::Kind, facts::PartId, facts::Role, facts::name_of;

/// A face that carries water or a name in the reports: facet `facet` of surface `surface`.
struct Facet {
  facts::Surface surface = facts::Surface::base_floor;
  std::string facet;
  TopoDS_Face face;
};

/// What makes a solid a stick or a sheet piece in the cut list: its stock and the way its length runs.
struct Cut {
  std::string stock;
  bool steel = false, sheet = false;
  gp_Dir axis;                 ///< along the length, in the alcove
  double stock_thickness = 0;  ///< mm, of timber as it is sold; zero: not to be told of
};

/// One closed solid. Equal members share one shape and differ in its location only.
struct Solid {
  Solid(const PartId& which, std::string of, double kg_m3, TopoDS_Solid as)
      : material{std::move(of)}, density_kg_m3{kg_m3}, shape{std::move(as)} {
    call(which);
  }
  void call(const PartId& which) { part = which, id = text_of(which), role = which.family.role; }

  PartId part;
  std::string id;  ///< its text: "bench-frame/stud-03"
  Role role = Role::base;
  std::string material;
  double density_kg_m3 = 0;
  TopoDS_Solid shape;
  std::vector<Facet> facets = {};
  std::optional<Cut> cut = {};
  std::shared_ptr<const brep::Skin> skin = {};  ///< known where it was looked at already
  std::optional<brep::Properties> mass = {};    ///< likewise
};

/// The solid's skin, and its own box and corners: looked at once, since many ask for them.
std::shared_ptr<const brep::Skin> skin_of(const Solid& solid);
std::array<double, 6> box_of(const Solid& solid);
std::vector<gp_Pnt> corners_of(const Solid& solid);

struct Model {
  job::Job job;
  std::vector<Solid> solids;  ///< in the order they are built on site
  const Solid* find(const PartId& part) const;
  const Solid* find(const std::string& id) const;  ///< for texts that came from a file
  const Solid* first(Role role) const;
};

/// Some solids of a job alone, for questions of what would be if: the base; the bed; what bounds the base in plan.
/// @throws as `build` does; and refuses nothing that the whole job would not refuse.
Solid build_base(const job::Job& job);
Solid build_bed(const job::Job& job);
Model build_framing(const job::Job& job);  ///< walls, bench frame and base

}  // namespace fallwright::parts
