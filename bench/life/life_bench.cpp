// How fast lives are fitted: Weibull fits of 50 lives each, of which about a third were taken out good.
//   life_bench           prints one JSON object: fits and bounds a second, and the mean shape of the first 300 samples
//   life_bench --lives   prints these samples as a table for life_survreg.R: sample,age,failed

#include <algorithm>
#include <cmath>
#include <cstring>
#include <ctime>
#include <vector>

#include <fmt/format.h>

#include "libs/numerics/random.h"
#include "src/life/likelihood_bounds.h"
#include "src/life/weibull_fit.h"

namespace {

using namespace hw;

constexpr std::size_t samples = 20000, compared = 300, lives_each = 50, bounded = 2000;

std::vector<std::vector<life::Observed>> draw_samples() {
  numerics::Random random(50);
  std::vector<std::vector<life::Observed>> drawn(samples);
  for (auto& sample : drawn) {
    const life::Weibull part{random.log_between(0.7, 4), random.log_between(100, 10000)};
    for (std::size_t n = 0; n < lives_each; ++n) {
      const double age = life::quantile(part, random.uniform());
      const double end = part.scale * random.between(0.4, 2);
      sample.push_back(age < end ? life::Observed{age, age} : life::Observed{end});
    }
  }
  return drawn;
}

template <class Work>
double best_of_five(const Work& work) {
  double best = 1e300;
  for (int round = 0; round < 5; ++round) {
    const std::clock_t begin = std::clock();
    work();
    best = std::min(best, static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC);
  }
  return best;
}

void print_lives(const std::vector<std::vector<life::Observed>>& drawn) {
  fmt::print("sample,age,failed\n");
  for (std::size_t n = 0; n < compared; ++n) {
    for (const life::Observed& one : drawn[n]) fmt::print("{},{},{}\n", n, one.lower, life::is_exact(one) ? 1 : 0);
  }
}

void measure(const std::vector<std::vector<life::Observed>>& drawn) {
  life::WeibullLikelihood likelihood(drawn.front());
  double compared_sum = 0, sum = 0;
  const double fit_s = best_of_five([&] {
    compared_sum = 0;
    for (std::size_t n = 0; n < samples; ++n) {
      likelihood.take(drawn[n]);
      const double shape = life::fit_weibull(likelihood)->life.shape;
      sum += shape;
      if (n < compared) compared_sum += shape;
    }
  });
  const double read_s = best_of_five([&] {
    for (const auto& sample : drawn) {
      for (const life::Observed& one : sample) sum += std::log(one.lower);
    }
  });
  const double bound_s = best_of_five([&] {
    for (std::size_t n = 0; n < bounded; ++n) {
      likelihood.take(drawn[n]);
      const auto fit = life::fit_weibull(likelihood);
      sum += life::likely_shape(likelihood, *fit, 0.95).lower + life::likely_scale(likelihood, *fit, 0.95).lower +
             life::likely_quantile(likelihood, *fit, 0.1, 0.95).lower;
    }
  });
  fmt::print(
      "{{\"fits\":{},\"fit_s\":{},\"log_s\":{},\"bounded\":{},\"bound_s\":{},\"compared\":{},\"mean_shape\":{},"
      "\"kept\":{}}}\n",
      samples, fit_s, read_s, bounded, bound_s, compared, compared_sum / compared, sum > 0 ? 1 : 0);
}

}  // namespace

int main(int argc, char** argv) {
  const auto drawn = draw_samples();
  if (argc > 1 && std::strcmp(argv[1], "--lives") == 0) {
    print_lives(drawn);
  } else {
    measure(drawn);
  }
  return 0;
}
