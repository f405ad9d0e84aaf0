#pragma once
// What `hourwright rebuild` did.

#include <cstdint>
#include <string>
#include <vector>

#include <boost/describe/class.hpp>

namespace hw::service {

// One of the two kinds of tables that are made again: those that follow from entries, those that follow from
// observations.
struct RebuiltPart {
  std::string name;                      // "entries", "observations"
  std::int64_t read = 0;                 // so many of them were read
  std::string before;                    // SHA-256 of the rows that followed from them as they were ...
  std::string after;                     // ... and as they are now
  std::vector<std::string> differences;  // what was made otherwise than it was, in sentences
  std::vector<std::string> kept;         // what could not be made again and stays as it is, and why
};
BOOST_DESCRIBE_STRUCT(RebuiltPart, (), (name, read, before, after, differences, kept))

struct RebuildReport {
  std::vector<RebuiltPart> parts;
};
BOOST_DESCRIBE_STRUCT(RebuildReport, (), (parts))

}  // namespace hw::service
