#include "drawing/assumed.hpp"

#include <algorithm>

#include "facts/assumed.hpp"
#include "units/length.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

std::string walls_text(const std::vector<std::string>& walls) {
  return units::listed(walls) + (walls.size() > 1 ? " walls" : " wall");
}

/// Whether anything is told as HOLD for them: a room may need nothing of its studs.
bool any_waits_for_studs(const Findings& findings) {
  const auto waits = [](const auto& row) { return row.hold && row.hold->on == takeoff::HangsOn::studs; };
  return std::any_of(findings.cuts.begin(), findings.cuts.end(), waits) ||
         std::any_of(findings.rows.begin(), findings.rows.end(), waits) || !findings.judgement.holds.loose.empty();
}

}  // namespace

std::vector<std::string> walls_of_assumed_studs(const Findings& findings, const std::vector<job::Side>& walls) {
  std::vector<std::string> assumed;
  for (const job::Side side : walls)
    if (facts::are_studs_assumed(findings.facts.room.studs, side)) assumed.emplace_back(job::name_of(side));
  return assumed;
}

std::string assumed_studs_note(const job::Job& job, const Findings& findings, const std::vector<job::Side>& walls,
                               bool shown) {
  const std::vector<std::string> assumed = walls_of_assumed_studs(findings, walls);
  if (assumed.empty()) return "";
  return "Studs of the " + walls_text(assumed) + " ASSUMED at " + units::to_text(job.walls.spacing, job.is_metric()) +
         ", not read" + (shown ? ": centres in brackets." : ".") +
         (any_waits_for_studs(findings) ? " What hangs on them: HOLD." : "");
}

std::string studs_to_find_first(const job::Job& job, const Findings& findings) {
  const std::vector<std::string> assumed = walls_of_assumed_studs(findings, job.alcove.walls);
  return assumed.empty() ? "" : "Find the studs of the " + walls_text(assumed) + ", which are drawn by assumption. ";
}

}  // namespace fallwright::drawing
