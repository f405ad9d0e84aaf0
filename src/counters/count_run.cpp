#include "src/counters/count_run.h"

#include <algorithm>
#include <memory>
#include <numeric>
#include <utility>

#include "libs/values/assert.h"
#include "src/counters/engine.h"
#include "src/counters/two_clocks.h"

namespace hw::counters {
namespace {

constexpr Duration window_max = Duration::hours(24 * 366 * 200);

// Sources one after the other, as one agent or adapter gave them: so far as one begins where the one before it ends.
struct Chain {
  TwoClocks clocks;
  Instant end;
};

// Puts all arrivals of a run into the order of time.
class Ordering {
 public:
  explicit Ordering(std::size_t items) : items_(items) {}

  std::vector<Observation> order(std::span<const Source> sources) {
    std::size_t total = 0;
    for (const Source& source : sources) total += source.size();
    ordered_.reserve(total);
    for (const Source& source : by_first_time(sources)) add(source);
    if (!is_sorted_) {
      std::stable_sort(ordered_.begin(), ordered_.end(),
                       [](const Observation& a, const Observation& b) { return a.at < b.at; });
    }
    return std::move(ordered_);
  }

 private:
  static std::vector<Source> by_first_time(std::span<const Source> sources) {
    std::vector<Source> order;
    for (const Source& source : sources) {
      if (!source.empty()) order.push_back(source);
    }
    std::stable_sort(order.begin(), order.end(),
                     [](const Source& a, const Source& b) { return a.front().at < b.front().at; });
    return order;
  }

  // The chain that the source goes on with. It may begin a little before the end: that is what the rule is for.
  Chain& chain_for(const Source& source) {
    for (Chain& chain : chains_) {
      if (source.front().at >= chain.end - clock_skew_max) return chain;
    }
    return chains_.emplace_back(Chain{TwoClocks(items_), source.front().at});
  }

  void add(const Source& source) {
    Chain& chain = chain_for(source);
    for (Observation arrival : source) {
      HW_ASSERT(arrival.item < items_, "an observation is of one of the model's items");
      chain.end = std::max(chain.end, arrival.at);
      if (!chain.clocks.pass(arrival)) continue;
      if (!ordered_.empty() && arrival.at < ordered_.back().at) is_sorted_ = false;
      ordered_.push_back(arrival);
    }
  }

  std::size_t items_;
  std::vector<Chain> chains_;
  std::vector<Observation> ordered_;
  bool is_sorted_ = true;
};

std::vector<bool> items_ever_known(std::size_t items, std::span<const Observation> observations) {
  std::vector<bool> known(items);
  std::size_t left = items;
  for (const Observation& observation : observations) {
    if (is_unknown(observation.value) || known[observation.item]) continue;
    known[observation.item] = true;
    if (--left == 0) break;
  }
  return known;
}

// First and last time seen, as they were stamped.
Result<std::pair<Instant, Instant>> bounds_of(std::span<const Source> sources, const Window& window) {
  Instant first{INT64_MAX}, last{INT64_MIN};
  for (const Source& source : sources) {
    for (const Observation& arrival : source) {
      first = std::min(first, arrival.at);
      last = std::max(last, arrival.at);
    }
  }
  if (first > last && !(window.from && window.to)) {
    return refuse(ErrorCode::bad_input, "there are no observations to take the window from");
  }
  const Instant from = window.from.value_or(first), to = window.to.value_or(last);
  if (from >= to) {
    return refuse(ErrorCode::bad_input, "the window from {} to {} is empty: its end must come after its beginning",
                  print(from), print(to));
  }
  const bool is_too_long = from.ns < 0 && to.ns > INT64_MAX + from.ns;
  if (is_too_long || to - from > window_max) {
    return refuse(ErrorCode::bad_input, "the window from {} to {} is longer than 200 years: name another one",
                  print(from), print(to));
  }
  return std::pair(from, to);
}

// Motion is found up to 2 s after it began, so what comes so soon after the window still belongs to it.
void count(Engine& engine, std::span<const Observation> observations, Instant from, Instant to) {
  const auto before = [](const Observation& observation, Instant at) { return observation.at < at; };
  const auto begin = std::lower_bound(observations.begin(), observations.end(), from, before);
  const auto end = std::lower_bound(begin, observations.end(), to, before);
  const auto past_end = std::upper_bound(
      end, observations.end(), to, [](Instant at, const Observation& o) { return at + motion_before_position < o.at; });
  for (auto o = observations.begin(); o != begin; ++o) engine.observe(*o);
  engine.observe(mark_at(from, Mark::window_begin));
  for (auto o = begin; o != end; ++o) engine.observe(*o);
  engine.observe(mark_at(to, Mark::window_end));
  for (auto o = end; o != past_end; ++o) engine.observe(*o);
  engine.drain();
}

// A window that ends at midnight leaves the day behind it empty.
void report_days(std::span<const DayTally> days, Report& report) {
  for (const DayTally& day : days) {
    const bool is_empty = day.tally.counted_ns() + day.tally.false_ns() + day.tally.unknown_ns() == 0;
    if (!is_empty) report.days[day.date][day.counter] = day.tally;
  }
}

Report report_of(Engine& engine, Instant from, Instant to) {
  Report report{from, to, {}, {}, {}, {}};
  const Meter& meter = engine.meter();
  const std::vector<std::string> labels = labels_of(meter.model());
  for (std::size_t slot = 0; slot < meter.slots().size(); ++slot) {
    if (!meter.is_present(slot)) continue;
    const std::optional<std::uint32_t> item = meter.slots()[slot].item;
    if (!item) {
      report.counters[slot] = meter.total(slot);
    } else if (meter.model().items[*item].role == Role::own_counter) {
      report.own_counters.push_back({*item, labels[*item], meter.own_readings(*item)});
    } else if (meter.model().items[*item].role != Role::count) {
      report.items.push_back({*item, labels[*item], meter.total(slot)});
    }
  }
  if (!meter.settings().by_day) return report;
  report_days(engine.meter().take_days(), report);
  report_days(meter.day_so_far(), report);
  return report;
}

}  // namespace

Result<Report> count_run(const MachineModel& model, std::span<const Source> sources, const Window& window,
                         const CountSettings& settings) {
  const auto bounds = bounds_of(sources, window);
  if (!bounds) return refuse(bounds.error());
  const std::vector<Observation> observations = Ordering(model.items.size()).order(sources);
  Engine engine(std::make_shared<const MachineModel>(model), settings, MeterUse::recording,
                items_ever_known(model.items.size(), observations));
  count(engine, observations, bounds->first, bounds->second);
  return report_of(engine, bounds->first, bounds->second);
}

}  // namespace hw::counters
