#include "exchange/step.hpp"

#include <ctime>
#include <fstream>

#include <APIHeaderSection_MakeHeader.hxx>
#include <Interface_Static.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <STEPControl_Controller.hxx>
#include <StepData_StepModel.hxx>
#include <TCollection_HAsciiString.hxx>

#include "brep/guard.hpp"
#include "brep/kernel.hpp"
#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "exchange/document.hpp"
#include "exchange/step_text.hpp"

namespace fallwright::exchange {
namespace {

/// Unit, schema and product names are the kernel's process-wide settings: set here, and put back.
class StepSettings {
 public:
  StepSettings() {
    STEPControl_Controller::Init();
    for (Setting& s : settings_) {
      s.before = Interface_Static::CVal(s.name);
      Interface_Static::SetCVal(s.name, s.value);
    }
  }
  ~StepSettings() {
    for (const Setting& s : settings_) Interface_Static::SetCVal(s.name, s.before.c_str());
  }
  StepSettings(const StepSettings&) = delete;
  StepSettings& operator=(const StepSettings&) = delete;

 private:
  struct Setting {
    const char *name, *value;
    std::string before = {};
  };
  brep::KernelGuard guard_;
  Setting settings_[4] = {{"write.step.unit", "MM"},
                          {"write.step.schema", "AP214IS"},
                          {"write.step.product.name", "part"},
                          {"write.surfacecurve.mode", "Off"}};
};

std::string iso_time(long timestamp) {
  const std::time_t time = timestamp;
  std::tm utc{};
  gmtime_r(&time, &utc);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%S", &utc);
  return text;
}

void set_header(const Handle(StepData_StepModel) & step, long timestamp) {
  const auto text = [](const std::string& s) { return new TCollection_HAsciiString{s.c_str()}; };
  APIHeaderSection_MakeHeader header{step};
  header.SetName(text(root_name));
  header.SetTimeStamp(text(iso_time(timestamp)));
  header.SetAuthorValue(1, text(""));
  header.SetOrganizationValue(1, text(""));
  header.SetOriginatingSystem(text("fallwright"));
  header.SetAuthorisation(text(""));
}

/// The kernel's text, brought to one order, with the job's name, and put back. The kernel may keep a full disk to
/// itself: what it wrote to the end has the end's words.
void make_canonical(const std::string& path, const std::string& job) {
  const std::string text = diag::read_bytes(path);
  if (text.find("END-ISO-10303-21;") == std::string::npos)
    throw diag::MachineError{path, "cannot be written to its end"};
  std::ofstream out{path, std::ios::binary};
  out << named_step(canonical_step(text), root_name, job);
  out.close();
  if (!out) throw diag::MachineError{path, "cannot be written"};
}

void write(const parts::Model& model, const std::string& path, long timestamp) {
  const StepSettings settings;
  STEPCAFControl_Writer writer;
  writer.SetNameMode(true);
  writer.SetColorMode(true);
  writer.SetMaterialMode(false);
  if (!writer.Transfer(to_document(model), STEPControl_AsIs))
    throw diag::ModelError{"model.step", "the kernel could not translate the assembly"};
  set_header(writer.ChangeWriter().Model(), timestamp);
  if (writer.Write(path.c_str()) != IFSelect_RetDone) throw diag::MachineError{path, "cannot be written"};
  make_canonical(path, model.job.name);
}

}  // namespace

void write_step(const parts::Model& model, const std::string& path, long timestamp) {
  brep::guarded("model.step", [&] { write(model, path, timestamp); });
}

}  // namespace fallwright::exchange

extern "C" void fallwright_write_step(const fallwright::parts::Model& model, const std::string& path, long timestamp) {
  fallwright::exchange::write_step(model, path, timestamp);
}
