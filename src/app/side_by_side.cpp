#include "app/side_by_side.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <system_error>
#include <thread>

#include "app/failure.hpp"
#include "app/stop.hpp"
#include "diag/fault.hpp"
#include "study/cores.hpp"

namespace fallwright::app {
namespace {

Outcome outcome_of(job::Job job, Progress& progress, const std::function<Finish()>& begin, Extent extent) {
  const std::string name = job.name;
  try {
    const Finish finish = begin();
    auto work = work_out(std::move(job), progress, extent);
    if (finish) finish(*work);
    work->model.reset();
    return {name, std::move(work), ""};
  } catch (...) {
    return {name, nullptr, failure_in_words()};
  }
}

/// A room that cannot be told has failed like one that cannot be built, and is told as such.
void tell_it(Outcome& outcome, const std::function<void(Outcome&)>& tell) {
  stop::stay_if_begun();
  try {
    tell(outcome);
  } catch (...) {
    outcome.failure = failure_in_words();
    outcome.work.reset();
    tell(outcome);
  }
}

}  // namespace

std::vector<job::Job> load_all(const std::vector<std::string>& paths, const std::string& prices) {
  if (std::count(paths.begin(), paths.end(), "-") > 1)
    throw diag::JobFaults{{{"-", 0, 0, "", "standard input can be read once only; give the other jobs as files"}}};
  std::vector<job::Job> jobs;
  std::vector<diag::Fault> faults;
  std::vector<diag::Fault> unread;  // the machine's failure, not the job's
  for (const std::string& path : paths) try {
      jobs.push_back(load(path, prices));
    } catch (const diag::JobFaults& e) {
      faults.insert(faults.end(), e.faults().begin(), e.faults().end());
    } catch (const diag::MachineError& e) {
      unread.push_back({path, 0, 0, "", e.reason()});
    }
  if (!faults.empty()) {  // all that is wrong in one run, the missing files with the rest
    faults.insert(faults.end(), unread.begin(), unread.end());
    throw diag::JobFaults{faults};
  }
  if (unread.size() == 1) throw diag::MachineError{unread[0].file, unread[0].message};
  if (!unread.empty())
    throw diag::MachineError{std::to_string(unread.size()) + " job files", "cannot be read\n" + diag::to_text(unread)};
  return jobs;
}

std::vector<Outcome> side_by_side(std::vector<job::Job> jobs, Progress& progress,
                                  const std::function<Finish(std::size_t room)>& begin,
                                  const std::function<void(Outcome&)>& tell, Extent extent) {
  std::vector<Outcome> outcomes(jobs.size());
  std::vector<bool> done(jobs.size());
  std::size_t told = 0;
  std::mutex telling;
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < jobs.size(); i = next++) {
      Outcome outcome = outcome_of(
          std::move(jobs[i]), progress, [&] { return begin ? begin(i) : Finish{}; }, extent);
      const std::lock_guard lock{telling};
      outcomes[i] = std::move(outcome);
      done[i] = true;
      while (told < done.size() && done[told]) tell_it(outcomes[told++], tell);
    }
  };
  const std::size_t cores = study::cores();
  std::vector<std::jthread> threads;
  threads.reserve(cores);
  try {
    for (std::size_t i = 1; i < std::min(cores, jobs.size()); ++i) threads.emplace_back(work);
  } catch (const std::system_error&) {  // no more threads to be had: those there are do the work
  }
  work();
  threads.clear();
  return outcomes;
}

}  // namespace fallwright::app
