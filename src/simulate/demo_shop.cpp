#include "src/simulate/demo_shop.h"

#include <algorithm>

#include "libs/values/assert.h"
#include "src/feeds/device_model.h"
#include "src/service/machine_count.h"
#include "src/simulate/agent.h"
#include "src/simulate/demo_findings.h"
#include "src/simulate/demo_lives.h"
#include "src/simulate/demo_record.h"
#include "src/simulate/demo_stops.h"
#include "src/simulate/demo_stores.h"
#include "src/simulate/dice.h"
#include "src/simulate/pace.h"

namespace hw::simulate {
namespace {

using service::CounterTotals;

constexpr std::uint64_t demo_seed = 20260302;
constexpr int year_now = 2026;

// What a machine of that age had on its displays when counting began, of the order of two-shift work (invented).
CounterTotals base_of(const catalogue::Machine& machine) {
  Dice dice(mix(demo_seed, hash_of(machine.key)));
  const int years = std::max(1, year_now - machine.year.value_or(year_now - 5));
  const double powered = years * static_cast<double>(dice.between(3300, 4300));
  const double operating = powered * static_cast<double>(dice.between(45, 60)) / 100;
  return {{"powered", powered},      {"operating", operating},      {"spindle", 0.92 * operating},
          {"axis", 0.9 * operating}, {"feeding", 0.85 * operating}, {"cutting", 0.78 * operating}};
}

struct DemoMachine {
  CounterTotals base;
  service::CountingStep::Machine counted;
  std::vector<service::Entry> entries;
  std::vector<service::Photo> photos;
};

// The machine's model as its agent's probe tells it, so that counting goes on under the same one when the feed begins.
counters::MachineModel told_model(const Floor& floor, std::size_t index, Instant now) {
  const Agent agent(floor.machines(), {}, now);
  auto devices = feeds::read_devices(agent.probe(index, now).xml);
  HW_ASSERT(devices && devices->machines.size() == 1, "our agent's probe reads back");
  return std::move(devices->machines.front());
}

// Where each item of the floor's model stands in the told one.
std::vector<std::uint32_t> places_in(const counters::MachineModel& told, const counters::MachineModel& floors) {
  std::vector<std::uint32_t> places;
  for (const auto& item : floors.items) {
    const auto there =
        std::find_if(told.items.begin(), told.items.end(), [&](const auto& one) { return one.id == item.id; });
    HW_ASSERT(there != told.items.end(), "the probe tells every item");
    places.push_back(static_cast<std::uint32_t>(there - told.items.begin()));
  }
  return places;
}

service::MachineCount count_history(const catalogue::PlantCalendar& calendar, const Floor& floor, std::size_t index,
                                    Duration floor_ahead, Instant now) {
  service::MachineCount count{calendar.zone};
  const Instant from = now - Duration::hours(24 * demo_history_days);
  const counters::MachineModel model = told_model(floor, index, now);
  const auto places = places_in(model, floor.machines()[index].model);
  count.set_model(model, from);
  count.alive_until(now);  // the floor's feeds say it when they go away
  std::vector<counters::Observation> moved;
  tell_history(floor, index, from, now, floor_ahead, Detail::turns, [&](std::span<const counters::Observation> piece) {
    moved.assign(piece.begin(), piece.end());
    for (auto& observation : moved) observation.item = places[observation.item];
    count.take(moved, now);
  });
  return count;
}

DemoMachine make_machine(const service::NewShop& shop, const Floor& floor, std::size_t index, Duration floor_ahead,
                         Instant now) {
  const auto& record = shop.machines[index];
  DemoMachine out;
  out.base = base_of(record.machine);
  auto count = count_history(shop.shop.calendar, floor, index, floor_ahead, now);
  CounterTotals totals = out.base;
  for (const auto& counter : count.at(now).counters) totals[print(counter.key)] += counter.counted + counter.filled;
  out.counted = std::move(*count.unsaved(record.machine.key));
  const DemoUse use(std::move(totals), out.counted.changed_days, shop.shop.calendar.zone.date_of(now),
                    demo_history_days);
  out.entries = demo_entries(record, shop.shop, use, demo_seed, now);
  auto lives = demo_lives(record, shop.shop, use, out.entries, demo_seed, now);
  DemoFindings findings = demo_findings(record, shop.shop, use, demo_seed, now);
  auto stops = demo_stops(record, shop.shop, use, out.entries, demo_seed, now);
  std::move(stops.begin(), stops.end(), std::back_inserter(out.entries));
  std::move(lives.begin(), lives.end(), std::back_inserter(out.entries));
  std::move(findings.entries.begin(), findings.entries.end(), std::back_inserter(out.entries));
  out.photos = std::move(findings.photos);
  return out;
}

// The shop has been at work since its counting began: its tasks count from what the displays had then.
std::vector<service::MachineRecord> since(std::vector<service::MachineRecord> records,
                                          const std::vector<DemoMachine>& machines, Instant began_at) {
  for (std::size_t i = 0; i < records.size(); ++i) {
    for (auto& task : records[i].tasks) {
      task.began_at = began_at;
      task.began_counters = machines[i].base;
    }
  }
  return records;
}

Result<void> keep(service::Store& store, const service::NewShop& shop, std::vector<DemoMachine>& machines,
                  Instant now) {
  const Instant began_at = now - Duration::hours(24 * demo_history_days);
  HW_TRY(store.create_shop(shop.shop, since(shop.machines, machines, began_at)));
  HW_TAKE(writing, store.begin());
  std::vector<service::Entry> entries;
  service::CountingStep step;
  for (DemoMachine& machine : machines) {
    for (const auto& [counter, amount] : machine.base) {
      HW_TRY(writing->add_adjustment({machine.counted.record.machine, counter, amount, true, Instant{}}));
    }
    std::move(machine.entries.begin(), machine.entries.end(), std::back_inserter(entries));
    for (const auto& photo : machine.photos) HW_TRY(writing->add_photo(photo));
    step.machines.push_back(std::move(machine.counted));
  }
  auto stores = demo_stores(shop, entries, demo_seed, now);
  std::move(stores.begin(), stores.end(), std::back_inserter(entries));
  std::stable_sort(entries.begin(), entries.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  for (auto& entry : entries) HW_TRY(writing->add_entry(entry));
  HW_TRY(writing->put_counting(step));
  return writing->commit();
}

}  // namespace

Result<std::unique_ptr<Floor>> demo_floor(const catalogue::Shop& shop, Instant now) {
  FloorPlan plan{.seed = demo_seed,
                 .zone = shop.calendar.zone,
                 .begins_on = shop.calendar.zone.date_of(now) - (demo_history_days + 20)};
  for (const auto& day : shop.calendar.closed) plan.closed_on.push_back(day.on);
  std::vector<MachineEntry> entries;
  for (const auto& machine : shop.machines) {
    const auto kind = parse_kind(machine.kind);
    if (!kind) return refuse(ErrorCode::bad_input, "machine {}: \"{}\" cannot be simulated", machine.key, machine.kind);
    entries.push_back({machine.key, machine.name, *kind});
  }
  return std::make_unique<Floor>(std::move(plan), entries);
}

Result<void> found_demo(service::Store& store, const service::NewShop& shop, const Floor& floor, Duration floor_ahead,
                        Instant now) {
  std::vector<DemoMachine> machines;
  for (std::size_t i = 0; i < shop.machines.size(); ++i)
    machines.push_back(make_machine(shop, floor, i, floor_ahead, now));
  return keep(store, shop, machines, now);
}

}  // namespace hw::simulate
