#pragma once
// The service's needs as statements, for one plant. One writes at a time; readers have connections of their own, as
// many as read at once.

#include <filesystem>
#include <memory>
#include <mutex>

#include "libs/sql/folder.h"
#include "src/service/store.h"
#include "src/storage/connection_pool.h"
#include "src/storage/server_hold.h"

namespace hw::storage {

// Where a plant's store keeps: its plant, the connections to its database, and what keeps others from writing there:
// the lock on the data folder, and on a server the lease of the plant.
struct KeptAt {
  std::string plant;
  std::filesystem::path folder;
  std::shared_ptr<sql::FolderLock> lock = {};
  // A file's writer is closed last: it alone may empty the write-ahead log.
  std::shared_ptr<ConnectionPool> writers;
  std::shared_ptr<ConnectionPool> readers;
  std::shared_ptr<ServerHold> hold = {};  // on a server
};

class KeptStore : public service::Store {
 public:
  // On a server with the lease under which it writes; without one it takes the plant before it first writes.
  explicit KeptStore(KeptAt at, std::optional<Lease> lease = {}) : at_(std::move(at)), lease_(std::move(lease)) {}
  ~KeptStore() override;  // lets go of the plant

  Result<std::unique_ptr<service::Writing>> begin() override;
  Result<void> create_shop(const service::ShopRecord& shop,
                           const std::vector<service::MachineRecord>& machines) override;
  Result<void> create_awaiting(const service::ShopRecord& shop) override;
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

  Result<std::optional<service::ShipmentTaken>> edge_taken() override;
  Result<std::optional<service::PiecesHere>> pieces_here() override;
  Result<bool> take_piece(const service::ShipmentPiece& piece, Instant now) override;

  // One transaction of this folder's own statements: as the only writer, under the plant's lease; and as one of many
  // readers, who sees one moment. What the step refuses is refused, and nothing of it is there.
  using Step = std::function<Result<void>(sql::Connection& db)>;
  Result<void> write(const Step& step);
  Result<void> read(const Step& step);

 private:
  class Turn;
  Result<Turn> take_turn();
  Result<Turn> take_leased_turn();
  Result<ConnectionPool::Taken> reader() { return at_.readers->take(at_.plant); }
  bool is_on_server() const { return at_.hold != nullptr; }

  KeptAt at_;
  std::mutex writing_;
  std::optional<Lease> lease_;  // guarded by writing_
};

}  // namespace hw::storage
