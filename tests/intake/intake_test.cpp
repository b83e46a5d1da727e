/// Bodies drawn in the kernel, read from their files, against closed forms.
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "intake/bodies.hpp"
#include "intake/intake.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/check.hpp"
#include "support/run.hpp"

namespace fallwright {
namespace {

using bodies::Plate;
using bodies::step_of;
using std::numbers::pi;

std::shared_ptr<const job::Body> read(const std::string& text, const std::string& up = "",
                                      const std::string& back = "+y") {
  return intake::base_of(text, {"base.step", up, back});
}

job::Job room_for(const std::string& text, const std::string& keys = "") {
  const std::string job =
      "[job]\nname = \"x\"\nunit = \"mm\"\n[alcove]\nwidth = 1000\ndepth = 800\n[floor]\nkind = \"slab\"\n[base]\nkind "
      "= "
      "\"bought\"\nfile = \"base.step\"\nfile_back = \"+y\"\n[drain]\nbody = 80\nbody_depth = 30\nbore = "
      "100\n[bed]\nleast = "
      "15\nholdback = 10\noverrun = 20\ncollar = 5\n";
  return job::read(job + keys, "x.toml", [&](const job::BodyFile& file) { return intake::base_of(text, file); });
}

TEST(Body, IsReadAsATapeWouldReadIt) {
  // Source: closed form, of a tilted plate with a round hole and no ledge: the hole's lowest edge is the one in front.
  const Plate p;
  const auto body = read(step_of(bodies::solid_of(p)));
  const double fall = (p.back - p.front) / p.width;
  EXPECT_EQ(body->up, "+z");
  EXPECT_EQ(body->back, "+y");
  EXPECT_EQ(body->faces, 7u);
  EXPECT_NEAR(body->volume_mm3 / p.volume(), 1, 1e-9);
  EXPECT_EQ(body->lost_mm3, 0) << "rounding is nothing";
  EXPECT_NEAR(body->outline.box().width(), p.length, 1e-9);
  EXPECT_NEAR(body->outline.box().depth(), p.width, 1e-9);
  EXPECT_NEAR(body->hole.x, p.x, 1e-9);
  EXPECT_NEAR(body->hole.y, p.y, 1e-9);
  EXPECT_NEAR(body->hole_size, p.hole, 1e-9);
  EXPECT_NEAR(body->drain_top, p.front + fall * (p.y - p.hole / 2), 1e-9);
  EXPECT_NEAR(body->rim, p.back, 1e-9);
  EXPECT_EQ(body->recess, 0);
  EXPECT_EQ(body->pockets, 0);
}

TEST(Body, IsTurnedToTheFrontHoweverItLiesInItsFile) {
  // Source: property: turned as a whole a base is the same base; all ways in which its edges run along the axes. Its
  // threshold is wider than an upstand may be.
  const char* file = PROJECT_DIR "/tests/intake/chandlers-row-9-base.toml";
  const auto model = parts::build(job::read(sample::slurped(file), file));
  const TopoDS_Shape& solid = model->first(parts::Role::base)->shape;
  const auto drawn = read(step_of(solid), "", "");
  for (const int about_x : {0, 90, 180, 270})
    for (const int about_z : {0, 90, 180, 270}) {
      const auto body = read(step_of(bodies::turned(solid, about_x, about_z)), "", "");
      const std::string way = std::to_string(about_x) + " " + std::to_string(about_z);
      EXPECT_NEAR(body->volume_mm3 / drawn->volume_mm3, 1, 1e-9) << way;
      EXPECT_NEAR(body->hole.x, drawn->hole.x, 1e-6) << way;
      EXPECT_NEAR(body->hole.y, drawn->hole.y, 1e-6) << way;
      EXPECT_NEAR(body->drain_top, drawn->drain_top, 1e-6) << way;
      EXPECT_NEAR(body->rim, drawn->rim, 1e-6) << way;
      EXPECT_EQ(body->turned, drawn->turned) << way;
      EXPECT_EQ(body->pockets, drawn->pockets) << way;
    }
}

TEST(Body, StandsInItsBedAndFallsAsItDoes) {
  // Source: closed form: under a flat base on a level floor the bed is its plan, held back 10 on three sides and 20
  // over in front, less the hole, times its thickness; the fall is that of the plate's top.
  const Plate p;
  const job::Job job = room_for(step_of(bodies::solid_of(p)));
  const auto model = parts::build(job);
  const facts::Facts facts = measure::measure(*model);
  const double plan = 980 * 810 - pi * 55 * 55;
  for (const facts::Part& part : facts.parts) {
    EXPECT_TRUE(part.valid) << part.id;
    if (part.id == "base") {
      EXPECT_NEAR(part.volume_mm3 / p.volume(), 1, 1e-9);
    }
    if (part.id == "bed") {
      EXPECT_NEAR(part.volume_mm3 / (plan * 15), 1, 1e-9);
    }
  }
  int falls = 0;
  for (const facts::Facet& f : facts.facets)
    if (f.surface == facts::Surface::base_floor) {
      EXPECT_NEAR(f.fall, (p.back - p.front) / p.width, 1e-9);
      ++falls;
    }
  EXPECT_EQ(falls, 1);
}

TEST(Body, MayBeRoundedWhereItsSidesMeet) {
  // Source: closed form: each corner loses (1 - pi / 4) r2 of the plan, and four alike ones that of the mean height in
  // the volume; the bed below goes on to its own sharp corners.
  const Plate p;
  const double radius = 30, plan = 980 * 810 - pi * 55 * 55;
  const std::string text = step_of(bodies::rounded(p, radius));
  const auto body = read(text);
  EXPECT_NEAR(body->volume_mm3 / (p.volume() - (4 - pi) * radius * radius * (p.front + p.back) / 2), 1, 1e-9);
  EXPECT_NEAR(body->outline.box().width(), p.length, 1e-9);
  EXPECT_NEAR(body->outline.box().depth(), p.width, 1e-9);
  const auto model = parts::build(room_for(text));
  const facts::Facts facts = measure::measure(*model);
  for (const facts::Part& part : facts.parts) {
    EXPECT_TRUE(part.valid) << part.id;
    if (part.id == "bed") {
      EXPECT_NEAR(part.volume_mm3 / (plan * 15), 1, 1e-9);
    }
  }
  for (const facts::Fit& fit : facts.fits)
    EXPECT_NE(fit.state, facts::Touch::clash) << text_of(fit.a) << " and " << text_of(fit.b);
}

TEST(Body, IsSetSquareHoweverALittleAskewItLiesInItsFile) {
  // Source: property: turned as a whole a base is the same base, and it is set with its back edge along the wall.
  const char* file = PROJECT_DIR "/tests/intake/chandlers-row-9-base.toml";
  const auto model = parts::build(job::read(sample::slurped(file), file));
  const TopoDS_Shape& solid = model->first(parts::Role::base)->shape;
  const auto drawn = read(step_of(solid), "", "");
  EXPECT_EQ(drawn->turned_by, 0);
  for (const double degrees : {-2.5, -0.2, 1e-4, 1., 91., 179.}) {
    const auto body = read(step_of(bodies::turned(solid, 0, degrees)), "", "");
    EXPECT_NEAR(std::remainder(body->turned_by * 180 / M_PI + degrees, 90), 0, 1e-9);
    EXPECT_TRUE(body->outline.is_square()) << degrees;
    EXPECT_NEAR(body->outline.box().width(), drawn->outline.box().width(), 1e-6) << degrees;
    EXPECT_NEAR(body->outline.box().depth(), drawn->outline.box().depth(), 1e-6) << degrees;
    EXPECT_NEAR(body->hole.x, drawn->hole.x, 1e-6) << degrees;
    EXPECT_NEAR(body->hole.y, drawn->hole.y, 1e-6) << degrees;
    EXPECT_NEAR(body->rim, drawn->rim, 1e-6) << degrees;
    EXPECT_EQ(body->top.size(), drawn->top.size()) << degrees;
    EXPECT_EQ(body->pockets, drawn->pockets) << degrees;
    EXPECT_NEAR(body->volume_mm3 / drawn->volume_mm3, 1, 1e-9) << degrees;
  }
}

TEST(Body, IsTheSameInInchesUpsideDownOnItsSideAndTurned) {
  // Source: the same body: a file's unit and axes are a way of writing.
  const Plate p;
  const TopoDS_Shape plate = bodies::solid_of(p);
  struct Case {
    std::string text, up, back;
  };
  for (const Case& c :
       {Case{step_of(plate, "INCH"), "+z", "+y"}, Case{step_of(bodies::turned(plate, 180)), "-z", "-y"},
        Case{step_of(bodies::turned(plate, 90)), "-y", "+z"}, Case{step_of(bodies::turned(plate, -90)), "+y", "-z"},
        Case{step_of(bodies::turned(plate, 0, 90)), "+z", "-x"},
        Case{step_of(bodies::turned(plate, 0, -90)), "+z", "+x"}}) {
    const auto body = read(c.text, "", c.back);
    EXPECT_EQ(body->up, c.up);
    EXPECT_NEAR(body->volume_mm3 / p.volume(), 1, 1e-9);
    EXPECT_NEAR(body->hole.x, p.x, 1e-6);
    EXPECT_NEAR(body->hole.y, p.y, 1e-6);
    EXPECT_NEAR(body->rim, p.back, 1e-6);
  }
}

TEST(Body, IsOneSizeInWhateverUnitItsFileIs) {
  // Source: ISO 10303-41: an inch and a foot are conversion-based units, a centimetre has a prefix, a metre none.
  const Plate p;
  const TopoDS_Shape plate = bodies::solid_of(p);
  std::string words;
  for (const char* unit : {"MM", "CM", "M", "INCH", "FT"}) {
    const auto body = read(step_of(plate, unit));
    EXPECT_NEAR(body->volume_mm3 / p.volume(), 1, 1e-9) << unit;
    EXPECT_NEAR(body->outline.box().width(), p.length, 1e-6) << unit;
    EXPECT_NEAR(body->hole_size, p.hole, 1e-6) << unit;
    EXPECT_NEAR(body->rim, p.back, 1e-6) << unit;
    words += body->unit + " ";
  }
  EXPECT_EQ(words, "millimetre centimetre metre INCH FOOT ");
}

TEST(Body, IsMirroredWithItsMirror) {
  // Source: reflection: the hole stands as far from the other end, and all else stays.
  const Plate p;
  const auto body = read(step_of(bodies::mirrored_left_right(bodies::solid_of(p))));
  EXPECT_NEAR(body->hole.x, p.length - p.x, 1e-6);
  EXPECT_NEAR(body->volume_mm3 / p.volume(), 1, 1e-9);
  EXPECT_NEAR(body->drain_top, read(step_of(bodies::solid_of(p)))->drain_top, 1e-6);
}

TEST(Body, WithACurvedFloorIsMeshedWithinItsSagAndNothingPassesOnIt) {
  // Source: closed form: a trough of radius R about its lowest line takes h x - (segment) from a block; chords lie
  // inside the material's side by at most the sag. What lies between a mesh's corners is not known.
  const Plate p{.length = 1000, .width = 800, .front = 40, .back = 70, .hole = 90, .x = 500, .y = 200};
  const double radius = 8000;
  const std::string text = step_of(bodies::trough(p, radius));
  const auto body = read(text);
  EXPECT_TRUE(body->curved_floor);
  EXPECT_GT(body->triangles, 4u);
  EXPECT_LE(std::abs(body->lost_mm3), job::Body::sag_mm * 1e6);
  const job::Job job = room_for(text);
  const auto model = parts::build(job);
  const facts::Facts facts = measure::measure(*model);
  for (const rules::Result& r : rules::check(job, facts))
    if (r.id == "floor.drains" || r.id == "floor.fall-greatest") {
      EXPECT_NE(r.outcome, rules::Outcome::pass) << r.id;
    }
}

TEST(Body, WithAFloorThatIsADishIsReadFromAnyHandsFile) {
  // Source: closed form: a cone's frustum of radii r and R is pi h (R2 + R r + r2) / 3. No file need say where curves
  // run on round faces (ISO 10303-42: an edge's curve may be one in space alone).
  const Plate p{.length = 1000, .width = 800, .front = 40, .back = 50, .hole = 90, .x = 450, .y = 400};
  const double r = p.hole / 2, radius = 350, deep = p.back - p.front;
  const double volume =
      p.length * p.width * p.back - pi * r * r * p.front - pi * deep * (radius * radius + radius * r + r * r) / 3;
  for (const bool laid : {true, false}) {
    const auto body = read(step_of(bodies::dish(p, radius), "MM", laid));
    EXPECT_TRUE(body->curved_floor);
    EXPECT_NEAR(body->volume_mm3 / volume, 1, 1e-6) << laid;
    EXPECT_LE(std::abs(body->lost_mm3), job::Body::sag_mm * pi * radius * radius) << laid;
    EXPECT_NEAR(body->drain_top, p.front, 1e-6) << laid;
    EXPECT_NEAR(body->hole_size, p.hole, 1e-6) << laid;
    const auto model = parts::build(room_for(step_of(bodies::dish(p, radius), "MM", laid)));
    for (const facts::Part& part : measure::measure(*model).parts) EXPECT_TRUE(part.valid) << part.id << laid;
  }
}

TEST(Body, OfPlanesAndRoundHolesNeedsNoCurvesLaidOnFaces) {
  // Source: as above; the same plate.
  const Plate p;
  const auto body = read(step_of(bodies::rounded(p, 30), "MM", false));
  EXPECT_NEAR(body->volume_mm3 / read(step_of(bodies::rounded(p, 30)))->volume_mm3, 1, 1e-9);
  EXPECT_NEAR(body->hole.x, p.x, 1e-6);
}

TEST(Body, IsReadFromAFileThatWasWrittenByHand) {
  // Source: ISO 10303-21 and -42, typed by hand: a plate as above in feet, its angles in degrees, the wall of its hole
  // one face between a circle and an ellipse that no line cuts open.
  constexpr double foot = 304.8;
  const Plate p{.length = 3.5 * foot,
                .width = 3 * foot,
                .front = foot / 8,
                .back = foot * 3 / 16,
                .hole = foot / 4,
                .x = 1.5 * foot,
                .y = foot};
  const auto body = read(sample::slurped(PROJECT_DIR "/tests/intake/by-hand-plate.step"));
  EXPECT_EQ(body->unit, "FOOT");
  EXPECT_EQ(body->faces, 7u);
  EXPECT_NEAR(body->volume_mm3 / p.volume(), 1, 1e-9);
  EXPECT_NEAR(body->lost_mm3 / p.volume(), 0, 1e-9);
  EXPECT_NEAR(body->hole.x, p.x, 1e-6);
  EXPECT_NEAR(body->hole.y, p.y, 1e-6);
  EXPECT_NEAR(body->hole_size, p.hole, 1e-6);
  EXPECT_NEAR(body->rim, p.back, 1e-6);
}

TEST(Body, TakesThePlaceOfWhatATapeReads) {
  // Source: the keys' meaning: what the file tells is not told twice, and an axis without a file is none.
  const std::string text = step_of(bodies::solid_of({}));
  const auto fault = [&](const std::string& keys) {
    try {
      room_for(text, keys);
    } catch (const diag::JobFaults& e) {
      return std::string{e.what()};
    }
    return std::string{};
  };
  EXPECT_EQ(fault(""), "");
  EXPECT_NE(fault("[base.rim]\nback = 20\n").find("base.file tells it"), std::string::npos);
  EXPECT_NE(fault("[base.threshold]\nheight = 50\n").find("base.file tells it"), std::string::npos);
  EXPECT_THROW(job::read("[job]\nname = \"x\"\n[base]\nkind = \"bought\"\nfile_up = \"+z\"\n", "x"), diag::JobFaults);
}

}  // namespace
}  // namespace fallwright
