#include "src/condition/reading_limits.h"

#include <random>

#include <gtest/gtest.h>

namespace hw::condition {
namespace {

using catalogue::TaskReading;

const TaskReading pressure{"oil", "bar", {4.5, 7.0}, {4.0, 8.0}};

TEST(ReadingLimits, AValueOnALimitIsWithinItAndBeyondItIsNot) {
  const auto state = [](double value) { return judge(pressure, value).state; };
  EXPECT_EQ(state(3.99), ReadingState::action);
  EXPECT_EQ(state(4.0), ReadingState::warning);
  EXPECT_EQ(state(4.49), ReadingState::warning);
  EXPECT_EQ(state(4.5), ReadingState::as_it_should_be);
  EXPECT_EQ(state(7.0), ReadingState::as_it_should_be);
  EXPECT_EQ(state(7.01), ReadingState::warning);
  EXPECT_EQ(state(8.0), ReadingState::warning);
  EXPECT_EQ(state(8.01), ReadingState::action);
}

TEST(ReadingLimits, TheSentenceNamesTheValueAndTheLimit) {
  EXPECT_EQ(judge(pressure, 4.2).says, "oil: 4.2 bar is below the warning limit of 4.5 bar");
  EXPECT_EQ(judge(pressure, 9).says, "oil: 9 bar is above the action limit of 8 bar");
  EXPECT_EQ(judge(pressure, 5.5).says, "oil: 5.5 bar is as it should be");
  EXPECT_EQ(judge({"pH", "pH", {8.5, 9.3}, {}}, 9.7).says, "pH: 9.7 is above the warning limit of 9.3");
}

TEST(ReadingLimits, AnEndThatIsNotSetJudgesNothing) {
  const TaskReading air{"air", "bar", {5.5, {}}, {5.0, {}}};
  EXPECT_EQ(judge(air, 1e6).state, ReadingState::as_it_should_be);
  EXPECT_EQ(judge(air, 5.2).state, ReadingState::warning);
  const TaskReading only_action{"air", "bar", {}, {5.0, {}}};
  EXPECT_EQ(judge(only_action, 5.2).state, ReadingState::as_it_should_be);
  EXPECT_EQ(judge(only_action, 4.9).state, ReadingState::action);
}

TEST(ReadingLimits, WithoutLimitsAReadingIsNotCalledGood) {
  const auto judged = judge({"clamping pressure", "bar", {}, {}}, 35);
  EXPECT_EQ(judged.state, ReadingState::not_judged);
  EXPECT_EQ(judged.says, "clamping pressure: 35 bar, no limits are set");
  EXPECT_EQ(word_of(judged.state), "not judged");
}

TEST(ReadingLimits, Property_FurtherFromTheMiddleIsNeverJudgedBetter) {
  for (unsigned seed = 1; seed <= 500; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> step(0, 3);
    const double near = step(random);
    const double far = near + step(random);
    for (const double side : {-1.0, 1.0}) {
      EXPECT_LE(judge(pressure, 5.75 + side * near).state, judge(pressure, 5.75 + side * far).state);
    }
  }
}

}  // namespace
}  // namespace hw::condition
