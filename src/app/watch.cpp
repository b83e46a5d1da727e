#include "app/watch.hpp"

#include <iostream>
#include <memory>

#include "app/build.hpp"
#include "app/failure.hpp"
#include "app/saved.hpp"
#include "diag/fault.hpp"
#include "job/body.hpp"
#include "report/changed_text.hpp"

namespace fallwright::app {
namespace {

class Silent : public Progress {
 public:
  void stage(const std::string&, const std::string&) override {}
};

/// The job file and what it names, all of which decide the verdict.
std::vector<std::string> files_of(const job::Job& job) {
  std::vector<std::string> files{job.file};
  for (const std::string& named : {job.book_override.file, job.buy.prices.file})
    if (!named.empty()) files.push_back(named);
  if (job.base.body) files.push_back(job.base.body->path);
  return files;
}

}  // namespace

void watch(const std::string& job_file, const std::string& prices) {
  Silent silent;
  job::Job job = load(job_file, prices);
  std::vector<std::string> files = files_of(job);
  auto saved = std::make_unique<Saved>(files);  // before the work: what is saved meanwhile counts
  std::unique_ptr<Work> last = work_out(std::move(job), silent, {.quantities = false});
  std::cout << report::check_list(*last->report)
            << "  watching " + job_file + ": save it, and what changes is told here\n"
            << std::flush;
  while (std::cout) {
    saved->wait();
    try {
      job = load(job_file, prices);
      if (const auto named = files_of(job); named != files) {
        saved = std::make_unique<Saved>(named);
        files = named;
        job = load(job_file, prices);  // what was saved in between
      }
      std::unique_ptr<Work> now = work_out(std::move(job), silent, {.quantities = false});
      std::cout << report::verdicts_text(report::state_of(*last->report), report::state_of(*now->report)) << std::flush;
      last = std::move(now);
    } catch (const diag::JobFaults& e) {
      std::cerr << e.what() << "\n";
    } catch (...) {
      std::cerr << "fallwright: " + failure_in_words() + "\n";
    }
  }
}

}  // namespace fallwright::app
