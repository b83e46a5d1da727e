#include <fstream>
#include <iterator>
#include <set>

#include <gtest/gtest.h>
#include <toml++/toml.h>
#include <nlohmann/json.hpp>

#include "diag/text_file.hpp"
#include "job/describe.hpp"
#include "job/read.hpp"

namespace fallwright::job {
namespace {

std::string slurped(const std::string& path) {
  std::ifstream in{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

void add_keys(const nlohmann::json& schema, const std::string& prefix, std::set<std::string>& keys) {
  for (const auto& [name, value] : schema.at("properties").items()) {
    if (value.contains("items") && value["items"].contains("properties"))
      add_keys(value["items"], prefix + name + ".", keys);
    else if (value.contains("properties"))
      add_keys(value, prefix + name + ".", keys);
    else
      keys.insert(prefix + name);
  }
}

void add_keys(const toml::table& table, const std::string& prefix, std::set<std::string>& keys) {
  for (const auto& [name, value] : table) {
    if (const auto* list = value.as_array(); list && list->is_homogeneous(toml::node_type::table) && !list->empty())
      add_keys(*list->get(0)->as_table(), prefix + std::string{name.str()} + ".", keys);
    else if (value.is_table())
      add_keys(*value.as_table(), prefix + std::string{name.str()} + ".", keys);
    else
      keys.insert(prefix + std::string{name.str()});
  }
}

TEST(Starter, ReadsBackWithoutAFaultInBothUnits) {
  // Source: the starter's promise.
  EXPECT_EQ(read(starter(UnitSystem::inch), "s").unit, UnitSystem::inch);
  EXPECT_EQ(read(starter(UnitSystem::metric), "s").unit, UnitSystem::metric);
}

TEST(Starter, ShowsEveryKeyOfTheSchema) {
  // Source: one table of keys: with its off-lines switched on, the starter and the schema name the same keys.
  std::string text = starter(UnitSystem::inch);
  for (std::size_t at = text.find("\n# "); at != std::string::npos; at = text.find("\n# ", at + 1)) {
    const std::size_t end = text.find('\n', at + 1), equals = text.find(" = ", at);
    const std::string name = text.substr(at + 3, equals - at - 3);
    const bool key = equals < end && name.find(' ') == std::string::npos;
    if (key || text.compare(at + 3, 2, "[[") == 0) text.replace(at + 1, 2, "");
  }
  std::set<std::string> in_starter, in_schema;
  add_keys(toml::parse(text), "", in_starter);
  add_keys(nlohmann::json::parse(json_schema()), "", in_schema);
  EXPECT_EQ(in_starter, in_schema);
  EXPECT_GT(in_schema.size(), 80u);
}

TEST(ReferencePage, IsTheOneInDocs) {
  // Source: the page is made from the table; after a change run: build/release/tests/job/job_reference >
  // docs/job-file.md
  EXPECT_EQ(slurped(PROJECT_DIR "/docs/job-file.md"), reference_page());
}

TEST(Params, EveryDemoJobReadsWithoutAFault) {
  // Source: the demo jobs' promise.
  for (const char* name : {"tannery-lane-2a", "tannery-lane-2b", "tannery-lane-5c", "ferry-steps-3", "chandlers-row-7",
                           "coopers-yard-4", "coopers-yard-9"}) {
    const std::string path = std::string{PROJECT_DIR} + "/params/" + name + ".toml";
    EXPECT_NO_THROW(read(diag::read_text(path), path)) << name;
  }
}

}  // namespace
}  // namespace fallwright::job
