#include "libs/values/zone.h"

#include <chrono>

#include <date/tz.h>

namespace hw {
namespace {

using Nanos = std::chrono::sys_time<std::chrono::nanoseconds>;

std::chrono::minutes offset_at(const date::time_zone* rules, Instant instant) {
  const auto at = std::chrono::floor<std::chrono::seconds>(Nanos{std::chrono::nanoseconds{instant.ns}});
  return std::chrono::floor<std::chrono::minutes>(rules->get_info(at).offset);
}

}  // namespace

Result<Zone> Zone::find(std::string_view name) {
  try {
    return Zone{date::locate_zone(std::string{name})};
  } catch (const std::exception&) {
    return refuse(ErrorCode::bad_input, "no time zone \"{}\"; a zone looks like Europe/Berlin", name.substr(0, 60));
  }
}

Zone Zone::utc() { return Zone{date::locate_zone("UTC")}; }

std::string Zone::name() const { return rules_->name(); }

LocalDate Zone::date_of(Instant instant) const {
  const auto local = std::chrono::nanoseconds{instant.ns} + offset_at(rules_, instant);
  return {static_cast<std::int32_t>(std::chrono::floor<std::chrono::days>(local).count())};
}

Instant Zone::begin_of(LocalDate date) const { return at(date, 0); }

Instant Zone::at(LocalDate date, int minute_of_day) const {
  const date::local_seconds local{std::chrono::days{date.days} + std::chrono::minutes{minute_of_day}};
  const auto utc = rules_->to_sys(local, date::choose::earliest);
  return {std::chrono::nanoseconds{utc.time_since_epoch()}.count()};
}

int Zone::offset_minutes(Instant instant) const { return static_cast<int>(offset_at(rules_, instant).count()); }

}  // namespace hw
