// What waits says so wherever its mark is read: on a stick, on a wall, on the plan, in a list; and where a wall is to
// be framed out first its sheet says that before all.
#include <algorithm>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/text_file.hpp"
#include "drawing/steps.hpp"
#include "job/read.hpp"
#include "outside/drawn.hpp"
#include "takeoff/cutting.hpp"

namespace fallwright::drawing {
namespace {

using testing::Contains, testing::HasSubstr, testing::Not;

job::Job room_of_case(const std::string& name) {
  const std::string file = std::string{PROJECT_DIR} + "/tests/cases/" + name + ".toml";
  return job::read(diag::read_text(file), file);
}

std::string all_read_of(const Drawn& d, const std::string& begin) {
  std::string all;
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.starts_with(begin)) all += read_through(sheet) + "\n";
  return all;
}

TEST(Waiting, PiecesComeLastOnTheirStickWithoutASawMark) {
  // Source: none: a saw mark behind a piece whose length nobody knows is none.
  int held = 0;
  for (const char* name : {"blocking-in-a-wall-to-be-framed-out", "wall-that-leans-back-above-its-tile"}) {
    const Drawn d = drawn(room_of_case(name), false);
    const auto waits = [&](const takeoff::StickPiece& piece) {
      return std::any_of(d.cuts.begin(), d.cuts.end(),
                         [&](const takeoff::CutRow& cut) { return cut.mark == piece.mark && cut.hold; });
    };
    for (const takeoff::StockPlan& plan : takeoff::plan_cuts(d.cuts, d.model->job.cuts, false))
      for (const takeoff::Stick& stick : plan.sticks) {
        const auto first = std::find_if(stick.pieces.begin(), stick.pieces.end(), waits);
        held += static_cast<int>(stick.pieces.end() - first);
        EXPECT_TRUE(std::all_of(first, stick.pieces.end(), waits)) << name;
      }
    EXPECT_THAT(d.sheet("sticks").notes, Contains(HasSubstr("cut when settled")));
  }
  EXPECT_GT(held, 4);
}

TEST(Waiting, AWallToBeFramedOutSaysSoBeforeAll) {
  // Source: none: its blocks, its screws and its studs wait, and its strips are on no list.
  const Drawn d = drawn(room_of_case("blocking-in-a-wall-to-be-framed-out"), false);
  const Sheet& wall = d.sheet("wall-left");
  EXPECT_THAT(wall.holds, Contains("PLUMB OR SISTER THIS WALL'S STUDS FIRST"));
  EXPECT_THAT(d.sheet("wall-right").holds, Not(Contains("PLUMB OR SISTER THIS WALL'S STUDS FIRST")));
  const std::string words = read_through(wall);
  for (const char* each : {"B HOLD", "D HOLD", "upstand: screws HOLD"}) EXPECT_THAT(words, HasSubstr(each));
  EXPECT_THAT(words, Not(HasSubstr("Cut blocking by its length")));
  EXPECT_THAT(all_read_of(d, "steps"), HasSubstr("left wall HOLD"));
  for (const Sheet& sheet : d.sheets)
    if (sheet.name.starts_with("plan"))
      for (const Text& text : sheet.texts)
        if (text.words.starts_with("fur ")) {
          EXPECT_GT(text.at.x, 700) << "before the left wall";
        }
  EXPECT_THAT(all_read_of(d, "plan"), HasSubstr("HOLD: bring out"));
}

TEST(Waiting, NoMarkOfAStripOrABlockStandsWithoutIt) {
  // Source: none: the right wall's studs were not read, and all on it waits.
  for (const bool small : {false, true}) {
    job::Job job = room_of_case("wall-that-leans-back-above-its-tile");
    if (small) job.drawings.paper = job::PaperSize::letter;
    const Drawn d = drawn(job, false);
    std::string held;
    for (const takeoff::CutRow& cut : d.cuts) {
      if (!cut.hold) continue;
      if (cut.furring) held += (held.empty() ? "" : ", ") + cut.mark;
      const std::vector<Text>& texts = d.sheet("wall-right").texts;
      for (const Text& text : texts) {
        EXPECT_NE(text.words, "fur " + cut.mark);
        const auto says_so = [&](const Text& other) {
          return other.words == "HOLD" && std::abs(other.at.y - text.at.y) < 1;  // in its row of a table
        };
        EXPECT_TRUE(text.words != cut.mark || std::any_of(texts.begin(), texts.end(), says_so)) << cut.mark;
      }
    }
    EXPECT_THAT(d.sheet("sticks").notes, Contains("Furring on HOLD, on no board yet: " + held + "."));
    EXPECT_THAT(all_read_of(d, "cuts"), HasSubstr("between the studs at (16) and (32)"));
    const std::string tapers = all_read_of(d, "cuts-tapers");
    EXPECT_THAT(tapers, HasSubstr("ends at HOLD, below the stud's top"));
    EXPECT_THAT(tapers, Not(HasSubstr("as high as the base stands")));
  }
}

TEST(Waiting, AListOnHoldSaysWhy) {
  // Source: none: the base of Ferry Steps waits for its drain, and strips before the studs beside it with it.
  const Drawn& d = drawn_demo("ferry-steps-3");
  EXPECT_THAT(d.sheet("cuts").notes, Contains(HasSubstr("hangs on the base, which is not settled: 'bore misses")));
  EXPECT_THAT(read_through(d.sheet("wall-right")), HasSubstr("furring to studs HOLD: 'bore misses the joists' fails"));
}

TEST(OrderOfWork, NobodyMixesABatchOfNextToNothing) {
  // Source: by hand: of 5.01 batches the sixth is a hundredth; of 4.42 the fifth is 0.42; one alone is mixed.
  EXPECT_THAT(last_of(5.01, 6), HasSubstr("mix it into the one before"));
  EXPECT_EQ(last_of(4.42, 5), ", the last 0.42 of one");
  EXPECT_EQ(last_of(5, 5), "");
  EXPECT_EQ(last_of(0.02, 1), ", the last 0.02 of one");
}

TEST(Tapers, OfShimsAloneAreNotSaidToBeRipped) {
  // Source: none: shims are set in pairs, and one of them lies before a block.
  const std::string list = all_read_of(drawn(room_of_case("end-held-by-blocking-alone"), false), "cuts-tapers");
  EXPECT_THAT(list, HasSubstr("shims"));
  EXPECT_THAT(list, HasSubstr("against the stud or the block"));
  EXPECT_THAT(list, Not(HasSubstr("rip from")));
}

TEST(Upstand, AScrewIntoBlockingAtItsEndHasACrossAndAPlace) {
  // Source: closed form: an upstand of 36 from the back corner, 3/8 from its end the screw.
  const Drawn d = drawn(room_of_case("end-held-by-blocking-alone"), false);
  EXPECT_THAT(read_through(d.sheet("wall-right")), HasSubstr("screw, 35-5/8 along"));
  EXPECT_THAT(read_through(d.sheet("wall-back")), Not(HasSubstr("screw, ")));
}

}  // namespace
}  // namespace fallwright::drawing
