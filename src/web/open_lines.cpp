#include "src/web/open_lines.h"

#include <algorithm>

#include <spdlog/spdlog.h>

#include "src/web/stores_sheets.h"

namespace hw::web {
namespace {

void warn(std::string_view says) { spdlog::warn("{}", says); }

// Where every line is this computer's own but a name was said, somebody passes other devices on to them.
Lines lines_for_others(const WebOptions& options, const Lines& open) {
  const bool plain = is_for_others(options.plain), tls = options.tls && is_for_others(options.tls->endpoint);
  if (!plain && !tls && !options.names.empty()) return open;
  return {plain ? open.plain_port : std::uint16_t{0}, tls ? open.tls_port : std::uint16_t{0}};
}

}  // namespace

Result<std::unique_ptr<OpenLines>> OpenLines::open(const WebOptions& options, LineAnswers answers, Reach& reach,
                                                   Clock clock) {
  std::unique_ptr<OpenLines> lines{new OpenLines(std::move(answers), reach, std::move(clock))};
  HW_TRY(lines->open_all(options));
  return lines;
}

Result<http::Server*> OpenLines::listen(const Endpoint& endpoint, const std::optional<http::TlsFiles>& tls) {
  http::ServerOptions options;
  options.address = endpoint.address;
  options.port = endpoint.port;
  options.workers = answers_.workers;
  options.tls = tls;
  options.report = warn;
  options.large_bodies = {"/api/stores/sheet", sheet_bytes_max};
  options.before_large_body = answers_.before_large_body;
  HW_TAKE(server, http::Server::listen(options, answers_.answer));
  return servers_.emplace_back(std::move(server)).get();
}

// A plain line for other devices at one address only would leave out this computer, at which devices are let join: it
// gets a line of its own, at the same port.
Result<void> OpenLines::open_all(const WebOptions& options) {
  if (options.tls) HW_TRY(open_tls(*options.tls));
  HW_TAKE(plain, listen(options.plain, std::nullopt));
  std::rotate(servers_.begin(), servers_.end() - 1, servers_.end());
  const bool is_one_of_many =
      is_for_others(options.plain) && options.plain.address != "0.0.0.0" && options.plain.address != "::";
  if (is_one_of_many) HW_TRY(listen({"127.0.0.1", plain->port()}, std::nullopt));
  reach_.set_lines(lines_for_others(options, {plain->port(), tls_port()}));
  return {};
}

Result<void> OpenLines::open_tls(const TlsOptions& options) {
  HW_TAKE(served, fresh_served(options.folder, clock_(), warn));
  reach_.set_served(served);
  if (is_for_others(options.endpoint) && reach_.names().empty()) {
    return refuse(ErrorCode::wrong_usage,
                  "--listen-tls: the certificate has no name that the server could answer at; say it with --name");
  }
  const std::string file = options.folder.server_file().string();
  HW_TAKE(server, listen(options.endpoint, http::TlsFiles{file, file}));
  tls_server_ = server;
  tls_keeper_ = std::make_unique<TlsKeeper>(
      TlsParts{options, clock_, warn, [this] { return tls_server_->reload_tls(); }, reach_});
  return {};
}

OpenLines::~OpenLines() { stop(); }

void OpenLines::stop() {
  tls_keeper_.reset();
  for (const auto& server : servers_) server->stop();
}

}  // namespace hw::web
