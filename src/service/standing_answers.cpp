#include "src/service/standing_answers.h"

#include <algorithm>
#include <map>
#include <string_view>

namespace hw::service {
namespace {

// Ids are in order of time too; they part two answers of one millisecond always alike.
auto order_on_walk(const AnswerRecord& one) {
  return std::pair{one.device_at.value_or(one.happened_at), std::string_view{one.entry}};
}
auto order_between_walks(const AnswerRecord& one) { return std::pair{one.happened_at, std::string_view{one.entry}}; }

std::vector<const AnswerRecord*> values_of(const std::map<std::string_view, const AnswerRecord*>& by_check) {
  std::vector<const AnswerRecord*> out;
  out.reserve(by_check.size());
  for (const auto& [check, answer] : by_check) out.push_back(answer);
  return out;
}

}  // namespace

std::vector<const AnswerRecord*> standing_answers(const WalkRecord& walk) {
  std::map<std::string_view, const AnswerRecord*> latest;
  for (const AnswerRecord& one : walk.answers) {
    const AnswerRecord*& there = latest[one.answer.check];
    if (!there || order_on_walk(*there) < order_on_walk(one)) there = &one;
  }
  return values_of(latest);
}

std::vector<const AnswerRecord*> standing_answers(const std::vector<const WalkRecord*>& walks) {
  std::map<std::string_view, const AnswerRecord*> latest;
  for (const WalkRecord* walk : walks) {
    for (const AnswerRecord* one : standing_answers(*walk)) {
      const AnswerRecord*& there = latest[one->answer.check];
      if (!there || order_between_walks(*there) < order_between_walks(*one)) there = one;
    }
  }
  auto answers = values_of(latest);
  std::stable_sort(answers.begin(), answers.end(), [](const AnswerRecord* a, const AnswerRecord* b) {
    return order_between_walks(*a) < order_between_walks(*b);
  });
  return answers;
}

std::vector<AnswerRecord> without_corrected(std::vector<AnswerRecord> readings) {
  std::map<std::string, std::string> latest;  // of each walk the entry of its latest reading
  for (const AnswerRecord& one : readings) {
    const auto is_later = [&](const AnswerRecord& other) {
      return other.walk == one.walk && order_on_walk(one) < order_on_walk(other);
    };
    if (std::none_of(readings.begin(), readings.end(), is_later)) latest[one.walk] = one.entry;
  }
  std::erase_if(readings, [&](const AnswerRecord& one) { return latest[one.walk] != one.entry; });
  return readings;
}

}  // namespace hw::service
