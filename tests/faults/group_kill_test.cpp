// Three servers share three plants on one database. One after the other is killed, stopped for a while and ended, and
// so is the database; people go on entering meanwhile. In the end every count is what a count over the whole list has,
// to the nanosecond, and every entry that was acknowledged is there once.

#include <atomic>
#include <map>
#include <set>
#include <thread>

#include <fmt/ranges.h>
#include <gtest/gtest.h>

#include "libs/http/client.h"
#include "libs/sql/test_folder.h"
#include "src/simulate/agent_server.h"
#include "src/storage/database_place.h"
#include "tests/faults/batch_count.h"
#include "tests/faults/own_postgres.h"
#include "tests/faults/scene.h"
#include "tests/faults/server_process.h"
#include "tests/faults/shop_folder.h"
#include "tests/shop/let_in.h"

namespace hw::faults {
namespace {

constexpr int servers = 3;
const std::vector<std::string> plants{"east", "north", "south"};

// A plant with its own agent, and a folder that names it.
struct Plant {
  Plant(const std::filesystem::path& place, const std::string& database, const std::string& plant, std::uint64_t seed)
      : folder(place / plant), scene(make_scene({.seed = seed, .begin = now(), .lead_s = 12, .busy_s = 34})) {
    auto opened = simulate::AgentServer::open(simulate::replay(scene.machines, scene.arrivals, 150), {});
    HW_ASSERT(opened, "an agent listens");
    agent = std::move(*opened);
    std::vector<ShopMachine> machines;
    for (const auto& machine : scene.machines) machines.push_back({machine.entry.key, "feed-1", agent->url()});
    HW_ASSERT(storage::place_on_server(folder, database, plant), "the folder is new");
    found_shop(folder, machines);
    token = shop::token_for(folder);
  }
  std::uint64_t read_until() const {
    const auto positions = read_positions(folder);
    return positions.empty() ? 0 : positions.begin()->second.next_sequence;
  }
  bool has_played(std::size_t arrivals) const {
    std::size_t items = 0;
    for (const auto& machine : scene.machines) items += machine.model.items.size();
    return agent->next_sequence() > items + arrivals;
  }
  bool is_read() const { return has_played(scene.arrivals.size()) && read_until() == agent->next_sequence(); }

  std::filesystem::path folder;
  Scene scene;
  std::unique_ptr<simulate::AgentServer> agent;
  std::string token;  // lets in
};

class Group {
 public:
  Group() {
    for (const std::string& plant : plants) {
      all_.emplace(plant, std::make_unique<Plant>(folder_.path(), postgres_.address(), plant, all_.size() + 1));
    }
    // Every item has been said once before anybody counts.
    HW_ASSERT(
        comes_true([&] { return all_play([](const Plant& plant) { return plant.has_played(plant.scene.opening); }); }),
        "the agents play");
    for (int n = 0; n < servers; ++n) {
      HW_ASSERT(storage::place_on_server(data(n), postgres_.address()), "the folder is new");
      start(n);
    }
  }

  std::filesystem::path data(int n) const { return folder_.path() / fmt::format("server{}", n); }
  ServerProcess& server(int n) { return *processes_.at(static_cast<std::size_t>(n)); }
  void start(int n) {
    if (processes_.size() <= static_cast<std::size_t>(n)) processes_.resize(static_cast<std::size_t>(n) + 1);
    processes_[static_cast<std::size_t>(n)] =
        std::make_unique<ServerProcess>(data(n), std::vector<std::string>{"--group", "--store-every", "0.1"});
    ASSERT_TRUE(server(n).is_up()) << server(n).said();
    ports_[static_cast<std::size_t>(n)] = server(n).port();
  }
  // What a server answers for a plant; status 0: nothing.
  int ask(int n, const std::string& plant, std::string_view method, const std::string& target,
          std::string_view body) const {
    const std::uint16_t port = ports_.at(static_cast<std::size_t>(n));
    const auto url = http::parse_url(fmt::format("http://127.0.0.1:{}{}", port, target));
    http::GetOptions options;
    options.answer_within = Duration::seconds(2);
    options.headers = {{"Host", fmt::format("{}.localhost:{}", plant, port)},
                       {"Content-Type", "application/json"},
                       {"Authorization", "Bearer " + all_.at(plant)->token}};
    const auto answer = http::send(*url, method, body, options);
    return answer ? answer->status : 0;
  }
  // Whether one of the servers, but for that one, answers for every plant.
  bool answers_for_all(int but_for = -1) const {
    return std::all_of(plants.begin(), plants.end(), [&](const std::string& plant) {
      for (int n = 0; n < servers; ++n) {
        if (n != but_for && ask(n, plant, "GET", "/api/shop", "") == 200) return true;
      }
      return false;
    });
  }
  bool all_play(const std::function<bool(const Plant&)>& so_far) const {
    return std::all_of(all_.begin(), all_.end(), [&](const auto& one) { return so_far(*one.second); });
  }
  const std::map<std::string, std::unique_ptr<Plant>>& all() const { return all_; }
  const OwnPostgres& postgres() const { return postgres_; }

 private:
  sql::TestFolder folder_;
  OwnPostgres postgres_{folder_.path() / "postgres"};
  std::map<std::string, std::unique_ptr<Plant>> all_;
  std::vector<std::unique_ptr<ServerProcess>> processes_;
  std::array<std::atomic<std::uint16_t>, servers> ports_{};
};

// Marks tasks done at any plant through any server, each until it is acknowledged.
class Worker {
 public:
  explicit Worker(const Group& group) : group_(group), thread_([this] { run(); }) {}
  ~Worker() { end(); }
  void end() {
    is_ending_ = true;
    if (thread_.joinable()) thread_.join();
  }
  const std::map<std::string, std::set<std::string>>& acknowledged() const { return acknowledged_; }
  int tries() const { return tries_; }

 private:
  void run() {
    for (int n = 0; !is_ending_; ++n) {
      const std::string& plant = plants[static_cast<std::size_t>(n) % plants.size()];
      const std::string id = fmt::format("01941f29-7c00-7aaa-8bbb-{:012}", n);
      const std::string body = fmt::format(R"({{"id":"{}","by":"Ada"}})", id);
      // Once more where nothing came back: the same id is the same entry.
      const bool is_kept = comes_true([&] {
        const int server = tries_++ % servers;
        return group_.ask(server, plant, "POST", fmt::format("/api/machines/m1/tasks/{}/done", task_key), body) == 200;
      });
      if (is_kept) acknowledged_[plant].insert(id);
    }
  }

  const Group& group_;
  std::map<std::string, std::set<std::string>> acknowledged_;
  int tries_ = 0;
  std::atomic<bool> is_ending_ = false;
  std::thread thread_;
};

Duration until_all_answer(const Group& group, int but_for = -1) {
  const Instant begin = now();
  EXPECT_TRUE(comes_true([&] { return group.answers_for_all(but_for); }));
  return now() - begin;
}

std::set<std::string> kept_entries(const std::filesystem::path& folder) {
  const auto db = storage::open_database(*storage::place_of(folder), sql::Access::read);
  std::set<std::string> ids;
  auto rows = (*db)->query("select id from entry where plant = $1 and kind = 'task done'", (*db)->tenant());
  while (rows->next()) EXPECT_TRUE(ids.insert(rows->get<std::string>(0)).second);
  return ids;
}

TEST(GroupKill, WhicheverServerEndsNothingIsLostOrDoubled) {
  Group group;
  ASSERT_TRUE(comes_true([&] { return group.answers_for_all(); }));
  Worker worker(group);

  group.server(0).kill();
  fmt::print("killed: all plants answered again after {:.1f} s\n", until_all_answer(group, 0).as_seconds());
  group.start(0);

  group.server(1).signal(SIGSTOP);
  fmt::print("stopped: all plants answered again after {:.1f} s\n", until_all_answer(group, 1).as_seconds());
  group.server(1).signal(SIGCONT);

  group.postgres().kill_and_start();
  fmt::print("database killed: all plants answered again after {:.1f} s\n", until_all_answer(group).as_seconds());

  ASSERT_EQ(group.server(2).stop(), 0) << group.server(2).said();
  fmt::print("ended: all plants answered again after {:.1f} s\n", until_all_answer(group, 2).as_seconds());
  group.start(2);

  ASSERT_TRUE(comes_true([&] { return group.all_play([](const Plant& plant) { return plant.is_read(); }); }));
  worker.end();
  for (int n = 0; n < servers; ++n) ASSERT_EQ(group.server(n).stop(), 0) << group.server(n).said();

  std::size_t entries = 0;
  for (const auto& [key, plant] : group.all()) {
    SCOPED_TRACE(key);
    const KeptShop kept = read_shop(plant->folder, plant->scene.ends_at);
    expect_conserved(kept);
    for (std::uint32_t m = 0; m < plant->scene.machines.size(); ++m) {
      SCOPED_TRACE(plant->scene.machines[m].entry.key);
      expect_as_in_batch(plant->scene, m, kept.machines.at(plant->scene.machines[m].entry.key));
    }
    EXPECT_EQ(kept_entries(plant->folder), worker.acknowledged().at(key));
    entries += worker.acknowledged().at(key).size();
  }
  fmt::print("{} entries acknowledged in {} tries\n", entries, worker.tries());
}

}  // namespace
}  // namespace hw::faults
