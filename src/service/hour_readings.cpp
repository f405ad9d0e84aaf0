#include <algorithm>
#include <array>
#include <cmath>

#include "src/counters/hour_display.h"
#include "src/service/entry_making.h"
#include "src/service/make_views.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

constexpr double display_h_max = 1'000'000;

// What a person can say of a reading that did not fit.
constexpr std::string_view replaced = "display replaced or reset";
constexpr std::string_view misread = "misread";
constexpr std::string_view display_right = "display is right";
constexpr std::string_view counted_right = "counted hours are right";
constexpr std::array settlements{replaced, misread, display_right, counted_right};

// The latest reading of the same display that counts: misread ones and those not settled yet do not.
std::optional<counters::DisplayReading> reading_before(const std::vector<HourReading>& readings,
                                                       std::string_view counter) {
  for (const HourReading& one : readings) {
    const bool counts = one.settled_as ? *one.settled_as != misread : one.fits;
    if (one.counter != counter || !counts) continue;
    // What the person settled is in the totals from then on, so the counted hours of that moment are moved by it too.
    const double moved = one.settled_as == display_right ? one.difference_h : 0;
    return counters::DisplayReading{one.display_h, one.counted_h + moved, one.unknown_h, one.read_at};
  }
  return std::nullopt;
}

const CounterNow* find_counter(const std::vector<CounterNow>& all, std::string_view key) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const auto& one) { return print(one.key) == key; });
  return found == all.end() ? nullptr : &*found;
}

Result<void> check(const HourReadingEdit& edit, Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TAKE(key, counters::parse_counter_key(edit.counter));
  if (counters::unit_of(key.kind) != "h") {
    return refuse(ErrorCode::bad_input, "counter: \"{}\" does not count hours", edit.counter);
  }
  if (!(edit.display_h >= 0 && edit.display_h <= display_h_max)) {
    return refuse(ErrorCode::bad_input, "display_h: {} is no hour display; it shows 0 to {} h", edit.display_h,
                  display_h_max);
  }
  if (edit.read_at && *edit.read_at > now + Duration::hours(24)) {
    return refuse(ErrorCode::bad_input, "read_at: {} is in the future", print(*edit.read_at));
  }
  return {};
}

// The reading as it compares with the counter at this moment.
Result<HourReading> judged_reading(const OpenShop& shop, const OpenMachine& machine, const HourReadingEdit& edit,
                                   Instant now) {
  const auto present = machine.count.at(now).counters;
  const CounterNow* counter = find_counter(present, edit.counter);
  if (!counter && machine.count.model()) {
    return refuse(ErrorCode::bad_input,
                  Saying{"no-counter", {{"machine", machine.record.machine.key}, {"counter", edit.counter}}},
                  "counter: {} has no counter \"{}\"", machine.record.machine.key, edit.counter);
  }
  HourReading reading{.id = edit.id,
                      .machine = machine.record.machine.key,
                      .counter = edit.counter,
                      .display_h = edit.display_h,
                      .read_at = as_kept(std::min(edit.read_at.value_or(now), now)),
                      .by = edit.by,
                      .counted_h = adjusted(machine, edit.counter),
                      .unknown_h = 0,
                      .offset_h = 0,
                      .difference_h = 0,
                      .fits = true,
                      .says = {},
                      .settled_as = {}};
  if (counter) {
    reading.counted_h += counter->counted + counter->filled;
    reading.unknown_h = counter->unknown_h;
  }
  HW_TAKE(readings, shop.store().hour_readings_of(reading.machine));
  const auto verdict = counters::judge(reading_before(readings, edit.counter),
                                       {reading.display_h, reading.counted_h, reading.unknown_h, reading.read_at});
  reading.fits = verdict.fits;
  reading.offset_h = verdict.offset_h;
  reading.difference_h = verdict.difference_h;
  reading.says = verdict.says;
  reading.saying = verdict.saying;
  return reading;
}

Result<HourReading> stored_reading(const OpenShop& shop, std::string_view machine, std::string_view id) {
  HW_TAKE(readings, shop.store().hour_readings_of(machine));
  const auto found = std::find_if(readings.begin(), readings.end(), [&](const auto& one) { return one.id == id; });
  if (found == readings.end()) return refuse(ErrorCode::not_found, "{} has no reading {}", machine, id.substr(0, 40));
  return std::move(*found);
}

// What a display was ahead at an older reading it still is at the newer one: it would be added twice.
Result<void> check_is_newest(const OpenShop& shop, const HourReading& reading) {
  HW_TAKE(readings, shop.store().hour_readings_of(reading.machine));
  for (const HourReading& newer : readings) {
    if (newer.id == reading.id) break;
    if (newer.counter != reading.counter || newer.settled_as == misread) continue;
    return refuse(ErrorCode::conflict, Saying{"reading-newer", {}, {{"hours", newer.display_h}}},
                  "a newer reading of {:.1f} h is there; say of that one that the {}", newer.display_h, display_right);
  }
  return {};
}

Result<void> check(const SettleEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  if (std::find(settlements.begin(), settlements.end(), edit.settled_as) != settlements.end()) return {};
  return refuse(ErrorCode::bad_input, "settled_as: \"{}\" is none of: {}", edit.settled_as.substr(0, 40),
                fmt::join(settlements, ", "));
}

// No reading of that display counts but this one.
Result<bool> is_first_reading(const OpenShop& shop, const HourReading& reading) {
  HW_TAKE(readings, shop.store().hour_readings_of(reading.machine));
  std::erase_if(readings, [&](const HourReading& one) { return one.id == reading.id; });
  return !reading_before(readings, reading.counter);
}

// Settlement, entry and what it adds to the counter go together.
Result<void> keep_settlement(OpenShop& shop, OpenMachine& machine, const HourReading& reading, const SettleEdit& edit,
                             bool is_first, Instant now) {
  Entry entry;
  {
    const auto lock = shop.look();
    HW_TAKE(made, new_entry(shop, machine, "hours settled", {edit.id, edit.by, {}, {}}, now));
    entry = std::move(made);
  }
  entry.body.display = DisplayTold{reading.counter, reading.display_h, {}, edit.settled_as};
  entry.says = fmt::format("hour display {:.1f} h ({}): {}", reading.display_h, reading.counter, edit.settled_as);
  const Adjustment adjustment{reading.machine, reading.counter,
                              edit.settled_as == display_right ? reading.difference_h : 0, is_first, now};
  HW_TAKE(writing, shop.store().begin());
  HW_TRY(writing->add_entry(entry));
  HW_TRY(writing->settle_hour_reading(reading.id, edit.settled_as, edit.id));
  if (adjustment.amount != 0) HW_TRY(writing->add_adjustment(adjustment));
  HW_TRY(writing->commit());
  const auto lock = shop.change();
  if (adjustment.amount != 0) machine.adjustments.push_back(adjustment);
  ++machine.tasks_version;
  return {};
}

}  // namespace

Result<HourReadingView> read_hours(OpenShop& shop, std::string_view key, const HourReadingEdit& edit, Instant now) {
  HW_TRY(check(edit, now));
  const auto turn = shop.edit();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(before, repeated(shop, edit.id, {"hours read", key}));
  if (before) {
    HW_TAKE(stored, stored_reading(shop, key, edit.id));
    return view_of(stored);
  }
  HourReading reading;
  Entry entry;
  {
    const auto lock = shop.look();
    HW_TAKE(judged, judged_reading(shop, *machine, edit, now));
    reading = std::move(judged);
    HW_TAKE(made, new_entry(shop, *machine, "hours read", {edit.id, edit.by, {}, {}}, now));
    entry = std::move(made);
  }
  entry.device_at = as_kept(edit.read_at);
  entry.body.display = DisplayTold{reading.counter, reading.display_h, reading.saying, {}};
  entry.says = fmt::format("hour display read: {:.1f} h ({}); {}", reading.display_h, reading.counter, reading.says);
  HW_TAKE(writing, shop.store().begin());
  HW_TRY(writing->add_entry(entry));
  HW_TRY(writing->add_hour_reading(reading));
  HW_TRY(writing->commit());
  const auto lock = shop.change();
  ++machine->tasks_version;
  return view_of(reading);
}

Result<HourReadingView> settle_hours(OpenShop& shop, std::string_view key, std::string_view id, const SettleEdit& edit,
                                     Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(before, repeated(shop, edit.id, {"hours settled", key}));
  HW_TAKE(reading, stored_reading(shop, key, id));
  if (before && reading.settled_as == edit.settled_as) return view_of(reading);
  if (before)
    return refuse(ErrorCode::conflict, id_used, "id: {} settled another reading; an id is used once", edit.id);
  if (reading.settled_as) {
    return refuse(ErrorCode::conflict, Saying{"reading-settled", {{"settled_as", *reading.settled_as}}},
                  "it was settled already: {}", *reading.settled_as);
  }
  if (reading.fits && edit.settled_as != display_right) {
    return refuse(ErrorCode::conflict, Saying{"reading-fits"}, "it fits; all that can be said of it is: {}",
                  display_right);
  }
  if (edit.settled_as == display_right) HW_TRY(check_is_newest(shop, reading));
  HW_TAKE(is_first, is_first_reading(shop, reading));
  HW_TRY(keep_settlement(shop, *machine, reading, edit, is_first, now));
  reading.settled_as = edit.settled_as;
  return view_of(reading);
}

}  // namespace hw::service
