// Lines of the job file that a broken check asks for: their numbers, and the way a thing has to go.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/boundary_cases.hpp"
#include "rules/good_facts.hpp"
#include "rules/remedy.hpp"
#include "rules/result_of.hpp"
#include "rules/trap_of.hpp"
#include "support/imperial.hpp"

namespace fallwright::rules {
namespace {

using job::Length;
using testing::ElementsAre;
using testing::HasSubstr;

std::vector<std::string> lines_of(const Result& r) {
  std::vector<std::string> lines;
  for (const Remedy& remedy : r.remedies)
    for (const job::Change& change : remedy.changes) lines.push_back(job::text_of(change));
  return lines;
}

TEST(RemedyLines, ATrapThatHangsTooLowIsRaisedWhole) {
  // Source: IRC P3201.6 (2021): a tailpiece of 24 in at most. By hand: 26-1/3 lacks 2-1/3, on the tape 2-3/8: a weir 30
  // below the datum comes to 27-5/8 below it, its hub, 6 below, to 3-5/8.
  job::Job job = sample::trap(36, 0.25);
  job.trap->weir = Length::inches(-30);
  facts::Facts facts = sample::facts_for_boundary();
  facts.pipe.down_to_weir_mm = (26 + 1. / 3) * in;
  const auto now = [&] { return sample::result_of(job, facts, "trap.below"); };
  EXPECT_THAT(now().advice, HasSubstr("raise the trap by 2-3/8\" (trap.weir)"));
  EXPECT_THAT(lines_of(now()), ElementsAre("trap.weir = \"-27-5/8 in\""));
  job.trap->hub = Length::inches(-6);
  EXPECT_THAT(now().advice, HasSubstr("(trap.weir, trap.hub)"));
  EXPECT_THAT(lines_of(now()), ElementsAre("trap.weir = \"-27-5/8 in\"", "trap.hub = \"-3-5/8 in\""));
  facts.pipe.down_to_weir_mm = 24 * in;
  EXPECT_THAT(lines_of(now()), ElementsAre()) << "which holds";
}

TEST(RemedyLines, AFallIsToldAsSomebodySetsIt) {
  // Source: closed form: 1:48 is 2.0833 % and 1/4 in/ft, 1:96 half of each, 2 % are 1:50; 0.0213 is no such thing.
  job::Job job = sample::alcove();
  EXPECT_EQ(fall_in_full(1. / 48, job), "1/4 in/ft (1:48)");
  job.unit = job::UnitSystem::metric;
  EXPECT_EQ(fall_in_full(1. / 48, job), "1:48 (2.08 %)");
  EXPECT_EQ(fall_in_full(1. / 96, job), "1:96 (1.04 %)");
  EXPECT_EQ(fall_in_full(0.02, job), "2.00 % (1:50)");
  EXPECT_EQ(set_fall("base.fall", 1. / 48, job).value, "\"1:48\"");
  EXPECT_THAT(fall_in_full(0.02130001, job), HasSubstr("2.130001"));
}

TEST(RemedyLines, ADrainGoesTheWayThatItsWindowLies) {
  // Source: by hand: right of where it is, left, behind it, before it, however little; on a mark of the tape where that
  // keeps clear, else as far as it has to. Distances from the right and from the back shrink as it goes there.
  struct Row {
    bool across;
    double by_mm;
    const char *way, *from_near, *from_far;
  };
  for (const Row& row :
       {Row{true, 12.7, "1/2\" to the right", "drain.from_left = \"20-1/2 in\"", "drain.from_right = \"19-1/2 in\""},
        {true, -12.7, "1/2\" to the left", "drain.from_left = \"19-1/2 in\"", "drain.from_right = \"20-1/2 in\""},
        {false, 12.7, "1/2\" to the back", "drain.from_front = \"20-1/2 in\"", "drain.from_back = \"19-1/2 in\""},
        {false, -12.7, "1/2\" to the front", "drain.from_front = \"19-1/2 in\"", "drain.from_back = \"20-1/2 in\""},
        {true, 0.5, "1/16\" to the right", "drain.from_left = \"20-1/16 in\"", "drain.from_right = \"19-15/16 in\""},
        {false, -0.5, "1/16\" to the front", "drain.from_front = \"19-15/16 in\"", "drain.from_back = \"20-1/16 in\""}})
    for (const bool near : {true, false}) {
      job::Job job = sample::alcove();
      job.base.made = job::Made::to_order;
      job.drain.across = {near ? job::Side::left : job::Side::right, Length::inches(20)};
      job.drain.along = {near ? job::Side::front : job::Side::back, Length::inches(20)};
      facts::Facts facts = sample::good_facts();
      facts.drain.bore_to_joist_mm = -4;
      facts::DrainWindow& w = facts.room.drain;
      w.joists_known = w.any = true, w.along_width = row.across;
      w.now_mm = w.nearest_mm = {700, 400, 0}, w.moved_mm = std::abs(row.by_mm);
      w.nearest_mm[row.across ? 0 : 1] += row.by_mm;
      w.free_mm = {{0, 2000}};
      const Result r = sample::result_of(job, facts, "drain.bore-clear-of-joists");
      EXPECT_THAT(r.advice, HasSubstr(std::string{"move the drain "} + row.way + ", its centre at"));
      EXPECT_THAT(lines_of(r), ElementsAre(near ? row.from_near : row.from_far)) << row.way;
    }
}

TEST(RemedyLines, AChannelWhoseOutletWasNotSaidIsMovedFromItsMiddle) {
  // Source: by hand: from the threshold, 4 in, to the upstand 1/2 in before the back the middle is 16-1/4 in from the
  // back edge; between upstands of 1/2 in on a base of 57-1/2 in 28-3/4 in from its left edge. An inch to the back or
  // to the right from there.
  for (const bool along_width : {true, false}) {
    job::Job job = sample::alcove();
    job.base.made = job::Made::to_order;
    job.drain.kind = job::DrainKind::line, job.drain.channel_length = {}, job.drain.size = Length::inches(2.5);
    job.drain.channel_direction = along_width ? job::Direction::along_width : job::Direction::along_depth;
    (along_width ? job.drain.across : job.drain.along) = (along_width ? job::Drain{}.across : job::Drain{}.along);
    facts::Facts facts = sample::good_facts();
    facts.drain.bore_to_joist_mm = -4;
    facts::DrainWindow& w = facts.room.drain;
    w.joists_known = w.any = true, w.along_width = along_width;
    w.now_mm = w.nearest_mm = {700, 400, 0}, w.moved_mm = 1 * in;
    w.nearest_mm[along_width ? 0 : 1] += w.moved_mm;
    w.free_mm = {{0, 2000}};
    EXPECT_THAT(lines_of(sample::result_of(job, facts, "drain.bore-clear-of-joists")),
                ElementsAre(along_width ? "drain.from_left = \"29-3/4 in\"" : "drain.from_back = \"15-1/4 in\""));
    job.base.made = job::Made::bought;
    EXPECT_THAT(sample::result_of(job, facts, "drain.bore-clear-of-joists").advice,
                HasSubstr(along_width ? "29-3/4\" from its left edge" : "15-1/4\" from its back edge"));
  }
}

TEST(RemedyLines, ABoughtBaseGoesTheWayThatItsDrainsWindowLies) {
  // Source: by hand: in the middle of 30 mm the base goes 15 either way and never to the back. Another base's drain
  // stands further from its left edge where the window lies to the right, nearer to its back where it lies behind.
  struct Row {
    bool across;
    double by_mm;
    const char *whole, *another;
  };
  for (const Row& row :
       {Row{true, 0.5, "set the whole base 1/16\" to the right", nullptr},
        {true, -0.5, "set the whole base 1/16\" to the left", nullptr},
        {true, 50.8, "the room lets the base go 9/16\" to the right, not the 2\"", "22\" from its left edge"},
        {true, -50.8, "the room lets the base go 9/16\" to the left, not the 2\"", "18\" from its left edge"},
        {false, 0.5, "the room does not let the base go to the back", "10\" from its back edge"},
        {false, 25.4, "the room does not let the base go to the back", "9\" from its back edge"},
        {false, -25.4, "the room does not let the base go to the front", "11\" from its back edge"}}) {
    job::Job job = sample::alcove();
    job.base.made = job::Made::bought;
    job.bench.reset();
    job.drain.across = {job::Side::left, Length::inches(20)};
    job.drain.along = {job::Side::back, Length::inches(10)};
    facts::Facts facts = sample::good_facts();
    facts.drain.bore_to_joist_mm = -4;
    for (facts::Opening& o : facts.openings)
      if (o.axis == facts::Axis::width) o.left_over_mm = 30;
    facts::DrainWindow& w = facts.room.drain;
    w.joists_known = w.any = true, w.along_width = row.across;
    w.now_mm = w.nearest_mm = {700, 400, 0}, w.moved_mm = std::abs(row.by_mm);
    w.nearest_mm[row.across ? 0 : 1] += row.by_mm;
    const Result r = sample::result_of(job, facts, "drain.bore-clear-of-joists");
    EXPECT_THAT(r.advice, HasSubstr(row.whole));
    if (row.another) {
      EXPECT_THAT(r.advice, HasSubstr(std::string{"buy a base whose drain stands "} + row.another));
    }
  }
}

TEST(RemedyLines, ABedWithoutVolumeIsSaidToHaveNone) {
  // Source: none; what is wrong is named, not that a sum of it came to no number.
  facts::Facts facts = sample::good_facts();
  facts.bed.set_mm3 = 0, facts.bed.squeeze_out_mm3 = 1e6;
  for (const char* id : {"bed.squeeze-out", "bed.fills-shell"})
    EXPECT_THAT(sample::result_of(sample::alcove(), facts, id).advice, HasSubstr("the bed has no volume"));
}

TEST(RemedyLines, OfFixturesTheLowOnesAloneGoUp) {
  // Source: by hand: of three the first lacks 0.4 of an inch, on the tape 7/16, the last 1/4; what is high enough
  // stays.
  job::Job job = sample::job_for({});
  job.fixtures = {{"rail", job::Side::left, Length::inches(24), Length::inches(30), {}, {}},
                  {"shelf", job::Side::back, Length::inches(24), Length::inches(60), {}, {}},
                  {"grab bar", job::Side::back, Length::inches(40), Length::inches(34), {}, {}}};
  facts::Facts facts = sample::facts_for_boundary();
  facts.backings = {{"rail", job::Side::left, 30 * in, 1, 0, false, 0.6 * in, 0, 0, 0},
                    {"shelf", job::Side::back, 60 * in, 1, 0, false, 30 * in, 0, 0, 1},
                    {"grab bar", job::Side::back, 34 * in, 1, 0, false, 0.75 * in, 0, 0, 2}};
  const Result r = sample::result_of(job, facts, "fixture.above-water");
  EXPECT_THAT(lines_of(r), ElementsAre("fixture.height = \"30-7/16 in\"",
                                       "fixture.height = \"34-1/4 in\" (in that section's entry 3)"));
}

TEST(RemedyLines, FixturesThatAreCalledAlikeAreToldApart) {
  // Source: by hand: a plate 3 in tall is backed by one row of 3-1/2 in at its middle, one 9 in tall by three on top of
  // each other; the low one alone lacks 0.4 of an inch, on the tape 7/16.
  job::Job job = sample::job_for({});
  job.walls.blocking.clear();
  job.fixtures = {
      {"hinge", job::Side::right, Length::inches(24), Length::inches(20), Length::inches(3), Length::inches(3)},
      {"hinge", job::Side::right, Length::inches(24), Length::inches(60), Length::inches(3), Length::inches(9)}};
  facts::Facts facts = sample::facts_for_boundary();
  facts.backings = {{"hinge", job::Side::right, 20 * in, 0, 0, false, 0.6 * in, 0, 0, 0},
                    {"hinge", job::Side::right, 60 * in, 0, 0, false, 30 * in, 0, 0, 1}};
  const Result behind = sample::result_of(job, facts, "blocking.behind");
  EXPECT_THAT(lines_of(behind), ElementsAre("walls.blocking = [\"20 in\", \"56-1/2 in\", \"60 in\", \"63-1/2 in\"]"));
  EXPECT_THAT(behind.advice, HasSubstr("behind 'hinge' at 20\", 'hinge' at 60\" ("));
  const Result water = sample::result_of(job, facts, "fixture.above-water");
  EXPECT_THAT(lines_of(water), ElementsAre("fixture.height = \"20-7/16 in\""));
  EXPECT_THAT(water.advice, HasSubstr("raise 'hinge' at 20\" on the right wall"));
}

TEST(RemedyLines, ARowOfBlockingLiesOnTheSolePlateAndBelowTheTopPlates) {
  // Source: by hand: on a plate of 1-1/2 in the middle of a 3-1/2 in row is 3-1/4 up at least; in 96 in of wall, under
  // two top plates, 91-1/4 at most. What such a row leaves of the plates below 1-1/2 and above 93 they back themselves.
  job::Job job = sample::job_for({});
  facts::Facts facts = sample::facts_for_boundary();
  const auto line = [&](double height, std::vector<Length> there) {
    job.walls.blocking = std::move(there);
    job.fixtures = {
        {"soap", job::Side::right, Length::inches(24), Length::inches(height), Length::inches(3), Length::inches(3)}};
    facts.backings = {{"soap", job::Side::right, height * in, 0, 0, false, 30 * in, 0, 0, 0}};
    return lines_of(sample::result_of(job, facts, "blocking.behind"));
  };
  job.alcove.height = Length::inches(96), job.walls.top_plates = 2;
  EXPECT_THAT(line(2, {}), ElementsAre("walls.blocking = [\"3-1/4 in\"]"));
  EXPECT_THAT(line(94, {}), ElementsAre("walls.blocking = [\"91-1/4 in\"]"));
  EXPECT_THAT(line(3.25, {Length::inches(5)}), ElementsAre("walls.blocking = [\"3-1/4 in\"]"))
      << "in its place: below it none lies on the plate";
}

TEST(RemedyLines, AHandIsToldFromHalfAnInchOffTheMiddleOn) {
  // Source: common practice, no source: half an inch of it, on either side, tells a base of the other hand; less than
  // that is a base whose drain is bored in its middle, which can be moved.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::bought, job.walls.existing = true;
  facts::Facts facts = sample::good_facts();
  facts::Bought& bought = facts.bought.emplace();
  bought.waste_back_mm = 0;
  const auto of_other_hand = [&](double drain_mm, double waste_mm) {
    bought.drain_aside_mm = drain_mm, bought.waste_aside_mm = waste_mm;
    return sample::result_of(job, facts, "base.over-waste").advice.find("of the other hand") != std::string::npos;
  };
  EXPECT_TRUE(of_other_hand(12.7, -12.7));
  EXPECT_TRUE(of_other_hand(-12.7, 12.7));
  EXPECT_FALSE(of_other_hand(12.6, -200));
  EXPECT_FALSE(of_other_hand(200, -12.6));
  EXPECT_FALSE(of_other_hand(200, 20));
}

}  // namespace
}  // namespace fallwright::rules
