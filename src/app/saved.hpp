/// Files that someone works on in an editor.
#pragma once

#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace fallwright::app {

/// Waits for files to be saved: written in place, or replaced by another of the same name, as most editors do; or for
/// one to be gone. Of a link that is what it leads to as well.
class Saved {
 public:
  /// @throws std::system_error where the system watches no folder (more).
  explicit Saved(const std::vector<std::string>& files);
  ~Saved();
  Saved(const Saved&) = delete;
  Saved& operator=(const Saved&) = delete;

  /// Until one of them is saved or gone, and no more of them for a moment.
  void wait();

 private:
  void watch(const std::filesystem::path& file);
  bool one_of_them() const;

  int events_;
  std::map<int, std::set<std::string>> names_;  ///< of the files, by the folder's number
};

}  // namespace fallwright::app
