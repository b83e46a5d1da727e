#include "intake/bodies.hpp"

#include <cmath>
#include <numbers>

#include <BRepAlgoAPI_Cut.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepFilletAPI_MakeFillet.hxx>
#include <BRepPrimAPI_MakeCone.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRep_Tool.hxx>
#include <Interface_Static.hxx>
#include <STEPControl_Controller.hxx>
#include <STEPControl_Writer.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <gp_Trsf.hxx>

#include "brep/kernel.hpp"
#include "support/run.hpp"

namespace fallwright::bodies {
namespace {

TopoDS_Solid only_solid(const TopoDS_Shape& shape) {
  return TopoDS::Solid(TopExp_Explorer{shape, TopAbs_SOLID}.Current());
}

TopoDS_Shape drilled(const TopoDS_Shape& shape, const Plate& p) {
  const gp_Ax2 axis{{p.x, p.y, -100}, gp::DZ()};
  return BRepAlgoAPI_Cut{shape, BRepPrimAPI_MakeCylinder{axis, p.hole / 2, 1000}.Shape()}.Shape();
}

TopoDS_Shape wedge(const Plate& p) {
  BRepBuilderAPI_MakePolygon side{{0, 0, 0}, {0, p.width, 0}, {0, p.width, p.back}, {0, 0, p.front}, /*Close=*/true};
  return BRepPrimAPI_MakePrism{BRepBuilderAPI_MakeFace{side.Wire()}, gp_Vec{p.length, 0, 0}}.Shape();
}

}  // namespace

double Plate::volume() const {
  const double at_hole = front + (back - front) * y / width;
  return length * width * (front + back) / 2 - std::numbers::pi * hole * hole / 4 * at_hole;
}

TopoDS_Solid solid_of(const Plate& plate) {
  return only_solid(drilled(wedge(plate), plate));
}

TopoDS_Solid rounded(const Plate& plate, double radius) {
  const TopoDS_Shape sharp = wedge(plate);
  TopTools_IndexedMapOfShape edges;
  TopExp::MapShapes(sharp, TopAbs_EDGE, edges);
  BRepFilletAPI_MakeFillet fillet{sharp};
  for (int i = 1; i <= edges.Extent(); ++i) {
    const TopoDS_Edge& edge = TopoDS::Edge(edges(i));
    const gp_Pnt a = BRep_Tool::Pnt(TopExp::FirstVertex(edge)), b = BRep_Tool::Pnt(TopExp::LastVertex(edge));
    if (std::hypot(a.X() - b.X(), a.Y() - b.Y()) < 1) fillet.Add(radius, edge);
  }
  return only_solid(drilled(fillet.Shape(), plate));
}

TopoDS_Solid trough(const Plate& plate, double radius) {
  Plate block = plate;
  block.back = block.front = plate.back;
  const gp_Ax2 axis{{plate.x, -100, plate.front + radius}, gp::DY()};
  return only_solid(drilled(
      BRepAlgoAPI_Cut{wedge(block), BRepPrimAPI_MakeCylinder{axis, radius, plate.width + 200}.Shape()}.Shape(), plate));
}

TopoDS_Solid dish(const Plate& plate, double radius) {
  Plate block = plate;
  block.front = plate.back;
  const gp_Ax2 axis{{plate.x, plate.y, plate.front}, gp::DZ()};
  return only_solid(
      drilled(BRepAlgoAPI_Cut{wedge(block),
                              BRepPrimAPI_MakeCone{axis, plate.hole / 2, radius, plate.back - plate.front}.Shape()}
                  .Shape(),
              plate));
}

TopoDS_Shape turned(const TopoDS_Shape& shape, double about_x_degrees, double about_z_degrees) {
  gp_Trsf over, round;
  over.SetRotation(gp::OX(), about_x_degrees * std::numbers::pi / 180);
  round.SetRotation(gp::OZ(), about_z_degrees * std::numbers::pi / 180);
  return BRepBuilderAPI_Transform{shape, round * over}.Shape();
}

TopoDS_Shape mirrored_left_right(const TopoDS_Shape& shape) {
  gp_Trsf mirror;
  mirror.SetMirror(gp_Ax2{{0, 0, 0}, gp::DX()});
  return BRepBuilderAPI_Transform{shape, mirror}.Shape();
}

std::string step_of(const TopoDS_Shape& shape, const char* unit, bool laid) {
  const sample::Folder folder{"step"};
  const std::string path = folder / "body.step";
  const brep::KernelGuard quiet;
  STEPControl_Controller::Init();
  Interface_Static::SetCVal("write.step.unit", unit);  // before there is a writer: it takes its unit then
  Interface_Static::SetIVal("write.surfacecurve.mode", laid ? 1 : 0);
  STEPControl_Writer writer;
  writer.Transfer(shape, STEPControl_AsIs);
  writer.Write(path.c_str());
  Interface_Static::SetCVal("write.step.unit", "MM");
  Interface_Static::SetIVal("write.surfacecurve.mode", 1);
  return sample::slurped(path);
}

}  // namespace fallwright::bodies
