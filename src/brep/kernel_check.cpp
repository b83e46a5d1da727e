#include <algorithm>
#include <array>
#include <vector>

#include <BRepCheck_Analyzer.hxx>
#include <BRepCheck_Shell.hxx>
#include <BRepTools.hxx>
#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <Geom_Surface.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Shell.hxx>
#include <TopoDS_Wire.hxx>

#include "brep/properties.hpp"
#include "units/tolerance.hpp"

namespace fallwright::brep {
namespace {

/// The kernel compares every hole of a face with every other. Past so many they are looked at apart.
constexpr std::size_t few_holes = 100;

struct Hole {
  TopoDS_Shape wire;
  std::array<double, 6> box;
};

std::size_t count_wires(const TopoDS_Face& face) {
  std::size_t count = 0;
  for (TopExp_Explorer wire{face, TopAbs_WIRE}; wire.More(); wire.Next()) ++count;
  return count;
}

std::vector<Hole> holes_of(const TopoDS_Face& face, const TopoDS_Wire& outer) {
  std::vector<Hole> holes;
  for (TopExp_Explorer wire{face, TopAbs_WIRE}; wire.More(); wire.Next())
    if (!wire.Current().IsSame(outer)) holes.push_back({wire.Current(), box_of(wire.Current())});
  return holes;
}

/// The same face with some of its holes.
bool is_valid_with(const TopoDS_Face& face, const TopoDS_Wire& outer, const std::vector<TopoDS_Shape>& holes) {
  const BRep_Builder builder;
  TopoDS_Face part;
  TopLoc_Location place;
  const Handle(Geom_Surface) surface = BRep_Tool::Surface(face, place);
  builder.MakeFace(part, surface, place, BRep_Tool::Tolerance(face));
  builder.Add(part, outer);
  for (const TopoDS_Shape& hole : holes) builder.Add(part, hole);
  return BRepCheck_Analyzer{part}.IsValid();
}

bool meet(const std::array<double, 6>& a, const std::array<double, 6>& b) {
  constexpr double weld = units::tolerance::weld_mm;
  for (std::size_t i = 0; i < 3; ++i)
    if (a[i] > b[i + 3] + weld || b[i] > a[i + 3] + weld) return false;
  return true;
}

/// A face of many holes, a few at a time: holes whose boxes lie apart cannot meet, so only those are checked together
/// whose boxes hang together.
bool is_valid_piece_by_piece(TopoDS_Face face) {
  face.Orientation(TopAbs_FORWARD);  // its wires as they were added, so that they can be added again
  const TopoDS_Wire outer = BRepTools::OuterWire(face);
  std::vector<Hole> left = holes_of(face, outer);
  while (!left.empty()) {
    std::vector<Hole> together{left.back()};
    left.pop_back();
    for (std::size_t i = 0; i < together.size(); ++i) {
      const auto apart = [box = together[i].box](const Hole& hole) { return !meet(hole.box, box); };
      const auto near = std::stable_partition(left.begin(), left.end(), apart);
      together.insert(together.end(), near, left.end());
      left.erase(near, left.end());
    }
    std::vector<TopoDS_Shape> wires;
    for (const Hole& hole : together) wires.push_back(hole.wire);
    if (!is_valid_with(face, outer, wires)) return false;
  }
  return true;
}

}  // namespace

bool is_valid_to_kernel(const TopoDS_Face& given, const std::set<std::size_t>& rings) {
  TopoDS_Face face = given;
  face.Orientation(TopAbs_FORWARD);  // its wires as they were added, so that they can be added again
  const TopoDS_Wire outer = BRepTools::OuterWire(face);
  std::vector<TopoDS_Shape> holes;
  std::size_t at = 0;
  for (TopExp_Explorer wire{face, TopAbs_WIRE}; wire.More(); wire.Next(), ++at)
    if (rings.contains(at) && !wire.Current().IsSame(outer)) holes.push_back(wire.Current());
  return is_valid_with(face, outer, holes);
}

bool is_valid_face_to_kernel(const TopoDS_Face& face) {
  return count_wires(face) > few_holes ? is_valid_piece_by_piece(face) : BRepCheck_Analyzer{face}.IsValid();
}

bool is_valid_to_kernel(const TopoDS_Shape& solid) {
  std::vector<TopoDS_Face> faces;
  for (TopExp_Explorer face{solid, TopAbs_FACE}; face.More(); face.Next())
    faces.push_back(TopoDS::Face(face.Current()));
  const auto perforated = [](const TopoDS_Face& face) { return count_wires(face) > few_holes; };
  if (std::none_of(faces.begin(), faces.end(), perforated)) return BRepCheck_Analyzer{solid}.IsValid();
  for (TopExp_Explorer shell{solid, TopAbs_SHELL}; shell.More(); shell.Next()) {
    const Handle(BRepCheck_Shell) check = new BRepCheck_Shell{TopoDS::Shell(shell.Current())};
    if (check->Closed() != BRepCheck_NoError || check->Orientation() != BRepCheck_NoError) return false;
  }
  return std::all_of(faces.begin(), faces.end(), is_valid_face_to_kernel);
}

}  // namespace fallwright::brep
