#include "src/service/edits.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

constexpr std::string_view good_id = "01941f29-7c00-7aaa-8bbb-123456789ABC";

TEST(Signature, HasAnIdInTheUsualFormAndAName) {
  EXPECT_TRUE(check_signature(good_id, "Ada"));
  for (std::string_view id : {"", "1", "01941f29-7c00-7aaa-8bbb-123456789ab", "01941f29-7c00-7aaa-8bbb-123456789abcd",
                              "01941f2997c00-7aaa-8bbb-123456789abc", "01941f29-7c00-7aaa-8bbb-12345678-abc",
                              "{1941f29-7c00-7aaa-8bbb-12345678abc}", "01941g29-7c00-7aaa-8bbb-123456789abc"}) {
    EXPECT_EQ(check_signature(id, "Ada").error().code, ErrorCode::bad_input) << id;
  }
}

TEST(Signature, ANameHasUpTo80CharactersWhateverTheirBytes) {
  EXPECT_FALSE(check_signature(good_id, ""));
  std::string name;
  for (int i = 0; i < 80; ++i) name += "ß";
  EXPECT_TRUE(check_signature(good_id, name));
  EXPECT_FALSE(check_signature(good_id, name + "ß"));
}

}  // namespace
}  // namespace hw::service
