// Numbers in sentences: nothing reads better than it is, and two that are one are told once.
#include <cmath>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/advice.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/entry.hpp"
#include "rules/good_facts.hpp"
#include "rules/joists.hpp"
#include "rules/remedy.hpp"
#include "rules/result_of.hpp"
#include "rules/rule_book.hpp"
#include "rules/spot.hpp"
#include "rules/words.hpp"
#include "support/draws.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"
#include "units/fall.hpp"
#include "units/quantity.hpp"

namespace fallwright {
namespace {

using rules::Unit;
using testing::HasSubstr, testing::Not;

/// The number that a sentence's words read as.
double read(const std::string& words, Unit unit) {
  std::string why;
  switch (unit) {
    case Unit::ratio: {
      const auto fall = units::parse_fall(words.substr(0, words.find(" (")), why);
      return fall ? fall->as_ratio() : NAN;
    }
    case Unit::mm: {
      // What is less than a mark is told as such: "under 1/32\"".
      const std::string number = words.starts_with("under ") ? words.substr(6) : words;
      const auto length = units::parse_length(number, units::LengthUnit::inch, why);
      return length ? length->in_mm() : NAN;
    }
    case Unit::mm2:
      return units::parse_area_mm2(words, why).value_or(NAN);
    case Unit::mm3:
      if (words.ends_with(" in3")) return std::stod(words) * std::pow(25.4, 3);
      if (words.ends_with(" cm3")) return std::stod(words) * 1000;
      return units::parse_volume_mm3(words, why).value_or(NAN);
    default:
      return units::parse_share(words, why).value_or(NAN);
  }
}

/// What follows the colon: "(1:47.8)" runs 47.8.
double run_of(const std::string& words) {
  return std::stod(words.substr(words.find("(1:") + 3));
}

class Sentences : public testing::TestWithParam<job::UnitSystem> {
 protected:
  Sentences() { job.unit = GetParam(); }
  job::Job job = sample::alcove();
  std::mt19937 random{20261128};
  double between(double low, double high) { return std::uniform_real_distribution<double>{low, high}(random); }
};

TEST_P(Sentences, SayNoNumberBetterThanItIs) {
  // Source: property: of many values what is printed reads back to the side named, and no farther than a person reads.
  const struct {
    Unit unit;
    double greatest, step, same;  // same: as a value at its limit is inside it
  } units[] = {{Unit::ratio, 0.1, 1e-4, 1.1e-9},
               {Unit::mm, 3000, 1.6, 1.01e-2},
               {Unit::mm2, 2e6, 1001, 0.11},
               {Unit::mm3, 1e8, 3e5, 1.1},
               {Unit::share, 1.2, 0.0101, 1.1e-9}};
  for (const auto& of : units)
    for (int i = 0; i < draws(2000); ++i) {
      const double value = i % 2 ? between(0, of.greatest) : between(0, of.greatest / 50);
      const std::string less = text_or_less(value, of.unit, job), more = text_or_more(value, of.unit, job);
      const double low = read(less, of.unit), high = read(more, of.unit);
      ASSERT_LE(low, value + of.same) << less;
      ASSERT_GE(high, value - of.same) << more;
      EXPECT_LE(high - low, 2.01 * of.step) << less << " " << more;
      if (of.unit != Unit::ratio || value < 1e-3) continue;
      EXPECT_LE(1 / run_of(less), value + 1.1e-9) << value << " as " << less;
      EXPECT_GE(1 / run_of(more), value - 1.1e-9) << value << " as " << more;
    }
}

TEST_P(Sentences, TellNoWholeMarkForLessThanOne) {
  // Source: by hand: 0.036 mm is a thousandth of an inch, and no rule shows it; 0.005 is rounding, 1/32 in is told.
  const bool metric = job.is_metric();
  const std::string none = metric ? "0 mm" : "0\"", one = metric ? "0.1 mm" : "1/32\"";
  EXPECT_EQ(text_or_more(0.036, Unit::mm, job), "under " + one);
  EXPECT_EQ(text_or_less(0.036, Unit::mm, job), none);
  EXPECT_EQ(text_or_less(-0.036, Unit::mm, job), "just under " + none);
  EXPECT_EQ(text_or_more(0.005, Unit::mm, job), none);
  EXPECT_EQ(text_or_more(metric ? 0.1 : 25.4 / 32, Unit::mm, job), one);
}

TEST_P(Sentences, TellALeastLimitSoThatWhatIsToldKeepsIt) {
  // Source: by hand: 1/8 in is 3.175 mm: of it 3.2 mm are told where tenths are read, and not 4; 1 in is 25.4 mm.
  rules::Result result;
  result.limit.unit = Unit::mm, result.limit.least = 3.175;
  EXPECT_EQ(rules::limit_text(result, job), job.is_metric() ? "at least 3.2 mm" : "at least 1/8\"");
  result.measured = 3.18;
  EXPECT_EQ(rules::measured_text(result, job), job.is_metric() ? "just at 3.2 mm" : "1/8\"");
  result.limit.least = 25.4;
  EXPECT_EQ(rules::limit_text(result, job), job.is_metric() ? "at least 26 mm" : "at least 1\"");
}

TEST_P(Sentences, TellALimitThatIsKeptAsFinelyAsItTakes) {
  // Source: by hand: 70.5 mm keep 70.14, or 70.8 at most, and neither lies at the mark that the limit is rounded to:
  // in tenths, and in 64ths, 178 of which are 70.64 mm and 177 are 70.25, it is told by how much. A hundredth is "at".
  const bool metric = job.is_metric();
  rules::Result result;
  result.limit.unit = Unit::mm, result.limit.least = 70.14, result.measured = 70.5;
  EXPECT_EQ(rules::found_and_limit(result, job),
            metric ? "70.5 mm, limit at least 70.2 mm" : "2-49/64\", limit at least 2-49/64\"");
  result.measured = 70.15;
  EXPECT_THAT(rules::found_and_limit(result, job),
              metric ? "just at 70.2 mm, limit at least 70.2 mm" : "just at 2-49/64\", limit at least 2-49/64\"");
  result.measured = 74;
  EXPECT_EQ(rules::found_and_limit(result, job),
            metric ? "74 mm, limit at least 71 mm" : "2-7/8\", limit at least 2-13/16\"");
  result.limit.least = std::nullopt, result.limit.greatest = 70.8, result.measured = 70.5;
  EXPECT_EQ(rules::found_and_limit(result, job),
            metric ? "70.5 mm, limit at most 70.8 mm" : "2-25/32\", limit at most 2-25/32\"");
}

TEST_P(Sentences, SayOnlyFallsThatAreAllowed) {
  // Source: property: whoever takes either end of what is told is within the limits; where both ends are one, or
  // nothing that is printed lies between them, one value is told, and it is within them too.
  for (int i = 0; i < draws(2000); ++i) {
    const double low = i % 5 == 0 ? 1. / 48 : between(0.005, 0.05);
    const double high = i % 3 == 0 ? low : low + between(0, i % 2 ? 1e-4 : 0.02);
    const std::string words = rules::falls_allowed(low, high, job);
    std::vector<std::string> told{words};
    if (words.starts_with("between "))
      told = {words.substr(8, words.find(" and ") - 8), words.substr(words.find(" and ") + 5)};
    for (const std::string& each : told) {
      EXPECT_GE(read(each, Unit::ratio), low - 2e-9) << words << " of " << low << " to " << high;
      EXPECT_LE(read(each, Unit::ratio), high + 2e-9) << words << " of " << low << " to " << high;
    }
    if (told.size() == 2) {
      EXPECT_NE(told[0], told[1]);
    }
  }
}

TEST_P(Sentences, SayFallsThatWereFoundNoBetterThanTheyAre) {
  // Source: property: what was found lies within what is told; one fall is told once.
  for (int i = 0; i < draws(500); ++i) {
    const double low = between(0.005, 0.05), high = low + between(0, 0.02);
    const std::string words = rules::falls_found(low, high, job);
    const std::size_t to = words.find(" to ");
    ASSERT_NE(to, std::string::npos) << words;
    EXPECT_LE(read(words.substr(0, to), Unit::ratio), low + 1e-9) << words;
    EXPECT_GE(read(words.substr(to + 4), Unit::ratio), high - 1e-9) << words;
    EXPECT_THAT(rules::falls_found(low, low, job), Not(HasSubstr(" to ")));
  }
}

TEST_P(Sentences, WriteLengthsThatReadBack) {
  // Source: property: a length that somebody is to write down reads back as the one that its line of the job file has.
  for (int i = 0; i < draws(2000); ++i) {
    const double grid[] = {25.4 / 16, 25.4 / 64, 1, 0.1, 0};
    const double step = grid[i % 5], drawn = between(1, 2000), mm = step > 0 ? std::round(drawn / step) * step : drawn;
    EXPECT_NEAR(read(rules::length_in_full(mm, job), Unit::mm), mm, 1e-4) << rules::length_in_full(mm, job);
  }
}

TEST_P(Sentences, SayNoLimitThatIsKeptSoThatItReadsAsBroken) {
  // Source: property: where a value keeps its limit the number told of it keeps the limit that is told, wherever both
  // lie between the tape's marks; 20 mm at a limit of 20 mm, in inches, were 3/4 of at least 13/16 by the marks. A
  // length within 0.01 mm of a mark is told as that (units/tolerance.hpp).
  rules::Result result;
  result.id = "bed.least";
  result.limit.unit = Unit::mm;
  for (int i = 0; i < draws(2000); ++i) {
    const bool least = i % 2;
    const double limit = i % 3 ? between(6, 90) : 20, over = i % 5 ? between(0, 2) : 0;
    result.limit.least = result.limit.greatest = std::nullopt;
    (least ? result.limit.least : result.limit.greatest) = limit;
    result.measured = least ? limit + over : limit - over;
    const std::string told = rules::limit_text(result, job), value = rules::measured_text(result, job);
    ASSERT_TRUE(told.starts_with(least ? "at least " : "at most ")) << told;
    const double bound = read(told.substr(told.find(' ', 3) + 1), Unit::mm),
                 number = read(value.substr(value.starts_with("just at ") ? 8 : 0), Unit::mm);
    EXPECT_TRUE(least ? number >= bound - 1e-6 : number <= bound + 1e-6)
        << value << " beside " << told << ", " << limit;
    EXPECT_NEAR(number, *result.measured, 2 * units::tape_mark_mm(job.is_metric())) << value;
    if (value.starts_with("just at ")) {
      EXPECT_NEAR(*result.measured, limit, units::rule_mark_mm(job.is_metric())) << value << ", " << told;
    }
    if (!value.starts_with("just at ")) {
      EXPECT_TRUE(least ? number <= *result.measured + 1.01e-2 : number >= *result.measured - 1.01e-2) << value;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Units, Sentences, testing::Values(job::UnitSystem::inch, job::UnitSystem::metric));

TEST(Words, ALengthOnAMarkButForTheSolidsRoundingIsThatMark) {
  // Source: by hand: 7/16 in are 11.1125 mm, 61.24 mm lie between 2-3/8 and 2-7/16; a thousandth of a millimetre is
  // nothing that anybody reads, a tenth is.
  job::Job inches;
  inches.unit = job::UnitSystem::inch;
  EXPECT_EQ(text_or_less(11.11176, Unit::mm, inches), "7/16\"");
  EXPECT_EQ(text_or_more(11.1131, Unit::mm, inches), "7/16\"");
  EXPECT_EQ(text_or_less(11.01, Unit::mm, inches), "3/8\"");
  EXPECT_EQ(text_or_more(61.24, Unit::mm, inches), "2-7/16\"");
  job::Job metric;
  metric.unit = job::UnitSystem::metric;
  EXPECT_EQ(text_or_less(10.9994, Unit::mm, metric), "11 mm");
  EXPECT_EQ(text_or_less(10.9, Unit::mm, metric), "10 mm");
}

TEST(Words, LinesOfTheJobFileAreSaidAsWhatTheyComeTo) {
  // Source: by hand: 491.4458 mm are read as 491; 55-41/64 in stand on a rule; 1/96 is 1.04 %.
  job::Job metric, inches;
  metric.unit = job::UnitSystem::metric, inches.unit = job::UnitSystem::inch;
  EXPECT_EQ(rules::said({{"drain.from_left", "\"491.4458 mm\"", 0}}, metric),
            "a drain 491 mm from the base's left edge (drain.from_left)");
  EXPECT_EQ(rules::said({{"base.length", "\"55-41/64 in\"", 0}}, inches), "a base 55-41/64\" long (base.length)");
  EXPECT_EQ(rules::said({{"base.threshold.fall", "\"1.041666667 %\"", 0}}, metric),
            "a threshold's top that falls 1.04 % (1:96) (base.threshold.fall)");
  EXPECT_EQ(rules::said({{"bench.depth", "\"10-11/16 in\"", 0}, {"base.width", "\"29 in\"", 0}}, inches),
            "a bench 10-11/16\" deep (bench.depth), a base 29\" wide (base.width)");
  EXPECT_EQ(rules::said({{"base.rise", "\"9/16 in\"", 0}, {"base.fall", "", 0}}, inches),
            "a rim 9/16\" above the drain's edge (base.rise)");
  EXPECT_EQ(rules::said({{"door.kind", "\"sliding\"", 0}}, inches), "the line door.kind = \"sliding\"");
  EXPECT_EQ(rules::said({{"bed.gauge_depth", "", 0}}, inches), "the line bed.gauge_depth taken out");
}

TEST(Spots, LieByTheWallsAsTheyStand) {
  // Source: by hand: an alcove that opens toward its entry, 1800 mm wide at the back and 1880 at the front, 900 deep:
  // 50 mm from the entry its walls stand at -37.8 and 1837.8, 10 from it the left one at -39.6, and 15 from the back at
  // -0.7. A thumb covers 20 mm. A tape hooked on the left stud face beside a place reads so much more.
  job::Job job = sample::alcove();
  job.unit = job::UnitSystem::metric;
  const survey::StudFaces faces{{-40, 40. / 900}, {1840, -40. / 900}, {900, 0}};
  EXPECT_EQ(rules::spot_of({-25, 50}, faces, job), "the left wall, 50 mm from the entry");
  EXPECT_EQ(rules::spot_of({1825, 50}, faces, job), "the right wall, 50 mm from the entry");
  EXPECT_EQ(rules::spot_of({5, 50}, faces, job), "43 mm from the left stud face, 50 mm from the entry");
  EXPECT_EQ(rules::spot_of({1795, 50}, faces, job), "1833 mm from the left stud face, 50 mm from the entry");
  EXPECT_EQ(rules::spot_of({-25, 15}, faces, job), "the front left corner");
  EXPECT_EQ(rules::spot_of({1790, 890}, faces, job), "the back right corner");
  EXPECT_EQ(rules::spot_of({900, 885}, faces, job), "the back wall, 901 mm from the left stud face");
  EXPECT_EQ(rules::spot_of({900, 10}, faces, job), "the entry, 940 mm from the left stud face");
}

TEST(Spots, AreToldFromWhatStandsAtTheLeft) {
  // Source: from memory: a tape is hooked on something; without a left wall there is no stud face to hook it on.
  job::Job job = sample::alcove();
  job.unit = job::UnitSystem::metric;
  const survey::StudFaces faces{{0, 0}, {1800, 0}, {900, 0}};
  EXPECT_EQ(rules::place_of({700, 300, 0}, faces, job), "700 mm from the left stud face, 300 mm from the entry");
  job.alcove.walls = {job::Side::back, job::Side::right};
  EXPECT_EQ(rules::place_of({700, 300, 0}, faces, job), "700 mm from the back wall's left end, 300 mm from the entry");
  EXPECT_EQ(rules::spot_of({700, 5, 0}, faces, job), "the entry, 700 mm from the back wall's left end");
  job.alcove.walls = {job::Side::right};
  EXPECT_EQ(rules::place_of({700, 300, 0}, faces, job), "700 mm from the alcove's left side, 300 mm from the entry");
}

TEST(Words, TwoBoundsThatAreOneAreToldOnce) {
  // Source: by hand: a limit of 1/4 in/ft both ways, of a base with one fall and of one that was bought.
  job::Job job = sample::alcove();
  job.base.pattern = job::FallPattern::equal_fall;
  EXPECT_EQ(rules::floor_advice(job, 1. / 48, 1. / 48), "set base.fall to 1/4 in/ft (1:48)");
  job.base.made = job::Made::bought;
  EXPECT_THAT(rules::floor_advice(job, 1. / 48, 1. / 48), HasSubstr("buy one that falls 1/4 in/ft (1:48) on"));
}

TEST(Words, OneFloorMeetsEdgesThatDifferByAllOfTheStep) {
  // Source: by hand: edges 80 and 56 mm above the bath's floor, and a step of half an inch: raised by 67.3 to 68.7 mm
  // both keep it, which the next mark, 2-11/16 in or 68.3, does; of edges 80 and 54.7 apart nothing but 67.3 to 67.4
  // does, which no mark is.
  job::Job job = sample::alcove();
  job.base.threshold = {};
  job.floor.finish_outside = job::Length{};
  for (const double low : {56.0, 54.7}) {
    facts::Facts facts = sample::good_facts();
    facts.heights.outside = sample::level_at(0);
    facts.room.as_set.raised_mm.reset();
    facts.edges = {{job::Side::front, facts::Behind::nothing, facts::Turned::rim, low, 80, false}};
    const rules::Result step = sample::result_of(job, facts, "entry.step");
    ASSERT_EQ(step.remedies.size(), 1u) << step.where << step.advice;
    std::string why;
    const std::string value = step.remedies[0].changes.at(0).value;
    const double to = units::parse_length(value.substr(1, value.size() - 2), units::LengthUnit::inch, why)->in_mm();
    EXPECT_LE(80 - to, 12.7 + 1e-4) << value;
    EXPECT_LE(to - low, 12.7 + 1e-4) << value;
  }
}

/// Ends with how far it was verified, and tells that once: neither "from memory, from memory" nor, of a part of it that
/// is as the whole is, "(2016; its factors secondary), secondary".
bool is_told_once(const std::string& text) {
  const auto marks = {rules::Verified::quoted, rules::Verified::secondary, rules::Verified::from_memory,
                      rules::Verified::common_practice, rules::Verified::user};
  bool ends = false;
  for (const auto a : marks) {
    const std::string mark = name_of(a);
    ends = ends || text.ends_with(mark);
    if (text.find(mark + "), " + mark) != std::string::npos) return false;
    for (const auto b : marks)
      if (text.find(mark + ", " + name_of(b)) != std::string::npos) return false;
  }
  return ends;
}

TEST(Words, ASourceOfTheUsersIsToldToBeTheirsWhateverItsWords) {
  // Source: none; how far it was verified hangs on no phrase in it.
  rules::Limit limit;
  limit.source = "county 7; strength by table 3", limit.verified = rules::Verified::user;
  EXPECT_EQ(rules::source_text(limit), "county 7; strength by table 3, set by the user");
}

TEST(Words, ASourceIsToldOnceWithHowFarItWasVerified) {
  // Source: none; over every row of every book, in timber and in steel, with its strength's own document where there is
  // one.
  EXPECT_FALSE(is_told_once("ADA 610.4 (2010), from memory, from memory"));
  EXPECT_FALSE(is_told_once("EN 338 (2016; its factors secondary), secondary"));
  EXPECT_FALSE(is_told_once("ADA 610.4 (2010)"));
  std::size_t rows = 0, strengths = 0;
  for (const std::string& book : rules::book_names())
    for (const char* species : {"SPF No.2", "C24"})
      for (const auto panel : {job::PanelKind::plywood, job::PanelKind::osb}) {
        job::Job job = sample::alcove();
        job.book = book, job.bench->frame.species = species, job.bench->frame.panel = panel;
        job.floor.joist_species = species, job.floor.joist_span = job::Length::feet(10);
        for (const rules::Result& r : rules::check(job, sample::good_facts())) {
          if (r.limit.source.empty()) continue;
          const std::string text = rules::source_text(r.limit), by = "; strength by ";
          const std::size_t cut = text.find(by);
          EXPECT_TRUE(is_told_once(text.substr(0, cut))) << book << " " << r.id << ": " << text;
          ++rows;
          if (cut == std::string::npos) continue;
          EXPECT_TRUE(is_told_once(text.substr(cut + by.size()))) << book << " " << r.id << ": " << text;
          ++strengths;
        }
      }
  EXPECT_GT(rows, 1500U);
  EXPECT_GT(strengths, 20U);
}

TEST(LimitsInWords, OfWhatNobodyReadAreTheJobFilesAloneWhereItSetsThem) {
  // Source: the books' rows: what goes by a pipe, a joist or a flow is no wish of the job file's.
  for (const std::string& name : rules::book_names()) {
    job::Job job = sample::alcove();
    job.book = name;
    const rules::Limits limits = rules::limits_for(job);
    std::size_t unread = 0;
    for (const rules::Result& r : rules::check(job, sample::good_facts(), limits)) {
      if (r.outcome != rules::Outcome::not_checked || r.limit.least || r.limit.greatest) continue;
      ++unread;
      EXPECT_EQ(rules::limit_text(r, job) == "as the job file asks",
                r.limit.source.find("job file") != std::string::npos)
          << name << ", " << r.id << ": " << rules::limit_text(r, job) << ", " << r.limit.source;
    }
    EXPECT_GT(unread, 0u) << name;
  }
}

TEST(Places, OnTheOtherSideOfAnEdgeAreToldWithoutASign) {
  // Source: none; a tape is hooked at the edge and reads away from it, so of what lies beyond the words must tell.
  const job::Job job = sample::alcove();
  const survey::StudFaces faces{{0, 0}, {72 * 25.4, 0}, {36 * 25.4, 0}};
  const auto place = [&](double x, double y) { return rules::place_of({x * 25.4, y * 25.4, 0}, faces, job); };
  EXPECT_EQ(place(30, -1.5), "30\" from the left stud face, 1-1/2\" before the entry");
  EXPECT_EQ(place(-2, 10), "2\" to the left of the left stud face, 10\" from the entry");
  EXPECT_EQ(place(30, -1e-7), "30\" from the left stud face, 0\" from the entry");
  EXPECT_EQ(rules::spot_of({0, -3 * 25.4, 0}, faces, job), "the left wall, 3\" before the entry");
}

TEST(WhatSolidsShare, IsToldToTwoDigitsAndNeverLess) {
  // Source: closed form: a cubic inch is 16387.064 mm3: 17.7 are 0.00108 of one, 234 are 0.01428, 3000 are 0.1831.
  job::Job job = sample::alcove();
  EXPECT_EQ(rules::shared_text(17.7, job), "0.0011 in3");
  EXPECT_EQ(rules::shared_text(234, job), "0.015 in3");
  EXPECT_EQ(rules::shared_text(3000, job), "0.19 in3");
  EXPECT_EQ(rules::shared_text(2 * 16387.064, job), "2.0 in3");
  job.unit = job::UnitSystem::metric;
  EXPECT_EQ(rules::shared_text(17.7, job), "0.018 cm3");
  EXPECT_EQ(rules::shared_text(20, job), "0.020 cm3") << "no more than it is";
  EXPECT_EQ(rules::shared_text(3000, job), "3.0 cm3");
}

TEST(Words, AJoistBeyondTheHookIsToldOnItsOtherSide) {
  // Source: by hand: no tape reads less than nothing.
  facts::Facts facts;
  facts.parts.resize(1);
  facts.parts[0].which = sample::part_id("joists/joist-01"), facts.parts[0].id = "joists/joist-01";
  const auto told = [&](bool along_width, double centre_in) {
    facts.room.drain.along_width = along_width;
    const double low = (centre_in - 0.75) * 25.4, high = (centre_in + 0.75) * 25.4;
    facts.parts[0].bbox_mm = {low, low, -300, high, high, -20};
    return rules::said_joist("joists/joist-01", facts, sample::alcove());
  };
  EXPECT_EQ(told(true, -2), "the joist at 2\" to the left of the left stud face");
  EXPECT_EQ(told(true, 14), "the joist at 14\" from the left stud face");
  EXPECT_EQ(told(false, -2), "the joist at 2\" before the entry");
  EXPECT_EQ(told(false, 14), "the joist at 14\" from the entry");
}

TEST(Words, WhatPassesByTheTapeAloneIsToldSo) {
  // Source: none; a pass beside a number that reads as past its limit says why, whatever the unit; a caution does not.
  rules::Result r;
  r.id = "opening.width", r.limit.least = 0, r.limit.greatest = 12.7, r.outcome = rules::Outcome::pass;
  const auto told = [&](double mm, job::UnitSystem unit) {
    job::Job job = sample::alcove();
    job.unit = unit, r.measured = mm;
    return rules::found_and_limit(r, job);
  };
  const std::string why = ", at its limit as far as the tape tells, limit 0";
  EXPECT_THAT(told(12.72, job::UnitSystem::inch), testing::StartsWith("1/2\"" + why));
  EXPECT_THAT(told(14.2, job::UnitSystem::inch), testing::StartsWith("9/16\"" + why));
  EXPECT_THAT(told(12.72, job::UnitSystem::metric), testing::HasSubstr(" mm" + why));
  EXPECT_THAT(told(12.6, job::UnitSystem::inch), testing::Not(testing::HasSubstr("tape")));
  r.outcome = rules::Outcome::caution;
  EXPECT_THAT(told(12.72, job::UnitSystem::inch), testing::StartsWith("just over 1/2\""));
}

TEST(Words, WhatWouldBreakACheckIsToldAsThatTellsIt) {
  // Source: by hand: 0.378 in is over 3/8 by less than half a sixteenth; told by a check that measured it or by one
  // that could not tell yet it is the same; 0.3 is rounded up.
  rules::Result r;
  r.id = "floor.level", r.limit.greatest = 0.375 * 25.4, r.limit.unit = rules::Unit::mm;
  const job::Job job = sample::alcove();
  const auto told = [&](double in) { return rules::text_as_checked(in * 25.4, "floor.level", {r}, job); };
  const std::string open = told(0.378);
  EXPECT_EQ(open, "just over 3/8\"");
  EXPECT_EQ(told(0.3), "5/16\"");
  r.measured = 0.378 * 25.4;
  EXPECT_EQ(told(0.378), open);
}

TEST(EntryWords, SayWhereLengthsFromTheEntryBegin) {
  // Source: by hand: a right wall that ends 2 in farther back than the left one has the zero at its end; a tape that is
  // hooked at the longer one's end reads 2 in more. Its mirror has it at the left one's.
  job::Job j = sample::alcove();
  facts::Room room;
  EXPECT_EQ(rules::entry_words(j, room), "") << "nobody read where they end";
  constexpr double inch = 25.4;
  room.ends_apart_mm = 2 * inch;
  EXPECT_EQ(rules::entry_words(j, room),
            "'from the entry' counts from the end of the right wall's stud face, on a line along the back wall: at the "
            "left wall that is 2\" inside its end");
  room.ends_apart_mm = -2 * inch;
  EXPECT_THAT(rules::entry_words(j, room), HasSubstr("of the left wall's stud face"));
  EXPECT_THAT(rules::entry_words(j, room), HasSubstr("at the right wall that is 2\" inside"));
  j.unit = job::UnitSystem::metric;
  EXPECT_THAT(rules::entry_words(j, room), HasSubstr("is 51 mm inside"));
  room.ends_apart_mm = 0.24 * inch;
  EXPECT_EQ(rules::entry_words(j, room), "") << "no reading tells it";
}

TEST(Words, EachWallIsBroughtOutInItsOwnWayAndInTheMirror) {
  // Source: closed form: 50 back over all its length a wall of flat studs, 38.1, has room; 5 back at its foot none has;
  // beyond furring over the tile that nobody told, that is told first.
  using job::Side;
  const auto words = [](Side frame, Side plumb, Side unsaid) {
    facts::Facts facts;
    facts.room.studs = {{"f", frame, facts::Before::base, 0, 50, 50, 50},
                        {"p", plumb, facts::Before::base, 0, 5, 50, 50},
                        {"u", unsaid, facts::Before::base, 0, 5, 5, 50}};
    facts.room.studs[2].tile_unsaid = true;
    EXPECT_EQ(facts::first_at(facts.room.studs, frame), facts::WallFirst::frame);
    EXPECT_EQ(facts::first_at(facts.room.studs, plumb), facts::WallFirst::plumb);
    EXPECT_EQ(facts::first_at(facts.room.studs, unsaid), facts::WallFirst::say_tile);
    EXPECT_EQ(facts::first_at({}, frame), facts::WallFirst::nothing);
    return rules::to_frame_out(facts);
  };
  EXPECT_THAT(words(Side::left, Side::back, Side::right),
              testing::AllOf(HasSubstr("tile.height"), HasSubstr("; frame the left wall out first, and plumb or sister "
                                                                 "the studs of the back wall first, then read")));
  EXPECT_THAT(
      words(Side::right, Side::back, Side::left),
      testing::AllOf(HasSubstr("tile.height"), HasSubstr("; frame the right wall out first, and plumb or sister "
                                                         "the studs of the back wall first, then read")));
}

}  // namespace
}  // namespace fallwright
