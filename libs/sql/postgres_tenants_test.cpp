#include "libs/sql/postgres_tenants.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "libs/sql/postgres.h"
#include "tests/postgres/test_database.h"

namespace hw::sql {
namespace {

struct Tenants : testing::Test {
  Tenants() {
    EXPECT_TRUE(
        db->run_script("create table house(owner text primary key, name text);"
                       "create table room(owner text references house, name text, primary key(owner, name));" +
                       keep_tenants_apart(std::vector<std::string>{"house", "room"}, "owner", "house")));
    for (const char* owner : {"ada", "ben"}) {
      EXPECT_TRUE(db->act_for(owner));
      EXPECT_TRUE(db->execute("insert into house(owner, name) values($1, 'h')", owner));
      EXPECT_TRUE(db->execute("insert into room(owner, name) values($1, 'r')", owner));
    }
  }
  std::int64_t count(Connection& of, const char* table) {
    return **of.query_value<std::int64_t>(fmt::format("select count(*) from {}", table));
  }
  TestDatabase database;
  std::unique_ptr<Connection> db = std::move(*open_postgres(database.address(), Access::write, {}));
};

TEST_F(Tenants, SeeTheirOwnRowsWhateverAStatementForgets) {
  ASSERT_TRUE(db->act_for("ada"));
  EXPECT_EQ(count(*db, "room"), 1);
  EXPECT_EQ(**db->query_value<std::string>("select owner from room"), "ada");
  EXPECT_EQ(*db->query_value<std::string>("select name from room where owner = 'ben'"), std::nullopt);
}

TEST_F(Tenants, ChangeTheirOwnRowsOnly) {
  ASSERT_TRUE(db->act_for("ada"));
  EXPECT_EQ(*db->execute("update room set name = 'mine'"), 1);
  EXPECT_EQ(*db->execute("delete from room where owner = 'ben'"), 0);
  ASSERT_TRUE(db->act_for("ben"));
  EXPECT_EQ(**db->query_value<std::string>("select name from room"), "r") << "as it was";
}

TEST_F(Tenants, PutNoRowIntoAnothersPlace) {
  ASSERT_TRUE(db->act_for("ada"));
  EXPECT_EQ(db->execute("insert into room(owner, name) values('ben', 'x')").error().code, ErrorCode::not_allowed);
  EXPECT_EQ(db->execute("update room set owner = 'ben'").error().code, ErrorCode::not_allowed);
  ASSERT_TRUE(db->act_for("ben"));
  EXPECT_EQ(count(*db, "room"), 1);
}

TEST_F(Tenants, AreListedForEverybodyWhereThatIsWanted) {
  const auto stranger = std::move(*open_postgres(database.address(), Access::read, {}));
  EXPECT_EQ(count(*stranger, "house"), 2);
  EXPECT_EQ(count(*stranger, "room"), 0) << "it acts for nobody";
  ASSERT_TRUE(db->act_for("ada"));
  EXPECT_EQ(*db->execute("delete from house where owner = 'ben'"), 0);
}

TEST_F(Tenants, WaitForThemselvesButNotForEachOther) {
  const PostgresOptions options{.writers = 7, .busy_timeout = std::chrono::milliseconds(50)};
  const auto open = [&](const char* tenant) {
    auto opened = std::move(*open_postgres(database.address(), Access::write, options));
    EXPECT_TRUE(opened->act_for(tenant));
    return opened;
  };
  const auto ada = open("ada"), ada_again = open("ada"), ben = open("ben");
  const auto writing = Transaction::begin(*ada);
  ASSERT_TRUE(writing);
  EXPECT_EQ(Transaction::begin(*ada_again).error().code, ErrorCode::in_use);
  EXPECT_TRUE(Transaction::begin(*ben));
}

}  // namespace
}  // namespace hw::sql
