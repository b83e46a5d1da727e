/// Which folder each job's files go to.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/held_folder.hpp"
#include "job/job.hpp"

namespace fallwright::app {

struct Output {
  std::string shown;             ///< as the user named it
  std::filesystem::path folder;  ///< absolute, with no link in it
};

struct Outputs {
  std::vector<Output> rooms;  ///< in the order of the jobs
  std::optional<Output> together;
  std::optional<Output> share = {};  ///< where the rooms are some of an order's: other runs work beside this one
};

/// What a job's folder is called: as its file, without the ending. @throws diag::JobFaults where that makes no name.
std::string folder_name(const std::string& job);

/// A folder of that name in `out`.
Output output(const std::filesystem::path& out, const std::string& name);

/// One folder in `out` for each job, named by its file ("stdin" for standard input), and one for their order.
/// @throws diag::JobFaults where two would share a folder, diag::MachineError for a link that leads nowhere.
Outputs outputs_of(const std::vector<std::string>& jobs, const std::string& out, bool together);

/// Refuses to replace what is read: a job file, or the rule book it names. @throws diag::JobFaults.
void must_not_replace(const std::vector<std::string>& jobs, const std::vector<job::Job>& read, const Outputs& outputs);

/// The folders they stand in, held until the run ends. @throws diag::MachineError.
std::vector<std::unique_ptr<HeldFolder>> hold(const Outputs& outputs, const Say& say);

}  // namespace fallwright::app
