// Which of the agent's devices is which machine.

#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

TEST(Devices, AMachineThatIsNamedByItsUuidIsCounted) {
  Scene scene;
  auto model = model_of("vmc-3");
  model.uuid = "mill1";
  scene.tell_model(model);
  scene.tell("vmc-3", state_at('#', scene.now));
  scene.now = scene.now + Duration::hours(1);
  scene.tell("vmc-3", state_at('.', scene.now));
  EXPECT_NEAR(scene.total("operating"), 1, 1e-9);
}

TEST(Devices, ADeviceThatTheShopDoesNotHaveIsLeftOut) {
  Scene scene;
  scene.tell_model(model_of("unknown"));
  scene.tell("unknown", state_at('#', scene.now));
  scene.now = scene.now + Duration::hours(1);
  must(scene.keep());
  EXPECT_TRUE(scene.machine("mill1").counters.empty());
  EXPECT_TRUE(scene.machine("mill2").counters.empty());
}

TEST(Devices, AMachineThatTheAgentDoesNotHaveSaysSo) {
  Scene scene;
  auto shop = must(service::OpenShop::open(scene.store()));
  service::FeedSink feed(*shop, "feed-1", std::nullopt, [](std::string_view) {});
  EXPECT_FALSE(feed.trouble_of(*shop->machines().at(0)));  // it has told nothing yet
  feeds::Batch batch;
  batch.received_at = batch.alive_at = scene.now;
  batch.models = std::vector{model_of("mill1"), model_of("lathe9")};
  must(feed.take(batch));
  EXPECT_FALSE(feed.trouble_of(*shop->machines().at(0)));
  const auto trouble = feed.trouble_of(*shop->machines().at(1));
  ASSERT_TRUE(trouble);
  EXPECT_EQ(trouble->message, "the agent has no device \"mill2\"; it has: mill1, lathe9");
  EXPECT_EQ(trouble->saying->texts.at("others"), "mill1, lathe9");
}

}  // namespace
}  // namespace hw::shop
