/// What a check says when it is broken, as rows of a table. Inside the rules' tests only.
#pragma once

#include <functional>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/boundary_cases.hpp"
#include "rules/check.hpp"
#include "support/imperial.hpp"

namespace fallwright::rules {

using facts::Facts;
using job::Job;
using job::Length;
using testing::HasSubstr;

/// A way to break a check, and what it must then say. `unit`: in what `measured` is given.
struct Says {
  const char* id;
  std::function<void(Job&, Facts&)> put;
  double measured;
  double unit;
  std::vector<const char*> where, advice;
  std::string book = "residential";
  Outcome outcome = Outcome::fail;
};

inline Result said_by(const Says& s) {
  Job job = sample::job_for({s.id, 0, 0, 0, {}, {}, s.book});
  Facts facts = sample::facts_for_boundary();
  if (std::string{s.id}.rfind("rim.", 0) != 0) facts.room.as_set.raised_mm.reset();  // as designed, not as it lies
  s.put(job, facts);
  for (const Result& r : check(job, facts))
    if (r.id == s.id) return r;
  throw std::logic_error(s.id);
}

inline void expect_said(const std::vector<Says>& all) {
  for (const Says& s : all) {
    const Result r = said_by(s);
    EXPECT_EQ(r.outcome, s.outcome) << s.id << ": " << r.where << " | " << r.advice;
    ASSERT_TRUE(r.measured) << s.id << ": " << r.advice;
    EXPECT_NEAR(*r.measured / s.unit, s.measured, 1e-6) << s.id;
    for (const char* words : s.where) EXPECT_THAT(r.where, HasSubstr(words)) << s.id;
    for (const char* words : s.advice) EXPECT_THAT(r.advice, HasSubstr(words)) << s.id;
  }
}

inline void raise_edge(Facts& f, std::size_t edge, facts::Turned turned, double inches) {
  f.edges[edge].turned = turned;
  f.edges[edge].behind = facts::Behind::nothing;
  f.edges[edge].top_mm = f.edges[edge].top_greatest_mm = inches * in;
}

}  // namespace fallwright::rules
