#include "libs/http/server.h"

#include <atomic>
#include <mutex>
#include <set>
#include <thread>

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/use_awaitable.hpp>

#include "libs/http/connection.h"
#include "libs/values/assert.h"

namespace hw::http {
namespace {

namespace asio = boost::asio;
using asio::ip::tcp;
using boost::system::error_code;

// So many more than connections_max are told that there are too many; beyond that they are closed without a word.
constexpr std::size_t turned_away_max = 64;
constexpr auto pause_after_failed_accept = std::chrono::milliseconds(100);  // no descriptor is free

Result<std::optional<TlsContext>> open_tls(const ServerOptions& options) {
  if (!options.tls) return std::nullopt;
  auto context = TlsContext::for_server(options.tls->certificate_file, options.tls->key_file);
  if (!context) return refuse(context.error());
  return std::move(*context);
}

Error why_not_listening(const ServerOptions& options, error_code error) {
  const std::string where = fmt::format("port {} of {}", options.port, options.address);
  if (error == asio::error::address_in_use) {
    return {ErrorCode::in_use, where + " is in use by another program; end that one or choose another port"};
  }
  if (error == asio::error::access_denied) {
    return {ErrorCode::bad_input, where + " needs more rights than this program has; choose a port above 1023"};
  }
  return {ErrorCode::bad_input, fmt::format("{} cannot be listened on: {}", where, error.message())};
}

}  // namespace

// Everything below runs on the I/O thread but for what says otherwise.
struct Server::Running {
  Serving serving;
  asio::io_context io{1};
  asio::executor_work_guard<asio::io_context::executor_type> work{io.get_executor()};
  tcp::acceptor acceptor{io};
  asio::steady_timer pause{io};
  asio::steady_timer patience{io};
  std::optional<TlsContext> tls;
  std::set<std::shared_ptr<Connection>> connections;
  std::atomic<std::size_t> connections_count = 0;
  std::uint16_t port = 0;
  bool is_stopping = false;
  std::mutex stop_mutex;  // of the threads that call stop()
  std::thread thread;

  Running(ServerOptions options, Handler handler) : serving(std::move(options), std::move(handler)) {}
  Result<void> open();
  asio::awaitable<void> accept_all();
  void take_in(tcp::socket socket);
  void let_go(const std::shared_ptr<Connection>& connection, const std::exception_ptr& failure);
  void begin_stop();
  void report(std::string_view sentence) const {
    if (serving.options.report) serving.options.report(sentence);
  }
};

Result<void> Server::Running::open() {
  const ServerOptions& options = serving.options;
  error_code error;
  const auto address = asio::ip::make_address(options.address, error);
  if (error) {
    return refuse(ErrorCode::bad_input, "\"{}\" is no address to listen on; right is 127.0.0.1, 0.0.0.0 or ::1",
                  options.address);
  }
  const tcp::endpoint endpoint(address, options.port);
  acceptor.open(endpoint.protocol(), error);
  if (!error) acceptor.set_option(tcp::acceptor::reuse_address(true), error);
  if (!error) acceptor.bind(endpoint, error);
  if (!error) acceptor.listen(asio::socket_base::max_listen_connections, error);
  if (error) return refuse(why_not_listening(options, error));
  port = acceptor.local_endpoint().port();
  return {};
}

asio::awaitable<void> Server::Running::accept_all() {
  while (!is_stopping) {
    error_code error;
    tcp::socket socket(io);
    co_await acceptor.async_accept(socket, asio::redirect_error(asio::use_awaitable, error));
    if (!error) {
      take_in(std::move(socket));
    } else if (!is_stopping && error != asio::error::connection_aborted) {
      report(fmt::format("a connection could not be taken: {}", error.message()));
      pause.expires_after(pause_after_failed_accept);
      co_await pause.async_wait(asio::redirect_error(asio::use_awaitable, error));
    }
  }
}

void Server::Running::take_in(tcp::socket socket) {
  const std::size_t places = serving.options.connections_max;
  if (is_stopping || connections.size() >= places + turned_away_max) return;  // the socket closes itself
  const bool is_crowded = connections.size() >= places;
  const auto connection = std::make_shared<Connection>(std::move(socket), serving, tls);
  connections.insert(connection);
  connections_count = connections.size();
  asio::co_spawn(io, is_crowded ? connection->turn_away() : connection->serve(),
                 [this, connection](const std::exception_ptr& failure) { let_go(connection, failure); });
}

void Server::Running::let_go(const std::shared_ptr<Connection>& connection, const std::exception_ptr& failure) {
  connection->abort();
  connections.erase(connection);
  connections_count = connections.size();
  if (failure) report("a connection was given up: the server is out of memory or of threads");
  if (!is_stopping || !connections.empty()) return;
  patience.cancel();
  work.reset();
}

void Server::Running::begin_stop() {
  is_stopping = true;
  error_code ignored;
  acceptor.close(ignored);
  pause.cancel();
  if (connections.empty()) work.reset();
  for (const auto& connection : connections) connection->stop();
  if (connections.empty()) return;
  patience.expires_after(std::chrono::nanoseconds(serving.options.stop_within.ns));
  patience.async_wait([this](error_code error) {
    if (error) return;
    for (const auto& connection : connections) connection->cut_off();
  });
}

Server::Server(std::unique_ptr<Running> running) : running_(std::move(running)) {}

Server::~Server() { stop(); }

Result<std::unique_ptr<Server>> Server::listen(ServerOptions options, Handler handler) {
  HW_ASSERT(options.workers > 0, "a server has at least one thread for handlers");
  auto tls = open_tls(options);
  if (!tls) return refuse(tls.error());
  auto running = std::make_unique<Running>(std::move(options), std::move(handler));
  running->tls = std::move(*tls);
  if (auto opened = running->open(); !opened) return refuse(opened.error());
  asio::co_spawn(running->io, running->accept_all(), asio::detached);
  running->thread = std::thread([&io = running->io] { io.run(); });
  return std::unique_ptr<Server>(new Server(std::move(running)));
}

std::uint16_t Server::port() const { return running_->port; }

std::size_t Server::connections() const { return running_->connections_count; }

Result<void> Server::reload_tls() {
  auto tls = open_tls(running_->serving.options);
  if (!tls) return refuse(tls.error());
  asio::post(running_->io, [running = running_.get(), fresh = std::move(*tls)] { running->tls = fresh; });
  return {};
}

void Server::stop() {
  const std::lock_guard lock(running_->stop_mutex);
  if (!running_->thread.joinable()) return;
  asio::post(running_->io, [running = running_.get()] { running->begin_stop(); });
  running_->thread.join();
  running_->serving.workers.join();
}

}  // namespace hw::http
