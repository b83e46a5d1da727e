// What a check names as its ground is what it hangs on: readings are taken out one at a time, under every book.
#include <algorithm>
#include <set>

#include <gtest/gtest.h>

#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "rules/rule_book.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

using facts::Facts;
using job::Job;
using job::Length;
using rules::Input;
using rules::Outcome;
using Inputs = std::set<Input>;

struct Room {
  std::string name;
  Job job;
  Facts facts;
};

/// Everything that can be told of the sample, with its pipe along a bay.
Room told(const std::string& name) {
  Room r{name, sample::alcove(), sample::good_facts()};
  r.job.trap = sample::trap();
  r.job.survey.board_mm = 12.7, r.job.survey.tolerance_mm = 1.5;
  r.job.floor.joist_span = Length::inches(120), r.job.floor.joist_bearing = Length::inches(-30);
  r.job.floor.joist_species = "SPF No.2";
  r.job.floor.clear_along = r.job.floor.clear_before = Length::inches(60);
  r.job.glass = job::Glass{Length::inches(0.375), Length::inches(76), {}, true};
  r.job.liner.emplace() = {Length::inches(4), Length::inches(4), job::Fall::inches_per_foot(0.25)};
  for (const auto kind : {job::FixtureKind::grab_bar, job::FixtureKind::controls})
    r.job.fixtures.push_back({"bar", job::Side::right, Length::inches(20), Length::inches(36), {}, {}, kind, 200});
  r.job.buy.mix = {{1, 0.5, 4}, "S", 0, 0, job::damp_sand_kg_m3, {}};
  r.job.bed.bag_yield_m3.reset();
  r.facts.room.drain.joists_known = true, r.facts.room.drain.joist_depth_mm = 9.25 * 25.4;
  return r;
}

/// The same with a pipe that goes through joists, or takes notches from them.
Room crossing(bool notched) {
  Room r = told(notched ? "notched" : "bored");
  job::Trap& trap = *r.job.trap;
  trap.pipe = Length::inches(2), trap.arm = Length::inches(40), trap.weir = Length::inches(-8), trap.outside.reset();
  (notched ? trap.notch : trap.hole) = Length::inches(notched ? 1 : 2.5);
  (notched ? trap.hole : trap.notch).reset();
  r.facts.pipe.bay.clear(), r.facts.pipe.beside_mm.reset();
  r.facts.pipe.crossings = {{"joists/joist-04", 300, -255, -19, -137, 63.5, 0.2}};
  return r;
}

Room bought() {
  Room r = told("bought");
  r.job.base.kind = job::BaseKind::bought, r.job.base.made = job::Made::bought;
  r.job.base.tape.hand = job::Side::right, r.job.base.tape.weight_kg = 30;
  r.job.walls.existing = true;
  r.job.survey.studs = {{job::Side::back, job::Side::left, {20, 400}},
                        {job::Side::left, job::Side::back, {20, 400}},
                        {job::Side::right, job::Side::back, {20, 400}}};
  facts::Bought& b = r.facts.bought.emplace();
  b.drain_aside_mm = 200, b.waste_aside_mm = 202, b.waste_back_mm = 1, b.density_kg_m3 = 1200;
  return r;
}

Room site_built(job::Waterproofing waterproofing) {
  Room r = told(waterproofing == job::Waterproofing::liner ? "over a liner" : "under a membrane");
  r.job.base.kind = job::BaseKind::site_built, r.job.base.site.waterproofing = waterproofing;
  r.job.base.site.cover = Length::inches(1.5);
  if (waterproofing == job::Waterproofing::bonded) r.job.liner.reset();
  r.facts.site_built.emplace() = {{}, 30, 30, 40, 0, 0.03, 1e6};
  return r;
}

/// A reading, by all names under which checks may rest on it, and how it comes to be unknown.
struct TakenOut {
  const char* name;
  Inputs inputs;
  void (*take_out)(Job&, Facts&);
};

const TakenOut readings[] = {
    {"plan",
     {Input::sizes, Input::plan, Input::outline},
     [](Job&, Facts& f) { f.room.closure = {false, false, {}, 0, 0, "", {"back"}}; }},
    {"plumb",
     {Input::plumb, Input::upright, Input::leans, Input::base_leans},
     [](Job&, Facts& f) { f.room.not_plumbed = {job::Side::left}; }},
    {"widths", {Input::widths, Input::narrow_places}, [](Job&, Facts& f) { f.room.widths.clear(); }},
    {"ribs",
     {Input::ribs},
     [](Job&, Facts& f) {
       if (f.bought) f.bought->ribs_known = false;
     }},
    {"levels", {Input::levels, Input::floor_shape}, [](Job&, Facts& f) { f.room.floor.known = false; }},
    {"studs",
     {Input::studs, Input::upright, Input::waste},
     [](Job& j, Facts& f) {
       j.walls.existing = true, j.survey.studs.clear();
       for (facts::Backing& b : f.backings) b.assumed = 1, b.stud_can = true;
       for (facts::Hold& h : f.holds) h.assumed = true, h.sure_apart_mm = h.ends[0].sure_mm = h.length_mm;
     }},
    {"joists",
     {Input::joists, Input::joist_spacing, Input::route, Input::joist_solids},
     [](Job& j, Facts& f) {
       j.floor.joist_first.reset(), f.room.drain.joists_known = false, f.drain.bore_to_joist_mm.reset();
       f.pipe.routed = false;
       std::erase_if(f.parts, [](const facts::Part& p) { return p.which.is(facts::Role::joist); });
     }},
    {"spacing", {Input::joist_spacing}, [](Job& j, Facts&) { j.defaulted.push_back("floor.joists.spacing"); }},
    {"span", {Input::joist_span, Input::bearing}, [](Job& j, Facts&) { j.floor.joist_span.reset(); }},
    {"species", {Input::joist_species}, [](Job& j, Facts&) { j.floor.joist_species.clear(); }},
    {"deck", {Input::deck}, [](Job& j, Facts&) { j.defaulted.push_back("floor.deck"); }},
    {"outside", {Input::finish_outside}, [](Job&, Facts& f) { f.heights.outside.reset(); }},
    {"floor before",
     {Input::floor_before},
     [](Job& j, Facts&) { j.floor.clear_along.reset(), j.floor.clear_before.reset(); }},
    {"board", {Input::board}, [](Job& j, Facts&) { j.survey.board_mm.reset(); }},
    {"build-up", {Input::wall_build_up}, [](Job&, Facts& f) { f.clear.finished.reset(); }},
    {"tile",
     {Input::waterproof_top, Input::membrane_top},
     [](Job& j, Facts&) { j.defaulted.push_back("tile.height"); }},
    {"body", {Input::drain_body}, [](Job& j, Facts&) { j.defaulted.push_back("drain.body"); }},
    {"hole", {Input::hole}, [](Job& j, Facts&) { j.defaulted.push_back("drain.bore"); }},
    {"outlet", {Input::drain_outlet, Input::pipe}, [](Job& j, Facts&) { j.defaulted.push_back("drain.outlet"); }},
    {"waste",
     {Input::waste},
     [](Job&, Facts& f) {
       if (f.bought) f.bought->waste_aside_mm.reset(), f.bought->waste_back_mm.reset();
     }},
    {"liner", {Input::liner, Input::liner_fall, Input::membrane_top}, [](Job& j, Facts&) { j.liner.reset(); }},
    {"trap", {Input::trap}, [](Job& j, Facts& f) { j.trap.reset(), f.pipe = {}; }},
    {"pipe",
     {Input::pipe, Input::drain_outlet},
     [](Job& j, Facts& f) {
       if (j.trap) j.trap->pipe.reset(), j.trap->outside.reset(), j.defaulted.push_back("drain.outlet");
       for (facts::JoistCrossing& c : f.pipe.crossings) c.centre_mm.reset();
     }},
    {"weir",
     {Input::weir},
     [](Job& j, Facts& f) {
       if (j.trap) j.trap->weir.reset();
       f.pipe.down_to_weir_mm.reset();
       for (facts::JoistCrossing& c : f.pipe.crossings) c.centre_mm.reset();
     }},
    {"bearing",
     {Input::bearing},
     [](Job& j, Facts& f) {
       j.floor.joist_bearing.reset();
       for (facts::JoistCrossing& c : f.pipe.crossings) c.along_span.reset();
     }},
    {"flow", {Input::flow, Input::drain_outlet}, [](Job& j, Facts&) { j.drain.flow_mm3.reset(); }},
    {"glass", {Input::glass}, [](Job& j, Facts&) { j.glass->marked.reset(); }},
    {"panes", {Input::glass}, [](Job& j, Facts&) { j.glass->thickness.reset(); }},
    {"cleat", {Input::cleat_held}, [](Job& j, Facts&) { j.bench->frame.fastener.reset(); }},
    {"fixtures", {Input::fixtures}, [](Job& j, Facts& f) { j.fixtures.clear(), f.backings.clear(); }},
};

bool judged(const rules::Result& r) {
  return r.outcome == Outcome::pass || r.outcome == Outcome::fail || r.outcome == Outcome::caution;
}

TEST(RestsOn, WhateverLeavesACheckOpenIsNamedAmongItsInputs) {
  // Source: none; a check that loses its verdict with a reading rests on that reading. Five rooms between them have all
  // that a check can rest on; which checks there are goes by the book.
  std::set<std::string> of_use;
  for (const Room& room : {told("along a bay"), crossing(false), crossing(true), bought(),
                           site_built(job::Waterproofing::liner), site_built(job::Waterproofing::bonded)})
    for (const std::string& book : rules::book_names()) {
      Job job = room.job;
      job.book = book;
      const std::vector<rules::Result> before = rules::check(job, room.facts);
      for (const TakenOut& reading : readings) {
        Job less = job;
        Facts facts = room.facts;
        reading.take_out(less, facts);
        const std::vector<rules::Result> after = rules::check(less, facts);
        for (std::size_t i = 0; i < before.size(); ++i) {
          if (!judged(before[i]) || after[i].outcome != Outcome::not_checked) continue;
          of_use.insert(reading.name);
          const auto& inputs = rules::all_rules()[i].rests_on;
          EXPECT_TRUE(std::any_of(inputs.begin(), inputs.end(), [&](Input in) { return reading.inputs.count(in) > 0; }))
              << before[i].id << " does not name '" << reading.name << "' (" << room.name << ", " << book << ")";
        }
      }
    }
  for (const TakenOut& reading : readings)
    EXPECT_TRUE(of_use.count(reading.name)) << reading.name << ": nothing was left open by it";
}

}  // namespace
}  // namespace fallwright
