#include "src/web/group_server.h"

#include <chrono>

#include "libs/formats/json.h"
#include "libs/http/problem.h"
#include "src/web/origin_check.h"
#include "src/web/plant_host.h"
#include "src/web/readiness.h"

namespace hw::web {
namespace {

// Passing on waits for another server, so there are more of them than one shop's server has.
constexpr unsigned workers = 16;

http::Response no_such_plant(const std::string& plant) {
  const std::string says = plant == service::group_key ? "no group has been founded: hourwright found --group makes one"
                                                       : fmt::format("there is no plant \"{}\"", plant.substr(0, 60));
  return http::problem({ErrorCode::not_found, says});
}

}  // namespace

Result<std::unique_ptr<GroupServer>> GroupServer::start(service::Plants& plants, const GroupOptions& options,
                                                        Clock clock) {
  std::unique_ptr<GroupServer> group{new GroupServer(plants, options)};
  HW_TAKE(files, read_site_files(options.web.share, options.report));
  group->held_ = std::make_unique<HeldPlants>(
      HoldingParts{plants, std::move(files), group->reach_, clock, options.store_every, options.report});
  HW_TAKE(lines, OpenLines::open(
                     options.web,
                     {[&self = *group](http::Request request) { return self.answer(std::move(request)); },
                      [&self = *group](http::Request head) { return self.answer_before(std::move(head)); }, workers},
                     group->reach_, std::move(clock)));
  group->lines_ = std::move(lines);
  HW_TRY(plants.announce(options.peer_address.value_or(fmt::format("http://127.0.0.1:{}", group->port()))));
  group->held_->look();
  for (const auto step : {&HeldPlants::look, &HeldPlants::tell_and_hear, &HeldPlants::read_lives}) {
    group->threads_.emplace_back([self = group.get(), step] { self->run(step); });
  }
  return group;
}

GroupServer::~GroupServer() { stop(); }

void GroupServer::stop() {
  {
    const std::lock_guard lock(mutex_);
    is_stopping_ = true;
  }
  wake_.notify_all();
  for (std::thread& thread : threads_) thread.join();
  threads_.clear();
  if (lines_) lines_->stop();
  if (held_) held_->close();
}

void GroupServer::run(void (HeldPlants::*step)()) {
  const std::chrono::nanoseconds every{options_.look_every.ns};
  std::unique_lock lock(mutex_);
  while (!wake_.wait_for(lock, every, [this] { return is_stopping_; })) {
    lock.unlock();
    ((*held_).*step)();
    lock.lock();
  }
}

// Whether this process lives, and whether it takes part: asked of each server, not of a plant.
std::optional<http::Response> GroupServer::answer_for_itself(const http::Request& request) const {
  if (request.path == "/healthz") return http::Response::of(200, "text/plain", "alive\n");
  if (request.path != "/readyz") return std::nullopt;
  const HeldPlants::Counts counts = held_->counts();
  const std::string trouble = held_->trouble();
  const bool is_good = plants_.is_good() && trouble.empty();
  Readiness readiness{is_good, {}};
  readiness.checks.push_back(
      {"database", is_good ? "pass" : "fail",
       is_good ? "the other servers hear of this one" : "the other servers do not hear of this one: " + trouble});
  readiness.checks.push_back(
      {"plants", "pass",
       fmt::format("{} of {} plants are held here, by one of {} servers", counts.held, counts.all, counts.servers)});
  return http::Response::json(formats::print_json(readiness), is_good ? 200 : 503);
}

http::Response GroupServer::answer(http::Request request) const {
  const bool is_forwarded = take_forwarded(request, plants_.own().secret);
  const auto plant = plant_of_host(without_port(host_of(request)), reach_);
  if (!plant) {
    auto refusal = check_origin(request, reach_);
    return refusal ? *std::move(refusal) : no_such_plant("");
  }
  if (*plant == service::group_key) {
    if (auto own = answer_for_itself(request)) return *std::move(own);
  }
  if (const auto held = held_->find(*plant)) return held->site->answer(std::move(request));
  const auto holder = held_->holder_of(*plant);
  if (!holder && !held_->knows(*plant) && held_->trouble().empty()) return no_such_plant(*plant);
  const bool is_elsewhere = holder && holder->server != plants_.own().server;
  if (is_forwarded || !is_elsewhere) return try_again_soon("no server holds the plant just now; one will in seconds");
  if (auto refusal = check_origin(request, *reach_of_plant(*plant, reach_))) return *std::move(refusal);
  return forwarding_.forward(request, *holder);
}

// Of a plant that is elsewhere the body has to come here first.
std::optional<http::Response> GroupServer::answer_before(http::Request head) const {
  take_forwarded(head, plants_.own().secret);
  const auto plant = plant_of_host(without_port(host_of(head)), reach_);
  const auto held = plant ? held_->find(*plant) : nullptr;
  if (held) return held->site->answer_before(std::move(head));
  return plant ? std::nullopt : check_origin(head, reach_);
}

}  // namespace hw::web
