/// Every sheet of the sample and demo jobs: clean for another reader, its dimensions true, its texts apart, its pieces
/// the solids'.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <gtest/gtest.h>
#include <BRepAlgoAPI_Common.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <gp_Pln.hxx>
#include <nlohmann/json.hpp>

#include "brep/properties.hpp"
#include "drawing/pen.hpp"
#include "drawing/projection.hpp"
#include "exchange/dxf.hpp"
#include "outside/drawn.hpp"
#include "outside/dxf_reader.hpp"
#include "support/run.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

TEST(Sheets, OpenWithoutRepairAndCarryTheirUnit) {
  // Source: ezdxf's auditor: no error and no fix on any sheet of any job.
  const sample::Folder folder{"sheets"};
  std::string files;
  for (const Drawn& d : all_jobs())
    for (const Sheet& sheet : d.sheets) {
      const std::string file = folder / (std::to_string(files.size()) + "-" + sheet.name + ".dxf");
      exchange::write_dxf(sheet, file);
      files += " " + file;
    }
  const sample::Ran ran = sample::run(PYTHON " " PROJECT_DIR "/tests/outside/audit_dxf.py --audit" + files + " 2>&1");
  EXPECT_EQ(ran.code, 0) << ran.out;
}

TEST(Sheets, AreAllThere) {
  // Source: what framer, plumber and setter are promised.
  std::set<std::string> names;
  for (const Sheet& sheet : all_jobs()[0].sheets)
    EXPECT_TRUE(names.insert(sheet.name).second) << sheet.name << " twice";
  for (const char* name :
       {"plan",       "falls",         "bed",       "drain",     "template",      "bench-plan",  "bench-front",
        "bench-side", "bench-section", "wall-back", "wall-left", "wall-right",    "cuts",        "cuts-shapes",
        "sticks",     "cover",         "assembly",  "exploded",  "story-stick-1", "gauge-strip", "bench-profile-1"})
    EXPECT_TRUE(names.count(name)) << name;
}

TEST(Sheets, EveryDimensionSaysTheDistanceBetweenItsPoints) {
  // Source: closed form: the distance along the dimension, in the trade's notation; a part of a chain, or its whole,
  // may carry a mark for the sake of the sum. Of studs that nobody read it stands in brackets.
  int pictured = 0;
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets)
      for (const Dimension& dim : sheet.dimensions) {
        const double dx = std::abs(dim.to.x - dim.from.x), dy = std::abs(dim.to.y - dim.from.y);
        EXPECT_TRUE(std::abs(dim.length_mm - dx) < 1e-6 || std::abs(dim.length_mm - dy) < 1e-6 ||
                    std::abs(std::abs(dim.length_mm) - std::hypot(dx, dy)) < 1e-6)
            << sheet.name << " " << dim.words;
        // And what is drawn: of a chain's link, one of its picture's lines is as long as its words say.
        const auto as_long = [&](const Line& l) {
          return std::abs(std::hypot(l.to.x - l.from.x, l.to.y - l.from.y) - std::abs(dim.length_mm)) < 1e-6;
        };
        if (dim.picture && dim.chain != 0) {
          ++pictured;
          EXPECT_TRUE(std::any_of(sheet.lines.begin() + static_cast<std::ptrdiff_t>(dim.picture->first_line),
                                  sheet.lines.begin() + static_cast<std::ptrdiff_t>(dim.picture->last_line), as_long))
              << d.name << " " << sheet.name << " " << dim.words << ": no line of " << dim.length_mm;
          EXPECT_EQ(sheet.texts.at(dim.picture->text).words, dim.words) << sheet.name;
        }
        const double mark = sheet.metric ? 1 : 25.4 / 16;
        std::set<std::string> good{number_of(dim.length_mm, sheet.metric)};
        for (const double by : {-2 * mark, -mark, mark, 2 * mark})
          if (dim.chain != 0) good.insert(number_of(dim.length_mm + by, sheet.metric));
        if (dim.assumed) good = {"(" + number_of(dim.length_mm, sheet.metric) + ")"};
        EXPECT_TRUE(good.count(dim.words))
            << d.name << " " << sheet.name << " " << dim.words << " for " << dim.length_mm;
      }
  EXPECT_GT(pictured, at_least(100));
}

TEST(Sheets, WhatIsWorkedToHasOneNumberOnAllOfThem) {
  // Source: by hand: in a room at odd millimetres the base is 1130 mm long, and every length of the set-out that the
  // drain sheet lists is the same where the plan, the falls or the bed have it.
  const std::string file = std::string{PROJECT_DIR} + "/tests/outside/jobs/odd-millimetres.toml";
  const Drawn d = drawn(job::read(diag::read_text(file), file));
  std::vector<double> worked_to{1130};
  for (const facts::Mark& m : d.facts.room.set_out)
    if (m.name.rfind("bore centre from the ", 0) == 0) worked_to.push_back(m.mm);
  int found = 0;
  for (const Sheet& sheet : d.sheets)
    for (const Dimension& dim : sheet.dimensions)
      for (const double mm : worked_to) {
        if (std::abs(dim.length_mm - mm) > 1e-3) continue;
        EXPECT_EQ(dim.words, number_of(mm, true)) << sheet.name << " " << dim.length_mm;
        ++found;
      }
  EXPECT_GE(found, 6);
}

TEST(Sheets, PlanHasTheAlcovesTrueSize) {
  // Source: arithmetic: 72 + 2 x 3-1/2 in over the walls, 36 + 3-1/2 in front to back.
  double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9;
  for (const Line& l : all_jobs()[0].sheet("plan").lines) {
    if (l.kind != LineKind::outline) continue;
    for (const Point& p : {l.from, l.to})
      x0 = std::min(x0, p.x), x1 = std::max(x1, p.x), y0 = std::min(y0, p.y), y1 = std::max(y1, p.y);
  }
  EXPECT_NEAR((x1 - x0) / 25.4, 79, 1e-6);
  EXPECT_NEAR((y1 - y0) / 25.4, 39.5, 1e-6);
}

TEST(Sheets, PiecesThatAreNotPlainAreDrawnAtTheirSize) {
  // Source: the solids: of every such piece a line as long as it is, and its mark beside it.
  int drawn = 0;
  for (const Drawn& d : all_jobs())
    for (const takeoff::CutRow& cut : d.cuts) {
      if (cut.furring || (!cut.sheet && cut.ends == "square")) continue;
      ++drawn;
      int edges = 0, titles = 0;
      for (const Sheet& sheet : d.sheets) {
        if (sheet.name.rfind("cuts-shapes", 0) != 0) continue;
        for (const Line& l : sheet.lines)
          edges += l.kind == LineKind::outline && std::abs(l.from.y - l.to.y) < 1 &&
                   std::abs(std::abs(l.to.x - l.from.x) - cut.length_mm) < 2;
        for (const Text& t : sheet.texts) titles += t.words.rfind(cut.mark + "   ", 0) == 0;
      }
      EXPECT_GE(edges, 1) << d.name << " " << cut.mark << " " << cut.stock;
      EXPECT_EQ(titles, 1) << d.name << " " << cut.mark;
    }
  EXPECT_GE(drawn, 5);
}

TEST(PieceFiles, AreOneClosedLineFromTheOriginAndNothingElseThatCuts) {
  // Source: ezdxf reads them; the solid's own box and, as another way, the plan area of the piece as a bar: its volume
  // over its thickness (pieces here are bars and panels cut square through).
  int pieces = 0;
  for (const Drawn& d : all_jobs())
    for (const Sheet& sheet : d.sheets) {
      if (sheet.name.rfind("piece-", 0) != 0) continue;
      const takeoff::CutRow& cut = *std::find_if(
          d.cuts.begin(), d.cuts.end(), [&](const takeoff::CutRow& c) { return "piece-" + c.mark == sheet.name; });
      const sample::Folder folder{"piece"};
      exchange::write_dxf(sheet, folder / "p.dxf");
      const nlohmann::json file = sample::audited(folder / "p.dxf");
      EXPECT_EQ(file.at("layers").at("FW-CUT"), 1) << d.name << " " << sheet.name;
      ASSERT_EQ(file.at("closed").size(), 1u);
      EXPECT_FALSE(file.at("layers").contains("FW-OUTLINE"));
      const double unit = sheet.metric ? 1 : 25.4;
      double x0 = 1e300, y0 = 1e300, x1 = -1e300, y1 = -1e300, twice = 0;
      const auto& corners = file.at("closed")[0];
      for (std::size_t i = 0; i < corners.size(); ++i) {
        const double x = corners[i][0].get<double>() * unit, y = corners[i][1].get<double>() * unit;
        const auto& next = corners[(i + 1) % corners.size()];
        x0 = std::min(x0, x), x1 = std::max(x1, x), y0 = std::min(y0, y), y1 = std::max(y1, y);
        twice += x * next[1].get<double>() * unit - next[0].get<double>() * unit * y;
      }
      EXPECT_NEAR(x0, 0, 0.01);
      EXPECT_NEAR(y0, 0, 0.01);
      EXPECT_NEAR(x1, cut.length_mm, 0.02) << d.name << " " << sheet.name;
      EXPECT_NEAR(y1, cut.width_mm, 0.02) << d.name << " " << sheet.name;
      if (cut.sheet && cut.ends == "square") {
        EXPECT_NEAR(twice / 2, brep::volume_mm3(d.model->find(cut.part_ids.front())->shape) / cut.thickness_mm,
                    1e-4 * cut.length_mm * cut.width_mm);
      }
      ++pieces;
    }
  EXPECT_GE(pieces, 4);
}

/// Loops of lines, walked from end to end.
double area_of_loops(std::vector<Line> lines) {
  const auto near = [](Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y) < 0.02; };
  double total = 0;
  while (!lines.empty()) {
    std::vector<Point> loop{lines.back().from, lines.back().to};
    lines.pop_back();
    for (bool grown = true; grown;) {
      grown = false;
      for (std::size_t i = 0; i < lines.size() && !grown; ++i) {
        const bool forward = near(lines[i].from, loop.back());
        if (!forward && !near(lines[i].to, loop.back())) continue;
        loop.push_back(forward ? lines[i].to : lines[i].from);
        lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(i));
        grown = true;
      }
    }
    double twice = 0;
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Point &a = loop[i], &b = loop[(i + 1) % loop.size()];
      twice += a.x * b.y - b.x * a.y;
    }
    total += std::abs(twice) / 2;
  }
  return total;
}

TEST(Sections, CutTheSolidsOwnAreas) {
  // Source: the kernel's Boolean with a slab 0.02 mm thick, its volume over its thickness: another algorithm than the
  // section's. Solids whose cut is one loop or several beside each other.
  const Drawn& d = all_jobs()[0];
  const double y = 700, thin = 0.02;
  int compared = 0;
  for (const char* id : {"base", "seat-block", "bed", "bench-frame/deck", "bench-frame/top-plate", "subfloor"}) {
    const parts::Solid& solid = *d.model->find(id);
    const Projection seen = section(solid, gp_Pln{gp_Pnt{0, y, 0}, gp::DY()}, {gp_Dir{0, -1, 0}, gp::DX()});
    const TopoDS_Shape slab = BRepPrimAPI_MakeBox(gp_Pnt{-5000, y - thin / 2, -5000}, gp_Pnt{5000, y + thin / 2, 5000});
    const double expected = brep::volume_mm3(BRepAlgoAPI_Common(solid.shape, slab)) / thin;
    EXPECT_NEAR(area_of_loops(seen.lines) / expected, 1, 1e-4) << id;
    // The same out of the DXF, as ezdxf reads its lines, in square inches.
    const sample::Folder folder{"section"};
    exchange::write_dxf({"section", "Section", false, seen.lines}, folder / "s.dxf");
    std::vector<Line> read;
    const nlohmann::json file = sample::audited(folder / "s.dxf");
    for (const auto& l : file.at("lines"))
      read.push_back({{l[0].get<double>() * 25.4, l[1].get<double>() * 25.4},
                      {l[2].get<double>() * 25.4, l[3].get<double>() * 25.4}});
    EXPECT_NEAR(area_of_loops(read) / expected, 1, 1e-4) << id;
    ++compared;
  }
  EXPECT_EQ(compared, 6);
}

TEST(Sheets, MirroredJobMirrorsThePlanAndNotItsTexts) {
  // Source: symmetry: the base's outline lines of the right-hand job are those of the left-hand one, mirrored; the
  // title says the hand.
  const Drawn left = drawn(sample::alcove()), right = drawn(right_hand());
  const double width = left.model->job.alcove.width.in_mm();
  const auto has = [&](const Sheet& sheet, Point a, Point b) {
    const auto near = [](Point p, Point q) { return std::hypot(p.x - q.x, p.y - q.y) < 1e-3; };
    return std::any_of(sheet.lines.begin(), sheet.lines.end(), [&](const Line& l) {
      return (near(l.from, a) && near(l.to, b)) || (near(l.from, b) && near(l.to, a));
    });
  };
  int hips = 0;
  for (const Line& l : left.sheet("falls").lines) {
    if (l.kind != LineKind::outline || std::abs(l.from.x - l.to.x) < 1 || std::abs(l.from.y - l.to.y) < 1) continue;
    ++hips;
    EXPECT_TRUE(has(right.sheet("falls"), {width - l.from.x, l.from.y}, {width - l.to.x, l.to.y}));
  }
  EXPECT_EQ(hips, 4);
  const auto says = [](const Sheet& sheet, const std::string& words) {
    return std::any_of(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) { return t.words == words; });
  };
  for (const Sheet& sheet : left.sheets)
    EXPECT_TRUE(sheet.page.paper.width_mm <= 0 || says(sheet, "BENCH LEFT")) << sheet.name;
  for (const Sheet& sheet : right.sheets)
    EXPECT_TRUE(sheet.page.paper.width_mm <= 0 || says(sheet, "BENCH RIGHT")) << sheet.name;
}

TEST(Sheets, ALargeBoreIsTiledWithMarksInTheSharedStrips) {
  // Source: a 12 in bore is wider than a letter page: every degree of its circle is on some tile, each tile shares a
  // joining cross with another, has its own name, and both bars whole: any one print of several may be shrunk.
  job::Job job = sample::alcove();
  job.drain.bore = job::Length::inches(12);
  std::vector<Sheet> tiles;
  for (const Sheet& sheet : drawn(job).sheets)
    if (sheet.name.rfind("template", 0) == 0) tiles.push_back(sheet);
  ASSERT_GE(tiles.size(), 2u);
  std::set<int> degrees;
  std::set<std::string> names;
  for (const Sheet& tile : tiles) {
    for (const Text& text : tile.texts)
      if (text.words.rfind("page in row", 0) == 0) names.insert(text.words);
    int level = 0, upright = 0;  // 6 in of bar, whole
    for (const Line& l : tile.lines) {
      if (l.kind != LineKind::dimension) continue;
      level += std::abs(std::abs(l.to.x - l.from.x) - 152.4) < 1e-6;
      upright += std::abs(std::abs(l.to.y - l.from.y) - 152.4) < 1e-6;
    }
    EXPECT_EQ(level, 1) << tile.name;
    EXPECT_EQ(upright, 1) << tile.name;
  }
  EXPECT_EQ(names.size(), tiles.size());
  for (const Sheet& tile : tiles)
    for (const Arc& arc : tile.arcs)
      if (arc.radius > 100)
        for (double d = arc.from_deg; d < arc.to_deg - 0.5; d += 1)
          degrees.insert(static_cast<int>(std::lround(d)) % 360);
  EXPECT_EQ(degrees.size(), 360u);
}

TEST(Sheets, TheBoresCirclesAreTrueCircles) {
  // Source: the job's bore, 5 in.
  const Drawn& d = all_jobs()[0];
  for (const char* name : {"plan", "template"}) {
    const Sheet& sheet = d.sheet(name);
    EXPECT_TRUE(std::any_of(sheet.arcs.begin(), sheet.arcs.end(), [](const Arc& a) {
      return std::abs(a.radius - 2.5 * 25.4) < 1e-9 && a.to_deg - a.from_deg == 360;
    })) << name;
  }
}

}  // namespace
}  // namespace fallwright::drawing
