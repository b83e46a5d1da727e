// Advice, followed as a person would: its lines are written into the job file, and the whole program runs again.
#include <algorithm>
#include <map>
#include <regex>
#include <set>

#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "properties/rooms.hpp"
#include "rules/check.hpp"
#include "study/study.hpp"
#include "support/random_room.hpp"

namespace fallwright::properties {
namespace {

using sample::Json;

/// Every second room in millimetres, every third with a bought base, every fifth with one made to order.
std::string room_of(unsigned seed) {
  std::string room = sample::random_room(seed);
  if (seed % 3 == 0) room = sample::with_line(room, "base.made", "\"bought\"");
  if (seed % 5 == 1) room = sample::with_line(room, "base.made", "\"to-order\"");
  return seed % 2 == 0 ? sample::in_millimetres(room) : room;
}

bool broken(const Json& check) {
  return check["result"] == "fail" || check["result"] == "caution";
}

std::string id_of(const Json& check) {
  return check["id"].get<std::string>();
}

std::map<std::string, Json> by_id(const Json& report) {
  std::map<std::string, Json> all;
  for (const Json& check : report["checks"]) all[id_of(check)] = check;
  return all;
}

/// Checks of a job file, laid out, built, measured and judged anew; the advice in them is not followed again.
std::map<std::string, rules::Result> judged(const std::string& job_file) {
  const job::Job job = job::read(job_file, "followed.toml");
  const auto model = parts::build(job);
  facts::Facts facts = measure::measure(*model);
  const rules::Limits limits = rules::limits_for(job);
  facts.room.drain = study::drain_window(*model, facts.room.drain, limits);
  std::map<std::string, rules::Result> all;
  for (rules::Result& result : rules::check(job, facts, limits)) all[result.id] = std::move(result);
  return all;
}

bool broken(const rules::Result& result) {
  return result.outcome == rules::Outcome::fail || result.outcome == rules::Outcome::caution;
}

std::string followed(std::string room, const Json& remedy) {
  for (const Json& line : remedy["lines"])
    room = sample::with_line(room, line["key"], line["value"].is_null() ? "" : line["value"].get<std::string>(),
                             line["entry"].get<std::size_t>());
  return room;
}

std::string told(const Json& check, const Json& remedy) {
  return id_of(check) + ": " + check["advice"].get<std::string>() + "\n  " + remedy.dump() + "\n";
}

class AdviceOf : public testing::TestWithParam<unsigned> {
 protected:
  const std::string room = room_of(GetParam());
  const Json& report = report_of(room);
};

TEST_P(AdviceOf, MendsWhatFailsAndTellsWhatElseItBreaks) {
  // Source: property: whoever writes what an advice says into the job file finds the check held, and every other check
  // that fails then, and did not before, was named.
  const std::map<std::string, Json> before = by_id(report);
  for (const Json& check : report["checks"]) {
    if (!broken(check)) continue;
    for (const Json& remedy : check["remedies"]) {
      const std::string other = followed(room, remedy);
      if (!remedy["refused"].is_null()) {
        EXPECT_THROW(job::read(other, "followed.toml"), diag::JobFaults) << told(check, remedy) << room;
        continue;
      }
      std::map<std::string, rules::Result> after;
      try {
        after = judged(other);
      } catch (const diag::JobFaults& e) {
        ADD_FAILURE() << "no such job: " << e.what() << "\n" << told(check, remedy) << room;
        continue;
      }
      std::set<std::string> costs, named(remedy["costs"].begin(), remedy["costs"].end());
      for (const auto& [id, now] : after)
        if (broken(now) && !broken(before.at(id))) costs.insert(id);
      const rules::Result& now = after.at(id_of(check));
      EXPECT_FALSE(broken(now)) << told(check, remedy) << "before " << check["measured"] << ", then "
                                << now.measured.value_or(0) << "; " << now.where << "\n"
                                << room;
      EXPECT_TRUE(remedy["settles"].get<bool>()) << told(check, remedy);
      EXPECT_EQ(costs, named) << told(check, remedy) << room;
    }
  }
}

TEST_P(AdviceOf, BringsRemediesTogetherThatUndoEachOther) {
  // Source: property: whoever writes a road's lines into the job file finds what it mends held, and what fails then,
  // and was held before or had a remedy, named; and less fails than did.
  const Json& road = report["road"];
  if (road.is_null()) return;
  const std::map<std::string, Json> before = by_id(report);
  const auto after = judged(followed(room, road));
  std::set<std::string> left, named(road["left"].begin(), road["left"].end());
  for (const auto& [id, now] : after)
    if (broken(now) && (!broken(before.at(id)) || !before.at(id)["remedies"].empty())) left.insert(id);
  for (const Json& id : road["mends"]) {
    EXPECT_TRUE(broken(before.at(id))) << id;
    EXPECT_FALSE(broken(after.at(id))) << id << "\n" << road.dump() << "\n" << room;
  }
  EXPECT_EQ(left, named) << road.dump() << "\n" << room;
  EXPECT_FALSE(road["mends"].empty());
}

TEST_P(AdviceOf, ChangesNothingThatIsAsItIs) {
  // Source: common practice, no source: a bought base has its sizes, and what was read in the room is so.
  const bool bought = room.find("made = 'bought'") != std::string::npos;
  for (const Json& check : report["checks"])
    for (const Json& remedy : check["remedies"])
      for (const Json& line : remedy["lines"]) {
        const std::string key = line["key"];
        EXPECT_TRUE(key.rfind("alcove.", 0) != 0 && key.rfind("survey.", 0) != 0 && key.rfind("as_set.", 0) != 0)
            << told(check, remedy);
        const bool lap = key == "base.upstands.lapped";  // that is the wall's membrane
        const bool placed = key == "base.against";       // where it stands is not how it is made
        if (bought) {
          EXPECT_FALSE((key.rfind("base.", 0) == 0 && !lap && !placed) || key.rfind("drain.from", 0) == 0 ||
                       key == "drain.size" || key == "drain.outlet")
              << told(check, remedy);
        }
      }
}

TEST_P(AdviceOf, HasALineForEveryKeyItNamesWithALength) {
  // Source: property: "... to 2-1/2" (base.threshold.height)" is a line of the job file. What names a key without
  // saying what to write there, or a reading still to be taken, is none.
  const std::regex named{R"((\d"|\d mm|%|\)) \(([a-z_]+\.[a-z_.]+)\))"};
  for (const Json& check : report["checks"]) {
    if (!broken(check)) continue;
    const std::string advice = check["advice"];
    std::set<std::string> keys;
    for (const Json& remedy : check["remedies"])
      for (const Json& line : remedy["lines"]) keys.insert(line["key"].get<std::string>());
    for (std::sregex_iterator it{advice.begin(), advice.end(), named}, end; it != end; ++it) {
      const std::string key = (*it)[2];
      if (key == "walls.blocking" && advice.find("set a stud") != std::string::npos) continue;  // it lacks its stud
      const bool bought = room.find("made = 'bought'") != std::string::npos && key.rfind("base.", 0) == 0;
      EXPECT_TRUE(bought || keys.contains(key)) << id_of(check) << ": " << advice << "\n  names " << key;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Seeds, AdviceOf, testing::ValuesIn(seeds({3, 14})),
                         [](const auto& info) { return std::to_string(info.param); });

}  // namespace
}  // namespace fallwright::properties
