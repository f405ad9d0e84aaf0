#include "libs/sql/sqlite.h"

#include <bit>
#include <cmath>
#include <csignal>
#include <cstring>
#include <fstream>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "libs/sql/test_folder.h"

namespace hw::sql {
namespace {

constexpr SqliteOptions options = {.application_id = 0x54455354, .busy_timeout = std::chrono::milliseconds(20)};

std::unique_ptr<Connection> open(const std::filesystem::path& file, Access access = Access::write,
                                 const SqliteOptions& how = options) {
  auto opened = open_sqlite(file, access, how);
  EXPECT_TRUE(opened.has_value()) << opened.error().message;
  return std::move(*opened);
}

std::unique_ptr<Connection> open_with_task_table(const std::filesystem::path& file,
                                                 const SqliteOptions& how = options) {
  auto db = open(file, Access::write, how);
  EXPECT_TRUE(db->run_script("create table machine(id integer primary key, name text not null unique) strict;"
                             "create table task(id integer primary key, machine integer references machine(id), "
                             "hours real, name text, photo blob) strict")
                  .has_value());
  return db;
}

std::int64_t count(Connection& db, std::string_view table) {
  return db.query_value<std::int64_t>("select count(*) from " + std::string(table))->value();
}

class Sqlite : public testing::Test {
 protected:
  TestFolder folder;
  std::filesystem::path file = folder.path() / "shop.db";
};

TEST_F(Sqlite, IsSetUpSoThatACommitIsOnDisk) {
  const auto db = open(file);
  EXPECT_EQ(*db->query_value<std::string>("pragma journal_mode"), "wal");
  EXPECT_EQ(*db->query_value<int>("pragma synchronous"), 2);  // FULL
  EXPECT_EQ(*db->query_value<int>("pragma foreign_keys"), 1);
  EXPECT_EQ(*db->query_value<int>("pragma trusted_schema"), 0);
  EXPECT_EQ(*db->query_value<int>("pragma application_id"), 0x54455354);
  const auto reader = open(file, Access::read);
  EXPECT_EQ(*reader->query_value<int>("pragma wal_autocheckpoint"), 0);
}

TEST_F(Sqlite, AnotherTypeThanTheColumnsIsAConflict) {
  const auto db = open_with_task_table(file);
  EXPECT_EQ(db->execute("insert into task(hours) values($1)", "many").error().code, ErrorCode::conflict);
}

TEST_F(Sqlite, OurOwnMistakesAreAssertions) {
  const auto db = open_with_task_table(file);
  const auto reader = open(file, Access::read);
  ASSERT_TRUE(db->execute("insert into task(id, name) values(1, 'a')").has_value());
  const auto read_first = [&]<class T>(std::string_view sql) {
    auto rows = db->query(sql);
    rows->next();
    (void)rows->template get<T>(0);
  };
  EXPECT_DEATH((void)db->query("selekt 1"), "selekt");
  EXPECT_DEATH((void)db->execute("select 1; select 2"), "one statement");
  EXPECT_DEATH((void)db->query("select $1"), "as many arguments");
  EXPECT_DEATH((void)db->query("select $1, $3", 1, 2), "without a gap");
  EXPECT_DEATH(read_first.operator()<std::int64_t>("select name from task"), "the type that it has");
  EXPECT_DEATH(read_first.operator()<double>("select hours from task"), "the type that it has");
  EXPECT_DEATH(read_first.operator()<int>("select 3000000000"), "fits");
  EXPECT_DEATH((void)reader->execute("delete from task"), "changes nothing");
}

TEST_F(Sqlite, WhatIsWrongAtTheDoorIsRefused) {
  const auto code = [&](const std::filesystem::path& path, Access access) {
    const auto opened = open_sqlite(path, access, options);
    EXPECT_FALSE(opened.has_value());
    EXPECT_NE(opened.error().message.find(path.string()), std::string::npos) << opened.error().message;
    return opened.error().code;
  };
  EXPECT_EQ(code(folder.path() / "none.db", Access::read), ErrorCode::not_found);
  EXPECT_EQ(code(folder.path() / "no_folder" / "x.db", Access::write), ErrorCode::not_found);
  EXPECT_EQ(code(folder.path(), Access::write), ErrorCode::disk_full);
  std::ofstream(folder.path() / "text.db") << std::string(10'000, 'x');
  EXPECT_EQ(code(folder.path() / "text.db", Access::write), ErrorCode::corrupt);
  std::ofstream(folder.path() / "empty.db");
  EXPECT_EQ(code(folder.path() / "empty.db", Access::read), ErrorCode::bad_input);
  open(file, Access::write, {.application_id = 0x4F544852});
  const auto foreign = open_sqlite(file, Access::write, options);
  ASSERT_FALSE(foreign.has_value());
  EXPECT_NE(foreign.error().message.find("belongs to another program (its mark is \"OTHR\", not \"TEST\")"),
            std::string::npos)
      << foreign.error().message;
}

// Adds rows until there is no more room, and says how many were acknowledged.
int add_until_full(Connection& db) {
  const Blob photo(20'000, std::byte{7});
  for (int id = 1; id < 100'000; ++id) {
    try {
      EXPECT_TRUE(db.execute("insert into task(id, photo) values($1, $2)", id, photo).has_value());
    } catch (const StorageFailed& failed) {
      EXPECT_EQ(failed.error().code, ErrorCode::disk_full);
      EXPECT_NE(failed.error().message.find("full"), std::string::npos) << failed.error().message;
      return id - 1;
    }
  }
  return -1;
}

TEST_F(Sqlite, SurvivesAFullFile) {
  SqliteOptions small = options;
  small.pages_max = 100;
  const auto db = open_with_task_table(file, small);
  const int added = add_until_full(*db);
  EXPECT_GT(added, 0);
  EXPECT_EQ(count(*db, "task"), added);
  ASSERT_EQ(db->execute("delete from task where id < $1", added), added - 1);
  EXPECT_TRUE(db->execute("insert into task(id, photo) values(1, $1)", Blob(20'000)).has_value());
}

TEST_F(Sqlite, AfterAFullDiskTheRestOfATransactionIsNotCommittedPieceByPiece) {
  SqliteOptions small = options;
  small.pages_max = 20;
  const auto db = open_with_task_table(file, small);
  {
    auto transaction = Transaction::begin(*db);
    ASSERT_TRUE(db->execute("insert into task(id) values(1)").has_value());
    EXPECT_THROW((void)db->execute("insert into task(photo) values($1)", Blob(1'000'000)), StorageFailed);
    EXPECT_THROW((void)db->execute("insert into task(id) values(2)"), StorageFailed);
    EXPECT_THROW((void)transaction->commit(), StorageFailed);
  }
  EXPECT_EQ(count(*db, "task"), 0);
  EXPECT_TRUE(db->execute("insert into task(id) values(3)").has_value());
}

TEST_F(Sqlite, SurvivesAFullDisk) {
  const auto disk = folder.path() / "disk";
  std::filesystem::create_directory(disk);
  if (::mount("tmpfs", disk.c_str(), "tmpfs", 0, "size=1m") != 0) GTEST_SKIP() << "needs the right to mount";
  const std::shared_ptr<void> unmount(nullptr, [&](void*) { EXPECT_EQ(::umount(disk.c_str()), 0); });
  int added = 0;
  {
    const auto db = open_with_task_table(disk / "shop.db");
    added = add_until_full(*db);
    EXPECT_GT(added, 0);
    EXPECT_EQ(count(*db, "task"), added);
  }
  {
    const auto again = open_sqlite(disk / "shop.db", Access::write, options);
    ASSERT_TRUE(again.has_value()) << again.error().message;
    EXPECT_EQ(count(**again, "task"), added);
    EXPECT_EQ(*(*again)->query_value<std::string>("pragma integrity_check"), "ok");
  }
}

TEST_F(Sqlite, SurvivesBeingKilledInATransaction) {
  {
    const auto db = open_with_task_table(file);
    ASSERT_TRUE(db->execute("insert into machine(name) values('committed')").has_value());
  }
  for (int round = 0; round < 5; ++round) {
    const pid_t child = ::fork();
    if (child == 0) {
      const auto db = open(file);
      const auto transaction = Transaction::begin(*db);
      for (int i = 0; i < 200; ++i) (void)db->execute("insert into task(photo) values($1)", Blob(30'000));
      ::kill(::getpid(), SIGKILL);
    }
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFSIGNALED(status));
    const auto db = open(file);
    EXPECT_EQ(count(*db, "machine"), 1);
    EXPECT_EQ(count(*db, "task"), 0);
    EXPECT_EQ(*db->query_value<std::string>("pragma integrity_check"), "ok");
    EXPECT_TRUE(Transaction::begin(*db).has_value());
  }
}

void write_beyond_the_allowed_length(const std::filesystem::path& file) {
  std::signal(SIGXFSZ, SIG_IGN);
  const auto db = open(file);
  const rlimit small = {100'000, 100'000};
  ::setrlimit(RLIMIT_FSIZE, &small);
  for (int use = 0; use < 2; ++use) {
    try {
      (void)db->execute("insert into task(photo) values($1)", Blob(1'000'000));
      ::_exit(1);
    } catch (const StorageFailed& failed) {
      if (failed.error().code != ErrorCode::disk_full) ::_exit(2);
    }
  }
  try {
    (void)db->query_value<int>("select 1");
    ::_exit(3);
  } catch (const StorageFailed&) {
    ::_exit(0);
  }
}

TEST_F(Sqlite, AfterAFailedWriteTheConnectionDoesNoMore) {
  open_with_task_table(file);
  EXPECT_EXIT(write_beyond_the_allowed_length(file), testing::ExitedWithCode(0), "");
  EXPECT_EQ(count(*open(file), "task"), 0);
}

TEST_F(Sqlite, DamageIsStorageFailedAndStays) {
  {
    const auto db = open_with_task_table(file);
    for (int i = 0; i < 100; ++i) (void)db->execute("insert into task(photo) values($1)", Blob(3'000, std::byte{1}));
  }
  {
    std::fstream bytes(file, std::ios::in | std::ios::out | std::ios::binary);
    bytes.seekp(4096 * 2);
    bytes << std::string(4096 * 20, '\xA5');
  }
  const auto db = open(file);
  const auto sum = [&] { return db->query_value<std::int64_t>("select sum(length(photo)) from task"); };
  try {
    (void)sum();
    FAIL() << "damage was not seen";
  } catch (const StorageFailed& failed) {
    EXPECT_EQ(failed.error().code, ErrorCode::corrupt);
  }
  EXPECT_THROW((void)db->query_value<int>("select 1"), StorageFailed);
}

RC_GTEST_FIXTURE_PROP(Sqlite, Property_WhateverIsStoredComesBack,
                      (std::int64_t number, std::uint64_t bits, const std::string& text, const std::string& bytes)) {
  const auto real = std::bit_cast<double>(bits);
  RC_PRE(!std::isnan(real));
  const auto* begin = reinterpret_cast<const std::byte*>(bytes.data());
  const Blob blob(begin, begin + bytes.size());
  const auto db = open(file);
  auto rows = db->query("select $1, $2, $3, $4", number, real, text, blob);
  RC_ASSERT(rows->next());
  RC_ASSERT(rows->get<std::int64_t>(0) == number);
  RC_ASSERT(std::bit_cast<std::uint64_t>(rows->get<double>(1)) == bits);
  RC_ASSERT(rows->get<std::string>(2) == text);
  RC_ASSERT(rows->get<Blob>(3) == blob);
}

TEST(SqliteInMemory, KeepsForItsConnectionAndNoOther) {
  const auto one = std::move(*open_sqlite_in_memory());
  ASSERT_TRUE(one->run_script("create table t(id integer primary key) strict"));
  {
    auto transaction = *Transaction::begin(*one);
    ASSERT_TRUE(one->execute("insert into t(id) values($1)", 7));
    ASSERT_TRUE(transaction.commit());
  }
  EXPECT_EQ(*one->query_value<int>("select id from t"), 7);
  const auto other = std::move(*open_sqlite_in_memory());
  EXPECT_EQ(*other->query_value<int>("select count(*) from sqlite_schema"), 0);
  EXPECT_FALSE(std::filesystem::exists(":memory:"));
}

}  // namespace
}  // namespace hw::sql
