// Threshold and back wall of a base that is built on site, larger: every height worked out by hand.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/read.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

/// 1600 x 1000, level; the opening's front edge 500 from the entry, 400 before the threshold's inner face.
std::string liner_room() {
  return "[job]\nname = \"x\"\nunit = \"mm\"\n[floor]\nkind = \"slab\"\n[alcove]\nwidth = 1600\ndepth = 1000\n"
         "[survey]\nboard = 12\n[base]\nkind = \"site-built\"\nwaterproofing = \"liner\"\nrise = 16\ncover = 40\n"
         "[base.threshold]\nwidth = 100\nheight = 100\nfall = \"2 %\"\nfinish = 20\n[bed]\nleast = 30\ncollar = 0\n"
         "[liner]\nabove_threshold = 80\n"
         "[drain]\nsize = 100\nfrom_left = 800\nfrom_back = 450\nbody = 63\nrecess = 10\nbore = 90\n";
}

Drawn built_on_site(const std::string& text) {
  return drawn(job::read(text, "x.toml"), false);
}

bool has_sheet(const Drawn& d, const std::string& name) {
  return std::any_of(d.sheets.begin(), d.sheets.end(), [&](const Sheet& s) { return s.name == name; });
}

/// Whether a rung of the ladder leads from a height to words of it.
void expect_rung(const Sheet& sheet, double z, const std::string& words) {
  EXPECT_THAT(read_through(sheet), testing::HasSubstr(words));
  EXPECT_TRUE(std::any_of(sheet.lines.begin(), sheet.lines.end(),
                          [&](const Line& line) {
                            return line.kind == LineKind::dimension && std::abs(line.from.y - z) < 2e-3 &&
                                   std::abs(line.to.y - z) < 2e-3;
                          }))
      << words << " stands at no height of its own";
}

TEST(SiteSections, TellEveryHeightOfThresholdAndWall) {
  // Source: by hand: 30 of bed at the opening and 16 more at the rim; 16 over 400 is 4 more under the threshold of
  // 100, at the form. Top coat 40 on that; the drain's top at 70, the threshold 100 over it and 2 % of 100 higher at
  // its outer edge; rough 20 lower. The liner 80 over its highest, fasteners 25.4 over it, told upward.
  const Drawn d = built_on_site(liner_room());
  const Sheet& sheet = d.sheet("screed-sections");
  expect_rung(sheet, 0, "0  datum");
  expect_rung(sheet, 50, "50  top of the form");
  expect_rung(sheet, 46, "46  pre-slope at the inner face");
  expect_rung(sheet, 86, "86  top coat at the inner face");
  expect_rung(sheet, 170, "170  finished threshold, inner edge");
  expect_rung(sheet, 172, "172  finished threshold, outer edge");
  expect_rung(sheet, 150, "150  rough threshold, inner edge");
  expect_rung(sheet, 152, "152  rough threshold, outer edge");
  expect_rung(sheet, 46, "46  pre-slope at the wall");
  expect_rung(sheet, 86, "86  top coat at the wall");
  expect_rung(sheet, 252, "252  top of the liner");
  expect_rung(sheet, 197.4, "198  no fastener lower");
  for (const char* name : {"board, comes later", "stud ", "rough threshold ", "liner ", "form "})
    EXPECT_THAT(read_through(sheet), testing::HasSubstr(name));
  EXPECT_THAT(read_through(d.sheet("order-of-work")), testing::HasSubstr("its top 252 mm above the datum"));
}

TEST(SiteSections, ShowNothingThatNobodySaid) {
  // Source: by hand: what a key says is drawn with it and not without it.
  std::string bare = liner_room();
  for (const char* key : {"finish = 20\n", "above_threshold = 80\n", "board = 12\n"})
    bare.erase(bare.find(key), std::string{key}.size());
  const Drawn d = built_on_site(bare);
  const std::string words = read_through(d.sheet("screed-sections"));
  for (const char* name : {"rough threshold,", "top of the liner", "board, comes later"})
    EXPECT_THAT(words, testing::Not(testing::HasSubstr(name)));
  EXPECT_THAT(d.sheet("screed-sections").notes, testing::Contains(testing::HasSubstr("is not said")).Times(3));
}

TEST(SiteSections, StandOnlyWhereThereIsOne) {
  // Source: by hand: without a threshold the wall alone; on small paper each on its own sheet; of a bought base none.
  std::string open = liner_room();
  open.replace(open.find("width = 100\n"), 12, "width = 0\n");
  const Drawn wall = built_on_site(open), small = built_on_site(liner_room() + "[drawings]\npaper = \"a4\"\n");
  EXPECT_TRUE(has_sheet(wall, "screed-wall"));
  EXPECT_FALSE(has_sheet(wall, "screed-threshold") || has_sheet(wall, "screed-sections"));
  EXPECT_TRUE(has_sheet(small, "screed-wall") && has_sheet(small, "screed-threshold"));
  for (const char* name : {"screed-sections", "screed-wall", "screed-threshold"})
    EXPECT_FALSE(has_sheet(drawn_demo("chandlers-row-7"), name)) << name;
}

}  // namespace
}  // namespace fallwright::drawing
