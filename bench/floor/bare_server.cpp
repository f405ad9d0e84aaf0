#include "bench/floor/bare_server.h"

#include <thread>
#include <vector>

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/strand.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include "libs/values/assert.h"

// GCC 12 takes Asio's pair of operators for a coroutine's frame to be mismatched when it inlines one of them only.
#pragma GCC diagnostic ignored "-Wmismatched-new-delete"

namespace hw::bench {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
using asio::ip::tcp;

asio::awaitable<void> serve(tcp::socket socket, const std::string& body) {
  beast::flat_buffer buffer;
  try {
    for (;;) {
      beast::http::request<beast::http::empty_body> request;
      co_await beast::http::async_read(socket, buffer, request, asio::use_awaitable);
      beast::http::response<beast::http::span_body<const char>> response;
      response.set(beast::http::field::content_type, "application/json");
      response.body() = {body.data(), body.size()};
      response.prepare_payload();
      co_await beast::http::async_write(socket, response, asio::use_awaitable);
    }
  } catch (const boost::system::system_error&) {  // the other side has gone
  }
}

asio::awaitable<void> listen(tcp::acceptor& acceptor, const std::string& body) {
  for (;;) {
    tcp::socket socket = co_await acceptor.async_accept(asio::use_awaitable);
    socket.set_option(tcp::no_delay(true));
    const auto strand = asio::make_strand(acceptor.get_executor());
    asio::co_spawn(strand, serve(std::move(socket), body), asio::detached);
  }
}

}  // namespace

struct BareServer::Running {
  std::string body;
  asio::io_context context;
  tcp::acceptor acceptor{context, {asio::ip::address_v4::loopback(), 0}};
  std::vector<std::jthread> threads;
};

BareServer::BareServer(std::string body) : running_(std::make_unique<Running>()) {
  running_->body = std::move(body);
  asio::co_spawn(running_->context, listen(running_->acceptor, running_->body), asio::detached);
  for (unsigned i = 0; i < std::thread::hardware_concurrency(); ++i) {
    running_->threads.emplace_back([this] { running_->context.run(); });
  }
}

BareServer::~BareServer() { running_->context.stop(); }

std::uint16_t BareServer::port() const { return running_->acceptor.local_endpoint().port(); }

BareProcess::BareProcess(const std::string& body) {
  int ends[2];
  HW_ASSERT(::pipe(ends) == 0, "a pipe can be made");
  process_ = ::fork();
  HW_ASSERT(process_ >= 0, "a process can be made");
  if (process_ == 0) {
    const BareServer server(body);
    const std::uint16_t port = server.port();
    HW_ASSERT(::write(ends[1], &port, sizeof port) == sizeof port, "the port can be told");
    for (;;) ::pause();
  }
  HW_ASSERT(::read(ends[0], &port_, sizeof port_) == sizeof port_, "the port is told");
  ::close(ends[0]);
  ::close(ends[1]);
}

BareProcess::~BareProcess() {
  ::kill(process_, SIGKILL);
  ::waitpid(process_, nullptr, 0);
}

}  // namespace hw::bench
