#include "src/storage/record_digest.h"

#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

struct RecordDigests : testing::Test {
  std::unique_ptr<sql::Connection> opened(const DatabasePlace& place, std::string_view plant = "plant") {
    std::filesystem::create_directory(place.folder);
    auto db = std::move(*open_database(place, sql::Access::write));
    EXPECT_TRUE(apply_steps(*db, place, migrations()));
    EXPECT_TRUE(db->act_for(plant));
    EXPECT_TRUE(
        db->execute("insert into plant(plant, name, zone, aliases, stopping) values($1, 'P', 'Z', '{}', '{}')", plant));
    EXPECT_TRUE(
        db->execute("insert into machine(plant, machine, ordinal, name, kind, cell, year, note, feed, device, "
                    "fills, walk, standing_per_hour) values($1, 'm', 0, 'm', 'k', 'c', null, '', null, '', "
                    "'{}', '[]', null)",
                    plant));
    return db;
  }
  static void add_day(sql::Connection& db, std::string_view counter, int on, double amount) {
    EXPECT_TRUE(
        db.execute("insert into counter_day values($1, 'm', $2, $3, 1, 2, 3, $4)", db.tenant(), counter, on, amount));
  }
  static std::string digest(sql::Connection& db) {
    auto reading = sql::Transaction::begin(db);
    const auto record = record_digest(db);
    EXPECT_TRUE(record) << record.error().message;
    return record ? record->sha256 : "";
  }

  sql::TestFolder folder;
  TestDatabase server;
  std::unique_ptr<sql::Connection> file = opened({folder.path() / "file"});
  std::unique_ptr<sql::Connection> there = opened({folder.path() / "there", server.address()});
};

TEST_F(RecordDigests, AreTheSameOfTheSameRowsOnBothDatabasesInWhateverOrderTheyCame) {
  for (sql::Connection* db : {file.get(), there.get()}) {
    const bool is_file = db == file.get();
    const double first = is_file ? 0.0 : -0.0;
    add_day(*db, is_file ? "Z" : "a", 1, 0.1);  // byte by byte Z comes before a
    add_day(*db, is_file ? "a" : "Z", 1, 0.1);
    add_day(*db, "\xC3\xBC", -5, 1e300);
    add_day(*db, "zero", 0, first);
    add_day(*db, "small", 0, 5e-324);
    add_day(*db, "whole", 0, 3);
    EXPECT_TRUE(db->execute("insert into photo(plant, id, sha256, bytes) values($1, 'p', '', $2)", db->tenant(),
                            sql::Blob{std::byte{0}, std::byte{255}}));
  }
  EXPECT_EQ(digest(*file), digest(*there));
}

TEST_F(RecordDigests, DifferWhereAnythingDoes) {
  add_day(*file, "c", 1, 0.1);
  const std::string before = digest(*file);
  std::vector<std::string> seen{before};
  for (const char* change : {"update counter_day set amount = 0.10000000000000002", "update counter_day set day_on = 2",
                             "update counter_day set counter = 'd'", "update machine set year = 0",
                             "update machine set note = ' '", "delete from counter_day"}) {
    EXPECT_TRUE(file->execute(change));
    const std::string now = digest(*file);
    EXPECT_EQ(std::count(seen.begin(), seen.end(), now), 0) << change;
    seen.push_back(now);
  }
}

TEST_F(RecordDigests, AreOfOnePlantAndSayHowManyRowsEachTableHas) {
  add_day(*there, "c", 1, 1);
  const std::string alone = digest(*there);
  const auto other = opened({folder.path() / "there", server.address(), "other"}, "other");
  add_day(*other, "c", 1, 1);
  EXPECT_EQ(digest(*there), alone);
  EXPECT_NE(digest(*other), alone) << "its key is in it";
  const auto record = record_digest(*there);
  std::map<std::string, std::int64_t> rows;
  for (const TableRows& one : record->tables) rows[one.table] = one.rows;
  EXPECT_EQ(rows.size(), table_names().size());
  EXPECT_EQ(rows["plant"], 1);
  EXPECT_EQ(rows["counter_day"], 1);
  EXPECT_EQ(rows["photo"], 0);
}

TEST_F(RecordDigests, GoInTheOrderOfTheKeyThatTheDatabaseHas) {
  for (const std::string& table : table_names()) {
    auto rows = *file->query("select name from pragma_table_info($1) where pk > 0 order by pk", table);
    std::vector<std::string> key;
    while (rows.next()) key.push_back(rows.get<std::string>(0));
    EXPECT_EQ(key_columns(table), key) << table;
  }
}

}  // namespace
}  // namespace hw::storage
