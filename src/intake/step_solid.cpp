#include "intake/step_solid.hpp"

#include <sstream>
#include <vector>

#include <BRep_Tool.hxx>
#include <IFSelect_ReturnStatus.hxx>
#include <Interface_InterfaceModel.hxx>
#include <Interface_Static.hxx>
#include <STEPCAFControl_Reader.hxx>
#include <STEPControl_Controller.hxx>
#include <STEPControl_Reader.hxx>
#include <StepGeom_Axis2Placement3d.hxx>
#include <StepGeom_CartesianPoint.hxx>
#include <StepGeom_Direction.hxx>
#include <StepGeom_Line.hxx>
#include <StepGeom_Vector.hxx>
#include <StepShape_VertexPoint.hxx>
#include <TColStd_SequenceOfAsciiString.hxx>
#include <TDF_LabelSequence.hxx>
#include <TDocStd_Document.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedDataMapOfShapeListOfShape.hxx>
#include <TopoDS.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XSAlgo.hxx>
#include <XSAlgo_AlgoContainer.hxx>

#include "brep/kernel.hpp"
#include "job/body.hpp"

namespace fallwright::intake {
namespace {

/// Shapes as they are in the file. The kernel's mending would close gaps that the thing itself has, and takes three
/// quarters of the time that reading takes.
class Unmended : public XSAlgo_AlgoContainer {
 public:
  TopoDS_Shape ProcessShape(const TopoDS_Shape& shape, const Standard_Real, const Standard_Real, const Standard_CString,
                            const Standard_CString, Handle(Standard_Transient) &, const Message_ProgressRange&,
                            const Standard_Boolean) const override {
    return shape;
  }
};

/// How the kernel reads, for as long as this stands: lengths come in millimetres, nothing is mended, and
/// nothing is looked for that no one asks for.
class AsItIs {
 public:
  AsItIs() {
    STEPControl_Controller::Init();
    unit_ = Interface_Static::CVal(unit);
    smooth_ = Interface_Static::RVal(smooth);
    mending_ = XSAlgo::AlgoContainer();
    Interface_Static::SetCVal(unit, "MM");
    Interface_Static::SetRVal(smooth, 0);
    XSAlgo::SetAlgoContainer(new Unmended);
  }
  ~AsItIs() {
    XSAlgo::SetAlgoContainer(mending_);
    Interface_Static::SetRVal(smooth, smooth_);
    Interface_Static::SetCVal(unit, unit_.c_str());
  }
  AsItIs(const AsItIs&) = delete;
  AsItIs& operator=(const AsItIs&) = delete;

 private:
  static constexpr const char* unit = "xstep.cascade.unit";
  static constexpr const char* smooth =
      "read.encoderegularity.angle";  // zero: which edges are smooth is not looked for
  brep::KernelGuard guard_;
  std::string unit_;
  double smooth_ = 0;
  Handle(XSAlgo_AlgoContainer) mending_;
};

std::string unit_of(STEPCAFControl_Reader& reader) {
  TColStd_SequenceOfAsciiString lengths, angles, solid_angles;
  reader.ChangeReader().FileUnits(lengths, angles, solid_angles);
  std::string unit;
  for (const TCollection_AsciiString& name : lengths)
    if (const std::string each = name.ToCString(); unit.find(each) == std::string::npos)
      unit += (unit.empty() ? "" : ", ") + each;
  return unit;
}

bool is_in_space(const Handle(StepGeom_CartesianPoint) & point) {
  return !point.IsNull() && point->NbCoordinates() == 3;
}

bool is_in_space(const Handle(StepGeom_Direction) & way) {
  return !way.IsNull() && way->NbDirectionRatios() == 3;
}

/// Where a point of three coordinates is wanted, one of two is as good as none to the kernel; only what is drawn on a
/// face's own plane has two.
bool lacks_a_coordinate(const Handle(Standard_Transient) & entity) {
  if (const auto vertex = Handle(StepShape_VertexPoint)::DownCast(entity); !vertex.IsNull())
    return !is_in_space(Handle(StepGeom_CartesianPoint)::DownCast(vertex->VertexGeometry()));
  if (const auto place = Handle(StepGeom_Axis2Placement3d)::DownCast(entity); !place.IsNull())
    return !is_in_space(place->Location()) || (place->HasAxis() && !is_in_space(place->Axis())) ||
           (place->HasRefDirection() && !is_in_space(place->RefDirection()));
  if (const auto line = Handle(StepGeom_Line)::DownCast(entity); !line.IsNull())
    return line->Pnt().IsNull() || line->Dir().IsNull() ||
           is_in_space(line->Pnt()) != is_in_space(line->Dir()->Orientation());
  return false;
}

/// The kernel notes what it cannot make sense of, leaves it empty, and runs into that when it makes shapes. What tells
/// of colours and notes is not looked at, and may be what it likes.
void must_make_sense(const Handle(Interface_InterfaceModel) & model) {
  for (int i = 1; i <= model->NbEntities(); ++i) {
    if (!model->IsErrorEntity(i) && !lacks_a_coordinate(model->Value(i))) continue;
    const std::string type = model->Value(i)->DynamicType()->Name();
    if (!type.starts_with("StepVisual") && !type.starts_with("StepDimTol"))
      throw job::NoBody{"the file is damaged: one of its entities (" + type.substr(type.find('_') + 1) +
                        ") does not hold what it should. Export it again"};
  }
}

std::vector<TopoDS_Solid> solids_in(const Handle(TDocStd_Document) & document) {
  TDF_LabelSequence roots;
  XCAFDoc_DocumentTool::ShapeTool(document->Main())->GetFreeShapes(roots);
  std::vector<TopoDS_Solid> solids;
  for (const TDF_Label& root : roots)
    for (TopExp_Explorer solid{XCAFDoc_ShapeTool::GetShape(root), TopAbs_SOLID}; solid.More(); solid.Next())
      solids.push_back(TopoDS::Solid(solid.Current()));
  return solids;
}

/// Every edge of a closed skin parts two faces, or closes one that runs round.
void must_be_closed(const TopoDS_Solid& solid) {
  TopTools_IndexedDataMapOfShapeListOfShape faces;
  TopExp::MapShapesAndAncestors(solid, TopAbs_EDGE, TopAbs_FACE, faces);
  int open = 0;
  for (int i = 1; i <= faces.Extent(); ++i) {
    const TopoDS_Edge& edge = TopoDS::Edge(faces.FindKey(i));
    if (!BRep_Tool::Degenerated(edge) && faces(i).Extent() != 2) ++open;
  }
  if (open > 0 || faces.IsEmpty())
    throw job::NoBody{"its solid is not closed: " + std::to_string(open) +
                      " edges do not part two faces. Mend it where it was drawn; nothing is mended here"};
}

}  // namespace

StepSolid solid_of_step(const std::string& text) {
  const AsItIs settings;
  const Handle(XCAFApp_Application) application = XCAFApp_Application::GetApplication();
  Handle(TDocStd_Document) document;
  application->NewDocument("BinXCAF", document);
  STEPCAFControl_Reader reader;
  reader.SetNameMode(false);
  reader.SetColorMode(false);
  reader.SetLayerMode(false);
  reader.SetPropsMode(false);
  reader.SetGDTMode(false);
  reader.SetMatMode(false);
  reader.SetViewMode(false);
  std::istringstream in{text};
  if (reader.ChangeReader().ReadStream("base", in) != IFSelect_RetDone)
    throw job::NoBody{"the file is damaged: it is STEP, and its entities cannot be read"};
  must_make_sense(reader.ChangeReader().Model());
  const std::string unit = unit_of(reader);
  if (unit.empty()) throw job::NoBody{"the file does not say in which unit its lengths are. Export it again"};
  if (!reader.Transfer(document)) throw job::NoBody{"the file is damaged: no shape could be made of its entities"};
  const std::vector<TopoDS_Solid> solids = solids_in(document);
  application->Close(document);
  if (solids.size() != 1)
    throw job::NoBody{"the file holds " + (solids.empty() ? std::string{"no"} : std::to_string(solids.size())) +
                      " solids that could be made; allowed is one. Export the base alone"};
  must_be_closed(solids.front());
  return {solids.front(), unit};
}

}  // namespace fallwright::intake

extern "C" void fallwright_read_step(const std::string& text, fallwright::intake::StepSolid& read) {
  read = fallwright::intake::solid_of_step(text);
}
