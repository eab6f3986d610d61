// How fast the air is in every run against what its chips need, as bars.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "drawing/display_list.h"

namespace kerfdraft::drawing {

struct SpeedBar {
  std::string run;                  ///< "R4: planer to main"
  double speed_m_s = 0;             ///< the slowest in it
  double need_m_s = 0;              ///< what its chips need
  std::string chips;                ///< "shavings"
  std::optional<double> low_m_s{};  ///< band of the prediction
  std::optional<double> high_m_s{};
};

struct SpeedChartInput {
  std::string title;     ///< "Air speed against need"
  std::string standing;  ///< state, filter, "predicted"
  std::vector<SpeedBar> bars;
};

/// Bars in the order of speed over need, the worst on top; as high as it needs to be.
Picture speedChart(const SpeedChartInput& input, base::UnitSystem units, double width_mm = 180);

}  // namespace kerfdraft::drawing
