#include "src/plan/shared_visits.h"

#include <algorithm>

namespace hw::plan {
namespace {

constexpr float keep_of_routes = 0.9F;     // of the direction, at each step
constexpr float share_least = 1e-4F;       // of the price, before a step: from 0 nothing grows
constexpr float price_margin = 1 - 1e-5F;  // shares are kept below the price by this, for rounding

}  // namespace

SharedVisit::SharedVisit(const Model& model, std::size_t visit)
    : model_(&model), visit_(&model.visits[visit]), slots_(model.slots()), price_(slots_) {
  for (std::size_t m = 0; m < model.machines.size(); ++m) {
    const std::vector<TaskModel>& tasks = model.machines[m].tasks;
    for (std::size_t t = 0; t < tasks.size(); ++t) {
      if (tasks[t].visit == static_cast<int>(visit)) tasks_.push_back({m, t});
    }
  }
  shares_.assign(tasks_.size() * slots_, 1);
  direction_.assign(shares_.size(), 0);
  std::vector<float> premium;
  for (const double price : model.crews[static_cast<std::size_t>(visit_->crew)].premium_per_hour) {
    premium.push_back(static_cast<float>(price));
  }
  fit_price(premium);
  scale_to_price();
}

void SharedVisit::fit_price(const std::vector<float>& labour) {
  const CrewModel& crew = model_->crews[static_cast<std::size_t>(visit_->crew)];
  for (std::size_t slot = 0; slot < slots_; ++slot) {
    const bool may_come = visit_->hours <= crew.hours_max[slot] + hours_tolerance;
    const float hours = visit_->hours > 0 ? static_cast<float>(visit_->hours) * labour[slot] : 0;
    price_[slot] = may_come ? static_cast<float>(visit_->cost) + hours : static_cast<float>(forbidden);
  }
}

void SharedVisit::scale_to_price() {
  std::vector<float> factor(slots_);
  for (std::size_t i = 0; i < shares_.size(); ++i) factor[i % slots_] += shares_[i];
  for (std::size_t slot = 0; slot < slots_; ++slot) {
    factor[slot] = factor[slot] > 0 ? price_[slot] * price_margin / factor[slot] : 0;
  }
  for (std::size_t i = 0; i < shares_.size(); ++i) {
    const std::size_t slot = i % slots_;
    const bool is_shut = price_[slot] >= static_cast<float>(forbidden / 2);
    shares_[i] = is_shut ? price_[slot] : shares_[i] * factor[slot];
  }
}

void SharedVisit::follow(std::size_t i, const Slots& route, std::vector<double>& crew_hours) {
  float* direction = direction_.data() + i * slots_;
  const float* share = shares_.data() + i * slots_;
  for (std::size_t slot = 0; slot < slots_; ++slot) direction[slot] *= keep_of_routes;
  for (const int s : route) {
    const auto slot = static_cast<std::size_t>(s);
    direction[slot] += 1 - keep_of_routes;
    if (price_[slot] > 0) crew_hours[slot] += visit_->hours * static_cast<double>(share[slot] / price_[slot]);
  }
}

void SharedVisit::raise(float step, const std::vector<float>& labour) {
  fit_price(labour);
  for (std::size_t i = 0; i < shares_.size(); ++i) {
    const float x = step * direction_[i];
    const float growth = 1 + x * (1 + x * (1.0F / 2 + x * (1.0F / 6)));  // nearly e^x
    shares_[i] = std::max(shares_[i], share_least * price_[i % slots_]) * growth;
  }
  scale_to_price();
}

}  // namespace hw::plan
