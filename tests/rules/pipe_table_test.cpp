// What a plumber is told of the pipe below the floor, line by line; lengths left read no longer than they are, lengths
// to cut no shorter.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/limits.hpp"
#include "rules/pipe_table.hpp"
#include "rules/result_of.hpp"
#include "rules/trap_of.hpp"
#include "support/imperial.hpp"

namespace fallwright {
namespace {

using testing::ElementsAre, testing::HasSubstr, testing::StartsWith;

class PipeLines : public testing::Test {
 protected:
  PipeLines() {
    facts_.pipe = {};
    facts_.pipe.known = true;
    facts_.pipe.routed = true;
    facts_.room.as_set = {};
    job_.trap->hole = inches(2.375);
  }
  rules::PipeTable table() const { return rules::pipe_table(job_, facts_, rules::limits_for(job_), results_); }
  /// The lines behind that of the riser.
  std::vector<std::string> way() const {
    const auto lines = table().lines;
    return {lines.begin() + 1, lines.end()};
  }
  job::Job job_ = sample::trap(36, 0.25);
  facts::Facts facts_ = sample::facts_for_boundary();
  std::vector<rules::Result> results_;
};

TEST_F(PipeLines, TellHowLongTheRiserIsCut) {
  // Source: by hand: from the stop to the body's foot 5 in and a third of a sixteenth: at least what a joint reaches in
  // above that, rounded up; at most up to the grate's ledge at 8-3/4 and a third of a sixteenth, rounded down
  // to a sixty-fourth.
  EXPECT_THAT(table().lines.front(),
              HasSubstr("riser: not known; say how high the stop in the trap's hub lies (trap.hub)"));
  EXPECT_TRUE(table().known) << "its way is";
  facts_.pipe.riser_mm = (5 + 1. / 48) * in, facts_.pipe.riser_most_mm = (8.75 + 1. / 48) * in;
  job_.defaulted = {"drain.body_depth"};
  EXPECT_EQ(table().lines.front(),
            "riser: not known; measure how far the drain's body reaches below its top (drain.body_depth)");
  job_.defaulted.clear();
  const double reach = rules::limits_for(job_).at("rim.riser").least.value_or(0) / in;
  const double least = std::ceil((5 + 1. / 48 + reach) * 16) / 16;
  EXPECT_THAT(table().lines.front(),
              StartsWith("riser, from the stop in the trap's hub: cut it " +
                         units::to_text(job::Length::inches(least), false) + " long at least, 8-49/64\" at most; "));
  EXPECT_THAT(table().lines.front(),
              HasSubstr("the drain's body ends 5\" above the stop, floor and falls as modelled"));
  facts_.room.as_set.raised_mm = 1;
  EXPECT_THAT(table().lines.front(), HasSubstr("as the base was read in the bed"));
  facts_.pipe.known = false;
  EXPECT_FALSE(table().any());
}

TEST_F(PipeLines, TellNoLengthOfARiserThatIsNotPlumb) {
  // Source: none: no straight pipe joins a hub with a drain aside of it, on whichever side that is.
  facts_.pipe.riser_mm = 5 * in, facts_.pipe.riser_most_mm = 8.75 * in, facts_.pipe.aside_mm = 14.77 * in;
  rules::Result aside;
  aside.id = "trap.under-drain", aside.outcome = rules::Outcome::caution;
  results_ = {aside};
  EXPECT_EQ(table().lines.front(),
            "riser: none to cut; the hub stands 14-13/16\" aside of the drain, and a straight one does not join them "
            "(trap.from_left, trap.from_back)");
  for (const char* joist : {"joists/joist-02", "joists/joist-03"}) {
    facts_.pipe.offset_through = {joist};
    EXPECT_THAT(table().lines.front(), HasSubstr(std::string{"; a pipe that does goes through "} + (joist + 7)));
  }
  results_[0].outcome = rules::Outcome::pass;
  EXPECT_THAT(table().lines.front(), HasSubstr("cut it"));
}

TEST_F(PipeLines, TellWhereTheTrapIsSet) {
  // Source: none: what the job file says of it, as far as it does.
  EXPECT_THAT(table().lines.front(), StartsWith("riser: "));
  job_.trap->from_left = job_.trap->from_back = {};
  job_.trap->hub = job::Length::inches(-5.0625), job_.trap->weir = job::Length::inches(-7.0625);
  EXPECT_THAT(table().lines.front(), StartsWith("trap: the stop in its hub 5-1/16\" below the datum; its weir 7-1/16\" "
                                                "below the datum"));
  job_.trap->from_left = job::Length::inches(26.5), job_.trap->from_back = job::Length::inches(17);
  EXPECT_THAT(table().lines.front(), HasSubstr("; the hub's middle 26-1/2\" from the left stud face and 17\" from the "
                                               "back one"));
  job_.unit = job::UnitSystem::metric;
  EXPECT_THAT(table().lines.front(), StartsWith("trap: the stop in its hub 129 mm below the datum; its weir 179 mm "));
}

TEST_F(PipeLines, VoidAHoleThatBreaksOutOfItsJoistUnderAnyBook) {
  // Source: none: by hand, a hole of 2 in about 9-1/4 in down in a joist from 10 to 3/4 in down lacks a quarter at its
  // foot, about 1-1/2 in down as much at its top; no row of a book is needed for that.
  job_.book = "european";
  for (const auto& [down, cell] : {std::pair{9.25, 4}, {1.5, 3}}) {
    facts_.pipe.crossings = {{"joists/joist-02", 10 * in, -10 * in, -0.75 * in, -down * in, 2 * in}};
    facts_.pipe.crossings[0].modelled = down > 5;  // past the floor as well
    const auto row = table().rows.at(0);
    EXPECT_EQ(row[2], "VOID");
    EXPECT_EQ(row[static_cast<std::size_t>(cell)], "VOID: 1/4\" outside");
  }
}

TEST_F(PipeLines, TellWhatIsNotKnownOfTheWay) {
  // Source: the keys of the job file: what is said already is not asked for again.
  facts_.pipe.routed = false;
  const auto asked = [&] { return way().at(0).substr(std::string{"holes in joists: not known; say "}.size()); };
  job_.floor.joist_first = inches(3), job_.trap->to = job::Side::left, job_.trap->arm.reset();
  EXPECT_EQ(asked(), "how long it is from weir to vent (trap.arm)");
  job_.trap->arm = inches(36), job_.trap->to.reset();
  EXPECT_EQ(asked(), "to which side the arm runs (trap.to)");
  job_.floor.joist_first.reset();
  EXPECT_EQ(asked(), "to which side the arm runs (trap.to) and where the joists are (floor.joists.first)");
  EXPECT_FALSE(table().known);
  job_.floor.joist_first = inches(3), job_.trap->to = job::Side::left;
  facts_.pipe.unplaced_bend = true;
  job_.trap->bends = {{90, {}, job::Side::back}};
  EXPECT_EQ(asked(), "after what length it bends (trap.bend.after)");
  job_.trap->bends = {{90, inches(12), {}}};
  EXPECT_EQ(asked(), "to which side it runs from there (trap.bend.to)");
  job_.trap->bends = {{45, {}, {}}};
  EXPECT_THAT(way(), ElementsAre(StartsWith("holes in joists: not known; the trap arm bends by 45 degrees")));
  job_.floor.kind = job::FloorKind::slab;
  EXPECT_THAT(way(), ElementsAre());
}

TEST_F(PipeLines, TellABayThatTheArmRunsAlong) {
  // Source: by hand.
  EXPECT_THAT(way(), ElementsAre("the trap arm reaches no joist"));
  facts_.pipe.bay = "joists/joist-03 and joists/joist-04";
  EXPECT_THAT(way(), ElementsAre("the arm runs along the bay of joist-03 and joist-04: no joist is bored"));
  facts_.pipe.beside_mm = 4 * in;
  EXPECT_THAT(way(),
              ElementsAre("the arm runs along the bay of joist-03 and joist-04, 4\" from the nearer: no joist is "
                          "bored"));
  facts_.pipe.beside_mm = -0.5 * in;
  EXPECT_THAT(way(), ElementsAre("THE ARM LIES IN A JOIST, by 1/2\", along the bay of joist-03 and joist-04"));
  facts_.pipe.beside_mm.reset(), facts_.pipe.bay.clear();
  facts_.pipe.hub_in = facts::HubInJoist{"joists/joist-03", true, 0.5 * in, 2 * in};
  EXPECT_THAT(way(), ElementsAre("THE TRAP STANDS IN A JOIST, by 1/2\": joist-03"));
}

TEST_F(PipeLines, TellEachJoistAndWhatIsLeftOfIt) {
  // Source: by hand: a joist of 9-1/4 in whose top lies 3/4 in down; the arm 4 in and a third of a sixteenth below the
  // datum through a hole of 2-3/8 leaves 2-5/64 above it (2.0833 rounded down) and 4-25/32 below it (4.7917); a third
  // of the joist is 3-5/64, rounded down. Past the modelled floor nothing is known of heights.
  facts::JoistCrossing c{"joists/joist-02", 10 * in, -10 * in, -0.75 * in, -(4 + 1. / 48) * in, 2.375 * in};
  c.along_mm = 300;
  facts::JoistCrossing past{"1 past joist-06", 26 * in, -10 * in, -0.75 * in};
  past.modelled = false;
  facts_.pipe.crossings = {c, past};
  const rules::PipeTable t = table();
  EXPECT_THAT(t.rows,
              ElementsAre(ElementsAre("joist-02", "10\"", "4\" below", "2-5/64\"", "4-25/32\"", "2-3/8\"", "3-5/64\""),
                          ElementsAre("1 past joist-06", "26\"", "?", "?", "?", "?", "3-5/64\"")));
  EXPECT_THAT(way(), ElementsAre(StartsWith("joists named \"past\" lie outside the floor that was described"),
                                 StartsWith("holes 2\" or more from each other and from any notch")));
  // A hole of 2-3/8 in whose middle lies 1-1/4 in down reaches 11/16 out of the joist over it: said, with no minus.
  facts_.pipe.crossings = {c};
  facts_.pipe.crossings[0].centre_mm = -1.25 * in;
  EXPECT_THAT(table().rows[0], testing::Contains("VOID: 11/16\" outside"));
  for (const std::string& cell : table().rows[0]) EXPECT_FALSE(cell.starts_with('-')) << cell;
  facts_.pipe.crossings = {c, past};
  job_.unit = job::UnitSystem::metric;  // 50.8, rounded up
  EXPECT_THAT(way().back(), StartsWith("holes 51 mm or more from each other and from any notch"));
  job_.unit = job::UnitSystem::inch;
  facts_.pipe.bay = "joists/joist-05 and joists/joist-06", facts_.pipe.beside_mm = 3 * in;
  EXPECT_EQ(way().front(),
            "the arm runs along the bay of joist-05 and joist-06, 3\" from the nearer: none is bored there");
}

TEST_F(PipeLines, TellNoHoleThatNobodySaid) {
  // Source: by hand: no pipe goes through a hole as wide as it is outside: where the hole is not said, neither it nor
  // what it leaves is a number to work to. One that is past its joist's edge with the pipe alone is so with any hole.
  facts::JoistCrossing c{"joists/joist-02", 10 * in, -10 * in, -0.75 * in, -4 * in, 2.375 * in};
  c.along_mm = 300;
  facts_.pipe.crossings = {c};
  job_.trap->hole.reset();
  EXPECT_THAT(table().rows, ElementsAre(ElementsAre("joist-02", "10\"", "4\" below", "?", "?", "?", "3-5/64\"")));
  EXPECT_EQ(way().back(), "how wide the arm's holes are is not said (trap.hole): wider than its pipe, 2-3/8\" outside");
  facts_.pipe.crossings[0].centre_mm = -1.25 * in;
  EXPECT_THAT(table().rows[0], testing::Contains("VOID: 11/16\" outside"));
}

TEST_F(PipeLines, VoidWhatAFailingCheckRejectsAndNameJoistsByTheirCentres) {
  // Source: by hand: a joist from -10 to -3/4 in, the arm in its middle at -7 through a hole of 2 in: 5-1/4 in are left
  // above it, 2 in below: at another one of the same joist 1 in lower 1 in is. Asked for are 2 in (IRC R502.8.1), and a
  // hole of 2-3/8 in for a 2 in pipe. The joists' solids lie from 46 to 47-1/2 and from 62 to 63-1/2, the tape is
  // hooked at -1/4: their centres are at 47 and 63.
  const auto joist = [&](const char* id, double from) {
    facts::Part part;
    part.id = id, part.which.family.role = facts::Role::joist;
    part.bbox_mm = {from * in, 0, -10 * in, (from + 1.5) * in, 900, -0.75 * in};
    facts_.parts.push_back(part);
  };
  facts_.parts.clear();
  joist("joists/joist-02", 46), joist("joists/joist-03", 62);
  facts_.room.drain.along_width = true, facts_.room.drain.left_face_mm = -0.25 * in;
  facts_.pipe.crossings = {{"joists/joist-02", 10 * in, -10 * in, -0.75 * in, -7 * in, 2 * in},
                           {"joists/joist-03", 26 * in, -10 * in, -0.75 * in, -8 * in, 2 * in}};
  facts::JoistCrossing past{"1 past joist-03", 42 * in, -10 * in, -0.75 * in};
  past.modelled = false;
  facts_.pipe.crossings.push_back(past);
  const auto fails = [&](const char* id, double least_in) {
    rules::Result r;
    r.id = id, r.outcome = rules::Outcome::fail, r.measured = 0, r.limit.least = least_in * in;
    results_.push_back(r);
  };
  EXPECT_EQ(table().rows[1][4], "1\"") << "nothing fails";
  fails("joist.hole-edges", 2), fails("joist.hole-for-pipe", 2.375);
  EXPECT_THAT(table().head.front(), "joist at");
  EXPECT_THAT(
      table().rows,
      ElementsAre(
          ElementsAre("47\"", "10\"", "7\" below", "5-1/4\"", "2\"", "VOID: at least 2-3/8\"", "3-5/64\""),
          ElementsAre("63\"", "26\"", "VOID", "6-1/4\"", "VOID: at least 2\"", "VOID: at least 2-3/8\"", "3-5/64\""),
          ElementsAre("1 past 63\"", "42\"", "?", "?", "?", "?", "3-5/64\"")));
  EXPECT_THAT(way(), testing::Contains(
                         testing::EndsWith("; joists by their centres from the left stud face, level with the bore")));
  facts_.pipe.bay = "joists/joist-02 and joists/joist-03";
  EXPECT_THAT(way().front(),
              HasSubstr("along the bay of the joist at 47\" from the left stud face and the joist at 63"));
  facts_.pipe.crossings.clear();
  EXPECT_THAT(way().front(), HasSubstr("63\" from the left stud face, level with the bore: no joist is bored"))
      << "where no table says it";
}

TEST_F(PipeLines, TellNoBoreOfAnArmThatLiesInNotches) {
  // Source: by hand: a joist from -10-1/8 to -7/8 in; the arm's middle at -6-7/16 and it 2-3/8 thick reaches up to
  // -5-1/4: 4-7/8 from the bottom, 6-3/4 from the top, and 4-3/8 of 9-1/4 are left; a sixth is 1-17/32, rounded down.
  // With its middle at -2-1/2 it reaches down to -3-11/16, 2-13/16 from the top. The one joist of these
  // facts stands from 700 to 738.1: its middle is at 719.05 mm, 28-5/16.
  job_.trap->notch = job::Length::inches(1), job_.trap->hole.reset();
  facts::JoistCrossing low{"joists/joist-03", 8.25 * in, -10.125 * in, -0.875 * in, -6.4375 * in, 2.375 * in};
  facts::JoistCrossing high{"joists/joist-02", 24.25 * in, -10.125 * in, -0.875 * in, -2.5 * in, 2.375 * in};
  facts::JoistCrossing past{"1 past joist-01", 40 * in, -10.125 * in, -0.875 * in};
  past.modelled = false;
  facts_.pipe.crossings = {low, high, past};
  const rules::PipeTable t = table();
  EXPECT_TRUE(t.notched);
  EXPECT_THAT(t.head, testing::Not(testing::Contains(HasSubstr("hole"))));
  EXPECT_THAT(t.rows,
              ElementsAre(ElementsAre("joist-03", "8-1/4\"", "below", "4-7/8\"", "4-3/8\"", "2-3/8\"", "1-17/32\""),
                          ElementsAre("joist-02", "24-1/4\"", "above", "2-13/16\"", "6-7/16\"", "2-3/8\"", "1-17/32\""),
                          ElementsAre("1 past 28-5/16\"", "40\"", "?", "?", "?", "?", "1-17/32\"")));
  for (const std::string& line : t.lines) EXPECT_THAT(line, testing::Not(HasSubstr("bored level")));
  job_.trap->hole = job::Length::inches(2.5);
  EXPECT_FALSE(table().notched) << "it takes a hole where a notch does not do";
}

TEST_F(PipeLines, TellTheHoleThatTheChecksAllow) {
  // Source: IRC R502.8.1 (2018), by hand: of 9-1/4 in a third, 3-1/12; of 5-1/2 what 2 in above and below leave, 1-1/2;
  // of 3-1/2 none. A county's 2 in, and with its 3 in to the edges of 9-1/4 in 3-1/4, of 7-1/4 1-1/4. A book without
  // joists has no limit.
  const auto most = [&](double deep_in) {
    facts_.pipe.crossings = {{"joists/joist-02", 10 * in, -10 * in, (deep_in - 10) * in, -8 * in, 1 * in}};
    return table().rows.at(0).back();
  };
  EXPECT_EQ(most(9.25), "3-5/64\"");
  EXPECT_EQ(most(5.5), "1-1/2\"");
  EXPECT_EQ(most(3.5), "none");
  const auto own = [](const char* id, const char* bound) {
    return std::string{"[[limit]]\nid = \""} + id + "\"\nunit = \"length\"\n" + bound +
           "\nsource = \"county 7\"\nverified = \"set by the user\"\n";
  };
  job_.book_override = {"county.toml", "title = \"county\"\n" + own("joist.hole", "greatest = \"2 in\"") +
                                           own("joist.hole-edges", "least = \"3 in\"")};
  EXPECT_EQ(most(9.25), "2\"");
  EXPECT_EQ(most(7.25), "1-1/4\"");
  EXPECT_THAT(way()[0], HasSubstr("holes 3\" or more from each other and from any notch (county 7"));
  job_.book_override = {};
  job_.book = "metric";
  EXPECT_EQ(most(9.25), "-");
  EXPECT_THAT(way()[0], testing::Not(HasSubstr("R502")));
}

TEST_F(PipeLines, TellHolesThatAreThereAlready) {
  // Source: by hand: centres 100 mm apart on one joist, holes of 2-3/8 and 1 in: 100 - 42.8625 = 57.1375 mm are 2-15/64
  // in, rounded down. Nearer by 80 they run into each other by 22.8625: 15/16 in, rounded up.
  facts::JoistCrossing c{"joists/joist-02", 10 * in, -10 * in, -0.75 * in, -100, 2.375 * in};
  c.along_mm = 300;
  facts_.pipe.crossings = {c};
  facts_.pipe.holes = {{"joists/joist-02", 400, -100, 1 * in}, {"joists/joist-03", 300, -100, 1 * in}};
  ASSERT_EQ(way().size(), 2u);
  EXPECT_EQ(way()[1], "joist-02: a hole of 1\" is there already, 2-15/64\" of wood between the two");
  facts_.pipe.holes[0].along_mm = 320;
  EXPECT_EQ(way()[1], "joist-02: a hole of 1\" is there already: they run into each other by 15/16\"");
  facts_.pipe.holes.clear();
  facts_.pipe.crossings.push_back(c);
  facts_.pipe.crossings[1].along_mm = 450;
  EXPECT_EQ(way()[1], "joist-02: the arm crosses it twice, 3-33/64\" of wood between the two");
}

TEST_F(PipeLines, TellWhereTheArmBendsAndWhereItsHolesStand) {
  // Source: by hand: 14 in from the weir a bend to the back, its corner 44-3/4 in from the left and 30 from the back,
  // its holes as far from the left along joists that run across the room.
  job_.floor.joist_direction = job::Direction::along_width;
  job_.trap->from_left = inches(30.75), job_.trap->from_back = inches(30), job_.trap->cleanout = true;
  job_.trap->bends = {{90, inches(14), job::Side::back}};
  facts_.pipe.bends = {{14 * in, 90, job::Side::back, 44.75 * in, 30 * in}};
  facts_.pipe.crossings = {{"joists/joist-02", 24 * in, -10 * in, -0.75 * in, -5 * in, 2 * in},
                           {"joists/joist-03", 40 * in, -10 * in, -0.75 * in, -5 * in, 2 * in}};
  for (facts::JoistCrossing& c : facts_.pipe.crossings) c.off_face_mm = 44.75 * in;
  const auto lines = way();
  EXPECT_EQ(lines.at(0),
            "the arm bends 14\" from the weir, by 90 degrees, and runs to the back from there: corner "
            "44-3/4\" from the left stud face and 30\" from the back one");
  EXPECT_THAT(lines.at(1), HasSubstr("farther on by what the trap is long; a cleanout serves its bends"));
  EXPECT_THAT(lines, testing::Contains("along their joists they stand 44-3/4\" from the left stud face"));
  job_.trap->cleanout = false;
  EXPECT_THAT(way().at(1), HasSubstr("NO CLEANOUT"));
  job_.floor.joist_direction = job::Direction::along_depth;
  facts_.pipe.crossings[1].off_face_mm = 12 * in;
  EXPECT_THAT(way(), testing::Contains("along their joists they stand 44-3/4\" from the back stud face, then 12\" from "
                                       "the back stud face, in the order of the table"));
}

TEST_F(PipeLines, PutInBracketsWhatHangsOnAHubThatNobodyRead) {
  // Source: none: the hub is taken to be under the drain, and each number that comes of it says so.
  job_.trap->from_left = inches(30), job_.trap->from_back = inches(20);
  facts_.pipe.riser_mm = 5 * in, facts_.pipe.riser_most_mm = 8 * in, facts_.pipe.beside_mm = 2 * in;
  facts_.pipe.bay = "joists/joist-02",
  facts_.pipe.crossings = {{"joists/joist-02", 24 * in, -10 * in, -0.75 * in, -5 * in}};
  const auto all = [&] {
    std::string text;
    for (const std::string& line : table().lines) text += line + "\n";
    return text;
  };
  EXPECT_THAT(all(), testing::Not(HasSubstr("NOT READ")));
  EXPECT_EQ(table().rows.at(0)[1], "24\"");
  job_.trap->from_back.reset();
  EXPECT_THAT(all(), HasSubstr("THE HUB'S PLACE IS NOT READ: it is taken to stand under the drain's middle"));
  EXPECT_THAT(all(), HasSubstr("(trap.from_back)"));
  EXPECT_THAT(all(), HasSubstr(", (8\") at most"));
  EXPECT_THAT(all(), HasSubstr(", (2\") from the nearer"));
  EXPECT_EQ(table().rows.at(0)[1], "(24\")");
  EXPECT_EQ(table().rows.at(0)[2], "(5\" below)");
}

TEST_F(PipeLines, VoidAHoleInAJoistPastTheFloorThatBreaksTheLimit) {
  // Source: by hand: of two holes alike, 1-21/32 in over the joist's foot where 2 in are asked, the check judges the
  // one in the floor that was described, and marks the other by the same limit however it comes out itself.
  rules::Result edges;
  edges.id = "joist.hole-edges", edges.outcome = rules::Outcome::caution, edges.limit.least = 2 * in;
  edges.limit.unit = rules::Unit::mm;
  results_ = {edges};
  facts_.pipe.crossings = {{"1 past joist-02", 40 * in, -10 * in, -0.75 * in, (-10 + 1.65625 + 1) * in, 2 * in}};
  facts_.pipe.crossings[0].modelled = false;
  EXPECT_EQ(table().rows.at(0)[2], "VOID");
  EXPECT_EQ(table().rows.at(0)[4], "VOID: at least 2\"");
  facts_.pipe.crossings[0].centre_mm = -7 * in;  // at its limit
  EXPECT_EQ(table().rows.at(0)[4], "2\"");
}

TEST(TrapWeir, ReadAboveTheHubsStopAsksWhetherTheTwoWereExchanged) {
  // Source: by hand: water stands as high as the weir, and with it 1 in over the stop in the joint of the riser. At the
  // stop itself it does not; a weir that is too low fails whatever the hub is.
  for (const auto unit : {job::UnitSystem::inch, job::UnitSystem::metric}) {
    job::Job job = sample::trap(36, 0.25);
    job.unit = unit;
    facts::Facts facts = sample::facts_for_boundary();
    facts.pipe.down_to_weir_mm = 5 * in;
    const auto below = [&](double hub_in, double weir_in) {
      job.trap->hub = inches(hub_in), job.trap->weir = inches(weir_in);
      return sample::result_of(job, facts, "trap.below");
    };
    EXPECT_EQ(below(-7, -8).outcome, rules::Outcome::pass);
    EXPECT_EQ(below(-8, -8).outcome, rules::Outcome::pass);
    EXPECT_EQ(below(-8, -7).outcome, rules::Outcome::caution);
    EXPECT_NE(below(-8, -7).advice.find(unit == job::UnitSystem::inch ? "read 1\" above" : "read 25 mm above"),
              std::string::npos)
        << below(-8, -7).advice;
    // Whatever book is asked, and whatever else was not read, the plumber is told.
    EXPECT_NE(
        rules::pipe_table(job, facts, rules::limits_for(job), {}).lines.at(0).find("READ THE TRAP AGAIN: the weir"),
        std::string::npos);
    facts.pipe.down_to_weir_mm = 30 * in;
    EXPECT_EQ(below(-8, -7).outcome, rules::Outcome::fail);
  }
}

}  // namespace
}  // namespace fallwright
