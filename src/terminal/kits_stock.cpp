#include "src/terminal/kits_stock.h"

#include <algorithm>
#include <vector>

#include <boost/json.hpp>

#include "libs/formats/json.h"

namespace hw::terminal {
namespace {

using formats::JsonPlace;
using Tree = boost::json::value;

// A question is known by any field of `told_by`; the first that fits is asked. Its answer names what is missing.
struct Question {
  std::vector<std::string_view> told_by;
  std::vector<std::string_view> fields;
  EvaluateCase answer;
};

const std::vector<Question>& questions() {
  static const std::vector<Question> all = {
      {{"beta", "eta", "ages", "x"}, {"beta", "eta", "ages", "x", "p"}, stock_ages_case},
      {{"shape", "T"}, {"shape", "T", "L", "p"}, stock_uncertain_case},
      {{"n_parts", "mtbf_h", "use_h_per_day", "lead_days"},
       {"n_parts", "mtbf_h", "use_h_per_day", "lead_days", "p"},
       stock_parts_case},
      {{"b", "sd"}, {"h", "b", "mean", "sd"}, stock_period_case},
      {{"L"}, {"h", "p", "K", "lam", "L"}, stock_reorder_case},
      {{"K", "lam"}, {"K", "lam", "h"}, stock_quantity_case},
      {{"mean"}, {"mean", "p"}, stock_level_case}};
  return all;
}

const Question* question_of(const boost::json::object& object) {
  const auto fits = [&](const Question& one) {
    return std::any_of(one.told_by.begin(), one.told_by.end(), [&](auto name) { return object.contains(name); });
  };
  const auto found = std::find_if(questions().begin(), questions().end(), fits);
  if (found == questions().end()) return nullptr;
  const bool is_reorder = found->answer == stock_quantity_case && object.contains("p");  // its L is missing, then
  return is_reorder ? &*std::prev(found) : &*found;
}

std::string print_questions() {
  std::string text;
  for (const Question& one : questions()) {
    text += fmt::format("{}{{{}}}", text.empty() ? "" : " or ", fmt::join(one.fields, ", "));
  }
  return text;
}

Result<CaseAnswer> answer_one(const Tree& tree, const JsonPlace& place) {
  const auto* object = tree.if_object();
  if (object == nullptr) return refuse(place.wrong_kind("an object with the quantities of a question", tree));
  const Question* question = question_of(*object);
  if (question == nullptr) {
    return refuse(place.error("no question is known by these fields; right is " + print_questions()));
  }
  return question->answer(tree, place);
}

Result<CaseAnswer> answer_all(const Tree& tree, const JsonPlace& place) {
  const auto* list = tree.if_array();
  if (list == nullptr) return answer_one(tree, place);
  CaseAnswer all;
  for (std::size_t n = 0; n < list->size(); ++n) {
    HW_TAKE(one, answer_one((*list)[n], JsonPlace{&place, {}, n}));
    all.json += (n > 0 ? "," : "") + one.json;
    all.text += one.text;
  }
  all.json = "[" + all.json + "]";
  return all;
}

// The given quantities of what is expected, without the results beside them.
Tree given_among(const Tree& expected) {
  if (const auto* list = expected.if_array()) {
    boost::json::array given;
    for (const Tree& one : *list) given.push_back(given_among(one));
    return given;
  }
  const auto* object = expected.if_object();
  const Question* question = object != nullptr ? question_of(*object) : nullptr;
  if (question == nullptr) return expected;
  boost::json::object given;
  for (const std::string_view name : question->fields) {
    if (const Tree* one = object->if_contains(name)) given[name] = *one;
  }
  return given;
}

Result<CaseAnswer> answer_published(const boost::json::object& published, const JsonPlace& place) {
  const Tree& input = published.at("input");
  const auto* object = input.if_object();
  const Tree* expected = published.if_contains("expected");
  if (object != nullptr && object->empty() && expected != nullptr) {
    return answer_all(given_among(*expected), JsonPlace{&place, "expected", {}});
  }
  return answer_all(input, JsonPlace{&place, "input", {}});
}

Result<CaseAnswer> answer_file(const Tree& cases, const JsonPlace& place) {
  const auto* list = cases.if_array();
  if (list == nullptr || list->empty()) return refuse(place.error("must be a list of at least one case"));
  CaseAnswer all;
  for (std::size_t n = 0; n < list->size(); ++n) {
    const JsonPlace at{&place, {}, n};
    const auto* one = (*list)[n].if_object();
    if (one == nullptr || !one->contains("input")) return refuse(at.error("must be an object with an \"input\""));
    HW_TAKE(answer, answer_published(*one, at));
    const Tree id = one->contains("id") ? one->at("id") : Tree(std::to_string(n + 1));
    const std::string name = boost::json::serialize(id);
    all.json += fmt::format("{}{{\"id\":{},\"output\":{}}}", n > 0 ? "," : "", name, answer.json);
    all.text += fmt::format("{}{}\n{}", n > 0 ? "\n" : "", name, answer.text);
  }
  all.json = "{\"cases\":[" + all.json + "]}";
  return all;
}

}  // namespace

Result<CaseAnswer> stock_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  const auto* object = tree.if_object();
  if (object == nullptr) return answer_one(tree, place);
  if (object->contains("cases")) return answer_file(object->at("cases"), JsonPlace{&place, "cases", {}});
  return object->contains("input") ? answer_published(*object, place) : answer_one(tree, place);
}

}  // namespace hw::terminal
