#include "libs/power/mounted_disk.h"

#include <gtest/gtest.h>

#include "libs/power/power_cut.h"
#include "libs/sql/sqlite.h"

namespace hw::power {
namespace {

const std::filesystem::path file = "/nowhere/test.db";

std::unique_ptr<sql::Connection> open(sql::Access access = sql::Access::write) {
  auto opened = sql::open_sqlite(file, access, {.application_id = 7});
  EXPECT_TRUE(opened) << opened.error().message;
  return std::move(*opened);
}

int count(sql::Connection& db) { return **db.query_value<int>("select count(*) from t"); }

TEST(MountedDisk, HoldsADatabaseWithItsLogAndItsReaders) {
  Disk disk;
  const MountedDisk mounted(disk);
  {
    const auto writer = open();
    ASSERT_TRUE(writer->run_script("create table t(id integer primary key) strict"));
    const auto reader = open(sql::Access::read);
    EXPECT_EQ(count(*reader), 0);
    ASSERT_TRUE(writer->run_script("insert into t(id) values(1)"));
    EXPECT_EQ(count(*reader), 1);
    EXPECT_EQ(**writer->query_value<int>("pragma synchronous"), 2);
    EXPECT_TRUE(disk.has("test.db-wal"));
  }
  EXPECT_FALSE(disk.has("test.db-wal")) << "the last one that closes writes the log back";
  EXPECT_EQ(count(*open(sql::Access::read)), 1);
  EXPECT_FALSE(std::filesystem::exists(file));
}

TEST(MountedDisk, ASecondWriterWaitsForTheFirst) {
  Disk disk;
  const MountedDisk mounted(disk);
  const auto first = open(), second = open();
  const auto transaction = sql::Transaction::begin(*first);
  const auto refused = sql::Transaction::begin(*second);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::in_use);
}

// Of ten commits those that are there after a cut behind the last of them, at worst.
int kept_at_worst(Commits commits) {
  Disk disk;
  {
    const MountedDisk mounted(disk, commits);
    EXPECT_TRUE(open()->run_script("create table t(id integer primary key) strict"));
  }
  const Image begin = disk.image();
  const MountedDisk mounted(disk, commits);
  disk.begin_record();
  const auto db = open();
  for (int n = 0; n < 10; ++n) EXPECT_TRUE(db->run_script("insert into t default values"));
  PowerCut cut(begin);
  for (const Operation& operation : disk.record()) cut.advance(operation);
  int kept = 10;
  for (std::uint64_t seed = 0; seed < 50; ++seed) {
    Disk left(cut.image(nullptr, seed));
    const MountedDisk again(left);
    kept = std::min(kept, count(*open()));
  }
  return kept;
}

TEST(MountedDisk, ACommitOutlivesACutOnlyWhereItWasSynced) {
  EXPECT_EQ(kept_at_worst(Commits::as_asked), 10);
  EXPECT_LT(kept_at_worst(Commits::normal), 10);
}

TEST(MountedDisk, FailsAsItIsTold) {
  Disk disk;
  const MountedDisk mounted(disk);
  const auto db = open();
  ASSERT_TRUE(db->run_script("create table t(id integer primary key) strict"));
  disk.fail(Fault{Access::write, 1, Failing::once, Failure::full});
  EXPECT_THROW((void)db->run_script("insert into t(id) values(1)"), sql::StorageFailed);
  EXPECT_TRUE(db->run_script("insert into t(id) values(1)")) << "there is room again";
  disk.fail(Fault{Access::sync, 1, Failing::once});
  EXPECT_THROW((void)db->run_script("insert into t(id) values(2)"), sql::StorageFailed);
  EXPECT_THROW((void)db->run_script("insert into t(id) values(3)"), sql::StorageFailed)
      << "nothing after a failed sync";
}

// The commit that makes the log long has succeeded; that the log could not be written back is not kept quiet.
TEST(MountedDisk, AFailedWriteBackBehindACommitStopsTheConnection) {
  int stopped_behind_a_commit = 0;
  for (int number = 1; number <= 6; ++number) {
    Disk disk;
    const MountedDisk mounted(disk);
    {
      const auto db = open();
      ASSERT_TRUE(db->run_script("create table t(b blob) strict"));
      disk.fail(Fault{Access::sync, number, Failing::once});
      bool is_confirmed = false;
      try {
        is_confirmed = db->execute("insert into t(b) values($1)", sql::Blob(5'000'000)).has_value();
      } catch (const sql::StorageFailed&) {
        EXPECT_TRUE(db->failure());
      }
      if (!is_confirmed || !db->failure()) continue;
      ++stopped_behind_a_commit;
      EXPECT_THROW((void)db->execute("delete from t"), sql::StorageFailed);
      disk.fail({});
    }
    EXPECT_EQ(count(*open()), 1);
  }
  EXPECT_GT(stopped_behind_a_commit, 0);
}

}  // namespace
}  // namespace hw::power
