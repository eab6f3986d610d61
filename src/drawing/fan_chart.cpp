// The fan's curve drawn strongest, system curves thin, operating points with their change as the filter
// loads.
#include "drawing/fan_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "drawing/units_text.h"

namespace kerfdraft::drawing {
namespace {

const OperatingPoint* mainPoint(const FanChartState& state) {
  return state.seasoned ? &*state.seasoned : state.clean ? &*state.clean : state.due ? &*state.due : nullptr;
}

/// Indices of the states to draw, by flow, the outermost first chosen and the gaps between them filled
/// evenly.
std::vector<std::size_t> chosen(const std::vector<FanChartState>& states) {
  std::vector<std::size_t> order;
  for (std::size_t k = 0; k < states.size(); ++k) {
    const OperatingPoint* point = mainPoint(states[k]);
    if (point != nullptr && point->flow_m3_s > 0 && std::isfinite(point->pressure_pa)) {
      order.push_back(k);
    }
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return mainPoint(states[a])->flow_m3_s < mainPoint(states[b])->flow_m3_s;
  });
  // States that ask for nearly the same air are one curve to the eye.
  constexpr double kApart = 1.04;
  std::vector<std::size_t> distinct;
  for (const std::size_t k : order) {
    if (distinct.empty() ||
        mainPoint(states[k])->flow_m3_s > kApart * mainPoint(states[distinct.back()])->flow_m3_s) {
      distinct.push_back(k);
    }
  }
  order = std::move(distinct);
  if (order.size() <= kMostSystemCurves) {
    return order;
  }
  std::vector<std::size_t> out;
  for (std::size_t k = 0; k < kMostSystemCurves; ++k) {
    out.push_back(order[k * (order.size() - 1) / (kMostSystemCurves - 1)]);
  }
  return out;
}

}  // namespace

Chart fanChart(const FanChartInput& input, base::UnitSystem units) {
  using base::Kind;
  Chart chart;
  chart.title = input.fan + ": where it works";
  chart.x = {Kind::VolumeFlow, "flow at the inlet"};
  chart.y = {Kind::Pressure, "rise of total pressure"};
  chart.x.low = 0;
  chart.y.low = 0;
  double most_flow = 0;
  double most_pa = 0;
  for (const auto* points : {&input.curve, &input.high}) {
    for (const ChartPoint& p : *points) {
      if (std::isfinite(p.x) && std::isfinite(p.y)) {
        most_flow = std::max(most_flow, p.x);
        most_pa = std::max(most_pa, p.y);
      }
    }
  }
  if (!input.low.empty()) {
    chart.ribbons.push_back({"what the label leaves open, one standard deviation each way", input.low,
                             input.high, Colour{0xd9, 0xdd, 0xe0}});
  }
  chart.curves.push_back({"fan", input.curve, kInk, 0.6});

  const std::vector<std::size_t> shown = chosen(input.states);
  for (const std::size_t k : shown) {
    const FanChartState& state = input.states[k];
    const OperatingPoint& point = *mainPoint(state);
    most_flow = std::max(most_flow, point.flow_m3_s);
    most_pa = std::max(most_pa, point.pressure_pa);
    if (state.alone) {
      // b Q + a Q²: the filter's share grows with the flow, all else with its square.
      const double linear =
          std::clamp(state.filter_pa_s_m3, 0.0, std::max(point.pressure_pa, 0.0) / point.flow_m3_s);
      const double square =
          (point.pressure_pa - linear * point.flow_m3_s) / (point.flow_m3_s * point.flow_m3_s);
      ChartCurve curve;
      curve.colour = kBlue;
      curve.width_mm = kThin_mm;
      curve.dash = Dash::Dashed;
      constexpr int kSteps = 60;
      for (int s = 0; s <= kSteps; ++s) {
        const double q = 1.3 * point.flow_m3_s * s / kSteps;
        curve.points.push_back({q, linear * q + square * q * q});
      }
      chart.curves.push_back(std::move(curve));
    }
    const auto add = [&](const std::optional<OperatingPoint>& p, MarkForm form, bool named) {
      if (!p) {
        return;
      }
      ChartMark mark{{p->flow_m3_s, p->pressure_pa}, form, kInk};
      if (named) {
        mark.lines = {state.name, shortText(Kind::VolumeFlow, p->flow_m3_s, units) + ", " +
                                      shortText(Kind::Pressure, p->pressure_pa, units)};
        mark.x_low = p->flow_low_m3_s;
        mark.x_high = p->flow_high_m3_s;
      }
      chart.marks.push_back(std::move(mark));
    };
    add(state.clean, MarkForm::Ring, !state.seasoned);
    add(state.due, MarkForm::Diamond, !state.seasoned && !state.clean);
    add(state.seasoned, MarkForm::Disc, true);
  }
  if (most_flow > 0 && most_pa > 0) {
    chart.x.high = most_flow;
    chart.y.high = most_pa;
  }
  chart.subtitle = input.standing;
  const auto any = [&](auto member) {
    return std::any_of(shown.begin(), shown.end(),
                       [&](std::size_t k) { return (input.states[k].*member).has_value(); });
  };
  std::string filters;
  const auto name = [&](bool there, const char* words) {
    filters += there ? (filters.empty() ? "" : ", ") + std::string(words) : std::string();
  };
  name(any(&FanChartState::clean), "clean: ring");
  name(any(&FanChartState::seasoned), "seasoned: disc");
  name(any(&FanChartState::due), "due for cleaning: diamond");
  const bool curves =
      std::any_of(shown.begin(), shown.end(), [&](std::size_t k) { return input.states[k].alone; });
  std::string note = curves ? "Dashed: what ducts and filter ask for in a state." : "";
  if (!filters.empty()) {
    note += (note.empty() ? "" : " ") + ("Filter " + filters + ".");
  }
  if (!note.empty()) {
    chart.notes.push_back(note);
  }
  if (std::any_of(shown.begin(), shown.end(), [&](std::size_t k) { return !input.states[k].alone; })) {
    chart.notes.emplace_back(
        "No dashed curve where other fans run too: what the ducts ask of this one then depends on them.");
  }
  if (input.states.size() > shown.size()) {
    chart.notes.push_back(fmt::format("{} of {} states are shown, from the least flow to the most.",
                                      shown.size(), input.states.size()));
  }
  chart.description = fmt::format("{}. Fan curve with {} system curve{}.", chart.title, shown.size(),
                                  shown.size() == 1 ? "" : "s");
  for (const ChartMark& mark : chart.marks) {
    if (!mark.lines.empty()) {
      chart.description += " " + mark.lines.front() + ".";
    }
  }
  return chart;
}

}  // namespace kerfdraft::drawing
