#include "libs/formats/json.h"
#include "src/condition/circular_path.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::condition {

BOOST_DESCRIBE_STRUCT(CircularDirection, (), (lsq_center, lsq_radius, G_lsq_center, G_minimum_zone))
BOOST_DESCRIBE_STRUCT(CircularPath, (), (cw, ccw, both, H_hysteresis, F_max, F_min))

}  // namespace hw::condition

namespace hw::terminal {
namespace {

struct CircularCase {
  double radius = 0;
  std::optional<std::vector<double>> dev_cw, dev_ccw;
};
BOOST_DESCRIBE_STRUCT(CircularCase, (), (radius, dev_cw, dev_ccw))

struct CircularView : condition::CircularPath {
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(CircularView, (condition::CircularPath), (standard))

std::string print_direction(const char* name, const std::optional<condition::CircularDirection>& direction) {
  if (!direction) return "";
  return fmt::format("  {:<4}  G {:.7f} about the least-squares centre ({:.7f}, {:.7f}), {:.7f} in the minimum zone\n",
                     name, direction->G_lsq_center, direction->lsq_center[0], direction->lsq_center[1],
                     direction->G_minimum_zone);
}

std::string print_circular(const CircularView& view) {
  std::string text = "circular path, in the unit of the radius\n" + print_direction("cw", view.cw) +
                     print_direction("ccw", view.ccw) + print_direction("both", view.both);
  if (view.H_hysteresis) text += fmt::format("  H {:.7f} between the directions\n", *view.H_hysteresis);
  text += fmt::format("  F {:.7f} and {:.7f} from the programmed circle\n", view.F_max, view.F_min);
  return text + print_note(condition::circular_standard);
}

}  // namespace

Result<CaseAnswer> circular_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  HW_TAKE(path, read_case<CircularCase>(tree, place));
  HW_TAKE(result, condition::evaluate_circular({path.radius, path.dev_cw.value_or(std::vector<double>{}),
                                                path.dev_ccw.value_or(std::vector<double>{})}));
  const CircularView view{result, view_of(condition::circular_standard)};
  return CaseAnswer{formats::print_json(view), print_circular(view)};
}

}  // namespace hw::terminal
