#include "src/service/stop_kits.h"

#include <algorithm>

#include "src/service/lead_times.h"

namespace hw::service {
namespace {

constexpr double line_dust = 1e-9;

std::vector<std::string> substitutes_of(const Stores& stores, const std::string& number) {
  const PartRecord* part = stores.part(number);
  return part ? part->part.substitutes.value_or(std::vector<std::string>{}) : std::vector<std::string>{};
}

void fill(KitLineStanding& line, const std::string& number, std::map<std::string, double>& taken) {
  const auto there = taken.find(number);
  if (there == taken.end()) return;
  const double quantity = std::min(there->second, line.line.quantity - line.taken);
  if (quantity <= line_dust) return;
  line.taken += quantity;
  line.taken_of[number] += quantity;
  there->second -= quantity;
}

// What was taken beyond a line of its own part is that line's too: at the closing somebody says what was used.
void add_beyond(StopKit& kit, std::map<std::string, double>& taken) {
  for (KitLineStanding& line : kit.lines) {
    if (!line.line.part) continue;
    const auto there = taken.find(*line.line.part);
    if (there == taken.end() || there->second <= line_dust) continue;
    line.taken_of[there->first] += there->second;
    there->second = 0;
  }
}

// What was taken fills the lines of its own part, then those for which it may stand in.
void fill_taken(StopKit& kit, const Stores& stores) {
  auto taken = stores.taken_for(kit.stop->id);
  for (KitLineStanding& line : kit.lines) {
    if (line.line.part) fill(line, *line.line.part, taken);
  }
  for (KitLineStanding& line : kit.lines) {
    if (!line.line.part) continue;
    for (const std::string& number : substitutes_of(stores, *line.line.part)) {
      fill(line, number, taken);
    }
  }
  add_beyond(kit, taken);
}

StopKit bare_kit(const OpenShop& shop, const OpenMachine& machine, const Stop& stop) {
  StopKit kit{&machine, &stop, {}};
  for (NeededLine& line : kit_of(shop, machine, stop)) kit.lines.push_back({std::move(line), 0, {}, {}});
  fill_taken(kit, shop.stores());
  return kit;
}

// A stop that is past and not closed takes what is good today.
kits::StopWant want_of(const StopKit& kit, LocalDate today) {
  kits::StopWant want{std::max(kit.stop->plan.on, today), {}};
  for (const KitLineStanding& line : kit.lines) {
    want.lines.push_back({line.line.part.value_or(""), line.line.quantity - line.taken});
  }
  return want;
}

int rank_of(const std::string& state) {
  if (state == "short") return 3;
  if (state == "coming") return 2;
  return state == "not known" ? 1 : 0;
}

// Of its own part, and of the one that stands in for it.
std::vector<catalogue::KitLine> reserved_of(const KitLineStanding& one) {
  std::vector<catalogue::KitLine> parts;
  const double own = one.standing.reserved - one.standing.of_substitute;
  if (own > line_dust) parts.push_back({*one.line.part, own});
  if (one.standing.of_substitute > line_dust) parts.push_back({*one.standing.substitute, one.standing.of_substitute});
  return parts;
}

ReadyLineView line_view(const Stores& stores, const KitLineStanding& one) {
  ReadyLineView view{.part = one.line.part,
                     .name = one.line.name,
                     .place = {},
                     .quantity = one.line.quantity,
                     .unit = one.line.unit,
                     .state = state_of(one),
                     .reserved = one.standing.reserved,
                     .taken = one.taken,
                     .reserved_of = reserved_of(one),
                     .taken_of = {},
                     .substitute = one.standing.substitute,
                     .expected = one.standing.expected_on,
                     .chance = {},
                     .serial = {},
                     .tasks = one.line.tasks};
  for (const auto& [number, quantity] : one.taken_of) view.taken_of.push_back({number, quantity});
  if (one.line.part) {
    view.chance = one.standing.chance;
    const PartRecord* part = stores.part(one.standing.substitute.value_or(*one.line.part));
    if (part) view.place = part->part.place;
    if (part && part->part.serial.value_or(false)) view.serial = true;
  }
  return view;
}

}  // namespace

void add_stock(kits::StockByPart& stock, const OpenShop& shop, const std::string& number, LocalDate today) {
  const PartRecord* part = shop.stores().part(number);
  if (part == nullptr || stock.contains(number)) return;
  const auto substitutes = substitutes_of(shop.stores(), number);
  stock[number] = {part->shelf.batches, incoming_of(shop, part->part, today), substitutes};
  for (const std::string& other : substitutes) add_stock(stock, shop, other, today);
}

StopKits stop_kits(const OpenShop& shop, LocalDate today) {
  StopKits made;
  std::vector<StopKit>& all = made.kits;
  for (const auto& machine : shop.machines()) {
    for (const Stop& stop : machine->stops) all.push_back(bare_kit(shop, *machine, stop));
  }
  std::sort(all.begin(), all.end(),
            [](const StopKit& one, const StopKit& other) { return begins_before(*one.stop, *other.stop); });
  std::vector<kits::StopWant> wants;
  for (const StopKit& kit : all) {
    wants.push_back(want_of(kit, today));
    for (const KitLineStanding& line : kit.lines) {
      if (line.line.part) add_stock(made.left, shop, *line.line.part, today);
    }
  }
  const auto standing = kits::reserve(wants, made.left);
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = 0; j < all[i].lines.size(); ++j) all[i].lines[j].standing = standing[i][j];
  }
  return made;
}

std::string state_of(const KitLineStanding& line) {
  if (!line.line.part) return "not known";
  if (line.standing.lacking > line_dust) return "short";
  if (line.standing.promised > line_dust) return line.standing.chance >= coming_chance ? "coming" : "short";
  return line.taken >= line.line.quantity - line_dust ? "taken" : "reserved";
}

std::string state_of(const StopKit& kit) {
  std::string worst = "ready";
  for (const KitLineStanding& line : kit.lines) {
    const std::string state = state_of(line);
    if (rank_of(state) > rank_of(worst)) worst = state;
  }
  return worst;
}

StopReadinessView readiness_view(const OpenShop& shop, const StopKit& kit) {
  StopReadinessView view{.stop = kit.stop->id,
                         .machine = kit.stop->machine,
                         .on = kit.stop->plan.on,
                         .shift = kit.stop->plan.shift,
                         .state = state_of(kit),
                         .taken_at = shop.stores().taken_at(kit.stop->id),
                         .lines = {}};
  for (const KitLineStanding& line : kit.lines) view.lines.push_back(line_view(shop.stores(), line));
  return view;
}

}  // namespace hw::service
