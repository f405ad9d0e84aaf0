#include "fuzz/small_shop.h"

#include <fstream>
#include <sstream>

#include "fuzz/lathe.h"
#include "libs/values/assert.h"
#include "src/catalogue/shop_files.h"
#include "src/service/found_shop.h"
#include "src/service/use_cases.h"
#include "src/storage/open_store.h"
#include "tests/places/places.h"

namespace hw::fuzz {
namespace {

constexpr int inputs_of_one_shop = 50;

constexpr std::string_view small_shop_file = R"(format = "hourwright-shop-1"
cell = [ { key = "c", title = "Cell" } ]
shift = [ { name = "early", starts = "06:00", ends = "14:00", weekdays = [1, 2, 3, 4, 5] } ]
person = [ { name = "Ada", skill = "technician" } ]
[plant]
name = "Test plant"
zone = "Europe/Berlin"
agent = "http://127.0.0.1:5000"
[[machine]]
key = "lathe-l"
name = "Lathe"
kind = "lathe"
cell = "c"
)";

template <class T>
T must(Result<T> result) {
  HW_ASSERT(result, result.error().message.c_str());
  return std::move(*result);
}

const service::NewShop& founded() {
  static const service::NewShop made = [] {
    std::ostringstream text;
    text << std::ifstream(in_source("library/lathe.toml")).rdbuf();
    const std::vector sets{must(catalogue::parse_task_set(text.str(), "lathe.toml"))};
    return must(service::found_shop(must(catalogue::parse_shop(small_shop_file, "shop.toml")), sets, count_begin));
  }();
  return made;
}

}  // namespace

SmallShop::SmallShop() : store_(must(storage::open_store(folder_.path()))) {
  HW_ASSERT(store_->create_shop(founded().shop, founded().machines), "a small shop can be made");
  shop_ = must(service::OpenShop::open(*store_));
  feed_ = std::make_unique<service::FeedSink>(*shop_, "feed-1", std::nullopt, [](std::string_view) {});
  feeds::Batch batch;
  batch.feed = "feed-1";
  batch.position = {1, 1};
  batch.received_at = batch.alive_at = small_shop_now;
  batch.models = lathe();
  HW_ASSERT(feed_->take(batch), "the small shop takes its machine's description");
}

SmallShop& small_shop() {
  static std::unique_ptr<SmallShop> shop;
  static int inputs = 0;
  if (!shop || ++inputs % inputs_of_one_shop == 0) {
    shop.reset();
    shop = std::make_unique<SmallShop>();
  }
  return *shop;
}

std::int64_t entries_of(const service::OpenShop& shop) { return must(service::prove_logbook(shop)).entries; }

}  // namespace hw::fuzz
