#include "src/storage/copied_rows.h"

#include "src/storage/database_place.h"
#include "src/storage/derived_check.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/record_digest.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

class CopiedRows : public StoreTest {
 protected:
  CopiedRows() {
    EXPECT_TRUE(keep(*store, full_entry("e1")));
    EXPECT_TRUE(keep(*store, full_entry("e2")));
    store.reset();
  }
  std::unique_ptr<sql::Connection> opened(const DatabasePlace& place) {
    std::filesystem::create_directory(place.folder);
    auto db = std::move(*open_database(place, sql::Access::write));
    EXPECT_TRUE(apply_steps(*db, place, migrations()));
    return db;
  }
  static Result<void> copied(sql::Connection& from, sql::Connection& to) {
    HW_TAKE(reading, sql::Transaction::begin(from));
    HW_TAKE(writing, sql::Transaction::begin(to));
    HW_TRY(copy_rows(from, to));
    HW_TRY(writing.commit());
    return reading.commit();
  }
  static void expect_same(sql::Connection& a, sql::Connection& b) {
    EXPECT_EQ(record_digest(a)->sha256, record_digest(b)->sha256);
    EXPECT_EQ(derived_digest(a), derived_digest(b));
    EXPECT_EQ(read_verdict(a, {})->head, read_verdict(b, {})->head);
    EXPECT_TRUE(read_verdict(b, {})->breaks.empty());
  }
};

TEST_F(CopiedRows, AreTheSameShopOnTheOtherDatabaseAndBackAgain) {
  const TestDatabase server;
  const auto here = std::move(*open_database(*place_of(folder.path()), sql::Access::write));
  const auto there = opened({folder.path() / "there", server.address()});
  const auto back = opened({folder.path() / "back"});
  ASSERT_TRUE(copied(*here, *there));
  ASSERT_TRUE(copied(*there, *back));
  EXPECT_EQ(there->query_value<int>("select count(*) from entry").value(), 2);
  expect_same(*here, *there);
  expect_same(*here, *back);
  EXPECT_EQ(copied(*here, *there).error().code, ErrorCode::conflict) << "there is a shop already";
}

}  // namespace
}  // namespace hw::storage
