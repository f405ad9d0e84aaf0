#include "src/storage/row_text.h"

#include <cmath>
#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace hw::storage {
namespace {

using testing::HasSubstr;

std::string printed(const std::vector<Cell>& row) {
  fmt::memory_buffer out;
  for (const Cell& cell : row) append_cell(out, parameter_of(cell).value());
  out.push_back('\n');
  return {out.data(), out.size()};
}

Result<std::vector<Cell>> parsed(const std::string& text, std::size_t columns) {
  const auto source = formats::memory_source(text, "the test");
  RowReader reader(*source);
  std::vector<Cell> row(columns);
  HW_TRY(reader.row(row));
  return row;
}

TEST(RowText, ReadsBackEveryKindOfValueInAnyOrder) {
  const std::vector<Cell> kinds{Cell{},
                                std::int64_t{0},
                                std::numeric_limits<std::int64_t>::min(),
                                std::numeric_limits<std::int64_t>::max(),
                                0.1,
                                -1e300,
                                5e-324,
                                3.0,
                                std::string{},
                                std::string{"ü\n-i5"},
                                sql::Blob{std::byte{0}, std::byte{10}, std::byte{255}}};
  for (const Cell& first : kinds) {
    for (const Cell& second : kinds) {
      const std::vector<Cell> row{first, second, first};
      const auto read = parsed(printed(row), 3);
      ASSERT_TRUE(read) << printed(row) << read.error().message;
      EXPECT_EQ(*read, row) << printed(row);
    }
  }
}

TEST(RowText, AValueLongerThanWhatIsInMemoryAtOnceIsRead) {
  const std::vector<Cell> row{std::string(std::size_t{300} << 10, 'x'), std::int64_t{7}};
  EXPECT_EQ(*parsed(printed(row), 2), row);
}

TEST(RowText, RefusesWhatIsNoRow) {
  const auto refusal = [](const std::string& text, std::size_t columns = 1) {
    const auto read = parsed(text, columns);
    EXPECT_FALSE(read) << text;
    EXPECT_EQ(read.error().code, ErrorCode::bad_input);
    return read.error().message;
  };
  EXPECT_THAT(refusal("i"), HasSubstr("ends too early"));
  EXPECT_THAT(refusal("i\n"), HasSubstr("is no number"));
  EXPECT_THAT(refusal("i99999999999999999999\n"), HasSubstr("is no number"));
  EXPECT_THAT(refusal("d1e999\n"), HasSubstr("is no number"));
  EXPECT_THAT(refusal("dnan\n"), HasSubstr("is no number"));
  EXPECT_THAT(refusal("x\n"), HasSubstr("no kind of value"));
  EXPECT_THAT(refusal("t5:ab\n"), HasSubstr("ends too early"));
  EXPECT_THAT(refusal("t99999999999:ab\n"), HasSubstr("64 MiB is the most"));
  EXPECT_THAT(refusal("t-1:\n"), HasSubstr("is no number"));
  EXPECT_THAT(refusal("t2:\xff\xfe\n"), HasSubstr("not UTF-8"));
  EXPECT_THAT(refusal(std::string("t1:\0\n", 5)), HasSubstr("character 0"));
  EXPECT_THAT(refusal("i1i2\n"), HasSubstr("more values than its table has columns"));
  EXPECT_THAT(refusal("i1\n", 2), HasSubstr("no kind of value"));
}

TEST(RowText, LinesBetweenRowsEndAtTheirLimit) {
  const std::string text = "head\n" + std::string(5000, 'x') + "\n";
  const auto source = formats::memory_source(text);
  RowReader reader(*source);
  EXPECT_EQ(*reader.line(), "head");
  EXPECT_THAT(reader.line().error().message, HasSubstr("too long"));
}

}  // namespace
}  // namespace hw::storage
