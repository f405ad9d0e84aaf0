#include "src/terminal/life_trend.h"

#include <algorithm>
#include <cmath>

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/life/failure_rate.h"
#include "src/life/log_linear.h"
#include "src/life/power_law.h"
#include "src/life/trend.h"
#include "src/terminal/life_file.h"

namespace hw::terminal {
namespace {

using Maybe = formats::OrNull<double>;
using MaybeTwo = std::array<Maybe, 2>;

// null: the failures are too few for it, or there is no such figure for several machines.
struct TrendReport {
  double machines = 0, failures = 0, total_time = 0;
  std::string truncation;  // time, failure, mixed
  double conf = 0.9;
  Maybe laplace_u, laplace_p_two_sided;
  Maybe mil_hdbk_chi2, mil_hdbk_df, mil_hdbk_p_improving, mil_hdbk_p_deteriorating, mil_hdbk_p_two_sided;
  Maybe reversals, reversals_max, reversals_z_nist;
  Maybe beta_mle, lambda_mle, beta_unbiased, lambda_with_unbiased_beta;
  MaybeTwo beta_ci;
  Maybe intensity_end, mtbf_end, mtbf_end_unbiased;
  MaybeTwo mtbf_end_unbiased_ci;
  Maybe cramer_von_mises, loglik, gamma0, gamma1;
  Maybe mtbf, mtbf_lower, mtbf_upper, mtbf_at_least;
  std::vector<std::string> conventions;
};
BOOST_DESCRIBE_STRUCT(TrendReport, (),
                      (machines, failures, total_time, truncation, conf, laplace_u, laplace_p_two_sided, mil_hdbk_chi2,
                       mil_hdbk_df, mil_hdbk_p_improving, mil_hdbk_p_deteriorating, mil_hdbk_p_two_sided, reversals,
                       reversals_max, reversals_z_nist, beta_mle, lambda_mle, beta_unbiased, lambda_with_unbiased_beta,
                       beta_ci, intensity_end, mtbf_end, mtbf_end_unbiased, mtbf_end_unbiased_ci, cramer_von_mises,
                       loglik, gamma0, gamma1, mtbf, mtbf_lower, mtbf_upper, mtbf_at_least, conventions))

void set(Maybe& maybe, const std::optional<double>& number) {
  if (number && std::isfinite(*number)) maybe.emplace(*number);
}

// Times count from when the watch began.
Result<std::vector<life::Repairs>> read_repairs(const LifeTrendCall& call) {
  HW_TAKE(histories, read_failures_file(call.file));
  if (histories.empty()) {
    // A table without rows is a machine without failures, if it was watched.
    if (call.until) return std::vector<life::Repairs>{{{}, call.until}};
    return refuse(ErrorCode::bad_input, "{}: no failure in it; with --until the time without failures counts",
                  call.file);
  }
  std::vector<life::Repairs> machines;
  for (const WatchedHistory& history : histories) {
    const double entry = history.watch.entry;
    life::Repairs repairs;
    for (const double time : history.watch.failures) repairs.ages.push_back(time - entry);
    if (!history.ends_at_failure) {
      repairs.until = history.watch.end - entry;
    } else if (call.until) {
      repairs.until = *call.until - entry;
    }
    if (auto sound = life::check_repairs(repairs); !sound) {
      return refuse(sound.error().at(history.machine.empty() ? call.file : call.file + ", " + history.machine));
    }
    machines.push_back(std::move(repairs));
  }
  return machines;
}

std::string truncation_of(std::span<const life::Repairs> machines) {
  const auto timed =
      std::count_if(machines.begin(), machines.end(), [](const auto& one) { return one.until.has_value(); });
  if (timed == 0) return "failure";
  return timed == static_cast<std::ptrdiff_t>(machines.size()) ? "time" : "mixed";
}

void add_tests(TrendReport& report, std::span<const life::Repairs> machines) {
  if (const auto laplace = life::laplace_test(machines)) {
    set(report.laplace_u, laplace->u);
    set(report.laplace_p_two_sided, laplace->p_two_sided);
  }
  if (const auto handbook = life::mil_hdbk_test(machines)) {
    set(report.mil_hdbk_chi2, handbook->chi2);
    set(report.mil_hdbk_df, handbook->degrees);
    set(report.mil_hdbk_p_improving, handbook->p_improving);
    set(report.mil_hdbk_p_deteriorating, handbook->p_deteriorating);
    set(report.mil_hdbk_p_two_sided, handbook->p_two_sided);
  }
}

void add_power_law(TrendReport& report, const life::Repairs& repairs) {
  const auto fit = life::fit_power_law(repairs, report.conf);
  if (!fit) return;
  const double end = life::end_of_watch(repairs);
  set(report.beta_mle, fit->likeliest.beta);
  set(report.lambda_mle, fit->likeliest.lambda);
  set(report.beta_ci[0], fit->beta_lower);
  set(report.beta_ci[1], fit->beta_upper);
  set(report.intensity_end, fit->likeliest.intensity(end));
  set(report.mtbf_end, 1 / fit->likeliest.intensity(end));
  set(report.loglik, fit->loglik);
  set(report.cramer_von_mises, fit->cramer_von_mises);
  set(report.mtbf_end_unbiased_ci[0], fit->mtbf_lower);
  set(report.mtbf_end_unbiased_ci[1], fit->mtbf_upper);
  if (!fit->unbiased) return;
  set(report.beta_unbiased, fit->unbiased->beta);
  set(report.lambda_with_unbiased_beta, fit->unbiased->lambda);
  set(report.mtbf_end_unbiased, 1 / fit->unbiased->intensity(end));
}

void add_of_one(TrendReport& report, const life::Repairs& repairs) {
  add_power_law(report, repairs);
  if (const auto reversals = life::count_reversals(repairs)) {
    set(report.reversals, reversals->count);
    set(report.reversals_max, reversals->count_max);
    set(report.reversals_z_nist, reversals->z);
  }
  if (const auto fit = life::fit_log_linear(repairs)) {
    set(report.gamma0, fit->gamma0);
    set(report.gamma1, fit->gamma1);
  }
}

// Watched up to failures, each machine's end is one of them; with both kinds the careful 2 r + 2 is taken.
void add_mtbf(TrendReport& report) {
  const auto end = report.truncation == "failure" ? life::WatchEnd::at_a_failure : life::WatchEnd::at_a_time;
  const life::MeanBetween mtbf = life::mean_between(report.total_time, report.failures, end, report.conf);
  set(report.mtbf, mtbf.mean);
  set(report.mtbf_lower, mtbf.lower);
  set(report.mtbf_upper, mtbf.upper);
  set(report.mtbf_at_least, life::mean_between_at_least(report.total_time, report.failures, end, report.conf));
}

std::vector<std::string> conventions_of(const TrendReport& report) {
  return {report.truncation == "failure"
              ? "watched up to the last failure: it is left out of the tests, whose degrees are 2 (n - 1)"
              : "watched up to a time: all failures count in the tests, whose degrees are 2 n",
          "Laplace: u above 0 is deteriorating; it looks for an intensity exp(a + b t)",
          "MIL-HDBK-189: chi2 = 2 sum log(T/t), small is deteriorating; it looks for an intensity a t^(b - 1)",
          "power law: M(t) = lambda t^beta; beta_mle = n / sum log(T/t) (MIL-HDBK-189)",
          "power law: beta_unbiased (NIST: modified) takes n - 1 instead of n, watched up to a failure n - 2",
          report.truncation == "failure"
              ? "mtbf: even failures, chi-square with 2 r degrees for both bounds"
              : "mtbf: even failures, chi-square with 2 r + 2 degrees below and 2 r above (NIST 8.4.5.1)",
          "mtbf_lower and mtbf_upper are two-sided (without failures one-sided); mtbf_at_least is one-sided"};
}

std::string print_text(const TrendReport& report) {
  const auto shown = [](const Maybe& maybe) { return maybe ? fmt::format("{:.6g}", *maybe) : std::string("-"); };
  std::string text = fmt::format("{} failures in {:.7g} on {} machine{}\n\n", report.failures, report.total_time,
                                 report.machines, report.machines > 1 ? "s" : "");
  text += fmt::format("{:<14}u {}, p {} (above 0: more often)\n", "Laplace", shown(report.laplace_u),
                      shown(report.laplace_p_two_sided));
  text += fmt::format("{:<14}chi2 {} on {}; p improving {}, deteriorating {}\n", "MIL-HDBK-189",
                      shown(report.mil_hdbk_chi2), shown(report.mil_hdbk_df), shown(report.mil_hdbk_p_improving),
                      shown(report.mil_hdbk_p_deteriorating));
  text += fmt::format("{:<14}beta {} [{}, {}] (unbiased {}), lambda {}\n", "power law", shown(report.beta_mle),
                      shown(report.beta_ci[0]), shown(report.beta_ci[1]), shown(report.beta_unbiased),
                      shown(report.lambda_mle));
  text += fmt::format("{:<14}{} now by the power law; {} [{}, {}] if failures come evenly; at least {}\n\n", "MTBF",
                      shown(report.mtbf_end), shown(report.mtbf), shown(report.mtbf_lower), shown(report.mtbf_upper),
                      shown(report.mtbf_at_least));
  text += fmt::format("Intervals are {:g} %.", 100 * report.conf);
  for (const std::string& convention : report.conventions) text += "\n- " + convention;
  return text + "\n";
}

}  // namespace

Answer judge_trend(const LifeTrendCall& call) {
  HW_TAKE(machines, read_repairs(call));
  TrendReport report{};
  report.machines = static_cast<double>(machines.size());
  report.conf = call.conf;
  report.truncation = truncation_of(machines);
  for (const life::Repairs& repairs : machines) {
    report.failures += static_cast<double>(repairs.ages.size());
    report.total_time += life::end_of_watch(repairs);
  }
  add_tests(report, machines);
  if (machines.size() == 1) {
    add_of_one(report, machines.front());
  } else if (const auto law = life::fit_pooled_power_law(machines)) {
    set(report.beta_mle, law->beta);
    set(report.lambda_mle, law->lambda);
  }
  add_mtbf(report);
  report.conventions = conventions_of(report);
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace hw::terminal
