#include "src/web/web_server.h"

#include <spdlog/spdlog.h>

namespace hw::web {

Result<std::unique_ptr<WebServer>> WebServer::start(service::OpenShop& shop, const WebOptions& options, Clock clock) {
  std::unique_ptr<WebServer> web{new WebServer(options.names)};
  HW_TAKE(files, read_site_files(options.share, [](std::string_view says) { spdlog::warn("{}", says); }));
  HW_TAKE(site, ShopSite::open(shop, std::move(files), web->reach_, clock));
  web->site_ = std::move(site);
  const ShopSite& answers = *web->site_;
  HW_TAKE(lines, OpenLines::open(options,
                                 {[&answers](http::Request request) { return answers.answer(std::move(request)); },
                                  [&answers](http::Request head) { return answers.answer_before(std::move(head)); }},
                                 web->reach_, std::move(clock)));
  web->lines_ = std::move(lines);
  return web;
}

WebServer::~WebServer() { stop(); }

void WebServer::stop() {
  if (site_) site_->end_streams();
  if (lines_) lines_->stop();
}

}  // namespace hw::web
