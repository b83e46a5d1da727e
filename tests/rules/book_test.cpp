// The book of rules as a whole: ids, keys, sources, wording.
#include <algorithm>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "job/schema.hpp"
#include "rules/book.hpp"
#include "rules/check.hpp"
#include "rules/good_facts.hpp"
#include "rules/limits.hpp"
#include "rules/rule_book.hpp"
#include "rules/words.hpp"
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
  EXPECT_EQ(ids.size(), 128U);
}

TEST(Book, EveryRuleSaysWhatItReadsAndHow) {
  // Source: none.
  for (const rules::Rule& rule : rules::all_rules()) {
    EXPECT_FALSE(rule.title.empty() || rule.formula.empty() || rule.reads.empty()) << rule.id;
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

std::vector<const rules::RuleBook*> all_books() {
  std::vector<const rules::RuleBook*> books{&rules::book("common"), &rules::book("millimetres")};
  for (const std::string& name : rules::book_names()) books.push_back(&rules::book(name));
  return books;
}

TEST(Book, NoRowLacksSourceEditionOrVerification) {
  // Source: none; a limit nobody can look up is an opinion. Codes have editions; practice and the job itself have none.
  for (const rules::RuleBook* book : all_books()) {
    EXPECT_FALSE(book->title.empty()) << book->name;
    EXPECT_FALSE(book->rows.empty()) << book->name;
    for (const auto& [id, row] : book->rows) {
      EXPECT_FALSE(row.limit.source.empty()) << book->name << " " << id;
      EXPECT_FALSE(row.title.empty()) << book->name << " " << id;
      const bool code =
          row.limit.verified != rules::Verified::common_practice && row.limit.verified != rules::Verified::user;
      EXPECT_EQ(row.edition.empty(), !code) << book->name << " " << id;
      const bool own = row.limit.verified == rules::Verified::user || id.rfind("joist.", 0) == 0 ||
                       id == "floor.deck-span" || id == "bed.round-drain" || id == "trap.drop" ||
                       id == "trap.arm-least" || id == "trap.size" ||
                       id == "drain.outlet";  // from the job, the joist, the deck, the pipe or its flow
      EXPECT_TRUE(row.limit.has_least() || row.limit.has_greatest() || own) << book->name << " " << id;
    }
  }
}

TEST(Book, RowsSpeakOfRulesInTheirUnits) {
  // Source: none; a row for a check that is not there, or in another unit, would be silently dead.
  for (const rules::RuleBook* book : all_books())
    for (const auto& [id, row] : book->rows) {
      const auto& all = rules::all_rules();
      const auto rule =
          std::find_if(all.begin(), all.end(), [&, key = id](const rules::Rule& r) { return r.id == key; });
      ASSERT_NE(rule, all.end()) << id;
      EXPECT_EQ(rule->unit, row.limit.unit) << book->name << " " << id;
      EXPECT_EQ(rule->title, row.title) << book->name << " " << id;
    }
}

TEST(Book, NoCountIsToldWithoutWhatIsCounted) {
  // Source: none; "3, limit at most 2" tells nobody of what. A number that ends a text, or stands before "to", is bare.
  const std::regex bare{R"((^|[ (])-?[0-9]+(\.[0-9]+)?($| to [^ ]+$|,| at ))"}, pipe{"DN [0-9]+"};
  const auto is_bare = [&](const std::string& text) {
    return std::regex_search(std::regex_replace(text, pipe, "pipe"), bare);
  };
  for (const std::string& name : rules::book_names())
    for (const auto unit : {job::UnitSystem::inch, job::UnitSystem::metric}) {
      job::Job job = sample::alcove();
      job.book = name, job.unit = unit;
      const rules::Limits limits = rules::limits_for(job);
      for (const rules::Rule& rule : rules::all_rules()) {
        const rules::Held* held = limits.find(rule.id);
        if (!held || rule.unit == rules::Unit::span) continue;  // "span / 360" is whole
        rules::Result result;
        result.id = rule.id, result.limit = held->limit;
        for (const double value : {0., 1., 2., 45.}) {
          result.measured = value;
          EXPECT_FALSE(is_bare(rules::measured_text(result, job)))
              << name << " " << rule.id << ": " << rules::measured_text(result, job);
          EXPECT_FALSE(is_bare(rules::limit_text(result, job)))
              << name << " " << rule.id << ": " << rules::limit_text(result, job);
        }
        if (rule.unit == rules::Unit::count) {
          EXPECT_NE(std::string{rule.unit.noun().one}, rule.unit.noun().many) << rule.id;
        }
      }
    }
}

TEST(Book, CountsAreToldByOneAndBySeveral) {
  // Source: none.
  const job::Job job = sample::alcove();
  const auto told = [&](const char* id, double value, rules::Limit limit) {
    limit.unit = rules::Unit::count;
    rules::Result result;
    result.id = id, result.limit = limit, result.measured = value;
    return rules::found_and_limit(result, job);
  };
  rules::Limit none, most, least, both;
  none.greatest = 0, most.greatest = 45, least.least = 1, both.least = 1, both.greatest = 3;
  EXPECT_EQ(told("upstand.every-wall", 3, none), "3 sides not turned up, none allowed");
  EXPECT_EQ(told("upstand.every-wall", 1, none), "1 side not turned up, none allowed");
  EXPECT_EQ(told("trap.turns", 90, most), "90 degrees, limit at most 45 degrees");
  EXPECT_EQ(told("trap.vented", 0, least), "0 vents, limit at least 1 vent");
  EXPECT_EQ(told("trap.bends", 4, both), "4 bends, limit 1 to 3 bends");
}

TEST(Book, EveryRuleHasARowInSomeBook) {
  // Source: none.
  for (const rules::Rule& rule : rules::all_rules()) {
    bool found = false;
    for (const rules::RuleBook* book : all_books()) found = found || book->find(rule.limit_id());
    EXPECT_TRUE(found) << rule.id;
  }
}

TEST(Book, AModelCodesRowsAreTheModelsOwn) {
  // Source: common practice, no source: what a state or a town changed stands in that place's own book, beside the
  // model; where a model's text was read in such a place's code, the edition says so.
  const std::regex place{R"(\b(CPC|CBC|FBC|WAC|CCR|amendment|California|Florida|Nevada|Washington|county|city)\b)"};
  for (const char* book : {"residential", "building", "plumbing", "accessible", "accessible-roll-in"})
    for (const auto& [id, row] : rules::book(book).rows)
      EXPECT_FALSE(
          std::regex_search(row.limit.source.substr(0, row.limit.source.find(" (" + row.edition + ")")), place))
          << book << " " << id << ": " << row.limit.source;
}

TEST(Book, ATypeOfMortarIsNamedAsForeignWhereItIs) {
  // Source: ASTM C270 has types M, S, N and O; EN 998-2 has none of them (from memory).
  for (const char* book : {"european", "metric"}) {
    const rules::RowOf row = rules::row_under(book, "mix.sand");
    ASSERT_NE(row.row, nullptr) << book;
    EXPECT_EQ(row.owner, "millimetres") << book;
    EXPECT_THAT(row.row->edition, testing::HasSubstr("of the United States")) << book;
    for (const char* id : {"mix.sand", "mix.lime-m", "mix.lime-s", "mix.lime-n", "mix.lime-o"}) {
      const auto& here = rules::row_under(book, id).row->limit;
      const auto& there = rules::row_under("residential", id).row->limit;
      EXPECT_EQ(here.least, there.least) << id;
      EXPECT_EQ(here.greatest, there.greatest) << id;
    }
  }
}

TEST(Book, LimitsAreThePublishedOnes) {
  // Source: by value: IRC P2709.1 1/4:12 to 1/2:12, 2 to 9 in, 1 in; IRC P2708.1 900 in2, 30 in; UPC 408.7 1024 in2;
  // ADA 608.7 1/2 in, 610.3 17 to 19 in, 305.2 1:48; NCC 10.2.12 1:80 to 1:50.
  const auto limit = [](const char* book, const char* id) { return rules::book(book).find(id)->limit; };
  EXPECT_DOUBLE_EQ(*limit("residential", "floor.fall-least").least, 1. / 48);
  EXPECT_DOUBLE_EQ(*limit("residential", "floor.fall-greatest").greatest, 1. / 24);
  EXPECT_DOUBLE_EQ(*limit("residential", "threshold.height-least").least, 50.8);
  EXPECT_DOUBLE_EQ(*limit("residential", "threshold.height-greatest").greatest, 228.6);
  EXPECT_NEAR(*limit("residential", "clear.area").least, 900 * 645.16, 1e-6);
  EXPECT_NEAR(*limit("plumbing", "clear.area").least, 660.6e3, 1e2) << "0.6606 m2, as the code says in metric";
  EXPECT_DOUBLE_EQ(*limit("accessible", "threshold.step-outside").greatest, 12.7);
  EXPECT_DOUBLE_EQ(*limit("accessible", "seat.height").least, 17 * 25.4);
  EXPECT_DOUBLE_EQ(*limit("accessible", "floor.fall-greatest").greatest, 1. / 48);
  EXPECT_DOUBLE_EQ(*limit("metric", "floor.fall-least").least, 0.0125);
  EXPECT_DOUBLE_EQ(*limit("metric", "floor.fall-greatest").greatest, 0.02);
}

TEST(Book, AccessibleLeavesOneNominalSlope) {
  // Source: conflict of IRC P2709.1 (at least 1/4:12) and ADA 305.2 (at most 1:48): they meet.
  EXPECT_DOUBLE_EQ(*rules::row_under("accessible", "floor.fall-least").row->limit.least,
                   *rules::row_under("accessible", "floor.fall-greatest").row->limit.greatest);
}

TEST(Book, ThatRestsOnAnotherDropsNothingSilently) {
  // Source: property: what the book below holds, the book above holds too, in its own words or in those; where it does
  // not, it says why.
  const auto has = [](const std::string& book, const std::string& id) { return rules::row_under(book, id).row; };
  for (const std::string& name : rules::book_names())
    for (std::string below = rules::book(name).rests_on; !below.empty(); below = rules::book(below).rests_on)
      for (const auto& [id, row] : rules::book(below).rows) {
        if (!has(below, id)) continue;
        const rules::RowOf above = rules::row_under(name, id);
        EXPECT_TRUE(above.row || !above.without.empty()) << name << " drops " << id << " of " << below;
      }
  for (const char* id : {"trap.arm", "liner.above-threshold", "drain.outlet", "threshold.below-upstand"})
    EXPECT_EQ(has("accessible", id), has("building", id)) << id << ": what plumbing asks of every shower stays";
  job::Job job = sample::alcove();
  job.book = "accessible";
  for (const rules::Result& r : rules::check(job, sample::good_facts()))
    if (r.id == "clear.area") {
      EXPECT_EQ(r.outcome, rules::Outcome::not_applicable);
      EXPECT_THAT(r.where, testing::HasSubstr("one size of its own"));
      EXPECT_TRUE(r.limit.source.empty()) << "a row that is not there has no source";
    }
}

TEST(Book, SaysItsReachAndItsFloodTest) {
  // Source: by value: IRC P2503.6 and IPC 312.9 ask for 2 in at the threshold, UPC 408.7.5 for the rough threshold.
  for (const std::string& name : rules::book_names())
    EXPECT_THAT(rules::book(name).title, testing::ContainsRegex("United States|Australia|Europe")) << name;
  EXPECT_THAT(rules::flood_test_of("residential").words, testing::HasSubstr("IRC P2503.6"));
  EXPECT_THAT(rules::flood_test_of("accessible-roll-in").words, testing::HasSubstr("IPC 312.9"));
  EXPECT_THAT(rules::flood_test_of("plumbing").words, testing::HasSubstr("rough threshold"));
  EXPECT_THAT(rules::flood_test_of("metric").words, testing::HasSubstr("no test by this book"));
  EXPECT_TRUE(rules::is_metric_book("european"));
  EXPECT_FALSE(rules::is_metric_book("building"));
}

TEST(Book, OfTheUsersRestsOnNothing) {
  // Source: none; a file of the user's replaces rows of the book the job names, and has no book of its own below.
  EXPECT_THROW(rules::read_book("title = \"x\"\nrests_on = \"building\"\n[[limit]]\nid = \"trap.arm\"\nunit = "
                                "\"length\"\ngreatest = \"4 ft\"\nsource = \"x\"\nverified = \"set by the user\"\n",
                                "x.toml"),
               diag::JobFaults);
}

TEST(Book, AFileOfTheUsersReplacesRows) {
  // Source: none; a row of the override holds, all others stay.
  job::Job job = sample::alcove();
  job.book_override = {
      "county.toml",
      "title = \"county\"\n[[limit]]\nid = \"threshold.height-least\"\nunit = \"length\"\nleast = \"3 in\"\n"
      "source = \"county amendment 7\"\nedition = \"2025\"\nverified = \"set by the user\"\n"};
  const rules::Limits limits = rules::limits_for(job);
  EXPECT_DOUBLE_EQ(*limits.at("threshold.height-least").least, 76.2);
  EXPECT_EQ(limits.at("threshold.height-least").source, "county amendment 7 (2025)");
  EXPECT_DOUBLE_EQ(*limits.at("threshold.height-greatest").greatest, 228.6);
  EXPECT_TRUE(limits.by_user("threshold.height-least"));
  EXPECT_FALSE(limits.by_user("threshold.height-greatest"));
}

TEST(Book, BoundsOfTheUsersThatCrossAreRefused) {
  // Source: none; no floor falls by 3/4 in a foot at least and by 1/2 at most, whether one of the two is the book's or
  // not. Equal ones can both be kept.
  job::Job job = sample::alcove();
  const auto row = [](const char* id, const char* bound) {
    return std::string{"[[limit]]\nid = \""} + id + "\"\nunit = \"fall\"\n" + bound +
           "\nsource = \"county 7\"\nverified = \"set by the user\"\n";
  };
  const std::string title = "title = \"county\"\n", steep = row("floor.fall-least", "least = \"3/4 in/ft\"");
  for (const std::string& text :
       {title + steep, title + steep + row("floor.fall-greatest", "greatest = \"1/2 in/ft\"")})
    try {
      job.book_override = {"county.toml", text};
      rules::limits_for(job);
      ADD_FAILURE() << text;
    } catch (const diag::JobFaults& e) {
      EXPECT_THAT(e.what(), testing::HasSubstr("is more than 'floor.fall-greatest'"));
    }
  job.book_override.text = title + row("floor.fall-least", "least = \"1/2 in/ft\"");
  EXPECT_NO_THROW(rules::limits_for(job));
}

TEST(Book, FaultsOfABookAreToldWithTheirPlace) {
  // Source: the contract of messages: all in one run.
  try {
    rules::read_book(
        "title = \"x\"\n[[limit]]\nid = \"floor.fal\"\nunit = \"mile\"\nleast = \"steep\"\nverified = \"sure\"\ncolour "
        "= \"red\"\n",
        "bad.toml");
    FAIL() << "read without a fault";
  } catch (const diag::JobFaults& e) {
    const std::string text = e.what();
    for (const char* words : {"bad.toml:3:", "there is no check 'floor.fal'", "found 'mile'", "found 'steep'",
                              "found 'sure'", "source: is missing in this row", "colour: no such key"})
      EXPECT_THAT(text, testing::HasSubstr(words));
  }
}

/// A book of one row about `id`.
std::string row_about(const std::string& id, const std::string& rest) {
  return "title = \"county\"\n[[limit]]\nid = \"" + id + "\"\nverified = \"set by the user\"\n" + rest + "\n";
}

TEST(Book, ARowThatDoesNotSuitItsCheckIsRefused) {
  // Source: none; a limit the check does not know how to hold would be taken for another.
  const struct {
    const char *id, *rest, *words;
  } rows[] = {
      {"access.opening", "source = \"x\"\nunit = \"share\"\nleast = \"50 %\"",
       "unit: found 'share'; 'access.opening' is a length"},
      {"drain.outlet", "source = \"x\"\nunit = \"length\"\ngreatest = \"2 in\"",
       "greatest: 'drain.outlet' has no such bound"},
      {"drain.outlet", "source = \"x\"\nunit = \"length\"\ngreatest = \"2 in\"", "least: is missing: 'drain.outlet'"},
      {"bed.bearing", "source = \"x\"\nunit = \"share\"\ngreatest = \"90 %\"",
       "greatest: 'bed.bearing' has no such bound"},
      {"drain.outlet", "source = \"x\"\nunit = \"length\"", "least: is missing: 'drain.outlet' is held to it"},
      {"drain.outlet", "source = \"x\"\nunit = \"length\"\nleast = \"560\"", "needs its unit"},
      {"drain.outlet", "source = \"\"\nunit = \"length\"\nleast = \"2 in\"", "source: is empty"},
      {"bed.fills-shell", "source = \"x\"\nunit = \"volume\"\nleast = \"0.5 furlong\"", "least: found '0.5 furlong'"},
      {"fit.no-clash", "source = \"x\"\nunit = \"count\"\ngreatest = \"abc\"", "a count is a whole number"},
      {"drain.outlet", "source = \"x\"\nunit = \"length\"\nleast = \"2 in\"\nbreaks = \"maybe\"",
       "breaks: found 'maybe'; allowed is fail or caution"},
      {"clear.width", "source = \"x\"\nunit = \"length\"\nleast = \"30 in\"\nexempt = { short = \"1 in\" }",
       "exempt: 'clear.width' is held to its limit in every room"},
      {"clear.width", "source = \"x\"\nunit = \"length\"\nleast = \"30 in\"\nto_centreline = true",
       "to_centreline: 'clear.width' is measured in one way"},
      {"clear.area", "source = \"x\"\nunit = \"area\"\nleast = \"900 in2\"\nexempt = { short = \"1 in\", width = 3 }",
       "width: no such key in 'exempt'"},
      {"clear.area", "source = \"x\"\nunit = \"area\"\nleast = \"900 in2\"\nexempt = { short = \"-1 in\" }",
       "short: must be more than nothing"},
      {"clear.width", "source = \"x\"\nunit = \"length\"\nleast = \"30 in\"\nor_least = { area = \"3 in2\" }",
       "least: is missing in this row"},
      {"clear.width", "source = \"x\"\nunit = \"length\"\nleast = \"30 in\"\nor_least = \"25 in\"",
       "or_least: wanted a table in braces"},
      {"floor.fall-least",
       "source = \"x\"\nunit = \"fall\"\nleast = \"2 %\"\n[[limit]]\nid = \"floor.fall-least\"\nsource "
       "= \"x\"\nunit = \"fall\"\nleast = \"2 %\"\nverified = \"set by the user\"",
       "county.toml:8:1: floor.fall-least: has a row already"},
  };
  for (const auto& row : rows) try {
      rules::read_book(row_about(row.id, row.rest), "county.toml");
      ADD_FAILURE() << row.rest << " was read";
    } catch (const diag::JobFaults& e) {
      EXPECT_THAT(e.what(), testing::HasSubstr(row.words));
    }
  for (const char* none : {"title = \"county\"\n", "title = \"county\"\nlimit = [1]\n"}) try {
      rules::read_book(none, "county.toml");
      ADD_FAILURE() << none << " was read";
    } catch (const diag::JobFaults& e) {
      EXPECT_THAT(e.what(), testing::HasSubstr("county.toml:1:1: limit: a rule book needs [[limit]] rows"));
    }
}

TEST(Book, OfTheUsersSaysWhomItsLimitsAreNotAskedOf) {
  // Source: none; by hand: a receptor of 60 by 42 in is past 40 by 58 and not past 40 by 61; 26 in of width will do
  // where 1000 in2 are free. Neither the job's book nor a code's name switches either on: the row is a county's.
  facts::Facts facts = sample::good_facts();
  facts.parts[0].bbox_mm = {0, 0, 0, 60 * 25.4, 42 * 25.4, 100};
  facts.clear.finished->area_mm2 = 1000 * 25.4 * 25.4, facts.clear.finished->least_width_mm = 26.5 * 25.4;
  const auto under = [&](const std::string& id, const std::string& rest) {
    job::Job job = sample::alcove();
    job.book = "building";
    job.book_override = {"county.toml", row_about(id, "source = \"county 9\"\n" + rest)};
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == id) return r;
    return rules::Result{};
  };
  const std::string large = "unit = \"area\"\nleast = \"1100 in2\"\n", wide = "unit = \"length\"\nleast = \"30 in\"\n",
                    by = ", source = \"county 9, exception\" }";
  const rules::Result exempt = under("clear.area", large + "exempt = { short = \"40 in\", long = \"58 in\"" + by);
  EXPECT_EQ(exempt.outcome, rules::Outcome::not_applicable);
  EXPECT_THAT(exempt.where,
              testing::HasSubstr("40\" by 58\" or more is exempt (county 9, exception), and this one is"));
  EXPECT_EQ(under("clear.area", large + "exempt = { short = \"40 in\", long = \"61 in\"" + by).outcome,
            rules::Outcome::fail);
  EXPECT_EQ(under("clear.area", large).outcome, rules::Outcome::fail);
  facts.clear.to_centreline = facts.clear.finished, facts.clear.to_centreline->area_mm2 = 1101 * 25.4 * 25.4;
  EXPECT_EQ(under("clear.area", large).outcome, rules::Outcome::fail);
  EXPECT_EQ(under("clear.area", large + "to_centreline = true\n").outcome, rules::Outcome::pass);
  EXPECT_EQ(under("clear.width", wide + "or_least = { least = \"26 in\", area = \"1000 in2\" }").outcome,
            rules::Outcome::pass);
  EXPECT_EQ(under("clear.width", wide + "or_least = { least = \"26 in\", area = \"1001 in2\" }").outcome,
            rules::Outcome::fail);
  EXPECT_EQ(under("clear.width", wide).outcome, rules::Outcome::fail);
}

TEST(Book, SaysWhatASeatIsPushedWith) {
  // Source: IBC 1607.9.2 (as adopted in California, 2022) and ADA 610.4: 250 lbf; 200 is common practice, no source.
  for (const auto& [book, lbf] : {std::pair{"residential", 200},
                                  {"building", 250},
                                  {"plumbing", 200},
                                  {"accessible", 250},
                                  {"accessible-roll-in", 250},
                                  {"metric", 200},
                                  {"european", 200}})
    EXPECT_EQ(rules::push_lbf_under(book), lbf) << book;
}

TEST(Book, AStricterLimitOfTheUsersIsNotLoosened) {
  // Source: none: 25 in will do where 1300 in2 are free (IRC P2708.1), but not where the county asks for 36; a hole may
  // be a third of the joist (IRC R502.8.1), but not where the county allows an inch.
  job::Job job = sample::alcove();
  facts::Facts facts = sample::good_facts();
  facts.clear.finished->least_width_mm = 31.5 * 25.4;
  facts.clear.finished->area_mm2 = 1788 * 25.4 * 25.4;
  job.book_override = {"county.toml",
                       row_about("clear.width", "source = \"county 7\"\nunit = \"length\"\nleast = \"36 in\"")};
  for (const rules::Result& r : rules::check(job, facts)) {
    if (r.id != "clear.width") continue;
    EXPECT_EQ(r.outcome, rules::Outcome::fail);
    EXPECT_NEAR(*r.limit.least, 36 * 25.4, 1e-9);
  }
  job.bed.least = job::Length::inches(0.5);
  job.book_override.text = row_about("bed.least", "source = \"county 8\"\nunit = \"length\"\nleast = \"3 in\"");
  for (const rules::Result& r : rules::check(job, facts))
    if (r.id == "bed.least") {
      EXPECT_EQ(r.outcome, rules::Outcome::fail);
    }
  // A notch may be as long as a third of a joist of 250 mm: a limit of the user's below that holds, one above it not.
  job = sample::alcove(), facts = sample::good_facts();
  job.trap = sample::trap();
  job.trap->notch = job::Length::mm(20), job.trap->outside = job::Length::mm(60);
  facts.pipe.known = facts.pipe.routed = true;
  facts.pipe.crossings = {{"joists/joist-01", 100, -250, 0, -125, 60}};
  facts.room.drain.joists_known = true, facts.room.drain.joist_depth_mm = 250;
  for (const auto& [own, holds_mm] : {std::pair{"50 mm", 50.}, {"200 mm", 250. / 3}}) {
    job.book_override.text = row_about(
        "joist.notch-length", std::string{"source = \"county 9\"\nunit = \"length\"\ngreatest = \""} + own + "\"");
    for (const rules::Result& r : rules::check(job, facts))
      if (r.id == "joist.notch-length") {
        EXPECT_NEAR(*r.limit.greatest, holds_mm, 1e-9);
        EXPECT_EQ(r.outcome, holds_mm < 60 ? rules::Outcome::fail : rules::Outcome::pass);
      }
  }
}

TEST(Book, OneBoundOfTheUsersAloneIsHeldAndWorded) {
  // Source: property: whatever single limit a job sets, in whichever book, its check answers, and what it advises names
  // no number beyond reason.
  const std::regex beyond_reason{"inf|nan|[0-9]{9}"};
  const facts::Facts facts = sample::good_facts();
  job::Job job = sample::alcove();
  std::set<std::string> read;  // what most rooms are told is told many thousand times
  for (const std::string& book : rules::book_names())
    for (const rules::Rule& rule : rules::all_rules())
      for (const std::string& key : {rule.least_key, rule.greatest_key})
        for (const double value : {0.0, 1e-3, 0.5, 40.0, 1e4}) {
          if (key.empty()) continue;
          job.book = book;
          job.limits = {{key, value, "the user"}};
          for (const rules::Result& r : rules::check(job, facts))
            if (read.insert(r.advice).second) {
              EXPECT_FALSE(std::regex_search(r.advice, beyond_reason)) << r.id << ": " << r.advice;
            }
        }
}

TEST(Book, EverySourceHasItsHeading) {
  // Source: docs/sources.md; each row's id stands under the heading that is its source.
  const std::string doc = slurp(std::string{PROJECT_DIR} + "/docs/sources.md");
  for (const rules::RuleBook* book : all_books())
    for (const auto& [id, row] : book->rows) {
      const std::size_t heading = doc.find("\n## " + row.limit.source + "\n");
      ASSERT_NE(heading, std::string::npos) << id << " rests on '" << row.limit.source << "'";
      const std::size_t next = doc.find("\n## ", heading + 1);
      const std::string chapter = doc.substr(heading, next == std::string::npos ? next : next - heading);
      const std::size_t at = chapter.find("\n| `" + id + "` |");
      ASSERT_NE(at, std::string::npos) << id << " has no row under '" << row.limit.source << "'";
      // The chapter's mark holds for all its rows; where marks differ each row has its own.
      const std::string line = chapter.substr(at + 1, chapter.find('\n', at + 1) - at - 1),
                        mark = rules::name_of(row.limit.verified);
      EXPECT_TRUE(chapter.find("Verified: " + mark) != std::string::npos ||
                  line.find("| " + mark + " |") != std::string::npos)
          << id << " is " << mark;
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
