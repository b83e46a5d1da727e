/// The one table of the job file's keys. Reading, the starter, the JSON Schema and the reference page follow from it.
/// Inside `job` only.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace fallwright::job {

enum class Kind {
  text,
  day,     ///< "2026-12-02"
  moment,  ///< "2026-12-02 08:30"
  choice,
  words,  ///< a list of words, each of the choices at most once
  integer,
  length,
  lengths,
  reading,  ///< a length, or { length, tolerance, face }, or a list of these taken by several people
  points,   ///< a list of [x, y, height]
  rows,     ///< a list of lists of lengths
  fall,
  volume,
  area,
  density,
  mass,
  stress,
  mix,  ///< parts by volume: cement : sand, or cement : lime : sand
  share,
  stock
};

/// A value that was read, whatever its kind; only the field of its kind is set.
struct Value {
  std::string text;                ///< text, day, moment, choice
  double number = 0;               ///< integer; length in mm; fall, volume, area, density, mass, share in SI; stress in
                                   ///< N/mm2
  std::vector<std::string> words;  ///< words
  std::vector<double> numbers;     ///< lengths, mm; mix, parts; reading: each of several, mm
  std::vector<std::vector<double>> rows = {};  ///< points, rows; mm
  std::optional<double> tolerance = {};        ///< reading; the widest of several, mm
  std::optional<survey::Face> face = {};       ///< reading
  double spread = 0;                           ///< reading: between the highest and the lowest of several, mm
  Stock stock;
  Length length() const { return Length::mm(number); }
  Fall fall() const { return Fall::ratio(number); }
};

enum class Presence { required, defaulted, optional };

struct Key {
  std::string path;  ///< "base.ribs.columns"
  Kind kind;
  Presence presence;
  std::string inch, metric;  ///< default as TOML text, or an example where there is none
  double least, greatest;    ///< SI; for texts and lists unused
  std::string about;         ///< one line, trade words
  std::vector<std::string> choices;
  std::function<void(Job&, const Value&)> store;
  const std::string& usual(UnitSystem unit) const { return unit == UnitSystem::inch ? inch : metric; }
  std::string section() const { return path.substr(0, path.rfind('.')); }
  std::string name() const { return path.substr(path.rfind('.') + 1); }
};

const std::vector<Key>& keys();

/// Sections in file order with a line about each.
struct Section {
  std::string path, about;
  bool optional = false;
  std::function<void(Job&)> begin = {};  ///< of a section that may stand several times ([[path]]): adds an entry
  bool repeats() const { return static_cast<bool>(begin); }
};
const std::vector<Section>& sections();

const char* name_of(Kind kind);

}  // namespace fallwright::job
