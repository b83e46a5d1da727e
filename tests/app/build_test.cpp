/// The files of a build: complete, listed, equal on every run, whole or not at all.
#include <filesystem>
#include <fstream>
#include <set>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/demo_job.hpp"
#include "diag/fault.hpp"
#include "exchange/sha256.hpp"
#include "support/run.hpp"

namespace fallwright {
namespace {

namespace fs = std::filesystem;

int build(const std::string& jobs, const std::string& out, const std::string& environment = "") {
  return sample::run(environment + " " FALLWRIGHT " build -q " + jobs + " --out " + out).code;
}

std::set<std::string> files_below(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator{folder})
    if (entry.is_regular_file()) names.insert(fs::relative(entry.path(), folder).generic_string());
  return names;
}

TEST(Build, WritesTheFilesOfTheContract) {
  // Source: the contract of files.
  const sample::Folder folder{"files"};
  ASSERT_EQ(build(params("tannery-lane-2a"), folder / "out"), 0);
  const auto names = files_below(folder.path() / "out/tannery-lane-2a");
  for (const char* name : {"model.step", "model.glb", "model.stl", "stl/base.stl", "stl/bench-frame/stud-03.stl",
                           "drawings/plan.dxf", "drawings/bench-front.dxf", "drawings/bench-side.dxf",
                           "drawings/cuts.dxf", "takeoff.csv", "cuts.csv", "checks.csv", "report.html", "report.json"})
    EXPECT_TRUE(names.contains(name)) << name;
  EXPECT_EQ(files_below(folder.path() / "out").size(), names.size()) << "nothing is left beside the job's folder";
}

TEST(Build, ReportListsEveryOtherFileWithItsFingerprint) {
  // Source: the contract of report.json; FIPS 180-4 by the library.
  const sample::Folder folder{"listed"};
  ASSERT_EQ(build(params("coopers-yard-9"), folder / "out"), 0);
  const fs::path out = folder.path() / "out/coopers-yard-9";
  const auto json = nlohmann::json::parse(sample::slurped((out / "report.json").string()));
  std::set<std::string> listed{"report.json"};
  for (const auto& file : json.at("files")) {
    const std::string path = (out / file.at("path").get<std::string>()).string();
    listed.insert(file.at("path"));
    EXPECT_EQ(file.at("bytes").get<std::uintmax_t>(), fs::file_size(path));
    EXPECT_EQ(file.at("sha256"), exchange::sha256_of_file(path));
  }
  EXPECT_EQ(listed, files_below(out));
  EXPECT_EQ(json.at("job").at("sha256"), exchange::sha256_of_file(params("coopers-yard-9")));
  for (const auto& part : json.at("parts")) EXPECT_TRUE(fs::exists(out / part.at("stl").get<std::string>()));
}

TEST(Build, SaysWhyAFileOfItsOwnCannotBeRead) {
  // Source: POSIX open(2): what is not there, and a folder, which opens and is no file.
  const auto why = [](const std::string& path) -> std::string {
    try {
      exchange::sha256_of_file(path);
    } catch (const diag::MachineError& e) {
      return e.what();
    }
    return "";
  };
  const sample::Folder folder{"unread"};
  EXPECT_EQ(why(folder / "none"), folder / "none: there is no such file");
  EXPECT_EQ(why(folder.path().string()),
            folder.path().string() + ": cannot be read: found a folder where a file should be");
}

TEST(Build, WritesOnlyTheKindsThatAreAskedForAndLeavesNoOldOnesBeside) {
  // Source: the contract of files: a kind alone, with the list of what there is; a new file never beside an old one.
  const sample::Folder folder{"only"};
  const fs::path out = folder.path() / "out/tannery-lane-2b";
  const std::string job = params("tannery-lane-2b");
  ASSERT_EQ(build(job, folder / "out"), 1);
  const std::string page = sample::slurped((out / "report.html").string());
  ASSERT_EQ(build(job + " --only page", folder / "out"), 1);
  EXPECT_EQ(files_below(out), (std::set<std::string>{"report.html", "report.json"}));
  EXPECT_TRUE(sample::slurped((out / "report.html").string()) == page)
      << "the model is in it, though none was asked for";
  ASSERT_EQ(build(job + " --only glb,csv", folder / "out"), 1);
  const std::set<std::string> model_and_tables{"checks.csv", "cuts.csv", "model.glb", "report.json", "takeoff.csv"};
  EXPECT_EQ(files_below(out), model_and_tables);
  const auto refused = sample::run(FALLWRIGHT " build " + job + " --only pfd --out " + (folder / "out") + " 2>&1");
  EXPECT_EQ(refused.code, 2);
  EXPECT_NE(refused.out.find("pdf"), std::string::npos) << refused.out;
}

TEST(Build, TwoRunsAreByteIdentical) {
  // Source: the contract: whatever the day, the order and what was built before in the same run.
  const sample::Folder folder{"twice"};
  const std::string both = params("tannery-lane-5c") + " " + params("tannery-lane-2a");
  for (const char* job : {"tannery-lane-2a", "tannery-lane-5c"}) ASSERT_EQ(build(params(job), folder / "a"), 0);
  ASSERT_EQ(build(both, folder / "b", "TZ=Asia/Tokyo LC_ALL=C"), 0);
  for (const char* job : {"tannery-lane-2a", "tannery-lane-5c"}) {
    const fs::path a = folder.path() / "a" / job, b = folder.path() / "b" / job;
    ASSERT_EQ(files_below(a), files_below(b));
    for (const std::string& name : files_below(a))
      EXPECT_EQ(sample::slurped((a / name).string()), sample::slurped((b / name).string())) << name;
  }
}

TEST(Build, TogetherWritesTheOrderBesideTheRooms) {
  // Source: the contract: many jobs, one order; the folder's name is taken, so no job may have it.
  const sample::Folder folder{"together"};
  const std::string jobs = "--together " + params("tannery-lane-2a") + " " + params("coopers-yard-9");
  ASSERT_EQ(build(jobs, folder / "out"), 0);
  const fs::path order = folder.path() / "out/together";
  EXPECT_EQ(files_below(order), (std::set<std::string>{"index.html", "pieces.csv", "rooms.csv", "sticks.csv",
                                                       "summary.json", "summary.txt", "takeoff.csv", "tightest.csv"}));
  const auto json = nlohmann::json::parse(sample::slurped((order / "summary.json").string()));
  EXPECT_EQ(json.at("rooms").size(), 2u);
  fs::copy_file(params("tannery-lane-2a"), folder / "together.toml");
  EXPECT_EQ(build("--together " + (folder / "together.toml"), folder / "other"), 2);
  EXPECT_FALSE(fs::exists(folder / "other"));
}

TEST(Build, OneRoomThatCannotBeWrittenHidesNoOther) {
  // Source: the contract: exit code 3 is the machine's; nothing is lost, and one room's failure is its own.
  const sample::Folder folder{"blocked"};
  fs::create_directories(folder.path() / "out");
  std::ofstream{folder / "out/tannery-lane-2a"} << "a note of mine";
  EXPECT_EQ(build("--together " + params("tannery-lane-2a") + " " + params("coopers-yard-9"), folder / "out"), 3);
  EXPECT_EQ(sample::slurped(folder / "out/tannery-lane-2a"), "a note of mine");
  EXPECT_TRUE(fs::exists(folder / "out/coopers-yard-9/report.json"));
  const auto json = nlohmann::json::parse(sample::slurped(folder / "out/together/summary.json"));
  ASSERT_EQ(json.at("rooms").size(), 2u);
  EXPECT_TRUE(json.at("rooms")[0].contains("failure"));
  EXPECT_EQ(json.at("rooms")[1].at("name"), "9 Coopers Yard");
}

TEST(Build, SourceDateEpochSetsTheTimeInHeaders) {
  // Source: the reproducible-builds convention SOURCE_DATE_EPOCH.
  const sample::Folder folder{"epoch"};
  ASSERT_EQ(build(params("coopers-yard-9"), folder / "out", "SOURCE_DATE_EPOCH=946684800"), 0);
  EXPECT_NE(sample::slurped(folder / "out/coopers-yard-9/model.step").find("'2000-01-01T00:00:00'"), std::string::npos);
}

TEST(Build, ANewBuildReplacesWhatTheOldOneWroteAndNothingElse) {
  // Source: the contract of docs/output-folder.md: a solid that is no longer built goes, a note of the user's stays.
  const sample::Folder folder{"replace"};
  ASSERT_EQ(build(params("tannery-lane-2a"), folder / "out"), 0);
  fs::copy_file(params("coopers-yard-9"), folder / "tannery-lane-2a.toml");
  std::ofstream{folder / "out/tannery-lane-2a/note.txt"} << "mine";
  ASSERT_TRUE(fs::exists(folder / "out/tannery-lane-2a/stl/bench-frame/stud-03.stl"));
  ASSERT_EQ(build(folder / "tannery-lane-2a.toml", folder / "out"), 0);
  ASSERT_EQ(build(folder / "tannery-lane-2a.toml", folder / "fresh"), 0);
  auto expected = files_below(folder.path() / "fresh/tannery-lane-2a");
  expected.insert("note.txt");
  EXPECT_EQ(files_below(folder.path() / "out/tannery-lane-2a"), expected);
  EXPECT_EQ(sample::slurped(folder / "out/tannery-lane-2a/note.txt"), "mine");
}

TEST(Build, GivesTheSameBytesFromAnyFolderAndHoweverTheJobIsNamed) {
  // Source: the contract: same job, same bytes; no path of this machine may reach a file.
  const sample::Folder folder{"anywhere"};
  fs::create_directory(folder.path() / "deep");
  fs::copy_file(params("coopers-yard-9"), folder / "deep/job.toml");
  const std::string go = "cd " + folder.path().string() + " && " FALLWRIGHT " build -q --together ";
  ASSERT_EQ(sample::run(go + "deep/job.toml --out a").code, 0);
  ASSERT_EQ(sample::run(go + "./deep/../deep/job.toml --out b").code, 0);
  ASSERT_EQ(sample::run(go + (folder / "deep/job.toml") + " --out c").code, 0);
  ASSERT_EQ(files_below(folder.path() / "a"), files_below(folder.path() / "b"));
  for (const std::string& name : files_below(folder.path() / "a"))
    for (const char* other : {"b/", "c/"})
      EXPECT_EQ(sample::slurped(folder / ("a/" + name)), sample::slurped(folder / (other + name))) << name;
}

TEST(Build, ATimeThatIsNoneIsRefused) {
  // Source: the reproducible-builds convention SOURCE_DATE_EPOCH: ASCII digits; ISO 8601 has four for the year.
  const sample::Folder folder{"epochs"};
  for (const char* time : {"''", "-1", "soon", "1e9", "12x", "253402300800", "99999999999999999999"}) {
    const std::string set = std::string{"SOURCE_DATE_EPOCH="} + time;
    const sample::Ran ran = sample::run(set + " " FALLWRIGHT " build " + params("tannery-lane-2a") + " --out " +
                                        (folder / "out") + " 2>&1");
    EXPECT_EQ(ran.code, 2) << time;
    EXPECT_EQ(ran.out.find("SOURCE_DATE_EPOCH: found '"), 0u) << ran.out;
  }
  EXPECT_FALSE(fs::exists(folder / "out"));
}

TEST(Build, ARefusedJobLeavesTheOldOutputAsItWas) {
  // Source: the contract: an interrupted or refused run leaves the previous output alone.
  const sample::Folder folder{"refused"};
  fs::copy_file(params("coopers-yard-9"), folder / "job.toml");
  ASSERT_EQ(build(folder / "job.toml", folder / "out"), 0);
  const std::string before = sample::slurped(folder / "out/job/report.json");
  std::ofstream{folder / "job.toml", std::ios::app} << "\n[nonsense]\n";
  EXPECT_EQ(build(folder / "job.toml", folder / "out"), 2);
  EXPECT_EQ(sample::slurped(folder / "out/job/report.json"), before);
}

TEST(Build, UnitsOfTheJobFileDoNotChangeTheSolids) {
  // Source: unit change: the starter in inches, with every length's unit written out, read as a metric job. Lengths are
  // left as designed: the two tapes have different marks.
  const sample::Folder folder{"units"};
  ASSERT_EQ(sample::run(FALLWRIGHT " starter " + (folder / "inch.toml")).code, 0);
  std::string text = sample::slurped(folder / "inch.toml");
  text.replace(text.find("rounding = \"tape\""), 17, "rounding = \"exact\"");
  for (const auto& [section, key] : {std::pair{"floor", "deck"},
                                     {"floor.joists", "stock"},
                                     {"floor.joists", "spacing"},
                                     {"floor.joists", "first"},
                                     {"drain", "body"},
                                     {"drain", "body_depth"},
                                     {"drain", "outlet"}})  // what a tape would have read
    text.erase(text.find("\n# " + std::string{key} + " = ", text.find("\n[" + std::string{section} + "]")) + 1, 2);
  std::ofstream{folder / "inch.toml"} << text;
  text.replace(text.find("unit = \"in\""), 11, "unit = \"mm\"");
  const std::size_t frame = text.find("[bench.frame]");
  text.replace(text.find("# stock", frame), 2, "");
  std::ofstream{folder / "metric.toml"} << text;
  ASSERT_EQ(build((folder / "inch.toml") + " " + (folder / "metric.toml"), folder / "out"), 0);
  const auto parts = [&](const char* job) {
    return nlohmann::json::parse(sample::slurped((folder / "out/") + job + "/report.json")).at("parts");
  };
  const auto inch = parts("inch"), metric = parts("metric");
  ASSERT_EQ(inch.size(), metric.size());
  for (std::size_t i = 0; i < inch.size(); ++i) {
    if (inch[i].at("id") == "bed-spread") continue;  // spread to the next mark of the tape in use
    EXPECT_NEAR(inch[i].at("volume_mm3").get<double>() / metric[i].at("volume_mm3").get<double>(), 1, 1e-12)
        << inch[i].at("id");
  }
}

}  // namespace
}  // namespace fallwright
