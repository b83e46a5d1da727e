// What a sheet says of a channel, of a threshold that is built on site, of a floor out of level, and of places.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/clear.hpp"
#include "drawing/steps.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"
#include "rules/spot.hpp"
#include "support/sample.hpp"

namespace fallwright::drawing {
namespace {

const Drawn& bonded() {
  static const Drawn d = drawn_demo("coopers-yard-9");
  return d;
}

bool prints(const Sheet& sheet, const std::string& words) {
  return std::any_of(sheet.texts.begin(), sheet.texts.end(),
                     [&](const Text& text) { return text.words.find(words) != std::string::npos; });
}

std::vector<Step> steps_in(const Drawn& d) {
  return steps_of(d.model->job, {d.facts, d.cuts, {}, takeoff::take_off(d.model->job, d.facts, {}, {}), d.judgement});
}

/// What stands in the plan's row that is called so.
std::vector<std::string> row_of_plan(const Drawn& d, const std::string& name) {
  const Sheet& plan = d.sheet("plan");
  const auto title = std::find_if(plan.texts.begin(), plan.texts.end(),
                                  [&](const Text& t) { return t.words == name && t.anchor == Anchor::right; });
  std::vector<std::string> words;
  if (title == plan.texts.end()) return words;
  for (const Dimension& dim : plan.dimensions)
    if (dim.chain > 0 && dim.picture && std::abs(dim.picture->line_at.y - title->at.y) < plan.page.scale)
      words.push_back(dim.words);
  return words;
}

TEST(Channel, IsSetOutFromStudFacesByItsEnds) {
  // Source: the job: along the back, from wall to wall in 9 Coopers Yard; shorter in flat 5C: from a stud face to its
  // end, its length, and on to the other.
  EXPECT_EQ(row_of_plan(bonded(), "channel"), std::vector<std::string>{"1500"});
  EXPECT_THAT(bonded().sheet("plan").notes, testing::Contains(testing::HasSubstr("80 mm wide")));
  const Drawn set = drawn_demo("tannery-lane-5c");
  const auto& drain = part(set.facts, facts::Role::drain).bbox_mm;
  const std::vector<std::string> ends = row_of_plan(set, "channel");
  ASSERT_EQ(ends.size(), 3u);
  EXPECT_EQ(ends[1], number_of(drain[3] - drain[0], true));
}

TEST(Channel, HasNoRays) {
  // Source: geometry: planes that fall to a line fall square to it, not to a point.
  for (const Step& step : steps_in(bonded())) EXPECT_THAT(step.what, testing::Not(testing::HasSubstr(" ray")));
  for (const std::string& note : bonded().sheet("screed").notes)
    EXPECT_THAT(note, testing::Not(testing::HasSubstr(" ray")));
  EXPECT_THAT(drawn_demo("coopers-yard-4").sheet("screed").notes,
              testing::Contains(testing::HasSubstr("straight along a ray")));
}

TEST(Channel, StandsFromAboveBesideTheSection) {
  // Source: the job: 80 wide, its middle 90 from the back stud face.
  const Sheet& sheet = bonded().sheet("drain");
  EXPECT_TRUE(prints(sheet, "From above: bore and channel"));
  for (const double length : {80., 90.})
    EXPECT_TRUE(std::any_of(sheet.dimensions.begin(), sheet.dimensions.end(), [&](const Dimension& dim) {
      return dim.words == number_of(length, true) && std::abs(dim.length_mm - length) < 0.01;
    })) << length;
}

TEST(Section, HasNoLineOutToWhatItDoesNotShow) {
  // Source: the drawing itself: a height's line begins where something stands that high.
  const Sheet& sheet = bonded().sheet("drain");
  for (const char* words : {"112  threshold, highest edge, past the picture", "58  rim, highest, past the picture"})
    EXPECT_TRUE(prints(sheet, words)) << words;
  EXPECT_FALSE(prints(sheet, "rim, lowest, past")) << "at the back wall, which the section reaches";
  const auto lines_at = [&](double z) {
    return std::count_if(sheet.lines.begin(), sheet.lines.end(), [&](const Line& line) {
      return line.kind == LineKind::dimension && std::abs(line.from.y - z) < 0.5 && std::abs(line.to.y - z) < 0.5;
    });
  };
  for (const facts::Rung& rung : bonded().facts.room.chain)
    if (rung.name == "threshold, highest edge" || rung.name == "rim, highest" || rung.name == "rim, lowest") {
      EXPECT_EQ(lines_at(rung.above_datum_mm), rung.name == "rim, lowest") << rung.name;
    }
}

TEST(Plan, ASectionsLetterStandsAtItsMark) {
  // Source: ISO 128-3 (from memory): a cutting plane is lettered at its ends.
  for (const char* name : {"coopers-yard-9", "tannery-lane-2a", "tannery-lane-5c"}) {
    const Drawn d = drawn_demo(name);
    const Sheet& plan = d.sheet("plan");
    const double t = 3 * plan.page.scale;
    int letters = 0;
    for (const Text& text : plan.texts) {
      if (text.words != "A" || text.height < 1.5 * t) continue;
      ++letters;
      const Box b = box_of(text);
      const Point middle{(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2};
      double nearest = 1e9;
      for (const Line& line : plan.lines)
        if (line.kind == LineKind::section)
          for (const Point& p : {line.from, line.to})
            nearest = std::min(nearest, std::hypot(p.x - middle.x, p.y - middle.y));
      EXPECT_LT(nearest, 4.5 * t) << name;
    }
    EXPECT_EQ(letters, 2) << name;
  }
}

TEST(Screed, NoFigureStandsOnTheThresholdsFront) {
  // Source: the sheet's own rule: a figure is read where no line runs through it.
  for (const char* name : {"coopers-yard-9", "coopers-yard-4"}) {
    const Drawn d = drawn_demo(name);
    const auto& base = part(d.facts, facts::Role::base).bbox_mm;
    int figures = 0;
    for (const Text& text : d.sheet("screed").texts) {
      if (text.words.empty() || text.words.find_first_not_of("()-/0123456789") != std::string::npos) continue;
      ++figures;
      const Box b = box_of(text);
      const bool beside = b.x1 < base[0] || b.x0 > base[3];
      EXPECT_TRUE(beside || b.y0 > base[1] || b.y1 < base[1]) << name << " " << text.words;
    }
    EXPECT_GT(figures, 20) << name;
  }
}

TEST(Steps, TheRoughThresholdHasItsPicture) {
  // Source: the order of work: each step that brings something is drawn.
  for (const char* name : {"coopers-yard-9", "coopers-yard-4"}) {
    const Drawn d = drawn_demo(name);
    for (const char* sheet : {"steps", "exploded"}) EXPECT_TRUE(prints(d.sheet(sheet), "rough threshold")) << name;
  }
  EXPECT_FALSE(prints(drawn_demo("tannery-lane-2a").sheet("steps"), "rough threshold"));
}

TEST(OutOfLevel, IsToldBothWaysAsItsCheckTellsIt) {
  // Source: the job: 4 mm along the width, 3 along the depth.
  const auto& results = bonded().judgement.results;
  const auto check =
      std::find_if(results.begin(), results.end(), [](const rules::Result& r) { return r.id == "floor.level"; });
  ASSERT_NE(check, results.end());
  EXPECT_NEAR(*check->measured, 4, 0.01);
  EXPECT_EQ(check->where, "highest to lowest along the width, 3 mm along the depth");
  const std::vector<Step> steps = steps_in(bonded());
  EXPECT_TRUE(std::any_of(steps.begin(), steps.end(), [](const Step& step) {
    return step.measure.find("out of level 4 mm along the width, 3 mm along the depth") != std::string::npos;
  }));
}

TEST(BedSheet, TellsGaugesFromTheWallBesideEach) {
  // Source: by hand: the left wall's stud face at -3 in at the entry and 0 at the back, 36 in from it: at y it is at
  // -3 + y / 12. No tape that stays hooked reads one column then: its row is left out.
  constexpr double inch = 25.4;
  job::Job job = sample::alcove();
  sample::read_plan(job, {0, 36 * inch}, {72 * inch, 36 * inch}, {-3 * inch, 0}, {72 * inch, 0});
  const Drawn askew = drawn(job, false), square = drawn(sample::alcove(), false);
  const auto has = [](const Sheet& sheet, const std::string& words) {
    return std::any_of(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) { return t.words == words; });
  };
  ASSERT_EQ(askew.facts.room.gauges.size(), 9U);
  const Sheet &bed = askew.sheet("bed"), &plain = square.sheet("bed");
  for (const facts::Gauge& g : askew.facts.room.gauges) {
    const auto row = std::find_if(bed.texts.begin(), bed.texts.end(), [&](const Text& t) { return t.words == g.name; });
    ASSERT_NE(row, bed.texts.end()) << g.name;
    const std::string off = number_of(g.x_mm + 3 * inch - g.y_mm / 12, false);
    EXPECT_TRUE(std::any_of(
        bed.texts.begin(), bed.texts.end(),
        [&](const Text& t) { return t.words == off && t.at.x > row->at.x && std::abs(t.at.y - row->at.y) < 1e-6; }))
        << g.name << " " << off;
  }
  EXPECT_FALSE(has(bed, "gauges from the left stud face"));
  EXPECT_THAT(bed.notes, testing::Contains(testing::HasSubstr("The left wall runs askew")));
  EXPECT_TRUE(has(plain, "gauges from the left stud face"));
  EXPECT_THAT(plain.notes, testing::Not(testing::Contains(testing::HasSubstr("askew"))));
}

TEST(Spot, IsACornerOrAnEdgeWhereItLiesThere) {
  // Source: by hand, in an alcove of 1500 by 1000 with its entry open.
  const job::Job& job = bonded().model->job;
  const survey::StudFaces& faces = bonded().facts.room.faces;
  EXPECT_EQ(rules::spot_of({1500, 0, 0}, faces, job), "the front right corner");
  EXPECT_EQ(rules::spot_of({4.4, 1000, 0}, faces, job), "the back left corner");
  EXPECT_EQ(rules::spot_of({19, 300, 0}, faces, job), "the left wall, 300 mm from the entry");
  EXPECT_EQ(rules::spot_of({700, 990, 0}, faces, job), "the back wall, 700 mm from the left stud face");
  EXPECT_EQ(rules::spot_of({700, 12, 0}, faces, job), "the entry, 700 mm from the left stud face");
  EXPECT_EQ(rules::spot_of({21, 300, 0}, faces, job), "21 mm from the left stud face, 300 mm from the entry");
  job::Job open = job;
  std::erase(open.alcove.walls, job::Side::right);
  EXPECT_EQ(rules::spot_of({1490, 300, 0}, faces, open), "the right side, 300 mm from the entry");
}

/// An alcove 48 by 36 in with those walls alone, its drain in the middle of a base that turns up at three sides.
Drawn beside_walls(std::vector<job::Side> walls) {
  job::Job job = sample::alcove();
  job.bench.reset(), job.alcove.width = job.base.length = job::Length::inches(48);
  job.drain.across.distance = job::Length::inches(24);
  job.alcove.walls = std::move(walls);
  return drawn(job, false);
}

TEST(Channel, TheRaysOfItsScreedMeetInSight) {
  // Source: the sheet's own note: marks are so far from the channel's middle. By hand: it runs 1500 from O, 910 from
  // the entry; a word over its middle would hide where the tape is hooked.
  const Sheet& sheet = bonded().sheet("screed");
  const auto word =
      std::find_if(sheet.texts.begin(), sheet.texts.end(), [](const Text& t) { return t.words == "channel"; });
  ASSERT_NE(word, sheet.texts.end());
  const Box box = box_of(*word);
  EXPECT_TRUE(box.x1 < 740 || box.x0 > 760) << box.x0;
  int arms = 0;
  for (const Line& line : sheet.lines)
    arms += std::abs((line.from.x + line.to.x) / 2 - 750) < 0.1 && std::abs((line.from.y + line.to.y) / 2 - 910) < 0.1;
  EXPECT_EQ(arms, 2);
}

TEST(Pictures, OfAMembraneSayThatNoneShowsIt) {
  // Source: the order of work: what a step brings is in a picture or told with its number and where it is cut.
  const Drawn& d = bonded();
  int number = 0, membrane = 0;
  for (const Step& step : steps_in(d)) {
    ++number;
    if (step.what.find("Membrane bonded") != std::string::npos) membrane = number;
  }
  for (const char* name : {"assembly", "exploded", "steps"})
    EXPECT_THAT(d.sheet(name).notes, testing::Contains(testing::HasSubstr("membrane, step " + std::to_string(membrane) +
                                                                          " of " + d.sheet("order-of-work").code)))
        << name;
}

TEST(Bed, TellsItsPlacesFromWhatStands) {
  // Source: by hand: where no left wall stands a tape is hooked on the right stud face, 48 in from O; where neither
  // does, on the back wall's left end.
  const Drawn right = beside_walls({job::Side::back, job::Side::right}), none = beside_walls({job::Side::back}),
              both = beside_walls({job::Side::back, job::Side::left, job::Side::right});
  const auto has = [](const Drawn& d, const std::string& words) {
    const auto& texts = d.sheet("bed").texts;
    return std::any_of(texts.begin(), texts.end(), [&](const Text& t) { return t.words == words; });
  };
  for (const auto& [d, head, hook] : {std::tuple{&right, "from right", "gauges from the right stud face"},
                                      {&none, "from left", "gauges from the back wall's left end"},
                                      {&both, "from left", "gauges from the left stud face"}}) {
    EXPECT_TRUE(has(*d, head)) << hook;
    EXPECT_TRUE(has(*d, hook)) << hook;
  }
  ASSERT_EQ(right.facts.room.gauges.size(), 9U);
  const auto& texts = right.sheet("bed").texts;
  for (const facts::Gauge& g : right.facts.room.gauges) {
    const auto row = std::find_if(texts.begin(), texts.end(), [&](const Text& t) { return t.words == g.name; });
    ASSERT_NE(row, texts.end()) << g.name;
    EXPECT_TRUE(std::any_of(texts.begin(), texts.end(), [&](const Text& t) {
      return t.words == number_of(48 * 25.4 - g.x_mm, false) && t.at.x > row->at.x &&
             std::abs(t.at.y - row->at.y) < 1e-6;
    })) << g.name;
  }
}

}  // namespace
}  // namespace fallwright::drawing
