/// Bases of the program's own, written as STEP files and bought back.
#include <cmath>
#include <map>

#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "exchange/step.hpp"
#include "intake/intake.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/check.hpp"
#include "support/run.hpp"

namespace fallwright {
namespace {

const std::string room =
    "[job]\nname = \"x\"\nunit = \"in\"\n[alcove]\nwidth = \"62 in\"\ndepth = \"34 in\"\n[floor]\ndrop_along_width = "
    "\"1/4 in\"\n[floor.joists]\nfirst = \"8 in\"\n";
const std::string end = "[bed]\nbag_yield = \"0.45 ft3\"\n";
const std::string sizes = "[base]\nlength = \"60 in\"\nwidth = \"33 in\"\nmade = \"bought\"\n";

/// One of a job's base on its own.
std::string step_of(const job::Job& job) {
  const sample::Folder folder{"round-trip"};
  exchange::write_step(parts::Model{job, {parts::build_base(job)}}, folder / "base.step", 0);
  return sample::slurped(folder / "base.step");
}

struct Judged {
  facts::Facts facts;
  std::map<std::string, rules::Result> results;
};

Judged judged(const job::Job& job) {
  const auto model = parts::build(job);
  Judged judged{measure::measure(*model), {}};
  for (const rules::Result& r : rules::check(job, judged.facts)) judged.results.emplace(r.id, r);
  return judged;
}

void expect_same(const std::string& base, const std::string& drain) {
  const job::Job drawn = job::read(room + base + "[drain]\n" + drain + end, "drawn.toml");
  const std::string text = step_of(drawn);
  const job::Job bought = job::read(room + "[base]\nkind = \"bought\"\nfile = \"base.step\"\n" + end, "bought.toml",
                                    [&](const job::BodyFile& file) { return intake::base_of(text, file); });
  EXPECT_EQ(bought.base.body->up, "+z");
  EXPECT_EQ(bought.base.body->back, "+y");
  const Judged a = judged(drawn), b = judged(bought);
  ASSERT_EQ(a.facts.parts.size(), b.facts.parts.size());
  for (std::size_t i = 0; i < a.facts.parts.size(); ++i) {
    const facts::Part &own = a.facts.parts[i], &back = b.facts.parts[i];
    EXPECT_EQ(own.id, back.id);
    EXPECT_EQ(own.valid, back.valid) << own.id;
    EXPECT_NEAR(back.volume_mm3 / own.volume_mm3, 1, 1e-6) << own.id;
    for (std::size_t k = 0; k < 6; ++k) EXPECT_NEAR(back.bbox_mm[k], own.bbox_mm[k], 1e-6) << own.id;
  }
  ASSERT_EQ(a.facts.facets.size(), b.facts.facets.size());
  for (std::size_t i = 0; i < a.facts.facets.size(); ++i) {
    EXPECT_EQ(a.facts.facets[i].facet, b.facts.facets[i].facet);
    EXPECT_NEAR(a.facts.facets[i].fall, b.facts.facets[i].fall, 1e-9);
    EXPECT_NEAR(a.facts.facets[i].area_mm2 / b.facts.facets[i].area_mm2, 1, 1e-6);
  }
  EXPECT_NEAR(a.facts.bed.least_mm, b.facts.bed.least_mm, 1e-6);
  EXPECT_NEAR(a.facts.bed.greatest_mm, b.facts.bed.greatest_mm, 1e-6);
  for (const auto& [id, own] : a.results) {
    if (id == "base.hand" || id == "base.weight") continue;  // asked of a bought base alone
    const rules::Result& back = b.results.at(id);
    EXPECT_EQ(own.outcome, back.outcome) << id << ": " << own.where << " / " << back.where;
    ASSERT_EQ(own.measured.has_value(), back.measured.has_value()) << id;
    if (own.measured) {
      EXPECT_NEAR(*own.measured, *back.measured, 1e-6 * std::max(1.0, std::abs(*own.measured))) << id;
    }
  }
}

TEST(RoundTrip, OfTheDemoJobsBaseIsTheFileBesideIt) {
  // Source: docs/bought-base.md: how that file was made.
  const std::string drawn = std::string{PROJECT_DIR} + "/tests/intake/chandlers-row-9-base.toml";
  EXPECT_TRUE(step_of(job::read(sample::slurped(drawn), drawn)) ==
              sample::slurped(std::string{PROJECT_DIR} + "/params/chandlers-row-9-base.step"));
}

TEST(RoundTrip, OfABaseOutOfSquare) {
  // Source: the program's own numbers of a base that was measured with a tape, sent as a file.
  const std::string file = std::string{PROJECT_DIR} + "/params/chandlers-row-7.toml";
  const job::Job taped = job::read(sample::slurped(file), file);
  const auto body = intake::base_of(step_of(taped), {});
  const parts::Solid base = parts::build_base(taped);
  EXPECT_NEAR(body->volume_mm3 / brep::volume_mm3(base.shape), 1, 1e-9);
  EXPECT_NEAR(body->lost_mm3, 0, 1);
  EXPECT_FALSE(body->outline.is_square());
  EXPECT_EQ(body->pockets, 60);
  EXPECT_NEAR(body->threshold_inner - body->drain_top, taped.base.threshold.height.in_mm(), 1e-6);
  for (const job::Side side : {job::Side::back, job::Side::left, job::Side::right})
    EXPECT_NEAR(body->inset[static_cast<std::size_t>(side)], taped.base.upstand_thickness.in_mm(), 1e-6);
}

const std::string square = "size = \"4 in\"\nfrom_left = \"20 in\"\nfrom_back = \"15 in\"\n";
const std::string round = "opening = \"round\"\n" + square;

TEST(RoundTrip, OfASquareOpeningAmongRibs) {
  // Source: the program's own numbers of the base that was drawn.
  expect_same(sizes + "[base.ribs]\ncolumns = 5\nrows = 3\n", square);
}

TEST(RoundTrip, OfARoundOpeningAmongRibs) {
  // Source: as above; the ring about the opening cuts arcs into the pockets.
  expect_same(sizes + "[base.ribs]\ncolumns = 6\nrows = 4\n", round);
}

TEST(RoundTrip, OfAShellWithoutRibsAndOfAFlatUnderside) {
  // Source: as above; the one hollow of a shell reaches past the bed's edge, which cuts it.
  expect_same(sizes + "shell = \"3/4 in\"\n[base.ribs]\ncolumns = 0\nrows = 0\n", square);
  expect_same(sizes + "underside = \"flat\"\nrib_depth = \"1 in\"\n", square);
}

TEST(RoundTrip, OfAnEqualFallWithAChannel) {
  // Source: as above; the rim rises with the distance, and the floor falls to a channel.
  expect_same(sizes + "pattern = \"equal-fall\"\n[base.ribs]\ncolumns = 4\nrows = 3\n",
              "kind = \"line\"\nsize = \"4 in\"\nlength = \"30 in\"\nfrom_left = \"30 in\"\nfrom_back = \"15 in\"\n");
}

/// Distances from the drain at which a circle about it touches a straight side of the underside, or goes through a
/// corner: the least of each beyond `from_mm`.
std::pair<double, double> touching(const job::Body& body, double from_mm) {
  double side = 1e9, corner = 1e9;
  for (const job::Body::Region& region : body.underside)
    for (const auto& loop : region.loops)
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const auto &p = loop[i], &q = loop[(i + 1) % loop.size()];
        if (p.centre) continue;
        const double dx = q.at.x - p.at.x, dy = q.at.y - p.at.y, length = std::hypot(dx, dy);
        const double x = body.hole.x - p.at.x, y = body.hole.y - p.at.y, along = (x * dx + y * dy) / length;
        const double aside = std::abs(x * dy - y * dx) / length, away = std::hypot(x, y);
        if (along > 1 && along < length - 1 && aside > from_mm) side = std::min(side, aside);
        if (away > from_mm) corner = std::min(corner, away);
      }
  return {side, corner};
}

TEST(RoundTrip, ABedsHoleThatTouchesTheUndersideIsPutPastIt) {
  // Source: continuity: with a hole a tenth of a millimetre narrower or wider the bed is nearly as large. Sides and
  // corners of pockets, and as wide as the ring that cuts arcs into them: that is one circle with it.
  for (const std::string& drain : {square, round}) {
    const job::Job drawn =
        job::read(room + sizes + "[base.ribs]\ncolumns = 7\nrows = 5\n[drain]\n" + drain + end, "x.toml");
    const std::string text = step_of(drawn);
    job::Job bought = job::read(room + "[base]\nkind = \"bought\"\nfile = \"base.step\"\n" + end, "x.toml",
                                [&](const job::BodyFile& file) { return intake::base_of(text, file); });
    const double ring = drawn.drain.bore.in_mm() / 2 + drawn.bed.collar.in_mm();
    const auto [side, corner] = touching(*bought.base.body, ring + 5);
    ASSERT_LT(side, 300);
    ASSERT_LT(corner, 300);
    for (const double radius : {side, corner, ring}) {
      double last = 0;
      for (const double beyond : {-0.1, -1e-4, -1e-7, 0., 1e-7, 1e-4, 0.1}) {
        bought.drain.bore = job::Length::mm(2 * (radius + beyond - bought.bed.collar.in_mm()));
        const auto bed = parts::build_bed(bought).shape;
        EXPECT_TRUE(brep::is_sound(bed)) << drain << radius << " " << beyond;
        const double volume = brep::volume_mm3(bed);
        if (last > 0) {
          EXPECT_NEAR(volume, last, 2e-4 * volume) << radius << " " << beyond;
        }
        last = volume;
      }
    }
  }
}

}  // namespace
}  // namespace fallwright
