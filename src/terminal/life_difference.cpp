#include "src/terminal/life_difference.h"

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/life/difference.h"
#include "src/life/likelihood_bounds.h"
#include "src/terminal/life_file.h"

namespace hw::terminal {
namespace {

using GroupEnds = std::array<formats::OrNull<double>, 2>;  // null: no end

struct GroupFitReport {
  double shape = 0, scale = 0;
  GroupEnds shape_interval, scale_interval;
};
BOOST_DESCRIBE_STRUCT(GroupFitReport, (), (shape, scale, shape_interval, scale_interval))

struct GroupReport {
  std::string group;
  double failures = 0, suspensions = 0;
  formats::OrNull<double> expected;  // by the log-rank test
  formats::OrNull<GroupFitReport> fit;
};
BOOST_DESCRIBE_STRUCT(GroupReport, (), (group, failures, suspensions, expected, fit))

struct LogRankReport {
  double statistic = 0;
  int degrees = 0;
  double p = 0;
  std::string by;
};
BOOST_DESCRIBE_STRUCT(LogRankReport, (), (statistic, degrees, p, by))

struct WeibullReport {
  double statistic = 0, correction = 1;
  int degrees = 0;
  double p = 0;
  std::vector<std::string> left_out;
};
BOOST_DESCRIBE_STRUCT(WeibullReport, (), (statistic, correction, degrees, p, left_out))

struct DifferenceReport {
  std::string verdict;
  double p_needed = 0;
  formats::OrNull<LogRankReport> log_rank;
  formats::OrNull<WeibullReport> weibull;
  std::vector<GroupReport> groups;
  std::vector<std::string> cautions;  // why a test is not there
};
BOOST_DESCRIBE_STRUCT(DifferenceReport, (), (verdict, p_needed, log_rank, weibull, groups, cautions))

GroupEnds group_ends(const life::Bounds& bounds) {
  GroupEnds ends;
  ends[0].emplace(bounds.lower);
  if (bounds.upper < life::never) ends[1].emplace(bounds.upper);
  return ends;
}

GroupReport group_report(const LivesGroup& group, double conf) {
  const life::LifeCounts counts = life::count_lives(group.lives);
  GroupReport report{group.name, counts.failures, counts.suspensions, {}, {}};
  const life::WeibullLikelihood likelihood(group.lives);
  if (const auto fit = life::fit_weibull(likelihood)) {
    report.fit.emplace(GroupFitReport{fit->life.shape, fit->life.scale,
                                      group_ends(life::likely_shape(likelihood, *fit, conf)),
                                      group_ends(life::likely_scale(likelihood, *fit, conf))});
  }
  return report;
}

void add_tests(DifferenceReport& report, const life::Difference& found) {
  if (found.log_rank) {
    const life::LogRank& test = *found.log_rank;
    report.log_rank.emplace(LogRankReport{test.statistic, test.degrees, test.p, std::string{life::word_of(test.by)}});
    for (std::size_t j = 0; j < report.groups.size(); ++j) report.groups[j].expected.emplace(test.groups[j].expected);
  } else {
    report.cautions.push_back(found.log_rank.error().message);
  }
  if (found.weibull) {
    const life::WeibullDifference& test = *found.weibull;
    report.weibull.emplace(WeibullReport{test.statistic, test.correction, test.degrees, test.p, {}});
    for (std::size_t j = 0; j < report.groups.size(); ++j) {
      if (!test.takes_part[j]) report.weibull->left_out.push_back(report.groups[j].group);
    }
  } else {
    report.cautions.push_back(found.weibull.error().message);
  }
}

std::string print_text(const DifferenceReport& report) {
  std::string text =
      fmt::format("{:<20}{:>8}{:>10}{:>10}{:>10}{:>12}\n", "group", "failed", "expected", "good", "shape", "scale");
  const auto maybe = [](bool is_there, double number) { return is_there ? fmt::format("{:.5g}", number) : "-"; };
  for (const GroupReport& one : report.groups) {
    text += fmt::format("{:<20}{:>8}{:>10}{:>10}{:>10}{:>12}\n", one.group, one.failures,
                        maybe(one.expected.has_value(), one.expected.value_or(0)), one.suspensions,
                        maybe(one.fit.has_value(), one.fit ? one.fit->shape : 0),
                        maybe(one.fit.has_value(), one.fit ? one.fit->scale : 0));
  }
  text += "\n";
  if (report.log_rank) {
    text += fmt::format("log-rank      {:.6g} on {}, p {:.4g} (by {})\n", report.log_rank->statistic,
                        report.log_rank->degrees, report.log_rank->p, report.log_rank->by);
  }
  if (report.weibull) {
    text += fmt::format("Weibull       {:.6g} / {:.4g} on {}, p {:.4g}\n", report.weibull->statistic,
                        report.weibull->correction, report.weibull->degrees, report.weibull->p);
    if (!report.weibull->left_out.empty()) {
      text += fmt::format("              without {}: too few failures\n", fmt::join(report.weibull->left_out, ", "));
    }
  }
  for (const std::string& caution : report.cautions) text += "! " + caution + "\n";
  return text + fmt::format("{} (p below {:g} in one test is needed to say that they differ)\n", report.verdict,
                            report.p_needed);
}

}  // namespace

Answer tell_difference(const LifeDifferenceCall& call) {
  HW_TAKE(groups, read_groups_file(call.file));
  std::vector<std::vector<life::Observed>> lives;
  DifferenceReport report;
  for (const LivesGroup& group : groups) {
    lives.push_back(group.lives);
    report.groups.push_back(group_report(group, call.conf));
  }
  const life::Difference found = life::judge_difference(lives);
  report.verdict = life::word_of(found.verdict);
  report.p_needed = found.p_needed;
  add_tests(report, found);
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace hw::terminal
