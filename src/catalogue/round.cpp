#include "src/catalogue/round.h"

#include <algorithm>
#include <array>

namespace hw::catalogue {
namespace {

constexpr std::array<std::string_view, 4> rhythm_words{"before start-up", "shift", "day", "week"};
constexpr std::array<std::string_view, 4> kind_words{"look", "reading", "clean", "top up"};

template <class Word>
Result<Word> find_word(const std::array<std::string_view, 4>& words, std::string_view word) {
  const auto* const there = std::find(words.begin(), words.end(), word);
  if (there != words.end()) return static_cast<Word>(there - words.begin());
  return refuse(ErrorCode::bad_input, "\"{}\" is none of {}", word, fmt::join(words, ", "));
}

std::optional<Rhythm> rhythm_of(const Trigger& trigger) {
  const auto* calendar = std::get_if<CalendarTrigger>(&trigger);
  if (!calendar || calendar->every.count != 1) return std::nullopt;
  switch (calendar->every.unit) {
    case CalendarInterval::Unit::start_up:
      return Rhythm::before_start_up;
    case CalendarInterval::Unit::shift:
      return Rhythm::shift;
    case CalendarInterval::Unit::day:
      return Rhythm::day;
    case CalendarInterval::Unit::week:
      return Rhythm::week;
    default:
      return std::nullopt;
  }
}

CheckKind kind_of(WorkType work) {
  if (work == WorkType::clean) return CheckKind::clean;
  return work == WorkType::top_up ? CheckKind::top_up : CheckKind::look;
}

// Looking and measuring are done by their readings; other work is a check beside them.
bool is_done_by_its_readings(const Task& task) {
  return !task.readings.empty() && (task.work == WorkType::inspect || task.work == WorkType::measure);
}

std::optional<std::string> quantity_unit_of(const Task& task) {
  if (task.work != WorkType::top_up) return std::nullopt;
  if (task.quantity_unit) return task.quantity_unit;
  return task.parts.empty() ? std::nullopt : std::optional{task.parts.front().unit};
}

void add_checks_of(const Task& task, std::vector<Check>& checks) {
  const Check work{.key = task.key,
                   .task = task.key,
                   .kind = kind_of(task.work),
                   .title = task.title,
                   .point = task.point,
                   .steps = task.steps,
                   .caution = task.caution,
                   .reading = {},
                   .quantity_unit = quantity_unit_of(task)};
  if (!is_done_by_its_readings(task)) checks.push_back(work);
  for (const TaskReading& reading : task.readings) {
    Check& check = checks.emplace_back(work);
    check.key = fmt::format("{}/{}", task.key, reading.what);
    check.kind = CheckKind::reading;
    check.reading = reading;
    check.quantity_unit.reset();
  }
}

void sort_by_walk(std::vector<Check>& checks, const std::vector<int>& walk) {
  const auto place = [&](const Check& check) {
    return check.point ? 1 + (std::find(walk.begin(), walk.end(), *check.point) - walk.begin()) : 0;
  };
  std::stable_sort(checks.begin(), checks.end(), [&](const auto& a, const auto& b) { return place(a) < place(b); });
}

}  // namespace

std::string_view word_of(Rhythm rhythm) { return rhythm_words.at(static_cast<std::size_t>(rhythm)); }
std::string_view word_of(CheckKind kind) { return kind_words.at(static_cast<std::size_t>(kind)); }
Result<Rhythm> parse_rhythm(std::string_view word) { return find_word<Rhythm>(rhythm_words, word); }
Result<CheckKind> parse_check_kind(std::string_view word) { return find_word<CheckKind>(kind_words, word); }

std::optional<Rhythm> rhythm_of(const Task& task) {
  std::optional<Rhythm> most_frequent;
  if (task.skill != Skill::machine_operator) return most_frequent;
  for (const Trigger& trigger : task.triggers) {
    const auto rhythm = rhythm_of(trigger);
    if (rhythm && (!most_frequent || *rhythm < *most_frequent)) most_frequent = rhythm;
  }
  return most_frequent;
}

std::vector<Round> rounds_of(std::string_view machine, const std::vector<Task>& tasks, const std::vector<int>& walk) {
  std::vector<Round> rounds;
  for (const Rhythm rhythm : {Rhythm::before_start_up, Rhythm::shift, Rhythm::day, Rhythm::week}) {
    Round round{.machine = std::string{machine}, .rhythm = rhythm, .checks = {}};
    for (const Task& task : tasks) {
      if (rhythm_of(task) == rhythm) add_checks_of(task, round.checks);
    }
    sort_by_walk(round.checks, walk);
    if (!round.checks.empty()) rounds.push_back(std::move(round));
  }
  return rounds;
}

}  // namespace hw::catalogue
