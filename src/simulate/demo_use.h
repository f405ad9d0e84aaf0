#pragma once
// How a machine's counters stood on any day of its history and, by its mean use, before it.

#include <vector>

#include "src/service/store.h"

namespace hw::simulate {

class DemoUse {
 public:
  // The totals as of `today`, and each counter's days up to then.
  DemoUse(service::CounterTotals totals, const std::vector<service::CounterDays>& days, LocalDate today,
          int history_days);

  // Every counter's total so many days ago; never below zero.
  service::CounterTotals totals_ago(double days) const;
  // How many days ago the counter was lower by `amount`; days_max where it is hardly used.
  double days_since(const std::string& counter, double amount) const;

  static constexpr double days_max = 1100;

 private:
  // What the counter rose by in the last so many days.
  double risen(const std::string& counter, double days) const;

  service::CounterTotals totals_;
  std::map<std::string, std::vector<double>> daily_;  // [0] is today
};

}  // namespace hw::simulate
