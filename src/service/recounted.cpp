#include "src/service/recounted.h"

#include <algorithm>

#include "src/counters/packed.h"
#include "src/counters/two_clocks.h"
#include "src/service/model_text.h"

namespace hw::service {
namespace {

using counters::LiveCount;
using counters::Observation;

// The record, opened.
struct OpenRecord {
  counters::MachineModel model;
  counters::LiveSettings settings;
  MachineState state;
  LiveCount live;
};

Result<OpenRecord> open_record(const KeptCount& kept, const Zone& zone) {
  HW_TAKE(model, parse_model(kept.record.model));
  HW_TAKE(state, parse_machine_state(kept.record.state));
  auto settings = live_settings(zone, kept.fills);
  HW_TAKE(live, LiveCount::restore(model, settings, state.live));
  return OpenRecord{std::move(model), std::move(settings), std::move(state), std::move(live)};
}

struct Base {
  LiveCount live;
  bool is_begin = true;
};

// The first model's count begins with nothing; a later one's with what was carried on to it.
Result<Base> base_of(const KeptCount& kept, const OpenRecord& record) {
  if (record.state.carried.totals.empty()) {
    return Base{LiveCount(record.model, record.settings, record.live.begin()), true};
  }
  if (!kept.first_checkpoint) return Base{record.live, false};
  HW_TAKE(state, parse_machine_state(kept.first_checkpoint->state));
  HW_TAKE(live, LiveCount::restore(record.model, record.settings, state.live));
  return Base{std::move(live), false};
}

// By time; what was passed over last counts too.
Result<std::vector<Observation>> logged(const KeptCount& kept, const OpenRecord& record, bool is_begin) {
  std::vector<Observation> arrivals;
  counters::TwoClocks clocks(record.model.items.size());
  const auto take = [&](const std::vector<Observation>& observations) {
    for (Observation one : observations) {
      if (clocks.pass(one)) arrivals.push_back(one);
    }
  };
  HW_TRY(kept.read_log(
      [&](const LogPiece& piece) -> Result<void> {
        HW_TAKE(observations, counters::unpack(piece.payload));
        take(observations);
        return {};
      },
      !is_begin));
  counters::RelevantOnly relevant(record.model, record.settings.counting);
  if (!relevant.restore(record.state.relevant)) {
    return refuse(ErrorCode::corrupt, "the stored count of {} does not say what was left out of its log",
                  kept.record.machine);
  }
  std::vector<Observation> passed_over;
  relevant.flush(passed_over);
  take(passed_over);
  std::stable_sort(arrivals.begin(), arrivals.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  return arrivals;
}

std::string totals_text(const counters::Snapshot& snapshot) {
  std::vector<std::string> lines;
  for (const auto& total : snapshot.totals) {
    lines.push_back(fmt::format("{} {} {} {} {}\n", print(total.key), total.tally.counted_ns(),
                                total.tally.unknown_ns(), total.tally.filled_ns, total.tally.amount));
  }
  std::sort(lines.begin(), lines.end());
  return fmt::format("{}", fmt::join(lines, ""));
}

void add_carried(DayRecord& day, const Carried& carried, const std::string& counter) {
  const auto found = carried.of_day.find(counter);
  if (carried.day != day.on || found == carried.of_day.end()) return;
  day.counted_ns += found->second.counted_ns;
  day.unknown_ns += found->second.unknown_ns;
  day.filled_ns += found->second.filled_ns;
  day.amount += found->second.amount;
}

// A counter that the present model has not, on the day on which the model changed.
void take_carried_day(Recounted& out, const Carried& carried) {
  if (!carried.day || *carried.day < out.first_day || *carried.day >= out.open_day) return;
  for (const auto& [counter, amount] : carried.of_day) {
    DayRecord row{*carried.day, amount.counted_ns, amount.unknown_ns, amount.filled_ns, amount.amount};
    if (row != DayRecord{*carried.day, 0, 0, 0, 0}) out.days.try_emplace({counter, *carried.day}, row);
  }
}

void take_days(Recounted& out, const counters::Snapshot& snapshot, const Carried& carried) {
  for (const auto& day : snapshot.days) {
    if (day.date >= out.open_day) continue;
    DayRecord row{day.date, day.counted_ns, day.unknown_ns, day.filled_ns, day.amount};
    add_carried(row, carried, print(day.key));
    out.days[{print(day.key), day.date}] = row;
  }
  take_carried_day(out, carried);
}

}  // namespace

Result<bool> is_of_model(const KeptCount& kept, const std::string& checkpoint, const Zone& zone) {
  HW_TAKE(record, open_record(kept, zone));
  HW_TAKE(state, parse_machine_state(checkpoint));
  const auto live = LiveCount::restore(record.model, record.settings, state.live);
  return live && live->begin() == record.live.begin();
}

Result<Recounted> recount(const KeptCount& kept, const Zone& zone, Instant now) {
  HW_TAKE(record, open_record(kept, zone));
  HW_TAKE(base, base_of(kept, record));
  HW_TAKE(arrivals, logged(kept, record, base.is_begin));
  const Instant until = record.live.settled_until();
  Recounted out;
  out.is_whole = base.is_begin;
  out.open_day = zone.date_of(until);
  out.first_day = zone.date_of(base.live.settled_until());
  out.totals_kept = totals_text(record.live.snapshot(until));
  LiveCount onward = base.live;
  onward.alive_until(std::max(until, kept.alive_at));
  onward.take(arrivals, now);
  out.state = print(MachineState{record.state.carried, {}, record.state.relevant, onward.save()});
  std::erase_if(arrivals, [&](const Observation& one) { return one.at > until; });
  base.live.alive_until(until);
  base.live.take(arrivals, until);
  const counters::Snapshot made = base.live.snapshot(until);
  out.totals_made = totals_text(made);
  take_days(out, made, record.state.carried);
  return out;
}

}  // namespace hw::service
