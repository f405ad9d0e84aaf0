#include "libs/values/secret.h"

#include <set>

#include <gtest/gtest.h>

namespace hw {
namespace {

TEST(Base64Url, MatchesPublished_Rfc4648Section10) {
  for (const auto& [bytes, text] : {std::pair{"", ""},
                                    {"f", "Zg"},
                                    {"fo", "Zm8"},
                                    {"foo", "Zm9v"},
                                    {"foob", "Zm9vYg"},
                                    {"fooba", "Zm9vYmE"},
                                    {"foobar", "Zm9vYmFy"}}) {
    EXPECT_EQ(print_base64url(bytes), text);
  }
}

TEST(Base64Url, HasNoSignThatAnAddressWouldEscape) { EXPECT_EQ(print_base64url("\xFB\xEF\xBE\xFF"), "----_w"); }

TEST(Secret, IsOfItsLengthAndNeverTheSame) {
  std::set<std::string> seen;
  for (int i = 0; i < 100; ++i) {
    seen.insert(secret_bytes(32));
    EXPECT_EQ(seen.begin()->size(), 32U);
  }
  EXPECT_EQ(seen.size(), 100U);
}

}  // namespace
}  // namespace hw
