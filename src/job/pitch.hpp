/// How the base's floor is pitched to its drain. Inside `job` only.
#pragma once

#include "job/layout.hpp"

namespace fallwright::job {

/// Sets the facets' planes, with the drain's edge at height zero: they rise from the opening's level edges, or from the
/// centre of a round opening. A side whose edge already lies at the rim has no run and no facet.
/// @pre outline, opening and drain are placed.
void pitch_floor(const Job& job, Layout& layout);

/// The lowest point of the opening's edge: where water comes to the grate.
double opening_edge_low(const Job& job, const Layout& layout);

/// How far below the drain's edge, at zero or less, what lies under the floor is level within an opening that is not
/// round.
double level_in_opening(const Job& job, const Layout& layout);

/// How high the drain's edge must lie for a bed that rises under all facets alike, and is level within the opening, to
/// be nowhere thinner than asked over the floor as measured. Under the drain nothing is laid: what counts there is the
/// hole's edge, on which the drain's flange lies. @pre the floor is pitched, with its edge at height zero.
double edge_over_least_bed(const Job& job, const Layout& layout);

}  // namespace fallwright::job
