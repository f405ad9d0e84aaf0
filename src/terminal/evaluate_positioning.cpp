#include "libs/formats/json.h"
#include "src/condition/positioning.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::condition {

BOOST_DESCRIBE_STRUCT(Positioning, (),
                      (x_up, x_down, x_mean, B_i, s_up, s_down, R_i, B, B_mean, R_up, R_down, R, E_up, E_down, E, M,
                       A_up, A_down, A))

}  // namespace hw::condition

namespace hw::terminal {
namespace {

enum class LengthUnit { mm, um, in, deg };
BOOST_DESCRIBE_ENUM(LengthUnit, mm, um, in, deg)

struct PositioningCase {
  std::vector<double> target;
  std::vector<std::vector<double>> up, down;
  std::optional<LengthUnit> unit;
};
BOOST_DESCRIBE_STRUCT(PositioningCase, (), (target, up, down, unit))

struct PositioningView : condition::Positioning {
  LengthUnit unit = LengthUnit::mm;
  std::vector<std::string> notes;
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(PositioningView, (condition::Positioning), (unit, notes, standard))

std::string print_positioning(const PositioningView& view) {
  const std::string unit = formats::print_word(view.unit);
  std::string text = fmt::format("positioning in {}: accuracy A {:.6f} (up {:.6f}, down {:.6f})\n", unit, view.A,
                                 view.A_up, view.A_down);
  text += fmt::format("  repeatability R {:.6f} (up {:.6f}, down {:.6f})\n", view.R, view.R_up, view.R_down);
  text += fmt::format("  reversal B {:.6f}, mean reversal {:.6f}\n", view.B, view.B_mean);
  text += fmt::format("  systematic deviation E {:.6f} (up {:.6f}, down {:.6f}), of the means M {:.6f}\n", view.E,
                      view.E_up, view.E_down, view.M);
  for (const std::string& note : view.notes) text += "  " + note + "\n";
  return text + print_note(condition::positioning_standard);
}

}  // namespace

Result<CaseAnswer> positioning_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  HW_TAKE(runs, read_case<PositioningCase>(tree, place));
  HW_TAKE(result, condition::evaluate_positioning({runs.target, runs.up, runs.down}));
  PositioningView view{result, runs.unit.value_or(LengthUnit::mm), {}, view_of(condition::positioning_standard)};
  if (runs.up[0].size() < 5) view.notes.emplace_back("fewer than the 5 runs each way that ISO 230-2 asks for");
  view.notes.emplace_back("the expanded uncertainty of the measurement is not added");
  return CaseAnswer{formats::print_json(view), print_positioning(view)};
}

}  // namespace hw::terminal
