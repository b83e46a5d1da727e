#include <algorithm>
#include <cmath>
#include <limits>

#include <BRepAdaptor_Curve.hxx>
#include <GCPnts_AbscissaPoint.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <gp_Trsf.hxx>

#include "brep/properties.hpp"
#include "measure/alcove.hpp"
#include "measure/detail.hpp"
#include "measure/mating.hpp"
#include "measure/rim.hpp"
#include "measure/shapes.hpp"
#include "measure/sides.hpp"
#include "units/tolerance.hpp"

namespace fallwright::measure {
namespace {

using job::Side;
using job::Tiled;
using survey::Rect;
constexpr double near_mm = 0.1;  ///< edges nearer than this to an outline run along it

struct Edge {
  gp_Pnt a, b;
  double length = 0;
  double middle_z() const { return (a.Z() + b.Z()) / 2; }
};

std::vector<Edge> edges_of(const TopoDS_Shape& shape) {
  std::vector<Edge> edges;
  for (TopExp_Explorer it{shape, TopAbs_EDGE}; it.More(); it.Next()) {
    const BRepAdaptor_Curve curve{TopoDS::Edge(it.Current())};
    edges.push_back(
        {curve.Value(curve.FirstParameter()), curve.Value(curve.LastParameter()), GCPnts_AbscissaPoint::Length(curve)});
  }
  return edges;
}

Rect plan_around(const std::vector<Edge>& edges) {
  constexpr double far = std::numeric_limits<double>::max();
  Rect r{far, far, -far, -far};
  for (const Edge& e : edges)
    for (const gp_Pnt& p : {e.a, e.b})
      r = {std::min(r.x0, p.X()), std::min(r.y0, p.Y()), std::max(r.x1, p.X()), std::max(r.y1, p.Y())};
  return r;
}

Rim rim_around(const std::vector<Edge>& edges) {
  std::vector<survey::Point> points;
  for (const Edge& e : edges)
    for (const gp_Pnt& p : {e.a, e.b}) points.push_back({p.X(), p.Y()});
  return Rim{points};
}

bool along(const Edge& e, const Rim& rim, Side side) {
  return rim.on(e.a, side, near_mm) && rim.on(e.b, side, near_mm);
}

Side opposite(Side side) {
  return side == Side::left    ? Side::right
         : side == Side::right ? Side::left
         : side == Side::back  ? Side::front
                               : Side::back;
}

/// A surface's edges by the side of its plan they lie on.
class Outline {
 public:
  Outline(const parts::Model& model, facts::Surface surface) {
    for (const parts::Solid& solid : model.solids)
      for (const parts::Facet& facet : solid.facets)
        if (facet.surface == surface)
          for (const Edge& e : edges_of(facet.face)) edges_.push_back(e);
    if (!edges_.empty()) plan_ = plan_around(edges_), rim_ = rim_around(edges_);
  }
  bool any() const { return !edges_.empty(); }
  const Rect& plan() const { return plan_; }
  const Rim& rim() const { return rim_; }
  std::vector<Edge> on(Side side) const {
    std::vector<Edge> found;
    for (const Edge& e : edges_)
      if (along(e, rim_, side)) found.push_back(e);
    return found;
  }
  /// Edges of one facet alone that lie inside the plan: round the drain.
  double inner_length() const {
    double length = 0;
    for (const Edge& e : edges_) {
      const auto same = [&](const Edge& o) {
        return &o != &e && std::abs(o.length - e.length) < near_mm &&
               (o.a.Distance(e.a) + o.b.Distance(e.b) < near_mm || o.a.Distance(e.b) + o.b.Distance(e.a) < near_mm);
      };
      const bool outer = std::any_of(std::begin(job::all_sides), std::end(job::all_sides),
                                     [&](Side side) { return along(e, rim_, side); });
      if (!outer && std::none_of(edges_.begin(), edges_.end(), same)) length += e.length;
    }
    return length;
  }

 private:
  std::vector<Edge> edges_;
  Rect plan_{};
  Rim rim_;
};

double run_of(const Edge& e) {
  return std::hypot(e.b.X() - e.a.X(), e.b.Y() - e.a.Y());
}

/// How much of an edge's run along the room's width (or depth) lies under a plan.
double under(const Edge& e, const Rect& plan, bool along_depth) {
  const double a = along_depth ? e.a.Y() : e.a.X(), b = along_depth ? e.b.Y() : e.b.X();
  return std::max(0.0, std::min(std::max(a, b), along_depth ? plan.y1 : plan.x1) -
                           std::max(std::min(a, b), along_depth ? plan.y0 : plan.x0));
}

class Finisher {
 public:
  Finisher(const parts::Model& model, const facts::Heights& heights)
      : model_{model},
        job_{model.job},
        heights_{heights},
        floor_{model, facts::Surface::base_floor},
        threshold_{model, facts::Surface::threshold},
        seat_{model, facts::Surface::seat} {
    finish_.top_mm = std::min(heights.drain_top_mm + job_.buy.tile.height.in_mm(), job_.alcove.height.in_mm());
    if (job_.bench) bench_ = job_.bench->place;
  }

  facts::Finish finish(const facts::Facts& facts, Scope scope) {
    lying(facts);
    walls();
    if (scope == Scope::judged) return std::move(finish_);
    joints();
    flashings(parts::Role::base, bench_);
    if (job_.bench) flashings(parts::Role::seat_block, opposite(*bench_));
    bonds();
    return std::move(finish_);
  }

 private:
  /// The wall a surface's side faces, if it is one.
  bool walled(Side side) const { return job_.alcove.has_wall(side); }

  void cover(Tiled surface, double area, std::optional<Side> wall = {}) {
    if (area > 0) finish_.covered.push_back({surface, wall, area});
  }

  void lying(const facts::Facts& facts) {
    double floor = 0, threshold = 0, seat = 0;
    for (const facts::Facet& f : facts.facets)
      (f.surface == facts::Surface::base_floor ? floor
       : f.surface == facts::Surface::seat     ? seat
                                               : threshold) += f.area_mm2;
    cover(Tiled::floor, floor);
    if (threshold_.any()) cover(Tiled::threshold, threshold + threshold_sides());
    cover(Tiled::seat, seat);
  }

  /// The threshold's upright faces, toward the floor and toward the bath: there down to the bath's finished floor where
  /// it lies lowest, past the bed, or to the subfloor where nobody said how thick its finish is.
  double threshold_sides() const {
    const double bath = heights_.outside.value_or(subfloor_before(model_, Side::front)).least_mm;
    double area = 0;
    for (const Edge& e : threshold_.on(Side::front)) area += run_of(e) * std::max(0.0, e.middle_z() - bath);
    const auto skin = parts::skin_of(*model_.first(parts::Role::base));
    for (const brep::Flat& flat : skin->flats) {
      if (flat.normal.Y() < 0.99 || flat.box[5] <= heights_.drain_top_mm) continue;
      const auto points = corners(flat.face);
      if (std::all_of(points.begin(), points.end(),
                      [&](const gp_Pnt& p) { return threshold_.rim().on(p, Side::back, near_mm); }))
        area += brep::area_mm2(flat);
    }
    return area;
  }

  void walls() {
    for (const Side side : {Side::back, Side::left, Side::right}) {
      double area = 0;
      if (!bench_ || side != *bench_)
        area += strip(floor_, side, finish_.top_mm) + threshold_strip(side, finish_.top_mm);
      if (seat_.any() && side != opposite(bench_.value_or(Side::front)))
        area += strip(seat_, side, finish_.top_mm, false);
      if (walled(side)) cover(Tiled::walls, area, side);
    }
    if (bench_ && heights_.seat_front_mm)
      cover(Tiled::apron,
            strip(floor_, *bench_, *heights_.seat_front_mm) + threshold_strip(*bench_, *heights_.seat_front_mm));
  }

  /// From a surface's edge on a side up to a height, less what the seat's nose hangs over: there the seat's own strip
  /// counts. Beside a channel's end it begins at the drain's top.
  double strip(const Outline& surface, Side side, double top, bool beside_seat = true) const {
    const bool sideways = side == Side::left || side == Side::right;
    const bool nose = beside_seat && seat_.any() && bench_ && (bench_ == Side::back) == sideways;
    double area = 0, left = surface.rim().reach(side);
    for (const Edge& e : surface.on(side)) {
      const double length = run_of(e) - (nose ? under(e, seat_.plan(), sideways) : 0);
      area += length * std::max(0.0, top - e.middle_z());
      left -= std::abs(sideways ? e.b.Y() - e.a.Y() : e.b.X() - e.a.X());
    }
    return area + std::max(0.0, left) * std::max(0.0, top - heights_.drain_top_mm);
  }
  double threshold_strip(Side side, double top) const {
    return threshold_.any() && side != Side::back ? strip(threshold_, side, top) : 0;
  }

  void joint(facts::Joint which, double length) {
    if (length > near_mm) finish_.joints.push_back({which, length});
  }
  static double length_of(const std::vector<Edge>& edges) {
    double length = 0;
    for (const Edge& e : edges) length += e.length;
    return length;
  }

  void joints() {
    double floor = 0, apron = 0, threshold = 0, seat = 0, corners = 0, apron_ends = 0;
    for (const Side side : {Side::back, Side::left, Side::right}) {
      const bool to_bench = bench_ && side == *bench_;
      if (to_bench || walled(side)) (to_bench ? apron : floor) += length_of(floor_.on(side));
      if (threshold_.any() && side != Side::back && (to_bench || walled(side)))
        threshold += length_of(threshold_.on(side)) + rise(threshold_, floor_, side, Side::back, Side::front);
      if (bench_ && turns(side, *bench_) && walled(side))
        apron_ends += rise(seat_, floor_, side, opposite(*bench_), *bench_);
      if (bench_ && side != opposite(*bench_) && walled(side)) seat += length_of(seat_.on(side));
      if (side != Side::back && walled(Side::back) && walled(side)) corners += corner(side);
    }
    joint(facts::Joint::floor_to_walls, floor);
    joint(facts::Joint::floor_to_apron, apron);
    // Where neither is tiled the base is one piece.
    if (threshold_.any() && (job_.buy.tile.covers(Tiled::floor) || job_.buy.tile.covers(Tiled::threshold)))
      joint(facts::Joint::floor_to_threshold, length_of(floor_.on(Side::front)));
    joint(facts::Joint::apron_to_walls, apron_ends);
    joint(facts::Joint::threshold_to_walls, threshold);
    joint(facts::Joint::seat_to_walls, seat);
    joint(facts::Joint::wall_corners, corners);
    joint(facts::Joint::floor_to_drain, floor_.inner_length());
  }

  /// Whether two sides of a plan meet in a corner.
  static bool turns(Side a, Side b) { return a != b && a != opposite(b); }

  /// Where a surface's edge on a side comes to another side of its plan.
  static std::optional<double> corner_z(const Outline& surface, Side side, Side end) {
    std::optional<double> low;
    for (const Edge& e : surface.on(side))
      for (const gp_Pnt& p : {e.a, e.b})
        if (surface.rim().on(p, end, near_mm)) low = std::min(low.value_or(p.Z()), p.Z());
    return low;
  }

  /// Along a wall plumb from one surface up to another that stands over its edge.
  static double rise(const Outline& upper, const Outline& lower, Side wall, Side upper_end, Side lower_end) {
    const auto top = corner_z(upper, wall, upper_end), foot = corner_z(lower, wall, lower_end);
    return top && foot ? std::max(0.0, *top - *foot) : 0;
  }

  /// An inside corner of two walls, from what lies lowest in it up to the top of the tile.
  double corner(Side side) const {
    const bool on_seat = bench_ && (*bench_ == Side::back || *bench_ == side);
    double low = std::numeric_limits<double>::max();
    const Outline& surface = on_seat ? seat_ : floor_;
    if (const auto z = corner_z(surface, side, Side::back)) low = *z;
    return low < finish_.top_mm ? finish_.top_mm - low : 0;
  }

  bool turns_up(Side side) const {
    const auto& up = job_.base.upstands;
    return std::find(up.begin(), up.end(), side) != up.end();
  }

  /// Along the outer top edges of upstands; `towards`: of the base the bench's side, of the seat block the base's.
  void flashings(parts::Role role, std::optional<Side> towards) {
    const parts::Solid& solid = *model_.first(role);
    const auto box = parts::box_of(solid);
    const Rim plan{solid};
    std::vector<Edge> tops;
    const auto skin = parts::skin_of(solid);
    for (const brep::Flat& flat : skin->flats)
      if (flat.normal.Z() > 1 - 1e-9 && flat.box[2] > box[5] - near_mm)
        for (const Edge& e : edges_of(flat.face)) tops.push_back(e);
    std::vector<Side> sides;
    for (const Side side : job::all_sides) {
      const bool bench = role == parts::Role::base && towards && side == *towards;
      if (role == parts::Role::seat_block && side == *towards) continue;
      if (!bench && !walled(side)) continue;
      if (role == parts::Role::base && !turns_up(side)) continue;  // the end of a neighbour's upstand is no edge of its
      double length = 0;
      for (const Edge& e : tops)
        if (along(e, plan, side)) length += e.length;
      if (length < near_mm) continue;
      sides.push_back(side);
      finish_.flashings.push_back({role, side, length});
    }
    const auto has = [&](Side side) { return std::find(sides.begin(), sides.end(), side) != sides.end(); };
    for (const Side side : {Side::left, Side::right}) finish_.flashing_corners += has(Side::back) && has(side);
  }

  void bonds() {
    if (bench_) seat_bonds();
    const auto skin = parts::skin_of(*model_.first(parts::Role::bed));
    for (const brep::Flat& flat : skin->flats)
      if (flat.normal.Z() < -0.1) finish_.bed_bottom_mm2 += brep::area_mm2(flat);
  }

  /// The seat block lies on its deck and its apron stands against the frame's front.
  void seat_bonds() {
    const parts::Solid& seat = *model_.first(parts::Role::seat_block);
    for (const gp_Dir& way : {gp::DZ(), toward(opposite(*bench_))}) {
      const gp_Trsf turn = upright(way);
      const TopLoc_Location turned{turn};
      const auto skin = [&](const parts::Solid& solid) {
        const auto here = parts::skin_of(solid);
        if (turned.IsIdentity()) return here;
        auto there = brep::moved(*here, turned);
        return std::make_shared<const brep::Skin>(there ? std::move(*there) : brep::skin_of(solid.shape.Moved(turned)));
      };
      const auto upper = skin(seat);
      for (const parts::Solid& member : model_.solids)
        if (member.role == parts::Role::bench_frame &&
            brep::apart(parts::box_of(member), parts::box_of(seat)) <= units::tolerance::length_mm)
          bond(words_of(member.part.kind), mate(View{*upper}, sides_that_bear(View{*skin(member)})).contact_mm2);
    }
  }

  void bond(const std::string& what, double area) {
    if (area < near_mm) return;
    finish_.seat_bond_mm2 += area;
    for (facts::Bonded& bonded : finish_.seat_bonds)
      if (bonded.what == what) {
        bonded.area_mm2 += area;
        return;
      }
    finish_.seat_bonds.push_back({what, area});
  }

  static gp_Dir toward(Side side) {
    return side == Side::left ? -gp::DX() : side == Side::right ? gp::DX() : side == Side::back ? gp::DY() : -gp::DY();
  }

  /// Turns a level way upright, so that what touches along it lies one on the other.
  static gp_Trsf upright(const gp_Dir& way) {
    gp_Trsf turn;
    if (!way.IsParallel(gp::DZ(), units::tolerance::ratio))
      turn.SetRotation(gp_Ax1{gp::Origin(), way.Crossed(gp::DZ())}, M_PI / 2);
    return turn;
  }

  const parts::Model& model_;
  const job::Job& job_;
  const facts::Heights& heights_;
  Outline floor_, threshold_, seat_;
  std::optional<Side> bench_;  ///< the base's side that the bench stands on
  facts::Finish finish_;
};

}  // namespace

facts::Finish measure_finish(const parts::Model& model, const facts::Facts& facts, Scope scope) {
  return Finisher{model, facts.heights}.finish(facts, scope);
}

}  // namespace fallwright::measure
