#include "tests/faults/scene.h"

#include <optional>

#include "src/simulate/dice.h"

namespace hw::faults {
namespace {

using counters::Role;
using simulate::Arrival;
using simulate::Machine;
using simulate::Signal;

std::vector<Machine> lathes(int count) {
  std::vector<simulate::MachineEntry> entries;
  constexpr std::array<simulate::Kind, 4> kinds{simulate::Kind::lathe, simulate::Kind::vertical_mill,
                                                simulate::Kind::surface_grinder, simulate::Kind::mill_turn};
  for (int n = 0; n < count; ++n) {
    const auto kind = kinds.at(static_cast<std::size_t>(n) % kinds.size());
    entries.push_back({fmt::format("m{}", n + 1), fmt::format("Machine {}", n + 1), kind});
  }
  return simulate::make_machines(entries);
}

class SceneMaker {
 public:
  explicit SceneMaker(const ScenePlan& plan) : plan_(plan), dice_(plan.seed) {
    scene_.machines = lathes(plan.machines);
    away_until_.resize(scene_.machines.size());
    ticks_.resize(scene_.machines.size());
  }

  Scene make() {
    say_everything(plan_.begin);
    scene_.opening = scene_.arrivals.size();
    fill_until(seconds(plan_.lead_s));
    while (scene_.arrivals.size() < seconds(plan_.lead_s + plan_.busy_s)) say_something();
    for (std::uint32_t m = 0; m < scene_.machines.size(); ++m) {
      if (away_until_[m]) come_back(m);
    }
    fill_until(scene_.arrivals.size() + seconds(plan_.tail_s));
    say_everything(arrives_now());
    fill_until(scene_.arrivals.size() + seconds(plan_.tail_s + 1));
    scene_.ends_at = arrives_now();
    say_everything(scene_.ends_at);
    return std::move(scene_);
  }

 private:
  std::size_t seconds(int count) const { return static_cast<std::size_t>(count * plan_.per_second); }
  Instant arrives_now() const {
    const auto count = static_cast<std::int64_t>(scene_.arrivals.size());
    return plan_.begin + Duration{count * 1'000'000'000 / plan_.per_second};
  }
  const Machine& machine(std::uint32_t m) const { return scene_.machines[m]; }
  std::uint32_t items_of(std::uint32_t m) const { return static_cast<std::uint32_t>(machine(m).tells.size()); }

  void say(std::uint32_t m, std::uint32_t item, Instant at, double value) {
    scene_.arrivals.push_back({m, {arrives_now(), at, item, value}});
  }

  // What no counter reads, so that time passes.
  void fill_until(std::size_t count) {
    std::uint32_t mode = 0;
    while (machine(0).tells[mode].signal != Signal::controller_mode) ++mode;
    while (scene_.arrivals.size() < count) say(0, mode, arrives_now(), static_cast<double>(dice_.between(0, 2)));
  }

  void say_everything(Instant at) {
    for (std::uint32_t m = 0; m < scene_.machines.size(); ++m) {
      for (std::uint32_t item = 0; item < items_of(m); ++item) say(m, item, at, value_of(m, item));
    }
  }

  double value_of(std::uint32_t m, std::uint32_t item) {
    switch (machine(m).tells[item].signal) {
      case Signal::execution:
        return static_cast<double>(dice_.chance(600) ? 1 : dice_.between(0, 7));
      case Signal::power_state:
        return dice_.chance(900) ? 1 : 0;
      case Signal::spindle_speed:
      case Signal::path_feed:
      case Signal::axis_feed:
      case Signal::angular_velocity:
        return dice_.chance(300) ? 0 : static_cast<double>(dice_.between(1, 4'000'000)) / 1024.0;
      case Signal::timer:
      case Signal::part_count:
        return static_cast<double>(ticks_[m] += static_cast<std::uint64_t>(dice_.between(0, 2)));
      case Signal::position:
        return static_cast<double>(dice_.between(0, 500'000)) / 1000.0;
      case Signal::availability:
        return 1;
      default:
        return static_cast<double>(dice_.between(0, 1));
    }
  }

  void say_something() {
    const auto m = static_cast<std::uint32_t>(dice_.between(0, plan_.machines - 1));
    if (away_until_[m]) {
      if (arrives_now() < *away_until_[m]) return fill_until(scene_.arrivals.size() + 1);
      return come_back(m);
    }
    if (dice_.chance(4)) return break_off(m);
    const auto item = static_cast<std::uint32_t>(dice_.between(0, items_of(m) - 1));
    say(m, item, stamp_for(m, item), value_of(m, item));
  }

  // By the machine's clock, which may be ahead; up to 400 ms before it arrives.
  Instant stamp_for(std::uint32_t m, std::uint32_t item) {
    const Instant present = arrives_now();
    if (plan_.has_late && machine(m).tells[item].signal == Signal::spindle_speed && dice_.chance(150)) {
      const Instant late = present - Duration::millis(dice_.between(7'000, 9'000));
      if (late > plan_.begin + Duration::seconds(plan_.lead_s + 1)) {
        ++scene_.late;
        return late;
      }
    }
    const std::int64_t ahead_ms = m == 1 ? plan_.ahead_ms : 0;
    const Instant at = present + Duration::millis(ahead_ms - dice_.between(0, 400));
    if (last_at_ && at < *last_at_) ++scene_.out_of_order;
    last_at_ = at;
    return at;
  }

  // The agent loses the machine: by the agent's clock.
  void break_off(std::uint32_t m) {
    ++scene_.breaks;
    for (std::uint32_t item = 0; item < items_of(m); ++item) say(m, item, arrives_now(), counters::unknown_value);
    away_until_[m] = arrives_now() + Duration::millis(dice_.between(200, 2'500));
  }

  void come_back(std::uint32_t m) {
    away_until_[m].reset();
    const Instant at = arrives_now() + (m == 1 ? Duration::millis(plan_.ahead_ms) : Duration{});
    for (std::uint32_t item = 0; item < items_of(m); ++item) say(m, item, at, value_of(m, item));
  }

  ScenePlan plan_;
  simulate::Dice dice_;
  Scene scene_;
  std::vector<std::optional<Instant>> away_until_;
  std::vector<std::uint64_t> ticks_;
  std::optional<Instant> last_at_;
};

}  // namespace

Scene make_scene(const ScenePlan& plan) { return SceneMaker(plan).make(); }

}  // namespace hw::faults
