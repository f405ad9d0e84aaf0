#pragma once
// A client's connection, plain or TLS. Each call waits at most until the deadline that it is given and no longer than
// until the token is cancelled.

#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "libs/http/cancel.h"
#include "libs/http/tls.h"
#include "libs/http/url.h"

namespace hw::http {

class Line {
 public:
  using Clock = std::chrono::steady_clock;

  // Looks the host up, tries its addresses in order, and shakes hands for https.
  static Result<Line> open(const Url& url, const std::string& ca_file, CancelToken cancel, Clock::time_point deadline);
  ~Line();
  Line(Line&& other) noexcept;
  Line(const Line&) = delete;
  Line& operator=(const Line&) = delete;

  Result<void> write(std::string_view bytes, Clock::time_point deadline);
  // Up to 64 KiB in place of what is in `bytes`; empty: the peer closed the line.
  Result<void> read(std::string& bytes, Clock::time_point deadline);

 private:
  explicit Line(CancelToken cancel) : cancel_(std::move(cancel)) {}
  Result<void> connect(const std::string& address, std::uint16_t port, Clock::time_point deadline);
  Result<void> shake_hands(const Url& url, const std::string& ca_file, Clock::time_point deadline);
  Result<void> wait_for(int descriptor, short events, Clock::time_point deadline) const;
  Result<void> send_all(std::string_view bytes, Clock::time_point deadline);
  Result<void> receive(std::string& bytes, Clock::time_point deadline);
  Result<std::vector<std::string>> look_up(const std::string& host, Clock::time_point deadline) const;

  CancelToken cancel_;
  int socket_ = -1;
  std::optional<TlsSession> tls_;
};

}  // namespace hw::http
