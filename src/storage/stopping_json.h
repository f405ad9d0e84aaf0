#pragma once
// What a shop says of its stops, as JSON in the plant's row.

#include "libs/formats/json.h"
#include "src/catalogue/stopping.h"

namespace hw::formats {

template <>
struct JsonText<catalogue::Skill> {
  static Result<catalogue::Skill> parse(std::string_view text) { return catalogue::parse_skill(text); }
  static std::string print(catalogue::Skill skill) { return std::string{catalogue::word_of(skill)}; }
};

}  // namespace hw::formats
