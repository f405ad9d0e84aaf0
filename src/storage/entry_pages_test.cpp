#include "src/storage/entry_pages.h"

#include <gmock/gmock.h>

#include "libs/sql/sqlite.h"
#include "src/storage/entry_reading.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

using service::EntryFilter;
using testing::HasSubstr;
using testing::Not;

class EntryPages : public StoreTest {
 protected:
  // How the database runs the filter's statement.
  std::string plan_of(const EntryFilter& filter) {
    store.reset();
    const auto db =
        *sql::open_sqlite(folder.path() / "hourwright.db", sql::Access::read, {.application_id = application_id});
    const std::optional<std::string> no_text;
    const std::optional<std::int64_t> no_time;
    auto rows = db->query("explain query plan " + entries_query(filter), "plant", 0, 1'000'000, no_text, no_text,
                          no_text, no_time, no_time);
    EXPECT_TRUE(rows) << rows.error().message;
    std::string plan;
    while (rows->next()) plan += rows->get<std::string>(3) + "\n";
    return plan;
  }
};

TEST_F(EntryPages, HoldWhatTheEntriesHold) {
  for (const char* id : {"e1", "e2"}) ASSERT_TRUE(keep(*store, full_entry(id)));
  service::Entry correction = full_entry("c3");
  correction.body.corrects = "e1";
  ASSERT_TRUE(keep(*store, correction));
  const auto entries = *store->entries({.by = "Ada"}, 10);
  ASSERT_EQ(entries.size(), 3u);
  EXPECT_EQ(entries[0].body.corrects, "e1");
  EXPECT_EQ(entries[2].id, "e1");
  EXPECT_EQ(entries[2].corrected_by, std::vector<std::string>{"c3"});
  EXPECT_EQ(entries[2].counters, full_entry("e1").counters);
  EXPECT_EQ(entries[2].body.photos->at(0).id, full_entry("e1").body.photos->at(0).id);
  EXPECT_EQ(store->entries({}, 2)->size(), 2u);
}

TEST_F(EntryPages, AreReadAlongAnIndexWithoutSorting) {
  const Instant time = at("2026-03-02T07:00:00Z");
  for (const auto& [filter, index] :
       std::vector<std::pair<EntryFilter, std::string>>{{{}, "sqlite_autoindex_entry_1"},
                                                        {{.machine = "l1"}, "entry_machine"},
                                                        {{.kind = "task done"}, "entry_kind"},
                                                        {{.by = "Ada"}, "entry_by"},
                                                        {{.from = time, .until = time}, "sqlite_autoindex_entry_1"},
                                                        {{.machine = "l1", .from = time}, "entry_machine"}}) {
    const std::string plan = plan_of(filter);
    EXPECT_THAT(plan, HasSubstr("SEARCH e USING INDEX " + index)) << entries_query(filter);
    EXPECT_THAT(plan, Not(HasSubstr("SCAN e"))) << plan;
    EXPECT_THAT(plan, Not(HasSubstr("TEMP B-TREE"))) << plan;
  }
}

TEST_F(EntryPages, StraysAreFewSoTheyLead) {
  const std::string plan = plan_of({.only_strays = true});
  EXPECT_THAT(plan, HasSubstr("SEARCH s USING"));
  EXPECT_THAT(plan, HasSubstr("SEARCH e USING INDEX"));
}

}  // namespace
}  // namespace hw::storage
