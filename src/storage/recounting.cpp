#include "src/storage/recounting.h"

#include <algorithm>
#include <map>

#include "libs/values/sha256.h"
#include "src/service/recounted.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/counting_rows.h"

namespace hw::storage {
namespace {

using service::DayRecord;
using service::KeptCount;
using service::Recounted;
using Days = std::map<std::pair<std::string, LocalDate>, DayRecord>;

// The earliest checkpoint of the present model. Few are of an earlier one: they are at the beginning.
Result<std::optional<service::Store::Checkpoint>> first_of_model(sql::Connection& db, const KeptCount& kept,
                                                                 const Zone& zone) {
  HW_TAKE(rows, db.query("select checkpoint_on, state from checkpoint where plant = $1 and machine = $2 order by "
                         "checkpoint_on",
                         db.tenant(), kept.record.machine));
  while (rows.next()) {
    const auto bytes = rows.get<sql::Blob>(1);
    std::string state(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    HW_TAKE(is_of_it, service::is_of_model(kept, state, zone));
    if (is_of_it) {
      return std::optional{service::Store::Checkpoint{LocalDate{rows.get<int>(0)}, std::move(state)}};
    }
  }
  return std::optional<service::Store::Checkpoint>{};
}

Result<Days> kept_days(sql::Connection& db, const std::string& machine, LocalDate first, LocalDate open_day) {
  Days days;
  HW_TAKE(rows, db.query("select counter, day_on, counted_ns, unknown_ns, filled_ns, amount from counter_day where "
                         "plant = $1 and machine = $2 and day_on >= $3 and day_on < $4",
                         db.tenant(), machine, first.days, open_day.days));
  while (rows.next()) {
    const LocalDate on{rows.get<int>(1)};
    days[{rows.get<std::string>(0), on}] = {on, rows.get<std::int64_t>(2), rows.get<std::int64_t>(3),
                                            rows.get<std::int64_t>(4), rows.get<double>(5)};
  }
  return days;
}

std::string text_of(const std::string& machine, const Days& days, const std::string& totals) {
  std::string text = machine + "\n" + totals;
  for (const auto& [key, day] : days) {
    text += fmt::format("{} {} {} {} {} {}\n", key.first, print(day.on), day.counted_ns, day.unknown_ns, day.filled_ns,
                        day.amount);
  }
  return text;
}

std::optional<LocalDate> first_difference(const Days& kept, const Days& made) {
  std::optional<LocalDate> first;
  const auto look = [&](const Days& there, const Days& other) {
    for (const auto& [key, day] : there) {
      const auto found = other.find(key);
      if (found != other.end() && found->second == day) continue;
      first = std::min(first.value_or(key.second), key.second);
    }
  };
  look(kept, made);
  look(made, kept);
  return first;
}

// What was kept gives way to what was made; the present day's rows follow with the next counting.
Result<void> write_counts(sql::Connection& db, const KeptCount& kept, const Recounted& made, LocalDate from) {
  const std::string& machine = kept.record.machine;
  HW_TRY(db.execute("delete from counter_day where plant = $1 and machine = $2 and day_on >= $3", db.tenant(), machine,
                    made.first_day.days));
  HW_TRY(
      db.execute("delete from checkpoint where plant = $1 and machine = $2 and checkpoint_on >= $3 and "
                 "checkpoint_on > (select min(checkpoint_on) from checkpoint where plant = $1 and machine = $2)",
                 db.tenant(), machine, from.days));
  service::CountingStep::Machine part;
  part.record = kept.record;
  part.record.state = made.state;
  for (const auto& [key, day] : made.days) part.changed_days.push_back({key.first, {day}});
  return put_counting(db, {{std::move(part)}, {}});
}

struct Texts {
  Sha256Stream before;
  Sha256Stream after;
};

Result<void> rebuild_machine(sql::Connection& db, KeptCount& kept, const Zone& zone, Instant now, Texts& texts,
                             service::RebuiltPart& part) {
  const std::string& machine = kept.record.machine;
  HW_TAKE(checkpoint, first_of_model(db, kept, zone));
  kept.first_checkpoint = std::move(checkpoint);
  kept.read_log = [&](const auto& take, bool after_checkpoint) {
    const auto on = after_checkpoint && kept.first_checkpoint ? std::optional{kept.first_checkpoint->on} : std::nullopt;
    return read_log(db, machine, on, [&](const service::LogPiece& piece) -> Result<void> {
      ++part.read;
      return take(piece);
    });
  };
  HW_TAKE(made, service::recount(kept, zone, now));
  HW_TAKE(days, kept_days(db, machine, made.first_day, made.open_day));
  texts.before.add(text_of(machine, days, made.totals_kept));
  texts.after.add(text_of(machine, made.days, made.totals_made));
  if (!made.is_whole) {
    part.kept.push_back(fmt::format("{}: what was counted before {} was counted with other data items and stays",
                                    machine, print(made.first_day)));
  }
  const auto differs_on = first_difference(days, made.days);
  if (!differs_on && made.totals_kept == made.totals_made) return {};
  part.differences.push_back(
      differs_on ? fmt::format("{}: days from {} on were counted otherwise", machine, print(*differs_on))
                 : fmt::format("{}: totals were counted otherwise", machine));
  return write_counts(db, kept, made, differs_on.value_or(made.open_day));
}

// Up to when the machine's feed had told everything: its own position, or that of the feed as a whole.
class LastSigns {
 public:
  static Result<LastSigns> read(sql::Connection& db) {
    LastSigns signs;
    HW_TAKE(feeds, read_positions(db));
    for (const auto& one : feeds) signs.by_feed_[one.feed] = one.last_sign_at;
    HW_TAKE(machines, read_message_positions(db));
    for (const auto& one : machines) signs.by_machine_[one.machine] = one.alive_at;
    return signs;
  }
  Instant of(const service::MachineRecord& machine) const {
    const auto own = by_machine_.find(machine.machine.key);
    if (own != by_machine_.end()) return own->second;
    const auto feed = by_feed_.find(machine.feed.value_or(""));
    return feed == by_feed_.end() ? Instant{} : feed->second;
  }

 private:
  std::map<std::string, Instant> by_feed_, by_machine_;
};

}  // namespace

Result<service::RebuiltPart> rebuild_counts(sql::Connection& db, Instant now) {
  service::RebuiltPart part;
  part.name = "pieces of observations";
  HW_TAKE(shop, read_shop(db));
  if (!shop) return refuse(ErrorCode::not_found, "no shop has been founded here");
  HW_TAKE(records, read_counting(db));
  HW_TAKE(machines, read_machines(db));
  HW_TAKE(signs, LastSigns::read(db));
  Texts texts;
  for (const auto& machine : machines) {
    const auto record = std::find_if(records.begin(), records.end(),
                                     [&](const auto& one) { return one.machine == machine.machine.key; });
    if (record == records.end()) continue;  // nothing was counted of it yet
    KeptCount kept{*record, machine.machine.fills, signs.of(machine), {}, {}};
    HW_TRY(rebuild_machine(db, kept, shop->calendar.zone, now, texts, part));
  }
  part.before = print_hex(texts.before.end());
  part.after = print_hex(texts.after.end());
  return part;
}

}  // namespace hw::storage
