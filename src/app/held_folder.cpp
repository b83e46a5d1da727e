#include "app/held_folder.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "app/replace.hpp"
#include "diag/fault.hpp"

namespace fallwright::app {

namespace fs = std::filesystem;

HeldFolder::HeldFolder(fs::path folder, const Say& say) : folder_{std::move(folder)} {
  undo_.emplace([this] { unmake(); });
  try {
    do make();
    while (!lock(say));
    if (descriptor_ >= 0) clear_dead(folder_, say);
  } catch (...) {
    unmake();
    throw;
  }
}

HeldFolder::~HeldFolder() {
  undo_.reset();
  unmake();
  if (descriptor_ >= 0) close(descriptor_);
}

void HeldFolder::make() {
  const auto step = stop::held_off();
  std::vector<fs::path> missing;
  std::error_code error;
  for (fs::path at = folder_; !at.empty() && !fs::exists(at, error) && at != at.root_path(); at = at.parent_path())
    missing.insert(missing.begin(), at);
  for (const fs::path& path : missing)
    if (fs::create_directory(path, error))
      made_.push_back(path);
    else if (error)
      throw diag::MachineError{path.string(), "the folder cannot be made: " + error.message()};
}

/// Whether the folder that is held now is the one of this name still: the run that was waited for may have removed it.
bool HeldFolder::lock(const Say& say) {
  descriptor_ = open(folder_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor_ < 0 && errno == ENOENT) return false;
  if (descriptor_ < 0) throw diag::MachineError{folder_.string(), std::string{"cannot be opened: "} + strerror(errno)};
  if (flock(descriptor_, LOCK_EX | LOCK_NB) == 0) {
  } else if (errno == EWOULDBLOCK) {
    say("another run works in '" + folder_.string() + "'; waiting for its end");
    while (flock(descriptor_, LOCK_EX) != 0 && errno == EINTR) {
    }
  } else {  // some network file systems keep no locks: staging folders differ all the same, and nothing is tidied up
    close(descriptor_);
    descriptor_ = -1;
    return true;
  }
  struct stat held {
  }, named{};
  if (fstat(descriptor_, &held) == 0 && stat(folder_.c_str(), &named) == 0 && held.st_dev == named.st_dev &&
      held.st_ino == named.st_ino)
    return true;
  close(descriptor_);
  descriptor_ = -1;
  return false;
}

/// A folder that has got something stays: only an empty one can be removed this way.
void HeldFolder::unmake() const {
  for (auto it = made_.rbegin(); it != made_.rend(); ++it) rmdir(it->c_str());
}

std::vector<std::unique_ptr<HeldFolder>> hold(std::vector<fs::path> folders, const Say& say) {
  std::sort(folders.begin(), folders.end());
  folders.erase(std::unique(folders.begin(), folders.end()), folders.end());
  std::vector<std::unique_ptr<HeldFolder>> held;
  for (const fs::path& folder : folders) held.push_back(std::make_unique<HeldFolder>(folder, say));
  return held;
}

}  // namespace fallwright::app
