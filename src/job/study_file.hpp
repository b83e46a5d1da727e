/// A study's file: a base job, what varies of it, and what is asked.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/change.hpp"
#include "job/job.hpp"

namespace fallwright::job {

/// What the numbers of something that varies are: how they are told and drawn. `word` has none.
enum class Measure { word, count, length, fall, share, other };

/// Something that differs from variant to variant, with its values in the order given.
struct Varied {
  std::string name;  ///< the key's path, "drain.from_left"; with its entry, "survey.plumb[2].lean"; a reading's name
  Measure measure = Measure::word;
  std::vector<std::string> shown;  ///< each value as a person writes it
  std::vector<double> numbers;     ///< each value in mm or as a plain number; none for words
  std::vector<Change> changes;     ///< each value as a line of the job file; none for readings
  std::string now;                 ///< today's value as it is shown; empty where the job has none
  std::optional<double> now_number;
  std::size_t held = 0;  ///< the value that stands for today's: itself, else the nearest, else the first
};

enum class Way { all, samples };
enum class Vary { keys, readings };
enum class Aim { greatest_least_margin, fewest_bags, least_sticks, lowest_price };
const char* name_of(Aim aim);  ///< "greatest-least-margin" ...

/// A number or a word of report.json by its path, and where in the study's file it is asked for.
struct Asked {
  std::string path;
  unsigned line = 0, column = 0;
};

struct Study {
  std::string name;
  std::string file;    ///< as it was named
  std::string sha256;  ///< of the study's file and of the job; set by whoever read both
  Job job;             ///< today's
  Way way = Way::all;
  Vary vary = Vary::keys;
  std::uint64_t samples = 0, seed = 0;
  Aim aim = Aim::greatest_least_margin;
  std::vector<Asked> columns;
  std::vector<Asked> aim_at;  ///< checks whose margins the aim looks at; empty: all that can fail the job
  std::vector<Varied> keys;
  std::vector<Asked> map;  ///< two names, or one; empty: the first two keys, and with readings no map
};

/// Reads a study; `load` reads the job it names, by a path made relative to where the study's file stands. Everything
/// is held against that job: keys, values, entries. @throws diag::JobFaults with every fault of the file, or of the
/// job.
Study read_study(std::string_view text, const std::string& file, const std::function<Job(const std::string&)>& load);

/// What one run may take on.
inline constexpr double most_variants = 10'000'000;

}  // namespace fallwright::job
