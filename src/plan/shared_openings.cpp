#include "src/plan/shared_openings.h"

#include <algorithm>

namespace hw::plan {
namespace {

constexpr float shut_price = static_cast<float>(forbidden);
constexpr float keep_opened = 0.98F;         // of opened(), at each step
constexpr float keep_direction = 0.9F;       // of the direction, at each step
constexpr float least_share = 1e-4F;         // of what opening costs, before a step: from 0 nothing grows
constexpr float opening_margin = 1 - 1e-5F;  // shares are kept below what opening costs by this, for rounding

// Room for one thread.
struct RelaxRoom {
  std::vector<float> slot_price;
  std::vector<float> day_price;
  std::vector<float> first_cost;
  std::vector<int> days;
  std::vector<float> sum;  // by slot
  RouteRoom<float> route;
};

RelaxRoom& room() {
  thread_local RelaxRoom mine;
  return mine;
}

}  // namespace

SharedOpenings::SharedOpenings(const Model& model, const MachineModel& machine)
    : machine_(&machine),
      days_(model.days),
      slots_(model.slots()),
      place_price_(slots_),
      opened_(slots_),
      routes_(machine.tasks.size()) {
  for (std::size_t slot = 0; slot < slots_; ++slot) {
    loss_.push_back(static_cast<float>(machine.loss_per_hour[slot]));
    shut_running_.push_back(loss_[slot] > 0 ? 0 : shut_price);
    shut_stop_.push_back(machine.may_stop[slot] != 0 ? 0 : shut_price);
  }
  for (std::size_t t = 0; t < machine.tasks.size(); ++t) {
    if (machine.tasks[t].state == EnergyState::stopped) stopped_.push_back(static_cast<int>(t));
    if (machine.tasks[t].state == EnergyState::locked) locked_.push_back(static_cast<int>(t));
  }
  sharing_ = stopped_;
  sharing_.insert(sharing_.end(), locked_.begin(), locked_.end());
  fill_tables(model);
  start_shares();
}

void SharedOpenings::fill_tables(const Model& model) {
  std::vector<std::size_t> begins;
  const auto append = [&](const std::vector<double>& costs) {
    for (const double cost : costs) numbers_.push_back(static_cast<float>(cost));
  };
  std::size_t count = 0;
  for (const TaskModel& task : machine_->tasks) count += 2 * days_ + task.gap_cost.size() + 2 * slots_;
  numbers_.reserve(count);
  for (const TaskModel& task : machine_->tasks) {
    TaskCosts& made = tasks_.emplace_back();
    const std::size_t begin = numbers_.size();
    append(task.first_cost);
    append(task.last_cost);
    append(task.gap_cost);
    const bool is_running = task.state == EnergyState::running;
    const float* at = numbers_.data() + begin;
    made.table = {.days = static_cast<int>(model.days),
                  .gap_min = task.gap_min,
                  .gap_max = static_cast<int>(task.gap_cost.size()) - 1,
                  .first = at,
                  .gap = at + 2 * days_,
                  .last = at + days_,
                  .never = static_cast<float>(task.never_cost)};
    made.shut = is_running ? shut_running_.data() : shut_stop_.data();
    made.labour_hours = static_cast<float>(task.labour_hours);
    made.down_hours = is_running ? 0 : static_cast<float>(task.down_hours);
    made.crew = task.crew;
    made.model = &task;
    if (is_running) continue;
    made.shares = numbers_.data() + numbers_.size();
    made.direction = made.shares + slots_;
    numbers_.resize(numbers_.size() + 2 * slots_);
  }
}

float SharedOpenings::opening_price(EnergyState state, std::size_t slot) const {
  return static_cast<float>(machine_->opening_cost(state, slot)) + place_price_[slot];
}

std::span<const float> SharedOpenings::shares(std::size_t task) const {
  return tasks_[task].shares == nullptr ? std::span<const float>()
                                        : std::span<const float>(tasks_[task].shares, slots_);
}

// All tasks alike, stopped ones no more than they may.
void SharedOpenings::start_shares() {
  const auto stopped = static_cast<float>(stopped_.size());
  const auto locked = static_cast<float>(locked_.size());
  for (std::size_t slot = 0; slot < slots_; ++slot) {
    const float all = opening_price(EnergyState::locked, slot) * opening_margin;
    const float some = opening_price(EnergyState::stopped, slot) * opening_margin;
    const float share = std::min(all / (stopped + locked), some / stopped);
    for (const int t : stopped_) tasks_[static_cast<std::size_t>(t)].shares[slot] = share;
    for (const int t : locked_) tasks_[static_cast<std::size_t>(t)].shares[slot] = (all - share * stopped) / locked;
  }
}

void SharedOpenings::price_days(const TaskCosts& task, const std::vector<float>& labour) {
  std::vector<float>& slot_price = room().slot_price;
  std::vector<float>& day_price = room().day_price;
  slot_price.resize(slots_);
  day_price.resize(days_);
  float* __restrict price = slot_price.data();
  for (std::size_t slot = 0; slot < slots_; ++slot) {
    price[slot] = task.labour_hours * labour[slot] + task.down_hours * loss_[slot] + task.shut[slot];
  }
  if (task.shares != nullptr) {
    for (std::size_t slot = 0; slot < slots_; ++slot) price[slot] += task.shares[slot];
  }
  if (task.visit_shares != nullptr) {
    for (std::size_t slot = 0; slot < slots_; ++slot) price[slot] += task.visit_shares[slot];
  }
  std::copy_n(price, days_, day_price.begin());
  for (std::size_t slot = days_; slot < slots_; slot += days_) {
    for (std::size_t day = 0; day < days_; ++day) day_price[day] = std::min(day_price[day], price[slot + day]);
  }
}

// The task's cheapest route at the prices of price_days; gives back its cost.
double SharedOpenings::find_route(std::size_t t) {
  RelaxRoom& work = room();
  RouteTable<float> table = tasks_[t].table;
  const int agreed = tasks_[t].model->agreed_slot;
  if (agreed >= 0) {
    const std::size_t day = static_cast<std::size_t>(agreed) % days_;
    const float price = work.slot_price[static_cast<std::size_t>(agreed)];
    work.first_cost.assign(table.first, table.first + days_);
    work.first_cost[day] += tasks_[t].model->first_extra(price, work.day_price[day]);
    table.first = work.first_cost.data();
  }
  const float cost = cheapest_route(table, work.day_price.data(), work.route, work.days);
  Slots& route = routes_[t];
  route.clear();
  for (const int day : work.days) {
    auto slot = static_cast<std::size_t>(day);
    while (work.slot_price[slot] != work.day_price[static_cast<std::size_t>(day)]) slot += days_;
    route.push_back(static_cast<int>(slot));
  }
  if (agreed >= 0 && !route.empty() && static_cast<std::size_t>(route.front() - agreed) % days_ == 0) {
    const float moved =
        work.day_price[static_cast<std::size_t>(work.days.front())] + static_cast<float>(tasks_[t].model->move_cost);
    if (work.slot_price[static_cast<std::size_t>(agreed)] <= moved) route.front() = agreed;
  }
  return static_cast<double>(cost);
}

double SharedOpenings::relax(std::span<const std::vector<float>> labour, std::span<const float> place_price,
                             Usage& usage) {
  place_price_.assign(place_price.begin(), place_price.end());
  double sum = 0;
  for (std::size_t t = 0; t < tasks_.size(); ++t) {
    const TaskCosts& task = tasks_[t];
    price_days(task, labour[static_cast<std::size_t>(task.crew)]);
    sum += find_route(t);
    use(t, usage);
  }
  bound_ = sum * (1 - static_cast<double>(2 * days_ + 16) * 0x1p-24);
  return bound_;
}

void SharedOpenings::use(std::size_t t, Usage& usage) const {
  const TaskCosts& task = tasks_[t];
  for (const int s : routes_[t]) {
    const auto slot = static_cast<std::size_t>(s);
    usage.crew_hours[static_cast<std::size_t>(task.crew)][slot] += static_cast<double>(task.labour_hours);
    if (task.shares == nullptr) continue;
    const float price = opening_price(EnergyState::locked, slot);
    if (price > 0)
      usage.cell_places[static_cast<std::size_t>(machine_->cell)][slot] +=
          static_cast<double>(task.shares[slot] / price);
  }
}

// The direction forgets a little of the former routes and takes in the latest.
void SharedOpenings::follow_routes() {
  for (float& opened : opened_) opened *= keep_opened;
  for (const int t : sharing_) {
    const TaskCosts& task = tasks_[static_cast<std::size_t>(t)];
    for (std::size_t slot = 0; slot < slots_; ++slot) task.direction[slot] *= keep_direction;
    for (const int s : routes_[static_cast<std::size_t>(t)]) {
      const auto slot = static_cast<std::size_t>(s);
      const float price = opening_price(EnergyState::locked, slot);
      task.direction[slot] += 1 - keep_direction;
      if (price > 0) opened_[slot] += (1 - keep_opened) * task.shares[slot] / price;
    }
  }
}

// What tasks' shares sum to in each slot.
void SharedOpenings::sum_shares(std::span<const int> tasks, std::vector<float>& sum) const {
  sum.assign(slots_, 0);
  for (const int t : tasks) {
    const float* __restrict shares = tasks_[static_cast<std::size_t>(t)].shares;
    for (std::size_t slot = 0; slot < slots_; ++slot) sum[slot] += shares[slot];
  }
}

void SharedOpenings::multiply(std::span<const int> tasks, const std::vector<float>& factor) {
  for (const int t : tasks) {
    float* __restrict shares = tasks_[static_cast<std::size_t>(t)].shares;
    for (std::size_t slot = 0; slot < slots_; ++slot) shares[slot] *= factor[slot];
  }
}

// In proportion, so that they sum to sum_max, or nearly.
void SharedOpenings::scale(std::span<const int> tasks, const std::vector<float>& sum_max) {
  std::vector<float>& sum = room().sum;
  sum_shares(tasks, sum);
  for (std::size_t slot = 0; slot < slots_; ++slot) sum[slot] = sum[slot] > 0 ? sum_max[slot] / sum[slot] : 1;
  multiply(tasks, sum);
}

// Shares that sum to more than sum_max shrink in proportion.
void SharedOpenings::shrink(std::span<const int> tasks, const std::vector<float>& sum_max) {
  std::vector<float>& sum = room().sum;
  sum_shares(tasks, sum);
  for (std::size_t slot = 0; slot < slots_; ++slot)
    sum[slot] = sum[slot] > sum_max[slot] ? sum_max[slot] / sum[slot] : 1;
  multiply(tasks, sum);
}

// Shares grow by a factor that rises with their routes' use of the slot.
void SharedOpenings::grow(float step, const std::vector<float>& opening) {
  for (const int t : sharing_) {
    const TaskCosts& task = tasks_[static_cast<std::size_t>(t)];
    for (std::size_t slot = 0; slot < slots_; ++slot) {
      const float x = step * task.direction[slot];
      const float growth = 1 + x * (1 + x * (1.0F / 2 + x * (1.0F / 6)));  // nearly e^x
      task.shares[slot] = std::max(task.shares[slot], least_share * opening[slot]) * growth;
    }
  }
}

void SharedOpenings::raise(float step, std::span<const float> place_price) {
  follow_routes();
  place_price_.assign(place_price.begin(), place_price.end());
  std::vector<float> some(slots_);
  std::vector<float> all(slots_);
  for (std::size_t slot = 0; slot < slots_; ++slot) {
    some[slot] = opening_price(EnergyState::stopped, slot) * opening_margin;
    all[slot] = opening_price(EnergyState::locked, slot) * opening_margin;
  }
  grow(step, all);
  scale(sharing_, all);
  shrink(stopped_, some);
  std::vector<float> rest;  // what locked tasks may have beside the stopped ones
  sum_shares(stopped_, rest);
  for (std::size_t slot = 0; slot < slots_; ++slot) rest[slot] = std::max(0.0F, all[slot] - rest[slot]);
  scale(locked_, rest);
  shrink(sharing_, all);
}

}  // namespace hw::plan
