#include "src/storage/shipment_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace hw::storage {
namespace {

TEST(ShipmentText, ItsHeadReadsBack) {
  const ShipmentHead head{"north-1", 12, 4, *parse_instant("2026-11-27T06:40:00.125Z"), true};
  const std::string line = print_head(head);
  EXPECT_EQ(line, "hourwright shipment 1 north-1 12 4 1795761600125 whole\n");
  EXPECT_EQ(*parse_head(line.substr(0, line.size() - 1)), head);
}

TEST(ShipmentText, AnotherFormIsSaidToBeOne) {
  EXPECT_EQ(parse_head("hourwright shipment 2 north 12 4 0 whole").error().code, ErrorCode::unsupported);
  for (const char* line : {"", "hourwright shipment 1 north 12 4 0", "hourwright shipment 1 NORTH 12 4 0 whole",
                           "hourwright shipment 1 north -1 4 0 whole", "hourwright shipment 1 north 1 4 0 some"}) {
    EXPECT_EQ(parse_head(line).error().code, ErrorCode::bad_input) << line;
  }
}

TEST(ShipmentText, ATablesHeadReadsBack) {
  const TableHead head{"task_done", {"plant", "machine", "entry"}};
  const auto read = parse_table_head("table task_done(plant, machine, entry)");
  ASSERT_TRUE(read);
  EXPECT_EQ(print_table_head(head), "table task_done(plant, machine, entry)\n");
  EXPECT_EQ(read->table, head.table);
  EXPECT_EQ(read->columns, head.columns);
  EXPECT_FALSE(parse_table_head("table x; drop table plant(a)"));
  EXPECT_FALSE(parse_table_head("table x()"));
}

}  // namespace
}  // namespace hw::storage
