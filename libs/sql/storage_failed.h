#pragma once
// The one exception of this layer: the world broke under the database. The disk is full, a read or write failed, the
// file is damaged. What was committed before is safe; what was going on is rolled back; nobody in the middle can do
// anything about it, so it is caught in one place, at the edge.

#include <stdexcept>

#include "libs/values/error.h"

namespace hw::sql {

class StorageFailed : public std::runtime_error {
 public:
  explicit StorageFailed(Error error) : std::runtime_error(error.message), error_(std::move(error)) {}
  // disk_full (no room, or it cannot be read or written) or corrupt.
  const Error& error() const { return error_; }

 private:
  Error error_;
};

}  // namespace hw::sql
