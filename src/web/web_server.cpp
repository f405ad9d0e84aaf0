#include "src/web/web_server.h"

#include <charconv>
#include <fstream>
#include <sstream>

#include <spdlog/spdlog.h>

#include "src/web/answers.h"
#include "src/web/contract.h"
#include "src/web/metrics.h"
#include "src/web/origin_check.h"
#include "src/web/readiness.h"

namespace hw::web {
namespace {

constexpr unsigned workers = 4;

Result<std::string> contract_json(const std::filesystem::path& share) {
  const auto file = share / "api" / "openapi.yaml";
  std::ifstream in(file);
  if (!in) return refuse(ErrorCode::not_found, "{} is missing; it belongs to the program", file.string());
  std::stringstream text;
  text << in.rdbuf();
  auto json = json_of_yaml(text.str());
  if (!json) return refuse(json.error().at(file.string()));
  return json;
}

http::Response readiness_answer(const Readiness& readiness) {
  return http::Response::json(formats::print_json(readiness), readiness.ready ? 200 : 503);
}

bool is_this_computer(std::string_view address) {
  return address == "127.0.0.1" || address == "::1" || address == "localhost";
}

}  // namespace

Result<WebOptions> parse_listen(std::string_view text) {
  WebOptions options;
  const auto colon = text.rfind(':');
  const std::string_view port = colon == std::string_view::npos ? "" : text.substr(colon + 1);
  const auto [end, error] = std::from_chars(port.data(), port.data() + port.size(), options.port);
  if (port.empty() || error != std::errc{} || end != port.data() + port.size()) {
    return refuse(ErrorCode::wrong_usage, "--listen {}: it looks like 127.0.0.1:8470", text.substr(0, 60));
  }
  std::string_view address = text.substr(0, colon);
  if (address.starts_with('[') && address.ends_with(']')) address = address.substr(1, address.size() - 2);
  if (!address.empty()) options.address = address == "localhost" ? "127.0.0.1" : address;
  if (!is_this_computer(options.address)) {
    return refuse(ErrorCode::wrong_usage,
                  "--listen {}: there is no sign-in yet, so only this computer may reach the server; use 127.0.0.1:{}",
                  text.substr(0, 60), options.port);
  }
  return options;
}

Result<std::unique_ptr<WebServer>> WebServer::start(service::OpenShop& shop, const WebOptions& options, Clock clock) {
  std::unique_ptr<WebServer> web{new WebServer};
  HW_TAKE(contract, contract_json(options.share));
  if (auto app = http::StaticFiles::load(options.share / "app" / "dist")) {
    web->app_ = std::move(*app);
  } else {
    spdlog::warn("{}; the API is served alone", app.error().message);
  }
  const std::size_t app_files = web->app_ ? web->app_->size() : 0;
  web->router_.add("GET", "/healthz",
                   [](const http::Request&) { return http::Response::of(200, "text/plain", "alive\n"); });
  web->router_.add("GET", "/readyz", [&shop, app_files](const http::Request&) {
    return readiness_answer(readiness_of(shop, app_files));
  });
  web->router_.add("GET", "/metrics", [&shop, clock](const http::Request&) {
    return http::Response::of(200, metrics_content_type, metrics_of(shop, clock()));
  });
  add_api(web->router_, {shop, clock, web->channel_, std::move(contract)});
  web->router_.otherwise([server = web.get()](const http::Request& request) { return server->from_app(request); });
  http::ServerOptions listen;
  listen.address = options.address;
  listen.port = options.port;
  listen.workers = workers;
  listen.report = [](std::string_view says) { spdlog::warn("{}", says); };
  HW_TAKE(server, http::Server::listen(listen, [router = &web->router_](http::Request request) {
            if (auto refusal = check_origin(request)) return *std::move(refusal);
            return router->answer(std::move(request));
          }));
  web->server_ = std::move(server);
  web->live_ = std::make_unique<LiveEvents>(shop, std::move(clock), web->channel_);
  return web;
}

http::Response WebServer::from_app(const http::Request& request) const {
  const bool is_api = request.path == "/api" || request.path.starts_with("/api/");
  if (app_ && !is_api) return app_->answer(request);
  return http::problem({ErrorCode::not_found, fmt::format("there is nothing at {}", request.path)});
}

WebServer::~WebServer() { stop(); }

void WebServer::stop() {
  live_.reset();
  channel_.close();
  if (server_) server_->stop();
}

}  // namespace hw::web
