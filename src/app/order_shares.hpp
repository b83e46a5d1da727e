/// Shares of an order of rooms: worked out apart, on one machine or many, and joined to what one run tells.
#pragma once

#include <string>
#include <vector>

#include "app/each_job.hpp"
#include "app/options.hpp"
#include "job/job.hpp"

namespace fallwright::app {

/// Whether a share of the order is asked for, or the order from its shares.
bool by_shares(const Options& options);

/// Works out one share: tells its rooms, writes their folders into `outputs.rooms` where there are any, and what the
/// order needs of them into a share in `options.out`. Or reads all shares there and tells the order, as one run would.
/// `command` is the one that was given: "build", "check". @return the exit code; of a share zero also where a check
/// fails, which the order tells. @throws diag::MachineError that names what is missing, changed, or of another order.
int by_shares(const Options& options, const char* command, std::vector<job::Job> jobs, const Words& words,
              const Outputs& outputs = {});

}  // namespace fallwright::app
