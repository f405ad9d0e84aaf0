#include "libs/formats/json.h"
#include "src/condition/viscosity_grade.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::terminal {
namespace {

struct GradeCase {
  double v = 0;
};
BOOST_DESCRIBE_STRUCT(GradeCase, (), (v))

struct GradeRow {
  int vg = 0;
  double mid = 0, lo = 0, hi = 0;
};
BOOST_DESCRIBE_STRUCT(GradeRow, (), (vg, mid, lo, hi))

struct GradeView {
  double v = 0;
  formats::OrNull<int> vg;
  std::optional<double> lo, hi;
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(GradeView, (), (v, vg, lo, hi, standard))

CaseAnswer all_grades() {
  std::vector<GradeRow> rows;
  std::string text;
  for (const condition::ViscosityGrade& grade : condition::viscosity_grades()) {
    rows.push_back({grade.vg, grade.mid, grade.lo, grade.hi});
    text += fmt::format("VG {:<5} {:>7g} mm2/s, {:g} to {:g}\n", grade.vg, grade.mid, grade.lo, grade.hi);
  }
  return {formats::print_json(rows), text + print_note(condition::grade_standard)};
}

}  // namespace

// {"v": mm2/s at 40 C}, or the number alone; {} tells all grades.
Result<CaseAnswer> grade_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  if (const auto* object = tree.if_object(); object != nullptr && object->empty()) return all_grades();
  GradeCase oil;
  if (tree.is_number()) {
    HW_TRY(formats::JsonReading::read(tree, oil.v, place));
  } else {
    HW_TAKE(read, read_case<GradeCase>(tree, place));
    oil = read;
  }
  HW_TAKE(grade, condition::viscosity_grade(oil.v));
  GradeView view{oil.v, {}, {}, {}, view_of(condition::grade_standard)};
  std::string text = fmt::format("{:g} mm2/s at 40 C: no grade, it lies between two or outside of all\n", oil.v);
  if (grade) {
    view.vg.emplace(grade->vg);
    view.lo = grade->lo;
    view.hi = grade->hi;
    text = fmt::format("{:g} mm2/s at 40 C: VG {} ({:g} to {:g})\n", oil.v, grade->vg, grade->lo, grade->hi);
  }
  return CaseAnswer{formats::print_json(view), text + print_note(condition::grade_standard)};
}

}  // namespace hw::terminal
