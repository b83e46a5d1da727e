#include "exchange/mesh.hpp"

#include <map>
#include <tuple>

#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>

#include "brep/guard.hpp"
#include "brep/skin.hpp"

namespace fallwright::exchange {

namespace {

struct ByPlace {
  bool operator()(const gp_Pnt& a, const gp_Pnt& b) const {
    return std::tuple{a.X(), a.Y(), a.Z()} < std::tuple{b.X(), b.Y(), b.Z()};
  }
};

/// Lays triangles on their face, where the writers of meshes look for them.
void lay_on(const TopoDS_Face& face, const std::vector<brep::Facet3>& triangles) {
  std::map<gp_Pnt, int, ByPlace> nodes;
  for (const brep::Facet3& t : triangles)
    for (const gp_Pnt& p : t) nodes.emplace(p, 0);
  const Handle(Poly_Triangulation) laid =
      new Poly_Triangulation(static_cast<int>(nodes.size()), static_cast<int>(triangles.size()), false);
  const gp_Trsf back = face.Location().Transformation().Inverted();
  int count = 0;
  for (auto& [p, number] : nodes) laid->SetNode(number = ++count, p.Transformed(back));
  const bool reversed = face.Orientation() == TopAbs_REVERSED;
  for (std::size_t i = 0; i < triangles.size(); ++i) {
    const brep::Facet3& t = triangles[i];
    const int a = nodes.at(t[0]), b = nodes.at(t[1]), c = nodes.at(t[2]);
    laid->SetTriangle(static_cast<int>(i) + 1, reversed ? Poly_Triangle{a, c, b} : Poly_Triangle{a, b, c});
  }
  BRep_Builder{}.UpdateFace(face, laid);
}

bool is_meshed(const TopoDS_Shape& shape) {
  TopLoc_Location place;
  TopExp_Explorer face{shape, TopAbs_FACE};
  return face.More() && !BRep_Tool::Triangulation(TopoDS::Face(face.Current()), place).IsNull();
}

}  // namespace

void mesh(const parts::Solid& solid) {
  if (is_meshed(solid.shape)) return;  // equal members share one shape
  brep::guarded(solid.id, [&] {
    // Where its shape was made, wherever this member stands: the same triangles, whoever asks first.
    const brep::Skin skin = brep::skin_of(solid.shape.Located(TopLoc_Location{}));
    for (const brep::Flat& flat : skin.flats) lay_on(flat.face, brep::triangles_of(flat));
    for (const brep::Round& round : skin.rounds) lay_on(round.face, brep::triangles_of(round));
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
