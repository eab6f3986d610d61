// Round numbers for the axes of charts.
#pragma once

#include <string>
#include <vector>

namespace kerfdraft::drawing {

struct Ticks {
  std::vector<double> at;  ///< rising, the first at or below `low`, the last at or above `high`
  int digits = 0;          ///< behind the point, enough to tell them apart

  /// "0.5", "1,200" without the comma.
  std::string text(double value) const;
};

/// Steps of 1, 2 or 5 times a power of ten, about so many of them. Equal or unordered ends are spread;
/// numbers that are not finite give 0 to 1.
Ticks niceTicks(double low, double high, int about);

}  // namespace kerfdraft::drawing
