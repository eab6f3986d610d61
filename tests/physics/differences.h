// Central differences, the check on every derivative that a law returns.
// The step is scaled with the argument; the error is of second order.
#pragma once

#include <algorithm>
#include <cmath>

namespace kerfdraft::tests {

/// (f(x + h) - f(x - h)) / 2h with h = relative_step * max(|x|, scale).
template <class F>
double centralDifference(F&& f, double x, double scale = 1e-3, double relative_step = 1e-6) {
  const double h = relative_step * std::max(std::abs(x), scale);
  return (f(x + h) - f(x - h)) / (2 * h);
}

}  // namespace kerfdraft::tests
