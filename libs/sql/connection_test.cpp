// What holds of both databases.

#include "libs/sql/connection.h"

#include <bit>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "libs/sql/postgres.h"
#include "libs/sql/postgres_schema.h"
#include "libs/sql/sqlite.h"
#include "libs/sql/test_folder.h"
#include "tests/postgres/test_database.h"

namespace hw::sql {
namespace {

constexpr std::chrono::milliseconds soon{20};

// One of the two, empty, by its name.
class Database : public testing::TestWithParam<const char*> {
 protected:
  Database() {
    if (is_postgres()) postgres.emplace();
  }
  bool is_postgres() const { return std::string_view(GetParam()) == "PostgreSQL"; }
  std::unique_ptr<Connection> open(Access access = Access::write) const {
    auto opened = is_postgres()
                      ? open_postgres(postgres->address(), access, {.busy_timeout = soon})
                      : open_sqlite(folder.path() / "shop.db", access, {.application_id = 7, .busy_timeout = soon});
    EXPECT_TRUE(opened.has_value()) << opened.error().message;
    return std::move(*opened);
  }
  std::string in_its_words(std::string_view schema) const {
    return is_postgres() ? in_postgres(schema) : std::string(schema);
  }
  std::unique_ptr<Connection> with_task_table() const {
    auto db = open();
    const auto made =
        db->run_script(in_its_words("create table machine(id integer primary key, name text not null unique) strict;"
                                    "create table task(id integer primary key, machine integer references machine(id), "
                                    "hours real, name text, photo blob) strict"));
    EXPECT_TRUE(made.has_value());
    return db;
  }
  static std::int64_t count(Connection& db, std::string_view table) {
    return db.query_value<std::int64_t>("select count(*) from " + std::string(table))->value();
  }

  TestFolder folder;
  std::optional<TestDatabase> postgres;
};

INSTANTIATE_TEST_SUITE_P(Both, Database, testing::Values("SQLite", "PostgreSQL"),
                         [](const auto& engine) { return std::string(engine.param); });

TEST_P(Database, EveryKindOfValueComesBackBitByBit) {
  const auto db = with_task_table();
  // Of all characters PostgreSQL cannot hold the one that is 0.
  const std::string name = is_postgres() ? "gr\xC3\xBC\xC3\x9F"
                                           "dich"
                                         : std::string("gr\xC3\xBC\xC3\x9F\0dich", 10);
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

TEST_P(Database, EmptyTextAndBytesAreNotNull) {
  const auto db = with_task_table();
  ASSERT_TRUE(db->execute("insert into task(id, name, photo) values(1, $1, $2)", std::string_view(), Blob()));
  auto rows = db->query("select name, photo, hours from task");
  ASSERT_TRUE(rows->next());
  EXPECT_EQ(rows->get<std::optional<std::string>>(0), "");
  EXPECT_EQ(rows->get<std::optional<Blob>>(1), Blob());
  EXPECT_EQ(rows->get<std::optional<double>>(2), std::nullopt);
}

TEST_P(Database, NotANumberIsRefusedBecauseItWouldBecomeNull) {
  const auto db = with_task_table();
  const auto stored = db->execute("insert into task(id, hours) values($1, $2)", 1, std::nan(""));
  ASSERT_FALSE(stored.has_value());
  EXPECT_EQ(stored.error(), (Error{ErrorCode::bad_input, "$2: not a number; unknown is stored as null"}));
  EXPECT_EQ(count(*db, "task"), 0);
}

TEST_P(Database, ParametersAreTakenByTheirNumberInAnyOrderAndMoreThanOnce) {
  const auto db = open();
  auto rows = db->query("select $2, $1, $2", "first", std::optional<std::string>("second"));
  ASSERT_TRUE(rows->next());
  EXPECT_EQ((rows->get_all<std::string, std::string_view, std::string>()),
            (std::tuple<std::string, std::string_view, std::string>("second", "first", "second")));
}

TEST_P(Database, ChangedRowsAreCountedAndZeroForWhatChangesNone) {
  const auto db = with_task_table();
  EXPECT_EQ(db->execute("insert into machine(id, name) values(1, 'mill'), (2, 'lathe')"), 2);
  EXPECT_EQ(db->execute("update machine set name = name || '!'"), 2);
  EXPECT_EQ(db->execute("create table other(id integer)"), 0);
  EXPECT_EQ(db->execute("insert into machine(id, name) values(1, 'x') on conflict(id) do nothing"), 0);
  EXPECT_EQ(db->execute("delete from machine where id = 7"), 0);
}

TEST_P(Database, ReturningRunsToItsEndHoweverLittleIsRead) {
  const auto db = with_task_table();
  {
    auto rows = db->query("insert into machine(id, name) values(1, 'a'), (2, 'b'), (3, 'c') returning id, name");
    ASSERT_TRUE(rows->next());
    EXPECT_EQ(rows->get<std::string>(1), "a");
  }
  EXPECT_EQ(count(*db, "machine"), 3);
  EXPECT_EQ(*db->query_value<std::string>("update machine set name = 'd' where id = $1 returning name", 2), "d");
  EXPECT_EQ(*db->query_value<std::string>("update machine set name = 'd' where id = 99 returning name"), std::nullopt);
}

TEST_P(Database, ConstraintsAreConflicts) {
  const auto db = with_task_table();
  ASSERT_TRUE(db->execute("insert into machine(id, name) values(1, 'mill')").has_value());
  const auto twice = db->execute("insert into machine(id, name) values(2, 'mill')");
  ASSERT_FALSE(twice.has_value());
  EXPECT_EQ(twice.error().code, ErrorCode::conflict);
  EXPECT_NE(twice.error().message.find(is_postgres() ? "machine_name" : "machine.name"), std::string::npos)
      << twice.error().message;
  EXPECT_EQ(db->execute("insert into task(id, machine) values(1, 77)").error().code, ErrorCode::conflict);
  EXPECT_EQ(db->query("insert into machine(id, name) values(3, null) returning id").error().code, ErrorCode::conflict);
}

TEST_P(Database, ATransactionIsAllOrNothing) {
  const auto db = with_task_table();
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

TEST_P(Database, AConstraintThatFailsAtTheCommitRollsBack) {
  const auto db = open();
  ASSERT_TRUE(db->run_script(in_its_words("create table a(id integer primary key) strict; create table b(a integer "
                                          "references a(id) deferrable initially deferred) strict"))
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

TEST_P(Database, ASecondWriterIsToldAndReadersSeeWhatIsCommitted) {
  const auto first = with_task_table();
  const auto second = open();
  const auto reader = open(Access::read);
  auto transaction = Transaction::begin(*first);
  ASSERT_TRUE(first->execute("insert into machine(id, name) values(1, 'mill')").has_value());
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

TEST_P(Database, ATablesColumnsAreNamedInOrder) {
  const auto db = with_task_table();
  EXPECT_EQ(db->columns_of("task"), (std::vector<std::string>{"id", "machine", "hours", "name", "photo"}));
  EXPECT_EQ(db->columns_of("none"), std::vector<std::string>{});
}

TEST_P(Database, ARowIsPassedOnAsItIs) {
  const auto db = with_task_table();
  ASSERT_TRUE(db->execute("insert into task(id, hours, name, photo) values(1, 0.5, 'a', $1)", Blob(3)));
  auto rows = db->query("select id, machine, hours, name, photo from task");
  ASSERT_TRUE(rows->next());
  EXPECT_EQ(db->execute("insert into task(id, machine, hours, name, photo) values($1, $2, $3, $4, $5) on conflict(id) "
                        "do update set name = excluded.name || '!'",
                        rows->value(0), rows->value(1), rows->value(2), rows->value(3), rows->value(4)),
            1);
  EXPECT_EQ(*db->query_value<std::string>("select name from task"), "a!");
}

TEST_P(Database, TheSameStatementMayRunInsideItself) {
  const auto db = with_task_table();
  ASSERT_TRUE(db->execute("insert into machine(id, name) values(1, 'a'), (2, 'b')").has_value());
  int pairs = 0;
  auto outer = db->query("select id from machine");
  while (outer->next()) {
    auto inner = db->query("select id from machine");
    while (inner->next()) ++pairs;
  }
  EXPECT_EQ(pairs, 4);
}

TEST_P(Database, MoreStatementsThanTheCacheHoldsRun) {
  const auto db = open();
  for (int round = 0; round < 2; ++round) {
    for (int i = 0; i < 600; ++i) ASSERT_EQ(*db->query_value<int>("select " + std::to_string(i)), i);
  }
}

}  // namespace
}  // namespace hw::sql
