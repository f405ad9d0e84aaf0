// Wires the parts that know nothing of each other: commands, storage, simulated floor, server.

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>

#include <spdlog/spdlog.h>

#include "libs/http/client.h"
#include "libs/values/whole_file.h"
#include "src/access/session_limits.h"
#include "src/service/found_shop.h"
#include "src/service/look_ahead.h"
#include "src/simulate/agent_server.h"
#include "src/simulate/demo_shop.h"
#include "src/simulate/pace.h"
#include "src/storage/copy_folder.h"
#include "src/storage/copying.h"
#include "src/storage/database_place.h"
#include "src/storage/examine.h"
#include "src/storage/founding_files.h"
#include "src/storage/grants.h"
#include "src/storage/moving.h"
#include "src/storage/open_files.h"
#include "src/storage/open_store.h"
#include "src/storage/rebuild.h"
#include "src/terminal/command_line.h"
#include "src/terminal/ending.h"
#include "src/terminal/new_shop_told.h"
#include "src/terminal/share_folder.h"
#include "src/terminal/supervisor.h"
#include "src/web/access_table.h"
#include "src/web/serve_shop.h"

namespace hw {
namespace {

using terminal::Answer;

void say(std::string_view says) {
  std::printf("%.*s\n", static_cast<int>(says.size()), says.data());
  std::fflush(stdout);
}

Duration seconds_of(double seconds) { return {static_cast<std::int64_t>(seconds * 1e9)}; }

// `tls` lies in the shop's data folder.
Result<web::WebOptions> options_for(const web::ListenWords& words, const std::string& data) {
  HW_TAKE(share, terminal::share_folder());
  HW_TAKE(options, web::parse_options(words, {std::filesystem::path(data) / "tls"}));
  options.share = share;
  return options;
}

// The copies that the running server makes.
Result<web::ServeOptions> serving_of(const terminal::ServeCall& call, service::Store& store) {
  web::ServeOptions options;
  options.keeping = call.copies ? copies::Keeping::nightly : copies::Keeping::none;
  if (!call.copies) return options;
  HW_TAKE(shop, store.shop());
  if (!shop) return options;
  const storage::CopyFolder folder{call.data, *call.copies, call.keep, shop->calendar.zone};
  options.copy_making.at = {call.copies_hour};
  options.copy_making.newest = [folder] { return storage::newest_good(folder); };
  options.copy_making.make = [folder](Instant at) { return storage::keep_nightly(folder, at); };
  return options;
}

// What is said once a server answers, and how it waits for its end.
class Standing {
 public:
  web::Ready ready() {
    return [this](const web::Readied& readied) {
      say(readied.says);
      if (!readied.can_sign_in) {
        say("Nobody can sign in yet: hourwright admin create NAME --role lead prints a link for the first lead.");
      }
      address_ = readied.address;
      terminal::tell_ready();
    };
  }
  std::function<void()> wait() {
    return [this] {
      const terminal::Watchdog watchdog([this] { return is_well(); });
      terminal::wait_for_ending();
      terminal::tell_ending();
    };
  }

 private:
  bool is_well() const {
    const auto url = http::parse_url(address_ + "/healthz");
    const auto answer = url ? http::get(*url) : Result<http::Response>{refuse(url.error())};
    return answer && answer->status == 200;
  }
  std::string address_;
};

// One of the servers of a database with many plants.
Answer serve_group(const terminal::ServeCall& call, const web::WebOptions& options) {
  if (call.copies) {
    return refuse(ErrorCode::wrong_usage, "--copies: of a group each plant is copied by hourwright backup");
  }
  const auto report = [](std::string_view says) { spdlog::warn("{}", says); };
  storage::StoreTerms terms;
  terms.report = report;
  HW_TAKE(plants, storage::open_plants(call.data, terms));
  web::GroupOptions group{options, call.peer_address, seconds_of(call.store_every_s)};
  group.report = report;
  Standing standing;
  HW_TRY(web::serve_group(*plants, group, standing.ready(), standing.wait()));
  return "";
}

// A secret's file may end with a line break.
Result<std::string> first_word_in(const std::string& file) {
  HW_TAKE(text, read_whole_file(file));
  return text.substr(0, text.find_first_of(" \t\r\n"));
}

Result<std::optional<std::string>> database_of(const terminal::ServeCall& call) {
  if (call.database_file.empty()) return call.database;
  HW_TAKE(address, first_word_in(call.database_file));
  return std::optional{address};
}

Answer serve(const terminal::ServeCall& call) {
  HW_TAKE(options, options_for({call.listen, call.listen_tls, call.names}, call.data));
  HW_TAKE(database, database_of(call));
  if (database) HW_TRY(storage::place_on_server(call.data, *database));
  HW_TRY(storage::find_store(call.data));
  if (call.is_group) return serve_group(call, options);
  HW_TAKE(store, storage::open_store(call.data));
  HW_TAKE(serving, serving_of(call, *store));
  serving.web = options;
  serving.store_every = seconds_of(call.store_every_s);
  Standing standing;
  HW_TRY(web::serve_shop(*store, serving, standing.ready(), standing.wait()));
  return "";
}

Result<service::Upward> upward_of(const terminal::EdgeCall& call) {
  service::Upward upward;
  HW_TAKE(group, http::parse_url(call.upward));
  HW_TAKE(token, first_word_in(call.token_file));
  upward.group = std::move(group);
  upward.token = std::move(token);
  upward.ca_file = call.ca_file;
  upward.every = seconds_of(call.every_s);
  return upward;
}

Answer serve_edge(const terminal::EdgeCall& call) {
  HW_TAKE(options, options_for({call.serve.listen, call.serve.listen_tls, call.serve.names}, call.serve.data));
  HW_TAKE(upward, upward_of(call));
  HW_TAKE(edge, storage::open_edge(call.serve.data));
  HW_TAKE(serving, serving_of(call.serve, *edge.store));
  serving.web = options;
  serving.store_every = seconds_of(call.serve.store_every_s);
  serving.shipments = edge.shipments.get();
  serving.upward = std::move(upward);
  Standing standing;
  HW_TRY(web::serve_shop(*edge.store, serving, standing.ready(), standing.wait()));
  return "";
}

Result<std::unique_ptr<service::Store>> open_to_found(const terminal::FoundCall& call) {
  if (!call.plant.empty()) HW_TRY(storage::check_plant_key(call.plant));
  if (call.database) HW_TRY(storage::place_on_server(call.data, *call.database, call.plant));
  return storage::open_store(call.data, {.new_plant = call.plant});
}

// What stands there until the first shipment comes.
Answer found_at_edge(const terminal::FoundCall& call) {
  if (!call.database || call.plant.empty()) {
    return refuse(ErrorCode::wrong_usage, "--edge: the group's --database and the plant's key as --plant belong to it");
  }
  HW_TAKE(store, open_to_found(call));
  HW_TAKE(there, store->shop());
  if (there) return refuse(ErrorCode::conflict, "{}: there is a shop already: {}", call.data, there->plant);
  service::ShopRecord awaited;
  awaited.plant = call.plant;
  awaited.calendar.zone = Zone::utc();
  HW_TRY(store->create_awaiting(awaited));
  return fmt::format("{}: {} waits for what its edge sends\n", call.data, call.plant);
}

Answer found(const terminal::FoundCall& call) {
  if (call.is_at_edge) return found_at_edge(call);
  HW_TAKE(share, terminal::share_folder());
  HW_TAKE(files, storage::read_founding_files(call.shop, share / "library"));
  HW_TAKE(shop, service::found_shop(files.shop, files.sets, now()));
  if (call.is_looked_at) return terminal::told_of_new_shop(shop);
  HW_TAKE(store, open_to_found(call));
  HW_TAKE(there, store->shop());
  if (there) return refuse(ErrorCode::conflict, "{}: there is a shop already: {}", call.data, there->plant);
  HW_TRY(store->create_shop(shop.shop, shop.machines));
  return fmt::format("{}: {} with {} machines\n", call.data, shop.shop.plant, shop.machines.size());
}

// How to sign in: nothing in the demo has a password that is known.
std::string invite_lead(const catalogue::Shop& shop, const std::string& folder, const std::string& address) {
  const auto lead = std::find_if(shop.people.begin(), shop.people.end(), [](const auto& one) { return one.is_lead; });
  const Instant begin = now();
  const service::Grant grant{.kind = "link",
                             .name = lead->name,
                             .role = access::Role::lead,
                             .made_at = begin,
                             .ends_at = begin + access::console_link_life};
  const auto secret = storage::leave_grant(folder, grant);
  if (!secret) return secret.error().message;
  return fmt::format(
      "Sign in, once and within 30 minutes, as {}: {}/enter#{}\n"
      "Later, or as somebody else: hourwright admin create NAME --role ROLE --data {} --at {}",
      lead->name, address, *secret, folder, address);
}

Answer demo_in(const std::string& folder, const terminal::DemoCall& call) {
  HW_TAKE(options, options_for({call.listen, {}, call.names}, folder));
  HW_TAKE(files, storage::read_founding_files(options.share / "demo" / "shop.toml", options.share / "library"));
  const Instant begin = now();
  HW_TAKE(floor, simulate::demo_floor(files.shop, begin));
  const Duration ahead = simulate::ahead_for_full_work(floor->plan(), begin);
  HW_TAKE(agent, simulate::AgentServer::open(simulate::play(*floor, {begin, begin, 1, ahead}), {}));
  for (auto& machine : files.shop.machines) machine.agent = agent->url() + "/" + machine.key;
  HW_TAKE(shop, service::found_shop(files.shop, files.sets, begin));
  HW_TAKE(store, storage::open_store(folder));
  say(fmt::format("Making {} with {} days of history ...", files.shop.plant, simulate::demo_history_days));
  HW_TRY(simulate::found_demo(*store, shop, *floor, ahead, begin));
  const auto ready = [&](const web::Readied& readied) {
    say(fmt::format("{}\nData folder: {}\n{}", readied.says, folder, invite_lead(files.shop, folder, readied.address)));
  };
  HW_TRY(web::serve_shop(*store, {options}, ready, terminal::wait_for_ending));
  return "";
}

Answer demo(const terminal::DemoCall& call) {
  std::error_code error;
  std::string folder = (std::filesystem::temp_directory_path(error) / "hourwright-demo-XXXXXX").string();
  if (!mkdtemp(folder.data())) return refuse(ErrorCode::disk_full, "{}: the folder cannot be made", folder);
  Answer answer = demo_in(folder, call);
  std::filesystem::remove_all(folder, error);
  return answer;
}

Result<proposal::StopInstance> instance(const terminal::InstanceCall& call) {
  HW_TRY(storage::find_store(call.data));
  HW_TAKE(store, storage::open_store(call.data));
  HW_TAKE(shop, service::OpenShop::open(*store));
  service::UseForecasts forecasts(*shop);
  HW_TAKE(ahead, service::look_ahead(*shop, forecasts, std::nullopt, now()));
  return make_instance(ahead, call.weeks * 7, proposal::Moving::fixed);
}

Result<access::PermissionTable> permissions() {
  HW_TAKE(share, terminal::share_folder());
  HW_TAKE(contract, web::read_contract(share));
  HW_TAKE(table, web::read_access_table(contract));
  return std::move(table.permissions);
}

Result<record::Verdict> verify(const terminal::VerifyCall& call) {
  return storage::verify_logbook(call.data, call.noted);
}

Result<copies::CopyReport> make_copy(const terminal::BackupCall& call) {
  return storage::make_copy(call.data, call.file, now());
}

Result<copies::CopyReport> restore_copy(const terminal::RestoreCall& call) {
  return storage::restore_copy(call.file, call.data);
}

Result<copies::ExportReport> export_shop(const terminal::ExportCall& call) {
  return storage::export_shop(call.data, call.folder, now());
}

Result<copies::ExportReport> import_shop(const terminal::ExportCall& call) {
  return storage::import_shop(call.folder, call.data);
}

Result<copies::MoveReport> move_to_server(const terminal::CopyToCall& call) {
  return storage::move_to_server(call.data, call.database);
}

Result<service::RebuildReport> rebuild(const std::string& data) { return storage::rebuild(data, now()); }

service::Examined examine(const std::string& data) { return storage::examine(data, now()); }

}  // namespace
}  // namespace hw

int main(int argc, char** argv) {
  hw::terminal::hold_ending_signals();
  return hw::terminal::run(argc, argv,
                           {.serve = hw::serve,
                            .found = hw::found,
                            .demo = hw::demo,
                            .verify = hw::verify,
                            .look_into = hw::storage::look_into,
                            .instance = hw::instance,
                            .leave_grant = hw::storage::leave_grant,
                            .accounts = hw::storage::look_at_accounts,
                            .permissions = hw::permissions,
                            .make_copy = hw::make_copy,
                            .check_copy = [](const std::string& file) { return hw::storage::check_copy(file); },
                            .restore_copy = hw::restore_copy,
                            .move_to_server = hw::move_to_server,
                            .rebuild = hw::rebuild,
                            .examine = hw::examine,
                            .edge = hw::serve_edge,
                            .export_shop = hw::export_shop,
                            .import_shop = hw::import_shop});
}
