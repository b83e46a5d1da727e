/// A room whose trap is known but for its pipe.
#pragma once

#include "rules/boundary_cases.hpp"
#include "support/imperial.hpp"

namespace fallwright::sample {

inline job::Job trap(double arm_in, double in_per_ft, const char* book = "residential") {
  Case c;
  c.book = book;
  job::Job job = job_for(c);
  job.trap->arm = job::Length::inches(arm_in);
  job.trap->fall = job::Fall::inches_per_foot(in_per_ft);
  job.defaulted = {"drain.outlet"};
  return job;
}

}  // namespace fallwright::sample
