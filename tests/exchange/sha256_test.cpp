#include "exchange/sha256.hpp"

#include <fstream>

#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "support/run.hpp"

namespace fallwright::exchange {
namespace {

TEST(Sha256, KnownAnswers) {
  // Source: FIPS 180-4, worked examples of SHA-256: "abc" and the two-block message; the empty message from its test
  // data.
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Sha256, MissingFileIsTheMachinesFault) {
  // Source: the contract of errors; a folder has no bytes, and is no empty file either.
  EXPECT_THROW(sha256_of_file("/nowhere/at/all"), diag::MachineError);
  EXPECT_THROW(sha256_of_file("."), diag::MachineError);
}

TEST(Sha256, OfAFileIsThatOfItsBytes) {
  // Source: FIPS 180-4, the worked example "abc"; by reference implementations, the bytes 00 0a 0d 00 as they stand.
  const sample::Folder folder{"sha256"};
  const auto of = [&](const std::string& bytes) {
    std::ofstream{folder / "some", std::ios::binary} << bytes;
    return sha256_of_file(folder / "some");
  };
  EXPECT_EQ(of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(of(std::string{"\0\n\r\0", 4}), "4dac9d32caa5200a7a9c3eef9480496b953f29d720db532efae893a9207b6a7b");
}

}  // namespace
}  // namespace fallwright::exchange
