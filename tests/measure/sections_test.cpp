/// Cross-sections taken off the solids' end faces, against tables and hand formulas.
#include <cmath>

#include <gtest/gtest.h>

#include "measure/detail.hpp"
#include "parts/build.hpp"
#include "parts/stick.hpp"
#include "support/imperial.hpp"
#include "support/sample.hpp"

namespace fallwright::measure {
namespace {

job::Stock stock(const char* name) {
  std::string why;
  return job::parse_stock(name, why).value_or(job::Stock{});
}

/// A stick of the bench frame somewhere in the room, askew, so that nothing rests on the axes.
facts::Section section_of(const char* name) {
  parts::Sticks sticks;
  parts::Model model;
  model.solids.push_back(sticks.make(facts::frame_part(facts::Kind::joist), stock(name), 500,
                                     {{900, 400, 70}, gp_Dir{1, 2, 0.5}, gp_Dir{2, -1, 0}}));
  const auto sections = measure_sections(model);
  EXPECT_EQ(sections.size(), 1U) << name;
  return sections.at(0);
}

TEST(Sections, TimberIsThatOfTheTables) {
  // Source: closed form b d2 / 6 and b d3 / 12 of dressed sizes, as span tables give them: in3 and in4, on edge.
  const struct {
    const char* name;
    double depth, modulus, inertia, digits;
  } rows[] = {{"2x4", 3.5, 3.0625, 5.359, 5e-4},
              {"2x6", 5.5, 7.5625, 20.80, 5e-3},
              {"2x8", 7.25, 13.14, 47.63, 5e-3},
              {"2x10", 9.25, 21.39, 98.93, 5e-3},
              {"2x12", 11.25, 31.64, 177.98, 5e-3}};
  for (const auto& row : rows) {
    const facts::Section s = section_of(row.name);
    EXPECT_EQ(s.stock, row.name);
    EXPECT_FALSE(s.steel);
    EXPECT_NEAR(s.area_mm2 / in2, 1.5 * row.depth, 1e-9) << row.name;
    EXPECT_NEAR(s.strong.modulus_mm3 / in3, row.modulus, 5e-3) << row.name;
    EXPECT_NEAR(s.strong.inertia_mm4 / in4, row.inertia, row.digits + 1e-9) << row.name;
    EXPECT_NEAR(s.centroid_mm[0] / in, row.depth / 2, 1e-9) << row.name;
    EXPECT_NEAR(s.centroid_mm[1] / in, 0.75, 1e-9) << row.name;
    EXPECT_NEAR(s.strong.depth_mm / in, row.depth, 1e-9) << row.name;
  }
  const facts::Section flat4 = section_of("2x4"), flat6 = section_of("2x6");
  EXPECT_NEAR(flat4.weak.modulus_mm3 / in3, 1.3125, 1e-9);
  EXPECT_NEAR(flat4.weak.inertia_mm4 / in4, 0.984, 5e-4);
  EXPECT_NEAR(flat6.weak.modulus_mm3 / in3, 2.0625, 1e-9);
  EXPECT_NEAR(flat6.weak.inertia_mm4 / in4, 1.547, 5e-4);
}

/// A section by hand, put together from rectangles and quarter rings, in inches: x from the web's back, y from below.
class ByHand {
 public:
  void rectangle(double x0, double y0, double x1, double y1) {
    const double b = x1 - x0, d = y1 - y0;
    add(b * d, (x0 + x1) / 2, (y0 + y1) / 2, d * b * b * b / 12, b * d * d * d / 12);
  }
  /// A bend about (x, y) from `r` to `R` out, into the quarter that (sx, sy) points to.
  void bend(double x, double y, double r, double R, double sx, double sy) {
    const double area = M_PI / 4 * (R * R - r * r), off = (R * R * R - r * r * r) / 3 / area;
    const double own = M_PI / 16 * (std::pow(R, 4) - std::pow(r, 4)) - area * off * off;
    add(area, x + sx * off, y + sy * off, own, own);
  }
  double area() const { return a_; }
  double x() const { return ax_ / a_; }
  double y() const { return ay_ / a_; }
  double across_y() const { return iy_ - a_ * y() * y(); }  ///< about the level axis
  double across_x() const { return ix_ - a_ * x() * x(); }  ///< about the upright axis

 private:
  void add(double area, double x, double y, double own_x, double own_y) {
    a_ += area, ax_ += area * x, ay_ += area * y;
    ix_ += own_x + area * x * x, iy_ += own_y + area * y * y;
  }
  double a_ = 0, ax_ = 0, ay_ = 0, ix_ = 0, iy_ = 0;
};

ByHand stud_by_hand(double D, double B, double lip, double t, double r) {
  const double R = r + t;
  ByHand s;
  s.rectangle(0, R, t, D - R);
  for (const double up : {-1., 1.}) {
    const auto y = [&](double v) { return up < 0 ? v : D - v; };
    const auto strip = [&](double x0, double v0, double x1, double v1) {
      s.rectangle(x0, std::min(y(v0), y(v1)), x1, std::max(y(v0), y(v1)));
    };
    strip(R, 0, B - R, t);
    strip(B - t, R, B, lip);
    s.bend(R, y(R), r, R, -1, up);
    s.bend(B - R, y(R), r, R, 1, up);
  }
  return s;
}

void expect_equal(const facts::Section& s, const ByHand& hand, double D, double B, const std::string& name) {
  EXPECT_NEAR(s.area_mm2 / in2 / hand.area(), 1, 1e-7) << name;
  EXPECT_NEAR(s.centroid_mm[0] / in, D / 2, 1e-7) << name;
  EXPECT_NEAR(s.centroid_mm[1] / in / std::min(hand.x(), B - hand.x()), 1, 1e-7) << name;
  EXPECT_NEAR(s.strong.inertia_mm4 / in4 / hand.across_y(), 1, 1e-7) << name;
  EXPECT_NEAR(s.strong.modulus_mm3 / in3 / (hand.across_y() / (D / 2)), 1, 1e-7) << name;
  EXPECT_NEAR(s.weak.inertia_mm4 / in4 / hand.across_x(), 1, 1e-7) << name;
  EXPECT_NEAR(s.weak.modulus_mm3 / in3 / (hand.across_x() / std::max(hand.x(), B - hand.x())), 1, 1e-7) << name;
}

TEST(Sections, ALippedStudIsItsFlatsAndBends) {
  // Source: closed form, rectangles and quarter rings; sizes by the stud makers' tables (2009-2015 IBC): design
  // thickness and inside radius by mils, flange and lip by designation.
  const struct {
    const char* name;
    double D, B, lip, t, r;
  } rows[] = {{"350S162-33", 3.5, 1.625, 0.5, 0.0346, 0.0764},     {"350S162-43", 3.5, 1.625, 0.5, 0.0451, 0.0712},
              {"362S137-18", 3.625, 1.375, 0.375, 0.0188, 0.0843}, {"600S162-54", 6, 1.625, 0.5, 0.0566, 0.0849},
              {"600S200-97", 6, 2, 0.625, 0.1017, 0.1525},         {"800S250-118", 8, 2.5, 0.625, 0.1242, 0.1863},
              {"1000S350-68", 10, 3.5, 1, 0.0713, 0.1069},         {"250S125-33", 2.5, 1.25, 0.188, 0.0346, 0.0764}};
  for (const auto& row : rows) {
    const facts::Section s = section_of(row.name);
    EXPECT_TRUE(s.steel);
    expect_equal(s, stud_by_hand(row.D, row.B, row.lip, row.t, row.r), row.D, row.B, row.name);
    EXPECT_NEAR(s.sheet_mm / in, row.t, 1e-7) << row.name;
    EXPECT_NEAR(s.strong.upright_mm2 / in2, (row.D - 2 * (row.r + row.t)) * row.t, 1e-6) << row.name << ": the web";
  }
}

TEST(Sections, ATrackIsAWebInsideToInsideAndTwoFlanges) {
  // Source: closed form, as above; a track's web is inside to inside, its flanges have no lips.
  const double t = 0.0346, r = 0.0764, R = r + t, D = 3.5 + 2 * t, B = 1.25;
  ByHand hand;
  hand.rectangle(0, R, t, D - R);
  hand.rectangle(R, 0, B, t);
  hand.rectangle(R, D - t, B, D);
  hand.bend(R, R, r, R, -1, -1);
  hand.bend(R, D - R, r, R, -1, 1);
  const facts::Section s = section_of("350T125-33");
  expect_equal(s, hand, D, B, "350T125-33");
  EXPECT_NEAR(s.weak.upright_mm2 / in2, 2 * (B - R) * t, 1e-7) << "lying flat, its two flanges stand";
}

TEST(Sections, ThinWallsComeNearTheExactSection) {
  // Source: the method of middle lines: straight lines and quarter arcs of one thickness, no thickness of their own.
  const double t = 0.0346, rm = 0.0764 + t / 2, D = 3.5 - t, B = 1.625 - t, lip = 0.5 - t / 2;
  const double web = D - 2 * rm, arc = M_PI / 2 * rm, flange = B - 2 * rm, tip = lip - rm;
  const double off = rm - 2 * rm / M_PI;  // a quarter arc's centroid from the corner of its tangents
  const double inertia =
      t * (std::pow(web, 3) / 12 +
           4 * (arc * std::pow(D / 2 - off, 2) + M_PI / 4 * std::pow(rm, 3) - arc * std::pow(2 * rm / M_PI, 2)) +
           2 * flange * D * D / 4 + 2 * (std::pow(tip, 3) / 12 + tip * std::pow(D / 2 - rm - tip / 2, 2)));
  EXPECT_NEAR(section_of("350S162-33").strong.inertia_mm4 / in4 / inertia, 1, 1e-3);
}

TEST(Sections, EveryStockOfTheBenchFrameIsMeasuredOnce) {
  // Source: none; a timber frame has one stock, a steel one studs and tracks; a floor out of level skews the sole plate
  // and no section.
  job::Job job = sample::alcove();
  const auto level = measure_sections(parts::build_framing(job));
  job.floor.drop_along_width = job.floor.drop_along_depth = job::Length::inches(0.5);
  const auto sloped = measure_sections(parts::build_framing(job));
  ASSERT_EQ(level.size(), 1U);
  ASSERT_EQ(sloped.size(), 1U);
  EXPECT_NEAR(level[0].strong.inertia_mm4 / in4, 5.359375, 1e-9);
  EXPECT_NEAR(sloped[0].strong.inertia_mm4 / in4, 5.359375, 1e-9);
  job.bench->frame = {job::FrameKind::steel, stock("350S162-33"), stock("350T125-33"), job::Length::inches(16),
                      job::Length::inches(0.75)};
  const auto steel = measure_sections(parts::build_framing(job));
  ASSERT_EQ(steel.size(), 2U);
  EXPECT_EQ(steel[0].stock, "350T125-33");
  EXPECT_EQ(steel[1].stock, "350S162-33");
}

const facts::Bearer& find(const std::vector<facts::Bearer>& all, const std::string& what) {
  for (const facts::Bearer& b : all)
    if (name_of(b.kind) == what) return b;
  throw std::logic_error(what);
}

TEST(Bearers, ATimberFramesSpansAreThoseOfItsLayout) {
  // Source: by hand: bench 36 in long and 14-1/2 in deep, 2x4, 16 in at most: three bays of 34-1/2 / 3 = 11-1/2 in,
  // 10 in clear. A joist runs 13 in, from a cleat 1-1/2 in thick to a plate 3-1/2 in wide less the rail: 9-1/2 in
  // clear, 11-1/4 in between middles, and bears on 1-1/2 x 1-1/2 in.
  for (const auto place : {job::Side::left, job::Side::right}) {
    job::Job job = sample::alcove();
    job.bench->place = place;
    const auto bearers = measure_bearers(parts::build_framing(job));
    ASSERT_EQ(bearers.size(), 5U);
    const facts::Bearer &deck = find(bearers, "deck"), &joist = find(bearers, "joist");
    EXPECT_NEAR(deck.span_mm / in, 10, 1e-6);
    EXPECT_NEAR(deck.bending.depth_mm / in, 0.75, 1e-6);
    EXPECT_NEAR(deck.width_mm / in, 14.5, 1e-6);
    EXPECT_NEAR(joist.clear_mm / in, 9.5, 1e-6);
    EXPECT_NEAR(joist.span_mm / in, 11.25, 1e-6);
    EXPECT_NEAR(joist.bearing_mm2 / in2, 2.25, 1e-6);
    EXPECT_NEAR(joist.bending.inertia_mm4 / in4, 5.359375, 1e-6);
    const facts::Bearer &rail = find(bearers, "front rail"), &plate = find(bearers, "plate");
    EXPECT_NEAR(rail.clear_mm / in, 10, 1e-6);
    EXPECT_NEAR(rail.span_mm / in, 11.5, 1e-6);
    EXPECT_NEAR(rail.bending.inertia_mm4 / in4, 5.359375, 1e-6) << "on edge";
    EXPECT_NEAR(rail.bearing_mm2 / in2, 2.25, 1e-6);
    EXPECT_NEAR(plate.bending.inertia_mm4 / in4, 0.984375, 1e-6) << "flat";
    EXPECT_NEAR(plate.bearing_mm2 / in2, 5.25, 1e-6);
    EXPECT_NEAR(plate.off_stud_mm, 0, 1e-6) << "joists stand over studs";
    // Seat 18 in, less 1-1/4 seat, 3/4 deck, joist 3-1/2, plates 3 in; the floor is the datum.
    EXPECT_NEAR(find(bearers, "stud").span_mm / in, 9.5, 1e-6);
  }
}

TEST(Bearers, ASteelFramesJoistsRestInsideTheTracks) {
  // Source: by hand: bench 36 in long, flange 1-5/8: bays of 34-3/8 / 3; a joist's clear span is 14-1/2 in less two
  // flanges of 1-1/4; its ends stand clear of the web by thickness and radius.
  job::Job job = sample::alcove();
  job.bench->frame = {job::FrameKind::steel, stock("350S162-33"), stock("350T125-33"), job::Length::inches(16),
                      job::Length::inches(0.75)};
  const auto bearers = measure_bearers(parts::build_framing(job));
  ASSERT_EQ(bearers.size(), 5U);
  const facts::Bearer& joist = find(bearers, "joist");
  EXPECT_NEAR(joist.clear_mm / in, 12, 1e-5);
  EXPECT_NEAR(joist.span_mm / in, 12 + 1.25 - 0.0346 - 0.0764, 1e-5);
  EXPECT_TRUE(joist.steel);
  EXPECT_NEAR(joist.sheet_mm / in, 0.0346, 1e-7);
  EXPECT_NEAR(joist.flat_mm / in, 3.5 - 2 * (0.0346 + 0.0764), 1e-5);
  EXPECT_NEAR(joist.radius_mm / in, 0.0764, 1e-5);
  EXPECT_NEAR(joist.bearing_mm2 / joist.width_mm / in, 1.25 - 0.0346 - 0.0764, 1e-5) << "what is left of the flange";
  EXPECT_EQ(joist.webs, 1);
  EXPECT_TRUE(joist.lipped);
  EXPECT_NEAR(joist.lip_mm / in, 0.5, 1e-5) << "of a stud whose flange is 1-5/8";
  EXPECT_NEAR(joist.weak_mm4, section_of("350S162-33").weak.inertia_mm4, 1e-6);
  EXPECT_FALSE(find(bearers, "plate").lipped);
  EXPECT_EQ(find(bearers, "plate").webs, 2) << "a track that lies flat bends on its flanges";
  EXPECT_NEAR(find(bearers, "deck").span_mm / in, 34.375 / 3 - 1.625, 1e-5);
  EXPECT_NEAR(find(bearers, "front rail").span_mm / in, 34.375 / 3, 1e-5);
  EXPECT_GT(find(bearers, "front rail").bending.inertia_mm4, 5 * find(bearers, "plate").bending.inertia_mm4);
}

TEST(Bearers, ABenchAcrossTheBackRunsAlongTheWidth) {
  // Source: by hand: 72 in long: five bays of 70-1/2 / 5 = 14.1 in, 12.6 in clear.
  job::Job job = sample::alcove();
  job.alcove.depth = job::Length::inches(50.5);
  job.bench->place = job::Side::back;
  job.base.length = job::Length::inches(72);
  const auto bearers = measure_bearers(parts::build_framing(job));
  ASSERT_EQ(bearers.size(), 5U);
  EXPECT_NEAR(find(bearers, "deck").span_mm / in, 12.6, 1e-6);
  EXPECT_NEAR(find(bearers, "joist").span_mm / in, 11.25, 1e-6);
}

TEST(Rail, FindsTheJoistsThatEndAtIt) {
  // Source: closed form: all joists of the bench, those against an end wall too, end at its rail of 1-1/2 in; joists
  // cut to a mark of the tape still do.
  for (const job::Side place : {job::Side::left, job::Side::right, job::Side::back}) {
    job::Job job = sample::alcove();
    job.bench->place = place;
    if (place == job::Side::back)
      job.alcove.depth = job::Length::inches(50.5), job.base.length = job::Length::inches(72);
    const auto model = parts::build_framing(job);
    const auto rail = measure_rail(model);
    ASSERT_TRUE(rail) << name_of(place);
    EXPECT_NEAR(rail->thickness_mm, 38.1, 1e-6);
    EXPECT_EQ(rail->joists_at_mm.size(), measure_cleat(model)->joists_at_mm.size()) << name_of(place);
    EXPECT_GE(rail->joists_at_mm.size(), 3u);
  }
}

}  // namespace
}  // namespace fallwright::measure
