#include <algorithm>
#include <cmath>

#include "takeoff/takeoff.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::takeoff {
namespace {

constexpr double square_deg = 0.25;  ///< 1/64 in over the depth of a 2x4: no saw is set finer

std::string ends_of(const facts::Member& member) {
  const auto& [a, b] = member.end_angle_deg;
  if (a < square_deg && b < square_deg) return "square";
  return units::decimals(a, 1) + " and " + units::decimals(b, 1) + " deg from square";
}

bool alike(const CutRow& row, const facts::Member& member, double length, const std::string& ends) {
  constexpr double same = 0.05;
  return row.stock == member.stock && std::abs(row.length_mm - length) < same && row.ends == ends &&
         std::abs(row.width_mm - member.width_mm) < same && std::abs(row.thickness_mm - member.thickness_mm) < same;
}

/// A, B ... Z, AA, AB ...
std::string mark_of(std::size_t index) {
  std::string mark;
  for (std::size_t n = index + 1; n > 0; n = (n - 1) / 26)
    mark.insert(mark.begin(), static_cast<char>('A' + (n - 1) % 26));
  return mark;
}

}  // namespace

std::vector<CutRow> cut_list(const facts::Facts& facts, bool metric) {
  std::vector<CutRow> rows;
  for (const facts::Member& member : facts.members) {
    const auto rounded = [&](double mm) { return units::round_to_tape(units::Length::mm(mm), metric).in_mm(); };
    const double length = rounded(member.length_mm);
    const std::string ends = ends_of(member);
    auto row = std::find_if(rows.begin(), rows.end(), [&](const CutRow& r) { return alike(r, member, length, ends); });
    if (row == rows.end())
      row = rows.insert(rows.end(), {"",
                                     {},
                                     member.stock,
                                     length,
                                     rounded(member.short_mm),
                                     member.width_mm,
                                     member.thickness_mm,
                                     0,
                                     ends,
                                     member.sheet,
                                     member.steel});
    row->part_ids.push_back(member.part_id);
    ++row->count;
  }
  std::stable_sort(rows.begin(), rows.end(), [](const CutRow& a, const CutRow& b) {
    if (a.sheet != b.sheet) return b.sheet;
    return a.stock != b.stock ? a.stock < b.stock : a.length_mm > b.length_mm;
  });
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i].mark = mark_of(i);
  return rows;
}

}  // namespace fallwright::takeoff
