#include "brep/skin.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory_resource>
#include <numbers>
#include <optional>
#include <unordered_set>

#include <boost/container/small_vector.hpp>
#include <boost/container/static_vector.hpp>

#include <BRepBndLib.hxx>
#include <BRepTools_WireExplorer.hxx>
#include <BRep_Tool.hxx>
#include <Bnd_Box.hxx>
#include <Geom_Circle.hxx>
#include <Geom_ConicalSurface.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <Geom_Ellipse.hxx>
#include <Geom_Plane.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Iterator.hxx>
#include <TopoDS_Vertex.hxx>
#include <TopoDS_Wire.hxx>
#include <gp_Pln.hxx>

#include "brep/edge.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

constexpr Box nothing{1e300, 1e300, 1e300, -1e300, -1e300, -1e300};

void take(Box& box, const gp_Pnt& p) {
  for (int i = 0; i < 3; ++i)
    box[i] = std::min(box[i], p.Coord(i + 1)), box[i + 3] = std::max(box[i + 3], p.Coord(i + 1));
}

void take(Box& box, const Box& other) {
  for (std::size_t i = 0; i < 3; ++i)
    box[i] = std::min(box[i], other[i]), box[i + 3] = std::max(box[i + 3], other[i + 3]);
}

Box grown(Box box) {
  for (std::size_t i = 0; i < 3; ++i) box[i] -= units::tolerance::mesh_mm, box[i + 3] += units::tolerance::mesh_mm;
  return box;
}

/// Round a full turn, so that chords stay near enough; four of them at least end where lines along the axes touch it.
int chords_round(double radius) {
  const double by_height = std::numbers::pi / std::acos(1 - std::min(1.0, units::tolerance::mesh_mm / radius));
  const double by_angle = 2 * std::numbers::pi / units::tolerance::mesh_angle_rad;
  return 4 * static_cast<int>(std::ceil(std::max(by_height, by_angle) / 4));
}

/// Where a curve that is round in plan begins its turn; nothing for any other curve.
struct Turn {
  double at_zero, sense, radius;
};
std::optional<Turn> turn_of(const Handle(Geom_Curve) & curve) {
  const Handle(Geom_Conic) conic = Handle(Geom_Conic)::DownCast(curve);
  if (conic.IsNull()) return std::nullopt;
  double along = 0, across = 0;
  if (const auto circle = Handle(Geom_Circle)::DownCast(conic); !circle.IsNull())
    along = across = circle->Radius();
  else if (const auto ellipse = Handle(Geom_Ellipse)::DownCast(conic); !ellipse.IsNull())
    along = ellipse->MajorRadius(), across = ellipse->MinorRadius();
  const gp_XYZ x = conic->Position().XDirection().XYZ() * along, y = conic->Position().YDirection().XYZ() * across;
  const double round = std::hypot(x.X(), x.Y()), other = std::hypot(y.X(), y.Y());
  const double skew = x.X() * y.X() + x.Y() * y.Y();
  constexpr double same = units::tolerance::ratio;
  if (!(round > 0) || std::abs(round - other) > same * round || std::abs(skew) > same * round * round)
    return std::nullopt;
  return Turn{std::atan2(x.Y(), x.X()), x.X() * y.Y() - x.Y() * y.X() > 0 ? 1.0 : -1.0, round};
}

/// Parameters at which chords of a curve end, its own ends left out, in rising order.
std::vector<double> stops_of(const Handle(Geom_Curve) & curve, double first, double last) {
  std::vector<double> stops;
  if (const auto turn = turn_of(curve)) {
    const double step = 2 * std::numbers::pi / chords_round(turn->radius);
    double from = turn->at_zero + turn->sense * first, to = turn->at_zero + turn->sense * last;
    if (from > to) std::swap(from, to);
    constexpr double same = 1e-6;  // of a step: an end that falls on a stop is not told twice
    for (double k = std::ceil(from / step + same); k * step < to - same * step; ++k)
      stops.push_back((k * step - turn->at_zero) * turn->sense);
    std::sort(stops.begin(), stops.end());
    return stops;
  }
  const auto circle = Handle(Geom_Circle)::DownCast(curve);
  const double share = circle.IsNull() ? 1 : (last - first) / (2 * std::numbers::pi);
  const int count = circle.IsNull() ? 32 : static_cast<int>(std::ceil(chords_round(circle->Radius()) * share));
  for (int i = 1; i < count; ++i) stops.push_back(first + (last - first) * i / count);
  return stops;
}

/// Where a circle or an ellipse is outermost along each axis, within a turn from `first` on; of any other curve
/// nowhere.
boost::container::static_vector<double, 6> outermost(const Handle(Geom_Curve) & curve, double first) {
  boost::container::static_vector<double, 6> places;
  const Handle(Geom_Conic) conic = Handle(Geom_Conic)::DownCast(curve);
  if (conic.IsNull()) return places;
  const gp_XYZ quarter = curve->Value(std::numbers::pi / 2).XYZ(), zero = curve->Value(0).XYZ();
  const gp_XYZ centre = conic->Location().XYZ();
  for (int i = 1; i <= 3; ++i) {
    const double out = std::atan2((quarter - centre).Coord(i), (zero - centre).Coord(i));
    for (const double at : {out, out + std::numbers::pi})
      places.push_back(first + std::remainder(at - first - std::numbers::pi, 2 * std::numbers::pi) + std::numbers::pi);
  }
  return places;
}

/// The box round the ends of a curve and those of some places on it that lie before its last.
template <class Places>
Box box_round(const Handle(Geom_Curve) & curve, double first, double last, const Places& places) {
  Box box = nothing;
  take(box, curve->Value(first)), take(box, curve->Value(last));
  for (const double at : places)
    if (at < last) take(box, curve->Value(at));
  return box;
}

/// The pieces of an arc between its chords' ends, each with its box.
std::vector<Piece> pieces_of(const Handle(Geom_Curve) & arc, double first, double last,
                             const std::vector<double>& stops) {
  std::vector<Piece> pieces;
  const auto out = outermost(arc, first);
  double from = first;
  gp_Pnt at_from = arc->Value(first);
  for (std::size_t i = 0; i <= stops.size(); ++i) {
    const double to = i < stops.size() ? stops[i] : last;
    const gp_Pnt at_to = arc->Value(to);
    Box box = nothing;
    take(box, at_from), take(box, at_to);
    for (const double at : out)
      if (at > from && at < to) take(box, arc->Value(at));
    pieces.push_back({at_from, at_to, box});
    from = to, at_from = at_to;
  }
  return pieces;
}

/// A curved edge, and the places between its own ends at which its chords end, in the sense of its curve.
struct Bent {
  Curve curve;
  std::vector<gp_Pnt> points;
};

/// What edges of a shape tell of how far it reaches.
class Reach {
 public:
  std::vector<gp_Pnt> corners;  ///< each once, in the order in which they are met
  bool by_edges = true;         ///< they tell all of it
  Runs runs;

  void take(const Ends& ends) {
    if (ends.from.kept && known_.insert(ends.from).second) corners.push_back(ends.at);
    if (ends.to.kept && known_.insert(ends.to).second) corners.push_back(ends.until);
  }

  /// A curved edge is looked at for the first of its two faces alone. @param make of this edge
  template <class Make>
  const Bent& once(const TopoDS_Edge& edge, const Make& make) {
    const auto known = bent_.find(key_of(edge));
    return known != bent_.end() ? known->second : bent_.emplace(key_of(edge), make()).first->second;
  }

 private:
  std::unordered_map<CornerKey, Bent, CornerKeyHash> bent_;
  std::pmr::monotonic_buffer_resource pool_;
  std::pmr::unordered_set<CornerKey, CornerKeyHash> known_{&pool_};
};

Bent bend_of(const TopoDS_Edge& edge, Reach* reach) {
  TopLoc_Location place;
  double first = 0, last = 0;
  const Handle(Geom_Curve) curve = BRep_Tool::Curve(edge, place, first, last);
  const Handle(Geom_Curve) here = Handle(Geom_Curve)::DownCast(curve->Transformed(place.Transformation()));
  const std::vector<double> stops = stops_of(here, first, last);
  const bool conic = here->IsKind(STANDARD_TYPE(Geom_Conic));
  if (reach) reach->by_edges = reach->by_edges && conic;
  Curve found{conic ? box_round(here, first, last, outermost(here, first))
                    : grown(box_round(here, first, last, stops))};
  if (const auto turn = turn_of(here)) {
    const auto round = Handle(Geom_Conic)::DownCast(here);
    found.about = About{round->Location().X(), round->Location().Y(), turn->radius};
    found.across = round->Axis().Direction().XYZ();
    found.pieces = pieces_of(here, first, last, stops);
  }
  std::vector<gp_Pnt> points;
  points.reserve(stops.size());
  for (std::size_t i = 0; i < stops.size(); ++i)
    points.push_back(found.pieces.empty() ? here->Value(stops[i]) : found.pieces[i].to);
  return {std::move(found), std::move(points)};
}

/// @param points takes the places where its chords end, in its own sense
Curve curve_of(const TopoDS_Edge& edge, Ring& points, Reach* reach) {
  const auto add = [&](const Bent& bent) {
    if (edge.Orientation() == TopAbs_REVERSED)
      points.insert(points.end(), bent.points.rbegin(), bent.points.rend());
    else
      points.insert(points.end(), bent.points.begin(), bent.points.end());
    return bent.curve;
  };
  return add(reach ? reach->once(edge, [&] { return bend_of(edge, reach); }) : bend_of(edge, nullptr));
}

/// Edges of a wire in the order in which they hang together, and where each begins.
struct Way {
  struct Step {
    Ends ends;
    std::optional<std::size_t> curved;  ///< which of these it is
  };
  boost::container::small_vector<Step, 8> steps;
  boost::container::small_vector<TopoDS_Edge, 2> curved;
  void add(const TopoDS_Edge& edge, const Ends& ends, bool straight) {
    steps.push_back({ends, straight ? std::nullopt : std::optional{curved.size()}});
    if (!straight) curved.push_back(edge);
  }
  bool hangs_together() const {
    for (std::size_t i = 0; i < steps.size(); ++i)
      if (steps[i].ends.to != steps[(i + 1) % steps.size()].ends.from) return false;
    return true;
  }
};

/// Of the two edges that faces of a solid have in one place the corners of one are taken.
Way way_along(const TopoDS_Wire& wire, const TopoDS_Face& face, Reach* reach) {
  Way way;
  for (TopoDS_Iterator it{wire}; it.More(); it.Next()) {
    const TopoDS_Edge& edge = TopoDS::Edge(it.Value());
    if (reach) {
      const Runs::Run run = reach->runs.along(edge);
      if (edge.Orientation() != TopAbs_REVERSED) reach->take(run.ends);
      way.add(edge, run.ends, run.straight);
    } else {
      way.add(edge, ends_of(edge), is_straight(edge));
    }
  }
  if (wire.Orientation() == TopAbs_REVERSED) std::reverse(way.steps.begin(), way.steps.end());
  if (way.hangs_together()) return way;
  way = {};
  for (BRepTools_WireExplorer edge{wire, face}; edge.More(); edge.Next())
    way.add(edge.Current(), ends_of(edge.Current()), is_straight(edge.Current()));
  return way;
}

/// The rings of a face, its curved edges, and the box round its corners and those.
template <class Face>
void read_edges(Face& found, Reach* reach) {
  for (TopoDS_Iterator it{found.face}; it.More(); it.Next()) {
    if (it.Value().ShapeType() != TopAbs_WIRE) continue;
    const Way way = way_along(TopoDS::Wire(it.Value()), found.face, reach);
    Ring& ring = found.rings.emplace_back();
    ring.reserve(way.steps.size());
    for (const Way::Step& step : way.steps) {
      ring.push_back(step.ends.at);
      take(found.box, ring.back());
      if (!step.curved) continue;
      found.curves.push_back(curve_of(way.curved[*step.curved], ring, reach));
      take(found.box, found.curves.back().box);
    }
  }
}

/// Its surface where the kernel keeps it, which moves none of it.
bool is_planar(const TopoDS_Face& face) {
  TopLoc_Location place;
  return BRep_Tool::Surface(face, place)->IsKind(STANDARD_TYPE(Geom_Plane));
}

/// Rulings of a cylinder or a cone end on its edges, as a plane does.
bool ends_on_its_edges(const TopoDS_Face& face) {
  TopLoc_Location place;
  const Handle(Geom_Surface)& surface = BRep_Tool::Surface(face, place);
  return surface->IsKind(STANDARD_TYPE(Geom_Plane)) || surface->IsKind(STANDARD_TYPE(Geom_CylindricalSurface)) ||
         surface->IsKind(STANDARD_TYPE(Geom_ConicalSurface));
}

/// Rulings of a cylinder or a cone end on its edges, so these tell how far it reaches.
Round round_of(const TopoDS_Face& face, Reach& reach) {
  Round round{face, {}, {}, nothing};
  const auto cylinder = Handle(Geom_CylindricalSurface)::DownCast(BRep_Tool::Surface(face));
  if (!cylinder.IsNull() && std::abs(cylinder->Axis().Direction().Z()) > 1 - units::tolerance::ratio)
    round.about = About{cylinder->Location().X(), cylinder->Location().Y(), cylinder->Radius()};
  read_edges(round, &reach);
  reach.by_edges = reach.by_edges && ends_on_its_edges(face);
  return round;
}

/// Edges of a shape; of a solid's each is met twice, once in each sense, and told once.
template <class Visit>
void each_edge_of(const TopoDS_Shape& shape, const Visit& visit) {
  const bool solid = !shape.IsNull() && shape.ShapeType() == TopAbs_SOLID;
  for (TopExp_Explorer face{shape, TopAbs_FACE}; face.More(); face.Next())
    each_edge(face.Current(), [&](const TopoDS_Edge& edge) {
      if (!solid || edge.Orientation() != TopAbs_REVERSED) visit(edge);
    });
  for (TopExp_Explorer edge{shape, TopAbs_EDGE, TopAbs_FACE}; edge.More(); edge.Next())
    visit(TopoDS::Edge(edge.Current()));
}

Box box_to_kernel(const TopoDS_Shape& shape) {
  Bnd_Box box;
  BRepBndLib::AddOptimal(shape, box, /*useTriangulation=*/false, /*useShapeTolerance=*/false);
  Box b{};
  if (box.IsVoid()) return b;
  box.SetGap(0);
  box.Get(b[0], b[1], b[2], b[3], b[4], b[5]);
  return b;
}

Flat flat_of(const TopoDS_Face& face, Reach* reach) {
  TopLoc_Location place;
  const auto plane = Handle(Geom_Plane)::DownCast(BRep_Tool::Surface(face, place));
  gp_Ax3 axes = plane->Position();
  if (!place.IsIdentity()) axes.Transform(place.Transformation());
  const gp_Dir normal = axes.Direct() ? axes.Direction() : axes.Direction().Reversed();
  Flat flat{face, face.Orientation() == TopAbs_REVERSED ? normal.Reversed() : normal, {}, {}, nothing};
  read_edges(flat, reach);
  return flat;
}

}  // namespace

Flat flat_of(const TopoDS_Face& face) {
  return flat_of(face, nullptr);
}

std::size_t outer_ring(const Flat& flat) {
  const auto along_normal = [&](const Ring& ring) {
    gp_XYZ twice;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i)
      twice += (ring[i].XYZ() - ring[0].XYZ()).Crossed(ring[i + 1].XYZ() - ring[0].XYZ());
    return twice.Dot(flat.normal.XYZ());
  };
  for (std::size_t i = 0; i + 1 < flat.rings.size(); ++i)
    if (along_normal(flat.rings[i]) > 0) return i;
  return flat.rings.size() - 1;
}

std::vector<gp_Pnt> corners_of(const TopoDS_Shape& shape) {
  Reach reach;
  each_edge_of(shape, [&](const TopoDS_Edge& edge) { reach.take(ends_of(edge)); });
  return std::move(reach.corners);
}

Extent extent_of(const TopoDS_Shape& shape) {
  Extent extent{{}, nothing};
  Reach reach;
  bool& by_edges = reach.by_edges;
  each_edge_of(shape, [&](const TopoDS_Edge& edge) {
    reach.take(ends_of(edge));
    if (is_straight(edge)) return;
    TopLoc_Location place;
    double first = 0, last = 0;
    const Handle(Geom_Curve) curve = BRep_Tool::Curve(edge, place, first, last);
    by_edges = by_edges && curve->IsKind(STANDARD_TYPE(Geom_Conic));
    if (!by_edges) return;
    const auto here = Handle(Geom_Curve)::DownCast(curve->Transformed(place.Transformation()));
    take(extent.box, box_round(here, first, last, outermost(here, first)));
  });
  extent.corners = std::move(reach.corners);
  for (const gp_Pnt& p : extent.corners) take(extent.box, p);
  for (TopExp_Explorer face{shape, TopAbs_FACE}; face.More() && by_edges; face.Next())
    by_edges = ends_on_its_edges(TopoDS::Face(face.Current()));
  if (!by_edges) extent.box = box_to_kernel(shape);
  if (extent.corners.empty() && by_edges) extent.box = {};
  return extent;
}

Skin skin_of(const TopoDS_Shape& solid) {
  Skin skin;
  skin.box = nothing;
  Reach reach;
  std::size_t faces = 0;
  for (TopoDS_Iterator shell{solid}; shell.More(); shell.Next()) faces += shell.Value().NbChildren();
  skin.flats.reserve(faces);
  for (TopExp_Explorer it{solid, TopAbs_FACE}; it.More(); it.Next()) {
    const TopoDS_Face& face = TopoDS::Face(it.Current());
    if (is_planar(face)) {
      skin.flats.push_back(flat_of(face, &reach));
      take(skin.box, skin.flats.back().box);
    } else {
      skin.rounds.push_back(round_of(face, reach));
      take(skin.box, skin.rounds.back().box);
    }
  }
  skin.extent = {std::move(reach.corners), reach.by_edges ? skin.box : box_to_kernel(solid)};
  skin.closed = reach.runs.are_sound();
  return skin;
}

std::optional<Skin> moved(const Skin& drawn, const TopLoc_Location& place) {
  const auto straight = [](const Flat& flat) { return flat.straight(); };
  const gp_Trsf& way = place.Transformation();
  if (!drawn.rounds.empty() || !std::all_of(drawn.flats.begin(), drawn.flats.end(), straight) || way.IsNegative())
    return std::nullopt;
  Skin skin{{}, {}, nothing, {}, drawn.closed};
  skin.flats.reserve(drawn.flats.size());
  for (const Flat& flat : drawn.flats) {
    Flat& here = skin.flats.emplace_back(
        Flat{TopoDS::Face(flat.face.Moved(place)), flat.normal.Transformed(way), flat.rings, {}, nothing});
    for (Ring& ring : here.rings)
      for (gp_Pnt& p : ring) p.Transform(way), take(here.box, p);
    take(skin.box, here.box);
  }
  for (const gp_Pnt& p : drawn.extent.corners) skin.extent.corners.push_back(p.Transformed(way));
  skin.extent.box = skin.box;
  return skin;
}

}  // namespace fallwright::brep
