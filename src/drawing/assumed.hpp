/// What sheets say of studs that stand and that nobody read.
#pragma once

#include <string>
#include <vector>

#include "drawing/draw.hpp"

namespace fallwright::drawing {

/// Of these walls those whose studs are drawn by assumption.
std::vector<std::string> walls_of_assumed_studs(const Findings& findings, const std::vector<job::Side>& walls);

/// "Studs of the left and right walls are ASSUMED at 16\", not read: ..."; empty where all of these walls were read.
/// `shown`: their centres stand on the sheet, in brackets.
std::string assumed_studs_note(const job::Job& job, const Findings& findings, const std::vector<job::Side>& walls,
                               bool shown);

/// "Find the studs of the left wall, which are drawn by assumption. ", before other work at walls; likewise empty.
std::string studs_to_find_first(const job::Job& job, const Findings& findings);

}  // namespace fallwright::drawing
