/// An older state of a job, to compare with. Inside `app` only.
#pragma once

#include <optional>
#include <string>

#include "app/options.hpp"
#include "revision/state.hpp"

namespace fallwright::app {

/// Of the report.json that `--from` names; nothing where it names none. @throws diag::JobFaults, diag::MachineError.
std::optional<revision::State> older(const Options& options);

/// @throws diag::JobFaults where the older state, from that file, is of another room than the job.
void must_be_of_one_room(const revision::State& was, const std::string& file, const job::Job& now);

/// The command `diff`: what changed between two job files or two reports.
int diff(const Options& options);

}  // namespace fallwright::app
