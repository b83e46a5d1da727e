#include <algorithm>
#include <cmath>
#include <map>

#include "takeoff/takeoff.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

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

double kerf_mm(bool metric) {
  return metric ? 3 : 25.4 / 8;
}

double stick_length_mm(double longest_mm, bool metric) {
  const double step = metric ? 300 : 2 * 304.8, usual = metric ? 2400 : 8 * 304.8;
  return std::max(usual, std::ceil(longest_mm / step - units::tolerance::ratio) * step);
}

std::vector<Stick> plan_sticks(const std::vector<CutRow>& cuts, bool metric) {
  std::map<std::string, std::vector<StickPiece>> by_stock;
  for (const CutRow& cut : cuts)
    if (!cut.sheet) by_stock[cut.stock].insert(by_stock[cut.stock].end(), cut.count, {cut.mark, cut.length_mm});
  std::vector<Stick> sticks;
  for (auto& [stock, pieces] : by_stock) {
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const auto& a, const auto& b) { return a.length_mm > b.length_mm; });
    const double length = stick_length_mm(pieces.front().length_mm, metric);
    const std::size_t first = sticks.size();
    std::vector<double> room;
    for (const StickPiece& piece : pieces) {
      const auto fits = [&](double left) { return left >= piece.length_mm - units::tolerance::length_mm; };
      const auto at = static_cast<std::size_t>(std::find_if(room.begin(), room.end(), fits) - room.begin());
      if (at == room.size()) room.push_back(length), sticks.push_back({stock, length, {}});
      sticks[first + at].pieces.push_back(piece);
      room[at] -= piece.length_mm + kerf_mm(metric);
    }
  }
  return sticks;
}

int sticks_needed(std::vector<double> lengths_mm, double stick_mm, double kerf_mm) {
  std::sort(lengths_mm.rbegin(), lengths_mm.rend());
  std::vector<double> left;
  for (const double length : lengths_mm) {
    const auto stick = std::find_if(left.begin(), left.end(),
                                    [&](double room) { return room >= length - units::tolerance::length_mm; });
    if (stick == left.end())
      left.push_back(stick_mm - length - kerf_mm);
    else
      *stick -= length + kerf_mm;
  }
  return static_cast<int>(left.size());
}

}  // namespace fallwright::takeoff
