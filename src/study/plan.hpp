/// Which variants a study has: each by its number, so that any share of them can be made anywhere.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include "facts/study.hpp"
#include "job/study_file.hpp"

namespace fallwright::study {

struct Doubt;

class Plan {
 public:
  /// @throws diag::JobFaults where readings are to vary and the job has none, or the map names one that is not there.
  explicit Plan(job::Study study);
  ~Plan();

  const job::Study& study() const { return study_; }
  /// What varies: the study's keys, or the readings with their offsets on the map.
  const std::vector<job::Varied>& varied() const { return varied_; }
  std::size_t count() const { return own_ + for_map_; }
  /// A variant as yet unjudged. @param draw from 0, of readings that are drawn anew. @pre number < count()
  facts::Variant nth(std::size_t number, std::size_t draw = 0) const;
  /// Its job. @throws diag::JobFaults where it cannot stand.
  job::Job job_of(const facts::Variant& variant) const;

  /// The map with no node known yet; nothing where the study has none.
  std::optional<facts::Map> map() const { return map_; }
  /// Which of the map's nodes a variant is.
  std::optional<std::size_t> node_of(const facts::Variant& variant) const;
  /// How far each reading may be off; none where keys vary.
  std::vector<double> tolerances_mm() const;

 private:
  void take_readings();
  void lay_map();
  std::size_t named(const job::Asked& asked) const;

  job::Study study_;
  std::unique_ptr<const job::Original> original_;
  std::vector<Doubt> doubts_;
  std::vector<job::Varied> varied_;
  std::optional<facts::Map> map_;
  std::size_t own_ = 0, for_map_ = 0;
};

}  // namespace fallwright::study
