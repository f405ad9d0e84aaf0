#include "src/record/seal.h"

#include <gtest/gtest.h>

namespace hw::record {
namespace {

TEST(Seal, BytesAreAsTheGrammarSays) {
  const std::vector<Field> fields{{"id", "e1"}, {"note", std::nullopt}, {"says", "Öl"}, {"task", ""}};
  EXPECT_EQ(canonical_bytes(7, fields), "entry 1\nordinal:7\nid:2:e1\nnote:-\nsays:3:Öl\ntask:0:\n");
}

// The outside judge is coreutils:
//   printf '%064d\nentry 1\nordinal:1\nid:2:e1\nnote:-\n' 0 | sha256sum
TEST(Seal, MatchesPublished_CoreutilsSha256sum) {
  const std::vector<Field> fields{{"id", "e1"}, {"note", std::nullopt}};
  EXPECT_EQ(seal(first_previous_hash(), canonical_bytes(1, fields)),
            "be7c8a73226297711b1a7c53f5b4a2dcac667bea7a7c7c67a8d5e5f8d3558fac");
}

TEST(Seal, NoTextCanPassForAnother) {
  const auto bytes = [](std::string a, std::optional<std::string> b) {
    return canonical_bytes(1, std::vector<Field>{{"a", std::move(a)}, {"b", std::move(b)}});
  };
  EXPECT_NE(bytes("x", ""), bytes("x", std::nullopt));
  EXPECT_NE(bytes("x", "-"), bytes("x", std::nullopt));
  EXPECT_NE(bytes("x\nb:-", ""), bytes("x", "\nb:-"));
  EXPECT_NE(bytes(std::string("x\0", 2), ""), bytes("x", ""));
}

}  // namespace
}  // namespace hw::record
