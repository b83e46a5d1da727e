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
  // Source: common practice, no source: timber cut along is filled with lines that run as its grain does. A bench's
  // stud stands upright, one that its section runs down where the drain is 14-3/4 in from the back; joists and plates
  // lie level.
  int upright = 0, level = 0;
  job::Job down_a_stud = sample::alcove();
  down_a_stud.drain.along = {job::Side::back, job::Length::inches(14.75)};
  const Drawn down = drawn(down_a_stud, false);
  for (const Drawn* d :
       {&drawn_demo("tannery-lane-2a"), &drawn_demo("tannery-lane-2b"), &drawn_demo("chandlers-row-7"), &down})
    for (const Sheet& sheet : d->sheets)
      for (const Hatch& hatch : sheet.hatches) {
        if (std::string{hatch.material} != "timber, panel along its grain") continue;
        const parts::Solid* solid = d->model->find(hatch.source.part_id);
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
  // Source: by hand: four rays with marks 12 in apart have two each: a letter on each of them, and all
  // figures in a table's rows.
  const Drawn d = screeded_round_drain();
  const Sheet& sheet = d.sheet("screed");
  for (const char* letter : {"a", "b", "c", "d", "e", "f", "g", "h"})
    EXPECT_EQ(
        std::count_if(sheet.texts.begin(), sheet.texts.end(), [&](const Text& text) { return text.words == letter; }),
        2)
        << letter;
  std::string all = read_through(sheet);
  for (const std::string& note : sheet.notes) all += " " + note;
  EXPECT_THAT(all, testing::ContainsRegex(" a [-0-9/]+ [-0-9/]+ [-0-9/]+ b .* h [-0-9/]+ [-0-9/]+ [-0-9/]+ "));
  for (const std::string& note : sheet.notes) EXPECT_THAT(note, testing::Not(testing::HasSubstr("have no figures")));
  for (std::size_t i = 0; i < sheet.texts.size(); ++i)
    for (std::size_t k = 0; k < i; ++k)
      EXPECT_FALSE(meet(box_of(sheet.texts[i]), box_of(sheet.texts[k])))
          << sheet.texts[i].words << " / " << sheet.texts[k].words;
}

/// An alcove whose section C is cut over the first row's number, with strips to fur beside it.
Drawn crowded_before_the_entry() {
  const std::string lean = "[[survey.plumb]]\nwall = \"left\"\nover = 72\n";
  return drawn(
      job::read(
          "[job]\nname = \"x\"\nunit = \"in\"\n[drawings]\npaper = \"tabloid\"\n[survey]\nboard = \"1/2 in\"\n"
          "finish = \"1-1/16 in\"\n[survey.plan]\nback = \"60-3/8 in\"\nfront = \"60-1/2 in\"\nleft = \"50-1/4 in\"\n"
          "right = \"50-1/8 in\"\ndiagonal_from_back_left = \"78-7/16 in\"\n"
          "diagonal_from_back_right = \"78-11/16 in\"\n" +
              lean + "along = 6\nlean = \"3/16 in\"\n" + lean +
              "along = 44\nlean = \"-1/8 in\"\n[[survey.plumb]]\nwall = \"right\"\nover = 72\nalong = 24\nlean = \"1/8 "
              "in\"\n[[survey.plumb]]\nwall = \"back\"\nover = 72\nalong = 30\nlean = \"1/4 in\"\n[alcove]\nheight = "
              "\"8 ft\"\n[walls]\nstate = \"existing\"\nstock = \"2x6\"\nspacing = 16\n"
              "[floor]\nkind = \"joists\"\n[floor.joists]\nstock = \"2x10\"\nspacing = 12\nfirst = 3\n"
              "direction = \"along-width\"\n[base]\nlength = 44.5\nwidth = 49.5\npattern = \"equal-fall\"\n"
              "made = \"to-order\"\n[base.upstands]\nheight = 4\n[base.threshold]\nheight = 2.5\n[bench]\nplace = "
              "\"right-end\"\ndepth = 15.5\noverhang = 0.75\n"
              "height = 18\n[drain]\nopening = \"round\"\nsize = 4.25\nfrom_right = 22\nfrom_back = 15.25\n",
          "x.toml"),
      false);
}

TEST(Plan, ASectionsLetterStandsAtItsArrow) {
  // Source: ISO 128-3 (from memory): the letter stands at the arrow's head; here less than three letters from it.
  const Drawn d = crowded_before_the_entry();
  const Sheet& plan = d.sheet("plan");
  const double t = 3 * plan.page.scale;
  int marks = 0;
  for (const Text& text : plan.texts) {
    if (text.words.size() != 1 || text.height < 1.5 * t) continue;
    ++marks;
    const Box box = box_of(text);
    const Point middle{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
    const bool at_one = std::any_of(plan.lines.begin(), plan.lines.end(), [&](const Line& line) {
      return line.kind == LineKind::dimension &&
             std::abs(std::hypot(line.to.x - line.from.x, line.to.y - line.from.y) - 2.2 * t) < 1e-6 &&
             std::hypot(line.to.x - middle.x, line.to.y - middle.y) < 2 * t;
    });
    EXPECT_TRUE(at_one) << text.words;
  }
  EXPECT_EQ(marks, 6);
}

}  // namespace
}  // namespace fallwright::drawing
