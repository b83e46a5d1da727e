/// The model as a kernel document with names and colours, from which STEP and glTF are written. Inside `exchange` only.
#pragma once

#include <TDocStd_Document.hxx>

#include "parts/model.hpp"

namespace fallwright::exchange {

enum class Before { leave_out, apart };  ///< solids that are gone once all is set: not at all, or beside the assembly

/// An assembly named by the job; every solid a component named by its id; equal members instances of one product.
Handle(TDocStd_Document) to_document(const parts::Model& model, Before before);

}  // namespace fallwright::exchange
