/// The largest jobs that the reference allows end within a minute of one core and a gigabyte.
#include <cmath>
#include <cstdio>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/run.hpp"

namespace fallwright {
namespace {

/// Flat 2A with one text replaced by another, and more at its end.
std::string varied(const std::string& from, const std::string& to, const std::string& more = "") {
  std::string job = sample::slurped(PROJECT_DIR "/params/tannery-lane-2a.toml");
  job.replace(job.find(from), from.size(), to);
  return job + more;
}

/// Spot levels on a wavy floor, a grid shaken so that no four of them lie on a circle.
std::string spots(int across, int deep) {
  std::string text = "\n[survey.floor]\nspots = [";
  for (int i = 0; i < across; ++i)
    for (int k = 0; k < deep; ++k) {
      const bool inner = i > 0 && k > 0 && i + 1 < across && k + 1 < deep;
      const double x = 2 + 68. * (i + (inner ? 0.2 * std::sin(7 * i + 3 * k) : 0)) / (across - 1),
                   y = 2 + 32. * (k + (inner ? 0.2 * std::sin(5 * i - 4 * k) : 0)) / (deep - 1);
      char spot[64];
      std::snprintf(spot, sizeof spot, "[%.3f, %.3f, %.4f], ", x, y, 0.3 + 0.25 * std::sin(x / 15) * std::cos(y / 9));
      text += spot;
    }
  return text + "]\n";
}

#ifdef __SANITIZE_ADDRESS__  // which takes addresses by the terabyte, and some ten times as long
constexpr const char* limits = "ulimit -t 600; ";
#else
constexpr const char* limits = "ulimit -t 60; ulimit -v 1048576; ";
#endif

sample::Ran checked(const std::string& job) {
  const sample::Folder folder{"growth"};
  std::ofstream{folder / "job.toml"} << job;
  return sample::run(limits + std::string{FALLWRIGHT " check -q "} + (folder / "job.toml") + " 2>&1");
}

TEST(Growth, ManySpotLevelsAreWorkedWith) {
  // Source: the contract of time and memory: processor time, and 1 GB of addresses.
  const sample::Ran ran = checked(varied("fall = ", "fall = ", spots(40, 25)));
  EXPECT_LE(ran.code, 1) << ran.out;
}

TEST(Growth, MoreSpotLevelsAreRefusedWithTheReason) {
  // Source: the same.
  const sample::Ran ran = checked(varied("fall = ", "fall = ", spots(40, 26)));
  EXPECT_EQ(ran.code, 2);
  EXPECT_THAT(ran.out, testing::HasSubstr("1040 spot levels; at most 1000"));
}

TEST(Growth, ALargeRibGridIsBuilt) {
  // Source: the same; 80 by 40 pockets.
  const sample::Ran ran =
      checked(varied("columns = 8\nrows = 6\nwidth = \"1/2 in\"", "columns = 80\nrows = 40\nwidth = \"1/8 in\""));
  EXPECT_LE(ran.code, 1) << ran.out;
}

}  // namespace
}  // namespace fallwright
