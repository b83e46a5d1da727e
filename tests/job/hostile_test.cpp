#include <chrono>
#include <cstdlib>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "diag/toml_shape.hpp"
#include "job/faults.hpp"
#include "job/range.hpp"
#include "job/read.hpp"
#include "job/toml.hpp"
#include "support/run.hpp"

namespace fallwright::job {
namespace {

using testing::HasSubstr;

/// A job that reads without a fault, with lines of a section of it replaced or added.
std::string job_with(const std::string& section, const std::string& line, UnitSystem unit = UnitSystem::inch) {
  const bool metric = unit == UnitSystem::metric;
  const std::pair<const char*, std::string> sections[] = {
      {"job", std::string{"name = \"a\"\nunit = \""} + (metric ? "mm" : "in") + "\"\n"},
      {"alcove", metric ? "width = 1900\ndepth = 900\n" : "width = 72\ndepth = 36\n"},
      {"base", metric ? "length = 1500\nwidth = 900\n" : "length = 57.5\nwidth = 36\n"},
      {"drain", metric ? "from_left = 750\nfrom_back = 406\n" : "from_left = 28.75\nfrom_back = 16.25\n"}};
  const std::string key = line.substr(0, line.find(' '));
  std::string text;
  bool there = false;
  for (const auto& [name, lines] : sections) {
    text += std::string{"["} + name + "]\n";
    std::istringstream in{lines};
    for (std::string one; std::getline(in, one);)
      if (section != name || one.substr(0, one.find(' ')) != key) text += one + "\n";
    if (section == name) text += line + "\n", there = true;
  }
  return there ? text : text + (section.find("[[") == 0 ? section : "[" + section + "]") + "\n" + line + "\n";
}

std::string told(const std::string& text) {
  return diag::to_text(faults_of(text));
}

TEST(Numbers, AreHeldToTheirRangeBeforeTheyAreAnythingElse) {
  // Source: IEEE 754: what no whole number holds, what is infinite and what is none.
  for (const char* number : {"6e17", "1e30", "1.7e308", "-1e30", "inf", "-inf", "nan", "\"99999999999999999999 in\"",
                             "\"9e9 in\"", "\"1e999\"", "9223372036854775807", "\"1/0\""})
    EXPECT_THAT(told(job_with("alcove", std::string{"width = "} + number)), HasSubstr("alcove.width: found")) << number;
  EXPECT_THAT(told(job_with("alcove", "width = 999999999999999992")), HasSubstr("alcove.width: found 1e+18\"; allowed"))
      << "a whole number that no double holds";
  for (const char* count : {"9223372036854775807", "1e30", "-1", "inf"})
    EXPECT_THAT(told(job_with("base.ribs", std::string{"columns = "} + count)), HasSubstr("base.ribs.columns: found"))
        << count;
}

TEST(Numbers, ToleranceOfAReadingIsOneThatATapeCanHave) {
  // Source: common practice, no source.
  EXPECT_THAT(told(job_with("survey.plan", "back = { length = \"72 in\", tolerance = \"9 ft\" }")),
              HasSubstr("found a tolerance of 108\""));
}

TEST(Names, ThatNeedQuotesAreUnknownHoweverTheyLook) {
  // Source: TOML 1.0, keys: a quoted key is one key, whatever stands in it.
  for (const char* name : {"\"][\"", "\"base.rise\"", "\"walls[7]\"", "'base'", "\"\"", "\"survey.plumb[0].lean\"",
                           "\"ba\\u0073e.rise\"", "\"[\"", "\"]\""}) {
    const auto faults = faults_of(std::string{name} + " = 1\n" + job_with("base", "fall = \"2 %\""));
    ASSERT_FALSE(faults.empty()) << name;
    if (std::string{name} == "'base'") continue;  // a key that is ours, as a value: told as such
    EXPECT_EQ(faults.front().line, 1u) << name;
    EXPECT_THAT(faults.front().message, HasSubstr("no such key; did you mean")) << name;
  }
  EXPECT_THAT(told(job_with("base", "\"ri.se\" = 1")), HasSubstr("base.'ri.se': no such key"));
}

TEST(Names, OfOtherWordsOfTheTradeSuggestASection) {
  // Source: common practice, no source.
  EXPECT_THAT(told(job_with("pan", "width = 1")), HasSubstr("no such section; did you mean [base]?"));
  EXPECT_THAT(told(job_with("drian", "width = 1")), HasSubstr("no such section; did you mean [drain]?"));
  EXPECT_THAT(told(job_with("[[plumb]]", "wall = 1")), HasSubstr("did you mean"));
}

TEST(Names, WithoutNumberAreToldFirstAndCounted) {
  // Source: property: the time grows with the text, not with its square.
  std::string text;
  for (int i = 0; i < 100'000; ++i) text += "x" + std::to_string(i) + " = 1\n";
  text += job_with("base", "fall = \"2 %\"");
  const auto begin = std::chrono::steady_clock::now();
  const auto faults = faults_of(text);
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds{20});
  ASSERT_EQ(faults.size(), most_faults + 1);
  EXPECT_EQ(faults.back().message, "and 99950 faults more");
}

TEST(Texts, OfOneLineWithoutControls) {
  // Source: Unicode 15, general category Cc, and the bidirectional controls of its annex 9.
  for (const char* name :
       {"a\\nb", "a\\u001bb", "a\\tb", "a\\u0000b", "a\\u0085b", "a\\u202eb", "a\\uFFFEb", "\\u007f"})
    EXPECT_THAT(told(job_with("job", std::string{"name = \"a"} + name + "\"")), HasSubstr("3:1: job.name: found"))
        << name;
  EXPECT_THAT(told(job_with("base", "material = \"\"\"two\nlines\"\"\"")), HasSubstr("a line end as its letter 4"));
  EXPECT_TRUE(faults_of(job_with("job", "name = \"Café Zoë; O'Brien \\\\ 12\"")).empty());
}

TEST(Toml, WithoutQuotesShowsTheLineAsItShouldBe) {
  // Source: common practice, no source.
  EXPECT_THAT(told(job_with("base", "length = 60 1/2")), HasSubstr("put it in quotes: length = \"60 1/2\""));
  EXPECT_THAT(told(job_with("base", "length = 5'-4 1/2\"")), HasSubstr("put it in quotes: length = '''5'-4 1/2\"'''"));
  EXPECT_THAT(told(job_with("base", "length = 1640 mm # as read")), HasSubstr("length = \"1640 mm\""));
  EXPECT_THAT(told(job_with("base", "length = ")), testing::Not(HasSubstr("in quotes")));
}

TEST(Toml, DeepTextsAreRefusedBeforeTheyAreParsed) {
  // Source: closed form: one step too deep, and a hundred thousand.
  for (const std::size_t deep : {std::size_t{diag::greatest_nesting} + 1, std::size_t{100'000}}) {
    EXPECT_THAT(told("a = " + std::string(deep, '[')), HasSubstr("brackets more than 16 deep"));
    std::string braces = "a = ", dotted = "a";
    for (std::size_t i = 0; i < deep; ++i) braces += "{a = ", dotted += ".a";
    EXPECT_THAT(told(braces), HasSubstr("brackets more than 16 deep"));
    EXPECT_THAT(told(dotted + " = 1"), HasSubstr("dotted name of more than 16 parts"));
    EXPECT_THAT(told("[" + dotted + "]"), HasSubstr("dotted name of more than 16 parts"));
    EXPECT_THAT(told("x = {y = \"\"\"q\"\"\"\", " + dotted + " = 1}"), HasSubstr("dotted name of more than 16 parts"));
    EXPECT_THAT(told("x = '#'\n# \"\n" + dotted + " = 1"), HasSubstr("3:"));
  }
  std::string sections;
  for (int i = 0; i <= diag::greatest_sections; ++i) sections += "[x" + std::to_string(i) + "]\n";
  EXPECT_THAT(told(sections), HasSubstr("2001:1: found more than 2000 sections"));
  EXPECT_FALSE(diag::too_deep("a = \"[[[[[[[[[[[[[[[[[[[[[[ . . . . . . . . . . . . . . . . . . .\"", "f"));
  EXPECT_FALSE(diag::too_deep("# [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[\na = 'it\\'\n", "f"));
}

TEST(Toml, BytesThatAreNoTextAreFaults) {
  // Source: TOML 1.0: a text is UTF-8 without controls.
  for (const std::string& bytes :
       {std::string{"\0", 1}, std::string{"\xff\xfe"}, std::string{"\xef\xbf\xbe"}, std::string{"a = \"\xc3\x28\""},
        std::string{"a = \"\x1b[31m\""}, std::string{"\xed\xa0\x80"}, std::string{"a\0b = 1", 7}})
    EXPECT_FALSE(faults_of(bytes + job_with("base", "fall = \"2 %\"")).empty());
  EXPECT_TRUE(faults_of("\xef\xbb\xbf" + job_with("base", "fall = \"2 %\"")).empty()) << "a byte order mark is fine";
}

/// What a printed value may be off by, and more.
double mark_of(Kind kind) {
  switch (kind) {
    case Kind::fall:
      return 1e-3;
    case Kind::volume:
      return 3e5;
    case Kind::area:
      return 2e3;
    case Kind::density:
    case Kind::mass:
      return 1;
    case Kind::stress:
      return 0.05;
    case Kind::share:
      return 0.01;
    default:
      return 1.6;
  }
}

TEST(Bounds, OfAToleranceAreMoreThanNothing) {
  // Source: property: a reading is weighed by one over its tolerance, and none is read without one.
  for (const char* unit : {"in", "mm"})
    for (const char* key : {"tolerance", "level_tolerance"})
      EXPECT_THAT(told(job_with("survey", std::string{key} + " = \"0 " + unit + "\"")), HasSubstr("found 0")) << key;
}

TEST(Bounds, AreAcceptedAsTheyArePrinted) {
  // Source: property of every key with a range, in both units: the printed bound is inside, one mark past it is not.
  int tried = 0;
  for (const UnitSystem unit : {UnitSystem::inch, UnitSystem::metric})
    for (const Key& key : keys()) {
      const std::string range = range_text(key, unit);
      if (range.empty() || key.kind == Kind::integer) continue;
      const std::size_t to = range.find(" to ");
      std::string why;
      for (const std::string& bound : {range.substr(0, to), range.substr(to + 4)}) {
        const auto number = number_of(key.kind, bound, unit, why);
        ASSERT_TRUE(number) << key.path << " " << bound << ": " << why;
        EXPECT_TRUE(in_range(key, *number, unit, why)) << key.path << " " << bound << ": " << why;
        const bool least = bound == range.substr(0, to);
        EXPECT_FALSE(in_range(key, *number + (least ? -1 : 1) * mark_of(key.kind), unit, why))
            << key.path << " past " << bound;
        ++tried;
      }
    }
  EXPECT_GT(tried, 300);
}

TEST(Bounds, WhatIsPastOneByLessThanAMarkIsToldExactly) {
  // Source: 800 mm is 31.496 in, told as 31-1/2".
  const std::string text = job_with("walls", "spacing = 31.52");
  EXPECT_THAT(told(text), HasSubstr("found 31.5200\"; allowed is 7-7/8\" to 31-1/2\""));
  EXPECT_TRUE(faults_of(job_with("walls", "spacing = \"31-1/2 in\"")).empty())
      << told(job_with("walls", "spacing = \"31-1/2 in\""));
}

TEST(TextFile, IsARegularFileOfBoundedSize) {
  // Source: common practice, no source.
  const sample::Folder folder{"text-file"};
  const std::string pipe = folder / "pipe", large = folder / "large.toml";
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  std::ofstream{large} << std::string(diag::greatest_text_bytes + 1, ' ');
  EXPECT_THROW(diag::read_text("/nowhere/at/all.toml"), diag::MachineError);
  for (const auto& [path, what] : {std::pair{std::string{"/"}, "found a folder"},
                                   {"/dev/zero", "found a device"},
                                   {pipe, "found a pipe"},
                                   {large, "found more than 4 MB"}}) {
    try {
      diag::read_text(path);
      ADD_FAILURE() << path;
    } catch (const diag::JobFaults& e) {
      EXPECT_THAT(e.what(), HasSubstr(what));
    }
  }
}

}  // namespace
}  // namespace fallwright::job
