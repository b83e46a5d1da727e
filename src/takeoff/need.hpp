/// From a net quantity to a row of the buy list. Inside `takeoff` only.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "takeoff/takeoff.hpp"
#include "units/length.hpp"

namespace fallwright::takeoff {

/// What is needed of one thing, and how it is sold. `pack` is in `unit`; zero: sold by the unit itself.
struct Need {
  std::string item;
  double net = 0;
  std::string unit;
  double waste = 0, pack = 0;
  std::string pack_name;   ///< plural: "bags", "cartridges"
  std::string from;        ///< which solids, in words
  double doubt = 0;        ///< in `unit`, what readings that are off by their tolerances may add
  bool by_pieces = false;  ///< as in the row
};

/// Whole packs of what is needed with its waste; the basis says how near the last pack is to empty or full, since a
/// count that hangs on little is worth a second look.
Row to_row(const Need& need);

/// Counts a row's packs, of which `gross` is wanted in its unit, and adds them to its basis.
void tell_packs(Row& row, double gross);

/// A warning where a count of packs hangs on little: the last one is hardly begun, or hardly anything is left over.
/// Empty otherwise. Of what pieces are cut from offcuts are left over, however full it is counted.
std::string careful(double exact, const Row& row);

/// The job's units for what is bought: millimetres go in, ft or m, ft2 or m2, ft3 or L come out.
struct Units {
  bool metric = false;
  double length(double mm) const { return metric ? mm / 1000 : mm / 304.8; }
  double area(double mm2) const { return metric ? mm2 * 1e-6 : mm2 / (304.8 * 304.8); }
  double volume(double mm3) const { return metric ? mm3 * 1e-6 : mm3 / (304.8 * 304.8 * 304.8); }
  /// What a cartridge holds: in3 or mL.
  double small(double mm3) const {
    return metric ? mm3 * 1e-3 : mm3 / (units::inch_mm * units::inch_mm * units::inch_mm);
  }
  const char* length_unit() const { return metric ? "m" : "ft"; }
  const char* area_unit() const { return metric ? "m2" : "ft2"; }
  const char* volume_unit() const { return metric ? "L" : "ft3"; }
  const char* small_unit() const { return metric ? "mL" : "in3"; }
};
inline Units units_of(const job::Job& job) {
  return {job.is_metric()};
}

std::vector<Row> mortar_rows(const job::Job& job, const facts::Facts& facts);
/// What a base built on site takes beside mortar and tile: liner, reinforcement, forms along open edges.
std::vector<Row> site_built_rows(const job::Job& job, const facts::Facts& facts);
std::vector<Row> finish_rows(const job::Job& job, const facts::Facts& facts);
std::vector<Row> fastener_rows(const job::Job& job, const facts::Facts& facts, const std::vector<CutRow>& cuts);

}  // namespace fallwright::takeoff
