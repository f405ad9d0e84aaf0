// The program is killed again and again while it counts what comes over a broker; what it has counted in the end is
// what a count over the whole list has, to the nanosecond.

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/simulate/dice.h"
#include "src/simulate/message_publisher.h"
#include "tests/faults/batch_count.h"
#include "tests/faults/server_process.h"
#include "tests/mqtt/private_broker.h"

namespace hw::mqtt_tests {
namespace {

TEST(ServerOverABroker, KilledAtAnyMomentNeitherLosesNorDoublesANanosecond) {
  constexpr std::uint64_t seed = 20260302;
  const PrivateBroker broker("allow_anonymous true\nmax_queued_messages 0\n");
  const faults::Scene scene =
      faults::make_scene({.seed = seed, .begin = now(), .lead_s = 5, .busy_s = 12, .ahead_ms = 0});
  const sql::TestFolder folder;
  std::vector<faults::ShopMachine> machines;
  for (const auto& machine : scene.machines) machines.push_back({machine.entry.key, "feed-1", broker.url("/floor")});
  faults::found_shop(folder.path(), machines);

  simulate::PublisherOptions options;
  options.broker = *mqtt::parse_broker_url(broker.url("/floor"));
  options.message_every = Duration::millis(200);
  simulate::MessagePublisher publisher(simulate::replay(scene.machines, scene.arrivals, 150), options);
  const std::vector<std::string> every{"--store-every", "0.1"};
  simulate::Dice dice(seed);
  int kills = 0;
  while (now() < scene.ends_at) {
    faults::ServerProcess server(folder.path(), every);
    ASSERT_TRUE(server.is_up()) << server.said();
    const Instant end = now() + Duration::millis(dice.between(50, 1'200));
    (void)faults::comes_true([&] { return now() > end; });
    server.kill();
    ++kills;
  }
  faults::ServerProcess server(folder.path(), every);
  ASSERT_TRUE(server.is_up()) << server.said();
  ASSERT_TRUE(faults::comes_true([&] { return publisher.kept() == 0 && now() > scene.ends_at + Duration::seconds(2); }))
      << publisher.kept() << server.said();
  ASSERT_EQ(server.stop(), 0) << server.said();
  EXPECT_GE(kills, 5);

  const faults::KeptShop kept = faults::read_shop(folder.path(), scene.ends_at);
  for (std::uint32_t m = 0; m < scene.machines.size(); ++m) {
    SCOPED_TRACE(scene.machines[m].entry.key);
    faults::expect_as_in_batch(scene, m, kept.machines.at(scene.machines[m].entry.key));
  }
  faults::expect_conserved(kept);
}

}  // namespace
}  // namespace hw::mqtt_tests
