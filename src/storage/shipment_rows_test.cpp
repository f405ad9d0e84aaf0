// What comes as a shipment and is none: refused with the place, and nothing of it is there.

#include "src/storage/shipment_rows.h"

#include <random>

#include <gmock/gmock.h>

#include "libs/formats/gzip_writer.h"
#include "src/storage/kept_store.h"
#include "src/storage/schema.h"
#include "src/storage/shared_database.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

using testing::HasSubstr;

struct ShipmentRows : testing::Test {
  static std::string packed(const std::string& text) {
    std::string out;
    formats::GzipWriter gzip([&](std::string_view bytes) -> Result<void> {
      out += bytes;
      return {};
    });
    EXPECT_TRUE(gzip.add(text));
    EXPECT_TRUE(gzip.end());
    return out;
  }
  // As it would be within the transaction; nothing is kept.
  Result<ShipmentHead> store_packed(const std::string& bytes) {
    const auto transaction = sql::Transaction::begin(*db);
    const auto source = formats::memory_source(bytes, "shipment");
    return store_shipment(*db, *source, 1);
  }
  Result<ShipmentHead> stored(const std::string& text) { return store_packed(packed(text)); }
  std::string refusal(const std::string& text) {
    const auto refused = stored(text);
    EXPECT_FALSE(refused) << text;
    return refused ? "" : refused.error().message;
  }
  static std::string head(const std::string& plant = "north", int number = 1, int schema = 0) {
    if (schema == 0) schema = static_cast<int>(migrations().size());
    return print_head({plant, number, schema, at("2026-03-02T08:00:00Z"), false});
  }
  std::unique_ptr<sql::Connection> opened() {
    const DatabasePlace place{folder.path(), server.address(), "north"};
    auto all = std::move(*SharedDatabase::open({folder.path(), server.address()}, nullptr, {}));
    EXPECT_TRUE(all->store_of_new("north")->create_shop(full_shop(), {full_machine("l1")}));
    return std::move(*open_database(place, sql::Access::write));
  }

  sql::TestFolder folder;
  TestDatabase server;
  std::unique_ptr<sql::Connection> db = opened();
  std::string columns = "table stray(plant, entry)\n";
};

TEST_F(ShipmentRows, AreStoredAndSayTheirHead) {
  const auto taken = stored(head() + columns + "+t5:northt2:e1\n-t5:northt2:e9\nend\n");
  ASSERT_TRUE(taken) << taken.error().message;
  EXPECT_EQ(taken->number, 1);
  EXPECT_EQ(taken->plant, "north");
}

TEST_F(ShipmentRows, OfAnotherPlantNumberOrVersionAreRefused) {
  EXPECT_THAT(refusal(head("south") + "end\n"), HasSubstr("comes from the plant \"south\""));
  EXPECT_THAT(refusal(head("north", 2) + "end\n"), HasSubstr("says that it is shipment 2"));
  EXPECT_THAT(refusal(head("north", 1, 99) + "end\n"), HasSubstr("tables are of version 99"));
  EXPECT_THAT(refusal(head() + columns + "+t5:southt2:e1\nend\n"), HasSubstr("a row of another plant"));
  EXPECT_THAT(refusal(head() + columns + "-t5:southt2:e1\nend\n"), HasSubstr("a row of another plant"));
}

TEST_F(ShipmentRows, OfTablesThatAreNotSentOrOutOfPlaceAreRefused) {
  EXPECT_THAT(refusal(head() + "table token(plant, id)\nend\n"), HasSubstr("not a table that an edge sends"));
  EXPECT_THAT(refusal(head() + "table server_sign(server)\nend\n"), HasSubstr("not a table that an edge sends"));
  EXPECT_THAT(refusal(head() + columns + columns + "end\n"), HasSubstr("not in its place"));
  EXPECT_THAT(refusal(head() + columns + "table plant(plant)\nend\n"), HasSubstr("not in its place"));
  EXPECT_THAT(refusal(head() + "table stray(entry, plant)\nend\n"), HasSubstr("its columns are plant, entry"));
}

TEST_F(ShipmentRows, WithValuesThatTheirColumnsDoNotTakeAreRefused) {
  EXPECT_THAT(refusal(head() + columns + "+t5:northi7\nend\n"), HasSubstr("table stray: column 2"));
  EXPECT_FALSE(refusal(head() + columns + "+t5:north-\nend\n").empty()) << "null where something has to be";
  EXPECT_THAT(refusal(head() + "table assembly(plant, machine, assembly, ordinal, title)\n"
                               "+t5:northt4:nonet1:ai0t1:A\nend\n"),
              HasSubstr("table assembly"))
      << "of a machine that is not there";
  EXPECT_FALSE(refusal(head() +
                       "table machine(plant, machine, ordinal, name, kind, cell, year, note, feed, device, fills, "
                       "walk, standing_per_hour)\n-t5:northt2:l1\nend\n")
                   .empty())
      << "gone, while others refer to it";
}

TEST_F(ShipmentRows, CutOffAnywhereOrAlteredAnywhereAreRefusedWithoutHarm) {
  const std::string whole = head() + columns + "+t5:northt2:e1\n-t5:northt2:e9\nend\n";
  for (std::size_t length = 0; length < whole.size(); ++length) {
    EXPECT_FALSE(stored(whole.substr(0, length))) << length;
  }
  EXPECT_FALSE(stored(whole + "more"));
  const std::string bytes = packed(whole);
  for (std::size_t length = 0; length < bytes.size(); ++length) EXPECT_FALSE(store_packed(bytes.substr(0, length)));
  const auto seed = std::random_device{}();
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  for (int i = 0; i < 300; ++i) {
    std::string altered = whole;
    for (int n = 0; n < 3; ++n) altered[random() % altered.size()] = static_cast<char>(random() % 256);
    (void)stored(altered);  // whatever comes of it, it is no crash
  }
  EXPECT_EQ(*db->query_value<std::int64_t>("select count(*) from stray where plant = $1", db->tenant()), 0);
}

TEST_F(ShipmentRows, OfAWholeOneTheDigestHasToBeWhatIsThere) {
  const std::string first =
      print_head({"north", 1, static_cast<int>(migrations().size()), at("2026-03-02T08:00:00Z"), true});
  EXPECT_THAT(refusal(first + "digest " + std::string(64, '0') + "\nend\n"), HasSubstr("do not go together"));
  EXPECT_THAT(refusal(first + "end\n"), HasSubstr("do not go together"));
}

}  // namespace
}  // namespace hw::storage
