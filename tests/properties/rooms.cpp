#include "properties/rooms.hpp"

#include <cstdlib>
#include <map>
#include <numeric>

#include "app/base_file.hpp"
#include "job/read.hpp"
#include "support/kept.hpp"

namespace fallwright::properties {
namespace {

class Quiet : public app::Progress {
 public:
  void stage(const std::string&, const std::string&) override {}
};

}  // namespace

std::vector<unsigned> seeds(const std::vector<unsigned>& usual) {
  const char* asked = std::getenv("FALLWRIGHT_SEEDS");
  if (!asked) return usual;
  char* rest = nullptr;
  const auto first = static_cast<unsigned>(std::strtoul(asked, &rest, 10));
  std::vector<unsigned> all(*rest == '+' ? std::strtoul(rest + 1, nullptr, 10) : 1);
  std::iota(all.begin(), all.end(), first);
  return all;
}

std::unique_ptr<app::Work> worked_out(const std::string& job_file) {
  Quiet quiet;
  return app::work_out(job::read(job_file, "random.toml", app::body_beside("random.toml")), quiet);
}

const sample::Json& report_of(const std::string& job_file) {
  static std::map<std::string, sample::Json> known;
  const auto it = known.find(job_file);
  if (it != known.end()) return it->second;
  const std::string report = report::to_json(*worked_out(job_file)->report);
  sample::keep_reports(report);
  return known.emplace(job_file, sample::Json::parse(report)).first->second;
}

}  // namespace fallwright::properties
