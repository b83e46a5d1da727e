// docs/sources.md beside the rules: whole tables, and no row without its rule.
#include <algorithm>
#include <fstream>
#include <iterator>
#include <regex>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "rules/book.hpp"
#include "rules/good_facts.hpp"
#include "rules/result_of.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

std::string sources_document() {
  std::ifstream file{std::string{PROJECT_DIR} + "/docs/sources.md"};
  return {std::istreambuf_iterator<char>{file}, {}};
}

TEST(Book, TheDocumentsTablesAreWholeAndEachChapterHasOneMark) {
  // Source: docs/sources.md; a row without its head is no table, and two marks over one table say nothing.
  std::istringstream doc{sources_document()};
  std::string line, above, heading;
  int marks = 0, rows = 0;
  while (std::getline(doc, line)) {
    if (line.rfind("## ", 0) == 0) heading = line, marks = 0;
    if (line.find("Verified: ") != std::string::npos) {
      EXPECT_EQ(++marks, 1) << heading;
    }
    const bool row = line.rfind("| `", 0) == 0;
    EXPECT_TRUE(!row || above.rfind('|', 0) == 0) << heading << ": " << line;
    rows += row;
    above = line;
  }
  EXPECT_GT(rows, 50);
}

TEST(Book, NothingInTheDocumentIsWithoutARule) {
  // Source: docs/sources.md; a rule that went must not leave its row behind.
  const std::string doc = sources_document();
  const std::regex row{"\\| `([a-z]+\\.[a-z-]+)` \\|"};
  for (std::sregex_iterator it{doc.begin(), doc.end(), row}, end; it != end; ++it) {
    const std::string id = (*it)[1];
    EXPECT_TRUE(std::any_of(rules::all_rules().begin(), rules::all_rules().end(), [&](const auto& r) {
      return r.id == id;
    })) << id;
  }
}

TEST(Book, BothNumbersOfAnOwnRowAreOfItsSource) {
  // Source: none: 32 in, or 26 where 1000 in2 are free, is one row of a county; whichever decides, it is the county's.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  facts.clear.finished->least_width_mm = 27 * 25.4;
  for (const double area_in2 : {1001., 999.}) {
    facts.clear.finished->area_mm2 = area_in2 * 25.4 * 25.4;
    job.book_override = {"county.toml",
                         "title = \"county\"\n[[limit]]\nid = \"clear.width\"\nverified = \"set by the "
                         "user\"\nsource = \"county 7\"\nunit = \"length\"\nleast = \"32 in\"\n"
                         "or_least = { least = \"26 in\", area = \"1000 in2\" }\n"};
    const rules::Result r = sample::result_of(job, facts, "clear.width");
    EXPECT_EQ(r.outcome, area_in2 > 1000 ? rules::Outcome::pass : rules::Outcome::fail);
    EXPECT_EQ(r.limit.source.rfind("county 7", 0), 0U) << r.limit.source;
  }
}

}  // namespace
}  // namespace fallwright
