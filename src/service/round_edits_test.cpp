#include "src/service/round_edits.h"

#include <gtest/gtest.h>

#include "src/service/round_test.h"

namespace hw::service {
namespace {

std::string refusal(const AnswersEdit& edit) {
  const auto checked = check(edit);
  return checked ? "" : checked.error().message;
}

TEST(AnswersEdit, TakesWhatAPersonCanFindAtACheck) {
  EXPECT_EQ(refusal(one_answer(answer_of("look", "look", "not so"))), "");
  EXPECT_EQ(refusal(one_answer(reading_of(5))), "");
  EXPECT_EQ(refusal(one_answer(answer_of("air/supply air", "reading", "not so"))), "");
  auto poured = answer_of("coolant", "top up");
  poured.quantity = 0;
  EXPECT_EQ(refusal(one_answer(poured)), "");
  auto others = one_answer(answer_of("air/supply air", "reading"));
  others.others = true;
  others.answers.push_back(answer_of("window", "clean"));
  EXPECT_EQ(refusal(others), "");
}

TEST(AnswersEdit, RefusesWhatNoCheckOfItsKindCanHave) {
  EXPECT_NE(refusal(one_answer(answer_of("a", "reading"))).find("answers[0]: value:"), std::string::npos);
  auto both = reading_of(5);
  both.answer = "as it should be";
  EXPECT_NE(refusal(one_answer(both)).find("answer: a reading that was read has none"), std::string::npos);
  both.answer = "not so";
  EXPECT_NE(refusal(one_answer(both)).find("answer: a reading that was read has none"), std::string::npos);
  EXPECT_NE(refusal(one_answer(answer_of("a", "look", "good"))).find("\"good\" is none of"), std::string::npos);
  auto none = answer_of("a", "look");
  none.answer.reset();
  EXPECT_NE(refusal(one_answer(none)).find("answer: it is missing"), std::string::npos);
}

TEST(AnswersEdit, IsOneAnswerUnlessItIsOnePressForTheOthers) {
  auto edit = one_answer(answer_of("a", "look"));
  edit.answers.push_back(answer_of("b", "look"));
  EXPECT_NE(refusal(edit).find("it is one"), std::string::npos);
  edit.others = true;
  EXPECT_EQ(refusal(edit), "");
  edit.walk = "the walk";
  EXPECT_NE(refusal(edit).find("walk: \"the walk\" is no UUID"), std::string::npos);
}

TEST(AnswersEdit, ItsPhotosNeedTheirHashes) {
  auto edit = one_answer(answer_of("a", "look"));
  edit.photos = std::vector<PhotoName>{{test_id(9), "00"}};
  EXPECT_NE(refusal(edit).find("SHA-256"), std::string::npos);
  edit.photos->at(0).sha256 = std::string(64, 'a');
  EXPECT_EQ(refusal(edit), "");
}

TEST(WalkEdit, NamesItsChecksOnce) {
  EXPECT_TRUE(check(WalkEdit{{test_id(1), "Ada", {}, {}}, {"a", "b"}}));
  EXPECT_FALSE(check(WalkEdit{{test_id(1), "Ada", {}, {}}, {"a", "a"}}));
  EXPECT_FALSE(check(WalkEdit{{test_id(1), "Ada", {}, {}}, {""}}));
  EXPECT_FALSE(check(WalkEdit{{test_id(1), "Ada", {}, {}}, {}}));
}

}  // namespace
}  // namespace hw::service
