#include "src/simulate/message_outbox.h"

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

const Instant outbox_morning = *parse_instant("2026-04-08T08:45:00Z");
const std::vector<Machine>& two_machines() {
  static const auto machines =
      make_machines(std::vector<MachineEntry>{{"m1", "Lathe", Kind::lathe}, {"m2", "Mill", Kind::vertical_mill}});
  return machines;
}

class Outbox : public ::testing::Test {
 protected:
  MessageOutbox outbox{two_machines(), {}};
  void add(int count) {
    const Event event{outbox_morning, outbox_morning, 0, 1};
    for (int n = 0; n < count; ++n) outbox.add(0, std::span(&event, 1), outbox_morning);
  }
};

TEST_F(Outbox, ModelsAreReadBackAsTheMachines) {
  const auto models = outbox.models();
  ASSERT_EQ(models.size(), 2U);
  EXPECT_EQ(models[1].topic, "hourwright/floor/m2/model");
  EXPECT_TRUE(models[1].is_retained);
  const auto message = feeds::parse_model(models[1].payload);
  ASSERT_TRUE(message) << message.error().message;
  const auto model = feeds::model_of(*message);
  ASSERT_EQ(model.items.size(), two_machines()[1].model.items.size());
  for (std::size_t n = 0; n < model.items.size(); ++n) {
    EXPECT_EQ(model.items[n].role, two_machines()[1].model.items[n].role) << model.items[n].id;
  }
}

TEST_F(Outbox, KeepsWhatIsNotStoredAndSendsItAgain) {
  add(4);
  EXPECT_EQ(outbox.take_unsent(3).size(), 3U);
  EXPECT_EQ(outbox.take_unsent(3).size(), 1U);
  EXPECT_EQ(outbox.take_unsent(3).size(), 0U);
  outbox.hear("hourwright/floor/m1/kept", R"({"run": "1", "next_sequence": 3})");
  EXPECT_EQ(outbox.kept(), 2U);
  outbox.begin_session();
  const auto again = outbox.take_unsent(10);
  ASSERT_EQ(again.size(), 2U);
  EXPECT_EQ(feeds::parse_observations(again[0].payload)->sequence, 3U);
}

TEST_F(Outbox, SendsFromWhereItIsWanted) {
  add(4);
  (void)outbox.take_unsent(10);
  outbox.hear("hourwright/floor/m1/wanted", R"({"run": "1", "next_sequence": 2})");
  EXPECT_EQ(outbox.take_unsent(10).size(), 3U);
  outbox.hear("hourwright/floor/m1/wanted", R"({"run": "", "next_sequence": 1})");
  EXPECT_EQ(outbox.take_unsent(10).size(), 4U);
  outbox.hear("hourwright/floor/m1/wanted", R"({"run": "other", "next_sequence": 1})");
  outbox.hear("hourwright/floor/m1/wanted", R"({"run": "1", "next_sequence": 99})");
  outbox.hear("hourwright/floor/m1/wanted", "{");
  EXPECT_EQ(outbox.take_unsent(10).size(), 0U);
}

TEST_F(Outbox, ThatKeepsNothingForgetsWhatItHandedOver) {
  outbox = MessageOutbox(two_machines(), {.keeps = false});
  add(2);
  EXPECT_EQ(outbox.take_unsent(10).size(), 2U);
  EXPECT_EQ(outbox.kept(), 0U);
}

}  // namespace
}  // namespace hw::simulate
