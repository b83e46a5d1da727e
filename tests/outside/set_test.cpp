/// The set as a whole, of the demo jobs, of rooms nobody listed, and on the small papers: what a checker measures on
/// each sheet.
#include <cmath>
#include <map>
#include <set>

#include <gtest/gtest.h>

#include "drawing/clear.hpp"
#include "drawing/hatch.hpp"
#include "drawing/title_block.hpp"
#include "outside/drawn.hpp"
#include "units/length.hpp"

namespace fallwright::drawing {
namespace {

bool has_page(const Sheet& sheet) {
  return sheet.page.paper.width_mm > 0;
}

TEST(Set, CapitalsAreLargeEnoughToReadOnSite) {
  // Source: the set's own rule: nothing under 2.5 mm on paper, dimensions 3 mm.
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      if (!has_page(sheet)) continue;
      for (const Text& t : sheet.texts)
        EXPECT_GE(t.height / sheet.page.scale, 2.5 - 1e-9) << d.name << " " << sheet.name << " '" << t.words << "'";
      for (const Dimension& dim : sheet.dimensions)
        if (dim.picture && dim.chain != 0) {
          EXPECT_NEAR(sheet.texts[dim.picture->text].height / sheet.page.scale, 3, 1e-9) << d.name << " " << sheet.name;
        }
    }
}

TEST(Set, NoTwoTextsMeet) {
  // Source: common practice, no source: a number printed over a number is a wrong cut.
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets)
      for (std::size_t i = 0; i < sheet.texts.size(); ++i)
        for (std::size_t k = i + 1; k < sheet.texts.size(); ++k)
          EXPECT_FALSE(meet(sheet.texts[i], sheet.texts[k]))
              << d.name << " " << sheet.name << ": '" << sheet.texts[i].words << "' and '" << sheet.texts[k].words
              << "'";
}

TEST(Set, NothingReachesOverTheBorder) {
  // Source: the set's own page: a binding edge of 20 mm at the left and 10 elsewhere; only centring marks stand out.
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      if (!has_page(sheet)) continue;
      const Page& page = sheet.page;
      const auto in = [&](double x, double y, double more) {
        const double u = (x - page.corner.x) / page.scale, v = (y - page.corner.y) / page.scale;
        return u > 20 - more && v > 10 - more && u < page.paper.width_mm - 10 + more &&
               v < page.paper.height_mm - 10 + more;
      };
      for (const Line& l : sheet.lines) {
        const double more = l.kind == LineKind::frame ? 2.6 : 0.01;
        EXPECT_TRUE(in(l.from.x, l.from.y, more) && in(l.to.x, l.to.y, more)) << d.name << " " << sheet.name;
      }
      for (const Text& t : sheet.texts) {
        const Box b = box_of(t);
        EXPECT_TRUE(in(b.x0, b.y0, 0) && in(b.x1, b.y1, 0)) << d.name << " " << sheet.name << " '" << t.words << "'";
      }
    }
}

TEST(Set, DrawingsKeepOutOfTheStripOfNotesAndTitle) {
  // Source: the page's own layout: the strip along its foot is as high as its line across the page.
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      if (!has_page(sheet)) continue;
      const Page& page = sheet.page;
      const double top = page.corner.y + (10 + strip_of(sheet, page.paper)) * page.scale;
      for (const Dimension& dim : sheet.dimensions)
        if (dim.picture) {
          EXPECT_GT(dim.picture->line_at.y, top) << d.name << " " << sheet.name << " " << dim.words;
        }
      for (const MemberMark& mark : sheet.members)
        EXPECT_GT(sheet.texts[mark.text].at.y, top) << d.name << " " << sheet.name << " " << mark.mark;
    }
}

TEST(Set, ScalesStandOnTheRulesThatAreSold) {
  // Source: common practice, no source: 1, 2, 5, 10, 20 of metric scales and 50 for what is long; 12, 6, 3, 1-1/2, 1,
  // 3/4, 1/2 and, for that, 3/8 and 1/4 in to the foot.
  const std::set<double> metric{1, 2, 5, 10, 20, 50}, inches{1, 2, 4, 8, 12, 16, 24, 32, 48};
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets)
      if (has_page(sheet) && sheet.to_scale) {
        EXPECT_TRUE((sheet.metric ? metric : inches).contains(sheet.page.scale))
            << d.name << " " << sheet.name << " 1:" << sheet.page.scale;
      }
}

TEST(Set, IsOnOnePaper) {
  // Source: by the job; what is at full size alone is for any printer.
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      if (!has_page(sheet)) continue;
      const Paper& paper = sheet.own_bars ? office_paper(d.model->job) : paper_of(d.model->job);
      EXPECT_STREQ(sheet.page.paper.name, paper.name) << d.name << " " << sheet.name;
    }
}

double read_back(const std::string& words, bool metric) {
  std::string why;
  return units::parse_length(words, metric ? units::LengthUnit::mm : units::LengthUnit::inch, why)->in_mm();
}

TEST(Set, ChainsAddUpAsPrinted) {
  // Source: arithmetic on the printed words: a framer adds them up.
  int chains = 0;
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      std::map<int, double> sums;
      for (const Dimension& dim : sheet.dimensions)
        if (dim.chain > 0) sums[dim.chain] += read_back(dim.words, sheet.metric);
      for (const Dimension& dim : sheet.dimensions) {
        if (dim.chain >= 0) continue;
        ++chains;
        EXPECT_NEAR(sums.at(-dim.chain), read_back(dim.words, sheet.metric), 1e-6) << d.name << " " << sheet.name;
      }
    }
  EXPECT_GE(chains, at_least(20));
}

TEST(Set, AFramesCoursesAndTheHeightsOfTheirEndsAddUpAsPrinted) {
  // Source: arithmetic on the printed words: from one height to the next is the course between them.
  int benches = 0;
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      if (sheet.name != "bench-front") continue;
      std::vector<double> heights;
      for (std::size_t i = 0; i < sheet.texts.size(); ++i) {
        Text text = sheet.texts[i];
        // In a table under the view the height at the left end, where the chain is, stands behind the name.
        if (i + 1 < sheet.texts.size() &&
            (text.words.rfind("top of the ", 0) == 0 || text.words.rfind("underside of the ", 0) == 0))
          text.words = sheet.texts[i + 1].words + "  " + text.words;
        const std::size_t name = text.words.find("  ");
        const bool height =
            text.words.find("  top of the ") == name || text.words.find("  underside of the ") == name ||
            text.words.find("  sole plate's foot") == name || text.words.find("  sole track's foot") == name;
        if (name == std::string::npos || !height) continue;
        const std::size_t below = text.words.find(" below");  // the datum
        const std::string number = text.words.substr(0, std::min(name, below));
        if (number.find(' ') != std::string::npos) continue;  // notes name them too
        heights.push_back((below < name ? -1 : 1) * read_back(number, sheet.metric));
      }
      std::sort(heights.begin(), heights.end());
      int last = 0;  // the ladder's names are those of the chain at its end, drawn after the other's
      for (const Dimension& dim : sheet.dimensions) last = std::max(last, dim.chain);
      std::vector<double> courses;
      for (const Dimension& dim : sheet.dimensions)
        if (dim.chain == last) courses.push_back(read_back(dim.words, sheet.metric));
      ASSERT_EQ(heights.size(), courses.size() + 1) << d.name;
      for (std::size_t i = 0; i < courses.size(); ++i)
        EXPECT_NEAR(heights[i + 1] - heights[i], courses[i], 1e-6) << d.name << " course " << i;
      ++benches;
    }
  EXPECT_GE(benches, at_least(4));
}

TEST(Set, EachRunningDimensionBeginsAtTheSignOfItsOrigin) {
  // Source: the set's own rule: a row of running lengths begins at a circle of 2.4 to 3.2 mm on paper, where the tape
  // is hooked, and its line reaches from there to every number; what has O beside it runs from O.
  int rows = 0, from_o = 0;
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets)
      for (const Dimension& dim : sheet.dimensions) {
        if (!dim.running) continue;
        ASSERT_TRUE(dim.picture) << d.name << " " << sheet.name;
        const Dimension::Picture& picture = *dim.picture;
        const bool upright = picture.turn_deg != 0;
        const Point hook = upright ? Point{picture.line_at.x, dim.from.y} : Point{dim.from.x, picture.line_at.y};
        const double scale = sheet.page.scale, near = 0.05 * scale;
        const auto is_at = [&](Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y) < near; };
        EXPECT_TRUE(std::any_of(sheet.arcs.begin(), sheet.arcs.end(),
                                [&](const Arc& arc) {
                                  const double across = 2 * arc.radius / scale;
                                  return is_at(arc.centre, hook) && arc.to_deg - arc.from_deg == 360 && across >= 2.4 &&
                                         across <= 3.2;
                                }))
            << d.name << " " << sheet.name << " " << dim.words;
        EXPECT_TRUE(std::any_of(sheet.lines.begin(), sheet.lines.end(),
                                [&](const Line& line) {
                                  const double length = std::hypot(line.to.x - line.from.x, line.to.y - line.from.y),
                                               far = std::hypot(picture.line_at.x - hook.x, picture.line_at.y - hook.y);
                                  const double along =
                                      upright ? std::abs(line.to.x - line.from.x) : std::abs(line.to.y - line.from.y);
                                  const bool toward = (line.to.x - hook.x) * (picture.line_at.x - hook.x) +
                                                          (line.to.y - hook.y) * (picture.line_at.y - hook.y) >=
                                                      0;
                                  return is_at(line.from, hook) && along < near && length > far - near && toward;
                                }))
            << d.name << " " << sheet.name << " " << dim.words;
        ++rows;
        const auto named = std::any_of(sheet.texts.begin(), sheet.texts.end(), [&](const Text& t) {
          return t.words == "O" && std::hypot(t.at.x - hook.x, t.at.y - hook.y) < 5 * scale;
        });
        const bool on_wall = sheet.name == "wall-back" || sheet.name == "wall-left";
        if (on_wall) {
          EXPECT_TRUE(named) << d.name << " " << sheet.name;
        }
        if (!named) continue;
        ++from_o;
        const bool on_bench = sheet.name == "bench-plan" || sheet.name == "bench-front";
        EXPECT_TRUE(on_wall || on_bench || sheet.name.starts_with("plan")) << d.name << " " << sheet.name;
        const double depth = d.model->job.alcove.depth.in_mm();
        if (on_bench) {  // its frame's end stands at the studs there, to half a mark
          const bool back = d.model->job.bench->place == job::Side::back;
          EXPECT_NEAR(upright ? dim.from.y : dim.from.x, back ? 0 : depth, d.model->job.mark_mm() / 2 + 1e-6)
              << d.name << " " << sheet.name;
        } else if (!on_wall) {
          EXPECT_NEAR(upright ? dim.from.y : dim.from.x, upright ? depth : 0, 1e-6) << d.name << " " << sheet.name;
        }
      }
  EXPECT_GE(rows, at_least(100));
  EXPECT_GE(from_o, at_least(20));
}

TEST(Set, EveryMemberOfAWallHasItsMarkOnIt) {
  // Source: the cut list: studs, plates and blocking that are new; each is seen from the room.
  int members = 0;
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      if (sheet.name.rfind("wall-", 0) != 0) continue;
      std::map<std::string, std::size_t> wanted, found;
      for (const takeoff::CutRow& cut : d.cuts)
        for (const std::string& id : cut.part_ids)
          if (!cut.furring && id.rfind(sheet.name + "/", 0) == 0) ++wanted[cut.mark], ++members;
      for (const MemberMark& mark : sheet.members) ++found[mark.mark];
      EXPECT_EQ(wanted, found) << d.name << " " << sheet.name;
    }
  EXPECT_GE(members, at_least(100));
}

TEST(Set, TheCoverListsEverySheetByItsCode) {
  // Source: the set itself: codes are distinct, the cover comes first, and each line of its index leads to its sheet.
  for (const Drawn& d : sets()) {
    std::set<std::string> codes, listed, tiles;
    std::string last;  // tiles of one drawing share the line of the first
    for (const Sheet& sheet : d.sheets) {
      const bool next_tile = sheet.own_bars && sheet.title == last;
      last = sheet.title;
      if (next_tile) tiles.insert(sheet.code);
      if (has_page(sheet) && !next_tile) {
        EXPECT_TRUE(codes.insert(sheet.code).second) << d.name << " " << sheet.code << " twice";
      }
    }
    ASSERT_EQ(d.sheets.front().name, "cover");
    for (const Sheet& sheet : d.sheets)
      for (const Text& t : sheet.texts)
        if (!t.leads_to.empty() && !tiles.count(t.leads_to)) listed.insert(t.leads_to);
    EXPECT_EQ(listed, codes) << d.name;
    for (const Sheet& sheet : d.sheets)
      for (const Text& t : sheet.texts) EXPECT_EQ(t.words.find('{'), std::string::npos) << sheet.name << t.words;
  }
}

TEST(Set, EverySectionIsMarkedOnThePlan) {
  // Source: the set itself: a section's letter stands on the plan at both ends of its plane; that of a stud over it on
  // its wall.
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      if (!sheet.sight || sheet.sight->letter.empty()) continue;
      const auto& wall = sheet.sight->wall;
      const Sheet& plan = d.sheet(wall ? "wall-" + std::string{job::name_of(*wall)} : "plan");
      const auto letters = std::count_if(plan.texts.begin(), plan.texts.end(),
                                         [&](const Text& t) { return t.words == sheet.sight->letter; });
      EXPECT_GE(letters, wall ? 1 : 2) << d.name << " " << sheet.name;
      EXPECT_NE(sheet.title.find(sheet.sight->letter + "-" + sheet.sight->letter), std::string::npos) << sheet.title;
    }
}

TEST(Set, EveryLetterOnThePlanHasItsSection) {
  // Source: the set itself: what is marked on the plan as cut is drawn on some sheet as "section X-X".
  int marks = 0;
  for (const Drawn& d : sets())
    for (const Text& mark : d.sheet("plan").texts) {
      const bool is_letter = mark.words.size() == 1 && mark.height > 4.9 * d.sheet("plan").page.scale;
      if (!is_letter) continue;
      ++marks;
      const std::string section = "ection " + mark.words + "-" + mark.words;
      const bool drawn = std::any_of(d.sheets.begin(), d.sheets.end(), [&](const Sheet& sheet) {
        return sheet.title.find(section) != std::string::npos ||
               std::any_of(sheet.texts.begin(), sheet.texts.end(),
                           [&](const Text& t) { return t.words.find(section) != std::string::npos; });
      });
      EXPECT_TRUE(drawn) << d.name << " " << mark.words;
    }
  EXPECT_GE(marks, at_least(10));
}

TEST(Set, HatchesCoverWhatIsCut) {
  // Source: closed form: a square with a square hole; and every hatch of the sets lies in some rings.
  Sheet sheet;
  const std::vector<Outline> rings{{{0, 0}, {40, 0}, {40, 40}, {0, 40}}, {{10, 10}, {20, 10}, {20, 20}, {10, 20}}};
  EXPECT_NEAR(area_within(rings), 1600 - 100, 1e-9);
  fill(sheet, {rings, "ANSI31", {{0, 0, 1}}}, 1);
  double length = 0;  // lines 1 apart cover the area
  for (const Line& line : sheet.lines) length += std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
  EXPECT_NEAR(length, 1500, 45);
  int hatches = 0;
  for (const Drawn& d : sets())
    for (const Sheet& s : d.sheets)
      for (const Hatch& hatch : s.hatches) {
        ++hatches;
        EXPECT_GT(area_within(hatch.rings), 0) << d.name << " " << s.name;
        EXPECT_GT(hatch.last_line, hatch.first_line) << d.name << " " << s.name;
      }
  EXPECT_GE(hatches, at_least(50));
}

TEST(Set, MortarIsFilledWhereverASectionShowsIt) {
  // Source: by hand: section C-C of a surveyed room ran within a rib's side, where nothing that is cut closes; the bed
  // under the threshold then stood empty.
  int sections = 0;
  for (const Drawn& d : sets()) {
    const job::Base& base = d.model->job.base;
    if (base.threshold.width.is_zero() || base.is_site_built()) continue;
    const auto filled = std::any_of(d.sheets.begin(), d.sheets.end(), [](const Sheet& sheet) {
      return (sheet.name == "bed" || sheet.name == "bed-threshold") &&
             std::any_of(sheet.hatches.begin(), sheet.hatches.end(),
                         [](const Hatch& hatch) { return std::string{hatch.name} == "SAND"; });
    });
    EXPECT_TRUE(filled) << d.name;
    ++sections;
  }
  EXPECT_GE(sections, at_least(1));
}

/// Lengths, members' marks, heads of tables and titles of details that a set tells.
std::set<std::string> told_by(const Drawn& d) {
  std::set<std::string> told;
  for (const Sheet& sheet : d.sheets) {
    for (const Dimension& dim : sheet.dimensions) told.insert(dim.words);
    for (const MemberMark& mark : sheet.members) told.insert("mark " + mark.mark);
    for (const Text& t : sheet.texts) {
      const bool head = t.words == "fastening" || t.words == "ends" || t.words == "plane" || t.words == "to the ribs";
      const bool detail = sheet.to_scale && t.words.size() > 3 && std::isdigit(t.words[0]) && t.words[1] == ' ' &&
                          t.words.find(", 1:") != std::string::npos;
      if (head) told.insert(t.words);
      if (detail) told.insert(t.words.substr(3, t.words.find(", 1:") - 3));
    }
  }
  return told;
}

TEST(Set, SmallPaperTellsWhatTheFullSetTells) {
  // Source: the set's own promise: laid out anew for an office printer, with nothing left out.
  for (const auto& [name, paper] :
       {std::pair{"ferry-steps-3", job::PaperSize::letter}, {"tannery-lane-5c", job::PaperSize::a4}}) {
    const Drawn& full = *std::find_if(all_jobs().begin(), all_jobs().end(),
                                      [&](const Drawn& d) { return d.model->job.name == demo_on(name, paper).name; });
    const std::set<std::string> large = told_by(full), small = told_by(drawn(demo_on(name, paper), false));
    for (const std::string& words : large) EXPECT_TRUE(small.contains(words)) << name << ": '" << words << "'";
    EXPECT_TRUE(large.contains("Drain in its bore")) << name;
    EXPECT_TRUE(large.contains("fastening")) << name;
  }
}

TEST(Set, ALongNameKeepsItsEnd) {
  // Source: what tells one flat from another stands at the end of a job's name.
  job::Job job = sample::alcove();
  job.name =
      "The Old Tannery Buildings beside the Upper Weir, second staircase on the left, third floor, conversion of "
      "the former drying loft into dwellings, bath beside the lift, flat 27B";
  for (const job::PaperSize paper : {job::PaperSize::tabloid, job::PaperSize::letter}) {
    job.drawings.paper = paper;
    std::vector<Sheet> sheets{{"plan", "Set-out plan"}};
    sheets[0].page = {paper_of(job), 1, {}};
    add_title_blocks(sheets, {job, {}});
    EXPECT_TRUE(std::any_of(sheets[0].texts.begin(), sheets[0].texts.end(),
                            [](const Text& t) { return t.words.starts_with("The Old Tannery"); }));
    EXPECT_TRUE(std::any_of(sheets[0].texts.begin(), sheets[0].texts.end(),
                            [](const Text& t) { return t.words.ends_with("flat 27B"); }));
  }
}

}  // namespace
}  // namespace fallwright::drawing
