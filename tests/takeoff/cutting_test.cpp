// The cutting plan: against every way tried, against bounds, and against what must hold of any plan.
#include <algorithm>
#include <functional>
#include <map>
#include <random>
#include <set>
#include <thread>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/imperial.hpp"
#include "takeoff/cutting.hpp"
#include "takeoff/least_stock.hpp"
#include "units/length.hpp"

namespace fallwright {
namespace {

using takeoff::StockPlan;
using units::Length;

job::Cuts offer(const std::vector<double>& sticks_in, double kerf_in = 0.125) {
  job::Cuts cuts;
  for (const double stick : sticks_in) cuts.sticks.push_back(Length::inches(stick));
  cuts.kerf = Length::inches(kerf_in);
  return cuts;
}

/// Every piece a row of its own: A0, A1 ...
std::vector<takeoff::CutRow> pieces(const std::vector<double>& lengths_in) {
  std::vector<takeoff::CutRow> rows;
  for (const double length : lengths_in) {
    takeoff::CutRow row;
    row.mark = "A" + std::to_string(rows.size());
    row.stock = "2x4";
    row.length_mm = length * in;
    row.count = 1;
    rows.push_back(row);
  }
  return rows;
}

StockPlan plan(const std::vector<double>& lengths_in, const job::Cuts& how) {
  return takeoff::plan_cuts(pieces(lengths_in), how, false).front();
}

std::vector<double> random_lengths(std::mt19937& random, std::size_t count, double least, double greatest) {
  std::vector<double> lengths(count);
  for (double& length : lengths) length = least + double(random() % unsigned((greatest - least) * 16)) / 16;
  return lengths;
}

/// Every piece once, and no stick over-full, counted in sixteenths of an inch.
void expect_sound(const StockPlan& plan, const std::vector<double>& lengths_in, double kerf_in) {
  std::map<std::string, int> times;
  double bought = 0;
  for (const takeoff::Stick& stick : plan.sticks) {
    double used = -kerf_in;
    for (const takeoff::StickPiece& piece : stick.pieces) {
      ++times[piece.mark];
      used += piece.length_mm / in + kerf_in;
      EXPECT_NEAR(piece.length_mm / in, lengths_in[std::stoul(piece.mark.substr(1))], 1e-9);
    }
    EXPECT_LE(used, stick.length_mm / in + 1e-6);
    EXPECT_NEAR(stick.offcut_mm / in, std::max(0.0, stick.length_mm / in - used - kerf_in), 1e-6);
    bought += stick.length_mm;
  }
  EXPECT_EQ(times.size(), lengths_in.size());
  for (const auto& [mark, count] : times) EXPECT_EQ(count, 1) << mark;
  EXPECT_NEAR(plan.bought_mm, bought, 1e-6);
  EXPECT_LE(plan.least_mm, plan.bought_mm);
}

/// Least total and, with it, fewest sticks, by putting every piece with every group of others.
std::pair<double, std::size_t> by_every_way(const std::vector<double>& lengths, const std::vector<double>& sticks,
                                            double kerf) {
  std::pair<double, std::size_t> best{1e9, 0};
  std::vector<double> groups;
  const std::function<void(std::size_t)> place = [&](std::size_t i) {
    if (i == lengths.size()) {
      double total = 0;
      for (const double need : groups)
        total += *std::find_if(sticks.begin(), sticks.end(), [&](double s) { return s >= need - 1e-9; });
      best = std::min(best, {total, groups.size()});
      return;
    }
    for (std::size_t g = 0; g < groups.size(); ++g) {
      if (groups[g] + kerf + lengths[i] > sticks.back() + 1e-9) continue;
      groups[g] += kerf + lengths[i];
      place(i + 1);
      groups[g] -= kerf + lengths[i];
    }
    groups.push_back(lengths[i]);
    place(i + 1);
    groups.pop_back();
  };
  place(0);
  return best;
}

TEST(CuttingPlan, SmallCasesByHand) {
  // Source: by hand.
  const auto sticks = [](const std::vector<double>& lengths, double kerf) {
    const StockPlan found = plan(lengths, offer({96}, kerf));
    EXPECT_TRUE(found.proven() && found.fewest);
    return found.sticks.size();
  };
  EXPECT_TRUE(takeoff::plan_cuts({}, offer({96}), false).empty());
  EXPECT_EQ(sticks({96}, 0.125), 1U) << "a whole stick needs no cut";
  EXPECT_EQ(sticks({48, 48}, 0), 1U);
  EXPECT_EQ(sticks({48, 48}, 0.125), 2U) << "the saw takes an eighth";
  EXPECT_EQ(sticks({47.9375, 47.9375}, 0.125), 1U);
  EXPECT_EQ(sticks({60, 36, 35, 60}, 0.125), 3U) << "60 + 36 leaves nothing for the kerf";
}

TEST(CuttingPlan, TakesTheLengthsThatCostLeast) {
  // Source: by hand: 60 + 60 fill a 10 ft stick without a kerf; with one, 12 ft holds both and 8 + 8 ft would be 16.
  EXPECT_DOUBLE_EQ(plan({60, 60}, offer({96, 120, 144}, 0)).bought_mm / in, 120);
  EXPECT_DOUBLE_EQ(plan({60, 60}, offer({96, 120, 144})).bought_mm / in, 144);
  // 3 x 40 are 120 and two kerfs: 12 ft. 8 + 8 ft is 16, and 10 ft alone is a quarter short.
  EXPECT_DOUBLE_EQ(plan({40, 40, 40}, offer({96, 120, 144})).bought_mm / in, 144);
  // Of two plans of 16 ft the one of a single stick.
  EXPECT_EQ(plan({90, 90}, offer({96, 192})).sticks.size(), 1U);
}

TEST(CuttingPlan, LongestFirstFirstFitIsBeatenWhereItFails) {
  // Source: by hand: first-fit puts 50 with 40 and needs a third stick; 50 + 25 + 25 and 40 + 40 + 20 fill two.
  const StockPlan found = plan({50, 40, 40, 25, 25, 20}, offer({100}, 0));
  EXPECT_EQ(found.sticks.size(), 2U);
  EXPECT_TRUE(found.proven());
}

TEST(CuttingPlan, IsTheBestOfEveryWay) {
  // Source: every way tried, up to 7 pieces with four sets of lengths; total and number of sticks.
  std::mt19937 random{11};
  const std::vector<std::vector<double>> offers{{96}, {96, 120}, {96, 120, 144, 192}, {48, 92.625, 104.625, 120}};
  for (int n = 0; n < 400; ++n) {
    const auto lengths = random_lengths(random, 1 + random() % 7, 8, 92);
    const auto& sticks = offers[random() % offers.size()];
    const double kerf = double(random() % 3) / 16;
    const StockPlan found = plan(lengths, offer(sticks, kerf));
    const auto [total, count] = by_every_way(lengths, sticks, kerf);
    expect_sound(found, lengths, kerf);
    EXPECT_NEAR(found.bought_mm / in, total, 1e-6);
    EXPECT_EQ(found.sticks.size(), count);
    EXPECT_TRUE(found.proven() && found.fewest) << n;
  }
}

TEST(CuttingPlan, ManyPiecesStayWithinOneStickOfTheBound) {
  // Source: property; the bound is that of the linear program, and never below what the lengths add up to.
  std::mt19937 random{3};
  int proven = 0, cases = 0;
  for (const std::size_t count : {60, 80, 100, 200})
    for (const auto& sticks : {std::vector<double>{96}, std::vector<double>{96, 120, 144, 192}}) {
      if (count == 200 && sticks.size() > 1) continue;  // takes seconds
      const auto lengths = random_lengths(random, count, 6, 60);
      const StockPlan found = plan(lengths, offer(sticks));
      expect_sound(found, lengths, 0.125);
      double net = 0;
      for (const double length : lengths) net += length;
      EXPECT_GE(found.least_mm / in, net);
      EXPECT_LE((found.bought_mm - found.least_mm) / in, sticks.front() + 1e-6);
      proven += found.proven();
      ++cases;
    }
  EXPECT_GE(proven, cases - 1);
}

TEST(CuttingPlan, TwoHundredRoomsAreStillProven) {
  // Source: property; rooms of one building, their openings up to 11/16 in apart: 8400 pieces, the length at the bound.
  std::mt19937 random{1};
  std::vector<takeoff::CutRow> rows;
  for (int room = 0; room < 200; ++room)
    for (const auto& [count, length, varies] :
         {std::tuple{16, 93., false}, {8, 36., true}, {10, 14.5, false}, {4, 13., false}, {4, 9.5, true}}) {
      takeoff::CutRow row = pieces({length + (varies ? double(random() % 12) / 16 : 0)}).front();
      row.mark = std::to_string(room) + row.mark, row.count = count;
      rows.push_back(row);
    }
  const StockPlan found = takeoff::plan_cuts(rows, offer({96, 120, 144, 192}), false).front();
  EXPECT_EQ(found.pieces, 8400);
  EXPECT_TRUE(found.proven());
}

TEST(CuttingPlan, MoreOnOfferOrAFinerSawNeverCostsMore) {
  // Source: property.
  std::mt19937 random{5};
  for (int n = 0; n < 60; ++n) {
    const auto lengths = random_lengths(random, 6 + random() % 15, 5, 90);
    const double few = plan(lengths, offer({96})).bought_mm, more = plan(lengths, offer({96, 144})).bought_mm,
                 most = plan(lengths, offer({96, 120, 144, 192})).bought_mm,
                 fine = plan(lengths, offer({96, 120, 144, 192}, 0.0625)).bought_mm;
    EXPECT_LE(more, few + 1e-6);
    EXPECT_LE(most, more + 1e-6);
    EXPECT_LE(fine, most + 1e-6);
  }
}

TEST(CuttingPlan, TrimmedEndsAreNotUsed) {
  // Source: by hand: of 96 in with 1/8 in off each end 95-3/4 are left; a piece of 96 wants the next stick, one of
  // 95-3/4 fits to a hair, and two of 47-13/16 with a cut between them do too.
  job::Cuts how = offer({96, 120});
  how.trim = Length::inches(0.125);
  EXPECT_DOUBLE_EQ(plan({96}, how).bought_mm / in, 120);
  const StockPlan whole = plan({95.75}, how);
  EXPECT_DOUBLE_EQ(whole.bought_mm / in, 96);
  EXPECT_NEAR(whole.offcut_mm, 0, 1e-6);
  EXPECT_DOUBLE_EQ(plan({47.8125, 47.8125}, how).bought_mm / in, 96);
  EXPECT_DOUBLE_EQ(plan({47.875, 47.8125}, how).bought_mm / in, 120);
  EXPECT_NEAR(plan({40}, how).offcut_mm / in, 96 - 0.25 - 40 - 0.125, 1e-6);
  EXPECT_DOUBLE_EQ(plan({119.9}, how).sticks[0].length_mm / in, 144) << "to order, trimmed as well";
  EXPECT_DOUBLE_EQ(plan({119.7}, how).sticks[0].length_mm / in, 120) << "twice, and no more";
  EXPECT_TRUE(plan({119.9}, how).sticks[0].to_order);
}

TEST(CuttingPlan, ATrimNeverCostsLess) {
  // Source: property.
  std::mt19937 random{29};
  for (int n = 0; n < 60; ++n) {
    const auto lengths = random_lengths(random, 6 + random() % 15, 5, 90);
    job::Cuts how = offer({96, 120, 144, 192});
    const double none = plan(lengths, how).bought_mm;
    how.trim = Length::inches(0.125);
    const double some = plan(lengths, how).bought_mm;
    how.trim = Length::inches(1);
    EXPECT_LE(none, some + 1e-6);
    EXPECT_LE(some, plan(lengths, how).bought_mm + 1e-6);
  }
}

TEST(CuttingPlan, PreferredLengthsAreTakenAloneWhereAllPiecesFitThem) {
  // Source: by hand: two of 60 in lie in 12 ft; on 8 ft alone they take two sticks. One of 100 fits no 8 ft stick, so
  // all lengths serve.
  job::Cuts how = offer({96, 120, 144});
  EXPECT_DOUBLE_EQ(plan({60, 60}, how).bought_mm / in, 144);
  how.preferred = {Length::inches(96)};
  const StockPlan alone = plan({60, 60}, how);
  EXPECT_DOUBLE_EQ(alone.bought_mm / in, 192);
  EXPECT_EQ(takeoff::proof_text(alone, false), "the least possible of the preferred lengths");
  const StockPlan all = plan({60, 60, 100}, how);
  EXPECT_FALSE(all.preferred);
  EXPECT_DOUBLE_EQ(all.bought_mm / in, 264);
}

TEST(CuttingPlan, StandsInOneOrder) {
  // Source: none; a saw is set for one length after the other. Equal sticks stand together, long ones first.
  std::mt19937 random{9};
  std::vector<takeoff::CutRow> rows;
  for (int i = 0; i < 9; ++i) {
    takeoff::CutRow row = pieces({10 + double(random() % 60)}).front();
    row.mark = std::string(1, char('A' + i)), row.stock = i % 2 ? "2x6" : "2x4", row.count = 1 + int(random() % 6);
    rows.push_back(row);
  }
  const auto plans = takeoff::plan_cuts(rows, offer({96, 120, 144, 192}), false);
  ASSERT_EQ(plans.size(), 2U);
  EXPECT_EQ(plans[0].stock, "2x4");
  for (const StockPlan& p : plans) {
    const auto groups = takeoff::alike(p.sticks);
    for (std::size_t i = 0; i < groups.size(); ++i)
      for (std::size_t j = i + 1; j < groups.size(); ++j) EXPECT_FALSE(groups[i].stick == groups[j].stick);
    for (std::size_t i = 1; i < p.sticks.size(); ++i) EXPECT_GE(p.sticks[i - 1].length_mm, p.sticks[i].length_mm);
    for (const takeoff::Stick& stick : p.sticks)
      EXPECT_TRUE(std::is_sorted(stick.pieces.begin(), stick.pieces.end(),
                                 [](const auto& a, const auto& b) { return a.length_mm > b.length_mm; }));
  }
}

TEST(CuttingPlan, WhatIsLongerThanAllOnOfferIsToOrder) {
  // Source: by hand: 100 in is above 8 ft, and the next step of two feet is 10 ft; 2500 mm go into 2700.
  const StockPlan found = plan({100, 30}, offer({96}));
  ASSERT_EQ(found.sticks.size(), 2U);
  EXPECT_TRUE(found.sticks[0].to_order);
  EXPECT_DOUBLE_EQ(found.sticks[0].length_mm / in, 120);
  EXPECT_FALSE(found.sticks[1].to_order);
  EXPECT_TRUE(found.proven());
  const job::Cuts metric{{Length::mm(2400)}, Length::mm(3)};
  EXPECT_DOUBLE_EQ(takeoff::plan_cuts(pieces({2500 / in}), metric, true).front().sticks[0].length_mm, 2700);
}

TEST(CuttingPlan, WhatAnOrderedStickLeavesIsUsedFirst) {
  // Source: by hand: 99 in go into 10 ft, which leaves 20-7/8 in behind the saw: 14-1/2 in go there and need no stick.
  const StockPlan all = plan({99, 14.5}, offer({96}));
  ASSERT_EQ(all.sticks.size(), 1U);
  EXPECT_TRUE(all.sticks[0].to_order);
  EXPECT_EQ(all.sticks[0].pieces.size(), 2U);
  EXPECT_NEAR(all.sticks[0].offcut_mm / in, 120 - 99 - 14.5 - 2 * 0.125, 1e-9);
  EXPECT_TRUE(all.proven()) << "nothing less than the ordered stick";
  const StockPlan more = plan({99, 14.5, 90}, offer({96}));
  EXPECT_NEAR(more.bought_mm / in, 120 + 96, 1e-9);
  EXPECT_FALSE(more.proven()) << "no other way of filling the ordered stick was looked at";
}

TEST(CuttingPlan, APieceThatJustFillsWhatAnOrderedStickLeavesIsCutFromIt) {
  // Source: by hand: 100 in of 120 leave 20, and the saw takes 1/8: 19-7/8 in fill them to the last, 20 do not.
  EXPECT_EQ(plan({100, 19.875}, offer({96})).sticks.size(), 1U);
  EXPECT_EQ(plan({100, 20}, offer({96})).sticks.size(), 2U);
}

TEST(CuttingPlan, TwoTapesInOnePlanStaySound) {
  // Source: property; inch and metric pieces share no tick, and their plan must hold all the same.
  std::mt19937 random{21};
  auto lengths = random_lengths(random, 30, 6, 60);
  for (std::size_t i = 0; i < lengths.size(); i += 2) lengths[i] = std::round(lengths[i] * in) / in;
  job::Cuts how = offer({96, 144});
  how.kerf = Length::mm(2.5);
  const StockPlan found = plan(lengths, how);
  expect_sound(found, lengths, 2.5 / in);
  EXPECT_LE((found.bought_mm - found.least_mm) / in, 48 + 1e-6);
}

TEST(CuttingPlan, IsTheSameInEveryThread) {
  // Source: property; jobs are worked out side by side.
  std::mt19937 random{17};
  takeoff::CutProblem problem{{}, {}, {768, 960}, {4, 5}};
  std::set<std::int64_t, std::greater<>> sizes;
  while (sizes.size() < 30) sizes.insert(std::uniform_int_distribution<std::int64_t>{48, 480}(random));
  for (const std::int64_t size : sizes) problem.size.push_back(size), problem.count.push_back(1);
  const std::vector<takeoff::Pattern> first = takeoff::solved(problem).sticks;
  ASSERT_GT(first.size(), 5u);
  std::vector<std::vector<takeoff::Pattern>> others(4);
  std::vector<std::thread> threads;
  for (auto& other : others) threads.emplace_back([&] { other = takeoff::solved(problem).sticks; });
  for (std::thread& thread : threads) thread.join();
  for (const auto& other : others) EXPECT_EQ(other, first);
  for (int i = 0; i < 2; ++i) EXPECT_EQ(takeoff::least_stock(problem).sticks, first) << "and as it was kept";
}

TEST(Plan, LengthsAreToldAsTheyAreSold) {
  // Source: by hand.
  EXPECT_EQ(takeoff::stick_text(8 * ft, false), "8 ft");
  EXPECT_EQ(takeoff::stick_text(8 * ft + 3 * in, false), "99\"");
  EXPECT_EQ(takeoff::stick_text(2400, true), "2.4 m");
  EXPECT_EQ(takeoff::stick_text(2450, true), "2450 mm");
  EXPECT_EQ(takeoff::total_text(38.04 * ft, false), "38.0 ft");
  EXPECT_EQ(takeoff::total_text(11404, true), "11.40 m");
  EXPECT_EQ(takeoff::kerf_text(0.125 * in, false), "1/8\"");
  EXPECT_EQ(takeoff::kerf_text(0.1 * in, false), "0.100\"");
  EXPECT_EQ(takeoff::kerf_text(3, true), "3 mm");
  EXPECT_EQ(takeoff::kerf_text(2.5, true), "2.5 mm");
}

}  // namespace
}  // namespace fallwright
