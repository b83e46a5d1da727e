/// Keys of one kind of base alone: what belongs to which, what must be read, what cannot be true.
#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "job/describe.hpp"
#include "job/layout.hpp"
#include "job/read.hpp"

namespace fallwright::job {
namespace {

using std::string;

/// A room with a section of the base as it is given, from line 7 on.
Job with_base(const string& base, const string& drain = "") {
  return read("[job]\nname = \"x\"\nunit = \"in\"\n[alcove]\nwidth = \"60 in\"\ndepth = \"36 in\"\n" + base +
                  "\n[drain]\nfrom_left = \"30 in\"\nfrom_back = \"16 in\"\n" + drain,
              "x.toml");
}

string faults_with(const string& base, const string& drain = "") {
  try {
    with_base(base, drain);
  } catch (const diag::JobFaults& e) {
    return e.what();
  }
  return "";
}

bool has(const string& text, const string& part) {
  return text.find(part) != string::npos;
}

const string bought =
    "[base]\nkind = \"bought\"\nlength = \"59-7/8 in\"\nwidth = \"36 in\"\nshell = \"1/4 in\"\nrise = \"5/8 in\"\n"
    "[base.upstands]\nthickness = \"1/4 in\"\nheight = \"4 in\"\n"
    "[base.threshold]\nwidth = \"4 in\"\nheight = \"3 in\"\n";
const string ribs = "[base.ribs]\ncolumns = 8\nrows = 6\nwidth = \"1/4 in\"\n";
const string site = "[base]\nkind = \"site-built\"\n";
const string bed = "[bed]\nleast = \"1 in\"\n";

TEST(BaseKind, AKeyOfAnotherKindIsRefusedWithItsPlace) {
  // Source: the kinds' promise: a key that says nothing of this base is told, not overlooked.
  EXPECT_TRUE(has(faults_with(site + "length = \"60 in\"\n" + bed),
                  "x.toml:9:1: base.length: goes with base.kind = designed, bought only; this base is site-built"))
      << faults_with(site + "length = \"60 in\"\n" + bed);
  EXPECT_TRUE(has(faults_with("[base]\nlength = \"58 in\"\nwidth = \"36 in\"\nweight = \"60 lb\"\n"),
                  "x.toml:10:1: base.weight: goes with base.kind = bought only; this base is designed"));
  EXPECT_TRUE(
      has(faults_with(site + bed + "holdback = 0\n"), "bed.holdback: goes with base.kind = designed, bought only"));
  EXPECT_TRUE(has(faults_with(site + bed + "[as_set]\nback_left = 0\n"), "as_set.back_left: goes with base.kind"));
  EXPECT_TRUE(has(faults_with(site + bed, "waste_from_left = \"30 in\"\n"), "drain.waste_from_left: goes with"));
  EXPECT_TRUE(has(faults_with("[base]\nkind = \"borrowed\"\nlength = \"58 in\"\nwidth = \"36 in\"\n"), "base.kind"));
}

TEST(BaseKind, MortarThatIsScreededToAFallIsStiff) {
  // Source: common practice, no source: soft mortar runs off a slope; only ribs that sink in ask for it.
  EXPECT_TRUE(has(faults_with(site + bed + "wetness = \"soft\"\n"), "bed.wetness: mortar that is screeded to a fall"));
  EXPECT_EQ(faults_with(site + bed + "wetness = \"stiff\"\n"), "");
}

TEST(BaseKind, AWasteIsReadFromOneSideWall) {
  // Source: none; two readings of one place that disagree settle nothing.
  EXPECT_TRUE(has(faults_with("[base]\nkind = \"bought\"\nlength = \"58 in\"\nwidth = \"36 in\"\n",
                              "waste_from_left = \"30 in\"\nwaste_from_right = \"30 in\"\n"),
                  "drain.waste_from_right: give either this or 'waste_from_left', not both"));
}

TEST(BaseKind, OfABoughtBaseNothingIsAssumedThatATapeCanTell) {
  // Source: the kinds' promise.
  const string none = faults_with("[base]\nkind = \"bought\"\nlength = \"59-7/8 in\"\nwidth = \"36 in\"\n");
  for (const char* key : {"base.shell", "base.upstands.thickness", "base.threshold.height", "base.ribs.columns",
                          "base.rim.height", "base.rim.left"})
    EXPECT_TRUE(has(none, string{key} + ": is missing")) << key << "\n" << none;
  EXPECT_EQ(faults_with(bought + ribs + "deepest = \"1-1/2 in\"\n"), "");
  // Of what it has none nothing is asked for, and what is said of it all the same is told as not used.
  const string flat =
      "[base]\nkind = \"bought\"\nlength = \"59-7/8 in\"\nwidth = \"36 in\"\nshell = \"1/4 in\"\nrise = "
      "\"5/8 in\"\n[base.upstands]\nthickness = 0\n[base.threshold]\nwidth = 0\n" +
      ribs + "deepest = \"1-1/2 in\"\n";
  EXPECT_EQ(faults_with(flat), "");
  EXPECT_TRUE(has(faults_with(site), "bed.least: is missing"));
}

TEST(BaseKind, SidesAndDiagonalsOfABaseCloseOrAreReadAgain) {
  // Source: by hand: a square of 59 by 36 has diagonals of 69.116; one of 70 is none of it.
  const string rest =
      "shell = \"1/4 in\"\nrise = \"5/8 in\"\nrib_depth = \"1/2 in\"\n" + bought.substr(bought.find("[base.u")) + ribs;
  const auto outside = [&](const string& diagonals) {
    return "[base]\nkind = \"bought\"\n" + rest +
           "[base.outside]\nback = \"59 in\"\nfront = \"59 in\"\nleft = \"36 in\"\nright = \"36 in\"\n" + diagonals;
  };
  const string one = "diagonal_from_back_left = \"69-1/8 in\"\n";
  const Job job = with_base(outside(one));
  ASSERT_TRUE(job.base.tape.outline);
  EXPECT_NEAR(job.base.length.in_mm(), 59 * 25.4, 2);
  const string round = "[as_set]\nback_left = 0\nback_right = 0\nfront_left = 0\n";
  EXPECT_EQ(faults_with(outside(one) + round), "") << "they span a base whose size its sides tell";
  EXPECT_TRUE(has(faults_with(outside(one) + "[as_set]\nfront = 0\nback = 0\n[as_set.threshold]\nmiddle = 0\n"),
                  "in one line; read a corner as well"));
  EXPECT_TRUE(has(faults_with(outside("")), "four sides and a diagonal fix a base's outline"))
      << faults_with(outside(""));
  EXPECT_TRUE(has(faults_with(outside(one + "diagonal_from_back_right = \"70 in\"\n")), "again"));
  // Of ribs nothing is said before their outline is known: what was read wrong is read again first.
  const string shallow = "deepest = \"1/8 in\"\n", other = "diagonal_from_back_right = \"70 in\"\n";
  const auto with_ribs = [&](const string& diagonals) {
    string text = outside(diagonals);
    const string depth = "rib_depth = \"1/2 in\"\n";
    text.erase(text.find(depth), depth.size());
    return faults_with(text.replace(text.find(ribs), ribs.size(), ribs + shallow));
  };
  EXPECT_TRUE(has(with_ribs(one), "base.ribs.")) << with_ribs(one);
  EXPECT_FALSE(has(with_ribs(one + other), "base.ribs.")) << with_ribs(one + other);
  EXPECT_TRUE(has(faults_with(bought + ribs + "deepest = \"1-1/2 in\"\n[base.outside]\nback = \"60 in\"\n"),
                  "give either this or [base.outside]"));
}

TEST(BaseKind, TheDeepestPocketAndTheRimsHeightMustAgree) {
  // Source: by hand: at the back left corner upstand and rib are alike 1/4 in, so that a rim on 1/4 in of shell over a
  // pocket of 1-1/2 in stands 1-3/4 in high; 2-1/2 in is read wrong.
  const string corner = "deepest = \"1-1/2 in\"\ndeepest_at = \"back-left\"\n";
  EXPECT_EQ(faults_with(bought + "[base.rim]\nheight = \"1-3/4 in\"\nheight_at = \"back-left\"\n" + ribs + corner), "");
  EXPECT_TRUE(has(faults_with(bought + "[base.rim]\nheight = \"2-1/2 in\"\n" + ribs + corner), "measure both again"));
  // A pocket of 1/2 in under a rim 5/8 in above the drain: the underside would lie below what it stands on.
  EXPECT_TRUE(has(faults_with(bought + ribs + "deepest = \"1/2 in\"\n"), "below the surface the base lies on"));
}

TEST(BaseKind, WhatWasReadTwiceByTwoKeysIsRefused) {
  // Source: the kinds' promise: nothing that was typed is overlooked.
  const string corner = "deepest = \"1-1/2 in\"\ndeepest_at = \"back-left\"\n";
  EXPECT_TRUE(has(faults_with(bought + "[base.rim]\nleft = \"5/8 in\"\n" + ribs + corner),
                  "base.rim.left: tells what base.rise tells"));
  string deep = bought;
  deep.replace(deep.find("rise ="), 6, "rib_depth = \"1 in\"\nrise =");
  EXPECT_TRUE(has(faults_with(deep + ribs + corner), "base.ribs.deepest: tells the depth of the ribs"));
}

TEST(BaseKind, AFaultNamesKeysThatThisKindHas) {
  // Source: the kinds' promise: whoever follows a message must not be refused for it.
  const string bonded = site + "waterproofing = \"bonded\"\n" + bed;
  for (const char* opening : {"opening = \"round\"\n", "opening = \"square\"\n"}) {
    const string thin = faults_with(bonded, string{opening} + "recess = \"1/2 in\"\n");
    EXPECT_TRUE(has(thin, "base.cover")) << thin;
    for (const char* foreign : {"rib", "shell", "flat"}) EXPECT_FALSE(has(thin, foreign)) << thin;
  }
  // By hand: a cone from 3/8 in under a round opening of 4 in leaves a little less than 2 mm, and both are told apart.
  const string little = faults_with(bonded + "", "opening = \"round\"\nsize = \"4 in\"\nrecess = \"0.43 in\"\n");
  EXPECT_TRUE(has(little, "at least 0.079\" is needed")) << little;
}

TEST(BaseKind, ALevelLineBelowTheFloorIsRefused) {
  // Source: marks are read down from the line: on 4 in of bed and 1-1/2 in of top coat a line at 5 in lies below them.
  const string deep = site + "[base.screed]\nline = \"5 in\"\n[bed]\nleast = \"4 in\"\n";
  EXPECT_TRUE(has(faults_with(deep), "base.screed.line: a level line 5\" above the datum")) << faults_with(deep);
  EXPECT_EQ(faults_with(site + "[base.screed]\nline = \"7 in\"\n[bed]\nleast = \"4 in\"\n"), "");
}

TEST(BaseKind, AStartersRoomIsOneThatIsBuilt) {
  // Source: common practice, no source: no slab is as thin as a deck, and a base that is delivered comes finished.
  for (const BaseKind kind : {BaseKind::designed, BaseKind::bought, BaseKind::site_built}) {
    const Job job = read(starter(UnitSystem::metric, kind), "s.toml");
    EXPECT_EQ(job.floor.kind, FloorKind::slab);
    EXPECT_NE(starter(UnitSystem::metric, kind).find("\n# deck = 100"), string::npos);
  }
  const std::vector<Tiled> walls{Tiled::walls};
  EXPECT_EQ(read(starter(UnitSystem::inch, BaseKind::bought), "s.toml").buy.tile.surfaces, walls);
}

TEST(BaseKind, EveryStarterOfAKindReadsBack) {
  // Source: the starter's promise, in both units.
  for (const UnitSystem unit : {UnitSystem::inch, UnitSystem::metric})
    for (const BaseKind kind : {BaseKind::designed, BaseKind::bought, BaseKind::site_built}) {
      const string text = starter(unit, kind);
      EXPECT_NO_THROW({ EXPECT_EQ(read(text, "s.toml").base.kind, kind); }) << text;
      EXPECT_LT(std::count(text.begin(), text.end(), '\n'), 60) << "short";
    }
}

TEST(Starter, WritesNoReadingThatNobodyTook) {
  // Source: none; what is there already is told by a tape alone, and what a starter wrote would pass for that.
  for (const UnitSystem unit : {UnitSystem::inch, UnitSystem::metric}) {
    const Job job = read(starter(unit), "s.toml");
    for (const char* key : {"floor.deck", "floor.joists.stock", "floor.joists.spacing", "floor.joists.direction",
                            "drain.body", "drain.body_depth", "drain.outlet", "tile.height"})
      EXPECT_TRUE(job.is_default(key)) << key;
    EXPECT_FALSE(job.floor.joist_first || job.floor.joist_span || job.floor.finish_outside || job.trap);
    EXPECT_NE(starter(unit).find("\n# body_depth = "), string::npos) << "and has it to be read";
  }
}

TEST(Starter, AShortOneWritesNoReadingThatAJobMayLack) {
  // Source: none; what is there already is told by a tape alone, and what a starter wrote would pass for that.
  for (const UnitSystem unit : {UnitSystem::inch, UnitSystem::metric}) {
    for (const BaseKind kind : {BaseKind::designed, BaseKind::bought, BaseKind::site_built}) {
      const Job job = read(starter(unit, kind), "s.toml");
      for (const char* key : {"floor.deck", "drain.body", "drain.body_depth", "drain.outlet", "tile.height"})
        EXPECT_TRUE(job.is_default(key)) << key;
      EXPECT_NE(starter(unit, kind).find("\n# deck = "), string::npos) << "and has it to be read";
    }
    const Job bought = read(starter(unit, BaseKind::bought), "s.toml");
    for (const char* key : {"drain.opening", "drain.size", "base.upstands.sides", "base.threshold.fall"})
      EXPECT_TRUE(bought.is_default(key)) << key;
    const Job built = read(starter(unit, BaseKind::site_built), "s.toml");
    EXPECT_TRUE(built.survey.spots.empty());
    EXPECT_FALSE(built.survey.plan.from_back_left || built.survey.plan.from_back_right);
  }
}

TEST(BaseKind, AStarterOfABaseBuiltOnSiteBeginsWithTheRoomAsItStands) {
  // Source: docs/site-built-base.md: its outline is that of the room, its bed lies on the floor as read; what is
  // measured comes before what is decided.
  for (const UnitSystem unit : {UnitSystem::inch, UnitSystem::metric}) {
    const string text = starter(unit, BaseKind::site_built);
    const Job job = read(text, "s.toml");
    EXPECT_TRUE(job.survey.plan.back && job.survey.plan.right) << text;
    for (const char* waits : {"\n# diagonal_from_back_left = ", "\n# diagonal_from_back_right = ", "\n# spots = "})
      EXPECT_NE(text.find(waits), string::npos) << waits;
    std::size_t last = 0;
    for (const char* section : {"[survey.plan]", "[survey.floor]", "[drain]", "[base]", "[bed]", "[mix]"}) {
      const std::size_t at = text.find(section);
      ASSERT_NE(at, string::npos) << section;
      EXPECT_GT(at, last) << section;
      last = at;
    }
  }
}

TEST(BaseKind, WhereNothingIsSaidALedgeIsNoDeeperThanTheTileHolds) {
  // Source: by hand: a ledge of 3/8 in 1/2 of tile, which falls 1/4 in a foot over half of 4-1/4, leaves hardly
  // 2 mm under it and one of 7/16 less; half of the tile leaves 1/4 - 0.045. A ledge that was read stays what it is.
  const string bonded = site + "waterproofing = \"bonded\"\nfall = \"1/4 in/ft\"\n" + bed,
               round = "opening = \"round\"\nsize = \"4-1/4 in\"\n";
  EXPECT_NEAR(with_base(bonded, round).drain.recess.in_mm(), 6.35, 1e-9);
  EXPECT_TRUE(has(faults_with(bonded, round + "recess = \"7/16 in\"\n"), "take a drain with a shallower ledge"));
  EXPECT_NEAR(with_base(site + "waterproofing = \"liner\"\n" + bed, round).drain.recess.in_mm(), 9.525, 1e-9);
}

TEST(BaseKind, BesideABenchAtAnEndABaseStandsTightToIt) {
  // Source: the key's meaning, and that a bench's apron stands on the base's edge.
  const string base = "[base]\nlength = \"45 in\"\nwidth = \"36 in\"\n",
               bench = "[bench]\nplace = \"left-end\"\ndepth = \"14 in\"\nheight = \"18 in\"\n";
  EXPECT_EQ(faults_with(base, bench), "");
  EXPECT_EQ(faults_with(base + "against = \"left\"\n", bench), "");
  for (const char* away : {"against = \"right\"\n", "against = \"middle\"\n"})
    EXPECT_TRUE(has(faults_with(base + away, bench), "base.against: the bench stands at the left end"))
        << faults_with(base + away, bench);
}

/// A flat slab of a base with a round hole: what a file would tell, without one.
std::shared_ptr<const Body> slab(double length, double width) {
  Body body;
  body.outline = Quad{survey::Rect{0, 0, length, width}};
  body.floor = body.outline;
  body.hole = {400, 400}, body.hole_size = 80, body.drain_top = 30, body.rim = 50, body.recess = 10;
  body.opening_box = {350, 350, 450, 450};
  body.top.push_back({{{{{0, 0}}, {{length, 0}}, {{length, width}}, {{0, width}}}}, {30, 0, 0.02}, "base-floor/back"});
  return std::make_shared<const Body>(body);
}

TEST(BaseFile, StarterReadsBackBesideAFile) {
  // Source: the starter's promise, in both units.
  for (const UnitSystem unit : {UnitSystem::inch, UnitSystem::metric}) {
    const string text = starter_with_file(unit);
    EXPECT_LT(std::count(text.begin(), text.end(), '\n'), 40) << "short";
    const Job job = read(text, "s.toml", [](const BodyFile& file) {
      EXPECT_EQ(file.name, "base.step");
      return slab(1500, 900);
    });
    EXPECT_EQ(job.base.made, Made::bought);
    EXPECT_NEAR(job.base.length.in_mm(), 1500, 1e-9);
    EXPECT_NEAR(job.drain.across.distance.in_mm(), 400, 1e-9);
    EXPECT_NEAR(job.drain.along.distance.in_mm(), 500, 1e-9);
  }
}

TEST(BaseFile, HeightsAreThoseOfTheFileOverItsBed) {
  // Source: by hand: on a bed of 12 mm; the drain's top 30 above that, upstands 100 above the drain; beside a bench
  // they end where the file's own do, since its apron stands on them: 120 at the left, 90 at the right.
  Job job = read(starter_with_file(UnitSystem::metric), "s.toml", [](const BodyFile&) {
    Body body = *slab(1500, 900);
    body.top_mm = {};
    body.top_mm[static_cast<std::size_t>(Side::left)] = 120, body.top_mm[static_cast<std::size_t>(Side::right)] = 90;
    body.threshold_inner = 61, body.threshold_outer = 59;
    return std::make_shared<const Body>(body);
  });
  job.bed.least = Length::mm(12);
  job.base.upstand_height = Length::mm(100);
  job.base.upstands = {Side::left, Side::right};
  const Layout open = lay_out(job);
  EXPECT_NEAR(open.rib_plane, 12, 1e-9);
  EXPECT_NEAR(open.drain_top, 42, 1e-9);
  EXPECT_NEAR(open.drain_edge, 42, 1e-9);
  EXPECT_NEAR(open.rim_of_body.value(), 62, 1e-9);
  EXPECT_NEAR(open.threshold_inner, 73, 1e-9);
  EXPECT_NEAR(open.threshold_outer, 71, 1e-9);
  EXPECT_NEAR(open.upstand_top, 142, 1e-9);
  job.bench.emplace();
  job.bench->depth = Length::mm(300);
  for (const auto& [place, top] : {std::pair{Side::left, 132.}, {Side::right, 102.}}) {
    job.bench->place = place;
    EXPECT_NEAR(lay_out(job).upstand_top, top, 1e-9) << name_of(place);
  }
  job.base.upstands = {Side::left};
  EXPECT_NEAR(lay_out(job).upstand_top, 142, 1e-9) << "nothing turns up beside the bench";
}

TEST(BaseFile, WhoseBaseIsNoneIsTheKeysFault) {
  // Source: none; the message stands at the key that a person would change.
  const string text = starter_with_file(UnitSystem::inch);
  for (const char* key : {"base.file", "base.file_back"}) try {
      read(text, "s.toml", [&](const BodyFile&) -> std::shared_ptr<const Body> { throw NoBody{"two bodies", key}; });
      FAIL() << key;
    } catch (const diag::JobFaults& e) {
      ASSERT_EQ(e.faults().size(), 1u);
      EXPECT_EQ(e.faults()[0].key, key);
      EXPECT_EQ(e.faults()[0].message, "two bodies");
    }
  EXPECT_THROW(read(text, "s.toml"), diag::JobFaults) << "nobody there to read it";
}

TEST(BaseFile, OfABaseThatDoesNotFitIsRefusedByItsNumbers) {
  // Source: the sum of the room: base against alcove; the file's own size is the file's to change.
  const string text = starter_with_file(UnitSystem::metric);
  try {
    read(text, "s.toml", [](const BodyFile&) { return slab(1700, 900); });
    FAIL();
  } catch (const diag::JobFaults& e) {
    ASSERT_EQ(e.faults().size(), 1u);
    EXPECT_EQ(e.faults()[0].key, "base.file");
    EXPECT_NE(e.faults()[0].message.find("1700 mm"), string::npos) << e.faults()[0].message;
  }
}

}  // namespace
}  // namespace fallwright::job
