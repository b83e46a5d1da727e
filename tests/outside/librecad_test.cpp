/// A DXF as LibreCAD prints it, held against our own PDF of the same sheet, pixel by pixel. Where LibreCAD is not
/// installed nothing is held against anything. By hand, over every sheet of two demo jobs: FALLWRIGHT_EVERY_SHEET=1.
#include <cstdlib>
#include <fstream>

#include <gtest/gtest.h>

#include "exchange/dxf.hpp"
#include "exchange/paper.hpp"
#include "outside/drawn.hpp"
#include "support/run.hpp"

namespace fallwright::drawing {
namespace {

constexpr int dots_per_inch = 102;  // four to the millimetre

/// Which pixels of a page are dark.
struct Dark {
  int width = 0, height = 0;
  std::vector<bool> at;
  bool is(int x, int y) const {
    return x >= 0 && y >= 0 && x < width && y < height && at[static_cast<std::size_t>(y) * width + x];
  }
};

Dark rendered_dark(const std::string& pdf) {
  const std::string out = pdf + ".grey";
  EXPECT_EQ(sample::run("pdftoppm -singlefile -gray -r " + std::to_string(dots_per_inch) + " " + pdf + " " + out).code,
            0);
  std::ifstream in{out + ".pgm", std::ios::binary};
  std::string magic;
  int most = 0;
  Dark page;
  in >> magic >> page.width >> page.height >> most;
  in.get();
  for (char c; in.get(c);) page.at.push_back(static_cast<unsigned char>(c) < 170);
  return page;
}

/// Share of the dark pixels of a page that have none of another page near them, within a millimetre.
double share_missing(const Dark& page, const Dark& other) {
  constexpr int near = 4;  // pixels
  double dark = 0, missing = 0;
  for (int y = 0; y < page.height; ++y)
    for (int x = 0; x < page.width; ++x) {
      if (!page.is(x, y)) continue;
      bool found = false;
      for (int dy = -near; dy <= near && !found; ++dy)
        for (int dx = -near; dx <= near && !found; ++dx) found = other.is(x + dx, y + dy);
      ++dark, missing += !found;
    }
  return dark > 0 ? missing / dark : 1;
}

TEST(LibreCad, PrintsTheSheetsAsTheyArePrinted) {
  // Source: LibreCAD's own print of the DXF. It draws letters of its own, thin lines, hatches by its own patterns, and
  // numbers of running dimensions level: of the pixels of either print few have none of the other within a millimetre.
  if (sample::run("command -v librecad >/dev/null 2>&1").code != 0) GTEST_SKIP() << "LibreCAD is not installed";
  const bool every = std::getenv("FALLWRIGHT_EVERY_SHEET") != nullptr;
  constexpr double most_missing = 0.04, most_added = 0.05;
  int compared = 0;
  for (const Drawn* d : {&all_jobs()[0], &all_jobs()[2]}) {
    const sample::Folder folder{"librecad"};
    std::vector<const Sheet*> sheets;
    for (const Sheet& sheet : d->sheets)
      if (sheet.page.paper.width_mm > 0 && (every || sheet.name == "plan" || sheet.name == "wall-back"))
        sheets.push_back(&sheet);
    for (const Sheet* sheet : sheets) exchange::write_dxf(*sheet, folder / (sheet->name + ".dxf"));
    ASSERT_EQ(sample::run("cd " + folder.path().string() +
                          " && QT_QPA_PLATFORM=offscreen librecad dxf2pdf -m *.dxf >/dev/null 2>&1")
                  .code,
              0);
    for (const Sheet* sheet : sheets) {
      exchange::write_pdf({*sheet}, d->name, folder / "own.pdf", 0);
      const Dark own = rendered_dark(folder / "own.pdf"), theirs = rendered_dark(folder / (sheet->name + ".pdf"));
      ASSERT_NEAR(own.width, theirs.width, 2) << sheet->name;
      const double missing = share_missing(own, theirs), added = share_missing(theirs, own);
      if (every) std::printf("%-18s missing %.4f  added %.4f\n", sheet->name.c_str(), missing, added);
      EXPECT_LT(missing, most_missing) << d->name << " " << sheet->name;
      EXPECT_LT(added, most_added) << d->name << " " << sheet->name;
      ++compared;
    }
  }
  EXPECT_GE(compared, 4);
}

}  // namespace
}  // namespace fallwright::drawing
