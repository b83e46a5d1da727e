// The sheets of a study: a map whose zones, lines and marks are worked out by hand, and the odds of readings.
#include "drawing/study.hpp"

#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/sample.hpp"

namespace fallwright::drawing {
namespace {

using facts::Verdict;
using testing::Contains;
using testing::IsSupersetOf;
using testing::Not;

job::Varied lengths(const char* name, std::vector<double> inches, double now_in) {
  job::Varied v;
  v.name = name, v.measure = job::Measure::length;
  for (const double value : inches) {
    v.numbers.push_back(value * 25.4);
    v.shown.push_back(std::to_string(static_cast<int>(value)) + " in");
    v.changes.push_back({name, "\"" + v.shown.back() + "\""});
  }
  v.now = "today", v.now_number = now_in * 25.4;
  return v;
}

struct Mapped {
  job::Study study;
  std::vector<job::Varied> varied;
  facts::Study all;
  Sheet draw() const { return draw_study({study, varied, all, {}}).back(); }
};

/// Five places of the drain by three heights of a bench, given out of order; left of 21 in the first check gives way,
/// by a tenth of its limit for every inch.
Mapped plain_map() {
  Mapped m;
  m.study.job = sample::alcove();
  m.study.name = "by hand";
  m.varied = {lengths("drain.from_left", {24, 20, 21, 22, 23}, 22), lengths("bench.height", {19, 17, 18}, 18.5),
              lengths("tile.height", {72, 80}, 72)};
  m.varied[2].held = 1, m.varied[2].now = "72 in";
  m.all.checks = {{"a", "arm is short"}, {"b", "bed is thick"}};
  facts::Map map{0, 1, {0, 1, 2, 3, 4}, {0, 1, 2}, {}};
  for (std::size_t up = 0; up < 3; ++up)
    for (const double inches : {24, 20, 21, 22, 23}) {
      const double margin = (inches - 21) / 10;
      map.nodes.push_back({true, margin < 0 ? Verdict::fails : Verdict::passes, margin, {margin, 1}, {margin, 1}});
    }
  m.all.map = map;
  return m;
}

std::vector<std::string> words_of(const Sheet& s) {
  std::vector<std::string> words;
  for (const Text& t : s.texts) words.push_back(t.words);
  return words;
}

Point place_of(const Sheet& s, const std::string& words) {
  for (const Text& t : s.texts)
    if (t.words == words) return {t.at.x, t.at.y + t.height / 2};
  ADD_FAILURE() << "no text " << words;
  return {};
}

TEST(StudyMap, HasItsNodesBordersAndMarksToScale) {
  // Source: by hand: numbers rise to the right and up, whatever their order; 21 in is the border, today's 22 by 18-1/2
  // half way across and three quarters up; lines of 10 and 20 % to spare at 22 and 23.
  const Sheet s = plain_map().draw();
  const double x20 = place_of(s, "20\"").x, inch = (place_of(s, "24\"").x - x20) / 4;
  EXPECT_GT(inch, 10);
  for (const int i : {21, 22, 23}) EXPECT_NEAR(place_of(s, std::to_string(i) + "\"").x, x20 + (i - 20) * inch, 1e-6);
  const double y17 = place_of(s, "17\"").y, up = place_of(s, "18\"").y - y17;
  EXPECT_GT(up, 10);
  EXPECT_NEAR(place_of(s, "19\"").y - y17, 2 * up, 1e-6);
  EXPECT_LT(place_of(s, "20\"").y, y17) << "below the map";
  EXPECT_LT(place_of(s, "17\"").x, x20) << "left of it";
  EXPECT_NEAR(place_of(s, "drain.from_left").x, x20 + 2 * inch, 1e-6) << "below the middle of its axis";
  const auto title =
      std::find_if(s.texts.begin(), s.texts.end(), [](const Text& t) { return t.words == "bench.height"; });
  ASSERT_NE(title, s.texts.end());
  EXPECT_NEAR(title->at.y, y17 + up, 1e-6) << "beside the middle of its axis, read from the right";
  EXPECT_EQ(title->rotation_deg, 90);
  ASSERT_FALSE(s.arcs.empty());
  EXPECT_NEAR(s.arcs[0].centre.x, x20 + 2 * inch, 1e-6);
  EXPECT_NEAR(s.arcs[0].centre.y, y17 + 1.5 * up, 1e-6);
  EXPECT_LT(place_of(s, "A").x, x20 + inch);
  EXPECT_GT(place_of(s, "PASSES").x, x20 + inch);
  EXPECT_NEAR(place_of(s, "10 %").x, x20 + 2 * inch, 1e-6);
  EXPECT_NEAR(place_of(s, "20 %").x, x20 + 3 * inch, 1e-6);
  double border = 0, hatched = 0;
  const double legend = x20 + 4 * inch + 1;
  for (const Line& l : s.lines) {
    const double dx = l.to.x - l.from.x, dy = l.to.y - l.from.y;
    if (l.kind == LineKind::outline && std::abs(l.from.x - x20 - inch) < 1e-6 && std::abs(dx) < 1e-6)
      border += std::abs(dy);
    if (l.kind != LineKind::dimension || std::min(l.from.x, l.to.x) > legend ||
        std::abs(std::abs(dx) - std::abs(dy)) > 1e-6)
      continue;
    hatched += std::hypot(dx, dy);
    EXPECT_LT(std::max(l.from.x, l.to.x), x20 + inch + 1e-6) << "what passes is not hatched";
    EXPECT_GT(dx * dy, 0) << "rising to the right";
  }
  EXPECT_NEAR(border, 2 * up, 0.01);
  EXPECT_GT(hatched, 0.6 * inch * 2 * up / 3) << "lines 3 mm apart, but for the letter";
}

TEST(StudyMap, SaysWhatIsHeldAndWhatItsZonesAre) {
  // Source: docs/study.md, by hand.
  Mapped m = plain_map();
  Sheet s = m.draw();
  EXPECT_THAT(words_of(s), IsSupersetOf({"passes: no check fails", "gives way first: arm is short", "today's job",
                                         "margin of the check with", "the least to spare", "drain.from_left",
                                         "bench.height", "today"}));
  EXPECT_THAT(words_of(s), Not(Contains("no such job can stand, or be built")));
  EXPECT_THAT(s.notes,
              testing::ElementsAre("Held on this map: tile.height = 80 in (today 72 in).",
                                   testing::StartsWith("Every crossing of the values was built, measured and checked: "
                                                       "5 across, 3 up; between them margins are")));
  m.varied[0].now_number = 19 * 25.4;
  m.all.map->nodes[0] = {true, Verdict::refused, {}, {}};
  s = m.draw();
  EXPECT_THAT(words_of(s), Not(Contains("today")));
  EXPECT_THAT(words_of(s), Contains("no such job can stand, or be built"));
  EXPECT_THAT(s.notes, Contains("Today's job lies outside this map."));
  m.varied[0].now = "", m.varied[0].now_number.reset();
  EXPECT_THAT(m.draw().notes, Contains("Today's job has no place on this map: it does not say drain.from_left."));
  for (facts::Node& node : m.all.map->nodes) node.verdict = Verdict::passes, node.margins = {1, 1};
  EXPECT_THAT(m.draw().notes, Contains("All of this map passes; nothing of it is a zone."));
}

TEST(StudyMap, LinesOfTheLeastMarginLieWhereTheLeastOfAllIsThatMuch) {
  // Source: closed form: over four inches one margin rises from 0 to 40 % and another falls from 40 % to 0, straight:
  // the least of them is 5, 10 and 15 % at 1/2, 1 and 1-1/2 in from either end, 20 % in the middle, and at each
  // crossing nothing. A third that fails at the last crossing alone, and that the aim does not look at, ends what
  // passes half-way: no line lies past it.
  Mapped m;
  m.study.job = sample::alcove();
  m.varied = {lengths("drain.from_left", {20, 24}, 30)};
  m.all.checks = {{"a", "A"}, {"b", "B"}, {"c", "C"}};
  const auto lines = [&](double last) {
    const auto end = last < 0 ? Verdict::fails : Verdict::passes;
    m.all.map = facts::Map{
        0,
        {},
        {0, 1},
        {0},
        {{true, Verdict::passes, 0.0, {0, 0.4, 0.1}, {0, 0.4, 1e6}}, {true, end, 0.0, {0.4, 0, last}, {0.4, 0, 1e6}}}};
    const Sheet s = m.draw();
    const double x20 = place_of(s, "20\"").x, inch = (place_of(s, "24\"").x - x20) / 4;
    std::vector<double> at;
    for (const Line& l : s.lines)
      if (l.kind == LineKind::faint && l.to.x < x20 + 4 * inch + 1) {
        EXPECT_NEAR(l.from.x, l.to.x, 1e-6);
        at.push_back(std::round((l.from.x - x20) / inch * 1000) / 1000);
      }
    std::sort(at.begin(), at.end());
    at.erase(std::unique(at.begin(), at.end()), at.end());
    return at;
  };
  EXPECT_EQ(lines(0.1), (std::vector<double>{0.5, 1, 1.5, 2.5, 3, 3.5}));
  EXPECT_EQ(lines(-0.1), (std::vector<double>{0.5, 1, 1.5}));
}

TEST(StudyMap, LinesOfEqualAimAreInTheAimsUnit) {
  // Source: by hand: from 3 to 7 over four inches a line at each whole bag, or between two whole sticks; from 800 to
  // 860 one every ten.
  struct Row {
    job::Aim aim;
    double least, greatest;
    std::vector<std::string> words;
    const char* legend;
  };
  for (const Row& row : {Row{job::Aim::fewest_bags, 3, 7, {"4 bags", "5 bags", "6 bags"}, "one bag of mortar more"},
                         {job::Aim::least_sticks, 3, 7, {"3|4 sticks", "5|6 sticks", "6|7 sticks"}, "one stick more"},
                         {job::Aim::lowest_price, 800, 860, {"810", "830", "840", "850"}, "costs as much"}}) {
    Mapped m = plain_map();
    m.study.aim = row.aim;
    for (std::size_t i = 0; i < m.all.map->nodes.size(); ++i) {
      const double inches = m.varied[0].numbers[i % 5] / 25.4;
      m.all.map->nodes[i].aim = row.least + (inches - 20) / 4 * (row.greatest - row.least);
    }
    const Sheet s = m.draw();
    EXPECT_THAT(words_of(s), Contains(row.legend));
    const double x20 = place_of(s, "20\"").x, span = place_of(s, "24\"").x - x20;
    for (const std::string& words : row.words) {
      const double level = std::stod(words) + (row.aim == job::Aim::least_sticks ? 0.5 : 0);
      EXPECT_NEAR(place_of(s, words).x, x20 + (level - row.least) / (row.greatest - row.least) * span, 1e-6) << words;
    }
  }
}

TEST(StudyMap, WordsAreBandsSideBySide) {
  // Source: by hand: two places of a bench halve the strip, one hatched; today's is the second of them.
  Mapped m = plain_map();
  job::Varied place;
  place.name = "bench.place", place.shown = {"left", "right"}, place.now = "right", place.held = 1;
  m.varied = {place};
  m.all.map =
      facts::Map{0, {}, {0, 1}, {0}, {{true, Verdict::fails, {}, {-0.1, 1}}, {true, Verdict::passes, {}, {0.1, 1}}}};
  const Sheet s = m.draw();
  const Point left = place_of(s, "left"), right = place_of(s, "right");
  EXPECT_GT(right.x, left.x + 20);
  ASSERT_FALSE(s.arcs.empty());
  EXPECT_NEAR(s.arcs[0].centre.x, right.x, 1e-6);
  EXPECT_NEAR(place_of(s, "A").x, left.x, (right.x - left.x) / 2);
  for (const Line& l : s.lines) {
    const double dx = l.to.x - l.from.x, dy = l.to.y - l.from.y;
    if (l.kind == LineKind::dimension && std::abs(dx - dy) < 1e-6 && l.from.x < right.x + (right.x - left.x) / 2) {
      EXPECT_LT(l.to.x, (left.x + right.x) / 2 + 1e-6);
    }
  }
  EXPECT_THAT(s.notes, testing::ElementsAre(testing::HasSubstr("checked: 2 across; between them")));
}

TEST(StudyOdds, AreThoseOfItsRooms) {
  // Source: by hand: what holds in all rooms is left out, what fails in all of them not, and of what holds always
  // whether the base goes in and down.
  Mapped m;
  m.study.job = sample::alcove();
  m.study.name = "how sure", m.study.vary = job::Vary::readings, m.study.seed = 77;
  m.all.checks = {{"room.goes-in", "it goes in"}, {"room.drop-in", "it goes down"}, {"a", "arm is short"},
                  {"b", "bed is thick"},          {"c", "cover is laid"},           {"d", "drain drains"}};
  m.all.odds = {{2000, 0, 0, 0}, {0, 1999, 0, 0}, {1300, 600, 100, 0}, {2000, 0, 0, 0}, {0, 1998, 0, 0}, {0, 0, 0, 0}};
  m.all.variants = 2000, m.all.passes = 1234, m.all.refused = 3, m.all.broken = 4;
  m.all.doubts = {
      {"back", 25.4 / 16, 0.424, 2, 0.104, 0.906}, {"left", 3, 0.051, 1, 0.2, 0.7}, {"right", 3, 0.05, {}, 0, 1}};
  const std::vector<Sheet> sheets = draw_study({m.study, m.varied, m.all, {}});
  ASSERT_EQ(sheets.size(), 1u);
  const Sheet& s = sheets[0];
  EXPECT_THAT(words_of(s),
              IsSupersetOf({"it goes in",   "2000 of 2000",    "it goes down", "0 of 1999", "1999",
                            "arm is short", "1300 of 2000",    "600",          "100",       "back, \u00b11/16\"",
                            "42 %",         "cover is laid",   "0 of 1998",    "1998",      "10 %",
                            "91 %",         "left, \u00b13mm", "5 %",          "20 %",      "70 %"}));
  for (const char* alike : {"bed is thick", "drain drains"}) EXPECT_THAT(words_of(s), Not(Contains(alike)));
  EXPECT_THAT(s.notes,
              testing::ElementsAre("2000 rooms that read like this one: every reading drawn anew within its own "
                                   "tolerance, all values alike likely, seed 77.",
                                   "All checks pass in 1234 of them; 7 cannot stand or cannot be made."));
  EXPECT_NEAR(place_of(s, "1300 of 2000").y, place_of(s, "600").y, 1e-6) << "in one row";
  EXPECT_LT(place_of(s, "600").x, place_of(s, "100").x);
  EXPECT_NEAR(place_of(s, "10 %").y, place_of(s, "91 %").y, 1e-6);
  EXPECT_LT(place_of(s, "10 %").x, place_of(s, "91 %").x);
  m.all.doubts = {{"back", 1.5, 0, {}, 0, 0}};
  std::string words;
  for (const std::string& each : words_of(draw_study({m.study, m.varied, m.all, {}})[0])) words += each + " ";
  EXPECT_THAT(words, testing::HasSubstr("Nothing: no single reading settles"));
  EXPECT_THAT(words, Not(testing::HasSubstr("Settles: the share")));
}

}  // namespace
}  // namespace fallwright::drawing
