/// What a build wrote into a folder, by the list it left there.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>

namespace fallwright::app {

/// The list of a room's folder is its report.json, that of several rooms' order its summary.json, of a study study.json
/// and of a share of one share.json: `files` names every other file with its size and fingerprint. A folder without
/// such a list holds nothing of ours.
class Listing {
 public:
  /// Of a folder, which need not be there. A list that is a link, is broken, or is not this program's counts for none.
  explicit Listing(const std::filesystem::path& folder);

  /// Of the list itself; empty where there is none.
  const std::string& own_name() const { return own_name_; }
  /// Whether a build wrote what has this name: "drawings/plan.dxf".
  bool names(const std::string& file) const { return files_.contains(file); }
  /// Whether a build made this folder: "drawings".
  bool made_folder(const std::string& folder) const;
  /// Whether the file is still as it was written. @pre names(file)
  bool is_as_written(const std::string& file) const;

 private:
  struct Entry {
    std::uintmax_t bytes = 0;
    std::string sha256;  ///< empty for the list itself, which cannot hold its own
  };

  bool take(const std::string& list);

  std::filesystem::path folder_;
  std::string own_name_;
  std::map<std::string, Entry> files_;
};

}  // namespace fallwright::app
