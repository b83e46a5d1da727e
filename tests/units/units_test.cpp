#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include <gtest/gtest.h>

#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/words.hpp"

namespace fallwright::units {
namespace {

double mm(const char* text, LengthUnit bare = LengthUnit::inch) {
  std::string why;
  const auto length = parse_length(text, bare, why);
  EXPECT_TRUE(length) << text << ": " << why;
  return length ? length->in_mm() : NAN;
}

TEST(Length, ReadsTheTradesNotations) {
  // Source: the international inch of 1959, 25.4 mm; every line is one length written another way.
  for (const char* text :
       {"5 ft 4-1/2 in", "5'-4 1/2\"", "5' 4-1/2\"", "64 1/2 in", "64-1/2\"", "64.5 in", "64-1/2 inches", "64-1/2",
        "5 ft 4.5", " 64-1/2 in ", "5\u2032 4\u00bd\u2033", "1638.3 mm", "163.83 cm", "1.6383 m"})
    EXPECT_NEAR(mm(text), 1638.3, 1e-9) << text;
  EXPECT_DOUBLE_EQ(mm(".5 in"), 12.7);
  EXPECT_DOUBLE_EQ(mm("-3/8 in"), -9.525);
  EXPECT_DOUBLE_EQ(mm("6 ft"), 1828.8);
  EXPECT_DOUBLE_EQ(mm("0"), 0);
  EXPECT_DOUBLE_EQ(mm("17", LengthUnit::mm), 17);
}

TEST(Length, RefusesWhatIsNoneAndSaysWhy) {
  // Source: common practice, no source: the slips people make with a tape in one hand.
  const std::pair<const char*, const char*> cases[] = {{"", "missing"},
                                                       {"abc", "no number"},
                                                       {"16 1/0 in", "over zero"},
                                                       {"5 ft 14/", "lower number"},
                                                       {"12 in 3 ft", "left over"},
                                                       {"1,640 mm", "separators"},
                                                       {"5 ft 13 in", "less than 12"},
                                                       {"3 5/4 in", "less than one"},
                                                       {"3 furlongs", "left over"},
                                                       {"16 in 2", "left over"}};
  for (const auto& [text, reason] : cases) {
    std::string why;
    EXPECT_FALSE(parse_length(text, LengthUnit::inch, why)) << text;
    EXPECT_NE(why.find(reason), std::string::npos) << text << " said: " << why;
  }
}

TEST(Length, PrintsWhatATapeShows) {
  // Source: common practice, no source: sixteenths in lowest terms, whole inches joined by a hyphen.
  const std::pair<double, const char*> cases[] = {{17.5, "17-1/2\""},    {5.1875, "5-3/16\""}, {0, "0\""},
                                                  {-1. / 16, "-1/16\""}, {15.99, "16\""},      {0.75, "3/4\""},
                                                  {-0.001, "0\""},       {-2.25, "-2-1/4\""}};
  for (const auto& [inches, text] : cases) EXPECT_EQ(to_inches(Length::inches(inches)), text);
  EXPECT_EQ(to_feet_and_inches(Length::inches(64.5)), "5' 4-1/2\"");
  EXPECT_EQ(to_feet_and_inches(Length::inches(72)), "6'");
  EXPECT_EQ(to_mm(Length::mm(444.5)), "445 mm");
}

TEST(Length, PrintedAndReadBackIsTheSameMark) {
  // Source: round trip; any mark of the tape comes back exactly.
  std::mt19937 random{7};
  std::uniform_int_distribution<int> sixteenths{-4000, 4000};
  for (int i = 0; i < 2000; ++i) {
    const Length length = Length::inches(sixteenths(random) / 16.0);
    EXPECT_DOUBLE_EQ(mm(to_inches(length).c_str()), length.in_mm());
    EXPECT_DOUBLE_EQ(mm(to_feet_and_inches(length).c_str()), length.in_mm());
  }
}

TEST(Length, RoundsToTheNearestMark) {
  // Source: closed form.
  EXPECT_DOUBLE_EQ(round_to_tape(Length::inches(10.37), false).in_inches(), 10.375);
  EXPECT_DOUBLE_EQ(round_to_tape(Length::mm(10.4), true).in_mm(), 10);
  // Half way between two marks, as two sums have it that should be one.
  for (const double hair : {-1e-9, 0., 1e-9}) {
    EXPECT_DOUBLE_EQ(round_to_tape(Length::inches(216.5 / 16 + hair), false).in_inches(), 217. / 16);
    EXPECT_DOUBLE_EQ(round_to_tape(Length::mm(-10.5 + hair), true).in_mm(), -11);
    EXPECT_EQ(to_text(Length::inches(216.5 / 16 + hair), false), "13-9/16\"");
    EXPECT_EQ(to_text(Length::mm(10.5 + hair), true), "11 mm");
  }
}

double ratio(const char* text) {
  std::string why;
  const auto fall = parse_fall(text, why);
  EXPECT_TRUE(fall) << text << ": " << why;
  return fall ? fall->as_ratio() : NAN;
}

TEST(Fall, ReadsAllItsNotations) {
  // Source: 1/4 in/ft = 1:48 exactly (the 2010 ADA standards write 1:48, the model codes 1/4 in per ft).
  for (const char* text : {"1/4 in/ft", "1/4 in per ft", "1/4:12", "1:48", "0.25 in/ft", "1/4\"/ft"})
    EXPECT_DOUBLE_EQ(ratio(text), 1. / 48) << text;
  for (const char* text : {"2 %", "2%", "1:50", "20 mm/m", "2 percent"}) EXPECT_DOUBLE_EQ(ratio(text), 0.02) << text;
}

TEST(Fall, AnOldThresholdMayFallOutward) {
  // Source: closed form; what is written is read again.
  for (const char* text : {"-1/4 in/ft", "-1:48", "-0.25 in/ft"}) EXPECT_DOUBLE_EQ(ratio(text), -1. / 48) << text;
  EXPECT_EQ(to_text(Fall::ratio(-1. / 48), false), "-1/4 in/ft (1:48)");
  EXPECT_EQ(to_text(Fall::ratio(-0.02), true), "-2.00 % (1:50)");
}

TEST(Fall, RefusesANumberWithoutAUnit) {
  // Source: common practice, no source: a bare 2 could be percent or in/ft.
  for (const char* text : {"1/4", "2", "3 in", "1:0", "", "-", "% 2", "in/ft", "1:48 x"}) {
    std::string why;
    EXPECT_FALSE(parse_fall(text, why)) << text;
    EXPECT_FALSE(why.empty()) << text;
  }
}

TEST(Fall, ConvertsAsTheTablesSay) {
  // Source: slope tables of plumbing and drainage handbooks: percent and degrees of in/ft, and of 1:n.
  struct Row {
    Fall fall;
    double percent, degrees, one_in;
  };
  const Row rows[] = {{Fall::inches_per_foot(0.125), 1.042, 0.597, 96},
                      {Fall::inches_per_foot(0.25), 2.083, 1.193, 48},
                      {Fall::inches_per_foot(0.375), 3.125, 1.790, 32},
                      {Fall::inches_per_foot(0.5), 4.167, 2.386, 24},
                      {Fall::one_in(35), 2.857, 1.637, 35},
                      {Fall::one_in(40), 2.5, 1.432, 40},
                      {Fall::one_in(50), 2.0, 1.146, 50},
                      {Fall::one_in(60), 1.667, 0.955, 60},
                      {Fall::one_in(80), 1.25, 0.716, 80},
                      {Fall::one_in(100), 1.0, 0.573, 100}};
  for (const Row& row : rows) {
    EXPECT_NEAR(row.fall.in_percent(), row.percent, 5.1e-4);
    EXPECT_NEAR(std::atan(row.fall.as_ratio()) * 180 / std::numbers::pi, row.degrees, 5.1e-4);
    EXPECT_NEAR(1 / row.fall.as_ratio(), row.one_in, 1e-9);
  }
}

TEST(Fall, TwoPercentIsLessThanAQuarterInch) {
  // Source: code prose rounds 1/4:12 to "2 percent"; as exact ratios they differ by four parts in a hundred.
  EXPECT_LT(Fall::percent(2), Fall::inches_per_foot(0.25));
  EXPECT_NEAR(Fall::inches_per_foot(0.25).as_ratio() / 0.02, 1.0417, 1e-4);
}

TEST(Fall, PrintsFractionsWhereTheyFit) {
  // Source: common practice, no source.
  EXPECT_EQ(to_inches_per_foot(Fall::inches_per_foot(0.25)), "1/4 in/ft");
  EXPECT_EQ(to_inches_per_foot(Fall::inches_per_foot(1.5)), "1-1/2 in/ft");
  EXPECT_EQ(to_inches_per_foot(Fall::percent(2)), "0.240 in/ft");
  EXPECT_EQ(to_one_in(Fall::one_in(48)), "1:48");
  EXPECT_EQ(to_one_in(Fall::ratio(1 / 46.7)), "1:46.7");
  EXPECT_EQ(to_one_in(Fall{}), "level");
}

TEST(Length, TooLongForAnyTapeStaysInItsUnit) {
  // Source: closed form, 25.4 mm to the inch (1959).
  EXPECT_EQ(to_text(Length::inches(1e15), false), "1e+15\"");
  EXPECT_EQ(to_feet_and_inches(Length::inches(-1e15)), "-1e+15\"");
  EXPECT_EQ(to_text(Length::mm(1e15), true), "1e+15 mm");
}

TEST(Quantity, IsReadAsItIsPrinted) {
  // Source: property: a volume printed in any of its units reads back, to the marks it was printed with.
  std::string why;
  for (const double mm3 : {2e2, 5e4, 1e5, 3e6, 1e9})
    for (const bool metric : {false, true}) {
      const std::string text = volume_text(mm3, metric);
      const auto read = parse_volume_mm3(text, why);
      ASSERT_TRUE(read) << text << ": " << why;
      EXPECT_NEAR(*read, mm3, metric ? std::max(1e2, mm3 * 0.05) : std::max(1e3, mm3 * 0.05)) << text;
    }
}

TEST(Quantity, ReadsLabels) {
  // Source: 1 ft3 = 28.316846592 L and 1 lb = 0.45359237 kg, exact by definition (1959).
  std::string why;
  EXPECT_NEAR(parse_volume_mm3("1 ft3", why).value(), 28.316846592e6, 1e-3);
  EXPECT_NEAR(parse_volume_mm3("0.45 cu ft", why).value(), 0.45 * 28.316846592e6, 1e-3);
  EXPECT_DOUBLE_EQ(parse_volume_mm3("12 L", why).value(), 12e6);
  EXPECT_DOUBLE_EQ(parse_area_mm2("900 in2", why).value(), 900 * 645.16);
  EXPECT_NEAR(parse_density_kg_m3("62.4 lb/ft3", why).value(), 999.55, 0.01);
  EXPECT_DOUBLE_EQ(parse_share("10 %", why).value(), 0.1);
  EXPECT_FALSE(parse_volume_mm3("3 pints", why));
  EXPECT_NE(why.find("pints"), std::string::npos);
}

TEST(Quantity, ShortDecimalsHaveNoIdleZeros) {
  // Source: arithmetic; a number that is whole keeps the zeros that stand before its point.
  for (const auto& [value, text] : {std::pair{94., "94"},
                                    {0.45, "0.45"},
                                    {100., "100"},
                                    {0.0004, "0"},
                                    {-0.0004, "0"},
                                    {-2.5, "-2.5"},
                                    {1.23456, "1.235"}})
    EXPECT_EQ(units::short_decimals(value, 3), text);
  EXPECT_EQ(units::short_decimals(1e30, 3), "1e+30") << "its exponent is no idle zero";
}

TEST(Words, AreTrimmedOfBlanksAtEitherEnd) {
  // Source: by hand.
  for (const auto& [text, trimmed] : {std::pair{"  a b\t", "a b"}, {" \t", ""}, {"", ""}, {"a", "a"}})
    EXPECT_EQ(units::trimmed(text), trimmed);
  EXPECT_EQ(units::trimmed("a \r", " \t\r"), "a");
  EXPECT_EQ(units::trimmed("a \r"), "a \r");
}

TEST(Words, OneIsCountedInTheSingularAndNoneIsNot) {
  // Source: English grammar.
  EXPECT_EQ(counted(1, "check", "checks"), "1 check");
  EXPECT_EQ(counted(0, "check", "checks"), "0 checks");
  EXPECT_EQ(counted(std::size_t{12}, "box", "boxes"), "12 boxes");
}

}  // namespace
}  // namespace fallwright::units
