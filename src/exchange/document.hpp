/// The model as a kernel document with names and colours, from which STEP is written. Inside `exchange` only.
#pragma once

#include <TDocStd_Document.hxx>

#include "parts/model.hpp"

namespace fallwright::exchange {

/// What the assembly is called in the document. The kernel's writer has its own ways with letters beyond ASCII and with
/// signs that mean something in its format, so the file gets the job's own name afterwards, encoded as it wants it.
inline constexpr const char* root_name = "fallwright-assembly";

/// An assembly named `root_name`; every solid a component named by its id; equal members instances of one product. The
/// bed as spread, which is gone once all is set, stands beside the assembly.
Handle(TDocStd_Document) to_document(const parts::Model& model);

}  // namespace fallwright::exchange
