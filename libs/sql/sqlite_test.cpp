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

TEST_F(Sqlite, EveryKindOfValueComesBackBitByBit) {
  const auto db = open_with_task_table(file);
  const std::string name("gr\xC3\xBC\xC3\x9F\0dich", 10);
  const Blob photo = {std::byte{0}, std::byte{255}, std::byte{0}};
  for (const std::int64_t id : {std::numeric_limits<std::int64_t>::min(), std::int64_t{-1}, std::int64_t{0},
                                (std::int64_t{1} << 53) + 1, std::numeric_limits<std::int64_t>::max()}) {
    for (const double hours : {0.1, 5e-324, -1.7976931348623157e308, std::numeric_limits<double>::infinity(), 3.0}) {
      ASSERT_EQ(db->execute("insert into task(id, hours, name, photo) values($1, $2, $3, $4) on conflict(id) do update "
                            "set hours = excluded.hours",
                            id, hours, name, photo),
                1);
      auto rows = db->query("select id, hours, name, photo, machine from task where id = $1", id);
      ASSERT_TRUE(rows.has_value() && rows->next());
      const auto [id_back, hours_back, name_back, photo_back, machine] =
          rows->get_all<std::int64_t, double, std::string, Blob, std::optional<int>>();
      EXPECT_EQ(id_back, id);
      EXPECT_EQ(std::bit_cast<std::uint64_t>(hours_back), std::bit_cast<std::uint64_t>(hours));
      EXPECT_EQ(name_back, name);
      EXPECT_EQ(photo_back, photo);
      EXPECT_EQ(machine, std::nullopt);
      EXPECT_FALSE(rows->next());
      EXPECT_FALSE(rows->next());
    }
  }
}

TEST_F(Sqlite, EmptyTextAndBytesAreNotNull) {
  const auto db = open_with_task_table(file);
  ASSERT_TRUE(db->execute("insert into task(id, name, photo) values(1, $1, $2)", std::string_view(), Blob()));
  auto rows = db->query("select name, photo, hours from task");
  ASSERT_TRUE(rows->next());
  EXPECT_EQ(rows->get<std::optional<std::string>>(0), "");
  EXPECT_EQ(rows->get<std::optional<Blob>>(1), Blob());
  EXPECT_EQ(rows->get<std::optional<double>>(2), std::nullopt);
}

TEST_F(Sqlite, NotANumberIsRefusedBecauseItWouldBecomeNull) {
  const auto db = open_with_task_table(file);
  const auto stored = db->execute("insert into task(id, hours) values($1, $2)", 1, std::nan(""));
  ASSERT_FALSE(stored.has_value());
  EXPECT_EQ(stored.error(), (Error{ErrorCode::bad_input, "$2: not a number; unknown is stored as null"}));
  EXPECT_EQ(count(*db, "task"), 0);
}

TEST_F(Sqlite, ParametersAreTakenByTheirNumberInAnyOrderAndMoreThanOnce) {
  const auto db = open(file);
  auto rows = db->query("select $2, $1, $2", "first", std::optional<std::string>("second"));
  ASSERT_TRUE(rows->next());
  EXPECT_EQ((rows->get_all<std::string, std::string_view, std::string>()),
            (std::tuple<std::string, std::string_view, std::string>("second", "first", "second")));
}

TEST_F(Sqlite, ChangedRowsAreCountedAndZeroForWhatChangesNone) {
  const auto db = open_with_task_table(file);
  EXPECT_EQ(db->execute("insert into machine(id, name) values(1, 'mill'), (2, 'lathe')"), 2);
  EXPECT_EQ(db->execute("update machine set name = name || '!'"), 2);
  EXPECT_EQ(db->execute("create table other(id integer)"), 0);
  EXPECT_EQ(db->execute("insert into machine(id, name) values(1, 'x') on conflict(id) do nothing"), 0);
  EXPECT_EQ(db->execute("delete from machine where id = 7"), 0);
}

TEST_F(Sqlite, ReturningRunsToItsEndHoweverLittleIsRead) {
  const auto db = open_with_task_table(file);
  {
    auto rows = db->query("insert into machine(name) values('a'), ('b'), ('c') returning id, name");
    ASSERT_TRUE(rows->next());
    EXPECT_EQ(rows->get<std::string>(1), "a");
  }
  EXPECT_EQ(count(*db, "machine"), 3);
  EXPECT_EQ(*db->query_value<std::string>("update machine set name = 'd' where id = $1 returning name", 2), "d");
  EXPECT_EQ(*db->query_value<std::string>("update machine set name = 'd' where id = 99 returning name"), std::nullopt);
}

TEST_F(Sqlite, ConstraintsAreConflicts) {
  const auto db = open_with_task_table(file);
  ASSERT_TRUE(db->execute("insert into machine(id, name) values(1, 'mill')").has_value());
  const auto twice = db->execute("insert into machine(id, name) values(2, 'mill')");
  ASSERT_FALSE(twice.has_value());
  EXPECT_EQ(twice.error().code, ErrorCode::conflict);
  EXPECT_NE(twice.error().message.find("machine.name"), std::string::npos) << twice.error().message;
  EXPECT_EQ(db->execute("insert into task(machine) values(77)").error().code, ErrorCode::conflict);
  EXPECT_EQ(db->execute("insert into task(hours) values($1)", "many").error().code, ErrorCode::conflict);
  EXPECT_EQ(db->query("insert into machine(name) values(null) returning id").error().code, ErrorCode::conflict);
}

TEST_F(Sqlite, ATransactionIsAllOrNothing) {
  const auto db = open_with_task_table(file);
  const auto add = [&](int id) {
    return db->execute("insert into machine(id, name) values($1, $2)", id, std::to_string(id));
  };
  {
    auto transaction = Transaction::begin(*db);
    ASSERT_TRUE(add(1).has_value());
    ASSERT_TRUE(add(2).has_value());
  }
  EXPECT_EQ(count(*db, "machine"), 0);
  {
    auto transaction = Transaction::begin(*db);
    ASSERT_TRUE(add(1).has_value());
    EXPECT_FALSE(add(1).has_value());  // refused alone; what stands before it stays
    ASSERT_TRUE(transaction->commit().has_value());
  }
  EXPECT_EQ(count(*db, "machine"), 1);
}

TEST_F(Sqlite, AConstraintThatFailsAtTheCommitRollsBack) {
  const auto db = open(file);
  ASSERT_TRUE(db->run_script("create table a(id integer primary key) strict; create table b(a integer references a(id) "
                             "deferrable initially deferred) strict")
                  .has_value());
  {
    auto transaction = Transaction::begin(*db);
    ASSERT_TRUE(db->execute("insert into b(a) values(1)").has_value());
    const auto committed = transaction->commit();
    ASSERT_FALSE(committed.has_value());
    EXPECT_EQ(committed.error().code, ErrorCode::conflict);
  }
  EXPECT_EQ(count(*db, "b"), 0);
  EXPECT_TRUE(Transaction::begin(*db).has_value());
}

TEST_F(Sqlite, ASecondWriterIsToldAndReadersSeeWhatIsCommitted) {
  const auto first = open_with_task_table(file);
  const auto second = open(file);
  const auto reader = open(file, Access::read);
  auto transaction = Transaction::begin(*first);
  ASSERT_TRUE(first->execute("insert into machine(name) values('mill')").has_value());
  const auto refused = Transaction::begin(*second);
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().code, ErrorCode::in_use);
  EXPECT_EQ(count(*reader, "machine"), 0);
  {
    auto snapshot = Transaction::begin(*reader);
    EXPECT_EQ(count(*reader, "machine"), 0);
    ASSERT_TRUE(transaction->commit().has_value());
    EXPECT_EQ(count(*reader, "machine"), 0);  // still the state that its transaction began with
  }
  EXPECT_EQ(count(*reader, "machine"), 1);
  EXPECT_TRUE(Transaction::begin(*second).has_value());
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

TEST_F(Sqlite, TheSameStatementMayRunInsideItself) {
  const auto db = open_with_task_table(file);
  ASSERT_TRUE(db->execute("insert into machine(name) values('a'), ('b')").has_value());
  int pairs = 0;
  auto outer = db->query("select id from machine");
  while (outer->next()) {
    auto inner = db->query("select id from machine");
    while (inner->next()) ++pairs;
  }
  EXPECT_EQ(pairs, 4);
}

TEST_F(Sqlite, MoreStatementsThanTheCacheHoldsRun) {
  const auto db = open(file);
  for (int round = 0; round < 2; ++round) {
    for (int i = 0; i < 600; ++i) ASSERT_EQ(*db->query_value<int>("select " + std::to_string(i)), i);
  }
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
