#include "src/service/stop_steps.h"

#include <gtest/gtest.h>

#include "src/service/edits.h"

namespace hw::service {
namespace {

constexpr std::string_view one_id = "01941f29-7c00-7aaa-8bbb-123456789abc";

TEST(StopSteps, IdsOfOneEditAreUuidsOfItsTimeApartFromEachOtherAndAlwaysTheSame) {
  const std::string first = id_within(one_id, "m01@2026-03-14/early");
  EXPECT_TRUE(check_id("id", first)) << first;
  EXPECT_EQ(first.substr(0, 15), "01941f29-7c00-7");
  EXPECT_EQ(first, id_within(one_id, "m01@2026-03-14/early"));
  EXPECT_NE(first, id_within(one_id, "m02@2026-03-14/early"));
  EXPECT_NE(first, id_within("01941f29-7c00-7aaa-8bbb-123456789abd", "m01@2026-03-14/early"));
}

}  // namespace
}  // namespace hw::service
