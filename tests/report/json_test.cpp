// report.json against its contract and its document.
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "job/body.hpp"
#include "report/sample_report.hpp"
#include "report/together.hpp"
#include "support/part_id.hpp"

namespace fallwright {
namespace {

using Json = nlohmann::json;

Json written(const sample::Reported& sample) {
  return Json::parse(report::to_json(sample.report()));
}

/// "falls[].run_mm" for every value that is no object and no list of objects.
void collect(const Json& json, const std::string& path, std::set<std::string>& paths) {
  if (json.is_object()) {
    for (const auto& [key, value] : json.items()) collect(value, path.empty() ? key : path + "." + key, paths);
  } else if (json.is_array() && !json.empty() && json[0].is_object()) {
    for (const Json& item : json) collect(item, path + "[]", paths);
  } else {
    paths.insert(path);
  }
}

TEST(Json, HoldsWhatTheContractNames) {
  // Source: the published fields of report.json.
  const std::pair<const char*, std::vector<const char*>> lists[] = {
      {"parts", {"id", "role", "material", "volume_mm3", "area_mm2", "mass_kg", "bbox_mm", "centroid_mm", "stl"}},
      {"falls", {"surface", "facet", "area_mm2", "percent", "in_per_ft", "azimuth_deg", "run_mm", "low_mm", "high_mm"}},
      {"fit", {"a", "b", "state", "distance_mm", "overlap_mm3", "at_mm"}},
      {"checks", {"id", "title", "result", "measured", "limit", "unit", "source", "where", "advice"}},
      {"takeoff", {"item", "quantity", "unit", "buy", "buy_unit", "basis"}},
      {"cuts", {"mark", "part_ids", "stock", "length_mm", "count", "ends"}},
      {"stocks", {"stock", "bought_mm", "least_mm", "proven"}},
      {"sticks", {"stock", "length_mm", "count", "pieces", "offcut_mm"}},
      {"files", {"path", "bytes", "sha256"}}};
  const Json json = written({});
  EXPECT_EQ(json["schema"], 2);
  for (const char* key : {"name", "version"}) EXPECT_TRUE(json["tool"].contains(key)) << key;
  for (const char* key : {"name", "file", "sha256"}) EXPECT_TRUE(json["job"].contains(key)) << key;
  for (const auto& [list, keys] : lists) {
    ASSERT_FALSE(json[list].empty()) << list;
    for (const Json& item : json[list])
      for (const char* key : keys) EXPECT_TRUE(item.contains(key)) << list << " lacks " << key;
  }
}

/// The fields docs/report-json.md has in its tables before or after `heading`.
std::set<std::string> documented(const std::string& heading, bool after) {
  std::ifstream in{std::string{PROJECT_DIR} + "/docs/report-json.md"};
  std::set<std::string> fields;
  std::string line;
  for (bool past = false; std::getline(in, line);) {
    past = past || line == heading;
    if (past != after || line.rfind("| `", 0) != 0) continue;
    const std::string cell = line.substr(0, line.find('|', 2));
    const std::regex field{"`([^`]+)`"};
    for (std::sregex_iterator it{cell.begin(), cell.end(), field}, end; it != end; ++it) fields.insert((*it)[1]);
  }
  return fields;
}

/// The same of a JSON Schema.
void collect_schema(const Json& schema, const std::string& path, std::set<std::string>& paths) {
  if (schema.contains("properties")) {
    for (const auto& [key, value] : schema["properties"].items())
      collect_schema(value, path.empty() ? key : path + "." + key, paths);
  } else if (schema.contains("items") && schema["items"].contains("properties")) {
    collect_schema(schema["items"], path + "[]", paths);
  } else {
    paths.insert(path);
  }
}

constexpr const char* several = "## summary.json of several rooms";

TEST(Json, IsDocumentedFieldByField) {
  // Source: docs/report-json.md; each of its fields is written and each written field is in it.
  sample::Reported bought, built;
  bought.facts.bought.emplace();
  bought.facts.pipe.bends.emplace_back();
  bought.facts.room.seat_in.emplace();
  bought.job.base.body = std::make_shared<const job::Body>();
  bought.job.text = std::make_shared<const std::string>("[job]\nname = \"one\"\n");
  bought.job.as_built = {"2026-12-02",
                         "the setter",
                         {{job::Surface::threshold, {}, job::Fall::ratio(0.02)}},
                         {{"2026-12-01 08:30", job::Length::mm(50)}},
                         {},
                         {{"a.jpg", "the bed"}}};
  bought.job.unused = {{"drain.direction", "the drain is no channel (drain.kind)", 20}};
  built.facts.site_built.emplace().marks.emplace_back();
  std::set<std::string> paths;
  report::Report held = bought.report();  // of each one that waits and one that does not
  held.cuts.push_back(held.cuts.front());
  held.plan.push_back(held.plan.front());
  held.rows.front().hold = held.cuts.front().hold = held.plan.front().hold =
      takeoff::Hold{takeoff::HangsOn::bench, "seat.height", "seat is at a height"};
  collect(Json::parse(report::to_json(held)), "", paths);
  paths.erase("base.site_built");  // of no bought base
  collect(written(built)["base"]["site_built"], "base.site_built", paths);
  EXPECT_EQ(paths, documented(several, false));
}

TEST(Json, ItsSchemaHasEveryFieldAndNoOther) {
  // Source: docs/report-json.md.
  const Json schema = Json::parse(report::json_schema());
  std::set<std::string> paths;
  collect_schema(schema, "", paths);
  std::set<std::string> fields = documented(several, false);
  for (const char* list :
       {"checks[].rests_on", "checks[].remedies", "takeoff[].hold", "cuts[].hold", "stocks[].hold", "sticks[].hold"})
    fields.erase(list);  // told of as a whole as well
  EXPECT_EQ(paths, fields);
  EXPECT_EQ(schema["properties"]["schema"]["const"], written({})["schema"]);
}

TEST(Json, OfSeveralRoomsIsDocumentedFieldByField) {
  // Source: docs/report-json.md; what differs from one room's report stands in a table of its own.
  sample::Reported sample;
  sample.facts.members.push_back({sample::part_id("bench-frame/top-plate"),
                                  "bench-frame/top-plate",
                                  "2x4",
                                  false,
                                  false,
                                  900,
                                  900,
                                  88.9,
                                  38.1,
                                  {0, 0}});
  const report::Report one = sample.report();
  report::Together all = report::together({&one, &one});
  all.files = {{"rooms.csv", 1, "00"}};
  std::set<std::string> paths;
  collect(Json::parse(report::to_json(all)), "", paths);
  const std::set<std::string> of_one = documented(several, false), own = documented(several, true);
  for (const std::string& field : own) EXPECT_TRUE(paths.count(field)) << field << " is not written";
  for (const std::string& field : paths) EXPECT_TRUE(own.count(field) || of_one.count(field)) << field;
}

TEST(Json, KeepsFullPrecision) {
  // Source: none; what is read back is the very number that was measured.
  sample::Reported sample;
  sample.facts.bed.set_mm3 = 40972812.96772315;
  EXPECT_EQ(written(sample)["bed"]["set_mm3"].get<double>(), sample.facts.bed.set_mm3);
  EXPECT_EQ(written(sample)["falls"][2]["percent"].get<double>(), 0.2 / 12 * 100);
}

TEST(Json, WhatWasNotMeasuredIsNullAndNoNumber) {
  // Source: none; a zero would be taken for a measurement.
  const Json json = written({});
  EXPECT_TRUE(json["heights"]["upstand_top_mm"].is_null());
  for (const Json& check : json["checks"]) {
    if (check["result"] != "not-checked") continue;
    EXPECT_TRUE(check["id"] == "threshold.below-upstand" || check["id"] == "levelling.window") << check["id"];
    EXPECT_TRUE(check["measured"].is_null());
    EXPECT_TRUE(check["margin"].is_null());
  }
}

TEST(Json, AFileNameThatIsNoTextDoesNotStopTheReport) {
  // Source: none; a file name is bytes.
  sample::Reported sample;
  sample.job.file = "caf\xe9.toml";
  EXPECT_NO_THROW(written(sample));
}

TEST(Json, OrdersToATerminalAreEscapedAndComeBack) {
  // Source: RFC 8259, section 7: any letter may be escaped, beyond FFFF as the two halves of UTF-16.
  sample::Reported sample;
  const std::string name = "a\x1b[31m\u202eb\u009b\U000e0041";
  sample.job.name = name;
  const std::string text = report::to_json(sample.report());
  EXPECT_NE(text.find("a\\u001b[31m\\u202eb\\u009b\\udb40\\udc41"), std::string::npos);
  EXPECT_EQ(Json::parse(text)["job"]["name"], name);
}

TEST(Json, EqualReportsAreEqualTexts) {
  // Source: none.
  EXPECT_EQ(report::to_json(sample::Reported{}.report()), report::to_json(sample::Reported{}.report()));
}

}  // namespace
}  // namespace fallwright
