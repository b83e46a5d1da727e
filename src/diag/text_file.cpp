#include "diag/text_file.hpp"

#include <cerrno>
#include <cstring>
#include <limits>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "diag/fault.hpp"

namespace fallwright::diag {
namespace {

/// A file that is open, closed with the end of its scope; standard input stays open.
class Opened {
 public:
  explicit Opened(const std::string& path)
      : number_{path == standard_input ? STDIN_FILENO : open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC)},
        own_{path != standard_input} {}
  ~Opened() {
    if (own_ && number_ >= 0) close(number_);
  }
  Opened(const Opened&) = delete;
  Opened& operator=(const Opened&) = delete;
  int number() const { return number_; }

 private:
  int number_;
  bool own_;
};

[[noreturn]] void refuse(const std::string& path, const std::string& why) {
  throw JobFaults{{{path, 0, 0, "", why}}};
}

std::string kind_of(mode_t mode) {
  return S_ISDIR(mode) ? "a folder" : S_ISFIFO(mode) ? "a pipe" : S_ISSOCK(mode) ? "a socket" : "a device";
}

[[noreturn]] void not_read(const std::string& path) {
  throw MachineError{path, std::string{"cannot be read: "} + std::strerror(errno)};
}

struct stat about(const Opened& file, const std::string& path) {
  if (file.number() < 0)
    throw MachineError{
        path, errno == ENOENT ? "there is no such file" : std::string{"cannot be opened: "} + std::strerror(errno)};
  struct stat found {};
  if (fstat(file.number(), &found) != 0) not_read(path);
  return found;
}

/// To the file's end, or to where it is longer than it may be.
std::string rest_of(const Opened& file, const std::string& path, std::size_t most_bytes) {
  std::string text;
  char part[1 << 16];
  while (text.size() <= most_bytes) {
    const ssize_t count = read(file.number(), part, sizeof part);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) not_read(path);
    if (count == 0) break;
    text.append(part, static_cast<std::size_t>(count));
  }
  return text;
}

}  // namespace

std::string read_text(const std::string& path, std::size_t most_bytes) {
  const Opened file{path};
  const mode_t mode = about(file, path).st_mode;
  if (path != standard_input && !S_ISREG(mode))
    refuse(path, "found " + kind_of(mode) + "; allowed is a file, or '-' for standard input");
  std::string text = rest_of(file, path, most_bytes);
  if (text.size() > most_bytes)
    refuse(path, "found more than " + std::to_string(most_bytes / 1'000'000) + " MB; allowed is at most that");
  return text;
}

std::string read_bytes(const std::string& path) {
  const Opened file{path};
  if (const mode_t mode = about(file, path).st_mode; !S_ISREG(mode))
    throw MachineError{path, "cannot be read: found " + kind_of(mode) + " where a file should be"};
  return rest_of(file, path, std::numeric_limits<std::size_t>::max());
}

}  // namespace fallwright::diag
