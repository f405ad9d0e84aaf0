#include "src/service/round_entries.h"

#include <gtest/gtest.h>

#include "src/service/round_test.h"

namespace hw::service {
namespace {

using catalogue::Rhythm;

class RoundEntries : public testing::Test {
 protected:
  RoundEntries() { set_up_round(machine); }
  std::string sentence(CheckAnswer answer) {
    Entry entry;
    EXPECT_TRUE(tell_answers(entry, &machine, Rhythm::shift, one_answer(std::move(answer))));
    return entry.says;
  }
  OpenMachine machine;
};

TEST_F(RoundEntries, SayWhatWasFoundInASentence) {
  EXPECT_EQ(sentence(reading_of(6)), "Task air: supply air: 6 bar is as it should be");
  EXPECT_EQ(sentence(answer_of("window", "clean", "not so")), "Task window: not done");
  EXPECT_EQ(sentence(answer_of("air/supply air", "reading", "not so")), "Task air: supply air: cannot be read");
  auto poured = answer_of("coolant", "top up");
  poured.quantity = 2.5;
  EXPECT_EQ(sentence(poured), "Task coolant: done, 2.5 l");
}

TEST_F(RoundEntries, OnePressForTheOthersNamesThemAll) {
  auto edit = one_answer(answer_of("window", "clean"));
  edit.others = true;
  edit.answers.push_back(answer_of("coolant", "top up"));
  Entry entry;
  ASSERT_TRUE(tell_answers(entry, &machine, Rhythm::shift, edit));
  EXPECT_EQ(entry.says, "all others as they should be: Task window; Task coolant");
  EXPECT_EQ(entry.body.answers->size(), 2u);
  EXPECT_EQ(entry.body.walk, test_id(1));
  EXPECT_EQ(kind_of(edit), "others as they should be");
}

TEST_F(RoundEntries, ARoundThatTheMachineDoesNotHaveMakesAStrayWalk) {
  const WalkEdit edit{{test_id(1), "Ada", {}, {}}, {"window"}};
  Entry entry;
  tell_begun(entry, &machine, Rhythm::shift, edit);
  EXPECT_EQ(entry.says, "round begun (shift), 1 checks");
  EXPECT_FALSE(entry.body.stray);
  tell_begun(entry, &machine, Rhythm::week, edit);
  EXPECT_EQ(entry.body.stray, "m1 has no such round (any more): week");
}

}  // namespace
}  // namespace hw::service
