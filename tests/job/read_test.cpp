#include <fstream>
#include <iterator>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "diag/nearest.hpp"
#include "job/describe.hpp"
#include "job/faults.hpp"
#include "job/read.hpp"

namespace fallwright::job {
namespace {

/// The one fault of a text.
std::string fault(const std::string& text) {
  const auto faults = faults_of(text);
  EXPECT_EQ(faults.size(), 1u);
  return faults.empty() ? "none" : diag::to_text(faults.front());
}

TEST(Read, TheAlcoveIsAsItWasReadWhereSidesAndDiagonalsClose) {
  // Source: by hand: 71 by 35 in with diagonals of hypot(71, 35) = 79.158 in; the sample says 72 by 36, an inch off
  // each. What is more than 50 mm off is another room.
  const std::string plan =
      "[survey.plan]\nback = 71\nfront = 71\nleft = 35\nright = 35\n"
      "diagonal_from_back_left = 79.158\ndiagonal_from_back_right = 79.158\n";
  std::string job = least_job(plan);
  const auto size = [&](const std::string& of, const std::string& now) { job.replace(job.find(of), of.size(), now); };
  size("width = 36", "width = 35");
  const Job as_read = read(job, "job.toml");
  EXPECT_NEAR(as_read.alcove.width.in_mm(), 71 * 25.4, 0.01);
  EXPECT_NEAR(as_read.alcove.depth.in_mm(), 35 * 25.4, 0.01);
  for (const char* depth : {"depth = 34", "depth = 36.9"}) {
    job = least_job(plan);
    size("width = 36", "width = 35"), size("depth = 36", depth);
    EXPECT_NEAR(read(job, "job.toml").alcove.depth.in_mm(), 35 * 25.4, 0.01) << depth;
  }
  for (const char* depth : {"depth = 33", "depth = 37"}) {
    job = least_job(plan);
    size("width = 36", "width = 35"), size("depth = 36", depth);
    const auto faults = faults_of(job);
    ASSERT_FALSE(faults.empty()) << depth;
    EXPECT_THAT(diag::to_text(faults.front()), testing::HasSubstr("alcove.depth")) << depth;
  }
}

TEST(Read, TheSheetsPaperGoesByTheUnitUnlessItIsSaid) {
  // Source: the table of keys: tabloid where the job is in inches, A3 in millimetres.
  const std::string metric =
      "[job]\nname = \"a\"\nunit = \"mm\"\n[alcove]\nwidth = 1830\ndepth = 915\n[base]\nlength = 1460\n"
      "width = 915\n[drain]\nfrom_left = 730\nfrom_back = 413\n";
  EXPECT_EQ(read(least_job(), "x").drawings.paper, PaperSize::tabloid);
  EXPECT_EQ(read(metric, "x").drawings.paper, PaperSize::a3);
  EXPECT_EQ(read(metric + "[drawings]\npaper = \"a4\"\n", "x").drawings.paper, PaperSize::a4);
  EXPECT_EQ(read(least_job("[drawings]\npaper = \"letter\"\n"), "x").drawings.paper, PaperSize::letter);
}

TEST(Read, TheLeastJobTakesItsDefaults) {
  // Source: the defaults of the job file's own table.
  const Job job = read(least_job(), "job.toml");
  EXPECT_EQ(job.walls.stock.name, "2x4");
  EXPECT_DOUBLE_EQ(job.walls.spacing.in_inches(), 16);
  EXPECT_EQ(job.base.upstands.size(), 3u);
  EXPECT_FALSE(job.bench);
  EXPECT_DOUBLE_EQ(job.bed.waste, 0.1);
}

TEST(Read, WallsStandOnlyWhereSomethingWasReadBetweenThem) {
  // Source: the reference: walls are existing where survey.plan was read; a header alone reads nothing.
  EXPECT_FALSE(read(least_job("[survey.plan]\n"), "job.toml").walls.existing);
  EXPECT_TRUE(read(least_job("[survey.plan]\nback = 72\n"), "job.toml").walls.existing);
  // A stud that was found and a lean that was read are of a wall that stands.
  EXPECT_TRUE(read(least_job("[[survey.studs]]\nwall = \"left\"\nfrom = \"back\"\ncentres = [16, 32]\n"), "job.toml")
                  .walls.existing);
  EXPECT_TRUE(
      read(least_job("[[survey.plumb]]\nwall = \"left\"\nalong = 12\nlean = \"1/8 in\"\nover = 48\n"), "job.toml")
          .walls.existing);
}

TEST(Read, BareNumbersAreInTheJobsUnit) {
  // Source: 25.4 mm to the inch.
  const Job inch = read(least_job(), "job.toml");
  EXPECT_DOUBLE_EQ(inch.alcove.width.in_mm(), 72 * 25.4);
  const Job metric = read(
      "[job]\nname='a'\nunit='mm'\n[alcove]\nwidth=1900\ndepth='90 cm'\n[base]\nlength=1890\nwidth=900\n"
      "[drain]\nfrom_left=945\nfrom_back=406\n",
      "job.toml");
  EXPECT_DOUBLE_EQ(metric.alcove.width.in_mm(), 1900);
  EXPECT_DOUBLE_EQ(metric.alcove.depth.in_mm(), 900);
}

TEST(Read, TwoLettersChangedAboutAreOneSlip) {
  // Source: by hand: 'lenght' is 'length' with two neighbours changed about, one slip; to 'weight' it is two letters.
  // So are 'widht' and 'width'; a letter changed is one slip as before.
  const std::vector<std::string> known{"base.weight", "base.length", "base.width"};
  EXPECT_EQ(diag::nearest("base.lenght", known), "base.length");
  EXPECT_EQ(diag::nearest("base.widht", known), "base.width");
  EXPECT_EQ(diag::nearest("bsae.length", known), "base.length");
  EXPECT_EQ(diag::near("lenght", known, 1), std::vector<std::string>{"base.length"});
}

TEST(Read, EveryKindOfFaultHasItsPlaceAndItsReason) {
  // Source: the contract of messages: file, line, column, key, what was found, what is allowed.
  using testing::AllOf, testing::HasSubstr, testing::StartsWith;
  EXPECT_THAT(fault(least_job("[bed]\nleest = 1\n")),
              AllOf(StartsWith("job.toml:14:1: bed.leest: "), HasSubstr("did you mean 'bed.least'")));
  EXPECT_THAT(fault(least_job("[bedd]\nleast = 1\n")),
              AllOf(StartsWith("job.toml:13:2: bedd: "), HasSubstr("did you mean")));
  EXPECT_THAT(fault(least_job("[bed]\nleast = \"5 feet high\"\n")),
              AllOf(StartsWith("job.toml:14:1: bed.least: found '5 feet high'"), HasSubstr("no number")));
  EXPECT_THAT(fault(least_job("[bed]\nleast = true\n")),
              AllOf(HasSubstr("14:1: bed.least: found true; wanted a length")));
  EXPECT_THAT(fault(least_job("[bed]\nleast = 12\n")),
              AllOf(HasSubstr("found 12\""), HasSubstr("allowed is 1/8\" to 5-7/8\"")));
  EXPECT_THAT(fault(least_job("[bed]\nleast = nan\n")), HasSubstr("no finite number"));
  const std::string channel =
      "[job]\nname='a'\nunit='in'\n[alcove]\nwidth=60\ndepth=36\n[base]\nlength=60\nwidth=36\n[drain]\nkind='line'\n";
  EXPECT_THAT(fault(channel + "from_left = 0\nfrom_back = 16\n"),
              AllOf(StartsWith("job.toml:12:1: drain.from_left: "), HasSubstr("not at its edge")));
  EXPECT_THAT(fault(channel + "from_left = 2\nfrom_back = 16\nbore = 1.25\n"),
              AllOf(StartsWith("job.toml:12:1: drain.from_left: "), HasSubstr("its outlet's centre may be 2-1/8\"")));
  EXPECT_THAT(fault(least_job("[bed]\nbag_yield = 12\n")), HasSubstr("wanted a volume like '0.45 ft3'"));
  EXPECT_THAT(fault(least_job("[walls]\nstock = \"2x7\"\n")), HasSubstr("is no dressed size"));
  EXPECT_THAT(fault(least_job("[walls]\nblocking = \"6 in\"\n")), HasSubstr("wanted a list of lengths"));
  EXPECT_THAT(fault(least_job("[walls]\ntop_plates = 1.5\n")), HasSubstr("wanted a whole number"));
  EXPECT_THAT(fault(least_job("[floor]\nkind = \"grass\"\n")), HasSubstr("allowed is one of joists, slab"));
  EXPECT_THAT(fault(least_job("[floor]\njoists = 3\n")), HasSubstr("this is a section"));
  EXPECT_THAT(fault(least_job("[base.upstands]\nsides = [\"left\", \"left\"]\n")), HasSubstr("'left' twice"));
  EXPECT_THAT(fault(least_job("[base.threshold]\nfall = \"1/4\"\n")), HasSubstr("a fall needs its unit"));
  EXPECT_THAT(fault(least_job("[bench]\ndepth = 14\nheight = 18\n")),
              HasSubstr("bench.place: is missing; for example"));
  EXPECT_THAT(
      fault(least_job("from_right = 3\n")),
      HasSubstr("job.toml:13:1: drain.from_right: give either 'drain.from_left' or 'drain.from_right', not both"))
      << "where the second of them stands";
  EXPECT_THAT(fault(least_job("x = [1,\n")), HasSubstr("this is no TOML"));
  EXPECT_THAT(fault("[job]\nname=\"\"\nunit=\"in\"\n[alcove]\nwidth=72\ndepth=36\n[base]\nlength=60\nwidth=36\n[drain]"
                    "\nfrom_left=30\nfrom_back=16.25\n"),
              HasSubstr("job.name: found an empty text"));
}

TEST(Read, TellsAllFaultsInOneRunInFileOrder) {
  // Source: the contract of messages.
  const auto faults =
      faults_of("[job]\nname = 3\nunit = \"ell\"\n[alcove]\nwidth = \"wide\"\n[drain]\nbore = \"900 in\"\n[bedd]\n");
  std::vector<std::string> keys;
  for (const diag::Fault& f : faults) keys.push_back(f.key);
  for (const char* key : {"job.name", "job.unit", "alcove.width", "alcove.depth", "base.length", "base.width",
                          "drain.bore", "drain", "bedd"})
    EXPECT_THAT(keys, testing::Contains(std::string{key}));
  EXPECT_TRUE(
      std::is_sorted(faults.begin(), faults.end(), [](const auto& a, const auto& b) { return a.line < b.line; }));
}

TEST(Read, ImpossibleGeometryNamesTheNumbersThatCollide) {
  // Source: arithmetic: 60 + 14-1/2 = 74-1/2 > 72.
  std::string text = least_job("[bench]\nplace = \"left-end\"\ndepth = \"14-1/2 in\"\nheight = 18\n");
  text.replace(text.find("57.5"), 4, "60");
  EXPECT_THAT(
      fault(text),
      testing::StartsWith("job.toml:8:1: base.length: base 60\" + bench 14-1/2\" = 74-1/2\", alcove width is 72\""));
}

TEST(Read, RiseAndFallExcludeEachOther) {
  // Source: a level rim has one of them; the other follows.
  std::string text = least_job();
  text.replace(text.find("width = 36\n[drain"), 11, "width = 36\nfall = \"2 %\"\nrise = 1\n");
  EXPECT_THAT(fault(text), testing::HasSubstr("give either 'fall' or 'rise'"));
}

TEST(Read, SurvivesDamagedFiles) {
  // Source: property test, fixed seed: any damage gives a job or faults, never anything else.
  const std::string whole = starter(UnitSystem::inch);
  std::mt19937 random{4711};
  std::uniform_int_distribution<std::size_t> at{0, whole.size() - 1};
  std::uniform_int_distribution<int> byte{1, 255};
  for (int i = 0; i < 300; ++i) {
    std::string text = whole;
    for (int k = 0; k < 3; ++k) text[at(random)] = static_cast<char>(byte(random));
    if (i % 3 == 0) text.resize(at(random));
    try {
      read(text, "job.toml");
    } catch (const diag::JobFaults& e) {
      EXPECT_FALSE(e.faults().empty());
    }
  }
}

}  // namespace
}  // namespace fallwright::job
