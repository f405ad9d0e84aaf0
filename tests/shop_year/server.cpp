#include "tests/shop_year/server.h"

#include "src/catalogue/shop_files.h"
#include "src/service/found_shop.h"
#include "src/storage/open_store.h"
#include "src/storage/record_digest.h"
#include "tests/shop/scene.h"
#include "tests/shop/walking.h"

namespace hw::shop_year {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view mill_set = R"(format = "hourwright-task-set-1"
kind = "mill"
title = "Mill"
title_de = "Fräse"
note = "For tests."
assembly = [ { key = "spindle", title = "Spindle" }, { key = "coolant", title = "Coolant" } ]
point = [ { number = 1, assembly = "spindle", title = "Spindle nose", x = 0.5, y = 0.5 } ]

[[task]]
key = "filter"
title = "Replace the filter"
assembly = "coolant"
work = "replace"
skill = "operator"
energy = "powered at rest"
minutes = 20
trigger = [ { counter = "operating", interval = 8, heads_up = 2, tolerance = 1 } ]
steps = []
reason = "A clogged filter starves the pump."
caution = "Coolant irritates the skin."
parts = [ { name = "Part P-1", quantity = 1, unit = "pc" } ]

[[task]]
key = "grease"
title = "Grease the spindle nose"
assembly = "spindle"
point = 1
work = "lubricate"
skill = "technician"
energy = "isolated"
minutes = 5.5
trigger = [ { counter = "spindle", interval = 40 }, { calendar = "1 month", heads_up_days = 7, tolerance_days = 2 } ]
steps = ["Wipe.", "Grease."]
reason = "It runs dry."
caution = "Isolate and lock first."
parts = []

[[task]]
key = "look"
title = "Look over the machine"
assembly = "coolant"
work = "inspect"
skill = "operator"
energy = "in production"
minutes = 3
trigger = [ { calendar = "1 shift" } ]
steps = []
reason = "Leaks are found early."
caution = "Keep the doors closed."
parts = []
)";

std::string shop_file() {
  std::string text = R"(format = "hourwright-shop-1"
cell = [ { key = "c", title = "Cell" } ]
shift = [ { name = "early", starts = "06:00", ends = "14:00", weekdays = [1, 2, 3, 4, 5] } ]
person = [ { name = "Ada", skill = "technician" } ]
[plant]
name = "Test plant"
zone = "Europe/Berlin"
agent = "http://127.0.0.1:5000"
)";
  for (const std::string& machine : machines) {
    text += fmt::format("[[machine]]\nkey = \"{0}\"\nname = \"{0}\"\nkind = \"mill\"\ncell = \"c\"\n", machine);
  }
  return text;
}

void found(const fs::path& folder) {
  using shop::must;
  const std::string set = fmt::format("{}\n{}", mill_set, shop::round_tasks.toml);
  const std::vector sets{must(catalogue::parse_task_set(set, "mill.toml"))};
  const auto made =
      must(service::found_shop(must(catalogue::parse_shop(shop_file(), "shop.toml")), sets, founded_at()));
  const auto store = must(storage::open_store(folder));
  must(store->create_shop(made.shop, made.machines));
}

// Founded once; each run begins with a copy.
const fs::path& founded_folder() {
  static const sql::TestFolder folder;
  static const bool is_made = (found(folder.path()), true);
  HW_ASSERT(is_made, "the shop is founded");
  return folder.path();
}

}  // namespace

Instant founded_at() { return *parse_instant("2026-01-05T05:00:00Z"); }

Server::Server(OpenStore open_store) : open_store_(std::move(open_store)) {
  copy_database(founded_folder(), folder_.path());
  open();
  feeds::Batch models;
  models.feed = "feed-1";
  models.position = {1, 1};
  models.received_at = models.alive_at = founded_at();
  models.models.emplace();
  for (const std::string& machine : machines) models.models->push_back(shop::model_of(machine));
  take(models);
}

void Server::copy_database(const fs::path& from, const fs::path& to) const {
  for (const char* name : {"hourwright.db", "hourwright.db-wal", "hourwright.db-shm"}) {
    fs::remove(to / name);
    const bool is_kept = std::string_view(name) != "hourwright.db-shm" && fs::exists(from / name);
    if (is_kept) fs::copy_file(from / name, to / name);
  }
}

void Server::open() {
  store_ = shop::must(open_store_(folder_.path()));
  shop_ = shop::must(service::OpenShop::open(*store_));
  std::optional<feeds::Position> position;
  for (const auto& one : shop::must(store_->positions())) position = {one.instance_id, one.next_sequence};
  feed_ = std::make_unique<service::FeedSink>(*shop_, "feed-1", position, [](std::string_view) {});
  known_ = position.value_or(feeds::Position{});
}

void Server::take(const feeds::Batch& batch) const { shop::must(feed_->take(batch)); }

void Server::store_counting(Instant now) const { shop::must(service::store_counting(*shop_, {feed_.get()}, now)); }

feeds::Position Server::restart() {
  feed_.reset();
  shop_.reset();
  store_.reset();
  open();
  return known_;
}

std::string Server::record_sha256() const {
  const auto db = shop::must(storage::open_database(shop::must(storage::place_of(folder_.path())), sql::Access::read));
  return shop::must(storage::record_digest(*db)).sha256;
}

void Server::back_up() const { copy_database(folder_.path(), copies_.path()); }

feeds::Position Server::put_back() {
  feed_.reset();
  shop_.reset();
  store_.reset();
  copy_database(copies_.path(), folder_.path());
  open();
  return known_;
}

}  // namespace hw::shop_year
