// What nobody measured is never a pass; what the job does not have does not apply.
#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <map>
#include <memory>

#include "job/body.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using rules::Outcome;

std::map<std::string, rules::Result> results(const job::Job& job, const facts::Facts& facts) {
  std::map<std::string, rules::Result> by_id;
  for (const rules::Result& r : rules::check(job, facts)) by_id[r.id] = r;
  return by_id;
}

TEST(Absent, NothingMeasuredNothingPassed) {
  // Source: none; a check without its input says so, whatever else happens.
  facts::Facts empty;
  for (const auto& [id, r] : results(sample::alcove(), empty)) EXPECT_NE(r.outcome, Outcome::pass) << id;
}

TEST(Absent, WhatWasNotMeasuredIsNotCheckedAndSaysWhatToMeasure) {
  // Source: none; one thing is taken away at a time.
  const std::pair<const char*, void (*)(facts::Facts&)> cases[] = {
      {"floor.fall-least", [](facts::Facts& f) { f.facets.clear(); }},
      {"floor.fall-greatest", [](facts::Facts& f) { f.facets.clear(); }},
      {"seat.fall-least", [](facts::Facts& f) { f.facets.clear(); }},
      {"seat.fall-greatest", [](facts::Facts& f) { f.facets.clear(); }},
      {"threshold.falls-inward", [](facts::Facts& f) { f.facets.clear(); }},
      {"floor.drains", [](facts::Facts& f) { f.drainage.clear(); }},
      {"seat.drains", [](facts::Facts& f) { f.drainage.clear(); }},
      {"threshold.drains", [](facts::Facts& f) { f.drainage.clear(); }},
      {"threshold.height-least", [](facts::Facts& f) { f.heights.threshold_least_mm.reset(); }},
      {"threshold.height-greatest", [](facts::Facts& f) { f.heights.threshold_greatest_mm.reset(); }},
      {"threshold.below-upstand", [](facts::Facts& f) { f.heights.upstand_top_mm.reset(); }},
      {"threshold.above-outside", [](facts::Facts& f) { f.heights.outside.reset(); }},
      {"clear.area", [](facts::Facts& f) { f.clear.finished.reset(); }},
      {"clear.width", [](facts::Facts& f) { f.clear.finished.reset(); }},
      {"clear.circle", [](facts::Facts& f) { f.clear.finished.reset(); }},
      {"access.opening", [](facts::Facts& f) { f.clear.finished.reset(); }},
      {"opening.width", [](facts::Facts& f) { f.openings.clear(); }},
      {"opening.depth", [](facts::Facts& f) { f.openings.clear(); }},
      {"drain.bore-clear-of-joists", [](facts::Facts& f) { f.drain.bore_to_joist_mm.reset(); }},
      {"fit.no-clash", [](facts::Facts& f) { f.fits.clear(); }},
      {"solids.valid", [](facts::Facts& f) { f.parts.clear(); }},
      {"bed.least", [](facts::Facts& f) { f.bed.contact_mm2 = 0; }},
      {"bed.greatest", [](facts::Facts& f) { f.bed = {}; }},
      {"bed.fills-shell", [](facts::Facts& f) { f.bed = {}; }},
      {"survey.closes", [](facts::Facts& f) { f.room.closure.spare = false; }},
      {"survey.widths-agree", [](facts::Facts& f) { f.room.widths.clear(); }},
      {"floor.level", [](facts::Facts& f) { f.room.floor.known = false; }},
      {"floor.hump", [](facts::Facts& f) { f.room.floor.known = false; }},
      {"floor.rock", [](facts::Facts& f) { f.room.floor.known = false; }},
      {"room.stud-gap", [](facts::Facts& f) { f.room.closure.solved = false; }},
      {"room.drop-in", [](facts::Facts& f) { f.room.not_plumbed = {job::Side::left}; }},
      {"room.goes-in", [](facts::Facts& f) { f.room.not_plumbed = {job::Side::left}; }},
      {"levelling.window", [](facts::Facts& f) { f.facets.clear(); }},
      {"rim.twist", [](facts::Facts& f) { f.room.as_set.points.pop_back(); }},
      {"rim.riser", [](facts::Facts& f) { f.room.as_set.drain_body_mm.reset(); }},
      {"rim.apron", [](facts::Facts& f) { f.room.as_set.apron_least_mm.reset(); }},
      {"rim.bed", [](facts::Facts& f) { f.room.as_set.raised_mm.reset(); }},
      {"rim.bed", [](facts::Facts& f) { f.room.gauges.clear(); }},
      {"bed.bearing", [](facts::Facts& f) { f.bed = {}; }},
      {"access.opening", [](facts::Facts& f) { f.clear.finished->entry_mm.reset(); }},
      {"bed.thickness", [](facts::Facts& f) { f.bed = {}; }},
      {"bed.squeeze-out", [](facts::Facts& f) { f.bed = {}; }},
      {"bed.squeeze-out", [](facts::Facts& f) { f.bed.set_mm3 = 0, f.bed.squeeze_out_mm3 = 1e6; }},
      {"bed.fills-shell", [](facts::Facts& f) { f.bed.set_mm3 = 0, f.bed.squeeze_out_mm3 = 1e6; }},
      {"bed.round-drain", [](facts::Facts& f) { f.drain.body_to_bed_mm.reset(); }},
      {"upstand.every-wall", [](facts::Facts& f) { f.edges.clear(); }},
      {"seat.keeps-frame-dry", [](facts::Facts& f) { f.skirt.reset(); }},
      {"apron.gap", [](facts::Facts& f) { f.skirt.reset(); }},
      {"apron.gap", [](facts::Facts& f) { f.skirt->gap_greatest_mm.reset(); }},
      {"drain.outlet", [](facts::Facts& f) { f.drain.outlet_mm.reset(); }},
      {"clear.circle", [](facts::Facts& f) { f.clear.finished->circle_mm = std::numeric_limits<double>::quiet_NaN(); }},
  };
  for (const auto& [id, take_away] : cases) {
    facts::Facts facts = sample::good_facts();
    take_away(facts);
    const rules::Result r = results(sample::alcove(), facts).at(id);
    EXPECT_EQ(r.outcome, Outcome::not_checked) << id;
    EXPECT_FALSE(r.measured) << id;
    EXPECT_FALSE(r.margin) << id;
    EXPECT_FALSE(r.advice.empty()) << id << ": what is to be measured?";
  }
}

TEST(Absent, ABoughtBaseWhoseHandOrRibsNobodyKnowsIsNotChecked) {
  // Source: none; a waste in the middle of the base tells of no hand, and without its ribs a base has no volume.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::bought;
  facts::Facts facts = sample::good_facts();
  facts::Bought& bought = facts.bought.emplace();
  bought.drain_aside_mm = 200, bought.density_kg_m3 = 1000;
  bought.waste_aside_mm = 0;
  EXPECT_EQ(results(job, facts).at("base.hand").outcome, Outcome::not_checked);
  bought.waste_aside_mm = 195;
  EXPECT_EQ(results(job, facts).at("base.hand").outcome, Outcome::pass);
  bought.waste_aside_mm = -195;
  EXPECT_EQ(results(job, facts).at("base.hand").outcome, Outcome::fail);
  EXPECT_EQ(results(job, facts).at("base.weight").outcome, Outcome::pass);
  bought.ribs_known = false;
  EXPECT_EQ(results(job, facts).at("base.weight").outcome, Outcome::not_checked);
}

TEST(Absent, AWasteIsHeldAgainstTheDrainByBothItsPlaces) {
  // Source: none; one place alone can tell that a base is wrong, never that it is right.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::bought;
  facts::Facts facts = sample::good_facts();
  facts::Bought& bought = facts.bought.emplace();
  bought.drain_aside_mm = 200;
  EXPECT_EQ(results(job, facts).at("base.over-waste").outcome, Outcome::not_applicable) << "new walls, no waste yet";
  job.walls.existing = true;
  const auto now = [&] { return results(job, facts).at("base.over-waste"); };
  EXPECT_EQ(now().outcome, Outcome::not_checked);
  bought.waste_aside_mm = 203;
  EXPECT_EQ(now().outcome, Outcome::not_checked);
  EXPECT_NE(now().advice.find("drain.waste_from_back"), std::string::npos) << now().advice;
  bought.waste_aside_mm = 250;
  EXPECT_EQ(now().outcome, Outcome::fail);
  EXPECT_NEAR(*now().measured, 50, 1e-9) << "by its real place, though it stands at the same end";
  EXPECT_NE(now().where.find("1-15/16\" to the right"), std::string::npos) << now().where;
  bought.waste_aside_mm.reset(), bought.waste_back_mm = 3;
  EXPECT_NE(now().advice.find("drain.waste_from_left"), std::string::npos) << now().advice;
  bought.waste_aside_mm = 204;
  EXPECT_EQ(now().outcome, Outcome::pass);
  EXPECT_NEAR(*now().measured, 5, 1e-9);
  // What does not stand is not asked for: of a back wall alone its ends are touched, of facing walls the entry.
  job.alcove.walls = {job::Side::back};
  job.base.tape.waste_from_right = job::Length::mm(400);
  EXPECT_NE(now().where.find("as read from the end of the back wall on the right"), std::string::npos) << now().where;
  bought.waste_aside_mm.reset();
  EXPECT_NE(now().advice.find("from the end of the back wall on the left (drain.waste_from_left)"), std::string::npos)
      << now().advice;
  job.alcove.walls = {job::Side::left, job::Side::right};
  bought.waste_aside_mm = 204, bought.waste_back_mm.reset();
  EXPECT_NE(now().advice.find("from the entry (drain.waste_from_front)"), std::string::npos) << now().advice;
}

TEST(Absent, AWasteIsMetByItsBaseAsFarAsTheRoomLetsItGo) {
  // Source: by hand: in the middle of an alcove a base goes half of what is left over, beside a bench nowhere; within
  // 1/4 in it stands over the waste.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::bought, job.walls.existing = true;
  job.bench.reset();
  facts::Facts facts = sample::good_facts();
  facts::Bought& bought = facts.bought.emplace();
  bought.drain_aside_mm = 200, bought.waste_back_mm = 0;
  const auto with = [&](double waste_right_of_drain, double left_over) {
    bought.waste_aside_mm = 200 + waste_right_of_drain;
    for (facts::Opening& o : facts.openings)
      if (o.axis == facts::Axis::width) o.left_over_mm = left_over;
    return results(job, facts).at("base.over-waste");
  };
  const auto partly = with(20, 6);  // 3 of 20 mm
  EXPECT_NE(partly.advice.find("have the waste moved 13/16\" to the left before"), std::string::npos) << partly.advice;
  EXPECT_NE(
      partly.advice.find("to the right, as far as the room lets it, tight to the wall (base.against = \"right\"), and "
                         "have the waste moved 11/16\" to the left"),
      std::string::npos)
      << partly.advice;
  EXPECT_TRUE(partly.remedies.empty());
  const auto tight = with(-20, 30);  // 15 of 20 mm leave 5
  ASSERT_EQ(tight.remedies.size(), 1u) << tight.advice;
  EXPECT_EQ(job::text_of(tight.remedies[0].changes.at(0)), "base.against = \"left\"");
  const auto within = with(8, 100);
  EXPECT_NE(within.advice.find("set the whole base 5/16\" to the right, as the room lets it"), std::string::npos)
      << within.advice;
  EXPECT_TRUE(within.remedies.empty()) << "tight to the wall it would stand past the waste";
  job.bench = sample::alcove().bench;
  for (const double aside : {8., -8.}) EXPECT_EQ(with(aside, 100).advice.find("whole base"), std::string::npos);
}

TEST(Absent, ABoughtBaseGoesClearOfAJoistAsFarAsTheRoomLetsItGo) {
  // Source: by hand: in the middle of what is left over a base goes half of it either way; tight to the wall its drain
  // is clear where that is far enough.
  job::Job job = sample::alcove();
  job.base.made = job::Made::bought;
  job.bench.reset();
  facts::Facts facts = sample::good_facts();
  facts.drain.bore_to_joist_mm = -4;
  facts::DrainWindow& w = facts.room.drain;
  w.joists_known = w.any = w.along_width = true;
  w.now_mm = {700, 400, 0}, w.nearest_mm = {712, 400, 0}, w.moved_mm = 12;
  const auto with = [&](double left_over) {
    for (facts::Opening& o : facts.openings)
      if (o.axis == facts::Axis::width) o.left_over_mm = left_over;
    return results(job, facts).at("drain.bore-clear-of-joists");
  };
  const rules::Result far = with(30), near = with(20);
  EXPECT_NE(far.advice.find("to the right, tight to the wall it is clear (base.against)"), std::string::npos)
      << far.advice;
  ASSERT_EQ(far.remedies.size(), 1u);
  EXPECT_EQ(job::text_of(far.remedies[0].changes.at(0)), "base.against = \"right\"");
  EXPECT_EQ(far.remedies[0].instead.find("base.against"), std::string::npos) << "where it goes too far";
  EXPECT_TRUE(near.remedies.empty());
  EXPECT_NE(near.advice.find("head the joist off"), std::string::npos) << near.advice;
  w.nearest_mm[0] = 688;
  EXPECT_EQ(job::text_of(with(30).remedies.at(0).changes.at(0)), "base.against = \"left\"");
}

TEST(Absent, ALinerWithoutAThresholdIsReadAboveTheFloorsEdge) {
  // Source: IRC P2709.2 (2021): above the finished threshold; without one water leaves over the floor's highest edge.
  job::Job job = sample::alcove();
  job.liner.emplace();
  facts::Facts facts = sample::good_facts();
  const auto advice = [&] { return results(job, facts).at("liner.above-threshold").advice; };
  EXPECT_NE(advice().find("above the finished threshold"), std::string::npos) << advice();
  facts.heights.threshold_least_mm.reset(), facts.heights.threshold_greatest_mm.reset();
  EXPECT_EQ(advice().find("threshold (liner"), std::string::npos) << advice();
  EXPECT_NE(advice().find("above the finished floor's highest edge (liner.above_threshold)"), std::string::npos)
      << advice();
}

TEST(Absent, WhatABaseFromAFileMeasuresIsNoLineOfTheJobFile) {
  // Source: common practice, no source: another base is bought; in this job file no key holds its width.
  job::Job job = sample::alcove();
  job.base.made = job::Made::bought;
  facts::Facts facts = sample::good_facts();
  facts.clear.circle_mm = 20 * 25.4;
  if (facts.clear.finished) facts.clear.finished->circle_mm = 20 * 25.4;
  const auto advice = [&] { return results(job, facts).at("clear.circle").advice; };
  EXPECT_NE(advice().find("(base."), std::string::npos) << advice();
  job.base.body = std::make_shared<const job::Body>();
  EXPECT_EQ(advice().find("(base."), std::string::npos) << advice();
  EXPECT_NE(advice().find("buy"), std::string::npos) << advice();
}

TEST(Absent, ABodyThatEndsAboveTheFloorNeedsNoBoreForItself) {
  // Source: common practice, no source: below a thick bed only the pipe goes through the floor.
  facts::Facts facts = sample::good_facts();
  facts.drain.body_to_bore_mm = 0;
  facts::Part drain, floor;
  drain.which = {{facts::Role::drain}}, floor.which = {{facts::Role::subfloor}};
  drain.bbox_mm = {0, 0, -5, 10, 10, 60}, floor.bbox_mm = {0, 0, -19, 100, 100, 0};
  facts.parts.push_back(drain), facts.parts.push_back(floor);
  EXPECT_NE(results(sample::alcove(), facts).at("drain.in-bore").outcome, Outcome::not_applicable);
  facts.parts[facts.parts.size() - 2].bbox_mm[2] = 0;
  EXPECT_EQ(results(sample::alcove(), facts).at("drain.in-bore").outcome, Outcome::not_applicable);
}

TEST(Absent, BlockingThatMeetsAPlateIsSetElsewhere) {
  // Source: common practice, no source: a sole plate stays; blocking is set where there is room for it.
  facts::Facts facts = sample::good_facts();
  facts.fits.push_back({facts::wall_part(job::Side::back, facts::Kind::sole_plate),
                        facts::wall_part(job::Side::back, facts::Kind::blocking, 2, 1),
                        facts::Touch::clash,
                        0,
                        300,
                        {900, 940, 30}});
  const rules::Result clash = results(sample::alcove(), facts).at("fit.no-clash");
  EXPECT_EQ(clash.advice, "set that row of blocking higher or lower (walls.blocking)");
}

TEST(Absent, AMembranesHeightThatNobodySaidIsNotChecked) {
  // Source: IRC P2709.2 (2021) for a lining, which a bonded membrane is; its top on the walls is that of what is tiled.
  job::Job job = sample::alcove();
  job.base.kind = job::BaseKind::site_built, job.base.site.waterproofing = job::Waterproofing::bonded;
  job.liner.reset();
  facts::Facts facts = sample::good_facts();
  facts.site_built.emplace();
  const auto now = [&] { return results(job, facts).at("liner.above-threshold"); };
  facts.finish.top_mm = *facts.heights.threshold_greatest_mm + 2000;
  EXPECT_EQ(now().outcome, Outcome::pass);
  job.defaulted = {"tile.height"};
  EXPECT_EQ(now().outcome, Outcome::not_checked);
  EXPECT_NE(now().advice.find("tile.height"), std::string::npos) << now().advice;
  job.liner.emplace().above_threshold = job::Length::inches(3);
  EXPECT_EQ(now().outcome, Outcome::not_checked) << "there is no liner that could have been measured";
}

TEST(Absent, ANotchsLengthNamesThePipeThatItRestsOn) {
  // Source: IRC R502.8.1 (2018): a third of the depth; the length is that of the pipe, whose size somebody must say.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  job.trap.emplace().notch = job::Length::inches(1), job.floor.joist_first = job::Length::inches(3);
  facts.room.drain.joists_known = true, facts.room.drain.joist_depth_mm = 7.25 * 25.4;
  facts.pipe.bay.clear(), facts.pipe.crossings = {{"joists/joist-04", 300, -255, -19, {}, 60}};
  const auto names_pipe = [&] {
    const rules::Result r = results(job, facts).at("joist.notch-length");
    return std::any_of(r.rests_on.begin(), r.rests_on.end(),
                       [](const rules::Support& s) { return s.name == rules::name_of(rules::Input::pipe); });
  };
  EXPECT_TRUE(names_pipe());
  job.trap->outside = job::Length::inches(1.9);
  EXPECT_TRUE(names_pipe());
  EXPECT_EQ(results(job, facts).at("joist.notch-length").outcome, Outcome::pass) << "measured, whatever it is called";
}

TEST(Absent, ALinersFallRestsOnTheBedItLiesOn) {
  // Source: none; of a base built on site the planes of the bed tell it, of any other the job file.
  job::Job job = sample::alcove();
  job.liner.emplace().fall = job::Fall::ratio(0.03);
  facts::Facts facts = sample::good_facts();
  const auto names = [&] {
    std::string all;
    const rules::Result fall = results(job, facts).at("liner.fall");
    for (const rules::Support& s : fall.rests_on) all += s.name + ";";
    return all;
  };
  EXPECT_EQ(names(), "the liner;");
  job.base.kind = job::BaseKind::site_built;
  facts.site_built.emplace().bed_fall_least = 0.03;
  EXPECT_EQ(names(), "sides and diagonals of the alcove;leans of the walls;bed;");
}

job::Job with_a_fixture() {
  job::Job job = sample::alcove();
  job.survey.board_mm = 12.7;
  job.fixtures.push_back({"grab bar", job::Side::back, job::Length::inches(24), job::Length::inches(34), {}, {}});
  return job;
}

TEST(Absent, ASeatThatWasNotFoundAndAFloorNobodyReadHaveNoHeight) {
  // Source: none; ADA asks for both, and nought is no height.
  job::Job job = sample::alcove();
  job.book = "accessible";
  facts::Facts facts = sample::good_facts();
  facts.heights.outside.reset();
  facts.clear.seat_depth_mm.reset();
  const auto found = results(job, facts);
  for (const char* id : {"seat.height", "seat.depth", "threshold.step-outside", "wall.above-room"}) {
    EXPECT_EQ(found.at(id).outcome, Outcome::not_checked) << id;
    EXPECT_FALSE(found.at(id).measured) << id;
  }
  EXPECT_NE(found.at("seat.height").advice.find("floor.finish_outside"), std::string::npos);
  facts = sample::good_facts();
  facts.heights.seat_front_mm.reset();
  EXPECT_EQ(results(job, facts).at("seat.height").outcome, Outcome::not_checked);
}

TEST(Absent, WhatNobodyFoundOnASolidIsNotChecked) {
  // Source: none; upstands, fixtures and a deck whose solids gave nothing.
  facts::Facts facts = sample::good_facts();
  facts.backings.clear();
  facts.holds.clear();
  facts.deck = {};
  const auto found = results(with_a_fixture(), facts);
  for (const char* id : {"blocking.behind", "fixture.above-water", "fixture.clear-of-bench", "fixture.clear",
                         "upstand.held", "floor.deck-span"}) {
    EXPECT_EQ(found.at(id).outcome, Outcome::not_checked) << id;
    EXPECT_FALSE(found.at(id).advice.empty()) << id;
  }
}

TEST(Absent, NoPassRestsOnStudsThatNobodyRead) {
  // Source: none; a standing wall is drawn with studs at its spacing, and a fixture that only such a stud backs is not
  // backed yet. Timber that is known to be there is enough, and a plate that no stud can back fails whoever reads.
  job::Job job = with_a_fixture();
  job.walls.existing = true;
  facts::Facts facts = sample::good_facts();
  facts::Backing& bar = facts.backings[0];
  bar.assumed = 1, bar.stud_can = true;
  rules::Result r = results(job, facts).at("blocking.behind");
  EXPECT_EQ(r.outcome, Outcome::not_checked);
  EXPECT_NE(r.advice.find("survey.studs"), std::string::npos) << r.advice;
  EXPECT_NE(r.where.find("assumed"), std::string::npos) << r.where;
  bar.stud_can = false;
  EXPECT_EQ(results(job, facts).at("blocking.behind").outcome, Outcome::fail);
  bar.assumed = 0;
  EXPECT_EQ(results(job, facts).at("blocking.behind").outcome, Outcome::pass);

  facts::Hold& back = facts.holds[0];
  back.assumed = true, back.sure_apart_mm = back.length_mm;
  EXPECT_EQ(results(job, facts).at("upstand.held").outcome, Outcome::not_checked);
  job.survey.studs = {{job::Side::back, job::Side::left, {20, 400}}};
  back.assumed = false;
  facts.holds[2].assumed = true, facts.holds[2].sure_apart_mm = back.sure_apart_mm + 1;
  EXPECT_EQ(results(job, facts).at("upstand.held").outcome, Outcome::fail)
      << "what was read fails, whatever the other wall has";
  facts.holds[2].ends[1].sure_mm = back.length_mm;
  EXPECT_EQ(results(job, facts).at("upstand.end-held").outcome, Outcome::not_checked);
  facts.holds[2].assumed = false;
  EXPECT_EQ(results(job, facts).at("upstand.end-held").outcome, Outcome::caution);
}

TEST(Absent, SpotsThatDoNotSpanTheBaseSettleNothing) {
  // Source: common practice, no source.
  facts::Facts facts = sample::good_facts();
  facts.room.floor.unread = {{"front right", {1800, 20, 0}}};
  const auto found = results(with_a_fixture(), facts);
  for (const char* id : {"floor.level", "floor.hump", "floor.rock", "bed.greatest", "bed.fills-shell"}) {
    EXPECT_EQ(found.at(id).outcome, Outcome::not_checked) << id;
    EXPECT_NE(found.at(id).advice.find("front right corner"), std::string::npos) << found.at(id).advice;
  }
}

TEST(Absent, WhatDoesNotApplySaysWhy) {
  // Source: none; nothing vanishes because a section was left out.
  job::Job bare = sample::alcove();
  bare.bench.reset();
  bare.base.threshold = {};
  bare.base.upstand_thickness = {};
  bare.floor.kind = job::FloorKind::slab;
  for (const job::Job& job : {bare, sample::alcove()}) {
    int told = 0;
    for (const auto& [id, r] : results(job, sample::good_facts())) {
      if (r.outcome == Outcome::not_applicable) {
        ++told;
        EXPECT_FALSE(r.where.empty()) << id;
      }
    }
    EXPECT_GT(told, 20);
  }
  EXPECT_EQ(results(bare, sample::good_facts()).at("trap.arm").outcome, Outcome::not_checked) << "every drain has one";
}

TEST(Absent, EveryRuleListsItsInputs) {
  // Source: none.
  for (const rules::Rule& rule : rules::all_rules()) {
    EXPECT_FALSE(rule.rests_on.empty()) << rule.id;
    for (const rules::Input input : rule.rests_on) EXPECT_NE(std::string{rules::name_of(input)}, "") << rule.id;
  }
}

TEST(Absent, NoBenchNoSeatRules) {
  // Source: none; a rule about a thing the job does not have does not apply, even if a fact strays in.
  job::Job job = sample::alcove();
  job.bench.reset();
  for (const char* id : {"seat.fall-least", "seat.fall-greatest", "seat.drains"})
    EXPECT_EQ(results(job, sample::good_facts()).at(id).outcome, Outcome::not_applicable) << id;
}

TEST(Absent, NoThresholdNoThresholdRules) {
  // Source: IRC P2709.1 (2021): the clause holds where there is a threshold.
  job::Job job = sample::alcove();
  job.base.threshold = {};
  int of_thresholds = 0;
  for (const auto& [id, r] : results(job, sample::good_facts()))
    if (id.rfind("threshold.", 0) == 0) {
      ++of_thresholds;
      EXPECT_EQ(r.outcome, Outcome::not_applicable) << id;
    }
  EXPECT_EQ(of_thresholds, 9);
}

TEST(Absent, AStepNeedsTheBathsFloor) {
  // Source: none; where nothing is raised at the entry its step is judged, or said to be unread.
  job::Job job = sample::alcove();
  job.base.threshold = {};
  facts::Facts facts = sample::good_facts();
  facts.edges[1].turned = facts::Turned::rim;
  facts.heights.outside.reset();
  const rules::Result step = results(job, facts).at("entry.step");
  EXPECT_EQ(step.outcome, Outcome::not_checked);
  EXPECT_NE(step.advice.find("floor.finish_outside"), std::string::npos) << step.advice;
  EXPECT_EQ(results(sample::alcove(), facts).at("entry.step").outcome, Outcome::not_applicable);
}

TEST(Absent, ASlabHasNoJoists) {
  // Source: none.
  job::Job job = sample::alcove();
  job.floor.kind = job::FloorKind::slab;
  facts::Facts facts = sample::good_facts();
  facts.drain.bore_to_joist_mm.reset();
  EXPECT_EQ(results(job, facts).at("drain.bore-clear-of-joists").outcome, Outcome::not_applicable);
}

TEST(Absent, AFilmOfWaterWithoutAWayOutFails) {
  // Source: none; a level facet holds no depth and drains nowhere.
  facts::Facts facts = sample::good_facts();
  facts.drainage[0] = {facts::Surface::base_floor, false, 0, {}, {"left"}};
  const rules::Result r = results(sample::alcove(), facts).at("floor.drains");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_NE(r.where.find("'left'"), std::string::npos) << r.where;
}

}  // namespace
}  // namespace fallwright
