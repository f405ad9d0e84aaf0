#include "src/service/lives_of_part.h"

#include <algorithm>
#include <iterator>
#include <set>

#include "src/counters/counter_key.h"

namespace hw::service {
namespace {

constexpr int findings_most = 100'000;  // of one machine

bool is_part_work(catalogue::WorkType work) {
  return work == catalogue::WorkType::replace || work == catalogue::WorkType::overhaul;
}

const TaskRecord* find_part_task(const OpenMachine& machine, const PartName& name) {
  if (machine.record.machine.kind != name.kind) return nullptr;
  const auto& tasks = machine.record.tasks;
  const auto there = std::find_if(tasks.begin(), tasks.end(), [&](const TaskRecord& record) {
    return record.task.key == name.task && !record.retired_at && is_part_work(record.task.work);
  });
  return there == tasks.end() ? nullptr : &*there;
}

// What a machine says of the part, read under the lock.
struct PlaceNow {
  const OpenMachine* machine = nullptr;
  PartPlace place;
  double now = 0;  // the counter's total, or days since the epoch
};

double days_of(Instant at) { return static_cast<double>(at.as_millis()) / 86'400'000; }

std::optional<double> total_in(const CounterTotals& totals, const std::optional<std::string>& counter, Instant at) {
  if (!counter) return days_of(at);
  const auto there = totals.find(*counter);
  return there == totals.end() ? std::nullopt : std::optional{there->second};
}

life::Found found_of(const Entry& entry) {
  if (!entry.body.doing || !entry.body.doing->as_found) return life::Found::unsaid;
  switch (*entry.body.doing->as_found) {
    case AsFound::good:
      return life::Found::good;
    case AsFound::worn:
      return life::Found::worn;
    case AsFound::failed:
      return life::Found::failed;
  }
  return life::Found::unsaid;
}

WhyLeftOut why_of(life::LeftOut why) {
  switch (why) {
    case life::LeftOut::age_unknown:
      return WhyLeftOut::age_unknown;
    case life::LeftOut::not_said:
      return WhyLeftOut::not_said;
    case life::LeftOut::no_use:
      return WhyLeftOut::no_use;
  }
  return WhyLeftOut::age_unknown;
}

// Gathers what one machine says.
class Gathering {
 public:
  Gathering(const OpenShop& shop, LivesOfPart& out, const PlaceNow& at) : shop_(shop), out_(out), at_(at) {}

  Result<void> gather() {
    HW_TAKE(entries, shop_.store().doings_of(at_.place.machine, out_.name.task));
    for (Entry& entry : entries) HW_TRY(take(std::move(entry)));
    close(at_.now);
    return {};
  }

 private:
  // Where the counter stood, in today's terms.
  std::optional<double> total_at(const CounterTotals& totals, Instant at) const {
    const auto lock = shop_.look();
    auto total = total_in(totals, out_.counter, at);
    if (total && out_.counter) *total += start_moved_since(*at_.machine, *out_.counter, at);
    return total;
  }

  // When the failure was noticed: by the first finding that stops the machine, or should before the next shift, that
  // the task was to settle, made since the doing before.
  Result<std::optional<double>> noticed_at(const Entry& done) {
    const auto began = entries_.empty() ? Instant{} : entries_.back().happened_at;
    if (!findings_) HW_TRY(read_findings());
    std::optional<std::string> first;
    Instant first_at = done.happened_at;
    for (const Finding& finding : *findings_) {
      if (finding.severity > Severity::before_next_shift || finding.task != done.task) continue;
      if (finding.at <= began || finding.at >= first_at) continue;
      first = finding.id;
      first_at = finding.at;
    }
    if (!first) return std::optional<double>{};
    HW_TAKE(made, shop_.store().entry(*first));
    return made ? total_at(made->counters, made->happened_at) : std::nullopt;
  }

  Result<void> read_findings() {
    HW_TAKE(open, shop_.store().open_findings(at_.place.machine));
    HW_TAKE(settled, shop_.store().settled_findings(at_.place.machine, findings_most));
    findings_ = std::move(open);
    std::move(settled.begin(), settled.end(), std::back_inserter(*findings_));
    return {};
  }

  Result<void> take(Entry entry) {
    const auto total = total_at(entry.counters, entry.happened_at);
    if (!total) {
      out_.left_out.push_back({at_.place.machine, entry.id, entry.happened_at, WhyLeftOut::no_counter});
      close(std::nullopt);
      return {};
    }
    life::Doing doing{.at = *total, .found = found_of(entry), .is_planned = entry.body.stop.has_value()};
    if (!entry.corrected_by.empty()) doing.found = life::Found::unsaid;
    if (doing.found == life::Found::failed) {
      HW_TAKE(noticed, noticed_at(entry));
      doing.failed_at = noticed;
    }
    doings_.push_back(doing);
    entries_.push_back(std::move(entry));
    return {};
  }

  // Ends a run of doings between which the counter is known.
  void close(std::optional<double> now) {
    const auto [lives, left_out] = life::part_lives(doings_, now);
    for (const auto& [index, seen] : lives) {
      SeenLife life{at_.place.machine, {}, {}, life::Found::unsaid, seen};
      if (index < entries_.size()) {
        life.entry = entries_[index].id;
        life.ended_at = entries_[index].happened_at;
        life.found = doings_[index].found;
      }
      out_.lives.push_back(std::move(life));
    }
    for (const auto& [index, why] : left_out) {
      const Entry& entry = entries_[index];
      const bool is_corrected = why == life::LeftOut::not_said && !entry.corrected_by.empty();
      out_.left_out.push_back(
          {at_.place.machine, entry.id, entry.happened_at, is_corrected ? WhyLeftOut::corrected : why_of(why)});
    }
    doings_.clear();
    entries_.clear();
  }

  const OpenShop& shop_;
  LivesOfPart& out_;
  const PlaceNow& at_;
  std::vector<life::Doing> doings_;
  std::vector<Entry> entries_;
  std::optional<std::vector<Finding>> findings_;  // of the machine, read when a failure asks for them
};

}  // namespace

std::vector<PartName> parts_of(const OpenShop& shop) {
  std::vector<PartName> names;
  std::set<PartName> seen;
  for (const auto& kind : shop.record().kinds) {
    for (const auto& machine : shop.machines()) {
      if (machine->record.machine.kind != kind.key) continue;
      for (const TaskRecord& record : machine->record.tasks) {
        PartName name{kind.key, record.task.key};
        if (find_part_task(*machine, name) && seen.insert(name).second) names.push_back(std::move(name));
      }
    }
  }
  return names;
}

Result<LivesOfPart> lives_of_part(const OpenShop& shop, const PartName& name, Instant now) {
  LivesOfPart out{
      .name = name, .task = {}, .is_own = false, .counter = {}, .unit = "d", .places = {}, .lives = {}, .left_out = {}};
  std::vector<PlaceNow> places;
  {
    const auto lock = shop.look();
    for (const auto& machine : shop.machines()) {
      const TaskRecord* record = find_part_task(*machine, name);
      if (!record) continue;
      const auto* trigger = catalogue::first_counter(record->task);
      if (places.empty()) {
        out.task = record->task;
        out.is_own = record->is_own;
        if (trigger) {
          const auto key = counters::parse_counter_key(trigger->counter);
          out.counter = trigger->counter;
          out.unit = key ? counters::unit_of(key->kind) : "";
        }
      }
      PlaceNow at{machine.get(), {machine->record.machine.key, record->version, {}}, 0};
      if (trigger && trigger->counter == out.counter) at.place.interval = trigger->interval;
      at.now = total_in(totals_of(*machine, now), out.counter, now).value_or(0);
      places.push_back(std::move(at));
    }
  }
  if (places.empty()) {
    return refuse(ErrorCode::not_found, Saying{"no-part"}, "no machine of the kind {} has a part that \"{}\" replaces",
                  name.kind.substr(0, 40), name.task.substr(0, 60));
  }
  for (const PlaceNow& at : places) {
    out.places.push_back(at.place);
    HW_TRY(Gathering(shop, out, at).gather());
  }
  return out;
}

}  // namespace hw::service
