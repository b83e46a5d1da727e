/// One check's result, for tests that are about it.
#pragma once

#include <string>

#include <gtest/gtest.h>

#include "rules/check.hpp"
#include "support/sample.hpp"

namespace fallwright::sample {

/// The sample alcove under a rule book.
inline job::Job in_book(const char* book) {
  job::Job job = alcove();
  job.book = book;
  return job;
}

inline rules::Result result_of(const job::Job& job, const facts::Facts& facts, const std::string& id) {
  for (const rules::Result& r : rules::check(job, facts))
    if (r.id == id) return r;
  ADD_FAILURE() << "no rule " << id;
  return {};
}

}  // namespace fallwright::sample
