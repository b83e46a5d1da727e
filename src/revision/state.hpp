/// A job as it stood at one time, as far as two times are compared: from its results, or read back from report.json.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "job/written.hpp"
#include "rules/as_built.hpp"
#include "rules/result.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::revision {

/// Of lengths, those that a least or a greatest one is among round as such are told everywhere.
enum class Quantity { length, least, greatest, volume, fall };

/// What somebody marks, spreads or holds a level to.
struct Size {
  std::string name;
  Quantity quantity = Quantity::length;
  double value = 0;  ///< mm, mm3, ratio
};

/// What is ordered in one piece, by its solid: from the least corner of its box on.
struct Article {
  std::string item;  ///< as the buy list calls it
  std::array<double, 3> size_mm{}, middle_mm{};
  std::array<double, 3> drain_mm{};  ///< of a base: its drain's least corner
  double volume_mm3 = 0, area_mm2 = 0;
};

struct State {
  job::Job job;  ///< of one read back from report.json only name, unit, file and saw cut
  std::vector<job::WrittenKey> keys;
  std::vector<Size> sizes;
  std::vector<rules::Result> results;
  std::vector<takeoff::CutRow> cuts;
  std::vector<takeoff::Row> rows;
  std::vector<Article> articles = {};
  std::vector<facts::Point> spots = {};  ///< of the floor, as read: from the left face, from the entry, above the datum
  std::vector<rules::BuiltRow> built = {};  ///< of the record, as far as there is one
};

State state_of(const job::Job& job, const facts::Facts& facts, const std::vector<rules::Result>& results,
               const std::vector<takeoff::CutRow>& cuts, const std::vector<takeoff::Row>& rows);

/// From the text of a report.json; `file` names it in messages.
/// @throws diag::JobFaults for what is no report of this program, or one of another schema.
State read_state(const std::string& text, const std::string& file);

/// What the reports of this program say that they are.
inline constexpr int report_schema = 2;

}  // namespace fallwright::revision
