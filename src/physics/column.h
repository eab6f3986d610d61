// A table column as a law reads it: straight lines between points, the ends held.
// The numbers live in data/, with their sources; a law takes them as spans.
#pragma once

#include <cstddef>
#include <span>

namespace kerfdraft::physics {

/// Points of a table, x rising strictly, at least one. Does not own its numbers. validColumn() checks.
struct Column {
  std::span<const double> x;
  std::span<const double> y;
};

/// A value read from a column; `clamped` when x lay outside the table and the end value was held.
struct Reading {
  double value = 0;
  bool clamped = false;
};

/// At least one point, as many y as x, everything finite, x rising strictly.
bool validColumn(const Column& column);

/// Straight line between the points, the end values outside: never extrapolated.
inline Reading readColumn(const Column& column, double x) {
  const std::size_t last = column.x.size() - 1;
  if (!(x > column.x[0])) {
    return {column.y[0], x < column.x[0]};
  }
  if (x >= column.x[last]) {
    return {column.y[last], x > column.x[last]};
  }
  std::size_t k = 1;
  while (column.x[k] < x) {
    ++k;
  }
  const double t = (x - column.x[k - 1]) / (column.x[k] - column.x[k - 1]);
  return {column.y[k - 1] + t * (column.y[k] - column.y[k - 1]), false};
}

}  // namespace kerfdraft::physics
