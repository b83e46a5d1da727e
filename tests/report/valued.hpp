/// A report in which no two numbers are alike. Inside the report's tests only.
#pragma once

#include "report/distinct.hpp"
#include "report/report.hpp"
#include "rules/check.hpp"
#include "rules/judgement.hpp"
#include "support/sample.hpp"

namespace fallwright::sample {

inline rules::Result failed() {
  rules::Result r;
  r.id = "floor.fall-least", r.title = "floor falls enough";
  r.outcome = rules::Outcome::fail;
  r.measured = 0.2 / 12, r.limit = {1. / 48, 1. / 24, rules::Unit::ratio, "IRC P2709.1", rules::Verified::secondary};
  r.where = "left facet", r.advice = "raise the rim", r.margin = -0.2;
  r.details = {"a line"};
  r.remedies = {
      {{{"base.rise", "\"3/4 in\"", 0}, {"fixture.height", "", 2}}, {"threshold.step-inside"}, "no such job", true}};
  r.rests_on = {{"the base", true, rules::Standing::as_designed, "", 0},
                {"spot levels", false, rules::Standing::missing, "", 1}};
  return r;
}

inline rules::Result open() {
  rules::Result r;
  r.id = "floor.level", r.title = "floor is level";
  r.limit.greatest = 6.35;
  r.advice = "read spot levels";
  return r;
}

struct Valued {
  job::Job job = alcove();
  facts::Facts facts = distinct_facts();

  Valued() {
    job.file = "/somewhere/else/bath.toml", job.sha256 = "5ha", job.book = "residential";
    job.buy.prices.file = "prices.csv", job.buy.currency = "EUR";
  }
  report::Report report() const {
    const takeoff::CutRow cut{
        "A",   {"x", "y"}, "2x4", 263.525, 262.5, 88.9, 38.1, 2,         "0.0 and 2.3 deg from square",
        false, false,      1.7,   {},      false, {},   {},   {0, 2.345}};
    const takeoff::Stick stick{"2x4", 2438.4, {{"A", 263.525}, {"A", 263.525}}, 1905, true};
    return {job,
            facts,
            rules::judgement_of(job, facts, rules::limits_for(job), {failed(), open()}),
            {{"tile, walls", 45.25, "ft2", 5, "boxes", "back 30.0 ft2", 0.1, 10, "boxes", 0.02, true, false, 41.5,
              "the yard"},
             {"sand", 4.4, "ft3", 4.84, "ft3", "loose", 0.1, 0}},
            {cut},
            {{"2x4",
              {stick},
              2,
              3.175,
              3.25,
              true,
              2438.5,
              2400.5,
              1905.5,
              true,
              {},
              {},
              false,
              {2438.4, 3048.0},
              {2438.4}}},
            {{"model.step", 12, "ab"}}};
  }
};

}  // namespace fallwright::sample
