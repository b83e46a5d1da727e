#include "brep/properties.hpp"

#include <BRepBndLib.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepGProp.hxx>
#include <BRep_Tool.hxx>
#include <Bnd_Box.hxx>
#include <GProp_GProps.hxx>
#include <Geom_Line.hxx>
#include <TopLoc_Location.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>

namespace fallwright::brep {
namespace {

GProp_GProps volume_of(const TopoDS_Shape& shape) {
  GProp_GProps props;
  BRepGProp::VolumeProperties(shape, props);
  return props;
}

/// Whether all edges are straight: then the corners tell the extent, at a hundredth of the kernel's cost.
bool straight(const TopoDS_Shape& shape) {
  for (TopExp_Explorer edge{shape, TopAbs_EDGE}; edge.More(); edge.Next()) {
    TopLoc_Location place;
    double first = 0, last = 0;
    const Handle(Geom_Curve) curve = BRep_Tool::Curve(TopoDS::Edge(edge.Current()), place, first, last);
    if (Handle(Geom_Line)::DownCast(curve).IsNull()) return false;
  }
  return true;
}

}  // namespace

Properties properties(const TopoDS_Shape& shape) {
  const GProp_GProps volume = volume_of(shape);
  return {volume.Mass(), area_mm2(shape), volume.CentreOfMass()};
}

double volume_mm3(const TopoDS_Shape& shape) { return volume_of(shape).Mass(); }

double area_mm2(const TopoDS_Shape& shape) {
  GProp_GProps props;
  BRepGProp::SurfaceProperties(shape, props);
  return props.Mass();
}

std::array<double, 6> box_of(const TopoDS_Shape& shape) {
  Bnd_Box box;
  if (straight(shape))
    for (TopExp_Explorer vertex{shape, TopAbs_VERTEX}; vertex.More(); vertex.Next())
      box.Add(BRep_Tool::Pnt(TopoDS::Vertex(vertex.Current())));
  else
    BRepBndLib::AddOptimal(shape, box, /*useTriangulation=*/false, /*useShapeTolerance=*/false);
  std::array<double, 6> b{};
  if (!box.IsVoid()) {
    box.SetGap(0);
    box.Get(b[0], b[1], b[2], b[3], b[4], b[5]);
  }
  return b;
}

bool is_sound(const TopoDS_Shape& solid) {
  if (solid.IsNull() || solid.ShapeType() != TopAbs_SOLID) return false;
  for (TopExp_Explorer shell{solid, TopAbs_SHELL}; shell.More(); shell.Next())
    if (!BRep_Tool::IsClosed(shell.Current())) return false;
  return BRepCheck_Analyzer{solid}.IsValid() && volume_mm3(solid) > 0;
}

}  // namespace fallwright::brep
