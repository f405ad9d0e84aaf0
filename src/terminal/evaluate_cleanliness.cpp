#include "libs/formats/json.h"
#include "src/condition/cleanliness_code.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::terminal {
namespace {

// ISO 4406: a number from 0 to 28, or ">28".
using CodeNumber = boost::json::value;

CodeNumber number_of(const condition::CleanlinessNumber& number) {
  return number.is_beyond() ? CodeNumber(number.text()) : CodeNumber(number.code);
}

struct ParticlesCase {
  std::optional<double> count;  // one size alone
  std::optional<std::array<std::optional<double>, 3>> counts;
  std::optional<std::array<double, 3>> counted;
};
BOOST_DESCRIBE_STRUCT(ParticlesCase, (), (count, counts, counted))

struct CountView {
  double count = 0;
  CodeNumber code;
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(CountView, (), (count, code, standard))

struct CodeView {
  std::string code;
  std::vector<CodeNumber> numbers;
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(CodeView, (), (code, numbers, standard))

Result<CaseAnswer> count_case(double count) {
  HW_TAKE(number, condition::cleanliness_number(count));
  const CountView view{count, number_of(number), view_of(condition::cleanliness_standard)};
  return CaseAnswer{formats::print_json(view), fmt::format("{:g} particles per ml: number {}\n", count, number.text()) +
                                                   print_note(condition::cleanliness_standard)};
}

}  // namespace

// {"count": n}; {"counts": [n4, n6, n14], "counted": [..]}; or the three counts alone, whose answer is the code alone.
Result<CaseAnswer> cleanliness_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  ParticlesCase particles;
  if (tree.is_array()) {
    HW_TAKE(counts, (read_case<std::array<std::optional<double>, 3>>(tree, place)));
    particles.counts = counts;
  } else {
    HW_TAKE(read, read_case<ParticlesCase>(tree, place));
    particles = read;
  }
  if (particles.count.has_value() == particles.counts.has_value()) {
    return refuse(ErrorCode::bad_input, "either count or counts is needed");
  }
  if (particles.count) return count_case(*particles.count);
  HW_TAKE(result, condition::cleanliness_code({*particles.counts, particles.counted}));
  const std::string text = "code " + result.code + "\n" + print_note(condition::cleanliness_standard);
  if (tree.is_array()) return CaseAnswer{formats::print_json(result.code), text};
  CodeView view{result.code, {}, view_of(condition::cleanliness_standard)};
  for (const auto& number : result.numbers) view.numbers.push_back(number ? number_of(*number) : CodeNumber(nullptr));
  return CaseAnswer{formats::print_json(view), text};
}

}  // namespace hw::terminal
