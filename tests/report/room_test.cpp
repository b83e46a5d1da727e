// What an order knows of a room, kept in a file and read back.
#include "report/room.hpp"

#include <limits>
#include <stdexcept>

#include <gtest/gtest.h>

#include "report/together.hpp"
#include "report/valued.hpp"
#include "support/part_id.hpp"

namespace fallwright {
namespace {

report::Room read_back(const report::Room& room) {
  return report::read_room(report::kept_room(room));
}

TEST(RoomLine, ReadsBackToTheLastBit) {
  // Source: ISO C++ std::numeric_limits: 17 digits tell a double from all others; fields no two of which are alike.
  sample::Valued sample;
  sample.facts.bed.set_mm3 = 40972812.96772315;
  sample.facts.members.push_back({sample::part_id("bench-frame/top-plate"),
                                  "bench-frame/top-plate",
                                  "2x6",
                                  false,
                                  false,
                                  1e3 / 3,
                                  900,
                                  139.7,
                                  38.1,
                                  {0, 0}});
  sample.job.buy.prices = {"prices.csv", 0, 0, "", {{"2x4", "stick of 8 ft", 0.1 + 0.2, "mill", 7}}};
  sample.job.buy.currency = "USD";
  const report::Report one = sample.report();
  const report::Room room{&one}, read = read_back(room);
  EXPECT_EQ(report::kept_room(read), report::kept_room(room));
  EXPECT_EQ(read.set_mm3, sample.facts.bed.set_mm3);
  EXPECT_EQ(read.opening_mm, 1e3 / 3);
  ASSERT_EQ(read.prices.size(), 1u);
  EXPECT_EQ(read.prices[0].each, 0.1 + 0.2);
  EXPECT_EQ(read.prices[0].line, 7u);
  EXPECT_EQ(read.offered.sticks, one.job.cuts.sticks);
  ASSERT_EQ(read.checks.size(), one.judgement.results.size());
  for (std::size_t i = 0; i < read.checks.size(); ++i)
    EXPECT_EQ(read.checks[i].margin, one.judgement.results[i].margin);
  const report::Room lost{"the attic", "bed: two of its surfaces cross"};
  EXPECT_EQ(report::to_json(report::together({read, read_back(lost), read})),
            report::to_json(report::together({&one, lost, &one})));
  EXPECT_EQ(report::together_text(report::together({read, read_back(lost), read})),
            report::together_text(report::together({&one, lost, &one})));
}

TEST(RoomLine, CountsTheBatchesThatAreMixedInIt) {
  // Source: by hand: what is counted whole in each room, and nothing else.
  report::Report one = sample::Valued{}.report();
  for (const auto& [buy, by_room] : {std::pair{3., true}, {5., false}, {2., true}}) {
    takeoff::Row row;
    row.item = "mix", row.buy = buy, row.by_room = by_room;
    one.rows.push_back(row);
  }
  EXPECT_EQ(report::Room{&one}.batches, 5);
}

TEST(RoomLine, AReasonIsLettersWhateverItNames) {
  // Source: UTF-8: a file's name need not be; what is written to JSON and read back must be what is printed at once.
  const report::Room room{"the attic", "out/caf\xe9: cannot be written\x1b[2J"};
  EXPECT_EQ(read_back(room).failure, room.failure);
  EXPECT_FALSE(report::Room("the attic", "").failure.empty()) << "a room without a report is never in the order";
}

TEST(RoomLine, TakesNoOtherLine) {
  // Source: none; a share that was damaged is refused and ends nothing.
  const std::string line = report::kept_room(report::Room{"the attic", "why"});
  for (const std::string& other : {std::string{}, std::string{"[]"}, std::string{"{}"}, std::string{"7"},
                                   line.substr(0, line.size() / 2), line.substr(0, line.rfind(']')) + ",1]\n"})
    EXPECT_THROW(report::read_room(other), std::runtime_error) << other;
}

}  // namespace
}  // namespace fallwright
