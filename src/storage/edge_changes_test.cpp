#include "src/storage/edge_changes.h"

#include "src/storage/kept_store.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

struct EdgeChanges : testing::Test {
  EdgeChanges() : store(std::move(*keep_in_file({folder.path()}, nullptr, "north"))) {
    EXPECT_TRUE(store.create_shop(full_shop(), {full_machine("l1")}));
    write([](sql::Connection& db) { return note_changes(db); });
  }
  void write(const KeptStore::Step& step) {
    const auto written = store.write(step);
    EXPECT_TRUE(written) << written.error().message;
  }
  void execute(const std::string& sql) {
    write([&](sql::Connection& db) -> Result<void> {
      HW_TRY(db.execute(sql));
      return {};
    });
  }
  std::int64_t count() {
    std::int64_t found = 0;
    write([&](sql::Connection& db) -> Result<void> {
      HW_TAKE(changes, count_changes(db));
      found = changes;
      return {};
    });
    return found;
  }
  void forget() {
    write([](sql::Connection& db) -> Result<void> {
      HW_TAKE(last, last_change(db));
      return forget_changes(db, last);
    });
  }

  sql::TestFolder folder;
  KeptStore store;
};

TEST_F(EdgeChanges, WhereNothingWasNotedSoFarEveryRowCounts) {
  EXPECT_GT(count(), 10);
  forget();
  EXPECT_EQ(count(), 0);
  write([](sql::Connection& db) { return note_changes(db); });
  EXPECT_EQ(count(), 0) << "it goes on where it was";
  write([](sql::Connection& db) { return note_all_rows(db); });
  EXPECT_GT(count(), 10);
}

TEST_F(EdgeChanges, ATableWhoseChangesWereNotNotedCountsWhole) {
  forget();
  execute("drop trigger edge_machine_delete");
  execute("drop trigger edge_machine_insert");
  execute("drop trigger edge_machine_update");
  write([](sql::Connection& db) { return note_changes(db); });
  EXPECT_EQ(count(), 1);
}

TEST_F(EdgeChanges, WhatIsUndoneIsNotNoted) {
  forget();
  const auto refused = store.write([](sql::Connection& db) -> Result<void> {
    HW_TRY(db.execute("update machine set note = 'x'"));
    return refuse(ErrorCode::conflict, "undone");
  });
  EXPECT_FALSE(refused);
  EXPECT_EQ(count(), 0);
}

TEST_F(EdgeChanges, EveryTableThatIsSentIsNotedAtInsertUpdateAndDelete) {
  for (const std::string& table : sent_tables()) {
    write([&](sql::Connection& db) -> Result<void> {
      HW_TAKE(triggers, db.query_value<int>("select count(*) from sqlite_master where type = 'trigger' and tbl_name = "
                                            "$1 and name like 'edge!_%' escape '!'",
                                            table));
      EXPECT_EQ(triggers, 3) << table;
      return {};
    });
  }
  for (const char* kept_apart : {"account", "session", "token", "device", "sign_in_link"}) {
    EXPECT_EQ(std::count(sent_tables().begin(), sent_tables().end(), kept_apart), 0) << kept_apart;
  }
  EXPECT_TRUE(is_only_added_to("entry"));
  EXPECT_TRUE(is_only_added_to("photo"));
  EXPECT_FALSE(is_only_added_to("entry_head"));
  EXPECT_FALSE(is_only_added_to("counter_day"));
}

TEST_F(EdgeChanges, ChangedAndGoneRowsAreFoundByTheirKeys) {
  forget();
  execute("insert into counter_day values('north', 'l1', 'operating', 20514, 5, 0, 0, 0.25)");
  execute("insert into counter_day values('north', 'l1', 'operating', 20515, 5, 0, 0, 0.25)");
  execute("delete from counter_day where day_on = 20514");
  write([](sql::Connection& db) -> Result<void> {
    HW_TAKE(last, last_change(db));
    HW_TAKE(changed,
            db.query(changed_rows_query("counter_day", {"day_on", "amount"}), db.tenant(), "counter_day", last));
    EXPECT_TRUE(changed.next());
    EXPECT_EQ(changed.get<std::int64_t>(0), 20515);
    EXPECT_FALSE(changed.next());
    HW_TAKE(gone, db.query(gone_rows_query("counter_day"), db.tenant(), "counter_day", last));
    EXPECT_TRUE(gone.next());
    EXPECT_EQ(gone.get<std::string>(0), "north");
    EXPECT_EQ(gone.get<std::string>(2), "operating");
    EXPECT_EQ(gone.get<std::int64_t>(3), 20514);
    EXPECT_FALSE(gone.next());
    return {};
  });
}

}  // namespace
}  // namespace hw::storage
