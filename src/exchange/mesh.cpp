#include "exchange/mesh.hpp"

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>

#include "brep/guard.hpp"
#include "units/tolerance.hpp"

namespace fallwright::exchange {

void mesh(const parts::Solid& solid) {
  brep::guarded(solid.id, [&] {
    BRepMesh_IncrementalMesh{solid.shape, units::tolerance::mesh_mm, false, units::tolerance::mesh_angle_rad, false};
  });
}

std::vector<Triangle> triangles_of(const parts::Solid& solid) {
  mesh(solid);
  std::vector<Triangle> triangles;
  for (TopExp_Explorer it{solid.shape, TopAbs_FACE}; it.More(); it.Next()) {
    const TopoDS_Face& face = TopoDS::Face(it.Current());
    TopLoc_Location place;
    const Handle(Poly_Triangulation) faces = BRep_Tool::Triangulation(face, place);
    if (faces.IsNull()) throw diag::ModelError{solid.id, "one of its faces cannot be meshed"};
    for (int i = 1; i <= faces->NbTriangles(); ++i) {
      int n[3];
      faces->Triangle(i).Get(n[0], n[1], n[2]);
      if (face.Orientation() == TopAbs_REVERSED) std::swap(n[1], n[2]);
      Triangle t;
      for (std::size_t k = 0; k < 3; ++k) t[k] = faces->Node(n[k]).Transformed(place.Transformation());
      triangles.push_back(t);
    }
  }
  return triangles;
}

}  // namespace fallwright::exchange
