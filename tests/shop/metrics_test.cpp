// What monitoring reads of a shop.

#include "src/web/metrics.h"

#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

TEST(Metrics, TellHoursTasksAndFeedsInOneTextThatEnds) {
  Scene scene;
  scene.play("mill1 |####|");
  const std::string text = web::metrics_of(scene.shop(), scene.now);
  EXPECT_NE(text.find("# TYPE hourwright_counter_hours gauge\n# UNIT hourwright_counter_hours hours\n"),
            std::string::npos);
  EXPECT_NE(text.find("hourwright_counter_hours{machine=\"mill1\",counter=\"operating\"} 4\n"), std::string::npos)
      << text;
  EXPECT_NE(text.find("hourwright_feed_live{machine=\"mill1\"} 0\n"), std::string::npos);
  EXPECT_NE(text.find("hourwright_storing 1\n"), std::string::npos);
  EXPECT_TRUE(text.ends_with("\n# EOF\n"));
}

}  // namespace
}  // namespace hw::shop
