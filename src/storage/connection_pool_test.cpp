#include "src/storage/connection_pool.h"

#include <gtest/gtest.h>

#include "libs/sql/postgres.h"
#include "libs/sql/storage_failed.h"
#include "tests/postgres/test_database.h"

namespace hw::storage {
namespace {

struct ConnectionPools : testing::Test {
  ConnectionPool pool(ConnectionPool::Failed failed) {
    return {[this] {
              ++opened;
              return sql::open_postgres(database.address(), sql::Access::write, {});
            },
            failed};
  }
  static Result<std::optional<std::string>> ask(sql::Connection& db) {
    return db.query_value<std::string>("select current_setting('app.tenant')");
  }
  int opened = 0;
  TestDatabase database;
};

TEST_F(ConnectionPools, GiveTheSameOneAgainAndLetItActForWhoAsks) {
  auto connections = pool(ConnectionPool::Failed::replaced);
  { EXPECT_EQ(ask(**connections.take("north"))->value(), "north"); }
  { EXPECT_EQ(ask(**connections.take("south"))->value(), "south"); }
  EXPECT_EQ(opened, 1);
  const auto first = connections.take("north"), second = connections.take("north");
  EXPECT_EQ(opened, 2);
}

TEST_F(ConnectionPools, PreferTheOneThatActsForThePlantAlready) {
  auto connections = pool(ConnectionPool::Failed::replaced);
  const sql::Connection* north = nullptr;
  {
    const auto first = connections.take("north"), second = connections.take("south");
    north = first->get();
  }
  EXPECT_EQ(connections.take("north")->get(), north);
}

TEST_F(ConnectionPools, OpenAnotherWhereTheServerHasEndedThem) {
  auto connections = pool(ConnectionPool::Failed::replaced);
  { (void)connections.take("north"); }
  database.end_connections();
  EXPECT_EQ(ask(**connections.take("north"))->value(), "north");
  EXPECT_EQ(opened, 2);
}

TEST_F(ConnectionPools, KeepAFilesOnlyWriterAlsoWhenItDoesNoMore) {
  auto connections = pool(ConnectionPool::Failed::kept);
  {
    const auto taken = connections.take("north");
    database.end_connections();
    EXPECT_THROW((void)ask(**taken), sql::StorageFailed);
  }
  EXPECT_TRUE(connections.failure());
  EXPECT_THROW((void)ask(**connections.take("north")), sql::StorageFailed);
  EXPECT_EQ(opened, 1);
}

}  // namespace
}  // namespace hw::storage
