#include "libs/values/sha256.h"

#include <gtest/gtest.h>

namespace hw {
namespace {

std::string hex_of(std::string_view bytes) { return print_hex(sha256(bytes)); }

// The example messages of FIPS 180-4; the same as coreutils' sha256sum gives.
TEST(Sha256, MatchesPublished_Fips180) {
  EXPECT_EQ(hex_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(hex_of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(hex_of(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Sha256, PiecesMakeTheSameHashAsTheWhole) {
  Sha256Stream stream;
  for (const std::string_view piece : {"a", "", "bc"}) stream.add(piece);
  EXPECT_EQ(stream.end(), sha256("abc"));
}

TEST(Sha256, AZeroByteCounts) { EXPECT_NE(hex_of(std::string_view("a\0", 2)), hex_of("a")); }

}  // namespace
}  // namespace hw
