#include "takeoff/ripping.hpp"

#include <algorithm>

#include "takeoff/cutting.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

/// The strips' thicknesses, the thickest first.
std::vector<double> thicknesses_of(const std::vector<const CutRow*>& strips) {
  std::vector<double> all;
  for (const CutRow* cut : strips) all.insert(all.end(), static_cast<std::size_t>(cut->count), cut->thickness_mm);
  std::sort(all.rbegin(), all.rend());
  return all;
}

/// The shortest of some sticks that holds a piece between its trimmed ends; 0: none does.
double shortest_mm(const std::vector<units::Length>& sticks, double piece_mm, double trim_mm) {
  double shortest = 0;
  for (const units::Length& stick : sticks) {
    const double usable = stick.in_mm() - 2 * trim_mm + units::tolerance::length_mm;
    if (usable >= piece_mm && (shortest == 0 || stick.in_mm() < shortest)) shortest = stick.in_mm();
  }
  return shortest;
}

}  // namespace

std::optional<Boards> boards_to_rip(const job::Job& job, const std::vector<CutRow>& cuts) {
  const job::Stock& stock = job.walls.stock;
  std::vector<const CutRow*> strips;
  double longest = 0, widest = 0, thickest = 0;
  for (const CutRow& cut : cuts) {
    if (!cut.furring || cut.is_shim() || cut.hold) continue;
    strips.push_back(&cut);
    longest = std::max(longest, cut.length_mm), widest = std::max(widest, cut.width_mm);
    thickest = std::max(thickest, cut.thickness_mm);
  }
  const double kerf = job.cuts.kerf.in_mm(), width = stock.depth.in_mm() + units::tolerance::length_mm;
  if (strips.empty() || stock.is_steel() || widest > stock.thickness.in_mm() + units::tolerance::length_mm ||
      thickest + kerf > width)
    return std::nullopt;
  Boards boards;
  boards.length_mm = shortest_mm(job.cuts.preferred, longest, job.cuts.trim.in_mm());
  if (boards.length_mm == 0) boards.length_mm = shortest_mm(job.cuts.sticks, longest, job.cuts.trim.in_mm());
  if (boards.length_mm == 0) return std::nullopt;
  std::vector<double> taken;  // of each board's width; every strip goes into the first that has room
  for (const double thick : thicknesses_of(strips)) {
    const auto board = std::find_if(taken.begin(), taken.end(), [&](double mm) { return mm + thick + kerf <= width; });
    if (board == taken.end())
      taken.push_back(thick + kerf);
    else
      *board += thick + kerf;
    ++boards.strips;
  }
  boards.count = static_cast<int>(taken.size());
  return boards;
}

std::string ripped_together(const job::Job& job, const std::vector<CutRow>& cuts) {
  const auto boards = boards_to_rip(job, cuts);
  if (!boards) return "";
  const bool metric = job.is_metric();
  int waiting = 0;
  for (const CutRow& cut : cuts)
    if (cut.furring && !cut.is_shim() && cut.hold) waiting += cut.count;
  const std::string strips = std::to_string(boards->strips), more = std::to_string(waiting);
  return (boards->strips > 1 ? (waiting > 0 ? "" : "all ") + strips + " strips side by side from "
          : waiting > 0      ? "one strip from "
                             : "its one strip from ") +
         std::to_string(boards->count) + " of " + job.walls.stock.name + ", " + stick_text(boards->length_mm, metric) +
         " long, a saw cut of " + kerf_text(job.cuts.kerf.in_mm(), metric) + " beside each" +
         (waiting > 0 ? "; " + more + (waiting == 1 ? " more waits" : " more wait") + ", on HOLD" : "");
}

void tell_boards(const job::Job& job, const std::vector<CutRow>& cuts, std::vector<Row>& rows) {
  const std::string together = ripped_together(job, cuts), told{rip_from_wider};
  for (Row& row : rows)
    if (const std::size_t at = row.basis.find(told); at != std::string::npos)
      row.basis = row.basis.substr(0, at + told.size()) + (together.empty() || row.hold ? "" : ": " + together);
}

}  // namespace fallwright::takeoff
