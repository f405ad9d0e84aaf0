#include "src/storage/counting_rows.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "src/storage/catalogue_rows.h"

namespace hw::storage {
namespace {

using service::CountingStep;
using service::DayRecord;
using service::FeedPosition;
using service::LogPiece;
using service::MessagePosition;

std::span<const std::byte> bytes_of(const std::string& text) { return std::as_bytes(std::span{text}); }

std::string text_of(const sql::Blob& blob) { return {reinterpret_cast<const char*>(blob.data()), blob.size()}; }

// Sequence numbers use all 64 bits without sign, which no column does: they are kept as text.
std::uint64_t number_of(std::string_view text) {
  std::uint64_t number = 0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

// Each day of a step comes once. A step of every few seconds has one day of each counter that moves; one that catches
// up on weeks has thousands.
Result<void> put_days(sql::Connection& db, const CountingStep& step) {
  const auto has_days = [](const auto& machine) { return !machine.changed_days.empty(); };
  if (std::none_of(step.machines.begin(), step.machines.end(), has_days)) return {};
  HW_TAKE(rows,
          db.begin_rows({"counter_day",
                         {"plant", "machine", "counter", "day_on", "counted_ns", "unknown_ns", "filled_ns", "amount"},
                         {"plant", "machine", "counter", "day_on"}}));
  for (const auto& machine : step.machines) {
    for (const auto& counter : machine.changed_days) {
      for (const DayRecord& day : counter.days) {
        HW_TRY(
            rows->add(std::array<sql::Parameter, 8>{db.tenant(), machine.record.machine, counter.counter, day.on.days,
                                                    day.counted_ns, day.unknown_ns, day.filled_ns, day.amount}));
      }
    }
  }
  HW_TRY(rows->end());
  return {};
}

Result<void> add_to_log(sql::Connection& db, const std::string& machine, const LogPiece& piece) {
  HW_TRY(
      db.execute("insert into observation_log(plant, machine, piece, first_ns, last_ns, payload) "
                 "select $1, $2, coalesce(max(piece), 0) + 1, $3, $4, $5 from observation_log "
                 "where plant = $1 and machine = $2",
                 db.tenant(), machine, piece.first_at.ns, piece.last_at.ns, bytes_of(piece.payload)));
  return {};
}

Result<void> put_checkpoint(sql::Connection& db, const service::CountingRecord& record, LocalDate on) {
  HW_TRY(
      db.execute("insert into checkpoint(plant, machine, checkpoint_on, piece, state) select $1, $2, $3, "
                 "coalesce(max(piece), 0), $4 from observation_log where plant = $1 and machine = $2 "
                 "on conflict(plant, machine, checkpoint_on) do update set piece = excluded.piece, "
                 "state = excluded.state",
                 db.tenant(), record.machine, on.days, bytes_of(record.state)));
  return {};
}

Result<void> put_machine(sql::Connection& db, const CountingStep::Machine& machine) {
  const auto& record = machine.record;
  HW_TRY(
      db.execute("insert into counting_state(plant, machine, model, state) values($1, $2, $3, $4) "
                 "on conflict(plant, machine) do update set model = excluded.model, state = excluded.state",
                 db.tenant(), record.machine, record.model, bytes_of(record.state)));
  for (const auto& piece : machine.log) HW_TRY(add_to_log(db, record.machine, piece));
  if (machine.checkpoint_on) HW_TRY(put_checkpoint(db, record, *machine.checkpoint_on));
  return {};
}

Result<void> put_message_position(sql::Connection& db, const MessagePosition& position) {
  HW_TRY(db.execute(
      "insert into message_position(plant, machine, run, next_sequence, alive_ns) values($1, $2, $3, $4, $5) "
      "on conflict(plant, machine) do update set run = excluded.run, "
      "next_sequence = excluded.next_sequence, alive_ns = excluded.alive_ns",
      db.tenant(), position.machine, position.run, std::to_string(position.next_sequence), position.alive_at.ns));
  return {};
}

}  // namespace

Result<void> put_counting(sql::Connection& db, const CountingStep& step) {
  for (const auto& machine : step.machines) HW_TRY(put_machine(db, machine));
  HW_TRY(put_days(db, step));
  for (const FeedPosition& position : step.positions) {
    HW_TRY(db.execute(
        "insert into feed_position(plant, feed, instance_id, next_sequence, last_sign_ms) values($1, $2, $3, $4, $5) "
        "on conflict(plant, feed) do update set instance_id = excluded.instance_id, "
        "next_sequence = excluded.next_sequence, last_sign_ms = excluded.last_sign_ms",
        db.tenant(), position.feed, std::to_string(position.instance_id), std::to_string(position.next_sequence),
        position.last_sign_at.as_millis()));
  }
  for (const MessagePosition& position : step.message_positions) HW_TRY(put_message_position(db, position));
  return {};
}

Result<std::vector<service::CountingRecord>> read_counting(sql::Connection& db) {
  std::vector<service::CountingRecord> records;
  HW_TAKE(rows, db.query("select machine, model, state from counting_state where plant = $1", db.tenant()));
  while (rows.next()) {
    records.push_back({rows.get<std::string>(0), rows.get<std::string>(1), text_of(rows.get<sql::Blob>(2))});
  }
  return records;
}

Result<std::vector<FeedPosition>> read_positions(sql::Connection& db) {
  std::vector<FeedPosition> positions;
  HW_TAKE(rows, db.query("select feed, instance_id, next_sequence, last_sign_ms from feed_position where plant = $1",
                         db.tenant()));
  while (rows.next()) {
    positions.push_back({rows.get<std::string>(0), number_of(rows.get<std::string_view>(1)),
                         number_of(rows.get<std::string_view>(2)), Instant::from_millis(rows.get<std::int64_t>(3))});
  }
  return positions;
}

Result<std::vector<MessagePosition>> read_message_positions(sql::Connection& db) {
  std::vector<MessagePosition> positions;
  HW_TAKE(rows,
          db.query("select machine, run, next_sequence, alive_ns from message_position where plant = $1", db.tenant()));
  while (rows.next()) {
    positions.push_back({rows.get<std::string>(0), rows.get<std::string>(1), number_of(rows.get<std::string_view>(2)),
                         Instant{rows.get<std::int64_t>(3)}});
  }
  return positions;
}

Result<std::vector<DayRecord>> read_days(sql::Connection& db, std::string_view machine, std::string_view counter,
                                         LocalDate first, LocalDate last) {
  std::vector<DayRecord> days;
  HW_TAKE(rows,
          db.query("select day_on, counted_ns, unknown_ns, filled_ns, amount from counter_day where plant = $1 and "
                   "machine = $2 and counter = $3 and day_on between $4 and $5 order by day_on",
                   db.tenant(), machine, counter, first.days, last.days));
  while (rows.next()) {
    days.push_back({LocalDate{rows.get<int>(0)}, rows.get<std::int64_t>(1), rows.get<std::int64_t>(2),
                    rows.get<std::int64_t>(3), rows.get<double>(4)});
  }
  return days;
}

Result<std::optional<service::Store::Checkpoint>> read_checkpoint(sql::Connection& db, std::string_view machine,
                                                                  LocalDate on) {
  using Checkpoint = service::Store::Checkpoint;
  HW_TAKE(rows, db.query("select checkpoint_on, state from checkpoint where plant = $1 and machine = $2 and "
                         "checkpoint_on <= $3 order by checkpoint_on desc limit 1",
                         db.tenant(), machine, on.days));
  if (!rows.next()) return std::optional<Checkpoint>{};
  return std::optional{Checkpoint{LocalDate{rows.get<int>(0)}, text_of(rows.get<sql::Blob>(1))}};
}

Result<void> read_log(sql::Connection& db, std::string_view machine, std::optional<LocalDate> after_checkpoint,
                      const std::function<Result<void>(const LogPiece&)>& take) {
  const std::int64_t on = after_checkpoint ? std::int64_t{after_checkpoint->days} : INT64_MIN;
  HW_TAKE(rows, db.query("select first_ns, last_ns, payload from observation_log where plant = $1 and machine = $2 and "
                         "piece > coalesce((select piece from checkpoint where plant = $1 and machine = $2 and "
                         "checkpoint_on = $3), 0) order by piece",
                         db.tenant(), machine, on));
  while (rows.next()) {
    HW_TRY(take(
        {Instant{rows.get<std::int64_t>(0)}, Instant{rows.get<std::int64_t>(1)}, text_of(rows.get<sql::Blob>(2))}));
  }
  return {};
}

}  // namespace hw::storage
