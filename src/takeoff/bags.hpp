/// How many bags the bed takes, before they are counted whole.
#pragma once

#include <optional>
#include <vector>

#include "takeoff/takeoff.hpp"

namespace fallwright::takeoff {

/// Bags of mortar, or of cement where the mortar is mixed on site, with their waste: 3.55. Nothing where the job does
/// not say what a bag yields.
std::optional<double> bags_of_mortar(const std::vector<Row>& rows);

}  // namespace fallwright::takeoff
