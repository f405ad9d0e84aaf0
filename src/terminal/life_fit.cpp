#include "src/terminal/life_fit.h"

#include <cmath>

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/life/likelihood_bounds.h"
#include "src/life/other_fits.h"
#include "src/life/weibayes.h"
#include "src/terminal/life_file.h"

namespace hw::terminal {
namespace {

using Ends = std::array<formats::OrNull<double>, 2>;  // null: no end

struct WaldEnds {
  Ends shape, scale, b10;
};
BOOST_DESCRIBE_STRUCT(WaldEnds, (), (shape, scale, b10))

struct BLife {
  double percent = 0;
  formats::OrNull<double> age;
  Ends interval;
};
BOOST_DESCRIBE_STRUCT(BLife, (), (percent, age, interval))

struct ReliabilityAt {
  double age = 0, reliability = 0;
  Ends interval;
};
BOOST_DESCRIBE_STRUCT(ReliabilityAt, (), (age, reliability, interval))

struct ExponentialReport {
  double mean = 0, loglik = 0, aic = 0;
};
BOOST_DESCRIBE_STRUCT(ExponentialReport, (), (mean, loglik, aic))

struct LognormalReport {
  double mu = 0, sigma = 0, loglik = 0, aic = 0;
};
BOOST_DESCRIBE_STRUCT(LognormalReport, (), (mu, sigma, loglik, aic))

struct FitReport {
  double shape = 0, scale = 0, loglik = 0;
  Ends shape_interval, scale_interval;
  double b10 = 0;
  Ends b10_interval;
  double failures = 0, suspensions = 0;
  std::string method = "maximum likelihood, likelihood-ratio intervals";
  double conf = 0.95, aic = 0;
  formats::OrNull<double> mean, sd;
  WaldEnds wald;
  std::optional<BLife> b_life;
  std::optional<ReliabilityAt> reliability;
  std::optional<ExponentialReport> exponential;
  std::optional<LognormalReport> lognormal;
  std::vector<std::string> cautions;
};
BOOST_DESCRIBE_STRUCT(FitReport, (),
                      (shape, scale, loglik, shape_interval, scale_interval, b10, b10_interval, failures, suspensions,
                       method, conf, aic, mean, sd, wald, b_life, reliability, exponential, lognormal, cautions))

struct AssumedReport {
  double shape = 0;
  formats::OrNull<double> scale;
  double scale_lower = 0, b10_lower = 0, failures = 0, suspensions = 0, conf = 0;
  std::string method = "assumed shape (Weibayes), one-sided lower bounds";
};
BOOST_DESCRIBE_STRUCT(AssumedReport, (), (shape, scale, scale_lower, b10_lower, failures, suspensions, conf, method))

formats::OrNull<double> finite(double number) {
  formats::OrNull<double> maybe;
  if (std::isfinite(number)) maybe.emplace(number);
  return maybe;
}
Ends ends_of(const life::Bounds& bounds) { return {finite(bounds.lower), finite(bounds.upper)}; }

std::string print_ends(const Ends& ends) {
  return fmt::format("[{:.6g}, {}]", ends[0].value_or(0), ends[1] ? fmt::format("{:.6g}", *ends[1]) : "no end");
}

void add_asked(FitReport& report, const LifeFitCall& call, const life::WeibullLikelihood& likelihood,
               const life::WeibullFit& fit) {
  if (call.share_percent != 10) {
    const double share = call.share_percent / 100;
    report.b_life = BLife{call.share_percent, finite(life::quantile(fit.life, share)),
                          ends_of(life::likely_quantile(likelihood, fit, share, call.conf))};
  }
  if (call.age) {
    report.reliability = ReliabilityAt{*call.age, life::reliability(fit.life, *call.age),
                                       ends_of(life::likely_reliability(likelihood, fit, *call.age, call.conf))};
  }
}

FitReport report_of(const LifeFitCall& call, const life::WeibullLikelihood& likelihood, const life::WeibullFit& fit,
                    std::span<const life::Observed> lives) {
  const life::Bounds shape = life::likely_shape(likelihood, fit, call.conf);
  const double share = -std::expm1(-1.0);  // that has failed at the scale
  FitReport report{
      .shape = fit.life.shape,
      .scale = fit.life.scale,
      .loglik = fit.loglik,
      .shape_interval = ends_of(shape),
      .scale_interval = ends_of(life::likely_scale(likelihood, fit, call.conf)),
      .b10 = life::quantile(fit.life, 0.1),
      .b10_interval = ends_of(life::likely_quantile(likelihood, fit, 0.1, call.conf)),
      .failures = fit.counts.failures,
      .suspensions = fit.counts.suspensions,
      .conf = call.conf,
      .aic = fit.aic(),
      .mean = finite(life::mean_life(fit.life)),
      .sd = finite(life::life_spread(fit.life)),
      .wald = {ends_of(life::wald_shape(fit, call.conf)), ends_of(life::wald_quantile(fit, share, call.conf)),
               ends_of(life::wald_quantile(fit, 0.1, call.conf))},
      .b_life = {},
      .reliability = {},
      .exponential = {},
      .lognormal = {},
      .cautions = {}};
  for (const life::Caution& caution : life::cautions_of(fit, shape)) report.cautions.push_back(caution.says);
  add_asked(report, call, likelihood, fit);
  if (const auto other = life::fit_exponential(likelihood)) {
    report.exponential = ExponentialReport{other->mean, other->loglik, other->aic()};
  }
  if (const auto other = life::fit_lognormal(lives)) {
    report.lognormal = LognormalReport{other->mu, other->sigma, other->loglik, other->aic()};
  }
  return report;
}

std::string print_text(const FitReport& report) {
  const std::string row = "{:<12}{:>14.7g}   {}\n";
  std::string text =
      fmt::format("Weibull by maximum likelihood: {} failed, {} taken out good\n\n{:<12}{:>14}   {:g} % interval\n",
                  report.failures, report.suspensions, "", "", 100 * report.conf);
  text += fmt::format(fmt::runtime(row), "shape", report.shape, print_ends(report.shape_interval));
  text += fmt::format(fmt::runtime(row), "scale", report.scale, print_ends(report.scale_interval));
  text += fmt::format(fmt::runtime(row), "B10", report.b10, print_ends(report.b10_interval));
  if (report.b_life) {
    text += fmt::format(fmt::runtime(row), fmt::format("B{:g}", report.b_life->percent),
                        report.b_life->age.value_or(life::never), print_ends(report.b_life->interval));
  }
  if (report.reliability) {
    text += fmt::format(fmt::runtime(row), fmt::format("R({:g})", report.reliability->age),
                        report.reliability->reliability, print_ends(report.reliability->interval));
  }
  text += fmt::format("{:<12}{:>14}\n\n{:<12}{:>14}{:>14}\n", "mean",
                      report.mean ? fmt::format("{:.7g}", *report.mean) : "no end", "", "loglik", "AIC");
  const auto add_model = [&text](std::string_view name, double loglik, double aic) {
    text += fmt::format("{:<12}{:>14.4f}{:>14.4f}\n", name, loglik, aic);
  };
  add_model("Weibull", report.loglik, report.aic);
  if (report.exponential) add_model("exponential", report.exponential->loglik, report.exponential->aic);
  if (report.lognormal) add_model("lognormal", report.lognormal->loglik, report.lognormal->aic);
  for (const std::string& caution : report.cautions) text += "\n! " + caution;
  return report.cautions.empty() ? text : text + "\n";
}

std::string print_text(const AssumedReport& report) {
  std::string text = fmt::format("shape {:g} assumed: {} failed, {} taken out good\n", report.shape, report.failures,
                                 report.suspensions);
  if (report.scale) text += fmt::format("scale {:.7g}\n", *report.scale);
  return text + fmt::format("with {:g} % confidence the scale is above {:.7g} and B10 above {:.7g}\n",
                            100 * report.conf, report.scale_lower, report.b10_lower);
}

Answer fit_assumed(const LifeFitCall& call, std::span<const life::Observed> lives) {
  HW_TAKE(assumed, life::assume_shape(lives, *call.shape, call.conf));
  const AssumedReport report{.shape = assumed.shape,
                             .scale = finite(assumed.scale.value_or(life::never)),
                             .scale_lower = assumed.scale_lower,
                             .b10_lower = life::quantile({assumed.shape, assumed.scale_lower}, 0.1),
                             .failures = assumed.failures,
                             .suspensions = assumed.suspensions,
                             .conf = call.conf};
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace

Answer fit_life(const LifeFitCall& call) {
  HW_TAKE(lives, read_lives_file(call.file));
  if (call.shape) return fit_assumed(call, lives);
  const life::WeibullLikelihood likelihood(lives);
  HW_TAKE(fit, life::fit_weibull(likelihood));
  const FitReport report = report_of(call, likelihood, fit, lives);
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace hw::terminal
