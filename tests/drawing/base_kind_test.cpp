// The sheets of a base that is built on site, and of one that was bought: no words of another kind, work in the order
// in which it can be done, and figures that can be told apart.
#include <algorithm>
#include <cctype>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/pen.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"
#include "rules/flood.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

const Drawn& over_liner() {
  static const Drawn d = drawn_demo("coopers-yard-4");
  return d;
}
const Drawn& under_membrane() {
  static const Drawn d = drawn_demo("coopers-yard-9");
  return d;
}
const Drawn& bought() {
  static const Drawn d = drawn_demo("chandlers-row-7");
  return d;
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// All words of a sheet in one line, in the order they were written.
std::string words_of(const Sheet& sheet) {
  std::string all;
  for (const Text& t : sheet.texts) all += t.words + " ";
  for (const std::string& note : sheet.notes) all += note + " ";
  return all;
}

void expect_order(const Drawn& d, const std::vector<std::string>& steps) {
  const std::string all = words_of(d.sheet("order-of-work"));
  std::size_t last = 0;
  for (const std::string& step : steps) {
    const std::size_t at = all.find(step, last);
    EXPECT_NE(at, std::string::npos) << step << " is not there, or too early, in: " << all;
    if (at != std::string::npos) last = at;
  }
}

TEST(SiteBuiltSheets, StudsOfItsWallsStandWhereTheirSolidsDo) {
  // Source: the solids' boxes. Nothing is brought out to mortar, but studs are to be found all the same.
  for (const Drawn* d : {&over_liner(), &under_membrane()}) {
    const auto& studs = d->facts.room.studs;
    std::size_t on_walls = 0;
    for (const facts::Part& part : d->facts.parts) {
      if (part.id.rfind("wall-", 0) != 0 || !has(part.id, "/stud-")) continue;
      ++on_walls;
      const auto known = std::find_if(studs.begin(), studs.end(), [&](const auto& s) { return s.part_id == part.id; });
      ASSERT_NE(known, studs.end()) << part.id;
      const auto& b = part.bbox_mm;
      const double middle =
          known->wall == job::Side::back ? (b[0] + b[3]) / 2 : d->model->job.alcove.depth.in_mm() - (b[1] + b[4]) / 2;
      EXPECT_NEAR(known->running_mm, middle, 2) << part.id << ": a wall out of square shows its sides";
      EXPECT_TRUE(known->stands_alone()) << part.id;
    }
    EXPECT_GE(on_walls, 12u);
    for (const char* wall : {"wall-back", "wall-left", "wall-right"}) {
      const double scale = d->sheet(wall).page.scale;
      EXPECT_TRUE(scale == 12 || scale == 16 || scale == 20) << wall << " at 1:" << scale;
    }
  }
}

TEST(SiteBuiltSheets, TheWorkStandsInTheOrderInWhichItCanBeDone) {
  // Source: common practice, no source: what turns up behind a board stands before it, what is bonded to it after; a
  // lining is tested before anything covers it; a drain's lower part cannot be set under mortar that lies.
  // By the solids: the bed lies under the threshold too.
  expect_order(over_liner(), {"Set the drain's lower part", "Set a form along the entry", "Pack the pre-slope",
                              "Build the threshold", "Liner on the set pre-slope", "Flood test of the liner",
                              "Wall board in front of the liner", "then the top coat", "Waterproof the walls", "Tile"});
  expect_order(under_membrane(), {"Set the drain's lower part", "Set a form along the entry", "Pack the sloped bed",
                                  "Build the threshold", "Wall board", "Membrane bonded", "Flood test", "Tile"});
}

TEST(SiteBuiltSheets, TheRoughThresholdIsToldToWhoeverBuildsIt) {
  // Source: closed form: the solid's top less what is laid on it. 15 mm of tile and bond under a membrane; over a liner
  // the job has to say it.
  const facts::Heights& h = under_membrane().facts.heights;
  const std::string inner = number_of(*h.threshold_least_mm - 15, true),
                    outer = number_of(*h.threshold_greatest_mm - 15, true);
  for (const char* name : {"order-of-work", "screed"})
    for (const std::string& words : {"rough top " + inner, outer + " mm (outer)", std::string{"100 mm wide"}})
      EXPECT_TRUE(has(words_of(under_membrane().sheet(name)), words)) << name << ": " << words;
  EXPECT_TRUE(has(words_of(over_liner().sheet("screed")), "which the job does not say"));
  EXPECT_FALSE(has(words_of(over_liner().sheet("screed")), "rough top"));
  job::Job said = demo("coopers-yard-4");
  said.base.threshold.finish = job::Length::inches(1);
  const Drawn d = drawn(said, false);
  EXPECT_TRUE(
      has(words_of(d.sheet("screed")), "rough top " + number_of(*d.facts.heights.threshold_least_mm - 25.4, false)));
  said.base.threshold.width = {};
  const Drawn none = drawn(said, false);
  for (const char* name : {"order-of-work", "screed"})
    for (const char* words : {"Build the threshold", "Threshold: ", "rough top"})
      EXPECT_FALSE(has(words_of(none.sheet(name)), words)) << name << ": " << words;
}

TEST(SiteBuiltSheets, TheScreedSheetSaysTheFallThatTheFallsSheetSendsTo) {
  // Source: the job's own fall, 1/4 in/ft.
  EXPECT_TRUE(has(words_of(over_liner().sheet("screed")), "Falls to the drain: 1/4 in/ft (1:48)"));
}

TEST(Sheets, ABedForTwoLiftsSaysSoWhereItIsLaid) {
  // Source: the caution itself; a bed that is thin enough says nothing.
  for (const Drawn* d : {&over_liner(), &under_membrane(), &bought()}) {
    const bool asked = std::any_of(
        d->judgement.results.begin(), d->judgement.results.end(),
        [](const rules::Result& r) { return r.id == "bed.greatest" && r.outcome == rules::Outcome::caution; });
    EXPECT_EQ(asked, d != &bought()) << d->name;
    for (const char* name : {"order-of-work", d == &bought() ? "bed" : "screed"})
      EXPECT_EQ(has(words_of(d->sheet(name)), "two lifts where it lies thicker than"), asked)
          << d->name << ", " << name;
  }
}

TEST(Sheets, TheFirstStepCountsCautionsToo) {
  // Source: the judgement.
  using rules::Outcome;
  for (const Drawn* d : {&over_liner(), &under_membrane(), &bought()}) {
    const auto n = [&](Outcome outcome) { return rules::count(d->judgement.results, outcome); };
    const auto fails = n(Outcome::fail);
    expect_order(*d,
                 {(fails == 0 ? "no" : std::to_string(fails)) + std::string{" check"},
                  std::to_string(n(Outcome::caution)) + " ", "caution", std::to_string(n(Outcome::not_checked)) + " "});
  }
}

TEST(SiteBuiltSheets, AFloodTestOverALinerFillsTheTopCoatsPlaceToo) {
  // Source: closed form: a top coat of one thickness takes that over the floor inside the threshold; 1-1/2 in.
  const facts::Flood& flood = over_liner().facts.flood;
  const double mm3 = flood.dips.back().volume_mm3 + 1.5 * 25.4 * flood.plan_mm2;
  expect_order(over_liner(), {"Flood test of the liner", units::water_text(mm3, false)});
}

TEST(SiteBuiltSheets, AFloodTestIsReadFromTheFlangeUpToTheRoughThreshold) {
  // Source: closed form: the waterproofing lies as far below the finished floor as what covers it is thick, so that
  // water so high above the flange is what it would be above the drain; under a membrane the rough threshold is 15 mm
  // lower, over a liner the job has to say it. Above the finished rim each more millimetre is one over the whole plan.
  const auto table = [](const Drawn& d) { return rules::flood_table(d.model->job, d.facts, d.judgement.results); };
  const Drawn& tiled = under_membrane();
  const rules::FloodTable membrane = table(tiled);
  ASSERT_TRUE(membrane.on_flange && membrane.rough);
  EXPECT_NEAR(membrane.dips.back().above_drain_mm,
              *tiled.facts.heights.threshold_least_mm - 15 - tiled.facts.site_built->flange_top_mm, 1e-6);
  EXPECT_NEAR(membrane.dips.front().volume_mm3, tiled.facts.flood.dips.front().volume_mm3,
              0.02 * tiled.facts.flood.plan_mm2)
      << "5 mm above the flange";
  for (const char* words : {"flood test: above flange", "rough threshold: it spills", "It comes before the tile"})
    EXPECT_TRUE(has(words_of(tiled.sheet("inspection")), words)) << words;
  expect_order(tiled, {"Flood test of the membrane", "up to the rough threshold", "above the drain's flange"});

  EXPECT_THAT(table(over_liner()).unknown, testing::HasSubstr("nobody said"));
  EXPECT_TRUE(has(words_of(over_liner().sheet("inspection")), "it spills lower, at the rough one's top"));
  EXPECT_FALSE(has(words_of(over_liner().sheet("inspection")), "base.threshold")) << "a key of the job file";
  job::Job said = demo("coopers-yard-4");
  said.base.threshold.finish = job::Length::inches(1);
  const Drawn d = drawn(said, false);
  const rules::FloodTable liner = table(d);
  ASSERT_TRUE(liner.rough && liner.unknown.empty());
  const double end = *d.facts.heights.threshold_least_mm - 25.4 - d.facts.site_built->flange_top_mm;
  EXPECT_NEAR(liner.dips.back().above_drain_mm, end, 1e-6);
  const facts::Dip& finished = d.facts.flood.dips.back();
  EXPECT_NEAR(liner.dips.back().volume_mm3,
              finished.volume_mm3 + (end - finished.above_drain_mm) * d.facts.flood.plan_mm2,
              0.2 * d.facts.flood.plan_mm2);
}

TEST(OrderOfWork, TellsTheBoreFromAFaceThatStandsThere) {
  // Source: by hand: 24 from the right stud face, where no left wall stands; where no side wall does, 24 from where the
  // back wall ends. The drain's place was typed.
  for (const char* walls : {"[\"back\", \"right\"]", "[\"back\"]"}) {
    const Drawn d = drawn(
        job::read(
            "[job]\nname = \"x\"\nunit = \"in\"\n[alcove]\nwidth = 48\ndepth = 36\nwalls = " + std::string{walls} +
                "\n[base]\nlength = 48\nwidth = 36\nfall = \"1/4 in/ft\"\n[base.upstands]\nsides = [\"back\"]\n"
                "[base.threshold]\nwidth = 0\n[drain]\nsize = 4\nfrom_right = 24\nfrom_back = 18\n[bed]\n"
                "bag_yield = \"0.45 ft3\"\n",
            "x.toml"),
        false);
    const bool right = d.model->job.alcove.has_wall(job::Side::right);
    const std::string wanted = std::string{"centre 24\" from the "} +
                               (right ? "right stud face" : "back wall's left end") + ", 18\" from the back";
    EXPECT_TRUE(has(words_of(d.sheet("order-of-work")), wanted)) << walls << words_of(d.sheet("order-of-work"));
  }
}

TEST(OrderOfWork, AsksForADamWhereNothingHoldsTheTestsWater) {
  // Source: by hand: a channel at the open entry's end falls with its membrane to the entry's own height: none stands
  // there. Behind a dam 10 mm over the plan of 1400 by 900 are 12.6 kg.
  const Drawn d = drawn(
      job::read(
          "[job]\nname = \"x\"\nunit = \"mm\"\n[alcove]\nwidth = 1400\ndepth = 900\n[floor]\nkind = \"slab\"\n[base]\n"
          "kind = \"site-built\"\nwaterproofing = \"bonded\"\npattern = \"to-line\"\nfall = \"1:60\"\n"
          "[base.threshold]\nwidth = 0\n[drain]\nkind = \"line\"\nsize = 70\ndirection = \"along-depth\"\n"
          "from_left = 80\nbody = 60\noutlet = 46\nbore = 100\nrecess = 12\n[bed]\nleast = 25\ncollar = 0\n"
          "bag_yield = \"12 L\"\n[rules]\nbook = \"metric\"\n",
          "x.toml"),
      false);
  const std::string all = words_of(d.sheet("order-of-work"));
  EXPECT_TRUE(has(all, "it holds none by itself: first a dam along the front edge")) << all;
  EXPECT_TRUE(has(all, "each 10 mm more weighs 13 kg at most"));
  EXPECT_FALSE(has(all, "0.0 L"));
}

TEST(SiteBuiltSheets, TheFormAtTheEntryHasItsHeights) {
  // Source: by hand: from the channel's front edge, 130 mm before the back, the bed rises 1 in 60 over 870 mm: 14.5;
  // it is 15 mm under the tile, so that it stands at 44.5 and a little less, read down to the half.
  const std::string form = "955.5";
  const std::string all = words_of(under_membrane().sheet("screed"));
  const std::size_t first = all.find("form " + form);
  ASSERT_NE(first, std::string::npos) << form;
  EXPECT_NE(all.find("form " + form, first + 1), std::string::npos) << "at both ends";
  // The same two among the marks that the terminal and the report list, where a channel has no rays.
  int of_form = 0, thin = 0;
  for (const facts::ScreedMark& m : under_membrane().facts.site_built->marks) {
    of_form += m.line == "form at the entry" &&
               std::abs(m.bed_mm - (under_membrane().facts.heights.drain_top_mm - 15 + 14.5)) < 1e-3 &&
               m.top_mm == m.bed_mm;
    thin += m.line.rfind("thin line to ", 0) == 0;
    EXPECT_EQ(m.line.find("ray"), std::string::npos) << m.line;
  }
  EXPECT_EQ(of_form, 2);
  EXPECT_GT(thin, 4);
  EXPECT_TRUE(has(words_of(under_membrane().sheet("order-of-work")), form + " mm to 969.5 mm down from the line"));
  for (const Drawn* d : {&under_membrane(), &over_liner()}) {  // the latter's entry runs askew
    const auto& base = part(d->facts, facts::Role::base).bbox_mm;
    const auto& texts = d->sheet("screed").texts;
    const auto beside = [&](double x) {
      return std::count_if(texts.begin(), texts.end(), [&](const Text& text) {
        return text.words.rfind("form ", 0) == 0 && std::abs(text.at.x - x) < 60 && text.at.y < base[1];
      });
    };
    EXPECT_EQ(beside(base[0]), 1) << d->name;
    EXPECT_EQ(beside(base[3]), 1) << d->name;
  }
  job::Job flat = demo("coopers-yard-9");
  flat.base.fall = units::Fall::ratio(1 / 400.);
  const Drawn held = drawn(flat, false);
  ASSERT_FALSE(held.sheet("screed").holds.empty());
  EXPECT_FALSE(has(words_of(held.sheet("screed")), "form 9"));
}

TEST(SiteBuiltSheets, PicturesShowEverythingInTheOrderItLies) {
  // Source: how it lies on site, from the top down; the drain's lower part stands on the deck before any mortar.
  const auto height = [](const Drawn& d, const std::string& words) {
    for (const Text& text : d.sheet("exploded").texts)
      if (text.words == words) return text.at.y;
    ADD_FAILURE() << words << " is not on the sheet of " << d.name;
    return 0.0;
  };
  const auto expect_down = [&](const Drawn& d, const std::vector<std::string>& names) {
    for (std::size_t i = 1; i < names.size(); ++i)
      EXPECT_GT(height(d, names[i - 1]), height(d, names[i])) << names[i - 1] << " over " << names[i];
  };
  expect_down(over_liner(), {"top coat", "liner", "rough threshold", "pre-slope", "form at the entry",
                             "drain made tight", "felt", "subfloor, bored in step 4"});
  expect_down(under_membrane(), {"tile on its bond", "rough threshold", "sloped bed", "drain made tight"});
  for (const char* step : {"form at the entry", "liner", "wall board"})
    EXPECT_TRUE(has(words_of(over_liner().sheet("steps")), step)) << step;
  EXPECT_FALSE(has(words_of(under_membrane().sheet("steps")), "liner"));
}

TEST(SiteBuiltSheets, TellMarksThatKeepTheFall) {
  // Source: by hand: to the right 1/4 in/ft over 28-1/2 in is 19/32 in; to the sixteenth it would be 9/16, 0.237 in/ft,
  // or 5/8, and that over the 14-3/4 in to the back 0.508 in/ft, above 1/2. On a ray 37-5/16 is 3/16 above the drain.
  const Drawn& d = over_liner();
  const std::string marks = words_of(d.sheet("screed")), falls = words_of(d.sheet("falls"));
  EXPECT_TRUE(has(marks, "drain's top: 37-1/2\" down"));
  EXPECT_TRUE(has(marks, "36-29/32 (38-13/32)"));
  EXPECT_TRUE(has(marks, "37-5/16 (38-13/16) at 12"));
  EXPECT_TRUE(has(falls, "+19/32")) << "as it is screeded";
  EXPECT_FALSE(has(falls, "+9/16"));
  EXPECT_TRUE(has(words_of(d.sheet("order-of-work")), "36-29/32\" to 37-5/16\" down from the line"));
  for (std::size_t i = 0; i < d.facts.site_built->marks.size(); ++i)
    if (d.facts.site_built->marks[i].corner) {
      EXPECT_NEAR(d.judgement.screed->drain_mm - d.judgement.screed->figures[i].top_mm, 19 / 32. * 25.4, 1e-6);
    }
}

TEST(SiteBuiltSheets, HaveNoWordsOfABaseThatIsSetInOnePiece) {
  // Source: none: nothing is pressed, levelled or ordered whole there, and nothing of it turns up.
  for (const Drawn* d : {&over_liner(), &under_membrane()})
    for (const Sheet& sheet : d->sheets)
      for (const char* foreign : {"mortar bed", "level on the rim", "sit low", "upstands' top", "upstands of base",
                                  "time first: base", "gasket", "Dry fit", "base's edge"})
        EXPECT_FALSE(has(words_of(sheet), foreign)) << d->name << ", " << sheet.name << ": " << foreign;
  EXPECT_TRUE(has(words_of(over_liner().sheet("drain")), "pre-slope"));
  EXPECT_TRUE(has(words_of(over_liner().sheet("steps")), "top coat"));
}

TEST(SiteBuiltSheets, NoFigureOfAMarkStandsOnAnother) {
  // Source: by hand: figures are some 2 in wide in print at 1:8, and marks 2 in apart in the room a quarter of that.
  job::Job near = demo("coopers-yard-4");
  near.base.site.every = job::Length::inches(2);
  const Drawn d = drawn(near, false);
  const Sheet& sheet = d.sheet("screed");
  std::vector<Box> figures;
  for (const Text& t : sheet.texts)
    if (std::isdigit(static_cast<unsigned char>(t.words[0])) || t.words[0] == '(') figures.push_back(box_of(t));
  EXPECT_GT(figures.size(), 40U);
  for (std::size_t i = 0; i < figures.size(); ++i)
    for (std::size_t k = 0; k < i; ++k) EXPECT_FALSE(meet(figures[i], figures[k])) << i << " and " << k;
  EXPECT_GT(sheet.arcs.size(), figures.size() / 2) << "every mark has its dot, with figures or without";
  EXPECT_TRUE(has(words_of(sheet), "Marks too near others"));
  for (const Drawn* all : {&over_liner(), &under_membrane()})
    EXPECT_FALSE(has(words_of(all->sheet("screed")), "Marks too near others")) << "all find room there";
}

TEST(SiteBuiltSheets, TheWidthsUnderADrainStandBetweenTheirOwnLinesOrPastTheirEnds) {
  // Source: none: a number belongs to the line it stands over; one that has no room there stands at its end. Room is
  // what leaves 0.4 of a letter's height on either side.
  for (const Drawn* d : {&over_liner(), &under_membrane()})
    for (const Dimension& dim : d->sheet("drain").dimensions) {
      if (!dim.picture || dim.picture->turn_deg != 0) continue;
      const Text& text = d->sheet("drain").texts[dim.picture->text];
      const double off = std::abs(text.at.x - (dim.from.x + dim.to.x) / 2), width = width_of(text.words, text.height);
      if (width + 0.8 * text.height <= dim.length_mm) {
        EXPECT_LT(off, dim.length_mm / 4) << d->name << ": " << dim.words;
      } else {
        EXPECT_LT(off, (dim.length_mm + width) / 2 + 1.5 * text.height) << d->name << ": " << dim.words;
        EXPECT_NEAR(text.at.y, dim.picture->line_at.y, text.height) << d->name << ": " << dim.words;
      }
    }
}

TEST(BoughtSheets, ABuyersListHasSizesAndWhatTheDrainNeeds) {
  // Source: the solid's box, and the job file: a waste that stands takes no drain from the counter.
  const std::string words = words_of(bought().sheet("buy"));
  const auto& box = std::find_if(bought().facts.parts.begin(), bought().facts.parts.end(), [](const facts::Part& p) {
                      return p.which.is(facts::Role::base);
                    })->bbox_mm;
  EXPECT_TRUE(has(words, number_of(box[3] - box[0], false) + "\" x " + number_of(box[4] - box[1], false) + "\", " +
                             number_of(box[5] - box[2], false) + "\" high"))
      << words;
  EXPECT_TRUE(has(words, "base's opening, 3-3/8\" round, its shell 3/16\" there")) << words;
  EXPECT_FALSE(has(words, "drain with its grate"));
  EXPECT_TRUE(has(words, "HOLD, see note shims ")) << words;
  EXPECT_FALSE(has(words, "shims 3/16")) << "nobody knows how thick before the studs are read";
  EXPECT_FALSE(has(words_of(bought().sheet("cuts")), "stud-0")) << "no solid's name tells where a stud stands";
  EXPECT_TRUE(has(words_of(bought().sheet("cuts")), "(3/4), (16), (31-1/2) from the back corner (left wall)"));
}

TEST(BoughtSheets, ThePointsOfTheBedAreNamedBesideThemselves) {
  // Source: none: of two names on one line the second begins well away from the first, or it seems to go on.
  const Sheet& sheet = bought().sheet("bed");
  std::vector<Box> names;
  double height = 0;
  for (const Text& t : sheet.texts)
    if (t.words.size() == 7 && t.words[2] == ',') names.push_back(box_of(t)), height = t.height;  // "A1, 5th"
  ASSERT_EQ(names.size(), 9U);
  for (const Box& a : names)
    for (const Box& b : names)
      if (&a != &b && a.y0 < b.y1 && b.y0 < a.y1 && a.x0 < b.x0) {
        EXPECT_GT(b.x0 - a.x1, 2 * height);
      }
}

TEST(Assembly, InARoomOutOfSquareAThresholdHasItsFrontAndItsEnds) {
  // Source: the solid: its threshold's front and right end meet in upright edges, three to four times as high as the
  // deck of 3/4 in is thick, one at either end, whose own edge stands at the picture's right; in this room no wall of
  // it lies along an axis.
  const Sheet& sheet = drawn_demo("coopers-yard-4").sheet("assembly");
  double deck = 0, farthest = -1e9;
  std::vector<double> upright;
  for (const Line& line : sheet.lines) {
    const double high = std::abs(line.to.y - line.from.y);
    if (line.kind != LineKind::outline || std::abs(line.to.x - line.from.x) > 1e-3 || high < 1e-3) continue;
    upright.push_back(high);
    if (line.from.x > farthest) farthest = line.from.x, deck = high;
  }
  EXPECT_GE(
      std::count_if(upright.begin(), upright.end(), [&](double high) { return high > 3 * deck && high < 4 * deck; }),
      2);
}

}  // namespace
}  // namespace fallwright::drawing
