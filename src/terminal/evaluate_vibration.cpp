#include <boost/mp11/algorithm.hpp>

#include "libs/formats/json.h"
#include "src/condition/vibration_zone.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::condition {

BOOST_DESCRIBE_ENUM(VibrationCase, group1_rigid, group1_flexible, group2_rigid, group2_flexible, class_I, class_II,
                    class_III, class_IV)

}  // namespace hw::condition

namespace hw::terminal {
namespace {

// `case` is a word of the language, so the members cannot have their fields' names: a map of a JSON object would lose
// the check for unknown fields. The two fields are read by hand.
struct VibrationInput {
  double v = 0;
  std::string word;
  condition::VibrationCase which = condition::VibrationCase::group1_rigid;
};

Result<VibrationInput> read_vibration(const boost::json::value& tree, const formats::JsonPlace& place) {
  HW_TAKE(fields, (read_case<std::map<std::string, boost::json::value>>(tree, place)));
  VibrationInput input;
  for (const auto& [name, field] : fields) {
    if (name != "v" && name != "case") {
      return refuse(place.error(fmt::format("there is no field {}; known are v (mm/s r.m.s.) and case", name)));
    }
  }
  if (!fields.contains("v")) return refuse(place.error("v (mm/s r.m.s.) is missing"));
  if (!fields.contains("case")) return refuse(place.error("case is missing"));
  HW_TRY(formats::JsonReading::read(fields.at("v"), input.v, formats::JsonPlace{&place, "v", {}}));
  HW_TRY(formats::JsonReading::read(fields.at("case"), input.word, formats::JsonPlace{&place, "case", {}}));
  bool is_found = false;
  std::string known;
  boost::mp11::mp_for_each<boost::describe::describe_enumerators<condition::VibrationCase>>([&](auto one) {
    known += (known.empty() ? "" : ", ") + std::string(one.name);
    if (input.word != one.name) return;
    input.which = one.value;
    is_found = true;
  });
  if (is_found) return input;
  return refuse(
      formats::JsonPlace{&place, "case", {}}.error(fmt::format("must be one of {}, not \"{}\"", known, input.word)));
}

struct VibrationView {
  double v = 0;
  std::string zone;
  std::array<double, 3> limits{};
  std::vector<std::string> notes;
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(VibrationView, (), (v, zone, limits, notes, standard))

}  // namespace

// {"v": 1.3, "case": "group2_rigid"}
Result<CaseAnswer> vibration_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  HW_TAKE(input, read_vibration(tree, place));
  HW_TAKE(result, condition::vibration_zone(input.v, input.which));
  VibrationView view{input.v, result.zone, result.limits, {}, view_of(condition::vibration_standard)};
  if (result.is_on_a_limit) view.notes.emplace_back("on a limit: the standard does not say on which side that lies");
  view.notes.emplace_back(condition::not_for_spindles);
  std::string text = fmt::format("{:g} mm/s, {}: zone {} (limits {:g}, {:g}, {:g})\n", input.v, input.word, view.zone,
                                 view.limits[0], view.limits[1], view.limits[2]);
  for (const std::string& note : view.notes) text += "  " + note + "\n";
  const std::string json = formats::print_json(view);
  return CaseAnswer{"{\"case\":" + formats::print_json(input.word) + "," + json.substr(1),
                    text + print_note(condition::vibration_standard)};
}

}  // namespace hw::terminal
