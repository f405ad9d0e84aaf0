#include "src/storage/connection_pool.h"

#include <algorithm>
#include <exception>

#include "libs/sql/storage_failed.h"

namespace hw::storage {
namespace {

constexpr std::size_t idle_max = 16;

}  // namespace

std::unique_ptr<sql::Connection> ConnectionPool::take_idle(const std::string& plant) {
  const std::lock_guard lock(mutex_);
  while (!idle_.empty()) {
    const auto own = std::find_if(idle_.begin(), idle_.end(), [&](const auto& one) { return one->tenant() == plant; });
    if (own != idle_.end()) std::swap(*own, idle_.back());
    auto connection = std::move(idle_.back());
    idle_.pop_back();
    if (failed_ == Failed::kept || connection->is_there()) return connection;
  }
  return nullptr;
}

Result<ConnectionPool::Taken> ConnectionPool::take(const std::string& plant) {
  Taken taken{take_idle(plant).release(), {this}};
  if (!taken) {
    HW_TAKE(opened, open_());
    taken.reset(opened.release());
  }
  if (!taken->failure()) HW_TRY(taken->act_for(plant));
  return taken;
}

void ConnectionPool::put(std::unique_ptr<sql::Connection> connection) {
  const std::lock_guard lock(mutex_);
  idle_.push_back(std::move(connection));
}

// Where one failed, the others may too: they are opened anew.
void ConnectionPool::give_back(sql::Connection* connection) {
  std::unique_ptr<sql::Connection> back{connection};
  const std::lock_guard lock(mutex_);
  if (failed_ == Failed::replaced && (std::uncaught_exceptions() > 0 || back->failure())) {
    idle_.clear();
    return;
  }
  if (idle_.size() < idle_max) idle_.push_back(std::move(back));
}

std::optional<Error> ConnectionPool::failure() const {
  const std::lock_guard lock(mutex_);
  for (const auto& one : idle_) {
    if (auto failure = one->failure()) return failure;
  }
  return std::nullopt;
}

}  // namespace hw::storage
