#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "job/stock.hpp"

namespace fallwright::job {
namespace {

Stock stock(const std::string& text) {
  std::string why;
  const auto found = parse_stock(text, why);
  EXPECT_TRUE(found) << text << ": " << why;
  return found.value_or(Stock{});
}

TEST(Timber, IsDressedDryByPS20) {
  // Source: PS 20, dressed dry sizes of boards, dimension lumber and timbers.
  struct Row {
    const char* name;
    double thickness, width;
  };
  const Row rows[] = {{"1x4", 0.75, 3.5},  {"5/4x6", 1, 5.5},    {"2x2", 1.5, 1.5}, {"2x3", 1.5, 2.5},
                      {"2x4", 1.5, 3.5},   {"2x5", 1.5, 4.5},    {"2x6", 1.5, 5.5}, {"2x8", 1.5, 7.25},
                      {"2x10", 1.5, 9.25}, {"2x12", 1.5, 11.25}, {"4x4", 3.5, 3.5}, {"6x6", 5.5, 5.5},
                      {"4x10", 3.5, 9.25}, {"2 x 4", 1.5, 3.5},  {"4x2", 1.5, 3.5}};
  for (const Row& row : rows) {
    EXPECT_DOUBLE_EQ(stock(row.name).thickness.in_inches(), row.thickness) << row.name;
    EXPECT_DOUBLE_EQ(stock(row.name).depth.in_inches(), row.width) << row.name;
  }
  EXPECT_DOUBLE_EQ(stock("45x95 mm").depth.in_mm(), 95);
}

TEST(Steel, SizesFollowTheDesignator) {
  // Source: AWCI, designators of cold-formed steel framing (1996): 600S162-54 has a 6 in web, 1-5/8 in flange, 54 mil.
  const Stock s = stock("600S162-54");
  EXPECT_DOUBLE_EQ(s.depth.in_inches(), 6);
  EXPECT_DOUBLE_EQ(s.flange.in_inches(), 1.625);
  EXPECT_DOUBLE_EQ(s.lip.in_inches(), 0.5);
  EXPECT_DOUBLE_EQ(stock("350T125-33").flange.in_inches(), 1.25);
  EXPECT_DOUBLE_EQ(stock("362S137-43").depth.in_inches(), 3.625);
  EXPECT_DOUBLE_EQ(stock("362S137-43").flange.in_inches(), 1.375);
}

TEST(Steel, ThicknessAndRadiusAreThoseOfTheMakersTable) {
  // Source: steel stud makers' general product information (2009-2015 IBC): mil, minimum, design thickness, inside
  // radius. Two relations hold in that table: minimum is 95 % of design; the radius is max(3/32 - t/2, 3/2 t) cut to
  // four digits.
  struct Row {
    int mils;
    double least, design, radius;
  };
  const Row rows[] = {{18, .0179, .0188, .0843}, {27, .0269, .0283, .0796}, {30, .0296, .0312, .0781},
                      {33, .0329, .0346, .0764}, {43, .0428, .0451, .0712}, {54, .0538, .0566, .0849},
                      {68, .0677, .0713, .1069}, {97, .0966, .1017, .1525}, {118, .1180, .1242, .1863}};
  for (const Row& row : rows) {
    const Stock s = stock("350S162-" + std::to_string(row.mils));
    EXPECT_NEAR(s.thickness.in_inches(), row.design, 1e-9);
    EXPECT_NEAR(s.radius.in_inches(), row.radius, 1e-9);
    EXPECT_NEAR(0.95 * s.thickness.in_inches(), row.least, 1.01e-4);
    EXPECT_NEAR(std::max(3. / 32 - row.design / 2, 1.5 * row.design), s.radius.in_inches(), 1.01e-4);
  }
}

TEST(Steel, FlangeAndLipAreThoseOfTheMakersTable) {
  // Source: the same product information: stud flange designation, flange width and lip.
  struct Row {
    const char* flange;
    double width, lip;
  };
  const Row rows[] = {{"S125", 1.25, .188}, {"S137", 1.375, .375}, {"S162", 1.625, .5}, {"S200", 2, .625},
                      {"S250", 2.5, .625},  {"S300", 3, .625},     {"S350", 3.5, 1}};
  for (const Row& row : rows) {
    const Stock s = stock(std::string{"600"} + row.flange + "-33");
    EXPECT_DOUBLE_EQ(s.flange.in_inches(), row.width) << row.flange;
    EXPECT_DOUBLE_EQ(s.lip.in_inches(), row.lip) << row.flange;
  }
}

TEST(Stock, RefusesWhatIsNotSold) {
  // Source: common practice, no source.
  for (const char* text :
       {"2x7", "2x", "wood", "350S163-33", "350S162-34", "9x", "5x200 mm", "350Q162-33", "350S125-97"}) {
    std::string why;
    EXPECT_FALSE(parse_stock(text, why)) << text;
    EXPECT_FALSE(why.empty()) << text;
  }
}

}  // namespace
}  // namespace fallwright::job
