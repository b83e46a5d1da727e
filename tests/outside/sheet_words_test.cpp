/// What the sheets say in words: failing checks, names of parts, marks on members, no scale where nothing is to scale.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <gtest/gtest.h>

#include "drawing/pen.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

bool starts(const std::string& words, const std::string& with) {
  return words.rfind(with, 0) == 0;
}

int count(const Sheet& sheet, const std::string& with) {
  int n = 0;
  for (const Text& t : sheet.texts) n += starts(t.words, with);
  return n;
}

TEST(SheetWords, EveryTitleBlockSaysHowManyChecksFail) {
  // Source: the checks' own results: a sheet may be on site without its inspection sheet.
  std::set<std::string> said;
  for (const Drawn& d : all_jobs()) {
    const auto fails = std::count_if(d.judgement.results.begin(), d.judgement.results.end(),
                                     [](const auto& r) { return r.outcome == rules::Outcome::fail; });
    const std::string words = std::to_string(fails) + (fails == 1 ? " CHECK FAILS" : " CHECKS FAIL");
    std::string codes;  // of the inspection sheets that have a failing row: what to do about it stands apart from those
    for (const Sheet& sheet : d.sheets)
      if (starts(sheet.name, "inspection") && !starts(sheet.name, "inspection-care") && count(sheet, "FAILS") > 0)
        codes += (codes.empty() ? "" : ", ") + sheet.code;
    EXPECT_EQ(codes.empty(), fails == 0) << d.name;
    for (const Sheet& sheet : d.sheets) {
      if (sheet.page.paper.width_mm <= 0) continue;
      EXPECT_EQ(std::any_of(sheet.texts.begin(), sheet.texts.end(),
                            [&](const Text& t) { return t.words == words + ": see " + codes; }),
                fails > 0)
          << d.name << " " << sheet.name;
    }
    if (fails > 0) said.insert(words);
  }
  EXPECT_FALSE(said.empty());
}

/// Whether a room's bore would cut a joist, or what fails is mended by moving the drain, or by another kind of it.
bool bore_fails(const Drawn& d) {
  return std::any_of(d.judgement.results.begin(), d.judgement.results.end(), [](const auto& r) {
    bool moves = r.id == "drain.bore-clear-of-joists" || r.id == "room.goes-in" || r.id == "room.drop-in" ||
                 ((r.id == "opening.width" || r.id == "opening.depth") && r.measured.value_or(0) < 0);
    for (const auto& remedy : r.remedies)
      for (const auto& change : remedy.changes) moves = moves || starts(change.key, "drain.from_");
    moves = moves || r.advice.find("drain.kind = ") != std::string::npos;
    return moves && r.outcome == rules::Outcome::fail;
  });
}

TEST(SheetWords, ABoreThatCutsAJoistIsStruckOutAndHasNoPlace) {
  // Source: common practice, no source: who holds a sheet works by what is drawn, whatever is written beside it.
  int rejected = 0, good = 0;
  for (const Drawn& d : all_jobs()) {
    const bool fails = bore_fails(d);
    for (const char* name : {"plan", "bed", "drain", "template"}) {
      const Sheet& sheet = d.sheet(name);
      const auto struck = std::count_if(sheet.lines.begin(), sheet.lines.end(),
                                        [](const Line& line) { return line.kind == LineKind::rejected; });
      const bool section = std::string{name} == "drain", bed = std::string{name} == "bed",
                 twice = section && d.facts.room.drain.joists_known;  // from above as well
      // Where another base will be set its bed is struck, and what is drawn larger of both.
      const bool base_fails = !d.sheet("bed").holds.empty(),
                 larger = base_fails && (section || (bed && !d.model->job.base.threshold.width.is_zero()));
      const int expected = (fails && !bed ? (twice ? 4 : 2) : 0) + (base_fails && bed ? 2 : 0) + (larger ? 2 : 0);
      EXPECT_EQ(struck, expected) << d.name << " " << name;
      EXPECT_EQ(std::any_of(sheet.texts.begin(), sheet.texts.end(), [](const Text& t) { return t.words == "VOID"; }),
                expected > 0)
          << d.name << " " << name;
      EXPECT_TRUE(base_fails || !fails) << d.name;
    }
    const double place = d.facts.room.drain.now_mm[0], across = d.model->job.drain.bore.in_mm();
    for (const Dimension& dim : d.sheet("plan").dimensions)
      if (fails) {
        EXPECT_GT(std::abs(dim.to.x - place), 1) << d.name << " " << dim.words;
        EXPECT_GT(std::abs(dim.from.x - place), 1) << d.name << " " << dim.words;
      }
    for (const Arc& arc : d.sheet("template").arcs)
      if (fails && std::abs(arc.radius - across / 2) < 1e-6) {
        EXPECT_EQ(arc.kind, LineKind::hidden) << d.name;
      }
    EXPECT_EQ(std::any_of(d.sheet("drain").notes.begin(), d.sheet("drain").notes.end(),
                          [](const std::string& note) { return starts(note, "Nothing is bored by this sheet"); }),
              fails)
        << d.name;
    EXPECT_EQ(count(d.sheet("order-of-work"), "centre "), !fails) << d.name;
    EXPECT_EQ(count(d.sheet("order-of-work"), "no centre is given"), fails) << d.name;
    ++(fails ? rejected : good);
  }
  EXPECT_GE(rejected, at_least(1));
  EXPECT_GE(good, at_least(1));
}

TEST(SheetWords, GaugesStandOnMortarUnderTheBase) {
  // Source: the solids: a gauge is read where there is bed and where there will be base, off the bore and its collar.
  for (const Drawn& d : all_jobs()) {
    const auto box = [&](facts::Role role) -> const std::array<double, 6>& {
      return std::find_if(d.facts.parts.begin(), d.facts.parts.end(), [&](const auto& p) { return p.which.is(role); })
          ->bbox_mm;
    };
    const auto &bed = box(facts::Role::bed), &base = box(facts::Role::base);
    const auto& bore = d.facts.room.drain.now_mm;
    const double collar = (d.model->job.drain.bore / 2 + d.model->job.bed.collar).in_mm();
    ASSERT_EQ(d.facts.room.gauges.size(), 9u) << d.name;
    for (const facts::Gauge& g : d.facts.room.gauges) {
      EXPECT_FALSE(g.clear) << d.name << " " << g.name;
      for (const auto* in : {&bed, &base}) {
        EXPECT_GT(g.x_mm, (*in)[0]) << d.name << " " << g.name;
        EXPECT_LT(g.x_mm, (*in)[3]) << d.name << " " << g.name;
        EXPECT_GT(g.y_mm, (*in)[1]) << d.name << " " << g.name;
        EXPECT_LT(g.y_mm, (*in)[4]) << d.name << " " << g.name;
      }
      EXPECT_GT(std::hypot(g.x_mm - bore[0], g.y_mm - bore[1]), collar) << d.name << " " << g.name;
    }
  }
}

TEST(SheetWords, TablesAndPicturesHaveNoScale) {
  // Source: nothing on them can be measured; where something can, bars tell whether the print is true.
  const char* with[] = {"plan",  "falls",       "bed",    "drain",       "template",   "bench-",
                        "wall-", "cuts-shapes", "sticks", "story-stick", "gauge-strip"};
  for (const Drawn& d : all_jobs())
    for (const Sheet& sheet : d.sheets) {
      if (sheet.page.paper.width_mm <= 0) continue;
      const bool measured =
          std::any_of(std::begin(with), std::end(with), [&](const char* name) { return starts(sheet.name, name); });
      EXPECT_EQ(count(sheet, "no scale"), !measured) << d.name << " " << sheet.name;
      EXPECT_EQ(count(sheet, "scale 1:"), measured) << d.name << " " << sheet.name;
      EXPECT_GE(count(sheet, "6 in"), measured) << d.name << " " << sheet.name;
    }
}

TEST(SheetWords, ThePlanNamesItsParts) {
  // Source: what a framer and a plumber ask who see it for the first time.
  for (const Drawn& d : all_jobs()) {
    const Sheet& plan = d.sheet("plan");
    const char* outlet = d.model->job.drain.kind == job::DrainKind::line ? "channel" : "drain";
    for (const char* words : {"BACK WALL", "LEFT WALL", "RIGHT WALL", "ENTRY", "base", outlet, "threshold"})
      EXPECT_GE(count(plan, words), 1) << d.name << " " << words;
    EXPECT_EQ(count(plan, "bench") > 0, d.model->job.bench.has_value()) << d.name;
    const bool joists = d.model->first(parts::Role::joist) != nullptr;
    EXPECT_EQ(count(plan, "joists"), joists) << d.name;
  }
}

TEST(SheetWords, ThePlanShowsADrainsEdgeAndNoHips) {
  // Source: the job's drain, 4 in across and round: lines or arcs of its edge all round; no other line in the base is
  // neither level nor upright but the two diagonals.
  job::Job job = sample::alcove();
  job.drain.opening = job::Opening::round;
  const Drawn d = drawn(job);
  const Sheet& plan = d.sheet("plan");
  const auto& at = d.facts.room.drain.now_mm;
  std::set<int> octants;
  int slanting = 0;
  for (const Line& l : plan.lines) {
    const double dx = l.to.x - l.from.x, dy = l.to.y - l.from.y;
    if (l.kind != LineKind::outline || std::abs(dx) < 0.01 || std::abs(dy) < 0.01) continue;
    const double x = (l.from.x + l.to.x) / 2 - at[0], y = (l.from.y + l.to.y) / 2 - at[1];
    if (std::abs(std::hypot(x, y) - 50.8) < 1)
      octants.insert(static_cast<int>(std::floor(std::atan2(y, x) / M_PI * 4)));
    else
      ++slanting;
  }
  const bool arcs = std::any_of(plan.arcs.begin(), plan.arcs.end(), [](const Arc& a) {
    return a.kind == LineKind::outline && std::abs(a.radius - 50.8) < 0.1;
  });
  EXPECT_TRUE(arcs || octants.size() == 8) << octants.size();
  EXPECT_EQ(slanting, 0);
}

TEST(SheetWords, ThePlanHasTheBenchsDepthWhereverItStands) {
  // Source: the seat's own extent and the stud faces of a square room.
  for (const Drawn& d : all_jobs()) {
    const job::Job& job = d.model->job;
    if (!job.bench || d.facts.room.closure.solved) continue;
    const auto seat = std::find_if(d.facts.parts.begin(), d.facts.parts.end(),
                                   [](const facts::Part& p) { return p.which.is(facts::Role::seat_block); });
    const bool back = job.bench->place == job::Side::back;
    const double depth = back ? job.alcove.depth.in_mm() - seat->bbox_mm[1] : seat->bbox_mm[3] - seat->bbox_mm[0];
    const auto& dimensions = d.sheet("plan").dimensions;
    EXPECT_TRUE(std::any_of(dimensions.begin(), dimensions.end(), [&](const Dimension& dim) {
      return std::abs(dim.length_mm - depth) < 0.5;
    })) << d.name;
  }
}

TEST(SheetWords, BenchViewsShowTheMarkOfEveryVisibleMember) {
  // Source: what stands in front of what in a frame of plates, rail, cleats and joists, timber or steel.
  const struct {
    const char* sheet;
    std::vector<std::string> members;
  } views[] = {{"bench-plan", {"joist", "end-cleat", "front-", "wall-", "top-"}},
               {"bench-front", {"deck", "front-", "top-", "sole-", "stud"}},
               {"bench-side", {"deck", "front-", "top-", "sole-", "wall-"}},
               {"bench-section", {"deck", "front-", "top-", "sole-", "wall-"}}};
  int benches = 0;
  for (const Drawn& d : all_jobs()) {
    if (!d.model->job.bench) continue;
    ++benches;
    for (const auto& view : views) {
      std::map<std::string, int> wanted;
      for (const takeoff::CutRow& cut : d.cuts)
        for (const std::string& id : cut.part_ids)
          for (const std::string& member : view.members) wanted[cut.mark] += starts(id, "bench-frame/" + member);
      const Sheet& sheet = d.sheet(view.sheet);
      for (const auto& [mark, least] : wanted) {
        int seen = count(sheet, mark + "  ");
        for (const Text& t : sheet.texts) seen += t.words == mark;
        EXPECT_GE(seen, least) << d.name << " " << view.sheet << " " << mark;
      }
    }
  }
  EXPECT_GE(benches, at_least(4));
}

TEST(SheetWords, EveryStripOfFurringIsListedAndStandsBesideItsStuds) {
  // Source: the cut list: a strip has a mark, a thickness and its studs; the surveyed job has some. On a wall it is
  // named beside each of its studs, with its thickness or that it waits; one before a block is named over it.
  int strips = 0;
  for (const Drawn& d : all_jobs())
    for (const takeoff::CutRow& cut : d.cuts) {
      if (!cut.furring) continue;
      ++strips;
      std::size_t listed = 0, beside = 0;
      const auto& studs = d.facts.room.studs;
      const auto first = std::find_if(studs.begin(), studs.end(),
                                      [&](const auto& stud) { return stud.part_id == cut.part_ids.front(); });
      ASSERT_NE(first == studs.end(), !cut.on_block);
      const std::string place = cut.on_block ? "" : number_of(first->running_mm, d.model->job.is_metric());
      for (const Sheet& sheet : d.sheets)
        for (const Text& t : sheet.texts) {
          listed += starts(sheet.name, "cuts") &&
                    starts(t.words, cut.on_block              ? "on block"
                                    : cut.part_ids.size() > 1 ? "on studs at "
                                                              : "on the stud at ") &&
                    t.words.find(place) != std::string::npos;
          beside += starts(sheet.name, "wall-") &&
                    (cut.on_block ? t.words == "fur " + cut.mark || t.words == "fur " + cut.mark + " HOLD"
                                  : starts(t.words, "fur " + cut.mark + (cut.hold ? " HOLD" : ": ")));
        }
      EXPECT_GE(listed, 1u) << d.name << " " << cut.mark;
      EXPECT_EQ(beside, cut.part_ids.size()) << d.name << " " << cut.mark;
    }
  EXPECT_GE(strips, at_least(1));
}

TEST(SheetWords, NoCellOfTheOrderOfWorkStartsWithAComma) {
  // Source: English: mixes of bags and of cement and sand alike name their parts.
  for (const Drawn& d : all_jobs()) {
    EXPECT_EQ(count(d.sheet("order-of-work"), ","), 0) << d.name;
    const bool steel = d.model->job.bench && d.model->job.bench->frame.kind == job::FrameKind::steel;
    EXPECT_EQ(count(d.sheet("order-of-work"), "front track"), steel) << d.name;
  }
}

TEST(SheetWords, TheTemplateSaysWhereItsCentreStandsAsTheDrainSheetDoes) {
  // Source: the set itself: one point has one number on all sheets; a print that lost its sheets still tells it.
  int told = 0;
  for (const Drawn& d : sets()) {
    if (bore_fails(d)) continue;
    for (const auto& [side, word] : {std::pair{"back", "BACK WALL "}, {"left", "LEFT WALL "}}) {
      const std::string name = std::string{"bore centre from the "} + side + " stud face";
      const auto& marks = d.facts.room.set_out;
      const auto mark = std::find_if(marks.begin(), marks.end(), [&](const auto& m) { return m.name == name; });
      if (mark == marks.end()) continue;
      const std::string number = number_of(mark->mm, d.model->job.is_metric());
      int on_template = 0;
      for (const Sheet& sheet : d.sheets)
        if (starts(sheet.name, "template")) on_template += count(sheet, word + number);
      EXPECT_EQ(on_template, 1) << d.name << " " << word << number;
      const bool waste = waste_stands(d.model->job);  // nobody bores there: it is where the base's drain comes down
      const std::string told_as = waste ? "drain of the base from the " + std::string{side} + " stud face" : name;
      EXPECT_EQ(count(d.sheet("drain"), number + "   " + told_as), 1) << d.name << " " << told_as;
      ++told;
    }
  }
  EXPECT_GE(told, at_least(10));
}

TEST(SheetWords, AWallWithoutPiecesHasNoTableOfThem) {
  // Source: by hand: in a room that stands already and is neither blocked nor furred nothing is cut for a wall.
  int with = 0, without = 0;
  for (const Drawn& d : sets())
    for (const Sheet& sheet : d.sheets) {
      // Where the tables are long, or the paper small, they have a sheet of their own.
      const bool apart = std::any_of(d.sheets.begin(), d.sheets.end(),
                                     [](const Sheet& other) { return starts(other.name, "schedules"); });
      if (!starts(sheet.name, "wall-") || apart) continue;
      const bool cut = std::any_of(d.cuts.begin(), d.cuts.end(), [&](const takeoff::CutRow& row) {
        return std::any_of(row.part_ids.begin(), row.part_ids.end(),
                           [&](const std::string& id) { return starts(id, sheet.name + "/"); });
      });
      const bool head =
          std::any_of(sheet.texts.begin(), sheet.texts.end(), [](const Text& t) { return t.words == "ends"; });
      EXPECT_EQ(head, cut) << d.name << " " << sheet.name;
      ++(cut ? with : without);
    }
  EXPECT_GE(with, at_least(1));
  EXPECT_GE(without, at_least(1));
}

}  // namespace
}  // namespace fallwright::drawing
