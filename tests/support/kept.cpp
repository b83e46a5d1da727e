#include "support/kept.hpp"

#include <cstdlib>
#include <fstream>
#include <functional>

#include <unistd.h>

#include "support/run.hpp"

namespace fallwright::sample {
namespace {

namespace fs = std::filesystem;

/// Told from other JSON of the program by fields that no other has.
bool has_report(const std::string& text) {
  return text.rfind('{', 0) == 0 && text.find("\"tool\"") != std::string::npos &&
         text.find("\"takeoff\"") != std::string::npos && text.find("\"checks\"") != std::string::npos;
}

}  // namespace

void keep_reports(const std::string& text) {
  const char* folder = std::getenv("FALLWRIGHT_REPORTS");
  if (!folder || !has_report(text)) return;
  const fs::path kept = fs::path{folder} / (std::to_string(std::hash<std::string>{}(text)) + ".json");
  if (fs::exists(kept)) return;
  fs::create_directories(folder);
  const fs::path own = kept.string() + "-" + std::to_string(getpid());  // tests run side by side
  std::ofstream{own, std::ios::binary} << text;
  fs::rename(own, kept);
}

void keep_reports_below(const fs::path& folder) {
  if (!std::getenv("FALLWRIGHT_REPORTS")) return;
  std::error_code ignored;
  for (auto at = fs::recursive_directory_iterator{folder, fs::directory_options::skip_permission_denied, ignored};
       at != fs::recursive_directory_iterator{}; at.increment(ignored))
    if (at->path().filename() == "report.json" && at->is_regular_file(ignored))
      keep_reports(slurped(at->path().string()));
}

}  // namespace fallwright::sample
