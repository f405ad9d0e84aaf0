// What follows from entries and observations, made again from them.

#include "src/storage/rebuild.h"

#include "libs/sql/sqlite.h"
#include "src/service/recounted.h"
#include "src/storage/open_store.h"
#include "src/storage/recounting.h"
#include "src/storage/schema.h"
#include "tests/copies/copied_shop.h"

namespace hw::shop {
namespace {

class Rebuild : public testing::Test {
 protected:
  Rebuild() {
    fill(scene);
    must(scene.keep());
    data = place.path() / "data";
    std::filesystem::create_directory(data);
    scene.end_and_reopen();
    std::filesystem::copy(scene.folder() / "hourwright.db", data / "hourwright.db");
    std::filesystem::copy(scene.folder() / "hourwright.db-wal", data / "hourwright.db-wal");
    meddle(data, "pragma wal_checkpoint(truncate)");
    digest = whole_digest(data);
  }
  service::RebuildReport rebuild() const { return must(storage::rebuild(data, scene.now)); }

  Scene scene;
  sql::TestFolder place;
  std::filesystem::path data;
  std::string digest;
};

TEST_F(Rebuild, WhatFollowsIsWhatIsKeptAndNothingIsWritten) {
  const auto report = rebuild();
  ASSERT_EQ(report.parts.size(), 2u);
  for (const auto& part : report.parts) {
    EXPECT_TRUE(part.differences.empty()) << part.name << ": " << part.differences.front();
    EXPECT_EQ(part.before, part.after);
    EXPECT_GT(part.read, 0);
  }
  EXPECT_EQ(whole_digest(data), digest);
}

TEST_F(Rebuild, WhatWasMeddledWithIsMadeAgainAndSaid) {
  const auto right = rebuild();
  meddle(data,
         "delete from task_done; update finding set body = '{}'; insert into stray values('plant', 'x'); "
         "update counter_day set counted_ns = counted_ns + 1 where counter = 'operating' and day_on = "
         "(select min(day_on) + 1 from counter_day)");
  const auto report = rebuild();
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_FALSE(report.parts[i].differences.empty());
    EXPECT_NE(report.parts[i].before, right.parts[i].before);
    EXPECT_EQ(report.parts[i].after, right.parts[i].after);
  }
  EXPECT_EQ(report.parts[0].differences.size(), 3u);
  for (const auto& part : rebuild().parts) EXPECT_TRUE(part.differences.empty()) << part.differences.front();
  const auto store = must(storage::open_store(data));
  const auto shop = must(service::OpenShop::open(*store));
  for (const auto& counter : must(show_machine(*shop, "mill1", scene.now)).counters) {
    EXPECT_DOUBLE_EQ(counter.total, scene.total(counter.key)) << counter.key << " goes on from where it was";
  }
}

// What was counted under the first model cannot be made again: its items are not known any more.
TEST_F(Rebuild, AfterAMachineHasOtherItemsItsEarlierDaysStay) {
  scene.tell_model(changed_model_of("mill1"));
  scene.play("mill1 |####........####........####|");
  must(scene.keep());
  scene.end_and_reopen();
  meddle(scene.folder(), "pragma wal_checkpoint(truncate)");
  const sql::TestFolder later;
  std::filesystem::copy(scene.folder() / "hourwright.db", later.path() / "hourwright.db");
  const auto counts = must(storage::rebuild(later.path(), scene.now)).parts.at(1);
  EXPECT_TRUE(counts.differences.empty()) << counts.differences.front();
  ASSERT_EQ(counts.kept.size(), 1u);
  EXPECT_TRUE(counts.kept[0].starts_with("mill1: what was counted before 2026-03-")) << counts.kept[0];
}

TEST_F(Rebuild, ARecordThatDoesNotReadIsRefused) {
  service::KeptCount kept;
  kept.record = {"mill1", "no model", "no state"};
  EXPECT_FALSE(service::recount(kept, Zone::utc(), scene.now));
  const auto empty = must(sql::open_sqlite_in_memory());
  must(sql::apply_migrations(*empty, storage::migrations()));
  EXPECT_EQ(storage::rebuild_counts(*empty, scene.now).error().code, ErrorCode::not_found);
}

TEST_F(Rebuild, OfAnAlteredLogbookNothingIsMade) {
  meddle(data, "drop trigger entry_stays; update entry set says = 'another' where ordinal = 1; delete from task_done");
  const std::string before = whole_digest(data);
  EXPECT_EQ(storage::rebuild(data, scene.now).error().code, ErrorCode::corrupt);
  EXPECT_EQ(whole_digest(data), before);
}

TEST_F(Rebuild, BesideAServerIsRefused) {
  EXPECT_EQ(storage::rebuild(scene.folder(), scene.now).error().code, ErrorCode::in_use);
}

}  // namespace
}  // namespace hw::shop
