/// Shares of an order of rooms, by the whole program: computed apart and joined, they are one run.
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/run.hpp"

namespace fallwright {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using testing::Not;

/// A small room, with as few walls as it can have; in inches its floor is too steep, in millimetres it falls alike.
std::string room(const std::string& name, bool metric, bool bench = false) {
  const auto length = [&](int in, int mm) { return metric ? std::to_string(mm) : "\"" + std::to_string(in) + " in\""; };
  std::string text = "[job]\nname = \"" + name + "\"\nunit = " + (metric ? "\"mm\"" : "\"in\"") +
                     "\n[buy]\ncurrency = \"EUR\"\n[alcove]\nwidth = " + (bench ? length(74, 1880) : length(60, 1600)) +
                     "\ndepth = " + length(36, 900) + "\nwalls = " + (bench ? "[\"left\"]" : "[]") +
                     "\n[base]\nlength = " + length(60, bench ? 1510 : 1600) + "\nwidth = " + length(36, 900) +
                     (metric ? "\npattern = \"equal-fall\"" : "") +
                     "\n[base.ribs]\ncolumns = 1\nrows = 1\n[drain]\nsize = " + length(4, 100) +
                     "\nfrom_left = " + length(30, 750) + "\nfrom_back = " + length(18, 450) +
                     "\n[bed]\nbag_yield = " + (metric ? "\"12 L\"" : "\"0.45 ft3\"") + "\n";
  if (bench)
    text += "[bench]\nplace = \"left-end\"\ndepth = " + length(14, 370) + "\nheight = " + length(18, 460) + "\n";
  return text;
}

std::set<std::string> files_below(const std::string& folder) {
  std::set<std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator{folder})
    if (entry.is_regular_file()) files.insert(fs::relative(entry.path(), folder).string());
  return files;
}

/// Five rooms of both units, with a bench and without; the first fails a check, and none knows of the others.
class Shares : public testing::Test {
 protected:
  Shares() {
    write("a.toml", room("first", false));
    write("b's.toml", room("second", true));
    write("c.toml", room("third", false, true));
    write("d.toml", room("fourth", true, true));
    write("e.toml", room("fifth", false));
    write("prices.csv", "item,pack,price,supplier\n\"mortar, bags\",bag,7.25,yard\n2x4,stick of 8 ft,3.50,mill\n");
  }
  void write(const std::string& name, const std::string& text) const { std::ofstream{in_ / name} << text; }
  /// In the folder of the jobs; what goes wrong with what is told.
  sample::Ran run(const std::string& arguments) const {
    return sample::run("cd '" + in_.path().string() + "' && " FALLWRIGHT " " + arguments + " 2>&1");
  }
  std::string slurped(const std::string& file) const { return sample::slurped(in_ / file); }
  bool is_there(const std::string& file) const { return fs::exists(in_ / file); }
  /// The command that a message says to give, given.
  sample::Ran as_told(const std::string& message) const {
    std::smatch found;
    const bool told = std::regex_search(message, found, std::regex{"compute with: fallwright ([^\n]+)"});
    EXPECT_TRUE(told) << message;
    return told ? run(found[1].str() + " -q") : sample::Ran{};
  }

  sample::Folder in_{"shares"};
  const std::string five_ = " --together a.toml \"b's.toml\" c.toml d.toml e.toml ",
                    two_ = " --together a.toml c.toml ";
};

TEST_F(Shares, OfABuildAreJoinedToOneRunsBytes) {
  // Source: the contract of shares: what one run writes and tells, to the byte; a room that cannot be written keeps its
  // number and its reason.
  const std::string jobs = five_ + "--prices prices.csv ";
  fs::create_directory(in_ / "out");
  write("out/e", "a note of mine");
  const sample::Ran one = run("build" + jobs);
  EXPECT_EQ(one.code, 3);
  fs::rename(in_ / "out", in_ / "one");
  fs::create_directory(in_ / "out");
  write("out/e", "a note of mine");
  const sample::Ran parts = sample::run("cd '" + in_.path().string() + "' && { " FALLWRIGHT " build" + jobs +
                                        "--part 1/3 & " FALLWRIGHT " build" + jobs + "--part 3/3 & wait; } 2>&1");
  EXPECT_THAT(parts.out, HasSubstr("Share 1 of 3: rooms 1, 2 of 5; 1 fails a check\n  out/part-1-of-3/together\n"));
  EXPECT_THAT(parts.out, HasSubstr("Share 3 of 3: room 5 of 5; 1 could not be built or written\n"));
  EXPECT_THAT(parts.out, Not(HasSubstr("waiting"))) << "shares are worked out beside each other";
  const sample::Ran early = run("build" + jobs + "--merge");
  EXPECT_EQ(early.code, 3);
  EXPECT_THAT(early.out, HasSubstr("out: 1 of 3 shares cannot be joined\n  share 2: missing\n"));
  EXPECT_FALSE(is_there("out/together"));
  EXPECT_EQ(as_told(early.out).code, 0);
  const sample::Ran merged = run("build" + jobs + "--merge");
  EXPECT_EQ(merged.code, one.code);
  const std::string order = "ROOMS TOGETHER: 4 OF 5";
  ASSERT_THAT(merged.out, HasSubstr(order));
  EXPECT_EQ(merged.out.substr(merged.out.find(order)), one.out.substr(one.out.find(order)));
  const std::size_t failure = one.out.find("fallwright: fifth: ");
  EXPECT_EQ(
      merged.out.substr(0, merged.out.find(order)),
      one.out.substr(failure, one.out.find(order) - failure) +
          "fallwright: once that is mended, compute again: fallwright build --together --part 3/3 --out out --prices "
          "prices.csv a.toml 'b'\\''s.toml' c.toml d.toml e.toml\n");
  const auto wanted = files_below(in_ / "one");
  EXPECT_GT(wanted.size(), 200u);
  for (const std::string& file : wanted) EXPECT_EQ(slurped("one/" + file), slurped("out/" + file)) << file;
  auto all = wanted;
  for (const char* part : {"1", "2", "3"})
    for (const char* file : {"rooms.jsonl", "share.json"})
      all.insert("part-" + std::string{part} + "-of-3/together/" + file);
  EXPECT_EQ(files_below(in_ / "out"), all);
}

TEST_F(Shares, OfACheckAreJoinedToWhatOneRunTells) {
  // Source: the contract of shares; more of them than there are rooms.
  const sample::Ran one = run("check" + two_), json = run("check --json" + two_);
  EXPECT_EQ(one.code, 1);
  for (const char* part : {"1/3", "2/3", "3/3"})
    EXPECT_EQ(run("check -q --out s --part " + std::string{part} + two_).out, "") << part;
  const sample::Ran merged = run("check --merge --out s" + two_);
  EXPECT_EQ(merged.code, 1);
  EXPECT_EQ(merged.out.rfind("ALL ROOMS TOGETHER\n", 0), 0u);
  EXPECT_TRUE(one.out.ends_with("\n" + merged.out));
  EXPECT_TRUE(json.out.ends_with("}\n" + run("check --merge --json --out s" + two_).out));
  EXPECT_EQ(files_below(in_ / "s").size(), 6u);
  EXPECT_FALSE(is_there("out"));
}

TEST_F(Shares, AreTakenForTheirOwnRoomsAlone) {
  // Source: the contract of shares: equal bytes or none, and what to do about it.
  const std::string merge = "check --merge" + two_;
  EXPECT_THAT(run(merge).out, HasSubstr("out: has no shares of this order; compute them, of 2 say, with:"));
  const auto compute = [&](const std::string& more = "") {
    for (const char* part : {"1/2 ", "2/2 "}) EXPECT_EQ(run("check -q --part " + (part + more) + two_).code, 0);
  };
  const auto refuse = [&](const std::string& why, const std::string& command) {
    const sample::Ran ran = run(command);
    EXPECT_EQ(ran.code, 3);
    EXPECT_THAT(ran.out, HasSubstr(why));
    return ran.out;
  };
  compute();
  ASSERT_EQ(run(merge).code, 1);
  write("c.toml", room("third", false, true) + "apron_thickness = \"3/8 in\"\n");
  const std::string told = refuse(
      "\n  share 2: older: the job file, prices, rule book or base file of room 2, 'c', changed since\ncompute with: ",
      merge);
  EXPECT_EQ(as_told(told).code, 0);
  EXPECT_EQ(run(merge).code, 1);
  refuse("out: 2 of 2 shares cannot be joined\n  share 1: older: ", merge + "--prices prices.csv");
  refuse("shares 1, 2: of an order of another number of rooms; here are 3", merge + "e.toml");
  refuse("share 1: of other rooms: room 1 is 'a' there, and 'c' here", "check --merge --together c.toml a.toml");
  std::ofstream{in_ / "out/part-1-of-2/checked/rooms.jsonl", std::ios::app} << "[]\n";
  refuse("share 1: damaged: rooms.jsonl is not as it was written; remove 'out/part-1-of-2/checked' first", merge);
  EXPECT_EQ(run("check -q --part 1/2" + two_).code, 3) << "what was changed is not replaced";
  fs::remove_all(in_ / "out/part-1-of-2");
  fs::copy(in_ / "out/part-2-of-2", in_ / "out/part-1-of-2", fs::copy_options::recursive);
  refuse("share 1: another share of its order, under this one's name", merge);
  compute();
  std::string list = slurped("out/part-1-of-2/checked/share.json");
  const std::string version = "\"version\": \"";
  write("out/part-1-of-2/checked/share.json", list.replace(list.find(version) + version.size(), 1, "99"));
  refuse("share 1: computed by another version of the program", merge);
  write("out/part-1-of-2/checked/share.json", "{\"tool\"");
  refuse("share 1: damaged: share.json is that of no order; remove 'out/part-1-of-2/checked' first", merge);
  fs::remove_all(in_ / "out/part-1-of-2");
  EXPECT_EQ(run("check -q --part 1/3" + two_).code, 0);
  refuse("out: has shares of 2 and of 3; remove 'checked' from the folders of those that are not wanted", merge);
}

TEST_F(Shares, KilledHalfWayNoneOfItCounts) {
  // Source: the contract of shares: whole, or not there; the next run tidies up.
  const std::string jobs = " --together a.toml e.toml d.toml ", part = "build -q --part 1/1" + jobs;
  const sample::Ran killed =
      sample::run("cd '" + in_.path().string() + "' && { " FALLWRIGHT " " + part +
                  "& } && until ls out/*/report.json; do sleep 0.02; done >/dev/null 2>&1; kill -9 $!; wait $!");
  ASSERT_EQ(killed.code, 128 + 9);
  EXPECT_FALSE(is_there("out/part-1-of-1/together"));
  const sample::Ran merged = run("build --merge" + jobs);
  EXPECT_EQ(merged.code, 3);
  EXPECT_THAT(merged.out, HasSubstr("has no shares of this order"));
  EXPECT_EQ(run("build -q --only csv a.toml").code, 1);
  for (const std::string& file : files_below(in_ / "out")) EXPECT_THAT(file, Not(HasSubstr(".fallwright-")));
}

TEST_F(Shares, AskedForWrongAreToldInWords) {
  // Source: the contract of messages.
  const std::pair<const char*, const char*> wrong[] = {
      {"build --part 1/2 a.toml", "--part requires --together"},
      {"check --merge a.toml", "--merge requires --together"},
      {"build --together --part 1/2 --merge a.toml", "excludes --"},
      {"study checked.toml --part 1/2", "--part: shares of rooms are kept in folders called 'checked'"},
      {"study together.toml --part 1/2", "--part: shares of rooms are kept in folders called 'together'"},
      {"build --together --part 0/8 a.toml", "--part: found '0/8'; a share is two numbers like 3/8"},
      {"build --together --part 9/8 a.toml", "--part: found '9/8'"},
      {"check --together --part 3-8 a.toml", "--part: found '3-8'"},
      {"check --together --merge --all a.toml", "excludes --"},
      {"check --together --out x a.toml", "--out: is for the shares of --part and --merge; check writes nothing else"}};
  for (const auto& [command, words] : wrong) {
    const sample::Ran ran = run(command);
    EXPECT_EQ(ran.code, 2) << command;
    EXPECT_THAT(ran.out, HasSubstr(words)) << command;
  }
  EXPECT_FALSE(is_there("out"));
}

}  // namespace
}  // namespace fallwright
