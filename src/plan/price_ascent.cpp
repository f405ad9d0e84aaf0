#include "src/plan/price_ascent.h"

#include <algorithm>

#include "src/plan/workers.h"

namespace hw::plan {
namespace {

constexpr int patience = 20;  // steps without a rise before they become shorter
constexpr float shortening = 0.85F;
constexpr double rise_min = 1e-5;  // of the bound
constexpr float share_step = 5;    // of the shares, in step lengths
constexpr double crew_step = 0.1;  // of the overtime cost, for an hour too many of one offered
constexpr double cell_step = 20;   // money for one machine too many

void clear(Usage& usage) {
  for (auto& slots : usage.crew_hours) std::fill(slots.begin(), slots.end(), 0);
  for (auto& slots : usage.cell_places) std::fill(slots.begin(), slots.end(), 0);
}

void add(std::vector<std::vector<double>>& sum, const std::vector<std::vector<double>>& part) {
  for (std::size_t i = 0; i < sum.size(); ++i) {
    for (std::size_t slot = 0; slot < sum[i].size(); ++slot) sum[i][slot] += part[i][slot];
  }
}

}  // namespace

PriceAscent::PriceAscent(const Model& model, std::size_t threads)
    : model_(&model),
      threads_(threads),
      machines_(model.machines.size()),
      machine_bounds_(model.machines.size()),
      best_bound_(0) {
  const std::size_t slots = model.slots();
  prices_.crew_hour.assign(model.crews.size(), std::vector<float>(slots));
  prices_.cell_place.assign(model.cell_max_down.size(), std::vector<float>(slots));
  labour_ = prices_.crew_hour;
  price_labour();
  usage_.resize(threads);
  for (Usage& usage : usage_) {
    usage.crew_hours.assign(model.crews.size(), std::vector<double>(slots));
    usage.cell_places.assign(model.cell_max_down.size(), std::vector<double>(slots));
  }
  for (std::size_t m = 0; m < machines_.size(); ++m) {
    machines_[m] = std::make_unique<SharedOpenings>(model, model.machines[m]);
  }
  visits_.reserve(model.visits.size());
  for (std::size_t v = 0; v < model.visits.size(); ++v) {
    const SharedVisit& visit = visits_.emplace_back(model, v);
    for (std::size_t i = 0; i < visit.tasks().size(); ++i) {
      const auto [machine, task] = visit.tasks()[i];
      machines_[machine]->share_visit(task, visit.shares(i).data());
    }
  }
}

void PriceAscent::price_labour() {
  for (std::size_t c = 0; c < labour_.size(); ++c) {
    const CrewModel& crew = model_->crews[c];
    for (std::size_t slot = 0; slot < labour_[c].size(); ++slot) {
      labour_[c][slot] = crew.hours_max[slot] > 0
                             ? static_cast<float>(crew.premium_per_hour[slot]) + prices_.crew_hour[c][slot]
                             : static_cast<float>(forbidden);
    }
  }
}

double PriceAscent::paid_for_limits() const {
  double sum = 0;
  for (std::size_t c = 0; c < labour_.size(); ++c) {
    const CrewModel& crew = model_->crews[c];
    for (std::size_t slot = 0; slot < labour_[c].size(); ++slot) {
      const auto price = static_cast<double>(prices_.crew_hour[c][slot]);
      sum += price * crew.hours[slot];
      sum += std::max(0.0, price - crew.overtime_cost_per_hour) * (crew.hours_max[slot] - crew.hours[slot]);
    }
  }
  for (std::size_t cell = 0; cell < prices_.cell_place.size(); ++cell) {
    for (std::size_t slot = 0; slot < model_->slots(); ++slot) {
      sum += static_cast<double>(prices_.cell_place[cell][slot]) * model_->cell_max_down[cell][slot];
    }
  }
  return sum;
}

void PriceAscent::shorten_steps(double bound) {
  if (bound > best_bound_ * (1 + rise_min)) {
    steps_without_rise_ = 0;
  } else if (++steps_without_rise_ > patience) {
    step_length_ *= shortening;
    steps_without_rise_ = 0;
  }
  best_bound_ = std::max(best_bound_, bound);
}

void PriceAscent::move_crew_prices() {
  for (std::size_t c = 0; c < labour_.size(); ++c) {
    const CrewModel& crew = model_->crews[c];
    const double overtime_cost = crew.overtime_cost_per_hour;
    for (std::size_t slot = 0; slot < labour_[c].size(); ++slot) {
      if (crew.hours_max[slot] <= 0) continue;
      float& price = prices_.crew_hour[c][slot];
      const double offered = static_cast<double>(price) > overtime_cost ? crew.hours_max[slot] : crew.hours[slot];
      const double excess = usage_[0].crew_hours[c][slot] - offered;
      const double move = crew_step * static_cast<double>(step_length_) * std::max(1.0, overtime_cost) * excess /
                          std::max(1.0, crew.hours[slot]);
      price = static_cast<float>(std::max(0.0, static_cast<double>(price) + move));
    }
  }
}

void PriceAscent::move_cell_prices() {
  for (std::size_t cell = 0; cell < prices_.cell_place.size(); ++cell) {
    for (std::size_t slot = 0; slot < model_->slots(); ++slot) {
      float& price = prices_.cell_place[cell][slot];
      const double excess = usage_[0].cell_places[cell][slot] - model_->cell_max_down[cell][slot];
      const double move = cell_step * static_cast<double>(step_length_) * excess;
      price = static_cast<float>(std::max(0.0, static_cast<double>(price) + move));
    }
  }
}

// What the relaxed plans use of crews by their visits, and where the shares are to move.
void PriceAscent::follow_visits() {
  for (std::size_t v = 0; v < visits_.size(); ++v) {
    std::vector<double>& hours = usage_[0].crew_hours[static_cast<std::size_t>(model_->visits[v].crew)];
    for (std::size_t i = 0; i < visits_[v].tasks().size(); ++i) {
      const auto [machine, task] = visits_[v].tasks()[i];
      visits_[v].follow(i, machines_[machine]->route(task), hours);
    }
  }
}

// To the prices of the next step.
void PriceAscent::raise_shares() {
  const float step = share_step * step_length_;
  share_out(threads_, [&](std::size_t part) {
    const Run run = run_of(part, threads_, machines_.size());
    for (std::size_t m = run.begin; m < run.end; ++m) {
      machines_[m]->raise(step, prices_.cell_place[static_cast<std::size_t>(model_->machines[m].cell)]);
    }
    const Run visits = run_of(part, threads_, visits_.size());
    for (std::size_t v = visits.begin; v < visits.end; ++v) {
      visits_[v].raise(step, labour_[static_cast<std::size_t>(model_->visits[v].crew)]);
    }
  });
}

double PriceAscent::step() {
  share_out(threads_, [&](std::size_t part) {
    clear(usage_[part]);
    const Run run = run_of(part, threads_, machines_.size());
    for (std::size_t m = run.begin; m < run.end; ++m) {
      const auto cell = static_cast<std::size_t>(model_->machines[m].cell);
      machine_bounds_[m] = machines_[m]->relax(labour_, prices_.cell_place[cell], usage_[part]);
    }
  });
  double bound = -paid_for_limits();
  for (const double machine_bound : machine_bounds_) bound += machine_bound;
  for (std::size_t part = 1; part < threads_; ++part) {
    add(usage_[0].crew_hours, usage_[part].crew_hours);
    add(usage_[0].cell_places, usage_[part].cell_places);
  }
  follow_visits();
  shorten_steps(bound);
  move_crew_prices();
  move_cell_prices();
  price_labour();
  raise_shares();
  return bound;
}

}  // namespace hw::plan
