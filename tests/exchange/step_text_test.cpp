#include "exchange/step_text.hpp"

#include <gtest/gtest.h>

namespace fallwright::exchange {
namespace {

TEST(StepString, EncodesWhatTheStandardSays) {
  // Source: ISO 10303-21:2016, 6.4.3: apostrophe and reverse solidus doubled, \X2\ with four and \X4\ with eight
  // hexadecimal digits a letter, closed by \X0\.
  EXPECT_EQ(step_string("Caf\u00e9 Zo\u00eb"), R"(Caf\X2\00E9\X0\ Zo\X2\00EB\X0\)");
  EXPECT_EQ(step_string("\u0141\u00f3d\u017a"), R"(\X2\014100F3\X0\d\X2\017A\X0\)");
  EXPECT_EQ(step_string("\U0001f6bf\u00e9"), R"(\X4\0001F6BF\X0\\X2\00E9\X0\)");
  EXPECT_EQ(step_string(R"(Bauer's; \X2\)"), R"(Bauer''s; \\X2\\)");
}

TEST(StepString, HasNoControlsAndNoBrokenBytes) {
  // Source: the same, 5.2: the basic alphabet ends at 7E and has no controls; U+FFFD stands for what is no letter.
  EXPECT_EQ(step_string("a\nb\x1b\xff"), R"(a b\X2\FFFDFFFD\X0\)");
}

TEST(NamedStep, PutsTheNameWhereThePlaceholderStandsAlone) {
  // Source: the function's contract; a name that holds the placeholder is not taken twice.
  EXPECT_EQ(named_step("#1 = PRODUCT('x','x','no x',(#2));", "x", "it's 'x'"),
            "#1 = PRODUCT('it''s ''x''','it''s ''x''','no x',(#2));");
}

}  // namespace
}  // namespace fallwright::exchange
