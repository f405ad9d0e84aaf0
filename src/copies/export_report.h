#pragma once
// What is said of a shop's record as open files, after it was written or read.

#include <cstdint>
#include <string>
#include <vector>

#include <boost/describe/class.hpp>

#include "libs/formats/json_types.h"

namespace hw::copies {

struct ExportedTable {
  std::string name;
  std::int64_t rows = 0;
  std::vector<std::string> columns;
};
BOOST_DESCRIBE_STRUCT(ExportedTable, (), (name, rows, columns))

// The file hourwright.json of the folder.
struct ExportHead {
  std::string format;  // "hourwright-shop-1"
  std::string plant;   // its key
  std::string name;
  int schema = 0;
  std::string program;
  Instant made_at;
  std::string sha256;  // over every row, as copy-to compares them
  std::vector<ExportedTable> tables;
};
BOOST_DESCRIBE_STRUCT(ExportHead, (), (format, plant, name, schema, program, made_at, sha256, tables))

struct ExportReport {
  std::string folder;
  int photos = 0;
  ExportHead head;
};
BOOST_DESCRIBE_STRUCT(ExportReport, (), (folder, photos, head))

}  // namespace hw::copies
