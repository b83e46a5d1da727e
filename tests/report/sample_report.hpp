/// A report on the sample alcove, with one failure, one caution and one check that could not be made.
#pragma once

#include "report/report.hpp"
#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "support/part_id.hpp"
#include "support/sample.hpp"
#include "takeoff/packs.hpp"

namespace fallwright::sample {

/// What a report is made from.
struct Reported {
  job::Job job = alcove();
  facts::Facts facts = good_facts();

  Reported() {
    facts.facets[2].fall = 0.2 / 12;
    facts.clear.finished->circle_mm = 29 * 25.4;
    facts.heights.upstand_top_mm.reset();
    facts.creases = {{facts::Surface::base_floor, "back", "left", true, 0.018, 700, {}, {}}};
    job.trap = trap();
    job.trap->pipe = job::Length::inches(2), job.trap->hole = job::Length::mm(61);
    facts.pipe.crossings = {{"joists/joist-03", 200, -254, -19, -130, 60, 0.33}};
    facts.pipe.holes = {{"joists/joist-03", 500, -100, 40}};
    job.survey.board_mm = 12.7;
    job.floor.joist_span = job::Length::feet(8);
    job.floor.joist_species = "SPF No.2";
    facts.members = {
        {part_id("bench-frame/joist-01"), "bench-frame/joist-01", "2x4", false, false, 200, 200, 88.9, 38.1, {0, 0}},
        {part_id("bench-frame/stud-01"), "bench/stud-1", "2x4", false, false, 263.525, 263.525, 88.9, 38.1, {0, 0}}};
    facts.finish = {2000,
                    {{survey::Tiled::walls, survey::Side::back, 3e6}},
                    {{facts::Joint::floor_to_walls, 2000}},
                    {{facts::Role::base, survey::Side::back, 1460}},
                    3,
                    3e5,
                    1e6,
                    {{"deck", 3e5}}};
    facts.flood.dammed = {facts.flood.dips.back(), {150, 1.6e8, 1.2e6}};
    facts.room.drain = {true, true, {{500, 700}}, {100, 800}, {}, {}, 0, true, 3, 0.02, 0.04, "", 184, 61, 30, 46};
    facts.room.chain = {{"datum", 0, 0}, {"rib plane", 12, 12}};
    facts.room.gauges = {{"A1", 0, 900, -3, 15, 30, false}};
    facts.room.set_out = {{"bore centre from the left stud face", 1066}};
    facts.room.worst = {{"mortar in the bed as set", 4e7, 3.8e7, 4.2e7, "spot level", 1e5, facts::Bounded::volume}};
    job.bed.bag_yield_m3 = 0.45 * 0.028316846592;
  }
  report::Report report() const {
    const auto cuts = takeoff::cut_list(facts, false, takeoff::board_of(job));
    const auto plan = takeoff::plan_cuts(cuts, job.cuts, false);
    auto rows = takeoff::take_off(job, facts, cuts, plan);
    takeoff::share_packs(rows);
    return {job,
            facts,
            rules::judgement_of(job, facts, rules::limits_for(job), rules::check(job, facts)),
            rows,
            cuts,
            plan,
            {{"model.step", 12, "ab"}},
            {{{"base.fall", "\"1/4 in/ft\""}}, {"floor.fall-least"}, {"levelling.window"}, {"clear.circle"}}};
  }
};

}  // namespace fallwright::sample
