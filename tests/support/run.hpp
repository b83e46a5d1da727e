/// Other programs, run by tests as a second opinion.
#pragma once

#include <filesystem>
#include <string>

namespace fallwright::sample {

struct Ran {
  int code = 0;
  std::string out;  ///< standard output; with `2>&1` in the command the errors as well
};

/// Runs a shell command; a program that is missing gives code 127.
Ran run(const std::string& command);

/// A folder of the test's own, emptied when it begins and removed when it ends.
class Folder {
 public:
  explicit Folder(const std::string& name);
  ~Folder();
  std::string operator/(const std::string& file) const { return (path_ / file).string(); }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

std::string slurped(const std::string& path);

}  // namespace fallwright::sample
