#pragma once
// A listener for HTTP/1.1, plain or TLS. One thread moves the bytes of all connections, so that a slow client costs no
// more than its buffers; handlers run on worker threads and may block.
//
// What it refuses by itself, with a problem+json body and the connection closed: 400 (not HTTP, no or two Host,
// Transfer-Encoding together with Content-Length, bad chunks, folded headers, dot segments), 408 (head or body too
// late), 413 (body), 414 (request line), 417 (Expect), 431 (headers), 501 (transfer codings other than chunked), 503
// (too many connections), 505 (not HTTP/1.x).

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "libs/http/message.h"
#include "libs/http/request_reader.h"
#include "libs/values/instant.h"
#include "libs/values/result.h"

namespace hw::http {

struct TlsFiles {
  std::string certificate_file;  // PEM, the whole chain
  std::string key_file;          // PEM
};

// Answers a request, or nothing: it goes on. Runs on a worker thread and may block.
using Objection = std::function<std::optional<Response>(Request request)>;

struct ServerOptions {
  std::string address = "127.0.0.1";
  std::uint16_t port = 0;       // 0: any that is free
  unsigned workers = 4;         // threads for handlers
  std::optional<TlsFiles> tls;  // TLS 1.2 or later only

  std::size_t request_line_bytes_max = 8 * 1024;
  std::size_t head_bytes_max = 16 * 1024;  // request line and headers
  std::size_t body_bytes_max = 1024 * 1024;
  LargeBodies large_bodies;
  // Asked with the head of a request that large_bodies is for, before its body is read (and before 100 Continue): what
  // it answers is sent instead, and the line closed.
  Objection before_large_body;
  std::size_t connections_max = 2000;

  Duration head_within = Duration::seconds(10);   // TLS handshake; from the first byte of a head to its end
  Duration body_within = Duration::seconds(60);   // the whole body
  Duration idle_max = Duration::seconds(60);      // between two requests
  Duration write_within = Duration::seconds(30);  // for each 64 KiB
  Duration stop_within = Duration::seconds(5);    // what stop() gives to what is in work, handlers aside
  Duration heartbeat = Duration::seconds(15);     // a comment in an event stream that was silent for so long

  // Told, in one sentence, what no response can tell: a handler that threw, a certificate that cannot be read again.
  std::function<void(std::string_view)> report;
};

class Server {
 public:
  // Listens and answers from now on. Refuses a port in use (in_use); an address that is not this computer's, a port
  // that needs more rights, a certificate or key that do not fit (bad_input).
  static Result<std::unique_ptr<Server>> listen(ServerOptions options, Handler handler);
  ~Server();  // stops

  std::uint16_t port() const;
  // How many connections there are now.
  std::size_t connections() const;
  // Reads the certificate and key files again; connections from now on use them. On an Error the old ones stay.
  Result<void> reload_tls();
  // Takes no new connections, answers what has been asked, ends event streams, joins all threads. Waits for handlers.
  void stop();

 private:
  struct Running;
  explicit Server(std::unique_ptr<Running> running);
  std::unique_ptr<Running> running_;
};

}  // namespace hw::http
