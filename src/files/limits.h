// Least and greatest values that several field tables share. They refuse slips of the pen and nonsense, not
// unusual shops; judgement is left to the findings. All are choices of this project.
#pragma once

#include "files/field_table.h"

namespace kerfdraft::files {

inline constexpr Range kBore{"5 mm", "2 m"};
inline constexpr Range kFlow{"0 m3/s", "100 m3/s"};
inline constexpr Range kFlowAboveZero{"0.01 l/s", "100 m3/s"};
inline constexpr Range kPressure{"0 Pa", "100 kPa"};
inline constexpr Range kPressureAboveZero{"0.1 Pa", "100 kPa"};
inline constexpr Range kArea{"0.01 cm2", "10000 m2"};
inline constexpr Range kCoefficient{"0", "1000"};
inline constexpr Range kBodySize{"1 mm", "50 m"};
inline constexpr Range kHeight{"0 m", "50 m"};
inline constexpr Range kAlongLeg{"0 m", "1 km"};
inline constexpr Range kPower{"1 W", "1000 kW"};
inline constexpr Range kSpeed{"1 rpm", "100000 rpm"};
inline constexpr Range kTurned{"-360 deg", "360 deg"};
/// Coordinates of an underlay in its own units: surveys count from far away.
inline constexpr Range kSheet{"-1000000000", "1000000000"};
/// Of every coordinate of a point, on both sides of the origin.
inline constexpr Range kCoordinate{"-1 km", "1 km"};

}  // namespace kerfdraft::files
