#include "src/copies/retention.h"

#include <algorithm>
#include <functional>
#include <set>

namespace hw::copies {
namespace {

// The last copy of each of the `count` latest periods that have one; `newest_first` is in that order.
void keep_latest(const std::vector<Instant>& newest_first, int count, const std::function<int(Instant)>& period_of,
                 std::set<Instant>& kept) {
  std::set<int> periods;
  for (const Instant one : newest_first) {
    if (periods.size() >= static_cast<std::size_t>(count)) return;
    if (periods.insert(period_of(one)).second) kept.insert(one);
  }
}

int day_of(LocalDate date) { return date.days; }
int week_of(LocalDate date) { return (date - (iso_weekday(date) - 1)).days; }
int month_of(LocalDate date) {
  const std::string text = print(date);  // 2026-11-26
  return std::stoi(text.substr(0, 4)) * 12 + std::stoi(text.substr(5, 2));
}

}  // namespace

std::vector<Instant> unwanted(std::vector<Instant> made_at, const Retention& retention, const Zone& zone, Instant now) {
  std::erase_if(made_at, [&](Instant one) { return one > now; });
  std::sort(made_at.begin(), made_at.end(), std::greater<>());
  std::set<Instant> kept;
  if (!made_at.empty()) kept.insert(made_at.front());
  keep_latest(
      made_at, retention.daily, [&](Instant one) { return day_of(zone.date_of(one)); }, kept);
  keep_latest(
      made_at, retention.weekly, [&](Instant one) { return week_of(zone.date_of(one)); }, kept);
  keep_latest(
      made_at, retention.monthly, [&](Instant one) { return month_of(zone.date_of(one)); }, kept);
  std::erase_if(made_at, [&](Instant one) { return kept.contains(one); });
  return made_at;
}

}  // namespace hw::copies
