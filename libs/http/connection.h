#pragma once
// One connection's life: handshake, then request after request, each answered on a worker thread, until either side
// ends it.

#include <memory>
#include <optional>
#include <string>

#include <boost/asio/awaitable.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>

#include "libs/http/byte_stream.h"
#include "libs/http/request_reader.h"
#include "libs/http/server.h"
#include "libs/http/wire.h"

namespace hw::http {

// What all connections of a server share; it outlives them.
struct Serving {
  ServerOptions options;
  Objection handler;  // always answers
  boost::asio::thread_pool workers;

  Serving(ServerOptions opts, Handler answer)
      : options(std::move(opts)), handler(std::move(answer)), workers(options.workers) {}
};

class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(boost::asio::ip::tcp::socket socket, Serving& serving, std::optional<TlsContext> tls);

  // Ends when the connection does.
  boost::asio::awaitable<void> serve();
  // Says 503 and closes: there are too many connections.
  boost::asio::awaitable<void> turn_away();
  // No request after the present one; ends at once where nothing is under way.
  void stop();
  // Ends all but a handler that still works; its answer is sent then.
  void cut_off();
  // Closes the line, whatever is under way.
  void abort() { wire_->abort(); }

 private:
  enum class Doing { waiting, reading, working, writing };

  boost::asio::awaitable<bool> begin();
  boost::asio::awaitable<void> serve_requests();
  boost::asio::awaitable<bool> read_request(RequestReader& reader);
  boost::asio::awaitable<bool> read_more();
  // What `whom` says, on a worker thread.
  boost::asio::awaitable<std::optional<Response>> ask(const Objection& whom, Request request);
  // False: it was answered already, and the connection ends.
  boost::asio::awaitable<bool> may_send_body(const RequestReader& reader);
  boost::asio::awaitable<void> refuse(const Refusal& refusal);
  boost::asio::awaitable<void> send_last(Response response);
  boost::asio::awaitable<bool> send(Response response, bool is_head, bool keep_alive);
  boost::asio::awaitable<bool> send_file(Response response, bool is_head, bool keep_alive);
  // How a body that is written while it is sent goes over the wire.
  struct Following {
    std::shared_ptr<ByteStream> stream;
    std::string_view heartbeat;  // sent after a silence; empty: nothing is
    bool is_chunked = false;
  };
  boost::asio::awaitable<bool> send_following(const Response& response, Following following, bool is_head);
  boost::asio::awaitable<bool> follow(const Following& following);
  boost::asio::awaitable<bool> wait_for_event();
  boost::asio::awaitable<bool> write(std::string_view bytes);
  std::optional<Response> call(const Objection& whom, Request request) noexcept;

  Serving& serving_;
  std::optional<TlsContext> tls_;
  std::shared_ptr<Wire> wire_;
  boost::asio::steady_timer next_event_;
  std::string received_;  // not yet read as a request
  Doing doing_ = Doing::reading;
  bool is_stopping_ = false;
  bool peer_is_gone_ = false;
  bool event_waits_ = false;
};

}  // namespace hw::http
