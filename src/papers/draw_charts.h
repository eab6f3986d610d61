// From an assessment to the plain numbers of charts.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "drawing/fan_chart.h"
#include "drawing/pressure_chart.h"
#include "drawing/speed_chart.h"
#include "judge/assessment.h"
#include "judge/bands.h"
#include "judge/margins.h"

namespace kerfdraft::papers {

/// Curve and operating points of a fan (index in Pieces::fans) in these states, each solved with the filter
/// clean, seasoned and due where the shop has one. `bands` by state of the assessment, or empty.
drawing::FanChartInput fanChartInput(const judge::Assessment& assessment,
                                     const std::vector<std::size_t>& states, std::size_t fan,
                                     std::span<const judge::StateBands> bands = {});

/// The path of a port through a state. Errors: those of judge::modelSheet.
base::Result<drawing::PressureChartInput> pressureChartInput(const judge::Assessment& assessment,
                                                             std::size_t state, std::size_t port);

/// Every run with chips in a state; `bands` of that state, or null.
drawing::SpeedChartInput speedChartInput(const judge::Assessment& assessment,
                                         const judge::StateMargins& margins,
                                         const judge::StateBands* bands = nullptr);

/// "clean", "seasoned", "due".
std::string_view toText(shop::FilterState filter);

/// "predicted, filter seasoned, 2026-01-15".
std::string standingOf(const judge::StateResult& state, const std::string& date);

}  // namespace kerfdraft::papers
