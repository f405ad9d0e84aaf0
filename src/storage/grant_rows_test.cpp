#include "src/storage/grant_rows.h"

#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

TEST(GrantRows, AreThereForTheirPlantUntilTheyAreDropped) {
  const TestDatabase database;
  const sql::TestFolder folder;
  const DatabasePlace place{folder.path(), database.address(), "north"};
  const auto db = std::move(*open_database(place, sql::Access::write));
  ASSERT_TRUE(apply_steps(*db, place, migrations()));
  const service::Grant grant{
      .kind = "link", .name = "Ada", .role = access::Role::lead, .made_at = Instant{}, .ends_at = Instant{}};
  EXPECT_EQ(insert_grant(*db, "hash", grant).error().code, ErrorCode::conflict) << "no such plant yet";
  for (const char* plant : {"north", "south"}) {
    ASSERT_TRUE(db->act_for(plant));
    ASSERT_TRUE(db->execute(
        "insert into plant(plant, name, zone, aliases, stopping) values($1, 'x', 'UTC', '{}', '{}')", plant));
  }
  ASSERT_TRUE(db->act_for("north"));
  ASSERT_TRUE(insert_grant(*db, "hash", grant));
  EXPECT_EQ((*read_grant(*db, "hash"))->name, "Ada");
  ASSERT_TRUE(db->act_for("south"));
  EXPECT_FALSE(*read_grant(*db, "hash")) << "it lets nobody in at another plant";
  EXPECT_TRUE(delete_grant(*db, "hash"));
  ASSERT_TRUE(db->act_for("north"));
  EXPECT_TRUE(*read_grant(*db, "hash"));
  EXPECT_TRUE(delete_grant(*db, "hash"));
  EXPECT_FALSE(*read_grant(*db, "hash"));
  EXPECT_TRUE(delete_grant(*db, "hash")) << "once more is right";
}

}  // namespace
}  // namespace hw::storage
