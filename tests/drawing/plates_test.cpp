// What is written beside plates of fixtures on a wall.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/pen.hpp"
#include "job/read.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

/// 60 in of back wall with studs at 16 in; two plates at 20 in, 24 one above the other, with no timber behind them.
Drawn rail_on_no_timber() {
  return drawn(
      job::read(
          "[job]\nname = \"x\"\nunit = \"in\"\n[drawings]\npaper = \"tabloid\"\n[alcove]\nwidth = 60\ndepth = 36\n"
          "[walls]\nblocking = [12, 47]\nspacing = 16\n[base]\nlength = 59.5\nwidth = 36\n"
          "[drain]\nsize = 4\nfrom_left = 30\nfrom_back = 18\n"
          "[[fixture]]\nname = \"shower rail, top\"\nwall = \"back\"\nalong = 20\nheight = 76\n"
          "[[fixture]]\nname = \"shower rail, foot\"\nwall = \"back\"\nalong = 20\nheight = 53\n",
          "x.toml"),
      false);
}

TEST(Plates, WhatIsSaidOfThemStandsInTheirOwnBay) {
  // Source: by hand: 20 in lies between studs whose centres stand at 16 and 32; the upper plate's foot is 1 in or more
  // below its middle.
  const Drawn d = rail_on_no_timber();
  const Sheet& wall = d.sheet("wall-back");
  ASSERT_THAT(wall.holds, testing::Contains(testing::HasSubstr("2 FIXTURES")));
  std::vector<Box> voids, alongs;
  for (const Text& text : wall.texts) {
    if (text.at.x > 60 * 25.4) continue;  // in the larger section beside the view
    if (text.words == "VOID") voids.push_back(box_of(text));
    if (text.words.ends_with("20 along")) alongs.push_back(box_of(text));
  }
  ASSERT_EQ(voids.size(), 2U);
  ASSERT_EQ(alongs.size(), 2U);
  for (const auto* all : {&voids, &alongs})
    for (const Box& box : *all) {
      EXPECT_GT(box.x0, 16 * 25.4);
      EXPECT_LT(box.x1, 32 * 25.4);
    }
  const auto of_foot = [](const std::vector<Box>& boxes) {
    return *std::min_element(boxes.begin(), boxes.end(), [](const Box& a, const Box& b) { return a.y0 < b.y0; });
  };
  EXPECT_LT(of_foot(voids).y1, (76 - 1) * 25.4);
  EXPECT_LT(of_foot(alongs).y1, (76 - 1) * 25.4);
}

TEST(Plates, ALineToAnUprightNameLeavesItByItsEnd) {
  // Source: by hand: 15 letters 3 high about y 50 end well above 20; a line from their side would run along them.
  for (const Point thing : {Point{12, 20}, Point{-12, 20}, Point{12, 85}, Point{-12, 85}, Point{14, 50}}) {
    Sheet sheet{"x", "x", false};
    Pen pen{sheet, 3};
    pen.name_at_one_of(thing, {{0, 50}}, "valve, 30 along", Anchor::middle, 1, 90);
    pen.nowhere_else();
    pen.part_texts();
    ASSERT_EQ(sheet.lines.size(), 1U);
    const Box box = box_of(sheet.texts.front());
    const Point from = sheet.lines.front().from;
    if (thing.y == 50)
      EXPECT_NEAR(from.y, 50, 1e-9);
    else
      EXPECT_NEAR(from.y, thing.y < 50 ? box.y0 - 0.9 : box.y1 + 0.9, 1e-9) << "its end, and 0.3 of a letter more";
  }
}

TEST(Tiles, EachHasSomethingThatNoOtherShows) {
  // Source: by hand: tiles share 15 mm. The bar lies from a tile's left edge, and of a column after the first something
  // of the bench is drawn more than 15 mm right of that.
  int tiles = 0;
  for (double depth = 14; depth < 17.1; depth += 0.25) {
    job::Job back = sample::alcove();
    back.drawings.paper = job::PaperSize::letter;
    back.bench->place = job::Side::back, back.bench->depth = job::Length::inches(depth);
    back.alcove.depth = job::Length::inches(36 + depth), back.base.length = job::Length::inches(72);
    back.base.width = job::Length::inches(36), back.drain.across.distance = job::Length::inches(36);
    for (const Sheet& sheet : drawn(back, false).sheets) {
      const std::string words = read_through(sheet);
      if (words.find("page in row") == std::string::npos || words.find("column 1,") != std::string::npos) continue;
      ++tiles;
      double left = 0, right = -1e9;
      for (const Line& line : sheet.lines) {
        const double low = std::min(line.from.x, line.to.x), high = std::max(line.from.x, line.to.x);
        if (line.kind == LineKind::dimension && std::abs(high - low - 152.4) < 1e-6) left = low;
        if (line.kind == LineKind::outline) right = std::max(right, high);
      }
      EXPECT_GT(right, left + 15) << sheet.name << " " << depth;
    }
  }
  EXPECT_GT(tiles, 0);
}

TEST(Tiles, OfAStoryStickCutNoMarkFromItsWords) {
  // Source: by hand: a mark is a line across the strip, 22 mm long, and its words stand below it. At the end of a tile
  // a line without words reads as the stick's own end.
  int marks = 0, tiles = 0;
  for (const char* name : {"tannery-lane-5c", "tannery-lane-2a", "tannery-lane-2b", "ferry-steps-3"}) {
    std::vector<const Sheet*> of_stick;
    std::vector<double> at;  // all marks, on whatever tile: all tiles tell lengths along the whole stick
    for (const Sheet& sheet : drawn_demo(name).sheets)
      if (sheet.name.starts_with("story-stick-")) {
        of_stick.push_back(&sheet);
        for (const Dimension& d : sheet.dimensions) at.push_back(d.to.x);
      }
    for (const Sheet* sheet : of_stick) {
      ++tiles;
      for (const Line& line : sheet->lines) {
        const bool is_mark =
            line.kind == LineKind::outline && std::abs(line.from.x - line.to.x) < 1e-6 &&
            std::abs(std::abs(line.to.y - line.from.y) - 22) < 1e-6 &&
            std::any_of(at.begin(), at.end(), [&](double x) { return std::abs(x - line.from.x) < 1e-6; });
        if (!is_mark) continue;
        ++marks;
        const bool has_words = std::any_of(sheet->texts.begin(), sheet->texts.end(), [&](const Text& text) {
          return text.rotation_deg == -90 && std::abs(text.at.x + 1.5 - line.from.x) < 6;
        });
        EXPECT_TRUE(has_words) << sheet->name << " of " << name << ": " << line.from.x;
      }
    }
  }
  EXPECT_GT(tiles, 3);
  EXPECT_GT(marks, 20);
}

}  // namespace
}  // namespace fallwright::drawing
