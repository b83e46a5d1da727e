/// What-if questions: the drain elsewhere, readings off by their tolerance.
#include <algorithm>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/limits.hpp"
#include "study/study.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::study {
namespace {

facts::Facts measured(const job::Job& job) {
  const auto model = parts::build(job);
  return with_studies(*model, measure::measure(*model), rules::limits_for(job));
}

/// The nearest edge of a joist from the bore's centre at the nearest place, less the bore's radius.
double clearance_there(const job::Job& job, const facts::Facts& facts) {
  const facts::DrainWindow& window = facts.room.drain;
  const std::size_t axis = window.along_width ? 0 : 1;
  double least = 1e9;
  for (const facts::Part& p : facts.parts)
    if (p.which.is(facts::Role::joist))
      least = std::min({least, std::abs(p.bbox_mm[axis] - window.nearest_mm[axis]),
                        std::abs(p.bbox_mm[axis + 3] - window.nearest_mm[axis])});
  return least - job.drain.bore.in_mm() / 2;
}

TEST(DrainWindow, KeepsTheClearanceThatTheCheckAsksForWhoeverSetsIt) {
  // Source: by hand: a joist's middle at the drain's; the nearest place stands off by the clearance of common practice
  // (1/4 in), of the job file, or of the job's own rule book file.
  job::Job job = sample::alcove();
  const double bore_mm = measure::measure(*parts::build(job)).room.drain.now_mm[0];
  job.floor.joist_first = job::Length::mm(std::fmod(bore_mm, job.floor.joist_spacing.in_mm()));
  EXPECT_NEAR(clearance_there(job, measured(job)), in / 4, 1e-6);
  job::Job by_job = job, by_book = job;
  by_job.limits = {{"bore_clearance", in / 2, ""}};
  EXPECT_NEAR(clearance_there(by_job, measured(by_job)), in / 2, 1e-6);
  by_book.book_override = {"county.toml",
                           "title = \"county\"\n[[limit]]\nid = \"drain.bore-clear-of-joists\"\nunit = \"length\"\n"
                           "least = \"1 in\"\nsource = \"county amendment 7\"\nverified = \"set by the user\"\n"};
  EXPECT_NEAR(clearance_there(by_book, measured(by_book)), in, 1e-6);
}

TEST(DrainWindow, SaysWhatAJoistOfItsDepthMayLose) {
  // Source: IRC R502.8.1 (2018), secondary: a hole of a third of the depth and at least 2 in from either edge, so
  // min(D / 3, D - 4 in); a notch of D / 6, at an end D / 4. By hand for 2x6 to 2x12.
  const struct {
    double depth, hole, notch, end;
  } rows[] = {{5.5, 1.5, 0.9167, 1.375},
              {7.25, 2.4167, 1.2083, 1.8125},
              {9.25, 3.0833, 1.5417, 2.3125},
              {11.25, 3.75, 1.875, 2.8125}};
  for (const auto& row : rows) {
    job::Job job = sample::alcove();
    job.floor.joist_stock = sample::two_by(row.depth);
    const facts::DrainWindow window = measured(job).room.drain;
    ASSERT_TRUE(window.joists_known);
    EXPECT_NEAR(window.hole_mm / in, row.hole, 5e-5) << row.depth;
    EXPECT_NEAR(window.notch_mm / in, row.notch, 5e-5) << row.depth;
    EXPECT_NEAR(window.end_notch_mm / in, row.end, 5e-5) << row.depth;
  }
}

TEST(DrainWindow, TellsNoMoreOfAJoistThanTheJobsOwnLimitsLetItLose) {
  // Source: none: a county that allows an inch allows no more at a joist's end; one that allows more than the code
  // (IRC R502.8.1) changes nothing.
  for (const auto& [own, least] : {std::pair{"1 in", 1.}, {"5 in", 0.}}) {
    job::Job job = sample::alcove();
    job.floor.joist_stock = sample::two_by(9.25);
    job.book_override = {"county.toml", "title = \"county\"\n"};
    for (const char* id : {"joist.hole", "joist.notch"})
      job.book_override.text += std::string{"[[limit]]\nid = \""} + id + "\"\nunit = \"length\"\ngreatest = \"" + own +
                                "\"\nsource = \"county 9\"\nverified = \"set by the user\"\n";
    const facts::DrainWindow window = measured(job).room.drain;
    EXPECT_NEAR(window.hole_mm / in, least > 0 ? least : 9.25 / 3, 5e-5);
    EXPECT_NEAR(window.notch_mm / in, least > 0 ? least : 9.25 / 6, 5e-5);
    EXPECT_NEAR(window.end_notch_mm / in, least > 0 ? least : 9.25 / 4, 5e-5);
  }
}

TEST(WorstCase, HoldsWhatRandomReadingsWithinToleranceDo) {
  // Source: property: no draw of readings, each within its tolerance, leaves the worst case by more than second order.
  job::Job j = sample::surveyed(sample::bare(inches(60), inches(34), inches(30), inches(17)));
  const facts::Facts facts = measured(j);
  const auto worst = [&](const std::string& what) {
    for (const facts::Worst& w : facts.room.worst)
      if (w.what == what) return w;
    ADD_FAILURE() << what;
    return facts::Worst{};
  };
  const facts::Worst mortar = worst("mortar in the bed as set");
  EXPECT_LT(mortar.least, mortar.nominal);
  EXPECT_GT(mortar.greatest, mortar.nominal);
  EXPECT_FALSE(mortar.reading.empty());
  unsigned seed = 5;
  for (int i = 0; i < 12; ++i) {
    job::Job other = j;
    for (survey::Spot& s : other.survey.spots) {
      seed = seed * 1103515245u + 12345u;
      s.z += ((seed >> 16) % 2001 / 1000. - 1) * j.survey.level_tolerance_mm;
    }
    const double v = brep::volume_mm3(parts::build_bed(other).shape);
    EXPECT_GE(v, mortar.least * 0.99);
    EXPECT_LE(v, mortar.greatest * 1.01);
  }
}

TEST(WorstCase, ASharperSurveyIsSurer) {
  // Source: monotonicity: halving every tolerance narrows every span.
  job::Job coarse = sample::surveyed(sample::alcove()), fine = coarse;
  fine.survey.level_tolerance_mm /= 2;
  survey::Plan& p = fine.survey.plan;
  for (auto* r : {&p.back, &p.front, &p.left, &p.right, &p.from_back_left, &p.from_back_right}) (*r)->tolerance_mm /= 2;
  for (survey::Plumb& plumb : fine.survey.plumbs) plumb.lean.tolerance_mm /= 2;
  const auto a = measured(coarse).room.worst, b = measured(fine).room.worst;
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i)
    EXPECT_LT(b[i].greatest - b[i].least, (a[i].greatest - a[i].least) * 0.7 + 1e-12) << a[i].what;
}

TEST(DrainWindow, IsNearestBesideTheJoistWithItsFallsThere) {
  // Source: by hand: a joist stands from 847.5 to 892.5; a bore of 125 with 6.35 beside it is nearest to 850 at
  // 847.5 - 62.5 - 6.35 = 778.65. There the longest run is the left one, to 12. A joist may lose a
  // third of its depth to a hole, a sixth to a notch and a quarter at its end (IRC R502.8).
  const auto model = parts::build(job::read(R"([job]
name = "x"
unit = "mm"
[alcove]
width = 1500
depth = 1000
[floor]
deck = 22
[floor.joists]
stock = "45x195 mm"
spacing = 400
first = 70
direction = "along-depth"
[base]
length = 1500
width = 1000
fall = "2 %"
[base.upstands]
thickness = 12
[base.threshold]
width = 100
[drain]
size = 100
from_left = 850
from_back = 450
body = 80
bore = 125
)",
                                            "x.toml"));
  const facts::DrainWindow drain =
      drain_window(*model, measure::measure(*model).room.drain, rules::limits_for(model->job));
  ASSERT_TRUE(drain.any && drain.joists_known && drain.along_width);
  EXPECT_NEAR(drain.now_mm[0], 850, 1e-6);
  EXPECT_NEAR(drain.nearest_mm[0], 778.65, 1e-6);
  EXPECT_NEAR(drain.nearest_mm[1], 550, 1e-6);
  EXPECT_NEAR(drain.moved_mm, 850 - 778.65, 1e-6);
  const double longest = 778.65 - 50 - 12;
  EXPECT_NEAR(drain.least_fall, 0.02, 1e-9);
  EXPECT_NEAR(drain.greatest_fall, 0.02 * longest / 388, 1e-9);
  EXPECT_NEAR(drain.joist_depth_mm, 195, 1e-6);
  EXPECT_NEAR(drain.hole_mm, 195 / 3., 1e-6);
  EXPECT_NEAR(drain.notch_mm, 195 / 6., 1e-6);
  EXPECT_NEAR(drain.end_notch_mm, 195 / 4., 1e-6);
}

}  // namespace
}  // namespace fallwright::study
