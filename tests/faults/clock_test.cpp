// The server's own clock jumps, by hours, in both directions.

#include <atomic>

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/service/running_feeds.h"
#include "src/service/use_cases.h"
#include "src/simulate/agent_server.h"
#include "src/storage/open_store.h"
#include "tests/faults/batch_count.h"
#include "tests/faults/scene.h"
#include "tests/faults/server_process.h"
#include "tests/faults/shop_folder.h"

namespace hw::faults {
namespace {

class JumpingClock : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = files.path() / "data";
    scene = make_scene(plan);
    agent =
        std::move(*simulate::AgentServer::open(simulate::replay(scene.machines, scene.arrivals, plan.per_second), {}));
    found_shop(folder_, {{"m1", "feed-1", agent->url()}, {"m2", "feed-1", agent->url()}});
    ASSERT_TRUE(comes_true([&] { return agent->next_sequence() > scene.opening * 2; }));
  }

  Instant clock() const { return now() + Duration{ahead_ns.load()}; }

  // Runs the feeds on that clock; `meanwhile` may let it jump. Everything shown meanwhile has to make sense.
  void run(const std::function<void(service::OpenShop&)>& meanwhile) {
    const auto store = std::move(*storage::open_store(folder_));
    auto shop = std::move(*service::OpenShop::open(*store));
    service::FeedsOptions options;
    options.store_every = Duration::millis(100);
    options.clock = [this] { return clock(); };
    options.report = [this](std::string_view says) {
      const std::lock_guard lock(mutex);
      reported += std::string(says) + "\n";
    };
    auto feeds = std::move(*service::RunningFeeds::start(*shop, options));
    meanwhile(*shop);
    const auto stopped = feeds->stop();
    ASSERT_TRUE(stopped) << stopped.error().message;
  }

  // Lets the feed tell so many observations more, and looks at what is shown all the while.
  void go_on(service::OpenShop& shop, std::uint64_t observations) {
    const std::uint64_t until = agent->next_sequence() + observations;
    EXPECT_TRUE(comes_true([&] {
      look(shop);
      return agent->next_sequence() >= until;
    }));
  }

  void look(const service::OpenShop& shop) {
    latest = std::max(latest, clock());
    for (const auto& machine : service::show_floor(shop, clock()).machines) {
      for (const auto& counter : machine.counters) {
        EXPECT_GE(counter.counted, 0) << counter.key;
        EXPECT_GE(counter.unknown_h, 0) << counter.key;
        EXPECT_LE(counter.counted + counter.unknown_h, (latest - plan.begin).as_hours()) << counter.key;
      }
    }
  }

  const ScenePlan plan{.seed = 20260311,
                       .begin = now(),
                       .machines = 2,
                       .lead_s = 2,
                       .busy_s = 12,
                       .per_second = 100,
                       .ahead_ms = 0,
                       .has_late = false};
  sql::TestFolder files;
  std::filesystem::path folder_;
  Scene scene;
  std::unique_ptr<simulate::AgentServer> agent;
  std::atomic<std::int64_t> ahead_ns = 0;
  Instant latest;
  std::mutex mutex;
  std::string reported;
};

TEST_F(JumpingClock, ForwardAndBackNeverCountsPastNowNorBackwards) {
  run([&](service::OpenShop& shop) {
    go_on(shop, 200);
    ahead_ns = Duration::hours(2).ns;
    go_on(shop, 200);
    ahead_ns = 0;
    go_on(shop, 200);
    ahead_ns = -Duration::hours(2).ns;
    go_on(shop, 200);
    ahead_ns = 0;
    go_on(shop, 200);
  });
  const KeptShop kept = read_shop(folder_, latest);
  ASSERT_EQ(kept.machines.size(), 2U);
  expect_conserved(kept);
  for (const auto& [key, machine] : kept.machines) {
    for (const auto& [counter, days] : machine.days) {
      for (const auto& day : days) {
        EXPECT_GE(day.counted_ns, 0) << key << " " << counter;
        EXPECT_GE(day.unknown_ns, 0) << key << " " << counter;
        EXPECT_LE(day.counted_ns + day.unknown_ns, (latest - machine.begin).ns) << key << " " << counter;
      }
    }
  }
}

// The clock is set back while the server is down: what was stored is from the future.
TEST_F(JumpingClock, SetBackBetweenTwoRunsIsNoEnd) {
  ahead_ns = Duration::hours(3).ns;
  run([&](service::OpenShop& shop) { go_on(shop, 300); });
  ahead_ns = 0;
  run([&](service::OpenShop& shop) { go_on(shop, 300); });
  const KeptShop kept = read_shop(folder_, latest);
  ASSERT_EQ(kept.machines.size(), 2U);
  expect_conserved(kept);
}

}  // namespace
}  // namespace hw::faults
