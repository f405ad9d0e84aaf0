// What is SQLite's alone; what both databases have alike is in bulk_rows_test.cpp.

#include <gtest/gtest.h>

#include "libs/sql/sqlite.h"
#include "libs/sql/sqlite_connection.h"
#include "libs/sql/test_folder.h"

namespace hw::sql {
namespace {

TEST(SqliteBulkRows, SurviveAFullDiskWithNothingStoredAndGoOnOnceThereIsRoom) {
  const TestFolder folder;
  const auto db =
      std::move(*open_sqlite(folder.path() / "shop.db", Access::write, {.application_id = 7, .pages_max = 40}));
  ASSERT_TRUE(db->run_script("create table piece(id integer primary key, says text) strict"));
  const std::string long_text(10'000, 'x');
  {
    auto transaction = std::move(*Transaction::begin(*db));
    auto rows = std::move(*db->begin_rows({"piece", {"id", "says"}}));
    const auto add_many = [&] {
      for (int id = 1; id < 100; ++id) ASSERT_TRUE(rows->add(std::array<Parameter, 2>{id, long_text}));
    };
    EXPECT_THROW(add_many(), StorageFailed);
  }
  EXPECT_FALSE(db->failure());
  auto transaction = std::move(*Transaction::begin(*db));
  auto rows = std::move(*db->begin_rows({"piece", {"id", "says"}}));
  ASSERT_TRUE(rows->add(std::array<Parameter, 2>{1, "short"}));
  EXPECT_EQ(rows->end(), 1);
  rows.reset();
  ASSERT_TRUE(transaction.commit());
  EXPECT_EQ(db->query_value<int>("select count(*) from piece").value(), 1);
}

}  // namespace
}  // namespace hw::sql
