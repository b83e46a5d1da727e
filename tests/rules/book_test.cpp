// The book of rules as a whole: ids, keys, sources, wording.
#include <algorithm>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/schema.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

std::string slurp(const std::string& path) {
  std::ifstream in{path};
  std::stringstream text;
  text << in.rdbuf();
  EXPECT_FALSE(text.str().empty()) << path;
  return text.str();
}

TEST(Book, IdsAreUniqueKebabWordsWithADot) {
  // Source: none; the ids are what other programs select by.
  std::set<std::string> ids;
  for (const rules::Rule& rule : rules::all_rules()) {
    EXPECT_TRUE(std::regex_match(rule.id, std::regex{"[a-z]+\\.[a-z]+(-[a-z]+)*"})) << rule.id;
    EXPECT_TRUE(ids.insert(rule.id).second) << rule.id;
  }
  EXPECT_EQ(ids.size(), 35U);
}

TEST(Book, EveryRuleSaysWhatItReadsAndHow) {
  // Source: none.
  for (const rules::Rule& rule : rules::all_rules()) {
    EXPECT_FALSE(rule.title.empty() || rule.formula.empty() || rule.reads.empty()) << rule.id;
    EXPECT_TRUE(rule.limit.least || rule.limit.greatest || rule.limit.verified == rules::Verified::user) << rule.id;
  }
}

TEST(Book, KeysOfLimitsAreThoseOfTheJobFile) {
  // Source: job/schema: what a rule looks for and what a job may set are the same words.
  std::set<std::string> used, known;
  for (const rules::Rule& rule : rules::all_rules())
    for (const std::string& key : {rule.least_key, rule.greatest_key})
      if (!key.empty()) used.insert("limits." + key);
  for (const job::Key& key : job::keys())
    if (key.path.rfind("limits.", 0) == 0 && key.path != "limits.source") known.insert(key.path);
  EXPECT_EQ(used, known);
}

TEST(Book, EverySourceHasItsHeading) {
  // Source: docs/sources.md; each rule's id stands under the heading that is its source.
  const std::string doc = slurp(std::string{PROJECT_DIR} + "/docs/sources.md");
  for (const rules::Rule& rule : rules::all_rules()) {
    const std::size_t heading = doc.find("\n## " + rule.limit.source + "\n");
    ASSERT_NE(heading, std::string::npos) << rule.id << " rests on '" << rule.limit.source << "'";
    const std::size_t next = doc.find("\n## ", heading + 1);
    const std::string chapter = doc.substr(heading, next == std::string::npos ? next : next - heading);
    EXPECT_THAT(chapter, testing::HasSubstr("`" + rule.id + "`"));
    EXPECT_THAT(chapter, testing::HasSubstr("Verified: " + std::string{rules::name_of(rule.limit.verified)}))
        << rule.id;
  }
}

TEST(Book, NothingInTheDocumentIsWithoutARule) {
  // Source: docs/sources.md; a rule that went must not leave its row behind.
  const std::string doc = slurp(std::string{PROJECT_DIR} + "/docs/sources.md");
  const std::regex row{"\\| `([a-z]+\\.[a-z-]+)` \\|"};
  for (std::sregex_iterator it{doc.begin(), doc.end(), row}, end; it != end; ++it) {
    const std::string id = (*it)[1];
    EXPECT_TRUE(std::any_of(rules::all_rules().begin(), rules::all_rules().end(), [&](const auto& r) {
      return r.id == id;
    })) << id;
  }
}

TEST(Book, ApprovesNothing) {
  // Source: none; whether a job meets the code is for those to say who are asked to.
  const auto no_claim = [](std::string text, const std::string& id) {
    std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return std::tolower(c); });
    for (const char* word : {"complian", "complies", "approved", "certif", "code-"})
      EXPECT_EQ(text.find(word), std::string::npos) << id << ": " << text;
  };
  facts::Facts nothing;
  for (const rules::Result& r : rules::check(sample::alcove(), nothing)) no_claim(r.title + r.where + r.advice, r.id);
  for (const rules::Rule& rule : rules::all_rules()) no_claim(rule.title + rule.formula + rule.reads, rule.id);
}

}  // namespace
}  // namespace fallwright
