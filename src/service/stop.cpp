#include "src/service/stop.h"

#include <algorithm>
#include <tuple>

namespace hw::service {
namespace {

bool begins_it(const Entry& entry) { return entry.kind == stop_agreed; }
bool does_a_task(const Entry& entry) { return entry.kind == "task done" && entry.task; }

Stop begun_stop(const Entry& agreed) {
  Stop stop;
  stop.id = agreed.id;
  stop.machine = agreed.machine;
  stop.by = agreed.by;
  stop.at = agreed.happened_at;
  return stop;
}

void end_stop(Stop& stop, const Entry& entry) {
  const EntryBody& body = entry.body;
  if (entry.kind == stop_withdrawn) {
    stop.state = StopState::withdrawn;
    stop.withdrawn = Withdrawal{entry.by, entry.happened_at, body.why.value_or("")};
  }
  if (entry.kind == stop_closed) {
    const StopTimes times = body.times.value_or(StopTimes{entry.happened_at, entry.happened_at});
    stop.state = StopState::closed;
    stop.closed = Closing{entry.by, entry.happened_at, times.began_at, times.ended_at, entry.note.value_or("")};
  }
}

void follow_stop(Stop& stop, const Entry& entry) {
  ++stop.version;
  stop.changed_at = std::max(stop.changed_at, entry.happened_at);
  if (stop.state != StopState::agreed) return;
  if (entry.body.plan) stop.plan = *entry.body.plan;
  end_stop(stop, entry);
}

}  // namespace

std::optional<Stop> stop_of(std::vector<Entry> entries) {
  std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
    return std::tuple(!begins_it(a), a.happened_at, a.ordinal) < std::tuple(!begins_it(b), b.happened_at, b.ordinal);
  });
  if (entries.empty() || !begins_it(entries.front())) return std::nullopt;
  Stop stop = begun_stop(entries.front());
  for (const Entry& entry : entries) {
    if (does_a_task(entry)) {
      stop.done.push_back({*entry.task, entry.id, entry.by, entry.happened_at,
                           entry.body.doing ? entry.body.doing->as_found : std::nullopt});
    } else if (entry.kind != "correction") {
      follow_stop(stop, entry);
    }
  }
  return stop;
}

bool begins_before(const Stop& one, const Stop& other) {
  return std::tuple(one.plan.begins_at, one.id) < std::tuple(other.plan.begins_at, other.id);
}

bool has_task(const Stop& stop, std::string_view task) {
  return std::any_of(stop.plan.tasks.begin(), stop.plan.tasks.end(), [&](const auto& one) { return one.task == task; });
}

}  // namespace hw::service
