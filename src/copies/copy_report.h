#pragma once
// What is said of a copy's file after it was made, checked or restored.

#include "src/copies/copy_head.h"

namespace hw::copies {

struct CopyReport {
  std::string file;
  std::uint64_t bytes = 0;  // of the file itself
  CopyHead copy;
};
BOOST_DESCRIBE_STRUCT(CopyReport, (), (file, bytes, copy))

}  // namespace hw::copies
