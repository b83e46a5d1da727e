// What has changed since sheets went out: told in every title block, and on the cover.
#include <algorithm>

#include <gtest/gtest.h>

#include "outside/drawn.hpp"

namespace fallwright::drawing {
namespace {

job::Job revised(job::PaperSize paper) {
  const std::string file = PROJECT_DIR "/params/tannery-lane-2a.toml";
  const std::string text =
      diag::read_text(file) +
      "\n[[revision]]\nmark = \"A\"\ndate = \"2026-03-14\"\nwhat = \"first set\"\n"
      "[[revision]]\nmark = \"B\"\nwhat = \"drain moved to the left, and the bench made an inch deeper to the wall\"\n";
  job::Job job = job::read(text, file);
  job.drawings.paper = paper;
  return job;
}

bool has(const Sheet& sheet, const std::string& part) {
  return std::any_of(sheet.texts.begin(), sheet.texts.end(),
                     [&](const Text& t) { return t.words.find(part) != std::string::npos; });
}

TEST(Revisions, StandInEveryTitleBlockAndOnTheCover) {
  // Source: common practice, no source: a sheet of the set before is told by its mark.
  for (const job::PaperSize paper : {job::PaperSize::tabloid, job::PaperSize::a4}) {
    const Drawn d = drawn(revised(paper), false);
    std::size_t blocks = 0;
    for (const Sheet& sheet : d.sheets) {
      if (!has(sheet, "checked by")) continue;
      EXPECT_TRUE(has(sheet, "revision B")) << sheet.name;
      ++blocks;
    }
    EXPECT_GT(blocks, 10U);
    if (paper != job::PaperSize::tabloid) continue;
    const Sheet& cover = d.sheet("cover");
    for (const char* part : {"first set", "2026-03-14", "drain moved"}) EXPECT_TRUE(has(cover, part)) << part;
  }
}

}  // namespace
}  // namespace fallwright::drawing
