#include "src/service/used_parts.h"

#include <cmath>
#include <set>

namespace hw::service {
namespace {

constexpr double used_dust = 1e-9;

// Those that went out for the stop and have not come back.
std::set<std::string> serials_out(const PartRecord& part, const std::string& stop) {
  std::set<std::string> out;
  for (const auto& [serial, standing] : part.shelf.serials) {
    if (standing.kind == kits::MovementKind::taken && part.told[standing.move].stop == stop) out.insert(serial);
  }
  return out;
}

// What comes back of a part that is followed by serial numbers: those out that were not used.
std::optional<std::vector<std::string>> serials_back(const PartRecord& part, const std::string& stop,
                                                     const MovedPart& used) {
  if (!part.part.serial.value_or(false)) return std::nullopt;
  std::set<std::string> back = serials_out(part, stop);
  for (const std::string& serial : used.serials.value_or(std::vector<std::string>{})) back.erase(serial);
  return std::vector<std::string>(back.begin(), back.end());
}

// The used lines by part; what was taken and is not among them was not used.
Result<std::map<std::string, MovedPart>> used_lines(const Stores& stores, const StopClose& edit,
                                                    const std::map<std::string, double>& taken) {
  std::map<std::string, MovedPart> used;
  for (const auto& [number, quantity] : taken) used[number] = {number, 0};
  for (std::size_t i = 0; i < edit.used->lines.size(); ++i) {
    const MovedPart& line = edit.used->lines[i];
    const auto part = find_part(stores, line.part);
    if (!part) return refuse(part.error().at(fmt::format("used.lines[{}]", i)));
    if (catalogue::is_counted((*part)->part.unit) && line.quantity != std::floor(line.quantity)) {
      return refuse(ErrorCode::bad_input, "used.lines[{}].quantity: {} of {} is no whole number of {}", i,
                    line.quantity, line.part, (*part)->part.unit);
    }
    used[line.part] = line;
  }
  return used;
}

}  // namespace

Result<void> check(const UsedParts& used) {
  if (auto checked = check_id("id", used.id); !checked) return refuse(checked.error().at("used"));
  if (used.lines.size() > moved_lines_max) {
    return refuse(ErrorCode::bad_input, "used.lines: at most {}, not {}", moved_lines_max, used.lines.size());
  }
  if (auto checked = check_moved(used.lines, Zero::allowed); !checked) return refuse(checked.error().at("used"));
  return {};
}

Result<std::optional<Entry>> used_entry(const OpenShop& shop, const Stop& stop, const StopClose& edit, Instant now) {
  if (!edit.used) return std::optional<Entry>{};
  const Stores& stores = shop.stores();
  const auto taken = stores.taken_for(stop.id);
  HW_TAKE(used, used_lines(stores, edit, taken));
  MovementText more{.kind = kits::MovementKind::taken, .lines = {}, .stop = stop.id};
  MovementText back{.kind = kits::MovementKind::returned, .lines = {}, .stop = stop.id};
  for (const auto& [number, line] : used) {
    const auto there = taken.find(number);
    const double beyond = line.quantity - (there == taken.end() ? 0 : there->second);
    if (beyond > used_dust) more.lines.push_back({number, beyond, line.serials});
    if (beyond < -used_dust) {
      back.lines.push_back({number, -beyond, serials_back(*stores.part(number), stop.id, line)});
    }
  }
  std::vector<MovementText> movements;
  for (MovementText* one : {&more, &back}) {
    if (!one->lines.empty()) movements.push_back(std::move(*one));
  }
  if (movements.empty()) return std::optional<Entry>{};
  const Signature signature{edit.used->id, edit.by, edit.ended_at, edit.sent_at};
  Entry entry = bare_entry(shop, stop.machine, stock_moved, signature, now);
  tell_movements(entry, std::move(movements), stores);
  return std::optional{std::move(entry)};
}

}  // namespace hw::service
