#pragma once
// What is in a shipment, packed by gzip:
//
//   shipment = "hourwright shipment 1 " plant " " number " " schema " " made_ms " " ("whole" | "changes") "\n"
//              *table ["digest " sha256 "\n"] "end\n"
//   table    = "table " name "(" column *(", " column) ")\n" *("+" row) *("-" key)      tables as sent_tables() has
//   them row, key = as row_text.h has rows; a key has the columns of the table's key
//
// A whole shipment has all rows of the plant, and the digest (record_digest.h) of what is there once it is taken.

#include <cstdint>
#include <string>
#include <vector>

#include "libs/values/instant.h"
#include "libs/values/result.h"

namespace hw::storage {

struct ShipmentHead {
  std::string plant;
  std::int64_t number = 0;
  int schema = 0;
  Instant made_at;
  bool is_whole = false;
  bool operator==(const ShipmentHead&) const = default;
};
std::string print_head(const ShipmentHead& head);          // with its line break
Result<ShipmentHead> parse_head(const std::string& line);  // without; refuses bad_input, unsupported (another form)

struct TableHead {
  std::string table;
  std::vector<std::string> columns;
};
std::string print_table_head(const TableHead& head);
Result<TableHead> parse_table_head(const std::string& line);  // refuses bad_input

}  // namespace hw::storage
