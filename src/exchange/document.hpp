/// The model as a kernel document with names and colours, from which STEP and glTF are written. Inside `exchange` only.
#pragma once

#include <TDocStd_Document.hxx>

#include "parts/model.hpp"

namespace fallwright::exchange {

enum class Before { leave_out, apart };  ///< solids that are gone once all is set: not at all, or beside the assembly

/// What the assembly is called in the document. The kernel's writers differ over letters beyond ASCII and over signs
/// that mean something in their format, so each file gets the job's own name afterwards, encoded as its format wants
/// it.
inline constexpr const char* root_name = "fallwright-assembly";

/// An assembly named `root_name`; every solid a component named by its id; equal members instances of one product.
Handle(TDocStd_Document) to_document(const parts::Model& model, Before before);

}  // namespace fallwright::exchange
