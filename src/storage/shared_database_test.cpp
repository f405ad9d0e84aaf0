#include "src/storage/shared_database.h"

#include <atomic>
#include <thread>

#include "libs/sql/postgres.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

// A database with two plants, in each a shop of the same machines.
class SharedDatabases : public testing::Test {
 protected:
  SharedDatabases() {
    const auto server = joined("founder");
    for (const char* plant : {"north", "south"}) {
      service::ShopRecord shop = full_shop();
      shop.plant = plant;
      EXPECT_TRUE(server->store_of_new(plant)->create_shop(shop, {full_machine("l1")}));
    }
  }
  std::unique_ptr<SharedDatabase> joined(const std::string& name) {
    const auto data = folder.path() / name;
    EXPECT_TRUE(make_folder(data));
    auto opened = SharedDatabase::open({data, database.address()}, nullptr, {});
    EXPECT_TRUE(opened) << opened.error().message;
    return std::move(*opened);
  }
  TestDatabase database;
  sql::TestFolder folder;
};

TEST_F(SharedDatabases, EachPlantIsWrittenByTheServerThatHoldsIt) {
  const auto a = joined("a"), b = joined("b");
  const auto north = *a->take("north");
  ASSERT_TRUE(north);
  EXPECT_FALSE(*b->take("north"));
  const auto south = *b->take("south");
  ASSERT_TRUE(south);
  EXPECT_TRUE(keep(*north, full_entry("e1")));
  EXPECT_TRUE(keep(*south, full_entry("e1"))) << "the same id in another plant is another entry";
}

TEST_F(SharedDatabases, AStoreThatIsGoneLetsGoOfItsPlant) {
  const auto a = joined("a"), b = joined("b");
  {
    const auto north = *a->take("north");
    ASSERT_TRUE(north);
  }
  EXPECT_TRUE(*b->take("north"));
}

TEST_F(SharedDatabases, AServerThatCameBackTooLateWritesNothing) {
  const auto a = joined("a"), b = joined("b");
  const auto late = *a->take("north");
  ASSERT_TRUE(keep(*late, full_entry("e1")));
  const auto db = std::move(*sql::open_postgres(database.address(), sql::Access::write, {}));
  ASSERT_TRUE(db->execute("update server_sign set until_ms = 0 where server = $1", a->own().server));
  const auto taken = *b->take("north");
  ASSERT_TRUE(taken);
  const auto refused = keep(*late, full_entry("e2"));
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::in_use);
  EXPECT_EQ(refused.error().saying->code, "plant-moved");
  EXPECT_TRUE(keep(*taken, full_entry("e3")));
  EXPECT_EQ(taken->entries_of("l1", 9)->size(), 2u);
  EXPECT_TRUE(taken->verdict()->breaks.empty());
}

TEST_F(SharedDatabases, APlantSeesNothingOfAnotherInThePartsOfTablesEither) {
  const auto server = joined("a");
  for (const char* plant : {"north", "south"}) ASSERT_TRUE(keep(**server->take(plant), full_entry("e1")));
  const auto db = std::move(*sql::open_postgres(database.address(), sql::Access::write, {}));
  const auto parts =
      *db->query_value<std::int64_t>("select count(*) from pg_inherits where inhparent = 'entry'::regclass");
  ASSERT_GT(*parts, 1);
  for (const std::string plant : {"north", "south"}) {
    ASSERT_TRUE(db->act_for(plant));
    std::int64_t seen = 0, deleted = 0;
    for (std::int64_t part = 0; part < *parts; ++part) {
      auto rows = *db->query(fmt::format("select plant from entry_{}", part));
      for (; rows.next(); ++seen) EXPECT_EQ(rows.get<std::string>(0), plant);
      deleted += *db->execute(fmt::format("delete from counter_day_{} where plant <> $1", part), plant);
    }
    EXPECT_EQ(seen, 1);
    EXPECT_EQ(deleted, 0);
    EXPECT_EQ(*db->query_value<int>("select count(*) from entry"), 1);
  }
  ASSERT_TRUE(db->act_for("north"));
  int refused = 0;
  for (std::int64_t part = 0; part < *parts; ++part) {
    const auto put = db->execute(fmt::format("insert into photo_{}(plant, id, sha256, bytes) values('south', 'p', '', "
                                             "$1)",
                                             part),
                                 sql::Blob{});
    refused += put ? 0 : 1;
  }
  EXPECT_EQ(refused, *parts) << "as another's row, or as one of another part";
}

TEST_F(SharedDatabases, EveryTableWithAPlantKeepsPlantsApartButThoseOfServers) {
  const auto db = std::move(*sql::open_postgres(database.address(), sql::Access::write, {}));
  auto rows = *db->query(
      "select c.relname::text from pg_class c join pg_attribute a on a.attrelid = c.oid where a.attname = 'plant' and "
      "c.relkind in ('r', 'p') and not (c.relrowsecurity and c.relforcerowsecurity) order by 1");
  std::vector<std::string> open;
  while (rows.next()) open.push_back(rows.get<std::string>(0));
  EXPECT_EQ(open, (std::vector<std::string>{"grant_left", "plant_lease", "plant_line"}));
}

// All that a plant's store tells of things whose names somebody knows from another plant.
TEST_F(SharedDatabases, APlantSeesNothingOfAnother) {
  const auto server = joined("a");
  const auto north = std::move(*server->take("north")), south = std::move(*server->take("south"));
  ASSERT_TRUE(keep(*north, full_entry("secret")));
  {
    const auto writing = std::move(*north->begin());
    ASSERT_TRUE(writing->add_photo({"p1", "00ff", "bytes"}));
    service::CountingStep step;
    step.positions = {{"feed-1", 7, 8, at("2026-03-02T06:00:00Z")}};
    step.machines.push_back(
        {{"l1", "{}", "state"}, {{"operating", {{LocalDate::of(2026, 3, 2), 1, 2, 3, 4}}}}, {}, {}});
    ASSERT_TRUE(writing->put_counting(step));
    ASSERT_TRUE(writing->commit());
  }
  EXPECT_EQ((*south->shop())->plant, "south");
  EXPECT_FALSE(*south->entry("secret"));
  EXPECT_TRUE(south->entries_of("l1", 9)->empty());
  EXPECT_TRUE(south->entries({}, 9)->empty());
  EXPECT_FALSE(*south->last_done("l1", "filter"));
  EXPECT_TRUE(south->doings_of("l1", "filter")->empty());
  EXPECT_FALSE(*south->photo("p1"));
  EXPECT_TRUE(south->counting()->empty());
  EXPECT_TRUE(south->positions()->empty());
  EXPECT_TRUE(south->days_of("l1", "operating", LocalDate::of(2026, 1, 1), LocalDate::of(2027, 1, 1))->empty());
  EXPECT_EQ(south->verdict()->entries, 0);
  EXPECT_EQ(north->verdict()->entries, 1);
}

// Even a statement that names another plant, or none, gets no row of it from the database.
TEST_F(SharedDatabases, TheDatabaseItselfKeepsThePlantsApart) {
  const auto server = joined("a");
  ASSERT_TRUE(keep(**server->take("north"), full_entry("secret")));
  const DatabasePlace south{folder.path(), database.address(), "south"};
  const auto db = std::move(*open_database(south, sql::Access::write));
  for (const std::string& table : table_names()) {
    const std::string others = fmt::format("select count(*) from {} where plant <> 'south'", table);
    const std::int64_t listed = table == "plant" ? 1 : 0;  // which plants there are is no secret
    EXPECT_EQ(db->query_value<std::int64_t>(others)->value(), listed) << table;
  }
  EXPECT_EQ(*db->execute("update task set version = 99 where plant = 'north'"), 0);
  EXPECT_EQ(*db->execute("delete from task_done where plant = 'north'"), 0);
  EXPECT_EQ(*db->execute("update plant set name = 'x' where plant = 'north'"), 0);
  EXPECT_EQ(db->execute("insert into stray(plant, entry) values('north', 'x')").error().code, ErrorCode::not_allowed);
}

TEST_F(SharedDatabases, AFolderIsTheSameServerHoweverOftenItIsStarted) {
  const std::string first = joined("a")->own().server;
  EXPECT_EQ(joined("a")->own().server, first);
  EXPECT_NE(joined("b")->own().server, first);
}

TEST_F(SharedDatabases, ServersThatComeAtOnceMakeTheTablesOnce) {
  const TestDatabase empty;
  std::vector<std::thread> servers;
  std::atomic<int> ready = 0;
  for (const char* name : {"a", "b", "c"}) {
    const auto data = folder.path() / name;
    ASSERT_TRUE(make_folder(data));
    servers.emplace_back([&, data] { ready += SharedDatabase::open({data, empty.address()}, nullptr, {}) ? 1 : 0; });
  }
  for (auto& server : servers) server.join();
  EXPECT_EQ(ready, 3);
}

}  // namespace
}  // namespace hw::storage
