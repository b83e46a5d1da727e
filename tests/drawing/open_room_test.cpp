// Rooms where no back or no left wall stands: what a tape is hooked on there.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/read.hpp"
#include "outside/drawn.hpp"
#include "support/imperial.hpp"

namespace fallwright::drawing {
namespace {

using testing::HasSubstr;
using testing::Not;

/// 60 x 36 in, a base 34 deep at its back: its front edge 2 behind the entry; the drain 30 from the left and 17 from
/// the back.
const Drawn& room_between(const std::string& walls) {
  static std::map<std::string, Drawn> all;
  const auto known = all.find(walls);
  if (known != all.end()) return known->second;
  const std::string text =
      "[job]\nname = \"x\"\nunit = \"in\"\n[alcove]\nwidth = 60\ndepth = 36\nwalls = [" + walls +
      "]\n[survey]\nsquare = \"yes\"\n[floor]\ndeck = 0.75\n[floor.joists]\nstock = \"2x10\"\nfirst = 6\nspacing = 16\n"
      "direction = \"along-depth\"\n[base]\nlength = 60\nwidth = 34\n"
      "pattern = \"equal-fall\"\nfall = \"3/8 in/ft\"\n[base.upstands]\nsides = [\"left\", \"right\", "
      "\"back\"]\n[drain]\nsize = 4\nbody = 3.25\nbore = 5\nfrom_left = 30\nfrom_back = 17\n";
  return all.emplace(walls, drawn(job::read(text, "x.toml"), false)).first->second;
}

std::string notes_and_words(const Sheet& sheet) {
  std::string all = read_through(sheet);
  for (const std::string& note : sheet.notes) all += note + " ";
  return all;
}

TEST(OpenRoom, TheTemplatePointsToWhatStands) {
  // Source: by hand: 17 from the back and 36 deep is 19 from the entry; 30 from the left and as much from the right.
  const auto words = [](const char* walls) { return read_through(room_between(walls).sheet("template")); };
  for (const char* name : {"ENTRY 19", "LEFT WALL 30"}) EXPECT_THAT(words("\"left\", \"right\""), HasSubstr(name));
  EXPECT_THAT(words("\"left\", \"right\""), Not(HasSubstr("BACK WALL")));
  for (const char* name : {"BACK WALL 17", "BACK WALL'S LEFT END 30"}) EXPECT_THAT(words("\"back\""), HasSubstr(name));
  EXPECT_THAT(words("\"back\""), Not(HasSubstr("RIGHT WALL")));
  for (const char* name : {"BACK WALL 17", "RIGHT WALL 30"}) EXPECT_THAT(words("\"back\", \"right\""), HasSubstr(name));
  // No arrow that points up, where nothing stands.
  const Sheet& open = room_between("\"left\", \"right\"").sheet("template");
  EXPECT_TRUE(std::any_of(open.texts.begin(), open.texts.end(),
                          [](const Text& t) { return t.words == "ENTRY 19" && t.at.y < 0; }));
}

TEST(OpenRoom, NoSheetNamesACornerThatDoesNotStand) {
  // Source: by hand: where the left wall stands alone before an open back its studs begin at its end, and so does O.
  const Drawn& facing = room_between("\"left\", \"right\"");
  for (const Sheet& sheet : facing.sheets)
    for (const char* corner : {"back left corner of", "back corner", "back corners", "along the back from"})
      EXPECT_THAT(notes_and_words(sheet), Not(HasSubstr(corner))) << sheet.name;
  EXPECT_THAT(notes_and_words(facing.sheet("cover")), HasSubstr("O, the left wall's back end"));
  EXPECT_THAT(notes_and_words(facing.sheet("plan")), HasSubstr("stud centres from the walls' back ends"));
  EXPECT_THAT(notes_and_words(facing.sheet("wall-right")), HasSubstr("Stud centres from the wall's back end"));
  EXPECT_THAT(notes_and_words(room_between("\"back\"").sheet("plan")),
              HasSubstr("stud centres along the back from the left;"));
  EXPECT_THAT(notes_and_words(room_between("\"back\", \"right\"").sheet("plan")),
              HasSubstr("stud centres from the back corner, along the back from the left;"));
  EXPECT_THAT(notes_and_words(drawn_demo("tannery-lane-2a").sheet("plan")),
              HasSubstr("stud centres from the back corners, along the back from the left;"));
}

TEST(OpenRoom, TheBoreIsToldFromTheEntryAsHeightsAndGaugesAre) {
  // Source: by hand: 19 from the entry, 17 from the base's front edge; where a back wall stands a tape has that.
  const auto has = [](const Sheet& sheet, const std::string& words) {
    return std::count_if(sheet.dimensions.begin(), sheet.dimensions.end(), [&](const Dimension& dimension) {
      return dimension.words == words && std::abs(dimension.from.y) < 1e-6 && dimension.to.y > dimension.from.y;
    });
  };
  const Drawn &open = room_between("\"left\", \"right\""), &shut = room_between("\"back\", \"right\"");
  EXPECT_THAT(read_through(open.sheet("drain")), HasSubstr("19   bore centre from the entry"));
  EXPECT_THAT(read_through(open.sheet("plan")), HasSubstr("from the entry"));
  EXPECT_EQ(has(open.sheet("plan"), "19"), 1);
  EXPECT_THAT(read_through(shut.sheet("drain")), Not(HasSubstr("bore centre from the entry")));
  EXPECT_EQ(has(shut.sheet("plan"), "19"), 0);
}

TEST(OpenRoom, ThePlanMeasuresTheBoreToNoBackThatDoesNotStand) {
  // Source: by hand: the bore is at 19 of 36 in; 17 behind it only a back wall has a face to hook a tape on.
  const auto behind = [](const Sheet& plan) {
    return std::count_if(plan.dimensions.begin(), plan.dimensions.end(), [](const Dimension& dimension) {
      const auto [low, high] = std::minmax(dimension.from.y, dimension.to.y);
      return std::abs(low - 19 * in) < 1 && std::abs(high - 36 * in) < 1;
    });
  };
  EXPECT_EQ(behind(room_between("\"left\", \"right\"").sheet("plan")), 0);
  EXPECT_EQ(behind(room_between("\"back\", \"right\"").sheet("plan")), 1);
}

TEST(DrainPlan, OnSmallPaperCanBeReadByItself) {
  // Source: by hand: joists at 6 and every 16 from there stand at 22 and 38; the bore of 5 is at 30. The same as on the
  // plan of the framing.
  const Drawn d =
      drawn(job::read("[job]\nname = \"x\"\nunit = \"in\"\n[drawings]\npaper = \"letter\"\n[alcove]\nwidth = "
                      "60\ndepth = 36\n[floor]\nkind = \"joists\"\n[floor.joists]\nstock = \"2x10\"\nfirst = "
                      "6\nspacing = 16\ndirection = \"along-depth\"\n[base]\nlength = 60\nwidth = 36\n[drain]\n"
                      "size = 4\nbore = 5\nfrom_left = 30\nfrom_back = 17\n",
                      "x.toml"),
            false);
  const std::string notes = notes_and_words(d.sheet("drain-plan"));
  EXPECT_THAT(notes, HasSubstr("The entry lies below."));
  EXPECT_THAT(notes, HasSubstr("centres 22\" and 38\" from the left stud face, level with the bore."));
}

}  // namespace
}  // namespace fallwright::drawing
