#include "src/terminal/rehearsal_file.h"

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"

namespace hw::rehearsal {

BOOST_DESCRIBE_STRUCT(SetUp, (), (hours, cost))
BOOST_DESCRIBE_STRUCT(PastDay, (), (weekday, used))

}  // namespace hw::rehearsal

namespace hw::terminal {
namespace {

struct FileInterval {
  std::optional<std::string> counter;
  double length = 0;
  std::optional<double> heads_up, used;
};
BOOST_DESCRIBE_STRUCT(FileInterval, (), (counter, length, heads_up, used))

struct FilePart {
  std::optional<std::string> counter;
  std::string life;
  std::optional<double> age, failed_cost, failed_standing_hours;
};
BOOST_DESCRIBE_STRUCT(FilePart, (), (counter, life, age, failed_cost, failed_standing_hours))

struct FileTask {
  std::string key;
  std::vector<FileInterval> intervals;
  std::optional<double> minutes, planned_cost;
  std::optional<std::string> energy;
  std::optional<FilePart> part;
};
BOOST_DESCRIBE_STRUCT(FileTask, (), (key, intervals, minutes, planned_cost, energy, part))

struct FileUse {
  std::array<double, 7> mean{};
  std::optional<double> scatter;
};
BOOST_DESCRIBE_STRUCT(FileUse, (), (mean, scatter))

struct FileMachine {
  std::string key;
  std::string kind;
  std::vector<std::string> counters;
  std::optional<std::vector<FileUse>> use;
  std::optional<std::vector<rehearsal::PastDay>> past;
  std::optional<double> standing_per_hour;
  std::vector<FileTask> tasks;
};
BOOST_DESCRIBE_STRUCT(FileMachine, (), (key, kind, counters, use, past, standing_per_hour, tasks))

struct FileBelieved {
  double shape = 0, scale = 0, share = 0;
};
BOOST_DESCRIBE_STRUCT(FileBelieved, (), (shape, scale, share))

struct FileLife {
  std::string key;
  std::optional<double> shape, scale;
  std::optional<std::vector<FileBelieved>> believed;
};
BOOST_DESCRIBE_STRUCT(FileLife, (), (key, shape, scale, believed))

struct FileChange {
  std::string kind;
  std::string task;
  std::optional<std::string> counter;
  double interval = 0;
};
BOOST_DESCRIBE_STRUCT(FileChange, (), (kind, task, counter, interval))

struct FileYear {
  std::vector<FileMachine> machines;
  std::optional<std::vector<FileLife>> lives;
  std::optional<rehearsal::SetUp> isolated, powered_at_rest;
  std::optional<double> labour_per_hour;
  std::optional<int> days, first_weekday;
  std::optional<std::vector<int>> closed;
  std::optional<std::vector<FileChange>> changes;
  std::optional<int> years;
  std::optional<std::int64_t> seed;
};
BOOST_DESCRIBE_STRUCT(FileYear, (),
                      (machines, lives, isolated, powered_at_rest, labour_per_hour, days, first_weekday, closed,
                       changes, years, seed))

Result<rehearsal::Task> task_of(const FileTask& task) {
  rehearsal::Task made;
  made.key = task.key;
  for (const FileInterval& one : task.intervals) {
    made.intervals.push_back({one.counter, one.length, one.heads_up.value_or(0), one.used.value_or(0)});
  }
  made.minutes = task.minutes.value_or(0);
  made.planned_cost = task.planned_cost.value_or(0);
  HW_TAKE(energy, catalogue::parse_energy_state(task.energy.value_or("isolated")));
  made.energy = energy;
  if (const auto& part = task.part) {
    made.part = rehearsal::Part{part->counter, part->life, part->age.value_or(0), part->failed_cost.value_or(0),
                                part->failed_standing_hours.value_or(0)};
  }
  return made;
}

Result<rehearsal::Machine> machine_of(const FileMachine& machine) {
  rehearsal::Machine made;
  made.key = machine.key;
  made.kind = machine.kind;
  made.counters = machine.counters;
  for (const FileUse& one : machine.use.value_or(std::vector<FileUse>{})) {
    made.use.push_back({one.mean, one.scatter.value_or(0)});
  }
  made.past = machine.past.value_or(std::vector<rehearsal::PastDay>{});
  made.standing_per_hour = machine.standing_per_hour.value_or(0);
  for (std::size_t n = 0; n < machine.tasks.size(); ++n) {
    auto task = task_of(machine.tasks[n]);
    if (!task) return refuse(task.error().at(fmt::format("machine {}, tasks[{}].energy", machine.key, n)));
    made.tasks.push_back(std::move(*task));
  }
  return made;
}

Result<rehearsal::KnownLife> life_of(const FileLife& known) {
  const bool is_one = known.shape && known.scale;
  if (is_one == known.believed.has_value() || known.shape.has_value() != known.scale.has_value()) {
    return refuse(ErrorCode::bad_input, "lives: \"{}\" needs either shape and scale, or believed", known.key);
  }
  rehearsal::KnownLife made{known.key, {}};
  if (is_one) made.believed.push_back({{*known.shape, *known.scale}, 1});
  for (const FileBelieved& one : known.believed.value_or(std::vector<FileBelieved>{})) {
    made.believed.push_back({{one.shape, one.scale}, one.share});
  }
  return made;
}

Result<rehearsal::ShopYear> shop_of(const FileYear& year) {
  rehearsal::ShopYear shop;
  shop.days = year.days.value_or(shop.days);
  shop.first_weekday = year.first_weekday.value_or(shop.first_weekday);
  shop.closed = year.closed.value_or(std::vector<int>{});
  shop.isolated = year.isolated.value_or(rehearsal::SetUp{});
  shop.powered_at_rest = year.powered_at_rest.value_or(rehearsal::SetUp{});
  shop.labour_per_hour = year.labour_per_hour.value_or(0);
  for (const FileLife& one : year.lives.value_or(std::vector<FileLife>{})) {
    HW_TAKE(life, life_of(one));
    shop.lives.push_back(life);
  }
  for (const FileMachine& one : year.machines) {
    HW_TAKE(machine, machine_of(one));
    shop.machines.push_back(machine);
  }
  HW_TRY(rehearsal::check(shop));
  return shop;
}

}  // namespace

Result<RehearsalFile> parse_rehearsal(std::string_view text) {
  HW_TAKE(year, formats::parse_json<FileYear>(text));
  HW_TAKE(shop, shop_of(year));
  RehearsalFile file{std::move(shop), {}, year.years.value_or(1000), static_cast<std::uint64_t>(year.seed.value_or(1))};
  if (file.years < 2 || file.years > rehearsed_years_max) {
    return refuse(ErrorCode::bad_input, "years: {} must be 2 to {}", file.years, rehearsed_years_max);
  }
  for (const FileChange& one : year.changes.value_or(std::vector<FileChange>{})) {
    file.changes.push_back({one.kind, one.task, one.counter, one.interval});
  }
  return file;
}

}  // namespace hw::terminal
