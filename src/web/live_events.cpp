#include "src/web/live_events.h"

#include <chrono>
#include <utility>

#include "libs/formats/json.h"

namespace hw::web {
namespace {

constexpr std::chrono::seconds pause{1};

}  // namespace

LiveEvents::LiveEvents(const service::OpenShop& shop, FloorLines& lines, Clock clock, http::Channel& channel)
    : shop_(shop), lines_(lines), clock_(std::move(clock)), channel_(channel), thread_([this] { run(); }) {}

LiveEvents::~LiveEvents() {
  {
    const std::lock_guard lock(mutex_);
    is_stopping_ = true;
  }
  wake_.notify_all();
  thread_.join();
}

void LiveEvents::run() {
  std::unique_lock lock(mutex_);
  while (!wake_.wait_for(lock, pause, [this] { return is_stopping_; })) {
    lock.unlock();
    tell_changes();
    lines_.refresh(clock_());
    lock.lock();
  }
}

void LiveEvents::tell_changes() {
  const bool is_heard = channel_.subscribers() > 0;
  const Instant now = clock_();
  // By the calendar alone a task falls due without any change: once a minute every line is told anew.
  const std::int64_t minute = now.as_millis() / 60'000;
  const bool is_new_minute = std::exchange(told_minute_, minute) != minute;
  const auto looking = shop_.look();
  const bool stores_changed = std::exchange(told_stores_, shop_.stores().version()) != shop_.stores().version();
  if (stores_changed && is_heard) channel_.publish({.event = "stores", .data = "{}"});
  for (std::size_t place = 0; place < shop_.machines().size(); ++place) {
    const auto& machine = shop_.machines()[place];
    const std::string& key = machine->record.machine.key;
    Told& told = told_[key];
    const Told present{machine->counts_version, machine->tasks_version};
    const bool tasks_changed = present.tasks_version != told.tasks_version;
    const bool changed =
        is_new_minute || stores_changed || tasks_changed || present.counts_version != told.counts_version;
    told = present;
    if (!changed || !is_heard) continue;
    channel_.publish({.event = "machine", .data = *lines_.line(place, now), .topic = key});
    const std::map<std::string, std::string> names{{"machine", key}};
    if (tasks_changed) channel_.publish({.event = "tasks", .data = formats::print_json(names), .topic = key});
  }
}

}  // namespace hw::web
