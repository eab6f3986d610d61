// Distance of two places in words. Without Qt.
#pragma once

#include <string>
#include <vector>

#include "desk/models/snap.h"

namespace kerfdraft::desk {

struct Measured {
  double plan_m = 0;
  double east_m = 0;
  double north_m = 0;
  double angle_rad = 0;            ///< of the line, anticlockwise from east, 0 … 2 pi
  std::optional<double> rise_m{};  ///< where both places have a height
  double space_m = 0;              ///< in space, or on the plan
};

Measured measure(const Snapped& from, const Snapped& to);
/// Lines to show: length, east and north, angle, rise.
std::vector<std::string> toWords(const Measured& measured, base::UnitSystem units);

}  // namespace kerfdraft::desk
