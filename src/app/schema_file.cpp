#include "app/schema_file.hpp"

#include <nlohmann/json.hpp>

#include "app/address.hpp"
#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "job/describe.hpp"

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;

constexpr const char* name_beside = "fallwright-job.schema.json";

/// Below the folder whose `bin` this program stands in; empty where none is there.
fs::path installed() {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  const fs::path schema = program.parent_path().parent_path() / "share/fallwright/job.schema.json";
  return !error && fs::is_regular_file(schema, error) ? schema : fs::path{};
}

/// Whether it holds a schema that this program, or an older one, has written.
bool is_ours(const fs::path& file) {
  const auto json = nlohmann::json::parse(diag::read_text(file.string()), nullptr, false);
  return json.is_object() &&
         json.value("title", nlohmann::json{}) == nlohmann::json::parse(job::json_schema())["title"];
}

}  // namespace

SchemaPlace schema_for(const std::string& job_file) {
  if (const fs::path schema = installed(); !schema.empty()) {
    std::string address = "file://";
    for (const fs::path& part : schema.relative_path()) address += "/" + in_address(part.string());
    return {address, {}};
  }
  const fs::path beside = fs::path{job_file}.parent_path() / name_beside;
  if (fs::exists(beside) && !is_ours(beside))
    throw diag::JobFaults{
        {{beside.string(), 0, 0, "", "is no schema of fallwright, and its name is wanted for one; move it away"}}};
  return {std::string{"./"} + name_beside, beside};
}

}  // namespace fallwright::app
