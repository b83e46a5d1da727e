/// What of the buy list and the cut list waits while checks fail, or until something is read or said.
#pragma once

#include <vector>

#include "facts/facts.hpp"
#include "facts/held.hpp"
#include "job/job.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::takeoff {

/// Says so of each row that waits; pieces, and the boards and shims of furring, know it from the cut list.
void hold_back(std::vector<Row>& rows, const std::vector<CutRow>& cuts, const job::Job& job, const facts::Facts& facts,
               const facts::Holds& holds);

/// "hangs on the base, which is not settled: 'floor falls enough' fails", "first find the studs and give their centres
/// (survey.studs): of the left wall, which nobody read".
std::string waits_text(const Hold& hold);

}  // namespace fallwright::takeoff
