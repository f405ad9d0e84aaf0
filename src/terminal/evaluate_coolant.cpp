#include "libs/formats/json.h"
#include "src/condition/coolant_mix.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::condition {

BOOST_DESCRIBE_STRUCT(CoolantTank, (), (V_full, V_now, brix, factor, target))

}  // namespace hw::condition

namespace hw::terminal {
namespace {

struct CoolantView {
  double concentration_now = 0, topup_volume = 0;
  formats::OrNull<double> topup_concentration;
  double concentrate_volume = 0;
  bool feasible = false;
  double concentration_if_water_only = 0;
  formats::OrNull<double> volume_to_keep;
};
BOOST_DESCRIBE_STRUCT(CoolantView, (),
                      (concentration_now, topup_volume, topup_concentration, concentrate_volume, feasible,
                       concentration_if_water_only, volume_to_keep))

std::string print_coolant(const CoolantView& view, const condition::CoolantTank& tank) {
  std::string text = fmt::format("now {:.4g} %\n", view.concentration_now);
  if (view.feasible && view.topup_volume > 0) {
    return text + fmt::format("  fill in {:.4g} at {:.4g} %: {:.4g} of concentrate, the rest water\n",
                              view.topup_volume, *view.topup_concentration, view.concentrate_volume);
  }
  if (view.feasible) return text + "  full and right: nothing to fill in\n";
  const bool is_rich = view.concentration_now > tank.target;
  return text + fmt::format("  not feasible: too {} even with {} alone; drain to {:.4g} and fill up with {}\n",
                            is_rich ? "strong" : "weak", is_rich ? "water" : "concentrate", *view.volume_to_keep,
                            is_rich ? "water" : "concentrate");
}

}  // namespace

// {"V_full", "V_now", "brix", "factor", "target"}
Result<CaseAnswer> coolant_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  HW_TAKE(tank, read_case<condition::CoolantTank>(tree, place));
  HW_TAKE(mix, condition::coolant_mix(tank));
  CoolantView view{mix.concentration_now,
                   mix.topup_volume,
                   {},
                   mix.concentrate_volume,
                   mix.is_feasible,
                   mix.concentration_if_water_only,
                   {}};
  if (mix.topup_concentration) view.topup_concentration.emplace(*mix.topup_concentration);
  if (mix.volume_to_keep) view.volume_to_keep.emplace(*mix.volume_to_keep);
  return CaseAnswer{formats::print_json(view), print_coolant(view, tank)};
}

}  // namespace hw::terminal
