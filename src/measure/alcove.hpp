/// The walls as solids: how far they reach in. Inside `measure` only.
#pragma once

#include <optional>
#include <string>

#include "measure/surface.hpp"
#include "parts/model.hpp"

namespace fallwright::measure {

/// How far solids whose id begins with `family` reach along `way` within a box.
std::optional<double> reach(const parts::Model& model, const std::string& family, const gp_Dir& way,
                            const Box3& within);

/// A wall's inside face at the floor, from its sole plate: x of a side wall at some y, y of the back wall at some x.
std::optional<double> wall_line(const parts::Model& model, job::Side side, double along);

/// Plan of the solids of a role.
std::optional<survey::Rect> plan_of(const parts::Model& model, parts::Role role);

}  // namespace fallwright::measure
