#pragma once
// What the group's site tells of lives over its plants, in the words and fields of api/openapi.yaml. Ages and intervals
// in the part's unit.

#include <optional>
#include <string>
#include <vector>

#include "src/service/life_figures.h"

namespace hw::service {

// A kind of part that at least two plants have lives of.
struct GroupPartView {
  std::string kind;
  std::string task;
  std::string title;
  std::string work;
  std::optional<std::string> counter;  // nothing: days
  std::string unit;
  int plants = 0;
  int lives = 0;
  int failures = 0;
  std::string verdict;                    // differ, no difference seen, unknown
  std::optional<std::string> fails_most;  // the titles of the plants that stand out where plants differ
  std::optional<std::string> fails_least;
};
BOOST_DESCRIBE_STRUCT(GroupPartView, (),
                      (kind, task, title, work, counter, unit, plants, lives, failures, verdict, fails_most,
                       fails_least))

struct GroupPartsView {
  Instant now;
  int plants = 0;                    // of the group
  int plants_read = 0;               // those of them whose lives are among these
  std::vector<GroupPartView> parts;  // those whose plants differ first, then by failures
};
BOOST_DESCRIBE_STRUCT(GroupPartsView, (), (now, plants, plants_read, parts))

// The interval of the least expected cost.
struct BestIntervalView {
  std::optional<double> interval;  // nothing: run to failure
};
BOOST_DESCRIBE_STRUCT(BestIntervalView, (), (interval))

struct GroupPartPlantView {
  std::string plant;  // its key
  std::string title;
  int machines = 0;
  int lives = 0;
  int failures = 0;
  int left_out = 0;
  std::optional<double> expected;  // failures, were all plants alike: by the log-rank test
  bool is_in_weibull_test = false;
  std::optional<FitFigures> fit;
  std::optional<RemarkView> refused;  // why there is no fit
  std::optional<double> interval;     // the present one
  // Under the plant's own costs; nothing where the lives do not say.
  std::optional<BestIntervalView> best_by_own;
  std::optional<BestIntervalView> best_by_pooled;
  std::vector<SurvivalPointView> survival;
};
BOOST_DESCRIBE_STRUCT(GroupPartPlantView, (),
                      (plant, title, machines, lives, failures, left_out, expected, is_in_weibull_test, fit, refused,
                       interval, best_by_own, best_by_pooled, survival))

struct DifferenceTestView {
  double statistic = 0;
  int degrees = 0;
  double p = 1;
  std::string by;         // chi-squared, permutation
  double correction = 1;  // by which the statistic is divided for p
};
BOOST_DESCRIBE_STRUCT(DifferenceTestView, (), (statistic, degrees, p, by, correction))

struct GroupPartStudyView {
  Instant now;
  Instant as_of;  // when it was worked out
  GroupPartView part;
  double p_needed = 0;  // of a test that is to say that plants differ
  std::optional<DifferenceTestView> log_rank;
  std::optional<RemarkView> no_log_rank;
  std::optional<DifferenceTestView> weibull;
  std::optional<RemarkView> no_weibull;
  std::optional<FitFigures> pooled;
  std::optional<RemarkView> not_pooled;  // why there is no fit of all
  std::vector<SurvivalPointView> survival;
  std::vector<GroupPartPlantView> plants;     // in the order of their titles
  std::vector<std::string> on_other_counter;  // titles of plants whose lives are counted on another counter: left out
};
BOOST_DESCRIBE_STRUCT(GroupPartStudyView, (),
                      (now, as_of, part, p_needed, log_rank, no_log_rank, weibull, no_weibull, pooled, not_pooled,
                       survival, plants, on_other_counter))

}  // namespace hw::service
