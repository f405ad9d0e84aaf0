#include "src/service/given_answers.h"

#include <gtest/gtest.h>

#include "src/service/round_test.h"

namespace hw::service {
namespace {

class GivenAnswersTest : public testing::Test {
 protected:
  GivenAnswersTest() { set_up_round(machine); }
  OpenMachine machine;
};

TEST_F(GivenAnswersTest, AReadingIsJudgedAndNamedByItsCheck) {
  auto edit = one_answer(reading_of(5.2, "Bar"));
  edit.answers[0].title = "as it was called on the phone";
  const auto given = given_answers(&machine, edit);
  ASSERT_TRUE(given) << given.error().message;
  EXPECT_FALSE(given->stray);
  const GivenAnswer& answer = given->answers.at(0);
  EXPECT_EQ(answer.task, "air");
  EXPECT_EQ(answer.title, "Task air");
  EXPECT_EQ(answer.unit, "bar");
  EXPECT_EQ(answer.state, "warning");
  EXPECT_EQ(answer.says, "supply air: 5.2 bar is below the warning limit of 5.5 bar");
}

TEST_F(GivenAnswersTest, AnotherUnitAndAnImpossibleValueAreRefusedWithTheirPlace) {
  EXPECT_EQ(given_answers(&machine, one_answer(reading_of(75, "psi"))).error().message,
            "answers[0]: supply air: \"psi\" is not its unit; read it in bar");
  EXPECT_EQ(given_answers(&machine, one_answer(reading_of(2e9))).error().code, ErrorCode::bad_input);
}

TEST_F(GivenAnswersTest, AtACheckThatIsNotThereItIsKeptAsItWasEntered) {
  machine.record.tasks.at(0).retired_at = Instant{};
  auto edit = one_answer(reading_of(75, "psi"));
  edit.answers[0].title = "Read the air";
  const auto given = given_answers(&machine, edit);
  ASSERT_TRUE(given);
  EXPECT_EQ(given->stray->message, "m1 has no check \"Read the air\" (any more)");
  EXPECT_FALSE(given->answers.at(0).task);
  EXPECT_EQ(given->answers.at(0).value, 75);
  EXPECT_EQ(given->answers.at(0).title, "Read the air");
  EXPECT_FALSE(given_answers(nullptr, edit)->answers.at(0).task);
}

TEST_F(GivenAnswersTest, AQuantityHasTheUnitOfItsTask) {
  auto poured = answer_of("coolant", "top up");
  poured.quantity = 3;
  EXPECT_EQ(given_answers(&machine, one_answer(poured))->answers.at(0).quantity_unit, "l");
}

}  // namespace
}  // namespace hw::service
