#include "src/feeds/note.h"

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

TEST(Notes, EachIsKeptOnceAndHandedOutOnce) {
  Notes notes;
  EXPECT_TRUE(notes.add("mill", "a"));
  EXPECT_FALSE(notes.add("mill", "a"));
  EXPECT_TRUE(notes.add("lathe", "a"));
  EXPECT_EQ(notes.take(), (std::vector<Note>{{"mill", "a"}, {"lathe", "a"}}));
  EXPECT_FALSE(notes.add("mill", "a"));
  EXPECT_TRUE(notes.take().empty());
}

TEST(Notes, TooManyEndInOneThatSaysSo) {
  Notes notes;
  for (std::size_t n = 0; n < 3 * Notes::notes_max; ++n) notes.add("", std::to_string(n));
  const auto all = notes.take();
  ASSERT_EQ(all.size(), Notes::notes_max + 1);
  EXPECT_EQ(all.back().text, "There are more notes than are kept.");
}

TEST(Once, LetsThroughWhatIsNewAndIsBounded) {
  Once once;
  EXPECT_TRUE(once.first(1));
  EXPECT_FALSE(once.first(1));
  for (std::uint64_t n = 2; n <= Once::keys_max; ++n) EXPECT_TRUE(once.first(n));
  EXPECT_FALSE(once.first(Once::keys_max + 1));
}

}  // namespace
}  // namespace hw::feeds
