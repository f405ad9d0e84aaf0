#include "src/storage/derived_rows.h"

#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

using service::Entry;

TEST_F(StoreTest, TheLastDoneIsTheLatestThatHappenedNotTheLastToArrive) {
  Entry late = full_entry("e2");
  late.happened_at = late.happened_at - Duration::hours(3);
  ASSERT_TRUE(keep(*store, full_entry("e1")));
  ASSERT_TRUE(keep(*store, late));
  EXPECT_EQ((*store->last_done("l1", "filter"))->id, "e1");
  EXPECT_FALSE(*store->last_done("l2", "filter"));
}

TEST_F(StoreTest, AnswersOfARoundDoTheirTasksButForWorkThatWasNotDone) {
  Entry entry = full_entry("e1");
  entry.kind = "check answered";
  entry.task.reset();
  entry.body.walk = "w";
  entry.body.rhythm = "shift";
  entry.body.answers = {{.check = "filter", .task = "filter", .kind = "clean", .title = "F", .answer = "not so"},
                        {.check = "own/pH", .task = "own", .kind = "reading", .title = "O", .value = 9.1}};
  ASSERT_TRUE(keep(*store, entry));
  EXPECT_FALSE(*store->last_done("l1", "filter"));
  EXPECT_EQ((*store->last_done("l1", "own"))->id, "e1");
  entry.id = "e3";
  entry.body.answers->at(1).value.reset();
  entry.body.answers->at(1).answer = "not so";
  ASSERT_TRUE(keep(*store, entry));
  EXPECT_EQ((*store->last_done("l1", "own"))->id, "e1") << "what cannot be read was not read";
  entry.id = "e2";
  entry.body.stray = "the machine has no check \"own/pH\"";
  entry.body.answers->at(1).task.reset();
  entry.body.answers->at(0).answer = "as it should be";
  ASSERT_TRUE(keep(*store, entry));
  EXPECT_EQ((*store->last_done("l1", "own"))->id, "e1");
  EXPECT_EQ((*store->last_done("l1", "filter"))->id, "e2");
}

TEST_F(StoreTest, AStrayTaskDoneDoesNoTask) {
  Entry entry = full_entry("e1");
  entry.body.stray = "it was retired";
  ASSERT_TRUE(keep(*store, entry));
  EXPECT_FALSE(*store->last_done("l1", "filter"));
}

TEST_F(StoreTest, ACorrectedEntryNamesWhatCorrectsIt) {
  ASSERT_TRUE(keep(*store, full_entry("e1")));
  Entry correction = full_entry("e2");
  correction.kind = "correction";
  correction.body.corrects = "e1";
  ASSERT_TRUE(keep(*store, correction));
  EXPECT_EQ((*store->entry("e1"))->corrected_by, std::vector<std::string>{"e2"});
  EXPECT_TRUE((*store->entry("e2"))->corrected_by.empty());
}

}  // namespace
}  // namespace hw::storage
