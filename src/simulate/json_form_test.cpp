#include "src/simulate/json_form.h"

#include <gtest/gtest.h>

#include "src/feeds/device_model.h"
#include "src/feeds/heard_document.h"
#include "src/feeds/json_document.h"
#include "src/simulate/agent.h"
#include "src/simulate/april_test.h"

namespace hw::simulate {
namespace {

class InForm : public ::testing::TestWithParam<JsonForm> {
 protected:
  const Floor floor{april_plan(), sample_entries()};
  Agent agent{floor.machines(), {}, april_morning};

  // Five minutes of every machine of the floor.
  void SetUp() override {
    std::vector<Arrival> arrivals;
    for (std::uint32_t m = 0; m < floor.machines().size(); ++m) {
      std::vector<Event> events = floor.standing(m, april_morning);
      floor.tell(m, april_morning, april_morning + Duration::seconds(300), Detail::full, events);
      for (const Event& event : events) arrivals.push_back({m, event});
    }
    agent.append(arrivals);
  }
  std::string back(const std::string& xml) const {
    const auto read = feeds::xml_of_json(print_json_form(xml, GetParam()), "json");
    EXPECT_TRUE(read) << read.error().message;
    return read.value_or("");
  }
};
INSTANTIATE_TEST_SUITE_P(Json, InForm, ::testing::Values(JsonForm::v1, JsonForm::v2));

TEST_P(InForm, ProbesAreReadAsTheirXml) {
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    const std::string xml = agent.probe(m, april_morning).xml;
    const auto wanted = feeds::read_devices(xml);
    const auto read = feeds::read_devices(back(xml));
    ASSERT_TRUE(wanted && read) << read.error().message;
    EXPECT_EQ(read->machines, wanted->machines);
    EXPECT_EQ(read->instance_id, wanted->instance_id);
    EXPECT_EQ(read->version, wanted->version);
    EXPECT_EQ(read->model_change_time, wanted->model_change_time);
  }
}

feeds::HeardDocument heard(std::string_view xml, const feeds::ItemIndex& index,
                           const std::vector<counters::MachineModel>& models) {
  const feeds::Vocabulary words;
  feeds::Notes notes;
  feeds::Remarks remarks(models, notes);
  auto read = feeds::hear_document(xml, "streams", index, words, remarks);
  EXPECT_TRUE(read) << read.error().message;
  return read.value_or(feeds::HeardDocument{});
}

TEST_P(InForm, StreamsGiveTheObservationsOfTheirXml) {
  const auto models = feeds::read_devices(agent.probe(std::nullopt, april_morning).xml)->machines;
  const feeds::ItemIndex index(models);
  const Instant now = april_morning + Duration::seconds(300);
  for (const std::string& xml : {agent.current(std::nullopt, now).xml, agent.current(3, now).xml,
                                 agent.sample({std::nullopt, 1, 100'000}, now).xml}) {
    const feeds::HeardDocument wanted = heard(xml, index, models);
    const feeds::HeardDocument read = heard(back(xml), index, models);
    ASSERT_GT(wanted.arrivals.size(), 5U);
    ASSERT_EQ(read.arrivals.size(), wanted.arrivals.size());
    for (std::size_t n = 0; n < read.arrivals.size(); ++n) {
      const feeds::Arrival &ours = read.arrivals[n], &theirs = wanted.arrivals[n];
      ASSERT_EQ(std::tuple(ours.at, ours.sequence, ours.machine, ours.item),
                std::tuple(theirs.at, theirs.sequence, theirs.machine, theirs.item));
      ASSERT_TRUE(counters::is_same(ours.value, theirs.value)) << ours.value << " is not " << theirs.value;
    }
    EXPECT_EQ(read.tally.observations, wanted.tally.observations);
    EXPECT_EQ(read.tally.sequence_max, wanted.tally.sequence_max);
    EXPECT_EQ(read.header.next_sequence, wanted.header.next_sequence);
    EXPECT_EQ(read.header.creation_time, wanted.header.creation_time);
    EXPECT_EQ(read.header.version, wanted.header.version);
  }
}

}  // namespace
}  // namespace hw::simulate
