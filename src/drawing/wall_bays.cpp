#include <algorithm>
#include <cmath>

#include "diag/fault.hpp"
#include "drawing/wall.hpp"
#include "takeoff/takeoff.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {

double running_of(const Subject& subject, const parts::Solid& stud) {
  const auto& studs = subject.facts.room.studs;
  const auto known =
      std::find_if(studs.begin(), studs.end(), [&](const facts::StudGap& gap) { return gap.part_id == stud.id; });
  diag::ensure(known != studs.end(), "every stud's place was measured");
  return known->running_mm;
}

std::string corner_words(const Subject& subject, job::Side wall) {
  if (wall != job::Side::back)
    return subject.job().alcove.has_wall(job::Side::back) ? "back corner" : "wall's back end";
  const std::string hook = left_face(subject.job());
  return hook == "left stud face" ? "back left corner" : hook;
}

std::string words_of_liner(const Subject& subject, const Pen& pen) {
  const bool threshold = subject.facts.heights.threshold_greatest_mm.has_value(),
             top = takeoff::liner_top_mm(subject.job(), subject.facts).has_value();
  return "Long dashes: no fastener lower, " + pen.said(25.4) + " above the " +
         (threshold ? "finished threshold" : "finished floor's highest edge") + ": the liner stands before the studs" +
         (top ? ", up to the dashes and dots." : ".");
}

bool bays_read_apart(const Subject& subject, const facts::Family& wall, const View& view) {
  const bool metric = subject.job().is_metric();
  const auto rounded = [&](double mm) { return units::round_to_tape(units::Length::mm(mm), metric).in_mm(); };
  const double stock = subject.job().walls.stock.thickness.in_mm();
  if (subject.job().walls.stock.is_steel()) return false;
  std::vector<std::pair<double, double>> studs;  // middle as it is seen, running
  for (const parts::Solid& solid : subject.model.solids)
    if (solid.part.family == wall && solid.part.kind == parts::Kind::stud) {
      const Frame f = extent(solid, view);
      studs.emplace_back((f.x0 + f.x1) / 2, running_of(subject, solid));
    }
  std::sort(studs.begin(), studs.end());
  for (const takeoff::CutRow& cut : subject.cuts)
    for (const std::string& id : cut.part_ids) {
      const parts::Solid* block = subject.model.find(id);
      if (cut.furring || !block || block->part.family != wall || block->part.kind != parts::Kind::blocking) continue;
      const Frame f = extent(*block, view);
      const double middle = (f.x0 + f.x1) / 2;
      const auto right = std::find_if(studs.begin(), studs.end(), [&](const auto& s) { return s.first > middle; });
      if (right == studs.begin() || right == studs.end()) continue;
      const double bay = std::abs(rounded(right->second) - rounded(std::prev(right)->second)) - stock;
      if (std::abs(bay - rounded(cut.length_mm)) > 0.5 * units::tape_mark_mm(metric)) return true;
    }
  return false;
}

}  // namespace fallwright::drawing
