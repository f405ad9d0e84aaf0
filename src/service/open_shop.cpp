#include "src/service/open_shop.h"

#include <algorithm>
#include <limits>

#include "src/sequence/walking_order.h"
#include "src/service/round_standing.h"

namespace hw::service {
namespace {

Instant first_moment(const std::vector<MachineRecord>& machines) {
  std::optional<Instant> first;
  for (const MachineRecord& machine : machines) {
    for (const TaskRecord& task : machine.tasks) first = std::min(first.value_or(task.began_at), task.began_at);
  }
  return first.value_or(Instant{});
}

// In the order of the entries that announced them.
Result<std::vector<UseChange>> read_use_changes(Store& store) {
  EntryFilter announced;
  announced.kind = use_announced;
  HW_TAKE(entries, store.entries(announced, std::numeric_limits<int>::max()));
  std::vector<UseChange> changes;
  for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) changes.push_back(use_change_of(*entry));
  return changes;
}

// Entries of all kinds about the stores in the order in which they were kept: an order comes before its deliveries.
Result<Stores> read_stores(Store& store) {
  std::vector<Entry> all;
  for (const std::string_view kind : stores_kinds) {
    EntryFilter about;
    about.kind = kind;
    HW_TAKE(entries, store.entries(about, std::numeric_limits<int>::max()));
    std::move(entries.begin(), entries.end(), std::back_inserter(all));
  }
  std::sort(all.begin(), all.end(), [](const Entry& a, const Entry& b) { return a.ordinal < b.ordinal; });
  Stores stores;
  stores.take(all);
  return stores;
}

}  // namespace

Result<std::unique_ptr<OpenShop>> OpenShop::open(Store& store) {
  HW_TAKE(record, store.shop());
  if (!record) return refuse(ErrorCode::not_found, "there is no shop here yet");
  std::unique_ptr<OpenShop> shop{new OpenShop(store, std::move(*record))};
  HW_TAKE(machines, store.machines());
  shop->founded_at_ = first_moment(machines);
  for (MachineRecord& machine : machines) {
    auto open = std::make_unique<OpenMachine>();
    open->record = std::move(machine);
    HW_TAKE(adjustments, store.adjustments_of(open->record.machine.key));
    open->adjustments = std::move(adjustments);
    HW_TAKE(walks, store.latest_walks_of(open->record.machine.key, walks_kept));
    open->walks = std::move(walks);
    HW_TAKE(findings, store.open_findings(open->record.machine.key));
    std::sort(findings.begin(), findings.end(), is_more_pressing);
    open->findings = std::move(findings);
    HW_TAKE(stops, store.agreed_stops(open->record.machine.key));
    std::sort(stops.begin(), stops.end(), begins_before);
    open->stops = std::move(stops);
    open->count = MachineCount{shop->calendar().zone, open->record.machine.fills};
    shop->machines_.push_back(std::move(open));
  }
  HW_TAKE(changes, read_use_changes(store));
  shop->use_changes_ = std::move(changes);
  HW_TAKE(stores, read_stores(store));
  shop->stores_ = std::move(stores);
  HW_TAKE(from_edge, store.edge_taken());
  shop->from_edge_ = std::move(from_edge);
  HW_TAKE(counting, store.counting());
  for (const CountingRecord& counted : counting) {
    HW_TAKE(machine, shop->find(counted.machine));
    HW_TRY(machine->count.restore(counted));
  }
  return shop;
}

Result<OpenMachine*> OpenShop::find(std::string_view key) const {
  for (const auto& machine : machines_) {
    if (machine->record.machine.key == key) return machine.get();
  }
  return refuse(ErrorCode::not_found, Saying{"no-machine", {{"machine", std::string{key.substr(0, 60)}}}},
                "there is no machine \"{}\"", key.substr(0, 60));
}

void OpenShop::add_use_change(UseChange change) {
  use_changes_.push_back(std::move(change));
  ++use_changes_version_;
}

void OpenShop::withdraw_use_change(std::string_view id) {
  for (UseChange& change : use_changes_) {
    if (change.id == id) change.is_withdrawn = true;
  }
  ++use_changes_version_;
}

std::string OpenShop::storing_trouble() const {
  const auto lock = look();
  return storing_trouble_;
}

void OpenShop::set_storing_trouble(std::string says) {
  const auto lock = change();
  storing_trouble_ = std::move(says);
}

copies::CopyState OpenShop::copies() const {
  const auto lock = look();
  return copies_;
}

void OpenShop::set_copies(copies::CopyState state) {
  const auto lock = change();
  copies_ = std::move(state);
}

UpwardState OpenShop::upward() const {
  const auto lock = look();
  return upward_;
}

void OpenShop::set_upward(UpwardState state) {
  const auto lock = change();
  upward_ = std::move(state);
}

std::vector<int> walk_of(const MachineRecord& record) {
  return record.walk.empty() ? sequence::walking_order(record.points)
                             : sequence::walking_order(record.points, record.walk);
}

double adjusted(const OpenMachine& machine, std::string_view counter) {
  double sum = 0;
  for (const Adjustment& one : machine.adjustments) sum += one.counter == counter ? one.amount : 0;
  return sum;
}

double start_moved_since(const OpenMachine& machine, std::string_view counter, Instant since) {
  double sum = 0;
  for (const Adjustment& one : machine.adjustments) {
    if (one.is_start && one.at > since && one.counter == counter) sum += one.amount;
  }
  return sum;
}

CounterTotals totals_of(const OpenMachine& machine, const std::vector<CounterNow>& counters) {
  CounterTotals totals;
  for (const Adjustment& one : machine.adjustments) totals[one.counter] += one.amount;
  for (const CounterNow& counter : counters) totals[print(counter.key)] += counter.counted + counter.filled;
  return totals;
}

CounterTotals totals_of(const OpenMachine& machine, Instant now) {
  return totals_of(machine, machine.count.at(now).counters);
}

}  // namespace hw::service
