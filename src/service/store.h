#pragma once
// What the service needs from whoever keeps things. A success is on disk when it is returned. A broken disk is an
// sql::StorageFailed, which only the edge catches; everything else is a Result.

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "libs/sql/value.h"
#include "src/record/verify.h"
#include "src/service/access_rows.h"
#include "src/service/device_records.h"
#include "src/service/finding.h"
#include "src/service/logbook.h"
#include "src/service/records.h"
#include "src/service/shipments.h"
#include "src/service/stop.h"
#include "src/service/walk_record.h"

namespace hw::service {

// How far a feed has been read, as of the counters that are stored with it.
struct FeedPosition {
  std::string feed;
  std::uint64_t instance_id = 0;
  std::uint64_t next_sequence = 0;
  Instant last_sign_at;
  bool operator==(const FeedPosition&) const = default;
};

// The same of one machine, where its messages have a position of their own; see feeds::RunPosition.
struct MessagePosition {
  std::string machine;
  std::string run;
  std::uint64_t next_sequence = 0;
  Instant alive_at;
  bool operator==(const MessagePosition&) const = default;
};

// What counting has to keep of a machine, as of one moment.
struct CountingRecord {
  std::string machine;
  std::string model;  // counters::MachineModel as JSON
  std::string state;  // counters::LiveCount::save()
};

// One counter of one machine and its days.
struct CounterDays {
  std::string counter;
  std::vector<DayRecord> days;
};

// Observations as they arrived, in the compact form of counters; never changed.
struct LogPiece {
  Instant first_at;
  Instant last_at;
  std::string payload;
};

// A piece of counting's progress. All of it becomes durable in one transaction, or none.
struct CountingStep {
  struct Machine {
    CountingRecord record;
    std::vector<CounterDays> changed_days;
    std::vector<LogPiece> log;
    std::optional<LocalDate> checkpoint_on;  // also keep the state as that day's checkpoint
  };
  std::vector<Machine> machines;
  std::vector<FeedPosition> positions;
  std::vector<MessagePosition> message_positions = {};
};

// One transaction; undone unless commit() is called.
class Writing {
 public:
  virtual ~Writing() = default;
  // Gives it its ordinal and keeps it, with all that follows from it. Refuses (conflict) an id that is there.
  virtual Result<void> add_entry(Entry& entry) = 0;
  virtual Result<void> put_task(const std::string& machine, const TaskRecord& record) = 0;
  virtual Result<void> put_points(const std::string& machine, const std::vector<catalogue::Point>& points) = 0;
  virtual Result<void> put_walk(const std::string& machine, const std::vector<int>& walk) = 0;
  virtual Result<void> add_hour_reading(const HourReading& reading) = 0;
  virtual Result<void> settle_hour_reading(const std::string& reading, const std::string& settled_as,
                                           const std::string& entry) = 0;
  virtual Result<void> add_adjustment(const Adjustment& adjustment) = 0;
  virtual Result<void> put_counting(const CountingStep& step) = 0;
  virtual Result<void> add_photo(const Photo& photo) = 0;  // conflict where the id is there

  virtual Result<void> add_device(const Device& device) = 0;  // conflict where the id is there
  virtual Result<void> end_device(const DeviceEnd& end) = 0;  // conflict where it has ended
  virtual Result<void> see_device(const std::string& device, LocalDate on) = 0;
  virtual Result<void> put_access(const AccessRows& rows) = 0;

  virtual Result<void> commit() = 0;
};

class Store {
 public:
  virtual ~Store() = default;
  // Only one at a time: it waits for the one before.
  virtual Result<std::unique_ptr<Writing>> begin() = 0;

  virtual Result<void> create_shop(const ShopRecord& shop, const std::vector<MachineRecord>& machines) = 0;
  // A plant whose record is kept at its edge: this shop until the first shipment comes.
  virtual Result<void> create_awaiting(const ShopRecord& shop) = 0;
  virtual Result<std::optional<ShopRecord>> shop() = 0;  // nothing: no shop has been made yet
  virtual Result<std::vector<MachineRecord>> machines() = 0;
  virtual Result<std::vector<TaskRecord>> tasks_of(std::string_view machine) = 0;

  virtual Result<std::optional<Entry>> entry(std::string_view id) = 0;
  virtual Result<std::vector<Entry>> entries_of(std::string_view machine, int count_max) = 0;  // the latest first
  // The entry by which a task was done last: the latest by when it happened of those that nobody took back.
  virtual Result<std::optional<Entry>> last_done(std::string_view machine, std::string_view task) = 0;
  // Every entry by which a task was done, of those that nobody took back, in the order in which they happened.
  virtual Result<std::vector<Entry>> doings_of(std::string_view machine, std::string_view task) = 0;
  // The machine's walks with their answers: those that began, or were answered on, in the last `back` before its latest
  // walk or answer; and one walk, nothing where the machine has none of that id.
  virtual Result<std::vector<WalkRecord>> latest_walks_of(std::string_view machine, Duration back) = 0;
  virtual Result<std::optional<WalkRecord>> walk(std::string_view machine, std::string_view id) = 0;
  // What was read at a check, the latest first.
  virtual Result<std::vector<AnswerRecord>> readings_of(std::string_view machine, std::string_view check,
                                                        int count_max) = 0;
  // Entries by which a task was done and in which something was read in a stop or filled in, the latest first; none
  // that was taken back.
  virtual Result<std::vector<Entry>> measured_doings_of(std::string_view machine, std::string_view task,
                                                        int count_max) = 0;
  virtual Result<std::vector<HourReading>> hour_readings_of(std::string_view machine) = 0;  // the latest first
  virtual Result<std::vector<Adjustment>> adjustments_of(std::string_view machine) = 0;

  virtual Result<std::optional<Photo>> photo(std::string_view id) = 0;

  // The latest first.
  virtual Result<std::vector<Entry>> entries(const EntryFilter& filter, int count_max) = 0;
  virtual Result<std::int64_t> stray_count() = 0;  // of those that nobody has corrected
  virtual Result<record::Verdict> verdict() = 0;   // is the logbook as it was written?
  virtual Result<std::optional<Finding>> finding(std::string_view id) = 0;
  virtual Result<std::vector<Entry>> entries_about(std::string_view finding) = 0;  // the oldest first
  // Of all machines where none is named; open ones in no order, settled ones the latest first.
  virtual Result<std::vector<Finding>> open_findings(const std::optional<std::string>& machine) = 0;
  virtual Result<std::vector<Finding>> settled_findings(const std::optional<std::string>& machine, int count_max) = 0;

  virtual Result<std::optional<Stop>> stop(std::string_view id) = 0;
  // Of all machines where none is named; agreed ones in no order, closed and withdrawn ones (of one state where it is
  // named) the latest first.
  virtual Result<std::vector<Stop>> agreed_stops(const std::optional<std::string>& machine) = 0;
  virtual Result<std::vector<Stop>> past_stops(const std::optional<std::string>& machine, std::optional<StopState> only,
                                               int count_max) = 0;

  virtual Result<std::vector<CountingRecord>> counting() = 0;
  virtual Result<std::vector<FeedPosition>> positions() = 0;
  virtual Result<std::vector<MessagePosition>> message_positions() = 0;
  virtual Result<std::vector<DayRecord>> days_of(std::string_view machine, std::string_view counter, LocalDate first,
                                                 LocalDate last) = 0;
  // The newest checkpoint of a machine at or before that day.
  struct Checkpoint {
    LocalDate on;
    std::string state;
  };
  virtual Result<std::optional<Checkpoint>> checkpoint_of(std::string_view machine, LocalDate on) = 0;
  // The machine's observations in order of arrival, from the piece after that checkpoint on (from the first without
  // one).
  virtual Result<void> read_log(std::string_view machine, std::optional<LocalDate> after_checkpoint,
                                const std::function<Result<void>(const LogPiece&)>& take) = 0;

  // Why nothing more is kept until the program is started again: a write or a sync failed. Nothing while all is well.
  virtual std::optional<Error> failure() = 0;

  virtual Result<std::vector<Device>> devices() = 0;  // in the order in which they joined, ended ones too

  // All but the notes, and but sessions that ended.
  virtual Result<AccessRows> access_rows() = 0;
  virtual Result<std::vector<AccessNote>> access_notes(int count_max) = 0;  // the latest first
  // What the command line left for whoever comes with the secret of that hash; nothing where it left nothing.
  virtual Result<std::optional<Grant>> grant(const std::string& secret_hash) = 0;
  virtual Result<void> drop_grant(const std::string& secret_hash) = 0;

  // What came from the plant's edge; nothing where its record is kept here.
  virtual Result<std::optional<ShipmentTaken>> edge_taken() = 0;
  // Of the next shipment; nothing where none of it has come.
  virtual Result<std::optional<PiecesHere>> pieces_here() = 0;
  // Keeps a piece, and with the last one missing takes the shipment, all of it or nothing: true once it is taken. The
  // same again is the same. Refuses: not_found (the record is kept here), conflict (another number than the next one's,
  // or rows that do not go with those that are there), bad_input and corrupt (what came is no piece, or no shipment, or
  // was altered on its way; its pieces are forgotten then), unsupported (the edge runs another version).
  virtual Result<bool> take_piece(const ShipmentPiece& piece, Instant now) = 0;
};

}  // namespace hw::service
