// What a person reads on a terminal.
#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/sample_report.hpp"
#include "report/verdict.hpp"
#include "rules/book.hpp"
#include "support/imperial.hpp"
#include "units/quantity.hpp"

namespace fallwright {
namespace {

using testing::HasSubstr;
using testing::Not;

rules::Result of(double measured, rules::Limit limit) {
  rules::Result r;
  r.measured = measured;
  r.limit = std::move(limit);
  return r;
}

TEST(Text, SummarySaysWhatATiredPersonNeeds) {
  // Source: by hand on the sample: 40 L is 1.41 ft3, with 10 % over 0.45 ft3 3.453, so 4 bags; falls 0.2 and 0.45
  // in/ft.
  const sample::Reported sample;
  const std::string text = report::summary(sample.report(), "out/sample");
  EXPECT_THAT(text, HasSubstr("base 57-1/2\" x 36\""));
  EXPECT_THAT(text, HasSubstr("1.41 ft3"));
  EXPECT_THAT(text, HasSubstr("4 bags"));
  EXPECT_THAT(text, HasSubstr("(left) least"));
  EXPECT_THAT(text, HasSubstr("1 FAIL, 1 caution, 2 not checked"));
  EXPECT_THAT(text, HasSubstr("out/sample"));
}

TEST(Text, TheVerdictIsOneSentenceWithTheWorstFirst) {
  // Source: by hand, from the counts of each outcome.
  const sample::Reported sample;
  report::Report report = sample.report();
  const auto said = [&](std::vector<rules::Outcome> outcomes) {
    report.judgement.results.clear();
    for (const rules::Outcome outcome : outcomes) report.judgement.results.emplace_back().outcome = outcome;
    return report::verdict_words(report);
  };
  using enum rules::Outcome;
  EXPECT_EQ(said({pass, not_applicable, pass}), "Every check passes: 2 of 2.");
  EXPECT_EQ(said({pass, caution}), "Nothing fails: 1 check asks for care.");
  EXPECT_EQ(said({not_checked}), "Nothing fails so far: 1 check waits for readings of the room.");
  EXPECT_EQ(said({caution, not_checked, caution, not_checked}),
            "Nothing fails so far: 2 checks ask for care, 2 wait for readings of the room.");
  EXPECT_EQ(said({fail, caution, not_checked}),
            "Do not build it as drawn: 1 check fails, 1 asks for care, 1 waits for readings of the room.");
  EXPECT_EQ(said({fail, fail, pass}), "Do not build it as drawn: 2 checks fail.");
}

TEST(Text, AWhatIfThatFailedSaysWhyInPlaceOfNumbers) {
  // Source: none.
  sample::Reported sample;
  sample.facts.room.worst[0].unknown = "bed: its top lies below its underside";
  sample.facts.room.drain.falls_unknown = "base: two of its surfaces cross";
  const std::string text = report::room_table(sample.report(), false);
  EXPECT_THAT(text, HasSubstr("not known: bed: its top lies below its underside"));
  EXPECT_THAT(text, HasSubstr("how the floor then falls is not known: base: two of its surfaces cross"));
  EXPECT_THAT(text, Not(HasSubstr("spot level")));
}

TEST(Text, FailuresComeBeforeCautionsAndWhatIsNotCheckedBeforeThePasses) {
  // Source: none.
  const sample::Reported sample;
  const std::string text = report::check_table(sample.report());
  const std::size_t fail = text.find("FAIL  "), caution = text.find("CAUTION "), open = text.find("NOT CHECKED "),
                    pass = text.find("  pass ");
  ASSERT_NE(pass, std::string::npos);
  EXPECT_LT(fail, caution);
  EXPECT_LT(caution, open);
  EXPECT_LT(open, pass);
  const std::string list = report::check_list(sample.report());
  EXPECT_LT(list.find("FAIL  "), list.find("CAUTION "));
  EXPECT_LT(list.find("CAUTION "), list.find("READ NEXT"));
  EXPECT_EQ(list.find("  pass "), std::string::npos) << "what passes needs nobody's eyes";
}

TEST(Text, WhatToReadNextHasOneNumberWhereverItIsTold) {
  // Source: none; who was told in one list to take the third reading finds it as the third in another.
  sample::Reported sample;
  sample.job.trap.reset();
  sample.facts.room.widths.clear();
  const auto numbered = [](const std::string& text) {
    std::vector<std::string> lines;
    const std::regex line{"\n    ([0-9]+  .{24})"};
    const std::string list = text.substr(text.find("READ NEXT"));
    for (auto it = std::sregex_iterator{list.begin(), list.end(), line}; it != std::sregex_iterator{}; ++it)
      lines.push_back((*it)[1]);
    return lines;
  };
  const auto built = numbered(report::summary(sample.report(), "out")),
             checked = numbered(report::check_list(sample.report()));
  EXPECT_GT(built.size(), 1u);
  EXPECT_EQ(built, checked);
}

TEST(Text, EverythingThatFailedIsShownEvenBeyondFive) {
  // Source: none; a sixth failure is no smaller for being sixth.
  sample::Reported sample;
  sample.facts.drainage = {{facts::Surface::base_floor, false, 3, {}, {"left"}},
                           {facts::Surface::threshold, false, 3, {}, {}},
                           {facts::Surface::seat, false, 3, {}, {}}};
  sample.facts.openings[0].left_over_mm = sample.facts.openings[1].left_over_mm = -5;
  sample.facts.drain = {-1, -1, "joists/joist-01", 50.8, 34.9};
  const std::string text = report::summary(sample.report(), "");
  std::size_t lines = 0;
  for (std::size_t at = text.find("  FAIL "); at != std::string::npos; at = text.find("  FAIL ", at + 1)) ++lines;
  EXPECT_EQ(lines, 8U);
}

TEST(Text, KeysThatSayNothingAreToldByTheirReason) {
  // Source: none; keys with one reason stand together, in the order of the file.
  sample::Reported sample;
  sample.job.unused = {{"bench.frame.track", "the bench's frame is timber", 71},
                       {"bench.frame.web", "the bench's frame is timber", 72},
                       {"drain.direction", "the drain is no channel (drain.kind)", 90}};
  const std::string told =
      "  NOT USED     bench.frame.track (line 71), bench.frame.web (line 72): the bench's frame is timber;\n"
      "               drain.direction (line 90): the drain is no channel (drain.kind)\n";
  for (const auto& print : {report::check_list, report::check_table})
    EXPECT_THAT(print(sample.report()), HasSubstr(told));
  EXPECT_THAT(report::summary(sample.report(), ""), HasSubstr(told));
  sample.job.unused.clear();
  EXPECT_THAT(report::check_list(sample.report()), Not(HasSubstr("NOT USED")));
}

TEST(Text, NoDecimalsOfAnInch) {
  // Source: none; read aloud on site, inches are whole numbers and fractions.
  const sample::Reported sample;
  const std::string text = report::summary(sample.report(), "") + report::check_table(sample.report()) +
                           report::takeoff_table(sample.report());
  EXPECT_FALSE(std::regex_search(text, std::regex{"[0-9]\\.[0-9]+\""})) << text;
}

TEST(Text, MetricJobsSpeakMetric) {
  // Source: none.
  sample::Reported sample;
  sample.job.unit = job::UnitSystem::metric;
  const std::string text = report::summary(sample.report(), "") + report::check_table(sample.report());
  EXPECT_THAT(text, HasSubstr("mm"));
  EXPECT_THAT(text, HasSubstr(" %"));
  EXPECT_THAT(text, Not(HasSubstr("\"")));
  EXPECT_THAT(text, Not(HasSubstr("in/ft")));
}

TEST(Text, RemediesThatUndoEachOtherAreToldTogetherBelowThem) {
  // Source: none: lines that are followed all at once, what they mend, and what they leave.
  const sample::Reported sample;
  report::Report report = sample.report();
  report.road = {{{"drain.from_left", "\"34 in\""}, {"walls.blocking", "[\"5 in\"]"}},
                 {"floor.fall-least", "upstand.held"},
                 {},
                 {}};
  std::string words = report::road_words(report);
  EXPECT_THAT(words, HasSubstr("still to be made: drain.from_left = \"34 in\", walls.blocking = [\"5 in\"]. "));
  EXPECT_THAT(words, HasSubstr("That mends '"));
  EXPECT_THAT(words, HasSubstr("'floor falls enough'"));
  EXPECT_THAT(words, HasSubstr("'upstands can be screwed to something'"));
  EXPECT_THAT(words, Not(HasSubstr("It leaves")));
  EXPECT_THAT(report::check_list(report), HasSubstr("TOGETHER"));
  report.job.base.made = job::Made::to_order;
  report.road.left = {"levelling.window"};
  words = report::road_words(report);
  EXPECT_THAT(words, Not(HasSubstr("still to be made")));
  EXPECT_THAT(words, HasSubstr("It leaves, or breaks: 'base can be set by a level'"));
  EXPECT_THAT(words, Not(HasSubstr("Failed stays")));
  report.road.stay = {"clear.width"};
  EXPECT_THAT(report::road_words(report),
              HasSubstr("Failed stays what no lines were told for: 'floor is wide enough'."));
  report.road.stay = {"clear.width", "door.opening", "clear.area"};
  EXPECT_THAT(report::road_words(report), HasSubstr("told for: 'floor is wide enough', and 2 others."));
  report.road = {};
  EXPECT_EQ(report::road_words(report), "");
  EXPECT_THAT(report::check_list(report), Not(HasSubstr("TOGETHER")));
}

TEST(Text, AHairOutsideDoesNotReadAsInside) {
  // Source: by hand: 1.99 in reads 2" on a tape, and 899.9 in2 reads 900.
  const job::Job job = sample::alcove();
  EXPECT_EQ(report::measured_text(of(1.99 * in, {2 * in, {}, rules::Unit::mm, "", {}}), job), "just under 2\"");
  EXPECT_EQ(report::measured_text(of(9.01 * in, {{}, 9 * in, rules::Unit::mm, "", {}}), job), "just over 9\"");
  const rules::Result notch = of(1.5625 * in, {{}, 9.25 / 6 * in, rules::Unit::mm, "", {}});
  EXPECT_EQ(report::measured_text(notch, job), "1-9/16\"");
  EXPECT_EQ(report::limit_text(notch, job), "at most 1-1/2\"") << "a sixth of 9-1/4 in is 1.5417, which no tape has";
  EXPECT_EQ(report::measured_text(of(899.9 * in * in, {900 * in * in, {}, rules::Unit::mm2, "", {}}), job),
            "just under 900 in2");
  EXPECT_EQ(report::measured_text(of(2 * in, {2 * in, {}, rules::Unit::mm, "", {}}), job), "2\"");
  EXPECT_EQ(report::measured_text(of(1.5 * in, {2 * in, {}, rules::Unit::mm, "", {}}), job), "1-1/2\"");
}

TEST(Text, WhatIsMeasuredReadsNoBetterThanItIs) {
  // Source: by hand: 1.927 in lies between 1-7/8 and 1-15/16, 0.2466 in/ft between 1:48.6 and 1:48.7; of a band the
  // nearer end counts.
  job::Job job = sample::alcove();
  using rules::Unit;
  const auto text = [&](double value, rules::Limit limit) { return report::measured_text(of(value, limit), job); };
  EXPECT_EQ(text(1.927 * in, {2 * in, {}, Unit::mm, "", {}}), "1-7/8\"");
  EXPECT_EQ(text(2.06 * in, {2 * in, {}, Unit::mm, "", {}}), "2\"");
  EXPECT_EQ(text(2.07 * in, {{}, 3 * in, Unit::mm, "", {}}), "2-1/8\"");
  EXPECT_EQ(text(3.26 * in, {{}, 3 * in, Unit::mm, "", {}}), "3-5/16\"");
  EXPECT_EQ(text(2.07 * in, {2 * in, 3 * in, Unit::mm, "", {}}), "2-1/16\"");
  EXPECT_EQ(text(2.93 * in, {2 * in, 3 * in, Unit::mm, "", {}}), "2-15/16\"");
  EXPECT_EQ(text(2.95 * in, {2 * in, 3 * in, Unit::mm, "", {}}), "3\"");
  EXPECT_EQ(text(36 * in - 1e-7, {30 * in, {}, Unit::mm, "", {}}), "36\"") << "but for rounding it is whole";
  EXPECT_EQ(text(0.0933 * in, {{}, 0.125 * in, Unit::mm, "", {}}), "3/32\"") << "0.09375: up";
  EXPECT_EQ(text(0.0943 * in, {{}, 0.125 * in, Unit::mm, "", {}}), "1/8\"") << "no tape has 64ths";
  EXPECT_EQ(text(-0.39 * in, {0.125 * in, {}, Unit::mm, "", {}}), "-7/16\"");
  EXPECT_EQ(text(0.2466 / 12, {1. / 48, {}, Unit::ratio, "", {}}), "0.246 in/ft (1:48.7)");
  EXPECT_EQ(text(0.5004 / 12, {{}, 1. / 48, Unit::ratio, "", {}}), "0.501 in/ft (1:23.9)");
  EXPECT_EQ(text(1. / 48, {1. / 60, {}, Unit::ratio, "", {}}), "1/4 in/ft (1:48)");
  EXPECT_EQ(text(0.667, {0.8, {}, Unit::share, "", {}}), "66 %");
  EXPECT_EQ(text(1.113, {{}, 1, Unit::share, "", {}}), "112 %");
  EXPECT_EQ(text(1 / 280.6, {{}, 1. / 360, Unit::span, "", {}}), "span / 280");
  job.unit = job::UnitSystem::metric;
  EXPECT_EQ(text(59.9, {50, {}, Unit::mm, "", {}}), "59 mm");
  EXPECT_EQ(text(10.2, {{}, 9.5, Unit::mm, "", {}}), "11 mm");
  EXPECT_EQ(text(0.02079, {0.02, {}, Unit::ratio, "", {}}), "2.07 % (1:48.2)");
}

TEST(Text, WhatIsLeftOverReadsNoBetterThanItIs) {
  // Source: by hand: 1.2 mm is 1.51 of 32nds; a tenth of a millimetre too little is not "-0".
  const job::Job job = sample::alcove();
  EXPECT_EQ(report::measured_text(of(1.2, {in / 16, {}, rules::Unit::mm, "", {}}), job), "1/32\"");
  EXPECT_EQ(report::measured_text(of(-0.18, {0.0, in / 2, rules::Unit::mm, "", {}}), job), "just under 0\"");
}

TEST(Text, LimitsReadAsSentences) {
  // Source: none.
  const job::Job job = sample::alcove();
  EXPECT_EQ(report::limit_text(of(0, {1.0 / 48, {}, rules::Unit::ratio, "", {}}), job), "at least 1/4 in/ft (1:48)");
  EXPECT_EQ(report::limit_text(of(0, {0.0, 12.7, rules::Unit::mm, "", {}}), job), "0\" to 1/2\"");
  EXPECT_EQ(report::limit_text(of(0, {1.9 * in, {}, rules::Unit::mm, "", {}}), job), "at least 1-15/16\"")
      << "outside of a 1-1/2 in pipe; 1-7/8 would not take it";
  EXPECT_EQ(report::limit_text(of(0, {{}, 0.0, rules::Unit::count, "", {}}), job), "none allowed")
      << "\"1, limit none\" reads as if there were no limit";
}

TEST(Text, TheBookIsPrintedWithSourceAndKey) {
  // Source: none.
  const std::string text = report::rule_table(job::UnitSystem::inch, "residential");
  for (const rules::Rule& rule : rules::all_rules()) EXPECT_THAT(text, HasSubstr(rule.id + "  " + rule.title));
  EXPECT_THAT(text, HasSubstr("IRC P2709.1 (2009, 2021), quoted"));
  EXPECT_THAT(text, HasSubstr("limits.floor_fall_least"));
}

TEST(Text, ApprovesNothing) {
  // Source: none.
  const sample::Reported sample;
  const std::string text = report::summary(sample.report(), "") + report::check_table(sample.report()) +
                           report::rule_table(job::UnitSystem::inch, "residential");
  EXPECT_FALSE(std::regex_search(text, std::regex{"complian|complies|code-|certif", std::regex::icase}));
  EXPECT_THAT(text, HasSubstr("Local code"));
}

TEST(Text, TakeoffTellsSticksWithTheirPieces) {
  // Source: by hand: 10-3/8 and 7-7/8 in with two kerfs leave 77-1/2 in of 8 ft.
  EXPECT_THAT(report::takeoff_table(sample::Reported{}.report()),
              HasSubstr("1 x   8 ft      A 10-3/8\", B 7-7/8\"; offcut 77-1/2\""));
}

TEST(Text, AnExplainedLoadListsEveryMemberWithSpanAndShares) {
  // Source: none; by hand the deck's 23/32 in sheet rated 48/24: 250 of 300 lbf, 625 of 845 lbf in over 10 in.
  const std::string text = report::explained(sample::Reported{}.report(), "load.seat-strength");
  for (const char* words :
       {"deck ('bench-frame/deck') over 10\": bending 74 %, shear 83 %; deflection span / 845",
        "joist ('bench-frame/joist-01') over 11-5/16\":", "front rail ('bench-frame/front-rail') over",
        "plate ('bench-frame/top-plate') over", "stud ('bench-frame/stud-01'), 9-7/8\" long:", "taken as SPF No.2, dry",
        "exactly      0.833333 share"})
    EXPECT_THAT(text, HasSubstr(words));
}

TEST(Text, TheFloodTestTellsItsMethodAndWhoJudges) {
  // Source: none; loads inform, and what is not known of the floor is asked for or, on a slab, left alone.
  sample::Reported sample;
  std::string text = report::flood_table(sample.report());
  for (const char* words : {"simple beams; a licensed engineer judges structure", "for 15 minutes", "(IRC P2503.6",
                            "people 1.92 kPa (40.0 psf)", "flood test", "seat: 250 lbf (1112 N)"})
    EXPECT_THAT(text, HasSubstr(words));
  sample.job.floor.joist_span.reset();
  EXPECT_THAT(report::flood_table(sample.report()), HasSubstr("find the floor joists' span (floor.joists.span)"));
  sample.job.floor.kind = job::FloorKind::slab;
  text = report::flood_table(sample.report());
  EXPECT_THAT(text, HasSubstr("a slab: no joists to judge"));
  EXPECT_THAT(text, testing::Not(HasSubstr("give floor.joists")));
}

TEST(Text, ARecordThatFailsHeadsAVerdictOfADesignThatDoesNot) {
  // Source: none; who reads the first words alone builds on.
  const sample::Reported sample;
  report::Report report = sample.report();
  report.judgement.as_built = {{"fall of the seat", "", "", "", rules::Outcome::fail}};
  report.judgement.results.clear();
  report.judgement.results.emplace_back().outcome = rules::Outcome::caution;
  EXPECT_EQ(report::verdict_words(report),
            "As built, 'fall of the seat' fails its limit. As drawn nothing fails: 1 check asks for care.");
  report.judgement.results[0].outcome = rules::Outcome::pass;
  EXPECT_EQ(report::verdict_words(report),
            "As built, 'fall of the seat' fails its limit. As drawn every check passes.");
  report.judgement.results[0].outcome = rules::Outcome::fail;
  EXPECT_THAT(report::verdict_words(report), testing::StartsWith("Do not build it as drawn"));
}

TEST(Text, ARecordOutOfItsLimitsIsToldWhateverTheDesignIs) {
  // Source: the rows of the record: one fails, two ask for care; one that passes and one that nobody asks of say
  // nothing.
  sample::Reported sample;
  report::Report report = sample.report();
  using rules::Outcome;
  for (const auto& told : {report::check_list(report), report::check_table(report), report::summary(report, ""),
                           report::verdict_words(report)})
    EXPECT_THAT(told, testing::Not(testing::AnyOf(HasSubstr("AS BUILT"), HasSubstr("As built"))));
  report.judgement.as_built = {{"fall of the seat", "", "", "", Outcome::fail},
                               {"fall of the threshold", "", "", "", Outcome::pass},
                               {"flood test, 4 h later", "", "", "", Outcome::caution},
                               {"flood test, 10 min later", "", "", "", Outcome::not_applicable},
                               {"fall of the base-floor, left", "", "", "", Outcome::caution}};
  for (const auto& told : {report::check_list(report), report::check_table(report), report::summary(report, "")}) {
    EXPECT_THAT(told, HasSubstr("AS BUILT     the record is out of its limits: 1 row fails, 2 ask for care."));
    EXPECT_THAT(told, HasSubstr("report.html"));
  }
  EXPECT_THAT(
      report::verdict_words(report),
      testing::EndsWith(". As built, 'fall of the seat' fails its limit, 'flood test, 4 h later' asks for care, "
                        "'fall of the base-floor, left' asks for care."));
  report.judgement.as_built = {{"flood test, at eight", "", "", "too low, fill to 2-1/2\"", Outcome::caution}};
  EXPECT_THAT(report::verdict_words(report),
              HasSubstr("'flood test, at eight' asks for care: too low, fill to 2-1/2\"."))
      << "what is to be done";
  EXPECT_THAT(report::check_list(report), HasSubstr("of the record 1 row asks for care."));
}

}  // namespace
}  // namespace fallwright
