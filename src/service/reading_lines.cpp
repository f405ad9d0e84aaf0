#include "src/service/reading_lines.h"

#include <algorithm>
#include <array>

#include "src/condition/reading_limits.h"

namespace hw::service {
namespace {

// The places of the shown chances (due::shown_chances) that a crossing's range is made of.
constexpr std::size_t crossing_at_10 = 1;
constexpr std::size_t crossing_at_50 = 3;
constexpr std::size_t crossing_at_90 = 5;

std::string_view word_of(due::ReadingDirection direction) {
  constexpr std::array<std::string_view, 3> words{"none seen", "rising", "falling"};
  return words.at(static_cast<std::size_t>(direction));
}

CheckValueView last_value(const catalogue::TaskReading& reading, const ReadRecord& last) {
  return {last.value, std::string{word_of(condition::judge(reading, last.value).state)}, last.at, last.by};
}

void tell_trend(ReadingLineView& view, const KnownReading& known) {
  if (!known.trend) {
    view.refused = known.trend.error().message;
    view.refusal = known.trend.error().saying;
    return;
  }
  view.direction = word_of(known.trend->direction);
  view.slope = known.trend->sen.slope;
  view.p = known.trend->p;
  if (!known.ahead.empty()) view.crossing = view_of(known.ahead.front());
}

bool has_open_finding(const OpenMachine& machine, const ReadingLineView& line) {
  const std::string check = fmt::format("{}/{}", line.task, line.what);
  return std::any_of(machine.findings.begin(), machine.findings.end(),
                     [&](const Finding& one) { return one.check == check || one.task == line.task; });
}

bool is_pressing(const ReadingLineView& line, LocalDate today) {
  if (line.last && line.last->state == word_of(condition::ReadingState::action)) return true;
  if (!line.p || *line.p > pressing_p_max) return false;
  return line.crossing && line.crossing->median && *line.crossing->median <= today + reading_days_ahead;
}

}  // namespace

ReadingCrossingView view_of(const LimitCrossing& crossing) {
  return {.limit = crossing.limit.kind == due::LimitKind::warning ? "warning" : "action",
          .side = crossing.limit.side == condition::LimitSide::above ? "above" : "below",
          .at = crossing.limit.at,
          .beyond = crossing.is_beyond,
          .first = formats::or_null(crossing.days[crossing_at_10]),
          .median = formats::or_null(crossing.days[crossing_at_50]),
          .last = formats::or_null(crossing.days[crossing_at_90])};
}

Result<ReadingLineView> reading_line(const OpenShop& shop, const OpenMachine& machine, const catalogue::Task& task,
                                     const catalogue::TaskReading& reading) {
  HW_TAKE(known, machine.readings.of(shop.store(), shop.calendar().zone, machine.record.machine.key, task, reading));
  const TaskReadingText text = text_of(reading);
  ReadingLineView view{.task = task.key,
                       .title = task.title,
                       .assembly = task.assembly,
                       .point = task.point,
                       .what = text.what,
                       .unit = text.unit,
                       .warning = text.warning,
                       .action = text.action,
                       .count = static_cast<int>(known->values.size()),
                       .last = {},
                       .direction = {},
                       .slope = {},
                       .p = {},
                       .crossing = {},
                       .refused = {},
                       .refusal = {}};
  if (known->last) view.last = last_value(reading, *known->last);
  tell_trend(view, *known);
  return view;
}

Result<std::vector<ReadingLineView>> reading_lines(const OpenShop& shop, const OpenMachine& machine) {
  std::vector<ReadingLineView> lines;
  for (const TaskRecord& record : machine.record.tasks) {
    if (record.retired_at) continue;
    for (const catalogue::TaskReading& reading : record.task.readings) {
      HW_TAKE(line, reading_line(shop, machine, record.task, reading));
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

Result<std::vector<ReadingLineView>> pressing_readings(const OpenShop& shop, const OpenMachine& machine,
                                                       LocalDate today) {
  HW_TAKE(lines, reading_lines(shop, machine));
  std::erase_if(lines,
                [&](const ReadingLineView& one) { return !is_pressing(one, today) || has_open_finding(machine, one); });
  return std::move(lines);
}

}  // namespace hw::service
