#include "app/saved.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>

#include <poll.h>
#include <sys/inotify.h>
#include <unistd.h>

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const std::string& what) {
  throw std::system_error{errno, std::generic_category(), what};
}

}  // namespace

Saved::Saved(const std::vector<std::string>& files) : events_{inotify_init1(IN_CLOEXEC)} {
  if (events_ < 0) fail("no file can be watched");
  for (const std::string& file : files) {
    const fs::path path = fs::absolute(file);
    watch(path);
    std::error_code none;
    if (const fs::path target = fs::canonical(path, none); !none && target != path) watch(target);  // of a link
  }
}

/// A folder that is not there is watched no more than what would be in it.
void Saved::watch(const fs::path& file) {
  const std::string folder = file.parent_path().string();
  const int number =
      inotify_add_watch(events_, folder.c_str(), IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_DELETE);
  if (number >= 0) {
    names_[number].insert(file.filename().string());
    return;
  }
  if (errno == ENOENT) return;
  const int why = errno;
  close(events_);
  errno = why;
  fail("cannot watch " + folder);
}

Saved::~Saved() {
  close(events_);
}

/// Takes what the system has to tell; waits where there is nothing.
bool Saved::one_of_them() const {
  alignas(inotify_event) char bytes[16 * 1024];
  const ssize_t size = read(events_, bytes, sizeof bytes);
  if (size < 0 && errno != EINTR) fail("no file can be watched any more");
  bool found = false;
  for (ssize_t at = 0; at < size;) {
    inotify_event event;
    std::memcpy(&event, bytes + at, sizeof event);
    const auto folder = names_.find(event.wd);
    const char* name = bytes + at + sizeof event;
    found = found || (event.mask & IN_Q_OVERFLOW) != 0 ||
            (folder != names_.end() && event.len > 0 && folder->second.count(name) > 0);
    at += static_cast<ssize_t>(sizeof event + event.len);
  }
  return found;
}

void Saved::wait() {
  while (!one_of_them()) {
  }
  constexpr int moment_ms = 20;  // an editor may write twice
  for (pollfd more{events_, POLLIN, 0}; poll(&more, 1, moment_ms) > 0;) one_of_them();
}

}  // namespace fallwright::app
