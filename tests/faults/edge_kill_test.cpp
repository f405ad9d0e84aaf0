// A plant keeps its record itself and sends it to its group over a line that is cut again and again; both ends and the
// group's database are killed meanwhile, and people go on entering. In the end both hold the same rows, every count is
// what a count over the whole list has, and every entry that was acknowledged is there once.

#include <fstream>
#include <set>
#include <thread>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/simulate/agent_server.h"
#include "src/storage/database_place.h"
#include "src/storage/open_store.h"
#include "src/storage/record_digest.h"
#include "tests/faults/batch_count.h"
#include "tests/faults/link.h"
#include "tests/faults/own_postgres.h"
#include "tests/faults/scene.h"
#include "tests/faults/server_process.h"
#include "tests/faults/shop_folder.h"
#include "tests/shop/let_in.h"

namespace hw::faults {
namespace {

namespace fs = std::filesystem;

service::ShopRecord awaited() {
  service::ShopRecord shop;
  shop.plant = "north";
  shop.calendar.zone = Zone::utc();
  return shop;
}

struct EdgeKill : testing::Test {
  EdgeKill() {
    auto opened = simulate::AgentServer::open(simulate::replay(scene.machines, scene.arrivals, 150), {});
    HW_ASSERT(opened, "an agent listens");
    agent = std::move(*opened);
    std::vector<ShopMachine> machines;
    for (const auto& machine : scene.machines) machines.push_back({machine.entry.key, "feed-1", agent->url()});
    found_shop(plant, machines, "north");
    HW_ASSERT(storage::place_on_server(at_group, postgres.address(), "north"), "the folder is new");
    HW_ASSERT((*storage::open_store(at_group))->create_awaiting(awaited()), "the plant is new");
    std::ofstream(token_file) << shop::token_for(at_group) << "\n";
    HW_ASSERT(storage::place_on_server(group_data, postgres.address()), "the folder is new");
  }

  void start_group() {
    group = std::make_unique<ServerProcess>(group_data, std::vector<std::string>{"--group"});
    ASSERT_TRUE(group->is_up()) << group->said();
    if (link) {
      link->lead_to(group->port());
    } else {
      link = std::make_unique<Link>(group->port());
    }
  }
  void start_edge() {
    const std::string upward = fmt::format("http://north.localhost:{}", link->port());
    edge = std::make_unique<ServerProcess>(
        plant,
        std::vector<std::string>{"--store-every", "0.1", "--send-every", "1", "--upward", upward, "--token-file",
                                 token_file.string()},
        "edge");
    ASSERT_TRUE(edge->is_up()) << edge->said();
  }
  static std::string digest_of(const fs::path& folder) {
    auto db = std::move(*storage::open_database(*storage::place_of(folder), sql::Access::read));
    const auto moment = sql::Transaction::begin(*db);
    return storage::record_digest(*db, storage::sent_tables())->sha256;
  }
  std::int64_t taken() const {
    auto db = std::move(*storage::open_database(*storage::place_of(at_group), sql::Access::read));
    return db->query_value<std::int64_t>("select number from edge_taken where plant = $1", db->tenant())->value_or(0);
  }
  bool has_taken_more_than(std::int64_t number) const {
    return comes_true([&] { return taken() > number; });
  }
  // Until it is acknowledged; the same id is the same entry.
  void enter(int n) {
    const std::string id = fmt::format("01941f29-7c00-7aaa-8bbb-{:012}", n);
    const std::string body = fmt::format(R"({{"id":"{}","by":"Ada"}})", id);
    const bool is_kept = comes_true(
        [&] { return edge->post(fmt::format("/api/machines/m1/tasks/{}/done", task_key), body).status == 200; });
    ASSERT_TRUE(is_kept) << edge->said();
    acknowledged.insert(id);
  }
  bool has_played(std::size_t arrivals) const {
    std::size_t items = 0;
    for (const auto& machine : scene.machines) items += machine.model.items.size();
    return agent->next_sequence() > items + arrivals;
  }
  bool is_read() const {
    const auto positions = read_positions(plant);
    return has_played(scene.arrivals.size()) && !positions.empty() &&
           positions.begin()->second.next_sequence == agent->next_sequence();
  }

  void enter_some() {
    for (int i = 0; i < 5; ++i) enter(entry++);
  }
  // Each time after some bytes have gone up.
  void cut_again_and_again() {
    for (unsigned i = 0; i < 4; ++i) {
      enter(entry++);
      const std::uint64_t gone_up = link->bytes_up();
      ASSERT_TRUE(comes_true([&] { return link->bytes_up() > gone_up + 300U * i; }));
      link->cut();
      link->mend();
    }
  }
  // Nobody has the folder open.
  void expect_true_record(const fs::path& place) {
    const KeptShop kept = read_shop(place, scene.ends_at);
    expect_conserved(kept);
    for (std::uint32_t m = 0; m < scene.machines.size(); ++m) {
      expect_as_in_batch(scene, m, kept.machines.at(scene.machines[m].entry.key));
    }
    const auto store = std::move(*storage::open_store(place));
    const auto verdict = store->verdict();
    EXPECT_EQ(verdict->entries, static_cast<int>(acknowledged.size()));
    EXPECT_TRUE(verdict->breaks.empty());
    std::set<std::string> ids;
    const auto entries = store->entries({}, 1000);
    for (const auto& one : *entries) EXPECT_TRUE(ids.insert(one.id).second);
    EXPECT_EQ(ids, acknowledged);
  }

  sql::TestFolder folder;
  int entry = 0;
  fs::path plant = folder.path() / "plant", at_group = folder.path() / "north", group_data = folder.path() / "group",
           token_file = folder.path() / "token";
  OwnPostgres postgres{folder.path() / "postgres"};
  Scene scene = make_scene({.seed = 7, .begin = now(), .lead_s = 12, .busy_s = 24});
  std::unique_ptr<simulate::AgentServer> agent;
  std::unique_ptr<Link> link;
  std::unique_ptr<ServerProcess> group, edge;
  std::set<std::string> acknowledged;
};

TEST_F(EdgeKill, WhateverBreaksOffBothEndsHoldTheSameInTheEnd) {
  start_group();
  // Every item has been said once before anybody counts.
  ASSERT_TRUE(comes_true([&] { return has_played(scene.opening); }));
  start_edge();
  ASSERT_TRUE(has_taken_more_than(0)) << edge->said();
  enter_some();
  link->cut();
  enter_some();
  const std::int64_t before = taken();
  link->mend();
  ASSERT_TRUE(has_taken_more_than(before)) << edge->said();

  edge->kill();
  start_edge();
  enter_some();
  ASSERT_TRUE(has_taken_more_than(before + 1)) << edge->said();

  group->kill();
  enter_some();
  start_group();
  ASSERT_TRUE(has_taken_more_than(before + 2)) << edge->said();

  group->signal(SIGSTOP);
  enter_some();
  group->signal(SIGCONT);
  postgres.kill_and_start();
  enter_some();

  cut_again_and_again();
  ASSERT_TRUE(comes_true([&] { return is_read(); }));
  enter_some();
  EXPECT_EQ(edge->json("/readyz").at("ready"), true);
  ASSERT_EQ(edge->stop(), 0) << edge->said();
  start_edge();  // what was counted when it ended goes with the last shipment
  ASSERT_TRUE(comes_true([&] { return digest_of(plant) == digest_of(at_group); })) << edge->said();
  fmt::print("{} shipments, {} bytes up\n", taken(), link->bytes_up());
  ASSERT_EQ(edge->stop(), 0) << edge->said();
  ASSERT_EQ(group->stop(), 0) << group->said();

  for (const fs::path& place : {plant, at_group}) {
    SCOPED_TRACE(place.string());
    expect_true_record(place);
  }
}

}  // namespace
}  // namespace hw::faults
