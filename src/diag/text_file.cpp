#include "diag/text_file.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

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

}  // namespace

std::string read_text(const std::string& path, std::size_t most_bytes) {
  const Opened file{path};
  if (file.number() < 0)
    throw MachineError{
        path, errno == ENOENT ? "there is no such file" : std::string{"cannot be opened: "} + std::strerror(errno)};
  struct stat about {};
  if (fstat(file.number(), &about) != 0)
    throw MachineError{path, std::string{"cannot be read: "} + std::strerror(errno)};
  if (path != standard_input && !S_ISREG(about.st_mode))
    refuse(path, "found " + kind_of(about.st_mode) + "; allowed is a file, or '-' for standard input");
  std::string text;
  char part[1 << 16];
  while (text.size() <= most_bytes) {
    const ssize_t count = read(file.number(), part, sizeof part);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) throw MachineError{path, std::string{"cannot be read: "} + std::strerror(errno)};
    if (count == 0) return text;
    text.append(part, static_cast<std::size_t>(count));
  }
  refuse(path, "found more than " + std::to_string(most_bytes / 1'000'000) + " MB; allowed is at most that");
}

std::string read_bytes(const std::string& path) {
  std::error_code error;
  std::ifstream in{path, std::ios::binary};
  if (!in || !std::filesystem::is_regular_file(path, error)) throw MachineError{path, "cannot be read"};
  std::string bytes(std::filesystem::file_size(path, error), '\0');
  if (error || !in.read(bytes.data(), static_cast<std::streamsize>(bytes.size())))
    throw MachineError{path, "cannot be read"};
  return bytes;
}

}  // namespace fallwright::diag
