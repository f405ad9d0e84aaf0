// Agents that lie, one of each kind, all followed by one server: it stays up, says of each in a sentence what is wrong,
// its memory stays bounded, the hours stay right, and each feed recovers by itself once its agent behaves.

#include <algorithm>

#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/simulate/agent_server.h"
#include "tests/faults/batch_count.h"
#include "tests/faults/scene.h"
#include "tests/faults/server_process.h"
#include "tests/faults/shop_folder.h"

namespace hw::faults {
namespace {

constexpr double memory_max_mib = 512;  // two feeds with a document of 64 MiB each, which grew by doubling

struct Lie {
  std::string name;
  simulate::Faults faults{};
  void (*once)(simulate::AgentServer&) = nullptr;
  std::string says;         // what the feed or the log says of it; empty: anything, at the feed
  bool is_counted = false;  // nothing is lost by it: the hours are those of the whole list
};

std::vector<Lie> all_lies() {
  return {
      {"a page", {.says_html = true}, nullptr, "a web page", true},
      {"an endless document", {.never_ends = true}, nullptr, "longer than", true},
      {"a gigabyte of text", {.says_gigabyte = true}, nullptr, "longer than", true},
      {"entities that multiply", {.says_doctype = true}, nullptr, "DOCTYPE", true},
      {"silence without a heartbeat", {.stalls = true}, nullptr, "", true},
      {"a part that breaks off", {.breaks_off = true}, nullptr, "", true},
      {"a clock an hour ahead", {.clock_jump = Duration::hours(1)}, nullptr, "more than 15 min ahead", false},
      {"sequence numbers that go back",
       {},
       [](simulate::AgentServer& agent) { agent.go_back(60); },
       "went back",
       false},
      {"a buffer that overran", {}, [](simulate::AgentServer& agent) { agent.overrun(); }, "buffer overran", false},
  };
}

// One agent with one machine.
struct Liar {
  Lie lie;
  std::string key;
  Scene scene;
  std::unique_ptr<simulate::AgentServer> agent;
  std::string heard;  // what was said of it
};

std::vector<Liar> open_liars(std::uint64_t seed) {
  std::vector<Liar> liars;
  for (Lie& lie : all_lies()) {
    Liar liar;
    liar.lie = std::move(lie);
    liar.key = fmt::format("lathe-{}", liars.size() + 1);
    const ScenePlan plan{.seed = seed + liars.size(),
                         .begin = now(),
                         .machines = 1,
                         .lead_s = 2,
                         .busy_s = 16,
                         .tail_s = 1,
                         .per_second = 40,
                         .has_late = false};
    liar.scene = make_scene(plan);
    liar.agent = std::move(
        *simulate::AgentServer::open(simulate::replay(liar.scene.machines, liar.scene.arrivals, plan.per_second), {}));
    liars.push_back(std::move(liar));
  }
  return liars;
}

class LyingAgents : public ::testing::Test {
 protected:
  void SetUp() override {
    std::vector<ShopMachine> machines;
    for (const Liar& liar : liars) machines.push_back({liar.key, "feed of " + liar.key, liar.agent->url(), "m1"});
    found_shop(folder.path(), machines);
  }

  boost::json::object feed_of(const ServerProcess& server, const Liar& liar) const {
    const auto floor = server.json("/api/floor");
    EXPECT_TRUE(floor.is_object()) << server.said();
    if (!floor.is_object()) return {{"state", "no answer"}, {"says", ""}};
    for (const auto& machine : floor.at("machines").as_array()) {
      if (machine.at("key").as_string() == liar.key) return machine.at("feed").as_object();
    }
    return {};
  }
  bool is_live(const ServerProcess& server, const Liar& liar) const {
    const auto feed = feed_of(server, liar);
    return feed.at("state").as_string() == "live" && feed.at("says").as_string().empty();
  }

  // What is said of it by now, at the feed or in the log; then it stops lying.
  void listen(const ServerProcess& server, Liar& liar) const {
    const std::string says = feed_of(server, liar).at("says").as_string().c_str();
    if (!says.empty() && says.find(liar.lie.says) != std::string::npos) liar.heard = says;
    if (liar.heard.empty() && !liar.lie.says.empty()) liar.heard = logged(server, liar);
    if (!liar.heard.empty()) liar.agent->set_faults({});
  }
  static std::string logged(const ServerProcess& server, const Liar& liar) {
    std::istringstream lines(server.said());
    for (std::string line; std::getline(lines, line);) {
      const bool is_of_it = line.find("feed of " + liar.key) != std::string::npos;
      if (is_of_it && line.find(liar.lie.says) != std::string::npos) return line;
    }
    return "";
  }
  std::uint64_t read_until(const Liar& liar) const {
    const auto positions = read_positions(folder.path());
    const auto position = positions.find("feed of " + liar.key);
    return position == positions.end() ? 0 : position->second.next_sequence;
  }

  static constexpr std::uint64_t seed = 20260309;
  std::vector<Liar> liars = open_liars(seed);
  sql::TestFolder folder;
};

TEST_F(LyingAgents, AreToldApartAndDoNoHarm) {
  std::cout << "seed " << seed << "\n";
  for (const Liar& liar : liars) {
    ASSERT_TRUE(comes_true([&] { return liar.agent->next_sequence() > liar.scene.opening * 2; }));
  }
  ServerProcess server(folder.path(), {"--store-every", "0.2"});
  ASSERT_TRUE(server.is_up()) << server.said();
  for (const Liar& liar : liars) {
    ASSERT_TRUE(comes_true([&] { return is_live(server, liar) && read_until(liar) > liar.scene.opening; }))
        << server.said();
  }
  for (Liar& liar : liars) {
    liar.agent->set_faults(liar.lie.faults);
  }
  int looks = 0;
  const auto are_all_heard = [&] {
    // Again and again: what was lost may have been read before it was lost.
    for (Liar& liar : liars) {
      if (looks % 40 == 0 && liar.lie.once && liar.heard.empty()) liar.lie.once(*liar.agent);
    }
    ++looks;
    for (Liar& liar : liars) {
      if (liar.heard.empty()) listen(server, liar);
    }
    return std::none_of(liars.begin(), liars.end(), [](const Liar& liar) { return liar.heard.empty(); });
  };
  EXPECT_TRUE(comes_true(are_all_heard)) << server.said();
  for (Liar& liar : liars) {
    EXPECT_FALSE(liar.heard.empty()) << liar.lie.name;
    EXPECT_EQ(liar.heard.find('\n'), std::string::npos) << liar.heard;
    EXPECT_LT(liar.heard.size(), 400U) << liar.heard;
    std::cout << liar.lie.name << ": " << liar.heard << "\n";
    liar.agent->set_faults({});
  }

  for (const Liar& liar : liars) {
    EXPECT_TRUE(comes_true([&] {
      return is_live(server, liar) && read_until(liar) == liar.agent->next_sequence() && now() > liar.scene.ends_at;
    })) << liar.lie.name
        << ": " << feed_of(server, liar).at("says").as_string() << "\n"
        << server.said();
  }
  const double memory_mib = server.memory_max_mib();
  std::cout << "the most memory in use: " << memory_mib << " MiB\n";
  EXPECT_GT(memory_mib, 1);
  EXPECT_LT(memory_mib, memory_max_mib);
  ASSERT_EQ(server.stop(), 0) << server.said();

  const Instant ends_at = liars.back().scene.ends_at;
  const KeptShop kept = read_shop(folder.path(), ends_at + Duration::seconds(1));
  expect_conserved(kept);
  for (const Liar& liar : liars) {
    if (!liar.lie.is_counted) continue;
    SCOPED_TRACE(liar.lie.name);
    expect_as_in_batch(liar.scene, 0, read_shop(folder.path(), liar.scene.ends_at).machines.at(liar.key));
  }
}

}  // namespace
}  // namespace hw::faults
