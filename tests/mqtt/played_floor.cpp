#include "tests/mqtt/played_floor.h"

#include <gtest/gtest.h>

#include "src/storage/open_store.h"
#include "tests/faults/server_process.h"
#include "tests/faults/shop_folder.h"

namespace hw::mqtt_tests {
namespace {

template <class T>
T must(Result<T> result) {
  HW_ASSERT(result, result.error().message.c_str());
  return std::move(*result);
}

}  // namespace

simulate::FloorPlan faithful_plan() {
  simulate::FloorPlan plan;
  plan.seed = 20260408;
  plan.begins_on = LocalDate::of(2026, 4, 1);
  plan.feed = simulate::FeedQuality::faithful;
  return plan;
}

std::vector<simulate::MachineEntry> six_machines() {
  using simulate::Kind;
  return {{"m1", "Lathe", Kind::lathe},
          {"m2", "Mill", Kind::vertical_mill},
          {"m3", "Mill-turn", Kind::mill_turn},
          {"m4", "Five axes", Kind::five_axis_mill},
          {"m5", "Big mill", Kind::horizontal_mill},
          {"m6", "Other lathe", Kind::lathe}};
}

PlayedFloor::PlayedFloor(std::string_view url_tail) : url_tail_(url_tail) {
  std::vector<faults::ShopMachine> machines;
  for (const auto& machine : floor.machines()) {
    machines.push_back({machine.entry.key, "feed-1", broker.url(url_tail_)});
  }
  faults::found_shop(folder_.path(), machines);
}

PlayedFloor::~PlayedFloor() {
  publisher_.reset();
  feeds_.reset();
}

void PlayedFloor::open_server() {
  store_ = must(storage::open_store(folder_.path()));
  shop_ = must(service::OpenShop::open(*store_));
  service::FeedsOptions options;
  options.store_every = Duration::millis(100);
  options.shown_every = Duration::millis(50);
  options.clock = [this] { return clock(); };
  options.report = [this](std::string_view says) {
    const std::lock_guard lock(mutex_);
    reported_ += std::string(says) + "\n";
  };
  feeds_ = must(service::RunningFeeds::start(*shop_, options));
}

void PlayedFloor::close_server() {
  const auto stopped = feeds_->stop();
  EXPECT_TRUE(stopped) << stopped.error().message;
  feeds_.reset();
  shop_.reset();
  store_.reset();
}

void PlayedFloor::publish(simulate::OutboxOptions outbox, simulate::SendFaults faults) {
  simulate::PublisherOptions options;
  options.broker = url();
  options.outbox = std::move(outbox);
  options.faults = faults;
  options.tick = Duration::millis(5);
  options.clock = [this] { return clock(); };
  publisher_ = std::make_unique<simulate::MessagePublisher>(simulate::play(floor, {clock(), clock(), 1, {}}), options);
  // A count begins when the machine's model comes: until then the clock stands.
  ASSERT_TRUE(faults::comes_true([&] { return are_models_known(); }));
}

bool PlayedFloor::are_models_known() const {
  const auto lock = shop_->look();
  return std::all_of(shop_->machines().begin(), shop_->machines().end(),
                     [](const auto& machine) { return machine->count.model() != nullptr; });
}

void PlayedFloor::play_minutes(int minutes) {
  for (int minute = 0; minute < minutes; ++minute) {
    move_clock(Duration::seconds(60));
    ASSERT_TRUE(faults::comes_true([&] { return publisher_->told_until() == clock(); }));
  }
}

void PlayedFloor::wait_until_stored() {
  ASSERT_TRUE(faults::comes_true([&] {
    move_clock(Duration::millis(20));  // waits and limits of how often go by this clock too
    return publisher_->kept() == 0;
  }));
}

bool PlayedFloor::has_reported(std::string_view text) const {
  return faults::comes_true([&] {
    const std::lock_guard lock(mutex_);
    return reported_.find(text) != std::string::npos;
  });
}

service::CounterNow PlayedFloor::counter(std::size_t machine, std::string_view key) const {
  const auto lock = shop_->look();
  for (const auto& one : shop_->machines().at(machine)->count.at(clock()).counters) {
    if (print(one.key) == key) return one;
  }
  ADD_FAILURE() << "no counter " << key;
  return {};
}

service::FeedStatus PlayedFloor::status(std::size_t machine) const {
  const auto lock = shop_->look();
  return shop_->machines().at(machine)->feed;
}

void PlayedFloor::expect_truth() {
  // What the last moments of waiting added is not told yet: all is as of the last message.
  play_minutes(1);
  wait_until_stored();
  play_minutes(1);
  const auto taken = [&] { return publisher_->kept() == 0; };
  const Instant end = clock();
  ASSERT_TRUE(faults::comes_true(taken)) << "the clock stands while the last messages are stored";
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    SCOPED_TRACE(floor.machines()[m].entry.key);
    const simulate::TrueUse truth = floor.truth(m, begin, end);
    const auto expect = [&](std::string_view key, Duration duration) {
      const service::CounterNow now = counter(m, key);
      EXPECT_NEAR(now.counted, duration.as_hours(), 1e-12) << key;
      EXPECT_EQ(now.unknown_h, 0) << key;
    };
    expect("powered", truth.powered);
    expect("operating", truth.operating);
    expect("spindle", truth.spindle);
    expect("axis", truth.axis);
    expect("cutting", truth.cutting);
    EXPECT_GT(truth.operating.ns, 0);
  }
}

}  // namespace hw::mqtt_tests
