/// What of the buy list and the cut list waits while checks fail.
#pragma once

#include <vector>

#include "facts/facts.hpp"
#include "facts/held.hpp"
#include "job/job.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::takeoff {

/// Says so of each row and each piece that waits.
void hold_back(std::vector<Row>& rows, std::vector<CutRow>& cuts, const job::Job& job, const facts::Facts& facts,
               const facts::Holds& holds);

/// "hangs on the base, which is not settled: 'floor falls enough' fails".
std::string waits_text(const Hold& hold);

}  // namespace fallwright::takeoff
