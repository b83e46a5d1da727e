/// Files that someone works on in an editor.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

namespace fallwright::app {

/// Waits for files to be saved: written in place, or replaced by another of the same name, as most editors do.
class Saved {
 public:
  /// @throws std::system_error where the system watches no folder (more).
  explicit Saved(const std::vector<std::string>& files);
  ~Saved();
  Saved(const Saved&) = delete;
  Saved& operator=(const Saved&) = delete;

  /// Until one of them is saved, and no more of them for a moment.
  void wait();

 private:
  bool one_of_them() const;

  int events_;
  std::map<int, std::set<std::string>> names_;  ///< of the files, by the folder's number
};

}  // namespace fallwright::app
