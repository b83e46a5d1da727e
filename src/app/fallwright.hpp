/// fallwright as a library: a job file in, results as plain values out. The program `fallwright` is made of the same
/// functions. Reading it takes nothing but the standard library; it may be used from several threads at once.
#pragma once

#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace fallwright {

/// What is wrong with a job file, with its place; line and column count from 1, and are 0 where there is none.
struct Fault {
  std::string file;
  int line = 0, column = 0;
  std::string key, message;
};

/// A job file that is wrong, or something asked for that cannot be: all that is wrong with it. `what()` has them as
/// text.
class Refused : public std::runtime_error {
 public:
  Refused(const std::string& text, std::vector<Fault> all) : std::runtime_error{text}, faults{std::move(all)} {}
  std::vector<Fault> faults;
};

/// The machine's failure: disk, permission, a missing file, the geometry kernel.
class Failed : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// A job file that was read and holds together. Copies share it.
class Job {
 public:
  struct Inside;
  explicit Job(std::shared_ptr<const Inside> inside) : inside_{std::move(inside)} {}
  const std::string& name() const;
  const Inside& inside() const { return *inside_; }

 private:
  std::shared_ptr<const Inside> inside_;
};

enum class Outcome { pass, fail, caution, not_checked, not_applicable };

/// One check. Values are in `unit`: "ratio", "span", "mm", "mm2", "mm3", "count" or "share".
struct Check {
  std::string id, title;
  Outcome outcome = Outcome::not_checked;
  std::optional<double> measured, least, greatest;
  std::string unit, source, where, advice;
};

/// Equal pieces to cut, under one mark.
struct Piece {
  std::string mark, stock, ends;
  int count = 0;
  double length_mm = 0, width_mm = 0, thickness_mm = 0;
};

/// "mortar, bags", 4, "bags".
struct Purchase {
  std::string item;
  double quantity = 0;
  std::string unit;
};

struct Results {
  std::string name;     ///< of the job
  std::string verdict;  ///< one sentence
  std::vector<Check> checks;
  std::vector<Piece> pieces;
  std::vector<Purchase> to_buy;  ///< now: what waits while a check fails is told in `json` alone
  std::string json;              ///< report.json: every number
  std::string folder;            ///< that has the files of `build`; empty after `check`
  bool fails() const;            ///< some check does
};

/// Reads a job file with the files it names; `prices` is a table of prices in place of its own, or empty.
/// @throws Refused, Failed.
Job load(const std::string& file, const std::string& prices = {});

/// Builds the solids, measures and judges them; writes nothing. @throws Failed.
Results check(const Job& job);

/// The same, and writes all files of the job into a folder of its own below `out`, whole or not at all.
/// @throws Refused where its folder cannot be replaced, Failed.
Results build(const Job& job, const std::string& out);

}  // namespace fallwright
