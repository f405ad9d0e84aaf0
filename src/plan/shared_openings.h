#pragma once
// A lower bound for one machine, and how it is raised: its tasks share the price of opening a stop.
//
// What couples the tasks of a machine is that a stop is paid for once. Give each task t a share u[t, slot] >= 0 of that
// price such that in every slot the shares of tasks that need the machine stopped sum to at most f_stopped, and all
// shares to at most f_locked. Whatever stops a plan opens, its tasks' shares in them sum to no more than what they
// cost; so the sum over tasks of each one's cheapest route, paying its shares, bounds the machine's cost from below.
// This is the Lagrangian relaxation of "a task is done in a slot only if a stop is open there" (Geoffrion 1974), with
// prices on crew hours and on places in the cell added to labour and to opening.
//
// Raising it: where some tasks use a slot and others do not, the former should bear more. A step multiplies the shares
// of the users and scales all back to what opening costs (mirror ascent with entropy: Nemirovsky and Yudin 1983; Beck
// and Teboulle 2003). Most tasks have no business in most slots; their shares vanish in a few steps, where a step that
// adds and projects (Polyak 1969) ended 1 to 2 % below the linear program.
//
// Numbers are float: half the memory, twice the speed. All terms are sums of at most 2 * days + 16 amounts that are not
// negative, so the cost of a route is right to that many roundings, and relax takes them off the bound.

#include <span>
#include <vector>

#include "src/plan/model.h"

namespace hw::plan {

// What crew hours and places in cells cost, by slot; all of them 0 or more.
struct Prices {
  std::vector<std::vector<float>> crew_hour;   // [crew][slot], without the premium
  std::vector<std::vector<float>> cell_place;  // [cell][slot]
};

// What the relaxed plans use of crews and cells.
struct Usage {
  std::vector<std::vector<double>> crew_hours;   // [crew][slot]
  std::vector<std::vector<double>> cell_places;  // [cell][slot]
};

class SharedOpenings {
 public:
  // `machine` and `model` must outlive this.
  SharedOpenings(const Model& model, const MachineModel& machine);

  // What the task pays beside, by slot, from now on: its shares of its crew's visits (shared_visits.h). They must stay.
  void share_visit(std::size_t task, const float* shares) { tasks_[task].visit_shares = shares; }
  // The tasks' cheapest routes at these prices, and what they use added to `usage`. `labour`: [crew][slot], premium and
  // price of an hour, `forbidden` where the crew is not there. Gives back a lower bound of the machine's cost at these
  // prices (its own costs and what it pays for hours and places).
  double relax(std::span<const std::vector<float>> labour, std::span<const float> place_price, Usage& usage);
  // Moves the shares by a step after relax (0 to about 2: a share whose task uses the slot grows by e to that), and
  // fits them to the prices of places that will be asked for next.
  void raise(float step, std::span<const float> place_price);

  // A task's routes of the last relax.
  const Slots& route(std::size_t task) const { return routes_[task]; }
  // Its shares by slot; empty for one that is done while the machine runs.
  std::span<const float> shares(std::size_t task) const;
  // How far a stop was opened in each slot by the routes of the latest steps, 0 to 1 and rarely more: the share of what
  // opening costs that they paid.
  std::span<const float> opened() const { return opened_; }
  // What opening costs in that slot at the prices of the last relax.
  float opening_price(EnergyState state, std::size_t slot) const;

 private:
  struct TaskCosts {
    RouteTable<float> table;
    const float* shut = nullptr;  // by slot: 0, or forbidden
    float labour_hours = 0;
    float down_hours = 0;
    int crew = 0;
    const TaskModel* model = nullptr;
    float* shares = nullptr;              // by slot
    const float* visit_shares = nullptr;  // by slot; null: its crew need not travel
    float* direction = nullptr;           // by slot: where its routes went lately, the latest the most
  };

  void fill_tables(const Model& model);
  void start_shares();
  void price_days(const TaskCosts& task, const std::vector<float>& labour);
  double find_route(std::size_t task);
  void use(std::size_t task, Usage& usage) const;
  void follow_routes();
  void grow(float step, const std::vector<float>& opening);
  void sum_shares(std::span<const int> tasks, std::vector<float>& sum) const;
  void multiply(std::span<const int> tasks, const std::vector<float>& factor);
  void scale(std::span<const int> tasks, const std::vector<float>& sum_max);
  void shrink(std::span<const int> tasks, const std::vector<float>& sum_max);

  const MachineModel* machine_;
  std::size_t days_;
  std::size_t slots_;
  std::vector<float> numbers_;  // all tables and shares, in the order in which they are read
  std::vector<TaskCosts> tasks_;
  std::vector<float> loss_;          // by slot
  std::vector<float> shut_running_;  // by slot
  std::vector<float> shut_stop_;
  std::vector<float> place_price_;  // of the last relax
  std::vector<float> opened_;
  std::vector<int> stopped_;  // tasks of that state
  std::vector<int> locked_;
  std::vector<int> sharing_;  // both
  std::vector<Slots> routes_;
  double bound_ = 0;
};

}  // namespace hw::plan
