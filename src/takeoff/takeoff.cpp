#include "takeoff/takeoff.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

using units::decimals;

/// Volumes in the unit they are bought in.
struct Volume {
  bool metric;
  double of(double mm3) const { return metric ? mm3 * 1e-6 : mm3 / units::mm3_per_ft3; }
  const char* unit() const { return metric ? "L" : "ft3"; }
};

/// Whole bags, and a word where the count stands on little: the last bag hardly touched, or hardly any left over.
Row bags(const job::Job& job, double gross_mm3) {
  const double exact = gross_mm3 * 1e-9 / *job.bed.bag_yield_m3;
  const double whole = std::ceil(exact - units::tolerance::ratio), used_of_last = exact - (whole - 1);
  Row row{"mortar, bags", exact, "bags", whole, "bags", ""};
  row.basis = "volume with waste over " +
              units::volume_text(*job.bed.bag_yield_m3 * 1e9, job.unit == job::UnitSystem::metric) +
              " a bag = " + decimals(exact, 3);
  if (used_of_last < 0.1)
    row.basis += "; careful: the last bag is for " + decimals(used_of_last * 100, 0) + " % of a bag";
  if (used_of_last > 0.9)
    row.basis += "; careful: only " + decimals((1 - used_of_last) * 100, 0) + " % of a bag is left over";
  return row;
}

void add_mortar(const job::Job& job, const facts::Facts& facts, std::vector<Row>& rows) {
  const Volume v{job.unit == job::UnitSystem::metric};
  const double net = facts.bed.set_mm3, gross = net * (1 + job.bed.waste);
  rows.push_back({"mortar, bed as set", v.of(net), v.unit(), v.of(gross), v.unit(),
                  "solid 'bed', with " + decimals(job.bed.waste * 100, 0) + " % waste"});
  rows.push_back({"mortar, bed as spread", v.of(facts.bed.spread_mm3), v.unit(), v.of(facts.bed.spread_mm3), v.unit(),
                  "solid 'bed-spread', a level line " +
                      units::to_text(units::Length::mm(facts.bed.gauge_mm), v.metric) +
                      " above the datum; what is over is squeezed out and can be used again while it is fresh"});
  if (job.bed.bag_yield_m3)
    rows.push_back(bags(job, gross));
  else
    rows.push_back({"mortar, bags", v.of(gross), v.unit(), v.of(gross), v.unit(),
                    "no bag_yield in [bed]: divide by the yield printed on the bag"});
}

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
  std::vector<Row> rows;
  add_mortar(job, facts, rows);
  add_sticks(facts, metric, rows);
  add_sheets(facts, metric, rows);
  add_weights(facts, metric, rows);
  return rows;
}

}  // namespace fallwright::takeoff
