/// What is printed holds letters and line ends only.
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/terminal.hpp"
#include "support/run.hpp"

namespace fallwright {
namespace {

/// Bytes that a terminal would obey: ESC and the other controls but line feeds, and the C1 controls in UTF-8.
bool obeyed(const std::string& text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if ((byte < 0x20 && byte != '\n') || byte == 0x7f) return true;
    if (byte == 0xc2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xa0) return true;
  }
  return false;
}

TEST(Terminal, NeverGetsOrdersFromNames) {
  // Source: ECMA-48: ESC and CSI begin an order to a terminal; a file's name, a key and a job's name may hold both.
  const sample::Folder folder{"terminal"};
  std::ofstream{folder / "job.toml"}
      << "[job]\nname = \"a\\u001b[31m\\u009b31m\\u202e\"\nunit = \"mm\"\n\"\\u001b[5m\" = 1\n";
  for (const char* command : {"check", "check --json", "build --out out", "survey", "-v takeoff"}) {
    const sample::Ran missing =
        sample::run(std::string{FALLWRIGHT} + " " + command + " \"$(printf 'a\\033[2J\\377b')\" 2>&1");
    EXPECT_EQ(missing.code, 3) << command;
    EXPECT_FALSE(obeyed(missing.out)) << missing.out;
    const sample::Ran bad =
        sample::run(std::string{FALLWRIGHT} + " " + command + " " + (folder / "job.toml") + " 2>&1");
    EXPECT_EQ(bad.code, 2) << command;
    EXPECT_FALSE(obeyed(bad.out)) << bad.out;
  }
}

TEST(Terminal, ALetterThatComesInTwoWritesStaysWhole) {
  // Source: the class's contract; U+00E9 is C3 A9, U+1F6BF F0 9F 9A BF.
  std::ostringstream stream;
  {
    const app::Printable printable{stream};
    stream << "caf\xc3" << '\xa9' << " \xf0\x9f";
    stream << "\x9a\xbf\x1b" << std::flush << "\xc3";
  }
  EXPECT_EQ(stream.str(), "caf\u00e9 \U0001f6bf\ufffd\ufffd");
}

TEST(Terminal, TellsWhenTheStreamCannotBeWritten) {
  // Source: /dev/full refuses every byte.
  std::ofstream full{"/dev/full"};
  const app::Printable printable{full};
  full << "words" << std::flush;
  EXPECT_FALSE(full.good());
}

}  // namespace
}  // namespace fallwright
