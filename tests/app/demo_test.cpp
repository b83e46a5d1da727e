/// What the three demo jobs are there to show.
#include <cmath>
#include <fstream>
#include <regex>

#include <set>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/demo_job.hpp"
#include "support/run.hpp"

namespace fallwright {
namespace {

nlohmann::json checked(const std::string& path) {
  return nlohmann::json::parse(sample::run(FALLWRIGHT " check --json " + path).out);
}

TEST(Demo, FlatTwoAPassesEveryCheckButWhatNeedsASurvey) {
  // Source: the demo's promise; its falls by hand: a 26-1/4 in run at 1/4 in/ft rises 0.547 in, which over
  // the 13-3/4 in run is 0.4773 in/ft.
  const auto report = checked(params("tannery-lane-2a"));
  // As designed nothing of the room is known; and a floor at exactly 1/4 in/ft has nothing to spare for the level.
  const std::set<std::string> needs_survey{"survey.closes",
                                           "survey.widths-agree",
                                           "floor.level",
                                           "floor.hump",
                                           "floor.rock",
                                           "room.stud-gap",
                                           "room.drop-in",
                                           "room.goes-in",
                                           "load.joists-strength",
                                           "load.joists-deflection",
                                           "bed.bearing",
                                           "bed.least",
                                           "bed.greatest",
                                           "bed.fills-shell",
                                           "bed.thickness",
                                           "bed.squeeze-out",
                                           "joist.hole",
                                           "joist.notch",
                                           "joist.hole-for-pipe",
                                           "trap.arm",
                                           "trap.arm-least",
                                           "trap.fall",
                                           "trap.drop",
                                           "trap.turns",
                                           "trap.vented",
                                           "trap.below",
                                           "trap.aside",
                                           "trap.under-drain",
                                           "trap.size",
                                           "joist.hole-edges",
                                           "joist.notch-place",
                                           "joist.notch-length",
                                           "wall.above-floor",
                                           "clear.area",
                                           "clear.width",
                                           "clear.circle",
                                           "access.opening",
                                           "threshold.above-outside",
                                           "upstand.board"};
  for (const auto& c : report.at("checks")) {
    const std::string id = c.at("id"), result = c.at("result");
    if (needs_survey.count(id))
      EXPECT_EQ(result, "not-checked") << id;
    else if (id == "levelling.window" || id == "flood.depth")  // 1-15/16 in of water at the threshold, of 2 in
      EXPECT_EQ(result, "caution") << id;
    else
      EXPECT_TRUE(result == "pass" || result == "not-applicable") << id;
  }
  EXPECT_NEAR(check(report, "floor.fall-least").at("measured").get<double>(), 1. / 48, 1e-12);
  EXPECT_NEAR(check(report, "floor.fall-greatest").at("measured").get<double>(), 26.25 / 48 / 13.75, 1e-12);
}

TEST(Demo, FlatTwoBFailsAndItsAdviceWouldPass) {
  // Source: by hand: runs 41 and 11-1/2; the advised place makes runs of 27-1/2 and 25 beside 13-3/4, ratio 2 exactly.
  const auto report = checked(params("tannery-lane-2b"));
  const auto steep = check(report, "floor.fall-greatest");
  EXPECT_EQ(steep.at("result"), "fail");
  EXPECT_NEAR(steep.at("measured").get<double>() * 12, 41. / 48 / 11.5 * 12, 1e-9);
  const std::string advice = steep.at("advice");
  EXPECT_NE(advice.find("27-1/2\" from the right edge"), std::string::npos) << advice;
  EXPECT_NE(advice.find("equal-fall"), std::string::npos) << advice;

  const sample::Folder folder{"advice"};
  std::string text = sample::slurped(params("tannery-lane-2b"));
  text = std::regex_replace(text, std::regex{"from_right = \"14 in\""}, "from_right = \"27-1/2 in\"");
  std::ofstream{folder / "moved.toml"} << text;
  const auto moved = checked(folder / "moved.toml");
  EXPECT_EQ(check(moved, "floor.fall-greatest").at("result"), "pass");
  EXPECT_EQ(check(moved, "floor.fall-least").at("result"), "pass");
}

TEST(Demo, FlatFiveCAnswersToItsOwnLimits) {
  // Source: NCC 2022 Housing Provisions 10.2.12: 1:80 to 1:50, set in the job file with its source.
  const auto report = checked(params("tannery-lane-5c"));
  const auto least = check(report, "floor.fall-least");
  EXPECT_EQ(least.at("result"), "pass");
  EXPECT_NEAR(least.at("measured").get<double>(), 1. / 60, 1e-12);
  EXPECT_NEAR(least.at("limit").at("least").get<double>(), 1. / 80, 1e-12);
  EXPECT_NE(least.at("source").get<std::string>().find("NCC 2022"), std::string::npos);
}

TEST(Demo, BothFramesTellWhatCarriesThePerson) {
  // Source: by hand, panel values from memory: 250 of the deck's 300 lbf a foot governs in timber. In steel the joists'
  // webs do, by AISI S100-16 Table G5-2, screwed to what they stand on: 43 mil on what is left of a flange of
  // 1-1/4 in beyond its bend.
  const auto timber = check(checked(params("tannery-lane-2a")), "load.seat-strength");
  EXPECT_EQ(timber.at("result"), "pass");
  EXPECT_NEAR(timber.at("measured").get<double>(), 250. / 300, 1e-9);
  EXPECT_EQ(timber.at("details").size(), 6U);
  const auto steel = check(checked(params("tannery-lane-5c")), "load.seat-strength");
  EXPECT_EQ(steel.at("result"), "caution") << "what is not judged of steel makes no pass";
  const double t = 0.0451, r = 0.0712, bearing = 1.25 - t - r, h = 3.5 - 2 * (t + r);
  const double may = 4 * t * t * 33000 * (1 - 0.14 * std::sqrt(r / t)) * (1 + 0.35 * std::sqrt(bearing / t)) *
                     (1 - 0.02 * std::sqrt(h / t)) / 1.75;
  EXPECT_NEAR(steel.at("measured").get<double>(), 250 / may, 1e-3);
  EXPECT_EQ(steel.at("details").size(), 7U);
}

}  // namespace
}  // namespace fallwright
