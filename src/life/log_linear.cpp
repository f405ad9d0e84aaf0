#include "src/life/log_linear.h"

#include <cmath>

#include "libs/numerics/root.h"

namespace hw::life {
namespace {

// The mean of an age in (0, 1] whose density goes as exp(u t), with its slope by u.
numerics::Sloped mean_age(double u) {
  if (std::abs(u) < 1e-2) {
    const double u2 = u * u;  // 1/2 + u/12 - u^3/720 + u^5/30240
    return {0.5 + u * (1.0 / 12 - u2 * (1.0 / 720 - u2 / 30240)), 1.0 / 12 - u2 * (1.0 / 240 - u2 / 6048)};
  }
  const double e = -std::expm1(-std::abs(u));  // for a falling density the mirrored one
  const double rising = 1 / e - 1 / std::abs(u);
  const double slope = 1 / (u * u) - (1 - e) / (e * e);
  return {u > 0 ? rising : 1 - rising, slope};
}

}  // namespace

Result<LogLinear> fit_log_linear(const Repairs& repairs) {
  const double end = end_of_watch(repairs);
  const auto within = static_cast<std::size_t>(failures_within(repairs));
  double sum = 0;
  for (std::size_t k = 0; k < within; ++k) sum += repairs.ages[k];
  const auto count = static_cast<double>(within);
  if (within == 0 || sum >= count * end) {
    return refuse(ErrorCode::bad_input, "no failure before the end of the watch: an intensity has no estimate");
  }
  const double aim = sum / count / end;
  const auto score = [&](double u) {
    const numerics::Sloped mean = mean_age(u);
    return numerics::Sloped{mean.value - aim, mean.slope};
  };
  // The mean lies about 1 / |u| from the end that it is near to.
  const double reach = 10 + 2 / std::min(aim, 1 - aim);
  const double u = numerics::find_root(score, -reach, reach, 1e-14 * reach);
  const double log_area = u == 0 ? 0 : u > 0 ? u + std::log(-std::expm1(-u) / u) : std::log(std::expm1(u) / u);
  const double gamma0 = std::log(count / end) - log_area;
  return LogLinear{gamma0, u / end, count * gamma0 + u / end * sum - count};
}

}  // namespace hw::life
