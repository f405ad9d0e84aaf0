#include "src/service/group_part.h"

#include <algorithm>
#include <cmath>

#include "src/catalogue/work_words.h"
#include "src/life/believed_lives.h"
#include "src/life/difference.h"

namespace hw::service {
namespace {

constexpr double ratios_in_decade = 20;     // of costs, told apart
constexpr double stands_out_expecting = 1;  // failures; of a plant that could expect fewer nothing is said

RemarkView group_remark(const Error& error) { return {error.saying.value_or(Saying{}), error.message}; }

// The counter of most plants; of counters of as many the first by name.
std::optional<std::string> counter_of_most(const std::vector<const PartOfPlant*>& parts) {
  std::map<std::optional<std::string>, int> counts;
  for (const PartOfPlant* one : parts) ++counts[one->part.counter];
  const auto most =
      std::max_element(counts.begin(), counts.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  return most == counts.end() ? std::nullopt : most->first;
}

// Every so many of them, the last one included.
std::vector<SurvivalPointView> thinned(std::vector<SurvivalPointView> points) {
  const std::size_t count = points.size();
  if (count <= survival_points_most) return points;
  std::vector<SurvivalPointView> some;
  for (std::size_t i = 1; i <= survival_points_most; ++i) {
    some.push_back(points[i * count / survival_points_most - 1]);
  }
  return some;
}

// A fit, and what is believed beside it.
struct FittedLives {
  std::optional<FitFigures> figures;
  std::optional<RemarkView> refused;
  std::vector<life::Believed> believed;  // empty where the lives do not say
};

FittedLives fitted(const std::vector<life::Observed>& lives) {
  FittedLives out;
  const life::WeibullLikelihood likelihood(lives);
  const auto fit = life::fit_weibull(likelihood);
  if (!fit) {
    out.refused = group_remark(fit.error());
    return out;
  }
  out.figures = figures_of(likelihood, *fit);
  if (auto believed = life::believed_lives(likelihood, *fit)) out.believed = std::move(*believed);
  return out;
}

// The cheapest interval depends on how many times a failure costs what a planned replacement does, and on nothing else
// of the costs: plants whose ratios lie within 12 % share it, which moves it by some 3 %, within what is flat.
class BestIntervals {
 public:
  explicit BestIntervals(const std::vector<life::Believed>& believed) : believed_(believed) {}

  std::optional<BestIntervalView> under(const life::ReplacementCosts& costs) {
    if (believed_.empty() || !(costs.planned > 0 && costs.failed > 0)) return std::nullopt;
    const double ratio = costs.failed / costs.planned;
    const double rounded = std::pow(10, std::round(std::log10(ratio) * ratios_in_decade) / ratios_in_decade);
    const auto [there, is_new] = known_.try_emplace(rounded);
    if (is_new) there->second.interval = life::cheapest_interval(believed_, {1, rounded}).interval;
    return there->second;
  }

 private:
  const std::vector<life::Believed>& believed_;
  std::map<double, BestIntervalView> known_;
};

// Which plants fail most and least often beside what they could expect, where the plants differ.
void name_those_that_stand_out(GroupPartStudyView& view) {
  const auto ratio = [](const GroupPartPlantView& plant) { return plant.failures / *plant.expected; };
  const GroupPartPlantView *most = nullptr, *least = nullptr;
  for (const GroupPartPlantView& plant : view.plants) {
    if (!plant.expected || *plant.expected < stands_out_expecting) continue;
    if (!most || ratio(plant) > ratio(*most)) most = &plant;
    if (!least || ratio(plant) < ratio(*least)) least = &plant;
  }
  if (most == least) return;
  view.part.fails_most = most->title;
  view.part.fails_least = least->title;
}

void add_difference(GroupPartStudyView& view, const std::vector<std::vector<life::Observed>>& lives) {
  const life::Difference found = life::judge_difference(lives);
  view.p_needed = found.p_needed;
  view.part.verdict = life::word_of(found.verdict);
  if (found.log_rank) {
    const life::LogRank& test = *found.log_rank;
    view.log_rank = DifferenceTestView{test.statistic, test.degrees, test.p, std::string{life::word_of(test.by)}, 1};
    for (std::size_t j = 0; j < view.plants.size(); ++j) view.plants[j].expected = test.groups[j].expected;
  } else {
    view.no_log_rank = group_remark(found.log_rank.error());
  }
  if (found.weibull) {
    const life::WeibullDifference& test = *found.weibull;
    view.weibull = DifferenceTestView{test.statistic, test.degrees, test.p,
                                      std::string{life::word_of(life::PValueBy::chi_squared)}, test.correction};
    for (std::size_t j = 0; j < view.plants.size(); ++j) view.plants[j].is_in_weibull_test = test.takes_part[j];
  } else {
    view.no_weibull = group_remark(found.weibull.error());
  }
  if (found.verdict == life::LikenessVerdict::differ) name_those_that_stand_out(view);
}

}  // namespace

PartOfPlant with_own_figures(PlantPart part) {
  GroupPartPlantView view;
  view.machines = part.machines;
  view.left_out = part.left_out;
  view.interval = part.interval;
  view.lives = static_cast<int>(part.lives.size());
  view.failures = static_cast<int>(life::count_lives(part.lives).failures);
  FittedLives own = fitted(part.lives);
  view.fit = own.figures;
  view.refused = std::move(own.refused);
  view.best_by_own = BestIntervals(own.believed).under(part.costs);
  view.survival = thinned(survival_of(part.lives).points);
  return {std::move(part), std::move(view)};
}

std::optional<GroupPartStudyView> study_group_part(std::vector<const PartOfPlant*> parts, Instant as_of) {
  std::stable_sort(parts.begin(), parts.end(),
                   [](const PartOfPlant* a, const PartOfPlant* b) { return a->own.title < b->own.title; });
  GroupPartStudyView view;
  view.as_of = as_of;
  const auto counter = counter_of_most(parts);
  std::vector<std::vector<life::Observed>> lives;
  std::vector<life::Observed> all;
  std::vector<const PartOfPlant*> alike;
  for (const PartOfPlant* one : parts) {
    if (one->part.counter != counter) {
      view.on_other_counter.push_back(one->own.title);
      continue;
    }
    alike.push_back(one);
    lives.push_back(one->part.lives);
    all.insert(all.end(), one->part.lives.begin(), one->part.lives.end());
  }
  if (alike.size() < 2) return std::nullopt;
  FittedLives pooled = fitted(all);
  BestIntervals best(pooled.believed);
  for (const PartOfPlant* one : alike) {
    view.plants.push_back(one->own);
    view.plants.back().best_by_pooled = best.under(one->part.costs);
  }
  const PlantPart& first = alike.front()->part;
  view.part = {.kind = first.name.kind,
               .task = first.name.task,
               .title = first.title,
               .work = std::string{catalogue::word_of(first.work)},
               .counter = counter,
               .unit = first.unit,
               .plants = static_cast<int>(alike.size()),
               .lives = static_cast<int>(all.size()),
               .failures = static_cast<int>(life::count_lives(all).failures),
               .verdict = {},
               .fails_most = {},
               .fails_least = {}};
  view.pooled = pooled.figures;
  view.not_pooled = std::move(pooled.refused);
  view.survival = thinned(survival_of(all).points);
  add_difference(view, lives);
  return view;
}

}  // namespace hw::service
