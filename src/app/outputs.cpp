#include "app/outputs.hpp"

#include <map>
#include <set>

#include "app/build.hpp"
#include "app/listing.hpp"
#include "diag/fault.hpp"
#include "job/body.hpp"

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const std::string& job, const std::string& why) {
  throw diag::JobFaults{{{job, 0, 0, "", why}}};
}

/// Whether `file`, as it is named or where a link leads, is one that a build wrote into `folder`.
bool is_replaced(const fs::path& file, const fs::path& folder, const Listing& listing) {
  std::error_code error;
  const fs::path beside = fs::canonical(fs::absolute(file).parent_path(), error) / file.filename();
  for (const fs::path& named : {beside, fs::canonical(file, error)})
    if (listing.names(named.lexically_relative(folder).generic_string())) return true;
  return false;
}

}  // namespace

std::string folder_name(const std::string& job) {
  if (job == "-") return "stdin";
  const std::string stem = fs::path{job}.stem().string();
  if (stem.empty() || stem == "." || stem == ".." || is_staging_name(stem))
    refuse(job, "its name makes no name for a folder; give the file another one");
  return stem;
}

/// A folder that is a link is replaced where it leads to: the link stays.
Output output(const fs::path& out, const std::string& name) {
  const fs::path shown = out / name;
  std::error_code error;
  const fs::path parent = fs::weakly_canonical(fs::absolute(out), error);
  if (error) throw diag::MachineError{out.string(), error.message()};
  if (!fs::is_symlink(shown, error)) return {shown.string(), parent / name};
  const fs::path led = fs::canonical(shown, error);
  if (error) throw diag::MachineError{shown.string(), "is a link that leads nowhere"};
  if (*(parent / name).lexically_relative(led).begin() != "..")
    throw diag::MachineError{shown.string(), "is a link to a folder that it stands in itself"};
  return {shown.string(), led};
}

Outputs outputs_of(const std::vector<std::string>& jobs, const std::string& out, bool together) {
  Outputs outputs;
  std::set<fs::path> taken;
  if (together) taken.insert(outputs.together.emplace(output(out, together_folder)).folder);
  for (const std::string& job : jobs) {
    const std::string name = folder_name(job);
    outputs.rooms.push_back(output(out, name));
    if (taken.insert(outputs.rooms.back().folder).second) continue;
    refuse(job, together && outputs.rooms.back().folder == outputs.together->folder
                    ? "its folder '" + name + "' is where --together writes; give the file another name"
                    : "two jobs of one file name would share one output folder");
  }
  return outputs;
}

void must_not_replace(const std::vector<std::string>& jobs, const std::vector<job::Job>& read, const Outputs& outputs) {
  std::vector<std::string> files;
  for (const std::string& job : jobs)
    if (job != "-") files.push_back(job);
  for (const job::Job& job : read) {
    for (const std::string& named : {job.book_override.file, job.buy.prices.file})
      if (!named.empty()) files.push_back(named);
    if (job.base.body) files.push_back(job.base.body->path);
  }
  std::vector<Output> all = outputs.rooms;
  for (const auto& more : {outputs.together, outputs.share})
    if (more) all.push_back(*more);
  for (const Output& replaced : all) {
    const Listing listing{replaced.folder};
    for (const std::string& file : files)
      if (is_replaced(file, replaced.folder, listing))
        refuse(file, "is read by this build and would be replaced by it; move it out of '" + replaced.shown + "'");
  }
}

std::vector<std::unique_ptr<HeldFolder>> hold(const Outputs& outputs, const Say& say) {
  std::map<fs::path, Holding> folders;
  const Holding how = outputs.share ? Holding::beside_others : Holding::alone;
  for (const Output& room : outputs.rooms) folders[room.folder.parent_path()] = how;
  for (const auto& more : {outputs.together, outputs.share})
    if (more) folders[more->folder.parent_path()] = Holding::alone;
  return hold(folders, say);
}

}  // namespace fallwright::app
