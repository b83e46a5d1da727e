// The three CSV files against RFC 4180.
#include <gtest/gtest.h>

#include "report/sample_report.hpp"

namespace fallwright {
namespace {

using Rows = std::vector<std::vector<std::string>>;

/// A reader of its own, strict: CRLF ends a record, quotes only round a whole field.
Rows read(const std::string& text) {
  Rows rows{{""}};
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    std::string& field = rows.back().back();
    if (quoted && text[i] == '"' && text[i + 1] == '"') {
      field += text[++i];
    } else if (text[i] == '"') {
      EXPECT_TRUE(quoted || field.empty()) << "a quote inside a bare field";
      quoted = !quoted;
    } else if (!quoted && text[i] == ',') {
      rows.back().emplace_back();
    } else if (!quoted && text[i] == '\r') {
      EXPECT_EQ(text[++i], '\n');
      rows.push_back({""});
    } else {
      EXPECT_TRUE(quoted || text[i] != '\n') << "a line end that is no CRLF";
      field += text[i];
    }
  }
  EXPECT_FALSE(quoted);
  EXPECT_EQ(rows.back(), std::vector<std::string>{""}) << "the last record ends with CRLF as well";
  rows.pop_back();
  return rows;
}

TEST(Csv, EveryRecordHasAsManyFieldsAsTheHeader) {
  // Source: RFC 4180, section 2, rules 1 to 4.
  const sample::Reported sample;
  const report::Report report = sample.report();
  const std::pair<std::string, std::size_t> files[] = {{report::takeoff_csv(report), report.rows.size()},
                                                       {report::cuts_csv(report), report.cuts.size()},
                                                       {report::checks_csv(report), report.judgement.results.size()}};
  for (const auto& [text, count] : files) {
    const Rows rows = read(text);
    EXPECT_EQ(rows.size(), count + 1);
    for (const auto& row : rows) EXPECT_EQ(row.size(), rows[0].size()) << row[0];
  }
}

TEST(Csv, CommasQuotesAndLineEndsComeBackAsTheyWere) {
  // Source: RFC 4180, section 2, rules 6 and 7.
  const sample::Reported sample;
  report::Report report = sample.report();
  report.rows = {{"a, \"b\"", 1, "x", 2, "y", "two\r\nlines"}};
  EXPECT_EQ(read(report::takeoff_csv(report))[1],
            (std::vector<std::string>{"a, \"b\"", "1.000", "x", "2", "y", "two\r\nlines", "0.0000", "", "", "0.000", "",
                                      "", "", ""}));
}

TEST(Csv, NoCellRunsInASpreadsheet) {
  // Source: common practice, no source: a cell that begins with = + - @, blanks before it or not, is run as a formula.
  const sample::Reported sample;
  report::Report report = sample.report();
  const std::pair<const char*, const char*> cells[] = {{"=1+1", "'=1+1"},
                                                       {"@SUM(A1)", "'@SUM(A1)"},
                                                       {"+1-800", "'+1-800"},
                                                       {"-2+3+cmd|' /C calc'!A0", "'-2+3+cmd|' /C calc'!A0"},
                                                       {"  =1", "'  =1"},
                                                       {"\t=1", "' =1"},
                                                       {"\r=1", "'\r=1"},
                                                       {"\uff1d1", "'\uff1d1"},
                                                       {"a=1", "a=1"},
                                                       {"-", "-"},
                                                       {"-3.5", "-3.5"},
                                                       {"-1-1/4\"", "-1-1/4\""},
                                                       {"-6 mm", "-6 mm"},
                                                       {"-1/2 in", "-1/2 in"},
                                                       {"-2-1/2 in", "-2-1/2 in"},
                                                       {"-1/4 in/ft", "-1/4 in/ft"},
                                                       {"-1/2 in+1", "'-1/2 in+1"},
                                                       {"\x1b[31m\xff", "\ufffd[31m\ufffd"}};
  for (const auto& [given, found] : cells) {
    report.rows = {{given, -1.5, "x", 2, "y", "z"}};
    const auto row = read(report::takeoff_csv(report))[1];
    EXPECT_EQ(row[0], found);
    EXPECT_EQ(row[1], "-1.500") << "a negative number stays a number";
  }
}

TEST(Csv, CutsShowTheTapeBesideTheMillimetres) {
  // Source: by hand: 263.525 mm is 10-3/8 in.
  const sample::Reported sample;
  const Rows rows = read(report::cuts_csv(sample.report()));
  EXPECT_EQ(rows[1][3], "10-3/8\"");
  EXPECT_EQ(rows[1][4], "263.525");
}

TEST(Csv, ChecksThatWereNotMadeHaveNoNumber) {
  // Source: none.
  const sample::Reported sample;
  int seen = 0;
  for (const auto& row : read(report::checks_csv(sample.report())))
    if (row[2] == "not-checked") {
      EXPECT_EQ(row[3], "-");
      EXPECT_EQ(row[5], "");
      ++seen;
    }
  EXPECT_EQ(seen, 2);
}

}  // namespace
}  // namespace fallwright
