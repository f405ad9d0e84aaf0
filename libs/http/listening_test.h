#pragma once
// For this folder's tests: a server on any free port of the loopback, and what one says to it.

#include <condition_variable>
#include <memory>
#include <mutex>
#include <string>

#include <gtest/gtest.h>

#include "libs/http/loopback_test.h"
#include "libs/http/server.h"

namespace hw::http {

inline Response echo(const Request& request) {
  return Response::of(200, "text/plain", request.method + " " + request.path + " " + request.body);
}

inline std::unique_ptr<Server> listening(ServerOptions options = {}, Handler handler = echo) {
  auto server = Server::listen(std::move(options), std::move(handler));
  EXPECT_TRUE(server) << server.error().message;
  return std::move(*server);
}

inline std::string get_text(const std::string& target, const std::string& headers = "") {
  return "GET " + target + " HTTP/1.1\r\nHost: h\r\n" + headers + "\r\n";
}

inline std::string status_line_of(const std::string& head) { return head.substr(0, head.find("\r\n")); }

// Lets handlers wait until a test opens it.
class Gate {
 public:
  void wait() {
    std::unique_lock lock(mutex_);
    ++waiting_;
    condition_.wait_for(lock, patience, [&] { return is_open_; });
  }
  void open() {
    const std::lock_guard lock(mutex_);
    is_open_ = true;
    condition_.notify_all();
  }
  int waiting() {
    const std::lock_guard lock(mutex_);
    return waiting_;
  }

 private:
  std::mutex mutex_;
  std::condition_variable condition_;
  bool is_open_ = false;
  int waiting_ = 0;
};

}  // namespace hw::http
