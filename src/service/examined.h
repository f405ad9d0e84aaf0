#pragma once
// What was looked at in a data folder, beside a server or without one.

#include <cstdint>
#include <optional>
#include <vector>

#include <boost/describe/class.hpp>

#include "src/service/check.h"
#include "src/service/records.h"

namespace hw::service {

struct TableSize {
  std::string table;
  std::int64_t rows = 0;
};
BOOST_DESCRIBE_STRUCT(TableSize, (), (table, rows))

struct Examined {
  std::vector<Check> checks;
  int schema = 0;                        // of the tables; 0: they do not read
  std::vector<TableSize> tables;         // empty where they do not read
  std::string schema_text;               // the tables as SQL
  std::optional<ShopWithMachines> shop;  // nothing where it does not read
};

}  // namespace hw::service
