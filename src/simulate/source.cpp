#include "src/simulate/source.h"

#include <algorithm>
#include <optional>

#include "libs/values/assert.h"

namespace hw::simulate {

namespace {

// What one call takes at most: after a long sleep the rest comes with the next calls, and memory stays bounded.
constexpr Duration take_max = Duration::hours(2);

class FloorSource : public Source {
 public:
  FloorSource(const Floor& floor, Pace pace, Detail detail)
      : floor_(floor),
        pace_(pace),
        detail_(detail),
        told_until_(pace.floor_of(pace.begins)),
        days_(floor.machines().size()),
        next_(floor.machines().size(), 0) {}

  const std::vector<Machine>& machines() const override { return floor_.machines(); }

  void take(Instant now, std::vector<Arrival>& out) override {
    const Instant until = std::min(pace_.floor_of(pace_.stamp_at(now)), told_until_ + take_max);
    if (until <= told_until_) return;
    const std::size_t begin = out.size();
    for (std::uint32_t machine = 0; machine < days_.size(); ++machine) take_machine(machine, until, out);
    std::stable_sort(out.begin() + static_cast<std::ptrdiff_t>(begin), out.end(),
                     [](const Arrival& a, const Arrival& b) { return a.event.arrives_at < b.event.arrives_at; });
    told_until_ = until;
  }

  void take_standing(std::vector<Arrival>& out) override {
    for (std::uint32_t machine = 0; machine < days_.size(); ++machine) {
      for (const Event& event : floor_.standing(machine, told_until_)) out.push_back({machine, stamped(event)});
    }
  }

  Instant taken_until(Instant /*now*/) const override { return told_until_ - pace_.floor_ahead; }

 private:
  Event stamped(Event event) const {
    event.arrives_at = event.arrives_at - pace_.floor_ahead;
    event.at = event.at - pace_.floor_ahead;
    return event;
  }

  void take_machine(std::uint32_t machine, Instant until, std::vector<Arrival>& out) {
    for (Instant at = told_until_; at < until;) {
      if (at < floor_.begin_of_first_day()) at = floor_.begin_of_first_day();
      Floor::Day& day = days_[machine];
      if (at >= day.end || at < day.begin) open_day(machine, at);
      std::size_t& next = next_[machine];
      for (; next < day.events.size() && day.events[next].arrives_at < until; ++next) {
        out.push_back({machine, stamped(day.events[next])});
      }
      at = day.end;
    }
  }

  void open_day(std::uint32_t machine, Instant at) {
    Floor::Day& day = days_[machine];
    day = floor_.day_of(machine, at, detail_);
    const auto first = std::partition_point(day.events.begin(), day.events.end(),
                                            [&](const Event& event) { return event.arrives_at < at; });
    next_[machine] = static_cast<std::size_t>(first - day.events.begin());
  }

  const Floor& floor_;
  const Pace pace_;
  const Detail detail_;
  Instant told_until_;  // floor time
  std::vector<Floor::Day> days_;
  std::vector<std::size_t> next_;  // in the day's events
};

class ReplaySource : public Source {
 public:
  ReplaySource(std::vector<Machine> machines, std::vector<Arrival> arrivals, double per_second)
      : machines_(std::move(machines)), arrivals_(std::move(arrivals)), per_second_(per_second) {
    HW_ASSERT(per_second > 0, "a pace above 0");
    for (const Machine& machine : machines_) last_.emplace_back(machine.tells.size());
  }

  const std::vector<Machine>& machines() const override { return machines_; }

  void take(Instant now, std::vector<Arrival>& out) override {
    if (!begun_) began_at_ = now;
    begun_ = true;
    const double due = (now - began_at_).as_seconds() * per_second_;
    const auto until = static_cast<std::size_t>(std::clamp(due, 0.0, static_cast<double>(arrivals_.size())));
    for (; next_ < until; ++next_) {
      const Arrival& arrival = arrivals_[next_];
      last_.at(arrival.machine).at(arrival.event.item) = arrival.event;
      out.push_back(arrival);
    }
  }

  // As it was said last, old stamps included.
  void take_standing(std::vector<Arrival>& out) override {
    for (std::uint32_t machine = 0; machine < last_.size(); ++machine) {
      for (const std::optional<Event>& event : last_[machine]) {
        if (event) out.push_back({machine, *event});
      }
    }
  }

  Instant taken_until(Instant now) const override {
    if (arrivals_.empty()) return now;
    return arrivals_[next_ == 0 ? 0 : next_ - 1].event.at;
  }

 private:
  const std::vector<Machine> machines_;
  const std::vector<Arrival> arrivals_;
  const double per_second_;
  bool begun_ = false;
  Instant began_at_;
  std::size_t next_ = 0;
  std::vector<std::vector<std::optional<Event>>> last_;
};

}  // namespace

std::unique_ptr<Source> play(const Floor& floor, Pace pace, Detail detail) {
  return std::make_unique<FloorSource>(floor, pace, detail);
}

std::unique_ptr<Source> replay(std::vector<Machine> machines, std::vector<Arrival> arrivals, double per_second) {
  return std::make_unique<ReplaySource>(std::move(machines), std::move(arrivals), per_second);
}

}  // namespace hw::simulate
