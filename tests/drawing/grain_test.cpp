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

}  // namespace
}  // namespace fallwright::drawing
