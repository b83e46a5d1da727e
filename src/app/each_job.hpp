/// Every job that was named, worked out and told. Inside `app` only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "app/build.hpp"
#include "app/options.hpp"
#include "app/outputs.hpp"
#include "report/room.hpp"
#include "revision/state.hpp"

namespace fallwright::app {

/// Progress on a terminal only: a log file or a pipe gets results, not stages.
class Stages : public Progress {
 public:
  explicit Stages(const Options& options);
  void stage(const std::string& job, const std::string& what) override;

 private:
  bool on_;
};

/// What there is to say of a room.
using Words = std::function<std::string(const Work&)>;

/// The job files that were named, with their prices or those of the command line.
std::vector<job::Job> jobs_of(const Options& options);

/// Works out every job, writes its files where there are outputs, and prints what there is to say of it, or its report,
/// in the order given. One job's failure, of a check or of the machine, never hides another's result. `since`: an older
/// state of the one job, whose changes its files then tell.
std::vector<report::Room> each_room(const Options& options, std::vector<job::Job> jobs, const Words& words,
                                    const Outputs& outputs, Extent extent = {}, const revision::State* since = nullptr);

/// The same, and after the rooms their order where that is asked for. @return the exit code.
int each_job(const Options& options, std::vector<job::Job> jobs, const Words& words, const Outputs& outputs = {},
             Extent extent = {}, const revision::State* since = nullptr);
int each_job(const Options& options, const Words& words, Extent extent = {});

/// For commands that only tell: a check that fails is no failure of theirs, and none is advised on but in a report.
int each_job_told(const Options& options, const Words& words);

}  // namespace fallwright::app
