#pragma once
// The conventions once more, written as plainly as they read and as slowly: every state is found by looking through all
// observations, for every stretch of time between two of them. What the engine gives must be equal to the nanosecond.

#include <algorithm>
#include <array>
#include <optional>
#include <ostream>
#include <random>
#include <set>
#include <vector>

#include "src/counters/counter_key.h"
#include "src/counters/scene_test.h"
#include "src/counters/settings.h"
#include "src/counters/tally.h"

namespace hw::counters {

inline void PrintTo(const Tally& tally, std::ostream* out) {
  *out << "yes " << tally.counted_ns() << " no " << tally.false_ns() << " unknown " << tally.unknown_ns() << " filled "
       << tally.filled_ns << " starts " << tally.starts << " amount " << tally.amount;
}

}  // namespace hw::counters

namespace hw::counters::naive {

using States = std::array<Truth, machine_counters>;

// Arrivals of one source -> in order of time, by the rule for two clocks, without what came again.
inline std::vector<Observation> ordered(const std::vector<Observation>& arrivals) {
  std::vector<Observation> out;
  std::vector<Observation> before;  // as they were stamped
  const auto same = [](const Observation& a, const Observation& b) {
    return a.item == b.item && a.at == b.at && (a.value == b.value || (is_unknown(a.value) && is_unknown(b.value)));
  };
  for (Observation one : arrivals) {
    const bool again = std::any_of(before.begin(), before.end(), [&](const Observation& b) { return same(one, b); });
    if (again && is_unknown(one.value)) continue;
    const Observation stamped = one;
    for (const Observation& value : before) {
      const bool counts = value.item == stamped.item && !is_unknown(value.value) && is_unknown(stamped.value);
      if (counts && value.at > stamped.at && value.at <= stamped.at + clock_skew_max)
        one.at = std::max(one.at, value.at);
    }
    before.push_back(stamped);
    if (std::none_of(out.begin(), out.end(), [&](const Observation& b) { return same(one, b); })) out.push_back(one);
  }
  std::stable_sort(out.begin(), out.end(), [](const Observation& a, const Observation& b) { return a.at < b.at; });
  return out;
}

inline double value_at(const std::vector<Observation>& all, std::uint32_t item, Instant at) {
  double value = unknown_value;
  for (const Observation& one : all) {
    if (one.item == item && one.at <= at) value = one.value;
  }
  return value;
}

inline Truth any_of(const std::vector<Truth>& parts) {
  if (std::count(parts.begin(), parts.end(), Truth::yes) > 0) return Truth::yes;
  return std::count(parts.begin(), parts.end(), Truth::unknown) > 0 ? Truth::unknown : Truth::no;
}

inline Truth all_of(const std::vector<Truth>& parts) {
  if (std::count(parts.begin(), parts.end(), Truth::no) > 0) return Truth::no;
  return std::count(parts.begin(), parts.end(), Truth::unknown) > 0 ? Truth::unknown : Truth::yes;
}

class Machine {
 public:
  Machine(const MachineModel& model, const CountSettings& settings, std::vector<Observation> all)
      : model_(model), settings_(settings), all_(std::move(all)), present_(model.items.size()) {
    for (const Observation& one : all_) present_[one.item] = present_[one.item] || !is_unknown(one.value);
  }

  Truth truth(std::uint32_t item, Instant at) const {
    const double value = value_at(all_, item, at);
    if (is_unknown(value)) return Truth::unknown;
    const Role role = model_.items[item].role;
    if (role == Role::load) return value > *settings_.load_above_percent ? Truth::yes : Truth::no;
    const bool is_word = role == Role::execution || role == Role::availability || role == Role::power_state;
    return (is_word ? value > 0 : value != 0) ? Truth::yes : Truth::no;
  }

  std::vector<Truth> truths_of(std::set<Role> roles, Instant at, const std::string& component = "") const {
    std::vector<Truth> truths;
    for (std::uint32_t i = 0; i < model_.items.size(); ++i) {
      const bool here = component.empty() || model_.items[i].component_id == component;
      if (present_[i] && here && roles.count(model_.items[i].role) > 0) truths.push_back(truth(i, at));
    }
    return truths;
  }

  std::optional<Truth> state(CounterKind kind, Instant at) const {
    switch (kind) {
      case CounterKind::connected:
        return connected(at);
      case CounterKind::powered:
        return powered(at);
      case CounterKind::operating:
        return any({Role::execution}, at);
      case CounterKind::spindle:
        return any({Role::spindle_speed}, at);
      case CounterKind::feeding:
        return any({Role::path_feed}, at);
      case CounterKind::axis:
        return any({Role::path_feed, Role::path_rapid, Role::axis_feed}, at);
      default:
        return cutting(at);
    }
  }

  Tally tally(CounterKind kind, Instant from, Instant to) const {
    std::set<Instant> cuts = {from, to};
    for (const Observation& one : all_) {
      if (one.at > from && one.at < to) cuts.insert(one.at);
    }
    Tally tally;
    Truth before = from.ns > INT64_MIN ? *state(kind, Instant{from.ns - 1}) : Truth::unknown;
    for (auto cut = cuts.begin(); std::next(cut) != cuts.end(); ++cut) {
      const Truth now = *state(kind, *cut);
      tally.ns[index_of(now)] += (*std::next(cut) - *cut).ns;
      if (now == Truth::yes && before != Truth::yes) ++tally.starts;
      before = now;
    }
    return tally;
  }

 private:
  std::optional<Truth> any(std::set<Role> roles, Instant at) const {
    const std::vector<Truth> parts = truths_of(roles, at);
    return parts.empty() ? std::nullopt : std::optional(any_of(parts));
  }

  std::optional<Truth> connected(Instant at) const {
    bool has = false, known = false;
    for (std::uint32_t i = 0; i < model_.items.size(); ++i) {
      if (!present_[i] || (model_.items[i].role == Role::load && !settings_.load_above_percent)) continue;
      has = true;
      known = known || !is_unknown(value_at(all_, i, at));
    }
    if (!has) return {};
    return known ? Truth::yes : Truth::no;
  }

  std::optional<Truth> powered(Instant at) const {
    const std::vector<Truth> available = truths_of({Role::availability}, at),
                             powers = truths_of({Role::power_state}, at);
    if (available.empty()) return powers.empty() ? std::nullopt : std::optional(all_of(powers));
    if (std::count(available.begin(), available.end(), Truth::unknown) > 0) return Truth::unknown;
    const bool off = std::count(powers.begin(), powers.end(), Truth::no) > 0;
    return off || std::count(available.begin(), available.end(), Truth::no) > 0 ? Truth::no : Truth::yes;
  }

  std::optional<Truth> cutting(Instant at) const {
    const auto operating = any({Role::execution}, at), spindle = any({Role::spindle_speed}, at);
    auto feeding = any({Role::path_feed}, at);
    if (!feeding) feeding = any({Role::path_rapid, Role::axis_feed}, at);
    if (!operating || !spindle || !feeding) return {};
    return all_of({*operating, settings_.load_above_percent ? loaded(at) : *spindle, *feeding});
  }

  Truth loaded(Instant at) const {
    std::vector<Truth> spindles;
    for (std::uint32_t i = 0; i < model_.items.size(); ++i) {
      if (!present_[i] || model_.items[i].role != Role::spindle_speed) continue;
      std::vector<Truth> parts = {truth(i, at)};
      const std::vector<Truth> loads = truths_of({Role::load}, at, model_.items[i].component_id);
      if (!loads.empty()) parts.push_back(any_of(loads));
      spindles.push_back(all_of(parts));
    }
    return any_of(spindles);
  }

  MachineModel model_;
  CountSettings settings_;
  std::vector<Observation> all_;
  std::vector<bool> present_;
};

// A random feed: few different values, many ties, breaks with the agent's clock behind the machine's, repeats.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : random_(seed) {}

  std::uint64_t below(std::uint64_t end) { return std::uniform_int_distribution<std::uint64_t>(0, end - 1)(random_); }
  bool happens(double share) { return std::bernoulli_distribution(share)(random_); }

  MachineModel machine() {
    MachineModel model = scene_machine();
    if (happens(0.3)) model.items[speed2].component_id = "S1";
    if (happens(0.3)) model.items.push_back(item_of("exec2", Role::execution));
    if (happens(0.3)) model.items.push_back(item_of("load2", Role::load, "S2"));
    return model;
  }

  double value(Role role) {
    if (happens(0.1)) return unknown_value;
    if (role == Role::execution) return happens(0.5) ? 1 : -static_cast<double>(below(3));
    if (role == Role::availability) return 1;
    if (role == Role::power_state) return happens(0.7) ? 1 : 0;
    const std::array<double, 6> values = {0, 0, 1, 5, -3, 120};
    return values[below(values.size())];
  }

  // Times in whole 0.1 s, mostly rising; now and then a break that the agent stamps up to 20 s too early.
  std::vector<Observation> arrivals(const MachineModel& model, std::size_t count) {
    std::vector<Observation> all;
    std::int64_t tenths = 0;
    while (all.size() < count) {
      tenths += static_cast<std::int64_t>(below(4)) * static_cast<std::int64_t>(below(8));
      if (happens(0.02)) {
        const std::int64_t early = tenths - static_cast<std::int64_t>(below(200));
        for (std::uint32_t i = 0; i < model.items.size(); ++i) all.push_back({{early * tenth}, i, unknown_value});
      }
      const auto item = static_cast<std::uint32_t>(below(model.items.size()));
      all.push_back({{tenths * tenth}, item, value(model.items[item].role)});
      if (happens(0.05)) all.push_back(all[all.size() - 1 - below(std::min<std::uint64_t>(all.size(), 5))]);
    }
    return all;
  }

  static constexpr std::int64_t tenth = 100'000'000;

 private:
  std::mt19937_64 random_;
};

}  // namespace hw::counters::naive
