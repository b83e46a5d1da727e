/// Many rooms worked on at once.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "app/build.hpp"

namespace fallwright::app {

/// Job files as jobs, each with the files it names; `prices` is a table for all of them, or empty. Faults of all of
/// them come at once, before anything is built. @throws diag::JobFaults.
std::vector<job::Job> load_all(const std::vector<std::string>& paths, const std::string& prices);

/// What became of one room: its work, or why there is none.
struct Outcome {
  std::string name;  ///< of the job
  std::unique_ptr<Work> work;
  std::string failure;  ///< in words; empty where there is work
};

/// Ends the work on a room while its solids are at hand.
using Finish = std::function<void(Work&)>;

/// Works out every job on all cores, or on as many as the system gives threads for. `begin` is called with the room's
/// place before any work on it, and may refuse it by an exception; what it gives, if anything, ends the work, and the
/// solids are let go after it. `tell` is called for one room at a time in the order given, each as soon as those before
/// it are told, and may take its work. One room's failure, also that of telling it, leaves the others be. Outcomes come
/// back in the order given.
std::vector<Outcome> side_by_side(std::vector<job::Job> jobs, Progress& progress,
                                  const std::function<Finish(std::size_t room)>& begin,
                                  const std::function<void(Outcome&)>& tell, Extent extent = {});

}  // namespace fallwright::app
