#include "src/storage/server_sign.h"

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/storage/database_place.h"
#include "src/storage/schema.h"
#include "tests/postgres/test_database.h"

namespace hw::storage {
namespace {

constexpr Duration long_enough = Duration::seconds(3600);
constexpr Duration over_at_once = Duration::seconds(-1);

// Two plants, and the servers `a` and `b` that have signed in.
struct ServerSigns : testing::Test {
  ServerSigns() {
    EXPECT_TRUE(apply_steps(*db, place, migrations()));
    for (const char* plant : {"north", "south"}) {
      EXPECT_TRUE(db->act_for(plant));
      EXPECT_TRUE(db->execute(
          "insert into plant(plant, name, zone, aliases, stopping) values($1, 'Plant', 'UTC', '{}', '{}')", plant));
    }
    EXPECT_TRUE(begin_sign(*db, a, long_enough));
    EXPECT_TRUE(begin_sign(*db, b, long_enough));
  }
  std::optional<std::string> holder(const std::string& plant) {
    const auto places = *plant_places(*db);
    for (const PlantPlace& one : places) {
      if (one.plant == plant) return one.held_by ? std::optional{one.held_by->server} : std::nullopt;
    }
    return std::nullopt;
  }
  Result<void> checked(const std::string& plant, const Lease& lease) {
    EXPECT_TRUE(db->act_for(plant));
    auto writing = sql::Transaction::begin(*db);
    EXPECT_TRUE(writing);
    return check_lease(*db, lease);
  }

  TestDatabase database;
  sql::TestFolder folder;
  DatabasePlace place{folder.path(), database.address(), "north"};
  std::unique_ptr<sql::Connection> db = std::move(*open_database(place, sql::Access::write));
  ServerRun a{"a", "run 1", "http://a"}, b{"b", "run 1", "http://b"};
};

TEST_F(ServerSigns, APlantIsHeldByOneServer) {
  EXPECT_EQ(holder("north"), std::nullopt);
  const auto lease = take_plant(*db, "north", "a");
  ASSERT_TRUE(lease && *lease);
  EXPECT_EQ(holder("north"), "a");
  EXPECT_EQ(*take_plant(*db, "north", "b"), std::nullopt);
  EXPECT_TRUE(*take_plant(*db, "south", "b")) << "another plant is nobody's";
  EXPECT_TRUE(checked("north", **lease));
}

TEST_F(ServerSigns, WhatADeadServerHeldIsTakenAndItsOldLeaseWritesNothing) {
  const Lease old = **take_plant(*db, "north", "a");
  ASSERT_TRUE(renew_sign(*db, a, over_at_once));
  EXPECT_EQ(holder("north"), std::nullopt);
  const auto taken = take_plant(*db, "north", "b");
  ASSERT_TRUE(taken && *taken);
  EXPECT_GT((*taken)->number, old.number);
  EXPECT_EQ(holder("north"), "b");
  EXPECT_TRUE(checked("north", **taken));
  ASSERT_TRUE(renew_sign(*db, a, long_enough)) << "it was only stopped for a while";
  const auto late = checked("north", old);
  ASSERT_FALSE(late);
  EXPECT_EQ(late.error().code, ErrorCode::in_use);
}

TEST_F(ServerSigns, AServerThatWasStoppedKeepsWhatNobodyTook) {
  const Lease lease = **take_plant(*db, "north", "a");
  ASSERT_TRUE(renew_sign(*db, a, over_at_once));
  ASSERT_TRUE(renew_sign(*db, a, long_enough));
  EXPECT_TRUE(checked("north", lease));
  EXPECT_EQ(holder("north"), "a");
}

TEST_F(ServerSigns, AServerThatStartsAnewTakesItsPlantsAtOnceAndItsEarlierRunIsOver) {
  const Lease old = **take_plant(*db, "north", "a");
  ASSERT_TRUE(begin_sign(*db, {"a", "run 2", "http://a"}, long_enough));
  const auto again = take_plant(*db, "north", "a");
  ASSERT_TRUE(again && *again);
  EXPECT_FALSE(checked("north", old));
  EXPECT_TRUE(checked("north", **again));
  EXPECT_EQ(renew_sign(*db, a, long_enough).error().code, ErrorCode::conflict);
}

TEST_F(ServerSigns, WhatIsGivenUpIsFreeAtOnce) {
  const Lease lease = **take_plant(*db, "north", "a");
  ASSERT_TRUE(give_up_plant(*db, "north", lease));
  EXPECT_EQ(holder("north"), std::nullopt);
  EXPECT_FALSE(checked("north", lease)) << "whoever gave it up writes no more";
  ASSERT_TRUE(*take_plant(*db, "north", "b"));
  ASSERT_TRUE(give_up_plant(*db, "north", lease)) << "that somebody else has it is right";
  EXPECT_EQ(holder("north"), "b");
}

TEST_F(ServerSigns, TellWhichServersThereAre) {
  ASSERT_EQ(signed_servers(*db)->size(), 2u);
  EXPECT_EQ(signed_servers(*db)->front().address, "http://a");
  ASSERT_TRUE(end_sign(*db, a));
  ASSERT_EQ(signed_servers(*db)->size(), 1u);
  EXPECT_EQ(signed_servers(*db)->front().server, "b");
}

TEST_F(ServerSigns, TheHolderAloneTellsOfItsPlantAndWhoKnowsItHearsNothingTwice) {
  ASSERT_TRUE(*take_plant(*db, "north", "a"));
  EXPECT_EQ(publish_line(*db, "north", "b", "{}").error().code, ErrorCode::in_use);
  ASSERT_TRUE(publish_line(*db, "north", "a", "{\"x\":1}"));
  const auto heard = *published_lines(*db, {});
  ASSERT_EQ(heard.size(), 1u);
  EXPECT_EQ(heard.front().plant, "north");
  EXPECT_EQ(heard.front().line, "{\"x\":1}");
  EXPECT_TRUE(published_lines(*db, {{"north", heard.front().version}})->empty());
  ASSERT_TRUE(publish_line(*db, "north", "a", "{\"x\":2}"));
  EXPECT_EQ(published_lines(*db, {{"north", heard.front().version}})->size(), 1u);
}

TEST_F(ServerSigns, AWriterThatStopsInTheMiddleIsEndedByTheDatabase) {
  const Lease lease = **take_plant(*db, "north", "a");
  ASSERT_TRUE(db->act_for("north"));
  const auto writing = sql::Transaction::begin(*db);
  ASSERT_TRUE(check_lease(*db, lease));
  EXPECT_EQ(db->query_value<std::string>("show idle_in_transaction_session_timeout")->value(), "4s");
}

TEST_F(ServerSigns, WhoTakesAPlantWaitsForTheWriterThatIsAtWork) {
  const Lease lease = **take_plant(*db, "north", "a");
  ASSERT_TRUE(db->act_for("north"));
  const auto writing = sql::Transaction::begin(*db);
  ASSERT_TRUE(check_lease(*db, lease));
  const auto other = std::move(*open_database(place, sql::Access::write));
  ASSERT_TRUE(other->run_script("set lock_timeout = '50ms'"));
  ASSERT_TRUE(renew_sign(*other, a, over_at_once));
  EXPECT_EQ(take_plant(*other, "north", "b").error().code, ErrorCode::in_use);
}

}  // namespace
}  // namespace hw::storage
