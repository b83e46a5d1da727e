/// How far two solids are apart. Inside `measure` only.
#pragma once

#include <optional>

#include <gp_Pnt.hxx>

#include "brep/skin.hpp"

namespace fallwright::measure {

struct Apart {
  double mm = 0;
  gp_Pnt at;  ///< on the first solid: the middle of all places that are as near; along an arc of what both boxes share
};

/// The least distance between the surfaces of two solids, exact: flat faces by their corners and edges, the kernel
/// where a curve may come nearest. Nothing when it is more than `reach_mm`.
std::optional<Apart> apart(const brep::Skin& a, const brep::Skin& b, double reach_mm);

}  // namespace fallwright::measure
