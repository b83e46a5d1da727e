// Lists on paper that only some sets have: what has changed, what it costs, what the trap arm meets.
#include <algorithm>
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "outside/drawn.hpp"
#include "revision/changes.hpp"

namespace fallwright::drawing {
namespace {

using testing::Contains, testing::Not;

/// The lines of a sheet as they are read: words on one line of letters from left to right.
std::vector<std::string> lines_of(const std::vector<Sheet>& sheets, const std::string& name) {
  std::vector<std::string> lines;
  for (const Sheet& sheet : sheets) {
    if (sheet.name != name) continue;
    std::map<long, std::map<double, std::string>, std::greater<>> rows;
    for (const Text& text : sheet.texts) rows[std::lround(text.at.y * 10)][text.at.x] = text.words;
    for (const auto& [y, row] : rows) {
      std::string line;
      for (const auto& [x, words] : row) line += (line.empty() ? "" : " | ") + words;
      lines.push_back(line);
    }
  }
  return lines;
}

TEST(Lists, WhatHasChangedIsToldKeyByKeyAndPieceByPiece) {
  // Source: by hand, what the sheet was given.
  const Drawn d = drawn_demo("tannery-lane-2a");
  revision::Changes all;
  all.since = "older.toml";
  all.keys = {{"base.fall", "1/4 in/ft", "3/8 in/ft"}};
  all.sizes = {{"rim", "1/2\"", "5/8\""}};
  all.to_buy = {{"mortar, bags", "4 bags", "5 bags"}};
  takeoff::Row bag, box;
  bag.item = "mortar, bags", bag.buy = 1, bag.buy_unit = "bags";
  box.item = "tile", box.buy = 2, box.buy_unit = "boxes", box.product = "white";
  all.purchases = {{bag}, {box}, {"felt"}};
  all.verdicts = {{rules::Outcome::fail, "floor's fall", "0.891 in/ft", "pass, 0.477 in/ft", "raise it"},
                  {rules::Outcome::not_checked, "trap", "", "pass", ""}};
  using revision::Use;
  all.pieces.uses = {{Use::serves, 3, "B", "A", "2x4, 13\""},
                     {Use::fit, 2, "D", "C", "2x4, 12\""},
                     {Use::recut, 1, "F", "E", "2x4, 11\""},
                     {Use::fresh, 4, "G", "", "2x4, 10\""}};
  all.pieces.left = {{2, "H", "2x4, 9\""}};
  const auto sheets = draw(*d.model, {d.facts, d.cuts, {}, {}, d.judgement, "", &all});
  const auto lines = lines_of(sheets, "changes");
  for (const char* line :
       {"base.fall | 1/4 in/ft | 3/8 in/ft", "rim | 1/2\" | 5/8\"", "mortar, bags | 4 bags | 5 bags",
        "floor's fall | pass, 0.477 in/ft | FAIL, 0.891 in/ft", "trap | pass | not checked",
        "3 x 2x4, 13\" | A | B: serves as it is", "2 x 2x4, 12\" | C | D: serves; lay it anew as the floor lies now",
        "1 x 2x4, 11\" | E | F: recut from it", "4 x 2x4, 10\" | - | G: new: from stock",
        "2 x 2x4, 9\" | H | left over", "KEYS OF THE JOB FILE", "SIZES", "CHECKS",
        "TO BUY, beyond all of the older order", "mortar, bags | - | 1 bag", "felt | - | HOLD",
        "OVER, of the older order", "tile | 2 boxes, white | over", "THE WHOLE ORDER, PLANNED ANEW"})
    EXPECT_THAT(lines, Contains(std::string{line}));
  const Sheet& sheet = *std::find_if(sheets.begin(), sheets.end(), [](const Sheet& s) { return s.name == "changes"; });
  EXPECT_NE(read_through(sheet).find("What changed since older.toml"), std::string::npos);
  all.keys.clear(), all.verdicts.clear();
  const auto fewer = lines_of(draw(*d.model, {d.facts, d.cuts, {}, {}, d.judgement, "", &all}), "changes");
  EXPECT_THAT(fewer, Not(Contains("KEYS OF THE JOB FILE")));
  EXPECT_THAT(fewer, Not(Contains("CHECKS")));
}

TEST(Lists, WithPricesTheListTellsCostAndWhereItIsHad) {
  // Source: by hand: 4 bags of 8.50 are 34.00, 2 boxes have no price, what is only told costs nothing.
  job::Job job = demo("tannery-lane-2a");
  job.buy.prices.file = "prices.csv", job.buy.currency = "EUR";
  const Drawn d = drawn(job, false);
  takeoff::Row bags{"mortar, bags", 1.6, "ft3", 4, "bags", "solid of the bed"},
      boxes{"tile", 17, "ft2", 2, "boxes", "t"}, told{"mortar, bed as set", 1.5, "ft3", 1.6, "ft3", "solid of the bed"};
  bags.price = 8.5, bags.supplier = "yard";
  told.for_sale = false;
  const auto sheets = draw(*d.model, {d.facts, d.cuts, {}, {bags, boxes, told}, d.judgement});
  const auto reckoned = lines_of(sheets, "buy-reckoned");
  EXPECT_THAT(reckoned, Contains("item | net, from | buy | cost, EUR | from, waste, pack"));
  EXPECT_THAT(reckoned, Contains("mortar, bags | 1.60 ft3 | 4 bags | 34.00 | solid of the bed"));
  EXPECT_THAT(reckoned, Contains("tile | 17 ft2 | 2 boxes | no price | t"));
  EXPECT_THAT(reckoned, Contains("mortar, bed as set | 1.50 ft3 | (1.60 ft3) | solid of the bed"));
  EXPECT_THAT(reckoned,
              Contains("Cost by your own prices: EUR 34.00; without 1 that has no price: 'tile' by the box."));
  const auto carried = lines_of(sheets, "buy");
  EXPECT_THAT(carried, Contains(testing::EndsWith("| size | from")));
  EXPECT_THAT(carried, Contains(testing::AllOf(testing::HasSubstr("4 bags"), testing::EndsWith("| yard"))));
}

TEST(Lists, TheArmsHolesStandJoistByJoist) {
  // Source: the table that the judgement holds, row for row.
  for (const job::PaperSize paper : {job::PaperSize::tabloid, job::PaperSize::letter}) {
    job::Job job = demo("tannery-lane-2a");
    job.drawings.paper = paper;
    Drawn d = drawn(job, false);
    d.judgement.pipe.rows = {{"joist-02", "10\"", "-4\"", "2-1/4\"", "4-3/8\"", "2-1/2\"", "3-1/16\""},
                             {"joist-03", "26\"", "-4-1/4\"", "2-1/2\"", "4-1/8\"", "2-1/2\"", "3-1/16\""}};
    const auto sheets = draw(*d.model, {d.facts, d.cuts, {}, {}, d.judgement});
    std::vector<std::string> lines;
    for (const char* name : {"drain", "drain-arm"})
      for (const std::string& line : lines_of(sheets, name)) lines.push_back(line);
    EXPECT_THAT(lines, Contains(testing::HasSubstr(
                           "joist at | from weir | hole's centre | left above | left below | hole | hole at most")));
    EXPECT_THAT(lines, Contains(testing::HasSubstr("joist-02 | 10\" | -4\" | 2-1/4\" | 4-3/8\" | 2-1/2\" | 3-1/16\"")));
    EXPECT_THAT(lines,
                Contains(testing::HasSubstr("joist-03 | 26\" | -4-1/4\" | 2-1/2\" | 4-1/8\" | 2-1/2\" | 3-1/16\"")));
  }
}

TEST(Lists, WhatWaitsIsInspectedUnderAHeadlineOfItsOwn) {
  // Source: none: who inspects sees at once what is open, and what nobody looks at yet.
  const Drawn& d = drawn_demo("ferry-steps-3");
  std::size_t held = 0, open = 0, headlines = 0;
  bool waits = false;
  for (const Sheet& sheet : d.sheets) {
    if (!sheet.name.starts_with("inspection") || sheet.name == "inspection-care") continue;
    for (const std::string& line : lines_of({sheet}, sheet.name)) {
      if (line.starts_with("BY ") || line.starts_with("THE ROOM")) {
        waits = line.find("ON HOLD") != std::string::npos;
        headlines += waits && line.find("continued") == std::string::npos;
      } else if (line.find(" | HOLD") != std::string::npos) {
        EXPECT_TRUE(waits) << line;
        ++held;
      } else if (line.find(" | CAUTION") != std::string::npos || line.find(" | NOT CHECKED") != std::string::npos) {
        EXPECT_FALSE(waits) << line;
        ++open;
      }
    }
  }
  EXPECT_EQ(headlines, 2u);
  EXPECT_GT(held, 10u);
  EXPECT_GT(open, 10u);
}

}  // namespace
}  // namespace fallwright::drawing
