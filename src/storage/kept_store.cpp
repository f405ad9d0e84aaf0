#include "src/storage/kept_store.h"

#include "libs/sql/storage_failed.h"
#include "src/storage/access_rows.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/counting_rows.h"
#include "src/storage/device_rows.h"
#include "src/storage/edge_taking.h"
#include "src/storage/entry_pages.h"
#include "src/storage/entry_rows.h"
#include "src/storage/finding_rows.h"
#include "src/storage/grant_files.h"
#include "src/storage/grant_rows.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/photo_rows.h"
#include "src/storage/stop_rows.h"
#include "src/storage/walk_rows.h"

namespace hw::storage {
namespace {

// One transaction on a writing connection; nobody else of this process writes for the plant until it is gone.
class KeptWriting : public service::Writing {
 public:
  KeptWriting(std::unique_lock<std::mutex> turn, ConnectionPool::Taken db, sql::Transaction transaction)
      : turn_(std::move(turn)), taken_(std::move(db)), db_(*taken_), transaction_(std::move(transaction)) {}

  Result<void> add_entry(service::Entry& entry) override { return insert_entry(db_, entry); }
  Result<void> put_task(const std::string& machine, const service::TaskRecord& record) override {
    return storage::put_task(db_, machine, record);
  }
  Result<void> add_hour_reading(const service::HourReading& reading) override {
    return insert_hour_reading(db_, reading);
  }
  Result<void> settle_hour_reading(const std::string& reading, const std::string& settled_as,
                                   const std::string& entry) override {
    return insert_settlement(db_, reading, settled_as, entry);
  }
  Result<void> add_adjustment(const service::Adjustment& adjustment) override {
    return insert_adjustment(db_, adjustment);
  }
  Result<void> put_counting(const service::CountingStep& step) override { return storage::put_counting(db_, step); }
  Result<void> put_points(const std::string& machine, const std::vector<catalogue::Point>& points) override {
    return storage::put_points(db_, machine, points);
  }
  Result<void> put_walk(const std::string& machine, const std::vector<int>& walk) override {
    return storage::put_walk(db_, machine, walk);
  }
  Result<void> add_photo(const service::Photo& photo) override { return insert_photo(db_, photo); }

  Result<void> add_device(const service::Device& device) override { return insert_device(db_, device); }
  Result<void> end_device(const service::DeviceEnd& end) override { return insert_device_end(db_, end); }
  Result<void> see_device(const std::string& device, LocalDate on) override { return put_device_seen(db_, device, on); }

  Result<void> put_access(const service::AccessRows& rows) override { return storage::put_access(db_, rows); }

  Result<void> commit() override { return transaction_.commit(); }

 private:
  std::unique_lock<std::mutex> turn_;  // given back after the transaction has ended
  ConnectionPool::Taken taken_;
  sql::Connection& db_;
  sql::Transaction transaction_;
};

}  // namespace

// The right to write for the plant in one transaction, which nobody else in the world has.
class KeptStore::Turn {
 public:
  Turn(std::unique_lock<std::mutex> turn, ConnectionPool::Taken db, sql::Transaction transaction)
      : turn_(std::move(turn)), db_(std::move(db)), transaction_(std::move(transaction)) {}
  sql::Connection& db() { return *db_; }
  Result<void> commit() { return transaction_.commit(); }
  std::unique_ptr<service::Writing> writing() && {
    return std::make_unique<KeptWriting>(std::move(turn_), std::move(db_), std::move(transaction_));
  }

 private:
  std::unique_lock<std::mutex> turn_;
  ConnectionPool::Taken db_;
  sql::Transaction transaction_;
};

KeptStore::~KeptStore() {
  if (!lease_) return;
  try {
    (void)at_.hold->give_up(at_.plant, *lease_);
  } catch (const sql::StorageFailed&) {
    // the sign of this server ends by itself
  }
}

Result<KeptStore::Turn> KeptStore::take_turn() {
  std::unique_lock turn(writing_);
  HW_TAKE(db, at_.writers->take(at_.plant));
  HW_TAKE(transaction, sql::Transaction::begin(*db));
  return Turn(std::move(turn), std::move(db), std::move(transaction));
}

Result<KeptStore::Turn> KeptStore::take_leased_turn() {
  HW_TAKE(turn, take_turn());
  if (is_on_server()) {
    if (!lease_) {
      HW_TAKE(taken, at_.hold->take(at_.plant));
      lease_ = taken;
    }
    HW_TRY(check_lease(turn.db(), lease_.value_or(Lease{})));
  }
  return std::move(turn);
}

Result<std::unique_ptr<service::Writing>> KeptStore::begin() {
  HW_TAKE(turn, take_leased_turn());
  return std::move(turn).writing();
}

Result<void> KeptStore::write(const Step& step) {
  HW_TAKE(turn, take_leased_turn());
  HW_TRY(step(turn.db()));
  return turn.commit();
}

Result<void> KeptStore::read(const Step& step) {
  HW_TAKE(db, reader());
  HW_TAKE(snapshot, sql::Transaction::begin(*db));
  HW_TRY(step(*db));
  return snapshot.commit();
}

Result<void> KeptStore::create_shop(const service::ShopRecord& shop,
                                    const std::vector<service::MachineRecord>& machines) {
  HW_TAKE(turn, take_turn());
  HW_TRY(insert_shop(turn.db(), shop));
  int ordinal = 0;
  for (const auto& machine : machines) HW_TRY(insert_machine(turn.db(), machine, ordinal++));
  return turn.commit();
}

Result<void> KeptStore::create_awaiting(const service::ShopRecord& shop) {
  HW_TAKE(turn, take_turn());
  HW_TRY(insert_shop(turn.db(), shop));
  HW_TRY(await_shipments(turn.db()));
  return turn.commit();
}

Result<std::optional<service::ShipmentTaken>> KeptStore::edge_taken() {
  HW_TAKE(db, reader());
  return read_taken(*db);
}

Result<std::optional<service::PiecesHere>> KeptStore::pieces_here() {
  HW_TAKE(db, reader());
  return read_pieces(*db);
}

// What can never become a shipment is forgotten, or the next pieces would come to nothing too.
Result<bool> KeptStore::take_piece(const service::ShipmentPiece& piece, Instant now) {
  HW_TRY(check_piece(piece));
  bool is_taken = false;
  const auto taken = write([&](sql::Connection& db) -> Result<void> {
    HW_TAKE(earlier, reader());
    HW_TAKE(all_here, storage::take_piece({db, *earlier}, piece, now));
    is_taken = all_here;
    return {};
  });
  if (taken) return is_taken;
  if (taken.error().code != ErrorCode::not_found) HW_TRY(write(forget_pieces));
  return refuse(taken.error());
}

Result<std::optional<service::ShopRecord>> KeptStore::shop() {
  HW_TAKE(db, reader());
  return read_shop(*db);
}

Result<std::vector<service::MachineRecord>> KeptStore::machines() {
  HW_TAKE(db, reader());
  HW_TAKE(machines, read_machines(*db));
  for (auto& record : machines) {
    HW_TAKE(tasks, tasks_of(record.machine.key));
    record.tasks = std::move(tasks);
  }
  return std::move(machines);
}

Result<std::vector<service::TaskRecord>> KeptStore::tasks_of(std::string_view machine) {
  HW_TAKE(db, reader());
  HW_TAKE(tasks, read_tasks(*db, machine));
  for (service::TaskRecord& task : tasks) {
    HW_TAKE(entry, read_last_done(*db, machine, task.task.key));
    task.last_done = std::move(entry);
  }
  return std::move(tasks);
}

Result<std::optional<service::Entry>> KeptStore::entry(std::string_view id) {
  HW_TAKE(db, reader());
  return read_entry(*db, id);
}

Result<std::vector<service::Entry>> KeptStore::entries_of(std::string_view machine, int count_max) {
  HW_TAKE(db, reader());
  return read_entries(*db, machine, count_max);
}

Result<std::optional<service::Entry>> KeptStore::last_done(std::string_view machine, std::string_view task) {
  HW_TAKE(db, reader());
  return read_last_done(*db, machine, task);
}

Result<std::vector<service::Entry>> KeptStore::doings_of(std::string_view machine, std::string_view task) {
  HW_TAKE(db, reader());
  return read_doings(*db, machine, task);
}

Result<std::vector<service::WalkRecord>> KeptStore::latest_walks_of(std::string_view machine, Duration back) {
  HW_TAKE(db, reader());
  return read_latest_walks(*db, machine, back);
}

Result<std::optional<service::WalkRecord>> KeptStore::walk(std::string_view machine, std::string_view id) {
  HW_TAKE(db, reader());
  return read_walk(*db, machine, id);
}

Result<std::vector<service::AnswerRecord>> KeptStore::readings_of(std::string_view machine, std::string_view check,
                                                                  int count_max) {
  HW_TAKE(db, reader());
  return read_readings(*db, machine, check, count_max);
}

Result<std::vector<service::Entry>> KeptStore::measured_doings_of(std::string_view machine, std::string_view task,
                                                                  int count_max) {
  HW_TAKE(db, reader());
  return read_measured_doings(*db, machine, task, count_max);
}

Result<std::vector<service::HourReading>> KeptStore::hour_readings_of(std::string_view machine) {
  HW_TAKE(db, reader());
  return read_hour_readings(*db, machine);
}

Result<std::vector<service::Adjustment>> KeptStore::adjustments_of(std::string_view machine) {
  HW_TAKE(db, reader());
  return read_adjustments(*db, machine);
}

Result<std::optional<service::Photo>> KeptStore::photo(std::string_view id) {
  HW_TAKE(db, reader());
  return read_photo(*db, id);
}

Result<std::vector<service::Entry>> KeptStore::entries(const service::EntryFilter& filter, int count_max) {
  HW_TAKE(db, reader());
  return read_entries(*db, filter, count_max);
}

Result<std::int64_t> KeptStore::stray_count() {
  HW_TAKE(db, reader());
  return count_strays(*db);
}

Result<record::Verdict> KeptStore::verdict() {
  record::Verdict verdict;
  const auto step = [&](sql::Connection& db) -> Result<void> {  // rows and head of one moment
    HW_TAKE(read, read_verdict(db, {}));
    verdict = std::move(read);
    return {};
  };
  HW_TRY(read(step));
  return verdict;
}

Result<std::optional<service::Finding>> KeptStore::finding(std::string_view id) {
  HW_TAKE(db, reader());
  return read_finding(*db, id);
}

Result<std::vector<service::Entry>> KeptStore::entries_about(std::string_view finding) {
  HW_TAKE(db, reader());
  return read_entries_about(*db, finding);
}

Result<std::vector<service::Finding>> KeptStore::open_findings(const std::optional<std::string>& machine) {
  HW_TAKE(db, reader());
  return read_open_findings(*db, machine);
}

Result<std::vector<service::Finding>> KeptStore::settled_findings(const std::optional<std::string>& machine,
                                                                  int count_max) {
  HW_TAKE(db, reader());
  return read_settled_findings(*db, machine, count_max);
}

Result<std::optional<service::Stop>> KeptStore::stop(std::string_view id) {
  HW_TAKE(db, reader());
  return read_stop(*db, id);
}

Result<std::vector<service::Stop>> KeptStore::agreed_stops(const std::optional<std::string>& machine) {
  HW_TAKE(db, reader());
  return read_agreed_stops(*db, machine);
}

Result<std::vector<service::Stop>> KeptStore::past_stops(const std::optional<std::string>& machine,
                                                         std::optional<service::StopState> only, int count_max) {
  HW_TAKE(db, reader());
  return read_past_stops(*db, machine, only, count_max);
}

Result<std::vector<service::CountingRecord>> KeptStore::counting() {
  HW_TAKE(db, reader());
  return read_counting(*db);
}

Result<std::vector<service::FeedPosition>> KeptStore::positions() {
  HW_TAKE(db, reader());
  return read_positions(*db);
}

Result<std::vector<service::MessagePosition>> KeptStore::message_positions() {
  HW_TAKE(db, reader());
  return read_message_positions(*db);
}

Result<std::vector<service::DayRecord>> KeptStore::days_of(std::string_view machine, std::string_view counter,
                                                           LocalDate first, LocalDate last) {
  HW_TAKE(db, reader());
  return read_days(*db, machine, counter, first, last);
}

Result<std::optional<service::Store::Checkpoint>> KeptStore::checkpoint_of(std::string_view machine, LocalDate on) {
  HW_TAKE(db, reader());
  return read_checkpoint(*db, machine, on);
}

Result<void> KeptStore::read_log(std::string_view machine, std::optional<LocalDate> after_checkpoint,
                                 const std::function<Result<void>(const service::LogPiece&)>& take) {
  HW_TAKE(db, reader());
  return storage::read_log(*db, machine, after_checkpoint, take);
}

// A file's writer says it by itself; of a server nothing is known before it is asked.
std::optional<Error> KeptStore::failure() {
  if (!is_on_server()) return at_.writers->failure();
  try {
    const auto db = reader();
    if (!db) return db.error();
    const auto answer = (*db)->query_value<std::int64_t>("select cast(1 as bigint)");
    return answer ? std::nullopt : std::optional{answer.error()};
  } catch (const sql::StorageFailed& failed) {
    return failed.error();
  }
}

Result<std::vector<service::Device>> KeptStore::devices() {
  HW_TAKE(db, reader());
  return read_devices(*db);
}

Result<service::AccessRows> KeptStore::access_rows() {
  HW_TAKE(db, reader());
  return read_access(*db);
}

Result<std::vector<service::AccessNote>> KeptStore::access_notes(int count_max) {
  HW_TAKE(db, reader());
  return read_access_notes(*db, count_max);
}

Result<std::optional<service::Grant>> KeptStore::grant(const std::string& secret_hash) {
  if (!is_on_server()) return read_grant(at_.folder, secret_hash);
  HW_TAKE(db, reader());
  return read_grant(*db, secret_hash);
}

Result<void> KeptStore::drop_grant(const std::string& secret_hash) {
  if (!is_on_server()) return storage::drop_grant(at_.folder, secret_hash);
  HW_TAKE(db, at_.writers->take(at_.plant));
  return delete_grant(*db, secret_hash);
}

}  // namespace hw::storage
