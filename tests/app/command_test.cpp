/// Exit codes, messages and what is (not) written.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/demo_job.hpp"
#include "rules/book.hpp"
#include "support/run.hpp"

namespace fallwright {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

sample::Ran fallwright(const std::string& arguments) {
  return sample::run(FALLWRIGHT " " + arguments + " 2>&1");
}

void write(const std::string& path, const std::string& text) {
  std::ofstream{path} << text;
}

TEST(ExitCode, IsZeroWhenAllChecksPass) {
  // Source: the contract of exit codes.
  EXPECT_EQ(fallwright("check " + params("tannery-lane-2a")).code, 0);
  EXPECT_EQ(fallwright("check " + params("tannery-lane-5c")).code, 0);
}

TEST(ManyRooms, OfOneOrderAreAFileEach) {
  // Source: the contract: a room that is named twice would be bought twice; alone each is told as often as it is named.
  const std::string room = params("tannery-lane-5c"), again = params("./tannery-lane-5c");
  const sample::Ran twice = fallwright("check --together " + room + " " + again);
  EXPECT_EQ(twice.code, 2);
  EXPECT_THAT(twice.out, HasSubstr("is the same file as"));
  EXPECT_EQ(fallwright("check " + room + " " + again).code, 0);
}

TEST(ManyRooms, AreToldInTheOrderGivenAndThenTogether) {
  // Source: the contract: one room's failed check hides no other's result; side by side or alone, a room's text is the
  // same.
  const std::string a = fallwright("check " + params("tannery-lane-2a")).out,
                    b = fallwright("check " + params("tannery-lane-2b")).out,
                    c = fallwright("check " + params("tannery-lane-5c")).out;
  const sample::Ran all = fallwright("check --together " + params("tannery-lane-2b") + " " + params("tannery-lane-5c") +
                                     " " + params("tannery-lane-2a"));
  EXPECT_EQ(all.code, 1);
  EXPECT_EQ(all.out.find(b), 0u);
  EXPECT_EQ(all.out.find(c), b.size());
  EXPECT_EQ(all.out.find(a), b.size() + c.size());
  for (const char* words : {"ALL ROOMS TOGETHER", "1 x base 1500 mm x 950 mm, bench right",
                            "saw list:", "the room with the least to spare"})
    EXPECT_THAT(all.out, HasSubstr(words));
}

TEST(Flood, TellsWaterByHeight) {
  // Source: by hand on flat 2A: 2-1/2 in to the threshold, 3835.5 in3 = 16.60 gal.
  const sample::Ran ran = fallwright("flood " + params("tannery-lane-2a"));
  EXPECT_EQ(ran.code, 0);
  EXPECT_THAT(ran.out, HasSubstr("2-1/2\"            16.60 gal"));
  EXPECT_THAT(ran.out, HasSubstr("joist ('bench-frame/joist-01') over 11-1/4\""));
}

TEST(RuleBooks, AllStandBesideEachOther) {
  // Source: the demo job: 2-1/2 in of threshold keep IRC and UPC and break ADA 608.7: its far edge, 2-1/2 in and 4 in
  // at 1/4 in/ft over the drain, stands over the rim, 26-1/4 in at that fall, by 2.036 in.
  const sample::Ran ran = fallwright("check --all-books " + params("tannery-lane-2a"));
  for (const char* words : {"residential", "plumbing", "accessible", "metric", "threshold.step-inside"})
    EXPECT_THAT(ran.out, HasSubstr(words));
  EXPECT_THAT(ran.out, HasSubstr("FAIL -307.3 %"));
}

TEST(RuleBooks, OneResultIsExplained) {
  // Source: the demo job: 1/4 in/ft on its longest run.
  const sample::Ran ran = fallwright("check --explain floor.fall-least " + params("tannery-lane-2a"));
  for (const char* words :
       {"measures     ", "reads        ", "exactly      0.020833 ratio", "limit        at least 1/4 in/ft (1:48)",
        "source       IRC P2709.1 (2009, 2021), quoted", "book         residential"})
    EXPECT_THAT(ran.out, HasSubstr(words));
  const sample::Ran part = fallwright("check --explain FLOOR.FALL " + params("tannery-lane-2a"));
  EXPECT_THAT(part.out, HasSubstr("check        floor.fall-least"));
  EXPECT_THAT(part.out, HasSubstr("check        floor.fall-greatest"));
  const sample::Ran none = fallwright("check --explain floor.fill-least " + params("tannery-lane-2a"));
  EXPECT_EQ(none.code, 2);
  EXPECT_THAT(none.out, HasSubstr("the nearest are 'floor.fall-least'"));
  const sample::Ran far = fallwright("check --explain xyzzy " + params("tannery-lane-2a"));
  EXPECT_EQ(far.code, 2);
  EXPECT_THAT(far.out, HasSubstr("their names begin with: survey, floor, room"));
}

TEST(RuleBooks, AnOverrideStandsBesideTheJobFile) {
  // Source: the contract: a row of the user's own replaces the book's; a faulty file is told with its place.
  const sample::Folder folder{"override"};
  std::string text = sample::slurped(params("tannery-lane-2a"));
  write(folder / "job.toml", text + "\n[rules]\nbook = \"plumbing\"\noverride = \"county.toml\"\n");
  const std::string row =
      "title = \"county\"\n[[limit]]\nid = \"threshold.height-least\"\nunit = \"length\"\nleast = \"3 in\"\n"
      "source = \"county amendment 7\"\nedition = \"2025\"\nverified = \"set by the user\"\n";
  write(folder / "county.toml", row);
  const sample::Ran ran = fallwright("check --all " + (folder / "job.toml"));
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, HasSubstr("FAIL         threshold stands above the drain: 2-1/2\", limit at least 3\""));
  EXPECT_THAT(ran.out, HasSubstr("county amendment 7 (2025), set by the user"));
  write(folder / "county.toml", row + "colour = \"red\"\n");
  const sample::Ran bad = fallwright("check " + (folder / "job.toml"));
  EXPECT_EQ(bad.code, 2);
  EXPECT_THAT(bad.out, HasSubstr("county.toml:9:1: colour: no such key in a row of a rule book"));
  write(folder / "county.toml",
        "title = \"county\"\n[[limit]]\nid = \"floor.fall-least\"\nunit = \"fall\"\nleast = \"3/4 in/ft\"\n"
        "source = \"county 7\"\nverified = \"set by the user\"\n");
  const sample::Ran crossed = fallwright("check " + (folder / "job.toml"));
  EXPECT_EQ(crossed.code, 2);
  EXPECT_THAT(crossed.out, HasSubstr("is more than 'floor.fall-greatest'"));
  fs::remove(folder / "county.toml");
  const sample::Ran gone = fallwright("check " + (folder / "job.toml"));
  EXPECT_EQ(gone.code, 2) << "the job file names it";
  EXPECT_THAT(gone.out, testing::ContainsRegex("job.toml:[0-9]+:1: rules.override: found 'county.toml'"));
}

TEST(Prices, StandBesideTheJobFileOrComeWithTheCommand) {
  // Source: the contract: a table of the user's own is read with the job; a faulty or missing one is told with its
  // place.
  const sample::Folder folder{"prices"};
  const std::string text = sample::slurped(params("tannery-lane-2a"));
  const std::size_t buy = text.find("[buy]\n") + 6;
  write(folder / "job.toml", text.substr(0, buy) + "prices = \"own.csv\"\ncurrency = \"USD\"\n" + text.substr(buy));
  write(folder / "own.csv", "item,pack,price,supplier\n\"mortar, bags\",bag,8.75,the yard\n");
  const sample::Ran ran = fallwright("takeoff " + (folder / "job.toml"));
  EXPECT_EQ(ran.code, 0);
  EXPECT_THAT(ran.out, HasSubstr("buy 4 bags                35.00"));
  EXPECT_THAT(ran.out, HasSubstr("cost: USD 35.00; without "));
  EXPECT_THAT(ran.out, HasSubstr("'2x4' by the stick of 16 ft"));
  write(folder / "other.csv", "item,pack,price\n\"mortar, bags\",bags,10\n");
  EXPECT_THAT(fallwright("takeoff --prices " + (folder / "other.csv") + " " + (folder / "job.toml")).out,
              HasSubstr("cost: USD 40.00"));
  write(folder / "own.csv", "item,pack,price\ncement,bag,-1\n");
  const sample::Ran bad = fallwright("check " + (folder / "job.toml"));
  EXPECT_EQ(bad.code, 2);
  EXPECT_THAT(bad.out, HasSubstr("own.csv:2:12: price: found '-1'"));
  fs::remove(folder / "own.csv");
  const sample::Ran gone = fallwright("check " + (folder / "job.toml"));
  EXPECT_EQ(gone.code, 2) << "the job file names it";
  EXPECT_THAT(gone.out, testing::ContainsRegex("job.toml:[0-9]+:1: buy.prices: found 'own.csv'"));
  const sample::Ran none = fallwright("check --prices " + (folder / "no.csv") + " " + params("tannery-lane-2a"));
  EXPECT_EQ(none.code, 2);
  EXPECT_THAT(none.out, HasSubstr("--prices: found '"));
}

TEST(Prices, OfOneOrderAgree) {
  // Source: the contract: one thing has one price in one order; rooms apart may differ.
  const sample::Folder folder{"agree"};
  const std::string text = sample::slurped(params("tannery-lane-2a"));
  const std::size_t buy = text.find("[buy]\n") + 6;
  for (const std::string room : {"a", "b"}) {
    write(folder / (room + ".toml"), text.substr(0, buy) + "prices = \"" + room + ".csv\"\n" + text.substr(buy));
    write(folder / (room + ".csv"),
          "item,pack,price\n\"mortar, bags\",bag," + std::string{room == "a" ? "8" : "9"} + "\n");
  }
  const std::string both = (folder / "a.toml") + " " + (folder / "b.toml");
  EXPECT_EQ(fallwright("takeoff -q " + both).code, 0);
  const sample::Ran ran = fallwright("takeoff --together " + both);
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("b.csv:2:1: price: 'mortar, bags' by the 'bag' is 9.00 here and 8.00 in '"));
  const sample::Ran one = fallwright("takeoff --together --prices " + (folder / "a.csv") + " " + both);
  EXPECT_EQ(one.code, 0);
  EXPECT_THAT(one.out, HasSubstr("cost: 64.00; without "));
  EXPECT_THAT(one.out, HasSubstr("if every room bought its own: 64.00"));
}

TEST(Prices, AreNeverReplacedByABuild) {
  // Source: the contract: what a build reads it does not write over.
  const sample::Folder folder{"kept"};
  EXPECT_EQ(fallwright("build -q " + params("tannery-lane-2a") + " --only csv --out " + (folder / "out")).code, 0);
  const std::string table = folder / "out/tannery-lane-2a/takeoff.csv";
  write(table, "item,pack,price\n");
  const sample::Ran ran =
      fallwright("build --prices " + table + " " + params("tannery-lane-2a") + " --out " + (folder / "out"));
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("is read by this build and would be replaced by it"));
}

TEST(Steps, AreToldWithTheirNumbers) {
  // Source: the demo job: its level line, bags and base.
  const sample::Ran ran = fallwright("steps " + params("tannery-lane-2a"));
  EXPECT_EQ(ran.code, 0);
  for (const char* words : {"order of work", "1 HOLD, all: Compare this room", "numbers: line 1-1/4\" above the datum",
                            "4 bags of mortar", "stop if: the seat falls away from the base"})
    EXPECT_THAT(ran.out, HasSubstr(words));
}

TEST(ExitCode, IsOneWhenACheckFailsAndFilesAreWrittenAllTheSame) {
  // Source: the contract of exit codes.
  const sample::Folder folder{"one"};
  EXPECT_EQ(fallwright("build -q " + params("tannery-lane-2b") + " --out " + (folder / "out")).code, 1);
  EXPECT_TRUE(fs::exists(folder / "out/tannery-lane-2b/report.json"));
}

TEST(ExitCode, IsTwoAndNothingIsWrittenWhenTheJobFileIsWrong) {
  // Source: the contract: all faults in one run, each with file, line, column and key; nothing half written.
  const sample::Folder folder{"two"};
  std::string text = sample::slurped(params("tannery-lane-2a"));
  text.replace(text.find("spacing ="), 9, "spaceing =");
  text.replace(text.find("\"57-1/2 in\""), 11, "\"60 ft\"");
  write(folder / "bad.toml", text);
  const sample::Ran ran =
      fallwright("build " + (folder / "bad.toml") + " " + params("tannery-lane-2a") + " --out " + (folder / "out"));
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("bad.toml:16:1: walls.spaceing: no such key; did you mean 'walls.spacing'?"));
  EXPECT_THAT(ran.out, HasSubstr("base.length: found 720\"; allowed is"));
  EXPECT_FALSE(fs::exists(folder / "out")) << "one bad job of several: nothing is written";
}

TEST(ExitCode, IsTwoForAWrongCommandLine) {
  // Source: the contract of exit codes.
  for (const char* arguments : {"", "frobnicate", "build", "check --nonsense x.toml"})
    EXPECT_EQ(fallwright(arguments).code, 2) << arguments;
}

TEST(ExitCode, IsTwoWhenStandardInputIsNamedTwice) {
  // Source: POSIX: what was read from a pipe is gone.
  for (const char* command : {"check - -", "build - -"}) {
    const sample::Ran ran = fallwright(command);
    EXPECT_EQ(ran.code, 2) << command;
    EXPECT_EQ(std::count(ran.out.begin(), ran.out.end(), '\n'), 1) << ran.out;
  }
}

TEST(ExitCode, IsTwoWhenABasesFileIsNoFile) {
  // Source: a base is read from a STEP file, never from standard input; nobody waits for a pipe.
  const sample::Folder folder{"no-file"};
  write(folder / "room.toml", sample::slurped(params("chandlers-row-9")));
  const sample::Ran folder_there = sample::run("mkdir '" + (folder / "chandlers-row-9-base.step") + "'");
  ASSERT_EQ(folder_there.code, 0);
  const sample::Ran ran = fallwright("check " + (folder / "room.toml"));
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("is a folder; allowed is a STEP file"));
}

TEST(ExitCode, IsThreeWhenTheMachineFails) {
  // Source: the contract of exit codes: a missing file, and an output path that cannot be a folder.
  const sample::Ran missing = fallwright("check /nowhere/at/all.toml");
  EXPECT_EQ(missing.code, 3);
  EXPECT_THAT(missing.out, HasSubstr("there is no such file"));
  const sample::Folder folder{"three"};
  write(folder / "file", "in the way");
  EXPECT_EQ(fallwright("build -q " + params("tannery-lane-2a") + " --out " + (folder / "file")).code, 3);
  EXPECT_EQ(sample::slurped(folder / "file"), "in the way");
}

TEST(Help, EveryCommandHasOne) {
  // Source: common practice, no source.
  EXPECT_THAT(fallwright("--help").out, HasSubstr("Exit codes: 0 no check fails"));
  for (const char* command : {"build", "check", "takeoff", "starter", "rules", "schema"}) {
    const sample::Ran ran = fallwright(std::string{command} + " --help");
    EXPECT_EQ(ran.code, 0) << command;
    EXPECT_THAT(ran.out, HasSubstr("Usage"));
  }
}

TEST(Starter, BuildsAsItComes) {
  // Source: the starter's promise, in both units; a file that is there is not replaced without asking.
  const sample::Folder folder{"starter"};
  EXPECT_EQ(fallwright("starter " + (folder / "in.toml")).code, 0);
  EXPECT_EQ(fallwright("starter " + (folder / "in.toml")).code, 2);
  EXPECT_EQ(fallwright("starter --force " + (folder / "in.toml")).code, 0);
  EXPECT_EQ(fallwright("starter --unit mm " + (folder / "mm.toml")).code, 0);
  EXPECT_EQ(fallwright("check -q " + (folder / "in.toml") + " " + (folder / "mm.toml")).code, 0);
  for (const char* kind : {"designed", "bought", "site-built"})
    for (const char* unit : {"in", "mm"}) {
      const std::string file = folder / (std::string{kind} + unit + ".toml");
      EXPECT_EQ(fallwright(std::string{"starter --kind "} + kind + " --unit " + unit + " " + file).code, 0);
      EXPECT_EQ(fallwright("check -q " + file).code, 0) << kind << " " << unit;
    }
}

TEST(Quiet, SaysNothing) {
  // Source: the flag's promise: an empty output where nothing is wrong.
  EXPECT_EQ(fallwright("check -q " + params("tannery-lane-2a")).out, "");
}

TEST(Check, FitsAScreenAndAllShowsEveryCheck) {
  // Source: none; what passes or does not apply is counted, and listed when it is asked for.
  const std::string list = fallwright("check " + params("tannery-lane-2a")).out;
  for (const std::string& room : {params("tannery-lane-2a"), params("tannery-lane-2b"), params("tannery-lane-5c"),
                                  params("chandlers-row-7"), params("chandlers-row-9"), params("coopers-yard-4"),
                                  std::string{PROJECT_DIR "/tests/cases/passes-everything.toml"}}) {
    const std::string told = fallwright("check " + room).out;
    EXPECT_LE(std::count(told.begin(), told.end(), '\n'), 30) << told;
  }
  EXPECT_THAT(list, HasSubstr("READ NEXT"));
  EXPECT_THAT(list, testing::Not(HasSubstr("  pass ")));
  const std::string all = fallwright("check --all " + params("tannery-lane-2a")).out;
  for (const rules::Rule& rule : rules::all_rules()) EXPECT_THAT(all, HasSubstr(" " + rule.title));
}

TEST(Check, AsksTheKernelAsWellWhereThatIsWanted) {
  // Source: the contract of the command: the list as ever, then what the kernel says of every solid of report.json.
  const auto plain = sample::run(FALLWRIGHT " check " + params("tannery-lane-2a"));
  const auto verified = sample::run(FALLWRIGHT " check --verify " + params("tannery-lane-2a"));
  EXPECT_EQ(verified.code, 0);
  ASSERT_TRUE(verified.out.starts_with(plain.out.substr(0, plain.out.size() - 1))) << verified.out;
  const auto parts =
      nlohmann::json::parse(sample::run(FALLWRIGHT " check --json " + params("tannery-lane-2a")).out)["parts"];
  EXPECT_NE(verified.out.find("full check: " + std::to_string(parts.size()) + " solids, each closed and valid"),
            std::string::npos)
      << verified.out;
}

TEST(Heights, AreToldAsJsonToo) {
  // Source: the demo job: ribs stand 1/2 in above the level floor that is its datum.
  const auto json = nlohmann::json::parse(fallwright("heights --json " + params("tannery-lane-2a") + " 30 18").out);
  EXPECT_EQ(json.at("x_mm"), 762);
  std::map<std::string, double> heights;
  for (const auto& rung : json.at("heights")) heights[rung.at("name")] = rung.at("above_datum_mm");
  EXPECT_NEAR(heights.at("rib plane"), 12.7, 1e-9);
  EXPECT_NEAR(heights.at("deck, underside here"), -19.05, 1e-9) << "3/4 in thick";
}

TEST(Level, QuietlyTellsByItsExitCodeAlone) {
  // Source: the contract: 0 leave it, 1 do something about it.
  const std::string job = params("tannery-lane-2a"), level = " back-left=0 back-right=0 front-left=0 front-right=";
  for (const auto& [last, code] : {std::pair{"0", 0}, {"3/4", 1}}) {
    const sample::Ran ran = fallwright("level --quiet " + job + level + last);
    EXPECT_EQ(ran.code, code);
    EXPECT_EQ(ran.out, "");
  }
}

TEST(Level, TakesFromTheFileHowItsReadingsAreTaken) {
  // Source: by hand: 14 below a laser's line at the left and 14-1/8 at the right, the left lies high, and is pressed. A
  // flag that says so of readings that the file has above the line is no mark of theirs.
  const sample::Folder folder{"laser"};
  const std::string text = sample::slurped(std::string{PROJECT_DIR} + "/params/tannery-lane-2a.toml");
  const std::string typed = " back-left=14 back-right=14-1/8 front-right=14-1/8 front-left=14";
  write(folder / "down.toml", text + "\n[as_set]\nheights = \"down\"\n");
  EXPECT_THAT(fallwright("level " + (folder / "down.toml") + typed).out,
              HasSubstr("press down: back left 1/8\", front left 1/8\""));
  EXPECT_EQ(fallwright("level " + (folder / "down.toml") + typed).out,
            fallwright("level --down " + params("tannery-lane-2a") + typed).out);
  write(folder / "up.toml", text + "\n[as_set]\nback_left = \"1/8 in\"\nback_right = 0\nfront_left = 0\n");
  const sample::Ran ran = fallwright("level --down " + (folder / "up.toml") + " 2>&1");
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("--down goes with readings that are given here"));
}

TEST(Level, IsNothingForABaseThatIsBuiltOnSite) {
  // Source: the contract: a question that cannot be asked of a job is refused in words.
  const sample::Ran ran =
      fallwright("level " + params("coopers-yard-4") + " back-left=0 back-right=0 front-left=0 2>&1");
  EXPECT_EQ(ran.code, 2);
  EXPECT_NE(ran.out.find("screeded to its marks"), std::string::npos) << ran.out;
}

TEST(Json, IsTheReportOnStandardOutput) {
  // Source: the contract of report.json.
  const auto json = nlohmann::json::parse(fallwright("check --json " + params("tannery-lane-2a")).out);
  EXPECT_EQ(json.at("tool").at("name"), "fallwright");
  EXPECT_EQ(json.at("job").at("name"), "12 Tannery Lane, flat 2A");
}

TEST(Schema, IsJson) {
  // Source: RFC 8259, by an independent parser.
  EXPECT_TRUE(nlohmann::json::parse(fallwright("schema").out).contains("properties"));
}

TEST(Rules, ListsEveryCheckWithItsSource) {
  // Source: the command's promise.
  const std::string out = fallwright("rules").out;
  for (const char* text : {"floor.fall-least", "IRC P2709.1", "common practice, no source", "limits.floor_fall_least"})
    EXPECT_THAT(out, HasSubstr(text));
}

TEST(Takeoff, PrintsBagsAndCuts) {
  // Source: the demo job: 1.447 ft3 net, 10 % waste, 0.45 ft3 a bag: 4 bags.
  const std::string out = fallwright("takeoff " + params("tannery-lane-2a")).out;
  EXPECT_THAT(out, HasSubstr("buy 4 bags"));
  EXPECT_THAT(out, HasSubstr("2x4"));
  EXPECT_THAT(out,
              HasSubstr("2x4: 52 pieces from 15 sticks, 190.0 ft in all, 0.6 ft of it offcuts; the least possible"));
}

TEST(Watch, TellsWhatASaveChanged) {
  // Source: the demo's falls by hand: a run of 26-1/4 in at 1/4 in/ft over one of 13-3/4 is 0.4773 in/ft; at 3/8 it is
  // 0.716 in/ft, past the 1/2 in/ft of the code. An editor that replaces the file counts; a file with a fault is told.
  const sample::Folder folder{"watch"};
  const std::string text = sample::slurped(std::string{PROJECT_DIR} + "/params/tannery-lane-2a.toml");
  const std::string steep = std::regex_replace(text, std::regex{"\\nfall = \"1/4 in/ft\""}, "\nfall = \"3/8 in/ft\"",
                                               std::regex_constants::format_first_only);
  ASSERT_NE(steep, text);
  write(folder / "job.toml", text);
  write(folder / "steep.toml", steep);
  write(folder / "bad.toml", text + "\n[pan]\n");
  const std::string told = folder / "told";
  const auto until = [&](const std::string& words) {
    return "n=0; until grep -q '" + words + "' '" + told + "' || [ $n -gt 200 ]; do sleep 0.1; n=$((n+1)); done; ";
  };
  const sample::Ran ran = sample::run("cd " + std::string{folder / ""} + "; " FALLWRIGHT " check job.toml --watch >'" +
                                      told + "' 2>&1 & p=$!; " + until("what changes is told here") +
                                      "mv steep.toml job.toml; " + until("now: ") + "cp bad.toml job.toml; " +
                                      until("pan") + "kill -TERM $p; wait $p; echo ended $?; cat '" + told + "'");
  EXPECT_THAT(ran.out, HasSubstr("FAIL         floor is not too steep: 0.716 in/ft"));
  EXPECT_THAT(ran.out, testing::ContainsRegex("; was pass, 0.478[ \n]+in/ft"));
  EXPECT_THAT(ran.out, HasSubstr("job.toml:"));
  EXPECT_THAT(ran.out, HasSubstr("ended 143"));
  EXPECT_EQ(fallwright("check --watch -").code, 2);
  EXPECT_EQ(fallwright("check --watch a.toml b.toml").code, 2);
}

TEST(Watch, SeesTheFileThatItMissed) {
  // Source: the contract of --watch: a save of the job file, or of what it names, is told; through a link as well, and
  // that the job file is gone.
  const sample::Folder folder{"watch-named"};
  const std::string text = sample::slurped(std::string{PROJECT_DIR} + "/params/tannery-lane-2a.toml");
  std::filesystem::create_directory(folder / "there");
  write(folder / "there/job.toml", text);
  std::filesystem::create_symlink("there/job.toml", folder / "job.toml");
  write(folder / "named.toml", text + "\n[rules]\noverride = \"county.toml\"\n");
  write(folder / "later.toml",
        "title = \"county\"\n[[limit]]\nid = \"floor.fall-greatest\"\nunit = \"fall\"\ngreatest = \"0.4 in/ft\"\n"
        "source = \"county 7\"\nverified = \"set by the user\"\n");
  const std::string told = folder / "told";
  const auto until = [&](const std::string& words) {
    return "n=0; until grep -q '" + words + "' '" + told + "' || [ $n -gt 200 ]; do sleep 0.1; n=$((n+1)); done; ";
  };
  const sample::Ran ran = sample::run(
      "cd " + std::string{folder / ""} + "; " FALLWRIGHT " check job.toml --watch >'" + told + "' 2>&1 & p=$!; " +
      until("what changes is told here") + "cp named.toml there/job.toml; " + until("county.toml") +
      "cp later.toml county.toml; " + until("FAIL  *floor is not too steep") + "rm there/job.toml; " +
      until("job.toml: there is no such file") + "kill -TERM $p; wait $p; echo ended $?; cat '" + told + "'");
  EXPECT_THAT(ran.out, HasSubstr("FAIL         floor is not too steep"));
  EXPECT_THAT(ran.out, HasSubstr("job.toml: there is no such file"));
  EXPECT_THAT(ran.out, HasSubstr("ended 143"));
}

}  // namespace
}  // namespace fallwright
