#include "src/service/reading_series.h"

#include <algorithm>

#include "src/service/standing_answers.h"

namespace hw::service {
namespace {

Result<void> add_answers(std::vector<ReadRecord>& values, Store& store, std::string_view machine,
                         const catalogue::Task& task, const catalogue::TaskReading& reading) {
  HW_TAKE(answers, store.readings_of(machine, fmt::format("{}/{}", task.key, reading.what), values_kept));
  for (const AnswerRecord& one : without_corrected(std::move(answers))) {
    if (one.answer.unit != reading.unit) continue;
    values.push_back({one.entry, one.by, one.happened_at, *one.answer.value, {}});
  }
  return {};
}

Result<void> add_doings(std::vector<ReadRecord>& values, Store& store, std::string_view machine,
                        const catalogue::Task& task, const catalogue::TaskReading& reading) {
  HW_TAKE(entries, store.measured_doings_of(machine, task.key, values_kept));
  for (const Entry& entry : entries) {
    if (!entry.body.doing || !entry.body.doing->readings) continue;
    for (const ReadValue& read : *entry.body.doing->readings) {
      if (read.what != reading.what || read.unit != reading.unit) continue;
      values.push_back({entry.id, entry.by, entry.happened_at, read.value, entry.body.stop});
    }
  }
  return {};
}

template <class Record>
std::vector<Record> latest_in_order(std::vector<Record> records) {
  std::stable_sort(records.begin(), records.end(), [](const Record& a, const Record& b) { return a.at < b.at; });
  if (records.size() > values_kept) records.erase(records.begin(), records.end() - values_kept);
  return records;
}

std::optional<double> filled_in(const Entry& entry, const std::string& task, const std::string& unit) {
  if (entry.task == task && entry.body.doing && entry.body.doing->quantity_unit == unit) {
    return entry.body.doing->quantity;
  }
  for (const GivenAnswer& answer : entry.body.answers.value_or(std::vector<GivenAnswer>{})) {
    if (answer.task == task && answer.quantity_unit == unit) return answer.quantity;
  }
  return std::nullopt;
}

// Of one walk the later answer corrects the one before.
void add_fill(std::vector<FillRecord>& fills, std::vector<std::string>& walks, const Entry& entry, double amount) {
  const std::string walk = entry.body.walk.value_or("");
  if (!walk.empty() && std::find(walks.begin(), walks.end(), walk) != walks.end()) return;
  walks.push_back(walk);
  if (amount > 0) fills.push_back({entry.id, entry.by, entry.happened_at, amount, entry.counters});
}

}  // namespace

Result<std::vector<ReadRecord>> read_series(Store& store, std::string_view machine, const catalogue::Task& task,
                                            const catalogue::TaskReading& reading) {
  std::vector<ReadRecord> values;
  HW_TRY(add_answers(values, store, machine, task, reading));
  HW_TRY(add_doings(values, store, machine, task, reading));
  return latest_in_order(std::move(values));
}

std::optional<std::string> fill_unit(const catalogue::Task& task) {
  if (task.work != catalogue::WorkType::top_up) return std::nullopt;
  if (task.quantity_unit) return task.quantity_unit;
  return task.parts.empty() ? std::nullopt : std::optional{task.parts.front().unit};
}

Result<std::vector<FillRecord>> read_fills(Store& store, std::string_view machine, const catalogue::Task& task) {
  std::vector<FillRecord> fills;
  const auto unit = fill_unit(task);
  if (!unit) return fills;
  HW_TAKE(entries, store.measured_doings_of(machine, task.key, values_kept));
  std::vector<std::string> walks;
  for (const Entry& entry : entries) {  // the latest first
    if (const auto amount = filled_in(entry, task.key, *unit)) add_fill(fills, walks, entry, *amount);
  }
  return latest_in_order(std::move(fills));
}

}  // namespace hw::service
