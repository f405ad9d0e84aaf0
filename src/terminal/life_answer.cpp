#include "src/terminal/life_answer.h"

#include <cstdlib>

#include "libs/formats/json.h"

namespace hw::terminal {

Answer answer_life(Answer answer, bool is_json) {
  if (answer || !is_json || answer.error().code == ErrorCode::wrong_usage) return answer;
  return Said("{\"refused\":" + formats::print_json(answer.error().message) + "}\n", false);
}

std::string check_above_zero(const std::string& text) {
  char* end = nullptr;
  const double number = std::strtod(text.c_str(), &end);
  const bool is_good = end == text.c_str() + text.size() && number > 0 && number <= 1e100;
  return is_good ? "" : text + " is no number above 0 and up to 1e100";
}

}  // namespace hw::terminal
