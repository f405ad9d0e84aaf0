#include "src/simulate/agent_server.h"

#include <algorithm>
#include <condition_variable>
#include <thread>

#include <fmt/format.h>

#include "libs/http/server.h"
#include "src/simulate/agent_requests.h"

namespace hw::simulate {

struct AgentServer::Running {
  Running(std::unique_ptr<Source> source, const AgentServerOptions& options)
      : tick(options.tick), agent(std::make_shared<SharedAgent>(std::move(source), options.agent, options.clock)) {
    agent->faults = options.faults;
  }

  void keep_time();
  void wake_streams();
  void add(const std::shared_ptr<AgentStream>& stream);

  const Duration tick;
  std::shared_ptr<SharedAgent> agent;
  std::unique_ptr<http::Server> server;
  std::string address;

  std::mutex mutex;  // of what follows; taken after the agent's, never before it
  std::condition_variable ended;
  bool is_ending = false;
  std::vector<std::weak_ptr<AgentStream>> streams;
  std::thread timekeeper;
};

void AgentServer::Running::keep_time() {
  std::unique_lock lock(mutex);
  while (!ended.wait_for(lock, std::chrono::nanoseconds(tick.ns), [&] { return is_ending; })) {
    lock.unlock();
    {
      const std::lock_guard agent_lock(agent->mutex);
      agent->advance();
    }
    wake_streams();
    lock.lock();
  }
}

void AgentServer::Running::wake_streams() {
  std::vector<std::shared_ptr<AgentStream>> open;
  {
    const std::lock_guard lock(mutex);
    std::erase_if(streams, [](const auto& stream) { return stream.expired(); });
    for (const auto& stream : streams) open.push_back(stream.lock());
  }
  for (const auto& stream : open) {
    if (stream) stream->wake();
  }
}

void AgentServer::Running::add(const std::shared_ptr<AgentStream>& stream) {
  const std::lock_guard lock(mutex);
  streams.push_back(stream);
}

Result<std::unique_ptr<AgentServer>> AgentServer::open(std::unique_ptr<Source> source, AgentServerOptions options) {
  if (!options.clock) options.clock = [] { return now(); };
  if (options.agent.instance_id == 0) {
    options.agent.instance_id = static_cast<std::uint64_t>(options.clock().as_millis() / 1000);
  }
  auto running = std::make_unique<Running>(std::move(source), options);
  Running* const here = running.get();
  http::ServerOptions listener;
  listener.address = options.address;
  listener.port = options.port;
  listener.workers = 2;
  auto server = http::Server::listen(listener, [here](const http::Request& request) {
    return answer(here->agent, request, [here](const auto& stream) { here->add(stream); });
  });
  if (!server) return refuse(server.error());
  here->server = std::move(*server);
  here->address = options.address;
  here->timekeeper = std::thread([here] { here->keep_time(); });
  return std::unique_ptr<AgentServer>(new AgentServer(std::move(running)));
}

AgentServer::AgentServer(std::unique_ptr<Running> running) : running_(std::move(running)) {}

AgentServer::~AgentServer() { close(); }

std::uint16_t AgentServer::port() const { return running_->server->port(); }

std::string AgentServer::url() const { return fmt::format("http://{}:{}", running_->address, port()); }

void AgentServer::set_faults(const Faults& faults) {
  const std::lock_guard lock(running_->agent->mutex);
  running_->agent->faults = faults;
}

void AgentServer::restart(Identity identity) {
  {
    const std::lock_guard lock(running_->agent->mutex);
    SharedAgent& agent = *running_->agent;
    agent.restart(agent.agent.instance_id() + (identity == Identity::fresh ? 1 : 0));
  }
  running_->wake_streams();
}

void AgentServer::hang_up() {
  {
    const std::lock_guard lock(running_->agent->mutex);
    ++running_->agent->generation;
  }
  running_->wake_streams();
}

void AgentServer::overrun() {
  const std::lock_guard lock(running_->agent->mutex);
  running_->agent->agent.drop_buffer();
}

void AgentServer::go_back(std::uint64_t steps) {
  const std::lock_guard lock(running_->agent->mutex);
  running_->agent->agent.go_back(steps);
}

void AgentServer::touch_model() {
  const std::lock_guard lock(running_->agent->mutex);
  running_->agent->agent.touch_model(running_->agent->clock());
}

void AgentServer::advance() {
  const std::lock_guard lock(running_->agent->mutex);
  running_->agent->advance();
}

std::uint64_t AgentServer::instance_id() const {
  const std::lock_guard lock(running_->agent->mutex);
  return running_->agent->agent.instance_id();
}

std::uint64_t AgentServer::next_sequence() const {
  const std::lock_guard lock(running_->agent->mutex);
  return running_->agent->agent.next_sequence();
}

void AgentServer::close() {
  if (!running_->timekeeper.joinable()) return;
  {
    const std::lock_guard lock(running_->mutex);
    running_->is_ending = true;
  }
  running_->ended.notify_all();
  running_->timekeeper.join();
  hang_up();
  running_->server->stop();
}

}  // namespace hw::simulate
