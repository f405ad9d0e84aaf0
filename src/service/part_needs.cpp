#include "src/service/part_needs.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "src/catalogue/round.h"
#include "src/life/weibull.h"
#include "src/service/entry_making.h"
#include "src/service/kind_services.h"
#include "src/service/stop_plan.h"

namespace hw::service {
namespace {

constexpr double days_of_year = 365;
constexpr int days_of_week = 7;
constexpr int months_of_year = 12;

// A due date's spread between its 10 and 90 % days in standard deviations of a normal distribution.
constexpr double deviations_10_to_90 = 2.563;

class Collecting {
 public:
  Collecting(const OpenShop& shop, const proposal::ShopAhead& ahead) : shop_(shop), ahead_(ahead) {}

  void add_stop(const StopKit& kit) {
    const int lines = static_cast<int>(kit.lines.size());
    for (const KitLineStanding& line : kit.lines) {
      if (!line.line.part) continue;
      const double own = line.line.quantity - line.taken - line.standing.of_substitute;
      add_certain(*line.line.part, kit, own, lines);
      if (line.standing.substitute) {
        add_certain(*line.standing.substitute, kit, line.standing.of_substitute, lines);
      }
    }
    for (const PlannedTask& task : kit.stop->plan.tasks) planned_[{kit.stop->machine, task.task}] = kit.stop->plan.on;
  }

  void add_task(const catalogue::Machine& machine, const proposal::TaskAhead& task) {
    const auto lines = kit_of(shop_, machine, task.task);
    if (lines.empty()) return;
    kits::ExpectedNeed need{task.due, 1, 0, 0};
    const auto planned = planned_.find({machine.key, task.task.key});
    need.due = planned == planned_.end() ? not_before(task.due, ahead_.today + days_to_agree)
                                         : shifted(task.next, planned->second - ahead_.today);
    set_cycle(need, task.next);
    if (need.due.empty()) return;
    NeedTold told = told_of(machine, task.task);
    told.due = need.due;
    for (const NeededLine& line : lines) add_expected(line, need, told, static_cast<int>(lines.size()));
  }

  // What a kind's service takes beside its tasks: when the middle one of its tasks falls due, or a cycle after the
  // agreed stop that it is.
  void add_service(const OpenMachine& machine, const catalogue::KindService& service,
                   const proposal::MachineAhead& ahead) {
    const auto lines = kit_of_service(shop_, machine.record.machine.kind, service.key);
    if (lines.empty()) return;
    const int cycle = static_cast<int>(std::lround(service.months * days_of_year / months_of_year));
    kits::ExpectedNeed need{middle_due(service, ahead), 1, static_cast<double>(cycle), 0};
    for (const Stop& stop : machine.stops) {
      const auto* planned = service_in(shop_, machine.record, present_tasks(machine, stop.plan));
      if (planned != nullptr && planned->key == service.key) need.due = due::on_calendar(stop.plan.on + cycle);
    }
    if (need.due.empty()) return;
    NeedTold told;
    told.machine = machine.record.machine.key;
    told.service = service.key;
    told.title = service.title;
    told.due = need.due;
    for (const NeededLine& line : lines) add_expected(line, need, told, static_cast<int>(lines.size()));
  }

  // What comes with each start-up, shift or day is put together by weeks.
  void add_check(const catalogue::Machine& machine, const catalogue::Task& task, catalogue::Rhythm rhythm) {
    const double times_a_week = times_in_week(rhythm);
    const kits::ExpectedNeed need{due::on_calendar(ahead_.today), times_a_week, days_of_week, 0};
    NeedTold told = told_of(machine, task);
    told.times_a_year = times_a_week * days_of_year / days_of_week;
    const auto lines = kit_of(shop_, machine, task);
    for (const NeededLine& line : lines) add_expected(line, need, told, 1);
  }

  void add_failing(const FailingPart& failing, std::string_view only_unsaid_of) {
    const auto machine = shop_.find(failing.machine);
    if (!machine) return;
    const auto record = find_task(**machine, failing.name.task);
    if (!record) return;
    for (const NeededLine& line : kit_of(shop_, (*machine)->record.machine, (*record)->task)) {
      if (line.part == only_unsaid_of) add_failures(*line.part, failing.per_year, line.quantity, failing.title);
    }
  }

  void add_failures(const std::string& part, double per_year, double quantity, std::optional<std::string> title) {
    if (per_year <= 0) return;
    PartNeeds& needs = all_[part];
    needs.needs.failures.push_back({per_year / days_of_year, quantity});
    NeedTold told;
    told.title = std::move(title);
    told.quantity = quantity;
    told.times_a_year = per_year;
    needs.told.push_back(std::move(told));
  }

  NeedsByPart take() { return std::move(all_); }

 private:
  static NeedTold told_of(const catalogue::Machine& machine, const catalogue::Task& task) {
    NeedTold told;
    told.machine = machine.key;
    told.task = task.key;
    told.title = task.title;
    return told;
  }

  void add_certain(const std::string& part, const StopKit& kit, double quantity, int lines) {
    if (quantity <= 1e-9) return;
    PartNeeds& needs = all_[part];
    const LocalDate on = std::max(kit.stop->plan.on, ahead_.today);
    needs.needs.certain.push_back({on, quantity});
    NeedTold told;
    told.machine = kit.stop->machine;
    told.stop = kit.stop->id;
    told.quantity = quantity;
    told.on = on;
    needs.told.push_back(std::move(told));
    needs.kit_lines_max = std::max(needs.kit_lines_max, lines);
  }

  void add_expected(const NeededLine& line, kits::ExpectedNeed need, NeedTold told, int lines) {
    if (!line.part) return;
    need.quantity *= line.quantity;
    told.quantity = line.quantity;
    PartNeeds& needs = all_[*line.part];
    needs.needs.expected.push_back(std::move(need));
    needs.told.push_back(std::move(told));
    needs.kit_lines_max = std::max(needs.kit_lines_max, lines);
  }

  due::DueDistribution middle_due(const catalogue::KindService& service, const proposal::MachineAhead& ahead) const {
    std::vector<const proposal::TaskAhead*> tasks;
    for (const proposal::TaskAhead& task : ahead.tasks) {
      const bool is_of_it = std::find(service.tasks.begin(), service.tasks.end(), task.task.key) != service.tasks.end();
      if (is_of_it && due::quantile(task.due, 0.5)) tasks.push_back(&task);
    }
    if (tasks.empty()) return {};
    std::sort(tasks.begin(), tasks.end(), [](const auto* one, const auto* other) {
      return *due::quantile(one->due, 0.5) < *due::quantile(other->due, 0.5);
    });
    return not_before(tasks[tasks.size() / 2]->due, ahead_.today + days_to_agree);
  }

  void set_cycle(kits::ExpectedNeed& need, const due::DueDistribution& next) const {
    const auto median = due::quantile(next, 0.5);
    if (!median) return;
    need.cycle_days = std::max(1, *median - ahead_.today);
    const auto early = due::quantile(next, 0.1);
    const auto late = due::quantile(next, 0.9);
    if (early && late) need.cycle_sd_days = (*late - *early) / deviations_10_to_90;
  }

  static due::DueDistribution not_before(const due::DueDistribution& due, LocalDate day) {
    due::DueDistribution later;
    if (const double chance = due::chance_by(due, day); chance > 0) later.push_back({day, chance});
    std::copy_if(due.begin(), due.end(), std::back_inserter(later), [&](const auto& step) { return day < step.on; });
    return later;
  }

  static due::DueDistribution shifted(due::DueDistribution due, int days) {
    for (due::DueStep& step : due) step.on = step.on + days;
    return due;
  }

  double times_in_week(catalogue::Rhythm rhythm) const {
    const auto& shifts = ahead_.calendar.shifts;
    if (shifts.empty()) return days_of_week;
    std::set<int> weekdays;
    std::size_t turns = 0;
    for (const auto& shift : shifts) {
      weekdays.insert(shift.weekdays.begin(), shift.weekdays.end());
      turns += shift.weekdays.size();
    }
    return static_cast<double>(rhythm == catalogue::Rhythm::shift ? turns : weekdays.size());
  }

  const OpenShop& shop_;
  const proposal::ShopAhead& ahead_;
  std::map<std::pair<std::string, std::string>, LocalDate> planned_;  // machine and task: in an agreed stop
  NeedsByPart all_;
};

double failures_per_use(const life::Weibull& life, const std::optional<double>& interval) {
  const double failed = interval ? 1 - life::reliability(life, *interval) : 1;
  const double cycle = interval ? life::mean_life_until(life, *interval) : life::mean_life(life);
  return cycle > 0 ? failed / cycle : 0;
}

void add_tasks(Collecting& collecting, const OpenShop& shop, const proposal::ShopAhead& ahead) {
  for (const proposal::MachineAhead& machine : ahead.machines) {
    const auto open = shop.find(machine.key);
    if (!open) continue;
    const catalogue::Machine& what = (*open)->record.machine;
    std::set<std::string_view> dated;
    for (const proposal::TaskAhead& task : machine.tasks) {
      dated.insert(task.task.key);
      collecting.add_task(what, task);
    }
    for (const catalogue::KindService& service : machine.services) collecting.add_service(**open, service, machine);
    for (const TaskRecord& record : (*open)->record.tasks) {
      const auto rhythm = catalogue::rhythm_of(record.task);
      if (rhythm && !record.retired_at && !dated.contains(record.task.key)) {
        collecting.add_check(what, record.task, *rhythm);
      }
    }
  }
}

}  // namespace

Result<std::vector<FailingPart>> failing_parts(PartStudies& studies, UseForecasts& forecasts, Instant now) {
  std::vector<FailingPart> failing;
  HW_TAKE(all, studies.all(now));
  for (const auto& study : all) {
    if (!study->fit || study->seen.places.empty()) continue;
    HW_TAKE(use, per_year(forecasts, *study, now));
    const double rate = use * failures_per_use(study->fit->life, study->interval);
    failing.push_back({study->seen.name, study->seen.task.title, study->seen.places.front().machine, rate});
  }
  return failing;
}

NeedsByPart needs_by_part(const OpenShop& shop, const proposal::ShopAhead& ahead,
                          const std::vector<FailingPart>& failing, const std::vector<StopKit>& kits) {
  Collecting collecting(shop, ahead);
  for (const StopKit& kit : kits) collecting.add_stop(kit);
  add_tasks(collecting, shop, ahead);
  for (const catalogue::StoredPart& part : shop.stores().present_parts()) {
    if (part.failures_per_year) {
      collecting.add_failures(part.number, *part.failures_per_year, 1, {});
      continue;
    }
    for (const FailingPart& one : failing) collecting.add_failing(one, part.number);
  }
  return collecting.take();
}

}  // namespace hw::service
