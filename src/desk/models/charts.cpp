// The numbers come from papers/draw_charts, as on paper.
#include "desk/models/charts.h"

#include <fmt/format.h>

#include <algorithm>

#include "papers/draw_charts.h"
#include "papers/worst_path.h"

namespace kerfdraft::desk {
namespace {

ShownChart nothing(std::string why, drawing::ChartSize size) {
  drawing::Chart chart;
  chart.title = why;
  ShownChart out;
  out.picture = drawing::drawChart(chart, base::UnitSystem::Metric, size);
  out.picture.description = std::move(why);  // for who cannot see it as well
  return out;
}

ShownChart drawn(const drawing::Chart& chart, base::UnitSystem units, drawing::ChartSize size) {
  ShownChart out;
  drawing::ChartFrame frame;
  out.picture = drawing::drawChart(chart, units, size, &frame);
  out.frame = frame;
  out.x_kind = chart.x.kind;
  out.y_kind = chart.y.kind;
  out.units = units;
  return out;
}

/// Axes of charts count from zero, so that a factor is enough.
double inSi(base::Kind kind, double shown, base::UnitSystem units) {
  return shown / base::inUnit(kind, 1, units);
}

ShownChart fan(const Solved& solved, std::size_t state, const std::set<base::Id>& picked,
               base::UnitSystem units, drawing::ChartSize size) {
  const pieces::Pieces& drawing = *solved.assessment->pieces;
  std::optional<std::size_t> chosen;
  for (std::size_t f = 0; f < drawing.fans.size(); ++f) {
    if (picked.contains(drawing.fans[f].id) && drawing.fans[f].curve) {
      chosen = f;
    }
  }
  for (std::size_t f = 0; f < drawing.fans.size() && !chosen; ++f) {
    if (drawing.fans[f].curve) {
      chosen = f;
    }
  }
  if (!chosen) {
    return nothing(drawing.fans.empty() ? "No collector stands in the shop yet."
                                        : "No fan here has a curve that can be drawn.",
                   size);
  }
  const drawing::FanChartInput input =
      papers::fanChartInput(*solved.assessment, {state}, *chosen, solved.bands);
  ShownChart out = drawn(drawing::fanChart(input, units), units, size);
  out.curve = input.curve;
  out.curve_name = "the fan's curve";
  return out;
}

ShownChart pressure(const Solved& solved, std::size_t state, const std::set<base::Id>& picked,
                    base::UnitSystem units, drawing::ChartSize size) {
  const pieces::Pieces& drawing = *solved.assessment->pieces;
  std::optional<std::size_t> port;
  for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
    const shop::PortRef& ref = drawing.ports[p].ref;
    if ((picked.contains(ref.machine) || picked.contains(ref.port)) &&
        p < solved.margins[state].ports.size() && solved.margins[state].ports[p].open) {
      port = p;
    }
  }
  if (!port) {
    if (const auto worst = papers::worstPath(*solved.assessment, solved.margins, state, std::nullopt)) {
      port = worst->port;
    }
  }
  if (!port) {
    return nothing("No open port in this state: there is no path to show.", size);
  }
  const auto input = papers::pressureChartInput(*solved.assessment, state, *port);
  if (!input) {
    return nothing(input.error().message, size);
  }
  return drawn(drawing::pressureChart(*input, units), units, size);
}

}  // namespace

ShownChart chartOf(const Solved& solved, std::size_t state, ChartKind kind, const std::set<base::Id>& picked,
                   base::UnitSystem units, drawing::ChartSize size) {
  if (!solved.assessment || state >= solved.states()) {
    return nothing("Nothing is solved yet.", size);
  }
  if (!solved.assessment->states[state].solution.solved()) {
    return nothing("This state has no solution: " + solved.assessment->states[state].solution.why, size);
  }
  switch (kind) {
    case ChartKind::Fan:
      return fan(solved, state, picked, units, size);
    case ChartKind::Pressure:
      return pressure(solved, state, picked, units, size);
    case ChartKind::Speed:
      break;
  }
  const judge::StateBands* bands = state < solved.bands.size() ? &solved.bands[state] : nullptr;
  const drawing::SpeedChartInput input =
      papers::speedChartInput(*solved.assessment, solved.margins[state], bands);
  if (input.bars.empty()) {
    return nothing("No chips travel in this state.", size);
  }
  ShownChart out;
  out.picture = drawing::speedChart(input, units, size.width_mm);
  return out;
}

std::optional<ChartReading> readAt(const ShownChart& chart, drawing::At pointer) {
  if (!chart.frame || chart.frame->plot_mm.empty()) {
    return std::nullopt;
  }
  const drawing::ChartFrame& frame = *chart.frame;
  const drawing::Box& plot = frame.plot_mm;
  if (pointer.x < plot.left || pointer.x > plot.right || pointer.y < plot.top || pointer.y > plot.bottom) {
    return std::nullopt;
  }
  const double x = frame.x_low + (pointer.x - plot.left) / plot.width() * (frame.x_high - frame.x_low);
  double y = frame.y_low + (plot.bottom - pointer.y) / plot.height() * (frame.y_high - frame.y_low);
  ChartReading out{pointer, {}};
  const double x_si = inSi(chart.x_kind, x, chart.units);
  std::string on;
  const auto after = std::find_if(chart.curve.begin(), chart.curve.end(),
                                  [&](const drawing::ChartPoint& p) { return p.x >= x_si; });
  if (after != chart.curve.begin() && after != chart.curve.end()) {
    const drawing::ChartPoint& a = *(after - 1);
    const double share = after->x > a.x ? (x_si - a.x) / (after->x - a.x) : 0;
    y = base::inUnit(chart.y_kind, a.y + share * (after->y - a.y), chart.units);
    on = " on " + chart.curve_name;
    out.at_mm.y = plot.bottom - (y - frame.y_low) / (frame.y_high - frame.y_low) * plot.height();
  }
  out.text =
      fmt::format("{}, {}{}", base::formatQuantity(chart.x_kind, x_si, chart.units),
                  base::formatQuantity(chart.y_kind, inSi(chart.y_kind, y, chart.units), chart.units), on);
  return out;
}

}  // namespace kerfdraft::desk
