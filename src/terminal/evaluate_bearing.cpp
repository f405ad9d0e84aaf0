#include "libs/formats/json.h"
#include "src/condition/rating_life.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::condition {

BOOST_DESCRIBE_ENUM(BearingType, ball, roller)
BOOST_DESCRIBE_STRUCT(RatingLife, (), (L10_Mrev, L10h, L_na1_h))

}  // namespace hw::condition

namespace hw::terminal {
namespace {

struct BearingCase {
  double C = 0, P = 0, n = 0;
  condition::BearingType p = condition::BearingType::ball;
  std::optional<double> a1, reliability;
};
BOOST_DESCRIBE_STRUCT(BearingCase, (), (C, P, n, p, a1, reliability))

struct BearingView : condition::RatingLife {
  double a1 = 1;
  std::optional<double> a1_2007, a1_1990, L_na1_h_1990;
  std::vector<std::string> notes;
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(BearingView, (condition::RatingLife), (a1, a1_2007, a1_1990, L_na1_h_1990, notes, standard))

std::string print_bearing(const BearingView& view) {
  std::string text = fmt::format("L10 {:.5g} million revolutions, {:.0f} h; with a1 = {:g}: {:.0f} h\n", view.L10_Mrev,
                                 view.L10h, view.a1, view.L_na1_h);
  if (view.a1_1990) {
    text += fmt::format("  a1 of 2007: {:g}; of 1990: {:g}, which gives {:.0f} h\n", *view.a1_2007, *view.a1_1990,
                        *view.L_na1_h_1990);
  }
  for (const std::string& note : view.notes) text += "  " + note + "\n";
  return text + print_note(condition::rating_life_standard);
}

}  // namespace

// {"C", "P", "n", "p": "ball" or "roller" [, "a1" or "reliability"]}; a reliability takes a1 of 2007 and names that of
// 1990.
Result<CaseAnswer> bearing_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  HW_TAKE(bearing, read_case<BearingCase>(tree, place));
  if (bearing.a1 && bearing.reliability) {
    return refuse(ErrorCode::bad_input, "either a1 or reliability, not both");
  }
  BearingView view{};
  view.standard = view_of(condition::rating_life_standard);
  view.a1 = bearing.a1.value_or(1);
  if (bearing.reliability) {
    HW_TAKE(a1_2007, condition::a1_of(*bearing.reliability, condition::ReliabilityList::iso_281_2007));
    HW_TAKE(a1_1990, condition::a1_of(*bearing.reliability, condition::ReliabilityList::iso_281_1990));
    view.a1 = a1_2007;
    view.a1_2007 = a1_2007;
    view.a1_1990 = a1_1990;
  }
  const condition::BearingLoad load{bearing.C, bearing.P, bearing.n, bearing.p, view.a1};
  HW_TAKE(life, condition::rating_life(load));
  if (condition::is_beyond_load_range(load)) {
    view.notes.emplace_back("P is above C / 2, for which the formula is not meant: the life is shorter than it says");
  }
  static_cast<condition::RatingLife&>(view) = life;
  if (view.a1_1990) view.L_na1_h_1990 = *view.a1_1990 * life.L10h;
  return CaseAnswer{formats::print_json(view), print_bearing(view)};
}

}  // namespace hw::terminal
