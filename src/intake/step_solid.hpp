/// The solid in a STEP file, through the kernel. Inside `intake` only.
#pragma once

#include <string>

#include <TopoDS_Solid.hxx>

namespace fallwright::intake {

struct StepSolid {
  TopoDS_Solid solid;  ///< where it stands in the file, in millimetres whatever the file's unit
  std::string unit;    ///< the file's own word
};

/// Reads without mending. @pre `scan_step` found nothing wrong.
/// @throws job::NoBody for what the kernel cannot read, and for a solid that is not closed.
StepSolid solid_of_step(const std::string& text);

}  // namespace fallwright::intake

/// The same by the name that the program loads it by, see brep/later.hpp.
extern "C" void fallwright_read_step(const std::string& text, fallwright::intake::StepSolid& read);
