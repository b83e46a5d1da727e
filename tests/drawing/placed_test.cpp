// Where words stand: letters of sections at their arrows, names of layers at their dots, heights outside the drain,
// marks of steel led to their track; and what one number of a sheet says to another.
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "drawing/clear.hpp"
#include "drawing/detail.hpp"
#include "drawing/pen.hpp"
#include "drawing/views.hpp"
#include "outside/drawn.hpp"
#include "takeoff/item.hpp"

namespace fallwright::drawing {
namespace {

using testing::Contains, testing::HasSubstr;

double apart(Point a, Point b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

Point centre_of(const Text& text) {
  const Box box = box_of(text);
  return {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
}

bool has_words(const Sheet& sheet, const std::string& words) {
  return std::any_of(sheet.texts.begin(), sheet.texts.end(), [&](const Text& text) { return text.words == words; });
}

/// Rooms with walls of stock and of a survey, with and without a bench, on large paper and on small.
const std::vector<Drawn>& plans() {
  static const std::vector<Drawn> all = [] {
    std::vector<Drawn> some;
    for (const char* name : {"tannery-lane-2a", "ferry-steps-3", "coopers-yard-4", "chandlers-row-9"})
      some.push_back(drawn_demo(name));
    some.push_back(drawn(demo_on("tannery-lane-2a", job::PaperSize::letter), false));
    some.push_back(drawn(demo_on("tannery-lane-5c", job::PaperSize::a4), false));
    return some;
  }();
  return all;
}

TEST(Placed, WordsGiveWayToALineThatIsDrawnLater) {
  // Source: closed form: words at the origin, or 40 to the right of it; then a name at a height of 10 with no other
  // place, whose line to a thing straight below the origin runs through the first of these.
  Sheet sheet;
  Pen pen{sheet, 3};
  pen.note_at_one_of({{0, 0}, {40, 0}}, "HHH", Anchor::middle);
  pen.name_at_one_of({0, -15}, {{0, 10}}, "HHH 2", Anchor::middle);
  pen.nowhere_else();
  pen.part_texts();
  ASSERT_EQ(sheet.lines.size(), 1u) << "the name's line";
  EXPECT_EQ(sheet.texts[0].at.x, 40);
  EXPECT_FALSE(crosses(sheet.lines[0], sheet.texts[0]));
}

TEST(Placed, ASectionsLetterStandsAtItsArrow) {
  // Source: common practice, no source: a letter that stands off its arrow is looked for. Arrows begin at the ends of
  // the heavy strokes and are 6.6 mm long; a letter is 5 mm high.
  std::size_t letters = 0;
  for (const Drawn& d : plans()) {
    const Sheet& plan = d.sheet("plan");
    const double mm = plan.page.scale;
    std::vector<Point> tips;
    for (const Line& shaft : plan.lines)
      if (shaft.kind == LineKind::dimension && std::abs(apart(shaft.from, shaft.to) - 6.6 * mm) < 0.01 * mm)
        for (const Line& stroke : plan.lines)
          if (stroke.kind == LineKind::section &&
              std::min(apart(stroke.from, shaft.from), apart(stroke.to, shaft.from)) < 0.01)
            tips.push_back(shaft.to);
    for (const Text& text : plan.texts) {
      if (text.words.size() != 1 || text.height < 4.9 * mm) continue;
      ++letters;
      EXPECT_TRUE(
          std::any_of(tips.begin(), tips.end(), [&](Point tip) { return apart(tip, centre_of(text)) < 8 * mm; }))
          << d.name << " 1:" << mm << ' ' << text.words;
    }
  }
  EXPECT_GE(letters, 24u);
}

TEST(Placed, AWallIsNamedInItOrBesideIt) {
  // Source: common practice, no source: past the rows of dimensions a name is read as one of those. Nearer than 10 mm.
  for (const Drawn& d : plans()) {
    const Sheet& plan = d.sheet("plan");
    const double mm = plan.page.scale;
    for (const auto& [side, words] : {std::pair{job::Side::left, "LEFT WALL"}, {job::Side::right, "RIGHT WALL"}}) {
      double low = 1e9, high = -1e9;
      for (const facts::Part& p : d.facts.parts)
        if (p.which.family == facts::Family{facts::Role::wall, side})
          low = std::min(low, p.bbox_mm[0]), high = std::max(high, p.bbox_mm[3]);
      const auto name = std::find_if(plan.texts.begin(), plan.texts.end(),
                                     [&](const Text& text) { return text.words.rfind(words, 0) == 0; });
      ASSERT_NE(name, plan.texts.end()) << d.name;
      EXPECT_GT(name->at.x, low - 10 * mm) << d.name << " 1:" << mm;
      EXPECT_LT(name->at.x, high + 10 * mm) << d.name << " 1:" << mm;
    }
  }
}

TEST(Placed, BothColumnsOfAPlanAreMeasuredThroughTheBore) {
  // Source: by hand: 15-3/4 from the back and 20-5/16 from the front are 36-1/16, also where the right wall is longer.
  const Sheet& plan = drawn_demo("coopers-yard-4").sheet("plan");
  for (const char* number : {"15-3/4", "20-5/16", "36-1/16"}) EXPECT_TRUE(has_words(plan, number)) << number;
  EXPECT_FALSE(has_words(plan, "36-1/8"));
  EXPECT_THAT(plan.notes, Contains(HasSubstr("Rows and columns: between stud faces, through the bore")));
}

TEST(Placed, LayersOfTheDrainsSectionAreLedToTheirNames) {
  // Source: common practice, no source: layers thinner than letters. Lines of text are 1.6 capitals apart.
  for (const auto& [job, names] :
       {std::pair{"chandlers-row-9", std::vector<std::string>{"base", "mortar bed", "subfloor"}},
        {"coopers-yard-4", {"top coat", "pre-slope", "subfloor"}}}) {
    const Sheet& drain = drawn_demo(job).sheet("drain");
    const double mm = drain.page.scale;
    double above = 1e9;
    for (const std::string& name : names) {
      const auto text = std::find_if(drain.texts.begin(), drain.texts.end(), [&](const Text& t) {
        return t.words == name && t.anchor == Anchor::right && t.height < 2.6 * mm;
      });
      ASSERT_NE(text, drain.texts.end()) << name;
      EXPECT_LT(text->at.y, above - 1.6 * text->height) << name;
      above = text->at.y;
      EXPECT_TRUE(std::any_of(drain.lines.begin(), drain.lines.end(), [&](const Line& line) {
        return apart(line.to, {text->at.x, text->at.y + text->height / 2}) < 2 * mm &&
               std::any_of(drain.arcs.begin(), drain.arcs.end(),
                           [&](const Arc& dot) { return apart(dot.centre, line.from) < 0.01; });
      })) << name;
    }
  }
}

TEST(Placed, DrainAndBoreAreEachLedToTheirOwnEdge) {
  // Source: by hand: a round opening of 4-1/4 in within a bore, or a hole, of 5 in; both words have a line.
  for (const auto& [job, bore] : {std::pair{"coopers-yard-4", "bore 5"}, {"chandlers-row-7", "hole 5"}}) {
    const Drawn& d = drawn_demo(job);
    const Sheet& plan = d.sheet("plan");
    const auto& box = part(d.facts, facts::Role::drain).bbox_mm;
    const Point middle{(box[0] + box[3]) / 2, (box[1] + box[4]) / 2},
        of_bore{d.facts.room.drain.now_mm[0], d.facts.room.drain.now_mm[1]};
    const auto is_led = [&](const std::string& words, Point centre, double radius) {
      for (const Text& text : plan.texts)
        for (const Line& line : plan.lines)
          for (const auto& [end, other] : {std::pair{line.from, line.to}, {line.to, line.from}})
            if (text.words == words && line.kind == LineKind::dimension &&
                std::abs(apart(end, centre) - radius) < 0.1 && apart(other, centre_of(text)) < 9 * plan.page.scale)
              return true;
      return false;
    };
    EXPECT_TRUE(is_led("drain", middle, (box[3] - box[0]) / 2)) << job;
    EXPECT_TRUE(is_led(bore, of_bore, 2.5 * 25.4)) << job;
  }
}

TEST(Placed, NoLineToAHeightRunsOverARoundDrain) {
  // Source: common practice, no source: what is at its edge is written outside it.
  for (const char* job : {"coopers-yard-4", "chandlers-row-9"}) {
    const Drawn& d = drawn_demo(job);
    const Sheet& falls = d.sheet("falls");
    const auto& box = part(d.facts, facts::Role::drain).bbox_mm;
    const Point middle{(box[0] + box[3]) / 2, (box[1] + box[4]) / 2};
    const double radius = (box[3] - box[0]) / 2;
    for (const Text& text : falls.texts) EXPECT_GT(apart(centre_of(text), middle), radius) << job << text.words;
    for (const Line& line : falls.lines) {
      if (line.kind != LineKind::dimension) continue;
      for (double share = 0; share <= 1; share += 0.05)
        EXPECT_GT(
            apart({line.from.x + share * (line.to.x - line.from.x), line.from.y + share * (line.to.y - line.from.y)},
                  middle),
            0.9 * radius)
            << job;
    }
  }
}

TEST(Placed, HowLowASideMayBeStandsAtThatSide) {
  // Source: common practice, no source: within 10 mm of the base's outline.
  std::size_t sides = 0;
  for (const Drawn& d : plans()) {
    const Sheet& falls = d.sheet("falls");
    const auto& b = part(d.facts, facts::Role::base).bbox_mm;
    for (const Text& text : falls.texts) {
      constexpr std::array begins{"this side", "front ", "back ", "left ", "right "};
      if (std::none_of(begins.begin(), begins.end(), [&](const char* some) { return text.words.rfind(some, 0) == 0; }))
        continue;
      const Point at = centre_of(text);
      const double off =
          std::min({std::abs(at.x - b[0]), std::abs(at.x - b[3]), std::abs(at.y - b[1]), std::abs(at.y - b[4])});
      EXPECT_LT(off, 10 * falls.page.scale) << d.name << ": " << text.words;
      ++sides;
    }
  }
  EXPECT_GE(sides, 16u);
}

TEST(Placed, AMarkOfASteelTrackIsLedToIt) {
  // Source: common practice, no source: from its end a track is its edge alone, and what stands in it has its own mark.
  for (const char* name : {"bench-side", "bench-section"}) {
    const Drawn& d = drawn_demo("tannery-lane-5c");
    const Sheet& sheet = d.sheet(name);
    const auto track = std::find_if(d.facts.parts.begin(), d.facts.parts.end(),
                                    [](const facts::Part& p) { return p.which.kind == facts::Kind::front_track; });
    ASSERT_NE(track, d.facts.parts.end());
    const auto cut = std::find_if(d.cuts.begin(), d.cuts.end(), [&](const takeoff::CutRow& row) {
      return std::find(row.part_ids.begin(), row.part_ids.end(), text_of(track->which)) != row.part_ids.end();
    });
    ASSERT_NE(cut, d.cuts.end());
    std::size_t marks = 0;
    for (const MemberMark& member : sheet.members) {
      if (member.mark != cut->mark) continue;
      ++marks;
      Text around = sheet.texts[member.text];
      const double air = 0.5 * around.height;
      const Box box = box_of(around), near{box.x0 - air, box.y0 - air, box.x1 + air, box.y1 + air};
      EXPECT_TRUE(std::any_of(sheet.lines.begin(), sheet.lines.end(), [&](const Line& line) {
        const auto in = [&](Point p) { return p.x > near.x0 && p.x < near.x1 && p.y > near.y0 && p.y < near.y1; };
        return line.kind == LineKind::dimension && in(line.from);
      })) << name;
    }
    EXPECT_GE(marks, 4u) << name;
  }
}

TEST(Placed, PicturesLeadToTheFloorWhereNoWallStands) {
  // Source: by hand: of a floor seen from above and the entry the corner nearest the eye is the lowest of all points.
  const Sheet& assembly = drawn_demo("tannery-lane-2a").sheet("assembly");
  double lowest = 1e9;
  for (const Line& line : assembly.lines)
    if (line.kind == LineKind::outline) lowest = std::min({lowest, line.from.y, line.to.y});
  EXPECT_TRUE(std::any_of(assembly.lines.begin(), assembly.lines.end(), [&](const Line& line) {
    return line.kind == LineKind::dimension && std::min(line.from.y, line.to.y) < lowest + 0.01;
  }));
  EXPECT_THAT(assembly.notes, Contains(HasSubstr("lies under the base: see")));
}

TEST(Placed, WhereAWasteStandsNoBoreIsNamedAndNoAssumedWidthIsToldAsMeasured) {
  // Source: the job: its waste stands in the floor, and no body is given.
  const Drawn& d = drawn_demo("chandlers-row-9");
  EXPECT_TRUE(has_words(d.sheet("plan"), "hole 5"));
  EXPECT_FALSE(has_words(d.sheet("plan"), "bore 5"));
  std::string steps;
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.rfind("order-of-work", 0) == 0) steps += read_through(sheet);
  EXPECT_THAT(steps, HasSubstr("if it is as wide as assumed"));
  EXPECT_THAT(d.sheet("steps").notes, Contains(HasSubstr("Furring is in no picture")));
}

TEST(Placed, PicturesOfTheStepsAreAsLargeAsTheirPageLets) {
  // Source: by hand: eight pictures stand in two rows of four on letter, each wider than a seventh of the page; three
  // rows of three left them a twelfth.
  const Drawn& d = plans()[4];
  const Sheet& steps = d.sheet("steps");
  ASSERT_GT(steps.page.scale, 0);
  std::set<long> rows;
  for (const Arc& balloon : steps.arcs)  // which are 7.5 mm wide
    if (std::abs(balloon.radius - 3.75 * steps.page.scale) < 0.01) rows.insert(std::lround(balloon.centre.y));
  EXPECT_EQ(rows.size(), 2u);
}

TEST(Placed, NoPageHasItsLastSticksAlone) {
  // Source: common practice, no source: a page with one stick or two is overlooked. By hand: eleven kinds of stick that
  // take two pages stand as six and five, eight as four and four.
  int parted = 0;
  for (const Drawn& d : plans()) {
    std::vector<std::size_t> on;
    for (const Sheet& sheet : d.sheets)
      if (sheet.name.rfind("sticks", 0) == 0) on.push_back(sheet.dimensions.size());
    if (on.size() < 2) continue;
    ++parted;
    EXPECT_GE(2 * on.back(), on.front()) << d.name;
  }
  EXPECT_GT(parted, 0) << "no room has its sticks on two pages";
}

TEST(Placed, AStickThatIsUsedUpIsSaidInFewWords) {
  // Source: none: long ones past the longest stick made all of them smaller.
  int used_up = 0;
  for (const Drawn& d : plans())
    for (const Sheet& sheet : d.sheets)
      if (sheet.name.rfind("sticks", 0) == 0 && read_through(sheet).find("nothing left over") != std::string::npos) {
        ++used_up;
        EXPECT_THAT(sheet.notes, Contains(HasSubstr("such a stick is full length, without splits"))) << d.name;
      }
  EXPECT_GT(used_up, 0) << "no stick of any room is used up";
}

TEST(Placed, AFlatFieldIsStruckSoThatItIsNotReadAsEdges) {
  // Source: by hand: a field of 60 by 5 has four crosses of 15 by 5, one of 10 by 5 a single one.
  for (const auto& [width, crosses] : {std::pair{60., 4}, {10., 1}}) {
    Sheet sheet;
    Pen{sheet, 1}.strike({0, 0}, {width, 5}, {0, 10});
    std::size_t rising = 0;
    for (const Line& line : sheet.lines) {
      EXPECT_NEAR(line.to.x - line.from.x, width / crosses, 1e-9);
      EXPECT_NEAR(std::abs(line.to.y - line.from.y), 5, 1e-9);
      rising += line.to.y > line.from.y;
    }
    EXPECT_EQ(rising, static_cast<std::size_t>(crosses));
    EXPECT_EQ(sheet.lines.size(), 2 * rising);
  }
}

TEST(Placed, OneStudIsNotSaidToBeMore) {
  // Source: the cut list.
  std::size_t ones = 0;
  for (const Drawn& d : plans())
    for (const takeoff::CutRow& cut : d.cuts)
      if (cut.furring && cut.part_ids.size() == 1) ++ones;
  std::string cuts;
  for (const Drawn& d : plans())
    for (const Sheet& sheet : d.sheets)
      if (sheet.name.rfind("cuts", 0) == 0) cuts += read_through(sheet);
  ASSERT_GT(ones, 0u);
  EXPECT_THAT(cuts, HasSubstr("on the stud at"));
}

/// Of a room made at random, on letter paper.
Drawn at_random(unsigned seed) {
  job::Job job = job::read(sample::random_room(seed), "random.toml");
  job.drawings.paper = job::PaperSize::letter;
  return drawn(job, false);
}

TEST(Placed, BothLettersOfASectionStandOnTheSameSideOfTheirArrows) {
  // Source: by hand: C looks to the left at both of its ends, so both letters stand left of their arrows, in one line.
  const Drawn d = at_random(70008);
  const Sheet& plan = d.sheet("plan");
  std::vector<double> xs;
  for (const Text& text : plan.texts)
    if (text.words == "C" && text.height > 4 * plan.page.scale) xs.push_back(text.at.x);
  ASSERT_EQ(xs.size(), 2U);
  EXPECT_NEAR(xs[0], xs[1], 1e-6);
}

TEST(Placed, NoNumberStandsUnderASectionsArrow) {
  // Source: the solids: C is cut half way from the drain to the base's right edge, which is the middle of 34-1/16 too.
  const Drawn& d = drawn_demo("chandlers-row-9");
  const Sheet& plan = d.sheet("plan");
  const auto& base = part(d.facts, facts::Role::base).bbox_mm;
  const double cut = (d.facts.room.drain.now_mm[0] + base[3]) / 2;
  const auto number =
      std::find_if(plan.texts.begin(), plan.texts.end(), [](const Text& text) { return text.words == "34-1/16"; });
  ASSERT_NE(number, plan.texts.end());
  const Box box = box_of(*number);
  EXPECT_TRUE(box.x1 < cut - 6.6 * plan.page.scale || box.x0 > cut) << "the arrow runs 6.6 mm to the left";
}

TEST(Placed, OverAWasteThatStandsNothingIsCalledABore) {
  // Source: the job: nobody bores at 9 Chandlers Row; the note that says so is the one that may say bored.
  const Drawn& d = drawn_demo("chandlers-row-9");
  for (const char* name : {"plan", "bed"}) {
    for (const std::string& note : d.sheet(name).notes) EXPECT_EQ(note.find("bore"), note.find("bored")) << note;
    for (const Text& text : d.sheet(name).texts)
      EXPECT_EQ(text.words.find("bore"), text.words.find("bored")) << name << ": " << text.words;
  }
  EXPECT_TRUE(has_words(drawn_demo("tannery-lane-2a").sheet("bed"), "bore"));
}

TEST(Placed, TheDotOfALayerStandsInItsField) {
  // Source: by hand: a dot of 0.75 mm radius that meets a heavy edge points at two layers.
  const Drawn d = at_random(70016);
  const Sheet& sheet = d.sheet("drain-flange");
  int dots = 0;
  for (const Arc& dot : sheet.arcs) {
    if (std::abs(dot.radius - 0.75 * sheet.page.scale) > 1e-6) continue;
    ++dots;
    for (const Line& edge : sheet.lines) {
      if (edge.kind != LineKind::section) continue;
      const double dx = edge.to.x - edge.from.x, dy = edge.to.y - edge.from.y;
      const double t = std::clamp(
          ((dot.centre.x - edge.from.x) * dx + (dot.centre.y - edge.from.y) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
      EXPECT_GT(apart(dot.centre, {edge.from.x + t * dx, edge.from.y + t * dy}), dot.radius);
    }
  }
  EXPECT_EQ(dots, 4) << "base, bed, subfloor, drain";
}

TEST(Placed, AFallAlongAHipIsToldOnTheFloor) {
  // Source: the solids: the floor ends at the threshold's inner edge; what is written past that is led over it.
  Drawn d = at_random(70016);
  for (rules::Result& r : d.judgement.results)  // of a base that is void none is told
    if (r.outcome == rules::Outcome::fail) r.outcome = rules::Outcome::pass;
  d.sheets = draw(*d.model, {d.facts, d.cuts, {}, d.rows, d.judgement});
  const double rim = part(d.facts, facts::Role::base).bbox_mm[1] + d.model->job.base.threshold.width.in_mm();
  int told = 0;
  for (const Text& text : d.sheet("falls").texts) {
    if (text.words.rfind("along ", 0) != 0) continue;
    ++told;
    EXPECT_GT(box_of(text).y0, rim) << text.words;
  }
  EXPECT_EQ(told, 4);
}

TEST(Placed, TheCrossesThatJoinTilesRunThroughNoWord) {
  // Source: by hand: a cross is two strokes of 8 mm; in this room one would stand on the name of a joist.
  const Drawn d = drawn(job::read(sample::random_room(9013), "random.toml"), false);
  int strokes = 0;
  for (const Sheet& sheet : d.sheets) {
    if (sheet.name.rfind("bench-profile", 0) != 0) continue;
    for (const Line& line : sheet.lines) {
      if (line.kind != LineKind::centre || std::abs(apart(line.from, line.to) - 8) > 1e-6) continue;
      ++strokes;
      const Box box{std::min(line.from.x, line.to.x), std::min(line.from.y, line.to.y),
                    std::max(line.from.x, line.to.x), std::max(line.from.y, line.to.y)};
      for (const Text& text : sheet.texts) EXPECT_FALSE(meet(box_of(text), box)) << sheet.name << ": " << text.words;
    }
  }
  EXPECT_GE(strokes, 4);
}

TEST(Sections, AStudThatLeansStandsWhereItIsAtTheHeightOfTheCut) {
  // Source: by hand: a straight stud's face at a height, between its lowest and its highest points.
  int leaning = 0;
  for (const unsigned seed : {90512u, 90117u}) {
    const Drawn d = drawn(job::read(sample::random_room(seed), "random.toml"), false);
    const Subject subject{{d.facts, d.cuts, {}, d.rows, d.judgement}, *d.model};
    const Cut cut = bed_cut(subject);
    const facts::Family wall{facts::Role::wall, job::Side::back};
    const auto whole = frame_behind(subject, cut, wall, facts::Kind::stud);
    if (!whole) continue;
    const double low = whole->y0 + 1, high = whole->y1 - 1, middle = (low + high) / 2;
    const auto at = [&](double z) { return *frame_behind(subject, cut, wall, facts::Kind::stud, z); };
    EXPECT_NEAR(at(middle).x0, (at(low).x0 + at(high).x0) / 2, 1e-6) << seed;
    EXPECT_NEAR(std::min(at(low).x0, at(high).x0), whole->x0, 0.1) << "its foremost point is at an end";
    leaning += std::abs(at(low).x0 - at(high).x0) > 1;
  }
  EXPECT_GT(leaning, 0);
}

TEST(Sections, TheBenchStandsOnWhatIsBehindTheSection) {
  // Source: the solids' boxes: in the section's view upright lines as long as a stud of the frame, where none is cut.
  for (const char* job : {"ferry-steps-3", "tannery-lane-5c"}) {
    const Drawn d = drawn_demo(job);
    const Sheet& sheet = d.sheet("bench-section");
    bool stands = false;
    for (const facts::Part& part : d.facts.parts) {
      if (part.which.family.role != facts::Role::bench_frame || part.which.kind != facts::Kind::stud) continue;
      for (const Line& line : sheet.lines)
        stands |= std::abs(line.from.x - line.to.x) < 1e-6 &&
                  std::abs(std::min(line.from.y, line.to.y) - part.bbox_mm[2]) < 0.01 &&
                  std::abs(std::max(line.from.y, line.to.y) - part.bbox_mm[5]) < 0.01;
    }
    EXPECT_TRUE(stands) << job;
  }
}

TEST(Strips, LinesStandWhereTheirFiguresSay) {
  // Source: the figures, read back: a rule laid on the paper finds what is printed.
  int lines = 0;
  for (const char* job : {"chandlers-row-7", "ferry-steps-3", "tannery-lane-2a"}) {
    const Drawn d = drawn_demo(job);
    for (const Sheet& sheet : d.sheets) {
      if (sheet.name.rfind("gauge-strip", 0) != 0 && sheet.name.rfind("story-stick", 0) != 0) continue;
      for (const Dimension& mark : sheet.dimensions) {
        std::string why;
        const auto read =
            units::parse_length(mark.words, sheet.metric ? units::LengthUnit::mm : units::LengthUnit::inch, why);
        ASSERT_TRUE(read) << mark.words;
        EXPECT_NEAR(mark.to.x - mark.from.x, read->in_mm(), 1e-6) << job << ", " << sheet.name << ": " << mark.words;
        ++lines;
      }
    }
  }
  EXPECT_GT(lines, 10);
}

TEST(Sections, AJoistCutAlongItsLengthShowsItsGrain) {
  // Source: by hand: in both rooms joists run to the back; the section through the drain of the one, a channel to which
  // the floor falls from the entry, is cut along them, that of the other across.
  const auto grain = [](const Drawn& d) {
    std::set<bool> found;
    for (const Hatch& hatch : d.sheet("drain").hatches)
      if (hatch.source.part_id.find("joist") != std::string::npos) found.insert(!hatch.families.empty());
    return found;
  };
  EXPECT_EQ(grain(drawn(job::read(sample::random_room(90407), "random.toml"), false)), std::set<bool>{true});
  EXPECT_EQ(grain(drawn_demo("coopers-yard-4")), std::set<bool>{false});
}

}  // namespace
}  // namespace fallwright::drawing
