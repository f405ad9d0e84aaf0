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

// Puts all arrivals of a run into the order of time. One source that is in order already, as most logs are, is not
// copied.
class Ordering {
 public:
  explicit Ordering(std::size_t items) : known_(items) {}

  // Valid as long as the sources and this are.
  std::span<const Observation> order(std::span<const Source> sources) {
    const std::vector<Source> in_order = by_first_time(sources);
    if (in_order.empty()) return {};
    if (in_order.size() > 1) copy_of(in_order.front(), 0);
    for (const Source& source : in_order) add(source);
    if (!is_copied_) return in_order.front();
    if (!is_sorted_) {
      std::stable_sort(copy_.begin(), copy_.end(),
                       [](const Observation& a, const Observation& b) { return a.at < b.at; });
    }
    return copy_;
  }
  // By item: whether it is known at any time.
  std::vector<bool> known() const { return {known_.begin(), known_.end()}; }
  // The first and the last time, as they were stamped; first > last where there is none.
  Instant first() const { return first_; }
  Instant last() const { return last_; }

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
    return chains_.emplace_back(Chain{TwoClocks(known_.size()), source.front().at});
  }

  // From here on what is in order is not the source itself any longer.
  void copy_of(const Source& source, std::size_t count) {
    copy_.reserve(source.size());
    copy_.assign(source.begin(), source.begin() + static_cast<std::ptrdiff_t>(count));
    is_copied_ = true;
  }

  void add(const Source& source) {
    Chain& chain = chain_for(source);
    for (std::size_t n = 0; n < source.size(); ++n) {
      Observation arrival = source[n];
      HW_ASSERT(arrival.item < known_.size(), "an observation is of one of the model's items");
      if (!is_unknown(arrival.value)) known_[arrival.item] = 1;
      first_ = std::min(first_, arrival.at);
      chain.end = std::max(chain.end, arrival.at);
      const bool passes = chain.clocks.pass(arrival);
      const bool is_next = passes && arrival.at >= latest_;
      if (!is_copied_ && !(is_next && arrival.at == source[n].at)) copy_of(source, n);
      if (!passes) continue;
      is_sorted_ = is_sorted_ && is_next;
      latest_ = std::max(latest_, arrival.at);
      if (is_copied_) copy_.push_back(arrival);
    }
    last_ = std::max(last_, chain.end);
  }

  std::vector<std::uint8_t> known_;
  std::vector<Chain> chains_;
  std::vector<Observation> copy_;
  bool is_copied_ = false;
  bool is_sorted_ = true;
  Instant latest_{INT64_MIN};  // in order
  Instant first_{INT64_MAX};
  Instant last_{INT64_MIN};
};

// First and last time seen unless others are named.
Result<std::pair<Instant, Instant>> bounds_of(Instant first, Instant last, const Window& window) {
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
  Ordering ordering(model.items.size());
  const std::span<const Observation> observations = ordering.order(sources);
  const auto bounds = bounds_of(ordering.first(), ordering.last(), window);
  if (!bounds) return refuse(bounds.error());
  Engine engine(std::make_shared<const MachineModel>(model), settings, MeterUse::recording, ordering.known());
  count(engine, observations, bounds->first, bounds->second);
  return report_of(engine, bounds->first, bounds->second);
}

}  // namespace hw::counters
