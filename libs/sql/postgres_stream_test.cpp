#include <fstream>

#include <gtest/gtest.h>

#include "libs/sql/postgres.h"
#include "libs/sql/postgres_connection.h"
#include "tests/postgres/test_database.h"

namespace hw::sql {
namespace {

class PostgresStreams : public testing::Test {
 protected:
  TestDatabase database;
  std::unique_ptr<Connection> db = std::move(*open_postgres(database.address(), Access::write, {}));
};

// Memory of this process that is in use now (VmRSS).
std::int64_t used_kib() {
  std::ifstream status("/proc/self/status");
  std::string word;
  while (status >> word && word != "VmRSS:") {
  }
  std::int64_t kib = 0;
  status >> kib;
  return kib;
}

TEST_F(PostgresStreams, OfManyRowsNeedLittleMemory) {
  constexpr int count = 100'000;  // of 1 kB each
  auto rows = db->stream("select n, repeat('x', 1000) from generate_series(1, $1::bigint) n", count);
  ASSERT_TRUE(rows);
  const std::int64_t before_kib = used_kib();
  std::int64_t most_kib = 0;
  std::int64_t read = 0;
  while (rows->next()) {
    ASSERT_EQ(rows->get<std::int64_t>(0), ++read);
    ASSERT_EQ(rows->get<std::string_view>(1).size(), 1000U);
    if (read % 1000 == 0) most_kib = std::max(most_kib, used_kib());
  }
  EXPECT_EQ(read, count);
  EXPECT_LT(most_kib - before_kib, 8'000);
}

TEST_F(PostgresStreams, ThatEndEarlyLeaveTheConnectionFree) {
  auto transaction = std::move(*Transaction::begin(*db));
  {
    auto rows = db->stream("select n from generate_series(1, 50000) n");
    ASSERT_TRUE(rows && rows->next() && rows->next());
    EXPECT_EQ(rows->get<int>(0), 2);
  }
  EXPECT_EQ(db->query_value<int>("select 7").value(), 7);
  EXPECT_TRUE(transaction.commit());
}

TEST_F(PostgresStreams, OfNoRowsAreAtTheirEnd) {
  auto rows = db->stream("select 1 where false");
  ASSERT_TRUE(rows);
  EXPECT_FALSE(rows->next());
  EXPECT_EQ(db->query_value<int>("select 7").value(), 7);
}

TEST_F(PostgresStreams, ThatAreRefusedUndoNothingElse) {
  ASSERT_TRUE(db->run_script("create table t(n bigint)"));
  auto transaction = std::move(*Transaction::begin(*db));
  ASSERT_TRUE(db->execute("insert into t values(1)"));
  const auto refused = db->stream("select 1 / (n - 1) from t");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::bad_input);
  ASSERT_TRUE(transaction.commit());
  EXPECT_EQ(db->query_value<int>("select count(*) from t").value(), 1);
}

TEST_F(PostgresStreams, HaveTheConnectionForThemselves) {
  auto rows = db->stream("select n from generate_series(1, 5) n");
  ASSERT_TRUE(rows && rows->next());
  EXPECT_DEATH((void)db->query("select 1"), "nothing else is done");
}

TEST_F(PostgresStreams, ThatLoseTheServerSaySo) {
  const auto process = *db->query_value<int>("select pg_backend_pid()");
  auto rows = db->stream("select n, repeat('x', 1000) from generate_series(1, 1000000) n");
  ASSERT_TRUE(rows && rows->next());
  TestDatabase::run(fmt::format("select pg_terminate_backend({})", *process));
  EXPECT_THROW(while (rows->next()){}, StorageFailed);
  EXPECT_TRUE(db->failure());
}

}  // namespace
}  // namespace hw::sql
