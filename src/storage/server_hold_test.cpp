#include "src/storage/server_hold.h"

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/storage/schema.h"
#include "tests/postgres/test_database.h"

namespace hw::storage {
namespace {

struct ServerHolds : testing::Test {
  ServerHolds() {
    const auto db = std::move(*open_database(place, sql::Access::write));
    EXPECT_TRUE(apply_steps(*db, place, migrations()));
    EXPECT_TRUE(db->execute(
        "insert into plant(plant, name, zone, aliases, stopping) values($1, 'Plant', 'UTC', '{}', '{}')", place.plant));
  }
  std::unique_ptr<ServerHold> hold(const char* server, Duration lasts = Duration::seconds(60)) {
    auto begun = ServerHold::begin(place, {server, fmt::format("run {}", ++runs), ""}, {.lasts = lasts});
    EXPECT_TRUE(begun);
    return std::move(*begun);
  }
  int runs = 0;
  TestDatabase database;
  sql::TestFolder folder;
  DatabasePlace place{folder.path(), database.address(), "north"};
};

TEST_F(ServerHolds, LetTheNextServerTakeThePlantsWhenTheyEnd) {
  auto a = hold("a");
  const auto b = hold("b");
  ASSERT_TRUE(*a->take("north"));
  EXPECT_FALSE(*b->take("north"));
  a.reset();
  EXPECT_TRUE(*b->take("north"));
  EXPECT_EQ(b->servers()->size(), 1u);
}

TEST_F(ServerHolds, SignOnAsLongAsTheyAreThere) {
  const auto a = hold("a", Duration{300'000'000});
  ASSERT_TRUE(*a->take("north"));
  const auto db = std::move(*open_database(place, sql::Access::read));
  const auto until = [&] { return db->query_value<std::int64_t>("select until_ms from server_sign")->value(); };
  const std::int64_t first = until();
  while (until() < first + 600) EXPECT_TRUE(a->is_good());
  EXPECT_TRUE(a->places()->front().held_by);
}

TEST_F(ServerHolds, SignOnAfterTheDatabaseEndedTheirConnection) {
  const auto a = hold("a", Duration{300'000'000});
  ASSERT_TRUE(*a->take("north"));
  database.end_connections();
  const auto db = std::move(*open_database(place, sql::Access::read));
  const auto until = [&] { return db->query_value<std::int64_t>("select until_ms from server_sign")->value(); };
  const std::int64_t first = until();
  while (until() <= first) {
  }
  EXPECT_TRUE(a->is_good());
}

TEST_F(ServerHolds, AreNoLongerGoodWhereTheirSignCannotBeRenewed) {
  const auto a = hold("a", Duration{100'000'000});
  const auto again = hold("a", Duration::seconds(60));  // the folder was copied, and both are served
  while (a->is_good()) {
  }
  EXPECT_TRUE(again->is_good());
}

}  // namespace
}  // namespace hw::storage
