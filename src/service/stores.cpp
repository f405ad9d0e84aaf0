#include "src/service/stores.h"

#include <algorithm>

#include "libs/values/small_letters.h"

namespace hw::service {
namespace {

constexpr double order_dust = 1e-9;

bool is_same_place(const catalogue::Kit& one, const catalogue::Kit& other) {
  return one.kind == other.kind && one.machine == other.machine && one.task == other.task &&
         one.service == other.service;
}

// What was taken for a stop, less what came back.
double taken_by(kits::MovementKind kind, double quantity) {
  if (kind == kits::MovementKind::taken) return quantity;
  return kind == kits::MovementKind::returned ? -quantity : 0;
}

}  // namespace

double OrderRecord::outstanding(std::string_view part) const {
  if (ended_at) return 0;
  double ordered = 0;
  for (const OrderLineText& line : text.lines) ordered += line.part == part ? line.quantity : 0;
  const auto there = delivered.find(std::string{part});
  const double left = ordered - (there == delivered.end() ? 0 : there->second);
  return left > order_dust ? left : 0;
}

bool OrderRecord::is_open() const {
  return std::any_of(text.lines.begin(), text.lines.end(),
                     [&](const OrderLineText& line) { return outstanding(line.part) > 0; });
}

void Stores::take(std::span<const Entry> entries) {
  std::set<std::string> moved;
  for (const Entry& entry : entries) take_one(entry, moved);
  for (const std::string& number : moved) {
    PartRecord& record = parts_[number];
    record.shelf = kits::shelf_of(record.moves);
  }
  name_parts();
}

void Stores::take_one(const Entry& entry, std::set<std::string>& moved) {
  if (!entry.body.stores) return;
  const StoresText& says = *entry.body.stores;
  ++version_;
  for (const auto& part : says.parts.value_or(std::vector<catalogue::StoredPart>{})) put_part(part);
  if (says.ended) parts_[*says.ended].is_ended = true;
  if (says.kit) put_kit(*says.kit);
  if (says.order) place(entry);
  if (says.news) hear(*says.news, entry);
  for (const MovementText& movement : says.movements.value_or(std::vector<MovementText>{})) {
    for (const MovedPart& line : movement.lines) {
      put_move(line, movement, entry);
      moved.insert(line.part);
    }
  }
}

void Stores::put_part(const catalogue::StoredPart& part) {
  PartRecord& record = parts_[part.number];
  record.version = record.part.number.empty() ? 1 : record.version + 1;
  record.part = part;
  record.is_ended = false;
}

void Stores::put_kit(const catalogue::Kit& kit) {
  std::erase_if(kits_, [&](const auto& one) { return is_same_place(one, kit); });
  if (!kit.lines.empty()) kits_.push_back(kit);
}

void Stores::put_move(const MovedPart& line, const MovementText& movement, const Entry& entry) {
  PartRecord& record = parts_[line.part];
  kits::StockMove move{movement.kind,
                       line.quantity,
                       entry.happened_at,
                       entry.ordinal,
                       line.serials.value_or(std::vector<std::string>{}),
                       line.best_before};
  const auto place = std::upper_bound(record.moves.begin(), record.moves.end(), move, kits::happens_before);
  record.told.insert(
      record.told.begin() + (place - record.moves.begin()),
      MoveTold{entry.id, entry.by, entry.machine, movement.stop, movement.task, movement.order, movement.why});
  record.moves.insert(place, std::move(move));
  if (movement.stop) {
    taken_[*movement.stop][line.part] += taken_by(movement.kind, line.quantity);
    Instant& at = taken_at_[*movement.stop];
    if (movement.kind == kits::MovementKind::taken) at = std::max(at, entry.happened_at);
  }
  if (!movement.order || movement.kind != kits::MovementKind::received) return;
  const auto order = orders_.find(*movement.order);
  if (order == orders_.end()) return;
  order->second.delivered[line.part] += line.quantity;
  order->second.delivered_at = std::max(order->second.delivered_at.value_or(entry.happened_at), entry.happened_at);
  deliveries_[line.part].push_back({order->second.at, entry.happened_at});
}

void Stores::place(const Entry& entry) {
  OrderRecord order;
  order.id = entry.id;
  order.text = *entry.body.stores->order;
  order.by = entry.by;
  order.at = entry.happened_at;
  for (const OrderLineText& line : order.text.lines) orders_of_part_[line.part].push_back(entry.id);
  orders_[entry.id] = std::move(order);
}

void Stores::hear(const OrderNews& news, const Entry& entry) {
  const auto order = orders_.find(news.order);
  if (order == orders_.end()) return;
  if (news.confirmed_on) order->second.text.confirmed_on = news.confirmed_on;
  if (news.ended.value_or(false)) order->second.ended_at = entry.happened_at;
}

// Titles go before other names, so that a name that somebody else's part has as its title means that part.
void Stores::name_parts() {
  numbers_by_name_.clear();
  for (const auto& [number, record] : parts_) {
    if (!record.is_ended) numbers_by_name_.emplace(in_small_letters(record.part.title), number);
  }
  for (const auto& [number, record] : parts_) {
    if (record.is_ended) continue;
    for (const std::string& name : record.part.names.value_or(std::vector<std::string>{})) {
      numbers_by_name_.emplace(in_small_letters(name), number);
    }
  }
}

const PartRecord* Stores::part(std::string_view number) const {
  const auto there = parts_.find(number);
  return there == parts_.end() || there->second.is_ended ? nullptr : &there->second;
}

std::vector<catalogue::StoredPart> Stores::present_parts() const {
  std::vector<catalogue::StoredPart> present;
  for (const auto& [number, record] : parts_) {
    if (!record.is_ended) present.push_back(record.part);
  }
  return present;
}

bool Stores::is_empty() const {
  return std::all_of(parts_.begin(), parts_.end(), [](const auto& one) { return one.second.is_ended; });
}

const OrderRecord* Stores::order(std::string_view id) const {
  const auto there = orders_.find(id);
  return there == orders_.end() ? nullptr : &there->second;
}

const PartRecord* Stores::part_called(std::string_view name) const {
  const auto there = numbers_by_name_.find(in_small_letters(name));
  return there == numbers_by_name_.end() ? nullptr : part(there->second);
}

std::vector<const OrderRecord*> Stores::open_orders_of(std::string_view part) const {
  std::vector<const OrderRecord*> open;
  const auto there = orders_of_part_.find(part);
  if (there == orders_of_part_.end()) return open;
  for (const std::string& id : there->second) {
    const OrderRecord& one = orders_.find(id)->second;
    if (one.outstanding(part) > 0) open.push_back(&one);
  }
  return open;
}

std::map<std::string, double> Stores::taken_for(std::string_view stop) const {
  std::map<std::string, double> taken;
  const auto there = taken_.find(stop);
  if (there == taken_.end()) return taken;
  for (const auto& [part, quantity] : there->second) {
    if (quantity > order_dust) taken[part] = quantity;
  }
  return taken;
}

std::optional<Instant> Stores::taken_at(std::string_view stop) const {
  const auto there = taken_at_.find(stop);
  return there == taken_at_.end() || there->second == Instant{} ? std::nullopt : std::optional{there->second};
}

std::vector<Stores::Delivery> Stores::deliveries_of(std::string_view part) const {
  const auto there = deliveries_.find(part);
  auto deliveries = there == deliveries_.end() ? std::vector<Delivery>{} : there->second;
  std::sort(deliveries.begin(), deliveries.end(),
            [](const auto& one, const auto& other) { return one.received_at < other.received_at; });
  return deliveries;
}

}  // namespace hw::service
