#include "src/storage/walk_rows.h"

#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

using service::Entry;

Entry begun(std::string id, Instant happened_at) {
  Entry entry = full_entry(std::move(id));
  entry.kind = "round begun";
  entry.task.reset();
  entry.happened_at = happened_at;
  entry.body.rhythm = "shift";
  entry.body.checks = std::vector<std::string>{"look", "air/supply air"};
  return entry;
}

Entry answered(std::string id, std::string walk, Instant happened_at, double value) {
  Entry entry = begun(std::move(id), happened_at);
  entry.kind = "check answered";
  entry.body.checks.reset();
  entry.body.walk = std::move(walk);
  entry.body.answers = std::vector<service::GivenAnswer>{
      {.check = "air/supply air", .task = "air", .kind = "reading", .title = "Air", .value = value, .unit = "bar"}};
  return entry;
}

const Instant six = at("2026-03-02T06:00:00Z");
Instant after(int minutes) { return six + Duration::seconds(60 * minutes); }

TEST_F(StoreTest, AWalkComesBackWithItsAnswersInOrderOfTime) {
  ASSERT_TRUE(keep(*store, answered("a2", "w1", after(3), 5.2)));
  const auto early = store->walk("l1", "w1");
  EXPECT_EQ((*early)->begun_at, after(3));  // as long as its beginning has not arrived
  EXPECT_TRUE((*early)->checks.empty());
  ASSERT_TRUE(keep(*store, answered("a1", "w1", after(2), 5.1)));
  ASSERT_TRUE(keep(*store, begun("w1", six)));
  const auto walk = *store->walk("l1", "w1");
  ASSERT_TRUE(walk);
  EXPECT_EQ(walk->begun_at, six);
  EXPECT_EQ(walk->by, "Ada");
  EXPECT_EQ(walk->checks.size(), 2u);
  ASSERT_EQ(walk->answers.size(), 2u);
  EXPECT_EQ(walk->answers.at(0).entry, "a1");
  EXPECT_EQ(walk->answers.at(1).answer.value, 5.2);
  EXPECT_EQ(walk->answers.at(1).device_at, full_entry("").device_at);
  EXPECT_FALSE(*store->walk("l2", "w1"));
  EXPECT_FALSE(*store->walk("l1", "w2"));
}

TEST_F(StoreTest, TheLatestWalksReachBackFromTheLatestOfTheMachine) {
  ASSERT_TRUE(keep(*store, begun("w1", six)));
  ASSERT_TRUE(keep(*store, begun("w2", after(90))));
  ASSERT_TRUE(keep(*store, answered("a1", "w3", after(120), 5.2)));
  const auto ids = [&](int minutes) {
    std::string text;
    const auto walks = *store->latest_walks_of("l1", Duration::seconds(60 * minutes));
    for (const auto& walk : walks) text += walk.walk + " ";
    return text;
  };
  EXPECT_EQ(ids(200), "w1 w2 w3 ");
  EXPECT_EQ(ids(30), "w2 w3 ");
  EXPECT_EQ(ids(29), "w3 ");
  EXPECT_TRUE(store->latest_walks_of("l2", Duration::hours(9))->empty());
}

TEST_F(StoreTest, ReadingsOfACheckComeTheLatestFirst) {
  ASSERT_TRUE(keep(*store, answered("a2", "w1", after(3), 5.2)));
  ASSERT_TRUE(keep(*store, answered("a1", "w1", after(2), 5.1)));
  ASSERT_TRUE(keep(*store, answered("a3", "w2", after(9), 5.3)));
  const auto readings = *store->readings_of("l1", "air/supply air", 2);
  ASSERT_EQ(readings.size(), 2u);
  EXPECT_EQ(readings.at(0).answer.value, 5.3);
  EXPECT_EQ(readings.at(1).answer.value, 5.2);
  EXPECT_TRUE(store->readings_of("l1", "look", 2)->empty());
}

}  // namespace
}  // namespace hw::storage
