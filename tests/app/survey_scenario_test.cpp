/// Worked examples of the surveyed room, through the whole program: a job file in, report.json out.
#include <cmath>
#include <fstream>

#include <unistd.h>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/demo_job.hpp"
#include "support/imperial.hpp"
#include "support/run.hpp"

namespace fallwright {
namespace {

using Json = nlohmann::json;
/// A base without upstands and threshold, so that its floor is all of it; what differs is put behind.
const char* const bare_base =
    "underside = \"flat\"\nshell = 0.5\nrib_depth = 0.5\n[base.upstands]\nthickness = 0\n[base.threshold]\nwidth = 0\n";
const char* const bare_bed = "[bed]\nleast = 0.75\nholdback = 0\noverrun = 0\n";

Json reported(const std::string& text, const std::string& command = "check --json") {
  static int number = 0;
  const sample::Folder folder{"scenario-" + std::to_string(getpid()) + "-" + std::to_string(++number)};
  std::ofstream{folder / "job.toml"} << text;
  const sample::Ran ran = sample::run(FALLWRIGHT " " + command + " " + (folder / "job.toml") + " 2>&1");
  EXPECT_LE(ran.code, 1) << ran.out;
  return Json::parse(ran.out, nullptr, false);
}

double fall(const Json& falls, const std::string& facet) {
  for (const Json& f : falls)
    if (f.at("facet") == facet && f.at("surface") == "base-floor") return f.at("in_per_ft");
  ADD_FAILURE() << facet;
  return 0;
}

/// 60 x 34, floor falling 3/8 across and 1/4 from the back, read at its corners, in inches or millimetres.
std::string sloping(bool metric) {
  const auto n = [&](double inches) { return std::to_string(metric ? inches * 25.4 : inches); };
  std::string text = std::string{"[job]\nname = \"sloping floor\"\nunit = \""} + (metric ? "mm" : "in") +
                     "\"\n[alcove]\nwidth = " + n(60) + "\ndepth = " + n(34) + "\n[survey.floor]\nspots = [";
  for (const double x : {0., 60.})
    for (const double y : {0., 34.})
      text += "[" + n(x) + ", " + n(y) + ", " + n(-0.375 * x / 60 - 0.25 * (34 - y) / 34) + "], ";
  return text + "]\n[floor.joists]\nfirst = " + n(3) + "\nspacing = " + n(16) + "\n[base]\nlength = " + n(60) +
         "\nwidth = " + n(34) + "\nunderside = \"flat\"\nshell = " + n(0.5) + "\nrib_depth = " + n(0.5) +
         "\n[base.upstands]\nthickness = 0\n[base.threshold]\nwidth = 0\n[drain]\nfrom_left = " + n(48) +
         "\nfrom_back = " + n(17) + "\nbore = " + n(5) + "\nsize = " + n(4) + "\n[bed]\nleast = " + n(0.75) +
         "\nholdback = 0\noverrun = 0\ncollar = " + n(0.5) + "\n";
}

TEST(SurveyScenario, BedOnASlopingFloor) {
  // Source: by hand: mean depth 1.0625 over 2040 in2, 2167.5 in3, less the collar's 33.222: 2134.278 in3.
  const Json report = reported(sloping(false));
  EXPECT_NEAR(report["bed"]["set_mm3"].get<double>() / (in * in * in), 2167.5 - M_PI * 9 * 1.175, 1e-4);
  EXPECT_NEAR(report["bed"]["least_mm"].get<double>(), 0.75 * in, 1e-6);
  EXPECT_NEAR(report["bed"]["greatest_mm"].get<double>(), 1.375 * in, 1e-6);
  EXPECT_EQ(check(report, "floor.level")["result"], "pass") << "3/8 across is at the limit";
}

TEST(SurveyScenario, GaugeDepthsFollowTheFloor) {
  // Source: closed form: 3/4 at the back left corner, 3/8 more over 60 to the right and 1/4 more over 34 to the front;
  // gauges 3 inside the bed and in its middles.
  const Json gauges = reported(sloping(false))["room"]["gauges"];
  const double xs[] = {3, 30, 57}, ys[] = {31, 17, 3};
  const char* names[] = {"A1", "B1", "C1", "A2", "B2", "C2", "A3", "B3", "C3"};
  ASSERT_EQ(gauges.size(), 9u);
  for (std::size_t i = 0; i < 9; ++i) {
    EXPECT_EQ(gauges[i]["name"], names[i]);
    const double x = xs[i % 3], y = ys[i / 3];
    EXPECT_NEAR(gauges[i]["at_mm"][0].get<double>() / in, x, 1e-6) << names[i];
    EXPECT_NEAR(gauges[i]["at_mm"][1].get<double>() / in, y, 1e-6) << names[i];
    const double depth = 0.75 + 0.375 * x / 60 + 0.25 * (34 - y) / 34;
    EXPECT_NEAR(gauges[i]["set_mm"].get<double>(), depth * in, 1e-6) << names[i];
  }
}

TEST(SurveyScenario, TheSameJobInMillimetresIsTheSame) {
  // Source: property: units change nothing but rounding.
  const Json a = reported(sloping(false)), b = reported(sloping(true));
  EXPECT_NEAR(a["bed"]["set_mm3"].get<double>() / b["bed"]["set_mm3"].get<double>(), 1, 1e-9);
  for (std::size_t i = 0; i < 9; ++i)
    EXPECT_NEAR(a["room"]["gauges"][i]["set_mm"].get<double>(), b["room"]["gauges"][i]["set_mm"].get<double>(), 1e-6);
}

TEST(SurveyScenario, ARimSetLowAtOneEndLosesTheGentlestFall) {
  // Source: by hand: falls of 1/4, 1 and 12/17 in/ft with the left rim 1/8 low over 60 (k = 1/480): left (1/48 - k) 12
  // = 0.2250, right 1.0250, back and front 12 sqrt(1/17^2 + k^2) = 0.70632. Slopes add up but for second order.
  const std::string job =
      std::string{
          "[job]\nname = \"rim low\"\nunit = \"in\"\n[alcove]\nwidth = 60\ndepth = 34\n[base]\n"
          "length = 60\nwidth = 34\nfall = \"1/4 in/ft\"\n"} +
      bare_base + "[drain]\nopening = \"round\"\nsize = 4\nfrom_left = 48\nfrom_back = 17\n" + bare_bed;
  const Json report = reported(job +
                               "[as_set]\nback_left = \"-1/8 in\"\nfront_left = \"-1/8 in\"\nback_right = 0\n"
                               "front_right = 0\n");
  const Json& set = report["room"]["as_set"];
  EXPECT_NEAR(set["over_length_mm"].get<double>(), in / 8, 1e-9);
  EXPECT_NEAR(fall(set["falls"], "left"), 0.2250, 1e-4);
  EXPECT_NEAR(fall(set["falls"], "right"), 1.0250, 3e-4);
  EXPECT_NEAR(fall(set["falls"], "back"), 0.70632, 2e-4);
  EXPECT_NEAR(fall(set["falls"], "front"), 0.70632, 2e-4);
  EXPECT_EQ(check(report, "rim.fall-least")["result"], "fail");
  // Level, its right facet falls 1 in/ft, twice what is allowed: no pressing mends that.
  EXPECT_NE(check(report, "rim.fall-least")["advice"].get<std::string>().find("the design fails when it lies level"),
            std::string::npos);
}

TEST(SurveyScenario, LevellingWindowOfACentredDrain) {
  // Source: by hand: 60 x 34, square 4 x 4 opening, H 0.600: falls 12 0.6 / 28 = 0.2571 and 12 0.6 / 15 = 0.4800;
  // windows (0.6/28 - 1/48) 60 = 0.0357 over the length, (1/24 - 0.6/15) 34 = 0.0567 over the width. For 48 x 36 at
  // 0.5625: 0.2273 and 0.2344.
  const struct {
    const char *length, *width, *half_length, *half_width, *rise;
    double along, across;
  } cases[] = {{"60", "34", "30", "17", "0.6", 0.0357, 0.0567}, {"48", "36", "24", "18", "0.5625", 0.2273, 0.2344}};
  for (const auto& c : cases) {
    const Json report = reported(
        std::string{"[job]\nname = \"window\"\nunit = \"in\"\n[alcove]\nwidth = "} + c.length + "\ndepth = " + c.width +
        "\n[base]\nlength = " + c.length + "\nwidth = " + c.width + "\nrise = " + c.rise + "\n" + bare_base +
        "[drain]\nsize = 4\nfrom_left = " + c.half_length + "\nfrom_back = " + c.half_width + "\n" + bare_bed);
    for (const Json& way : report["room"]["levelling"]["base"]["ways"]) {
      const bool along = way["low"] == "left" || way["low"] == "right";
      // There slopes add up; a stiff base turns, and loses up to 2 in 1000 of that.
      EXPECT_NEAR(way["allowed_mm"].get<double>() / in / (along ? c.along : c.across), 1, 3e-3) << way["low"];
    }
  }
}

TEST(SurveyScenario, OutOfSquareLeavesAWedge) {
  // Source: by hand: back 60.25, left 36, diagonal back right to front left 70.5: 90.5836 degrees; tight to a square
  // right wall the 60 in base stands 0.25 off the left wall at the back and 0.6167 at the front.
  const auto room = [](const std::string& right, const std::string& front, const std::string& diagonal,
                       const std::string& other) {
    std::string text =
        "[job]\nname = \"out of square\"\nunit = \"in\"\n[survey.plan]\nback = 60.25\nleft = 36\nright = " + right +
        "\nfront = " + front + "\ndiagonal_from_back_right = " + diagonal + "\ndiagonal_from_back_left = " + other +
        "\n";
    for (const char* wall : {"left", "right", "back"})
      text += std::string{"[[survey.plumb]]\nwall = \""} + wall + "\"\nalong = 10\nlean = 0\nover = 48\n";
    return text + "[base]\nlength = 60\nwidth = 34\nagainst = \"right\"\n" + bare_base +
           "[drain]\nsize = 4\nfrom_left = 30\nfrom_back = 17\n" + bare_bed;
  };
  const auto number = [](double v) {
    char text[32];
    std::snprintf(text, sizeof text, "%.9f", v);
    return std::string{text};
  };
  const double angle = std::acos((60.25 * 60.25 + 36 * 36 - 70.5 * 70.5) / (2 * 60.25 * 36));
  const double flx = 36 * std::cos(angle), fly = -36 * std::sin(angle);
  const Json report =
      reported(room("36", number(std::hypot(60.25 - flx, -36 - fly)), "70.5", number(std::hypot(60.25, 36))));
  const auto gap = [&](const Json& r, const std::string& corner) {
    for (const Json& c : r["room"]["corners"])
      if (c["corner"] == corner && c["wall"] == "left") return c["at_floor_mm"].get<double>() / in;
    ADD_FAILURE() << corner;
    return 0.;
  };
  EXPECT_NEAR(gap(report, "back left"), 0.25, 1e-4);
  EXPECT_NEAR(gap(report, "front left"), 0.25 - flx * 34 / -fly, 1e-4) << "the base is 34 of the 36 deep";
  EXPECT_EQ(check(report, "room.stud-gap")["result"], "caution") << "strips of the list close it";

  // The right wall closes in by half a degree over 36: 59.936 is left, and 60 will not go down.
  const double close = 0.5 * M_PI / 180, frx = 60.25 - 36 * std::sin(close), fry = -36 * std::cos(close);
  const Json shut = reported(
      room("36", number(std::hypot(frx, fry + 36)), number(std::hypot(60.25, 36)), number(std::hypot(frx, fry))));
  EXPECT_NEAR(shut["openings"][0]["left_over_mm"].get<double>() / in, 59.936 - 60 + 0.3142 * 2 / 36, 2e-3);
  EXPECT_EQ(check(shut, "opening.width")["result"], "fail");
  EXPECT_NE(check(shut, "room.drop-in")["result"], "pass");
}

TEST(SurveyScenario, WallsThatLeanInAskForTippingTheBase) {
  // Source: by hand: 60.25 at the floor, both walls lean in 3/16 over 48: 60.21875 at 4 in, 59.875 at 48; a base 60 x 4
  // is 60.133 across its diagonal, must be tipped 9.125 degrees at 48 in, and has 0.086 left at 4 in (where its top
  // is).
  std::string text =
      "[job]\nname = \"leaning\"\nunit = \"in\"\n[survey.plan]\nback = 60.25\nfront = 60.25\nleft = 36\n"
      "right = 36\ndiagonal_from_back_left = 70.185914\n";
  for (const char* wall : {"left", "right"})
    text += std::string{"[[survey.plumb]]\nwall = \""} + wall + "\"\nalong = 10\nlean = \"3/16 in\"\nover = 48\n";
  text +=
      "[[survey.plumb]]\nwall = \"back\"\nalong = 10\nlean = 0\nover = 48\n"
      "[base]\nlength = 60\nwidth = 34\nunderside = \"flat\"\nshell = 0.5\nrib_depth = 0.5\n[base.upstands]\nheight = "
      "3\n"
      "[base.threshold]\nheight = 2\n[drain]\nsize = 4\nfrom_left = 30\nfrom_back = 16\n[bed]\nleast = 0.5\n";
  const Json report = reported(text);
  const Json& drop = report["room"]["drop_in"];
  EXPECT_NEAR(drop["height_mm"].get<double>() / in, 4, 1e-9);
  const Json &low = drop["widths"][1], &high = drop["widths"].back();  // below 1-1/2 in the plumb sole plates bound it
  const double slope = (high["width_mm"].get<double>() - low["width_mm"].get<double>()) /
                       (high["height_mm"].get<double>() - low["height_mm"].get<double>());
  const double at_4 = (low["width_mm"].get<double>() + slope * (4 * in - low["height_mm"].get<double>())) / in;
  EXPECT_NEAR(at_4, 60.21875, 1e-3);
  EXPECT_NEAR(high["width_mm"].get<double>() / in, 59.875, 1e-3);
  EXPECT_NEAR(drop["tip_deg"].get<double>(), 9.125, 2e-3);
  // Set on 1/2 in of bed its top stands at 4-1/2: the walls have closed by another 1/2 of 3/8 over 48.
  EXPECT_NEAR(drop["tip_clear_mm"].get<double>() / in, 0.0855 - 0.5 * 0.375 / 48, 1e-3);
  EXPECT_EQ(check(report, "room.drop-in")["result"], "fail");
  EXPECT_EQ(check(report, "room.goes-in")["result"], "pass");
}

TEST(SurveyScenario, JoistsLeaveTheDrainAWindow) {
  // Source: by hand: joists 1-1/2 wide at 1, 17, 33, 49, bore 5, drain at 48: 1.0 - 0.75 - 2.5 = -2.25; between 33 and
  // 49 the centre may be 36.25 to 45.75, the nearest legal place is 45.75.
  const Json report =
      reported(std::string{"[job]\nname = \"joists\"\nunit = \"in\"\n[alcove]\nwidth = 60\ndepth = 34\n"
                           "[floor.joists]\nfirst = 1\nspacing = 16\n[base]\nlength = 60\nwidth = 34\n"} +
               bare_base + "[drain]\nsize = 4\nbore = 5\nfrom_left = 48\nfrom_back = 17\n" + bare_bed +
               "[limits]\nbore_clearance = 0\n");
  EXPECT_NEAR(report["drain"]["bore_to_joist_mm"].get<double>() / in, -2.25, 1e-9);
  const Json& window = report["room"]["drain_window"];
  bool found = false;
  for (const Json& stretch : window["free_mm"])
    found = found || (std::abs(stretch[0].get<double>() / in - 36.25) < 1e-9 &&
                      std::abs(stretch[1].get<double>() / in - 45.75) < 1e-9);
  EXPECT_TRUE(found) << window["free_mm"];
  EXPECT_NEAR(window["nearest_mm"][0].get<double>() / in, 45.75, 1e-9);
  // What it costs: runs of 43.75 and 12.25 beside 15, at 1/4 in/ft on the longest.
  EXPECT_NEAR(window["falls_there_percent"][0].get<double>(), 100. / 48, 1e-9);
  EXPECT_NEAR(window["falls_there_percent"][1].get<double>(), 100. / 48 * 43.75 / 12.25, 1e-9);
}

}  // namespace
}  // namespace fallwright
