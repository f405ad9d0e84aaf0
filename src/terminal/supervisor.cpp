#include "src/terminal/supervisor.h"

#include <chrono>
#include <cstdint>

#include <systemd/sd-daemon.h>

namespace hw::terminal {
namespace {

std::chrono::microseconds half_of_watchdog() {
  std::uint64_t within_us = 0;
  return std::chrono::microseconds{sd_watchdog_enabled(0, &within_us) > 0 ? within_us / 2 : 0};
}

}  // namespace

void tell_ready() { sd_notify(0, "READY=1"); }

void tell_ending() { sd_notify(0, "STOPPING=1"); }

Watchdog::Watchdog(std::function<bool()> is_well) : is_well_(std::move(is_well)) {
  if (half_of_watchdog().count() > 0) thread_ = std::thread([this] { run(); });
}

Watchdog::~Watchdog() {
  {
    const std::lock_guard lock(mutex_);
    is_stopping_ = true;
  }
  wake_.notify_all();
  if (thread_.joinable()) thread_.join();
}

void Watchdog::run() {
  const auto every = half_of_watchdog();
  for (std::unique_lock lock(mutex_); !is_stopping_; wake_.wait_for(lock, every, [this] { return is_stopping_; })) {
    lock.unlock();
    if (is_well_()) sd_notify(0, "WATCHDOG=1");
    lock.lock();
  }
}

}  // namespace hw::terminal
