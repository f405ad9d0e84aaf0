#pragma once
// The service's needs as statements. One connection writes, guarded by a mutex; readers have connections of their own,
// as many as read at once.

#include <filesystem>
#include <functional>
#include <mutex>

#include "libs/sql/connection.h"
#include "libs/sql/folder.h"
#include "src/service/store.h"

namespace hw::storage {

using OpenConnection = std::function<Result<std::unique_ptr<sql::Connection>>(sql::Access)>;

// Connections for reading: taken for one piece of work and given back.
class Readers {
 public:
  explicit Readers(OpenConnection open) : open_(std::move(open)) {}
  struct GiveBack {
    Readers* readers = nullptr;
    void operator()(sql::Connection* connection) const;
  };
  using Reader = std::unique_ptr<sql::Connection, GiveBack>;
  Result<Reader> take();

 private:
  OpenConnection open_;
  std::mutex mutex_;
  std::vector<std::unique_ptr<sql::Connection>> idle_;
};

class KeptStore : public service::Store {
 public:
  KeptStore(std::filesystem::path folder, sql::FolderLock lock, std::unique_ptr<sql::Connection> writer,
            OpenConnection open)
      : folder_(std::move(folder)),
        lock_(std::move(lock)),
        writer_(std::move(writer)),
        open_(open),
        readers_(std::move(open)) {}

  Result<std::unique_ptr<service::Writing>> begin() override;
  Result<void> create_shop(const service::ShopRecord& shop,
                           const std::vector<service::MachineRecord>& machines) override;
  Result<std::optional<service::ShopRecord>> shop() override;
  Result<std::vector<service::MachineRecord>> machines() override;
  Result<std::vector<service::TaskRecord>> tasks_of(std::string_view machine) override;
  Result<std::optional<service::Entry>> entry(std::string_view id) override;
  Result<std::vector<service::Entry>> entries_of(std::string_view machine, int count_max) override;
  Result<std::optional<service::Entry>> last_done(std::string_view machine, std::string_view task) override;
  Result<std::vector<service::Entry>> doings_of(std::string_view machine, std::string_view task) override;
  Result<std::vector<service::WalkRecord>> latest_walks_of(std::string_view machine, Duration back) override;
  Result<std::optional<service::WalkRecord>> walk(std::string_view machine, std::string_view id) override;
  Result<std::vector<service::AnswerRecord>> readings_of(std::string_view machine, std::string_view check,
                                                         int count_max) override;
  Result<std::vector<service::Entry>> measured_doings_of(std::string_view machine, std::string_view task,
                                                         int count_max) override;
  Result<std::vector<service::HourReading>> hour_readings_of(std::string_view machine) override;
  Result<std::vector<service::Adjustment>> adjustments_of(std::string_view machine) override;
  Result<std::optional<service::Photo>> photo(std::string_view id) override;
  Result<std::vector<service::Entry>> entries(const service::EntryFilter& filter, int count_max) override;
  Result<std::int64_t> stray_count() override;
  Result<record::Verdict> verdict() override;
  Result<std::optional<service::Finding>> finding(std::string_view id) override;
  Result<std::vector<service::Entry>> entries_about(std::string_view finding) override;
  Result<std::vector<service::Finding>> open_findings(const std::optional<std::string>& machine) override;
  Result<std::vector<service::Finding>> settled_findings(const std::optional<std::string>& machine,
                                                         int count_max) override;
  Result<std::optional<service::Stop>> stop(std::string_view id) override;
  Result<std::vector<service::Stop>> agreed_stops(const std::optional<std::string>& machine) override;
  Result<std::vector<service::Stop>> past_stops(const std::optional<std::string>& machine,
                                                std::optional<service::StopState> only, int count_max) override;
  Result<std::vector<service::CountingRecord>> counting() override;
  Result<std::vector<service::FeedPosition>> positions() override;
  Result<std::vector<service::MessagePosition>> message_positions() override;
  Result<std::vector<service::DayRecord>> days_of(std::string_view machine, std::string_view counter, LocalDate first,
                                                  LocalDate last) override;
  Result<std::optional<Checkpoint>> checkpoint_of(std::string_view machine, LocalDate on) override;
  Result<void> read_log(std::string_view machine, std::optional<LocalDate> after_checkpoint,
                        const std::function<Result<void>(const service::LogPiece&)>& take) override;

  std::optional<Error> failure() override;

  Result<std::vector<service::Device>> devices() override;

  Result<service::AccessRows> access_rows() override;
  Result<std::vector<service::AccessNote>> access_notes(int count_max) override;
  Result<std::optional<service::Grant>> grant(const std::string& secret_hash) override;
  Result<void> drop_grant(const std::string& secret_hash) override;

 private:
  void open_writer_again();

  std::filesystem::path folder_;
  sql::FolderLock lock_;
  std::mutex writing_;
  std::unique_ptr<sql::Connection> writer_;
  OpenConnection open_;
  Readers readers_;
};

}  // namespace hw::storage
