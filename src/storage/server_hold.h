#pragma once
// This process among the servers that share a database: its sign, which a thread of its own renews, and the plants that
// it holds.

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>
#include <type_traits>

#include "libs/sql/postgres.h"
#include "src/storage/database_place.h"
#include "src/storage/server_sign.h"

namespace hw::storage {

struct HoldTerms {
  Duration lasts = Duration::seconds(6);  // how long a sign is good; it is renewed three times as often
  std::function<void(std::string_view)> report = [](std::string_view) {};
};

class ServerHold {
 public:
  // Signs in, and signs on until it is gone. Refuses what open_database refuses.
  static Result<std::unique_ptr<ServerHold>> begin(DatabasePlace place, ServerRun run, HoldTerms terms);
  ~ServerHold();  // its plants are free at once

  ServerRun run() const;
  // The address stands in its sign when it returns.
  Result<void> announce(const std::string& address);
  // Nothing: another server holds the plant. Throws sql::StorageFailed, as do the next ones, where the database does
  // not answer.
  Result<std::optional<Lease>> take(const std::string& plant);
  Result<void> give_up(const std::string& plant, const Lease& lease);
  Result<std::vector<PlantPlace>> places();
  Result<std::vector<ServerRun>> servers();
  Result<void> publish(const std::string& plant, const std::string& line);
  Result<std::vector<service::PublishedLine>> published(const std::map<std::string, std::int64_t>& known);
  // Whether its sign is good for certain: nobody can have taken a plant of it. By this computer's clock that goes on
  // while the computer sleeps.
  bool is_good() const;
  // How often the sign was renewed too late.
  std::uint64_t lapses() const { return lapses_; }

 private:
  ServerHold(DatabasePlace place, ServerRun run, HoldTerms terms)
      : place_(std::move(place)), run_(std::move(run)), terms_(std::move(terms)) {}
  // The connection, opened anew where it was lost. The caller holds its lock.
  Result<sql::Connection*> connection();
  // What the step says with the connection.
  template <class Step>
  auto ask(const Step& step) -> std::invoke_result_t<Step, sql::Connection&>;
  Result<void> sign(bool is_first);
  void run_signing();

  DatabasePlace place_;
  mutable std::mutex using_;  // of the connection and the run
  ServerRun run_;
  HoldTerms terms_;
  std::unique_ptr<sql::Connection> db_;
  std::atomic<std::int64_t> good_until_ns_ = 0;
  std::atomic<std::uint64_t> lapses_ = 0;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool is_ending_ = false;
  std::thread thread_;
};

}  // namespace hw::storage
