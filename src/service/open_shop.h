#pragma once
// A shop while the server runs: its catalogue and its counters in memory, its record in the store. Looking takes a
// shared lock; what people enter goes one at a time, first to the store, then into memory, so that whatever is shown is
// on disk.

#include <map>
#include <memory>
#include <mutex>
#include <shared_mutex>
#include <string>
#include <string_view>

#include "src/copies/copy_state.h"
#include "src/service/kit_states.h"
#include "src/service/known_readings.h"
#include "src/service/machine_count.h"
#include "src/service/store.h"
#include "src/service/stores.h"
#include "src/service/use_change.h"

namespace hw::service {

// What the feed of a machine does, for people to see.
struct FeedStatus {
  std::string state = "none";  // live, catching up, lost, none
  std::optional<Instant> last_sign_at;
  std::int64_t behind = 0;  // observations still to be read
  std::string says;         // the last trouble in a sentence
  std::optional<Saying> saying = {};
};

struct OpenMachine {
  MachineRecord record;
  std::vector<Adjustment> adjustments;
  std::vector<WalkRecord> walks;  // those of the last days, in no order: see round_standing.h
  std::vector<Finding> findings;  // the open ones, the most pressing first
  std::vector<Stop> stops;        // the agreed ones, by when they begin
  KnownReadings readings{};
  MachineCount count{};
  FeedStatus feed;
  // They rise with every change, so that whoever shows the machine knows when to show it anew.
  std::uint64_t counts_version = 0;
  std::uint64_t tasks_version = 0;
  // Rises when days that were over have been counted anew.
  std::uint64_t past_version = 0;
};

class OpenShop {
 public:
  // Reads the shop from the store. Refuses (not_found) a store in which no shop has been made.
  static Result<std::unique_ptr<OpenShop>> open(Store& store);

  Store& store() const { return store_; }
  const ShopRecord& record() const { return record_; }
  const catalogue::PlantCalendar& calendar() const { return record_.calendar; }
  // The first moment of which the shop knows: that from which the oldest of its tasks counts.
  Instant founded_at() const { return founded_at_; }

  // Hold one of these while touching machines.
  std::shared_lock<std::shared_mutex> look() const { return std::shared_lock{mutex_}; }
  std::unique_lock<std::shared_mutex> change() { return std::unique_lock{mutex_}; }
  // Hold this through the whole of an edit, before any of the others: edits go one at a time.
  std::unique_lock<std::mutex> edit() { return std::unique_lock{edits_}; }

  // In the order of the catalogue.
  const std::vector<std::unique_ptr<OpenMachine>>& machines() const { return machines_; }
  Result<OpenMachine*> find(std::string_view key) const;

  // Announced changes of use in the order of their entries, and how often they have changed.
  const std::vector<UseChange>& use_changes() const { return use_changes_; }
  std::uint64_t use_changes_version() const { return use_changes_version_; }
  void add_use_change(UseChange change);
  void withdraw_use_change(std::string_view id);

  // Guarded like the machines.
  const Stores& stores() const { return stores_; }
  Stores& stores() { return stores_; }
  KitStates& kit_states() const { return kit_states_; }

  // Why what was counted could not be stored the last time, in a sentence; empty when it was.
  std::string storing_trouble() const;
  void set_storing_trouble(std::string says);

  // How the shop's copies stand.
  copies::CopyState copies() const;
  void set_copies(copies::CopyState state);

  // Of a plant whose record is kept at its edge, the shipment that this is; nothing where it is kept here.
  const std::optional<ShipmentTaken>& from_edge() const { return from_edge_; }
  // How sending upward stands.
  UpwardState upward() const;
  void set_upward(UpwardState state);

 private:
  OpenShop(Store& store, ShopRecord record) : store_(store), record_(std::move(record)) {}

  Store& store_;
  ShopRecord record_;
  Instant founded_at_;
  std::vector<std::unique_ptr<OpenMachine>> machines_;
  std::vector<UseChange> use_changes_;
  std::uint64_t use_changes_version_ = 0;
  Stores stores_;
  mutable KitStates kit_states_;
  mutable std::shared_mutex mutex_;
  std::mutex edits_;
  std::string storing_trouble_;  // guarded by mutex_
  copies::CopyState copies_;     // guarded by mutex_
  UpwardState upward_;           // guarded by mutex_
  std::optional<ShipmentTaken> from_edge_;
};

// The numbers of the machine's points in walking order: a person's where there is one, else the computed one.
std::vector<int> walk_of(const MachineRecord& record);

// What settled readings have added to a counter by now, and how far its start has been moved since a moment: totals
// that were written down before it lack that much. The caller holds a lock.
double adjusted(const OpenMachine& machine, std::string_view counter);
double start_moved_since(const OpenMachine& machine, std::string_view counter, Instant since);

// Every counter's total of a machine: counted + filled + adjusted. The caller holds a lock.
CounterTotals totals_of(const OpenMachine& machine, const std::vector<CounterNow>& counters);
CounterTotals totals_of(const OpenMachine& machine, Instant now);

}  // namespace hw::service
