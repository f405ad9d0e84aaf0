// What holds of both databases.

#include "libs/sql/bulk_rows.h"

#include <bit>

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "libs/sql/postgres.h"
#include "libs/sql/postgres_schema.h"
#include "libs/sql/sqlite.h"
#include "libs/sql/test_folder.h"
#include "tests/postgres/test_database.h"

namespace hw::sql {
namespace {

const BulkTarget target{"piece", {"id", "whole", "number", "says", "bytes"}};

// A row as it is read back; doubles by their bits.
struct Row {
  std::int64_t id = 0;
  std::optional<std::int64_t> whole;
  std::optional<std::uint64_t> number;
  std::optional<std::string> says;
  std::optional<Blob> bytes;
  bool operator==(const Row&) const = default;
};

class ManyRows : public testing::TestWithParam<const char*> {
 protected:
  ManyRows() : db(is_postgres() ? opened_postgres() : opened_sqlite()) {
    const std::string table =
        "create table piece(id integer primary key, whole integer, number real, says text, bytes blob) strict";
    EXPECT_TRUE(db->run_script(is_postgres() ? in_postgres(table) : table));
  }
  static bool is_postgres() { return std::string_view(GetParam()) == "PostgreSQL"; }
  std::unique_ptr<Connection> opened_postgres() {
    postgres.emplace();
    return std::move(*open_postgres(postgres->address(), Access::write, {}));
  }
  std::unique_ptr<Connection> opened_sqlite() const {
    return std::move(*open_sqlite(folder.path() / "shop.db", Access::write, {.application_id = 7}));
  }

  Result<std::int64_t> store(const std::vector<Row>& rows, const BulkTarget& into = target) const {
    HW_TAKE(bulk, db->begin_rows(into));
    for (const Row& row : rows) {
      const auto number = row.number ? std::optional{std::bit_cast<double>(*row.number)} : std::optional<double>{};
      HW_TRY(bulk->add(std::array<Parameter, 5>{row.id, row.whole, number, row.says, row.bytes}));
    }
    return bulk->end();
  }
  Result<std::int64_t> store_alone(const std::vector<Row>& rows, const BulkTarget& into = target) const {
    HW_TAKE(transaction, Transaction::begin(*db));
    HW_TAKE(stored, store(rows, into));
    HW_TRY(transaction.commit());
    return stored;
  }
  std::vector<Row> stored() const {
    std::vector<Row> rows;
    auto read = db->query("select id, whole, number, says, bytes from piece order by id");
    EXPECT_TRUE(read);
    while (read->next()) {
      const auto number = read->get<std::optional<double>>(2);
      rows.push_back({read->get<std::int64_t>(0), read->get<std::optional<std::int64_t>>(1),
                      number ? std::optional{std::bit_cast<std::uint64_t>(*number)} : std::nullopt,
                      read->get<std::optional<std::string>>(3), read->get<std::optional<Blob>>(4)});
    }
    return rows;
  }
  static std::vector<Row> numbered(std::int64_t first, std::int64_t count, const std::string& says) {
    std::vector<Row> rows;
    for (std::int64_t id = first; id < first + count; ++id) {
      rows.push_back({id, -id, {}, fmt::format("{} {}", says, id), {}});
    }
    return rows;
  }

  TestFolder folder;
  std::optional<TestDatabase> postgres;
  std::unique_ptr<Connection> db;
};

INSTANTIATE_TEST_SUITE_P(Both, ManyRows, testing::Values("SQLite", "PostgreSQL"),
                         [](const auto& engine) { return std::string(engine.param); });

// Any letters but the character 0, of one to four bytes each.
rc::Gen<std::string> any_text() {
  static const std::vector<std::string> letters{"a",  "\"",       "\\",           "\n",
                                                "\t", "\xC3\xBC", "\xE2\x82\xAC", "\xF0\x9F\x94\xA7"};
  return rc::gen::map(rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(letters)), [](const auto& all) {
    std::string text;
    for (const auto& letter : all) text += letter;
    return text;
  });
}

rc::Gen<std::uint64_t> any_double() {
  return rc::gen::map(rc::gen::suchThat(rc::gen::arbitrary<std::uint64_t>(),
                                        [](std::uint64_t bits) {
                                          const double number = std::bit_cast<double>(bits);
                                          return number == number && number != 0;
                                        }),
                      [](std::uint64_t bits) { return bits; });
}

template <class T>
rc::Gen<std::optional<T>> maybe(rc::Gen<T> one) {
  return rc::gen::mapcat(rc::gen::inRange(0, 4), [one](int chance) {
    return chance == 0 ? rc::gen::just(std::optional<T>{})
                       : rc::gen::map(one, [](T value) { return std::optional<T>{std::move(value)}; });
  });
}

rc::Gen<Row> any_row() {
  const auto bytes = rc::gen::map(rc::gen::arbitrary<std::vector<std::uint8_t>>(), [](const auto& all) {
    Blob blob;
    for (const std::uint8_t byte : all) blob.push_back(std::byte{byte});
    return blob;
  });
  return rc::gen::build<Row>(rc::gen::set(&Row::whole, maybe(rc::gen::arbitrary<std::int64_t>())),
                             rc::gen::set(&Row::number, maybe(any_double())),
                             rc::gen::set(&Row::says, maybe(any_text())),
                             rc::gen::set(&Row::bytes, maybe<Blob>(bytes)));
}

TEST_P(ManyRows, Property_ReadBackAsTheyWereStored) {
  rc::detail::checkGTest([this] {
    auto rows = *rc::gen::container<std::vector<Row>>(any_row());
    std::int64_t id = 0;
    for (Row& row : rows) row.id = ++id;
    RC_ASSERT(db->execute("delete from piece"));
    RC_ASSERT(store_alone(rows) == static_cast<std::int64_t>(rows.size()));
    RC_ASSERT(stored() == rows);
  });
}

TEST_P(ManyRows, OfAnyLengthArriveWhole) {
  std::vector<Row> rows = numbered(1, 3, "short");
  rows.push_back({4, {}, {}, std::string(std::size_t{1} << 20, 'x'), Blob(std::size_t{5} << 20, std::byte{7})});
  rows.push_back({5, {}, {}, "", Blob{}});
  ASSERT_TRUE(store_alone(rows));
  EXPECT_TRUE(stored() == rows);
}

TEST_P(ManyRows, TakeThePlaceOfThoseWithTheSameKey) {
  BulkTarget replacing = target;
  replacing.key = {"id"};
  ASSERT_TRUE(store_alone(numbered(1, 3, "first")));
  EXPECT_EQ(store_alone(numbered(3, 2, "second"), replacing), 2);
  const auto rows = stored();
  ASSERT_EQ(rows.size(), 4U);
  EXPECT_EQ(rows[1].says, "first 2");
  EXPECT_EQ(rows[2].says, "second 3");
}

TEST_P(ManyRows, AreAllUndoneByOneThatIsRefusedAndTheTransactionGoesOn) {
  ASSERT_TRUE(store_alone(numbered(7, 1, "there")));
  {
    auto transaction = std::move(*Transaction::begin(*db));
    ASSERT_TRUE(store(numbered(100, 2, "before")));
    const auto refused = store(numbered(1, 10, "new"));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::conflict);
    ASSERT_TRUE(store(numbered(200, 2, "after")));
    ASSERT_TRUE(transaction.commit());
  }
  EXPECT_EQ(stored().size(), 5U);
}

TEST_P(ManyRows, ThatAreNeverEndedAreNotThere) {
  auto transaction = std::move(*Transaction::begin(*db));
  {
    auto bulk = std::move(*db->begin_rows({"piece", {"id"}}));
    ASSERT_TRUE(bulk->add(std::array<Parameter, 1>{1}));
  }
  ASSERT_TRUE(db->execute("insert into piece(id) values(2)"));
  ASSERT_TRUE(transaction.commit());
  ASSERT_EQ(stored().size(), 1U);
  EXPECT_EQ(stored()[0].id, 2);
}

TEST_P(ManyRows, AreGoneWithTheirTransaction) {
  for (int i = 0; i < 2; ++i) {
    auto transaction = std::move(*Transaction::begin(*db));
    ASSERT_TRUE(store(numbered(1, 5, "gone")));
  }
  EXPECT_TRUE(stored().empty());
  EXPECT_EQ(store_alone(numbered(1, 5, "kept")), 5);
}

TEST_P(ManyRows, WithWhatIsNoNumberOrHoldsTheCharacterZeroAreRefused) {
  const auto refusal = [&](const std::array<Parameter, 2>& row) {
    auto transaction = std::move(*Transaction::begin(*db));
    auto bulk = std::move(*db->begin_rows({"piece", {"number", "says"}}));
    const auto added = bulk->add(row);
    EXPECT_FALSE(added);
    return added ? Error{} : added.error();
  };
  const Error no_number = refusal({std::numeric_limits<double>::quiet_NaN(), nullptr});
  EXPECT_EQ(no_number.code, ErrorCode::bad_input);
  EXPECT_THAT(no_number.message, testing::HasSubstr("column 1: not a number"));
  const std::string zero("a\0b", 3);
  const Error zero_in_text = refusal({nullptr, zero});
  EXPECT_EQ(zero_in_text.code, ErrorCode::bad_input);
  EXPECT_THAT(zero_in_text.message, testing::HasSubstr("column 2: a text with the character 0"));
  EXPECT_TRUE(stored().empty());
}

TEST_P(ManyRows, OfAnotherTypeThanTheirColumnAreRefused) {
  auto transaction = std::move(*Transaction::begin(*db));
  {
    auto bulk = std::move(*db->begin_rows({"piece", {"bytes"}}));
    const auto refused = bulk->add(std::array<Parameter, 1>{"text"});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, is_postgres() ? ErrorCode::bad_input : ErrorCode::conflict) << "as by an insert";
  }
  EXPECT_TRUE(transaction.commit());
  EXPECT_TRUE(stored().empty());
}

TEST_P(ManyRows, LeaveThoseWithTheSameKeyWhereTheyAreToStay) {
  BulkTarget keeping = target;
  keeping.key = {"id"};
  keeping.present = Present::kept;
  ASSERT_TRUE(store_alone(numbered(1, 3, "first")));
  EXPECT_TRUE(store_alone(numbered(3, 2, "second"), keeping));
  const auto rows = stored();
  ASSERT_EQ(rows.size(), 4U);
  EXPECT_EQ(rows[2].says, "first 3");
  EXPECT_EQ(rows[3].says, "second 4");
}

TEST_P(ManyRows, MoreThanLandAtOnceAreOneWhole) {
  constexpr std::int64_t count = 40;
  const std::string long_text(std::size_t{2} << 20, 'y');  // 80 MB: more than lands before it goes on
  std::vector<Row> rows = numbered(1, count, long_text);
  EXPECT_EQ(store_alone(rows), count);
  EXPECT_EQ(db->query_value<std::int64_t>("select count(distinct says) from piece").value(), count);
  for (Row& row : rows) row.id += count;
  rows.back().id = 1;  // it is refused after others have landed and gone on
  EXPECT_FALSE(store_alone(rows));
  EXPECT_EQ(db->query_value<std::int64_t>("select count(*) from piece").value(), count);
}

}  // namespace
}  // namespace hw::sql
