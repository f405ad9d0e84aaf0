// What has to be kept and what refused, by the sentences of src/service/use_cases.h and stores_cases.h.

#include <algorithm>

#include "tests/shop_year/books.h"

namespace hw::shop_year {
namespace {

// By the sentence of src/service/happened.h, in milliseconds.
Instant happened_at(Instant at, Instant sent_at, Instant now, Instant founded_at) {
  constexpr std::int64_t sixty_days = 60LL * 24 * 3600 * 1000;
  const std::int64_t then = at.as_millis() - (sent_at.as_millis() - now.as_millis());
  const bool cannot_be = at > sent_at || then < now.as_millis() - sixty_days || then < founded_at.as_millis();
  return cannot_be ? now : Instant::from_millis(std::min(then, now.as_millis()));
}

const std::map<std::string, std::string> tasks_of_checks{
    {"look", "look"}, {"window", "window"}, {"coolant", "coolant"}, {"air/supply air", "air"}};

bool contains(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

}  // namespace

// One act as it is heard.
struct Hearing {
  Books& books;
  const Act& act;
  Instant sent_at;
  Instant now;
  const Books::HoursAt& hours_at;

  BookEntry entry(std::string kind, std::string machine) const {
    BookEntry entry;
    entry.id = act.id;
    entry.kind = std::move(kind);
    entry.machine = std::move(machine);
    entry.by = act.by;
    entry.when.at = happened_at(act.at, sent_at, now, books.founded_at_);
    entry.heard_at = now;
    return entry;
  }

  // Keeps it at the end of the book. What is about a machine holds its hours, those of now for what has just happened.
  Moment keep(BookEntry entry) const {
    entry.when.ordinal = static_cast<std::int64_t>(books.entries_.size()) + 1;
    const bool has_hours = !entry.machine.empty() && entry.kind != "stock moved";
    const bool is_fresh = now - entry.when.at <= Duration::seconds(60);
    if (has_hours && !entry.operating_h) entry.operating_h = hours_at(entry.machine, is_fresh ? now : entry.when.at);
    const Moment when = entry.when;
    std::string id = entry.id;
    books.entries_.emplace(std::move(id), std::move(entry));
    return when;
  }

  const BookTask* task(const std::string& machine, const std::string& key) const {
    const auto there = books.tasks_.find({machine, key});
    return there == books.tasks_.end() || there->second.is_retired ? nullptr : &there->second;
  }

  bool operator()(const BeginWalk& what) const {
    keep(entry("round begun", what.machine));
    return true;
  }

  bool operator()(const AnswerChecks& what) const {
    BookEntry kept = entry(what.others ? "others as they should be" : "check answered", what.machine);
    for (const auto& answer : what.answers) {
      const auto check = tasks_of_checks.find(answer.check);
      if (check == tasks_of_checks.end()) {
        kept.is_stray = true;
        continue;
      }
      if (answer.unit && *answer.unit != "bar") return false;
      const bool does_it = answer.kind == "look" || answer.answer != "not so";
      if (does_it) books.done_[{what.machine, check->second}].push_back(act.id);
    }
    keep(std::move(kept));
    return true;
  }

  bool operator()(const MarkDone& what) const {
    BookEntry kept = entry("task done", what.machine);
    kept.task = what.task;
    kept.note = what.note;
    kept.is_stray = task(what.machine, what.task) == nullptr;
    if (!kept.is_stray) books.done_[{what.machine, what.task}].push_back(act.id);
    keep(std::move(kept));
    return true;
  }

  bool operator()(const Undo& what) const {
    const auto undone = books.entries_.find(what.entry);
    if (undone == books.entries_.end()) return false;
    const BookEntry& before = undone->second;
    if (before.kind != "task done" || before.is_of_stop || before.is_undone || before.by != act.by) return false;
    if (now - before.heard_at > Duration::seconds(10)) return false;
    BookEntry kept = entry("undone", before.machine);
    kept.task = before.task;
    undone->second.is_undone = true;
    keep(std::move(kept));
    return true;
  }

  bool operator()(const CorrectEntry& what) const {
    const auto corrected = books.entries_.find(what.entry);
    if (corrected == books.entries_.end()) return false;
    BookEntry kept = entry("correction", corrected->second.machine);
    kept.task = corrected->second.task;
    kept.finding = corrected->second.finding;
    kept.stop = corrected->second.stop;
    corrected->second.corrected_by.push_back(act.id);
    keep(std::move(kept));
    return true;
  }

  bool operator()(const ReadHours& what) const {
    if (act.at > now + Duration::hours(24)) return false;
    BookEntry kept = entry("hours read", what.machine);
    kept.when.at = now;
    keep(std::move(kept));
    return true;
  }

  bool operator()(const MakeFinding& what) const {
    BookEntry kept = entry("finding made", what.machine);
    kept.finding = act.id;
    FindingFact fact{{}, kept.kind, what.severity, what.owner, what.task};
    if (what.task && task(what.machine, *what.task) == nullptr) fact.task.reset();
    fact.when = keep(std::move(kept));
    books.findings_[act.id] = {what.machine, {fact}};
    return true;
  }

  bool follow(const std::string& finding, FindingFact fact) const {
    BookFinding& about = books.findings_.at(finding);
    BookEntry kept = entry(fact.kind, about.machine);
    kept.finding = finding;
    fact.when = keep(std::move(kept));
    about.facts.push_back(std::move(fact));
    return true;
  }
  bool operator()(const ChangeFinding& what) const {
    const auto about = books.findings_.find(what.finding);
    if (about == books.findings_.end()) return false;
    if (what.task && !what.task->empty() && task(about->second.machine, *what.task) == nullptr) return false;
    return follow(what.finding, {{}, "finding changed", what.severity, what.owner, what.task});
  }
  bool operator()(const SettleFinding& what) const {
    return books.findings_.contains(what.finding) && follow(what.finding, {{}, "finding settled", {}, {}, {}});
  }
  bool operator()(const ReopenFinding& what) const {
    return books.findings_.contains(what.finding) && follow(what.finding, {{}, "finding reopened", {}, {}, {}});
  }

  // Tasks have no time of their own: they are as of when they are heard.
  BookEntry task_entry(std::string kind, const std::string& machine, const std::string& key) const {
    BookEntry kept = entry(std::move(kind), machine);
    kept.task = key;
    kept.when.at = now;
    return kept;
  }
  bool operator()(const AddTask& what) const {
    keep(task_entry("task added", what.machine, act.id));
    books.tasks_[{what.machine, act.id}] = {.is_own = true,
                                            .interval_h = what.interval_h,
                                            .began_at = now,
                                            .began_h = books.entries_.at(act.id).operating_h};
    return true;
  }
  bool operator()(const ChangeTask& what) const {
    const BookTask* present = task(what.machine, what.task);
    if (present == nullptr || present->version != what.version) return false;
    keep(task_entry("task changed", what.machine, what.task));
    BookTask& changed = books.tasks_.at({what.machine, what.task});
    ++changed.version;
    changed.interval_h = what.interval_h;
    return true;
  }
  bool operator()(const RetireTask& what) const {
    if (task(what.machine, what.task) == nullptr) return false;
    BookEntry kept = entry("task retired", what.machine);
    kept.task = what.task;
    keep(std::move(kept));
    BookTask& retired = books.tasks_.at({what.machine, what.task});
    ++retired.version;
    retired.is_retired = true;
    return true;
  }

  bool is_over(LocalDate day) const { return day < Zone::find("Europe/Berlin")->date_of(now); }

  // All are tasks, and none is in another agreed stop.
  bool can_plan(const std::string& machine, const std::string& stop, const std::vector<std::string>& tasks) const {
    for (const std::string& key : tasks) {
      if (task(machine, key) == nullptr) return false;
      for (const auto& [id, other] : books.stops_) {
        if (id == stop || other.machine != machine) continue;
        const StopNow is = books.stop_now(id);
        if (is.state == "agreed" && contains(is.tasks, key)) return false;
      }
    }
    return true;
  }
  bool operator()(const AgreeStop& what) const {
    if (is_over(what.on) || !can_plan(what.machine, act.id, what.tasks)) return false;
    BookEntry kept = entry("stop agreed", what.machine);
    kept.stop = act.id;
    StopFact fact{{}, kept.kind, what.on, what.tasks};
    fact.when = keep(std::move(kept));
    books.stops_[act.id] = {what.machine, {fact}, {}};
    return true;
  }
  Moment keep_about_stop(const std::string& stop, const std::string& kind, std::optional<Instant> not_before) const {
    BookEntry kept = entry(kind, books.stops_.at(stop).machine);
    kept.stop = stop;
    const Instant said = kept.when.at;
    if (not_before && *not_before > said) {
      kept.operating_h = hours_at(kept.machine, now - said <= Duration::seconds(60) ? now : said);
      kept.when.at = *not_before;
    }
    return keep(std::move(kept));
  }
  bool is_as_seen(const std::string& stop, int version) const {
    if (!books.stops_.contains(stop)) return false;
    const StopNow is = books.stop_now(stop);
    return is.state == "agreed" && is.version == version;
  }
  bool operator()(const ChangeStop& what) const {
    if (!is_as_seen(what.stop, what.version) || (what.on && is_over(*what.on))) return false;
    BookStop& stop = books.stops_.at(what.stop);
    if (what.tasks && !can_plan(stop.machine, what.stop, *what.tasks)) return false;
    const Moment when = keep_about_stop(what.stop, "stop changed", books.stop_now(what.stop).changed_at);
    stop.facts.push_back({when, "stop changed", what.on, what.tasks});
    return true;
  }
  bool operator()(const WithdrawStop& what) const {
    if (!books.stops_.contains(what.stop) || books.stop_now(what.stop).state != "agreed") return false;
    const Moment when = keep_about_stop(what.stop, "stop withdrawn", std::nullopt);
    books.stops_.at(what.stop).facts.push_back({when, "stop withdrawn", {}, {}});
    return true;
  }

  void do_in_stop(const std::string& stop, const DoneInStop& done) const {
    BookStop& about = books.stops_.at(stop);
    BookEntry kept = entry("task done", about.machine);
    kept.id = done.id;
    kept.task = done.task;
    kept.stop = stop;
    kept.is_of_stop = true;
    kept.is_stray = task(about.machine, done.task) == nullptr;
    if (!kept.is_stray) books.done_[{about.machine, done.task}].push_back(done.id);
    about.done.insert(done.task);
    keep(std::move(kept));
  }
  void use_in_stop(const std::string& stop, const UsedInStop& used, double taken) const {
    if (used.quantity == taken) return;
    BookEntry kept = entry("stock moved", books.stops_.at(stop).machine);
    kept.id = used.id;
    const auto kind = used.quantity > taken ? kits::MovementKind::taken : kits::MovementKind::returned;
    const Moment when = keep(std::move(kept));
    books.moves_.push_back({when, kind, used.part, std::abs(used.quantity - taken), stop, ""});
  }
  bool operator()(const CloseStop& what) const {
    if (!is_as_seen(what.stop, what.version) || act.at > sent_at + Duration::hours(24)) return false;
    const StopNow is = books.stop_now(what.stop);
    for (const DoneInStop& one : what.done) {
      if (!contains(is.tasks, one.task)) return false;
    }
    if (what.used && !books.parts_.contains(what.used->part)) return false;
    const double taken = what.used ? books.taken_for(what.stop, what.used->part) : 0;
    for (const DoneInStop& one : what.done) do_in_stop(what.stop, one);
    const Moment when = keep_about_stop(what.stop, "stop closed", is.changed_at);
    books.stops_.at(what.stop).facts.push_back({when, "stop closed", {}, {}});
    if (what.used) use_in_stop(what.stop, *what.used, taken);
    return true;
  }

  bool operator()(const KeepPart& what) const {
    const auto present = books.parts_.find(what.number);
    const bool is_there = present != books.parts_.end();
    if (is_there ? what.version != present->second : what.version.has_value()) return false;
    keep(entry("part kept", ""));
    ++books.parts_[what.number];
    return true;
  }
  bool operator()(const MoveStock& what) const {
    if (!books.parts_.contains(what.part)) return false;
    if (what.stop && !books.stops_.contains(*what.stop)) return false;
    if (what.order) {
      if (!books.orders_.contains(*what.order)) return false;
      const double left = books.orders_.at(*what.order).part == what.part ? books.outstanding(*what.order) : 0;
      if (!what.more_than_ordered && what.quantity > left) return false;
    }
    const Moment when = keep(entry("stock moved", what.stop ? books.stops_.at(*what.stop).machine : ""));
    books.moves_.push_back(
        {when, what.kind, what.part, what.quantity, what.stop.value_or(""), what.order.value_or("")});
    return true;
  }
  bool operator()(const PlaceOrder& what) const {
    if (!books.parts_.contains(what.part)) return false;
    keep(entry("order placed", ""));
    books.orders_[act.id] = {what.part, what.quantity};
    return true;
  }
  bool operator()(const ChangeOrder& what) const {
    if (!books.orders_.contains(what.order) || books.outstanding(what.order) <= 0) return false;
    keep(entry("order changed", ""));
    if (what.ended) books.orders_.at(what.order).is_ended = true;
    return true;
  }
};

Books::Books(Instant founded_at) : founded_at_(founded_at) {
  for (const char* machine : {"mill1", "mill2", "mill3"}) {
    for (const char* task : {"filter", "grease", "look", "air", "window", "coolant", "start", "week"}) {
      const bool is_filter = std::string_view(task) == "filter";
      tasks_[{machine, task}] = {.interval_h = is_filter ? 8.0 : 0.0, .began_at = founded_at, .began_h = 0.0};
    }
  }
}

bool Books::hear(const Act& act, Instant sent_at, Instant now, const HoursAt& hours_at) {
  const auto before = entries_.find(act.id);
  if (before != entries_.end()) return true;  // it was heard already
  return std::visit(Hearing{*this, act, sent_at, now, hours_at}, act.what);
}

}  // namespace hw::shop_year
