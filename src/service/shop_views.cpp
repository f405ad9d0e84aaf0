#include "src/service/counter_days.h"
#include "src/service/make_views.h"
#include "src/service/use_cases.h"
#include "src/service/version.h"

namespace hw::service {
namespace {

constexpr int days_shown = 90;
constexpr int days_max = 800;

CounterWordView word_view(counters::CounterKind kind) {
  const counters::CounterKey key{kind, ""};
  return {print(key), title_of(key), std::string{counters::unit_of(kind)}, std::string{counters::definition_of(kind)}};
}

CounterDayView day_view(const DayRecord& day, counters::CounterKind kind) {
  return {day.on, counters::is_amount(kind) ? day.amount : Duration{day.counted_ns}.as_hours(),
          Duration{day.unknown_ns}.as_hours(), Duration{day.filled_ns}.as_hours()};
}

}  // namespace

ShopView show_shop(const OpenShop& shop, Instant now) {
  const ShopRecord& record = shop.record();
  ShopView view;
  view.plant = {record.plant, record.calendar.zone.name(), record.calendar.zone.date_of(now)};
  view.currency = record.stopping.currency;
  view.version = program_version;
  for (const auto& cell : record.cells) view.cells.push_back({cell.key, cell.title});
  for (const auto& kind : record.kinds) {
    view.kinds.push_back({kind.key, kind.title, kind.title_de, kind.services});
  }
  for (const auto& person : record.people) view.people.push_back({person.name, std::string{word_of(person.skill)}});
  for (std::size_t i = 0; i < counters::machine_counters; ++i) {
    view.counter_words.push_back(word_view(static_cast<counters::CounterKind>(i)));
  }
  return view;
}

HourReadingView view_of(const HourReading& reading) {
  const std::string state = reading.settled_as ? "settled" : reading.fits ? "fits" : "to be settled";
  return {reading.id, reading.counter,   reading.display_h, reading.read_at,
          reading.by, reading.counted_h, reading.offset_h,  reading.difference_h,
          state,      reading.says,      reading.saying,    reading.settled_as};
}

Result<CounterDaysView> show_days(const OpenShop& shop, std::string_view machine, std::string_view counter,
                                  std::optional<LocalDate> first, std::optional<LocalDate> last, Instant now) {
  HW_TAKE(key, counters::parse_counter_key(counter));
  const LocalDate end = last.value_or(shop.calendar().zone.date_of(now));
  const LocalDate begin = first.value_or(end - (days_shown - 1));
  if (begin > end) {
    return refuse(ErrorCode::bad_input, Saying{"dates-turned", {{"from", print(begin)}, {"to", print(end)}}},
                  "from: {} is after {}", print(begin), print(end));
  }
  if (end - begin >= days_max) {
    return refuse(ErrorCode::bad_input, Saying{"days-many", {}, {{"most", double{days_max}}}},
                  "from: {} to {} is more than {} days", print(begin), print(end), days_max);
  }
  HW_TAKE(days, days_of(shop, machine, std::string{counter}, {begin, end}, now));
  CounterDaysView view{std::string{machine}, std::string{counter}, std::string{counters::unit_of(key.kind)}, {}};
  for (const DayRecord& day : days) view.days.push_back(day_view(day, key.kind));
  return view;
}

}  // namespace hw::service
