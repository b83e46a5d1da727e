#include "exchange/document.hpp"

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

#include <BRep_Builder.hxx>
#include <TDF_Label.hxx>
#include <TDataStd_Name.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Iterator.hxx>
#include <TopoDS_Shell.hxx>
#include <TopoDS_Solid.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>

#include "exchange/palette.hpp"

namespace fallwright::exchange {
namespace {

void name(const TDF_Label& label, const std::string& text) {
  TDataStd_Name::Set(label, TCollection_ExtendedString{text.c_str(), true});
}

std::size_t count_edges(const TopoDS_Shape& face) {
  std::size_t count = 0;
  for (TopExp_Explorer edge{face, TopAbs_EDGE}; edge.More(); edge.Next()) ++count;
  return count;
}

/// The same solid with its faces in another order. The kernel's writer looks at all edges of a face for each of them
/// that it has not met yet: with hundreds of holes that is minutes, unless the faces in the holes come first.
TopoDS_Solid small_faces_first(const TopoDS_Solid& solid) {
  const BRep_Builder builder;
  TopoDS_Solid sorted;
  builder.MakeSolid(sorted);
  for (TopoDS_Iterator shell{solid, false, false}; shell.More(); shell.Next()) {
    std::vector<std::pair<std::size_t, TopoDS_Shape>> faces;
    for (TopoDS_Iterator face{shell.Value(), false, false}; face.More(); face.Next())
      faces.emplace_back(count_edges(face.Value()), face.Value());
    std::stable_sort(faces.begin(), faces.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    TopoDS_Shell again;
    builder.MakeShell(again);
    for (const auto& [_, face] : faces) builder.Add(again, face);
    again.Closed(shell.Value().Closed());
    builder.Add(sorted, again.Oriented(shell.Value().Orientation()));
  }
  return TopoDS::Solid(sorted.Oriented(solid.Orientation()));
}

}  // namespace

Handle(TDocStd_Document) to_document(const parts::Model& model) {
  Handle(TDocStd_Document) document;
  XCAFApp_Application::GetApplication()->NewDocument("BinXCAF", document);
  const Handle(XCAFDoc_ShapeTool) shapes = XCAFDoc_DocumentTool::ShapeTool(document->Main());
  const Handle(XCAFDoc_ColorTool) colours = XCAFDoc_DocumentTool::ColorTool(document->Main());
  const TDF_Label assembly = shapes->NewShape();
  name(assembly, root_name);
  std::map<const Standard_Transient*, TDF_Label> products;
  for (const parts::Solid& solid : model.solids) {
    const bool apart = solid.role == parts::Role::bed_spread;
    TDF_Label& product = products[solid.shape.TShape().get()];  // equal members share one
    if (product.IsNull()) {
      product = shapes->AddShape(small_faces_first(TopoDS::Solid(solid.shape.Located(TopLoc_Location{}))), false);
      name(product, solid.id);
      colours->SetColor(product, colour_of(solid.role), XCAFDoc_ColorSurf);
    }
    if (!apart) name(shapes->AddComponent(assembly, product, solid.shape.Location()), solid.id);
  }
  shapes->UpdateAssemblies();
  return document;
}

}  // namespace fallwright::exchange
