// A study as text, JSON and rows: made-up counts, each of them another.
#include "report/study.hpp"

#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "diag/fault.hpp"
#include "report/study_words.hpp"
#include "report/valued.hpp"

namespace fallwright {
namespace {

using facts::Verdict;
using nlohmann::json;
using testing::ElementsAre;

struct Studied {
  job::Study study;
  std::vector<job::Varied> varied;
  facts::Study all;

  report::StudyReport report() const { return {study, varied, all, {{"study.svg", 12, "ab"}}}; }
};

job::Varied key(const char* name, std::vector<std::string> shown) {
  job::Varied varied;
  varied.name = name, varied.shown = std::move(shown);
  return varied;
}

/// Five keys: by half, by four fifths, not at all, by a tenth, by a twentieth of their variants.
Studied of_keys() {
  Studied s;
  s.study.name = "where the drain may stand", s.study.file = "/some/where/drain.toml", s.study.sha256 = "5ha";
  s.study.job.name = "bath", s.study.job.file = "/else/where/bath.toml", s.study.job.sha256 = "a5h";
  s.study.columns = {{"bed.set_mm3", 3, 4}, {"checks[floor.fall-least].advice", 5, 6}, {"trap", 7, 8}};
  s.varied = {key("drain.from_left", {"20 in", "24 in", "28 in"}), key("bench.place", {"left", "right"}),
              key("base.made", {"bought", "ordered"}), key("bench.seat_fall", {"2 %", "3 %"}),
              key("tile.height", {"72 in", "80 in"})};
  s.varied[0].measure = job::Measure::length, s.varied[0].numbers = {508, 609.6, 711.2};
  s.varied[0].now = "24 in", s.varied[0].now_number = 609.6, s.varied[0].held = 1;
  facts::Study& all = s.all;
  all.checks = {{"floor.fall-least", "floor falls enough"}, {"trap.arm", "trap arm is short enough"}};
  all.variants = 12345, all.passes = 8000, all.refused = 45, all.broken = 1;
  all.first_refused = facts::Variant{6, false, {}, {}, Verdict::refused, "the drain stands past the base"};
  all.odds = {{1001, 1002, 1003, 1299}, {1004, 1005, 1006, 3000}};
  all.today = {0, false, {1, 0, 0, 1, 1}, {}, Verdict::fails, "", "fp", 0, -0.2, {}, {}, {}};
  all.best = {
      {2, false, {1, 0, 1, 0, 1}, {}, Verdict::passes, "", "pp", 1, 0.25, 0.123, {"4e7", "\"raise it\"", ""}, {}},
      {1233, false, {2, 1, 0, 1, 0}, {}, Verdict::passes, "", "pp", {}, {}, {}, {}, {}}};
  all.by_value = {{{0, 0}, {4000, 3000}, {4000, 1000}},
                  {{6000, 600}, {6000, 5400}},
                  {{100, 50}, {100, 50}},
                  {{1000, 700}, {1000, 600}},
                  {{1000, 650}, {1000, 700}}};
  all.moves = {{1, 1, 0, 0.8, 0.64}, {0, 1, 2, 0.5, 0.25}, {3, 0, 1, 0.1, 0.01}, {4, 1, 0, 0.05, 0}, {2, 0, 0, 0, 0}};
  return s;
}

TEST(StudyText, OfKeys) {
  // Source: by hand: what gives way most often first; keys in the order they move the verdict, four of the five.
  Studied s = of_keys();
  EXPECT_EQ(
      report::study_text(s.report(), "out/drain"),
      "where the drain may stand\n"
      "  passes       8,000 of 12,345 variants; 45 cannot stand; 1 cannot be made\n"
      "               variant 7: the drain stands past the base\n"
      "  gives way    trap arm is short enough: first in 3,000\n"
      "               floor falls enough: first in 1,299\n"
      "  today        FAILS: floor falls enough (-20.0 %)\n"
      "  best         1  drain.from_left = 24 in, bench.place = left, base.made = ordered, bench.seat_fall = 2 %,\n"
      "               tile.height = 80 in: least margin 12.3 %  (variant 3)\n"
      "               2  drain.from_left = 28 in, bench.place = right, base.made = bought, bench.seat_fall = 3 %,\n"
      "               tile.height = 72 in  (variant 1234)\n"
      "  moves most   bench.place: 5,400 of 6,000 pass with right, 600 of 6,000 pass with left\n"
      "               drain.from_left: 3,000 of 4,000 pass with 24 in, 1,000 of 4,000 pass with 28 in\n"
      "               bench.seat_fall: 700 of 1,000 pass with 2 %, 600 of 1,000 pass with 3 %\n"
      "               tile.height: 700 of 1,000 pass with 80 in, 650 of 1,000 pass with 72 in\n"
      "  files        out/drain\n");
  s.all.moves.erase(s.all.moves.begin() + 2, s.all.moves.begin() + 4);
  s.all.refused = s.all.broken = 0;
  s.all.today.verdict = Verdict::passes, s.all.today.margin = 0.125, s.all.today.gives_way = 1;
  std::string text = report::study_text(s.report(), "");
  EXPECT_THAT(text, testing::HasSubstr("  passes       8,000 of 12,345 variants\n"));
  EXPECT_THAT(text, testing::HasSubstr("  today        passes; least to spare: trap arm is short enough (12.5 %)\n"));
  EXPECT_THAT(text, testing::EndsWith("               base.made: no value makes a difference\n"));
  s.study.way = job::Way::samples;
  s.all.moves[1].decides = 0;
  EXPECT_THAT(
      report::study_text(s.report(), ""),
      testing::HasSubstr("  moves most   bench.place: 5,400 of 6,000 pass with right, 600 of 6,000 pass with left\n"
                         "               drain.from_left: no more than chance makes of so many samples\n"));
  s.all.today = {0, false, {}, {}, Verdict::refused};
  EXPECT_THAT(report::study_text(s.report(), ""), testing::HasSubstr("  today        cannot stand\n"));
}

std::string unwrapped(const std::string& text) {
  std::string line;
  for (const char c : text)
    if (c != '\n' && !(c == ' ' && line.ends_with(' ')))
      line += c;
    else if (c == '\n' && !line.ends_with(' '))
      line += ' ';
  return line;
}

TEST(StudyText, TellsATieThatNoKeyOfTheStudyMoves) {
  // Source: none: variants whose least margin is one check's, and alike, stand in the order they were made in; one that
  // has more to spare, or an aim that looks elsewhere already, is no tie of that kind.
  Studied s = of_keys();
  for (facts::Variant& v : s.all.best) v.gives_way = 1, v.margin = 0.0, v.aim = 0.0;
  s.all.ties = {{0, 1}};
  const auto told = [&] { return unwrapped(report::study_text(s.report(), "")); };
  EXPECT_THAT(told(), testing::HasSubstr("1 and 2: a tie by the aim, in the order they were made: of each 'trap arm "
                                         "is short enough' has least to spare, and as much"));
  EXPECT_THAT(told(), testing::HasSubstr("(aim_at)"));
  s.study.aim_at = {{}};
  EXPECT_THAT(told(), testing::HasSubstr("a tie"));
  EXPECT_THAT(told(), testing::Not(testing::HasSubstr("aim_at")));
  s.study.aim = job::Aim::fewest_bags;
  s.all.best.resize(5, s.all.best[0]);
  s.all.ties = {{0, 2, true, false}, {3, 4, false, true}};
  EXPECT_THAT(told(),
              testing::HasSubstr("1 to 3: a tie by the aim, the least mortar first 4 and 5: a tie by the aim, the "
                                 "most to spare first; others may tie with them"));
  s.all.ties.clear();
  EXPECT_THAT(told(), testing::Not(testing::HasSubstr("a tie")));
}

TEST(StudyText, IsWrappedAndNeverCut) {
  // Source: none: of a line as long as names of readings make it the figure that decides stands last.
  Studied s = of_keys();
  s.all.refused = 1;
  s.all.today.verdict = Verdict::fails, s.all.today.gives_way = 0, s.all.today.margin = -0.2;
  s.all.checks[0].title = std::string(150, 'x') + " holds";
  const std::string text = report::study_text(s.report(), "");
  EXPECT_THAT(text, testing::HasSubstr(" holds (-20.0 %)")) << text;
}

TEST(StudyText, TellsItsAimInItsUnit) {
  // Source: by hand: bags are bought whole, a sum short of one by less than a billionth is none more.
  using job::Aim;
  EXPECT_EQ(report::aim_text(Aim::greatest_least_margin, -0.0456), "least margin -4.6 %");
  EXPECT_EQ(report::aim_text(Aim::fewest_bags, 3.55), "4 bags of mortar (3.55)");
  EXPECT_EQ(report::aim_text(Aim::fewest_bags, 1 + 1e-10), "1 bag of mortar (1.00)");
  EXPECT_EQ(report::aim_text(Aim::least_sticks, 11), "11 sticks");
  EXPECT_EQ(report::aim_text(Aim::least_sticks, 1), "1 stick");
  EXPECT_EQ(report::aim_text(Aim::lowest_price, 812.4), "price 812.40");
  EXPECT_STREQ(report::aim_column(Aim::greatest_least_margin), "least margin");
  EXPECT_STREQ(report::aim_column(Aim::fewest_bags), "bags of mortar");
  EXPECT_STREQ(report::aim_column(Aim::least_sticks), "sticks");
  EXPECT_STREQ(report::aim_column(Aim::lowest_price), "price");
  EXPECT_EQ(units::grouped(999), "999");
  EXPECT_EQ(units::grouped(1000), "1,000");
  EXPECT_EQ(units::grouped(1234567), "1,234,567");
}

/// Nine checks of rooms that read alike, and what moves them.
Studied of_readings() {
  Studied s;
  s.study.name = "how sure it is", s.study.vary = job::Vary::readings, s.study.way = job::Way::samples;
  s.study.seed = 77;
  s.varied = {key("back", {}), key("left", {})};
  facts::Study& all = s.all;
  all.checks = {{"room.goes-in", "it goes in"},
                {"room.drop-in", "it goes down"},
                {"a", "A"},
                {"b", "B"},
                {"c", "C"},
                {"d", "D"},
                {"e", "E"},
                {"f", "F"},
                {"g", "G"}};
  all.odds = {{1900, 100, 0, 0}, {1500, 400, 99, 0}, {1200, 800, 0, 0}, {700, 800, 500, 0}, {2000, 0, 0, 0},
              {0, 2000, 0, 0},   {1300, 700, 0, 0},  {1400, 600, 0, 0}, {1450, 550, 0, 0}};
  all.variants = 2000, all.passes = 1000;
  all.today = {0, false, {}, {}, Verdict::passes};
  all.doubts = {{"back", 1.5, 0.424, 3, 0.104, 0.906}, {"left", 3, 0.0101, 2, 0.2, 0.7}, {"right", 3, 0.0099, 2, 0, 1}};
  return s;
}

TEST(StudyText, OfReadings) {
  // Source: by hand: of what holds here and not there the least sure first, five of the six; what decides less than a
  // hundredth is not read again.
  Studied s = of_readings();
  const std::string expected =
      "how sure it is\n"
      "  passes       1,000 of 2,000 rooms that read like this\n"
      "  today        passes\n"
      "  goes in      in 1,900 of 2,000 rooms that read like this\n"
      "  goes down    in 1,500 of 1,999 rooms that read like this, let down level\n"
      "  in doubt     B: holds in 700 of 2,000\n"
      "               A: holds in 1,200 of 2,000\n"
      "               E: holds in 1,300 of 2,000\n"
      "               F: holds in 1,400 of 2,000\n"
      "               G: holds in 1,450 of 2,000\n";
  EXPECT_EQ(report::study_text(s.report(), ""),
            expected +
                "  read again   back: settles 42 % of the doubt; 'B' holds in 10 % where it is less, 91 % where more\n"
                "               left: settles 1 % of the doubt; 'A' holds in 20 % where it is less, 70 % where more\n");
  s.all.doubts_of_care = true;
  EXPECT_THAT(report::study_text(s.report(), ""),
              testing::HasSubstr("back: settles 42 % of the doubt about what asks for care; 'B' holds"));
  s.all.doubts.clear();
  EXPECT_EQ(report::study_text(s.report(), ""),
            expected + "  read again   nothing: no single reading settles more than chance makes of so many rooms\n");
  s.all.checks.push_back({"h", "H"}), s.all.odds.push_back({1999, 1, 0, 0});
  EXPECT_THAT(report::study_text(s.report(), ""), testing::HasSubstr("\n               and 1 more\n"));
}

TEST(StudyJson, HoldsEveryNumberOnce) {
  // Source: docs/study.md, by hand; files by their names alone, a seed where there is a draw.
  Studied s = of_keys();
  s.varied.resize(1), s.all.by_value.resize(1);
  for (facts::Variant* v : {&s.all.today, &s.all.best[0], &s.all.best[1]}) v->values.resize(1);
  s.all.map = facts::Map{0, {}, {0, 2}, {0}, {{true, Verdict::fails, -0.1, {}}, {true, Verdict::broken, {}, {}}}};
  s.all.doubts = of_readings().all.doubts;
  s.all.doubts.resize(1), s.all.doubts[0].check = 1;
  json expected = json::parse(R"json({
    "schema": 1,
    "study": {"name": "where the drain may stand", "file": "drain.toml", "sha256": "5ha", "vary": "keys", "way": "all",
              "seed": null, "aim": "greatest-least-margin"},
    "job": {"name": "bath", "file": "bath.toml", "sha256": "a5h"},
    "variants": 12345, "pass": 8000, "draws_left_out": null, "cannot_stand": 45, "cannot_be_made": 1,
    "today": {"verdict": "fail", "gives_way_first": "floor.fall-least", "margin": -0.2, "aim": null,
              "values": {"drain.from_left": "24 in"}, "columns": {}},
    "keys": [{"path": "drain.from_left", "today": "24 in", "held": "24 in", "decides": 0.25, "values": [
      {"value": "20 in", "number": 508.0, "variants": 0, "pass": 0},
      {"value": "24 in", "number": 609.6, "variants": 4000, "pass": 3000},
      {"value": "28 in", "number": 711.2, "variants": 4000, "pass": 1000}]}],
    "checks": [
      {"id": "floor.fall-least", "title": "floor falls enough", "pass": 1001, "fail": 1002, "caution": 1003,
       "gives_way_first": 1299},
      {"id": "trap.arm", "title": "trap arm is short enough", "pass": 1004, "fail": 1005, "caution": 1006,
       "gives_way_first": 3000}],
    "best": [
      {"variant": 3, "verdict": "pass", "gives_way_first": "trap.arm", "margin": 0.25, "aim": 0.123,
       "values": {"drain.from_left": "24 in"},
       "columns": {"bed.set_mm3": 4e7, "checks[floor.fall-least].advice": "raise it", "trap": null}},
      {"variant": 1234, "verdict": "pass", "gives_way_first": null, "margin": null, "aim": null,
       "values": {"drain.from_left": "28 in"}, "columns": {}}],
    "readings_settle": "verdict",
    "readings": [{"reading": "back", "tolerance_mm": 1.5, "decides": 0.424, "check": "trap.arm",
                  "holds_where_less": 0.104, "holds_where_more": 0.906}],
    "map": {"across": {"path": "drain.from_left", "values": ["20 in", "28 in"]}, "up": null,
            "nodes": [{"verdict": "fail", "aim": -0.1}, {"verdict": "cannot be made", "aim": null}]},
    "files": [{"path": "study.svg", "bytes": 12, "sha256": "ab"}]})json");
  expected["tool"] = {{"name", "fallwright"}, {"version", report::version()}};
  EXPECT_EQ(json::parse(report::to_json(s.report())), expected);
  s.varied.push_back(key("bench.place", {"left", "right"}));
  s.all.map->up = 1, s.all.map->ys = {1};
  s.study.way = job::Way::samples, s.study.seed = 77, s.study.vary = job::Vary::readings;
  s.all.left_out = 41;
  const json other = json::parse(report::to_json(s.report()));
  EXPECT_EQ(other["map"]["up"], json::parse(R"({"path": "bench.place", "values": ["right"]})"));
  EXPECT_EQ(other["study"]["seed"], 77);
  EXPECT_EQ(other["draws_left_out"], 41);
  EXPECT_EQ(other["study"]["way"], "samples");
  EXPECT_EQ(other["study"]["vary"], "readings");
  EXPECT_EQ(other["readings_settle"], "verdict");
  s.all.doubts_of_care = true;
  EXPECT_EQ(json::parse(report::to_json(s.report()))["readings_settle"], "care");
  s.all.doubts.clear();
  EXPECT_TRUE(json::parse(report::to_json(s.report()))["readings_settle"].is_null());
  s.all.map.reset();
  EXPECT_TRUE(json::parse(report::to_json(s.report()))["map"].is_null());
}

TEST(StudyRows, OfKeys) {
  // Source: RFC 4180 and docs/study.md; by hand: of six checks one fails, two ask for care, one is open.
  Studied s = of_keys();
  s.varied.resize(2);
  EXPECT_EQ(report::variants_head(s.study, s.varied),
            "variant,kind,drain.from_left,drain.from_left (mm),bench.place,verdict,gives way first,margin,least "
            "margin,fail,caution,not checked,bed.set_mm3,checks[floor.fall-least].advice,trap,reason\r\n");
  facts::Variant v = s.all.best[0];
  v.outcomes = "pfco-c", v.values = {1, 1}, v.columns[1] = "\"raise the rim, or\"";
  const auto row = [&] { return report::variants_row(s.study, s.varied, s.all.checks, v); };
  EXPECT_EQ(row(),
            "3,combination,24 in,609.6000,right,pass,trap.arm,0.250000,0.123000,1,2,1,4e7,\"raise the rim, or\",,\r\n");
  v.for_map = true;
  EXPECT_EQ(row().substr(0, 6), "3,map,");
  v = *s.all.first_refused;
  v.values = {0, 0};
  s.study.way = job::Way::samples;
  EXPECT_EQ(row(), "7,sample,20 in,508.0000,left,cannot stand,,,,,,,,,,the drain stands past the base\r\n");
}

TEST(StudyRows, OfReadings) {
  // Source: RFC 4180 and docs/study.md.
  Studied s = of_readings();
  s.study.aim = job::Aim::lowest_price;
  EXPECT_EQ(report::variants_head(s.study, s.varied),
            "variant,kind,back off by (mm),left off by (mm),verdict,gives way first,margin,price,fail,caution,not "
            "checked,reason\r\n");
  const facts::Variant v{4, false, {}, {1.5, -0.25}, Verdict::fails, "", "f", 2, -0.5, 812.4, {}, {}};
  EXPECT_EQ(report::variants_row(s.study, s.varied, s.all.checks, v),
            "5,sample,1.500000,-0.250000,fail,a,-0.500000,812.400000,1,0,0,\r\n");
}

TEST(StudyRows, ReadBackToTheLastBit) {
  // Source: ISO C++ std::numeric_limits: 17 digits tell a double from all others; no two fields alike.
  const facts::Variant v{7, true,     {3, 1},  {0.1 + 0.2, -1e-17}, Verdict::broken, "a \"reason\"", "pf",
                         1, -1e3 / 3, 2e3 / 3, {"4e7", ""},         {0.7, 1. / 3},   {1. / 7},       9};
  const facts::Variant read = report::read_row(report::kept_row(v));
  EXPECT_EQ(read.number, 7u);
  EXPECT_TRUE(read.for_map);
  EXPECT_EQ(read.values, v.values);
  EXPECT_EQ(read.offsets_mm, v.offsets_mm);
  EXPECT_EQ(read.verdict, Verdict::broken);
  EXPECT_EQ(read.reason, v.reason);
  EXPECT_EQ(read.outcomes, "pf");
  EXPECT_EQ(read.gives_way, 1u);
  EXPECT_EQ(read.margin, v.margin);
  EXPECT_EQ(read.aim, v.aim);
  EXPECT_EQ(read.columns, v.columns);
  EXPECT_EQ(read.margins, v.margins);
  EXPECT_EQ(read.aimed, v.aimed);
  EXPECT_EQ(read.left_out, 9u);
  const facts::Variant bare = report::read_row(report::kept_row({}));
  EXPECT_FALSE(bare.for_map || bare.gives_way || bare.margin || bare.aim);
  EXPECT_EQ(bare.verdict, Verdict::passes);
  for (const char* line : {"", "[]", "{}", "[1,2]", "7"}) EXPECT_THROW(report::read_row(line), std::runtime_error);
}

/// What is said of a path that leads to no value.
std::string fault_of(const std::string& path) {
  const report::Report today = sample::Valued{}.report();
  try {
    report::Columns{{{path, 3, 4}}, "study.toml", today};
  } catch (const diag::JobFaults& e) {
    EXPECT_EQ(e.faults().size(), 1u);
    EXPECT_EQ(e.faults().front().line, 3u);
    EXPECT_EQ(e.faults().front().column, 4u);
    return e.faults().front().message;
  }
  return "";
}

TEST(StudyColumns, LeadToAValueOrSayWhatIsThere) {
  // Source: docs/study.md: names with dots between them, and which entry of a list; by hand on the sample, whose bed is
  // 40 L and whose two checks fail and wait.
  const report::Report today = sample::Valued{}.report();
  const report::Columns columns{{{"bed.set_mm3", 1, 1},
                                 {"checks[floor.fall-least].margin", 1, 1},
                                 {"checks[2].id", 1, 1},
                                 {"checks[2].margin", 1, 1}},
                                "study.toml",
                                today};
  EXPECT_FALSE(columns.none());
  EXPECT_THAT(columns.of(today), ElementsAre("40000000.0", "-0.2", "\"floor.level\"", ""));
  EXPECT_TRUE(report::Columns({}, "study.toml", today).none());
  const std::pair<const char*, const char*> faults[] = {
      {"", "this is no path; write one like bed.set_mm3 or checks[floor.fall-least].margin"},
      {"bed..set_mm3", "this is no path; write one like bed.set_mm3 or checks[floor.fall-least].margin"},
      {"checks[]", "this is no path; write one like bed.set_mm3 or checks[floor.fall-least].margin"},
      {"checks[1]x", "this is no path; write one like bed.set_mm3 or checks[floor.fall-least].margin"},
      {"checks.margin", "this names a list; say which entry, like [1] or [floor.fall-least]"},
      {"bed.set_mm", "report.json has no 'set_mm' there; did you mean 'set_mm3'?"},
      {"checks[floor.levle].margin", "report.json has no 'floor.levle' there; did you mean 'floor.level'?"},
      {"checks[3].margin", "report.json has no '3' there; its entries are 1 to 2"},
      {"checks[nope].margin", "report.json has no 'nope' there; did you mean 'floor.level'?"},
      {"job.sha256", "this is told of today's job alone; each key that varies has its column"},
      {"job.keys[1].value", "this is told of today's job alone; each key that varies has its column"},
      {"bed", "this holds several values; name one of them, like bed.least_mm"},
      {"bed.set_mm3.x", "report.json has no 'x' there; nothing is below that"},
      {"checks", "this is a list; say which entry of it, from [1] on"}};
  for (const auto& [path, why] : faults) EXPECT_EQ(fault_of(path), "'" + std::string{path} + "': " + why);
}

}  // namespace
}  // namespace fallwright
