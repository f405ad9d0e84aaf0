#include "src/storage/kept_store.h"

#include <exception>

#include "src/storage/access_rows.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/counting_rows.h"
#include "src/storage/device_rows.h"
#include "src/storage/entry_pages.h"
#include "src/storage/entry_rows.h"
#include "src/storage/finding_rows.h"
#include "src/storage/grant_files.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/photo_rows.h"
#include "src/storage/stop_rows.h"
#include "src/storage/walk_rows.h"

namespace hw::storage {
namespace {

// One transaction on the writing connection, which it holds until it is gone.
class KeptWriting : public service::Writing {
 public:
  KeptWriting(std::unique_lock<std::mutex> turn, sql::Connection& db, sql::Transaction transaction)
      : turn_(std::move(turn)), db_(db), transaction_(std::move(transaction)) {}

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
  sql::Connection& db_;
  sql::Transaction transaction_;
};

}  // namespace

Result<Readers::Reader> Readers::take() {
  {
    const std::lock_guard lock(mutex_);
    if (!idle_.empty()) {
      Reader reader{idle_.back().release(), {this}};
      idle_.pop_back();
      return reader;
    }
  }
  HW_TAKE(opened, open_(sql::Access::read));
  return Reader{opened.release(), {this}};
}

void Readers::GiveBack::operator()(sql::Connection* connection) const {
  const std::lock_guard lock(readers->mutex_);
  if (std::uncaught_exceptions() > 0) {  // a read failed: this connection refuses all further work, as others may
    delete connection;
    readers->idle_.clear();
    return;
  }
  readers->idle_.emplace_back(connection);
}

// A lost server may be there again; what was confirmed is on its disk. A disk that failed is not tried again.
void KeptStore::open_writer_again() {
  const auto failure = writer_->failure();
  if (!failure || failure->code != ErrorCode::unreachable) return;
  auto opened = open_(sql::Access::write);
  if (!opened) throw sql::StorageFailed(opened.error());
  writer_ = std::move(*opened);
}

Result<std::unique_ptr<service::Writing>> KeptStore::begin() {
  std::unique_lock turn(writing_);
  open_writer_again();
  HW_TAKE(transaction, sql::Transaction::begin(*writer_));
  return std::make_unique<KeptWriting>(std::move(turn), *writer_, std::move(transaction));
}

Result<void> KeptStore::create_shop(const service::ShopRecord& shop,
                                    const std::vector<service::MachineRecord>& machines) {
  const std::lock_guard turn(writing_);
  HW_TAKE(transaction, sql::Transaction::begin(*writer_));
  HW_TRY(insert_shop(*writer_, shop));
  int ordinal = 0;
  for (const auto& machine : machines) HW_TRY(insert_machine(*writer_, machine, ordinal++));
  return transaction.commit();
}

Result<std::optional<service::ShopRecord>> KeptStore::shop() {
  HW_TAKE(reader, readers_.take());
  return read_shop(*reader);
}

Result<std::vector<service::MachineRecord>> KeptStore::machines() {
  HW_TAKE(reader, readers_.take());
  HW_TAKE(machines, read_machines(*reader));
  for (auto& record : machines) {
    HW_TAKE(tasks, tasks_of(record.machine.key));
    record.tasks = std::move(tasks);
  }
  return std::move(machines);
}

Result<std::vector<service::TaskRecord>> KeptStore::tasks_of(std::string_view machine) {
  HW_TAKE(reader, readers_.take());
  HW_TAKE(tasks, read_tasks(*reader, machine));
  for (service::TaskRecord& task : tasks) {
    HW_TAKE(entry, read_last_done(*reader, machine, task.task.key));
    task.last_done = std::move(entry);
  }
  return std::move(tasks);
}

Result<std::optional<service::Entry>> KeptStore::entry(std::string_view id) {
  HW_TAKE(reader, readers_.take());
  return read_entry(*reader, id);
}

Result<std::vector<service::Entry>> KeptStore::entries_of(std::string_view machine, int count_max) {
  HW_TAKE(reader, readers_.take());
  return read_entries(*reader, machine, count_max);
}

Result<std::optional<service::Entry>> KeptStore::last_done(std::string_view machine, std::string_view task) {
  HW_TAKE(reader, readers_.take());
  return read_last_done(*reader, machine, task);
}

Result<std::vector<service::Entry>> KeptStore::doings_of(std::string_view machine, std::string_view task) {
  HW_TAKE(reader, readers_.take());
  return read_doings(*reader, machine, task);
}

Result<std::vector<service::WalkRecord>> KeptStore::latest_walks_of(std::string_view machine, Duration back) {
  HW_TAKE(reader, readers_.take());
  return read_latest_walks(*reader, machine, back);
}

Result<std::optional<service::WalkRecord>> KeptStore::walk(std::string_view machine, std::string_view id) {
  HW_TAKE(reader, readers_.take());
  return read_walk(*reader, machine, id);
}

Result<std::vector<service::AnswerRecord>> KeptStore::readings_of(std::string_view machine, std::string_view check,
                                                                  int count_max) {
  HW_TAKE(reader, readers_.take());
  return read_readings(*reader, machine, check, count_max);
}

Result<std::vector<service::Entry>> KeptStore::measured_doings_of(std::string_view machine, std::string_view task,
                                                                  int count_max) {
  HW_TAKE(reader, readers_.take());
  return read_measured_doings(*reader, machine, task, count_max);
}

Result<std::vector<service::HourReading>> KeptStore::hour_readings_of(std::string_view machine) {
  HW_TAKE(reader, readers_.take());
  return read_hour_readings(*reader, machine);
}

Result<std::vector<service::Adjustment>> KeptStore::adjustments_of(std::string_view machine) {
  HW_TAKE(reader, readers_.take());
  return read_adjustments(*reader, machine);
}

Result<std::optional<service::Photo>> KeptStore::photo(std::string_view id) {
  HW_TAKE(reader, readers_.take());
  return read_photo(*reader, id);
}

Result<std::vector<service::Entry>> KeptStore::entries(const service::EntryFilter& filter, int count_max) {
  HW_TAKE(reader, readers_.take());
  return read_entries(*reader, filter, count_max);
}

Result<std::int64_t> KeptStore::stray_count() {
  HW_TAKE(reader, readers_.take());
  return count_strays(*reader);
}

Result<record::Verdict> KeptStore::verdict() {
  HW_TAKE(reader, readers_.take());
  HW_TAKE(snapshot, sql::Transaction::begin(*reader));  // rows and head of one moment
  HW_TAKE(verdict, read_verdict(*reader, {}));
  HW_TRY(snapshot.commit());
  return std::move(verdict);
}

Result<std::optional<service::Finding>> KeptStore::finding(std::string_view id) {
  HW_TAKE(reader, readers_.take());
  return read_finding(*reader, id);
}

Result<std::vector<service::Entry>> KeptStore::entries_about(std::string_view finding) {
  HW_TAKE(reader, readers_.take());
  return read_entries_about(*reader, finding);
}

Result<std::vector<service::Finding>> KeptStore::open_findings(const std::optional<std::string>& machine) {
  HW_TAKE(reader, readers_.take());
  return read_open_findings(*reader, machine);
}

Result<std::vector<service::Finding>> KeptStore::settled_findings(const std::optional<std::string>& machine,
                                                                  int count_max) {
  HW_TAKE(reader, readers_.take());
  return read_settled_findings(*reader, machine, count_max);
}

Result<std::optional<service::Stop>> KeptStore::stop(std::string_view id) {
  HW_TAKE(reader, readers_.take());
  return read_stop(*reader, id);
}

Result<std::vector<service::Stop>> KeptStore::agreed_stops(const std::optional<std::string>& machine) {
  HW_TAKE(reader, readers_.take());
  return read_agreed_stops(*reader, machine);
}

Result<std::vector<service::Stop>> KeptStore::past_stops(const std::optional<std::string>& machine,
                                                         std::optional<service::StopState> only, int count_max) {
  HW_TAKE(reader, readers_.take());
  return read_past_stops(*reader, machine, only, count_max);
}

Result<std::vector<service::CountingRecord>> KeptStore::counting() {
  HW_TAKE(reader, readers_.take());
  return read_counting(*reader);
}

Result<std::vector<service::FeedPosition>> KeptStore::positions() {
  HW_TAKE(reader, readers_.take());
  return read_positions(*reader);
}

Result<std::vector<service::MessagePosition>> KeptStore::message_positions() {
  HW_TAKE(reader, readers_.take());
  return read_message_positions(*reader);
}

Result<std::vector<service::DayRecord>> KeptStore::days_of(std::string_view machine, std::string_view counter,
                                                           LocalDate first, LocalDate last) {
  HW_TAKE(reader, readers_.take());
  return read_days(*reader, machine, counter, first, last);
}

Result<std::optional<service::Store::Checkpoint>> KeptStore::checkpoint_of(std::string_view machine, LocalDate on) {
  HW_TAKE(reader, readers_.take());
  return read_checkpoint(*reader, machine, on);
}

Result<void> KeptStore::read_log(std::string_view machine, std::optional<LocalDate> after_checkpoint,
                                 const std::function<Result<void>(const service::LogPiece&)>& take) {
  HW_TAKE(reader, readers_.take());
  return storage::read_log(*reader, machine, after_checkpoint, take);
}

std::optional<Error> KeptStore::failure() {
  const std::lock_guard turn(writing_);
  try {
    open_writer_again();
  } catch (const sql::StorageFailed& failed) {
    return failed.error();
  }
  return writer_->failure();
}

Result<std::vector<service::Device>> KeptStore::devices() {
  HW_TAKE(reader, readers_.take());
  return read_devices(*reader);
}

Result<service::AccessRows> KeptStore::access_rows() {
  HW_TAKE(reader, readers_.take());
  return read_access(*reader);
}

Result<std::vector<service::AccessNote>> KeptStore::access_notes(int count_max) {
  HW_TAKE(reader, readers_.take());
  return read_access_notes(*reader, count_max);
}

Result<std::optional<service::Grant>> KeptStore::grant(const std::string& secret_hash) {
  return read_grant(folder_, secret_hash);
}

Result<void> KeptStore::drop_grant(const std::string& secret_hash) { return storage::drop_grant(folder_, secret_hash); }

}  // namespace hw::storage
