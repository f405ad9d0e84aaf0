#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/condition/ewma_chart.h"
#include "src/condition/individuals_chart.h"
#include "src/condition/run_length.h"
#include "src/condition/series.h"
#include "src/terminal/condition_shifts.h"

namespace hw::condition {

BOOST_DESCRIBE_STRUCT(EwmaDesign, (), (lam, target, sigma, L))
BOOST_DESCRIBE_STRUCT(EwmaPoint, (), (z, lcl_i, ucl_i))
BOOST_DESCRIBE_STRUCT(EwmaChart, (), (series, ucl, lcl, signals_asymptotic, signals_time_varying))

}  // namespace hw::condition

namespace hw::terminal {
namespace {

struct EwmaView : condition::EwmaDesign, condition::EwmaChart {};
BOOST_DESCRIBE_STRUCT(EwmaView, (condition::EwmaDesign, condition::EwmaChart), ())

struct EwmaLength {
  double lambda = 0, L = 0, shift = 0, arl = 0;
};
BOOST_DESCRIBE_STRUCT(EwmaLength, (), (lambda, L, shift, arl))

struct EwmaLengths {
  std::vector<EwmaLength> ewma;
};
BOOST_DESCRIBE_STRUCT(EwmaLengths, (), (ewma))

// What is not said is taken from the values: their mean, and sigma from their moving range.
Result<condition::EwmaDesign> design_for(const ConditionCall& call, const std::vector<double>& x) {
  condition::EwmaDesign design;
  design.lam = call.lambda.value_or(design.lam);
  design.L = call.L.value_or(design.L);
  HW_TRY(condition::check_series(x, "x", 1));
  design.target = call.target ? *call.target : condition::mean_of(x);
  if (call.sigma) {
    design.sigma = *call.sigma;
  } else {
    HW_TAKE(chart, condition::individuals_chart(x, condition::RangeConstant::exact_d2));
    design.sigma = chart.sigma;
  }
  return design;
}

Result<EwmaLength> ewma_length(const ConditionCall& call, double shift) {
  const condition::EwmaDesign usual;
  EwmaLength one{call.lambda.value_or(usual.lam), call.L.value_or(usual.L), shift};
  HW_TAKE(arl, condition::ewma_run_length(one.lambda, one.L, shift));
  one.arl = arl;
  return one;
}

std::string print_ewma_length(const EwmaLength& one) {
  return fmt::format("lambda {:g}, L {:g}, shifted by {:g} sigma: a call every {:.6g} points\n", one.lambda, one.L,
                     one.shift, one.arl);
}

std::string print_ewma(const EwmaView& view) {
  return fmt::format("moving averages: lambda {:g}, target {:.6g}, sigma {:.6g}, L {:g}\n", view.lam, view.target,
                     view.sigma, view.L) +
         fmt::format("  last {:.6g}, limits in the long run {:.6g} to {:.6g}, points beyond: {}\n",
                     view.series.back().z, view.lcl, view.ucl, print_points(view.signals_asymptotic)) +
         fmt::format("  by the limits that vary with time, points beyond: {}\n",
                     print_points(view.signals_time_varying));
}

}  // namespace

Answer ewma_answer(const ConditionCall& call) {
  HW_TRY(check_file_or_shifts(call, "ewma"));
  if (call.file.empty()) {
    const auto length_of = [&](double shift) { return ewma_length(call, shift); };
    return answer_shifts(call, &EwmaLengths::ewma, length_of, print_ewma_length);
  }
  HW_TAKE(x, read_single_values(call.file));
  HW_TAKE(design, design_for(call, x));
  HW_TAKE(chart, condition::ewma_chart(x, design));
  const EwmaView view{design, chart};
  return Said(call.is_json ? formats::print_json(view) + "\n" : print_ewma(view));
}

}  // namespace hw::terminal
