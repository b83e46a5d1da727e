// Threshold and back wall of a base that is built on site, larger: every height worked out by hand.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "brep/properties.hpp"
#include "drawing/site_shapes.hpp"
#include "drawing/steps.hpp"
#include "job/read.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

/// 1600 x 1000, level; the opening's front edge 500 from the entry, 400 before the threshold's inner face.
std::string liner_room() {
  return "[job]\nname = \"x\"\nunit = \"mm\"\n[floor]\nkind = \"slab\"\n[alcove]\nwidth = 1600\ndepth = 1000\n"
         "[survey]\nboard = 12\n[base]\nkind = \"site-built\"\nwaterproofing = \"liner\"\nrise = 16\ncover = 40\n"
         "[base.threshold]\nwidth = 100\nheight = 100\nfall = \"2 %\"\nfinish = 20\n[bed]\nleast = 30\ncollar = 0\n"
         "[liner]\nabove_threshold = 80\n"
         "[drain]\nsize = 100\nfrom_left = 800\nfrom_back = 450\nbody = 63\nrecess = 10\nbore = 90\n";
}

Drawn built_on_site(const std::string& text) {
  return drawn(job::read(text, "x.toml"), false);
}

bool has_site_sheet(const Drawn& d, const std::string& name) {
  return std::any_of(d.sheets.begin(), d.sheets.end(), [&](const Sheet& s) { return s.name == name; });
}

/// Whether a rung of the ladder leads from a height to words of it.
void expect_rung(const Sheet& sheet, double z, const std::string& words) {
  EXPECT_THAT(read_through(sheet), testing::HasSubstr(words));
  EXPECT_TRUE(std::any_of(sheet.lines.begin(), sheet.lines.end(),
                          [&](const Line& line) {
                            return line.kind == LineKind::dimension && std::abs(line.from.y - z) < 2e-3 &&
                                   std::abs(line.to.y - z) < 2e-3;
                          }))
      << words << " stands at no height of its own";
}

TEST(SiteSections, TellEveryHeightOfThresholdAndWall) {
  // Source: by hand: 30 of bed at the opening and 16 more at the rim; 16 over 400 is 4 more under the threshold of
  // 100, at the form. Top coat 40 on that; the drain's top at 70, the threshold 100 over it and 2 % of 100 higher at
  // its outer edge; rough 20 lower. The liner 80 over its highest, fasteners 25.4 over it, told upward.
  const Drawn d = built_on_site(liner_room());
  const Sheet& sheet = d.sheet("screed-sections");
  expect_rung(sheet, 0, "0  datum");
  expect_rung(sheet, 50, "50  top of the form");
  expect_rung(sheet, 46, "46  pre-slope at the inner face");
  expect_rung(sheet, 86, "86  top coat at the inner face");
  expect_rung(sheet, 170, "170  finished threshold, inner edge");
  expect_rung(sheet, 172, "172  finished threshold, outer edge");
  expect_rung(sheet, 150, "150  rough threshold, inner edge");
  expect_rung(sheet, 152, "152  rough threshold, outer edge");
  expect_rung(sheet, 46, "46  pre-slope at the wall");
  expect_rung(sheet, 86, "86  top coat at the wall");
  expect_rung(sheet, 252, "252  top of the liner");
  expect_rung(sheet, 197.4, "198  no fastener lower");
  for (const char* name : {"board, comes later", "stud ", "rough threshold ", "liner ", "form "})
    EXPECT_THAT(read_through(sheet), testing::HasSubstr(name));
  EXPECT_THAT(read_through(d.sheet("order-of-work")), testing::HasSubstr("its top 252 mm above the datum"));
}

TEST(SiteSections, HaveEveryHeightAsItIsLaidToItsMark) {
  // Source: by hand: at 4 Coopers Yard the line is 40 above the datum. What its marks have down from that, 36-29/32 of
  // the top coat, 38-13/32 of the pre-slope and 38-7/32 at the form, is 3-3/32, 1-19/32 and 1-25/32 above the datum,
  // and no sheet has it a 1/32 lower, as the solid has it.
  const Drawn d = drawn_demo("coopers-yard-4");
  const std::string sections = read_through(d.sheet("screed-sections"));
  for (const char* words :
       {"3-3/32  top coat at the inner face", "1-19/32  pre-slope at the inner face", "1-25/32  top of the form",
        "3-3/32  top coat at the wall", "1-19/32  pre-slope at the wall"})
    EXPECT_THAT(sections, testing::HasSubstr(words));
  for (const char* words : {"36-29/32", "(38-13/32)", "form 38-7/32"})
    EXPECT_THAT(read_through(d.sheet("screed")), testing::HasSubstr(words));
  EXPECT_THAT(read_through(d.sheet("drain")), testing::HasSubstr("3-3/32  rim"));
  EXPECT_THAT(read_through(d.sheet("story-stick")), testing::HasSubstr("3-3/32  rim"));
  EXPECT_THAT(read_through(d.sheet("order-of-work")), testing::HasSubstr("3-3/32\" above the datum: the top coat"));
}

TEST(SiteSections, TheCoatOnAThresholdIsNamedInIt) {
  // Source: common practice, no source: the largest thing of a detail has a name.
  const Drawn d = built_on_site(liner_room());
  const Sheet& sheet = d.sheet("screed-sections");
  const auto coats = std::count_if(sheet.texts.begin(), sheet.texts.end(),
                                   [](const Text& text) { return text.words.starts_with("top coat"); });
  EXPECT_EQ(coats, 2) << "one in either detail";
}

TEST(SiteSections, EveryWallTellsHowLowAFastenerMayGo) {
  // Source: by hand: the liner's top at 252, no fastener lower than 197.4, told upward; on walls as in the section.
  const Drawn d = built_on_site(liner_room());
  for (const char* name : {"wall-back", "wall-left", "wall-right"}) {
    const Sheet& wall = d.sheet(name);
    expect_rung(wall, 197.4, "198  no fastener lower");
    expect_rung(wall, 252, "252  top of the liner");
    EXPECT_TRUE(std::any_of(wall.lines.begin(), wall.lines.end(), [](const Line& line) {
      return line.kind == LineKind::limit && std::abs(line.from.y - 197.4) < 1e-6;
    })) << name;
  }
}

TEST(SiteSections, ShowNothingThatNobodySaid) {
  // Source: by hand: what a key says is drawn with it and not without it.
  std::string bare = liner_room();
  for (const char* key : {"finish = 20\n", "above_threshold = 80\n", "board = 12\n"})
    bare.erase(bare.find(key), std::string{key}.size());
  const Drawn d = built_on_site(bare);
  const std::string words = read_through(d.sheet("screed-sections"));
  for (const char* name : {"rough threshold,", "top of the liner", "board, comes later"})
    EXPECT_THAT(words, testing::Not(testing::HasSubstr(name)));
  EXPECT_THAT(d.sheet("screed-sections").notes, testing::Contains(testing::HasSubstr("is not said")).Times(3));
}

/// Level lines of dimensions that are so long, each with its words in the middle above it.
int dimensions_of(const Sheet& sheet, double long_mm, const std::string& words) {
  int found = 0;
  for (const Line& line : sheet.lines)
    for (const Text& text : sheet.texts)
      found += line.kind == LineKind::dimension && std::abs(line.from.y - line.to.y) < 1e-9 &&
               std::abs(std::abs(line.to.x - line.from.x) - long_mm) < 0.01 && text.words == words &&
               std::abs(text.at.x - (line.from.x + line.to.x) / 2) < 0.01 && text.at.y > line.from.y;
  return found;
}

TEST(SiteSections, TheLinerStandsBetweenStudsAndBoard) {
  // Source: by hand: from the right the stud's face, the liner before it up to 252, the board before that with its foot
  // over the top coat, which is 86 high there; finish 25 before the studs.
  std::string room = liner_room();
  room.replace(room.find("board = 12"), 10, "board = 12\nfinish = 25");
  const Drawn d = built_on_site(room);
  const Sheet& sheet = d.sheet("screed-sections");
  std::vector<double> liner, stud, board;
  for (const Line& line : sheet.lines) {
    if (std::abs(line.from.x - line.to.x) > 1e-6) continue;
    const double low = std::min(line.from.y, line.to.y), high = std::max(line.from.y, line.to.y);
    if (line.kind == LineKind::section && std::abs(high - 252) < 0.01) liner.push_back(line.from.x);
    if (line.kind == LineKind::phantom && high > 200) {
      board.push_back(line.from.x);
      EXPECT_NEAR(low, 86 + 3, 0.01) << "clear of the top coat";
    }
    if (line.kind == LineKind::outline && high > 200) stud.push_back(line.from.x);
  }
  ASSERT_TRUE(liner.size() == 1 && !stud.empty() && board.size() >= 3U);
  const double face = *std::min_element(stud.begin(), stud.end());
  EXPECT_LT(liner[0], face);
  EXPECT_LE(*std::max_element(board.begin(), board.end()), liner[0]);
  EXPECT_NEAR(*std::min_element(board.begin(), board.end()), face - 25, 0.01);
  EXPECT_EQ(dimensions_of(sheet, 25, "25 finish"), 1);
  EXPECT_THAT(read_through(sheet), testing::HasSubstr("top coat, 40 "));
}

TEST(SiteSections, TheLinerGoesOverAThresholdThatNobodyDescribed) {
  // Source: by hand: 100 wide; where nothing is said the rough one is shown a quarter of that in from each face, 25,
  // and as much below the tops at 170 and 172; the liner goes over its top, 50 long.
  std::string bare = liner_room();
  bare.erase(bare.find("finish = 20\n"), 12);
  const Drawn d = built_on_site(bare);
  const Sheet& sheet = d.sheet("screed-sections");
  EXPECT_THAT(read_through(sheet), testing::HasSubstr("threshold, build-up not said"));
  EXPECT_EQ(dimensions_of(sheet, 100, "100"), 1);
  const auto over = [&](LineKind kind, double least, double most) {
    return std::count_if(sheet.lines.begin(), sheet.lines.end(), [&](const Line& line) {
      const double wide = std::abs(line.to.x - line.from.x), y = (line.from.y + line.to.y) / 2;
      return line.kind == kind && wide > least && wide < most && y > 140 && y < 160;
    });
  };
  EXPECT_EQ(over(LineKind::phantom, 49.9, 50.1), 1);
  EXPECT_EQ(over(LineKind::section, 50.5, 60), 1) << "a little wider than what it goes over";
}

/// Section lines that run through the mortar of a bed, off its edges.
int lines_through_bed(const Sheet& sheet) {
  int through = 0;
  for (const Hatch& hatch : sheet.hatches) {
    if (std::string{hatch.material} != "mortar") continue;
    for (const Outline& ring : hatch.rings) {
      const auto [low, high] =
          std::minmax_element(ring.begin(), ring.end(), [](Point a, Point b) { return a.y < b.y; });
      const auto [left, right] =
          std::minmax_element(ring.begin(), ring.end(), [](Point a, Point b) { return a.x < b.x; });
      for (const Line& line : sheet.lines) {
        const Point at{(line.from.x + line.to.x) / 2, (line.from.y + line.to.y) / 2};
        through += line.kind == LineKind::section && at.x > left->x + 1 && at.x < right->x - 1 &&
                   at.y > low->y + 0.2 * (high->y - low->y) && at.y < low->y + 0.8 * (high->y - low->y);
      }
    }
  }
  return through;
}

TEST(SiteSections, TheLinerComesOntoTheFlangeAlongTheBedsTop) {
  // Source: common practice, no source: the liner lies on the pre-slope and comes onto the drain's flange; it goes
  // through no mortar, wherever the uneven floor puts the upright edge that the bed has round a round drain.
  for (const char* from_left : {"33", "29", "31-1/4"}) {
    const std::string room =
        "[job]\nname = \"x\"\nunit = \"in\"\n[drawings]\npaper = \"letter\"\n[alcove]\nwidth = 60\ndepth = 42\n"
        "[survey.floor]\ngrid_x = [2, 30, 58]\ngrid_y = [2, 20, 40]\n"
        "grid = [[0, 0.125, 0.25], [0.0625, 0.3125, 0.25], [0.125, 0.25, 0.375]]\n"
        "[base]\nkind = \"site-built\"\nwaterproofing = \"liner\"\nfall = \"1/4 in/ft\"\n"
        "[base.threshold]\nwidth = 4.5\nheight = 3\n[bed]\nleast = 0.75\n"
        "[drain]\nopening = \"round\"\nsize = 4\nfrom_left = \"" +
        std::string{from_left} + "\"\nfrom_front = 22\noutlet = 2\n";
    const Drawn d = built_on_site(room);
    const Sheet& sheet = d.sheet("drain-flange");
    EXPECT_THAT(read_through(sheet), testing::HasSubstr("liner "));
    EXPECT_EQ(lines_through_bed(sheet), 0) << from_left;
  }
}

TEST(SiteSections, StandOnlyWhereThereIsOne) {
  // Source: by hand: without a threshold the wall alone; on small paper each on its own sheet; of a bought base none.
  std::string open = liner_room();
  open.replace(open.find("width = 100\n"), 12, "width = 0\n");
  const Drawn wall = built_on_site(open), small = built_on_site(liner_room() + "[drawings]\npaper = \"a4\"\n");
  EXPECT_TRUE(has_site_sheet(wall, "screed-wall"));
  EXPECT_FALSE(has_site_sheet(wall, "screed-threshold") || has_site_sheet(wall, "screed-sections"));
  EXPECT_TRUE(has_site_sheet(small, "screed-wall") && has_site_sheet(small, "screed-threshold"));
  for (const char* name : {"screed-sections", "screed-wall", "screed-threshold"})
    EXPECT_FALSE(has_site_sheet(drawn_demo("chandlers-row-7"), name)) << name;
}

/// What shapes reach to of a room that has a bench somewhere too: x, y and z, least and greatest.
template <typename Make>
std::array<double, 6> reach_of(const Drawn& d, Make make) {
  const std::vector<takeoff::StockPlan> plan;
  const Subject subject{{d.facts, d.cuts, plan, d.rows, d.judgement}, *d.model};
  std::array<double, 6> all{1e9, 1e9, 1e9, -1e9, -1e9, -1e9};
  for (const TopoDS_Shape& shape : make(subject, job::Side::front)) {
    const auto box = brep::box_of(shape);
    for (std::size_t i = 0; i < 3; ++i)
      all[i] = std::min(all[i], box[i]), all[i + 3] = std::max(all[i + 3], box[i + 3]);
  }
  return all;
}
Drawn benched(const std::string& place, bool over_seat) {
  std::string text = liner_room() + "[bench]\nplace = \"" + place + "\"\ndepth = 350\nheight = 450\n";
  if (over_seat) text.replace(text.find("above_threshold"), 0, "above_seat = 75\n");
  return built_on_site(text);
}

TEST(SiteSections, ALinerOverASeatReachesItsOwnTopInPicturesAndIsToldBesideTheSection) {
  // Source: by hand: 75 over the seat's back edge, to the wall behind it; else 80 over the threshold, on the bench's
  // front. A picture's sheet lies 3 before what it covers.
  for (const char* place : {"left-end", "right-end", "back"}) {
    const Drawn over = benched(place, true), up = benched(place, false);
    const auto seat = part(over.facts, facts::Role::seat_block).bbox_mm,
               base = part(over.facts, facts::Role::base).bbox_mm;
    const auto high = reach_of(over, liner_turned_up), low = reach_of(up, liner_turned_up);
    const std::size_t behind = std::string{place} == "left-end" ? 0 : std::string{place} == "right-end" ? 3 : 4;
    EXPECT_NEAR(high[5], *over.facts.heights.seat_back_mm + 75, 1e-3) << place;
    EXPECT_NEAR(low[5], *up.facts.heights.threshold_greatest_mm + 80, 1e-3) << place;
    EXPECT_NEAR(high[behind], seat[behind], 3.01) << place;
    EXPECT_NEAR(low[behind], base[behind], 3.01) << place;
    if (behind == 4) continue;  // no wall to cut behind the base
    const auto notes = [](const Drawn& d) {
      std::string all;
      for (const std::string& note : d.sheet("screed-sections").notes) all += note + " ";
      return all;
    };
    EXPECT_THAT(notes(over), testing::HasSubstr("the liner's top is higher: ")) << place;
    EXPECT_THAT(notes(up), testing::Not(testing::HasSubstr("the liner's top is higher"))) << place;
  }
}

TEST(SiteSections, WallBoardHangsBehindABench) {
  // Source: by hand: on the wall, 6 before its face in the picture, and not at the base's edge before the bench.
  const Drawn d = benched("back", false);
  EXPECT_NEAR(reach_of(d, boards_of)[4], part(d.facts, facts::Role::seat_block).bbox_mm[4] - 6, 0.01);
}

/// Which step has each of these words first.
std::vector<std::size_t> turns_of(const Drawn& d, const std::vector<std::string>& words) {
  const auto steps = steps_of(d.model->job, {d.facts, d.cuts, {}, d.rows, d.judgement});
  std::vector<std::size_t> turns;
  for (const std::string& some : words) {
    const auto at =
        std::find_if(steps.begin(), steps.end(), [&](const Step& s) { return s.what.find(some) != std::string::npos; });
    EXPECT_NE(at, steps.end()) << some;
    turns.push_back(static_cast<std::size_t>(at - steps.begin()));
  }
  return turns;
}

TEST(SiteSections, ASeatStandsBeforeWhatGoesOverIt) {
  // Source: common practice, no source: what waterproofing is carried over stands before it, and nothing is glued
  // through it; a seat whose apron hangs over the liner's top comes after that.
  const std::string seat = "Adhesive on every face";
  for (const char* place : {"left-end", "back"}) {
    for (const bool over_seat : {true, false}) {
      const auto turns = turns_of(benched(place, over_seat), {seat, "Liner on the set pre-slope"});
      EXPECT_EQ(turns[0] < turns[1], over_seat) << place;
    }
    std::string text = liner_room() + "[bench]\nplace = \"" + place + "\"\ndepth = 350\nheight = 450\n";
    text.replace(text.find("\"liner\""), 7, "\"bonded\"");
    text.replace(text.find("[liner]\nabove_threshold = 80\n"), 29, "");
    const auto turns = turns_of(built_on_site(text), {seat, "Wall board", "Membrane bonded"});
    EXPECT_TRUE(turns[0] < turns[1] && turns[1] < turns[2]) << place;
  }
}

TEST(SiteSections, TheBenchsSectionSaysWhereTheLinerGoes) {
  // Source: the order of work.
  const auto notes = [](const Drawn& d) {
    std::string all;
    for (const std::string& note : d.sheet("bench-section").notes) all += note + " ";
    return all;
  };
  EXPECT_THAT(notes(benched("left-end", true)), testing::HasSubstr("over the seat block, which is fixed before it"));
  EXPECT_THAT(notes(benched("left-end", false)), testing::HasSubstr("the seat block comes after it"));
}

}  // namespace
}  // namespace fallwright::drawing
