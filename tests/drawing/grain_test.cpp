// Which way timber's grain is drawn, where a letter of a section stands, and what is led out of a crowd.
#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/read.hpp"
#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

TEST(Grain, RunsAlongThePieceThatIsCut) {
  // Source: common practice, no source: timber cut along is filled with lines that run as its grain does. A wall's stud
  // stands upright; joists and plates lie level.
  int upright = 0, level = 0;
  for (const char* name : {"tannery-lane-2a", "tannery-lane-2b", "chandlers-row-7"})
    for (const Sheet& sheet : drawn_demo(name).sheets)
      for (const Hatch& hatch : sheet.hatches) {
        if (std::string{hatch.material} != "timber, panel along its grain") continue;
        const parts::Solid* solid = drawn_demo(name).model->find(hatch.source.part_id);
        if (!solid) continue;  // the legend
        const auto box = parts::box_of(*solid);
        const bool stands = box[5] - box[2] > std::max(box[3] - box[0], box[4] - box[1]);
        (stands ? upright : level)++;
        for (std::size_t i = hatch.first_line; i < hatch.last_line; ++i) {
          const Line& line = sheet.lines[i];
          const double dx = std::abs(line.to.x - line.from.x), dy = std::abs(line.to.y - line.from.y);
          EXPECT_TRUE(stands ? dx <= 0.05 * dy + 0.1 : dy <= 0.05 * dx + 0.1) << sheet.name << " " << solid->id;
        }
      }
  EXPECT_GT(upright, 0);
  EXPECT_GT(level, 0);
}

/// 60 x 42 in, the drain off the middle: its front right ray has two marks, the outer one between a wall's figures.
Drawn screeded_round_drain() {
  return drawn(
      job::read("[job]\nname = \"x\"\nunit = \"in\"\n[drawings]\npaper = \"letter\"\n[alcove]\nwidth = 60\ndepth = 42\n"
                "[survey.floor]\ngrid_x = [2, 30, 58]\ngrid_y = [2, 20, 40]\n"
                "grid = [[0, 0.125, 0.25], [0.0625, 0.3125, 0.25], [0.125, 0.25, 0.375]]\n"
                "[base]\nkind = \"site-built\"\nwaterproofing = \"liner\"\nfall = \"1/4 in/ft\"\n"
                "[base.threshold]\nwidth = 4.5\nheight = 3\nfinish = \"5/8 in\"\n[bed]\nleast = "
                "0.75\n[liner]\nabove_threshold = 3\n"
                "[floor]\nfinish_outside = \"5/8 in\"\n"
                "[drain]\nopening = \"round\"\nsize = 4\nfrom_left = 33\nfrom_front = 22\noutlet = 2\n",
                "x.toml"),
      false);
}

TEST(Screed, EveryMarkOfAnOrdinaryRoomHasItsFigures) {
  // Source: by hand: four rays with marks 12 in apart have two each, all told at one to twelve.
  const Drawn d = screeded_round_drain();
  const Sheet& sheet = d.sheet("screed");
  const auto told = std::count_if(sheet.texts.begin(), sheet.texts.end(),
                                  [](const Text& text) { return text.words.starts_with("at "); });
  EXPECT_EQ(told, 8);
  for (const std::string& note : sheet.notes) EXPECT_THAT(note, testing::Not(testing::HasSubstr("have no figures")));
  for (std::size_t i = 0; i < sheet.texts.size(); ++i)
    for (std::size_t k = 0; k < i; ++k)
      EXPECT_FALSE(meet(box_of(sheet.texts[i]), box_of(sheet.texts[k])))
          << sheet.texts[i].words << " / " << sheet.texts[k].words;
}

}  // namespace
}  // namespace fallwright::drawing
