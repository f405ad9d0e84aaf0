#pragma once
// Numerical integration by Gauss and Legendre: exact for polynomials up to degree 2n - 1.

#include <cstddef>
#include <vector>

namespace hw::numerics {

struct QuadratureNode {
  double at = 0;
  double weight = 0;
};

// `count` nodes (1 to 2000) on [from, to], from < to, in rising order: the integral of f is about the sum of
// weight * f(at). Newton's method on the Legendre polynomial from Tricomi's first guess (Abramowitz and Stegun 25.4.30;
// from memory). The weights sum to to - from, to within rounding.
std::vector<QuadratureNode> gauss_legendre(std::size_t count, double from, double to);

}  // namespace hw::numerics
