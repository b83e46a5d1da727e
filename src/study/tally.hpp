/// What all variants together say, taken in one by one; what it keeps does not grow with their number.
#pragma once

#include <vector>

#include "facts/study.hpp"
#include "study/plan.hpp"

namespace fallwright::study {

class Tally {
 public:
  /// `checks` in the order of their results; `today` judged.
  Tally(const Plan& plan, std::vector<facts::Check> checks, facts::Variant today);

  /// In the order of their numbers.
  void take(const facts::Variant& variant);
  facts::Study done();

 private:
  /// Of a check by tenths of a reading's range: how often it was settled, and how often it held.
  static constexpr std::size_t tenths = 10;
  struct Bins {
    std::size_t of[tenths] = {}, holds[tenths] = {};
  };

  bool is_better(const facts::Variant& a, const facts::Variant& b) const;
  bool is_tie(const facts::Variant& a, const facts::Variant& b) const;
  void take_best(const facts::Variant& variant);
  std::vector<facts::Tie> ties() const;
  std::vector<facts::Move> moves() const;
  void take_outcomes(const facts::Variant& variant);
  /// @param of_care also of checks that fail in no room
  facts::Doubt doubt_of(std::size_t reading, bool of_care) const;

  const Plan& plan_;
  std::vector<double> tolerances_;
  facts::Study all_;
  std::vector<std::vector<Bins>> bins_;  ///< for each reading, for each check
};

}  // namespace fallwright::study
