#include "libs/formats/json.h"
#include "src/condition/viscosity_at.h"
#include "src/condition/viscosity_index.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::condition {

BOOST_DESCRIBE_ENUM(IndexProcedure, A, B)

}  // namespace hw::condition

namespace hw::terminal {
namespace {

struct LineCase {
  double t1 = 0, v1 = 0, t2 = 0, v2 = 0;
  std::optional<std::vector<double>> at;
};
BOOST_DESCRIBE_STRUCT(LineCase, (), (t1, v1, t2, v2, at))

struct ViscosityPoint {
  double t = 0, v = 0;
};
BOOST_DESCRIBE_STRUCT(ViscosityPoint, (), (t, v))

struct LineView {
  double A = 0, B = 0;
  std::vector<ViscosityPoint> at;
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(LineView, (), (A, B, at, standard))

struct IndexCase {
  std::optional<condition::IndexProcedure> proc;
  double U = 0, Y = 0;
  std::optional<double> L, H;
};
BOOST_DESCRIBE_STRUCT(IndexCase, (), (proc, U, Y, L, H))

struct IndexView {
  double VI = 0;
  long rounded = 0;
  condition::IndexProcedure proc = condition::IndexProcedure::A;
  double L = 0, H = 0;
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(IndexView, (), (VI, rounded, proc, L, H, standard))

constexpr std::array<double, 5> usual_temperatures = {0, 20, 60, 80, 120};

// Of the usual temperatures, those at which the equation holds; those that were asked for are all answered or refused.
Result<std::vector<ViscosityPoint>> points_of(const condition::ViscosityLine& line,
                                              const std::optional<std::vector<double>>& asked) {
  std::vector<ViscosityPoint> points;
  for (const double t : asked.value_or(std::vector<double>(usual_temperatures.begin(), usual_temperatures.end()))) {
    const auto v = line.at(t);
    if (v) points.push_back({t, *v});
    if (!v && asked) return refuse(v.error());
  }
  return points;
}

Result<CaseAnswer> line_case(const LineCase& oil) {
  HW_TAKE(line, condition::ViscosityLine::through({oil.t1, oil.v1}, {oil.t2, oil.v2}));
  HW_TAKE(points, points_of(line, oil.at));
  const LineView view{line.A(), line.B(), points, view_of(condition::viscosity_at_standard)};
  std::string text = fmt::format("log log (v + 0.7) = {:.6f} - {:.6f} log T\n", view.A, view.B);
  for (const ViscosityPoint& point : view.at) text += fmt::format("  at {:g} C: {:.5g} mm2/s\n", point.t, point.v);
  return CaseAnswer{formats::print_json(view), text + print_note(condition::viscosity_at_standard)};
}

Result<CaseAnswer> index_case(const IndexCase& oil) {
  HW_TAKE(index, condition::viscosity_index({oil.U, oil.Y, oil.L, oil.H, oil.proc}));
  const IndexView view{index.vi, index.rounded, index.procedure,
                       index.L,  index.H,       view_of(condition::viscosity_index_standard)};
  const std::string text = fmt::format("viscosity index {} ({:.2f}, procedure {}, L {:.5g}, H {:.5g})\n", view.rounded,
                                       view.VI, formats::print_word(view.proc), view.L, view.H);
  return CaseAnswer{formats::print_json(view), text + print_note(condition::viscosity_index_standard)};
}

}  // namespace

// {"v"}, a number alone or {} for the grade; {"t1", "v1", "t2", "v2" [, "at"]} for other temperatures; {"U", "Y" [,
// "L", "H", "proc"]} for the index.
Result<CaseAnswer> viscosity_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  const auto* object = tree.if_object();
  if (object != nullptr && object->contains("U")) {
    HW_TAKE(oil, read_case<IndexCase>(tree, place));
    return index_case(oil);
  }
  if (object != nullptr && object->contains("t1")) {
    HW_TAKE(oil, read_case<LineCase>(tree, place));
    return line_case(oil);
  }
  return grade_case(tree, place);
}

}  // namespace hw::terminal
