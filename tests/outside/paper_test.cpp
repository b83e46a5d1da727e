/// drawings.pdf under poppler's eyes: pages, fonts, words, and true scale on paper.
#include <cmath>
#include <fstream>
#include <optional>
#include <regex>
#include <sstream>

#include <gtest/gtest.h>

#include "diag/text_file.hpp"
#include "drawing/draw.hpp"
#include "exchange/paper.hpp"
#include "job/read.hpp"
#include "measure/measure.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "rules/check.hpp"
#include "study/study.hpp"
#include "support/run.hpp"
#include "takeoff/takeoff.hpp"

namespace fallwright::exchange {
namespace {

/// The pages of a demo job, printed once.
struct Printed {
  sample::Folder folder;
  std::vector<drawing::Sheet> sheets;
  std::string pdf;

  explicit Printed(const std::string& name) : folder{"paper-" + name}, pdf{folder / "drawings.pdf"} {
    const std::string path = std::string{PROJECT_DIR} + "/params/" + name + ".toml";
    job::Job job = job::read(diag::read_text(path), path);
    job.sha256 = "0123456789abcdef";
    const auto model = parts::build(job);
    const rules::Limits limits = rules::limits_for(job);
    const facts::Facts facts = study::with_studies(*model, measure::measure(*model), limits);
    const auto cuts = takeoff::cut_list(facts, job.is_metric(), takeoff::board_of(job));
    const auto plan = takeoff::plan_cuts(cuts, job.cuts, job.unit == job::UnitSystem::metric);
    const auto rows = takeoff::take_off(job, facts, cuts, plan);
    const rules::Judgement judgement = rules::judgement_of(job, facts, limits, rules::check(job, facts, limits));
    for (drawing::Sheet& sheet : drawing::draw(*model, {facts, cuts, plan, rows, judgement}))
      if (sheet.page.paper.width_mm > 0) sheets.push_back(std::move(sheet));
    write_pdf(sheets, job.name, pdf, 0);
  }
  std::size_t page_of(const std::string& name) const {
    for (std::size_t i = 0; i < sheets.size(); ++i)
      if (sheets[i].name == name) return i + 1;
    ADD_FAILURE() << name;
    return 0;
  }
};

Printed& inches() {
  static Printed printed{"tannery-lane-2a"};
  return printed;
}
Printed& metric() {
  static Printed printed{"tannery-lane-5c"};
  return printed;
}

/// A page as grey pixels.
struct Image {
  int width = 0, height = 0;
  std::string pixels;
  bool dark(int x, int y) const {
    return static_cast<unsigned char>(pixels[static_cast<std::size_t>(y) * width + x]) < 128;
  }
};

constexpr int dpi = 508;  // 20 pixels to the millimetre

/// The page from its lower edge up to so high, or all of it.
Image rendered(const Printed& printed, std::size_t page, std::optional<double> up_to_mm = {}) {
  const std::string out = printed.folder / ("page-" + std::to_string(page));
  const std::string number = std::to_string(page);
  const double left_out_mm = up_to_mm ? printed.sheets[page - 1].page.paper.height_mm - *up_to_mm : 0;
  const std::string top = std::to_string(static_cast<int>(left_out_mm * dpi / 25.4));
  EXPECT_EQ(sample::run("pdftoppm -singlefile -gray -r " + std::to_string(dpi) + " -y " + top + " -f " + number +
                        " -l " + number + " " + printed.pdf + " " + out + " 2>&1")
                .code,
            0);
  std::ifstream in{out + ".pgm", std::ios::binary};
  Image image;
  std::string magic;
  int most = 0;
  in >> magic >> image.width >> image.height >> most;
  in.get();
  image.pixels.resize(static_cast<std::size_t>(image.width) * image.height);
  in.read(image.pixels.data(), static_cast<std::streamsize>(image.pixels.size()));
  return image;
}

/// Longest dark stretch of a row within some pixels of `y`, in millimetres.
double longest_run_mm(const Image& image, int y, int from, int to) {
  int longest = 0;
  for (int row = y - 3; row <= y + 3; ++row)
    for (int x = from, run = 0; x < to; ++x) {
      run = image.dark(x, row) ? run + 1 : 0;
      longest = std::max(longest, run);
    }
  return longest * 25.4 / dpi;
}

TEST(Paper, PagesAreTabloidOrA3AndWhatIsAtFullSizeIsForEveryPrinter) {
  // Source: poppler's page sizes in points: 792 x 612, 1224 x 792; 841.89 x 595.28, 1190.55 x 841.89.
  for (const auto& [printed, small, large] :
       {std::tuple{&inches(), "792 x 612", "1224 x 792"}, {&metric(), "841.89 x 595.276", "1190.55 x 841.89"}}) {
    const sample::Ran ran = sample::run("pdfinfo -f 1 -l 99 " + printed->pdf + " 2>&1");
    const std::regex size{"Page +\\d+ size: +([0-9.]+ x [0-9.]+) pts"};
    std::size_t pages = 0;
    for (std::sregex_iterator it{ran.out.begin(), ran.out.end(), size}, end; it != end; ++it, ++pages)
      EXPECT_EQ((*it)[1], printed->sheets[pages].own_bars ? small : large);
    EXPECT_EQ(pages, printed->sheets.size());
  }
}

TEST(Paper, FontsAreEmbedded) {
  // Source: poppler's list of fonts.
  const sample::Ran ran = sample::run("pdffonts " + inches().pdf + " 2>&1");
  EXPECT_NE(ran.out.find("osifont"), std::string::npos) << ran.out;
  const std::regex row{"[A-Z]{6}\\+\\S+ .* (yes|no) +(yes|no) +(yes|no) +\\d+ +\\d+"};
  int fonts = 0;
  for (std::sregex_iterator it{ran.out.begin(), ran.out.end(), row}, end; it != end; ++it, ++fonts)
    EXPECT_EQ((*it)[1], "yes");
  EXPECT_GE(fonts, 1) << ran.out;
}

TEST(Paper, WordsCanBeSearched) {
  // Source: poppler's text of every page: title, hand, number, hash.
  for (const Printed* printed : {&inches(), &metric()}) {
    std::istringstream all{sample::run("pdftotext -layout " + printed->pdf + " - 2>&1").out};
    for (std::size_t page = 1; page <= printed->sheets.size(); ++page) {
      const std::string number = std::to_string(page);
      std::string text;
      std::getline(all, text, '\f');  // which ends every page
      for (const std::string& words :
           {printed->sheets[page - 1].title, std::string{"BENCH "},
            "sheet " + number + " of " + std::to_string(printed->sheets.size()), std::string{"0123456789ab"}})
        EXPECT_NE(text.find(words), std::string::npos) << words << " on page " << page;
    }
    std::string beyond;
    EXPECT_FALSE(std::getline(all, beyond, '\f') && !beyond.empty()) << beyond;
  }
}

TEST(Paper, BookmarksNameEverySheetByItsCode) {
  // Source: poppler's list of bookmarks with their pages; and under a megabyte, as sent to a phone.
  for (const Printed* printed : {&inches(), &metric()}) {
    const std::string marks = sample::run("pdftohtml -i -xml -stdout " + printed->pdf + " 2>&1").out;
    const std::regex item{"<item page=\"(\\d+)\">([^<]*)</item>"};
    std::size_t found = 0;
    for (std::sregex_iterator it{marks.begin(), marks.end(), item}, end; it != end; ++it, ++found) {
      const drawing::Sheet& sheet = printed->sheets.at(found);
      EXPECT_EQ((*it)[1], std::to_string(found + 1));
      EXPECT_EQ((*it)[2], sheet.code + "  " + sheet.title);
    }
    EXPECT_EQ(found, printed->sheets.size());
    EXPECT_LT(std::filesystem::file_size(printed->pdf), 1000000u);
  }
}

TEST(Paper, CheckBarsMeasureWhatTheySay) {
  // Source: pixels of poppler's rendering at 508 dpi, 0.05 mm each: 6 in and 150 mm, and one stroke of 0.35 mm, half of
  // it at either end.
  for (const Printed* printed : {&inches(), &metric()})
    for (const char* name : {"plan", "bench-front"}) {
      const Image image = rendered(*printed, printed->page_of(name), 30);
      const auto row = [&](double from_bottom) {
        return image.height - static_cast<int>(std::lround(from_bottom * dpi / 25.4));
      };
      const int right = static_cast<int>(180 * dpi / 25.4), left = static_cast<int>(21 * dpi / 25.4);
      EXPECT_NEAR(longest_run_mm(image, row(10 + 7), left, right), 152.4 + 0.18, 0.18 + 0.05) << name;
      EXPECT_NEAR(longest_run_mm(image, row(10 + 1.6), left, right), 150 + 0.18, 0.18 + 0.05) << name;
    }
}

TEST(Paper, TheTemplatesCircleHasTheBoresDiameter) {
  // Source: pixels: the circle's ends on the row and the column through its middle; 5 in, within 0.2 mm.
  const Printed& printed = inches();
  const drawing::Sheet& sheet = printed.sheets[printed.page_of("template") - 1];
  const Image image = rendered(printed, printed.page_of("template"));
  const double px = dpi / 25.4;
  const int cx = static_cast<int>(std::lround((0 - sheet.page.corner.x) * px));
  const int cy = image.height - static_cast<int>(std::lround((0 - sheet.page.corner.y) * px));
  // A little off the centre lines, so that they are not taken for the circle.
  const int off = static_cast<int>(8 * px);
  const double half = std::sqrt(63.5 * 63.5 - 8 * 8);
  const auto ends = [&](bool across) {
    int first = -1, last = -1;
    const int reach = static_cast<int>(66 * px);
    for (int i = -reach; i <= reach; ++i) {
      const bool dark = across ? image.dark(cx + i, cy + off) : image.dark(cx + off, cy + i);
      if (!dark || std::abs(i) < static_cast<int>(60 * px)) continue;
      if (first == -1) first = i;
      last = i;
    }
    return (last - first) / px;
  };
  EXPECT_NEAR(ends(true), 2 * half + 0.35, 0.2);
  EXPECT_NEAR(ends(false), 2 * half + 0.35, 0.2);
}

TEST(Paper, EqualSheetsMakeEqualBytes) {
  // Source: the contract: no time, no address may reach a file.
  const Printed& printed = inches();
  const std::string again = printed.folder / "again.pdf", svg = printed.folder / "a.svg",
                    svg2 = printed.folder / "b.svg";
  write_pdf(printed.sheets, "12 Tannery Lane, flat 2A", again, 0);
  EXPECT_EQ(sample::slurped(printed.pdf), sample::slurped(again));
  write_svg(printed.sheets[0], svg);
  write_svg(printed.sheets[0], svg2);
  EXPECT_EQ(sample::slurped(svg), sample::slurped(svg2));
}

TEST(Paper, AFullDiskIsTheMachinesFault) {
  // Source: /dev/full refuses every byte.
  std::filesystem::create_symlink("/dev/full", inches().folder / "full.pdf");
  EXPECT_ANY_THROW(write_pdf(inches().sheets, "x", inches().folder / "full.pdf", 0));
}

/// Numbers of every path that is drawn.
std::vector<double> strokes_of(const std::string& svg) {
  std::vector<double> numbers;
  const std::regex path{" d=\"([^\"]*)\""}, number{"-?[0-9.]+"};
  for (std::sregex_iterator it{svg.begin(), svg.end(), path}, end; it != end; ++it) {
    const std::string d = (*it)[1];
    for (std::sregex_iterator n{d.begin(), d.end(), number}; n != end; ++n) numbers.push_back(std::stod(n->str()));
  }
  return numbers;
}

TEST(Paper, GoldenSheetsKeepTheirGeometry) {
  // Source: sheets looked at by eye and kept; strokes are compared as numbers, to a hundredth of a millimetre. After a
  // change that is meant, look at the new ones and copy them over the old.
  const Printed& printed = inches();
  for (const char* name : {"plan", "bench-front"}) {
    write_svg(printed.sheets[printed.page_of(name) - 1], printed.folder / (std::string{name} + ".svg"));
    const auto now = strokes_of(sample::slurped(printed.folder / (std::string{name} + ".svg")));
    const auto kept =
        strokes_of(sample::slurped(std::string{PROJECT_DIR} + "/tests/outside/golden/2a-" + name + ".svg"));
    ASSERT_GT(kept.size(), 100u) << name;
    ASSERT_EQ(now.size(), kept.size()) << name;
    for (std::size_t i = 0; i < now.size(); ++i) ASSERT_NEAR(now[i], kept[i], 0.01) << name << " number " << i;
  }
}

}  // namespace
}  // namespace fallwright::exchange
