#include "src/kits/demand.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "libs/numerics/grid_sum.h"
#include "libs/values/assert.h"
#include "src/kits/times_taken.h"

namespace hw::kits {
namespace {

constexpr double cell_slack = 1e-6;  // an amount this much below a whole cell fills it

// One need as the sum takes it: how often it came, and what each time adds.
struct Taking {
  double quantity = 1;
  TimesTaken times;
};

// The distribution of a sum; the last cell holds all that is beyond.
class Row {
 public:
  explicit Row(std::size_t cells) : now_(cells), next_(cells) {}

  // An amount of 0.
  void begin() {
    now_[0] = 1;
    filled_ = 1;
  }
  void begin_with(const Row& other) {
    std::copy_n(other.now_.begin(), other.filled_, now_.begin());
    filled_ = other.filled_;
  }
  // Adds k times `cells_each` with chance times[k - first].
  void add(std::size_t first, std::span<const double> times, double cells_each) {
    const double whole = std::round(cells_each);
    if (std::abs(cells_each - whole) < cell_slack) {
      const auto stride = static_cast<std::size_t>(whole);
      put_all(first * stride, times, stride);
    } else {
      const std::size_t begin = share_between_cells(first, times, cells_each);
      put_all(begin, kernel_, 1);
    }
  }
  // Running sums.
  void put_below(double* out) const {
    double sum = 0;
    for (std::size_t n = 0; n < filled_; ++n) out[n] = std::min(sum += now_[n], 1.0);
    std::fill(out + filled_, out + now_.size(), 1.0);
    out[now_.size() - 1] = 1;
  }

 private:
  // An amount between two cells is shared so that its mean stays; what is beyond the last one is there anyway. Fills
  // kernel_, which begins at the cell returned.
  std::size_t share_between_cells(std::size_t first, std::span<const double> times, double cells_each) {
    const auto beyond = static_cast<double>(now_.size());
    const double begin = std::floor(std::min(static_cast<double>(first) * cells_each, beyond));
    const double width = std::min(std::ceil(static_cast<double>(times.size() - 1) * cells_each) + 1, beyond);
    kernel_.assign(static_cast<std::size_t>(width) + 2, 0.0);
    for (std::size_t k = 0; k < times.size(); ++k) {
      const double at = std::min(static_cast<double>(first + k) * cells_each - begin, width);
      const auto cell = static_cast<std::size_t>(at);
      const double over = at - static_cast<double>(cell);
      kernel_[cell] += times[k] * (1 - over);
      kernel_[cell + 1] += times[k] * over;
    }
    return static_cast<std::size_t>(begin);
  }
  void put_all(std::size_t begin, std::span<const double> chances, std::size_t stride) {
    const std::size_t width = std::min(now_.size(), filled_ + begin + (chances.size() - 1) * stride);
    std::fill_n(next_.begin(), width, 0.0);
    for (std::size_t n = 0; n < chances.size(); ++n) {
      if (chances[n] > 0) put(begin + n * stride, chances[n]);
    }
    now_.swap(next_);
    filled_ = width;
  }
  void put(std::size_t by, double chance) {
    const std::size_t last = now_.size() - 1;
    const std::size_t staying = by > last ? 0 : std::min(filled_, last - by + 1);
    for (std::size_t n = 0; n < staying; ++n) next_[n + by] += now_[n] * chance;
    for (std::size_t n = staying; n < filled_; ++n) next_[last] += now_[n] * chance;
  }

  std::vector<double> now_, next_, kernel_;
  std::size_t filled_ = 1;
};

// What changes on some days only, and what changes every day.
struct Takings {
  std::vector<Taking> due, by_chance;
};

Takings takings_of(const Needs& needs, LocalDate today, int days) {
  Takings takings;
  for (const ExpectedNeed& need : needs.expected) {
    takings.due.push_back({need.quantity, TimesTaken::of_due(need, today, days)});
  }
  std::map<double, double> rates;  // by quantity: Poisson processes add up
  for (const FailureNeed& need : needs.failures) rates[need.quantity] += need.rate_per_day;
  for (const auto& [quantity, rate] : rates) {
    if (rate > 0) takings.by_chance.push_back({quantity, TimesTaken::of_rate(rate)});
  }
  return takings;
}

std::vector<double> certain_by_day(const std::vector<CertainNeed>& certain, LocalDate today, int days) {
  std::vector<double> by_day(static_cast<std::size_t>(days));
  for (const CertainNeed& need : certain) {
    const int day = std::max(need.on - today, 0);
    if (day < days) by_day[static_cast<std::size_t>(day)] += need.quantity;
  }
  for (std::size_t day = 1; day < by_day.size(); ++day) by_day[day] += by_day[day - 1];
  return by_day;
}

// No further than anybody needs to look: the greatest possible amount, or the mean and ten standard deviations.
double amount_max(const Takings& takings, double certain, int last_day) {
  double most = 0, mean = 0, variance = 0;
  for (const auto* list : {&takings.due, &takings.by_chance}) {
    for (const Taking& one : *list) {
      most += one.quantity * static_cast<double>(one.times.most(last_day));
      mean += one.quantity * one.times.mean(last_day);
      variance += one.quantity * one.quantity * one.times.variance(last_day);
    }
  }
  return certain + std::min(most, mean + 10 * std::sqrt(variance) + 1);
}

std::optional<double> exact_step(const Needs& needs) {
  std::vector<double> quantities;
  for (const auto& need : needs.certain) quantities.push_back(need.quantity);
  for (const auto& need : needs.expected) quantities.push_back(need.quantity);
  for (const auto& need : needs.failures) quantities.push_back(need.quantity);
  return numerics::shared_step(quantities);
}

}  // namespace

Demand::Demand(const Needs& needs, LocalDate today, int days) : days_(days) {
  HW_ASSERT(days >= 1, "at least one day ahead");
  Takings takings = takings_of(needs, today, days);
  const std::vector<double> certain = certain_by_day(needs.certain, today, days);
  const double most = amount_max(takings, certain.back(), days - 1);
  const auto step = exact_step(needs);
  is_exact_ = step && most / *step < double(demand_cells_max - 2);
  step_ = is_exact_ ? *step : std::max(most, 1e-9) / double(demand_cells_max - 3);
  cells_ = static_cast<std::size_t>(std::ceil(most / step_ - cell_slack)) + 2;
  below_.resize(cells_ * static_cast<std::size_t>(days));

  Row planned(cells_), all(cells_);
  const double once = 1;
  for (int day = 0; day < days; ++day) {
    const auto at = static_cast<std::size_t>(day);
    double* out = below_.data() + at * cells_;
    bool is_same = day > 0 && certain[at] == certain[at - 1];
    for (Taking& one : takings.due) is_same = !one.times.move_to(day) && is_same;
    if (!is_same) {
      planned.begin();
      planned.add(1, {&once, 1}, certain[at] / step_);
      for (const Taking& one : takings.due) planned.add(one.times.first(), one.times.chances(), one.quantity / step_);
    } else if (takings.by_chance.empty()) {
      std::copy_n(out - cells_, cells_, out);
      continue;
    }
    all.begin_with(planned);
    for (Taking& one : takings.by_chance) {
      one.times.move_to(day);
      all.add(one.times.first(), one.times.chances(), one.quantity / step_);
    }
    all.put_below(out);
  }
}

std::ptrdiff_t Demand::cell_of(double amount) const {
  if (amount < -cell_slack * step_) return -1;
  return static_cast<std::ptrdiff_t>(std::min(std::floor(amount / step_ + cell_slack), double(cells_ - 1)));
}

double Demand::within(int day, double amount) const {
  const std::ptrdiff_t cell = cell_of(amount);
  if (cell < 0) return 0;
  return day < 0 ? 1 : row(std::min(day, days_ - 1))[cell];
}

double Demand::quantile(int day, double chance) const {
  HW_ASSERT(chance > 0 && chance < 1, "a chance inside (0, 1)");
  if (day < 0) return 0;
  const double* below = row(std::min(day, days_ - 1));
  return static_cast<double>(std::lower_bound(below, below + cells_ - 1, chance - 1e-12) - below) * step_;
}

double Demand::mean(int day) const { return missing(day, 0); }

double Demand::missing(int day, double amount) const {
  if (day < 0) return std::max(-amount, 0.0);
  const double* below = row(std::min(day, days_ - 1));
  double sum = 0;
  for (std::size_t n = 0; n + 1 < cells_; ++n) {
    const double lower = static_cast<double>(n) * step_;
    sum += (1 - below[n]) * std::clamp(lower + step_ - amount, 0.0, step_);
  }
  return sum;
}

}  // namespace hw::kits
