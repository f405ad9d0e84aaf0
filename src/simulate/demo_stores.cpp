#include "src/simulate/demo_stores.h"

#include <algorithm>
#include <cmath>

#include "libs/values/assert.h"
#include "src/kits/lead_time.h"
#include "src/service/stores_entries.h"
#include "src/simulate/demo_parts.h"
#include "src/simulate/demo_people.h"
#include "src/simulate/demo_stops.h"

namespace hw::simulate {
namespace {

using kits::MovementKind;
using service::Entry;
using service::MovedPart;
using service::MovementText;

constexpr double sheet_days_ago = 88;
constexpr std::string_view disputed_part = "F-104";  // the last of which two people took
constexpr std::string_view late_part = "S-301";

// The parts that somebody follows one by one, or keeps for a failure that may come.
void set_spares(catalogue::StoredPart& part) {
  if (part.number == "M-405" || part.number == "M-406") {
    part.serial = true;
    part.wanted = 0.9;
    part.failures_per_year = 0.3;
    part.note = "critical spare: a spindle stands for weeks without it";
  }
  if (part.number == "L-202") part.substitutes = {"L-201"};
}

catalogue::StoredPart stored(const DemoPart& demo) {
  catalogue::StoredPart part;
  part.number = demo.number;
  part.title = demo.title;
  part.unit = demo.unit;
  part.place = std::string{demo.place};
  part.price = demo.price;
  part.lead_days = demo.lead_days;
  if (demo.pack > 0) part.pack = demo.pack;
  if (demo.shelf_life_days > 0) part.shelf_life_days = demo.shelf_life_days;
  part.supplier = std::string{demo_suppliers[demo.supplier]};
  part.references = std::vector{catalogue::SupplierReference{*part.supplier, fmt::format("{}/7", demo.number)}};
  set_spares(part);
  return part;
}

// A stop on a Saturday to come, and the part that its kit lacks.
struct LackingStop {
  std::string part;
  LocalDate on;
  std::size_t lines = 1;
};

// The longest delivery with which an order of today is there in time, just so.
double last_minute_lead(const LackingStop& stop, LocalDate today) {
  const double wanted = std::pow(0.95, 1.0 / static_cast<double>(stop.lines));
  double lead = 0.5;
  while (kits::LeadTime(lead + 0.5).quantile(wanted) <= stop.on - today) lead += 0.5;
  return lead;
}

class StoresTelling {
 public:
  StoresTelling(const service::NewShop& shop, const std::vector<Entry>& entries, std::uint64_t seed, Instant now)
      : shop_(shop), entries_(entries), dice_(mix(seed, hash_of("stores"))), now_(now) {}

  std::vector<Entry> tell() {
    lacking_ = lacking_stop();
    read_sheet();
    for (std::size_t supplier = 0; supplier < demo_suppliers.size(); ++supplier) {
      for (const double days_ago : {79.0, 54.0, 27.0})
        order_and_receive(supplier, days_ago + static_cast<double>(dice_.between(0, 5)));
    }
    for (const Entry& entry : entries_) {
      if (entry.kind == service::stop_closed) take_kit(entry);
    }
    order_late();
    take_last_filter_twice();
    return std::move(told_);
  }

 private:
  Instant ago(double days) const { return now_ - Duration::seconds(static_cast<std::int64_t>(days * 86400)); }
  LocalDate day_of(Instant at) const { return shop_.shop.calendar.zone.date_of(at); }
  LocalDate today() const { return day_of(now_); }

  Entry entry(std::string_view kind, Instant at, std::string_view machine = "") {
    Entry entry;
    entry.at = entry.happened_at = Instant::from_millis(at.as_millis());
    entry.device_at = entry.at;
    entry.id = uuid_of(dice_, entry.at);
    entry.kind = kind;
    entry.machine = machine;
    entry.by = somebody(shop_.shop, catalogue::Skill::technician, dice_);
    return entry;
  }

  void keep(Entry entry) {
    entry.ordinal = static_cast<std::int64_t>(told_.size()) + 1;
    stores_.take({&entry, 1});
    told_.push_back(std::move(entry));
  }

  const catalogue::Task* task_of(const std::string& machine, const std::string& task) const {
    for (const auto& record : shop_.machines) {
      if (record.machine.key != machine) continue;
      for (const auto& one : record.tasks) {
        if (one.task.key == task) return &one.task;
      }
    }
    return nullptr;
  }

  // What the tasks of a stop take, by the part's number.
  std::map<std::string, double> kit_of(const Entry& stop) const {
    std::map<std::string, double> kit;
    for (const auto& planned : stop.body.plan->tasks) {
      const catalogue::Task* task = task_of(stop.machine, planned.task);
      if (task == nullptr) continue;
      for (const auto& part : task->parts) {
        const auto is_it = [&](const DemoPart& one) { return one.title == part.name; };
        const auto there = std::find_if(demo_parts.begin(), demo_parts.end(), is_it);
        if (there != demo_parts.end()) kit[std::string{there->number}] += part.quantity;
      }
    }
    return kit;
  }

  // The counted part of the Saturday's kit that the fewest other stops want: nobody lacks oil for a day.
  std::optional<LackingStop> lacking_stop() const {
    const auto saturdays = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& entry) {
      return entry.kind == service::stop_agreed && entry.machine == demo_saturday_machine &&
             entry.body.plan->on >= today();
    });
    if (saturdays == entries_.end()) return std::nullopt;
    std::map<std::string, int> wanted;
    for (const Entry& entry : entries_) {
      if (entry.kind != service::stop_agreed || entry.body.plan->on < today()) continue;
      for (const auto& [number, quantity] : kit_of(entry)) ++wanted[number];
    }
    const auto kit = kit_of(*saturdays);
    std::optional<LackingStop> lacking;
    for (const auto& [number, quantity] : kit) {
      const bool is_counted = number[0] != 'L' && number != disputed_part && number != late_part;
      if (!is_counted || (lacking && wanted[lacking->part] <= wanted[number])) continue;
      lacking = LackingStop{number, saturdays->body.plan->on, kit.size()};
    }
    return lacking;
  }

  bool lacks(std::string_view number) const { return lacking_ && lacking_->part == number; }

  void read_sheet() {
    service::SheetEdit sheet;
    for (const DemoPart& demo : demo_parts) {
      catalogue::StoredPart part = stored(demo);
      if (lacks(demo.number)) part.lead_days = last_minute_lead(*lacking_, today());
      MovedPart count{part.number, lacks(demo.number) ? 0 : demo.stock};
      if (part.serial) count.serials = std::vector{fmt::format("{}-{}", demo.number, dice_.between(1000, 9999))};
      sheet.counts.push_back(std::move(count));
      sheet.parts.push_back(std::move(part));
    }
    Entry read = entry(service::sheet_read, ago(sheet_days_ago));
    tell_sheet(read, sheet);
    keep(std::move(read));
  }

  // Three or four parts of a supplier, which come some days sooner or later than it says.
  void order_and_receive(std::size_t supplier, double days_ago) {
    service::OrderText order{.supplier = std::string{demo_suppliers[supplier]}};
    double longest = 0;
    for (const DemoPart& demo : demo_parts) {
      const bool is_of_it = demo.supplier == supplier && !lacks(demo.number);
      if (!is_of_it || demo.number == disputed_part || demo.number == late_part || demo.price > 300) continue;
      if (order.lines.size() == 4 || !dice_.chance(400)) continue;
      const double pack = demo.pack > 0 ? demo.pack : 1;
      order.lines.push_back({std::string{demo.number}, pack * std::ceil(demo.stock / pack / 4), demo.price});
      longest = std::max(longest, demo.lead_days);
    }
    if (order.lines.empty()) return;
    order.reference = fmt::format("26-{}", dice_.between(100, 999));
    Entry placed = entry(service::order_placed, ago(days_ago));
    tell_order(placed, order, stores_);
    const std::string id = placed.id;
    keep(std::move(placed));
    const double took = std::max(1.0, longest * static_cast<double>(dice_.between(75, 150)) / 100);
    MovementText delivery{.kind = MovementKind::received, .lines = {}, .order = id};
    for (const auto& line : order.lines) delivery.lines.push_back(received(line.part, line.quantity, days_ago - took));
    Entry came = entry(service::stock_moved, ago(days_ago - took));
    tell_movements(came, {std::move(delivery)}, stores_);
    keep(std::move(came));
  }

  MovedPart received(const std::string& number, double quantity, double days_ago) const {
    MovedPart line{number, quantity};
    const auto& part = stores_.part(number)->part;
    if (part.shelf_life_days) line.best_before = day_of(ago(days_ago)) + *part.shelf_life_days;
    return line;
  }

  void take_kit(const Entry& closed) {
    MovementText movement{.kind = MovementKind::taken, .lines = {}, .stop = closed.body.stop};
    for (const auto& [number, quantity] : kit_of(closed)) {
      if (!lacks(number) && !stores_.part(number)->part.serial) movement.lines.push_back({number, quantity});
    }
    if (movement.lines.empty()) return;
    Entry taken = entry(service::stock_moved, closed.body.times->began_at, closed.machine);
    tell_movements(taken, {std::move(movement)}, stores_);
    keep(std::move(taken));
  }

  void order_late() {
    service::OrderText order{.supplier = std::string{demo_suppliers[2]},
                             .reference = "26-417",
                             .confirmed_on = today() - 4,
                             .lines = {{std::string{late_part}, 1, 185.0}}};
    Entry placed = entry(service::order_placed, ago(18.4));
    tell_order(placed, order, stores_);
    keep(std::move(placed));
  }

  void take_last_filter_twice() {
    const auto move = [&](MovementKind kind, double days_ago, std::string_view machine) {
      Entry moved = entry(service::stock_moved, ago(days_ago), machine);
      tell_movements(moved, {{.kind = kind, .lines = {{std::string{disputed_part}, 1}}}}, stores_);
      keep(std::move(moved));
    };
    move(MovementKind::counted, 6.2, "");
    move(MovementKind::taken, 0.9, "m15");
    move(MovementKind::taken, 0.7, "m19");
  }

  const service::NewShop& shop_;
  const std::vector<Entry>& entries_;
  Dice dice_;
  Instant now_;
  service::Stores stores_;
  std::optional<LackingStop> lacking_;
  std::vector<Entry> told_;
};

}  // namespace

std::vector<Entry> demo_stores(const service::NewShop& shop, const std::vector<Entry>& entries, std::uint64_t seed,
                               Instant now) {
  return StoresTelling(shop, entries, seed, now).tell();
}

}  // namespace hw::simulate
