/// Variants worked on side by side, and told in their order.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "facts/study.hpp"
#include "report/study.hpp"
#include "rules/result.hpp"
#include "study/plan.hpp"

namespace fallwright::measure {
class Memory;
}

namespace fallwright::app {

/// What of a job is worked out for a variant: its checks always, more only where a column or the aim asks for it.
struct Wanted {
  bool worst_cases = false, drain_window = false, rows = false, cuts = false, report = false, told = false;
};

/// Makes and judges variants of one study; threads share it.
class Judge {
 public:
  /// Judges today's job first, against which columns and aim are held. @throws diag::JobFaults for what a report has
  /// not.
  explicit Judge(const study::Plan& plan);
  ~Judge();

  const facts::Variant& today() const { return today_; }
  const std::vector<rules::Result>& todays_results() const { return results_; }
  std::vector<facts::Check> checks() const;
  /// A variant that cannot stand, or that the kernel cannot make, says why. Readings are drawn until they are such as a
  /// room may have together, as far as today's are.
  facts::Variant variant(std::size_t number) const;

 private:
  void look_at_today();
  facts::Variant judged(facts::Variant variant) const;
  bool is_no_room(const facts::Variant& variant) const;

  const study::Plan& plan_;
  Wanted wanted_;
  facts::Variant today_;
  std::vector<rules::Result> results_;
  std::vector<std::size_t> agreements_;  ///< checks that readings agree which hold today; of readings that vary only
  report::Columns columns_;
  std::unique_ptr<measure::Memory> memory_;  ///< of today's job, closed: threads only look at it
};

/// Variants from `first` up to `end`, in order, whatever the number of threads; few of them are held at a time.
/// `shown`: progress goes to standard error as lines with the time left.
void each_variant(const Judge& judge, std::size_t first, std::size_t end, unsigned threads, bool shown,
                  const std::function<void(const facts::Variant&)>& take);

}  // namespace fallwright::app
