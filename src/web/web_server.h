#pragma once
// The server: API, live events, health, the built app, on a plain line and, where that is wished, on an encrypted one.
// Everything but what the contract opens to everybody is for people who have signed in and programs with a token.

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "libs/http/server.h"
#include "libs/http/static_files.h"
#include "src/service/access_book.h"
#include "src/service/devices.h"
#include "src/service/proposals.h"
#include "src/web/access_table.h"
#include "src/web/floor_lines.h"
#include "src/web/live_events.h"
#include "src/web/reach.h"
#include "src/web/tls_keeper.h"
#include "src/web/web_options.h"

namespace hw::web {

class WebServer {
 public:
  // Listens and answers from now on. Refuses what http::Server::listen refuses, a share folder without the contract,
  // and a TLS line without a certificate that lasts or without any name. Without a built app the API is served alone.
  static Result<std::unique_ptr<WebServer>> start(service::OpenShop& shop, const WebOptions& options, Clock clock);
  ~WebServer();  // stops

  // Of the plain line.
  std::uint16_t port() const { return servers_.front()->port(); }
  // Of the encrypted line; 0 where there is none.
  std::uint16_t tls_port() const { return tls_server_ ? tls_server_->port() : std::uint16_t{0}; }
  const Reach& reach() const { return reach_; }
  // Whether anybody can sign in; before that only the command line lets people in.
  bool can_sign_in() const;
  // All that is answered besides the app's files.
  std::vector<http::Route> routes() const { return router_.routes(); }
  void stop();

 private:
  WebServer(std::vector<certificates::HostName> names, Clock clock)
      : clock_(std::move(clock)), reach_(std::move(names)) {}
  Result<void> open_access(service::OpenShop& shop, const std::string& contract);
  void add_routes(service::OpenShop& shop, std::string contract);
  Result<void> open_lines(const WebOptions& options);
  Result<void> open_tls(const TlsOptions& options);
  Result<http::Server*> listen(const Endpoint& endpoint, const std::optional<http::TlsFiles>& tls);
  http::Response answer(http::Request request) const;
  // What is said to the head of a request that may have a large body, before that is read; nothing: it may come.
  std::optional<http::Response> answer_before(http::Request head) const;
  http::Response from_app(const http::Request& request) const;

  Clock clock_;
  Reach reach_;
  AccessTable access_table_;
  std::unique_ptr<service::Devices> devices_;
  std::unique_ptr<service::AccessBook> book_;
  http::Channel channel_;
  std::unique_ptr<FloorLines> floor_;
  std::unique_ptr<service::UseForecasts> forecasts_;
  std::unique_ptr<service::PartStudies> studies_;
  std::unique_ptr<service::StoresStudies> stores_;
  std::unique_ptr<service::Proposals> proposals_;
  http::Router router_;
  std::optional<http::StaticFiles> app_;
  std::unique_ptr<LiveEvents> live_;
  std::vector<std::unique_ptr<http::Server>> servers_;  // the plain one first
  http::Server* tls_server_ = nullptr;                  // one of them
  std::unique_ptr<TlsKeeper> tls_keeper_;
};

}  // namespace hw::web
