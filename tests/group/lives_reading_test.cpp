// The lives of a group's plants, read from the database they share.

#include "src/web/lives_reading.h"

#include <gtest/gtest.h>

#include "tests/group/group_scene.h"

namespace hw::group {
namespace {

struct LivesAreRead : testing::Test {
  LivesAreRead() { scene.join("a"); }

  void step(Instant at) { reading.step(*scene.member("a").database->all(), at); }
  int read() { return lives.parts(now()).plants_read; }
  void replace_battery(const std::string& plant, int id) {
    const auto done = scene.ask("a", plant, "POST", "/api/machines/l1/tasks/battery/done", done_body(id));
    ASSERT_EQ(done.status, 200) << done.text();
  }

  GroupScene scene;
  service::GroupLives lives;
  std::vector<std::string> reports;
  web::LivesReading reading{*scene.join("b").database, lives,
                            [this](std::string_view says) { reports.emplace_back(says); }};
};

TEST_F(LivesAreRead, OnePlantAStepAndNeverTheGroupItself) {
  const Instant at = now();
  step(at);
  EXPECT_EQ(read(), 1);
  step(at);
  step(at);
  EXPECT_EQ(read(), 2);
  EXPECT_EQ(lives.parts(at).plants, 2);
  EXPECT_TRUE(reports.empty());
}

TEST_F(LivesAreRead, AgainWhenThePlantHasAnotherEntry) {
  const Instant at = now();
  for (int n = 0; n < 4; ++n) step(at);
  EXPECT_TRUE(lives.parts(at).parts.empty());
  int id = 0;
  for (const std::string plant : {"north", "south"}) {
    replace_battery(plant, ++id);
    replace_battery(plant, ++id);
  }
  const Instant later = now() + Duration::hours(1);
  for (int n = 0; n < 4; ++n) step(later);
  ASSERT_EQ(lives.parts(later).parts.size(), 1u);
  EXPECT_EQ(lives.parts(later).parts[0].task, "battery");
  EXPECT_EQ(lives.parts(later).parts[0].plants, 2);
}

}  // namespace
}  // namespace hw::group
