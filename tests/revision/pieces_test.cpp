// What of an older cut list serves in a newer one.
#include <gtest/gtest.h>

#include "revision/changes.hpp"
#include "revision/pieces.hpp"
#include "takeoff/need.hpp"

namespace fallwright {
namespace {

using revision::Use;
using takeoff::CutRow;

constexpr double in = 25.4, kerf = 0.125 * in;

CutRow sticks(const char* mark, double length_in, int count, const char* ends = "square") {
  CutRow row;
  row.mark = mark;
  row.stock = "2x4";
  row.length_mm = row.short_mm = length_in * in;
  row.width_mm = 3.5 * in;
  row.thickness_mm = 1.5 * in;
  row.count = count;
  row.ends = ends;
  row.taper = takeoff::taper_named(ends);
  return row;
}

CutRow sheet(const char* mark, double length_in, double width_in) {
  CutRow row = sticks(mark, length_in, 1);
  row.stock = "deck sheet";
  row.sheet = true;
  row.width_mm = width_in * in;
  row.thickness_mm = 0.75 * in;
  return row;
}

/// "serves 2 A<-B", one for each use.
std::vector<std::string> told(const std::vector<CutRow>& was, const std::vector<CutRow>& now,
                              revision::Tapes tapes = {}) {
  std::vector<std::string> words;
  const revision::Pieces pieces = revision::pieces_of(was, now, kerf, tapes);
  for (const revision::PieceUse& p : pieces.uses)
    words.push_back(std::string{name_of(p.use)} + " " + std::to_string(p.count) + " " + p.mark + "<-" + p.from);
  for (const revision::PieceLeft& p : pieces.left) words.push_back("left " + std::to_string(p.count) + " " + p.mark);
  return words;
}

using Words = std::vector<std::string>;

TEST(Changes, WhatWaitsIsOnHoldAndNoAmount) {
  // Source: by hand: 4 bags that wait and 5 that do not; what waits on both sides has not changed.
  takeoff::Row bags, tile;
  bags.item = "mortar, bags", bags.buy = 4, bags.buy_unit = "bags", tile = bags, tile.item = "tile";
  revision::State was, now;
  was.rows = now.rows = {bags, tile};
  was.rows[0].hold = was.rows[1].hold = takeoff::Hold{takeoff::HangsOn::base, "floor.fall-least", "floor falls enough"};
  now.rows[0].buy = 5, now.rows[1].buy = 6, now.rows[1].hold = was.rows[1].hold;
  const auto changed = revision::changes(was, now).to_buy;
  ASSERT_EQ(changed.size(), 1u);
  EXPECT_EQ(changed[0].was, "HOLD");
  EXPECT_EQ(changed[0].now, "5 bags");
}

TEST(Changes, WhatIsBoughtInPartAndHeldInPartIsComparedPartByPart) {
  // Source: by hand: nothing changed of a stock of which one stick is bought and two wait.
  takeoff::Row free, held;
  free.item = held.item = "2x4, for furring", free.buy_unit = held.buy_unit = "sticks of 8 ft";
  free.buy = 1, held.buy = 2, held.hold = takeoff::Hold{takeoff::HangsOn::base, "fit.no-clash", "nothing clashes", ""};
  revision::State was, now;
  was.rows = {held, free}, now.rows = {free, held};
  EXPECT_TRUE(revision::changes(was, now).to_buy.empty());
}

takeoff::Row goods(const char* item, double buy, const char* unit, double pack = 0, const char* product = "") {
  takeoff::Row row;
  row.item = item, row.buy = buy, row.buy_unit = unit, row.unit = "pieces", row.pack = pack, row.product = product;
  return row;
}

const takeoff::Hold on_base{takeoff::HangsOn::base, "floor.fall-least", "floor falls enough"};

/// "mortar, bags 1 bag", one for each row.
std::vector<std::string> told(const std::vector<takeoff::Row>& rows) {
  std::vector<std::string> words;
  for (const takeoff::Row& row : rows) words.push_back(row.item + " " + takeoff::bought(row));
  return words;
}

TEST(Purchases, AreWhatIsBoughtOverTheOlderOrderAndWhatOfThatIsOver) {
  // Source: by hand: 5 less 4 bags; 9 less 11 boxes; nails of another length are other goods, those of one kind are
  // had from one box, whatever they hold; what is on HOLD was not bought, or is not yet.
  revision::State was, now;
  was.rows = {goods("mortar, bags", 4, "bags"),
              goods("tile", 11, "boxes"),
              goods("felt", 15.32, "ft2"),
              goods("fasteners, bench at the wall", 1, "boxes", 100, "16d"),
              goods("fasteners, bench joists", 1, "boxes", 100, "8d"),
              goods("sealant", 2, "cartridges"),
              goods("flashing", 16, "ft")};
  now.rows = {goods("mortar, bags", 5, "bags"),
              goods("tile", 9, "boxes"),
              goods("felt", 16, "ft2"),
              goods("fasteners, bench rail", 1, "boxes", 100, "16d"),
              goods("fasteners, bench joists", 2, "boxes", 100, "10d"),
              goods("sealant", 3, "cartridges")};
  was.rows[5].hold = on_base;
  revision::Purchases found = revision::changes(was, now).purchases;
  EXPECT_EQ(told(found.more), (std::vector<std::string>{"mortar, bags 1 bag", "felt 0.68 ft2",
                                                        "fasteners, bench joists 2 boxes", "sealant 3 cartridges"}));
  EXPECT_EQ(told(found.over),
            (std::vector<std::string>{"tile 2 boxes", "fasteners, bench joists 1 box", "flashing 16 ft"}));
  EXPECT_TRUE(found.waits.empty());
  now.rows[0].hold = now.rows[1].hold = on_base;
  found = revision::changes(was, now).purchases;
  EXPECT_EQ(found.waits, (std::vector<std::string>{"mortar, bags", "tile"}));
  EXPECT_EQ(found.more.size(), 3u);
  EXPECT_EQ(found.over.size(), 2u);
}

TEST(Purchases, OfALinerAreAllOfItWhereAnyOfItGrew) {
  // Source: by hand: a liner lies and turns up in one piece; a smaller one is cut from what is there.
  revision::State was, now;
  was.rows = {goods("liner, floor", 14, "ft2"), goods("liner, turned up", 13, "ft2")};
  now.rows = {goods("liner, floor", 13.5, "ft2"), goods("liner, turned up", 13.5, "ft2")};
  revision::Purchases found = revision::changes(was, now).purchases;
  EXPECT_EQ(told(found.more), (std::vector<std::string>{"liner, floor 13.50 ft2", "liner, turned up 13.50 ft2"}));
  EXPECT_EQ(told(found.over), (std::vector<std::string>{"liner, floor 14 ft2", "liner, turned up 13 ft2"}));
  now.rows[1].buy = 12;
  found = revision::changes(was, now).purchases;
  EXPECT_TRUE(found.more.empty());
  EXPECT_TRUE(found.over.empty());
}

TEST(Purchases, AcrossUnitsAreOfTheSameGoods) {
  // Source: by hand: 100 ft2 are 9.29 m2; a cartridge of 18.23 in3 holds 298.7 mL, as good as 300; a bag of 0.45 ft3
  // holds 12.7 L, another one than that of 12 L.
  revision::State was, now;
  was.job.unit = job::UnitSystem::inch, now.job.unit = job::UnitSystem::metric;
  was.rows = {goods("felt", 100, "ft2"), goods("sealant", 2, "cartridges", 18.23), goods("mortar", 4, "bags", 0.45)};
  now.rows = {goods("felt", 10, "m2"), goods("sealant", 2, "cartridges", 300), goods("mortar", 5, "bags", 12)};
  was.rows[1].unit = "in3", now.rows[1].unit = "mL", was.rows[2].unit = "ft3", now.rows[2].unit = "L";
  const revision::Purchases found = revision::changes(was, now).purchases;
  EXPECT_EQ(told(found.more), (std::vector<std::string>{"felt 0.71 m2", "mortar 5 bags"}));
  EXPECT_EQ(told(found.over), (std::vector<std::string>{"mortar 4 bags"}));
}

TEST(Changes, ASeatBlockAtItsOtherEndIsItsMirrorImageOrTheSameTurned) {
  // Source: by hand: a block 381 x 914 whose middle lies 212 from one end and 467 from its front: at the other end of
  // the room it is 169 from that, and no turn makes it so, as of a hand; with its middle at 457, half way, half a turn
  // does.
  const auto block = [](double x, double y) {
    return revision::Article{"seat block", {381, 914, 401}, {x, y, 277}, {}, 17e6};
  };
  revision::State was, now;
  was.rows = now.rows = {goods("seat block", 1, "pieces")};
  was.articles = {block(212, 467)}, now.articles = {block(169, 467)};
  revision::Changes all = revision::changes(was, now);
  ASSERT_EQ(all.to_buy.size(), 1u);
  EXPECT_NE(all.to_buy[0].now.find("its mirror image; one that is there does not fit"), std::string::npos);
  EXPECT_EQ(told(all.purchases.more), (std::vector<std::string>{"seat block 1 piece"}));
  was.articles = {block(212, 457)}, now.articles = {block(169, 457)};
  all = revision::changes(was, now);
  EXPECT_TRUE(all.to_buy.empty());
  EXPECT_TRUE(all.purchases.more.empty() && all.purchases.over.empty());
  now.articles = {block(171, 457)};
  EXPECT_NE(revision::changes(was, now).to_buy.at(0).now.find("of another shape"), std::string::npos);
}

TEST(Changes, ABlockThatChangedByLessThanAMarkOfTheTapeServes) {
  // Source: by hand: an apron 0.18 mm shorter is another block to no tape, one a sixteenth shorter is; by millimetres
  // what is a whole one off.
  const auto block = [](double high) {
    return revision::Article{"seat block", {381, 914, high}, {212, 467, high / 2}, {}, 381 * 914 * high};
  };
  revision::State was, now;
  was.rows = now.rows = {goods("seat block", 1, "pieces")};
  was.articles = {block(285.608)};
  const auto orders = [&](double high) {
    now.articles = {block(high)};
    return revision::changes(was, now).to_buy.size();
  };
  EXPECT_EQ(orders(285.432), 0u);
  EXPECT_EQ(orders(285.608 - 1.5), 0u);
  EXPECT_EQ(orders(285.608 - 1.6), 1u);
  was.job.unit = now.job.unit = job::UnitSystem::metric;
  EXPECT_EQ(orders(285.608 - 0.9), 0u);
  EXPECT_EQ(orders(285.608 - 1.1), 1u);
}

TEST(Changes, TellByHowMuchTheDatumMovedAndWhatWasToldFromIt) {
  // Source: by hand: a hump of 3/16 in was ground down; the four other spots lie 3/16 higher above the new datum. A hub
  // that was typed from the old one is told, one that was read again is not. In a mirror, or in millimetres, the same.
  revision::State was, now;
  for (const bool metric : {false, true})
    for (const double wide : {0., 1500.}) {
      const auto x = [&](double mm) { return std::abs(wide - mm); };
      was.job.unit = now.job.unit = metric ? job::UnitSystem::metric : job::UnitSystem::inch;
      was.spots = {{x(50), 50, -9}, {x(1450), 50, -7}, {x(1450), 900, -8}, {x(50), 900, -6}, {x(700), 500, 0}};
      now.spots = was.spots;
      for (facts::Point& spot : now.spots) spot[2] += 3. / 16 * in;
      now.spots.back()[2] = 0;
      was.keys = {{"trap.hub", "\"-7 in\""}, {"trap.weir", "\"-8 in\""}, {"fixture[0].height", "\"34 in\""}};
      now.keys = {{"trap.hub", "\"-7 in\""}, {"trap.weir", "\"-7-13/16 in\""}, {"fixture[0].height", "\"34 in\""}};
      const std::string told = revision::changes(was, now).datum, by = metric ? "5 mm" : "3/16\"";
      EXPECT_NE(told.find("the datum lies " + by + " lower than before"), std::string::npos) << told;
      EXPECT_NE(told.find("give " + by + " higher: trap.hub, fixture[0].height"), std::string::npos) << told;
      EXPECT_NE(revision::changes(now, was).datum.find(by + " higher than before"), std::string::npos);
      EXPECT_EQ(revision::changes(was, was).datum, "");
    }
  now.spots.resize(2);  // two places tell nothing of the floor
  EXPECT_EQ(revision::changes(was, now).datum, "");
}

TEST(Changes, OfABaseBuiltOnSiteTellTheBedAtItsMarks) {
  // Source: the sheet of such a base: it has marks to screed to, and no points that a bed is spread at.
  facts::Facts facts;
  facts.room.gauges = {{"A1", 0, 0, 0, 10, 20, false}};
  facts.site_built.emplace().marks = {
      {"back wall", 0, {}, 2, 40, 60}, {"back wall", 300, {}, 0, 44, 60}, {"ray", 0, {}, 0, 30, 50}};
  std::vector<std::string> names;
  for (const revision::Size& size : revision::state_of({}, facts, {}, {}, {}).sizes)
    if (size.name.find(" at ") != std::string::npos)
      names.push_back(size.name + " " + std::to_string(static_cast<int>(size.value)));
  EXPECT_EQ(names, (Words{"bed at mark 1, back wall 38", "bed at mark 2, back wall 44", "bed at mark 1, ray 30"}));
}

TEST(Purchases, OfStockAreWhatNewPiecesTake) {
  // Source: by hand: 4 of 13-1/2 and three saw cuts are 54-3/8, out of 8 ft. With 4 of 40 they are 214 and the cuts:
  // 8 and 10 ft are 216, but four of 40 leave 15-1/2 and 39-1/2 of those, so it is 10 ft twice.
  revision::State was, now;
  was.job.unit = now.job.unit = job::UnitSystem::inch;
  now.job.cuts.kerf = units::Length::mm(kerf);
  now.job.cuts.sticks = {units::Length::inches(96), units::Length::inches(120)};
  was.cuts = {sticks("A", 40, 4), sticks("B", 13, 4)}, now.cuts = {sticks("A", 40, 4), sticks("B", 13.5, 4)};
  was.rows = {goods("2x4", 2, "sticks of 10 ft")}, now.rows = {goods("2x4", 3, "sticks of 8 ft")};
  was.rows[0].blanks = now.rows[0].blanks = takeoff::Blanks::sticks;
  EXPECT_EQ(told(revision::changes(was, now).purchases.more), (std::vector<std::string>{"2x4 1 stick of 8 ft"}));
  was.rows[0].hold = on_base;
  EXPECT_EQ(told(revision::changes(was, now).purchases.more), (std::vector<std::string>{"2x4 2 sticks of 10 ft"}))
      << "none of it was bought, so none was cut";
  now.rows[0].hold = on_base;
  EXPECT_TRUE(revision::changes(was, now).purchases.more.empty());
}

CutRow deck(double width_in) {
  CutRow row = sheet("A", 36, width_in);
  row.mark = units::to_text(units::Length::inches(width_in), false);
  return row;
}

TEST(Purchases, OfSheetsAreWhatThoseThatAreBegunDoNotGive) {
  // Source: by hand: 48 in of a sheet give 14-1/2, 15 and 18 with two cuts of 1/8, 47-3/4 in all, and not 18-1/2.
  revision::State was, now;
  was.job.unit = now.job.unit = job::UnitSystem::inch;
  now.job.cuts.kerf = units::Length::mm(kerf);
  was.rows = now.rows = {goods("deck sheet 3/4\", plywood", 1, "sheets 4 x 8 ft", 32)};
  was.rows[0].blanks = now.rows[0].blanks = takeoff::Blanks::sheets;
  was.cuts = {deck(14.5), deck(15)}, now.cuts = {deck(18)};
  was.cuts[0].length_mm = was.cuts[1].length_mm = 30 * in;
  EXPECT_TRUE(revision::changes(was, now).purchases.more.empty());
  now.cuts = {deck(18.5)};
  EXPECT_EQ(told(revision::changes(was, now).purchases.more),
            (std::vector<std::string>{"deck sheet 3/4\", plywood 1 sheet 4 x 8 ft"}));
}

TEST(Changes, ARowOfTheRecordThatFailsIsTold) {
  // Source: by hand: a fall as built that is recorded and fails, that then is mended, and one that passed all along.
  rules::BuiltRow steep{"fall of the floor, left", "2 %", "at least 2 %", "1 %", rules::Outcome::fail},
      fine{"fall of the floor, right", "2 %", "at least 2 %", "2 %", rules::Outcome::pass};
  revision::State was, now, mended;
  now.built = mended.built = {steep, fine};
  mended.built[0].built = "2 %", mended.built[0].outcome = rules::Outcome::pass;
  const auto failed = revision::verdicts(was, now);
  ASSERT_EQ(failed.size(), 1u);
  EXPECT_EQ(failed[0].title, "as built, fall of the floor, left");
  EXPECT_EQ(failed[0].found, "1 %, limit at least 2 %");
  EXPECT_EQ(failed[0].was, "not recorded");
  EXPECT_NE(revision::counts(now).find("of the record 1 row fails"), std::string::npos);
  const auto passes = revision::verdicts(now, mended);
  ASSERT_EQ(passes.size(), 1u);
  EXPECT_EQ(passes[0].outcome, rules::Outcome::pass);
  EXPECT_EQ(passes[0].was, "FAIL, 1 %");
}

TEST(Changes, AFallIsToldAsTheCheckThatFoundItTellsIt) {
  // Source: by hand: 0.48443 in/ft are 0.485 of a fall that must not be greater.
  revision::State was, now;
  was.job.unit = now.job.unit = job::UnitSystem::inch;
  now.sizes = {{"fall of the base-floor, back", revision::Quantity::fall, 0.48443 / 12}};
  now.results.resize(1);
  now.results[0].measured = 0.48443 / 12, now.results[0].limit.unit = rules::Unit::ratio;
  now.results[0].limit.greatest = 0.5 / 12;
  EXPECT_EQ(revision::changes(was, now).sizes.at(0).now, "0.485 in/ft");
}

TEST(Changes, AVerdictThatChangedByItsLimitNamesBothLimits) {
  // Source: by hand: 2-1/2 in kept a limit of 2 in and fails one of 3 in; where the limit is the same it stands once.
  revision::State was, now;
  was.job.unit = now.job.unit = job::UnitSystem::inch;
  rules::Result result;
  result.id = "a", result.title = "stands above", result.measured = 63.5;
  result.outcome = rules::Outcome::pass, result.limit.least = 50.8, result.limit.unit = rules::Unit::mm;
  was.results = {result};
  result.outcome = rules::Outcome::fail, result.limit.least = 76.2;
  now.results = {result};
  ASSERT_EQ(revision::verdicts(was, now).size(), 1u);
  EXPECT_EQ(revision::verdicts(was, now)[0].found, "2-1/2\", limit at least 3\"");
  EXPECT_EQ(revision::verdicts(was, now)[0].was, "pass, 2-1/2\", limit at least 2\"");
  was.results[0].limit.least = 76.2, was.results[0].measured = 88.9;
  EXPECT_EQ(revision::verdicts(was, now)[0].was, "pass, 3-1/2\"");
}

TEST(Changes, AnotherFastenerIsToldThoughAsManyAreBought) {
  // Source: by hand: one box of either; what an older report does not name has not changed.
  takeoff::Row box;
  box.item = "fasteners, bench at the wall", box.buy = 1, box.buy_unit = "boxes", box.product = "16d";
  revision::State was, now;
  was.rows = now.rows = {box};
  EXPECT_TRUE(revision::changes(was, now).to_buy.empty());
  now.rows[0].product = "#10";
  const auto changed = revision::changes(was, now).to_buy;
  ASSERT_EQ(changed.size(), 1u);
  EXPECT_EQ(changed[0].was, "1 box of 16d");
  EXPECT_EQ(changed[0].now, "1 box of #10");
  was.rows[0].product.clear();
  EXPECT_TRUE(revision::changes(was, now).to_buy.empty());
}

TEST(Pieces, ThatWaitSaySoWhateverBecomesOfThem) {
  // Source: by hand: one that serves and one that is new, both on HOLD.
  std::vector<CutRow> was{sticks("A", 30, 1)}, now{sticks("A", 30, 1), sticks("B", 40, 1)};
  now[0].hold = now[1].hold = takeoff::Hold{takeoff::HangsOn::bench, "load.seat-strength", "bench carries a person"};
  const revision::Pieces pieces = revision::pieces_of(was, now, kerf, {});
  ASSERT_EQ(pieces.uses.size(), 2u);
  for (const revision::PieceUse& piece : pieces.uses) {
    ASSERT_TRUE(piece.hold);
    EXPECT_EQ(piece.hold->check, "load.seat-strength");
  }
}

TEST(Pieces, ThatWaitedAreNotCut) {
  // Source: by hand: one that waits in both lists is what it was; freed it is made, from what is there or from stock,
  // and it gives nothing to others. One that was cut serves where it waits now, and first where it does not.
  CutRow held = sticks("A", 40, 1);
  held.hold = on_base;
  EXPECT_EQ(told({held}, {held}), (Words{"serves 1 A<-A"}));
  EXPECT_EQ(told({held}, {sticks("A", 40, 1)}), (Words{"new 1 A<-"}));
  EXPECT_EQ(told({held}, {sticks("B", 30, 1)}), (Words{"new 1 B<-"}));
  CutRow later = held;
  later.mark = "B";
  EXPECT_EQ(told({sticks("A", 40, 1)}, {later, sticks("C", 40, 1)}), (Words{"new 1 B<-", "serves 1 C<-A"}));
  EXPECT_EQ(told({sticks("A", 40, 1)}, {later}), (Words{"serves 1 B<-A"}));
}

TEST(Pieces, OfAnotherPanelAreNone) {
  // Source: by hand: no sheet of plywood serves where one of OSB was judged, nor gives a smaller one.
  CutRow plywood = sheet("A", 36, 14.5), osb = sheet("A", 36, 14.5), small = sheet("A", 30, 14.5);
  plywood.stock = "deck sheet, plywood", osb.stock = small.stock = "deck sheet, OSB";
  EXPECT_EQ(told({plywood}, {osb}), (Words{"new 1 A<-", "left 1 A"}));
  EXPECT_EQ(told({plywood}, {small}), (Words{"new 1 A<-", "left 1 A"}));
}

TEST(Changes, OneThingThatIsBoughtIsOneLine) {
  // Source: none; one stick is told in the singular, and is the same goods.
  const auto bought = [](double count, const char* unit) {
    takeoff::Row row;
    row.item = "2x4", row.buy = count, row.buy_unit = unit, row.for_sale = true;
    return row;
  };
  revision::State was, now;
  was.rows = {bought(3, "sticks of 10 ft"), bought(2, "boxes"), bought(2, "pouches")};
  now.rows = {bought(1, "stick of 10 ft"), bought(1, "box"), bought(1, "stick of 8 ft"), bought(1, "pouch")};
  const auto changed = revision::changes(was, now).to_buy;
  ASSERT_EQ(changed.size(), 4u);
  EXPECT_EQ(changed[0].was, takeoff::bought(was.rows[0]));
  EXPECT_EQ(changed[1].was, takeoff::bought(was.rows[1]));
  EXPECT_EQ(changed[2].was, "left out");
  EXPECT_EQ(changed[3].was, takeoff::bought(was.rows[2]));
}

TEST(Pieces, ThatAreAlikeServeUnderTheirNewMarks) {
  // Source: by hand; marks are given by length, so that another longer piece moves them all on.
  EXPECT_EQ(
      told({sticks("A", 40, 3), sticks("B", 30, 2)}, {sticks("A", 50, 1), sticks("B", 40, 2), sticks("C", 30, 2)}),
      (Words{"new 1 A<-", "serves 2 B<-A", "serves 2 C<-B", "left 1 A"}));
}

CutRow strip(const char* stock, double thick_mm, double length_mm, const std::string& ends) {
  CutRow row;
  row.mark = "A", row.stock = stock, row.count = 1, row.ends = ends;
  row.furring = takeoff::furring_named(stock), row.taper = takeoff::taper_named(ends);
  row.length_mm = row.short_mm = length_mm, row.width_mm = 38, row.thickness_mm = thick_mm;
  return row;
}

TEST(Pieces, OfListsOnDifferentTapesServeToAMarkOfTheCoarser) {
  // Source: by hand: 36 in is 914.4 mm and stands on the millimetre tape at 914; two marks on is another piece. Furring
  // is named by its thickness on its own tape: 1/4 in is 6 mm there.
  const revision::Tapes to_mm{false, true};
  const auto in_mm = [](double mm) {
    CutRow row = sticks("A", 0, 1);
    row.length_mm = row.short_mm = mm;
    return row;
  };
  EXPECT_EQ(told({sticks("A", 36, 1)}, {in_mm(914)}, to_mm), (Words{"serves 1 A<-A"}));
  EXPECT_EQ(told({sticks("A", 36, 1)}, {in_mm(914)}), (Words{"recut 1 A<-A"})) << "on one tape they are two lengths";
  EXPECT_EQ(told({sticks("A", 36, 1)}, {in_mm(916)}, to_mm), (Words{"new 1 A<-", "left 1 A"}));
  const CutRow quarter = strip("furring 1/4\"", 6.35, 2400.3, "square, tapered to 1/8\" at the foot");
  EXPECT_EQ(told({quarter}, {strip("furring 6 mm", 6, 2400, "square, tapered to 3 mm at the foot")}, to_mm),
            (Words{"serves 1 A<-A"}));
  EXPECT_EQ(told({quarter}, {strip("furring 6 mm", 6, 2400, "square, tapered to 3 mm at the head")}, to_mm),
            (Words{"new 1 A<-", "left 1 A"}));
  EXPECT_EQ(told({quarter}, {strip("furring 9 mm", 9, 2400, "square, tapered to 3 mm at the foot")}, to_mm),
            (Words{"new 1 A<-", "left 1 A"}));
}

TEST(Changes, AcrossUnitsAreToldWhereAnythingIsOther) {
  // Source: by hand: 100 ft2 are 9.29 m2 and 16 ft 4.88 m; a size a mark off may be its rounding; a check is compared
  // in one unit.
  revision::State was, now;
  was.job.unit = job::UnitSystem::inch, now.job.unit = job::UnitSystem::metric;
  const auto row = [](const char* item, double buy, const char* unit) {
    takeoff::Row made;
    made.item = item, made.buy = buy, made.buy_unit = unit;
    return made;
  };
  was.rows = {row("felt", 100, "ft2"), row("flashing", 16, "ft"), row("membrane", 100, "ft2")};
  now.rows = {row("felt", 9.29, "m2"), row("flashing", 4.88, "m"), row("membrane", 9.4, "m2")};
  was.sizes = {{"diagonal", revision::Quantity::length, 985.8}, {"line", revision::Quantity::length, 31.75}};
  now.sizes = {{"diagonal", revision::Quantity::length, 985}, {"line", revision::Quantity::length, 34}};
  rules::Result short_of;
  short_of.id = "a", short_of.outcome = rules::Outcome::caution, short_of.measured = 49.4, short_of.limit.least = 50.8;
  was.results = now.results = {short_of};
  const revision::Changes all = revision::changes(was, now);
  ASSERT_EQ(all.to_buy.size(), 1u);
  EXPECT_EQ(all.to_buy[0].what + ": " + all.to_buy[0].was, "membrane: 100 ft2");
  ASSERT_EQ(all.sizes.size(), 1u);
  EXPECT_EQ(all.sizes[0].was + " to " + all.sizes[0].now, "32 mm to 34 mm");
  EXPECT_TRUE(all.verdicts.empty());
}

TEST(Changes, AreOfOneRoomByItsNameOrItsAlcove) {
  // Source: none; a room that is renamed keeps its alcove, one that is surveyed anew keeps its name.
  revision::State flat, other;
  flat.job.name = "flat", flat.keys = {{"alcove.width", "\"6 ft\""}, {"alcove.depth", "\"36 in\""}};
  other = flat;
  other.job.name = "bath";
  EXPECT_TRUE(revision::of_one_room(flat, other));
  other.keys[0].value = "\"5 ft\"";
  EXPECT_FALSE(revision::of_one_room(flat, other)) << "many rooms are as deep";
  other.job.name = "flat", other.keys[1].value = "\"30 in\"";
  EXPECT_TRUE(revision::of_one_room(flat, other));
}

TEST(Pieces, AreRecutFromTheShortestThatHoldsThem) {
  // Source: by hand: 20 comes from the 24, not from the 40; 39-7/8 and a saw cut leave nothing of the 40.
  EXPECT_EQ(told({sticks("A", 40, 1), sticks("B", 24, 1)}, {sticks("A", 39.875, 1), sticks("B", 20, 1)}),
            (Words{"recut 1 A<-A", "recut 1 B<-B"}));
}

TEST(Pieces, OneGivesSeveralAsFarAsSawCutsLeaveIt) {
  // Source: by hand: 2 x 20 and a cut of 1/8 are 40-1/8; three of 20 are 60-1/4.
  EXPECT_EQ(told({sticks("A", 40.125, 1)}, {sticks("A", 20, 2)}), (Words{"recut 2 A<-A"}));
  EXPECT_EQ(told({sticks("A", 40, 1)}, {sticks("A", 20, 2)}), (Words{"recut 1 A<-A", "new 1 A<-"}));
}

TEST(Pieces, OfAnotherStockOrWithASlantedEndAreNone) {
  // Source: by hand: a slanted end is no square one; what is square of it begins at its short point.
  CutRow slanted = sticks("A", 40, 1, "5.0 and 0.0 deg from square");
  slanted.short_mm = 39.5 * in;
  EXPECT_EQ(told({slanted}, {sticks("A", 40, 1)}), (Words{"new 1 A<-", "left 1 A"}));
  EXPECT_EQ(told({slanted}, {sticks("A", 39.5, 1)}), (Words{"recut 1 A<-A"}));
  CutRow other = sticks("A", 60, 1);
  other.stock = "2x6";
  EXPECT_EQ(told({other}, {sticks("A", 40, 1)}), (Words{"new 1 A<-", "left 1 A"}));
}

TEST(Pieces, OfSheetGiveOneThatIsSmallerBothWays) {
  // Source: by hand; a sheet is not turned: its grain runs one way.
  EXPECT_EQ(told({sheet("A", 36, 16)}, {sheet("A", 36, 14.5)}), (Words{"recut 1 A<-A"}));
  EXPECT_EQ(told({sheet("A", 36, 14.5)}, {sheet("A", 36, 16)}), (Words{"new 1 A<-", "left 1 A"}));
  EXPECT_EQ(told({sheet("A", 16, 36)}, {sheet("A", 36, 16)}), (Words{"new 1 A<-", "left 1 A"}));
}

TEST(Pieces, OnAnotherFloorAreFittedAnewAndTaperedStripsMadeAnew) {
  // Source: by hand: a plate that lies 1/8 in out of level on one floor lies otherwise on another; a taper is made to
  // its place.
  CutRow was = sticks("A", 36, 1), now = was;
  was.fitted_mm = 3.175, was.thickness_mm += was.fitted_mm;  // as tall as it lies
  EXPECT_EQ(told({was}, {now}), (Words{"fit anew 1 A<-A"}));
  EXPECT_EQ(told({was}, {was}), (Words{"serves 1 A<-A"}));
  const CutRow strip = sticks("A", 90, 1, "square, tapered to nothing at the foot");
  EXPECT_EQ(told({strip}, {strip}), (Words{"serves 1 A<-A"}));
  EXPECT_EQ(told({strip}, {sticks("A", 80, 1, "square, tapered to nothing at the foot")}),
            (Words{"new 1 A<-", "left 1 A"}));
}

}  // namespace
}  // namespace fallwright
