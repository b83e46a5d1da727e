/// Bases that were bought, and bases built on site, against closed forms.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "job/layout.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"

namespace fallwright {
namespace {

using std::numbers::pi;

struct Built {
  job::Job job;
  std::shared_ptr<const parts::Model> model;
  facts::Facts facts;
};

Built built(const std::string& text) {
  Built b{job::read(text, "x.toml"), nullptr, {}};
  b.model = parts::build(b.job);
  b.facts = measure::measure(*b.model);
  return b;
}

/// A base built on site between walls of two depths: its front runs from 5 in before the right wall's end to that.
const char* const oblique_front = R"(
[job]
name = "oblique front"
unit = "in"
[survey]
finish = 1
[base]
kind = "site-built"
fall = "1/4 in/ft"
[drain]
size = 4
from_left = 30
from_back = 19
[bed]
least = 0.75
[survey.plan]
back = 60.0000
front = 62.2013
left = 42.0119
right = 37.0135
diagonal_from_back_left = 71.3442
diagonal_from_back_right = 74.0608
[survey.floor]
spots = [[2, 2, 0], [58, 2, 0], [2, 34, 0], [58, 34, 0], [2, -4, 0], [60, -5, 0], [55.96, -3.5, 0.14],
         [45, -3.9, 0], [50, 0.5, 0], [60, -1, 0], [57, -1.5, 0], [54, -1.5, 0], [50, -1, 0]]
)";

const facts::Part& part(const Built& b, const std::string& id) {
  for (const facts::Part& p : b.facts.parts)
    if (p.id == id) return p;
  throw std::logic_error{id};
}

void expect_sound(const Built& b) {
  for (const facts::Part& p : b.facts.parts) EXPECT_TRUE(p.valid) << p.id;
  for (const facts::Fit& f : b.facts.fits)
    EXPECT_NE(f.state, facts::Touch::clash) << text_of(f.a) << " and " << text_of(f.b);
}

const std::string metric = "[job]\nname = \"x\"\nunit = \"mm\"\n[floor]\nkind = \"slab\"\n";
const std::string open_front =
    "[base]\nkind = \"site-built\"\nrise = 15\ncover = 40\n[base.threshold]\nwidth = 0\n[bed]\nleast = 30\ncollar = "
    "0\n";

TEST(SiteBuilt, ItsOwnCornersAreReadAndNotThoseOfARectangleRoundIt) {
  // Source: by hand: the front runs from (-1, -12) to (61, 0) in. Spots near its four ends span it; the rectangle's
  // front right corner, (61, -12), lies more than 6 in outside them, and under no base.
  std::string text = oblique_front;
  text = text.substr(0, text.find("[survey.plan]")) +
         "[survey.plan]\nback = 60.0000\nfront = 63.1506\nleft = 49.0102\nright = 37.0135\n"
         "diagonal_from_back_left = 71.3442\ndiagonal_from_back_right = 78.2432\n"
         "[survey.floor]\nspots = [[2, 34, 0], [58, 34, 0], [2, -10, 0], [59, 2, 0], [30, 10, 0]]\n";
  EXPECT_TRUE(built(text).facts.room.floor.unread.empty());
  const std::string without = text.replace(text.find("[2, -10, 0], "), 13, "");
  const auto unread = built(without).facts.room.floor.unread;
  ASSERT_EQ(unread.size(), 1u);
  EXPECT_EQ(unread[0].name, "front left");
  EXPECT_NEAR(unread[0].at_mm[1] / 25.4, -12, 0.01);
}

TEST(SiteBuilt, IsFreeUpToItsThresholdsMiddleAlongAnObliqueFrontAsWell) {
  // Source: closed form: 48 wide, 33-9/16 deep at one side and 33-7/16 at the other, so 48 x 33.5 in all, of which half
  // of 4-1/2 in of threshold along its front lies beyond the middle; the circle is as deep as the room there. Its
  // mirror is the same.
  const auto free = [](const char* left, const char* right, const char* from_left, const char* from_right) {
    return built(std::string{
                     "[job]\nname = \"oblique\"\nunit = \"in\"\n[base]\nkind = \"site-built\"\nfall = \"1/4 in/ft\"\n"
                     "threshold = {width = 4.5, height = 3}\n[drain]\nsize = 4\nfrom_left = 24\n"
                     "from_back = 16.5\n[bed]\nleast = 1\n[survey.plan]\nback = 48\nfront = 48.0002\nleft = "} +
                 left + "\nright = " + right + "\ndiagonal_from_back_left = " + from_left +
                 "\ndiagonal_from_back_right = " + from_right + "\n")
        .facts.clear;
  };
  const facts::Clear clear = free("33.5625", "33.4375", "58.4990", "58.5706"),
                     mirrored = free("33.4375", "33.5625", "58.5706", "58.4990");
  const double half = 2.25 * std::hypot(48, 0.125);
  EXPECT_NEAR(clear.to_centreline->area_mm2 / 645.16, 48 * 33.5 - half, 0.2) << "the plan closes by hundredths";
  EXPECT_NEAR(clear.to_centreline->circle_mm / 25.4, 33.5 - 2.25, 0.07);
  EXPECT_NEAR(mirrored.to_centreline->area_mm2, clear.to_centreline->area_mm2, 1);
  EXPECT_NEAR(mirrored.to_centreline->circle_mm, clear.to_centreline->circle_mm, 1e-3);
}

TEST(SiteBuilt, AHumpBesideItsFrontLiesUnderNoBase) {
  // Source: by hand: at 56 in from the left the front runs 0.4 in before the right wall's end; a spot 0.14 in high 3.5
  // before it lies in the rectangle round the base and not under it, where the floor is level but for what a corner
  // past the spots takes of that hump: a hundredth of its 3.56 mm.
  const facts::FloorShape shape = built(oblique_front).facts.room.floor;
  EXPECT_LT(shape.hump_mm, 0.05);
  EXPECT_LT(shape.hollow_mm, 0.05);
  EXPECT_LT(std::abs(shape.twist_mm), 0.05);
}

TEST(SiteBuilt, HoldsWhatTheRiseOverALevelOpeningHolds) {
  // Source: closed form: with a level rim the level line at a share s of the rise is the rectangle that share of the
  // way from opening to rim, so that the floor's volume over the opening's level is r (A - integral of those
  // rectangles).
  const Built b = built(metric + "[alcove]\nwidth = 1600\ndepth = 1000\n" + open_front +
                        "[drain]\nsize = 100\nfrom_left = 700\nfrom_back = 450\nbody = 63\nrecess = 10\nbore = 90\n");
  expect_sound(b);
  const double w0 = 100, d0 = 100, dw = 1500, dd = 900, area = 1600 * 1000, rise = 15;
  const double above = rise * (area - (w0 * d0 + (w0 * dd + d0 * dw) / 2 + dw * dd / 3)), disc = pi * 45 * 45;
  EXPECT_NEAR(part(b, "bed").volume_mm3 / ((area - disc) * 30 + above), 1, 1e-9);
  const double coat = 40 * (area - w0 * d0) + 30 * (w0 * d0 - pi * 31.5 * 31.5);
  EXPECT_NEAR(part(b, "base").volume_mm3 / coat, 1, 1e-9);
  ASSERT_TRUE(b.facts.site_built);
  EXPECT_NEAR(b.facts.site_built->at_flange_mm, 30, 1e-6);
  EXPECT_NEAR(b.facts.site_built->cover_least_mm, 40, 1e-6);
  EXPECT_NEAR(b.facts.site_built->forms_mm, 1600, 1e-6) << "the entry alone is open";
  EXPECT_NEAR(b.facts.site_built->bed_fall_least, 15. / 850, 1e-9) << "right run: 1600 - 700 - 50";
}

TEST(SiteBuilt, ABedRunsOnUnderAThresholdToItsForm) {
  // Source: by hand: the bed's solid reaches the entry's line under the threshold, 1600 long, where no wall holds it.
  const Built b =
      built(metric +
            "[alcove]\nwidth = 1600\ndepth = 1000\n[base]\nkind = \"site-built\"\nrise = 15\n[base.threshold]\n"
            "width = 100\nheight = 100\n[bed]\nleast = 30\n[drain]\nsize = 100\nfrom_left = 700\n"
            "from_back = 450\nbody = 63\nrecess = 10\nbore = 90\n");
  expect_sound(b);
  ASSERT_TRUE(b.facts.site_built);
  EXPECT_NEAR(part(b, "bed").bbox_mm[1], part(b, "base").bbox_mm[1], 1e-6);
  EXPECT_NEAR(b.facts.site_built->forms_mm, 1600, 1e-6);
}

TEST(SiteBuilt, TellsHowLowTheBedMeetsWhatALinerTurnsUp) {
  // Source: closed form: at equal falls of 3 % the bed rises by that share of how far off the opening's nearest line
  // is, of two the farther: 150 behind it, 700 beside it, 650 before it, where the threshold's foot stands. It is
  // lowest straight behind the drain, where no mark has to be: the marks are 1500 apart.
  const Built b =
      built(metric +
            "[alcove]\nwidth = 1500\ndepth = 1000\n[base]\nkind = \"site-built\"\nwaterproofing = \"liner\"\npattern = "
            "\"equal-fall\"\nfall = \"3 %\"\n[base.screed]\nevery = 1500\n[base.threshold]\nwidth = 100\nheight = "
            "75\n[drain]\n"
            "size = 100\nfrom_left = 750\nfrom_back = 200\n[bed]\nleast = 25\ncollar = 0\n");
  ASSERT_TRUE(b.facts.site_built && b.facts.site_built->low_at_walls_mm && b.facts.site_built->low_at_threshold_mm);
  const double low = *b.facts.site_built->low_at_walls_mm;
  const auto corner =
      std::find_if(b.facts.site_built->marks.begin(), b.facts.site_built->marks.end(),
                   [](const facts::ScreedMark& mark) { return mark.corner && mark.line == "back wall"; });
  ASSERT_NE(corner, b.facts.site_built->marks.end());
  EXPECT_NEAR(corner->bed_mm - low, 0.03 * (700 - 150), 1e-3) << "the mark is read a hair inside the corner";
  EXPECT_NEAR(*b.facts.site_built->low_at_threshold_mm - low, 0.03 * (650 - 150), 1e-6);
  const Built open = built(metric + "[alcove]\nwidth = 1600\ndepth = 1000\n" + open_front +
                           "[drain]\nsize = 100\nfrom_left = 700\nfrom_back = 450\nbody = 63\n");
  EXPECT_FALSE(open.facts.site_built->low_at_threshold_mm) << "no threshold stands there";
}

TEST(SiteBuilt, IsAConeOverTheRoomAsItWasMeasured) {
  // Source: closed form: planes from a level perimeter to one point are a pyramid upside down, whose volume over the
  // point's level is two thirds of base times rise, wherever the point lies; less a disc about it, in which a plane's
  // height grows with the distance: R3/3 times the integral of its slope over all directions.
  const std::string room =
      "[survey.plan]\nback = 1600\nleft = 1000\nfront = 1620\nright = 1004\ndiagonal_from_back_left = 1893\n";
  const Built b =
      built(metric + room + open_front +
            "[drain]\nopening = \"round\"\nsize = 110\nfrom_left = 800\nfrom_back = 480\nbody = 63\nbore = 100\n");
  expect_sound(b);
  // The corners by hand: back along x from (0, 0); the diagonal and the front fix the others.
  const double cosine = (1600. * 1600 + 1893. * 1893 - 1004. * 1004) / (2 * 1600 * 1893);
  const double frx = 1893 * cosine, fry = -1893 * std::sqrt(1 - cosine * cosine);
  const double along = (1893. * 1893 + 1000. * 1000 - 1620. * 1620) / (2 * 1893 * 1000);
  const double turn = std::atan2(fry, frx) - std::acos(along);
  const double flx = 1000 * std::cos(turn), fly = 1000 * std::sin(turn);
  const double xs[] = {flx, frx, 1600, 0}, ys[] = {fly, fry, 0, 0};
  double area = 0;
  for (int i = 0; i < 4; ++i) area += (xs[i] * ys[(i + 1) % 4] - xs[(i + 1) % 4] * ys[i]) / 2;
  const auto box = part(b, "base").bbox_mm;
  EXPECT_NEAR(box[3] - box[0], std::max(frx, 1600.) - std::min(flx, 0.), 1e-6);
  const double height = b.facts.heights.rim_greatest_mm - (b.facts.heights.drain_top_mm);
  EXPECT_NEAR(height, 15, 1e-6) << "the rim above the opening's lowest edge, as the job says";
  EXPECT_NEAR(b.facts.heights.rim_least_mm, b.facts.heights.rim_greatest_mm, 1e-6)
      << "level, in a room that is not square";
  // Apex: 800 from the left line, 480 from the back; distances to the four lines.
  const auto off = [&](int i, double x, double y) {
    const int j = (i + 1) % 4;
    return std::abs((xs[j] - xs[i]) * (y - ys[i]) - (ys[j] - ys[i]) * (x - xs[i])) /
           std::hypot(xs[j] - xs[i], ys[j] - ys[i]);
  };
  const double dy = -480, left = std::hypot(flx, fly);
  const double ax = (800 - flx / left * dy) / (-fly / left);  // the left side's normal into the room is (-fly, flx)
  ASSERT_NEAR(off(3, ax, dy), 800, 1e-6);
  double slopes = 0, lowest = 1e9;
  const int steps = 200000;
  double distances[4], nx[4], ny[4];
  for (int i = 0; i < 4; ++i) {
    const int j = (i + 1) % 4;
    const double length = std::hypot(xs[j] - xs[i], ys[j] - ys[i]);
    distances[i] = off(i, ax, dy), nx[i] = (ys[j] - ys[i]) / length, ny[i] = -(xs[j] - xs[i]) / length;
  }
  for (int k = 0; k < steps; ++k) {
    const double at = 2 * pi * k / steps;
    double steepest = -1e9;
    for (int i = 0; i < 4; ++i)
      steepest = std::max(steepest, (nx[i] * std::cos(at) + ny[i] * std::sin(at)) / distances[i]);
    slopes += steepest * 2 * pi / steps, lowest = std::min(lowest, steepest);
  }
  const double rise = 15 / (1 - 55 * lowest);    // above the apex
  const double point = 30 - 50 * lowest * rise;  // the bed is 30 at the edge of its hole, and comes to its point within
  const double disc = pi * 50 * 50 * point + 50. * 50 * 50 / 3 * rise * slopes;
  EXPECT_NEAR(part(b, "bed").volume_mm3 / (area * point + 2. / 3 * area * rise - disc), 1, 1e-7);
  for (const facts::Facet& f : b.facts.facets) {
    const int side = f.facet == "front" ? 0 : f.facet == "right" ? 1 : f.facet == "back" ? 2 : 3;
    EXPECT_NEAR(f.fall, rise / distances[side], 1e-8) << f.facet;
  }
}

TEST(SiteBuilt, IsNowhereThinnerThanAskedOverAHump) {
  // Source: the job's own promise; and the marks of a level perimeter stand at one height, in whichever corner, as high
  // over the pre-slope everywhere as the top coat is thick.
  const Built b = built(metric +
                        "[alcove]\nwidth = 1600\ndepth = 1000\n[survey.floor]\ngrid_x = [10, 900, 1590]\n"
                        "grid_y = [10, 500, 990]\ngrid = [[0, 4, 9], [3, 12, 8], [2, 6, 11]]\n" +
                        open_front + "[drain]\nsize = 100\nfrom_left = 700\nfrom_back = 450\nbody = 63\nbore = 90\n");
  expect_sound(b);
  EXPECT_NEAR(b.facts.bed.least_mm, 30, 0.5) << "the hump lies off the drain's hole, or in it";
  EXPECT_GE(b.facts.bed.least_mm, 30 - 1e-6);
  ASSERT_GT(b.facts.site_built->marks.size(), 16U);
  for (const facts::ScreedMark& m : b.facts.site_built->marks) {
    EXPECT_NEAR(m.top_mm - m.bed_mm, 40, 1e-6) << m.line;
    EXPECT_GE(m.bed_mm - m.subfloor_mm, 30 - 1e-3) << m.line;
    if (m.line.rfind("ray", 0) == 0) continue;
    EXPECT_NEAR(m.top_mm, b.facts.heights.drain_top_mm + 15, 1e-3) << m.line;
  }
}

TEST(SiteBuilt, TellsHowHighAndHowThickTheBedIsAtTheDrainsFlange) {
  // Source: closed form: to a round drain the bed falls to a point, from the right by the rise over 1000, from the
  // front by that over 550. The flange lies on the edge of the bore, 50 from there, which is lowest where both planes
  // meet: there the bed is as thick as asked, 30, and the point they fall to lies lower, within the bore.
  const Built b =
      built(metric + "[alcove]\nwidth = 1600\ndepth = 1000\n" + open_front +
            "[drain]\nopening = \"round\"\nsize = 110\nfrom_left = 600\nfrom_back = 450\nbody = 63\nbore = 100\n");
  const facts::SiteBuilt& site = *b.facts.site_built;
  const double least = std::cos(std::atan2(550, 1000)) / 1000, rise = 15 / (1 - 55 * least);
  EXPECT_NEAR(site.at_flange_mm, 30, 1e-6);
  EXPECT_NEAR(b.facts.bed.least_mm, 30, 1e-6) << "nowhere thinner, and nowhere thicker than it needs";
  EXPECT_NEAR(b.facts.heights.drain_top_mm, 30 + 40 + rise * (55 - 50) * least, 1e-6) << "the opening's edge, 55 out";
  EXPECT_NEAR(site.flange_top_mm, site.at_flange_mm, 1e-9) << "over a level floor a height is a thickness";
  for (const facts::Rung& rung : b.facts.room.chain)
    if (rung.name.find("flange") != std::string::npos) {
      EXPECT_NEAR(rung.above_datum_mm, site.at_flange_mm, 1e-9);
    }
}

const std::string tape =
    "[job]\nname = \"x\"\nunit = \"mm\"\n[alcove]\nwidth = 1540\ndepth = 830\n[floor]\nkind = \"slab\"\n"
    "[base]\nkind = \"bought\"\nshell = 6\nweight = \"28 kg\"\n"
    "[base.rim]\nback = 10\nfront = 12\nleft = 10\nright = 22\n"
    "[base.upstands]\nthickness = 8\nheight = 110\n[base.threshold]\nwidth = 90\nheight = 75\n"
    "[drain]\nopening = \"round\"\nsize = 90\nbody = 80\nfrom_left = 460\nfrom_back = 405\n";
const std::string all_round =
    "[base.outside]\nback = 1520\nfront = 1523\nleft = 810\nright = 811\ndiagonal_from_back_left = 1722\n";

TEST(SiteBuilt, KeepsItsStudsWhereTheyStandAndFursNone) {
  // Source: by hand: studs of 45 at both ends of a wall of 1000 and every 400 from its corner; sheets take their
  // centres from here. Mortar follows them as they stand: nothing is brought out to a base.
  const Built b =
      built(metric + "[alcove]\nwidth = 1600\ndepth = 1000\n[walls]\nstock = \"45x95 mm\"\nspacing = 400\n" +
            open_front + "[drain]\nsize = 100\nfrom_left = 700\nfrom_back = 450\nbody = 63\nrecess = 10\nbore = 90\n");
  std::size_t studs = 0;
  for (const parts::Solid& solid : b.model->solids) studs += solid.id.find("/stud-") != std::string::npos;
  EXPECT_GT(studs, 10u);
  ASSERT_EQ(b.facts.room.studs.size(), studs);
  std::vector<double> left;
  for (const facts::StudGap& stud : b.facts.room.studs) {
    EXPECT_EQ(stud.before, facts::Before::nothing) << stud.part_id;
    EXPECT_EQ(std::abs(stud.at_floor_mm) + std::abs(stud.at_upstand_mm) + std::abs(stud.at_top_mm), 0) << stud.part_id;
    if (stud.wall == job::Side::left) left.push_back(std::round(stud.running_mm * 10) / 10);
  }
  std::sort(left.begin(), left.end());
  EXPECT_EQ(left, (std::vector<double>{22.5, 400, 800, 977.5}));
}

TEST(Studs, AreToldWhereATapeReadThem) {
  // Source: each centre is one that was typed. The one in the corner leans with the back wall, 15 in 1200: half-way up
  // it stands 15 from where it was read.
  const Built b = built(
      "[job]\nname = \"x\"\nunit = \"mm\"\n[survey.plan]\nback = 1500\nfront = 1500\nleft = 900\nright = 900\n"
      "diagonal_from_back_left = 1749\ndiagonal_from_back_right = 1749\n[[survey.plumb]]\nwall = \"back\"\nalong = "
      "700\n"
      "lean = 15\nover = 1200\n[[survey.studs]]\nwall = \"left\"\nfrom = \"back\"\ncentres = [25, 400, 800, "
      "875]\n[base]\n"
      "length = 1494\nwidth = 880\nfall = \"2.2 %\"\n[drain]\nsize = 100\nfrom_left = 747\nfrom_back = 430\n[bed]\n"
      "bag_yield = \"12 L\"\n");
  std::vector<double> left;
  for (const facts::StudGap& stud : b.facts.room.studs)
    if (stud.wall == job::Side::left) left.push_back(stud.running_mm);
  std::sort(left.begin(), left.end());
  const std::vector<double> read{25, 400, 800, 875};
  ASSERT_EQ(left.size(), read.size());
  for (std::size_t i = 0; i < read.size(); ++i) EXPECT_NEAR(left[i], read[i], 0.1);
}

TEST(Bought, StandsAsItWasRead) {
  // Source: each number is one that was typed: weight, deepest pocket, rim above the grate at each side's middle; the
  // outline's area by its diagonal and two triangles, by Heron.
  const Built b = built(tape + all_round + "[base.ribs]\ncolumns = 10\nrows = 6\nwidth = 5\ndeepest = 40\n");
  expect_sound(b);
  EXPECT_NEAR(part(b, "base").mass_kg, 28, 1e-9);
  EXPECT_NEAR(b.facts.bed.deepest_rib_mm, 40, 1e-6);
  const job::Quad& outline = *b.job.base.tape.outline;
  const auto heron = [](double p, double q, double r) {
    const double s = (p + q + r) / 2;
    return std::sqrt(s * (s - p) * (s - q) * (s - r));
  };
  double area = 0;
  const auto& c = outline.corners();
  for (std::size_t i = 0; i < 4; ++i) area += (c[i].x * c[(i + 1) % 4].y - c[(i + 1) % 4].x * c[i].y) / 2;
  EXPECT_NEAR(area, heron(1520, 811, 1722) + heron(1523, 810, 1722), 1);
  const double other = std::hypot(c[1].x - c[3].x, c[1].y - c[3].y);
  EXPECT_NEAR(other, 1722, 1e-6) << "from back left to front right";
  EXPECT_NEAR(b.facts.bought->out_of_square_mm, std::abs(std::hypot(c[0].x - c[2].x, c[0].y - c[2].y) - 1722), 1e-6);
  const double left = part(b, "base").bbox_mm[0], front = part(b, "base").bbox_mm[1];
  const auto middle = [&](std::size_t i) {
    return survey::Point{left + (c[i].x + c[(i + 1) % 4].x) / 2, front + (c[i].y + c[(i + 1) % 4].y) / 2};
  };
  for (const facts::Facet& f : b.facts.facets) {
    if (f.surface != facts::Surface::base_floor) continue;
    const double told = f.facet == "right" ? 22 : f.facet == "front" ? 12 : 10;
    const double inset = f.facet == "front" ? 90 : 8;
    const survey::Point m = middle(f.facet == "front" ? 0 : f.facet == "right" ? 1 : f.facet == "back" ? 2 : 3);
    // The plane at the rim: from its low point up its fall, against the way water runs.
    const double x = m.x + inset * f.flow[0], y = m.y + inset * f.flow[1];
    const double z = f.low_mm[2] - f.fall * ((x - f.low_mm[0]) * f.flow[0] + (y - f.low_mm[1]) * f.flow[1]);
    EXPECT_NEAR(z - b.facts.heights.drain_top_mm, told, 1e-4) << f.facet;
  }
}

TEST(Bought, TellsTheFloorsLowestPlaceAlongAThresholdThatIsNotSquare) {
  // Source: the floor is the upper envelope of its planes: the least of it over a thousand places of the threshold's
  // inner edge, between the corners by hand: a threshold of one width along the slanting front.
  const std::string skew =
      "[base.outside]\nback = 1520\nfront = 1520.2\nleft = 795\nright = 820\ndiagonal_from_back_left = 1727.1\n";
  const Built b = built(tape + skew + "[base.ribs]\ncolumns = 10\nrows = 6\nwidth = 5\ndeepest = 40\n");
  const job::Layout at = job::lay_out(b.job);
  const auto& [left, right, back_right, back_left] = at.floor_outline.corners();
  ASSERT_GT(std::abs(left.y - right.y), 20) << "one end stands much nearer to the entry";
  double low = 1e9;
  for (int i = 0; i <= 1000; ++i)
    low = std::min(low, at.floor_at(left.x + i / 1000. * (right.x - left.x), left.y + i / 1000. * (right.y - left.y)));
  ASSERT_TRUE(b.facts.heights.floor_at_threshold_mm);
  EXPECT_NEAR(*b.facts.heights.floor_at_threshold_mm, low, 0.05) << "a crease meets the edge between two of them";
}

/// How far a corner stands from the line through two others.
double off_line(const survey::Point& p, const survey::Point& a, const survey::Point& b) {
  return std::abs(survey::cross(a, b, p)) / std::hypot(b.x - a.x, b.y - a.y);
}

TEST(Bought, IsAsWideAsItIsAtItsNarrowEnd) {
  // Source: by hand, from the outlines' corners: a front askew comes nearest to the back at its end on the shorter
  // side, left or, in the mirror, right.
  for (const bool left_short : {true, false}) {
    const std::string sides = left_short ? "left = 795\nright = 820\ndiagonal_from_back_left = 1727.1\n"
                                         : "left = 820\nright = 795\ndiagonal_from_back_right = 1727.1\n";
    const Built b = built(tape + "[base.outside]\nback = 1520\nfront = 1520.2\n" + sides +
                          "[base.ribs]\ncolumns = 10\nrows = 6\nwidth = 5\ndeepest = 40\n");
    const job::Layout at = job::lay_out(b.job);
    const auto least = [&](const auto& corners) {
      const auto& [left, right, back_right, back_left] = corners;
      return off_line(left_short ? back_left : back_right, left, right);
    };
    EXPECT_NEAR(b.facts.clear.least_width_mm, least(at.floor_outline.corners()), 1e-3) << left_short;
    ASSERT_TRUE(b.facts.clear.receptor_mm);
    EXPECT_NEAR((*b.facts.clear.receptor_mm)[1], least(at.base_outline.corners()), 1e-3) << left_short;
    EXPECT_LT((*b.facts.clear.receptor_mm)[1], 796);
  }
}

TEST(Bought, HasEachStudBroughtOutToItsOwnEdge) {
  // Source: by hand, from the outline's corners: a base that is 30 narrower in front stands farther from the studs of
  // both side walls the nearer they are to the entry, and least at a stud's edge toward the back.
  const double deep = std::sqrt(800. * 800 - 15 * 15), diagonal = std::hypot(1505, deep);
  const std::string text = std::to_string(diagonal);
  const Built b = built(tape + "[base.outside]\nback = 1520\nfront = 1490\nleft = 800\nright = 800\n" +
                        "diagonal_from_back_left = " + text + "\ndiagonal_from_back_right = " + text +
                        "\n[base.ribs]\ncolumns = 10\nrows = 6\nwidth = 5\ndeepest = 40\n");
  const job::Layout at = job::lay_out(b.job);
  const auto& [left, right, back_right, back_left] = at.base_outline.corners();
  const double half = b.job.walls.stock.thickness.in_mm() / 2;
  int seen = 0;
  for (const facts::StudGap& stud : b.facts.room.studs) {
    if (stud.wall == job::Side::back || stud.before != facts::Before::base) continue;
    const bool at_left = stud.wall == job::Side::left;
    const survey::Point &front = at_left ? left : right, &back = at_left ? back_left : back_right;
    const double y = std::clamp(b.job.alcove.depth.in_mm() - stud.running_mm + half, front.y, back.y);
    const double x = front.x + (back.x - front.x) * (y - front.y) / (back.y - front.y);
    EXPECT_NEAR(stud.at_floor_mm, at_left ? x : b.job.alcove.width.in_mm() - x, 0.01) << stud.part_id;
    ++seen;
  }
  EXPECT_GE(seen, 4);
  const auto gap = [&](const char* id) {
    for (const facts::StudGap& stud : b.facts.room.studs)
      if (stud.part_id == id) return stud.at_floor_mm;
    return -1.0;
  };
  EXPECT_GT(gap("wall-left/stud-01") - gap("wall-left/stud-03"), 5) << "toward the entry";
}

TEST(Bought, TellsHowFarTheWasteStandsFromTheDrain) {
  // Source: by hand: the drain 460 from the left of a base of 1520 in an alcove of 1540, so 10 off the left stud face,
  // and 405 from its back edge, which stands tight; the waste read 473 and 399 from the stud faces.
  std::string square = tape;
  square.insert(square.find("shell"), "length = 1520\nwidth = 810\n");
  for (const char* across : {"waste_from_left = 473\n", "waste_from_right = 1067\n"}) {
    const Built b = built(square + across + "waste_from_back = 399\n" +
                          "[base.ribs]\ncolumns = 10\nrows = 6\nwidth = 5\ndeepest = 40\n");
    ASSERT_TRUE(b.facts.bought->waste_aside_mm && b.facts.bought->waste_back_mm);
    EXPECT_NEAR(*b.facts.bought->waste_aside_mm - b.facts.bought->drain_aside_mm, 3, 1e-6) << across;
    EXPECT_NEAR(*b.facts.bought->waste_back_mm, 6, 1e-6);
  }
}

TEST(Bought, TheWasteIsReadFromWhatStandsThere) {
  // Source: by hand, as above: the drain 405 from the back edge of a base 810 wide. Between two facing walls a base
  // stands with its front where the side walls end, so that 411 from the entry are 6 behind the drain's 405; nothing
  // stands at the back to be read from. Of a back wall alone its ends are touched.
  std::string square = tape;
  square.insert(square.find("shell"), "length = 1520\nwidth = 810\n");
  const std::string ribs = "[base.ribs]\ncolumns = 10\nrows = 6\nwidth = 5\ndeepest = 40\n";
  const auto walled = [&](const std::string& walls, const std::string& waste) {
    std::string text = square;
    text.insert(text.find("width = ", text.find("[alcove]")), "walls = " + walls + "\n");
    return built(text + waste + ribs).facts;
  };
  const auto facing = walled("[\"left\", \"right\"]", "waste_from_left = 473\nwaste_from_back = 399\n");
  EXPECT_TRUE(facing.bought->waste_aside_mm);
  EXPECT_FALSE(facing.bought->waste_back_mm) << "no wall stands there";
  const auto from_back = walled("[\"back\", \"left\", \"right\"]", "waste_from_left = 473\nwaste_from_back = 399\n");
  for (const char* across : {"waste_from_left = 473\n", "waste_from_right = 1067\n"}) {
    const auto entry = walled("[\"left\", \"right\"]", across + std::string{"waste_from_front = 431\n"});
    ASSERT_TRUE(entry.bought->waste_aside_mm && entry.bought->waste_back_mm);
    const auto walls = walled("[\"back\", \"left\", \"right\"]", across + std::string{"waste_from_front = 431\n"});
    // The alcove is 830 deep: 399 from the back are 431 from the entry.
    EXPECT_NEAR(*walls.bought->waste_back_mm, *from_back.bought->waste_back_mm, 1e-6);
    const auto end = walled("[\"back\"]", across + std::string{"waste_from_back = 399\n"});
    EXPECT_TRUE(end.bought->waste_aside_mm) << "from the back wall's end";
  }
  EXPECT_FALSE(walled("[\"left\"]", "waste_from_right = 1067\n").bought->waste_aside_mm);
  EXPECT_TRUE(walled("[\"left\"]", "waste_from_left = 473\n").bought->waste_aside_mm);
}

TEST(Bought, OfRibsThatNobodySawTheBedIsARange) {
  // Source: closed form for the least: a solid underside on a level floor leaves a slab of bed.least. Without a rib a
  // bed is no less than with the ribs that were counted.
  const std::string unseen = tape + all_round + "[base.ribs]\nknown = \"no\"\ndeepest = 40\n[bed]\nleast = 15\n";
  const Built b = built(unseen);
  expect_sound(b);
  ASSERT_TRUE(b.facts.bought);
  EXPECT_FALSE(b.facts.bought->ribs_known);
  const survey::Polygon bed = job::lay_out(b.job).bed_outline.polygon();
  double area = -pi * std::pow(b.job.drain.bore.in_mm() / 2 + b.job.bed.collar.in_mm(), 2);
  for (std::size_t i = 0; i < 4; ++i) area += (bed[i].x * bed[(i + 1) % 4].y - bed[(i + 1) % 4].x * bed[i].y) / 2;
  EXPECT_NEAR(b.facts.bought->bed_least_mm3 / (area * 15), 1, 1e-9);
  const Built counted =
      built(tape + all_round + "[base.ribs]\ncolumns = 10\nrows = 6\nwidth = 5\ndeepest = 40\n[bed]\nleast = 15\n");
  EXPECT_GT(counted.facts.bed.set_mm3, b.facts.bought->bed_least_mm3);
  EXPECT_LT(counted.facts.bed.set_mm3, b.facts.bought->bed_greatest_mm3);
}

}  // namespace
}  // namespace fallwright
