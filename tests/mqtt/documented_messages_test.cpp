// The examples of docs/api/messages.md are messages, and are counted.

#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "src/feeds/message_chain.h"
#include "tests/places/places.h"

namespace hw::mqtt_tests {
namespace {

std::vector<std::string> json_examples() {
  std::ostringstream page;
  page << std::ifstream(in_source("docs/api/messages.md")).rdbuf();
  const std::string text = page.str();
  std::vector<std::string> examples;
  const std::string open = "```json\n";
  for (std::size_t at = text.find(open); at != std::string::npos; at = text.find(open, at)) {
    at += open.size();
    examples.push_back(text.substr(at, text.find("```", at) - at));
  }
  return examples;
}

TEST(DocumentedMessages, AreReadAndCounted) {
  const auto examples = json_examples();
  ASSERT_EQ(examples.size(), 3U);
  const auto model = feeds::parse_model(examples[0]);
  ASSERT_TRUE(model) << model.error().message;
  const auto observations = feeds::parse_observations(examples[1]);
  ASSERT_TRUE(observations) << observations.error().message;
  const auto place = feeds::parse_place(examples[2]);
  ASSERT_TRUE(place) << place.error().message;
  feeds::MessageChain chain(model->machine, {}, {});
  ASSERT_TRUE(chain.hear(*model, observations->alive_at));
  const auto batch = chain.hear(*observations, observations->alive_at);
  ASSERT_TRUE(batch);
  EXPECT_EQ(batch->observations.size(), 3U);
  EXPECT_EQ(batch->position.run, place->run);
  EXPECT_EQ(batch->position.next_sequence, place->next_sequence);
  EXPECT_TRUE(batch->notes.empty());
}

}  // namespace
}  // namespace hw::mqtt_tests
