// Every unit and notation that is read or printed, one line each, against its definition.
#include <cmath>
#include <cstdio>
#include <random>
#include <string>

#include <gtest/gtest.h>

#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"
#include "units/quantity.hpp"

namespace fallwright::units {
namespace {

TEST(UnitTable, OfVolumes) {
  // Source: NIST Handbook 44, appendix C: gallon 231 in3, 4 quarts, 8 pints, 128 fluid ounces; inch 25.4 mm; litre 1
  // dm3.
  const double in3 = 16387.064, gallon = 231 * in3;
  for (const auto& [text, mm3] : {std::pair{"1 cubic feet", 1728 * in3},
                                  {"2 cu ft", 3456 * in3},
                                  {"1 ft3", 1728 * in3},
                                  {"1 ft^3", 1728 * in3},
                                  {"3 cu in", 3 * in3},
                                  {"3 in3", 3 * in3},
                                  {"3 in^3", 3 * in3},
                                  {"2 gal", 2 * gallon},
                                  {"1 qt", gallon / 4},
                                  {"1 pt", gallon / 8},
                                  {"10.1 fl oz", 10.1 * gallon / 128},
                                  {"300 mL", 3e5},
                                  {"300 ml", 3e5},
                                  {"1-1/2 litres", 1.5e6},
                                  {"1.5 liters", 1.5e6},
                                  {"12 L", 12e6},
                                  {"12 l", 12e6},
                                  {"7 cm3", 7e3},
                                  {"7 cm^3", 7e3},
                                  {"0.02 m3", 2e7},
                                  {"0.02 m^3", 2e7},
                                  {"9 mm3", 9.}}) {
    std::string why;
    const auto read = parse_volume_mm3(text, why);
    ASSERT_TRUE(read) << text << ": " << why;
    EXPECT_NEAR(*read / mm3, 1, 1e-9) << text;
  }
}

TEST(UnitTable, OfAreasDensitiesMassesAndShares) {
  // Source: the same; pound 0.45359237 kg.
  std::string why;
  for (const auto& [text, mm2] : {std::pair{"9 sq in", 9 * 645.16},
                                  {"9 in2", 9 * 645.16},
                                  {"9 in^2", 9 * 645.16},
                                  {"2 sq ft", 288 * 645.16},
                                  {"2 ft2", 288 * 645.16},
                                  {"2 ft^2", 288 * 645.16},
                                  {"5 mm2", 5.},
                                  {"5 cm2", 500.},
                                  {"0.6 m2", 6e5},
                                  {"0.6 m^2", 6e5}})
    EXPECT_NEAR(parse_area_mm2(text, why).value() / mm2, 1, 1e-9) << text;
  const double pcf = 0.45359237 / 0.028316846592;
  for (const auto& [text, density] :
       {std::pair{"130 lb/ft3", 130 * pcf}, {"130 pcf", 130 * pcf}, {"2080 kg/m3", 2080.}, {"1.9 kg/L", 1900.}})
    EXPECT_NEAR(parse_density_kg_m3(text, why).value() / density, 1, 1e-9) << text;
  for (const auto& [text, kg] : {std::pair{"94 lb", 94 * 0.45359237},
                                 {"94 lbs", 94 * 0.45359237},
                                 {"25 kg", 25.},
                                 {"250 lbf", 250 * 0.45359237},
                                 {"980.665 N", 100.},
                                 {"2 kN", 2000 / 9.80665}})
    EXPECT_NEAR(parse_mass_kg(text, why).value() / kg, 1, 1e-9) << text;
  for (const auto& [text, mpa] : {std::pair{"145.0377377 psi", 1.},
                                  {"1 ksi", 6.894757293},
                                  {"1000 kPa", 1.},
                                  {"0.4 N/mm2", 0.4},
                                  {"0.4 MPa", 0.4}})
    EXPECT_NEAR(parse_stress_mpa(text, why).value() / mpa, 1, 1e-9) << text;
  EXPECT_EQ(stress_text(mpa_per_psi * 60, false), "60.0 psi");
  EXPECT_EQ(stress_text(0.4, true), "0.40 N/mm2");
  EXPECT_NEAR(parse_share("12.5 percent", why).value(), 0.125, 1e-12);
  for (const char* text : {"1 stone", "1", "1 kgs", "2 kN/m", "2 N/mm2", "2 kn"}) {
    EXPECT_FALSE(parse_mass_kg(text, why)) << text;
    for (const char* allowed : {"94 lb", "25 kg", "400 lbf", "950 N", "2.5 kN"})
      EXPECT_NE(why.find(allowed), std::string::npos) << why;
  }
  EXPECT_FALSE(parse_area_mm2("9 in3", why));
}

TEST(UnitTable, OfMixes) {
  // Source: by hand: two or three parts, cement first and sand last, neither of them none.
  std::string why;
  EXPECT_EQ(parse_parts("1:5", why), (std::vector<double>{1, 5}));
  EXPECT_EQ(parse_parts("1 : 1/4 : 3", why), (std::vector<double>{1, 0.25, 3}));
  EXPECT_EQ(parse_parts("1:0:4", why), (std::vector<double>{1, 0, 4}));
  for (const char* text : {"1", "1:2:3:4", "0:5", "1:0", "1:5 x", "", "1:"})
    EXPECT_TRUE(parse_parts(text, why).empty()) << text;
}

TEST(UnitTable, OfLengths) {
  // Source: by hand: inch 25.4, foot 304.8 mm.
  for (const auto& [text, mm] : {std::pair{"3''", 76.2},
                                 {"3 inch", 76.2},
                                 {"3 in.", 76.2},
                                 {"2 feet", 609.6},
                                 {"1 foot", 304.8},
                                 {"1 ft.", 304.8},
                                 {"2 ft 6", 762.},
                                 {"2' 6'' ", 762.},
                                 {"2 ft - 6 in", 762.},
                                 {"7 cm", 70.},
                                 {"7 mm", 7.},
                                 {"0.7 m", 700.},
                                 {"+3 in", 76.2},
                                 {"3/4 in", 19.05},
                                 {"1-3/4", 44.45},
                                 {"1 3/4\"", 44.45},
                                 {"2\u00bc\"", 57.15},
                                 {"2\u00be in", 69.85},
                                 {"\u22123 in", -76.2},
                                 {"\u20133 mm", -3.},
                                 {"5\u2019 3\u201d", 1600.2},
                                 {"5\u2032 4\u2032\u2032", 1625.6},
                                 {"\u20133\u20131/2 in", -88.9},
                                 {"5\u2019 4\u2019\u2019", 1625.6}}) {
    std::string why;
    const auto read = parse_length(text, LengthUnit::inch, why);
    ASSERT_TRUE(read) << text << ": " << why;
    EXPECT_NEAR(read->in_mm(), mm, 1e-9) << text;
  }
  const std::pair<LengthUnit, double> bare[] = {{LengthUnit::inch, 50.8},
                                                {LengthUnit::foot, 609.6},
                                                {LengthUnit::mm, 2},
                                                {LengthUnit::cm, 20},
                                                {LengthUnit::metre, 2000}};
  for (const auto& [unit, mm] : bare) {
    std::string why;
    EXPECT_NEAR(parse_length("2", unit, why)->in_mm(), mm, 1e-9);
  }
  std::string why;
  EXPECT_FALSE(parse_length("5 ft 12 in", LengthUnit::inch, why));
  EXPECT_TRUE(parse_length("5 ft 11-15/16 in", LengthUnit::inch, why));
}

TEST(UnitTable, OfPrintedLengths) {
  // Source: by hand: halves round away from nought; what is no number is said as such, and 1e12 / 25.4 = 3.937e10 is
  // past any tape and told in the unit that was asked for.
  EXPECT_EQ(to_inches(Length::inches(-0.0625)), "-1/16\"");
  EXPECT_EQ(to_inches(Length::inches(12.03125)), "12-1/16\"");
  EXPECT_EQ(to_inches(Length::mm(NAN)), "unknown");
  EXPECT_EQ(to_inches(Length::mm(1e12)), "3.94e+10\"");
  EXPECT_EQ(to_mm(Length::mm(-2.5)), "-3 mm");
  EXPECT_EQ(to_mm(Length::mm(9.9e11)), "990000000000 mm");
  EXPECT_EQ(to_mm(Length::mm(INFINITY)), "unknown");
  EXPECT_EQ(to_feet_and_inches(Length::inches(11.5)), "11-1/2\"");
  EXPECT_EQ(to_feet_and_inches(Length::inches(-12)), "-1'");
  EXPECT_EQ(to_feet_and_inches(Length::inches(-13.25)), "-1' 1-1/4\"");
  EXPECT_EQ(to_feet_and_inches(Length::inches(12.5)), "1' 1/2\"");
  EXPECT_EQ(to_text(Length::mm(25.4), true), "25 mm");
  EXPECT_EQ(to_text(Length::mm(25.4), false), "1\"");
  EXPECT_DOUBLE_EQ(round_to_tape(Length::inches(1.03), false).in_inches(), 1);
  EXPECT_DOUBLE_EQ(round_to_tape(Length::mm(10.6), true).in_mm(), 11);
}

TEST(UnitTable, OfFalls) {
  // Source: by hand: 3/8 in in 12 is 1/32; 1:40 is 2.5 %, 0.3 in/ft.
  for (const auto& [text, ratio] : {std::pair{"3/8 in/ft", 1. / 32},
                                    {"3/8\"/'", 1. / 32},
                                    {"3/8 in per foot", 1. / 32},
                                    {"3/8 in/foot", 1. / 32},
                                    {"1:40", 0.025},
                                    {"2.5 %", 0.025},
                                    {"25 mm/m", 0.025},
                                    {"-2.5 percent", -0.025},
                                    {"2:5", 0.4}}) {
    std::string why;
    const auto read = parse_fall(text, why);
    ASSERT_TRUE(read) << text << ": " << why;
    EXPECT_NEAR(read->as_ratio(), ratio, 1e-12) << text;
  }
  EXPECT_EQ(to_inches_per_foot(Fall::ratio(3. / 64 / 12)), "3/64 in/ft");
  EXPECT_EQ(to_inches_per_foot(Fall::inches_per_foot(2)), "2 in/ft");
  EXPECT_EQ(to_inches_per_foot(Fall::inches_per_foot(-1.25)), "-1-1/4 in/ft");
  EXPECT_EQ(to_inches_per_foot(Fall{}), "0.000 in/ft");
  EXPECT_EQ(to_inches_per_foot(Fall::inches_per_foot(2e30)), "2e+30 in/ft") << "no 64th of it can be counted";
  EXPECT_EQ(to_percent(Fall::one_in(40)), "2.50 %");
  EXPECT_EQ(to_one_in(Fall::ratio(-0.03)), "-1:33.3");
  EXPECT_EQ(to_one_in(Fall::ratio(1 / 40.004)), "1:40");
  EXPECT_EQ(to_text(Fall::one_in(40), true), "2.50 % (1:40)");
  EXPECT_EQ(to_text(Fall::one_in(40), false), "0.300 in/ft (1:40)");
}

/// What a reader says of a text that it refuses.
template <class Read>
std::string refused(Read read, const char* text) {
  std::string why;
  EXPECT_FALSE(read(text, why)) << text;
  return why;
}

TEST(UnitTable, OfWhatIsRefused) {
  // Source: common practice, no source: what stands there is repeated, and what is wanted is shown as it is written; a
  // length is a length and a fall a fall.
  const auto length = [](const char* text, std::string& why) { return parse_length(text, LengthUnit::inch, why); };
  const auto fall = [](const char* text, std::string& why) { return parse_fall(text, why); };
  const auto parts = [](const char* text, std::string& why) { return !parse_parts(text, why).empty(); };
  EXPECT_EQ(refused(length, ""), "a number is missing");
  EXPECT_EQ(refused(length, "abc"), "'abc' is no number");
  EXPECT_EQ(refused(length, "-+3 in"), "'+3 in' is no number");
  EXPECT_EQ(refused(length, "16 1/0 in"), "a fraction cannot be over zero");
  EXPECT_EQ(refused(length, "14/ in"), "the fraction lacks its lower number");
  EXPECT_EQ(refused(length, "3 5/4 in"), "the fraction behind a whole number must be less than one");
  EXPECT_EQ(refused(length, "3 furlongs"), "'furlongs' is left over behind the length");
  EXPECT_EQ(refused(length, "1,640 mm"), "write numbers without thousands separators and with a point for decimals");
  EXPECT_EQ(refused(length, "5 ft 12 in"), "behind feet, inches must be less than 12");
  EXPECT_EQ(refused(fall, "1:0"), "the run behind ':' must be more than zero");
  EXPECT_EQ(refused(fall, "3 in"), "inches of fall need '/ft' behind them");
  EXPECT_EQ(refused(fall, "2"), "a fall needs its unit: '1/4 in/ft', '2 %', '1:48' or '20 mm/m'");
  EXPECT_EQ(refused(fall, "1:48 x"), "'x' is left over behind the fall");
  EXPECT_EQ(refused(parse_volume_mm3, "3 pints"), "'pints' is no unit for it; write it like '0.45 ft3' or '12 L'");
  EXPECT_EQ(refused(parse_area_mm2, "3 acres"), "'acres' is no unit for it; write it like '900 in2' or '0.6 m2'");
  EXPECT_EQ(refused(parse_density_kg_m3, "3 x"), "'x' is no unit for it; write it like '130 lb/ft3' or '2080 kg/m3'");
  EXPECT_EQ(refused(parse_share, "3"), "'' is no unit for it; write it like '10 %'");
  EXPECT_EQ(refused(parse_mass_kg, "3 st"),
            "'st' is no unit for it; write it like '94 lb', '25 kg' or, as what it weighs, '400 lbf', '950 N', '2.5 "
            "kN'");
  EXPECT_EQ(refused(parse_stress_mpa, "3 bar"), "'bar' is no unit for it; write it like '60 psi' or '0.4 N/mm2'");
  EXPECT_EQ(refused(parts, "1:5 x"), "'x' is not understood");
  EXPECT_EQ(refused(parts, "1:2:3:4"), "4 parts");
  EXPECT_EQ(refused(parts, "0:5"), "there is no mortar without cement and sand");
}

TEST(UnitTable, OfWhatIsShownAsAnExample) {
  // Source: the definitions, by hand: what a message tells people to write is read, and as what it says.
  std::string why;
  EXPECT_DOUBLE_EQ(parse_fall("20 mm/m", why)->as_ratio(), 0.02);
  EXPECT_NEAR(parse_volume_mm3("0.45 ft3", why).value(), 0.45 * 1728 * 16387.064, 1e-3);
  EXPECT_DOUBLE_EQ(parse_area_mm2("0.6 m2", why).value(), 6e5);
  EXPECT_NEAR(parse_density_kg_m3("130 lb/ft3", why).value(), 130 * 0.45359237 / 0.028316846592, 1e-9);
  EXPECT_DOUBLE_EQ(parse_density_kg_m3("2080 kg/m3", why).value(), 2080);
  EXPECT_NEAR(parse_mass_kg("94 lb", why).value(), 94 * 0.45359237, 1e-9);
  EXPECT_NEAR(parse_mass_kg("2.5 kN", why).value(), 2500 / 9.80665, 1e-9);
  EXPECT_NEAR(parse_stress_mpa("60 psi", why).value(), 60 * 4.4482216152605 / 645.16, 1e-9);
  EXPECT_DOUBLE_EQ(parse_stress_mpa("0.4 N/mm2", why).value(), 0.4);
}

TEST(UnitTable, OfPrintedQuantities) {
  // Source: by hand: what would come out as nothing is told in the smaller unit: below a hundredth of a cubic foot or a
  // tenth of a litre; nothing at all has no decimals to round.
  const double ft3 = 28316846.592;
  EXPECT_EQ(volume_text(1.456 * ft3, false), "1.46 ft3");
  EXPECT_EQ(volume_text(0.0101 * ft3, false), "0.01 ft3");
  EXPECT_EQ(volume_text(0.009 * ft3, false), "15.6 in3");
  EXPECT_EQ(volume_text(-0.009 * ft3, false), "-15.6 in3");
  EXPECT_EQ(volume_text(0.008996 * ft3, false), "15.5 in3") << "15.545, of 1728 to the foot";
  EXPECT_EQ(volume_text(0, false), "0 ft3");
  EXPECT_EQ(volume_text(1, false), "0.0 in3");
  EXPECT_EQ(volume_text(1.25e6, true), "1.2 L");
  EXPECT_EQ(volume_text(1.01e5, true), "0.1 L");
  EXPECT_EQ(volume_text(9.9e4, true), "99.0 cm3");
  EXPECT_EQ(volume_text(0, true), "0 L");
  EXPECT_EQ(area_text(900 * 645.16, false), "900 in2");
  EXPECT_EQ(area_text(1.2345e6, true), "1.234 m2");
  EXPECT_EQ(decimals(2.345, 1), "2.3");
  EXPECT_EQ(decimals(1e30, 2), "1e+30");
}

TEST(UnitTable, OfBrokenLetters) {
  // Source: Unicode 15, table 3-7: first bytes end at F4; a letter's bytes may not be cut short.
  EXPECT_EQ(letters_of("\xf5\x80\x80\x80"), U"\ufffd\ufffd\ufffd\ufffd");
  EXPECT_EQ(letters_of("\xf0\x9f\x9a"), U"\ufffd\ufffd\ufffd");
  EXPECT_EQ(letters_of("\xe2\x82"), U"\ufffd\ufffd");
  EXPECT_EQ(letters_of("\xe0\x9f\xbf"), U"\ufffd\ufffd\ufffd") << "a longer form of 7FF";
  EXPECT_EQ(letters_of("\xf0\x8f\xbf\xbf"), U"\ufffd\ufffd\ufffd\ufffd") << "a longer form of FFFF";
  EXPECT_EQ(letters_of("\xc1\xbf"), U"\ufffd\ufffd");
  EXPECT_EQ(first_letters("abc", 5), "abc");
  EXPECT_EQ(first_letters("abc", 0), "");
}

TEST(Decimals, AreThoseOfTheCLibrary) {
  // Source: printf: of ties the even digit, no number; but what rounds to nothing has no sign.
  std::mt19937 random{3};
  for (int i = 0; i < 2000; ++i) {
    const double value = std::ldexp(std::uniform_real_distribution{-1.0, 1.0}(random), i % 60 - 20);
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", i % 5, value);
    const bool nothing = std::string{text}.find_first_of("123456789") == std::string::npos;
    EXPECT_EQ(decimals(value, i % 5), nothing && text[0] == '-' ? text + 1 : text);
  }
  EXPECT_EQ(decimals(0.125, 2), "0.12");
  EXPECT_EQ(decimals(-0.0001, 2), "0.00") << "nothing has no sign";
  EXPECT_EQ(decimals(-0.005001, 2), "-0.01");
  EXPECT_EQ(decimals(-0.4, 0), "0");
  EXPECT_EQ(decimals(std::nan(""), 2), "nan");
}

}  // namespace
}  // namespace fallwright::units
