#include "units/letters.hpp"

#include <gtest/gtest.h>

namespace fallwright::units {
namespace {

TEST(Letters, AreReadAsUtf8Says) {
  // Source: Unicode 15, table 3-6 and 3-7: least and greatest letters of each length; overlong forms, surrogates and
  // numbers past 10FFFF are none.
  EXPECT_EQ(letters_of("a\u00e9\u20ac\U0001f6bf"), U"a\u00e9\u20ac\U0001f6bf");
  EXPECT_EQ(letters_of("\x7f\xc2\x80\xdf\xbf\xe0\xa0\x80\xef\xbf\xbf\xf0\x90\x80\x80\xf4\x8f\xbf\xbf"),
            (std::u32string{0x7f, 0x80, 0x7ff, 0x800, 0xffff, 0x10000, 0x10ffff}));
  for (const char* broken : {"\xff", "\x80", "\xc3", "\xc0"}) EXPECT_EQ(letters_of(broken), U"\ufffd") << broken;
  EXPECT_EQ(letters_of("\xc0\xaf"), U"\ufffd\ufffd");
  EXPECT_EQ(letters_of("\xed\xa0\x80"), U"\ufffd\ufffd\ufffd");
  EXPECT_EQ(letters_of("\xf4\x90\x80\x80"), U"\ufffd\ufffd\ufffd\ufffd");
  EXPECT_EQ(letters_of("\xe2\x82z"), U"\ufffd\ufffdz");
}

TEST(Letters, AreWrittenAsTheyWereRead) {
  // Source: the two functions are each other's inverse on valid text.
  for (const unsigned letter : {0x01u, 0x7fu, 0x80u, 0x7ffu, 0x800u, 0xffffu, 0x10000u, 0x10ffffu})
    EXPECT_EQ(letters_of(to_utf8(char32_t{letter})), std::u32string(1, char32_t{letter})) << std::hex << letter;
}

TEST(Letters, OrdersToATerminalAreNone) {
  // Source: ECMA-48 (C0 and C1), Unicode 15, 23.2 and its bidirectional controls, from UAX 9, table 1.
  for (const unsigned order : {0x00u, 0x07u, 0x1bu, 0x7fu, 0x85u, 0x9bu, 0x9du, 0x200bu, 0x200eu, 0x200fu, 0x2028u,
                               0x202au, 0x202eu, 0x2066u, 0x2069u, 0xfeffu, 0xfffeu, 0x1ffffu, 0xe0041u})
    EXPECT_TRUE(is_control(char32_t{order})) << std::hex << order;
  for (const unsigned letter : {0x20u, 0x7eu, 0xa0u, 0xe9u, 0x200cu, 0x200du, 0x2014u, 0x5d0u, 0x1f6bfu, 0xfffdu})
    EXPECT_FALSE(is_control(char32_t{letter})) << std::hex << letter;
}

TEST(Letters, AreNotCutInTwo) {
  // Source: by hand.
  EXPECT_EQ(letter_count("Zo\u00eb"), 3u);
  EXPECT_EQ(first_letters("Zo\u00eb Z", 3), "Zo\u00eb");
}

TEST(Letters, OneLineAndPrintableTextDifferInLineEndsOnly) {
  // Source: the functions' contract.
  EXPECT_EQ(on_one_line("a\r\nb\tc\x1b[31m"), "a  b c\ufffd[31m");
  EXPECT_EQ(on_one_line("\x1b[31m\x07"), "\ufffd[31m\ufffd") << "from the first letter to the last";
  EXPECT_EQ(printable("\x1b\n\x07"), "\ufffd\n\ufffd");
  EXPECT_EQ(printable("a\nb\tc\x1b[31m\u202e\r"), "a\nb c\ufffd[31m\ufffd\ufffd");
}

}  // namespace
}  // namespace fallwright::units
