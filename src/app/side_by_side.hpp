/// Many rooms worked on at once.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "app/build.hpp"

namespace fallwright::app {

/// Job files as jobs. Faults of all of them come at once, before anything is built. @throws diag::JobFaults.
std::vector<job::Job> load_all(const std::vector<std::string>& paths);

/// What became of one room: its work, or why there is none.
struct Outcome {
  std::string name;  ///< of the job
  std::unique_ptr<Work> work;
  std::string failure;  ///< in words; empty where there is work
};

/// Works out every job on all cores and lets `finish` end it there, while its solids are at hand; they are let go
/// after it. `tell` is called for one room at a time in the order given, each as soon as those before it are told. One
/// room's failure leaves the others be. Outcomes come back in the order given.
std::vector<Outcome> side_by_side(std::vector<job::Job> jobs, Progress& progress,
                                  const std::function<void(Work&)>& finish,
                                  const std::function<void(const Outcome&)>& tell);

}  // namespace fallwright::app
