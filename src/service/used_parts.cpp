#include "src/service/used_parts.h"

#include <set>

namespace hw::service {
namespace {

constexpr double used_dust = 1e-9;

using Serials = std::set<std::string>;

// Those that went out for the stop and have not come back.
Serials serials_out(const PartRecord& part, const std::string& stop) {
  Serials out;
  for (const auto& [serial, standing] : part.shelf.serials) {
    if (standing.kind == kits::MovementKind::taken && part.told[standing.move].stop == stop) out.insert(serial);
  }
  return out;
}

std::vector<std::string> without(const Serials& serials, const Serials& others) {
  std::vector<std::string> rest;
  for (const std::string& serial : serials) {
    if (!others.contains(serial)) rest.push_back(serial);
  }
  return rest;
}

// What is moved of one part.
struct Difference {
  std::optional<MovedPart> more;
  std::optional<MovedPart> back;
};

Difference by_serials(const PartRecord& part, const std::string& stop, const MovedPart& used) {
  const auto named = used.serials.value_or(std::vector<std::string>{});
  const Serials in_use(named.begin(), named.end());
  const Serials out = serials_out(part, stop);
  const auto moved = [&](std::vector<std::string> serials) {
    return serials.empty() ? std::nullopt
                           : std::optional{MovedPart{used.part, static_cast<double>(serials.size()), serials}};
  };
  return {moved(without(in_use, out)), moved(without(out, in_use))};
}

Difference by_quantity(const MovedPart& used, double taken) {
  const double beyond = used.quantity - taken;
  Difference difference;
  if (beyond > used_dust) difference.more = MovedPart{used.part, beyond};
  if (beyond < -used_dust) difference.back = MovedPart{used.part, -beyond};
  return difference;
}

Result<void> check_used(const PartRecord& part, const MovedPart& line) {
  HW_TRY(catalogue::check_whole(part.part, line.quantity));
  const std::size_t named = line.serials ? line.serials->size() : 0;
  const double right = part.part.serial.value_or(false) ? line.quantity : 0;
  if (static_cast<double>(named) == right) return {};
  return refuse(ErrorCode::bad_input, Saying{"serials-count", {{"part", line.part}}},
                "serials: {} has {:g} serial numbers to be named, not {}", line.part, right, named);
}

Result<Difference> difference_of(const Stores& stores, const Stop& stop, const MovedPart& line) {
  HW_TAKE(part, find_part_ever(stores, line.part));
  HW_TRY(check_used(*part, line));
  if (part->part.serial.value_or(false)) return by_serials(*part, stop.id, line);
  const auto taken = stores.taken_for(stop.id);
  const auto there = taken.find(line.part);
  return by_quantity(line, there == taken.end() ? 0 : there->second);
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
  MovementText more{.kind = kits::MovementKind::taken, .lines = {}, .stop = stop.id};
  MovementText back{.kind = kits::MovementKind::returned, .lines = {}, .stop = stop.id};
  for (std::size_t i = 0; i < edit.used->lines.size(); ++i) {
    auto difference = difference_of(stores, stop, edit.used->lines[i]);
    if (!difference) return refuse(difference.error().at(fmt::format("used.lines[{}]", i)));
    if (difference->more) more.lines.push_back(std::move(*difference->more));
    if (difference->back) back.lines.push_back(std::move(*difference->back));
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
