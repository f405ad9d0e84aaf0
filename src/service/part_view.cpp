// What a part's study comes to, in a line.

#include <array>

#include "src/proposal/cost_growth.h"
#include "src/service/lives.h"

namespace hw::service {
namespace {

constexpr double days_per_year = 365;
constexpr double failures_worth_saying = 3;
constexpr double chance_worth_saying = 0.9;
constexpr double share_worth_saying = 0.1;

RemarkView remark_of(const Error& error) { return {error.saying.value_or(Saying{}), error.message}; }

// A week of mean weekdays, a year long. A weekday of which no day is known, though two weeks are, has no use: the
// machine is off then.
double yearly_use(const std::vector<due::UseDay>& days) {
  constexpr std::size_t known_days_enough = 14;
  std::array<double, 7> sums{};
  std::array<int, 7> counts{};
  double sum = 0;
  std::size_t known = 0;
  for (const due::UseDay& day : days) {
    for (int back = 0; back < day.days; ++back) {
      const auto weekday = static_cast<std::size_t>(iso_weekday(day.on - back) - 1);
      sums[weekday] += day.used / day.days;
      ++counts[weekday];
    }
    sum += day.used;
    known += static_cast<std::size_t>(day.days);
  }
  if (days.empty()) return 0;
  const double mean = known < known_days_enough ? sum / static_cast<double>(known) : 0;
  double week = 0;
  for (std::size_t i = 0; i < sums.size(); ++i) week += counts[i] > 0 ? sums[i] / counts[i] : mean;
  return days_per_year / 7 * week;
}

}  // namespace

catalogue::Demand demand_of(const catalogue::Task& task) {
  if (task.demanded_by != catalogue::Demand::nobody) return task.demanded_by;
  return proposal::guards_people(task) ? catalogue::Demand::safety : catalogue::Demand::nobody;
}

bool is_worth_saying(const PartStudy& study) {
  if (!study.choice || !study.fit || study.fit->counts.failures < failures_worth_saying) return false;
  const life::IntervalChoice& choice = *study.choice;
  if (choice.interval > *study.interval && demand_of(study.seen.task) != catalogue::Demand::nobody) return false;
  return choice.interval != *study.interval && choice.move.chance >= chance_worth_saying &&
         choice.move.saving >= share_worth_saying * choice.rate_now;
}

MoveView move_view(const life::JudgedInterval& judged, double per_year) {
  return {.interval = judged.interval,
          .rate_now = judged.rate_now,
          .rate_then = judged.rate_then,
          .saving_per_year = judged.move.saving * per_year,
          .saving_5 = judged.move.saving_5 * per_year,
          .saving_95 = judged.move.saving_95 * per_year,
          .chance = judged.move.chance};
}

PartView part_view(const PartStudy& study, double per_year) {
  const LivesOfPart& seen = study.seen;
  const life::LifeCounts counts = life::count_lives(study.lives);
  PartView view{.kind = seen.name.kind,
                .task = seen.name.task,
                .title = seen.task.title,
                .work = std::string{word_of(seen.task.work)},
                .counter = seen.counter,
                .unit = seen.unit,
                .machines = static_cast<int>(seen.places.size()),
                .interval = study.interval,
                .demanded_by = {},
                .lives = static_cast<int>(study.lives.size()),
                .failures = static_cast<int>(counts.failures),
                .running = 0,
                .left_out = static_cast<int>(seen.left_out.size()),
                .refused = {},
                .best = {},
                .move = {},
                .is_held_back = false,
                .is_worth_saying = is_worth_saying(study)};
  for (const SeenLife& life : seen.lives) view.running += life.entry ? 0 : 1;
  if (const auto demand = demand_of(seen.task); demand != catalogue::Demand::nobody) view.demanded_by = word_of(demand);
  if (study.refused) view.refused = remark_of(*study.refused);
  if (study.no_choice) view.refused = remark_of(*study.no_choice);
  if (study.choice) {
    view.best = study.choice->best;
    view.move = move_view(*study.choice, per_year);
    view.is_held_back = study.choice->is_held_back;
  }
  return view;
}

Result<double> per_year(UseForecasts& forecasts, const PartStudy& study, const std::string& machine, Instant now) {
  if (!study.seen.counter) return days_per_year;
  HW_TAKE(use, forecasts.of(machine, *study.seen.counter, now));
  return yearly_use(use->history.days);
}

Result<double> per_year(UseForecasts& forecasts, const PartStudy& study, Instant now) {
  double sum = 0;
  for (const PartPlace& place : study.seen.places) {
    HW_TAKE(one, per_year(forecasts, study, place.machine, now));
    sum += one;
  }
  return sum;
}

}  // namespace hw::service
