#pragma once
// The shipments of a data folder that is its plant's edge. One is made of a single moment of the database, and lies in
// FOLDER/edge until the group has taken it; a crash anywhere in between makes or sends it again.

#include "src/service/shipments.h"
#include "src/storage/kept_store.h"

namespace hw::storage {

class EdgeShipments : public service::Shipments {
 public:
  // Of a store in a file, which outlives it; `folder` is its data folder. Changes are noted from now on.
  static Result<std::unique_ptr<EdgeShipments>> begin(KeptStore& store, const std::filesystem::path& folder);

  Result<std::int64_t> last_taken() override;
  Result<std::int64_t> waiting() override;
  Result<std::optional<service::Shipment>> next(Instant now) override;
  Result<service::Shipment> whole(std::int64_t number, Instant now) override;
  Result<void> taken(const service::Shipment& shipment) override;

 private:
  EdgeShipments(KeptStore& store, std::filesystem::path folder) : store_(store), folder_(std::move(folder)) {}
  struct Wanted {
    std::int64_t number = 0;
    bool is_whole = false;
    Instant made_at;
  };
  Result<std::optional<service::Shipment>> made();
  Result<std::optional<service::Shipment>> make(const Wanted& wanted);
  std::filesystem::path file_of(std::int64_t number) const;

  KeptStore& store_;
  std::filesystem::path folder_;
};

}  // namespace hw::storage
