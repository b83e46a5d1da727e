#include "support/run.hpp"

#include <array>
#include <cstdio>
#include <fstream>
#include <sstream>

#include <sys/wait.h>
#include <unistd.h>

#include "support/kept.hpp"

namespace fallwright::sample {

Ran run(const std::string& command) {
  Ran ran;
  FILE* pipe = popen(command.c_str(), "r");
  if (!pipe) return {127, "cannot run " + command};
  std::array<char, 4096> buffer;
  while (const std::size_t n = fread(buffer.data(), 1, buffer.size(), pipe)) ran.out.append(buffer.data(), n);
  const int status = pclose(pipe);
  ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
  keep_reports(ran.out);
  return ran;
}

Folder::Folder(const std::string& name)
    : path_{std::filesystem::temp_directory_path() / ("fallwright-" + name + "-" + std::to_string(getpid()))} {
  std::filesystem::remove_all(path_);
  std::filesystem::create_directories(path_);
}

Folder::~Folder() {
  keep_reports_below(path_);
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string slurped(const std::string& path) {
  std::ifstream in{path, std::ios::binary};
  std::ostringstream text;
  text << in.rdbuf();
  return std::move(text).str();
}

}  // namespace fallwright::sample
