#pragma once
// The program's core on a database of its own: the real store, the real shop. It can be killed, started again, copied,
// and put back to its copy.

#include <functional>
#include <memory>

#include "libs/sql/test_folder.h"
#include "src/service/feed_sink.h"
#include "src/service/use_cases.h"
#include "tests/shop_year/floor.h"

namespace hw::shop_year {

using OpenStore = std::function<Result<std::unique_ptr<service::Store>>(const std::filesystem::path& folder)>;

Instant founded_at();

class Server {
 public:
  // A shop of three mills, founded at founded_at().
  explicit Server(OpenStore open_store);

  service::OpenShop& shop() const { return *shop_; }
  void take(const feeds::Batch& batch) const;
  void store_counting(Instant now) const;
  // Ends without a word and begins again; gives how far it knows that it has heard.
  feeds::Position restart();

  std::string record_sha256() const;  // of what is stored

  void back_up() const;        // as of what is stored
  feeds::Position put_back();  // the database is as it was backed up; what came later is gone

 private:
  void open();
  void copy_database(const std::filesystem::path& from, const std::filesystem::path& to) const;

  OpenStore open_store_;
  sql::TestFolder folder_;
  sql::TestFolder copies_;
  std::unique_ptr<service::Store> store_;
  std::unique_ptr<service::OpenShop> shop_;
  std::unique_ptr<service::FeedSink> feed_;
  feeds::Position known_;
};

}  // namespace hw::shop_year
