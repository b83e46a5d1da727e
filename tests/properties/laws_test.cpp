#include <algorithm>
#include <cmath>
#include <map>
#include <regex>
#include <set>

#include <gtest/gtest.h>

#include "properties/rooms.hpp"
#include "support/random_room.hpp"

namespace fallwright::properties {
namespace {

using sample::Json;

std::string told(const std::vector<std::string>& differences) {
  std::string text;
  for (const std::string& line : differences) text += "  " + line.substr(0, 300) + "\n";
  return text;
}

class Laws : public testing::TestWithParam<unsigned> {
 protected:
  const std::string room = sample::random_room(GetParam());
  const Json& report = report_of(room);
};

TEST_P(Laws, NamesChangeNothing) {
  // Source: property: a name is what a thing is called.
  sample::Sameness same;
  same.absolute = same.relative = 0;
  same.skip = [](const std::string& path) {
    return path.rfind("job.", 0) == 0 || path.rfind("unused_keys", 0) == 0 ||
           path.find(".material") != std::string::npos || path.rfind("backings", 0) == 0 || path == "checks[].where" ||
           path == "checks[].advice" || path == "checks[].details";
  };
  const auto found = sample::differences(report, report_of(sample::renamed(room)), same);
  EXPECT_TRUE(found.empty()) << told(found) << room;
}

TEST_P(Laws, ALevelLineMayHangAnywhere) {
  // Source: property: spot levels and rim readings count against each other only.
  sample::Sameness same;
  same.skip = [](const std::string& path) { return path == "job.sha256" || path.rfind("room.floor.h", 0) == 0; };
  const Json expected = sample::with_words_only(report);
  const Json other = sample::with_words_only(report_of(sample::with_lower_line(room, 1.75)));
  const auto found = sample::differences(expected, other, same);
  EXPECT_TRUE(found.empty()) << told(found) << room;
}

TEST_P(Laws, ADeeperBedTakesMoreMortar) {
  // Source: closed form: the bed grows by its plan times the depth that is added, and less mortar never does.
  const Json& deeper = report_of(sample::with_more(room, "bed.least", 0.125));
  const double plan = report["bed"]["set_mm3"].get<double>() / report["bed"]["greatest_mm"].get<double>();
  EXPECT_GT(deeper["bed"]["set_mm3"].get<double>(), report["bed"]["set_mm3"].get<double>() + plan * 3.0) << room;
  EXPECT_NEAR(deeper["bed"]["least_under_base_mm"].get<double>(),
              report["bed"]["least_under_base_mm"].get<double>() + 3.175, 1e-3)
      << room;
  const auto bought = [](const Json& of) {
    double mortar = 0;
    for (const Json& row : of["takeoff"])
      if (row["item"].get<std::string>().find("ortar") != std::string::npos) mortar += row["buy"].get<double>();
    return mortar;
  };
  EXPECT_GE(bought(deeper), bought(report)) << room;
}

TEST_P(Laws, MortarIsBoughtForTheFullestBedThatReadingsAllow) {
  // Source: closed form: the greater of set and spread, with what readings off by their tolerances add, and waste.
  const Json& bed = report["bed"];
  const double set = bed["set_mm3"], spread = bed["spread_mm3"];
  double worst = set;
  for (const Json& w : report["room"]["worst_case"])
    if (w["what"] == "mortar in the bed as set" && !w["greatest"].is_null()) worst = w["greatest"];
  const double wanted = (std::max(set, spread) + std::max(0.0, worst - set)) / (304.8 * 304.8 * 304.8);
  double dry_kg = 0, cement_waste = -1, sand_lb_ft3 = 80;
  std::smatch density;
  if (std::regex_search(room, density, std::regex{R"(sand_density = .(\d+) lb/ft3)"}))
    sand_lb_ft3 = std::stod(density[1]);
  for (const Json& row : report["takeoff"]) {
    const double buy = row["buy"], pack = row["pack"], waste = row["waste"];
    const std::string item = row["item"];
    if (item == "mortar, bags") {
      EXPECT_GE(buy * (pack > 0 ? pack : 1), wanted * (1 + waste) - 1e-6) << room;
    }
    if (item == "cement" || item == "hydrated lime" || item == "sand, in bags")
      dry_kg += buy * pack * 0.45359237, cement_waste = waste;
    if (item == "sand, damp and loose" || item == "sand, dry and loose")
      dry_kg += (row["quantity"].get<double>() + row["doubt"].get<double>()) * (1 + waste) * sand_lb_ft3 * 0.45359237;
  }
  // No mix of cement, lime and sand is lighter than 107 lb/ft3 as it lies.
  if (cement_waste >= 0) {
    EXPECT_GE(dry_kg, 107 * 0.45359237 * wanted * (1 + cement_waste)) << room;
  }
}

TEST_P(Laws, AWiderBoreGivesTheBodyRoomAndTakesItFromTheJoists) {
  // Source: closed form: each edge of the bore moves out by half of what it grows.
  const Json& wider = report_of(sample::with_more(room, "drain.bore", 0.25))["drain"];
  EXPECT_NEAR(wider["body_to_bore_mm"].get<double>(), report["drain"]["body_to_bore_mm"].get<double>() + 3.175, 1e-6);
  if (report["drain"]["bore_to_joist_mm"].is_null()) return;
  EXPECT_NEAR(wider["bore_to_joist_mm"].get<double>(), report["drain"]["bore_to_joist_mm"].get<double>() - 3.175, 1e-6);
}

TEST_P(Laws, WhatGoesInComesOut) {
  // Source: conservation: sums that must add up, from one report alone.
  const Json& bed = report["bed"];
  EXPECT_NEAR(bed["spread_mm3"].get<double>() - bed["set_mm3"].get<double>(), bed["squeeze_out_mm3"].get<double>(), 1);
  for (const Json& o : report["openings"])
    EXPECT_NEAR(o["alcove_mm"].get<double>(),
                o["base_mm"].get<double>() + (o["bench_mm"].is_null() ? 0 : o["bench_mm"].get<double>()) +
                    o["left_over_mm"].get<double>(),
                1e-9);
  for (const Json& o : report["openings"]) {
    EXPECT_GE(o["open_mm"].get<double>(), 0);
    EXPECT_LE(o["open_mm"].get<double>(), std::max(0.0, o["left_over_mm"].get<double>()) + 1e-9);
  }
  const Json& clear = report["clear"];
  if (const Json& finished = clear["finished"]; !finished.is_null())
    for (const char* size : {"area_mm2", "circle_mm", "least_width_mm", "entry_mm"})
      if (!finished[size].is_null()) {
        EXPECT_LE(finished[size].get<double>(), clear[size].get<double>() + 1e-6) << size << "\n" << room;
      }
  const Json& dips = report["flood"]["dips"];
  for (std::size_t i = 1; i < dips.size(); ++i) {
    const double rise = dips[i]["above_drain_mm"].get<double>() - dips[i - 1]["above_drain_mm"].get<double>();
    const double more = dips[i]["volume_mm3"].get<double>() - dips[i - 1]["volume_mm3"].get<double>();
    EXPECT_GE(more, rise * dips[i - 1]["surface_mm2"].get<double>() - 1) << room;
    EXPECT_LE(more, rise * dips[i]["surface_mm2"].get<double>() + 1) << room;
  }
}

TEST_P(Laws, TheCutListIsTheSolids) {
  // Source: conservation: every piece is a solid, once; a square-ended timber is its section times its length, which
  // is printed to the nearest mark of the tape; points less than half a mark apart are cut at the longer one's.
  std::map<std::string, double> volumes;
  for (const Json& part : report["parts"]) volumes[part["id"]] = part["volume_mm3"];
  std::set<std::string> seen;
  std::map<std::string, int> asked, planned;
  for (const Json& row : report["cuts"]) {
    EXPECT_EQ(row["count"].get<std::size_t>(), row["part_ids"].size());
    asked[row["mark"]] += row["count"].get<int>();
    for (const Json& id : row["part_ids"]) {
      ASSERT_TRUE(volumes.contains(id)) << id;
      const std::string stock = row["stock"];
      if (stock.starts_with("furring ") || stock.starts_with("shims ")) continue;  // goes on that stud, and is none
      EXPECT_TRUE(seen.insert(id).second) << id << " is cut twice";
      if (row["ends"] != "square" || row["stock"] != "2x4") continue;
      const double mean = volumes[id] / (38.1 * 88.9), half_a_mark = 25.4 / 32 + 1e-6, longest = row["length_mm"],
                   shortest = row["short_mm"];
      const double bevelled = longest == shortest ? half_a_mark : 0;
      EXPECT_LE(mean, longest + half_a_mark) << id << "\n" << room;
      EXPECT_GE(mean, shortest - half_a_mark - bevelled) << id << "\n" << room;
    }
  }
  const double trims = report["stocks"].empty() ? 0 : 2 * report["stocks"][0]["trim_mm"].get<double>();
  for (const Json& stick : report["sticks"]) {
    std::map<int, double> used;  // along each strip of a board that is ripped; of a stick along all of it
    for (const Json& piece : stick["pieces"]) {
      used[piece["lane"].get<int>()] += piece["length_mm"].get<double>();
      planned[piece["mark"]] += stick["count"].get<int>();
    }
    const double offcut = stick["offcut_mm"].get<double>(), length = stick["length_mm"].get<double>();
    for (const auto& [lane, along] : used) EXPECT_LE(along + offcut + trims, length + 1e-6) << stick;
    if (stick["stock"].get<std::string>().ends_with(", for furring")) continue;  // its strips end where they end
    const auto pieces = static_cast<double>(stick["pieces"].size());
    EXPECT_GE(used[0] + offcut + trims + pieces * 3.175, length - 1e-6) << "a saw cut between any two";
  }
  for (const auto& [mark, count] : planned) EXPECT_EQ(count, asked[mark]) << mark;
}

/// What of a text is finer than anybody cuts: fractions past 1/32, tenths of longer millimetres, hundredths, and falls
/// past a hundredth of a percent; empty where nothing is. What was found small, under 3/16 in, a good rule tells to
/// 1/64.
std::string finer_than_a_mark(const std::string& text, bool found = false) {
  static const std::regex number{R"re((?:(\d+)-)?(\d+)(?:\.(\d+) (mm|%)|/(\d+)["\s]))re"};
  constexpr int longest_in_tenths_mm = 20;
  for (std::sregex_iterator it{text.begin(), text.end(), number}, end; it != end; ++it) {
    const std::smatch& m = *it;
    const bool fraction = m[5].matched, fall = m[4] == "%";
    const int count = std::stoi(m[2]);
    const bool small = found && fraction && !m[1].matched && 16 * count < 3 * std::stoi(m[5]);
    if (fraction ? std::stoi(m[5]) > 32 && !small
                 : m[3].length() > (fall ? 2 : 1) || (!fall && count >= longest_in_tenths_mm))
      return m[0];
  }
  return "";
}

TEST_P(Laws, TellsNoLengthFinerThanAMark) {
  // Source: none; whoever reads 6-55/64" or 351.7525 mm has no tape for it, and takes no other number for meant.
  // Of lines these may be finer: what lies between two marks in a window narrower than a mark; rows of blocking that
  // stay as the file has them; a hub that goes up or down with its weir; fasteners, as long as they are sold.
  const auto may_be_finer = [](const std::string& check, const std::string& key) {
    const bool of_falls = check.starts_with("floor.fall-") || check == "liner.fall" || check == "floor.drains";
    return (of_falls && (key.starts_with("drain.from_") || key == "base.rise" || key == "base.fall")) ||
           check == "entry.step" || key == "walls.blocking" || key == "trap.hub" || key.ends_with("fastener_length");
  };
  const std::regex as_the_file_has_it{
      R"re([^ ]* [^ ]* from the [a-z]+ edge of the base \(drain.from_[a-z]+, now [^)]*\))re"};
  for (const std::string& of : {room, sample::in_millimetres(sample::without_tape(room))})
    for (const Json& check : report_of(of)["checks"]) {
      const std::string id = check["id"];
      std::vector<std::string> texts{check["where"], check["advice"]};
      for (const Json& detail : check["details"]) texts.push_back(detail);
      for (const std::string& text : texts)
        EXPECT_EQ(finer_than_a_mark(std::regex_replace(text, as_the_file_has_it, ""), true), "") << id << ": " << text;
      for (const Json& remedy : check["remedies"])
        for (const Json& line : remedy["lines"]) {
          const std::string key = line["key"];
          if (!line["value"].is_string() || may_be_finer(id, key)) continue;
          EXPECT_EQ(finer_than_a_mark(line["value"]), "") << id << ": " << key << " = " << line["value"];
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Seeds, Laws, testing::ValuesIn(seeds({11, 17})),
                         [](const auto& info) { return std::to_string(info.param); });

}  // namespace
}  // namespace fallwright::properties
