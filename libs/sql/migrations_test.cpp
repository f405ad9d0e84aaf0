#include "libs/sql/migrations.h"

#include <vector>

#include <gtest/gtest.h>

#include "libs/sql/sqlite.h"
#include "libs/sql/test_folder.h"

namespace hw::sql {
namespace {

class Migrations : public testing::Test {
 protected:
  TestFolder folder;
  std::unique_ptr<Connection> db = *open_sqlite(folder.path() / "shop.db", Access::write, {.application_id = 1});
  const std::vector<Migration> steps = {
      {1, "create table machine(name text) strict; insert into machine(name) values('mill');"},
      {2, "create table task(name text) strict"},
  };
};

TEST_F(Migrations, EachStepRunsOnce) {
  EXPECT_EQ(apply_migrations(*db, std::span(steps).first(1)), 1);
  EXPECT_EQ(db->schema_version(), 1);
  EXPECT_EQ(apply_migrations(*db, steps), 1);
  EXPECT_EQ(apply_migrations(*db, steps), 0);
  EXPECT_EQ(db->schema_version(), 2);
  EXPECT_EQ(*db->query_value<int>("select count(*) from machine"), 1);
}

TEST_F(Migrations, AStepThatTheDataStandsAgainstLeavesTheDatabaseAsItWas) {
  const std::vector<Migration> against = {
      steps[0],
      {2,
       "create table task(name text) strict; create unique index one on machine((1)); "
       "insert into machine(name) values('lathe')"}};
  const auto applied = apply_migrations(*db, against);
  ASSERT_FALSE(applied.has_value());
  EXPECT_EQ(applied.error().code, ErrorCode::conflict);
  EXPECT_TRUE(applied.error().message.starts_with("schema step 2: ")) << applied.error().message;
  EXPECT_EQ(db->schema_version(), 0) << "also the step before, which could be applied";
  EXPECT_EQ(*db->query_value<int>("select count(*) from sqlite_schema"), 0);
  EXPECT_EQ(apply_migrations(*db, steps), 2);
}

TEST_F(Migrations, ANewerDatabaseIsRefusedPolitely) {
  ASSERT_TRUE(apply_migrations(*db, steps).has_value());
  const auto older = apply_migrations(*db, std::span(steps).first(1));
  ASSERT_FALSE(older.has_value());
  EXPECT_EQ(older.error().code, ErrorCode::unsupported);
  EXPECT_NE(older.error().message.find("newer version"), std::string::npos);
  EXPECT_NE(older.error().message.find("schema 2; this one knows up to 1"), std::string::npos);
}

TEST_F(Migrations, AGapInTheNumbersIsOurMistake) {
  const std::vector<Migration> gap = {{2, "select 1"}};
  EXPECT_DEATH((void)apply_migrations(*db, gap), "1, 2, 3");
}

}  // namespace
}  // namespace hw::sql
