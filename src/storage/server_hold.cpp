#include "src/storage/server_hold.h"

#include <chrono>
#include <ctime>

#include "libs/sql/storage_failed.h"

namespace hw::storage {
namespace {

std::int64_t now_of_computer_ns() {
  timespec time{};
  clock_gettime(CLOCK_BOOTTIME, &time);
  return std::int64_t{time.tv_sec} * 1'000'000'000 + time.tv_nsec;
}

}  // namespace

Result<std::unique_ptr<ServerHold>> ServerHold::begin(DatabasePlace place, ServerRun run, HoldTerms terms) {
  std::unique_ptr<ServerHold> hold{new ServerHold(std::move(place), std::move(run), std::move(terms))};
  HW_TRY(hold->sign(true));
  hold->thread_ = std::thread([hold = hold.get()] { hold->run_signing(); });
  return hold;
}

ServerHold::~ServerHold() {
  {
    const std::lock_guard lock(mutex_);
    is_ending_ = true;
  }
  wake_.notify_all();
  if (thread_.joinable()) thread_.join();
  try {
    if (db_ && !db_->failure()) (void)end_sign(*db_, run_);
  } catch (const sql::StorageFailed& failed) {
    terms_.report(failed.what());  // the sign ends by itself
  }
}

Result<sql::Connection*> ServerHold::connection() {
  if (db_ && !db_->failure()) return db_.get();
  HW_TAKE(opened, sql::open_postgres(place_.address, sql::Access::write, {}));
  db_ = std::move(opened);
  return db_.get();
}

// Good from before the request was sent: the database cannot have counted from an earlier moment.
Result<void> ServerHold::sign(bool is_first) {
  const std::lock_guard lock(using_);
  const std::int64_t asked_ns = now_of_computer_ns();
  HW_TAKE(db, connection());
  HW_TRY(is_first ? begin_sign(*db, run_, terms_.lasts) : renew_sign(*db, run_, terms_.lasts));
  if (!is_first && now_of_computer_ns() >= good_until_ns_) ++lapses_;
  good_until_ns_ = asked_ns + terms_.lasts.ns;
  return {};
}

ServerRun ServerHold::run() const {
  const std::lock_guard lock(using_);
  return run_;
}

Result<void> ServerHold::announce(const std::string& address) {
  {
    const std::lock_guard lock(using_);
    run_.address = address;
  }
  return sign(false);
}

void ServerHold::run_signing() {
  const std::chrono::nanoseconds every{terms_.lasts.ns / 3};
  std::unique_lock lock(mutex_);
  while (!wake_.wait_for(lock, every, [this] { return is_ending_; })) {
    lock.unlock();
    try {
      if (const auto signed_on = sign(false); !signed_on) terms_.report(signed_on.error().message);
    } catch (const sql::StorageFailed& failed) {
      terms_.report(failed.what());
    }
    lock.lock();
  }
}

template <class Step>
auto ServerHold::ask(const Step& step) -> std::invoke_result_t<Step, sql::Connection&> {
  const std::lock_guard lock(using_);
  HW_TAKE(db, connection());
  return step(*db);
}

Result<std::optional<Lease>> ServerHold::take(const std::string& plant) {
  return ask([&](sql::Connection& db) { return take_plant(db, plant, run_.server); });
}

Result<void> ServerHold::give_up(const std::string& plant, const Lease& lease) {
  return ask([&](sql::Connection& db) { return give_up_plant(db, plant, lease); });
}

Result<std::vector<PlantPlace>> ServerHold::places() { return ask(plant_places); }

Result<std::vector<ServerRun>> ServerHold::servers() { return ask(signed_servers); }

Result<void> ServerHold::publish(const std::string& plant, const std::string& line) {
  return ask([&](sql::Connection& db) { return publish_line(db, plant, run_.server, line); });
}

Result<std::vector<service::PublishedLine>> ServerHold::published(const std::map<std::string, std::int64_t>& known) {
  return ask([&](sql::Connection& db) { return published_lines(db, known); });
}

bool ServerHold::is_good() const { return now_of_computer_ns() < good_until_ns_; }

}  // namespace hw::storage
