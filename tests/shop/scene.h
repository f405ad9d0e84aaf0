#pragma once
// A small shop in a folder of its own: two mills, a plant in a zone, a clock that only plays move.

#include <memory>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/service/feed_sink.h"
#include "src/service/open_shop.h"
#include "src/service/use_cases.h"
#include "tests/postgres/test_database.h"
#include "tests/shop/picture.h"

namespace hw::shop {

// Works also where the value is refused: says why, and gives an empty one.
template <class T>
T must(Result<T> result) {
  EXPECT_TRUE(result) << result.error().message;
  return result ? std::move(*result) : T{};
}
inline void must(const Result<void>& result) { EXPECT_TRUE(result) << result.error().message; }

// An id as clients make them; the same number is the same id.
std::string id_of(int number);

// Tasks that both mills have besides the three of every scene, as [[task]] tables.
struct MoreTasks {
  std::string_view toml;
};

// Where a scene's record lies: in its folder, or in a PostgreSQL of the tests' own.
enum class Engine { sqlite, postgres };
inline Engine engine_of_run() { return on_postgres() ? Engine::postgres : Engine::sqlite; }

class Scene {
 public:
  explicit Scene(std::string_view begin = "2026-03-02T06:00:00Z", std::string_view zone = "Europe/Berlin",
                 MoreTasks more = {}, Engine engine = engine_of_run());

  // From now on the machine does what the picture shows; the clock moves on hour by hour, and the feed tells it live.
  void play(std::string_view picture);
  // One batch of the feed, received now.
  void tell(std::string_view machine, std::vector<counters::Observation> observations);
  // The agent describes the machine anew.
  void tell_model(counters::MachineModel model);
  Result<void> keep();    // what was counted
  void reopen();          // as after an orderly stop: keeps, ends, begins again
  void end_and_reopen();  // as after a kill: what was not kept is gone

  service::MachineView machine(std::string_view key = "mill1") const;
  service::TaskView task(std::string_view key, std::string_view machine = "mill1") const;
  service::TriggerView trigger(std::string_view task) const { return this->task(task).triggers.at(0); }
  double total(std::string_view counter, std::string_view machine = "mill1") const;
  service::CounterView counter(std::string_view key, std::string_view machine = "mill1") const;
  std::vector<service::DayRecord> days(std::string_view counter, std::string_view machine = "mill1") const;

  // The last 30 days as they are shown now.
  std::vector<service::CounterDayView> shown_days(std::string_view counter) const;

  Result<service::EntryView> done(std::string_view task, int id, std::string by = "Ada");
  Result<service::EntryView> undo(int entry, int id, std::string by = "Ada");
  Result<service::HourReadingView> read_hours(double display_h, int id, std::string counter = "operating");
  Result<service::HourReadingView> settle(int reading, std::string as, int id);

  service::OpenShop& shop() const { return *shop_; }
  service::Store& store() const { return *store_; }
  const std::filesystem::path& folder() const { return folder_.path(); }
  service::FeedSink& feed() const { return *feed_; }

  Instant now;

 private:
  void open();
  feeds::Batch batch() const;

  std::unique_ptr<service::Store> open_store() const;

  sql::TestFolder folder_;
  std::unique_ptr<TestDatabase> database_;  // on PostgreSQL
  std::unique_ptr<service::Store> store_;
  std::unique_ptr<service::OpenShop> shop_;
  std::unique_ptr<service::FeedSink> feed_;
  std::uint64_t next_sequence_ = 1;
};

}  // namespace hw::shop
