#include "src/plan/cycle_cost.h"

#include <algorithm>
#include <cmath>

namespace hw::plan {
namespace {

double wear_cost(const Task& task, double gap_days, double best_length) {
  const double ratio = gap_days / best_length;
  const double wear = task.wear;
  return task.own_cost * (1 + (std::pow(ratio, wear) - wear * ratio) / (wear - 1));
}

double late_cost(const Task& task, double gap_days, double best_length) {
  return task.late_cost_per_day * std::max(0.0, gap_days - best_length - task.late_tolerance_days);
}

}  // namespace

double cycle_cost(const Task& task, double gap_days, const Fifths& best_lengths) {
  double sum = 0;
  for (const double length : best_lengths) sum += wear_cost(task, gap_days, length) + late_cost(task, gap_days, length);
  return sum / static_cast<double>(best_lengths.size());
}

double open_cycle_cost(const Task& task, double gap_days, const Fifths& best_lengths) {
  double sum = 0;
  for (const double length : best_lengths) {
    sum += wear_cost(task, std::max(gap_days, length), length) + late_cost(task, gap_days, length);
    if (gap_days >= length) sum += task.carry_over_cost;
  }
  return sum / static_cast<double>(best_lengths.size());
}

Fifths first_lengths(const Task& task) {
  Fifths lengths = task.first_due_days;
  for (double& length : lengths) length += task.age_days;
  return lengths;
}

}  // namespace hw::plan
