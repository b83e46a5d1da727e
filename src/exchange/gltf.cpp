#include "exchange/gltf.hpp"

#include <Message_ProgressRange.hxx>
#include <RWGltf_CafWriter.hxx>
#include <Standard_Failure.hxx>
#include <TColStd_IndexedDataMapOfStringString.hxx>

#include "diag/fault.hpp"
#include "exchange/document.hpp"
#include "exchange/mesh.hpp"

namespace fallwright::exchange {

void write_glb(const parts::Model& model, const std::string& path) try {
  for (const parts::Solid& solid : model.solids) mesh(solid);
  RWGltf_CafWriter writer{path.c_str(), /*theIsBinary=*/true};
  writer.SetTransformationFormat(RWGltf_WriterTrsfFormat_Mat4);
  writer.SetNodeNameFormat(RWMesh_NameFormat_Instance);
  writer.SetMeshNameFormat(RWMesh_NameFormat_Product);
  RWMesh_CoordinateSystemConverter axes;
  axes.SetInputLengthUnit(0.001);
  axes.SetInputCoordinateSystem(RWMesh_CoordinateSystem_Zup);
  axes.SetOutputLengthUnit(1);
  axes.SetOutputCoordinateSystem(RWMesh_CoordinateSystem_glTF);
  writer.ChangeCoordinateSystemConverter() = axes;
  TColStd_IndexedDataMapOfStringString about;
  if (!writer.Perform(to_document(model, Before::leave_out), about, Message_ProgressRange{}))
    throw diag::MachineError{path, "cannot be written"};
} catch (const Standard_Failure& e) {
  throw diag::ModelError{"model.glb", e.GetMessageString()};
}

}  // namespace fallwright::exchange
