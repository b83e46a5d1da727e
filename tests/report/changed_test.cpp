// What came of a change, as text and JSON; words and numbers by hand.
#include "report/changed_text.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/imperial.hpp"

namespace fallwright {
namespace {

using rules::Outcome;

rules::Result result(const char* id, Outcome outcome, double in_per_ft, const char* advice) {
  rules::Result r;
  r.id = id, r.title = std::string{"title of "} + id, r.outcome = outcome, r.advice = advice;
  if (in_per_ft > 0) r.measured = in_per_ft / 12;
  r.limit.greatest = 0.5 / 12, r.limit.unit = rules::Unit::ratio;
  return r;
}

takeoff::CutRow piece(const char* mark, double length_in, int count) {
  takeoff::CutRow row;
  row.mark = mark, row.stock = "2x4", row.ends = "square", row.count = count;
  row.length_mm = row.short_mm = length_in * in, row.width_mm = 3.5 * in, row.thickness_mm = 1.5 * in;
  return row;
}

takeoff::Row bags(double count) {
  takeoff::Row row;
  row.item = "mortar, bags", row.buy = count, row.buy_unit = "bags", row.for_sale = true;
  return row;
}

struct Two {
  revision::State was, now;
  Two() {
    was.job.name = "bath, older", was.job.file = "/some/where/old.toml", now.job.name = "bath";
    now.job.cuts.kerf = job::Length::inches(0.125);
    was.keys = {{"base.length", "\"57-1/2 in\""}, {"liner.fall", "\"2 %\""}};
    now.keys = {{"base.length", "\"60 in\""}, {"trap.arm", "\"40 in\""}};
    was.sizes = {{"bed, as set", revision::Quantity::volume, 28316846.592}};
    now.sizes = {{"bed, as set", revision::Quantity::volume, 2 * 28316846.592}};
    was.results = {result("a", Outcome::pass, 0.25, ""), result("b", Outcome::fail, 0, "read it"),
                   result("c", Outcome::pass, 0.25, ""), result("d", Outcome::caution, 0.75, "old words")};
    now.results = {result("a", Outcome::fail, 0.75, "lower the rim"), result("b", Outcome::pass, 0.25, ""),
                   result("c", Outcome::pass, 0.375, ""), result("d", Outcome::caution, 0.875, "pitch it less")};
    was.rows = {bags(3)}, now.rows = {bags(4)};
    was.cuts = {piece("A", 40, 2), piece("B", 20, 1), piece("C", 8, 1)};
    now.cuts = {piece("A", 40, 1), piece("B", 36, 1), piece("C", 24, 3)};
  }
};

TEST(ChangedText, TellsAllThatChanged) {
  // Source: by hand: the pass that fails first, with its remedy below; one that only measures more within its limit is
  // no news. One of 40 in serves, 36 is cut from the other; 24 comes from none of 20 or 8.
  const Two two;
  EXPECT_EQ(
      report::changes_text(two.was, two.now),
      "bath: what changed since old.toml\n"
      "KEYS of the job file\n"
      "  base.length: \"60 in\", was \"57-1/2 in\"\n"
      "  trap.arm: \"40 in\", was left out\n"
      "  liner.fall: left out, was \"2 %\"\n"
      "SIZES\n"
      "  bed, as set: 2.00 ft3, was 1.00 ft3\n"
      "CHECKS\n"
      "  FAIL         title of a: 3/4 in/ft (1:16), limit at most 1/2 in/ft (1:24); was pass, 1/4 in/ft (1:48)\n"
      "               lower the rim\n"
      "  CAUTION      title of d: 7/8 in/ft (1:13.7), limit at most 1/2 in/ft (1:24); was CAUTION, 3/4 in/ft (1:16)\n"
      "               pitch it less\n"
      "  pass         title of b: 1/4 in/ft (1:48), limit at most 1/2 in/ft (1:24); was FAIL\n"
      "  now: 1 fail, 1 ask for caution, 0 are not checked, 2 pass\n"
      "TO BUY, beyond all of the older order\n"
      "  mortar, bags: 1 bag\n"
      "THE WHOLE ORDER, planned anew\n"
      "  mortar, bags: 4 bags, was 3 bags\n"
      "PIECES, by their new marks; in brackets those of the older list\n"
      "  1 still serve:\n"
      "    1 x A (A): 2x4, 40\"\n"
      "  1 can be recut:\n"
      "    1 x B (from A): 2x4, 36\"\n"
      "  3 are new:\n"
      "    3 x C: 2x4, 24\"\n"
      "  left over:\n"
      "    1 x (B): 2x4, 20\"\n"
      "    1 x (C): 2x4, 8\"\n");
}

TEST(ChangedText, TellsWhatIsOverAndWhatWaits) {
  // Source: by hand: 5 bags were bought and 4 are wanted; of felt nothing is settled.
  Two two;
  two.was.rows = {bags(5), bags(1)}, two.now.rows = {bags(4), bags(2)};
  two.was.rows[1].item = two.now.rows[1].item = "felt";
  two.now.rows[1].hold = takeoff::Hold{takeoff::HangsOn::base, "floor.fall-least", "floor falls enough"};
  const std::string text = report::changes_text(two.was, two.now);
  EXPECT_NE(text.find("TO BUY, beyond all of the older order\n"
                      "  nothing more\n"
                      "  on HOLD, neither bought nor given back yet: felt\n"
                      "OVER, of the older order\n"
                      "  mortar, bags: 1 bag\n"
                      "THE WHOLE ORDER, planned anew\n"),
            std::string::npos)
      << text;
}

TEST(ChangedText, SaysHoldOfPiecesThatWait) {
  // Source: by hand: a list that is the same as it was, of which one piece waits by now.
  Two two;
  two.was.cuts = two.now.cuts = {piece("A", 40, 2), piece("B", 20, 1)};
  two.now.cuts[0].hold = takeoff::Hold{takeoff::HangsOn::bench, "load.seat-strength", "bench carries a person"};
  const std::string text = report::changes_text(two.was, two.now);
  EXPECT_NE(text.find("HOLD: hangs on the bench"), std::string::npos) << text;
  EXPECT_EQ(text.find("every piece that was cut serves as it is"), std::string::npos);
  EXPECT_EQ(nlohmann::json::parse(report::changes_json(two.was, two.now)).at("pieces")[0].at("hold").at("on"), "bench");
}

TEST(ChangedText, SaysSoWhereNothingDid) {
  // Source: none.
  Two two;
  two.was.results = two.now.results, two.was.cuts = two.now.cuts, two.was.keys = two.now.keys;
  two.was.sizes = two.now.sizes, two.was.rows = two.now.rows;
  EXPECT_EQ(report::verdicts_text(two.was, two.now),
            "  nothing changed: 1 fail, 1 ask for caution, 0 are not checked, 2 pass\n");
  EXPECT_EQ(report::changes_text(two.was, two.now),
            "bath: what changed since old.toml\n"
            "CHECKS\n"
            "  nothing changed: 1 fail, 1 ask for caution, 0 are not checked, 2 pass\n"
            "PIECES\n"
            "  every piece that was cut serves as it is\n");
}

TEST(ChangedJson, HoldsTheSame) {
  // Source: docs/report-json.md, by hand.
  const Two two;
  EXPECT_EQ(nlohmann::json::parse(report::changes_json(two.was, two.now)), nlohmann::json::parse(R"json({
    "schema": 1, "job": {"name": "bath"}, "since": "old.toml", "datum": null,
    "keys": [{"what": "base.length", "was": "\"57-1/2 in\"", "now": "\"60 in\""},
             {"what": "trap.arm", "was": "left out", "now": "\"40 in\""},
             {"what": "liner.fall", "was": "\"2 %\"", "now": "left out"}],
    "sizes": [{"what": "bed, as set", "was": "1.00 ft3", "now": "2.00 ft3"}],
    "checks": [
      {"title": "title of a", "result": "fail", "found": "3/4 in/ft (1:16), limit at most 1/2 in/ft (1:24)",
       "was": "pass, 1/4 in/ft (1:48)"},
      {"title": "title of d", "result": "caution", "found": "7/8 in/ft (1:13.7), limit at most 1/2 in/ft (1:24)",
       "was": "CAUTION, 3/4 in/ft (1:16)"},
      {"title": "title of b", "result": "pass", "found": "1/4 in/ft (1:48), limit at most 1/2 in/ft (1:24)",
       "was": "FAIL"}],
    "to_buy": [{"what": "mortar, bags", "was": "3 bags", "now": "4 bags"}],
    "buy_more": [{"what": "mortar, bags", "buy": 1, "buy_unit": "bags", "product": null}], "over": [], "waits": [],
    "pieces": [{"use": "serves", "count": 1, "mark": "A", "from": "A", "size": "2x4, 40\"", "hold": null},
               {"use": "recut", "count": 1, "mark": "B", "from": "A", "size": "2x4, 36\"", "hold": null},
               {"use": "new", "count": 3, "mark": "C", "from": null, "size": "2x4, 24\"", "hold": null}],
    "left_over": [{"count": 1, "mark": "B", "size": "2x4, 20\""}, {"count": 1, "mark": "C", "size": "2x4, 8\""}]})json"));
}

}  // namespace
}  // namespace fallwright
