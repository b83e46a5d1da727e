// What the demo rooms, rooms of tests/cases and some made at random come to: every section of the report, every text of
// the commands, and of those not of tests/cases every sheet and the model for other programs; and what every check says
// when its limit is broken. Nothing here says that a value is right: the tests of the rooms do that, by hand and in
// other ways. This says that nobody changed one without looking.
//
// With FALLWRIGHT_UNMOVED=keep it writes kept.txt anew, after a change that is meant.
// With FALLWRIGHT_UNMOVED=/some/folder it writes all sections there as text, for diff -r against those of the commit
// before.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "app/build.hpp"
#include "diag/text_file.hpp"
#include "exchange/sha256.hpp"
#include "job/read.hpp"
#include "support/random_room.hpp"
#include "unmoved/told.hpp"

namespace fallwright::unmoved {
namespace {

namespace fs = std::filesystem;

const fs::path tree = PROJECT_DIR;
const fs::path kept_file = tree / "tests/unmoved/kept.txt";
const std::string itself = "fallwright";              // what is told without a room
const std::string broken = "each-check-when-broken";  // and of made-up ones
const std::string wrong = "each-key-when-wrong";
const std::string at_random = "rooms-at-random";
const std::string several = "several-rooms-and-studies";

struct Room {
  std::string name;
  fs::path file;
  bool demo = false;
  std::function<job::Job()> at_random = {};
  friend void PrintTo(const Room& room, std::ostream* out) { *out << room.name; }
};

/// Rooms that nobody drew: for what hangs on how a room happens to be, in either unit, on every paper.
void add_rooms_at_random(std::vector<Room>& rooms) {
  const auto add = [&](const std::string& name, std::string text, job::PaperSize paper) {
    rooms.push_back({"room-at-random-" + name, {}, true, [name, text = std::move(text), paper] {
                       job::Job job = job::read(text, name + ".toml");
                       job.drawings.paper = paper;
                       return job;
                     }});
  };
  using job::PaperSize;
  add("1", sample::in_millimetres(sample::random_room(1)), PaperSize::a4);
  add("9", sample::in_millimetres(sample::random_room(9)), PaperSize::a3);
  add("bought", sample::random_room_of("bought", 5), PaperSize::letter);
  add("built", sample::in_millimetres(sample::random_room_of("site-built", 6)), PaperSize::a3);
}

std::vector<Room> rooms() {
  std::vector<Room> rooms{{itself, {}},
                          {broken, {}},
                          {wrong, tree / "params/tannery-lane-2a.toml"},
                          {at_random, {}},
                          {several, tree / "params/"}};
  for (const char* folder : {"params", "tests/cases"})
    for (const auto& entry : fs::directory_iterator{tree / folder})
      if (entry.path().extension() == ".toml")
        rooms.push_back({entry.path().stem().string(), entry.path(), folder == std::string{"params"}});
  add_rooms_at_random(rooms);
  std::sort(rooms.begin(), rooms.end(), [](const Room& a, const Room& b) { return a.name < b.name; });
  return rooms;
}

using Digests = std::map<std::string, std::string>;  ///< by section

/// All that was kept, by room: read once. Lines of "room | section | digest".
std::map<std::string, Digests>& kept() {
  static std::map<std::string, Digests> all = [] {
    std::map<std::string, Digests> read;
    std::ifstream in{kept_file};
    for (std::string line; std::getline(in, line);) {
      const std::size_t first = line.find(" | "), last = line.rfind(" | ");
      if (line.starts_with('#') || first == last) continue;
      read[line.substr(0, first)][line.substr(first + 3, last - first - 3)] = line.substr(last + 3);
    }
    return read;
  }();
  return all;
}

void keep() {
  std::ofstream out{kept_file};
  out << "# What rooms came to when that was last looked at: room | section | the first letters of its text's "
         "SHA-256.\n"
         "# FALLWRIGHT_UNMOVED=keep unmoved_tests writes this file anew.\n";
  for (const auto& [room, digests] : kept())
    for (const auto& [section, digest] : digests) out << room << " | " << section << " | " << digest << "\n";
}

std::string file_name(std::string section) {
  std::replace(section.begin(), section.end(), '/', '_');
  std::replace(section.begin(), section.end(), ' ', '-');
  return section + ".txt";
}

void write_out(const fs::path& folder, const Told& told) {
  fs::create_directories(folder);
  for (const auto& [section, text] : told) std::ofstream{folder / file_name(section)} << text;
}

class Unmoved : public testing::TestWithParam<Room> {};

TEST_P(Unmoved, TellsWhatItTold) {
  // Source: what this program told when it was last looked at: it says what moved, not what is right.
  const Room& room = GetParam();
  const Told told = room.name == itself      ? told_of_itself()
                    : room.name == broken    ? told_of_broken_checks()
                    : room.name == at_random ? told_of_rooms_at_random()
                    : room.name == wrong     ? told_of_wrong_keys(room.file.string())
                    : room.name == several
                        ? told_of_several(room.file.string())
                        : told_of(room.at_random ? room.at_random() : app::load(room.file.string()), room.demo);
  Digests digests;
  for (const auto& [section, text] : told) digests[section] = exchange::sha256(text).substr(0, 12);
  const char* asked = std::getenv("FALLWRIGHT_UNMOVED");
  if (asked && *asked && std::string{asked} != "keep") return write_out(fs::path{asked} / room.name, told);
  Digests& before = kept()[room.name];
  if (asked && std::string{asked} == "keep") {
    before = digests;
    return keep();
  }
  std::string moved;
  for (const auto& [section, digest] : digests)
    if (!before.contains(section) || before.at(section) != digest) moved += "\n  " + section;
  for (const auto& [section, digest] : before)
    if (!digests.contains(section)) moved += "\n  " + section + " (gone)";
  EXPECT_EQ(moved, "") << "of " << room.name
                       << "; the head of tests/unmoved/unmoved_test.cpp tells how to see what changed";
}

INSTANTIATE_TEST_SUITE_P(All, Unmoved, testing::ValuesIn(rooms()), [](const auto& info) {
  std::string name = info.param.name;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
}  // namespace fallwright::unmoved
