/// `fallwright study` as a whole: study file in, files and a few lines out.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "support/run.hpp"

namespace fallwright {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;
using testing::HasSubstr;

sample::Ran study(const std::string& arguments) {
  return sample::run(FALLWRIGHT " study " + arguments + " 2>&1");
}

/// A folder with the level demo room as room.toml, and a study of it.
class Study : public testing::Test {
 protected:
  Study() {
    fs::copy_file(std::string{PROJECT_DIR} + "/params/tannery-lane-2a.toml", in_ / "room.toml");
    fs::copy_file(std::string{PROJECT_DIR} + "/params/ferry-steps-3.toml", in_ / "old.toml");
  }
  std::string write(const std::string& text, const std::string& name = "s.toml") {
    std::ofstream{in_ / name} << text;
    return in_ / name;
  }
  /// One key over a range, with what else [study] holds.
  std::string over(const std::string& path, const std::string& from, const std::string& to, const std::string& step,
                   const std::string& more = "") {
    return "[study]\njob = \"room.toml\"\n" + more + "[[key]]\npath = \"" + path + "\"\nfrom = \"" + from +
           "\"\nto = \"" + to + "\"\nstep = \"" + step + "\"\n";
  }
  Json result(const std::string& out = "out") { return Json::parse(sample::slurped(in_ / (out + "/s/study.json"))); }
  std::vector<std::string> rows(const std::string& out = "out") {
    std::istringstream in{sample::slurped(in_ / (out + "/s/variants.csv"))};
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
  }
  std::string into(const std::string& out = "out") { return " --out " + (in_ / out) + " "; }

  sample::Folder in_{"study"};
};

/// Every file of two folders by name and bytes.
void expect_same(const std::string& a, const std::string& b) {
  std::size_t files = 0;
  for (const auto& entry : fs::directory_iterator{a}) {
    ++files;
    EXPECT_EQ(sample::slurped(entry.path().string()), sample::slurped(b + "/" + entry.path().filename().string()))
        << entry.path();
  }
  EXPECT_GE(files, 4u);
  EXPECT_EQ(files, static_cast<std::size_t>(std::distance(fs::directory_iterator{b}, fs::directory_iterator{})));
}

TEST_F(Study, FindsALimitWhereTheHandFindsIt) {
  // Source: closed form: joists 16 in apart, the first 3 in from the stud face, 1-1/2 in thick; a 5 in bore keeps 1/4
  // in from them. The bench takes 14-1/2 in, so that a drain at d stands 14-1/2 in + d from the face: between the
  // joists at 35 and 51 in it is free from 35-3/4 + 2-1/2 + 1/4 - 14-1/2 = 24 in to 51 - 3/4 - 2-3/4 - 14-1/2 = 33 in.
  // Equal falls of 1/4 in/ft all round leave the falls out of it.
  std::string job = sample::slurped(in_ / "room.toml");
  job.replace(job.find("\"level-rim\""), 11, "\"equal-fall\"");
  std::ofstream{in_ / "room.toml"} << job;
  const std::string file = write(over("drain.from_left", "23-1/2 in", "33-1/2 in", "1/2 in",
                                      "columns = [\"checks[drain.bore-clear-of-joists].margin\"]\n"));
  ASSERT_EQ(study(file + into() + "-q").code, 0);
  const Json json = result();
  ASSERT_EQ(json["variants"], 21);
  EXPECT_EQ(json["pass"], 19);
  for (const auto& value : json["keys"][0]["values"]) {
    const double inches = value["number"].get<double>() / 25.4;
    EXPECT_EQ(value["pass"], inches > 23.9 && inches < 33.1 ? 1 : 0) << inches;
  }
  for (const auto& check : json["checks"])
    EXPECT_EQ(check["gives_way_first"], check["id"] == "drain.bore-clear-of-joists" ? 2 : 0) << check["id"];
  EXPECT_THAT(rows()[1], HasSubstr("fail,drain.bore-clear-of-joists,-2.000000"));  // half an inch short of a quarter
}

TEST_F(Study, GivesTheSameBytesOnAnyNumberOfThreads) {
  // Source: the contract: equal studies make equal bytes.
  const std::string file = write(over("base.fall", "1/4 in/ft", "3/8 in/ft", "1/32 in/ft"));
  ASSERT_EQ(study(file + into("one") + "--threads 1 -q").code, 0);
  ASSERT_EQ(study(file + into("three") + "--threads 3 -q").code, 0);
  expect_same(in_ / "one/s", in_ / "three/s");
  EXPECT_EQ(rows("one").size(), 6u);
}

TEST_F(Study, IsJoinedFromItsSharesToTheVeryBytes) {
  // Source: the contract of shares: four of seven variants, of which one cannot stand, and one is a map's own.
  const std::string file = write(
      "[study]\njob = \"room.toml\"\nway = \"samples\"\nsamples = 4\nseed = 3\n"
      "aim = \"least-sticks\"\ncolumns = [\"bed.set_mm3\", \"job.unit\"]\n"
      "[[key]]\npath = \"bench.depth\"\nvalues = [\"14 in\", \"14-1/2 in\", \"30 in\"]\n");
  ASSERT_EQ(study(file + into() + "-q").code, 0);
  for (const char* part : {"1/3", "3/3"}) ASSERT_EQ(study(file + into("shares") + "-q --part " + part).code, 0);
  const sample::Ran early = study(file + into("shares") + "--merge");
  EXPECT_EQ(early.code, 3);
  EXPECT_THAT(early.out, HasSubstr("share 2 of 3 is missing"));
  EXPECT_THAT(early.out, HasSubstr("--part 2/3"));
  EXPECT_FALSE(fs::exists(in_ / "shares/s"));
  ASSERT_EQ(study(file + into("shares") + "-q --part 2/3").code, 0);
  ASSERT_EQ(study(file + into("shares") + "-q --merge").code, 0);
  expect_same(in_ / "out/s", in_ / "shares/s");
  std::ofstream{in_ / "shares/part-2-of-3/s/rows.jsonl", std::ios::app} << "[]\n";
  const sample::Ran changed = study(file + into("shares") + "--merge");
  EXPECT_EQ(changed.code, 3);
  EXPECT_THAT(changed.out, HasSubstr("rows.jsonl: is not as it was written"));
}

TEST_F(Study, TellsTheCommandThatComputesWhatIsMissing) {
  // Source: the contract of shares; what is told to be run is run as it stands, in a folder whose name a shell parts.
  const std::string file = write(over("base.fall", "1/4 in/ft", "3/8 in/ft", "1/8 in/ft"), "her s.toml");
  const std::string shell = "'" + file + "' --out '" + (in_ / "jo") + "'\\''s' ";
  EXPECT_THAT(study(shell + "--part 1/2").out, HasSubstr("share 1 of 2, 1 variant\n"));
  const sample::Ran early = study(shell + "-q --merge");
  std::smatch told;
  ASSERT_TRUE(std::regex_search(early.out, told, std::regex{"compute with: fallwright study ([^\n]+)"})) << early.out;
  EXPECT_EQ(study(told[1].str() + " -q").code, 0) << told[1];
  EXPECT_EQ(study(shell + "-q --merge").code, 0);
}

TEST_F(Study, SaysWhereAndWhyItsRowsCannotBeWritten) {
  // Source: setrlimit(2): a file may not grow past the limit, here none at all.
  const std::string file = write(over("base.fall", "1/4 in/ft", "3/8 in/ft", "1/8 in/ft"));
  const sample::Ran ran = sample::run("trap '' XFSZ; ulimit -f 0; " FALLWRIGHT " study " + file + into() + "-q 2>&1");
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.out, HasSubstr(in_ / "out/s/variants.csv: cannot be written: File too large"));
}

TEST_F(Study, RefusesSharesOfAnotherStudy) {
  // Source: the contract of shares: equal bytes or none.
  const std::string file = write(over("base.fall", "1/4 in/ft", "3/8 in/ft", "1/8 in/ft"));
  ASSERT_EQ(study(file + into() + "-q --part 1/1").code, 0);
  write(over("base.fall", "1/4 in/ft", "1/2 in/ft", "1/8 in/ft"));
  const sample::Ran ran = study(file + into() + "--merge");
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.out, HasSubstr("is a share of another study"));
  for (const char* part : {"0/3", "4/3", "1", "a/b", "1/3/5", "-1/3", "1/9999999"})
    EXPECT_EQ(study(file + into() + "--part=" + part).code, 2) << part;
}

TEST_F(Study, TellsAVariantThatCannotStandWithItsReason) {
  // Source: the demo job: base 57-1/2 in and bench 30 in are 87-1/2 in, and the alcove is 72 in wide.
  const std::string file = write(
      "[study]\njob = \"room.toml\"\n[[key]]\npath = \"bench.depth\"\n"
      "values = [\"14-1/2 in\", \"30 in\"]\n");
  const sample::Ran ran = study(file + into());
  EXPECT_EQ(ran.code, 0);
  EXPECT_THAT(ran.out, HasSubstr("1 of 2 variants; 1 cannot stand"));
  EXPECT_THAT(ran.out, HasSubstr("variant 2: base.length: base 57-1/2\" + bench 30\" = 87-1/2\""));
  EXPECT_THAT(rows()[2], HasSubstr("cannot stand,,,,,,,\"base.length: base 57-1/2\"\" + bench 30\"\" = 87-1/2\"\""));
  EXPECT_LE(std::count(ran.out.begin(), ran.out.end(), '\n'), 20);
}

TEST_F(Study, TellsTheOddsOfARoomAsRead) {
  // Source: the rows themselves: how often a check's own result is a pass there is how often it holds.
  const std::string file = write(
      "[study]\njob = \"old.toml\"\nvary = \"readings\"\nsamples = 8\n"
      "columns = [\"checks[bed.greatest].result\", \"room.drop_in.least_mm\"]\n");
  const sample::Ran ran = study(file + into());
  EXPECT_EQ(ran.code, 0);
  EXPECT_THAT(ran.out, HasSubstr("goes down    in 8 of 8 rooms that read like this"));
  const auto lines = rows();
  ASSERT_EQ(lines.size(), 9u);
  std::size_t holds = 0;
  for (const std::string& line : lines) holds += line.find(",pass,") != std::string::npos;
  std::set<std::string> left_over;
  for (std::size_t i = 1; i < lines.size(); ++i)
    left_over.insert(
        lines[i].substr(0, lines[i].rfind(',')).substr(lines[i].substr(0, lines[i].rfind(',')).rfind(',')));
  EXPECT_EQ(left_over.size(), 8u);  // no two rooms are alike
  const Json json = result();
  for (const auto& check : json["checks"])
    if (check["id"] == "bed.greatest") {
      EXPECT_EQ(check["pass"], holds);
    }
  EXPECT_EQ(json["readings"].size(), 24u);
}

TEST_F(Study, DrawsRoomsAndNoReadingsThatNoneHas) {
  // Source: closed form: of a room near to a rectangle of width w and depth d, l across, both diagonals are together
  // w / l of back and front and d / l of the sides. What is left over is spread by least squares over the six, each by
  // its part and the square of its tolerance: no one's share is more than its own tolerance. Shares draw alike.
  const std::string file = write("[study]\njob = \"old.toml\"\nvary = \"readings\"\nsamples = 60\n");
  const sample::Ran ran = study(file + into());
  ASSERT_EQ(ran.code, 0);
  const Json json = result();
  constexpr double w = 72.22, d = 36.23, l = 80.8, part[] = {w / l, w / l, d / l, d / l, -1, -1};
  constexpr double read[] = {72.125, 72.3125, 36.25, 36.21875, 80.5625, 81.0625};  // in; of two people the mean
  const char* const names[] = {"back", "front", "left", "right", "diagonal from back left", "diagonal from back right"};
  double tolerance[6] = {}, all = 0;
  for (const auto& reading : json["readings"])
    for (int i = 0; i < 6; ++i)
      if (reading["reading"] == names[i]) tolerance[i] = reading["tolerance_mm"];
  for (int i = 0; i < 6; ++i) all += part[i] * part[i] * tolerance[i] * tolerance[i];
  const auto lines = rows();
  ASSERT_EQ(lines.size(), 61u);
  for (std::size_t row = 1; row < lines.size(); ++row) {
    std::istringstream fields{lines[row]};
    std::string field;
    std::getline(fields, field, ','), std::getline(fields, field, ',');
    double over = 0, worst = 0;
    for (int i = 0; i < 6 && std::getline(fields, field, ','); ++i)
      over += part[i] * (read[i] * 25.4 + std::stod(field));
    for (int i = 0; i < 6; ++i) worst = std::max(worst, std::abs(over * part[i]) * tolerance[i] / all);
    EXPECT_LT(worst, 1.02) << lines[row];
  }
  const int left_out = json["draws_left_out"];
  EXPECT_GT(left_out, 0);
  EXPECT_THAT(ran.out, HasSubstr("left out     " + std::to_string(left_out) + " drawn sets of readings"));
  for (const char* share : {"1/2", "2/2"}) ASSERT_EQ(study(file + into("shares") + "-q --part " + share).code, 0);
  ASSERT_EQ(study(file + into("shares") + "-q --merge").code, 0);
  expect_same(in_ / "out/s", in_ / "shares/s");
}

TEST_F(Study, LooksForTheLowestPrice) {
  // Source: the report's own sum of prices, row by row. With one price missing a list would look cheap: it is named.
  std::string job = sample::slurped(in_ / "room.toml");
  job.insert(job.find("[buy]\n") + 6, "prices = \"own.csv\"\n");
  write(job, "room.toml");
  std::string table = "item,pack,price\n";
  write(table, "own.csv");
  const std::string file = write(
      over("base.fall", "1/4 in/ft", "1/2 in/ft", "1/8 in/ft", "aim = \"lowest-price\"\ncolumns = [\"cost.sum\"]\n"));
  const std::string told = study(file + into()).out;
  EXPECT_THAT(told, HasSubstr("own.csv there is no price for '"));
  const std::regex missing{"'([^']+)' by the ([^,']+?)(?=, '| and '|\n)"};
  double price = 1;
  for (std::sregex_iterator it{told.begin(), told.end(), missing}, end; it != end; ++it)
    table += "\"" + std::regex_replace((*it)[1].str(), std::regex{"\""}, "\"\"") + "\"," + (*it)[2].str() + "," +
             std::to_string(price += 0.25) + "\n";
  write(table, "own.csv");
  const sample::Ran ran = study(file + into());
  EXPECT_EQ(ran.code, 0) << ran.out;
  const std::vector<std::string> lines = rows();
  ASSERT_EQ(lines.size(), 4u);
  EXPECT_THAT(lines[0], HasSubstr(",margin,price,"));
  for (std::size_t i = 1; i < lines.size(); ++i) {
    std::vector<std::string> fields;
    std::istringstream row{lines[i]};
    for (std::string field; std::getline(row, field, ',');) fields.push_back(field);
    ASSERT_GE(fields.size(), 11u) << lines[i];
    EXPECT_GT(std::stod(fields[6]), 10);
    EXPECT_NEAR(std::stod(fields[6]), std::stod(fields[10]), 1e-6) << "the aim is the sum";
  }
}

TEST_F(Study, NamesAColumnThatAReportHasNot) {
  // Source: the contract of messages.
  const auto told = [&](const std::string& columns) {
    const sample::Ran ran =
        study(write(over("base.fall", "1/4 in/ft", "3/8 in/ft", "1/8 in/ft", columns + "\n")) + into());
    EXPECT_EQ(ran.code, 2) << columns;
    return ran.out;
  };
  EXPECT_THAT(
      told("columns = [\"bed.set_m3\"]"),
      HasSubstr(
          "s.toml:3:12: study.columns: 'bed.set_m3': report.json has no 'set_m3' there; did you mean 'set_mm3'?"));
  EXPECT_THAT(told("columns = [\"checks[floor.fall-leest].margin\"]"), HasSubstr("did you mean 'floor.fall-least'?"));
  EXPECT_THAT(told("columns = [\"checks.margin\"]"), HasSubstr("names a list; say which entry"));
  EXPECT_THAT(told("columns = [\"bed\"]"), HasSubstr("holds several values"));
  EXPECT_THAT(told("columns = [\"bed..x\", \"[1]\", \"\"]"), HasSubstr("is no path"));
  EXPECT_THAT(told("aim_at = [\"floor.fall-leest\"]"),
              HasSubstr("'floor.fall-leest' is no check; did you mean 'floor.fall-least'?"));
  EXPECT_FALSE(fs::exists(in_ / "out"));
}

TEST_F(Study, ReplacesOnlyWhatAStudyWrote) {
  // Source: the contract of the output folder, as for a build.
  const std::string file = write(over("base.fall", "1/4 in/ft", "3/8 in/ft", "1/8 in/ft"));
  ASSERT_EQ(study(file + into() + "-q").code, 0);
  std::ofstream{in_ / "out/s/notes.txt"} << "mine";
  ASSERT_EQ(study(file + into() + "-q").code, 0);
  EXPECT_EQ(sample::slurped(in_ / "out/s/notes.txt"), "mine");
  std::ofstream{in_ / "out/s/variants.csv", std::ios::app} << "changed";
  const sample::Ran ran = study(file + into());
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.out, HasSubstr("variants.csv"));
}

TEST_F(Study, FindsWhatIsInTheWayOfItsMapBeforeAnyWork) {
  // Source: the contract of the output folder: a file that no study wrote is told at once. A million rooms are more
  // than a minute makes.
  const std::string file =
      write("[study]\njob = \"old.toml\"\nvary = \"readings\"\nsamples = 1000000\nmap = [\"back\", \"front\"]\n");
  fs::create_directories(in_ / "out/s");
  std::ofstream{in_ / "out/s/study-map.svg"} << "mine";
  const sample::Ran ran = sample::run("timeout 60 " FALLWRIGHT " study " + file + into() + "2>&1");
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.out, HasSubstr("study-map.svg: is in the way"));
  EXPECT_EQ(sample::slurped(in_ / "out/s/study-map.svg"), "mine");
}

TEST_F(Study, NamedAsItsJobLeavesWhatWasBuiltOfIt) {
  // Source: the contract of the output folder: nothing is lost by a run of another kind, either way.
  const auto build = [&](const std::string& job, const std::string& out) {
    return sample::run(FALLWRIGHT " build " + (in_ / job) + " --only csv -q" + into(out) + "2>&1");
  };
  fs::create_directory(in_ / "st");
  const std::string named = write(
      "[study]\njob = \"../room.toml\"\n[[key]]\npath = \"base.fall\"\nvalues = [\"1/4 in/ft\"]\n", "st/room.toml");
  ASSERT_LE(build("room.toml", "out").code, 1);
  const std::string report = sample::slurped(in_ / "out/room/report.json");
  const sample::Ran over_a_build = study(named + into() + "-q");
  EXPECT_EQ(over_a_build.code, 3);
  EXPECT_THAT(over_a_build.out, HasSubstr("holds what the build of a room wrote"));
  EXPECT_EQ(sample::slurped(in_ / "out/room/report.json"), report);
  EXPECT_TRUE(fs::exists(in_ / "out/room/takeoff.csv"));
  ASSERT_EQ(study(named + into("other") + "-q").code, 0);
  const sample::Ran over_a_study = build("room.toml", "other");
  EXPECT_EQ(over_a_study.code, 3);
  EXPECT_THAT(over_a_study.out, HasSubstr("holds what a study wrote"));
  EXPECT_TRUE(fs::exists(in_ / "other/room/variants.csv"));
}

TEST_F(Study, DrawsAMapThatReadsBackFromPaper) {
  // Source: the contract of sheets; read back from the PDF by poppler.
  const std::string file = write(
      "[study]\njob = \"room.toml\"\nname = \"two ways\"\n[[key]]\npath = \"base.pattern\"\n"
      "values = [\"level-rim\", \"equal-fall\"]\n[[key]]\npath = \"drain.from_left\"\n"
      "values = [\"24 in\", \"28-3/4 in\"]\n");
  ASSERT_EQ(study(file + into() + "-q").code, 0);
  const sample::Ran text = sample::run("pdftotext -layout " + (in_ / "out/s/study.pdf") + " -");
  for (const char* words : {"Study: two ways", "base.pattern", "drain.from_left", "level-rim", "equal-fall", "24\"",
                            "28-3/4\"", "today", "passes: no check fails"})
    EXPECT_THAT(text.out, HasSubstr(words));
}

}  // namespace
}  // namespace fallwright
