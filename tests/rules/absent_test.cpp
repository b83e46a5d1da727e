// What nobody measured is never a pass; what the job does not have does not apply.
#include <gtest/gtest.h>

#include <limits>
#include <map>

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
      {"room.drop-in", [](facts::Facts& f) { f.room.not_plumbed = {"left"}; }},
      {"room.goes-in", [](facts::Facts& f) { f.room.not_plumbed = {"left"}; }},
      {"levelling.window", [](facts::Facts& f) { f.facets.clear(); }},
      {"rim.twist", [](facts::Facts& f) { f.room.as_set.points.pop_back(); }},
      {"bed.bearing", [](facts::Facts& f) { f.bed = {}; }},
      {"access.opening", [](facts::Facts& f) { f.clear.entry_mm.reset(); }},
      {"drain.outlet", [](facts::Facts& f) { f.drain.outlet_mm.reset(); }},
      {"clear.circle", [](facts::Facts& f) { f.clear.circle_mm = std::numeric_limits<double>::quiet_NaN(); }},
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
  for (const auto& [id, r] : results(job, sample::good_facts()))
    if (id.rfind("threshold.", 0) == 0) {
      EXPECT_EQ(r.outcome, Outcome::not_applicable) << id;
    }
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
  facts.drainage[0] = {"base-floor", false, 0, {}, {"left"}};
  const rules::Result r = results(sample::alcove(), facts).at("floor.drains");
  EXPECT_EQ(r.outcome, Outcome::fail);
  EXPECT_NE(r.where.find("'left'"), std::string::npos) << r.where;
}

}  // namespace
}  // namespace fallwright
