// What is told of the worst case, against readings moved at random within their tolerances.
#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <stdexcept>
#include <string>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "diag/text_file.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "study/doubts.hpp"
#include "study/study.hpp"
#include "support/draws.hpp"
#include "support/random_room.hpp"
#include "support/sample.hpp"

namespace fallwright::study {
namespace {

job::Job room(const std::string& name, bool in_mirror = false) {
  const std::string file = std::string{PROJECT_DIR} + "/tests/cases/" + name + ".toml", text = diag::read_text(file);
  return job::read(in_mirror ? sample::mirrored(text) : text, file);
}

/// Every reading somewhere within its tolerance; at an end of it where `at_ends`.
job::Job moved(job::Job job, std::mt19937& random, bool at_ends) {
  const auto by = [&](double tolerance) {
    const double share = std::uniform_real_distribution<double>{-1, 1}(random);
    return tolerance * (at_ends ? (share < 0 ? -1 : 1) : share);
  };
  survey::Plan& p = job.survey.plan;
  for (auto* r : {&p.back, &p.front, &p.left, &p.right, &p.from_back_left, &p.from_back_right})
    if (*r) (*r)->mm += by((*r)->tolerance_mm);
  for (survey::Plumb& plumb : job.survey.plumbs) plumb.lean.mm += by(plumb.lean.tolerance_mm);
  for (survey::Width& width : job.survey.widths) width.width.mm += by(width.width.tolerance_mm);
  for (survey::Spot& spot : job.survey.spots) spot.z += by(job.survey.level_tolerance_mm);
  return job;
}

const facts::Worst* told(const std::vector<facts::Worst>& worst, const std::string& what) {
  const auto it = std::find_if(worst.begin(), worst.end(), [&](const facts::Worst& w) { return w.what == what; });
  return it == worst.end() ? nullptr : &*it;
}

struct Found {
  double left_over, to_spare, bed;
  bool between_walls;
};

Found found_in(const job::Job& job, const facts::Heights& heights) {
  const measure::WayIn way = measure::measure_way_in(parts::build_framing(job), heights);
  return {way.left_over_mm, way.drop_in.least_mm, brep::volume_mm3(parts::build_bed(job).shape),
          way.drop_in.between_walls};
}

constexpr const char* left_over = "left over across the width";
constexpr const char* to_spare = "to spare as the base is let down";
constexpr const char* mortar = "mortar in the bed as set";

/// What hangs on no reading is not told, and what nobody could tell holds no value.
void expect_within(const std::vector<facts::Worst>& worst, const char* what, double value, double slack,
                   const std::string& where) {
  const facts::Worst* w = told(worst, what);
  if (!w || !w->unknown.empty()) return;
  EXPECT_GE(value, w->least - slack) << where << ": " << what;
  EXPECT_LE(value, w->greatest + slack) << where << ": " << what;
}

/// `known`: what is told of the room that can be beaten, all that its readings leave open.
void expect_nothing_beats(const job::Job& job, const std::string& name, const std::set<std::string>& known) {
  const auto model = parts::build(job);
  const facts::Facts facts = measure::measure(*model);
  const auto worst = worst_cases(*model, facts);
  for (const char* what : {left_over, to_spare, mortar}) {
    const facts::Worst* w = told(worst, what);
    ASSERT_EQ(w && w->unknown.empty(), known.contains(what)) << name << ": " << what;
  }
  std::mt19937 random{17};
  for (int i = 0; i < draws(12); ++i) {
    const std::string where = name + ", draw " + std::to_string(i);
    const Found found = found_in(moved(job, random, i % 2 == 0), facts.heights);
    expect_within(worst, left_over, found.left_over, 1e-3, where);
    if (found.between_walls) expect_within(worst, to_spare, found.to_spare, 1e-3, where);
    expect_within(worst, mortar, found.bed, 1, where);
  }
}

TEST(WorstCase, NoReadingsWithinTheirTolerancesBeatWhatIsTold) {
  // Source: property: bounds hold for every draw; rooms of both hands, benches everywhere, two places that compete.
  for (const char* name :
       {"width-that-hangs-on-many-readings", "way-in-that-hangs-on-many-readings", "narrowest-at-the-benchs-deck",
        "sole-plate-narrows-the-way-in", "base-a-hair-wider-than-the-back-bench"})
    for (const bool in_mirror : {false, true})
      expect_nothing_beats(room(name, in_mirror), std::string{name} + (in_mirror ? ", mirrored" : ""),
                           name == std::string{"width-that-hangs-on-many-readings"}
                               ? std::set<std::string>{left_over, to_spare}
                               : std::set<std::string>{left_over, to_spare, mortar});
  expect_nothing_beats(room("two-high-spots-under-the-base"), "two high spots", {mortar});
}

TEST(WorstCase, NoReadingsBeatItWhereWidthsWereReadAtHeights) {
  // Source: property, as above: a width that was read less than the walls as plumbed leave counts instead of them.
  for (const job::Side place : {job::Side::left, job::Side::right, job::Side::back}) {
    job::Job job = sample::surveyed(sample::alcove());
    if (place == job::Side::right) job.drain.across.side = job::Side::right;
    if (place == job::Side::back)
      job.base.length = job.alcove.width - job::Length::mm(12), job.base.width = job::Length::inches(21);
    job.bench->place = place;
    const double w = job.alcove.width.in_mm();
    job.survey.widths.push_back({200, 600, {w - 3, 2, survey::Face::stud, 0}});
    job.survey.widths.push_back({500, 1000, {w + 1, 2, survey::Face::stud, 0}});
    expect_nothing_beats(job, "widths read, bench " + std::to_string(static_cast<int>(place)),
                         {left_over, to_spare, mortar});
  }
}

TEST(WorstCase, NoReadingsBeatItUnderABaseThatIsOutOfSquare) {
  // Source: property, as above: the front left corner of the base lies 25 mm behind the front right one, and the
  // highest spot before it, in the box round the base and not under it.
  const std::string file = "out-of-square.toml";
  job::Job job = job::read(
      "[job]\nname = \"x\"\nunit = \"mm\"\n[alcove]\nwidth = 1540\ndepth = 830\n[floor]\nkind = \"slab\"\n"
      "[base]\nkind = \"bought\"\nshell = 6\n[base.rim]\nback = 10\nfront = 12\nleft = 10\nright = 22\n"
      "[base.upstands]\nthickness = 8\nheight = 110\n[base.threshold]\nwidth = 90\nheight = 75\n[base.outside]\nback = "
      "1520\nfront = 1520.2\nleft = 795\n"
      "right = 820\ndiagonal_from_back_left = 1727.1\n[base.ribs]\ncolumns = 10\nrows = 6\nwidth = 5\ndeepest = 40\n"
      "[drain]\nopening = \"round\"\nsize = 90\nbody = 80\nfrom_left = 460\nfrom_back = 405\n"
      "[survey]\nlevel_tolerance = 1\n[survey.floor]\nspots = [[20, 12, 9], [20, 120, 2], [150, 12, 1], "
      "[760, 12, 0], [1500, 12, 2], [20, 800, 3], [760, 800, 1], [1500, 800, 4]]\n",
      file);
  expect_nothing_beats(job, "out of square", {mortar});
  const auto model = parts::build(job);
  const auto worst = worst_cases(*model, measure::measure(*model));
  const facts::Worst* bed = told(worst, "mortar in the bed as set");
  ASSERT_TRUE(bed);
  // By hand: where the floor under the base moves by its tolerance everywhere against the datum, which moves as far the
  // other way: twice that over the bed's plan.
  const double plan_mm2 = measure::measure(*model).bed.plan_mm2;
  EXPECT_LT(bed->greatest, bed->nominal + 2.05 * plan_mm2);
  EXPECT_GT(bed->greatest, bed->nominal + 0.5 * plan_mm2);
}

TEST(WorstCase, IsNotMilderThanARoomWhoseReadingsAllMoved) {
  // Source: a twin of the room, each reading within its tolerance of 1/16 in, measured: more than 1.7 mm too little.
  const auto model = parts::build(room("width-that-hangs-on-many-readings"));
  const facts::Facts facts = measure::measure(*model);
  const auto worst = worst_cases(*model, facts);
  const Found twin = found_in(room("width-with-all-readings-moved"), facts.heights);
  EXPECT_LT(twin.left_over, -1.7);
  EXPECT_LE(told(worst, "left over across the width")->least, twin.left_over);
  EXPECT_LE(told(worst, "to spare as the base is let down")->least, twin.to_spare);
  EXPECT_GT(told(worst, "left over across the width")->least, twin.left_over - 6) << "harsher than the readings are";
}

TEST(WorstCase, OfARoomWithAnOpenSideHoldsWhatItsCheckSays) {
  // Source: by hand: what lies before no wall is not left over: where a side is open the bounds are those of the
  // opening less that, as its check has it, whichever side it is.
  for (const job::Side open : {job::Side::left, job::Side::right}) {
    job::Job job = sample::surveyed(sample::alcove());
    job.bench.reset();
    job.base.length = job.alcove.width - job::Length::mm(10);
    std::erase(job.alcove.walls, open);
    std::erase_if(job.survey.plumbs, [&](const survey::Plumb& p) { return p.wall == open; });
    std::erase_if(job.survey.studs, [&](const survey::Studs& s) { return s.wall == open; });
    job.survey.plan = {};
    const auto model = parts::build(job);
    const facts::Facts facts = measure::measure(*model);
    const facts::Opening& across = facts.openings.front();
    ASSERT_GT(across.open_mm, 1);
    const auto worst = worst_cases(*model, facts);
    const facts::Worst* left_over = told(worst, "left over across the width");
    ASSERT_TRUE(left_over);
    const double check = across.left_over_mm - across.open_mm;
    EXPECT_NEAR(left_over->nominal, check, 1e-9);
    EXPECT_LE(left_over->least, check);
    EXPECT_GE(left_over->greatest, check);
  }
}

TEST(WorstCase, KnowsThatTheDatumMovesFromOneHighSpotToTheOther) {
  // Source: by hand: the two high spots lowered by their tolerance of 1 mm and the seven others raised by it make the
  // least bed that can be; a bound is not above it, and not far below.
  const auto model = parts::build(room("two-high-spots-under-the-base"));
  const auto worst = worst_cases(*model, measure::measure(*model));
  const facts::Worst* bed = told(worst, "mortar in the bed as set");
  ASSERT_TRUE(bed);
  job::Job least = room("two-high-spots-under-the-base");
  for (survey::Spot& s : least.survey.spots) s.z += s.z > 5 ? -1 : 1;
  const double built = brep::volume_mm3(parts::build_bed(least).shape);
  EXPECT_LE(bed->least, built + 1);
  EXPECT_GT(bed->least, built * 0.995);
}

TEST(WorstCase, TheRimsFourReadingsLieInOnePlane) {
  // Source: closed form: with readings of the four corners off by t, slopes along length L and width W keep
  // |x| L + |y| W <= 2 t, so a floor of one plane falling f along the width comes to f - 2 t / W at least.
  job::Job job = sample::surveyed(
      sample::bare(job::Length::inches(60), job::Length::inches(34), job::Length::inches(30), job::Length::inches(17)));
  job.base.pattern = job::FallPattern::equal_fall;
  const auto model = parts::build(job);
  const auto worst = worst_cases(*model, measure::measure(*model));
  const facts::Worst* least = told(worst, "least fall of the floor");
  ASSERT_TRUE(least);
  const double by_length = 2 * job.survey.level_tolerance_mm / job.base.length.in_mm();
  const double by_width = 2 * job.survey.level_tolerance_mm / job.base.width.in_mm();
  EXPECT_NEAR(least->least, least->nominal - std::max(by_length, by_width), 1e-6);
}

TEST(WhatIf, ThatTheKernelRefusesIsToldAndCostsNothingElse) {
  // Source: none; a what-if is not the job, and what it throws must not end the job. Our own mistakes still do.
  EXPECT_EQ(refusal_of("bed", [] {}), "");
  EXPECT_NE(refusal_of("bed", [] { throw Standard_Failure{"no such face"}; }).find("bed"), std::string::npos);
  EXPECT_NE(refusal_of("base",
                       [] {
                         throw diag::ModelError{"base", "it differs in plan"};
                       })
                .find("differs in plan"),
            std::string::npos);
  EXPECT_THROW(refusal_of("base", [] { diag::ensure(false, "ours"); }), std::logic_error);
}

TEST(WorstCase, MortarOnSiteIsNotBeatenEither) {
  // Source: property: the bed of a base built on site lies on whichever place is highest under its falls; no readings
  // within their tolerances, all at once or each at an end, make more of it or less than is told.
  for (const char* name : {"round", "square"}) {
    const std::string file = std::string{PROJECT_DIR} + "/params/coopers-yard-4.toml";
    job::Job job = job::read(diag::read_text(file), file);
    if (std::string{name} == "square") job.drain.opening = job::Opening::square;
    const auto model = parts::build(job);
    const facts::Facts facts = measure::measure(*model);
    const auto worst = worst_cases(*model, facts);
    const facts::Worst* bed = told(worst, "mortar in the bed as set");
    ASSERT_TRUE(bed) << name;
    EXPECT_TRUE(bed->unknown.empty()) << bed->unknown;
    EXPECT_NEAR(bed->nominal, facts.bed.set_mm3, 1);
    EXPECT_GT(bed->greatest, 1.01 * bed->nominal) << "a mark more under all of it is felt";
    EXPECT_LT(bed->greatest, 1.6 * bed->nominal);
    std::mt19937 random{29};
    for (int i = 0; i < draws(16); ++i) {
      const double mm3 = brep::volume_mm3(parts::build_bed(moved(job, random, i % 2 == 0)).shape);
      EXPECT_LE(mm3, bed->greatest + 1) << name << ", draw " << i;
      EXPECT_GE(mm3, bed->least - 1) << name << ", draw " << i;
    }
  }
}

}  // namespace
}  // namespace fallwright::study
