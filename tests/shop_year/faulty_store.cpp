#include "tests/shop_year/faulty_store.h"

#include "libs/sql/folder.h"
#include "src/storage/kept_store.h"
#include "src/storage/open_store.h"

namespace hw::shop_year {
namespace {

using service::Writing;

struct Plan {
  Fault fault;
  int left;  // of those that are as they should be
  bool strikes_now() { return left-- == 0; }
};

class FaultyWriting : public Writing {
 public:
  FaultyWriting(std::unique_ptr<Writing> writing, Plan& plan) : writing_(std::move(writing)), plan_(plan) {}

  Result<void> add_entry(service::Entry& entry) override {
    const bool is_struck = plan_.fault != Fault::loses_counts && entry.kind == "task done" && plan_.strikes_now();
    if (is_struck && plan_.fault == Fault::alters_an_entry) entry.by = "Somebody";
    is_lost_ = is_lost_ || (is_struck && plan_.fault == Fault::loses_an_entry);
    return writing_->add_entry(entry);
  }
  Result<void> put_counting(const service::CountingStep& step) override {
    const bool is_struck = plan_.fault == Fault::loses_counts && !step.machines.empty() && plan_.strikes_now();
    return writing_->put_counting(is_struck ? service::CountingStep{{}, step.positions} : step);
  }
  Result<void> commit() override { return is_lost_ ? Result<void>{} : writing_->commit(); }

  Result<void> put_task(const std::string& machine, const service::TaskRecord& record) override {
    return writing_->put_task(machine, record);
  }
  Result<void> put_points(const std::string& machine, const std::vector<catalogue::Point>& points) override {
    return writing_->put_points(machine, points);
  }
  Result<void> put_walk(const std::string& machine, const std::vector<int>& walk) override {
    return writing_->put_walk(machine, walk);
  }
  Result<void> add_hour_reading(const service::HourReading& reading) override {
    return writing_->add_hour_reading(reading);
  }
  Result<void> settle_hour_reading(const std::string& reading, const std::string& settled_as,
                                   const std::string& entry) override {
    return writing_->settle_hour_reading(reading, settled_as, entry);
  }
  Result<void> add_adjustment(const service::Adjustment& adjustment) override {
    return writing_->add_adjustment(adjustment);
  }
  Result<void> add_photo(const service::Photo& photo) override { return writing_->add_photo(photo); }
  Result<void> add_device(const service::Device& device) override { return writing_->add_device(device); }
  Result<void> end_device(const service::DeviceEnd& end) override { return writing_->end_device(end); }
  Result<void> put_access(const service::AccessRows& rows) override { return writing_->put_access(rows); }
  Result<void> see_device(const std::string& device, LocalDate on) override { return writing_->see_device(device, on); }

 private:
  std::unique_ptr<Writing> writing_;
  Plan& plan_;
  bool is_lost_ = false;
};

class FaultyStore : public storage::KeptStore {
 public:
  FaultyStore(storage::KeptAt at, std::shared_ptr<Plan> plan) : KeptStore(std::move(at)), plan_(std::move(plan)) {}

  Result<std::unique_ptr<Writing>> begin() override {
    HW_TAKE(writing, KeptStore::begin());
    return std::make_unique<FaultyWriting>(std::move(writing), *plan_);
  }

 private:
  std::shared_ptr<Plan> plan_;
};

}  // namespace

OpenStore open_faulty(Fault fault, int after) {
  const auto plan = std::make_shared<Plan>(Plan{fault, after});
  return [plan](const std::filesystem::path& folder) -> Result<std::unique_ptr<service::Store>> {
    HW_TAKE(lock, sql::lock_folder(folder));
    HW_TAKE(at, storage::keep_in_file({folder}, std::make_shared<sql::FolderLock>(std::move(lock))));
    return std::make_unique<FaultyStore>(std::move(at), plan);
  };
}

}  // namespace hw::shop_year
