// Drawings of a state, ready to stand in a page.
#include <fmt/format.h>

#include <numeric>

#include "drawing/isometric.h"
#include "drawing/plan.h"
#include "drawing/trim.h"
#include "papers/draw_charts.h"
#include "papers/draw_overlay.h"
#include "papers/parts.h"

namespace kerfdraft::papers {
namespace {

const judge::StateBands* bandsOf(const PaperInput& input, std::size_t state) {
  return state < input.evidence.bands.size() ? &input.evidence.bands[state] : nullptr;
}

std::string stateText(const PaperInput& input, std::size_t state) {
  const std::string& name = input.assessment.states[state].name;
  const std::string filter = filterText(input, state);
  // A person may have put the filter into the state's name.
  const bool told = filter.empty() || name.find(filter) != std::string::npos;
  return fmt::format("{}{}, predicted", name, told ? "" : ", " + filter);
}

/// The place of a picture in a page. A little wider than the text's column, which is 170 mm on A4 and 176 mm
/// on Letter: letters shrink with it and still read, and more of them find room.
const drawing::Paper kUpright{"page", 229, 236};
const drawing::Paper kBeside{"page", 232, 158};

}  // namespace

Figure planFigure(const PaperInput& input, std::size_t state, bool with_bands) {
  // The owner looks at machines; colours tell of the ducts.
  const bool owner = input.reader == judge::Reader::Owner;
  drawing::PlanOptions options;
  options.units = input.units;
  options.paper = owner ? kBeside : kUpright;
  options.furniture = false;
  options.measuring_points = !owner;
  drawing::Overlay overlay = overlayOf(input.assessment, state, input.evidence.margins[state], input.units,
                                       with_bands ? bandsOf(input, state) : nullptr);
  if (owner) {
    for (auto& [key, mark] : overlay.runs) {
      mark.lines.clear();
    }
  }
  Figure figure;
  figure.picture = drawing::drawPlan(input.evidence.project(), input.evidence.pieces(), overlay, options);
  if (owner) {
    constexpr double kRim_mm = 2;
    drawing::trimHeight(figure.picture, kRim_mm);
  }
  figure.caption =
      fmt::format("{}. The darker a duct or machine, the less air there is against what is needed.",
                  stateText(input, state));
  return figure;
}

Figure isometricFigure(const PaperInput& input, std::size_t state) {
  drawing::IsometricOptions options;
  options.units = input.units;
  options.paper = kUpright;
  options.furniture = false;
  const drawing::Overlay overlay =
      overlayOf(input.assessment, state, input.evidence.margins[state], input.units);
  Figure figure;
  figure.picture = drawing::drawIsometric(input.evidence.project(), overlay, options);
  figure.caption = "The ducts in space, seen from the south-east and above.";
  return figure;
}

Figure fanFigure(const PaperInput& input, std::size_t fan) {
  std::vector<std::size_t> states = usualStates(input);
  const drawing::FanChartInput chart = fanChartInput(input.assessment, states, fan, input.evidence.bands);
  Figure figure;
  figure.picture = drawing::drawChart(drawing::fanChart(chart, input.units), input.units);
  figure.caption = fmt::format(
      "{}: curve and operating points. Rings: clean filter; discs: seasoned; diamonds: due. Bars: where the "
      "flow may lie.",
      chart.fan);
  return figure;
}

Figure speedFigure(const PaperInput& input, std::size_t state) {
  drawing::SpeedChartInput chart =
      speedChartInput(input.assessment, input.evidence.margins[state], bandsOf(input, state));
  chart.standing = stateText(input, state);
  Figure figure;
  figure.picture = drawing::speedChart(chart, input.units);
  figure.caption = "The slowest air in every run that carries chips, against what these chips need.";
  return figure;
}

std::optional<Figure> pressureFigure(const PaperInput& input, std::size_t state, std::size_t port) {
  base::Result<drawing::PressureChartInput> chart = pressureChartInput(input.assessment, state, port);
  if (!chart) {
    return std::nullopt;
  }
  chart->standing = stateText(input, state);
  Figure figure;
  figure.picture = drawing::drawChart(drawing::pressureChart(*chart, input.units), input.units);
  figure.caption = fmt::format("Where the pressure goes, {}.", chart->path);
  return figure;
}

double inletStatic(const PaperInput& input, std::size_t state, std::size_t fan) {
  const pieces::Pieces& pieces = input.evidence.pieces();
  const network::Solution& solution = input.assessment.states[state].solution;
  for (std::size_t r = 0; r < pieces.runs.size(); ++r) {
    if (pieces.runs[r].to == pieces.fans[fan].from && !pieces.runs[r].pieces.empty()) {
      return solution.runs[r].static_end_pa;
    }
  }
  return solution.fans[fan].inlet_total_pa;
}

}  // namespace kerfdraft::papers
