/// Speed, as ratios within one run, each beside what is wanted: a machine's own pace drops out of them. Of several
/// readings the least counts: what else a machine does only adds to it. By hand, with nothing else going on; ends with
/// 1 where something is slower than wanted.
#include <algorithm>
#include <cstdio>
#include <map>
#include <string>

#include <benchmark/benchmark.h>

void register_processes();

namespace {

/// Keeps the least of the processor times of one name, beside printing them all.
class Keeper : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      if (run.run_type == Run::RT_Aggregate) continue;
      const bool manual = run.benchmark_name().find("manual_time") != std::string::npos;
      const double time = manual ? run.GetAdjustedRealTime() : run.GetAdjustedCPUTime();
      const auto [known, first] = times_.try_emplace(run.benchmark_name(), time);
      if (!first) known->second = std::min(known->second, time);
    }
    ConsoleReporter::ReportRuns(runs);
  }
  /// In milliseconds; 0 when a filter has left it out.
  double operator()(const std::string& name) const {
    for (const auto& [key, value] : times_)
      if (key.rfind(name, 0) == 0) return value;
    return 0;
  }

 private:
  std::map<std::string, double> times_;
};

int missed = 0;

void row(const std::string& what, double value, const char* unit, bool at_most, double wanted) {
  if (!(value > 0) || value > 1e9) return;
  const bool met = at_most ? value <= wanted : value >= wanted;
  missed += !met;
  std::printf("%-58s %8.2f %-7s wanted: at %s %g%s\n", what.c_str(), value, unit, at_most ? "most" : "least", wanted,
              met ? "" : "  MISSED");
}

}  // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  register_processes();
  Keeper time;
  benchmark::RunSpecifiedBenchmarks(&time);
  std::printf("\n");
  const double start = time("start"), small = time("check 10 x 20"), direct = time("direct/10/20"),
               variant = (time("study of 40") - start) / 40;
  row("check flat 2A / start of the program", time("check flat 2A") / start, "times", true, 4);
  row("check Ferry Steps / start of the program", time("check Ferry Steps") / start, "times", true, 7);
  row("check 10 x 20 pockets / start of the program", small / start, "times", true, 7);
  row("check 40 x 80 pockets / 10 x 20", time("check 40 x 80") / small, "times", true, 20);
  row("check 1,000 spot levels", time("check 1,000") / 1000, "s", true, 1.5);
  row("build flat 2A without its check / (bare STEP + bare PDF)",
      (time("build flat 2A") - time("check flat 2A")) / (time("bare STEP") + time("bare PDF")), "times", true, 1.5);
  row("one variant within a study of 40, on one thread", variant, "ms", true, 10);
  row("solids of 40 x 80 pockets / 10 x 20", time("direct/40/80") / direct, "times", true, 17);
  row("solids by general Booleans / directly, 10 x 20", time("by_booleans/10/20") / direct, "times", false, 20);
  row("one job alone within the program / a variant", time("job_alone") / variant, "times", true, 2);
  row("solids in a surveyed room / as designed", time("surveyed/10/20") / direct, "times", true, 2);
  return missed > 0 ? 1 : 0;
}
