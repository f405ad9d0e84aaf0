#include "tests/faults/shop_folder.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "libs/values/assert.h"
#include "src/service/carried.h"
#include "src/service/machine_count.h"
#include "src/service/model_text.h"
#include "src/storage/database_place.h"
#include "src/storage/open_store.h"

namespace hw::faults {
namespace {

template <class T>
T must(Result<T> result) {
  HW_ASSERT(result, result.error().message.c_str());
  return std::move(*result);
}

service::TaskRecord filter_task(Instant began_at) {
  service::TaskRecord record;
  record.task.key = task_key;
  record.task.title = "Replace the coolant filter";
  record.task.assembly = "coolant";
  record.task.minutes = 20;
  record.task.triggers = {catalogue::CounterTrigger{"operating", 100, 10, 5}};
  record.task.reason = "a clogged filter starves the pump";
  record.began_at = began_at;
  return record;
}

service::MachineRecord record_of(const ShopMachine& machine, Instant began_at) {
  service::MachineRecord record;
  record.machine.key = machine.key;
  record.machine.name = machine.key;
  record.machine.kind = "lathe";
  record.machine.cell = "cell";
  record.machine.agent = machine.agent;
  record.assemblies = {{"coolant", "Coolant"}};
  record.tasks = {filter_task(began_at)};
  record.feed = machine.feed;
  record.device = machine.device.empty() ? machine.key : machine.device;
  return record;
}

// As the server counts a machine of a UTC plant; a record that was counted otherwise would be refused.
counters::LiveSettings server_settings() {
  counters::LiveSettings settings;
  settings.counting.silence_limit = Duration::seconds(60);
  return settings;
}

// The stored row of an open day is as of whatever moment had been settled then: it is brought up to the snapshot's.
void bring_up(std::vector<service::DayRecord>& days, const counters::CounterDay& row) {
  const service::DayRecord record{row.date, row.counted_ns, row.unknown_ns, row.filled_ns, row.amount};
  const auto there = std::find_if(days.begin(), days.end(), [&](const auto& day) { return day.on == row.date; });
  if (there == days.end()) {
    days.push_back(record);
  } else {
    *there = record;
  }
}

KeptMachine read_machine(service::Store& store, const service::CountingRecord& record, Instant at) {
  KeptMachine kept;
  kept.model = must(service::parse_model(record.model));
  const auto state = must(service::parse_machine_state(record.state));
  const auto live = must(counters::LiveCount::restore(kept.model, server_settings(), state.live));
  kept.begin = live.begin();
  kept.snapshot = live.snapshot(at);
  const LocalDate today = Zone::utc().date_of(at);
  for (const auto& total : kept.snapshot.totals) {
    const std::string key = print(total.key);
    kept.days[key] = must(store.days_of(record.machine, key, today - 10, today + 10));
  }
  for (const auto& row : kept.snapshot.days) bring_up(kept.days[print(row.key)], row);
  return kept;
}

}  // namespace

void found_shop(const std::filesystem::path& folder, const std::vector<ShopMachine>& machines,
                const std::string& plant) {
  service::ShopRecord shop;
  shop.plant = "test plant";
  shop.cells = {{"cell", "Cell"}};
  shop.kinds = {{"lathe", "Lathe"}};
  shop.people = {{"Ada", catalogue::Skill::technician, true}};
  std::vector<service::MachineRecord> records;
  for (const ShopMachine& machine : machines) {
    const auto is_it = [&](const auto& feed) { return feed.key == machine.feed; };
    if (std::none_of(shop.feeds.begin(), shop.feeds.end(), is_it)) shop.feeds.push_back({machine.feed, machine.agent});
    records.push_back(record_of(machine, now()));
  }
  storage::StoreTerms terms;
  terms.new_plant = plant;
  const auto store = must(storage::open_store(folder, terms));
  const auto created = store->create_shop(shop, records);
  HW_ASSERT(created, created.error().message.c_str());
}

KeptShop read_shop(const std::filesystem::path& folder, Instant at) {
  const auto store = must(storage::open_store(folder));
  KeptShop kept;
  for (const auto& record : must(store->counting())) kept.machines[record.machine] = read_machine(*store, record, at);
  for (const auto& position : must(store->positions())) kept.positions[position.feed] = position;
  return kept;
}

std::map<std::string, service::FeedPosition> read_positions(const std::filesystem::path& folder) {
  std::map<std::string, service::FeedPosition> positions;
  const auto db = must(storage::open_database(must(storage::place_of(folder)), sql::Access::read));
  auto rows = must(db->query(
      "select feed, instance_id, next_sequence, last_sign_ms from feed_position where plant = $1", db->tenant()));
  while (rows.next()) {
    service::FeedPosition position{rows.get<std::string>(0), std::stoull(rows.get<std::string>(1)),
                                   std::stoull(rows.get<std::string>(2)),
                                   Instant::from_millis(rows.get<std::int64_t>(3))};
    positions[position.feed] = position;
  }
  return positions;
}

}  // namespace hw::faults
