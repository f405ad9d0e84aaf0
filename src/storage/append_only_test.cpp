// What is only added is only added, whoever holds the database.

#include "libs/sql/sqlite.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

class AppendOnly : public StoreTest {
 protected:
  AppendOnly() {
    EXPECT_TRUE(keep(*store, full_entry("e1")));
    auto writing = *store->begin();
    service::HourReading reading;
    reading.id = "r1";
    reading.machine = "l1";
    reading.counter = "operating";
    EXPECT_TRUE(writing->add_hour_reading(reading));
    EXPECT_TRUE(writing->settle_hour_reading("r1", "misread", "e1"));
    service::CountingStep::Machine machine;
    machine.record = {"l1", "{}", "s"};
    machine.log = {{Instant{1}, Instant{2}, "p"}};
    EXPECT_TRUE(writing->put_counting({{machine}, {}}));
    EXPECT_TRUE(writing->add_photo({"p1", "s", "b"}));
    EXPECT_TRUE(writing->commit());
    writing.reset();
    store.reset();
    db = std::move(*open_database(*place_of(folder.path()), sql::Access::write));
  }
  std::unique_ptr<sql::Connection> db;
};

TEST_F(AppendOnly, NoRowIsChanged) {
  for (const char* change : {"update entry set says = 'x'", "update entry set ordinal = 9",
                             "update hour_reading set display_h = 1", "update hour_settlement set settled_as = 'x'",
                             "update observation_log set last_ns = 3", "update photo set sha256 = 'x'"}) {
    const auto changed = db->execute(change);
    ASSERT_FALSE(changed) << change;
    EXPECT_EQ(changed.error().code, ErrorCode::conflict) << change;
    EXPECT_NE(changed.error().message.find("only added"), std::string::npos) << changed.error().message;
  }
}

TEST_F(AppendOnly, NoRowIsDeleted) {
  for (const char* table : {"entry", "hour_settlement", "hour_reading", "observation_log", "photo"}) {
    const auto deleted = db->execute(fmt::format("delete from {}", table));
    ASSERT_FALSE(deleted) << table;
    EXPECT_NE(deleted.error().message.find("only added"), std::string::npos) << deleted.error().message;
    EXPECT_EQ(*db->query_value<int>(fmt::format("select count(*) from {}", table)), 1) << table;
  }
}

}  // namespace
}  // namespace hw::storage
