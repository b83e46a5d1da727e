#include "app/held_folder.hpp"

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

HeldFolder::HeldFolder(fs::path folder, const Say& say, Holding how) : folder_{std::move(folder)}, how_{how} {
  undo_.emplace([this] { unmake(); });
  try {
    do make();
    while (!lock(say));
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

bool HeldFolder::is_named_still() const {
  struct stat held {
  }, named{};
  return fstat(descriptor_, &held) == 0 && stat(folder_.c_str(), &named) == 0 && held.st_dev == named.st_dev &&
         held.st_ino == named.st_ino;
}

/// Whether the folder that is held now is the one of this name still: the run that was waited for may have removed it.
bool HeldFolder::lock(const Say& say) {
  descriptor_ = open(folder_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor_ < 0 && errno == ENOENT) return false;
  if (descriptor_ < 0) throw diag::MachineError{folder_.string(), std::string{"cannot be opened: "} + strerror(errno)};
  bool is_alone = flock(descriptor_, LOCK_EX | LOCK_NB) == 0;
  if (!is_alone && errno != EWOULDBLOCK) {  // some network file systems keep no locks: staging folders differ all the
    close(descriptor_);                     // same, and nothing is tidied up
    descriptor_ = -1;
    return true;
  }
  if (!is_alone) is_alone = wait_for_others(say);
  if (is_alone && is_named_still()) {
    clear_dead(folder_, say);
    if (how_ == Holding::beside_others) flock(descriptor_, LOCK_SH);
  }
  if (is_named_still()) return true;
  close(descriptor_);
  descriptor_ = -1;
  return false;
}

/// Until others let this run in; whether it is alone then. Who works beside others is alone for the moment in which it
/// tidies up: that is no run to tell of.
bool HeldFolder::wait_for_others(const Say& say) const {
  const int lock = how_ == Holding::alone ? LOCK_EX : LOCK_SH;
  for (int tries = 0; how_ == Holding::beside_others && tries < 50; ++tries) {
    if (flock(descriptor_, lock | LOCK_NB) == 0) return false;
    usleep(20'000);
  }
  say("another run works in '" + folder_.string() + "'; waiting for its end");
  while (flock(descriptor_, lock) != 0 && errno == EINTR) {
  }
  return how_ == Holding::alone;
}

/// A folder that has got something stays: only an empty one can be removed this way.
void HeldFolder::unmake() const {
  for (auto it = made_.rbegin(); it != made_.rend(); ++it) rmdir(it->c_str());
}

std::vector<std::unique_ptr<HeldFolder>> hold(const std::map<fs::path, Holding>& folders, const Say& say) {
  std::vector<std::unique_ptr<HeldFolder>> held;
  for (auto it = folders.rbegin(); it != folders.rend(); ++it)
    held.push_back(std::make_unique<HeldFolder>(it->first, say, it->second));
  return held;
}

}  // namespace fallwright::app
