#pragma once
// The server of one shop: its site on its lines.

#include <cstdint>
#include <memory>
#include <vector>

#include "src/web/open_lines.h"
#include "src/web/shop_site.h"

namespace hw::web {

class WebServer {
 public:
  // Listens and answers from now on. Refuses what read_site_files, ShopSite::open and OpenLines::open refuse.
  static Result<std::unique_ptr<WebServer>> start(service::OpenShop& shop, const WebOptions& options, Clock clock);
  ~WebServer();  // stops

  // Of the plain line.
  std::uint16_t port() const { return lines_->port(); }
  // Of the encrypted line; 0 where there is none.
  std::uint16_t tls_port() const { return lines_->tls_port(); }
  const Reach& reach() const { return reach_; }
  bool can_sign_in() const { return site_->can_sign_in(); }
  // All that is answered besides the app's files.
  std::vector<http::Route> routes() const { return site_->routes(); }
  void stop();

 private:
  explicit WebServer(std::vector<certificates::HostName> names) : reach_(std::move(names)) {}

  Reach reach_;
  std::unique_ptr<ShopSite> site_;
  std::unique_ptr<OpenLines> lines_;
};

}  // namespace hw::web
