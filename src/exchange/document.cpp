#include "exchange/document.hpp"

#include <TDF_Label.hxx>
#include <TDataStd_Name.hxx>
#include <TopLoc_Location.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XCAFDoc_VisMaterial.hxx>
#include <XCAFDoc_VisMaterialTool.hxx>
#include <map>

#include "exchange/palette.hpp"

namespace fallwright::exchange {
namespace {

void name(const TDF_Label& label, const std::string& text) {
  TDataStd_Name::Set(label, TCollection_ExtendedString{text.c_str(), true});
}

/// One material per role: viewers that know no plain colours show these.
class Materials {
 public:
  explicit Materials(const TDF_Label& root) : tool_{XCAFDoc_DocumentTool::VisMaterialTool(root)} {}

  void paint(const TDF_Label& label, parts::Role role) {
    TDF_Label& material = known_[role];
    if (material.IsNull()) {
      XCAFDoc_VisMaterialPBR look;
      look.BaseColor = Quantity_ColorRGBA{colour_of(role)};
      look.Metallic = 0;
      look.Roughness = 0.8f;
      const Handle(XCAFDoc_VisMaterial) vis = new XCAFDoc_VisMaterial;
      vis->SetPbrMaterial(look);
      material = tool_->AddMaterial(vis, parts::name_of(role));
    }
    tool_->SetShapeMaterial(label, material);
  }

 private:
  Handle(XCAFDoc_VisMaterialTool) tool_;
  std::map<parts::Role, TDF_Label> known_;
};

}  // namespace

Handle(TDocStd_Document) to_document(const parts::Model& model, Before before) {
  Handle(TDocStd_Document) document;
  XCAFApp_Application::GetApplication()->NewDocument("BinXCAF", document);
  const Handle(XCAFDoc_ShapeTool) shapes = XCAFDoc_DocumentTool::ShapeTool(document->Main());
  const Handle(XCAFDoc_ColorTool) colours = XCAFDoc_DocumentTool::ColorTool(document->Main());
  Materials materials{document->Main()};
  const TDF_Label assembly = shapes->NewShape();
  name(assembly, root_name);
  for (const parts::Solid& solid : model.solids) {
    const bool apart = solid.role == parts::Role::bed_spread;
    if (apart && before == Before::leave_out) continue;
    const TopoDS_Shape product_shape = solid.shape.Located(TopLoc_Location{});
    TDF_Label product = shapes->FindShape(product_shape);
    if (product.IsNull()) {
      product = shapes->AddShape(product_shape, false);
      name(product, solid.id);
      colours->SetColor(product, colour_of(solid.role), XCAFDoc_ColorSurf);
      materials.paint(product, solid.role);
    }
    if (!apart) name(shapes->AddComponent(assembly, product, solid.shape.Location()), solid.id);
  }
  shapes->UpdateAssemblies();
  return document;
}

}  // namespace fallwright::exchange
