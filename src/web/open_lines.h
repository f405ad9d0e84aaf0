#pragma once
// The lines that a server listens on: a plain one, and an encrypted one where that is wished.

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "libs/http/server.h"
#include "src/web/api.h"
#include "src/web/reach.h"
#include "src/web/tls_keeper.h"
#include "src/web/web_options.h"

namespace hw::web {

// Who answers what comes over them.
struct LineAnswers {
  http::Handler answer;
  http::Objection before_large_body;
  unsigned workers = 4;
};

class OpenLines {
 public:
  // Listens and answers from now on, and tells `reach` at which lines and under which certificate. Refuses what
  // http::Server::listen refuses, and a TLS line without a certificate that lasts or without any name.
  static Result<std::unique_ptr<OpenLines>> open(const WebOptions& options, LineAnswers answers, Reach& reach,
                                                 Clock clock);
  ~OpenLines();  // stops

  // Of the plain line.
  std::uint16_t port() const { return servers_.front()->port(); }
  // Of the encrypted line; 0 where there is none.
  std::uint16_t tls_port() const { return tls_server_ ? tls_server_->port() : std::uint16_t{0}; }
  void stop();

 private:
  OpenLines(LineAnswers answers, Reach& reach, Clock clock)
      : answers_(std::move(answers)), reach_(reach), clock_(std::move(clock)) {}
  Result<void> open_all(const WebOptions& options);
  Result<void> open_tls(const TlsOptions& options);
  Result<http::Server*> listen(const Endpoint& endpoint, const std::optional<http::TlsFiles>& tls);

  LineAnswers answers_;
  Reach& reach_;
  Clock clock_;
  std::vector<std::unique_ptr<http::Server>> servers_;  // the plain one first
  http::Server* tls_server_ = nullptr;                  // one of them
  std::unique_ptr<TlsKeeper> tls_keeper_;
};

}  // namespace hw::web
