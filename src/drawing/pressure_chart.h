// Total and static pressure along a path from a port to where the air comes out: a picture of where the
// pressure goes.
#pragma once

#include <string>
#include <vector>

#include "drawing/chart.h"

namespace kerfdraft::drawing {

/// One piece of the path, in the order of the air. Pressures relative to the room where it begins.
struct PathStep {
  std::string label;    ///< "hose", "elbow 90°": named where it is among the greatest losses
  double length_m = 0;  ///< zero for a fitting
  double total_before_pa = 0;
  double total_after_pa = 0;
  double static_before_pa = 0;  ///< in the bore that the piece names
  double static_after_pa = 0;
  bool fan = false;
};

struct PressureChartInput {
  std::string path;      ///< "from T2 P1 to the outlet of C1"
  std::string standing;  ///< state, filter, "predicted"
  std::vector<PathStep> steps;
};

/// At most so many losses are named.
inline constexpr std::size_t kMostNamedLosses = 6;

Chart pressureChart(const PressureChartInput& input, base::UnitSystem units);

}  // namespace kerfdraft::drawing
