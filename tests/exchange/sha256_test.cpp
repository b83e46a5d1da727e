#include "exchange/sha256.hpp"

#include <gtest/gtest.h>

#include "diag/fault.hpp"

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
  // Source: the contract of errors.
  EXPECT_THROW(sha256_of_file("/nowhere/at/all"), diag::MachineError);
}

}  // namespace
}  // namespace fallwright::exchange
