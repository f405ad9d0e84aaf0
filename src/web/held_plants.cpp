#include "src/web/held_plants.h"

#include <algorithm>

#include "libs/sql/storage_failed.h"
#include "src/web/plant_host.h"

namespace hw::web {
namespace {

constexpr Duration try_again_after = Duration::seconds(30);
constexpr Duration tell_every = Duration::seconds(15);
constexpr std::size_t given_up_max = 8;  // in one round, so that the others can follow

}  // namespace

void HeldPlants::look() {
  std::string trouble;
  try {
    if (const auto looked = look_once(); !looked) trouble = looked.error().message;
  } catch (const sql::StorageFailed& failed) {
    trouble = failed.what();
  }
  const std::lock_guard lock(mutex_);
  if (!trouble.empty() && trouble != trouble_) parts_.report(trouble);
  trouble_ = std::move(trouble);
}

Result<void> HeldPlants::look_once() {
  if (!parts_.plants.is_good()) return {};  // who holds what is not known before it is
  HW_TAKE(seen, parts_.plants.all());
  HW_TAKE(servers, parts_.plants.servers());
  {
    const std::lock_guard lock(mutex_);
    seen_ = seen;
    servers_ = servers;
  }
  const auto sharers = static_cast<std::size_t>(std::max(1, servers));
  const std::size_t share = (seen.size() + sharers - 1) / sharers;
  let_go_of_strangers(seen);
  give_up_surplus(share);
  take_share(seen, share);
  renew_outdated();
  return {};
}

// What another server holds, and what was opened before this server's sign was too old for a while.
void HeldPlants::let_go_of_strangers(const std::vector<service::PlantSeen>& seen) {
  std::vector<std::string> gone;
  for (const auto& [key, plant] : held_) {
    const auto at = std::find_if(seen.begin(), seen.end(), [&, key = key](const auto& one) { return one.key == key; });
    const bool is_own = at != seen.end() && at->held_by && at->held_by->server == parts_.plants.own().server;
    if (!is_own || plant->lapses != parts_.plants.lapses()) gone.push_back(key);
  }
  for (const std::string& key : gone) let_go(key);
}

void HeldPlants::give_up_surplus(std::size_t share) {
  for (std::size_t i = 0; i < given_up_max && held_.size() > share; ++i) let_go(held_.rbegin()->first);
}

void HeldPlants::take_share(const std::vector<service::PlantSeen>& seen, std::size_t share) {
  for (const service::PlantSeen& plant : seen) {
    const bool is_anothers = plant.held_by && plant.held_by->server != parts_.plants.own().server;
    if (held_.size() < share && !is_anothers && !held_.contains(plant.key)) take(plant.key);
  }
}

void HeldPlants::let_go(const std::string& plant) {
  std::shared_ptr<HeldPlant> held;
  {
    const std::lock_guard lock(mutex_);
    held = std::move(held_.at(plant));
    held_.erase(plant);
  }
  held->site->end_streams();
  parts_.report(fmt::format("plant {}: let go", plant));
}

void HeldPlants::take(const std::string& plant) {
  const Instant now = parts_.clock();
  if (const auto trouble = not_before_.find(plant); trouble != not_before_.end() && now < trouble->second) return;
  auto opened = open(plant);
  if (!opened) {
    not_before_[plant] = now + try_again_after;
    parts_.report(opened.error().at(fmt::format("plant {}", plant)).message);
    return;
  }
  if (!*opened) return;  // somebody was quicker
  not_before_.erase(plant);
  parts_.report(fmt::format("plant {}: held by this server", plant));
  const std::lock_guard lock(mutex_);
  held_[plant] = std::move(*opened);
  for (service::PlantSeen& one : seen_) {
    if (one.key == plant) one.held_by = parts_.plants.own();
  }
}

// What is asked meanwhile is answered by the one before, and the plant stays this server's.
void HeldPlants::renew_outdated() {
  for (const auto& [key, before] : held_now()) {
    if (!before->is_outdated) continue;
    auto renewed = open_from(before->store, key);
    if (!renewed) {
      parts_.report(renewed.error().at(fmt::format("plant {}", key)).message);
      continue;
    }
    (*renewed)->lapses = before->lapses;
    {
      const std::lock_guard lock(mutex_);
      held_[key] = std::move(*renewed);
    }
    before->site->end_streams();
  }
}

Result<std::shared_ptr<HeldPlant>> HeldPlants::open(const std::string& plant) {
  const std::uint64_t lapses = parts_.plants.lapses();
  HW_TAKE(store, parts_.plants.take(plant));
  if (!store) return std::shared_ptr<HeldPlant>{};
  HW_TAKE(held, open_from(std::move(store), plant));
  held->lapses = lapses;
  return std::move(held);
}

Result<std::shared_ptr<HeldPlant>> HeldPlants::open_from(std::shared_ptr<service::Store> store,
                                                         const std::string& plant) {
  auto held = std::make_shared<HeldPlant>();
  held->store = std::move(store);
  HW_TAKE(shop, service::OpenShop::open(*held->store));
  held->shop = std::move(shop);
  held->reach = reach_of_plant(plant, parts_.reach);
  InGroup group{plant == service::group_key ? &told_ : nullptr, [&self = *held] { self.is_outdated = true; }};
  HW_TAKE(site, ShopSite::open(*held->shop, parts_.files, *held->reach, parts_.clock, std::move(group)));
  held->site = std::move(site);
  HW_TRY(follow_feeds(*held, plant));
  return held;
}

// A plant's edge follows its feeds itself.
Result<void> HeldPlants::follow_feeds(HeldPlant& held, const std::string& plant) {
  if (held.shop->from_edge()) return {};
  service::FeedsOptions feeds;
  feeds.store_every = parts_.store_every;
  feeds.clock = parts_.clock;
  feeds.report = [report = parts_.report, plant](std::string_view says) {
    report(fmt::format("plant {}: {}", plant, says));
  };
  HW_TAKE(running, service::RunningFeeds::start(*held.shop, std::move(feeds)));
  held.feeds = std::move(running);
  return {};
}

std::vector<std::pair<std::string, std::shared_ptr<HeldPlant>>> HeldPlants::held_now() const {
  const std::lock_guard lock(mutex_);
  return {held_.begin(), held_.end()};
}

void HeldPlants::tell_and_hear() {
  try {
    tell();
    if (const auto heard = hear(); !heard) parts_.report(heard.error().message);
  } catch (const sql::StorageFailed&) {
    // look() says it; what was not told is told the next time
  }
}

void HeldPlants::tell() {
  for (const auto& [key, plant] : held_now()) {
    const Instant now = parts_.clock();
    const auto& told_at = plant->told_at;
    const bool is_fresh = told_at && now - *told_at < tell_every && now >= *told_at;
    if (key == service::group_key || is_fresh) continue;
    const auto line = plant->site->plant_line(now);
    const auto published = line ? parts_.plants.publish(key, *line) : Result<void>{refuse(line.error())};
    if (published) plant->told_at = now;
    if (!published) parts_.report(published.error().at(fmt::format("plant {}", key)).message);
  }
}

Result<void> HeldPlants::hear() {
  const auto group = find(service::group_key);
  if (!group) return {};
  HW_TAKE(lines, parts_.plants.published(told_.lines.known()));
  std::vector<service::PlantSeen> plants;
  {
    const std::lock_guard lock(mutex_);
    plants = seen_;
  }
  if (told_.lines.take(plants, std::move(lines))) group->site->tell_of_plants();
  return {};
}

void HeldPlants::read_lives() {
  if (!find(service::group_key)) return;
  std::vector<service::PlantSeen> plants;
  {
    const std::lock_guard lock(mutex_);
    plants = seen_;
  }
  try {
    lives_.step(plants, parts_.clock());
  } catch (const sql::StorageFailed&) {
    // look() says it
  }
}

void HeldPlants::close() {
  while (!held_.empty()) let_go(held_.begin()->first);
}

std::shared_ptr<const HeldPlant> HeldPlants::find(const std::string& plant) const {
  const std::lock_guard lock(mutex_);
  const auto at = held_.find(plant);
  const bool is_certain = at != held_.end() && parts_.plants.is_good() && at->second->lapses == parts_.plants.lapses();
  return is_certain ? at->second : nullptr;
}

const service::PlantSeen* HeldPlants::seen(const std::string& plant) const {
  const auto at = std::find_if(seen_.begin(), seen_.end(), [&](const auto& one) { return one.key == plant; });
  return at == seen_.end() ? nullptr : &*at;
}

std::optional<service::PlantHolder> HeldPlants::holder_of(const std::string& plant) const {
  const std::lock_guard lock(mutex_);
  const service::PlantSeen* one = seen(plant);
  return one != nullptr ? one->held_by : std::nullopt;
}

bool HeldPlants::knows(const std::string& plant) const {
  const std::lock_guard lock(mutex_);
  return seen(plant) != nullptr;
}

HeldPlants::Counts HeldPlants::counts() const {
  const std::lock_guard lock(mutex_);
  return {held_.size(), seen_.size(), servers_};
}

std::string HeldPlants::trouble() const {
  const std::lock_guard lock(mutex_);
  return trouble_;
}

}  // namespace hw::web
