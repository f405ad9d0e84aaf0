#include "src/condition/run_length.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "libs/numerics/gauss_legendre.h"
#include "libs/numerics/normal_tail.h"

namespace hw::condition {
namespace {

double normal_density(double z) { return std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi); }

// The solution of a dense system by Gauss's elimination with row pivots; `rows` have the right side as their last
// column.
std::vector<double> solved(std::vector<std::vector<double>> rows) {
  const std::size_t size = rows.size();
  for (std::size_t pivot = 0; pivot < size; ++pivot) {
    std::size_t best = pivot;
    for (std::size_t row = pivot + 1; row < size; ++row) {
      if (std::abs(rows[row][pivot]) > std::abs(rows[best][pivot])) best = row;
    }
    std::swap(rows[pivot], rows[best]);
    for (std::size_t row = pivot + 1; row < size; ++row) {
      const double share = rows[row][pivot] / rows[pivot][pivot];
      for (std::size_t column = pivot; column <= size; ++column) rows[row][column] -= share * rows[pivot][column];
    }
  }
  std::vector<double> x(size);
  for (std::size_t row = size; row-- > 0;) {
    double rest = rows[row][size];
    for (std::size_t column = row + 1; column < size; ++column) rest -= rows[row][column] * x[column];
    x[row] = rest / rows[row][row];
  }
  return x;
}

// Nodes enough for kernels that are as wide as one standard deviation, over so many of them.
std::size_t nodes_for(double deviations) {
  return static_cast<std::size_t>(std::clamp(std::ceil(6 * deviations), 48.0, 480.0));
}

// The unknowns are A(0) and A at the nodes.
double upper_run_length(double k, double h, double shift) {
  std::vector<numerics::QuadratureNode> states = {{0, 0}};
  for (const auto& node : numerics::gauss_legendre(nodes_for(h), 0, h)) states.push_back(node);
  std::vector<std::vector<double>> rows(states.size(), std::vector<double>(states.size() + 1));
  for (std::size_t row = 0; row < states.size(); ++row) {
    const double at = k - states[row].at - shift;
    for (std::size_t column = 0; column < states.size(); ++column) {
      rows[row][column] = (row == column ? 1.0 : 0.0) - states[column].weight * normal_density(states[column].at + at);
    }
    rows[row][0] -= numerics::normal_below(at);
    rows[row][states.size()] = 1;
  }
  return solved(std::move(rows))[0];
}

Result<void> check_shift(double shift) {
  if (std::abs(shift) <= 10) return {};
  return refuse(ErrorCode::bad_input, "shift: from -10 to 10 standard deviations, not {}", shift);
}

// Of a chart that hardly ever calls the system is singular to a double's eye: what comes out is too long or no length.
Result<double> checked(double length) {
  if (length >= 1 - 1e-9 && length <= run_length_max) return length;
  return refuse(ErrorCode::unsupported, "a chart of this design runs for more than 1e12 points until it calls");
}

}  // namespace

Result<CusumRunLength> cusum_run_length(double k, double h, double shift) {
  if (!(k >= 0 && k <= 5)) return refuse(ErrorCode::bad_input, "k: 0 to 5 standard deviations, not {}", k);
  if (!(h > 0 && h <= 40)) return refuse(ErrorCode::bad_input, "h: up to 40 standard deviations, not {}", h);
  HW_TRY(check_shift(shift));
  HW_TAKE(upper, checked(upper_run_length(k, h, shift)));
  const auto lower = checked(upper_run_length(k, h, -shift));  // against the shift it may run for ever
  return CusumRunLength{upper, lower ? 1 / (1 / upper + 1 / *lower) : upper};
}

Result<double> ewma_run_length(double lam, double L, double shift) {
  if (!(lam >= 0.01 && lam <= 1)) return refuse(ErrorCode::bad_input, "lambda: 0.01 to 1, not {}", lam);
  if (!(L > 0 && L <= 6)) return refuse(ErrorCode::bad_input, "L: above 0 up to 6, not {}", L);
  HW_TRY(check_shift(shift));
  const double c = L * std::sqrt(lam / (2 - lam));
  const auto nodes = numerics::gauss_legendre(nodes_for(2 * c / lam), -c, c);
  const auto kernel = [&](double from, const numerics::QuadratureNode& to) {
    return to.weight / lam * normal_density((to.at - (1 - lam) * from) / lam - shift);
  };
  std::vector<std::vector<double>> rows(nodes.size(), std::vector<double>(nodes.size() + 1, 1));
  for (std::size_t row = 0; row < nodes.size(); ++row) {
    for (std::size_t column = 0; column < nodes.size(); ++column) {
      rows[row][column] = (row == column ? 1.0 : 0.0) - kernel(nodes[row].at, nodes[column]);
    }
  }
  const std::vector<double> lengths = solved(std::move(rows));
  double from_zero = 1;
  for (std::size_t n = 0; n < nodes.size(); ++n) from_zero += kernel(0, nodes[n]) * lengths[n];
  return checked(from_zero);
}

}  // namespace hw::condition
