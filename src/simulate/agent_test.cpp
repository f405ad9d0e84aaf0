#include "src/simulate/agent.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "src/feeds/device_model.h"

namespace hw::simulate {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

const Instant begun = *parse_instant("2026-04-08T08:00:00Z");

class AgentOfThree : public ::testing::Test {
 protected:
  const std::vector<Machine> machines =
      make_machines(std::vector<MachineEntry>{{"mill", "Mill <A> & \"B\"", Kind::vertical_mill},
                                              {"lathe", "Lathe", Kind::lathe},
                                              {"turn", "Turn", Kind::mill_turn}});
  std::size_t items = machines[0].tells.size() + machines[1].tells.size() + machines[2].tells.size();

  Agent agent_of(std::size_t buffer_size) const { return Agent(machines, {buffer_size, 77, "floor"}, begun); }

  // Path feeds of the given machine, 1, 2, 3 ...
  std::vector<Arrival> feeds(std::uint32_t machine, int count) const {
    std::vector<Arrival> out;
    std::uint32_t item = 0;
    while (machines[machine].tells[item].signal != Signal::path_feed) ++item;
    for (int i = 1; i <= count; ++i) {
      const Instant at = begun + Duration::seconds(i);
      out.push_back({machine, {at, at, item, static_cast<double>(i)}});
    }
    return out;
  }
};

TEST_F(AgentOfThree, BeginsWithEveryItemUnavailable) {
  const Agent agent = agent_of(1000);
  EXPECT_EQ(agent.next_sequence(), items + 1);
  const Document current = agent.current(std::nullopt, begun);
  EXPECT_EQ(current.observations, items);
  EXPECT_THAT(current.xml, HasSubstr(">UNAVAILABLE</Execution>"));
  EXPECT_THAT(current.xml, HasSubstr("<Unavailable "));
}

TEST_F(AgentOfThree, ProbeIsReadBackAsTheModelsItCameFrom) {
  const Agent agent = agent_of(1000);
  const auto read = feeds::read_devices(agent.probe(std::nullopt, begun).xml);
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->instance_id, 77U);
  ASSERT_EQ(read->machines.size(), machines.size());
  for (std::size_t m = 0; m < machines.size(); ++m) {
    const counters::MachineModel& model = read->machines[m];
    EXPECT_EQ(model.uuid, machines[m].uuid);
    EXPECT_EQ(model.name, machines[m].entry.key);
    ASSERT_EQ(model.items.size(), machines[m].model.items.size());
    for (const counters::Item& item : machines[m].model.items) {
      const auto found = std::find_if(model.items.begin(), model.items.end(),
                                      [&](const counters::Item& other) { return other.id == item.id; });
      ASSERT_NE(found, model.items.end()) << item.id;
      EXPECT_EQ(found->role, item.role) << item.id;
      EXPECT_EQ(found->component, item.component) << item.id;
    }
  }
}

TEST_F(AgentOfThree, ADevicesOwnDocumentHasItsEdition) {
  const std::vector<Machine> floor = make_machines(sample_entries());
  const Agent agent(floor, {5000, 1, "floor"}, begun);
  EXPECT_THAT(agent.probe(3, begun).xml, HasSubstr("urn:mtconnect.org:MTConnectDevices:1.3"));
  EXPECT_THAT(agent.probe(3, begun).xml, Not(HasSubstr("deviceModelChangeTime")));
  EXPECT_THAT(agent.probe(3, begun).xml, HasSubstr("SPINDLE_SPEED"));
  EXPECT_THAT(agent.probe(6, begun).xml, HasSubstr("urn:mtconnect.org:MTConnectDevices:1.7"));
  EXPECT_THAT(agent.current(std::nullopt, begun).xml, HasSubstr("urn:mtconnect.org:MTConnectStreams:2.0"));
  for (std::size_t m = 0; m < floor.size(); ++m) {
    const auto read = feeds::read_devices(agent.probe(m, begun).xml);
    ASSERT_TRUE(read) << read.error().message;
    EXPECT_EQ(read->version, print(floor[m].traits.edition));
    EXPECT_EQ(read->machines.size(), 1U);
  }
}

TEST_F(AgentOfThree, SampleGoesOnWhereTheLastOneEnded) {
  Agent agent = agent_of(1000);
  agent.append(feeds(0, 25));
  std::uint64_t from = items + 1;
  std::vector<std::size_t> sizes;
  while (from < agent.next_sequence()) {
    const Document part = agent.sample({std::nullopt, from, 10}, begun);
    ASSERT_EQ(part.status, 200);
    sizes.push_back(part.observations);
    from = part.next_sequence;
  }
  EXPECT_THAT(sizes, ::testing::ElementsAre(10, 10, 5));
  EXPECT_EQ(from, items + 26);
}

TEST_F(AgentOfThree, NextSequencePassesOverOtherMachines) {
  Agent agent = agent_of(1000);
  agent.append(feeds(0, 3));
  agent.append(feeds(1, 4));
  const Document part = agent.sample({0, items + 1, 100}, begun);
  EXPECT_EQ(part.observations, 3U);
  EXPECT_EQ(part.next_sequence, agent.next_sequence());
}

TEST_F(AgentOfThree, ARingThatOverranHasItsFirstSequenceAfterTheLost) {
  Agent agent = agent_of(10);
  agent.append(feeds(0, 25));
  EXPECT_EQ(agent.next_sequence(), items + 26);
  EXPECT_EQ(agent.first_sequence(), items + 16);
  const Document oldest = agent.sample({std::nullopt, std::nullopt, 1}, begun);
  EXPECT_THAT(oldest.xml, HasSubstr("sequence=\"" + std::to_string(items + 16) + "\" name=\"feed\""));
  EXPECT_THAT(oldest.xml, HasSubstr(">16</PathFeedrate>"));
  // Last values stay, whatever left the buffer.
  EXPECT_EQ(agent.current(std::nullopt, begun).observations, items);
}

TEST_F(AgentOfThree, OutOfRangeIsRefusedAndNextSequenceIsNot) {
  Agent agent = agent_of(10);
  agent.append(feeds(0, 25));
  const auto status = [&](std::uint64_t from, std::int64_t count) {
    const Document d = agent.sample({std::nullopt, from, count}, begun);
    EXPECT_EQ(d.status != 200, d.xml.find("errorCode=\"OUT_OF_RANGE\"") != std::string::npos);
    return d.status;
  };
  EXPECT_EQ(status(agent.first_sequence(), 10), 200);
  EXPECT_EQ(status(agent.next_sequence(), 10), 200);
  EXPECT_EQ(status(agent.first_sequence() - 1, 10), 404);
  EXPECT_EQ(status(agent.next_sequence() + 1, 10), 404);
  EXPECT_EQ(status(agent.first_sequence(), 0), 404);
  EXPECT_EQ(status(agent.first_sequence(), -1), 404);
  EXPECT_EQ(status(agent.first_sequence(), 11), 404);
}

TEST_F(AgentOfThree, ARestartIsANewInstanceFromSequenceOne) {
  Agent agent = agent_of(1000);
  agent.append(feeds(0, 25));
  agent.restart(78, begun + Duration::hours(1));
  EXPECT_EQ(agent.instance_id(), 78U);
  EXPECT_EQ(agent.first_sequence(), 1U);
  EXPECT_EQ(agent.next_sequence(), items + 1);
  EXPECT_THAT(agent.current(std::nullopt, begun).xml, Not(HasSubstr(">25</PathFeedrate>")));
}

TEST_F(AgentOfThree, GoingBackGivesSequenceNumbersAwayTwice) {
  Agent agent = agent_of(1000);
  agent.append(feeds(0, 25));
  const std::uint64_t before = agent.next_sequence();
  agent.go_back(7);
  EXPECT_EQ(agent.next_sequence(), before - 7);
  EXPECT_EQ(agent.sample({std::nullopt, before, 10}, begun).status, 404);
}

}  // namespace
}  // namespace hw::simulate
