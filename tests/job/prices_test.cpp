// A table of prices as a person writes it.
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "job/prices.hpp"

namespace fallwright {
namespace {

using testing::HasSubstr;

std::string faults_of(const std::string& text) {
  try {
    job::read_prices(text, "prices.csv");
  } catch (const diag::JobFaults& e) {
    return e.what();
  }
  return "";
}

TEST(Prices, AreReadWithQuotesBlanksAndPlurals) {
  // Source: RFC 4180, section 2; numbers are those written.
  const auto prices = job::read_prices(
      "\xef\xbb\xbfpack,item,price,supplier\r\nbags,\"mortar, bags\",8.75,\"A \"\"big\"\" yard\"\r\n\r\n"
      " sticks of 8 ft , 2x4 , 3.1 ,\n",
      "prices.csv");
  ASSERT_EQ(prices.size(), 2u);
  EXPECT_EQ(prices[0].item, "mortar, bags");
  EXPECT_EQ(prices[0].pack, "bag");
  EXPECT_EQ(prices[0].each, 8.75);
  EXPECT_EQ(prices[0].supplier, "A \"big\" yard");
  EXPECT_EQ(prices[0].line, 2u);
  EXPECT_EQ(prices[1].item, "2x4");
  EXPECT_EQ(prices[1].pack, "stick of 8 ft");
  EXPECT_EQ(prices[1].supplier, "");
  EXPECT_EQ(prices[1].line, 4u);
  EXPECT_TRUE(job::read_prices("item,pack,price\n", "p").empty());
}

TEST(Prices, ANumberThatIsNoneIsRefusedWithItsPlace) {
  // Source: the contract: file, line, column, what was found and what is allowed.
  for (const char* bad : {"", "0", "-1", "nan", "inf", "1e3", "12,50", "$4", "1 000", "0x10", "1e400", "20000000"})
    EXPECT_THAT(faults_of("item,pack,price\ncement,bag,\"" + std::string{bad} + "\"\n"),
                testing::StartsWith("prices.csv:2:12: price: found '"))
        << bad;
  EXPECT_EQ(job::read_prices("item,pack,price\ncement,bag,10000000\n", "p")[0].each, 1e7) << "at its limit is inside";
}

TEST(Prices, AColumnThatIsNeededIsMissed) {
  // Source: the contract; the supplier alone may be left out.
  const std::vector<std::string> all{"item", "pack", "price", "supplier"};
  for (const std::string& missing : all) {
    std::string head;
    for (const std::string& column : all)
      if (column != missing) head += (head.empty() ? "" : ",") + column;
    const std::string told = faults_of(head + "\n");
    if (missing == "supplier")
      EXPECT_EQ(told, "");
    else
      EXPECT_THAT(told, HasSubstr("prices.csv:1:1: " + missing + ": this column is missing in the first line"));
  }
}

TEST(Prices, OneThingHasOnePrice) {
  // Source: the contract; "bag" and "bags" are one pack.
  EXPECT_THAT(faults_of("item,pack,price\ncement,bag,9\nlime,bag,9\ncement,bags,9\n"),
              HasSubstr("prices.csv:4:1: item: 'cement' by the 'bag' has a price in line 2 already"));
}

TEST(Prices, AllThatIsWrongIsToldAtOnce) {
  // Source: the contract.
  const std::string told = faults_of("item,pack,price\n,bag,1\ncement,bag\nx,\"bag,2\n\"y\" z,bag,3\na\x07,bag,4\n");
  for (const char* words : {"prices.csv:2:1: item: is empty", "prices.csv:3:1: found 2 fields; the first line names 3",
                            "prices.csv:4:3: the quote that opens here is not closed",
                            "prices.csv:5:1: letters stand behind the closing quote of 'y'",
                            "prices.csv:6:1: item: holds signs that are no letters"})
    EXPECT_THAT(told, HasSubstr(words));
  EXPECT_THAT(faults_of("item,pack,price\n" + std::string(81, 'a') + ",bag,1\n"),
              HasSubstr("has 81 letters; at most 80"));
  EXPECT_EQ(faults_of("item,pack,price\n" + std::string(80, 'a') + ",bag,1\n"), "");
}

TEST(Prices, AnyBytesAreATableOrAreRefused) {
  // Source: property; bytes that nobody would write, with the signs that a table has among them.
  std::mt19937 random{5};
  const std::string signs = "\",\r\n;\t .019-ab\xc3\xa4\xff";
  int tables = 0;
  for (int n = 0; n < 2000; ++n) {
    std::string text = n % 3 ? "item,pack,price\n" : "";
    for (std::size_t i = random() % 60; i > 0; --i) text += signs[random() % signs.size()];
    try {
      for (const job::Price& price : job::read_prices(text, "p")) {
        EXPECT_GT(price.each, 0);
        EXPECT_FALSE(price.item.empty() || price.pack.empty());
      }
      ++tables;
    } catch (const diag::JobFaults& e) {
      EXPECT_FALSE(e.faults().empty());
    }
  }
  EXPECT_GT(tables, 0);
}

TEST(Prices, TheFirstLineNamesTheColumns) {
  // Source: the contract.
  EXPECT_THAT(faults_of(""), HasSubstr("prices.csv:1:1: there is no table"));
  EXPECT_THAT(faults_of("item,pack\n"), HasSubstr("prices.csv:1:1: price: this column is missing"));
  EXPECT_THAT(faults_of("item;pack;price\n"), HasSubstr("found the column 'item;pack;price'; allowed are"));
  EXPECT_THAT(faults_of("item,pack,price,item\n"), HasSubstr("prices.csv:1:17: item: this column stands twice"));
}

}  // namespace
}  // namespace fallwright
