// A base in its wet bed, treated as the last line says, to the letter, and read again.
#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <random>
#include <regex>

#include <gtest/gtest.h>

#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/as_set.hpp"
#include "rules/check.hpp"
#include "support/draws.hpp"
#include "support/sample.hpp"
#include "units/quantity.hpp"

namespace fallwright::properties {
namespace {

double mm_of(const std::string& printed) {
  std::string why;
  const auto read = units::parse_length(printed, units::LengthUnit::inch, why);
  EXPECT_TRUE(read.has_value()) << printed << ": " << why;
  return read ? read->in_mm() : 0;
}

/// What stands after `before` up to whatever ends a length in a sentence.
std::optional<double> length_after(const std::string& words, const std::string& before) {
  std::smatch found;
  if (!std::regex_search(words, found, std::regex{before + R"(([0-9][0-9/. -]*(?:"| mm)))"})) return std::nullopt;
  return mm_of(found[1]);
}

/// The alcove with its bench at either end and in either unit, its floor level, and its base as it is read.
class Bedded {
 public:
  Bedded(job::Side bench, job::UnitSystem unit) : job_{sample::alcove()} {
    job_.bench->place = bench, job_.unit = unit;
    model_ = parts::build(job_);
    facts_ = measure::measure(*model_);
    lying_ = measure::measure_lying(*model_);
    for (const facts::RimPlace& p : lying_.places) designed_[p.name] = p.designed_mm;
    job_.as_set.line = units::Length::inches(40), job_.as_set.down = true;
  }

  void lie(const std::map<job::RimPoint, double>& raised_mm) {
    job_.as_set.readings.clear();
    for (const auto& [point, mm] : raised_mm)
      job_.as_set.readings.push_back({point, units::Length::mm(40 * 25.4 - designed_.at(name_of(point)) - mm)});
    facts_.room.as_set = measure::measure_as_set(*model_, lying_, job_.as_set);
  }

  void reach(double riser_mm) { job_.drain.riser = units::Length::mm(riser_mm); }
  /// The bath's floor so far below the threshold's lowest edge, as that was designed.
  void meets(double below_mm) {
    const double floor = *facts_.heights.threshold_least_mm - below_mm;
    job_.floor.finish_outside = units::Length::mm(floor);
    facts_.heights.outside = facts::Levels{floor, floor};
  }
  double mark() const { return job_.mark_mm(); }
  rules::AsSetVerdict verdict() const { return rules::judge_as_set(job_, facts_, rules::check(job_, facts_)); }
  bool holds(const std::string& id) const {
    for (const rules::Result& r : rules::check(job_, facts_))
      if (r.id == id) return r.outcome != rules::Outcome::fail;
    return false;
  }

 private:
  job::Job job_;
  std::shared_ptr<const parts::Model> model_;
  facts::Facts facts_;
  facts::Lying lying_;
  std::map<std::string, double> designed_;
};

using Heights = std::map<job::RimPoint, double>;

Heights pressed(Heights raised, const std::string& words, double less_mm = 0) {
  const double whole = length_after(words, "press the whole base down by ").value_or(0) - less_mm;
  for (auto& [point, mm] : raised)
    mm -= whole + length_after(words, std::string{"(?:down: |, )"} + name_of(point) + " ").value_or(0);
  return raised;
}

/// Its lowest corner so high, its right end higher by so much, or lower, and its back.
Heights tilted_at(double low, double right, double back) {
  return {{job::RimPoint::back_left, low + std::max(-right, 0.) + std::max(back, 0.)},
          {job::RimPoint::back_right, low + std::max(right, 0.) + std::max(back, 0.)},
          {job::RimPoint::front_right, low + std::max(right, 0.) + std::max(-back, 0.)},
          {job::RimPoint::front_left, low + std::max(-right, 0.) + std::max(-back, 0.)}};
}

Heights level_at(double mm) {
  return {{job::RimPoint::back_left, mm}, {job::RimPoint::back_right, mm}, {job::RimPoint::front_left, mm}};
}

class Pressed : public testing::TestWithParam<std::tuple<job::Side, job::UnitSystem>> {};

TEST_P(Pressed, ToTheLetterLiesInItsBedOverItsRiser) {
  // Source: property: what was pressed as told is not lifted then, its riser reaches, its bed holds it, and nothing is
  // left to press, and a mark less would not do; so is it where its low side was raised instead. A riser that was
  // lengthened as told reaches where the base is bedded as it was designed, and where it was lifted from.
  Bedded room{std::get<0>(GetParam()), std::get<1>(GetParam())};
  std::mt19937 engine{7};
  const auto draw = [&](int least, int greatest) {
    return room.mark() * (least + static_cast<int>(engine() % static_cast<unsigned>(greatest - least + 1)));
  };
  const double per_inch = 25.4 / 16 / room.mark();  // the same draws of the room in either unit
  int levelled = 0, whole = 0, both = 0, lifted = 0, lengthened = 0;
  for (int i = 0; i < draws(75); ++i) {
    const double low = draw(static_cast<int>(-2 * per_inch), static_cast<int>(14 * per_inch)), right = draw(-4, 4),
                 back = draw(-2, 2), riser = draw(static_cast<int>(-36 * per_inch), static_cast<int>(-20 * per_inch));
    const Heights raised = tilted_at(low, right, back);
    room.reach(riser), room.lie(raised);
    const std::string words = room.verdict().words;
    const auto longer = length_after(words, "lengthen the riser by ");
    if (room.verdict().next == rules::Next::press) {
      const bool level = words.find("press down: ") != std::string::npos,
                 down = words.find("the whole base down") != std::string::npos;
      levelled += level, whole += down, both += level && down;
      room.lie(pressed(raised, words));
      const std::string then = words + "\n" + room.verdict().words;
      EXPECT_NE(room.verdict().next, rules::Next::lift) << then;
      EXPECT_TRUE(room.holds("rim.riser") && room.holds("rim.bed")) << then;
      EXPECT_EQ(room.verdict().words.find("press down"), std::string::npos) << then;
      if (down) {
        room.lie(pressed(raised, words, room.mark()));
        EXPECT_FALSE(room.holds("rim.riser") && room.holds("rim.bed")) << words << "\na mark less would do";
      }
      if (words.find("or raise the low side") != std::string::npos) {
        ++lifted;
        room.lie(level_at(low + std::abs(right) + std::abs(back)));
        EXPECT_TRUE(room.holds("rim.riser") && room.holds("rim.bed")) << words << "\n" << room.verdict().words;
      }
    }
    if (longer) {
      ++lengthened;
      room.reach(riser + *longer);
      room.lie(level_at(0));
      EXPECT_TRUE(room.holds("rim.riser") && room.holds("rim.bed")) << words;
      if (words.find("or lift it and lengthen") == std::string::npos) continue;
      room.lie(level_at(low));
      EXPECT_TRUE(room.holds("rim.riser") && room.holds("rim.bed")) << words;
    }
  }
  // The draws reach every kind of answer; a low side is seldom raised, as what was spread has to fill what is under it.
  EXPECT_GE(std::min({levelled, whole, both, lengthened}), 5);
  EXPECT_GE(lifted, 1);
}

TEST_P(Pressed, ToTheLetterStandsAboveTheFloorBeforeIt) {
  // Source: property: whatever is told to be pressed stands above the bath's floor at its entry then; where it is told
  // to be lifted for that, pressed level it would not, and set higher by what is told it does.
  Bedded room{std::get<0>(GetParam()), std::get<1>(GetParam())};
  std::mt19937 engine{11};
  const auto draw = [&](int least, int greatest) {
    return room.mark() * (least + static_cast<int>(engine() % static_cast<unsigned>(greatest - least + 1)));
  };
  room.reach(-25.4 * 1.75);
  int pressed_so = 0, lifted = 0;
  for (int i = 0; i < draws(75); ++i) {
    const double low = draw(-4, 4), right = draw(-6, 6), back = draw(-4, 4);
    room.meets(draw(-2, 4));
    room.lie(tilted_at(low, right, back));
    const auto [next, words] = room.verdict();
    if (const auto lacks = length_after(words, "pressed level it would lie ");
        lacks && words.find("in front of it") != std::string::npos) {
      ++lifted;
      room.lie(level_at(low));
      EXPECT_FALSE(room.holds("threshold.above-outside")) << words;
      room.lie(level_at(low + *lacks));
      EXPECT_TRUE(room.holds("threshold.above-outside")) << words;
    } else if (next == rules::Next::press && words.find("press down: ") != std::string::npos) {
      ++pressed_so;
      room.lie(pressed(tilted_at(low, right, back), words));
      EXPECT_TRUE(room.holds("threshold.above-outside")) << words << "\n" << room.verdict().words;
    }
  }
  EXPECT_GE(std::min(pressed_so, lifted), 3);
}

INSTANTIATE_TEST_SUITE_P(EitherHandAndUnit, Pressed,
                         testing::Combine(testing::Values(job::Side::left, job::Side::right),
                                          testing::Values(job::UnitSystem::inch, job::UnitSystem::metric)));

}  // namespace
}  // namespace fallwright::properties
