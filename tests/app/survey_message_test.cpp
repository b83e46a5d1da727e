/// What a survey that cannot be is answered, and the commands that go with a survey.
#include <fstream>

#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/run.hpp"

namespace fallwright {
namespace {

using testing::HasSubstr;

const std::string ferry = std::string{PROJECT_DIR} + "/params/ferry-steps-3.toml";

sample::Ran run(const std::string& arguments) {
  return sample::run(FALLWRIGHT " " + arguments + " 2>&1");
}

/// The surveyed demo job with one text changed.
sample::Ran spoiled(const std::string& from, const std::string& to) {
  static int number = 0;
  const sample::Folder folder{"spoiled-" + std::to_string(getpid()) + "-" + std::to_string(++number)};
  std::string text = sample::slurped(ferry);
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  if (at != std::string::npos) text.replace(at, from.size(), to);
  std::ofstream{folder / "job.toml"} << text;
  return run("check " + (folder / "job.toml"));
}

TEST(SurveyMessage, NamesTheReadingThatSpoilsTheFigure) {
  // Source: the contract of messages: place, key, what was found, what it would have to be.
  const sample::Ran ran = spoiled("front = \"72-5/16 in\"", "front = \"75-5/16 in\"");
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("survey.plan.front: four sides and two diagonals do not close by"));
  EXPECT_THAT(ran.out,
              HasSubstr("front reads 75-5/16\" and would be 72-5/16\" if the others hold: measure it again first"));
}

TEST(SurveyMessage, AFigureOutByLittleIsBuiltAndFailsItsCheck) {
  // Source: the contract: a wrong number is refused, a doubtful one is told.
  const sample::Ran ran = spoiled("front = \"72-5/16 in\"", "front = \"73-5/16 in\"");
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, HasSubstr("FAIL         tape readings close"));
}

TEST(SurveyMessage, RefusesATriangleThatCannotBe) {
  // Source: the triangle inequality.
  EXPECT_THAT(spoiled("diagonal_from_back_left = \"80-9/16 in\"", "diagonal_from_back_left = \"120 in\"").out,
              HasSubstr("the diagonal from back left is longer than back and right together"));
}

TEST(SurveyMessage, RefusesTwoPeopleWhoDisagree) {
  // Source: the contract of messages.
  const sample::Ran ran = spoiled("[\"36-3/16 in\", \"36-1/4 in\"]", "[\"36-3/16 in\", \"37 in\"]");
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("survey.plan.right: what was read here differs by 13/16\""));
}

TEST(SurveyMessage, RefusesTwoLevelsInOnePlace) {
  // Source: the contract of messages.
  EXPECT_THAT(spoiled("[[\"52 in\", \"22 in\", \"5/16 in\"]]", "[[\"46 in\", \"18 in\", \"1 in\"]]").out,
              HasSubstr("two spot levels at 46\", 18\" differ by 3/4\""));
}

TEST(SurveyMessage, RefusesASpotOutsideTheRoom) {
  // Source: the contract of messages.
  EXPECT_THAT(spoiled("[[\"52 in\", \"22 in\", \"5/16 in\"]]", "[[\"82 in\", \"22 in\", \"5/16 in\"]]").out,
              HasSubstr("a spot level at 82\" from the left, 22\" from the entry lies outside the room"));
}

TEST(SurveyMessage, RefusesASpotThatCannotBeAFloor) {
  // Source: the contract of messages.
  EXPECT_THAT(
      spoiled("[[\"52 in\", \"22 in\", \"5/16 in\"]]", "[[\"52 in\", \"22 in\", \"9 in\"]]").out,
      HasSubstr("to 52\" from the left, 22\" from the entry the floor would rise 8-3/4\", steeper than 1:5: measure"));
}

TEST(SurveyMessage, RefusesAGridThatDoesNotFit) {
  // Source: the contract of messages.
  EXPECT_THAT(spoiled("grid_y = [\"2 in\", \"18 in\", \"34 in\"]", "grid_y = [\"2 in\", \"34 in\"]").out,
              HasSubstr("survey.floor.grid: grid, grid_x and grid_y go together: 2 rows of 4 heights"));
}

TEST(SurveyMessage, RefusesJoistsThickerThanTheirSpacing) {
  // Source: the contract of messages.
  EXPECT_THAT(spoiled("stock = \"2x8\"\nspacing = \"16 in\"", "stock = \"400x200 mm\"\nspacing = \"7 in\"").out,
              HasSubstr("floor.joists.spacing"));
}

TEST(SurveyMessage, RefusesAWallThatLeansTooFarAndStudsInOnePlace) {
  // Source: the contract of messages; all faults in one run.
  EXPECT_THAT(spoiled("lean = \"1/4 in\"", "lean = \"6 in\"").out, HasSubstr("is steeper than 1:20"));
  EXPECT_THAT(spoiled("\"31-5/8 in\"", "\"16 in\"").out, HasSubstr("studs 1-1/2\" thick cannot stand 1/2\" apart"));
}

TEST(SurveyMessage, ABoardReadingAsksForItsThickness) {
  // Source: the contract of messages.
  EXPECT_THAT(spoiled("board = \"1/2 in\"\nface = \"stud\"", "face = \"board\"").out,
              HasSubstr("was taken from the board, and survey.board (its thickness) is missing"));
}

TEST(SurveyMessage, AnUnknownKeyInAnEntryIsNamed) {
  // Source: the contract of messages.
  const sample::Ran ran = spoiled("lean = \"1/4 in\"", "leen = \"1/4 in\"");
  EXPECT_THAT(ran.out, HasSubstr("no such key; did you mean 'survey.plumb.lean'?"));
  EXPECT_THAT(ran.out, HasSubstr("survey.plumb.lean: is missing"));
}

TEST(SurveyMessage, WithoutDiagonalsSquareIsNotChecked) {
  // Source: none; a missing angle is unknown, not square.
  std::string text = sample::slurped(ferry);
  const std::size_t a = text.find("diagonal_from_back_left"), b = text.find("\n\n", a);
  const sample::Ran ran = spoiled(text.substr(a, b - a), "");
  EXPECT_THAT(ran.out,
              HasSubstr("1  measure the alcove at the floor: diagonal from back left, diagonal from back right "
                        "(survey.plan)\n"));
}

TEST(SurveyCommand, TellsTheWholeRoom) {
  // Source: the demo job's own readings.
  const sample::Ran ran = run("survey " + ferry);
  for (const char* section : {"TAPE", "FLOOR", "STUDS", "LETTING IT IN", "DRAIN", "DRY FIT", "HEIGHTS",
                              "LEVELLING the base", "LEVELLING the seat", "GAUGE DEPTHS", "SET-OUT", "HOW SURE"})
    EXPECT_THAT(ran.out, HasSubstr(std::string{"  "} + section)) << section;
  EXPECT_THAT(ran.out, HasSubstr("highest hump 5/32\" at 52\" from the left stud face, 22\" from the entry"));
}

TEST(SurveyCommand, LevelSaysWhatToPress) {
  // Source: by hand: the right side an eighth high is pressed by an eighth.
  const sample::Ran ran = run("level " + ferry + " back-left=0 back-right=1/8 front-right=1/8 front-left=0");
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, HasSubstr("press down: back right 1/8\", front right 1/8\""));
  EXPECT_THAT(ran.out, HasSubstr("NOT YET"));
  EXPECT_EQ(run("level " + ferry + " back-left=7 back-right=7 front-right=7 front-left=7").code, 0);
  EXPECT_EQ(run("level --down " + ferry + " back-left=7 back-right=6-7/8 front-right=6-7/8 front-left=7").code, 1);
}

TEST(SurveyCommand, LevelHoldsWhatIsTypedToWhatTheFileMayHold) {
  // Source: the contract of messages: the range of [as_set], each place once, all faults in one run.
  const sample::Ran ran = run("level " + ferry + " back-left=1/8 back-left=1/8 front-left='99999999999999999999 in'");
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("back-left: is given twice; a place has one reading"));
  EXPECT_THAT(ran.out, HasSubstr("front-left: found"));
  EXPECT_THAT(ran.out, HasSubstr("allowed is -118-1/8\" to 118-1/8\""));
}

TEST(SurveyCommand, HeightsOutsideTheRoomAreRefused) {
  // Source: the contract of messages.
  const sample::Ran ran = run("heights " + ferry + " 30 1e9");
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("Y: found '1e9'"));
  EXPECT_THAT(run("heights " + ferry + " 99 20").out, HasSubstr("which is outside the room; allowed is 0\" to"));
}

TEST(SurveyCommand, HeightsInFrontOfTheEntryAreAskedForAsAnyNumberIsWritten) {
  // Source: the notation of lengths: ".5 in" and "1/2" are a half each, with a minus in front of either as well; a
  // tape that is hooked at the entry reads nothing in front of it.
  for (const char* y : {"-.5", "-1/2", "-0.5", "'-.5 in'"})
    EXPECT_THAT(run("heights " + ferry + " 30 " + y).out,
                HasSubstr("over 30\" from the left stud face, 1/2\" before the entry"))
        << y;
  EXPECT_THAT(run("heights " + ferry + " 30 .5").out, HasSubstr(", 1/2\" from the entry"));
}

TEST(SurveyCommand, HeightsAreOverThePlaceThatATapeReads) {
  // Source: by hand: the demo room's front is 3 ft longer to the left: diagonals of 108 by 36 and of 72 by 36 in. A
  // place typed 80 in from the left at the entry is told so again, and lies 44 from where the back wall begins: over a
  // front that is 108 in long 100 is a place as well.
  std::string text = sample::slurped(ferry);
  const std::size_t plan = text.find("[survey.plan]"), end = text.find("[survey.floor]");
  text.replace(plan, end - plan,
               "[survey.plan]\nback = \"72 in\"\nfront = \"108 in\"\nleft = \"50.9117 in\"\nright = \"36 in\"\n"
               "diagonal_from_back_left = \"80.4984 in\"\ndiagonal_from_back_right = \"113.8420 in\"\n\n");
  const sample::Folder folder{"heights-beside-the-wall"};
  const std::string job = folder / "job.toml";
  std::ofstream{job} << text;
  const sample::Ran ran = run("heights " + job + " 80 0");
  EXPECT_EQ(ran.code, 0) << ran.out;
  EXPECT_THAT(ran.out, HasSubstr("over 80\" from the left stud face, 0\" from the entry"));
  const sample::Ran json = run("heights --json " + job + " 80 0");
  const std::string x = "\"x_mm\": ";
  ASSERT_THAT(json.out, HasSubstr(x));
  EXPECT_NEAR(std::stod(json.out.substr(json.out.find(x) + x.size())) / 25.4, 44, 0.01);
  EXPECT_EQ(run("heights " + job + " 100 0").code, 0);
  EXPECT_EQ(run("heights " + job + " 100 35").code, 2) << "the back is 72 long";
}

TEST(SurveyCommand, AMistypedCommandIsToldTheNearest) {
  // Source: the contract of messages.
  const sample::Ran ran = run("chek " + ferry);
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, HasSubstr("there is no command 'chek'; did you mean 'check'?"));
  EXPECT_THAT(run("nonsense " + ferry).out, HasSubstr("there is no command 'nonsense'; there are build, check, "));
}

TEST(SurveyCommand, WhyStepsWaitIsToldOnceAndByALetterAtEach) {
  // Source: the contract of the order of work: a reason that many steps have is read once.
  const std::string steps = run("steps " + ferry).out;
  const auto count = [&](const std::string& words) {
    int found = 0;
    for (std::size_t at = steps.find(words); at != std::string::npos; at = steps.find(words, at + 1)) ++found;
    return found;
  };
  EXPECT_EQ(count("HOLD a: until the base is settled; no number is given: the check 'bore misses the joists' fails."),
            1);
  EXPECT_EQ(count("no number is given"), 1);
  EXPECT_GT(count(" HOLD a, "), 10);
  EXPECT_EQ(count("Then: "), 0);
}

TEST(SurveyCommand, AJobComesThroughStandardInput) {
  // Source: the contract of the command line.
  const sample::Ran file = run("takeoff " + ferry), input = run("takeoff - < " + ferry);
  EXPECT_EQ(input.code, 0) << input.out;
  EXPECT_EQ(input.out, file.out);
}

TEST(SurveyCommand, LevelRefusesWhatItCannotRead) {
  // Source: the contract of exit codes.
  EXPECT_EQ(run("level " + ferry).code, 2);
  EXPECT_THAT(run("level " + ferry + " backleft=0").out, HasSubstr("Places of the rim: back-left, back"));
  EXPECT_THAT(run("level " + ferry + " back-left=high").out, HasSubstr("back-left: found 'high'"));
  EXPECT_THAT(run("level " + ferry + " back-left=0 front-left=0").out, HasSubstr("at least three are needed"));
  // All that is wrong with them in one run, and the job file, which holds none of them, is not to blame.
  const std::string both = run("level " + ferry + " back-left=0 upstand-front=0").out;
  EXPECT_THAT(both, HasSubstr("no upstand stands at the front"));
  EXPECT_THAT(both, HasSubstr("at least three are needed"));
  EXPECT_THAT(both, Not(HasSubstr(ferry)));
}

TEST(SurveyCommand, HeightsOverAPoint) {
  // Source: the demo job: bed least 1/2 in under the ribs.
  const sample::Ran ran = run("heights " + ferry + " \"30 in\" \"18 in\"");
  EXPECT_EQ(ran.code, 0);
  for (const char* name : {"deck, underside here", "subfloor here", "bed, top here", "base, top here", "rib plane",
                           "bath floor outside", "seat, lowest edge"})
    EXPECT_THAT(ran.out, HasSubstr(name));
}

}  // namespace
}  // namespace fallwright
