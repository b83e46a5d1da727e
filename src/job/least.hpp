/// The least the job file takes, where advice must not go below it either.
#pragma once

#include <algorithm>

#include "job/job.hpp"

namespace fallwright::job {

constexpr double least_bench_mm = 150;  ///< deep, of any frame; common practice, no source: nobody sits on less

/// What a frame's depth takes up: knee wall and cleat of timber, or two studs of steel.
inline double least_bench_mm_of(const BenchFrame& frame) {
  const double stud = frame.stock.depth.in_mm();
  const double narrow = frame.kind == FrameKind::steel ? stud * 2 : stud + 2 * frame.stock.thickness.in_mm();
  return std::max(least_bench_mm, narrow);
}

}  // namespace fallwright::job
