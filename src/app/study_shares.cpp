#include "app/study_shares.hpp"

#include <algorithm>
#include <fstream>

#include <nlohmann/json.hpp>

#include "app/build.hpp"
#include "app/listing.hpp"
#include "diag/fault.hpp"
#include "report/study.hpp"

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr const char* rows_file = "rows.jsonl";

std::string listed_numbers(const std::vector<std::size_t>& numbers) {
  constexpr std::size_t most = 20;
  std::string text;
  for (std::size_t i = 0; i < std::min(most, numbers.size()); ++i)
    text += (i == 0 ? "" : ", ") + std::to_string(numbers[i]);
  return text + (numbers.size() > most ? " and " + std::to_string(numbers.size() - most) + " more" : "");
}

std::string command_for(const std::string& study, const std::string& part, const fs::path& out) {
  return "fallwright study " + shell_word(study) + " --part " + part + " --out " + shell_word(out.string());
}

/// How many shares there are, all of them there.
std::size_t parts_of(const fs::path& out, const std::string& name, const std::string& study) {
  const auto found = parts_in(out, name);
  if (found.empty())
    throw diag::MachineError{out.string(), "has no shares of '" + name + "'; compute them with: " +
                                               command_for(study, "1/8", out) + ", and so on"};
  if (found.size() > 1)
    throw diag::MachineError{out.string(), "has shares of " + std::to_string(found.begin()->first) + " and of " +
                                               std::to_string(found.rbegin()->first) +
                                               "; remove those that are not wanted"};
  const auto& [of, there] = *found.begin();
  std::vector<std::size_t> missing;
  for (std::size_t i = 0; i < there.size(); ++i)
    if (!there[i]) missing.push_back(i + 1);
  if (missing.empty()) return of;
  throw diag::MachineError{
      out.string(), (missing.size() == 1 ? "share " : "shares ") + listed_numbers(missing) + " of " +
                        std::to_string(of) + (missing.size() == 1 ? " is" : " are") + " missing; compute with: " +
                        command_for(study, std::to_string(missing.front()) + "/" + std::to_string(of), out)};
}

Json head_of(const study::Plan& plan, const Part& part) {
  return {{"schema", 1},
          {"tool", {{"name", "fallwright"}, {"version", report::version()}}},
          {"study", {{"sha256", plan.study().sha256}}},
          {"part", part.number},
          {"of", part.of},
          {"first", part.first(plan.count()) + 1},
          {"variants", part.end(plan.count()) - part.first(plan.count())}};
}

/// The folder of a share that is this study's and as it was written.
fs::path checked(const study::Plan& plan, const fs::path& folder, const Part& part) {
  std::ifstream in{folder / share_list, std::ios::binary};
  const Json found = Json::parse(in, nullptr, false);
  const Json head = head_of(plan, part);
  for (const auto& [key, value] : head.items())
    if (!found.is_object() || !found.contains(key) || found[key] != value)
      throw diag::MachineError{folder.string(),
                               "is a share of another study, job or version of the program; compute it "
                               "again"};
  const Listing listing{folder};
  if (!listing.names(rows_file) || !listing.is_as_written(rows_file))
    throw diag::MachineError{(folder / rows_file).string(), "is not as it was written; compute this share again"};
  return folder;
}

}  // namespace

const std::vector<std::string>& names_of_share() {
  static const std::vector<std::string> names{rows_file, share_list};
  return names;
}

void write_share(const study::Plan& plan, const Part& part, Staging& staging) {
  Json json = head_of(plan, part);
  json["files"] = Json::array();
  for (const report::File& file : listed(staging))
    json["files"].push_back({{"path", file.path}, {"bytes", file.bytes}, {"sha256", file.sha256}});
  staging.write(share_list, json.dump(2) + "\n");
  staging.publish();
}

void each_kept(const study::Plan& plan, const fs::path& out, const std::string& name,
               const std::function<void(const facts::Variant&)>& take) {
  const std::size_t of = parts_of(out, name, plan.study().file);
  std::vector<fs::path> folders;
  for (std::size_t number = 1; number <= of; ++number) {
    const Part part{number, of};
    folders.push_back(checked(plan, out / part.folder() / name, part));
  }
  std::size_t next = 0;
  for (const fs::path& folder : folders) {
    std::ifstream in{folder / rows_file, std::ios::binary};
    for (std::string line; std::getline(in, line); ++next) {
      const facts::Variant variant = report::read_row(line);
      if (variant.number != next) throw diag::MachineError{folder.string(), "has rows that are not its own"};
      take(variant);
    }
  }
  if (next != plan.count()) throw diag::MachineError{out.string(), "has shares that lack rows; compute them again"};
}

}  // namespace fallwright::app
