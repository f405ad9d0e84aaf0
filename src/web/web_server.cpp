#include "src/web/web_server.h"

#include <algorithm>

#include <spdlog/spdlog.h>

#include "libs/values/secret.h"
#include "src/service/sign_in.h"
#include "src/web/access_routes.h"
#include "src/web/admission.h"
#include "src/web/answers.h"
#include "src/web/join_routes.h"
#include "src/web/metrics.h"
#include "src/web/origin_check.h"
#include "src/web/readiness.h"
#include "src/web/stores_sheets.h"

namespace hw::web {
namespace {

constexpr unsigned workers = 4;

http::Response readiness_answer(const Readiness& readiness) {
  return http::Response::json(formats::print_json(readiness), readiness.ready ? 200 : 503);
}

void report(std::string_view says) { spdlog::warn("{}", says); }

// Where every line is this computer's own but a name was said, somebody passes other devices on to them.
Lines lines_for_others(const WebOptions& options, const Lines& open) {
  const bool plain = is_for_others(options.plain), tls = options.tls && is_for_others(options.tls->endpoint);
  if (!plain && !tls && !options.names.empty()) return open;
  return {plain ? open.plain_port : std::uint16_t{0}, tls ? open.tls_port : std::uint16_t{0}};
}

}  // namespace

Result<std::unique_ptr<WebServer>> WebServer::start(service::OpenShop& shop, const WebOptions& options, Clock clock) {
  std::unique_ptr<WebServer> web{new WebServer(options.names, std::move(clock))};
  HW_TAKE(contract, read_contract(options.share));
  HW_TRY(web->open_access(shop, contract));
  if (auto app = http::StaticFiles::load(options.share / "app" / "dist")) {
    web->app_ = std::move(*app);
  } else {
    spdlog::warn("{}; the API is served alone", app.error().message);
  }
  web->add_routes(shop, std::move(contract));
  HW_TRY(web->open_lines(options));
  web->live_ = std::make_unique<LiveEvents>(shop, *web->floor_, web->clock_, web->channel_);
  return web;
}

Result<void> WebServer::open_access(service::OpenShop& shop, const std::string& contract) {
  HW_TAKE(table, read_access_table(contract));
  access_table_ = std::move(table);
  HW_TAKE(devices, service::Devices::open(shop.store(), shop.calendar().zone, secret_bytes));
  devices_ = std::move(devices);
  HW_TAKE(book, service::AccessBook::open(shop.store(), shop.calendar().zone, secret_bytes, access_table_.permissions));
  book_ = std::move(book);
  router_.guard([this, &shop](const http::Route& route, http::Request& request) {
    auto refusal = unless_the_disk_fails([&] {
      return check_admission({{*book_, *devices_}, shop, access_table_}, route, request, clock_());
    });
    return refusal ? std::move(refusal) : check_body_type(request);
  });
  return {};
}

void WebServer::add_routes(service::OpenShop& shop, std::string contract) {
  router_.add("GET", "/healthz", [](const http::Request&) { return http::Response::of(200, "text/plain", "alive\n"); });
  router_.add("GET", "/readyz", [this, &shop](const http::Request&) {
    Readiness readiness = readiness_of(shop, app_ ? app_->size() : 0, clock_());
    if (const auto served = reach_.served())
      readiness.checks.push_back(certificate_check(served->certificate, clock_()));
    return readiness_answer(readiness);
  });
  router_.add("GET", "/metrics", [this, &shop](const http::Request&) {
    return http::Response::of(200, metrics_content_type, metrics_of(shop, clock_()));
  });
  floor_ = std::make_unique<FloorLines>(shop);
  forecasts_ = std::make_unique<service::UseForecasts>(shop);
  proposals_ = std::make_unique<service::Proposals>(shop, *forecasts_);
  studies_ = std::make_unique<service::PartStudies>(shop);
  stores_ = std::make_unique<service::StoresStudies>(shop, *forecasts_, *studies_);
  add_api(router_, {shop, *floor_, clock_, channel_, *forecasts_, *proposals_, *studies_, *stores_, std::move(contract),
                    reach_});
  add_join(router_, {*devices_, reach_, clock_, channel_});
  const AccessParts access{*book_, *devices_, shop, reach_, clock_, channel_};
  add_sign_in_routes(router_, access);
  add_own_access_routes(router_, access);
  add_account_routes(router_, access);
  router_.otherwise([this](const http::Request& request) { return from_app(request); });
}

Result<http::Server*> WebServer::listen(const Endpoint& endpoint, const std::optional<http::TlsFiles>& tls) {
  http::ServerOptions options;
  options.address = endpoint.address;
  options.port = endpoint.port;
  options.workers = workers;
  options.tls = tls;
  options.report = report;
  options.large_bodies = {"/api/stores/sheet", sheet_bytes_max};
  options.before_large_body = [this](http::Request head) { return answer_before(std::move(head)); };
  HW_TAKE(server, http::Server::listen(options, [this](http::Request request) { return answer(std::move(request)); }));
  return servers_.emplace_back(std::move(server)).get();
}

// A plain line for other devices at one address only would leave out this computer, at which devices are let join: it
// gets a line of its own, at the same port.
Result<void> WebServer::open_lines(const WebOptions& options) {
  if (options.tls) HW_TRY(open_tls(*options.tls));
  HW_TAKE(plain, listen(options.plain, std::nullopt));
  std::rotate(servers_.begin(), servers_.end() - 1, servers_.end());
  const bool is_one_of_many =
      is_for_others(options.plain) && options.plain.address != "0.0.0.0" && options.plain.address != "::";
  if (is_one_of_many) HW_TRY(listen({"127.0.0.1", plain->port()}, std::nullopt));
  reach_.set_lines(lines_for_others(options, {plain->port(), tls_port()}));
  return {};
}

Result<void> WebServer::open_tls(const TlsOptions& options) {
  HW_TAKE(served, fresh_served(options.folder, clock_(), report));
  reach_.set_served(served);
  if (is_for_others(options.endpoint) && reach_.names().empty()) {
    return refuse(ErrorCode::wrong_usage,
                  "--listen-tls: the certificate has no name that the server could answer at; say it with --name");
  }
  const std::string file = options.folder.server_file().string();
  HW_TAKE(server, listen(options.endpoint, http::TlsFiles{file, file}));
  tls_server_ = server;
  tls_keeper_ = std::make_unique<TlsKeeper>(
      TlsParts{options, clock_, report, [this] { return tls_server_->reload_tls(); }, reach_});
  return {};
}

http::Response WebServer::answer(http::Request request) const {
  if (auto refusal = check_origin(request, reach_)) return *std::move(refusal);
  return router_.answer(std::move(request));
}

std::optional<http::Response> WebServer::answer_before(http::Request head) const {
  if (auto refusal = check_origin(head, reach_)) return refusal;
  return router_.answer_before(std::move(head));
}

http::Response WebServer::from_app(const http::Request& request) const {
  const bool is_api = request.path == "/api" || request.path.starts_with("/api/");
  if (app_ && !is_api) return app_->answer(request);
  return http::problem({ErrorCode::not_found, fmt::format("there is nothing at {}", request.path)});
}

bool WebServer::can_sign_in() const { return service::has_accounts(*book_, clock_()); }

WebServer::~WebServer() { stop(); }

void WebServer::stop() {
  live_.reset();
  tls_keeper_.reset();
  channel_.close();
  for (const auto& server : servers_) server->stop();
  proposals_.reset();  // nobody asks it any more
}

}  // namespace hw::web
