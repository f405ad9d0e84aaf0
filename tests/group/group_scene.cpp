#include "tests/group/group_scene.h"

#include <fstream>

#include <boost/json.hpp>
#include <fmt/format.h>

#include "libs/values/assert.h"
#include "tests/places/places.h"
#include "tests/shop/let_in.h"

namespace hw::group {
namespace {

namespace fs = std::filesystem;

template <class T>
T must(Result<T> result) {
  HW_ASSERT(result, result.error().message.c_str());
  return std::move(*result);
}

std::string pass_for(const fs::path& folder, const std::string& address, const std::string& plant) {
  HW_ASSERT(storage::place_on_server(folder, address, plant), "the folder is new");
  return "Bearer " + shop::token_for(folder);
}

}  // namespace

service::ShopRecord shop_named(const std::string& plant) {
  service::ShopRecord shop;
  shop.plant = "Plant " + plant;
  shop.calendar.zone = Zone::utc();
  shop.cells = {{"cell", "Cell"}};
  shop.kinds = {{"lathe", "Lathe"}};
  shop.people = {{"Ada", catalogue::Skill::technician, true}};
  return shop;
}

service::MachineRecord lathe() {
  service::TaskRecord task;
  task.task.key = "filter";
  task.task.title = "Replace the coolant filter";
  task.task.assembly = "coolant";
  task.task.minutes = 20;
  task.task.triggers = {catalogue::CounterTrigger{"operating", 100, 10, 5}};
  task.task.reason = "a clogged filter starves the pump";
  task.began_at = now();
  service::TaskRecord battery = task;
  battery.task.key = "battery";
  battery.task.title = "Replace the battery";
  battery.task.work = catalogue::WorkType::replace;
  battery.task.triggers = {catalogue::CalendarTrigger{{1, catalogue::CalendarInterval::Unit::year}, 0, 0}};
  battery.began_at = now() - Duration::hours(24 * 50);
  service::MachineRecord record;
  record.machine.key = "l1";
  record.machine.name = "Lathe 1";
  record.machine.kind = "lathe";
  record.machine.cell = "cell";
  record.assemblies = {{"coolant", "Coolant"}};
  record.tasks = {task, battery};
  return record;
}

GroupScene::GroupScene() {
  fs::create_directories(folder_.path() / "share" / "api");
  fs::create_directories(folder_.path() / "share" / "app" / "dist");
  fs::copy(in_source("api/openapi.yaml"), folder_.path() / "share" / "api" / "openapi.yaml");
  std::ofstream(folder_.path() / "share" / "app" / "dist" / "index.html") << "<!doctype html><title>pages</title>";
  const fs::path founding = folder_.path() / "founding";
  fs::create_directory(founding);
  const auto database = must(storage::SharedDatabase::open({founding, database_.address()}, nullptr, {}));
  for (const std::string plant : {"north", "south", service::group_key}) {
    std::vector<service::MachineRecord> machines;
    if (plant != service::group_key) machines.push_back(lathe());
    HW_ASSERT(database->store_of_new(plant)->create_shop(shop_named(plant), machines), "the plant is new");
    passes_[plant] = pass_for(folder_.path() / ("pass-" + plant), database_.address(), plant);
  }
}

void GroupScene::await_plant(const std::string& plant) {
  const fs::path founding = folder_.path() / ("founding-" + plant);
  fs::create_directory(founding);
  const auto database = must(storage::SharedDatabase::open({founding, database_.address()}, nullptr, {}));
  HW_ASSERT(database->store_of_new(plant)->create_awaiting(shop_named(plant)), "the plant is new");
  passes_[plant] = pass_for(folder_.path() / ("pass-" + plant), database_.address(), plant);
}

Member& GroupScene::join(const std::string& name, Duration sign_lasts) {
  const fs::path data = folder_.path() / name;
  fs::create_directory(data);
  Member& member = members_[name];
  storage::StoreTerms terms;
  terms.sign_lasts = sign_lasts;
  member.database = must(storage::SharedDatabase::open({data, database_.address()}, nullptr, terms));
  web::GroupOptions options;
  options.web.plain.port = 0;
  options.web.share = folder_.path() / "share";
  options.web.names = {must(certificates::parse_host_name("shops.example"))};
  options.look_every = Duration::millis(20);
  options.report = [](std::string_view) {};
  member.server = must(web::GroupServer::start(*member.database, options, now));
  return member;
}

void GroupScene::leave(const std::string& name) {
  Member& member = members_.at(name);
  member.server.reset();
  member.database.reset();
  members_.erase(name);
}

http::Response GroupScene::ask(const std::string& server, const std::string& plant, std::string_view method,
                               const std::string& target, std::string_view body, http::Headers more) {
  const std::uint16_t port = members_.at(server).server->port();
  http::GetOptions options;
  options.headers = std::move(more);
  if (!options.headers.find("Host")) options.headers.set("Host", fmt::format("{}.localhost:{}", plant, port));
  if (!options.headers.find("Authorization") && passes_.contains(plant)) {
    options.headers.set("Authorization", passes_.at(plant));
  }
  if (!body.empty() && !options.headers.find("Content-Type")) options.headers.set("Content-Type", "application/json");
  const auto url = must(http::parse_url(fmt::format("http://127.0.0.1:{}{}", port, target)));
  auto answer = http::send(url, method, body, options);
  if (answer) return std::move(*answer);
  http::Response none;
  none.status = 0;
  return none;
}

http::Response GroupScene::put_bytes(const std::string& server, const std::string& plant, const std::string& target,
                                     std::string_view bytes) {
  return ask(server, plant, "PUT", target, bytes, {{"Content-Type", "application/octet-stream"}});
}

std::string GroupScene::holder_of(const std::string& plant) {
  for (const auto& [name, member] : members_) {
    if (member.server && member.server->held().find(plant)) return name;
  }
  return "";
}

std::string id_of(int number) { return fmt::format("01941f29-7c00-7aaa-8bbb-{:012}", number); }

std::string done_body(int id) { return fmt::format(R"({{"id":"{}","by":"Ada"}})", id_of(id)); }

std::size_t entries_of(const http::Response& logbook) {
  if (logbook.status != 200) return 0;
  return boost::json::parse(logbook.text()).at("entries").as_array().size();
}

}  // namespace hw::group
