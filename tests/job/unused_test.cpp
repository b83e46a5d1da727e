/// Keys that stand in a job file and say nothing in its room: told, and no fault.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/read.hpp"

namespace fallwright::job {
namespace {

/// "bench.frame.web, line 14: the bench's frame is timber", one for each key of a file told of.
std::vector<std::string> unused_of(const std::string& more) {
  const Job job = read(
      "[job]\nname = \"x\"\nunit = \"in\"\n[alcove]\nwidth = 60\ndepth = 36\n[base]\nlength = 60\nwidth = 36\n" + more,
      "x.toml");
  std::vector<std::string> told;
  for (const UnusedKey& key : job.unused)
    told.push_back(key.key + ", line " + std::to_string(key.line) + ": " + key.why);
  return told;
}

const std::string point = "[drain]\nfrom_left = 30\nfrom_back = 16\n";                            // lines 10 to 12
const std::string bench = "[bench]\nplace = \"back\"\ndepth = 15\nheight = 18\n[bench.frame]\n";  // lines 13 to 17
const std::string short_base =
    "[job]\nname = \"x\"\nunit = \"in\"\n[alcove]\nwidth = 60\ndepth = 51\n[base]\nlength = 60\nwidth = 36\n";

std::vector<std::string> unused_in_frame(const std::string& frame) {
  std::vector<std::string> told;
  for (const UnusedKey& key : read(short_base + point + bench + frame, "x.toml").unused)
    told.push_back(key.key + ": " + key.why);
  return told;
}

TEST(Unused, KeysOfWhatTheRoomDoesNotHaveAreToldWithTheirLine) {
  // Source: none; each key belongs to what the words after it name.
  struct Row {
    std::string more, told;
  } rows[] = {
      {point + "direction = \"along-depth\"\n", "drain.direction, line 13: the drain is no channel (drain.kind)"},
      {point + "[floor]\nkind = \"slab\"\n[floor.joists]\nspacing = 16\n",
       "floor.joists.spacing, line 16: the floor is a slab"},
      {point + "[floor.joists]\nfirst = 7\nfirst_at = 12\ndirection = \"along-width\"\n",
       "floor.joists.first_at, line 15: the joists run along the width: the first was read from the entry"},
      {point + "[floor.joists]\nfirst_at = 12\n",
       "floor.joists.first_at, line 14: nobody knows where the joists are (floor.joists.first)"},
      {point + "[base.threshold]\nwidth = 0\nheight = 2\n",
       "base.threshold.height, line 15: the base has no threshold (base.threshold.width)"},
      {point + "[base.upstands]\nthickness = 0\nheight = 4\n",
       "base.upstands.height, line 15: the base has no upstands (base.upstands.thickness)"},
      {point + "[tile]\nsurfaces = [\"floor\"]\nown = [\"floor\", \"seat\"]\n",
       "tile.own, line 15: not among what is tiled (tile.surfaces): seat"},
      {point + "[mix]\ncement_bag = \"80 lb\"\n", "mix.cement_bag, line 14: no mix is given (mix.parts)"},
  };
  for (const Row& row : rows) EXPECT_EQ(unused_of(row.more), std::vector{row.told}) << row.more;
}

TEST(Unused, OfThreeWallsNoSquareTellsTheCorners) {
  // Source: none: sides and diagonals tell of three walls; only a base built on site, which would be drawn square,
  // takes a word that they are not.
  const std::string askew = "[survey]\nsquare = \"no\"\n";
  EXPECT_EQ(
      unused_of(point + askew),
      (std::vector<std::string>{"survey.square, line 14: sides and diagonals tell of three walls (survey.plan)"}));
  const Job site =
      read("[job]\nname = \"x\"\nunit = \"in\"\n[alcove]\nwidth = 60\ndepth = 36\n[base]\nkind = \"site-built\"\n" +
               point + "[bed]\nleast = 1\n" + askew,
           "x.toml");
  EXPECT_TRUE(site.unused.empty());
}

TEST(Unused, OfABaseToldByItsRimWhatTheRimDoesNotAskFor) {
  // Source: by hand: a rim read on all four sides tells every fall, whatever pattern is named; where its height was
  // read says nothing without the height.
  const auto unused = [](const std::string& rim, const std::string& height_at) {
    std::vector<std::string> told;
    for (const UnusedKey& key :
         read("[job]\nname = \"x\"\nunit = \"in\"\n[alcove]\nwidth = 60\ndepth = 36\n[base]\nkind = \"bought\"\n"
              "length = 59.5\nwidth = 35.5\nshell = 0.25\npattern = \"equal-fall\"\n[base.rim]\n" +
                  rim + height_at +
                  "[base.ribs]\ncolumns = 8\nrows = 6\nwidth = 0.25\ndeepest = 1\n[base.upstands]\nthickness = 0.25\n"
                  "height = 4\n[base.threshold]\nwidth = 4\nheight = 3\n[drain]\nfrom_left = 30\nfrom_back = 16\n",
              "x.toml")
             .unused)
      told.push_back(key.key + ": " + key.why);
    return told;
  };
  const std::string four = "back = 0.375\nleft = 0.5\nright = 0.5\nfront = 0.375\n", at = "height_at = \"back-left\"\n";
  using testing::Contains, testing::Not, testing::StartsWith;
  EXPECT_THAT(unused(four, at), Contains("base.pattern: the floor falls from the rim as that was read (base.rim)"));
  EXPECT_THAT(unused(four, at), Contains("base.rim.height_at: no height was read there (base.rim.height)"));
  EXPECT_THAT(unused(four, ""), Not(Contains(StartsWith("base.rim.height_at"))));
}

TEST(Unused, AFlatUndersideHasNoRibs) {
  // Source: none.
  EXPECT_EQ(unused_of("underside = \"flat\"\n[base.ribs]\ncolumns = 4\nrows = 3\n" + point),
            (std::vector<std::string>{"base.ribs.columns, line 12: the base's underside is flat",
                                      "base.ribs.rows, line 13: the base's underside is flat"}));
}

TEST(Unused, AFrameIsTimberOrSteel) {
  // Source: none; in the order of the file.
  EXPECT_EQ(unused_in_frame("web = \"solid\"\n"),
            std::vector<std::string>{"bench.frame.web: the bench's frame is timber"});
  EXPECT_EQ(unused_in_frame("kind = \"steel\"\nrail_fastener = \"16d\"\nfasteners_at_rail = 2\nspecies = \"C24\"\n"),
            (std::vector<std::string>{"bench.frame.rail_fastener: the bench's frame is steel",
                                      "bench.frame.fasteners_at_rail: the bench's frame is steel",
                                      "bench.frame.species: the bench's frame is steel"}));
  EXPECT_EQ(unused_in_frame("kind = \"steel\"\njoist_fastener_length = 2.5\nrail_fastener_length = 3.5\n"),
            (std::vector<std::string>{"bench.frame.joist_fastener_length: the bench's frame is steel",
                                      "bench.frame.rail_fastener_length: the bench's frame is steel"}));
}

TEST(Unused, WhatIsUsedIsNotAmongThem) {
  // Source: none; the same keys where they count.
  EXPECT_TRUE(unused_of(point + "[floor.joists]\nspacing = 16\n[base.threshold]\nwidth = 4\nheight = 2\n[tile]\nown = "
                                "[\"floor\"]\n[mix]\nparts = \"1:5\"\ncement_bag = \"94 lb\"\n")
                  .empty());
  EXPECT_TRUE(unused_in_frame("fastener = \"16d\"\nrail_fastener = \"16d\"\n").empty());
  EXPECT_TRUE(unused_in_frame("kind = \"steel\"\nweb = \"solid\"\nfastener = \"#10\"\n").empty());
}

}  // namespace
}  // namespace fallwright::job
