#include "takeoff/takeoff.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "takeoff/need.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

using units::decimals;

/// Sticks of one stock: an 8 ft or 2.4 m stick unless a piece is longer.
Row sticks(const std::string& stock, const std::vector<double>& lengths, bool metric) {
  const double kerf = kerf_mm(metric),
               stick = stick_length_mm(*std::max_element(lengths.begin(), lengths.end()), metric);
  double total = 0;
  for (const double length : lengths) total += length;
  const std::string size = metric ? decimals(stick / 1000, 1) + " m" : decimals(stick / 304.8, 0) + " ft";
  return {stock,
          metric ? total / 1000 : total / 304.8,
          metric ? "m" : "ft",
          static_cast<double>(sticks_needed(lengths, stick, kerf)),
          "sticks of " + size,
          std::to_string(lengths.size()) + " pieces, " + (metric ? "3 mm" : "1/8\"") +
              " kerf, longest piece first into the first stick with room: a count to order by, not yet a cutting plan; "
              "no allowance for knots and splits"};
}

void add_sticks(const facts::Facts& facts, bool metric, std::vector<Row>& rows) {
  std::map<std::string, std::vector<double>> by_stock;
  for (const facts::Member& member : facts.members)
    if (!member.sheet) by_stock[member.stock].push_back(member.length_mm);
  for (const auto& [stock, lengths] : by_stock) rows.push_back(sticks(stock, lengths, metric));
}

/// Deck of the bench by area; a full sheet is 4 x 8 ft (1220 x 2440 mm).
void add_sheets(const facts::Facts& facts, bool metric, std::vector<Row>& rows) {
  std::map<long, double> by_thickness;  // hundredths of a millimetre
  for (const facts::Member& member : facts.members)
    if (member.sheet) by_thickness[std::lround(member.thickness_mm * 100)] += member.length_mm * member.width_mm;
  const double sheet = metric ? 1220. * 2440 : 1219.2 * 2438.4, unit = metric ? 1e6 : 144 * units::mm2_per_in2;
  for (const auto& [thickness, area] : by_thickness)
    rows.push_back({"deck sheet " + units::to_text(units::Length::mm(static_cast<double>(thickness) / 100), metric),
                    area / unit, metric ? "m2" : "ft2", std::ceil(area / sheet - units::tolerance::ratio),
                    metric ? "sheets 1220 x 2440" : "sheets 4 x 8 ft",
                    "deck of the bench frame, by area; pieces are not nested"});
}

void add_weights(const facts::Facts& facts, bool metric, std::vector<Row>& rows) {
  for (const facts::Part& part : facts.parts) {
    if (part.role != "base" && part.role != "seat-block") continue;
    const double mass = metric ? part.mass_kg : part.mass_kg / units::kg_per_lb;
    rows.push_back({part.role == "base" ? "shower base" : "seat block", mass, metric ? "kg" : "lb", 1, "piece",
                    "solid '" + part.id + "' at the density in the job file"});
  }
}

}  // namespace

std::vector<Row> take_off(const job::Job& job, const facts::Facts& facts) {
  const bool metric = job.unit == job::UnitSystem::metric;
  std::vector<Row> rows = mortar_rows(job, facts);
  add_sticks(facts, metric, rows);
  add_sheets(facts, metric, rows);
  for (const auto& more : {finish_rows(job, facts), fastener_rows(job, facts)})
    rows.insert(rows.end(), more.begin(), more.end());
  add_weights(facts, metric, rows);
  return rows;
}

}  // namespace fallwright::takeoff
