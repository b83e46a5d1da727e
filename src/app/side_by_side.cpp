#include "app/side_by_side.hpp"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <thread>

#include "diag/fault.hpp"

namespace fallwright::app {
namespace {

Outcome outcome_of(job::Job job, Progress& progress, const std::function<void(Work&)>& finish) {
  const std::string name = job.name;
  try {
    auto work = work_out(std::move(job), progress);
    finish(*work);
    work->model.reset();
    return {name, std::move(work), ""};
  } catch (const std::exception& e) {
    return {name, nullptr, e.what()};
  }
}

}  // namespace

std::vector<job::Job> load_all(const std::vector<std::string>& paths) {
  std::vector<job::Job> jobs;
  std::vector<diag::Fault> faults;
  std::vector<diag::Fault> unread;  // the machine's failure, not the job's
  for (const std::string& path : paths) try {
      jobs.push_back(load(path));
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
                                  const std::function<void(Work&)>& finish,
                                  const std::function<void(const Outcome&)>& tell) {
  std::vector<Outcome> outcomes(jobs.size());
  std::vector<bool> done(jobs.size());
  std::size_t told = 0;
  std::mutex telling;
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < jobs.size(); i = next++) {
      Outcome outcome = outcome_of(std::move(jobs[i]), progress, finish);
      const std::lock_guard lock{telling};
      outcomes[i] = std::move(outcome);
      done[i] = true;
      while (told < done.size() && done[told]) tell(outcomes[told++]);
    }
  };
  std::vector<std::thread> threads;
  const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
  for (std::size_t i = 1; i < std::min(cores, jobs.size()); ++i) threads.emplace_back(work);
  work();
  for (std::thread& thread : threads) thread.join();
  return outcomes;
}

}  // namespace fallwright::app
