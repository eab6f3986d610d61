// Solves a state with each condition of the filter, walks a path by its calculation sheet, lists margins.
#include "papers/draw_charts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/sheet.h"
#include "network/solve.h"
#include "physics/fan.h"

namespace kerfdraft::papers {
namespace {

std::optional<drawing::OperatingPoint> pointOf(const network::Solution& solution, std::size_t fan,
                                               const judge::Band& band) {
  if (!solution.solved()) {
    return std::nullopt;
  }
  const network::FanResult& result = solution.fans[fan];
  if (!result.running || !(result.inlet_flow_m3_s > 0)) {
    return std::nullopt;
  }
  drawing::OperatingPoint point{result.inlet_flow_m3_s, result.rise_pa};
  if (band.low != band.high) {
    point.flow_low_m3_s = band.low * result.inlet_flow_m3_s;
    point.flow_high_m3_s = band.high * result.inlet_flow_m3_s;
  }
  return point;
}

/// Standard uncertainty of a curve made from a label alone: model section 9, docs/theory/uncertainty.md.
constexpr double kLabelSpread = 0.3;

/// Density of the air that a fan takes in; the room's where it takes none.
double inletDensity(const judge::Assessment& assessment, const network::Solution& solution, std::size_t fan) {
  if (solution.solved() && solution.fans[fan].inlet_flow_m3_s > 0) {
    return solution.fans[fan].flow_kg_s / solution.fans[fan].inlet_flow_m3_s;
  }
  return assessment.pieces->air.density_kg_m3;
}

}  // namespace

std::string_view toText(shop::FilterState filter) {
  switch (filter) {
    case shop::FilterState::Clean:
      return "clean";
    case shop::FilterState::Seasoned:
      return "seasoned";
    case shop::FilterState::Due:
      return "due";
  }
  return "";
}

std::string standingOf(const judge::StateResult& state, const std::string& date) {
  return fmt::format("predicted, filter {}{}", toText(state.situation.filter),
                     date.empty() ? "" : ", " + date);
}

drawing::FanChartInput fanChartInput(const judge::Assessment& assessment,
                                     const std::vector<std::size_t>& states, std::size_t fan,
                                     std::span<const judge::StateBands> bands) {
  const pieces::Pieces& drawing = *assessment.pieces;
  drawing::FanChartInput out;
  out.fan = drawing.fans[fan].label;
  out.standing =
      drawing.fans[fan].label_only ? "predicted; of this fan only the label is known" : "predicted";
  double least_density = drawing.air.density_kg_m3;
  double linear_pa_s_m3 = 0;
  for (const pieces::FilterPlace& filter : drawing.filters) {
    linear_pa_s_m3 = std::max(linear_pa_s_m3, filter.linear_pa_s_m3[1]);
  }
  for (const std::size_t s : states) {
    const judge::StateResult& state = assessment.states[s];
    drawing::FanChartState shown;
    shown.name = state.name;
    shown.filter_pa_s_m3 = linear_pa_s_m3;
    for (std::size_t other = 0; other < state.solution.fans.size(); ++other) {
      shown.alone = shown.alone && (other == fan || !state.solution.fans[other].running);
    }
    const bool banded = s < bands.size() && fan < bands[s].fan_flow.size();
    const judge::Band band = banded ? bands[s].fan_flow[fan] : judge::Band{};
    const auto solved = [&](shop::FilterState filter) {
      network::Situation situation = state.situation;
      situation.filter = filter;
      const network::Solution solution = network::solveFully(*assessment.network, situation);
      least_density = std::min(least_density, inletDensity(assessment, solution, fan));
      return pointOf(solution, fan, band);
    };
    shown.seasoned = solved(shop::FilterState::Seasoned);
    if (!drawing.filters.empty()) {
      shown.clean = solved(shop::FilterState::Clean);
      shown.due = solved(shop::FilterState::Due);
    }
    out.states.push_back(std::move(shown));
  }
  const pieces::Fan& of = drawing.fans[fan];
  if (of.rating) {
    // Up to a little beyond the last point that is known, or to where no pressure is left.
    double most = 0;
    for (const drawing::FanChartState& state : out.states) {
      for (const auto* point : {&state.clean, &state.seasoned, &state.due}) {
        most = std::max(most, *point ? (*point)->flow_m3_s : 0.0);
      }
    }
    const double room = drawing.air.density_kg_m3;
    const double inlet = drawing.local_density ? least_density : room;
    const auto rise = [&](double q) { return physics::fanRise(*of.rating, q, room, inlet).p_pa; };
    double end = std::max(most, 0.01) * 1.2;
    constexpr int kLongest = 60;
    for (int k = 0; k < kLongest && rise(end) > 0; ++k) {
      end *= 1.1;
    }
    constexpr int kSteps = 120;
    for (int k = 0; k <= kSteps; ++k) {
      const double q = end * k / kSteps;
      const double p = rise(q);
      out.curve.push_back({q, p});
      if (of.label_only && p >= 0) {
        out.low.push_back({q, (1 - kLabelSpread) * p});
        out.high.push_back({q, (1 + kLabelSpread) * p});
      }
      if (p < 0) {
        break;
      }
    }
  }
  return out;
}

base::Result<drawing::PressureChartInput> pressureChartInput(const judge::Assessment& assessment,
                                                             std::size_t state, std::size_t port) {
  const base::Result<judge::Sheet> sheet = judge::modelSheet(assessment, state, port);
  if (!sheet) {
    return base::Failure(sheet.error());
  }
  drawing::PressureChartInput out;
  out.path = fmt::format("from {} to {}", sheet->from, sheet->to);
  double before_pa = 0;
  double static_pa = 0;
  for (std::size_t r = 0; r < sheet->rows.size(); ++r) {
    const judge::SheetRow& row = sheet->rows[r];
    drawing::PathStep step;
    const bool fan = std::any_of(sheet->fans.begin(), sheet->fans.end(),
                                 [&](const judge::SheetFan& f) { return f.row == r; });
    step.label = row.label;
    step.length_m = row.length_m;
    step.fan = fan;
    step.total_before_pa = before_pa;
    step.total_after_pa = row.total_pa;
    step.static_after_pa = fan ? row.total_pa : row.static_pa;
    // Along a pipe the velocity pressure hardly changes; a fitting's own bore begins with the air before it.
    step.static_before_pa = row.length_m > 0 ? before_pa - std::max(row.total_pa - row.static_pa, 0.0)
                                             : std::min(static_pa, before_pa);
    before_pa = row.total_pa;
    static_pa = step.static_after_pa;
    out.steps.push_back(std::move(step));
  }
  return out;
}

drawing::SpeedChartInput speedChartInput(const judge::Assessment& assessment,
                                         const judge::StateMargins& margins, const judge::StateBands* bands) {
  drawing::SpeedChartInput out;
  out.title = "Air speed against what the chips need";
  for (const judge::RunMargin& margin : margins.runs) {
    drawing::SpeedBar bar{margin.label, margin.slowest_m_s, margin.minimum_m_s, margin.material};
    if (bands != nullptr && margin.run < bands->run_speed.size()) {
      bar.low_m_s = std::max(0.0, bands->run_speed[margin.run].low) * margin.slowest_m_s;
      bar.high_m_s = bands->run_speed[margin.run].high * margin.slowest_m_s;
    }
    out.bars.push_back(std::move(bar));
  }
  out.standing = "State \"" + assessment.states[margins.state].name + "\"";
  return out;
}

}  // namespace kerfdraft::papers
