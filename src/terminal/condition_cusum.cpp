#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/condition/cusum_chart.h"
#include "src/condition/individuals_chart.h"
#include "src/condition/run_length.h"
#include "src/condition/series.h"
#include "src/terminal/condition_shifts.h"

namespace hw::condition {

BOOST_DESCRIBE_STRUCT(CusumDesign, (), (target, k, h))

}  // namespace hw::condition

namespace hw::terminal {
namespace {

constexpr double usual_k_sigmas = 0.5;
constexpr double usual_h_sigmas = 5;

struct CusumView : condition::CusumDesign {
  std::vector<std::array<double, 2>> series_hi_lo;
  std::vector<std::size_t> signals;
  formats::OrNull<std::size_t> first_signal, shift_began_at;
};
BOOST_DESCRIBE_STRUCT(CusumView, (condition::CusumDesign), (series_hi_lo, signals, first_signal, shift_began_at))

struct CusumLength {
  double k = 0, h = 0, shift = 0, one = 0, two = 0;
};
BOOST_DESCRIBE_STRUCT(CusumLength, (), (k, h, shift, one, two))

struct CusumLengths {
  std::vector<CusumLength> cusum;
};
BOOST_DESCRIBE_STRUCT(CusumLengths, (), (cusum))

// What is not said is taken from the values: their mean, and k and h from sigma, that from their moving range.
Result<condition::CusumDesign> cusum_for(const ConditionCall& call, const std::vector<double>& x) {
  HW_TRY(condition::check_series(x, "x", 1));
  condition::CusumDesign design{.target = call.target ? *call.target : condition::mean_of(x)};
  double sigma = call.sigma.value_or(0);
  if (!call.sigma && !(call.k && call.h)) {
    HW_TAKE(chart, condition::individuals_chart(x, condition::RangeConstant::exact_d2));
    sigma = chart.sigma;
  }
  design.k = call.k.value_or(usual_k_sigmas * sigma);
  design.h = call.h.value_or(usual_h_sigmas * sigma);
  return design;
}

Result<CusumLength> cusum_length(const ConditionCall& call, double shift) {
  CusumLength one{call.k.value_or(usual_k_sigmas), call.h.value_or(usual_h_sigmas), shift};
  HW_TAKE(arl, condition::cusum_run_length(one.k, one.h, shift));
  one.one = arl.one;
  one.two = arl.two;
  return one;
}

std::string print_cusum_length(const CusumLength& one) {
  return fmt::format(
      "k {:g}, h {:g}, shifted by {:g} sigma: a call every {:.6g} points, {:.6g} by the upper sum alone\n", one.k,
      one.h, one.shift, one.two, one.one);
}

CusumView cusum_view(const condition::CusumDesign& design, const condition::CusumChart& chart) {
  CusumView view{design, {}, chart.signals, {}, {}};
  for (std::size_t n = 0; n < chart.high.size(); ++n) view.series_hi_lo.push_back({chart.high[n], chart.low[n]});
  if (chart.first_signal) view.first_signal.emplace(*chart.first_signal);
  if (chart.shift_began_at) view.shift_began_at.emplace(*chart.shift_began_at);
  return view;
}

std::string print_cusum(const CusumView& view) {
  std::string text = fmt::format("cumulative sums: target {:.6g}, k {:.6g}, h {:.6g}\n", view.target, view.k, view.h);
  if (!view.first_signal) return text + "  no point beyond h\n";
  return text + fmt::format("  first beyond h at point {}, the shift began at about point {}\n", *view.first_signal,
                            *view.shift_began_at);
}

}  // namespace

Answer cusum_answer(const ConditionCall& call) {
  HW_TRY(check_file_or_shifts(call, "cusum"));
  if (call.file.empty()) {
    const auto length_of = [&](double shift) { return cusum_length(call, shift); };
    return answer_shifts(call, &CusumLengths::cusum, length_of, print_cusum_length);
  }
  HW_TAKE(x, read_single_values(call.file));
  HW_TAKE(design, cusum_for(call, x));
  HW_TAKE(chart, condition::cusum_chart(x, design));
  const CusumView view = cusum_view(design, chart);
  return Said(call.is_json ? formats::print_json(view) + "\n" : print_cusum(view));
}

}  // namespace hw::terminal
