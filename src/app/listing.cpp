#include "app/listing.hpp"

#include <fstream>
#include <iterator>

#include <nlohmann/json.hpp>

#include "exchange/sha256.hpp"

namespace fallwright::app {

namespace fs = std::filesystem;

namespace {

bool is_plain_file(const fs::path& path) {
  std::error_code error;
  return fs::symlink_status(path, error).type() == fs::file_type::regular;
}

bool is_text(const nlohmann::json& object, const char* key) {
  return object.contains(key) && object[key].is_string();
}

}  // namespace

Listing::Listing(const fs::path& folder) : folder_{folder} {
  for (const char* list : {"report.json", "summary.json", "study.json", "share.json"})
    if (take(list)) return;
}

bool Listing::take(const std::string& list) {
  const fs::path path = folder_ / list;
  if (!is_plain_file(path)) return false;
  std::ifstream in{path, std::ios::binary};
  const auto json = nlohmann::json::parse(std::string{std::istreambuf_iterator<char>{in}, {}}, nullptr, false);
  if (!json.is_object() || !json.contains("tool") || !is_text(json["tool"], "name") ||
      json["tool"]["name"] != "fallwright" || !json.contains("files") || !json["files"].is_array())
    return false;
  for (const auto& file : json["files"])
    if (file.is_object() && is_text(file, "path") && is_text(file, "sha256") && file.contains("bytes") &&
        file["bytes"].is_number_unsigned())
      files_[file["path"]] = {file["bytes"], file["sha256"]};
  files_[list] = {};
  own_name_ = list;
  return true;
}

bool Listing::made_folder(const std::string& folder) const {
  const auto first = files_.lower_bound(folder + "/");
  return first != files_.end() && first->first.starts_with(folder + "/");
}

bool Listing::is_as_written(const std::string& file) const {
  const Entry& entry = files_.at(file);
  const fs::path path = folder_ / file;
  if (!is_plain_file(path)) return false;
  return entry.sha256.empty() ||
         (fs::file_size(path) == entry.bytes && exchange::sha256_of_file(path.string()) == entry.sha256);
}

}  // namespace fallwright::app
