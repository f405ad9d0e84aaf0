#include "src/terminal/history_file.h"

#include <algorithm>
#include <map>

#include "libs/formats/byte_source.h"
#include "libs/formats/csv.h"
#include "libs/values/instant.h"

namespace hw::terminal {
namespace {

constexpr std::size_t file_bytes_max = std::size_t{64} << 20;

struct Reading {
  Instant at;
  double value = 0;
};

Result<std::vector<NamedHistory>> daily_histories(const formats::CsvTable& table, std::size_t date_column) {
  std::vector<NamedHistory> histories;
  for (std::size_t column = 0; column < table.header().size(); ++column) {
    if (column == date_column) continue;
    NamedHistory named{table.header()[column], {}};
    for (std::size_t row = 0; row < table.row_count(); ++row) {
      const auto date = parse_local_date(table.text(row, date_column));
      if (!date) return refuse(date.error().at(table.place(row, date_column)));
      HW_TAKE(used, table.number(row, column));
      if (!used) continue;
      if (*used < 0) return refuse(Error{ErrorCode::bad_input, "use is never negative"}.at(table.place(row, column)));
      named.history.days.push_back({*date, *used});
      named.history.start = std::max(named.history.start, *date + 1);
    }
    histories.push_back(std::move(named));
  }
  return histories;
}

// How much of each day is covered by readings, and what was used in it. Days between two readings are known together,
// up to and with the day of the later one.
class DailyRises {
 public:
  explicit DailyRises(const Zone& zone) : zone_(zone) {}

  void add(const Reading& from, const Reading& to) {
    if (to.value < from.value || to.at <= from.at) return;
    const double per_ns = (to.value - from.value) / static_cast<double>((to.at - from.at).ns);
    const LocalDate first = zone_.date_of(from.at);
    for (LocalDate day = first; zone_.begin_of(day) < to.at; ++day) {
      const Duration part = std::min(to.at, zone_.end_of(day)) - std::max(from.at, zone_.begin_of(day));
      Day& one = days_[day];
      one.covered_ns += part.ns;
      one.used += per_ns * static_cast<double>(part.ns);
      one.is_continued = one.is_continued || day - first > 1;
    }
  }

  due::UseHistory history() const {
    due::UseHistory history;
    for (const auto& [on, day] : days_) {
      if (day.covered_ns < (zone_.end_of(on) - zone_.begin_of(on)).ns) continue;
      std::vector<due::UseDay>& days = history.days;
      if (day.is_continued && !days.empty() && days.back().on == on - 1) {
        days.back() = {on, days.back().used + day.used, days.back().days + 1};
      } else {
        days.push_back({on, day.used});
      }
      history.start = on + 1;
    }
    return history;
  }

 private:
  struct Day {
    std::int64_t covered_ns = 0;
    double used = 0;
    bool is_continued = false;
  };
  Zone zone_;
  std::map<LocalDate, Day> days_;
};

Result<std::vector<NamedHistory>> reading_histories(const formats::CsvTable& table, std::size_t value_column,
                                                    const Zone& zone) {
  HW_TAKE(counter_column, table.column("counter"));
  HW_TAKE(at_column, table.column("read_at"));
  std::map<std::string, std::vector<Reading>> readings;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    const auto at = parse_instant(table.text(row, at_column));
    if (!at) return refuse(at.error().at(table.place(row, at_column)));
    HW_TAKE(value, table.number(row, value_column));
    if (!value) return refuse(Error{ErrorCode::bad_input, "a reading has a value"}.at(table.place(row, value_column)));
    readings[std::string(table.text(row, counter_column))].push_back({*at, *value});
  }
  std::vector<NamedHistory> histories;
  for (auto& [counter, list] : readings) {
    std::stable_sort(list.begin(), list.end(), [](const Reading& a, const Reading& b) { return a.at < b.at; });
    DailyRises rises(zone);
    for (std::size_t n = 1; n < list.size(); ++n) rises.add(list[n - 1], list[n]);
    histories.push_back({counter, rises.history()});
  }
  return histories;
}

}  // namespace

Result<std::vector<NamedHistory>> read_history_file(const std::string& path, const Zone& zone) {
  HW_TAKE(source, formats::open_file(path));
  HW_TAKE(bytes, formats::read_all(*source, file_bytes_max));
  HW_TAKE(table, formats::parse_csv(bytes, path));
  if (const auto date = table.find_column("date")) return daily_histories(table, *date);
  for (const std::string_view value : {"value", "value_seconds"}) {
    if (const auto column = table.find_column(value)) return reading_histories(table, *column, zone);
  }
  return refuse(ErrorCode::bad_input, "{}: a column date is needed, or counter, read_at and value", path);
}

}  // namespace hw::terminal
