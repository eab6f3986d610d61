// Lengths are true; what has none gets a little width of its own, so that its step is seen.
#include "drawing/pressure_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "drawing/units_text.h"

namespace kerfdraft::drawing {

Chart pressureChart(const PressureChartInput& input, base::UnitSystem units) {
  using base::Kind;
  Chart chart;
  chart.title = "Where the pressure goes: " + input.path;
  chart.subtitle = input.standing;
  chart.x = {Kind::Length, "way along the duct"};
  chart.y = {Kind::Pressure, "pressure"};
  double duct_m = 0;
  for (const PathStep& step : input.steps) {
    duct_m += std::max(step.length_m, 0.0);
  }
  const double fitting_m = std::max(duct_m, 1.0) * 0.012;
  const double fan_m = std::max(duct_m, 1.0) * 0.03;

  ChartCurve total{"total", {}, kInk, 0.5};
  ChartCurve wall{"static", {}, kBlue, 0.4, Dash::Dashed};
  total.label_share = 0.6;
  wall.label_share = 0.5;
  double x = 0;
  std::vector<double> middle(input.steps.size());
  for (std::size_t k = 0; k < input.steps.size(); ++k) {
    const PathStep& step = input.steps[k];
    const double width = step.length_m > 0 ? step.length_m : step.fan ? fan_m : fitting_m;
    total.points.push_back({x, step.total_before_pa});
    wall.points.push_back({x, step.static_before_pa});
    middle[k] = x + width / 2;
    x += width;
    total.points.push_back({x, step.total_after_pa});
    wall.points.push_back({x, step.static_after_pa});
  }
  ChartRibbon velocity{"velocity pressure", wall.points, total.points, Colour{0xe4, 0xee, 0xf3}};
  chart.ribbons.push_back(std::move(velocity));
  chart.curves.push_back(std::move(total));
  chart.curves.push_back(std::move(wall));

  // The greatest losses by name.
  std::vector<std::size_t> order(input.steps.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto loss = [&](std::size_t k) {
    const PathStep& step = input.steps[k];
    return step.fan ? 0 : step.total_before_pa - step.total_after_pa;
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return loss(a) > loss(b); });
  double lost = 0;
  for (std::size_t k = 0; k < input.steps.size(); ++k) {
    lost += std::max(loss(k), 0.0);
  }
  for (std::size_t n = 0; n < std::min(order.size(), kMostNamedLosses); ++n) {
    const std::size_t k = order[n];
    const PathStep& step = input.steps[k];
    constexpr double kWorthSaying = 0.03;
    if (!(loss(k) > kWorthSaying * lost)) {
      break;
    }
    ChartMark mark{{middle[k], (step.total_before_pa + step.total_after_pa) / 2}, MarkForm::Disc, kInk};
    mark.size_mm = 0.55;
    mark.lines = {step.label, fmt::format("{}, {:.0f} %", shortText(Kind::Pressure, loss(k), units),
                                          100 * loss(k) / lost)};
    chart.marks.push_back(std::move(mark));
  }
  for (std::size_t k = 0; k < input.steps.size(); ++k) {
    const PathStep& step = input.steps[k];
    if (step.fan) {
      ChartMark mark{{middle[k], (step.total_before_pa + step.total_after_pa) / 2}, MarkForm::Ring, kInk};
      mark.size_mm = 0.8;
      mark.lines = {step.label,
                    "adds " + shortText(Kind::Pressure, step.total_after_pa - step.total_before_pa, units)};
      chart.marks.push_back(std::move(mark));
    }
  }
  chart.notes.push_back(
      "Pressures are relative to the room where the path begins. Lengths are true; fittings, filter and fan "
      "are drawn a little wide to be seen.");
  chart.description =
      fmt::format("{}. All pieces together lose {}.", chart.title, shortText(Kind::Pressure, lost, units));
  return chart;
}

}  // namespace kerfdraft::drawing
