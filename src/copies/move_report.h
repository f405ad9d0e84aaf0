#pragma once
// What is said of a shop that was moved from its file into a database on a server.

#include <cstdint>
#include <string>
#include <vector>

#include <boost/describe/class.hpp>

namespace hw::copies {

struct MovedTable {
  std::string name;
  std::int64_t rows = 0;
};
BOOST_DESCRIBE_STRUCT(MovedTable, (), (name, rows))

struct MoveReport {
  std::string data;
  std::string key;    // the plant's, in the database as it was in the file
  std::string plant;  // its name
  std::int64_t entries = 0;
  std::string head;    // the hash of the newest entry
  int breaks = 0;      // where the logbook was not as it was written before
  std::string sha256;  // over every row of every table, the same on both sides
  std::vector<MovedTable> tables;
  int grants = 0;         // that the command line had left and nobody had used yet
  std::string kept_file;  // what was hourwright.db
};
BOOST_DESCRIBE_STRUCT(MoveReport, (), (data, key, plant, entries, head, breaks, sha256, tables, grants, kept_file))

}  // namespace hw::copies
