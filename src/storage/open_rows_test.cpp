#include "src/storage/open_rows.h"

#include <boost/json/serialize.hpp>
#include <gmock/gmock.h>

#include "libs/sql/sqlite.h"
#include "libs/sql/test_folder.h"

namespace hw::storage {
namespace {

using testing::HasSubstr;

const ReadBytes no_files = [](const std::string& file) -> Result<std::string> { return "bytes of " + file; };

TEST(OpenRows, ReadBackAsTheyWere) {
  const sql::TestFolder folder;
  const auto db = std::move(*sql::open_sqlite(folder.path() / "a.db", sql::Access::write, {.application_id = 7}));
  ASSERT_TRUE(db->run_script("create table t(a integer, b real, c text, d blob, e text) strict"));
  ASSERT_TRUE(db->execute("insert into t values(9223372036854775807, 0.1, 'ü \"x\"\n', x'00ff0a', null)"));
  ASSERT_TRUE(db->execute("insert into t values(-1, 3, '', x'', 'e')"));
  const std::vector<std::string> columns{"a", "b", "c", "d", "e"};
  auto rows = std::move(*db->query("select a, b, c, d, e from t"));
  while (rows.next()) {
    const std::string line = boost::json::serialize(open_row(columns, rows));
    EXPECT_EQ(line.find('\n'), std::string::npos);
    const auto cells = parse_open_row(line, columns, no_files);
    ASSERT_TRUE(cells) << cells.error().message;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      fmt::memory_buffer was, is;
      append_cell(was, rows.value(static_cast<int>(i)));
      append_cell(is, parameter_of((*cells)[i]).value());
      EXPECT_EQ(fmt::to_string(was), fmt::to_string(is));
    }
  }
}

TEST(OpenRows, TakeBytesFromAFileBeside) {
  const auto cells = parse_open_row(R"({"a":{"file":"photos/1.jpeg"}})", {"a"}, no_files);
  ASSERT_TRUE(cells);
  EXPECT_EQ(std::get<sql::Blob>(cells->front()).size(), std::string("bytes of photos/1.jpeg").size());
}

TEST(OpenRows, RefuseWhatIsNoRowWithItsColumn) {
  const auto refusal = [](const std::string& line) {
    const auto cells = parse_open_row(line, {"a"}, no_files);
    EXPECT_FALSE(cells) << line;
    return cells ? "" : cells.error().message;
  };
  EXPECT_THAT(refusal("[1]"), HasSubstr("a JSON object is right"));
  EXPECT_THAT(refusal("{\"a\":1"), HasSubstr("a JSON object is right"));
  EXPECT_THAT(refusal("{}"), HasSubstr("a: it is missing"));
  EXPECT_THAT(refusal(R"({"a":1,"b":2})"), HasSubstr("b: there is no such column"));
  EXPECT_THAT(refusal(R"({"a":true})"), HasSubstr("a: a text, a number, null or bytes are right"));
  EXPECT_THAT(refusal(R"({"a":1e999})"), HasSubstr("a"));
  EXPECT_THAT(refusal(R"({"a":{"hex":"00"}})"), HasSubstr("a: {\"base64\": ...} or {\"file\": ...} is right"));
}

}  // namespace
}  // namespace hw::storage
