// Lines of a job file followed with what is known of the job as it is, against the same measured from nothing.
#include "measure/memory.hpp"

#include <BRepPrimAPI_MakeBox.hxx>
#include <gtest/gtest.h>

#include "brep/skin.hpp"
#include "job/read.hpp"
#include "study/followed.hpp"
#include "support/draws.hpp"
#include "support/random_room.hpp"

namespace fallwright::study {
namespace {

using measure::Memory;
using measure::Question;

brep::Skin box(double from, double size) {
  return brep::skin_of(BRepPrimAPI_MakeBox{gp_Pnt{from, 0, 0}, size, 1, 1}.Solid());
}

TEST(Memory, KnowsASolidByWhereItLiesToTheLastBit) {
  // Source: property: what is remembered of a solid is remembered of its very copy alone.
  Memory memory;
  const auto one = memory.number_of(box(0, 2));
  EXPECT_EQ(memory.number_of(box(0, 2)), one);
  EXPECT_NE(memory.number_of(box(1e-9, 2)), one);
  EXPECT_NE(memory.number_of(box(0, 2 + 1e-9)), one);
}

TEST(Memory, OnceClosedTakesNothingInAndForgetsNothing) {
  // Source: property: what is closed neither grows nor shrinks.
  Memory memory;
  int made = 0;
  const auto ask = [&](int of) { return memory.once(Question{"square"}.of(of), [&] { return ++made, of * of; }); };
  const auto known = memory.number_of(box(0, 2));
  EXPECT_EQ(ask(3), 9);
  EXPECT_EQ(ask(3), 9);
  EXPECT_EQ(made, 1);
  memory.close();
  EXPECT_EQ(ask(3), 9);
  EXPECT_EQ(ask(4), 16);
  EXPECT_EQ(ask(4), 16);
  EXPECT_EQ(made, 3);
  EXPECT_EQ(memory.number_of(box(0, 2)), known);
  EXPECT_FALSE(memory.number_of(box(5, 2)));
}

TEST(Memory, LaidOverAnotherKnowsWhatThatOneKnowsAndTakesInTheRest) {
  // Source: property: an answer is made once, wherever it is kept.
  Memory under;
  const auto known = under.number_of(box(0, 2));
  under.once(Question{"a"}, [] { return 1; });
  under.close();
  Memory over{under};
  EXPECT_EQ(over.number_of(box(0, 2)), known);
  const auto own = over.number_of(box(5, 2));
  EXPECT_TRUE(own);
  EXPECT_NE(own, known);
  EXPECT_EQ(over.number_of(box(5, 2)), own);
  EXPECT_EQ(over.once(Question{"a"}, [] { return 2; }), 1);
  EXPECT_EQ(over.once(Question{"b"}, [] { return 3; }), 3);
  EXPECT_EQ(over.once(Question{"b"}, [] { return 4; }), 3);
  EXPECT_EQ(under.once(Question{"b"}, [] { return 5; }), 5);
}

void must_be_the_same(const Followed& known, const Followed& anew, const std::string& lines) {
  EXPECT_EQ(known.refused, anew.refused) << lines;
  ASSERT_EQ(known.results.size(), anew.results.size()) << lines;
  for (std::size_t i = 0; i < known.results.size(); ++i) {
    const rules::Result &a = known.results[i], &b = anew.results[i];
    EXPECT_EQ(a.outcome, b.outcome) << lines << b.id;
    EXPECT_EQ(a.measured, b.measured) << lines << b.id;
    EXPECT_EQ(a.margin, b.margin) << lines << b.id;
    EXPECT_EQ(a.where, b.where) << lines << b.id;
    EXPECT_EQ(a.details, b.details) << lines << b.id;
    EXPECT_EQ(a.advice, b.advice) << lines << b.id;
  }
}

// Of every remedy: lines that leave most solids where they are, lines that move all of them.
TEST(Memory, TellsOfWhatLinesChangeWhatMeasuringTellsAnew) {
  // Source: property: a job measured with a memory has the facts of one measured afresh.
  int followed = 0;
  for (unsigned seed = 640; seed < 640 + static_cast<unsigned>(draws(4)); ++seed) {
    const job::Job job = job::read(sample::random_room(seed), "memory.toml");
    Memory memory;
    const Followed now = follow(job, {}, memory);
    memory.close();
    Memory over{memory};  // of what came before as well
    for (const rules::Result& result : now.results)
      for (const rules::Remedy& remedy : result.remedies) {
        std::string lines = std::to_string(seed) + ": ";
        for (const job::Change& change : remedy.changes) lines += job::text_of(change) + "; ";
        Memory fresh;
        const Followed anew = follow(job, remedy.changes, fresh);
        must_be_the_same(follow(job, remedy.changes, memory), anew, lines);
        must_be_the_same(follow(job, remedy.changes, over), anew, lines);
        ++followed;
      }
  }
  EXPECT_GT(followed, 5);
}

}  // namespace
}  // namespace fallwright::study
