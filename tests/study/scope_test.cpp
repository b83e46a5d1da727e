// What a variant of a study is judged by, against the same with all that is told beside it.
#include <algorithm>
#include <vector>

#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "job/read.hpp"
#include "measure/memory.hpp"
#include "study/variant.hpp"
#include "support/draws.hpp"
#include "support/random_room.hpp"

namespace fallwright::study {
namespace {

using measure::Memory;

/// A random room, and the same crowded: its base longer by so much.
job::Job crowded(unsigned seed, double by_mm) {
  job::Job job = job::read(sample::random_room(seed), "crowded.toml");
  job.base.length = job::Length::mm(job.base.length.in_mm() + by_mm);
  return job;
}

/// Checks broken by a clash, for it is of these that least is looked at.
bool clashes(const std::vector<rules::Result>& results) {
  return std::any_of(results.begin(), results.end(), [](const rules::Result& r) {
    return r.id == "fit.no-clash" && r.outcome == rules::Outcome::fail;
  });
}

TEST(Scope, WhatIsOnlyToldMovesNoVerdict) {
  // Source: property: how far solids stand apart and where the underside is bare is told beside verdicts; solids that
  // share room are found without it.
  int jobs = 0, clashing = 0;
  for (unsigned seed = 700; seed < 700 + static_cast<unsigned>(draws(5)); ++seed)
    for (const double by_mm : {0.0, 60.0}) {
      std::vector<rules::Result> told, judged;
      try {
        const job::Job job = crowded(seed, by_mm);
        Memory one, other;
        told = judge(job, {.drain_window = true, .told = true}, one).results;
        judged = judge(job, {.drain_window = true}, other).results;
      } catch (const diag::ModelError&) {
        continue;  // a longer base has no bed there
      }
      ++jobs, clashing += clashes(told);
      ASSERT_EQ(told.size(), judged.size()) << seed;
      for (std::size_t i = 0; i < told.size(); ++i) {
        EXPECT_EQ(told[i].outcome, judged[i].outcome) << seed << " " << by_mm << " " << told[i].id;
        EXPECT_EQ(told[i].measured, judged[i].measured) << seed << " " << by_mm << " " << told[i].id;
        EXPECT_EQ(told[i].margin, judged[i].margin) << seed << " " << by_mm << " " << told[i].id;
        EXPECT_EQ(told[i].advice, judged[i].advice) << seed << " " << by_mm << " " << told[i].id;
      }
    }
  EXPECT_GT(jobs, 5);
  EXPECT_GT(clashing, 2);
}

}  // namespace
}  // namespace fallwright::study
