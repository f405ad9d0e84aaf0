#pragma once
// What an English sentence says, for whoever says it in another language: the code of the sentence, one of SayingCode
// in api/openapi.yaml, and what is filled in. It always stands beside the sentence itself, never in its place. A value
// is named once, among the texts or among the numbers; a local date is a text (2026-03-02).

#include <map>
#include <string>

namespace hw {

struct Saying {
  std::string code;
  std::map<std::string, std::string> texts = {};
  std::map<std::string, double> numbers = {};
  bool operator==(const Saying&) const = default;
};

}  // namespace hw
