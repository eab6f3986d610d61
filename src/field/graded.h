// A number that carries its derivative by every input it depends on. The same template code that gives the
// value of a measurement gives its sensitivities, so the two cannot disagree.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace kerfdraft::field {

/// Value and partial derivatives by input 0, 1, 2 …; a missing tail is zero.
class Graded {
 public:
  Graded(double constant = 0) : value_(constant) {}  // NOLINT: constants mix freely with graded numbers
  Graded(double value, std::vector<double> slopes) : value_(value), slopes_(std::move(slopes)) {}

  /// Input number `index`: its derivative by itself is 1.
  static Graded variable(double value, std::size_t index) {
    std::vector<double> slopes(index + 1, 0.0);
    slopes[index] = 1;
    return {value, std::move(slopes)};
  }

  double value() const { return value_; }
  double slope(std::size_t index) const { return index < slopes_.size() ? slopes_[index] : 0.0; }

  /// f(a, b) with its partial derivatives by a and b, by the chain rule.
  static Graded chain(double value, const Graded& a, double by_a, const Graded& b, double by_b) {
    std::vector<double> slopes(std::max(a.slopes_.size(), b.slopes_.size()));
    for (std::size_t i = 0; i < slopes.size(); ++i) {
      slopes[i] = by_a * a.slope(i) + by_b * b.slope(i);
    }
    return {value, std::move(slopes)};
  }
  static Graded chain(double value, const Graded& a, double by_a) { return chain(value, a, by_a, {}, 0); }

  friend Graded operator+(const Graded& a, const Graded& b) { return chain(a.value_ + b.value_, a, 1, b, 1); }
  friend Graded operator-(const Graded& a, const Graded& b) {
    return chain(a.value_ - b.value_, a, 1, b, -1);
  }
  friend Graded operator*(const Graded& a, const Graded& b) {
    return chain(a.value_ * b.value_, a, b.value_, b, a.value_);
  }
  friend Graded operator/(const Graded& a, const Graded& b) {
    const double q = a.value_ / b.value_;
    return chain(q, a, 1 / b.value_, b, -q / b.value_);
  }
  friend Graded sqrt(const Graded& a) {
    const double root = std::sqrt(a.value_);
    return chain(root, a, 0.5 / root);
  }

 private:
  double value_;
  std::vector<double> slopes_;
};

inline double valueOf(double x) {
  return x;
}
inline double valueOf(const Graded& x) {
  return x.value();
}

}  // namespace kerfdraft::field
