// Where a collector works: its curve, what the ducts ask in each state, and the points where both meet, clean
// to seasoned.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing/chart.h"

namespace kerfdraft::drawing {

struct OperatingPoint {
  double flow_m3_s = 0;                   ///< actual, at the fan's inlet
  double pressure_pa = 0;                 ///< rise of total pressure
  std::optional<double> flow_low_m3_s{};  ///< band of the prediction
  std::optional<double> flow_high_m3_s{};
};

struct FanChartState {
  std::string name;
  std::optional<OperatingPoint> clean{};
  std::optional<OperatingPoint> seasoned{};
  std::optional<OperatingPoint> due{};
  double filter_pa_s_m3 = 0;  ///< of the seasoned filter: the part of the system curve that is no square
  bool alone = true;          ///< no other fan runs: only then is there a system curve
};

struct FanChartInput {
  std::string fan;                ///< "C1 cyclone"
  std::string standing;           ///< "predicted", "only the label is known"
  std::vector<ChartPoint> curve;  ///< flow and rise of total pressure
  std::vector<ChartPoint> low{};  ///< edges of the curve's band, where it is known badly
  std::vector<ChartPoint> high{};
  std::vector<FanChartState> states;
};

/// At most so many system curves are drawn; of more, those whose flows lie farthest apart.
inline constexpr std::size_t kMostSystemCurves = 5;

/// The chart of it. A system curve is b Q + a Q² through the seasoned point (the clean one where there is no
/// other), b being the filter's resistance.
Chart fanChart(const FanChartInput& input, base::UnitSystem units);

}  // namespace kerfdraft::drawing
