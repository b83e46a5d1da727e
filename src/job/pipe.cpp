#include "job/pipe.hpp"

#include <cmath>

#include "job/job.hpp"

namespace fallwright::job {

const std::vector<Pipe>& pipes(PipeSeries series) {
  static const std::vector<Pipe> inch{{"1-1/4 in", 31.75, 42.164, 42.164},
                                      {"1-1/2 in", 38.1, 48.26, 48.26},
                                      {"2 in", 50.8, 60.325, 60.325},
                                      {"3 in", 76.2, 88.9, 88.9},
                                      {"4 in", 101.6, 114.3, 114.3}};
  static const std::vector<Pipe> metric{{"DN 32", 32, 32, 36.2}, {"DN 40", 40, 40, 42.9}, {"DN 50", 50, 50, 55.8},
                                        {"DN 75", 75, 75, 75},   {"DN 90", 90, 90, 90},   {"DN 110", 110, 110, 110}};
  return series == PipeSeries::inch ? inch : metric;
}

const Pipe* pipe_of(units::Length nominal) {
  constexpr double as_named_mm = 0.5;
  const Pipe* nearest = nullptr;
  const auto off = [&](const Pipe& p) { return std::abs(p.nominal_mm - nominal.in_mm()); };
  for (const PipeSeries series : {PipeSeries::inch, PipeSeries::metric})
    for (const Pipe& pipe : pipes(series))
      if (off(pipe) <= as_named_mm && (!nearest || off(pipe) < off(*nearest))) nearest = &pipe;
  return nearest;
}

const Pipe* arm_pipe(const Job& job) {
  if (job.trap && job.trap->pipe) return pipe_of(*job.trap->pipe);
  return job.is_default("drain.outlet") ? nullptr : pipe_of(job.drain.outlet);
}

}  // namespace fallwright::job
