#include "src/terminal/life_file.h"

#include <algorithm>
#include <charconv>
#include <map>

#include "src/terminal/table_file.h"

namespace hw::terminal {
namespace {

struct LifeColumns {
  std::size_t lower = 0, upper = 0, count = 0;
  std::optional<std::size_t> entry = {};

  static Result<LifeColumns> find(const formats::CsvTable& table) {
    HW_TAKE(lower, table.column("lower"));
    HW_TAKE(upper, table.column("upper"));
    HW_TAKE(count, table.column("count"));
    return LifeColumns{lower, upper, count, table.find_column("entry")};
  }

  std::size_t of(life::ObservedField field) const {
    switch (field) {
      case life::ObservedField::lower:
        return lower;
      case life::ObservedField::upper:
        return upper;
      case life::ObservedField::count:
        return count;
      case life::ObservedField::entry:
        break;
    }
    return entry.value_or(lower);
  }
};

Result<life::Observed> life_of_row(const formats::CsvTable& table, std::size_t row, const LifeColumns& columns) {
  HW_TAKE(lower, table.number(row, columns.lower));
  HW_TAKE(upper, table.number(row, columns.upper));
  HW_TAKE(count, table.number(row, columns.count));
  life::Observed observed{lower.value_or(0), upper.value_or(life::never), count.value_or(0)};
  if (columns.entry) {
    HW_TAKE(entry, table.number(row, *columns.entry));
    observed.entry = entry.value_or(0);
  }
  // Of a part that failed before upper, it is known that it was good at its entry.
  if (observed.lower == 0 && observed.upper < life::never) observed.lower = std::max(0.0, observed.entry);
  if (const auto fault = life::fault_of(observed)) {
    return refuse(Error{ErrorCode::bad_input, fault->says}.at(table.place(row, columns.of(fault->field))));
  }
  return observed;
}

// A table of one column needs no name for it; where the first row is a number, it is one of them.
std::optional<double> number_in_header(const formats::CsvTable& table) {
  const std::string& text = table.header().front();
  double number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc{} && end == text.data() + text.size() ? std::optional(number) : std::nullopt;
}

struct FailureColumns {
  std::size_t time = 0;
  std::optional<std::size_t> machine = {}, event = {};
};

Result<FailureColumns> failure_columns(const formats::CsvTable& table) {
  if (table.header().size() == 1) return FailureColumns{};
  HW_TRY(check_columns(table, {"time", "machine", "event"}));
  HW_TAKE(time, table.column("time"));
  return FailureColumns{time, table.find_column("machine"), table.find_column("event")};
}

Result<void> add_event(const formats::CsvTable& table, std::size_t row, const FailureColumns& columns,
                       std::map<std::string, WatchedHistory>& histories) {
  const std::string machine(columns.machine ? table.text(row, *columns.machine) : "");
  const std::string_view event = columns.event ? table.text(row, *columns.event) : "";
  HW_TAKE(time, table.number(row, columns.time));
  if (!time || !(*time >= 0 && *time <= 1e100)) {
    return refuse(Error{ErrorCode::bad_input, "a time from 0 to 1e100 is needed"}.at(table.place(row, columns.time)));
  }
  WatchedHistory& history = histories.try_emplace(machine, WatchedHistory{machine, {}}).first->second;
  if (event.empty() || event == "failure") {
    history.watch.failures.push_back(*time);
  } else if (event == "entry") {
    history.watch.entry = *time;
  } else if (event == "end") {
    history.watch.end = *time;
    history.ends_at_failure = false;
  } else {
    return refuse(Error{ErrorCode::bad_input, fmt::format("\"{}\" is none of failure, entry, end", event)}.at(
        table.place(row, *columns.event)));
  }
  return {};
}

}  // namespace

Result<std::vector<life::Observed>> read_lives_file(const std::string& path) {
  HW_TAKE(table, read_table(path));
  HW_TRY(check_columns(table, {"lower", "upper", "count", "entry"}));
  HW_TAKE(columns, LifeColumns::find(table));
  std::vector<life::Observed> lives;
  lives.reserve(table.row_count());
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    HW_TAKE(one, life_of_row(table, row, columns));
    lives.push_back(one);
  }
  if (lives.empty()) return refuse(ErrorCode::bad_input, "{}: no life in it", path);
  return lives;
}

Result<std::vector<LivesGroup>> read_groups_file(const std::string& path) {
  HW_TAKE(table, read_table(path));
  HW_TRY(check_columns(table, {"group", "lower", "upper", "count", "entry"}));
  HW_TAKE(group, table.column("group"));
  HW_TAKE(columns, LifeColumns::find(table));
  std::vector<LivesGroup> groups;
  for (std::size_t row = 0; row < table.row_count(); ++row) {
    const std::string_view name = table.text(row, group);
    if (name.empty()) return refuse(Error{ErrorCode::bad_input, "a group is needed"}.at(table.place(row, group)));
    HW_TAKE(one, life_of_row(table, row, columns));
    auto there = std::find_if(groups.begin(), groups.end(), [&](const LivesGroup& at) { return at.name == name; });
    if (there == groups.end()) {
      if (groups.size() == groups_most) {
        return refuse(
            Error{ErrorCode::bad_input, fmt::format("more than {} groups", groups_most)}.at(table.place(row, group)));
      }
      there = groups.insert(there, {std::string{name}, {}});
    }
    there->lives.push_back(one);
  }
  if (groups.size() < 2) return refuse(ErrorCode::bad_input, "{}: two groups at least are needed", path);
  return groups;
}

Result<std::vector<WatchedHistory>> read_failures_file(const std::string& path) {
  HW_TAKE(table, read_table(path));
  HW_TAKE(columns, failure_columns(table));
  std::map<std::string, WatchedHistory> histories;
  if (table.header().size() == 1) {
    WatchedHistory& only = histories[""];
    if (const auto first = number_in_header(table)) only.watch.failures.push_back(*first);
  }
  for (std::size_t row = 0; row < table.row_count(); ++row) HW_TRY(add_event(table, row, columns, histories));
  std::vector<WatchedHistory> list;
  for (auto& [name, history] : histories) {
    std::sort(history.watch.failures.begin(), history.watch.failures.end());
    list.push_back(std::move(history));
  }
  return list;
}

}  // namespace hw::terminal
