/// Every sheet of the sample jobs: clean for another reader, its dimensions true, its texts apart, its pieces the
/// solids'.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "drawing/draw.hpp"
#include "exchange/dxf.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/run.hpp"
#include "support/sample.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

struct Drawn {
  std::shared_ptr<const parts::Model> model;
  facts::Facts facts;
  std::vector<takeoff::CutRow> cuts;
  std::vector<Sheet> sheets;
};

Drawn drawn(const job::Job& job) {
  Drawn d{parts::build(job), {}, {}, {}};
  d.facts = measure::measure(*d.model);
  d.cuts = takeoff::cut_list(d.facts, job.unit == job::UnitSystem::metric);
  d.sheets = draw(*d.model, d.facts, d.cuts);
  return d;
}

std::vector<job::Job> jobs() {
  job::Job right = sample::alcove(), none = sample::alcove(), metric = sample::alcove();
  right.bench->place = job::BenchPlace::right_end;
  right.drain.across.side = job::Side::right;
  none.bench.reset();
  none.base.length = job::Length::inches(72);
  metric.unit = job::UnitSystem::metric;
  metric.drain.opening = job::Opening::round;
  return {sample::alcove(), right, none, metric};
}

TEST(Sheets, OpenWithoutRepairAndCarryTheirUnit) {
  // Source: ezdxf's auditor: no error and no fix on any sheet of any job.
  for (const job::Job& job : jobs()) {
    const sample::Folder folder{"sheets"};
    std::string files;
    for (const Sheet& sheet : drawn(job).sheets) {
      exchange::write_dxf(sheet, folder / (sheet.name + ".dxf"));
      files += " " + (folder / (sheet.name + ".dxf"));
    }
    const sample::Ran ran = sample::run(EZDXF_PYTHON " " PROJECT_DIR "/tests/outside/audit_dxf.py" + files + " 2>&1");
    EXPECT_EQ(ran.code, 0) << ran.out;
  }
}

TEST(Sheets, EveryDimensionSaysTheDistanceBetweenItsPoints) {
  // Source: closed form: the distance along the dimension, in the trade's notation.
  for (const job::Job& job : jobs())
    for (const Sheet& sheet : drawn(job).sheets) {
      EXPECT_FALSE(sheet.dimensions.empty()) << sheet.name;
      for (const Dimension& d : sheet.dimensions) {
        const double dx = std::abs(d.to.x - d.from.x), dy = std::abs(d.to.y - d.from.y);
        EXPECT_TRUE(std::abs(d.length_mm - dx) < 1e-6 || std::abs(d.length_mm - dy) < 1e-6)
            << sheet.name << " " << d.words;
        EXPECT_EQ(d.words, units::to_text(units::Length::mm(d.length_mm), sheet.metric)) << sheet.name;
      }
    }
}

struct Box {
  double x0, y0, x1, y1;
};

/// A text's box, generously: most letters are narrower than 0.62 of their height.
Box box_of(const Text& t) {
  const double w = 0.62 * t.height * static_cast<double>(t.words.size());
  const double x = t.anchor == Anchor::left ? t.at.x : t.anchor == Anchor::middle ? t.at.x - w / 2 : t.at.x - w;
  return {x, t.at.y, x + w, t.at.y + t.height};
}

TEST(Sheets, NoTwoTextsOverlap) {
  // Source: common practice, no source: a number printed over a number is a wrong cut.
  for (const job::Job& job : jobs())
    for (const Sheet& sheet : drawn(job).sheets)
      for (std::size_t i = 0; i < sheet.texts.size(); ++i)
        for (std::size_t k = i + 1; k < sheet.texts.size(); ++k) {
          const Box a = box_of(sheet.texts[i]), b = box_of(sheet.texts[k]);
          const bool apart = a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0;
          EXPECT_TRUE(apart) << sheet.name << ": '" << sheet.texts[i].words << "' and '" << sheet.texts[k].words << "'";
        }
}

TEST(Sheets, PlanHasTheAlcovesTrueSize) {
  // Source: arithmetic: 72 + 2 x 3-1/2 in over the walls, 36 + 3-1/2 in front to back.
  const Drawn d = drawn(sample::alcove());
  double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9;
  for (const Line& l : d.sheets.front().lines) {
    if (l.kind != LineKind::outline) continue;
    for (const Point& p : {l.from, l.to})
      x0 = std::min(x0, p.x), x1 = std::max(x1, p.x), y0 = std::min(y0, p.y), y1 = std::max(y1, p.y);
  }
  EXPECT_NEAR((x1 - x0) / 25.4, 79, 1e-6);
  EXPECT_NEAR((y1 - y0) / 25.4, 39.5, 1e-6);
}

TEST(Sheets, CutPiecesAreDrawnFullSize) {
  // Source: the solids: for every piece two lines as long as it is stand one width apart.
  const Drawn d = drawn(sample::alcove());
  const Sheet& sheet = d.sheets.back();
  ASSERT_EQ(sheet.name, "cuts");
  for (const takeoff::CutRow& cut : d.cuts) {
    int edges = 0;
    for (const Line& l : sheet.lines)
      edges += l.kind == LineKind::outline && std::abs(l.from.y - l.to.y) < 1e-6 &&
               std::abs(std::abs(l.to.x - l.from.x) - cut.length_mm) < 1e-3;
    EXPECT_GE(edges, 2) << cut.mark << " " << cut.stock;
  }
}

TEST(Sheets, MirroredJobMirrorsThePlanAndNotItsTexts) {
  // Source: symmetry: the base's outline lines of the right-hand job are those of the left-hand one, mirrored.
  const auto all = jobs();
  const Sheet left = drawn(all[0]).sheets[0], right = drawn(all[1]).sheets[0];
  const double width = all[0].alcove.width.in_mm();
  const auto has = [&](const Sheet& sheet, Point a, Point b) {
    const auto near = [](Point p, Point q) { return std::hypot(p.x - q.x, p.y - q.y) < 1e-3; };
    return std::any_of(sheet.lines.begin(), sheet.lines.end(), [&](const Line& l) {
      return (near(l.from, a) && near(l.to, b)) || (near(l.from, b) && near(l.to, a));
    });
  };
  int hips = 0;
  for (const Line& l : left.lines) {
    if (l.kind != LineKind::outline || std::abs(l.from.x - l.to.x) < 1 || std::abs(l.from.y - l.to.y) < 1) continue;
    ++hips;
    EXPECT_TRUE(has(right, {width - l.from.x, l.from.y}, {width - l.to.x, l.to.y}));
  }
  EXPECT_EQ(hips, 4);
  for (const Text& t : right.texts) EXPECT_EQ(t.rotation_deg, 0);
}

}  // namespace
}  // namespace fallwright::drawing
