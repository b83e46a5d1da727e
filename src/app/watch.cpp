#include "app/watch.hpp"

#include <filesystem>
#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "app/build.hpp"
#include "app/failure.hpp"
#include "app/saved.hpp"
#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "job/read.hpp"
#include "report/changed_text.hpp"

namespace fallwright::app {
namespace {

class Silent : public Progress {
 public:
  void stage(const std::string&, const std::string&) override {}
};

/// The job file and what it names, all of which decide the verdict: also where it is refused, since what it names may
/// be what is missing.
std::vector<std::string> files_of(const std::string& job_file, const std::string& prices) {
  std::vector<std::string> files{job_file};
  if (!prices.empty()) files.push_back(prices);
  try {
    for (const std::string& named : job::files_named_in(diag::read_text(job_file)))
      files.push_back((std::filesystem::path{job_file}.parent_path() / named).string());
  } catch (const std::exception&) {  // who reads the job tells it
  }
  return files;
}

}  // namespace

void watch(const std::string& job_file, const std::string& prices) {
  Silent silent;
  std::vector<std::string> files = files_of(job_file, prices);
  auto saved = std::make_unique<Saved>(files);  // before the work: what is saved meanwhile counts
  job::Job job = load(job_file, prices);
  std::unique_ptr<Work> last = work_out(std::move(job), silent, {.quantities = false});
  std::cout << report::check_list(*last->report)
            << "  watching " + job_file + ": save it, and what changes is told here\n"
            << std::flush;
  while (std::cout) {
    saved->wait();
    try {
      if (const auto named = files_of(job_file, prices); named != files) {
        saved = std::make_unique<Saved>(named);
        files = named;
      }
      job = load(job_file, prices);
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
