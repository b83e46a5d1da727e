// What stands between the bench's plates: cut lengths against the courses they stand in, what holds its sole down, and
// its front view on small paper.
#include <algorithm>
#include <cmath>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/bench.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

using testing::HasSubstr;

Drawn at_random(unsigned seed, bool small) {
  job::Job job = job::read(sample::random_room(seed), "random.toml");
  if (small) job.drawings.paper = job.is_metric() ? job::PaperSize::a4 : job::PaperSize::letter;
  return drawn(job, false);
}

/// As the cut list has a stud's length; and its mark.
std::pair<double, std::string> cut_of(const Drawn& d, const std::string& id) {
  for (const takeoff::CutRow& cut : d.cuts)
    if (std::find(cut.part_ids.begin(), cut.part_ids.end(), id) != cut.part_ids.end()) return {cut.length_mm, cut.mark};
  return {0, "?"};
}

std::string notes_below(const Sheet& sheet) {
  std::string all;
  for (const std::string& note : sheet.notes) all += note + "\n";
  return all;
}

TEST(BenchCourses, AreAsHighAsTheStudThatStandsInThemIsCut) {
  // Source: the cut list, and the solids: between sole and top plate stands the stud of that end. One that is cut down
  // to a whole mark may be a mark shorter, and is then named as one to pack over.
  int exact = 0, to_tape = 0;
  for (const unsigned seed : {70008u, 70016u, 70001u, 70002u, 70003u, 70004u, 70005u}) {
    const Drawn d = at_random(seed, false);
    if (!d.model->job.bench || d.model->job.bench->frame.kind != job::FrameKind::timber) continue;
    const Sheet& front = d.sheet("bench-front");
    const double mark = d.model->job.mark_mm();
    for (const Dimension& course : front.dimensions) {
      if (course.chain <= 0 || std::abs(course.from.x - course.to.x) > 1) continue;
      for (const parts::Solid& solid : d.model->solids) {
        if (!solid.part.is(facts::Role::bench_frame, facts::Kind::stud)) continue;
        const auto& box = std::find_if(d.facts.parts.begin(), d.facts.parts.end(), [&](const facts::Part& part) {
                            return part.id == solid.id;
                          })->bbox_mm;
        // A chain's own end has its stud: both begin at the same height.
        if (std::abs(box[2] - course.from.y) > 0.01) continue;
        const auto [length, letter] = cut_of(d, solid.id);
        const std::string said = number_of(length, d.model->job.is_metric());
        if (box[5] > course.to.y - 0.05) {
          EXPECT_EQ(course.words, said) << seed << ": " << letter;
          ++exact;
        } else {
          EXPECT_LT(course.to.y - box[5], mark);
          EXPECT_THAT(notes_below(front), HasSubstr("pack over ")) << seed << ": " << letter;
          ++to_tape;
        }
      }
    }
  }
  EXPECT_GT(exact, 4);
  EXPECT_GT(to_tape, 0);
}

TEST(BenchCourses, ASoleIsFastenedToWhatItStandsOn) {
  // Source: common practice, no source: 16d at most 16 in apart; by hand along the 36 of flat 2A's plate 3 spaces and
  // 4 nails. Which anchor goes into a slab nobody here may say: flat 5C's is.
  const Sheet& plan = drawn_demo("tannery-lane-2a").sheet("bench-plan");
  EXPECT_THAT(read_through(plan), HasSubstr("sole plate to floor 16d, 3-1/2\" long, through it, at most"));
  EXPECT_THAT(read_through(drawn_demo("tannery-lane-2a").sheet("buy")), HasSubstr("bench to the floor"));
  std::string steel;
  for (const Sheet& sheet : drawn_demo("tannery-lane-5c").sheets)
    if (sheet.name == "bench-plan" || sheet.name.rfind("schedules", 0) == 0) steel += read_through(sheet);
  EXPECT_THAT(steel, HasSubstr("sole track to "));
}

TEST(BenchCourses, OnSmallPaperALongFrontOnAFallingFloorKeepsAScaleToReadItBy) {
  // Source: by hand: 83-5/16 at 1:12 are 176 of the 237 mm that a letter page has between its borders; a chain at its
  // left end takes some 45, heights stand below.
  const Drawn d = at_random(70016, true);
  const Sheet& front = d.sheet("bench-front");
  EXPECT_EQ(front.page.scale, 12);
  const std::string words = read_through(front);
  for (const char* part : {"left end", "right end", "underside of the sole plate", "top of the deck"})
    EXPECT_THAT(words, HasSubstr(part));
  EXPECT_EQ(std::count_if(front.dimensions.begin(), front.dimensions.end(),
                          [](const Dimension& dim) { return dim.chain < 0 && std::abs(dim.from.x - dim.to.x) < 1; }),
            1)
      << "one chain";
}

TEST(BenchSection, PastTheLastJoistShowsTheOneAgainstTheWall) {
  // Source: by hand: joists at most 16 on centre in 36 of bench stand 11-1/2 apart, the third from the entry at 23 to
  // 24-1/2. With the drain 17 from the entry the section runs a quarter of the base's width past that, at 26, and sees
  // only the joist against the back wall. Beside the drain at 12 it would be at 21.
  for (const double from_front : {17.0, 12.0}) {
    job::Job job = sample::alcove();
    job.drain.along = {job::Side::front, units::Length::inches(from_front)};
    const Drawn d = drawn(job, false);
    const Frame joist = extent(*d.model->find("bench-frame/end-cleat-01"), view_from(gp_Dir{0, -1, 0}));
    const Sheet& sheet = d.sheet("bench-section");
    // Its underside runs from the wall to the front rail, under the deck.
    EXPECT_TRUE(std::any_of(sheet.lines.begin(), sheet.lines.end(), [&](const Line& line) {
      return std::abs(line.from.y - joist.y0) < 0.1 && std::abs(line.to.y - joist.y0) < 0.1 &&
             std::abs(std::abs(line.to.x - line.from.x) - joist.width()) < 0.1;
    })) << from_front;
    EXPECT_THAT(read_through(sheet), HasSubstr("joist F, behind")) << from_front;
  }
}

TEST(BenchProfile, HasOneEndOfABenchOnAFallingFloor) {
  // Source: by hand: one stud and one sole are cut at an end, so that each is named once, and between the stud's foot
  // and the floor lie two level lines of the sole: its top and its underside. Room 70016's floor falls along its bench.
  const Drawn d = at_random(70016, true);
  const Sheet& foot = d.sheet("bench-profile-foot");
  const auto count = [](const Sheet& sheet, const std::string& words) {
    return std::count_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& text) { return text.words == words; });
  };
  EXPECT_EQ(count(foot, "STUD"), 1);
  EXPECT_EQ(count(foot, "SOLE PLATE"), 1);
  std::set<long> levels;  // tenths
  for (const Line& line : foot.lines)
    if (line.kind == LineKind::outline && std::abs(line.from.x - line.to.x) > 80)
      levels.insert(std::lround((line.from.y + line.to.y) * 5));
  EXPECT_EQ(levels.size(), 2u);
  EXPECT_THAT(notes_below(foot), HasSubstr("its right end"));
}

TEST(BenchProfile, ThinSheetsThatShareAHollowHaveALineEach) {
  // Source: property: flat 5C's tracks and studs are of sheet steel; from each name a line leads to a dot on its sheet.
  const Sheet& foot = drawn_demo("tannery-lane-5c").sheet("bench-profile-foot");
  int dots = 0;
  for (const Arc& arc : foot.arcs) dots += arc.kind == LineKind::dimension && std::abs(arc.radius - 0.6) < 1e-6;
  EXPECT_EQ(dots, 2) << "sole track and stud";
}

}  // namespace
}  // namespace fallwright::drawing
