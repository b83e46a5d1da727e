#include <algorithm>
#include <cmath>

#include "takeoff/takeoff.hpp"
#include "units/length.hpp"
#include "units/tolerance.hpp"
#include "units/words.hpp"

namespace fallwright::takeoff {
namespace {

/// How many stretches no longer than `apart` make up one; that which comes out even, to rounding, wants none besides.
int stretches_in(double length_mm, const job::Length& apart) {
  return static_cast<int>(std::ceil(length_mm / apart.in_mm() - units::tolerance::length_mm));
}

}  // namespace

UpstandFasteners upstand_fasteners(const job::Job& job, const facts::Facts& facts, const facts::Hold& upstand) {
  const double under = under_apron_mm(job, facts, upstand.side);  // at the end where the bench is
  const bool at_end = job.bench && job.bench->place == job::Side::right;
  const double from = at_end ? 0 : under, to = upstand.length_mm - (at_end ? under : 0);
  const job::Length& apart = job.buy.fasteners.upstand;
  UpstandFasteners all;
  double reached = from, last = to;
  const auto blocked = [&](std::size_t end, double stud_mm) {
    const double mm = upstand.ends[end].to_first_mm;
    const bool wanted =
        stud_mm > upstand.end_within_mm + units::tolerance::length_mm;  // the stud does not hold the end
    const bool nearer =
        wanted && mm < stud_mm - units::tolerance::length_mm && (end == 0 ? mm >= from : mm >= upstand.length_mm - to);
    if (nearer) all.at_ends.emplace_back(upstand.side, upstand.ends[end].at);
    return nearer;
  };
  if (!upstand.assumed && !upstand.studs_mm.empty()) {
    if (blocked(0, upstand.studs_mm.front().first)) reached = upstand.ends[0].to_first_mm;
    if (blocked(1, upstand.length_mm - upstand.studs_mm.back().second))
      last = upstand.length_mm - upstand.ends[1].to_first_mm;
  }
  const auto go_on_to = [&](double next) { all.between += std::max(0, stretches_in(next - reached, apart) - 1); };
  if (!upstand.assumed)
    for (const auto& [low, high] : upstand.studs_mm) {
      if (high < from || low > to) continue;
      ++all.at_studs;
      go_on_to(std::max(low, from));
      reached = std::min(high, to);
    }
  if (all.at_studs == 0) return {0, stretches_in(std::max(0.0, to - from), apart) + 1};  // along blocking alone
  go_on_to(last);
  return all;
}

UpstandFasteners upstand_fasteners(const job::Job& job, const facts::Facts& facts) {
  UpstandFasteners all;
  for (const facts::Hold& upstand : facts.holds) {
    const UpstandFasteners own = upstand_fasteners(job, facts, upstand);
    all.at_studs += own.at_studs, all.between += own.between;
    all.at_ends.insert(all.at_ends.end(), own.at_ends.begin(), own.at_ends.end());
  }
  return all;
}

std::string upstand_spacing(const job::Job& job, const UpstandFasteners& fasteners) {
  const std::string apart = "at most " + units::to_text(job.buy.fasteners.upstand, job.is_metric()) + " apart";
  if (fasteners.at_studs == 0) return apart;
  std::vector<std::string> ends;
  for (const auto& [upstand, end] : fasteners.at_ends)
    ends.push_back("the " + std::string{job::name_of(end)} + " end of the " + job::name_of(upstand) + " upstand");
  return "one at each stud, first to last" +
         (ends.empty() ? "" : ", and one into the blocking at " + units::listed(ends)) +
         (fasteners.between > 0 ? "; where studs leave more, " + apart : "");
}

}  // namespace fallwright::takeoff
