// The record of what was built, as the job file has it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "job/describe.hpp"
#include "job/read.hpp"
#include "job/written.hpp"

namespace fallwright::job {
namespace {

using testing::HasSubstr;

Job with(const std::string& record) {
  return read(starter(UnitSystem::metric, BaseKind::designed) + record, "job.toml");
}

std::string told_of(const std::string& record) {
  try {
    with(record);
    return "";
  } catch (const diag::JobFaults& e) {
    return e.what();
  }
}

TEST(AsBuilt, IsStoredWhereItBelongs) {
  // Source: none; no two values alike.
  const AsBuilt built = with(R"(
[as_built]
date = "2026-12-02"
by = "the setter"
[[as_built.fall]]
surface = "base-floor"
facet = "left"
fall = "2.3 %"
[[as_built.fall]]
surface = "threshold"
fall = "-1 %"
[[as_built.flood]]
at = "2026-12-01 08:30"
level = 51
[[as_built.flood]]
at = "2026-12-02 08:45"
level = 49
[[as_built.photo]]
file = "a.jpg"
shows = "the bed"
)")
                            .as_built;
  EXPECT_EQ(built.date + "|" + built.by, "2026-12-02|the setter");
  ASSERT_EQ(built.falls.size(), 2u);
  EXPECT_EQ(built.falls[0].facet, survey::Side::left);
  EXPECT_NEAR(built.falls[0].fall.as_ratio(), 0.023, 1e-12);
  EXPECT_EQ(built.falls[1].surface, survey::Surface::threshold);
  EXPECT_NEAR(built.falls[1].fall.as_ratio(), -0.01, 1e-12);
  ASSERT_EQ(built.flood.size(), 2u);
  EXPECT_EQ(built.flood[1].level.in_mm(), 49);
  EXPECT_EQ(*minutes_of(built.flood[1].at) - *minutes_of(built.flood[0].at), 24 * 60 + 15);
  ASSERT_EQ(built.photos.size(), 1u);
  EXPECT_EQ(built.photos[0].file + "|" + built.photos[0].shows, "a.jpg|the bed");
  EXPECT_FALSE(with("").as_built.any());
}

TEST(AsBuilt, TimesAreThoseOfACalendar) {
  // Source: the Gregorian calendar: 2028 is a leap year, 2026 is none; 1970-01-02 00:01 is a day and a minute on.
  EXPECT_EQ(minutes_of("1970-01-02 00:01"), 24 * 60 + 1);
  EXPECT_TRUE(minutes_of("2028-02-29 23:59"));
  for (const char* none : {"2026-02-29 12:00", "2026-13-01 12:00", "2026-12-01 24:00", "2026-12-01 12:60",
                           "2026-12-01T12:00", "2026-12-1 12:00", "2026-12-01 -1:00", "noon", ""})
    EXPECT_FALSE(minutes_of(none)) << none;
}

TEST(AsBuilt, DayAndTimesAreHeldToACalendarWithAllOtherFaults) {
  // Source: the contract of messages: all faults in one run, each with what was found and what is allowed.
  const std::string told = told_of(
      "[as_built]\ndate = \"soon\"\n[[as_built.flood]]\nat = \"2026-02-29 08:00\"\nlevel = 900\n"
      "[[as_built.photo]]\nfiel = \"a.jpg\"\n");
  for (const char* part : {"as_built.date: found 'soon'; wanted a day of the calendar like '2026-12-02'",
                           "as_built.flood.at: found '2026-02-29 08:00'; wanted a day and a time",
                           "as_built.flood.level: found 900 mm", "no such key; did you mean 'as_built.photo.file'?"})
    EXPECT_THAT(told, HasSubstr(part));
}

TEST(AsBuilt, ADayIsOneOfTheCalendar) {
  // Source: ISO 8601 extended dates; the Gregorian calendar has a 29 February in 2028 and none in 2026 and 2100.
  for (const char* day : {"2026-03-14", "2028-02-29", "2000-02-29", "9999-12-31"}) EXPECT_TRUE(is_day(day)) << day;
  for (const char* none :
       {"14.3.2026", "2026-3-14", "2026-02-29", "2100-02-29", "2026-04-31", "2026-13-01", "2026-00-10", "2026-03-00",
        "2026-03-14 ", "2026-12-02 08:30", "soon", "2026/03/14", "-026-03-14", "20260314", ""})
    EXPECT_FALSE(is_day(none)) << none;
}

TEST(AsBuilt, APlaneIsReadOnce) {
  // Source: the contract of messages; of two readings of one plane nobody can say which holds.
  const std::string left = "[[as_built.fall]]\nsurface = \"base-floor\"\nfacet = \"left\"\nfall = \"2 %\"\n",
                    back = "[[as_built.fall]]\nsurface = \"base-floor\"\nfacet = \"back\"\nfall = \"2 %\"\n";
  EXPECT_EQ(told_of(left + back), "");
  EXPECT_THAT(told_of(left + back + left), HasSubstr("has this plane again, as entry 1 has"));
}

TEST(AsBuilt, WhatCannotBeIsToldWithItsPlace) {
  // Source: the contract of messages: place, what was found, what is allowed.
  EXPECT_THAT(told_of("[[as_built.fall]]\nsurface = \"seat\"\nfall = \"2 %\"\n"), HasSubstr("the room has no bench"));
  EXPECT_THAT(told_of("[[as_built.fall]]\nsurface = \"base-floor\"\nfall = \"2 %\"\n"), HasSubstr("say which by"));
  EXPECT_THAT(told_of("[[as_built.fall]]\nsurface = \"threshold\"\nfacet = \"left\"\nfall = \"2 %\"\n"),
              HasSubstr("the threshold has one plane"));
  EXPECT_THAT(told_of("[[as_built.flood]]\nat = \"yesterday\"\nlevel = 50\n"), HasSubstr("found 'yesterday'"));
  EXPECT_THAT(told_of("[[as_built.flood]]\nat = \"2026-12-01 08:30\"\nlevel = 50\n"
                      "[[as_built.flood]]\nat = \"2026-12-01 08:30\"\nlevel = 50\n"),
              HasSubstr("is not after the reading before it"));
}

TEST(WrittenKeys, AreWrittenAsTheyWereTyped) {
  // Source: none; a decimal that no double holds exactly is told as it was typed.
  Job job = with("[cuts]\npreferred = [2400.4, 3000]\n");
  std::string all;
  for (const WrittenKey& key : written_keys(job)) all += key.key + " = " + key.value + "\n";
  EXPECT_THAT(all, HasSubstr("cuts.preferred = [ 2400.4, 3000 ]\n"));
}

TEST(WrittenKeys, AreThoseOfTheFileEntryByEntry) {
  // Source: none; two ways to write one length say the same, another length does not.
  const Job job = with(
      "[survey.floor]\nspots = [[100, 100, 1], [900, 100, 2], [100, 700, 3]]\n"
      "[[as_built.photo]]\nfile = \"a.jpg\"\n[[as_built.photo]]\nfile = \"b.jpg\"\n");
  std::string all;
  for (const WrittenKey& key : written_keys(job)) all += key.key + " = " + key.value + "\n";
  EXPECT_THAT(all, HasSubstr("survey.floor.spots[2] = [ 100, 700, 3 ]\n"));
  EXPECT_THAT(all, HasSubstr("as_built.photo[1].file = "));
  EXPECT_THAT(all, HasSubstr("base.length = 1525\n"));
  const auto same = [](const char* a, UnitSystem ua, const char* b, UnitSystem ub) {
    return say_the_same({"base.length", a}, ua, {"base.length", b}, ub);
  };
  const UnitSystem in = UnitSystem::inch, mm = UnitSystem::metric;
  EXPECT_TRUE(same("\"5 ft\"", in, "'60 in'", mm));
  EXPECT_TRUE(same("60", in, "1524", mm));
  EXPECT_TRUE(same("[ \"6 in\", \"34 in\" ]", in, "[ 152.4, 863.6 ]", mm));
  EXPECT_FALSE(same("[ \"6 in\", \"34 in\" ]", in, "[ 152.4 ]", mm));
  EXPECT_TRUE(say_the_same({"survey.floor.spots[0]", "[ 10, 0, \"1/8 in\" ]"}, in,
                           {"survey.floor.spots[0]", "[ 254, 0, 3.175 ]"}, mm));
  EXPECT_TRUE(say_the_same({"survey.plan.back", "{ length = \"60 in\", face = \"board\" }"}, in,
                           {"survey.plan.back", "{ face = \"board\", length = 1524 }"}, mm));
  EXPECT_FALSE(say_the_same({"survey.plan.back", "{ length = \"60 in\", face = \"board\" }"}, in,
                            {"survey.plan.back", "{ length = 1524, face = \"stud\" }"}, mm));
  EXPECT_FALSE(same("60", in, "60", mm));
  EXPECT_FALSE(same("\"5 ft\"", in, "\"5 ft 1 in\"", in));
}

}  // namespace
}  // namespace fallwright::job
