// From an assessment to the plain numbers of charts.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.h"
#include "drawing/fan_chart.h"
#include "drawing/pressure_chart.h"
#include "drawing/speed_chart.h"
#include "judge/assessment.h"
#include "judge/margins.h"

namespace kerfdraft::cli {

/// Curve and operating points of a fan (index in Pieces::fans) in these states, each solved with the filter
/// clean, seasoned and due where the shop has one.
drawing::FanChartInput fanChartInput(const judge::Assessment& assessment,
                                     const std::vector<std::size_t>& states, std::size_t fan);

/// The path of a port through a state. Errors: those of judge::modelSheet.
base::Result<drawing::PressureChartInput> pressureChartInput(const judge::Assessment& assessment,
                                                             std::size_t state, std::size_t port);

/// Every run with chips in a state.
drawing::SpeedChartInput speedChartInput(const judge::Assessment& assessment,
                                         const judge::StateMargins& margins);

/// "predicted, filter seasoned, 2026-01-15".
std::string standingOf(const judge::StateResult& state, const std::string& date);

}  // namespace kerfdraft::cli
