#pragma once
// A shop of one lathe in a folder of its own, whose clock stands still. It is made anew after some inputs, so that it
// stays small; the ids of entries are the inputs' own.

#include <memory>

#include "libs/sql/test_folder.h"
#include "src/service/feed_sink.h"
#include "src/service/open_shop.h"

namespace hw::fuzz {

inline constexpr Instant small_shop_now{1'464'004'800'000'000'000};  // 2016-05-23T12:00:00Z, seven hours old

class SmallShop {
 public:
  SmallShop();
  service::OpenShop& shop() const { return *shop_; }
  const std::filesystem::path& folder() const { return folder_.path(); }

 private:
  sql::TestFolder folder_;
  std::unique_ptr<service::Store> store_;
  std::unique_ptr<service::OpenShop> shop_;
  std::unique_ptr<service::FeedSink> feed_;
};

// The shop for the next input.
SmallShop& small_shop();

// How many entries its logbook has.
std::int64_t entries_of(const service::OpenShop& shop);

}  // namespace hw::fuzz
