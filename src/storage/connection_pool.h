#pragma once
// Connections to one database, taken for one piece of work for one plant and given back.

#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "libs/sql/connection.h"

namespace hw::storage {

using OpenConnection = std::function<Result<std::unique_ptr<sql::Connection>>()>;

class ConnectionPool {
 public:
  // What becomes of a connection that does no more: another is opened in its place, or it stays and goes on refusing
  // (a file's only writer: see sql::Connection::failure).
  enum class Failed { replaced, kept };

  ConnectionPool(OpenConnection open, Failed failed) : open_(std::move(open)), failed_(failed) {}

  struct GiveBack {
    ConnectionPool* pool = nullptr;
    void operator()(sql::Connection* connection) const { pool->give_back(connection); }
  };
  using Taken = std::unique_ptr<sql::Connection, GiveBack>;
  // One that acts for the plant. Refuses what opening refuses.
  Result<Taken> take(const std::string& plant);
  // One more, open already.
  void put(std::unique_ptr<sql::Connection> connection);
  // Why those that wait to be taken do no more; nothing while all is well.
  std::optional<Error> failure() const;

 private:
  std::unique_ptr<sql::Connection> take_idle(const std::string& plant);
  void give_back(sql::Connection* connection);

  OpenConnection open_;
  Failed failed_;
  mutable std::mutex mutex_;
  std::vector<std::unique_ptr<sql::Connection>> idle_;
};

}  // namespace hw::storage
