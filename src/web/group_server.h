#pragma once
// One of the servers of a group of plants that share a database: it answers for the plants that it holds, and passes on
// what is asked of the others.

#include <condition_variable>
#include <memory>
#include <mutex>
#include <thread>

#include "src/web/forwarding.h"
#include "src/web/held_plants.h"
#include "src/web/open_lines.h"

namespace hw::web {

struct GroupOptions {
  WebOptions web;
  std::optional<std::string> peer_address = {};  // at which the other servers reach it; nothing: this computer
  Duration store_every = Duration::seconds(5);
  Duration look_every = Duration::seconds(1);  // for plants that nobody holds
  std::function<void(std::string_view)> report;
};

class GroupServer {
 public:
  // Listens and answers from now on, and has looked for plants once. Refuses what read_site_files and OpenLines::open
  // refuse.
  static Result<std::unique_ptr<GroupServer>> start(service::Plants& plants, const GroupOptions& options, Clock clock);
  ~GroupServer();  // stops, and lets go of its plants

  std::uint16_t port() const { return lines_->port(); }
  const Reach& reach() const { return reach_; }
  const HeldPlants& held() const { return *held_; }
  void stop();

 private:
  GroupServer(service::Plants& plants, const GroupOptions& options)
      : plants_(plants), options_(options), reach_(options.web.names) {}
  http::Response answer(http::Request request) const;
  std::optional<http::Response> answer_before(http::Request head) const;
  std::optional<http::Response> answer_for_itself(const http::Request& request) const;
  // Calls it every `look_every` until this stops.
  void run(void (HeldPlants::*step)());

  service::Plants& plants_;
  GroupOptions options_;
  Reach reach_;
  std::unique_ptr<HeldPlants> held_;
  mutable Forwarding forwarding_;
  std::unique_ptr<OpenLines> lines_;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool is_stopping_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace hw::web
