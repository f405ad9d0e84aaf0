#pragma once
// The server: API, live events, health, the built app. Until there is sign-in it listens on this computer only.

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>

#include "libs/http/server.h"
#include "libs/http/static_files.h"
#include "src/web/live_events.h"

namespace hw::web {

struct WebOptions {
  std::string address = "127.0.0.1";
  std::uint16_t port = 8470;    // 0: any that is free
  std::filesystem::path share;  // holds app/dist and api/openapi.yaml
};

// "127.0.0.1:8470", "[::1]:8470" or ":8470". Refuses (wrong_usage) anything else and, until people can sign in, every
// address but this computer's own.
Result<WebOptions> parse_listen(std::string_view text);

class WebServer {
 public:
  // Listens and answers from now on. Refuses what http::Server::listen refuses, and a share folder without the
  // contract. Without a built app the API is served alone.
  static Result<std::unique_ptr<WebServer>> start(service::OpenShop& shop, const WebOptions& options, Clock clock);
  ~WebServer();  // stops

  std::uint16_t port() const { return server_->port(); }
  // All that is answered besides the app's files.
  std::vector<http::Route> routes() const { return router_.routes(); }
  void stop();

 private:
  WebServer() = default;
  http::Response from_app(const http::Request& request) const;

  http::Channel channel_;
  http::Router router_;
  std::optional<http::StaticFiles> app_;
  std::unique_ptr<LiveEvents> live_;
  std::unique_ptr<http::Server> server_;
};

}  // namespace hw::web
