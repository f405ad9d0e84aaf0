#pragma once
// A database on a server as this process sees it: its sign among the servers, its connections, and the plants that it
// takes.

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "src/service/plants.h"
#include "src/storage/kept_store.h"

namespace hw::storage {

struct StoreTerms {
  std::string new_plant = {};                  // the key of a shop that is founded in a file; empty: the usual one
  Duration sign_lasts = Duration::seconds(6);  // after which others take what a dead server held
  std::function<void(std::string_view)> report = [](std::string_view) {};
};

// A writing connection to a place on a server that acts for its plant, with this program's tables: made where there are
// none. Refuses what open_database refuses, and tables of another version (unsupported).
Result<std::unique_ptr<sql::Connection>> open_with_tables(const DatabasePlace& place);

class SharedDatabase : public service::Plants {
 public:
  // Brings the tables up to date; servers that come at once do so one after the other. The data folder gives the server
  // its name (file `server`), and `lock` keeps it from being used twice. Refuses what open_database refuses.
  static Result<std::unique_ptr<SharedDatabase>> open(const DatabasePlace& place, std::shared_ptr<sql::FolderLock> lock,
                                                      const StoreTerms& terms);

  Result<std::vector<service::PlantSeen>> all() override;
  Result<int> servers() override;
  Result<std::unique_ptr<service::Store>> take(const std::string& plant) override;
  std::unique_ptr<service::Store> look_at(const std::string& plant) override { return store_of_new(plant); }
  Result<void> publish(const std::string& plant, const std::string& line) override {
    return at_.hold->publish(plant, line);
  }
  Result<std::vector<service::PublishedLine>> published(const std::map<std::string, std::int64_t>& known) override {
    return at_.hold->published(known);
  }
  Result<void> announce(const std::string& address) override { return at_.hold->announce(address); }
  service::PlantHolder own() const override;
  bool is_good() const override { return at_.hold->is_good(); }
  std::uint64_t lapses() const override { return at_.hold->lapses(); }

  // The store of a plant that is not founded yet.
  std::unique_ptr<service::Store> store_of_new(const std::string& plant);

 private:
  explicit SharedDatabase(KeptAt at) : at_(std::move(at)) {}
  KeptAt at_;  // but for the plant
};

}  // namespace hw::storage
